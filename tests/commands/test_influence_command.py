"""`torqcheck influence`: what it prints, writes and exits with; and the ranges that `assess` prints."""

import csv
import io
import json
from pathlib import Path
from typing import Any

import pytest
from builder import EXAMPLES
from commands._run import torqcheck

SCENARIOS = {path.stem: path for path in EXAMPLES}
TRACTOR, LOCO = SCENARIOS["orchard_tractor"], SCENARIOS["narrow_gauge_loco"]


def answer(path: Path) -> dict[str, Any]:
    run = torqcheck("influence", path, "--format", "json")
    assert run.returncode == 0
    assert run.stderr == ""
    result: dict[str, Any] = json.loads(
        run.stdout, parse_constant=lambda name: pytest.fail(f"{name} is not JSON")
    )
    return result


def test_json_keeps_its_contract() -> None:
    result = answer(TRACTOR)
    row = result["rows"][0]
    assert row["key"] == "joint[1].tilt.angle"
    assert 0.5 < row["share_p2_5"] <= row["share"] <= row["share_p97_5"] < 0.7
    assert row["interval_if_known"]["p5"] > result["interval"]["p5"]
    assert row["interval_if_known"]["p95"] < result["interval"]["p95"]
    assert (row["value"], row["low"], row["high"]) == ("0.08 deg", "0.07 deg", "0.09 deg")
    assert row["spread_from"] == "tolerance as written"
    assert row["mark"] == "measured"
    assert "dial indicator" in row["better"]
    assert result["weakest"]["check"] == "flank pressure"
    assert result["chance_below_1"] == 0.0
    assert result["draws"]["count"] == 4096
    assert result["wear"][0]["rows"][0]["what"] == "wear coefficient of sealed grease"
    assert "joint[1].wear_coefficient" in result["moves_nothing"]


@pytest.mark.parametrize("path", [TRACTOR, LOCO, SCENARIOS["stone_saw"]], ids=lambda path: path.stem)
def test_the_report_answers_first_in_80_columns_without_colour(path: Path) -> None:
    run = torqcheck("influence", path)
    assert run.returncode == 0
    assert run.stderr == ""
    assert run.stdout.isascii()
    assert max(map(len, run.stdout.splitlines())) <= 80
    head = " ".join(run.stdout.split("\n\n")[0].splitlines())
    assert "WEAKEST LINK: " in head
    assert "KNOW BETTER FIRST: " in head
    assert "##########" in run.stdout
    for words in ("Better: ", "How sure", "not of the models", "licensed practice"):
        assert words in run.stdout


def test_a_guess_of_the_tilt_is_named_as_what_to_measure() -> None:
    head = torqcheck("influence", LOCO).stdout.split("\n\n")[0]
    assert "joint[1].tilt, angle between the axes, not" in head
    assert "95 %" in head or "94 %" in head


def test_inch_csv_markdown_and_file(tmp_path: Path) -> None:
    assert " lbf ft" in torqcheck("influence", TRACTOR, "--units", "inch").stdout
    rows = list(csv.DictReader(io.StringIO(torqcheck("influence", TRACTOR, "--format", "csv").stdout)))
    assert float(rows[0]["share"]) > 0.5
    assert float(rows[0]["p5_if_known"]) < float(rows[0]["p95_if_known"])
    assert rows[0]["key"] == "joint[1].tilt.angle"
    out = tmp_path / "ranking.md"
    run = torqcheck("influence", TRACTOR, "--format", "markdown", "--out", out, "--plain")
    assert run.returncode == 0
    assert run.stdout == ""
    assert run.stderr == f"influence: written to {out}\n"
    assert r"| joint\[1\].tilt.angle |" in out.read_text()


def test_bad_input_ends_with_2_and_says_where(tmp_path: Path) -> None:
    missing = torqcheck("influence", tmp_path / "none.toml")
    assert missing.returncode == 2
    assert "none.toml" in missing.stderr
    broken = tmp_path / "broken.toml"
    broken.write_text(TRACTOR.read_text().replace("0.08 +/- 0.01 deg", "0.08 +/- 0.01 kg"))
    wrong = torqcheck("influence", broken)
    assert wrong.returncode == 2
    assert "joint[1].tilt.angle" in wrong.stderr
    assert "Traceback" not in wrong.stderr
    assert torqcheck("influence").returncode == 2
    assert torqcheck("influence", TRACTOR, "--format", "pie").returncode == 2


def test_it_never_writes_over_the_scenario(tmp_path: Path) -> None:
    own = tmp_path / "own.toml"
    own.write_text(TRACTOR.read_text())
    run = torqcheck("influence", own, "--out", own)
    assert run.returncode == 2
    assert own.read_text() == TRACTOR.read_text()


def test_assess_shows_the_range_of_each_factor_and_the_chance_of_the_weakest() -> None:
    run = torqcheck("assess", SCENARIOS["vineyard_carrier"], "--units", "si")
    text = " ".join(run.stdout.split())
    weakest = json.loads(torqcheck("assess", SCENARIOS["vineyard_carrier"], "--format", "json").stdout)[
        "weakest"
    ]
    low, high = (f"{weakest['interval'][end]:.2f}" for end in ("p5", "p95"))
    assert low < "1.18" < high
    assert f"safety factor 1.18 ({low} to {high}) against a target of 1.5." in text
    assert "Chance of a factor below 1: less than 1 in 100." in text
    assert "not of the models" in text
    row = next(line for line in run.stdout.splitlines() if line.startswith("gearbox input root shear"))
    assert row.split()[-3:-1] == ["1.18", f"{low}-{high}"]
    rows = csv.DictReader(
        io.StringIO(torqcheck("assess", SCENARIOS["vineyard_carrier"], "--format", "csv").stdout)
    )
    first = next(rows)
    assert (
        float(first["safety_factor_p5"]) < float(first["safety_factor"]) < float(first["safety_factor_p95"])
    )
    assert float(first["chance_below_1"]) < 0.01
