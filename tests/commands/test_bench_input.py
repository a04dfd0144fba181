"""What the bench commands refuse, and what they say where a reading cannot help."""

import json
import re

import pytest
from commands._run import torqcheck

import torqcheck as package
from torqcheck.cli import run as run_here

INCH = 25.4
PITCH = ("--pitch", "24/48")
EQUAL = ("mate", "--external-teeth", "27", "--internal-teeth", "27", *PITCH)
UNEQUAL = ("mate", "--external-teeth", "27", "--internal-teeth", "28", *PITCH)
PINS = ("--over-pins", "1.2384 +/- 0.0002 in", "--pin", "0.0800 in")
SHAFT = ("identify", "--side", "external", "--teeth", "24", "--major-diameter")
INCH_SPLINE = ("geometry", "ansi b92.1", "--teeth", "27", *PITCH)
ISO = ("geometry", "iso 4156", "--teeth", "20", "--module", "2 mm")
OWN = (
    "identify", "--side", "external", "--teeth", "25", "--major-diameter", "29.38 +/- 0.01 mm",
    "--over-pins", "32.1 +/- 0.01 mm", "--pin", "2.2 +/- 0.004 mm",
)  # fmt: skip


def refused(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    """Return the one line with which a command ends that was given bad input."""
    assert run_here(list(arguments)) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    (line,) = printed.err.splitlines()
    return line


def answer(*arguments: str) -> dict:
    return json.loads(torqcheck(*arguments, "--format", "json").stdout)


@pytest.mark.parametrize("teeth", ["0", "-27", "1", "3", "401", "100000"])
@pytest.mark.parametrize(
    ("option", "arguments"),
    [
        ("external-teeth", ("mate", "--internal-teeth", "28", *PITCH)),
        ("internal-teeth", ("mate", "--external-teeth", "27", *PITCH)),
        ("teeth", ("identify", "--side", "external", "--major-diameter", "30 mm")),
        ("teeth", ("geometry", "ansi b92.1", *PITCH)),
    ],
)
def test_all_commands_take_4_to_400_teeth(
    option: str, arguments: tuple[str, ...], teeth: str, capsys: pytest.CaptureFixture[str]
) -> None:
    line = refused(capsys, *arguments, f"--{option}", teeth)
    assert line == f"--{option} {teeth} is not a number of teeth; write a whole number from 4 to 400"


@pytest.mark.parametrize("teeth", ["4", "400"])
def test_the_ends_of_the_range_are_taken(teeth: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert run_here(["mate", "--external-teeth", teeth, "--internal-teeth", teeth, *PITCH]) == 3
    assert run_here(["identify", "--side", "external", "--teeth", teeth, "--major-diameter", "30 mm"]) == 3
    assert run_here(["geometry", "ansi b92.1", "--teeth", teeth, *PITCH]) == 0
    assert capsys.readouterr().err == ""


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ((*EQUAL, "--pin", "0.08 in"), "--pin '0.08 in' is the diameter of the pins of --over-pins"),
        ((*EQUAL, *PINS, "--hub-pin", "0.07 in"), "give --between-pins too, or leave --hub-pin out"),
        ((*EQUAL, "--clearance", "-0.1 mm"), "--clearance: '-0.1 mm' must be zero or more"),
        ((*EQUAL, "--clearance", "0.1 +/- 0 mm"), "--clearance: '0.1 +/- 0 mm' has a tolerance of zero"),
        ((*SHAFT, "30 +/- 0 mm"), "--major-diameter: '30 +/- 0 mm' has a tolerance of zero"),
        ((*SHAFT, "30 ± 0.0 mm"), "write that of the instrument, or leave it out"),
        ((*SHAFT, "1 +/- 0 in"), "has a tolerance of zero"),
        ((*SHAFT, "30 km"), "--major-diameter: '30 km'"),
        ((*SHAFT, "5.001 m"), "must lie above zero and be at most 5 m; check the unit"),
        ((*EQUAL, "--minor-diameter", "30 m"), "--minor-diameter: '30 m' must lie above zero"),
        ((*INCH_SPLINE, "--pin", "3 mm", "--pin", "4 mm"), "--pin is given 2 times, '3 mm' and '4 mm'"),
        ((*INCH_SPLINE, "--teeth", "28"), "--teeth is given 2 times, 27 and 28; give it once"),
        ((*ISO, "--length", "1e9 m"), "--length: '1e9 m' must lie above zero and be at most 1 m"),
        (("geometry", "din 5480", "--designation", "W50x2x24x8f"), "leave out W or N"),
        (("geometry", "din 5480", "--designation", "W50x2x24x8f"), "give the class by --fit-class 4 to 7"),
    ],
)  # fmt: skip
def test_bad_input_gives_one_line_that_says_how_to_mend_it(
    arguments: tuple[str, ...], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert said in refused(capsys, *arguments)


def test_the_advice_on_a_designation_works(capsys: pytest.CaptureFixture[str]) -> None:
    command = ["geometry", "din 5480", "--designation", "50x2x24", "--fit-class", "7", "--fit", "H/f"]
    assert run_here(command) == 0
    assert "tolerance class 7" in capsys.readouterr().out


def test_lengths_up_to_the_ends_are_taken(capsys: pytest.CaptureFixture[str]) -> None:
    assert run_here([*ISO, "--length", "1 m"]) == 0
    assert run_here([*SHAFT, "5 m"]) == 3
    assert capsys.readouterr().err == ""


def test_readings_that_the_counts_make_needless_are_named() -> None:
    reason = "Not needed, because the counts differ: --over-pins, --clearance."
    found = answer(*UNEQUAL, *PINS, "--clearance", "0.2 mm")
    assert reason in found["reasons"]
    assert reason in " ".join(torqcheck(*UNEQUAL, *PINS, "--clearance", "0.2 mm").stdout.split())
    found["reasons"].remove(reason)
    bare = answer(*UNEQUAL)
    # the pair without those readings is judged alike, so that nothing was lost
    assert {**found, "joints": None} == {**bare, "joints": None}
    assert not any("Not needed" in text for text in answer(*EQUAL, *PINS)["reasons"])


def test_a_pair_without_play_is_a_reading() -> None:
    run = torqcheck(*EQUAL, "--clearance", "0 mm", "--format", "json")
    assert run.stderr == ""
    found = json.loads(run.stdout)
    assert found["lash"]["clearance_mm"] == 0.0
    assert any("0.000 mm +/- 0.020 mm" in text for text in found["reasons"])


def test_an_impossible_reading_over_pins_is_told_in_what_the_user_wrote() -> None:
    found = answer(*EQUAL, "--over-pins", "5 in", "--pin", "0.08 in")
    assert found["verdict"] == "not measured"
    (reason,) = [text for text in found["reasons"] if "is impossible for" in text]
    assert "--over-pins '5 in' with --pin '0.08 in', but such pins read" in reason
    assert "tooth_thickness" not in reason
    least, most = (float(number) for number in re.search(r"\(([\d.]+) to ([\d.]+) in\)", reason).groups())
    # 27T 24/48, pins 0.080 in: D 1.125 in, base circle 0.97428 in (derived). No tooth: inv phi = inv 30 deg
    # + 0.08/0.97428 - pi/27, phi 21.807 deg. No space: inv phi = inv 30 deg + 0.08/0.97428, phi 39.578 deg.
    # M = 0.97428 cos(pi/54)/cos phi + 0.08
    assert least == pytest.approx(1.1276, abs=0.001)
    assert most == pytest.approx(1.3419, abs=0.001)
    inside = answer(*EQUAL, "--over-pins", f"{0.5 * (least + most):.4f} in", "--pin", "0.08 in")
    assert not any("is impossible for" in text and "--over-pins" in text for text in inside["reasons"])


def test_an_impossible_reading_between_pins_and_a_pin_as_large_as_the_part() -> None:
    hub = answer(*EQUAL, "--between-pins", "5 in", "--hub-pin", "0.072 in")
    assert any("--between-pins '5 in' with --hub-pin '0.072 in'" in text for text in hub["reasons"])
    vast = answer(*EQUAL, "--between-pins", "1.02 in", "--hub-pin", "0.9 in")
    assert any("--hub-pin '0.9 in', but pins of this size find no place" in text for text in vast["reasons"])


def test_two_impossible_readings_are_each_told_by_their_own_name() -> None:
    small = ("--over-pins", "0.9 in", "--pin", "0.08 in", "--between-pins", "0.7 in", "--hub-pin", "0.072 in")
    reasons = [text for text in answer(*EQUAL, *small)["reasons"] if "is impossible for" in text]
    assert ["--over-pins" in text for text in reasons] == [True, False]
    assert ["--between-pins" in text for text in reasons] == [False, True]


@pytest.mark.parametrize("arguments", [UNEQUAL, (*SHAFT, "49.6 mm"), INCH_SPLINE])
def test_json_of_the_bench_names_its_format(arguments: tuple[str, ...]) -> None:
    found = answer(*arguments)
    assert list(found)[:2] == ["format", "torqcheck"]
    assert (found["format"], found["torqcheck"]) == (1, package.__version__)


def test_none_of_these_asks_for_the_spline_itself_and_not_for_what_was_ruled_out() -> None:
    found = answer(*OWN)
    assert found["verdict"] == "none of these"
    assert found["next_reading"] is None
    said = " ".join(found["own_spline"])
    for word in ("pins of two sizes, one besides the pin used", "base circle", "root diameter", "photograph"):
        assert word in said
    text = torqcheck(*OWN).stdout
    assert "Expected on" not in text
    assert "To measure it as a spline of its own" in text


def test_advice_leaves_out_what_was_read() -> None:
    pins = ("--over-pins", "33.9 +/- 0.01 mm", "--pin", "2.79 +/- 0.004 mm", "--minor-diameter", "25 mm")
    found = answer(*OWN, *pins)
    assert found["verdict"] == "none of these"
    assert len(found["own_spline"]) == 1
    parallel = answer(
        "identify", "--side", "internal", "--teeth", "9", "--minor-diameter", "40 mm", "--flanks", "parallel"
    )
    assert parallel["verdict"] == "none of these"
    assert not any("pins" in text for text in parallel["own_spline"])
    assert any("root diameter, over the grooves" in text for text in parallel["own_spline"])


def test_no_advice_of_that_kind_where_candidates_stand() -> None:
    found = answer(*SHAFT, "49.6 mm")
    assert found["verdict"] == "cannot tell"
    assert found["own_spline"] == []
    assert found["next_reading"] is not None


def test_a_next_reading_that_hardly_decides_says_so() -> None:
    found = answer(
        "identify", "--side", "external", "--teeth", "12", "--major-diameter", "13 +/- 0.2 mm",
        "--minor-diameter", "10.6 +/- 0.2 mm", "--over-pins", "15.04 +/- 0.2 mm", "--pin", "1.9 +/- 0.1 mm",
    )  # fmt: skip
    assert found["next_reading"]["separation"] < 1.0
    assert (
        "It hardly decides; it separates the first two candidates by only 0.8"
        in found["next_reading"]["text"]
    )
    clear = answer("identify", "--side", "external", "--teeth", "27", *PINS)["next_reading"]
    assert clear["separation"] > 1.0
    assert "hardly" not in clear["text"]


@pytest.mark.parametrize(("reading", "said"), [("1.2386", ()), ("1.2380", ("0.01 mm of the width",))])
def test_wear_that_rounds_to_nothing_is_no_caution(reading: str, said: tuple[str, ...]) -> None:
    pins = ("--over-pins", f"{reading} +/- 0.0002 in", "--pin", "0.0800 +/- 0.0001 in")
    found = answer("identify", "--side", "external", "--teeth", "27", *pins)
    assert found["candidates"][0]["wear_mm"] > 0.0
    worn = [text for text in found["cautions"] if "beyond tolerance class 7" in text]
    assert len(worn) == len(said)
    assert all(text.startswith(start) for text, start in zip(worn, said, strict=True))
