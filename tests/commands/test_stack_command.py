"""`torqcheck stack`: what it prints, draws and exits with."""

import csv
import io
import json
import os
from pathlib import Path
from typing import Any

import pytest
from builder import BASE, EXAMPLES
from commands._run import torqcheck

SCENARIOS = {path.stem: path for path in EXAMPLES}
TUG = SCENARIOS["glasshouse_tug"]
KEPT = Path(__file__).parent / "snapshots" / "stack"
SMALL = (
    BASE
    + """
[stack]
assembled_at = "20 degC"
running_at = "60 degC"

[[stack.distance]]
name = "housing"
length = "150 +/- 0.1 mm"
material = "cast iron"

[[stack.distance]]
name = "shafts"
length = "148.5 +/- 0.1 mm"
material = "steel"

[[stack.result]]
name = "nose gap"
kind = "gap"
plus = ["housing"]
minus = ["shafts"]
"""
)


def answer(*arguments: str | Path) -> dict[str, Any]:
    run = torqcheck("stack", *arguments, "--format", "json")
    result: dict[str, Any] = json.loads(
        run.stdout, parse_constant=lambda name: pytest.fail(f"{name} is not JSON")
    )
    return result


def written(folder: Path, *changes: tuple[str, str]) -> Path:
    text = SMALL
    for old, new in changes:
        assert text.count(old) >= 1
        text = text.replace(old, new)
    file = folder / "job.toml"
    file.write_text(text, encoding="utf-8")
    return file


def test_the_report_is_as_it_was_when_last_looked_at() -> None:
    """Rewritten with TORQCHECK_SNAPSHOTS=write, then looked at."""
    kept, now = KEPT / "glasshouse_tug.txt", torqcheck("stack", TUG, "--format", "text").stdout
    if os.environ.get("TORQCHECK_SNAPSHOTS") == "write":
        kept.write_text(now, encoding="utf-8")
    assert now == kept.read_text(encoding="utf-8")


def test_json_keeps_its_contract() -> None:
    result = answer(TUG)
    (joint,) = result["joints"]
    assert joint["name"] == "input shaft"
    engaged = joint["engagement_mm"]
    assert engaged["min"] < engaged["nominal"] < engaged["max"]
    gaps = {gap["name"]: gap for gap in result["gaps"]}
    assert set(gaps) == {"nose to plug", "coupler to seal"}
    for gap in gaps.values():
        assert {"name", "min_mm", "nominal_mm", "max_mm", "chance_of_contact"} <= set(gap)
        assert gap["min_mm"] < gap["nominal_mm"] < gap["max_mm"]
        assert 0.0 <= gap["chance_of_contact"] <= 1.0
    assert gaps["nose to plug"]["min_mm"] < 0.0 < gaps["nose to plug"]["assembled"]["worst_case_mm"]["min"]
    assert result["shim_mm"] == pytest.approx(0.5)
    assert result["verdict"] == "fail"
    assert result["scenario"]["file"] == TUG.name


def test_the_stack_of_assess_is_the_same() -> None:
    whole = json.loads(torqcheck("assess", TUG, "--format", "json").stdout)
    alone = answer(TUG)
    assert whole["stack"] == {key: alone[key] for key in whole["stack"]}
    text = torqcheck("assess", TUG).stdout
    assert "Axial stack: FAIL. nose to plug: bottoms on the plug by 0.09 mm" in text


def test_plain_words_come_first_and_it_fits_80_columns_when_piped() -> None:
    run = torqcheck("stack", TUG)
    assert run.returncode == 1
    assert run.stderr == ""
    lines = run.stdout.splitlines()
    assert max(map(len, lines)) <= 80
    assert run.stdout.isascii()
    words = " ".join(run.stdout.split("Section")[0].split())
    assert "bottoms on the plug by 0.09 mm (0.0036 in) when hot in the worst case" in words
    assert "mends it and costs 0.50 mm (0.0197 in) of engagement" in words
    assert "move it back by 0.14 mm" in words
    assert "Section, upper half" in run.stdout
    assert "Ranges, mm" in run.stdout
    assert "licensed practice" in run.stdout


@pytest.mark.parametrize(
    ("change", "verdict", "code"),
    [
        (("148.5", "148.5"), "pass", 0),
        (("148.5", "148.9"), "marginal", 0),
        (("148.5", "149.9"), "fail", 1),
        (('running_at = "60 degC"\n', ""), "pass", 0),
    ],
)
def test_exit_codes(change: tuple[str, str], verdict: str, code: int, tmp_path: Path) -> None:
    file = written(tmp_path, change)
    run = torqcheck("stack", file, "--format", "json")
    assert (json.loads(run.stdout)["verdict"], run.returncode) == (verdict, code)
    strict = torqcheck("stack", file, "--strict").returncode
    assert strict == (1 if verdict == "marginal" else code)


def test_a_missing_temperature_that_could_turn_it_ends_with_3(tmp_path: Path) -> None:
    file = written(tmp_path, ('running_at = "60 degC"\n', ""), ("148.5", "149.7"))
    run = torqcheck("stack", file)
    assert run.returncode == 3
    assert "VERDICT: UNDECIDED" in run.stdout
    assert "temperature in service of housing, shafts; a contact thermometer" in " ".join(run.stdout.split())


def test_without_parts_the_ranges_are_drawn_alone(tmp_path: Path) -> None:
    run = torqcheck("stack", written(tmp_path))
    assert "Section" not in run.stdout
    assert "Ranges, mm" in run.stdout
    assert "[" in run.stdout


def test_csv_markdown_and_inch() -> None:
    rows = list(csv.DictReader(io.StringIO(torqcheck("stack", TUG, "--format", "csv").stdout)))
    assert [row["state"] for row in rows] == ["assembled", "running"] * 3
    gap = next(row for row in rows if row["result"] == "nose to plug" and row["state"] == "running")
    assert float(gap["worst_least_mm"]) == pytest.approx(answer(TUG)["gaps"][0]["min_mm"], rel=1e-5)
    markdown = torqcheck("stack", TUG, "--format", "markdown").stdout
    assert markdown.startswith("# torqcheck")
    assert "| nose to plug | cold |" in markdown
    assert "gearbox bearing to nose" in markdown
    inch = torqcheck("stack", TUG, "--units", "inch").stdout
    assert "Ranges, in" in inch
    # further down distances are named as they are written
    assert " mm" not in inch.split("What widens")[0]


@pytest.mark.parametrize("ending", ["svg", "png"])
def test_figure(ending: str, tmp_path: Path) -> None:
    figure = tmp_path / f"section.{ending}"
    run = torqcheck("stack", TUG, "--figure", figure, "--format", "json")
    assert run.returncode == 1
    assert "section to scale of motor shaft, coupler, input shaft, seal" in run.stderr
    content = figure.read_bytes()
    assert content.startswith(b"\x89PNG" if ending == "png" else b"<?xml")
    if ending == "svg":
        for words in ("nose to plug 0.35 (-0.09 to 0.64)", "coupler", "stop ring at 74.60", "hot"):
            assert words in content.decode()
    again = tmp_path / f"again.{ending}"
    torqcheck("stack", TUG, "--figure", again, "--format", "json")
    assert again.read_bytes() == content


def test_figure_without_parts(tmp_path: Path) -> None:
    file = written(tmp_path)
    run = torqcheck("stack", file, "--figure", tmp_path / "f.svg")
    assert run.returncode == 0
    assert "no parts are stated" in run.stderr


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["--figure", "a.pdf"], "must end in .svg or .png"),
        (["--figure", "a.svg", "--out", "a.svg"], "name the same file"),
        (["--format", "yaml"], "yaml"),
    ],
)
def test_usage_errors_end_with_2(arguments: list[str], said: str) -> None:
    run = torqcheck("stack", TUG, *arguments)
    assert run.returncode == 2
    assert said in run.stderr
    assert "Traceback" not in run.stderr


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (('minus = ["shafts"]', 'minus = ["shaft"]'), 'unknown distance "shaft"; did you mean "shafts"?'),
        (('length = "148.5 +/- 0.1 mm"', "length = 148.5"), "148.5 is a number without a unit"),
        (('"60 degC"', '"600 degC"'), "is beyond what seals, grease"),
        (('"60 degC"', '"-400 degC"'), "is beyond anything that a machine stands"),
        (('material = "steel"', 'material = "stel"'), 'stack.distance[2].material: "stel" cannot be used'),
        (
            ("[[stack.result]]", "[[stack.results]]"),
            'stack.results: is not a known key; did you mean "result"?',
        ),
        (('kind = "gap"', 'kind = "gap"\nleast = "-1 mm"'), '"-1 mm" must not be negative'),
    ],
)
def test_bad_stacks_end_with_2(change: tuple[str, str], said: str, tmp_path: Path) -> None:
    run = torqcheck("stack", written(tmp_path, change))
    assert run.returncode == 2
    assert said in run.stderr
    assert "Traceback" not in run.stderr


def test_a_scenario_without_a_stack_is_told_so() -> None:
    run = torqcheck("stack", SCENARIOS["works_trolley"])
    assert run.returncode == 2
    assert "stack: is missing; add a [stack]" in run.stderr


def test_nothing_is_written_over_the_scenario(tmp_path: Path) -> None:
    file = written(tmp_path)
    run = torqcheck("stack", file, "--out", file)
    assert run.returncode == 2
    assert file.read_text(encoding="utf-8") == SMALL


def test_what_needs_no_shim_is_not_said_to_have_what_was_wanted(tmp_path: Path) -> None:
    shim = '\n[stack.shim]\nin = "housing"\nresult = "nose gap"\ntarget = "1 mm"\nstock = ["0.5 mm"]\n'
    roomy = written(tmp_path, ("148.5", "140"), ('minus = ["shafts"]\n', 'minus = ["shafts"]\n' + shim))
    run = torqcheck("stack", roomy, "--units", "si")
    assert "No shim is needed: nose gap has at least 1.00 mm as it is." in run.stdout
