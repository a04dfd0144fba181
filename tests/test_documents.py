"""What the documents say is what the project does."""

import importlib
import pkgutil
import re
import shlex
from pathlib import Path

import pytest
from commands._run import started_anew as torqcheck

import torqcheck as torqcheck_package
from torqcheck.formulas import FORMULAS
from torqcheck.scenario.kinds import KINDS

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text()
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text()
BLOCKS = re.findall(r"```console\n\$ (torqcheck [^\n]*)\n(.*?)```", README, re.S)
TEST_COMMAND = (
    "python3 -m venv .venv && .venv/bin/pip install --quiet -e '.[test]' && .venv/bin/python -m pytest"
)


def test_readme_opens_with_the_job_and_two_commands() -> None:
    first = README.split("\n\n")[1]
    assert first.startswith("An old machine is to run on an electric motor")
    commands = re.findall(r"```sh\n(.*?)\n```", README, re.S)
    assert len(commands) == 2
    assert "torqcheck assess scenarios/works_trolley.toml" in commands[0]
    assert commands[1] == TEST_COMMAND


def test_the_same_test_command_everywhere() -> None:
    assert TEST_COMMAND in (ROOT / ".ci" / "run").read_text()
    assert TEST_COMMAND in DEVELOPERS


@pytest.mark.parametrize(("command", "shown"), BLOCKS, ids=[command for command, _ in BLOCKS])
def test_output_in_the_readme_is_real(command: str, shown: str) -> None:
    run = torqcheck(*shlex.split(command)[1:], folder=ROOT)
    real = (run.stdout or run.stderr).splitlines()
    wanted = shown.splitlines()
    inner = [line for line in wanted if line != "..."]
    assert inner
    start = real.index(inner[0]) if wanted[0] == "..." else 0
    assert real[start : start + len(inner)] == inner
    if wanted[-1] != "...":
        assert start + len(inner) == len(real)


def test_readme_names_every_kind_every_example_and_every_exit_code() -> None:
    for kind in KINDS:
        assert f"`{kind}`" in README
    for path in (ROOT / "scenarios").glob("*.toml"):
        assert path.name in README
    for word in ("undecided", "marginal", "`--strict`", "bad input", "could not finish"):
        assert word in README


def test_python_in_the_readme_runs(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(ROOT)
    blocks = re.findall(r"```python\n(.*?)```", README, re.S)
    assert blocks
    for block in blocks:
        exec(compile(block, "README.md", "exec"), {})
    assert capsys.readouterr().out.startswith("pass ")


def test_every_argument_of_a_formula_is_on_the_list_of_quantities() -> None:
    for module in pkgutil.walk_packages(torqcheck_package.__path__, "torqcheck."):
        if not module.name.endswith("__main__"):
            importlib.import_module(module.name)
    listed = set(re.findall(r"^\| `(\w+)` \|", DEVELOPERS.split("<!-- quantities -->")[1], re.M))
    used = {name for formula in FORMULAS.values() for name in formula.symbols}
    assert used - listed == set()
    assert listed - used == set()


def test_top_level_holds_what_was_agreed() -> None:
    allowed = {
        "README.md",
        "DEVELOPERS.md",
        "pyproject.toml",
        "torqcheck",
        "material_tables",
        "tests",
        "scenarios",
    }
    found = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    assert found - allowed <= {"build", "dist"}
    assert allowed <= found


def test_no_file_holds_the_marks_of_a_merge() -> None:
    marks = ("<" * 7 + " ", ">" * 7 + " ")
    for folder in ("torqcheck", "material_tables", "scenarios", "tests"):
        for path in (ROOT / folder).rglob("*"):
            if path.suffix in {".py", ".md", ".csv", ".toml", ".txt"}:
                lines = path.read_text("utf-8").splitlines()
                assert not [line for line in lines if line.startswith(marks)], path
    for text in (README, DEVELOPERS):
        assert not any(mark in text for mark in marks)
