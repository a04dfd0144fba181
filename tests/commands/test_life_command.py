"""`torqcheck life`: what it prints, writes and exits with."""

import csv
import io
import json
from pathlib import Path
from typing import Any

import pytest
from builder import EXAMPLES, edited
from commands._run import torqcheck

SCENARIOS = {path.stem: path for path in EXAMPLES}
CODES = {
    "glasshouse_tug": 1,
    "harbour_launch": 1,
    "narrow_gauge_loco": 3,
    "orchard_tractor": 0,
    "quarry_tipper": 1,
    "works_trolley": 0,
}


def answer(*arguments: str | Path) -> dict[str, Any]:
    run = torqcheck("life", *arguments, "--format", "json")
    result: dict[str, Any] = json.loads(
        run.stdout, parse_constant=lambda name: pytest.fail(f"{name} is not JSON")
    )
    return result


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_is_answered_within_80_columns(path: Path) -> None:
    run = torqcheck("life", path)
    assert run.returncode == CODES.get(path.stem, run.returncode)
    assert run.returncode in {0, 1, 3}
    assert run.stderr == ""
    assert "\x1b" not in run.stdout
    assert max(map(len, run.stdout.splitlines())) <= 80
    assert run.stdout.isascii()
    assert "licensed practice" in run.stdout


def test_json_keeps_its_contract() -> None:
    result = answer(SCENARIOS["orchard_tractor"])
    joint = result["joints"][0]
    assert joint["name"] == "input shaft"
    life = joint["life_hours"]
    assert life["p10"] < life["p50"] < life["p90"]
    assert joint["limit"] == "lash limit"
    assert {"hours", "lash_mm", "blow_Nm", "safety_factor"} <= set(joint["growth"][0])
    assert joint["growth"][0]["lash_mm"]["p50"] == pytest.approx(0.045, abs=1e-3)
    assert 0.0 < joint["inspection_hours"] < life["p50"]
    assert joint["growth"][0]["lash_mm"]["p50"] < joint["stop_reading_mm"] <= joint["lash_limit_mm"]
    assert joint["chance_between_inspections"] <= 0.05
    travel = joint["stop_reading_travel"]
    pitch_radius = 26 * 25.4 / 20 / 2
    assert travel["travel_mm"] / travel["radius_mm"] == pytest.approx(joint["stop_reading_mm"] / pitch_radius)
    assert result["draws"] >= 20_000
    assert isinstance(result["seed"], int)
    assert sum(limit["share"] for limit in joint["limits"]) == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("stem", "decides"),
    [("quarry_tipper", "motor flange: grip"), ("glasshouse_tug", "axial stack, nose to plug")],
)
def test_a_life_that_passes_is_no_pass_of_the_check(stem: str, decides: str) -> None:
    whole = torqcheck("assess", SCENARIOS[stem], "--format", "json")
    checked = json.loads(whole.stdout)
    for form in ("text", "markdown"):
        run = torqcheck("life", SCENARIOS[stem], "--format", form)
        assert run.returncode == whole.returncode == 1
        first = run.stdout[: run.stdout.index("Torsional fatigue")]
        said = " ".join(first.replace("\\", "").split())
        assert "VERDICT OF THE LIFE: PASS" in said.upper()
        assert f"SAYS FAIL: {decides}" in said
    found = answer(SCENARIOS[stem])
    assert found["verdict"] == "pass"
    assert found["whole_check"] == {"verdict": "fail", "decided_by": checked["decided_by"]}


def test_where_both_say_the_same_nothing_is_said_twice() -> None:
    run = torqcheck("life", SCENARIOS["orchard_tractor"], "--format", "text")
    assert "VERDICT OF THE LIFE: MARGINAL" in run.stdout
    assert "WHOLE CHECK" not in run.stdout
    assert answer(SCENARIOS["orchard_tractor"])["whole_check"]["verdict"] == "marginal"


def test_stresses_that_fail_are_said_beside_a_life_in_doubt(tmp_path: Path) -> None:
    crowned = tmp_path / "crowned.toml"
    text = SCENARIOS["orchard_tractor"].read_text()
    seat = 'seat = "flexible"'
    crowned.write_text(text.replace(seat, f'{seat}\ncrown_height = "3 mm"'))
    run = torqcheck("life", crowned, "--out", tmp_path / "life.txt")
    assert run.returncode == 1
    assert "fail: written to" in run.stderr
    said = " ".join((tmp_path / "life.txt").read_text().split())
    assert "SAYS FAIL: input shaft: flank pressure (guide, tabulated), safety factor 0.382" in said


def test_same_file_same_answer_as_assess() -> None:
    path = SCENARIOS["orchard_tractor"]
    checked = json.loads(torqcheck("assess", path, "--format", "json").stdout)["joints"][0]["wear"]
    found = answer(path)["joints"][0]
    assert found["life_hours"] == pytest.approx(checked["life_hours"])
    assert found["guide_hours"] == pytest.approx(checked["guide_hours"])


def test_no_life_is_null_with_a_reason() -> None:
    joint = answer(SCENARIOS["stone_saw"])["joints"][0]
    assert joint["life_hours"] is None
    assert "fretting" in joint["reason"]
    assert joint["growth"] == []
    assert joint["inspection_hours"] is None


def test_report_says_when_what_and_where_to_stop() -> None:
    text = " ".join(torqcheck("life", SCENARIOS["orchard_tractor"], "--units", "si").stdout.split())
    for words in (
        "Open it every",
        "Measure the lash as before",
        "STOP using it at a lash of",
        "of dial travel at a radius of 110 mm",
        "Two models, not blended",
        "What ends the life of input shaft",
        "seed 20260314",
    ):
        assert words in text


def test_csv_is_the_growth() -> None:
    run = torqcheck("life", SCENARIOS["orchard_tractor"], "--format", "csv")
    rows = list(csv.DictReader(io.StringIO(run.stdout)))
    growth = answer(SCENARIOS["orchard_tractor"])["joints"][0]["growth"]
    assert len(rows) == len(growth)
    assert float(rows[1]["hours"]) == growth[1]["hours"]
    assert float(rows[1]["lash_p50_mm"]) == pytest.approx(growth[1]["lash_mm"]["p50"], rel=1e-5)


def test_inch_tables_and_markdown() -> None:
    inch = torqcheck("life", SCENARIOS["orchard_tractor"], "--units", "inch").stdout
    assert "p50 in" in inch
    assert "lbf" in inch
    assert " mm" not in inch.split("Assumptions")[0]
    markdown = torqcheck("life", SCENARIOS["orchard_tractor"], "--format", "markdown").stdout
    assert "| hours |" in markdown


@pytest.mark.parametrize("ending", ["svg", "png"])
def test_figure(tmp_path: Path, ending: str) -> None:
    figure = tmp_path / f"lash.{ending}"
    run = torqcheck("life", SCENARIOS["orchard_tractor"], "--figure", figure, "--format", "json")
    assert run.returncode == 0
    assert "lash over the running hours of input shaft" in run.stderr
    content = figure.read_bytes()
    assert content.startswith(b"\x89PNG" if ending == "png" else b"<?xml")
    if ending == "svg":
        for words in ("dash-dot: limit", "dotted: stop at this reading", "running hours"):
            assert words in content.decode()
    again = tmp_path / f"again.{ending}"
    torqcheck("life", SCENARIOS["orchard_tractor"], "--figure", again, "--format", "json")
    assert again.read_bytes() == content


def test_what_if_is_said_and_shorter() -> None:
    path = SCENARIOS["orchard_tractor"]
    plain, fed = answer(path), answer(path, "--blow-wear", "1")
    assert fed["blow_wear_share"] == 1.0
    one, other = (result["joints"][0] for result in (plain, fed))
    assert other["life_hours"]["p50"] < one["life_hours"]["p50"]
    assert other["median_hours_without_blow_wear"] == pytest.approx(one["life_hours"]["p50"])
    text = torqcheck("life", path, "--blow-wear", "1").stdout
    assert "What if blows wear" in text
    assert "Nothing is" in text


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("--blow-wear", "-1"), "--blow-wear: -1 must lie between 0 and 100"),
        (("--blow-wear", "nan"), "--blow-wear: nan must lie between"),
        (("--figure", "lash.gif"), "must end in .svg or .png"),
    ],
)
def test_usage_that_makes_no_sense(arguments: tuple[str, ...], words: str) -> None:
    run = torqcheck("life", SCENARIOS["orchard_tractor"], *arguments)
    assert run.returncode == 2
    assert words in run.stderr
    assert run.stdout == ""


def test_a_file_that_cannot_be_read_says_so(tmp_path: Path) -> None:
    bad = tmp_path / "bad.toml"
    bad.write_text(edited(('lash = { clearance = "0.05 mm" }', 'lash = { clearance = "0.05" }')))
    run = torqcheck("life", bad)
    assert run.returncode == 2
    assert "joint[1].lash" in run.stderr
    assert "Traceback" not in run.stderr


def test_nothing_is_written_over_the_record_or_twice_into_one_file(tmp_path: Path) -> None:
    for name in ("brickyard_shunter.toml", "brickyard_shunter_round.csv"):
        (tmp_path / name).write_bytes((SCENARIOS["brickyard_shunter"].parent / name).read_bytes())
    scenario, record = tmp_path / "brickyard_shunter.toml", tmp_path / "brickyard_shunter_round.csv"
    before = record.read_bytes()
    for command in ("life", "assess", "ramp", "influence"):
        run = torqcheck(command, scenario, "--out", record)
        assert run.returncode == 2
        assert "made from" in run.stderr
        assert record.read_bytes() == before
    run = torqcheck("life", scenario, "--figure", tmp_path / "a.svg", "--out", tmp_path / "a.svg")
    assert run.returncode == 2
    assert "--figure and --out name the same file" in run.stderr
    assert not (tmp_path / "a.svg").exists()


def test_the_record_stands_in_the_result() -> None:
    result = answer(SCENARIOS["brickyard_shunter"])
    assert result["scenario"]["duty_file"]["file"] == "brickyard_shunter_round.csv"
    # read at 510 h: the next inspection is not beyond the service life
    assert 510.0 < result["joints"][0]["next_inspection_hours"] <= 3000.0
    assert result["targets"]["running_per_year_hours"] == pytest.approx(500.0)
