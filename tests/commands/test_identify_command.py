"""`torqcheck identify`: forms, exit codes, bad input."""

import csv
import io
import json
from pathlib import Path

import pytest
from commands._run import torqcheck

DIN = (
    "identify", "--side", "external", "--teeth", "24", "--major-diameter", "49.6 +/- 0.02 mm",
    "--over-pins", "54.218 +/- 0.01 mm", "--pin", "4 +/- 0.002 mm",
)  # fmt: skip
BITS = (
    "identify", "--side", "internal", "--teeth", "12", "--pitch", "5/10", "--between-pins", "1.885 in",
    "--pin", "0.3745 +/- 0.0005 in",
)  # fmt: skip
OWN = (
    "identify", "--side", "external", "--teeth", "25", "--major-diameter", "29.38 +/- 0.01 mm",
    "--over-pins", "32.1 +/- 0.01 mm", "--pin", "2.2 +/- 0.004 mm",
)  # fmt: skip


def answer(*arguments: str) -> tuple[int, dict]:
    run = torqcheck(*arguments, "--format", "json")
    assert run.stderr == ""
    return run.returncode, json.loads(
        run.stdout, parse_constant=lambda name: pytest.fail(f"{name} is not JSON")
    )


def test_identified_ends_with_0() -> None:
    code, found = answer(*DIN)
    assert (code, found["verdict"]) == (0, "identified")
    first = found["candidates"][0]
    assert {key: first[key] for key in ("standard", "designation", "teeth", "module_mm", "pitch")} == {
        "standard": "din 5480", "designation": "50 x 2 x 24", "teeth": 24, "module_mm": 2.0, "pitch": None,
    }  # fmt: skip
    assert first["pressure_angle_deg"] == 30.0
    assert first["wear_mm"] == 0.0
    assert 0.0 <= first["deviation"] < 0.2
    assert found["next_reading"] is None


def test_cannot_tell_ends_with_3_and_names_the_next_reading() -> None:
    code, found = answer(*BITS)
    assert (code, found["verdict"]) == (3, "cannot tell")
    assert found["next_reading"]["reading"] == "between pins"
    assert found["next_reading"]["pin_mm"] > 0.0
    assert found["pin_doubts"][0]["pin_mm"] == pytest.approx(0.3456 * 25.4, abs=1e-4)
    assert all(not candidate["agrees"] for candidate in found["candidates"])


def test_none_of_these_ends_with_3() -> None:
    code, found = answer(*OWN)
    assert (code, found["verdict"]) == (3, "none of these")


@pytest.mark.parametrize("arguments", [DIN, BITS, OWN], ids=["din", "bits", "own"])
def test_tables_fit_80_columns(arguments: tuple[str, ...]) -> None:
    for form in ("table", "text"):
        run = torqcheck(*arguments, "--format", form)
        assert run.stderr == ""
        assert max(len(line) for line in run.stdout.splitlines()) <= 80
        assert "VERDICT: " in run.stdout
        assert "count twice [common practice, no source]" in " ".join(run.stdout.split())
        assert "0.010 in (0.25 mm)" in " ".join(run.stdout.split())


def test_csv_and_markdown_and_file(tmp_path: Path) -> None:
    rows = list(csv.DictReader(io.StringIO(torqcheck(*DIN, "--format", "csv").stdout)))
    assert rows[0]["designation"] == "50 x 2 x 24"
    assert torqcheck(*DIN, "--format", "markdown").stdout.startswith("# torqcheck")
    target = tmp_path / "found.txt"
    run = torqcheck(*DIN, "--format", "text", "--out", target)
    assert run.returncode == 0
    assert run.stdout == ""
    assert target.read_text() == torqcheck(*DIN, "--format", "text").stdout


def test_inch_and_metric_readings_give_the_same_answer() -> None:
    inch = [
        argument.replace("49.6 +/- 0.02 mm", "1.952755905511811 +/- 0.000787401574803 in") for argument in DIN
    ]
    assert answer(*inch)[1]["candidates"] == answer(*DIN)[1]["candidates"]


def test_tolerance_that_is_not_written_is_said() -> None:
    found = answer("identify", "--side", "external", "--teeth", "24", "--major-diameter", "0.982 in")[1]
    assert found["readings"][0]["tolerance_mm"] == 0.05
    assert any("assumed 0.05 mm" in text for text in found["assumptions"])
    assert any("25 mm" in text for text in found["cautions"])


def test_two_pin_sizes() -> None:
    code, found = answer(
        "identify", "--side", "external", "--teeth", "27",
        "--over-pins", "1.2425 +/- 0.0002 in", "--pin", "0.0800 +/- 0.0001 in",
        "--over-pins", "1.2197 +/- 0.0002 in", "--pin", "0.0720 +/- 0.0001 in",
    )  # fmt: skip
    assert found["candidates"][0]["designation"].startswith("27T 24/48")
    assert code in (0, 3)


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (("--teeth", "24"), "no length was read"),
        (("--teeth", "2", "--major-diameter", "1 in"), "--teeth 2 is not a number of teeth"),
        (("--teeth", "24", "--major-diameter", "1"), "--major-diameter: '1' has no unit"),
        (("--teeth", "24", "--major-diameter", "1 kg"), "--major-diameter: '1 kg' is a mass"),
        (("--teeth", "24", "--major-diameter", "-1 in"), "must be above zero"),
        (("--teeth", "24", "--major-diameter", "nan mm"), "--major-diameter"),
        (("--teeth", "24", "--major-diameter", "1 +/- 2 in"), "tolerance of major_diameter"),
        (("--teeth", "24", "--over-pins", "1 in"), "give one --pin for each reading"),
        (("--teeth", "24", "--pin", "2 mm"), "give one --pin for each reading"),
        (("--teeth", "24", "--between-pins", "1 in", "--pin", "2 mm"), "write --over-pins"),
        (("--teeth", "24", "--major-diameter", "1 in", "--pitch", "7/14"), "published"),
        (("--teeth", "24", "--major-diameter", "1 in", "--pitch", "8/16", "--module", "2 mm"), "not both"),
        (("--teeth", "2.5", "--major-diameter", "1 in"), "must be a whole number"),
        (("--major-diameter", "1 in"), "--teeth"),
    ],
)
def test_bad_input_ends_with_2(arguments: tuple[str, ...], message: str) -> None:
    run = torqcheck("identify", "--side", "external", *arguments)
    assert run.returncode == 2
    assert run.stdout == ""
    assert message in " ".join(run.stderr.split())
    assert "Traceback" not in run.stderr


def test_help_shows_an_example() -> None:
    page = torqcheck("identify", "--help").stdout
    assert "torqcheck identify --side external" in page
    assert "identify" in torqcheck("--help").stdout


def test_a_reading_off_by_more_than_its_tolerance_identifies_nothing() -> None:
    # every new 18-tooth hub of module 2.5 reads more between these pins: 38.39 mm at least, 0.09 mm off
    hub = ("--side", "internal", "--teeth", "18", "--minor-diameter", "42.9 mm", "--pin", "4.4 mm")
    run = torqcheck("identify", *hub, "--between-pins", "38.3 mm")
    assert run.returncode == 3
    assert "VERDICT: CANNOT TELL" in run.stdout
    assert "tolerances off" in run.stdout
    assert "read it again" in " ".join(run.stdout.split())
