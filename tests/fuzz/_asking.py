"""Ask the command in this process, again and again, as a user would ask it once."""

import contextlib
import io
import json
import os
import signal
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from types import FrameType
from typing import Any

import pytest
import typer

import torqcheck.assessment
import torqcheck.cli
from torqcheck.assessment import Assessment
from torqcheck.assessment.assess import assess_without_ranges
from torqcheck.cli import run
from torqcheck.scenario import load_scenario

__all__ = ["PATIENCE", "Answer", "Hangs", "ask", "cases", "once_assessed", "stopped_after"]

PATIENCE = 2.0
"""Processor seconds within which a refusal, or an assessment without its ranges, is there."""
WHOLE_PATIENCE = 8.0
"""The same for an assessment with all its ranges; the longest of the examples takes one to two."""

PARSER = typer.main.get_command(torqcheck.cli.app)
"""The commands as the parser holds them, built once; building takes longer than most refusals."""

assess_in_full = torqcheck.assessment.assess


class Hangs(BaseException):
    """Nothing came within a time in which everything should."""


@dataclass(frozen=True, slots=True)
class Answer:
    """What a command said."""

    code: int
    out: str
    err: str
    seconds: float

    @property
    def result(self) -> Any:
        """The JSON of it; a number that is none is a failure."""

        def refused(name: str) -> None:
            raise AssertionError(f"{name} is not JSON")

        return json.loads(self.out, parse_constant=refused)


def cases(usual: int) -> int:
    """How many cases to try: TORQCHECK_FUZZ says so, or the usual number."""
    return int(os.environ.get("TORQCHECK_FUZZ", usual))


@contextlib.contextmanager
def stopped_after(seconds: float) -> Iterator[None]:
    """Raise `Hangs` after so much time of the processor; other people's work does not count."""

    def stop(number: int, frame: FrameType | None) -> None:
        raise Hangs(f"nothing came within {seconds:g} s")

    before = signal.signal(signal.SIGPROF, stop)
    signal.setitimer(signal.ITIMER_PROF, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0.0)
        signal.signal(signal.SIGPROF, before)


def ask(*arguments: str | Path, seconds: float = PATIENCE, output: io.StringIO | None = None) -> Answer:
    """Run one command through the handler of its errors; a defect comes out as what it is."""
    out, err = output or io.StringIO(), io.StringIO()
    began = time.process_time()
    with (
        pytest.MonkeyPatch.context() as patch,
        contextlib.redirect_stdout(out),
        contextlib.redirect_stderr(err),
        stopped_after(seconds),
    ):
        patch.setenv("TORQCHECK_DEBUG", "1")
        patch.setattr(torqcheck.cli, "app", PARSER)
        code = run([str(argument) for argument in arguments])
    return Answer(code, out.getvalue(), err.getvalue(), time.process_time() - began)


@contextlib.contextmanager
def once_assessed(*, whole: bool) -> Iterator[float]:
    """Let a scenario be assessed once for all forms of its report; yield the time that this may take.

    Without its ranges an assessment takes a tenth of the time.
    """
    found: dict[Path, Assessment] = {}

    def assessed(path: Path) -> Assessment:
        if path not in found:
            found[path] = assess_in_full(path) if whole else assess_without_ranges(load_scenario(path))
        return found[path]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(torqcheck.assessment, "assess", assessed)
        yield WHOLE_PATIENCE if whole else PATIENCE
