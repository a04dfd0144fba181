"""`torqcheck size`: what it prints, writes and exits with."""

import csv
import io
import json
from typing import Any

import pytest
from builder import EXAMPLES
from commands._run import torqcheck

SCENARIOS = {path.stem: path for path in EXAMPLES}
TROLLEY, TUG, CARRIER = (SCENARIOS[n] for n in ("works_trolley", "glasshouse_tug", "vineyard_carrier"))


def test_json_keeps_its_contract() -> None:
    run = torqcheck("size", TUG, "--joint", "input shaft", "--find", "engagement", "--format", "json")
    assert run.returncode == 0
    assert run.stderr == ""
    result: dict[str, Any] = json.loads(
        run.stdout, parse_constant=lambda name: pytest.fail(f"{name} is not JSON")
    )
    assert (result["joint"], result["quantity"], result["unit"]) == ("input shaft", "engagement", "mm")
    assert result["value"] == 16.0
    assert result["exact"] == pytest.approx(15.777, abs=2e-3)
    assert "flank pressure" in result["reason"]
    assert result["passes"] is True
    assert result["at_value"]["safety_factor"] > 1.5
    assert result["just_beyond"]["safety_factor"] < 1.5
    assert result["just_beyond"]["verdict"] == "marginal"
    assert {"value", "safety_factor", "governing", "verdict"} <= set(result["curve"][0])
    assert result["changes"]["joint[1].engagement"] == "16 mm"
    assert result["range"]["low"] == pytest.approx(0.25 * 33.02)
    assert result["range"]["high"] == pytest.approx(2.5 * 33.02)


def test_the_report_answers_first_in_80_columns_without_colour() -> None:
    run = torqcheck("size", TROLLEY, "--joint", "Gearbox Input", "--find", "bore")
    assert run.returncode == 0
    assert run.stderr == ""
    assert run.stdout.isascii()
    assert max(map(len, run.stdout.splitlines())) <= 80
    head = " ".join(run.stdout.split("\n\n")[0].split())
    assert "gearbox input: Largest bore of the shaft that holds: 25 mm (or 31/32 in)" in head
    for words in (
        "Around the answer",
        "What was searched",
        "What to do next",
        "licensed practice",
        "as it is",
    ):
        assert words in run.stdout
    assert 'joint[2].external.bore = "25 mm"' in " ".join(run.stdout.split())


def test_an_answer_that_makes_no_pass_is_not_the_first_word() -> None:
    run = torqcheck("size", SCENARIOS["stone_saw"], "--format", "text")
    assert run.returncode == 1
    words = " ".join(run.stdout.split())
    assert words.index("arbor: THE JOINT DOES NOT PASS") < words.index("Smallest engagement that holds")


def test_no_value_ends_with_1_and_names_what_would_mend_it() -> None:
    run = torqcheck("size", CARRIER, "--joint", "1", "--find", "engagement", "--format", "text")
    assert run.returncode == 1
    words = " ".join(run.stdout.split())
    assert "NO engagement holds" in words
    assert "root shear, external member (blow)" in words
    assert "The slowest ramp mends it" in words
    assert "no stronger for a longer engagement" in words
    assert max(map(len, run.stdout.splitlines())) <= 80


def test_inch_csv_markdown_and_file(tmp_path: Any) -> None:
    common = ("size", TROLLEY, "--joint", "gearbox input", "--find", "bore")
    rows = list(csv.DictReader(io.StringIO(torqcheck(*common, "--format", "csv").stdout)))
    assert [float(row["value_mm"]) for row in rows] == sorted(float(row["value_mm"]) for row in rows)
    assert {row["holds"] for row in rows} == {"true"}
    out = tmp_path / "size.md"
    run = torqcheck(*common, "--units", "inch", "--format", "markdown", "--out", out, "--plain")
    assert run.returncode == 0
    assert run.stdout == ""
    assert run.stderr == f"size: written to {out}\n"
    text = " ".join(out.read_text().split())
    assert "31/32 in; the range ends at 0.9955 in" in text
    assert "| Bore, in |" in text


@pytest.mark.parametrize(
    ("options", "says"),
    [
        (("--joint", "gear"), 'no joint is called "gear"'),
        (("--joint", "gearbox input", "--find", "enagement"), 'did you mean "engagement"'),
        (("--joint", "gearbox input", "--find", "lash", "--side", "left"), "left"),
    ],
)
def test_bad_input_ends_with_2_and_says_what_is_offered(options: tuple[str, ...], says: str) -> None:
    run = torqcheck("size", TROLLEY, *options)
    assert run.returncode == 2
    assert says in run.stderr
    assert "Traceback" not in run.stderr


def test_it_never_writes_over_the_scenario(tmp_path: Any) -> None:
    own = tmp_path / "own.toml"
    own.write_text(TROLLEY.read_text())
    run = torqcheck("size", own, "--joint", "gearbox input", "--find", "bore", "--out", own)
    assert run.returncode == 2
    assert own.read_text() == TROLLEY.read_text()


def test_the_only_splined_joint_need_not_be_named() -> None:
    named = torqcheck("size", TROLLEY, "--joint", "gearbox input", "--find", "bore", "--format", "json")
    plain = torqcheck("size", TROLLEY, "--find", "bore", "--format", "json")
    assert plain.stdout == named.stdout
    two = torqcheck("size", TROLLEY.parent / "ferry_capstan.toml")
    assert two.returncode == 2
    assert "--joint is needed here: 2 joints are splined" in two.stderr
