"""`torqcheck mate`: from a scenario and from readings as options."""

import json
from pathlib import Path

import pytest
from builder import EXAMPLES, edited
from commands._run import torqcheck

SCENARIOS = {path.stem: path for path in EXAMPLES}
COUNTS = ("--external-teeth", "27", "--internal-teeth", "28", "--pitch", "24/48")
EQUAL = ("--external-teeth", "27", "--internal-teeth", "27", "--pitch", "24/48")


@pytest.mark.parametrize(
    ("name", "verdict", "code"),
    [
        ("stone_saw", "false fit", 1),
        ("hop_elevator", "worn mate", 0),
        ("cider_press", "not measured", 3),
        ("works_trolley", "true mate", 0),
        ("timber_winch", "worn mate", 0),
    ],
)
def test_examples(name: str, verdict: str, code: int) -> None:
    run = torqcheck("mate", SCENARIOS[name], "--format", "json")
    assert run.returncode == code
    result = json.loads(run.stdout)
    assert result["verdict"] == verdict
    assert result["reasons"]


def test_counts_alone_settle_a_false_fit() -> None:
    run = torqcheck("mate", *COUNTS, "--format", "json")
    assert run.returncode == 1
    result = json.loads(run.stdout)
    assert result["verdict"] == "false fit"
    # 27 into 28 at 24/48 [derived]: 0.102 in of metal missing, 5 teeth enter; off centre 0.235 mm of
    # clearance at 0.649/P
    assert result["assembly"]["centred"]["missing_mm"] == pytest.approx(0.102 * 25.4, abs=0.02)
    assert result["assembly"]["centred"]["free_teeth"] == 5
    off = result["assembly"]["off_centre"]
    assert off["clearance_mm"] == pytest.approx(0.235, abs=0.003)
    assert off["offset_mm"] == pytest.approx(0.649 * 25.4 / 24, abs=0.01)
    assert off["runout_mm"] == pytest.approx(2 * off["offset_mm"])


def test_equal_counts_without_readings_are_not_measured() -> None:
    run = torqcheck("mate", *EQUAL)
    assert run.returncode == 3
    assert "NOT MEASURED" in run.stdout
    assert "Reading that would tell more" in run.stdout


def test_pins_and_play_tell_a_worn_mate() -> None:
    pins = ("--over-pins", "1.2384 +/- 0.0002 in", "--pin", "0.0800 in", "--clearance", "0.18 mm")
    result = json.loads(torqcheck("mate", *EQUAL, *pins, "--format", "json").stdout)
    assert result["verdict"] == "worn mate"
    # thickness by the inverse formula 1.520 mm; the least of class 5 is 1.594 mm [from memory]
    assert result["wear_mm"]["external"] == pytest.approx(1.594 - 1.520, abs=0.002)


def test_a_caliper_that_cannot_tell_and_pins_that_can(tmp_path: Path) -> None:
    text = SCENARIOS["cider_press"].read_text()
    caliper = 'over_pins = "1.2424 +/- 0.0008 in", pin = "2.032 +/- 0.005 mm"'
    gauge = 'over_pins = "1.2424 +/- 0.0002 in", pin = "0.0800 +/- 0.0001 in"'
    assert caliper in text
    assert gauge in text
    better = tmp_path / "better.toml"
    better.write_text(text.replace(caliper, gauge))
    assert torqcheck("mate", SCENARIOS["cider_press"]).returncode == 3
    run = torqcheck("mate", better)
    assert run.returncode == 0
    assert "WORN MATE" in run.stdout


def test_reports_fit_80_columns() -> None:
    for arguments in ((SCENARIOS["stone_saw"],), COUNTS):
        run = torqcheck("mate", *arguments)
        assert max(map(len, run.stdout.splitlines())) <= 80
    for form in ("text", "markdown", "csv"):
        assert torqcheck("mate", *COUNTS, "--format", form).returncode == 1


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ((), "give a scenario, or at least --external-teeth"),
        (("--external-teeth", "27"), "give a scenario, or at least --external-teeth"),
        ((*COUNTS[:4],), "pitch"),
        ((str(EXAMPLES[0]), *COUNTS), "not both"),
        ((*COUNTS, "--over-pins", "1.2 in"), "--over-pins needs --pin"),
        ((*COUNTS[:4], "--pitch", "21/42"), "not of the published series"),
        ((*EQUAL, "--clearance", "0.2"), "has no unit"),
    ],
)
def test_bad_options_give_one_clear_line(arguments: tuple[str, ...], said: str) -> None:
    run = torqcheck("mate", *arguments)
    assert run.returncode == 2, run.stdout
    assert said in run.stderr
    assert "Traceback" not in run.stderr


def test_a_reading_that_no_such_spline_can_give_is_said_to_be_impossible() -> None:
    run = torqcheck("mate", *EQUAL, "--over-pins", "5 in", "--pin", "0.08 in")
    assert run.returncode == 3
    assert "is impossible for 27T 24/48" in run.stdout


def test_a_scenario_without_splines_has_nothing_to_judge(tmp_path: Path) -> None:
    text = edited()
    shaft = '[[joint]]\nkind = "shaft"\ndiameter = "30 mm"\nsteel = "1045_CD"\n'
    file = tmp_path / "job.toml"
    file.write_text(text[: text.index("[[joint]]")] + shaft)
    run = torqcheck("mate", file)
    assert run.returncode == 2
    assert "has no splined joint" in run.stderr


def test_new_parts_of_a_wider_class_are_no_worn_mate() -> None:
    # 27T 24/48: a new pair of class 7 may have more play than one of class 5 bedded in
    pair = ("--external-teeth", "27", "--internal-teeth", "27", "--pitch", "24/48")
    read = ("--clearance", "0.19 +/- 0.005 mm", "--major-diameter", "29.6 mm", "--minor-diameter", "27.6 mm")
    assert "WORN MATE" in torqcheck("mate", *pair, *read).stdout
    assert "TRUE MATE" in torqcheck("mate", *pair, *read, "--fit-class", "7").stdout
    run = torqcheck("mate", *pair, *read, "--fit-class", "8")
    assert run.returncode == 2
    assert "--fit-class 8" in run.stderr


def test_the_root_may_be_named() -> None:
    run = torqcheck(
        "mate", "--external-teeth", "27", "--internal-teeth", "28", "--pitch", "24/48", "--root", "fillet"
    )
    assert "28T 24/48 30 deg fillet root" in run.stdout
