"""`torqcheck compare`: what it prints, writes and exits with."""

import csv
import io
import json
from pathlib import Path
from typing import Any

import pytest
from assessment._quick_path import OLD_SHAFT, QUICK, new_shaft
from builder import EXAMPLES, edited
from commands._run import torqcheck

NAMES = "4140_PH28_32,18CrNiMo7_6_carb_63,1045_CD,4140_PH_min28"
NOTES = {
    "order", "surface", "core", "machining", "welding", "heat_treatment", "hardening", "distortion",
    "drawing", "lead", "cost", "section", "data",
}  # fmt: skip


@pytest.fixture(scope="module")
def path(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("compare") / "quick.toml"
    path.write_text(edited(*QUICK))
    return path


@pytest.fixture(scope="module")
def answer(path: Path) -> dict[str, Any]:
    run = torqcheck("compare", path, "--external", NAMES, "--format", "json")
    assert (run.returncode, run.stderr) == (0, "")
    result: dict[str, Any] = json.loads(
        run.stdout, parse_constant=lambda name: pytest.fail(f"{name} is not JSON")
    )
    return result


def test_json_keeps_its_contract(answer: dict[str, Any]) -> None:
    assert [row["external"] for row in answer["rows"]] != NAMES.split(",")
    assert {row["external"] for row in answer["rows"]} == set(NAMES.split(","))
    for row in answer["rows"]:
        assert row["internal"] == "8620_carb_63"
        assert row["safety_factor"] > 0.0
        assert set(row["governing"]) == {"joint", "check", "method"}
        assert row["life_hours"] == {"p10": None, "p50": None}
        assert "fixed seat" in row["life_reason"]
        assert row["fatigue_life_hours"] > 0.0
        assert row["cost_index"] == row["cost"]["external"] > 0.0
        assert row["cost"]["internal"] is None
        assert row["dominated"] is (row["dominated_by"] is not None)
        assert set(row["notes"]) == {"external"}
        assert set(row["notes"]["external"]) == NOTES
        assert row["pairing"] in {"equal hardness", "hub softer", "shaft softer"}
    assert answer["exchanged"] == ["external"]
    assert answer["as_in_file"]["external"] == "8620_carb_63"
    assert answer["checked"] == 4
    assert "indicative" in answer["cost_index_is"]
    assert "common practice, no source" in answer["pairing_rule"]


def test_a_row_is_what_assess_prints_for_the_file_edited_by_hand(
    answer: dict[str, Any], tmp_path: Path
) -> None:
    for row in answer["rows"][::2]:
        hand = tmp_path / "hand.toml"
        hand.write_text(edited(*QUICK).replace(OLD_SHAFT, new_shaft(row["external"])))
        alone = json.loads(torqcheck("assess", hand, "--format", "json").stdout)
        weakest, (joint,) = alone["weakest"], alone["joints"]
        assert row["safety_factor"] == weakest["safety_factor"]
        assert (row["target"], row["interval"]) == (weakest["target"], weakest["interval"])
        assert row["governing"] == {key: weakest[key] for key in ("joint", "check", "method")}
        assert row["verdict"] == alone["verdict"]
        assert row["fatigue_life_hours"] == joint["fatigue"]["life_hours"]
        assert row["undecided_by"] == alone["undecided_by"]


@pytest.mark.parametrize(
    "options",
    [("--external", NAMES), ("--external", "4140_ind,1045_CD", "--internal", "4140_ind", "--plain")],
)
def test_the_report_answers_first_in_80_columns_without_colour(path: Path, options: tuple[str, ...]) -> None:
    run = torqcheck("compare", path, *options)
    assert (run.returncode, run.stderr) == (0, "")
    assert run.stdout.isascii()
    assert max(map(len, run.stdout.splitlines())) <= 80
    head = run.stdout.split("\n\n")[0]
    assert "NO CHOICE PASSES" in head or "CHEAPEST THAT PASSES" in head
    text = " ".join(run.stdout.split())
    for words in (
        "AS IN THE FILE: 8620_carb_63 / 8620_carb_63", "Safety against cost", "order: AISI", "indicative",
        "Dominated: another choice is at least as good", "In practice both halves", "licensed practice",
        "common practice, no source", "reused = false", "joint[1].external.measured",
    ):  # fmt: skip
        assert words in text


def test_letters_of_table_and_plot_are_the_same(path: Path, answer: dict[str, Any]) -> None:
    lines = torqcheck("compare", path, "--external", NAMES).stdout.splitlines()
    # columns are left out before a row takes two lines
    (rule,) = (place for place, line in enumerate(lines) if line.startswith("-----"))
    assert [line[0] for line in lines[rule + 1 :][:4]] == [row["letter"] for row in answer["rows"]]
    assert lines[rule + 5].startswith("Safety: ")
    assert any("Not shown for want of room" in line for line in lines)
    for row in answer["rows"]:
        (line,) = (line for line in lines if line.split()[:2] == [row["letter"], row["external"]])
        assert f"{row['safety_factor']:.3g}"[:4] in line
        assert row["letter"].isupper() is not row["dominated"]
    plot = "".join(lines[lines.index("Safety against cost") + 2 :][:14])
    assert all(row["letter"] in plot for row in answer["rows"] if not row["dominated"])


def test_csv_markdown_file_and_figures(path: Path, answer: dict[str, Any], tmp_path: Path) -> None:
    text = torqcheck("compare", path, "--external", NAMES, "--format", "csv").stdout
    rows = list(csv.DictReader(io.StringIO(text)))
    assert [row["external"] for row in rows] == [row["external"] for row in answer["rows"]]
    assert float(rows[0]["safety_factor"]) == pytest.approx(answer["rows"][0]["safety_factor"], rel=1e-5)
    assert {row["dominated"] for row in rows} == {"yes", "no"}
    out, svg = tmp_path / "steels.md", tmp_path / "steels.svg"
    run = torqcheck(
        "compare", path, "--external", NAMES, "--format", "markdown", "--out", out, "--figure", svg
    )
    assert (run.returncode, run.stdout) == (0, "")
    words, said = run.stderr.splitlines()
    assert said == f"compare: written to {out}"
    assert "filled circles are not dominated (A " in words
    assert "4140\\_PH28\\_32 |" in out.read_text()
    drawn = svg.read_text()
    for row in answer["rows"]:
        assert (f"{row['letter']} {row['external']}" in drawn) is not row["dominated"]
    png = tmp_path / "steels.png"
    assert torqcheck("compare", path, "--external", "1045_CD,4140_ind", "--figure", png).returncode == 0
    assert png.read_bytes().startswith(b"\x89PNG")


def test_filters_leave_what_they_say(path: Path) -> None:
    none = ("--external", "1045_CD,4140_ind", "--min-safety", "99")
    result = json.loads(torqcheck("compare", path, *none, "--format", "json").stdout)
    assert (result["rows"], result["hidden"]) == ([], {"below a safety factor of 99": 2})
    empty = torqcheck("compare", path, *none)
    assert (empty.returncode, "None is left to show" in empty.stdout) == (0, True)
    assert torqcheck("compare", path, *none, "--format", "csv").stdout.splitlines()[1:] == [",,,,"]
    front = torqcheck("compare", path, "--external", NAMES, "--pareto", "--sort", "cost", "--format", "json")
    rows = json.loads(front.stdout)["rows"]
    assert not any(row["dominated"] for row in rows)
    assert [row["cost_index"] for row in rows] == sorted(row["cost_index"] for row in rows)


@pytest.mark.parametrize(
    ("options", "words"),
    [
        (("--external", "4140_QT999"), "the nearest names are"),
        (("--external", "all,4140_ind"), "contradict each other"),
        (("--external", "all", "--above", "300"), '"300" has no scale'),
        (("--external", "all", "--above", "68HRC"), "no steel of the tables suits"),
        (("--joint", "sprocket"), "splined"),
        (("--figure", "x.pdf"), "must end in .svg or .png"),
        (("--sort", "beauty"), "beauty"),
        (("--min-safety", "much"), "--min-safety"),
        (("--external", "4140_ind", "--format", "pie"), "pie"),
    ],
)
def test_bad_input_ends_with_2_and_one_clear_line(path: Path, options: tuple[str, ...], words: str) -> None:
    run = torqcheck("compare", path, *options)
    assert run.returncode == 2
    assert run.stdout == ""
    assert words in run.stderr
    assert "Traceback" not in run.stderr


def test_a_broken_file_and_a_place_that_cannot_be_written(path: Path, tmp_path: Path) -> None:
    assert torqcheck("compare", tmp_path / "none.toml").returncode == 2
    broken = tmp_path / "broken.toml"
    broken.write_text(edited(*QUICK).replace("share = 0.9", "share = 0.8"))
    run = torqcheck("compare", broken, "--external", "4140_ind")
    assert (run.returncode, "duty" in run.stderr) == (2, True)
    own = tmp_path / "own.toml"
    own.write_text(path.read_text())
    assert torqcheck("compare", own, "--external", "4140_ind", "--out", own).returncode == 2
    assert own.read_text() == path.read_text()
    figure = tmp_path / "same.svg"
    both = torqcheck("compare", path, "--external", "4140_ind", "--figure", figure, "--out", figure)
    assert (both.returncode, "the same file" in both.stderr) == (2, True)


def test_a_false_fit_of_the_file_is_said_whatever_the_steel() -> None:
    saw = next(path for path in EXAMPLES if path.stem == "stone_saw")
    run = torqcheck("compare", saw, "--external", "4140_QT540,8620_carb_63")
    assert run.returncode == 0
    assert "FALSE FIT as the file stands, at arbor" in " ".join(run.stdout.split())
