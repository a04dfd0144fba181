"""The Tab key, pressed in a real bash: commands, words of numbers, joints and steels."""

import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from builder import EXAMPLES

from torqcheck.assessment import assess
from torqcheck.assessment.why.names import named_numbers, number_called, words_after
from torqcheck.errors import UsageError

TROLLEY = next(path for path in EXAMPLES if path.stem == "works_trolley")
CAPSTAN = next(path for path in EXAMPLES if path.stem == "ferry_capstan")
PROGRAM = Path(sys.executable).with_name("torqcheck")

needs_bash = pytest.mark.skipif(
    shutil.which("bash") is None or not PROGRAM.exists(), reason="no bash, or no torqcheck beside Python"
)


def offered(*words: str | Path) -> list[str]:
    """What the shell would offer for the last word."""
    script = (
        'eval "$("$1" --show-completion bash)"; program=$1; shift\n'
        'COMP_WORDS=(torqcheck "$@"); COMP_CWORD=$#\n'
        '_torqcheck_completion "$program"\n'
        'printf "%s\\n" "${COMPREPLY[@]}"\n'
    )
    run = subprocess.run(
        ["bash", "--norc", "-c", script, "-", str(PROGRAM), *map(str, words)],
        capture_output=True, text=True, timeout=60, check=True,
    )  # fmt: skip
    assert run.stderr == ""
    return run.stdout.split("\n")[:-1]


@needs_bash
@pytest.mark.parametrize(
    ("words", "some"),
    [
        (("s",), {"size", "schema", "sheet", "stack", "sweep"}),
        (("why", TROLLEY, "fla"), {"flank"}),
        (("why", TROLLEY, "flank", "pressure", "S", "saf"), {"safety"}),
        (("size", CAPSTAN, "--joint", ""), {"gearbox\\ shaft", "capstan\\ shaft"}),
        (("order", CAPSTAN, "--joint", "cap"), {"capstan\\ shaft"}),
        (("compare", CAPSTAN, "--external", "4140_ind,1144_S"), {"4140_ind,1144_SR"}),
        (("materials", "Mar2"), {"Mar250"}),
        (("size", CAPSTAN, "--find", "t"), {"teeth", "tilt", "torque-rise"}),
        (("new", "my.toml", "--from", "works"), {"works_trolley"}),
    ],
    ids=str,
)
def test_what_is_offered(words: tuple[str, ...], some: set[str]) -> None:
    assert set(offered(*words)) == some


@needs_bash
def test_a_scenario_that_cannot_be_read_offers_nothing(tmp_path: Path) -> None:
    broken = tmp_path / "broken.toml"
    broken.write_text("[motor\n")
    assert offered("why", broken, "fl") == [""]
    assert offered("size", broken, "--joint", "") == [""]
    assert offered("why", tmp_path / "none.toml", "fl") == [""]


def test_words_lead_to_every_number_that_words_can_name() -> None:
    """Each word that is offered leaves fewer numbers; where none is offered, one is left."""
    result = assess(TROLLEY).to_dict()
    typed: list[str] = []
    while words := words_after(result, " ".join(typed)):
        typed.append(words[len(words) // 2])
        assert len(typed) < 20
    assert number_called(result, " ".join(typed)) in named_numbers(result)


def test_words_that_name_nothing_lead_nowhere() -> None:
    result = assess(TROLLEY).to_dict()
    assert words_after(result, "no such number") == ()
    with pytest.raises(UsageError):
        number_called(result, "no such number")
