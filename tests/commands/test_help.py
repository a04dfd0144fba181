"""The pages of help: whole, 80 columns wide, in the order of the job, without types of the language."""

import re

import pytest
from typer.main import get_command

from torqcheck.cli import app, run

COMMANDS = list(get_command(app).commands)  # type: ignore[attr-defined]
PAGES = [(), *((name,) for name in COMMANDS), ("record", "verify"), ("record", "diff")]


@pytest.mark.parametrize("command", PAGES, ids=" ".join)
def test_a_page_is_whole_and_fits_the_terminal(
    command: tuple[str, ...], capsys: pytest.CaptureFixture[str]
) -> None:
    assert run([*command, "--help"]) == 0
    page = capsys.readouterr().out
    assert max(len(line) for line in page.splitlines()) <= 80
    assert not re.search(r"^(?!Usage).*\w\.\.\.$", page, re.M), "a description is cut off"
    assert not re.search(r"<(list\[str\]|str|int|float|path)>|[{}]|\[\[[A-Z]", page)


def test_the_first_page_lists_the_commands_in_the_order_of_the_job(
    capsys: pytest.CaptureFixture[str],
) -> None:
    run(["--help"])
    page = capsys.readouterr().out
    listed = re.findall(r"^  (\w+) {2,}\w", page.partition("Commands:")[2], re.M)
    assert listed == COMMANDS
    assert listed[0] == "identify"
    assert listed.index("new") < listed.index("assess") < listed.index("order") < listed.index("record")


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["assess"], "Missing argument 'SCENARIO'"),
        (["materials", "--harder-than", "abc"], "Invalid value for '--harder-than': must be a number"),
        (["sweep", "x.toml", "--points", "1.5"], "Invalid value for '--points': must be a whole number"),
        (["assess", "x.toml", "--units", "stone"], "Invalid value for '--units': 'stone' is not one of"),
        (["assess", "x.toml", "--unit", "si"], "No such option: --unit"),
        (["asess"], "Did you mean 'assess'?"),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, list) else None,
)
def test_a_slip_on_the_command_line_is_told_with_the_next_step(
    arguments: list[str], says: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(arguments) == 2
    usage, problem = capsys.readouterr().err.splitlines()
    assert usage.startswith("Usage: torqcheck ")
    assert says in problem
    assert re.search(r"\(`torqcheck( \w+)? --help` shows how to write it\)$", problem)
