"""Run the real command as a user would."""

import os
import subprocess
import sys
from pathlib import Path


def torqcheck(
    *arguments: str | Path, folder: Path | None = None, **environment: str
) -> subprocess.CompletedProcess[str]:
    """Run `python -m torqcheck` with the arguments; text in, text out, no terminal."""
    return subprocess.run(
        [sys.executable, "-m", "torqcheck", *map(str, arguments)],
        capture_output=True,
        text=True,
        encoding="utf-8",
        timeout=60,
        cwd=folder,
        env={**os.environ, "PYTHONUTF8": "1", **environment},
        check=False,
    )
