"""`torqcheck geometry`: the data block, its forms, its figure, its refusals."""

import csv
import io
import json
import xml.etree.ElementTree as ET
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from commands._run import torqcheck

from torqcheck.cli import run as run_here
from torqcheck.cli.spline_options import involute_from_options
from torqcheck.errors import UsageError

INCH = 25.4
INCH_SPLINE = ("ansi b92.1", "--teeth", "27", "--pitch", "24/48")
EVERY_STANDARD = {
    "inch": INCH_SPLINE,
    "inch, major diameter": ("ansi b92.1", "--teeth", "20", "--pitch", "10/20", "--fit", "major diameter"),
    "inch serration": ("ansi b92.1", "--teeth", "36", "--pitch", "24/48", "--pressure-angle", "45 deg"),
    "module": ("iso 4156", "--teeth", "20", "--module", "2 mm", "--fit", "H/f", "--length", "30 mm"),
    "reference diameter": ("din 5480", "--teeth", "24", "--reference-diameter", "50 mm", "--module", "2 mm"),
    "iso 14": ("iso 14", "--designation", "8x52x60", "--fit", "close"),
    "sae": ("sae", "--teeth", "6", "--major-diameter", "1 in", "--fit", "B"),
    "din 5481": ("din 5481", "--designation", "15x17"),
}


@cache
def _json(*arguments: str | Path) -> dict[str, Any]:
    run = torqcheck("geometry", *arguments, "--format", "json")
    assert run.returncode == 0, run.stderr
    result: dict[str, Any] = json.loads(
        run.stdout, parse_constant=lambda name: pytest.fail(f"{name} in JSON")
    )
    return result


def test_json_holds_the_agreed_keys_in_mm() -> None:
    result = _json(*INCH_SPLINE)
    common = {"pitch_diameter_mm", "base_diameter_mm", "major_diameter_mm", "minor_diameter_mm"}
    common |= {"form_diameter_mm", "pin_mm"}
    assert common | {"tooth_thickness_mm", "over_pins_mm"} <= set(result["external"])
    assert common | {"space_width_mm", "between_pins_mm"} <= set(result["internal"])
    # limits as readings, class 5, inches; worked out beside the project from remembered tolerances
    for member, key, printed in (
        ("external", "over_pins_mm", (1.2430, 1.2450)),
        ("internal", "between_pins_mm", (1.0218, 1.0242)),
    ):
        assert result[member][key] == pytest.approx([end * INCH for end in printed], abs=0.00005 * INCH)
    assert result["external"]["pin_mm"] == pytest.approx(0.080 * INCH)
    assert result["external"]["pitch_diameter_mm"] == pytest.approx(1.125 * INCH)
    assert (result["pitch"], result["fit_class"], result["teeth"]) == ("24/48", 5, 27)
    assert result["external"]["absent"] == result["internal"]["absent"] == {}


@pytest.mark.parametrize("arguments", EVERY_STANDARD.values(), ids=EVERY_STANDARD)
def test_each_absent_value_has_its_reason(arguments: tuple[str, ...]) -> None:
    result = _json(*arguments)
    for member in ("external", "internal"):
        data = result[member]
        missing = {key for key, value in data.items() if value is None}
        assert set(data["absent"]) == missing
        assert all(data["absent"].values())


@pytest.mark.parametrize("form", ["table", "text"])
@pytest.mark.parametrize("arguments", EVERY_STANDARD.values(), ids=EVERY_STANDARD)
def test_every_standard_fits_80_columns(arguments: tuple[str, ...], form: str) -> None:
    run = torqcheck("geometry", *arguments, "--format", form)
    assert run.returncode == 0
    assert run.stderr == ""
    assert max(len(line) for line in run.stdout.splitlines()) <= 80
    assert "\x1b" not in run.stdout
    assert "Sources" in run.stdout
    assert "[from memory]" in " ".join(run.stdout.split())


def test_table_says_the_same_as_json_in_both_units() -> None:
    text, result = torqcheck("geometry", *INCH_SPLINE, "--format", "text").stdout, _json(*INCH_SPLINE)
    row = next(line for line in text.splitlines() if line.startswith("Over pins ")).split()
    low, high = result["external"]["over_pins_mm"]
    assert row[2:6] == [f"{low:.3f}", f"{high:.3f}", f"{low / INCH:.4f}", f"{high / INCH:.4f}"]
    assert row[6:] == ["from", "memory"]


@pytest.mark.parametrize(
    ("units", "there", "absent"), [("si", "mm min", "in min"), ("inch", "in min", "mm min")]
)
def test_one_system_alone(units: str, there: str, absent: str) -> None:
    text = torqcheck("geometry", *INCH_SPLINE, "--format", "text", "--units", units).stdout
    assert there in text
    assert absent not in text
    assert _json(*INCH_SPLINE, "--units", units) == _json(*INCH_SPLINE)


def test_markdown_and_csv() -> None:
    markdown = torqcheck("geometry", *INCH_SPLINE, "--format", "markdown").stdout
    assert markdown.startswith("# Spline data")
    assert "| ---: |" in markdown
    rows = list(csv.DictReader(io.StringIO(torqcheck("geometry", *INCH_SPLINE, "--format", "csv").stdout)))
    over = next(row for row in rows if row["dimension"] == "over pins")
    low, high = _json(*INCH_SPLINE)["external"]["over_pins_mm"]
    assert (float(over["minimum_mm"]), float(over["maximum_mm"])) == (low, high)
    nominal = torqcheck("geometry", "din 5481", "--designation", "15x17", "--format", "csv").stdout
    assert "nominal major diameter,17.0,17.0" in nominal


def test_inch_and_module_spelling_of_one_size_agree() -> None:
    metric = _json("iso 4156", "--teeth", "20", "--module", "2.5 mm")
    inch = _json("iso 4156", "--teeth", "20", "--module", "0.0984251968503937 in")
    assert metric["external"]["over_pins_mm"] == pytest.approx(inch["external"]["over_pins_mm"], rel=1e-9)


@pytest.mark.parametrize("name", ["ANSI B92.1", "ansi-b92.1", "b92.1", "ansi_b92.1"])
def test_a_standard_may_be_spelled_as_people_do(name: str) -> None:
    assert _json(name, *INCH_SPLINE[1:]) == _json(*INCH_SPLINE)
    assert _json("ansi", "b92.1", *INCH_SPLINE[1:]) == _json(*INCH_SPLINE)


def test_designation_of_din_5480_is_taken_apart() -> None:
    parts = _json(*EVERY_STANDARD["reference diameter"])
    for name in ("50x2x24", "W 50 x 2 x 24", "n50X2x24"):
        assert _json("din 5480", "--designation", name) == parts
    assert parts["external"]["width_mark"] == "assumed"
    assert any("in place of those of DIN 5480" in note for note in parts["notes"])


def test_class_and_fit_change_the_limits() -> None:
    narrow, wide = (_json(*INCH_SPLINE, "--fit-class", c)["external"]["tooth_thickness_mm"] for c in "47")
    assert narrow[1] - narrow[0] < wide[1] - wide[0]
    tight, loose = (
        _json("iso 4156", "--teeth", "20", "--module", "2 mm", "--fit", fit)["new_clearance_mm"]["effective"]
        for fit in ("H/h", "H/f")
    )
    assert tight[0] == 0.0
    # handbook, Table 17: f at a pitch diameter of 40 mm is 0.025 mm (published)
    assert loose[0] == pytest.approx(0.025, abs=1e-9)


READINGS = (
    "--over-pins", "1.2400 +/- 0.0002 in", "--pin", "0.080 in", "--between-pins", "1.0290 in",
    "--hub-pin", "0.072 in",
)  # fmt: skip


def test_readings_become_widths_beside_the_new_limits() -> None:
    result = _json(*INCH_SPLINE, *READINGS)
    shaft, hub = result["readings"]["external"], result["readings"]["internal"]
    # worked out beside the project: 27T 24/48, pin 0.080 in, 1.2400 in gives 0.06085 in (derived)
    assert shaft["tooth_thickness_mm"] == pytest.approx(0.06085 * INCH, abs=0.000005 * INCH)
    # K = 1.578 there
    assert shaft["tolerance_mm"] == pytest.approx(0.0002 * INCH / 1.578, rel=0.01)
    least = result["external"]["tooth_thickness_mm"][0]
    assert shaft["beyond_new_mm"] == pytest.approx(least - shaft["tooth_thickness_mm"], abs=1e-6)
    assert hub["beyond_new_mm"] > 0.0
    text = torqcheck("geometry", *INCH_SPLINE, *READINGS, "--format", "text").stdout
    assert "beyond the new limits" in text
    thick = torqcheck("geometry", *INCH_SPLINE, "--over-pins", "1.26 in", "--pin", "0.08 in").stdout
    assert "no wear leads" in thick


def test_an_own_pin_is_used_for_the_limits() -> None:
    result = _json(*INCH_SPLINE, "--pin", "2 mm")
    assert result["external"]["pin_mm"] == 2.0
    assert result["external"]["pin_size"] == "as given"


@pytest.mark.parametrize("ending", ["svg", "PNG"])
def test_figure_is_written_whole_and_said_in_words(tmp_path: Path, ending: str) -> None:
    target = tmp_path / f"pair.{ending}"
    run = torqcheck("geometry", *INCH_SPLINE, *READINGS, "--figure", target, "--format", "text")
    assert run.returncode == 0
    assert "written to" in run.stderr
    assert [path.name for path in tmp_path.iterdir()] == [target.name]
    content = target.read_bytes()
    if ending == "svg":
        assert ET.fromstring(content).tag.endswith("svg")
    else:
        assert content.startswith(b"\x89PNG")
        assert len(content) > 20_000
    words = " ".join(run.stdout.split())
    assert "shaft and hub in mesh" in words
    assert "pitch 28.575" in words
    assert "dashed: tooth 1.546 mm as read with pins" in words
    assert max(len(line) for line in run.stdout.splitlines() if str(tmp_path) not in line) <= 80
    assert _json(*INCH_SPLINE, "--figure", target)["figure"] == str(target)


def test_out_writes_the_block_to_a_file(tmp_path: Path) -> None:
    target = tmp_path / "block.json"
    run = torqcheck("geometry", *INCH_SPLINE, "--format", "json", "--out", target)
    assert (run.returncode, run.stdout) == (0, "")
    assert json.loads(target.read_text()) == _json(*INCH_SPLINE)


ISO = ("iso 4156", "--teeth", "20")


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (("din 5999",), "standard 'din 5999' is not known; write one of: ansi b92.1, iso 4156"),
        (("ansi b92.1", "--pitch", "24/48"), "ansi b92.1 needs --teeth; write for example --teeth 27"),
        (("ansi b92.1", "--teeth", "27"), 'needs --pitch; write for example --pitch "24/48"'),
        (("ansi b92.1", "--teeth", "27", "--pitch", "25/50"), "'25/50' is not of the published series"),
        (("ansi b92.1", "--teeth", "27", "--pitch", "24"), "is not written like"),
        ((*INCH_SPLINE, "--module", "2 mm"), "--module does not belong to ansi b92.1; it takes --teeth"),
        ((*INCH_SPLINE, "--fit-class", "3"), "fit class 3 is not one of 4, 5, 6, 7"),
        ((*INCH_SPLINE, "--fit", "H/h"), "it has side fit, major diameter fit"),
        ((*INCH_SPLINE, "--root", "round"), "--root 'round' is neither flat nor fillet"),
        ((*INCH_SPLINE, "--pressure-angle", "30"), "'30' has no unit; write for example \"30 deg\""),
        ((*INCH_SPLINE, "--pressure-angle", "20 deg"), "has no pressure angle of 20 deg"),
        ((*INCH_SPLINE, "--pressure-angle", "45 deg", "--root", "flat"), "has no root 'flat'"),
        ((*INCH_SPLINE, "--over-pins", "1.24 in"), "--over-pins needs the pin it was taken with"),
        ((*INCH_SPLINE, "--between-pins", "1.0 in"), "--between-pins needs the pin it was taken with"),
        ((*INCH_SPLINE, "--over-pins", "3 in", "--pin", "0.08 in"), "do not belong to this spline"),
        ((*INCH_SPLINE, "--over-pins", "-1 in", "--pin", "0.08 in"), "must be above zero"),
        ((*INCH_SPLINE, "--figure", "pair.pdf"), "must end in .svg or .png"),
        ((*INCH_SPLINE, "--dxf", "pair.dwg"), "--dxf: 'pair.dwg' must end in .dxf"),
        ((*INCH_SPLINE, "--dxf", "pair.dxf", "--out", "pair.dxf"), "name the same file"),
        (("ansi b92.1", "--teeth", "0", "--pitch", "24/48"), "--teeth 0 is not a number of teeth"),
        (("ansi b92.1", "--teeth", "99999", "--pitch", "24/48"), "write a whole number from 4 to 400"),
        (("ansi b92.1", "--teeth", "3", "--pitch", "24/48"), "--teeth 3 is not a number of teeth"),
        ((*ISO, "--module", "2"), "--module: '2' has no unit"),
        ((*ISO, "--module", "1,25 mm"), "use a decimal point"),
        ((*ISO, "--module", "2.1 mm"), "has no module of 2.1 mm"),
        ((*ISO, "--module", "2 mm", "--fit", "H/z"), "has no fit 'H/z'; it has H/h, H/f, H/e, H/d"),
        (("din 5480", "--designation", "50-2-24"), "is not written like 50x2x24"),
        (("din 5480", "--designation", "50x2x24", "--teeth", "24"), "already says --teeth"),
        (("din 5480", "--designation", "50x2x34"), "do not belong together; about 24 teeth would"),
        (("iso 14", "--designation", "8x52x61"), "iso 14 has no size '8x52x61'; it has"),
        (("iso 14", "--designation", "8x52x60", "--teeth", "6"), "--teeth 6 does not agree"),
        (("iso 14", "--designation", "8x52x60", "--fit", "loose"), "is not one of sliding, close, fixed"),
        (("iso 14", "--designation", "8x52x60", "--over-pins", "1 in"), "--over-pins does not belong"),
        (("sae", "--teeth", "6", "--major-diameter", "1 in", "--fit", "Z"), "has fit A, B, C"),
        (("sae", "--teeth", "7", "--major-diameter", "1 in", "--fit", "A"), "has 4, 6, 10, 16 teeth"),
        (("din 5481", "--designation", "9x11"), "din 5481 has no size '9x11'; it has 7x8"),
        (("din 5481", "--designation", "15x17", "--figure", "x.svg"), "no figure of din 5481"),
    ],
)
def test_bad_options_give_one_clear_line(
    arguments: tuple[str, ...],
    message: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    assert run_here(["geometry", *arguments]) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    assert message in printed.err
    assert len(printed.err.splitlines()) == 1
    assert list(tmp_path.iterdir()) == []


def test_bad_options_end_the_real_command_with_2() -> None:
    run = torqcheck("geometry", "ansi b92.1", "--pitch", "24/48")
    assert (run.returncode, run.stdout) == (2, "")
    assert run.stderr == "ansi b92.1 needs --teeth; write for example --teeth 27\n"


@pytest.mark.parametrize("name", ["pair.svg", "pair.png"])
def test_an_unwritable_figure_leaves_nothing(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    command = ["geometry", *INCH_SPLINE, "--figure"]
    assert run_here([*command, str(tmp_path / "missing" / name)]) == 2
    assert "does not exist; make it first" in capsys.readouterr().err
    (tmp_path / name).mkdir()
    assert run_here([*command, str(tmp_path / name)]) == 2
    printed = capsys.readouterr()
    assert "is a folder; name a file" in printed.err
    assert printed.out == ""
    assert [path.name for path in tmp_path.iterdir()] == [name]


def test_help_names_every_standard() -> None:
    page = torqcheck("geometry", "--help").stdout
    for word in ("ansi b92.1", "iso 4156", "din 5480", "iso 14", "sae j499", "din 5481", "--figure"):
        assert word in page
    assert "geometry" in torqcheck("--help").stdout


@pytest.mark.parametrize(
    ("given", "designation"),
    [
        ({"pitch": "24/48"}, "27T 24/48 30 deg flat root"),
        ({"pitch": "24/48", "pressure-angle": "45 deg", "over-pins": "1 in"}, "27T 24/48 45 deg fillet root"),
        ({"module": "2 mm", "root": "fillet"}, "27Z x 2m x 30 deg fillet root"),
        ({"module": "2 mm", "reference-diameter": "56.5 mm"}, "56.5 x 2 x 27"),
    ],
)
def test_the_options_tell_which_standard_is_meant(given: dict[str, str | int], designation: str) -> None:
    assert involute_from_options(given, 27).designation == designation


@pytest.mark.parametrize(
    ("given", "message"),
    [
        ({}, "which spline"),
        ({"pitch": "24/48", "module": "2 mm"}, "not two of them"),
        ({"reference-diameter": "50 mm"}, "din 5480 needs --module"),
        ({"pitch": "25/50"}, "not of the published series"),
    ],
)
def test_options_that_tell_nothing_are_refused(given: dict[str, str | int], message: str) -> None:
    with pytest.raises(UsageError, match=message):
        involute_from_options(given, 27)


@pytest.mark.parametrize("arguments", EVERY_STANDARD.values(), ids=EVERY_STANDARD)
def test_outline_for_the_machine_is_written_for_every_standard(
    arguments: tuple[str, ...], tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    target = tmp_path / "pair.dxf"
    assert run_here(["geometry", *arguments, "--dxf", str(target), "--format", "text"]) == 0
    said = capfd.readouterr()
    assert "Outline for the machine" in said.out
    assert max(len(line) for line in said.out.splitlines() if str(tmp_path) not in line) <= 80
    assert f"written to {target}" in said.err
    assert target.read_text(encoding="utf-8").rstrip().endswith("EOF")


def test_outline_into_a_folder_that_is_not_there_ends_with_2(tmp_path: Path) -> None:
    run = torqcheck("geometry", *INCH_SPLINE, "--dxf", tmp_path / "no" / "pair.dxf")
    assert run.returncode == 2
    assert len(run.stderr.splitlines()) == 1
    assert "does not exist; make it first" in run.stderr
    assert list(tmp_path.iterdir()) == []
