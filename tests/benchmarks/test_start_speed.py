"""Time of a cold start: processor time of whole processes over the imports that nothing can avoid."""

import os
import resource
import statistics
import subprocess
import sys

import pytest
from builder import EXAMPLES

RUNS = 11
SMALL = next(path for path in EXAMPLES if path.stem == "cider_press")
MOST_OF_HELP = 2.5
"""The page of help over an empty program plus the import of its parser."""
MOST_OF_ASSESS = 6.5
"""The check of a small scenario over the import of numpy, typer and rich: no goal, what is kept today."""


def processor_time(*arguments: str) -> float:
    """Median seconds of user and system time of a Python process, compiled modules at hand."""
    found = []
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    for _ in range(RUNS + 1):
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        subprocess.run(
            [sys.executable, *arguments], stdout=subprocess.DEVNULL, check=False, timeout=60, env=environment
        )
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        found.append(after.ru_utime - before.ru_utime + after.ru_stime - before.ru_stime)
    return statistics.median(found[1:])


def test_the_page_of_help(capsys: pytest.CaptureFixture[str]) -> None:
    least = processor_time("-c", "import typer")
    ours = processor_time("-m", "torqcheck", "--help")
    with capsys.disabled():
        sys.stdout.write(
            f"\nhelp {ours * 1e3:.0f} ms, typer alone {least * 1e3:.0f} ms: {ours / least:.2f}\n"
        )
    assert ours / least <= MOST_OF_HELP


def test_the_check_of_a_small_scenario(capsys: pytest.CaptureFixture[str]) -> None:
    least = processor_time("-c", "import numpy, typer, rich")
    needed = processor_time("-c", "import numpy, typer, pydantic; pydantic.BaseModel")
    own = processor_time("-c", "import torqcheck.cli, torqcheck.assessment, torqcheck.report.build")
    ours = processor_time("-m", "torqcheck", "assess", str(SMALL))
    with capsys.disabled():
        sys.stdout.write(
            f"\nassess {ours * 1e3:.0f} ms; numpy, typer and rich {least * 1e3:.0f} ms: {ours / least:.2f}; "
            f"what it needs from others {needed * 1e3:.0f} ms: {ours / needed:.2f}; with its own modules "
            f"{own * 1e3:.0f} ms: {ours / own:.2f}\n"
        )
    assert ours / least <= MOST_OF_ASSESS
