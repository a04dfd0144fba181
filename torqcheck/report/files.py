"""Write a report so that the file is whole or not there: beside it first, then replaced."""

import os
import tempfile
from pathlib import Path

from torqcheck.errors import OutputError

__all__ = ["write_whole"]


def write_whole(path: Path, content: str) -> None:
    """
    Write a text file in one step as far as a reader can tell.

    Raises
    ------
    OutputError
        If the folder is missing, is not writable, or the disk is full; nothing is left behind.
    """
    if path.is_dir():
        raise OutputError(f"{path}: is a folder; name a file")
    if not path.parent.is_dir():
        raise OutputError(f"{path}: the folder {path.parent} does not exist; make it first")
    temporary = None
    try:
        with tempfile.NamedTemporaryFile(
            "w", dir=path.parent, prefix=f".{path.name[:40]}.", delete=False, encoding="utf-8", newline="\n"
        ) as file:
            temporary = Path(file.name)
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        temporary.chmod(_mode(path))
        temporary.replace(path)
    except OSError as error:
        if temporary is not None:
            temporary.unlink(missing_ok=True)
        raise OutputError(f"{path}: cannot be written: {error.strerror or error}") from error


def _mode(path: Path) -> int:
    """Keep the mode of a file that is replaced; otherwise what the user's mask gives."""
    if path.exists():
        return path.stat().st_mode & 0o777
    mask = os.umask(0)
    os.umask(mask)
    return 0o666 & ~mask
