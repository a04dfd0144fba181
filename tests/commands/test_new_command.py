"""`torqcheck new` at a terminal and without one, as a person and as a script meet it."""

import os
import re
import tomllib
from pathlib import Path
from unittest import mock

import pytest
from builder import EXAMPLES
from commands._keyboard import PROMPT, Keyboard
from commands._run import torqcheck

from torqcheck.assessment import assess
from torqcheck.cli import run
from torqcheck.errors import OutputError
from torqcheck.report.formats.files import write_fresh
from torqcheck.scenario import load_scenario

# a line that begins with ! is a slip, and asked again
BEFORE = (
    "Works trolley",
    "! 150",
    "150 N*m",
    "4500 rpm",
    "! quick",
    "3 % per 10 ms",
    "?",
    "! 4",
    "inertia",
    "0.038 kg*m^2",
    "",
    "light",
    "1",
    "! 1400 lbs",
    "1400 kg",
    "0.31 m",
    "6.2",
    "back",
    "6.3",
    "9000 N*m/rad",
    "?",
    "",
    "1500 hour",
    "?",
    "2",
    "starting",
    "! 2",
    "1",
    "! 9000 rpm",
    "600 rpm",
    "! 1",
    "0.1",
    "12",
    "no",
)
AFTER = (
    "running along",
    "0.35",
    "2500 rpm",
    "?",
    "?",
    "involute",
    "gearbox input",
    "find out",
    "1",
    "26",
    "1.345 +/- 0.001 in",
    "?",
    "?",
    "help",
    "none",
    "1",
    "26",
    "! 20/41",
    "20/40",
    "?",
    "! ?",
    "1.75 in",
    "! yes",
    "flexible",
    "yes",
    "runout",
    "0.04 mm",
    "?",
    "dial",
    "0.35 mm",
    "110 mm",
    "sealed",
    "! 8620",
    "8620_carb_63",
    "! 59",
    "59 HRC",
    "yes",
    "no",
    "?",
    "unknown",
    "?",
    "no",
    "?",
    "52 mm",
    "26",
    "no",
)
SAID = {
    "! 150": '! "150" has no unit; write for example "240 N*m" or "177 lbf*ft"',
    "! quick": '"quick" is not a number with a unit',
    "! 4": '"4" is none of the answers',
    "! 1400 lbs": '"1400 lbs" has a unit that is not known for a mass; did you mean "lb"?',
    "! 2": "2.0 must be at most 1; write a value in that range",
    "! 9000 rpm": '"9000 rpm" is above the answer to "What is the highest speed of the motor shaft?"',
    "! 1": "1.0 leaves no time for the next spell",
    "! 20/41": "this is not possible",
    "! ?": "an answer is needed here, nothing can stand for it. Hint: ",
    "! yes": '"yes" is none of the answers',
    "! 8620": "8620_carb_63 ",
    "! 59": '"59" has no scale',
}


def _typed(person: Keyboard, line: str) -> None:
    """Type one line, and see that a slip is named and nothing else is."""
    shown = person.type(line.removeprefix("! "))
    assert ("  !  " in shown) == line.startswith("! "), line
    assert SAID.get(line, "") in _flat(shown)
    assert shown.endswith(PROMPT)


def _ran(capsys: pytest.CaptureFixture[str], *arguments: str) -> tuple[int, str, str]:
    """Run the command within this process, where standard input is no terminal."""
    code = run(["new", *arguments])
    said = capsys.readouterr()
    return code, said.out, said.err


def _flat(text: str) -> str:
    return re.sub(r"\s+", " ", text)


def test_from_nothing_to_an_assessment_with_slips_a_break_and_a_way_back(tmp_path: Path) -> None:
    with Keyboard("new", "my.toml", folder=tmp_path) as person:
        person.until_asked()
        for line in BEFORE:
            _typed(person, line)
        assert person.interrupt() == 130
        assert "torqcheck new my.toml --resume" in person.shown
        first = person.seen
    assert os.listdir(tmp_path) == ["my.toml.unfinished"]
    assert tomllib.loads((tmp_path / "my.toml.unfinished").read_text())["format"] == 1

    with Keyboard("new", "my.toml", "--resume", folder=tmp_path) as person:
        shown = person.until_asked()
        assert "What happens in this spell?" in shown
        assert "25 answers are taken up again." in shown
        assert "Machine: Works trolley" in shown
        assert "The last one: Does the torque also reverse each time? no" in shown
        for line in AFTER:
            _typed(person, line)
        for line in ("no", "today", "WT-3"):
            _typed(person, line)
        person.press(b"\n")
        assert person.close() == 0
        assert "Next: torqcheck assess my.toml" in person.shown
        seen = first + person.seen
    assert os.listdir(tmp_path) == ["my.toml"]
    assert max(map(len, seen.splitlines())) <= 80
    assert "\x1b" not in seen

    scenario = load_scenario(tmp_path / "my.toml")
    assert scenario.motor.percent_per_10ms == 3.0
    assert scenario.driven.moved is not None
    assert scenario.driven.moved.ratio == 6.3
    assert [spell.share for spell in scenario.duty] == [0.1, 0.9]
    missing = [str(entry) for entry in assess(scenario).undecided_by]
    assert missing
    assert all(entry in _flat(person.shown) for entry in missing)
    assert torqcheck("assess", tmp_path / "my.toml").returncode == 3


@pytest.mark.parametrize("end", ["stop", "end of input", "window closed"])
def test_what_is_there_is_kept_however_it_ends(tmp_path: Path, end: str) -> None:
    with Keyboard("new", "my.toml", folder=tmp_path) as person:
        person.until_asked()
        person.type("Trolley")
        person.type("150 N*m")
        if end == "stop":
            person.press(b"stop\n")
            assert person.close() == 0
        elif end == "end of input":
            person.press(b"\x04")
            assert person.close() == 0
        else:
            person.close_window()
    kept = tomllib.loads((tmp_path / "my.toml.unfinished").read_text())
    assert [entry["said"] for entry in kept["answer"]] == ["Trolley", "150 N*m"]
    assert not (tmp_path / "my.toml").exists()


def _typed_up_to_the_last(person: Keyboard, shown: str) -> str:
    """Type what a plain shaft needs, Enter everywhere else, up to the last question."""
    needs = {
        "What is the peak torque": "150 N*m",
        "highest speed": "4500 rpm",
        "let the torque rise": "instant",
        "load the shaft": "uniform",
        "kind of joint": "shaft",
        "smallest outside diameter": "38 mm",
    }
    while shown.endswith(PROMPT) and "Who makes the check?" not in shown:
        shown = person.type(next((said for words, said in needs.items() if words in shown), ""))
    return shown


def test_a_file_that_comes_during_the_questions_stays_and_no_answer_is_lost(tmp_path: Path) -> None:
    file = tmp_path / "my.toml"
    with Keyboard("new", "my.toml", folder=tmp_path) as person:
        _typed_up_to_the_last(person, person.until_asked())
        file.write_text("mine")
        person.press(b"no\n")
        assert person.close() == 4
        assert "my.toml: is there already; name another file" in person.shown
    assert file.read_text() == "mine"
    file.unlink()
    with Keyboard("new", "my.toml", "--resume", folder=tmp_path) as person:
        assert person.close() == 0
        assert "my.toml: written" in person.seen
    assert load_scenario(file).joint[0].kind == "shaft"
    assert os.listdir(tmp_path) == ["my.toml"]


def test_a_file_that_is_there_is_only_written_over_after_a_yes(tmp_path: Path) -> None:
    file = tmp_path / "my.toml"
    file.write_text("mine")
    with Keyboard("new", "my.toml", folder=tmp_path) as person:
        assert "is there already" in person.until_asked()
        person.press(b"\n")
        assert person.close() == 0
    assert file.read_text() == "mine"
    with Keyboard("new", "my.toml", folder=tmp_path) as person:
        person.until_asked()
        shown = person.type("yes")
        assert "Who makes the check?" in _typed_up_to_the_last(person, shown)
        assert file.read_text() == "mine"
        person.press(b"\n")
        assert person.close() == 0
    assert load_scenario(file).joint[0].kind == "shaft"


def test_answers_that_were_begun_are_offered(tmp_path: Path) -> None:
    with Keyboard("new", "my.toml", folder=tmp_path) as person:
        person.until_asked()
        person.type("Trolley")
        person.press(b"stop\n")
        person.close()
    with Keyboard("new", "my.toml", folder=tmp_path) as person:
        assert "were begun. Go on with them?" in person.until_asked()
        assert "peak torque" in person.type("")  # to go on is what is usual
        person.press(b"\xff\xfe\n")  # no text at all
        assert "  !  " in person.until_asked()
        person.press(b"stop\n")
        assert person.close() == 0


def test_without_a_terminal_a_template_is_written_that_asks_for_own_values(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    run_alone = torqcheck("new", "a.toml", folder=tmp_path)
    assert (run_alone.returncode, run_alone.stderr) == (0, "")
    why, *rest = run_alone.stdout.splitlines()
    assert why == "No terminal to ask questions on: the template is written in place of the answers."
    assert rest[0].startswith("a.toml: a typical job with invented numbers; replace each line")
    assert rest[1:] == ["Next: torqcheck assess a.toml"]
    code, said, _ = _ran(capsys, "b.toml", "--template")
    assert (code, said) == (0, run_alone.stdout.replace("a.toml", "b.toml").removeprefix(f"{why}\n"))
    text = (tmp_path / "a.toml").read_text()
    assert text == (tmp_path / "b.toml").read_text()
    assert "All numbers are invented" in text
    written = [line for line in text.splitlines() if re.match(r"\w+ = ", line)]
    unmarked = [line for line in written if not line.endswith("  # change")]
    assert unmarked == ["format = 1", 'kind = "involute spline"']
    assert max(len(line) for line in text.splitlines() if line.startswith("#")) <= 80
    assert assess(tmp_path / "a.toml").verdict == "undecided"


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_a_copy_of_an_example_says_so_and_loads(
    tmp_path: Path, path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert _ran(capsys, "copy.toml", "--from", path.stem)[::2] == (0, "")
    head, _, rest = (tmp_path / "copy.toml").read_text().partition("\n")
    assert head == f"# Copied from the shipped example {path.name}."
    assert rest == path.read_text()
    assert load_scenario(tmp_path / "copy.toml").document == tomllib.loads(path.read_text())


def test_a_copy_never_goes_over_a_file_that_it_reads(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    other = tmp_path / "brickyard_shunter_round.csv"
    other.write_text("mine")
    code, _, said = _ran(capsys, "copy.toml", "--from", "brickyard_shunter.toml")
    assert code == 2
    assert "brickyard_shunter_round.csv: is there already" in said
    assert os.listdir(tmp_path) == [other.name]
    other.write_bytes((EXAMPLES[0].parent / other.name).read_bytes())
    assert _ran(capsys, "copy.toml", "--from", "brickyard_shunter")[0] == 0


BAD = {
    "existing": (("there.toml", "--template"), "there.toml: is there already; name another"),
    "existing, copied": (("there.toml", "--from", "works_trolley"), "there.toml: is there already"),
    "no folder": (("nowhere/my.toml", "--template"), "the folder nowhere does not exist; make it first"),
    "a folder": (("folder", "--template"), "folder: is a folder; name a file in it"),
    "unknown example": (
        ("my.toml", "--from", "works_troly"),
        '"works_troly" is not an example; did you mean "works_trolley"? known: ',
    ),
    "control characters": (("my.toml", "--from", "a\x1b[31m"), '"a?[31m" is not an example'),
    "two ways": (("my.toml", "--template", "--from", "works_trolley"), "exclude each other"),
    "resume, no terminal": (("my.toml", "--resume"), "needs a terminal"),
    "name too long": (("x" * 300, "--template"), "the name cannot be used"),
}


@pytest.mark.parametrize("case", BAD)
def test_bad_input_is_one_line_and_leaves_nothing(
    tmp_path: Path, case: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "there.toml").write_text("mine")
    (tmp_path / "folder").mkdir()
    arguments, message = BAD[case]
    code, shown, said = _ran(capsys, *arguments)
    assert (code, shown) == (2, "")
    assert message in said
    assert len(said.splitlines()) == 1
    assert sorted(os.listdir(tmp_path)) == ["folder", "there.toml"]
    assert (tmp_path / "there.toml").read_text() == "mine"


@pytest.mark.parametrize(
    ("content", "message"),
    [
        (b"\x00\xff", "is not a file of answers"),
        (b"format = 2", "is not a file of answers"),
        (b"format = 1\nanswer = 3", "is not a file of answers"),
        (b"#" * 300_000, "is larger than"),
    ],
    ids=["no text", "another format", "no table", "too large"],
)
def test_unfinished_answers_that_are_none(tmp_path: Path, content: bytes, message: str) -> None:
    (tmp_path / "my.toml.unfinished").write_bytes(content)
    with Keyboard("new", "my.toml", "--resume", folder=tmp_path) as person:
        assert person.close() == 2
        assert message in _flat(person.seen)
        assert "Traceback" not in person.seen
    assert (tmp_path / "my.toml.unfinished").read_bytes() == content


def test_nothing_to_resume(tmp_path: Path) -> None:
    with Keyboard("new", "my.toml", "--resume", folder=tmp_path) as person:
        assert person.close() == 2
        assert "my.toml.unfinished: cannot be read" in _flat(person.seen)
    assert os.listdir(tmp_path) == []


def test_an_answer_that_the_rules_no_longer_take_is_asked_again(tmp_path: Path) -> None:
    (tmp_path / "my.toml.unfinished").write_text(
        'format = 1\n[[answer]]\nquestion = "record.title"\nsaid = "Mill"\n'
        '[[answer]]\nquestion = "motor.peak_torque"\nsaid = "150"\n'
    )
    with Keyboard("new", "my.toml", "--resume", folder=tmp_path) as person:
        shown = person.until_asked()
        assert "1 answer is taken up again." in shown
        assert "Machine: Mill" in shown
        assert "The last one: What machine is it? Mill" in shown
        assert '"150" has no unit' in shown
        assert "What is the peak torque" in shown


def test_a_full_disk_is_output_trouble(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    full = OSError(28, "No space left on device")
    with mock.patch("tempfile.NamedTemporaryFile", side_effect=full):
        code, _, said = _ran(capsys, "my.toml", "--template")
    assert (code, said) == (4, "my.toml: cannot be written: No space left on device\n")
    assert os.listdir(tmp_path) == []


def test_a_file_that_came_meanwhile_stays(tmp_path: Path) -> None:
    (tmp_path / "my.toml").write_text("mine")
    with pytest.raises(OutputError, match="is there already"):
        write_fresh(tmp_path / "my.toml", "yours")
    assert (tmp_path / "my.toml").read_text() == "mine"
    assert os.listdir(tmp_path) == ["my.toml"]


def test_a_name_with_a_blank_is_quoted_where_it_is_to_be_typed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    code, shown, _ = _ran(capsys, "band saw.toml", "--template")
    assert code == 0
    assert "Next: torqcheck assess 'band saw.toml'\n" in shown
    with Keyboard("new", "my saw.toml", folder=tmp_path) as person:
        person.until_asked()
        person.type("Saw")
        person.press(b"stop\n")
        assert person.close() == 0
        assert "1 answer is kept in my saw.toml.unfinished." in _flat(person.shown)
        assert "torqcheck new 'my saw.toml' --resume" in person.shown
