"""Ctrl-C at any moment: one line, exit code 130, and nothing half written."""

import os
import signal
import subprocess
import sys
import time
from collections.abc import Sequence
from pathlib import Path
from types import FrameType
from typing import Any

import pytest
from builder import EXAMPLES, edited
from fuzz._asking import Answer, ask

import torqcheck
from torqcheck.assessment.prepared import Prepared, prepared_of
from torqcheck.cli.breaks import no_break_is_lost

SCENARIOS = EXAMPLES[0].parent
OURS = str(Path(torqcheck.__file__).parent)
COMMANDS: dict[str, tuple[str, ...]] = {
    "assess": ("assess", "job.toml", "--out", "o.txt", "--sheet", "o.html", "--record", "build"),
    "life": ("life", "job.toml", "--figure", "o.svg"),
    "ramp": ("ramp", "job.toml", "--figure", "o.svg"),
    "sheet": ("sheet", "job.toml", "--out", "o.pdf"),
    "influence": ("influence", "job.toml", "--out", "o.txt"),
    "stack": ("stack", str(SCENARIOS / "glasshouse_tug.toml"), "--figure", "o.svg"),
    "order": ("order", "job.toml", "--side", "external", "--dxf", "o.dxf"),
    "why": ("why", "job.toml", "weakest.safety_factor", "--out", "o.txt"),
}


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    (tmp_path / "job.toml").write_text(edited(), encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def stopped(arguments: Sequence[str], after: int) -> Answer:
    """What a command says that is broken off at so many calls of functions of ours."""
    calls = 0

    def count(frame: FrameType, event: str, _: object) -> None:
        nonlocal calls
        calls += event == "call" and frame.f_code.co_filename.startswith(OURS)
        if calls == after:
            sys.setprofile(None)
            raise KeyboardInterrupt

    sys.setprofile(count)
    try:
        return ask(*arguments, seconds=30.0)
    finally:
        sys.setprofile(None)


@pytest.mark.parametrize("after", [5, 300, 3000])
@pytest.mark.parametrize("name", COMMANDS)
def test_a_break_in_the_middle_is_said_in_one_line(name: str, after: int, folder: Path) -> None:
    ask(*COMMANDS[name][:2], seconds=30.0)  # loads what it takes, so that the same calls are counted
    answer = stopped(COMMANDS[name], after)
    assert (answer.code, answer.out, answer.err) == (130, "", "interrupted\n")
    assert os.listdir(folder) == ["job.toml"]


@pytest.mark.parametrize("name", ["assess", "life", "why"])
def test_a_break_where_an_object_is_tidied_up_is_not_lost(
    name: str, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The interpreter drops what is raised in a finalizer (Python documentation, object.__del__)."""

    class Breaks:
        def __del__(self) -> None:
            raise KeyboardInterrupt

    def prepared(*given: Any, **more: Any) -> Prepared:
        Breaks()
        return prepared_of(*given, **more)

    for module in [module for key, module in sys.modules.items() if key.startswith("torqcheck.")]:
        if getattr(module, "prepared_of", None) is prepared_of:
            monkeypatch.setattr(module, "prepared_of", prepared)
    answer = ask(*COMMANDS[name], seconds=30.0)
    assert (answer.code, answer.out, answer.err) == (130, "", "interrupted\n")
    assert os.listdir(folder) == ["job.toml"]


def test_other_faults_of_tidying_up_are_told_as_before() -> None:
    told = []

    class Fails:
        def __del__(self) -> None:
            raise ValueError("not to be closed")

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(sys, "unraisablehook", lambda fault: told.append(str(fault.exc_value)))
        mine = sys.unraisablehook
        with no_break_is_lost():
            Fails()
        assert sys.unraisablehook is mine
    assert told == ["not to be closed"]


@pytest.mark.parametrize("name", ["assess", "life", "ramp", "sheet", "stack", "order", "why"])
def test_a_break_while_a_file_is_written_leaves_nothing_of_it(
    name: str, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def stop(_: int) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "fsync", stop)
    answer = ask(*COMMANDS[name], seconds=30.0)
    assert (answer.code, answer.err.splitlines()[-1]) == (130, "interrupted")
    assert os.listdir(folder) == ["job.toml"]


@pytest.mark.parametrize(
    "arguments", [("new", "x.toml", "--template"), ("new", "x.toml", "--from", "works_trolley")]
)
def test_a_break_while_a_scenario_is_written_leaves_none(
    arguments: tuple[str, ...], folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def stop(_: int) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "fsync", stop)
    assert ask(*arguments, seconds=30.0).code == 130
    assert os.listdir(folder) == ["job.toml"]


@pytest.mark.parametrize("after", ["importing the command line", "assessing"])
def test_the_real_command_is_stopped_by_the_real_signal(after: str, folder: Path) -> None:
    """From the first line of the program on; what the interpreter does before it is its own."""
    waits = "site = 'torqcheck.cli'" if after.startswith("importing") else "site = 'torqcheck.assessment'"
    script = f"""
import runpy, sys, time
{waits}
class Announce:
    def find_spec(self, name, path=None, target=None):
        if name == site:
            print("now", flush=True)
            time.sleep(20)
sys.meta_path.insert(0, Announce())
sys.argv = ["torqcheck", "assess", "job.toml"]
runpy.run_module("torqcheck", run_name="__main__")
"""
    process = subprocess.Popen(
        [sys.executable, "-c", script], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, cwd=folder
    )
    assert process.stdout is not None
    assert process.stdout.readline() == "now\n"
    time.sleep(0.1)
    process.send_signal(signal.SIGINT)
    out, err = process.communicate(timeout=60)
    assert (process.returncode, out, err) == (130, "", "interrupted\n")
