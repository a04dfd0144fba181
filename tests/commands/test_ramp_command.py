"""`torqcheck ramp`: what it prints, writes and exits with."""

import csv
import io
import json
import math
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from builder import EXAMPLES, edited
from commands._run import torqcheck

SCENARIOS = {path.stem: path for path in EXAMPLES}
CODES = {
    "vineyard_carrier": 0,
    "works_trolley": 0,
    "orchard_tractor": 0,
    "hop_elevator": 0,
    "harbour_launch": 1,
    "stone_saw": 1,
    "timber_winch": 3,
    "narrow_gauge_loco": 3,
    "cider_press": 3,
}


def answer(*arguments: str | Path) -> dict[str, Any]:
    run = torqcheck("ramp", *arguments, "--format", "json")
    result: dict[str, Any] = json.loads(
        run.stdout, parse_constant=lambda name: pytest.fail(f"{name} is not JSON")
    )
    return result


@pytest.mark.parametrize("name", CODES)
def test_examples_end_with_their_exit_code_within_80_columns(name: str) -> None:
    run = torqcheck("ramp", SCENARIOS[name])
    assert run.returncode == CODES[name]
    assert run.stderr == ""
    assert "\x1b" not in run.stdout
    assert max(map(len, run.stdout.splitlines())) <= 80
    assert run.stdout.isascii()  # no terminal: plots in plain characters
    for words in ("VERDICT: ", "short-circuit torque", "both directions", "licensed practice"):
        assert words in run.stdout


def test_the_answer_comes_first_in_one_sentence_in_the_language_of_the_scenario() -> None:
    lines = torqcheck("ramp", SCENARIOS["vineyard_carrier"], "--units", "si").stdout.splitlines()
    assert lines[1].startswith("SET ")
    assert "% of peak per 10 ms (" in lines[1]
    text = " ".join(lines[:9])
    assert "in 95 of 100 draws" in text
    assert "Write percent_per_10ms = " in text


def test_table_and_headline_round_a_setting_to_the_same_slower_side() -> None:
    """2.1 % of peak per 10 ms are 476.19 ms: 476 would be faster than what was found to hold."""
    lines = torqcheck("ramp", SCENARIOS["vineyard_carrier"], "--units", "si").stdout.splitlines()
    rise, time, percent = next(line for line in lines if line.endswith("recommended")).split()[:3]
    assert float(time) == math.ceil(1e3 / float(percent))
    assert f"({time} ms from zero to full torque; {rise} N m/s)" in lines[1]
    assert f"instead of {time} ms in one stage" in " ".join(lines)


def test_json_keeps_its_contract() -> None:
    result = answer(SCENARIOS["vineyard_carrier"])
    peak = result["motor_peak_torque_Nm"]
    assert result["rise_time_s"] == pytest.approx(peak / result["torque_rise_Nm_s"])
    assert result["percent_per_10ms"] == pytest.approx(result["torque_rise_Nm_s"] / peak)
    assert result["weakest"]["safety_factor"] >= result["weakest"]["target"]
    curve = result["curve"]
    assert [point["torque_rise_Nm_s"] for point in curve] == sorted(p["torque_rise_Nm_s"] for p in curve)
    assert {"torque_rise_Nm_s", "peak_torque_Nm", "safety_factor"} <= set(curve[0])
    assert result["torque_rise_Nm_s"] in [point["torque_rise_Nm_s"] for point in curve]
    two = result["two_stage"]
    assert {"closing_torque_Nm", "closing_time_s", "torque_rise_Nm_s"} <= set(two)
    assert two["time_to_full_torque_s"] == pytest.approx(
        peak / two["torque_rise_Nm_s"] + two["closing_time_s"]
    )
    assert isinstance(result["reason"], str)
    assert result["draws"] >= 512
    assert result["percentile"] == 95.0
    assert result["scenario"]["file"] == "vineyard_carrier.toml"


def test_json_where_no_ramp_holds_has_no_numbers_in_place_of_a_setting() -> None:
    result = answer(SCENARIOS["harbour_launch"])
    for key in ("torque_rise_Nm_s", "rise_time_s", "percent_per_10ms", "two_stage", "recommended", "limit"):
        assert result[key] is None
    assert "even the slowest ramp" in result["reason"]
    assert result["failing_at_the_slowest"][0]["check"] == "flank pressure"
    assert any(mend["key"] == "motor.peak_torque" and mend["helps"] for mend in result["mends"])
    assert result["two_stage_reason"]


def test_csv_is_the_curve() -> None:
    rows = list(
        csv.DictReader(io.StringIO(torqcheck("ramp", SCENARIOS["stone_saw"], "--format", "csv").stdout))
    )
    assert len(rows) > 15
    rises = [float(row["torque_rise_Nm_s"]) for row in rows]
    assert rises == sorted(rises)
    assert {row["setting"] for row in rows} == {"", "recommended", "as set now"}
    for row in rows:
        assert (
            float(row["peak_torque_p5_Nm"])
            <= float(row["peak_torque_p50_Nm"])
            <= float(row["peak_torque_p95_Nm"])
        )


def test_both_unit_systems_and_all_forms() -> None:
    inch = torqcheck("ramp", SCENARIOS["stone_saw"], "--units", "inch").stdout
    assert "lbf ft/s" in inch
    assert "N m" not in inch.split("Assumptions")[0]
    markdown = torqcheck("ramp", SCENARIOS["stone_saw"], "--format", "markdown").stdout
    assert markdown.startswith("# torqcheck")
    assert "| N m/s |" in markdown
    text = torqcheck("ramp", SCENARIOS["stone_saw"], "--format", "text").stdout
    assert "Peak torque\n===========" in text


def test_trace_shows_the_blow_as_recommended_and_as_set() -> None:
    run = torqcheck("ramp", SCENARIOS["vineyard_carrier"], "--trace")
    assert max(map(len, run.stdout.splitlines())) <= 80
    for setting in ("as recommended", "in two stages", "as set now"):
        assert f"Torque over time, {setting}, start: " in run.stdout
    assert "flanks meet at" in run.stdout


@pytest.mark.parametrize("ending", ["svg", "png"])
def test_figures_are_written_and_said_in_words(ending: str, tmp_path: Path) -> None:
    curve, trace = tmp_path / f"curve.{ending}", tmp_path / f"trace.{ending}"
    run = torqcheck("ramp", SCENARIOS["stone_saw"], "--figure", curve, "--trace-figure", trace)
    assert run.returncode == 1
    head = b"<?xml" if ending == "svg" else b"\x89PNG"
    assert curve.read_bytes().startswith(head)
    assert trace.read_bytes().startswith(head)
    assert "safety factor against the torque rise" in run.stderr
    assert "torque in the path (solid)" in run.stderr


def test_out_writes_the_report_and_never_over_the_scenario(tmp_path: Path) -> None:
    target = tmp_path / "ramp.txt"
    run = torqcheck("ramp", SCENARIOS["works_trolley"], "--format", "text", "--out", target)
    assert run.returncode == 0
    assert run.stdout == ""
    assert target.read_text().startswith("torqcheck")
    copy = tmp_path / "job.toml"
    copy.write_text(edited())
    run = torqcheck("ramp", copy, "--out", copy)
    assert run.returncode == 2
    assert copy.read_text() == edited()


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (('torque_rise = "4800 N*m/s"', 'torque_rise = "0 N*m/s"'), "motor.torque_rise"),
        (('torque_rise = "4800 N*m/s"', ""), "motor.torque_rise: is missing"),
        (('torque_rise = "4800 N*m/s"', 'torque_rise = "4800 N*m"'), "is a torque, not a torque rise"),
        (('torque_rise = "4800 N*m/s"', "percent_per_10ms = 300"), "percent_per_10ms"),
        (("damping_ratio = 0.03", "damping_ratio = -1"), "damping_ratio"),
    ],
)
def test_bad_input_gives_one_line_and_exit_code_2(change: tuple[str, str], said: str, tmp_path: Path) -> None:
    file = tmp_path / "job.toml"
    file.write_text(edited(change))
    run = torqcheck("ramp", file)
    assert run.returncode == 2
    assert said in run.stderr
    assert run.stdout == ""
    assert "Traceback" not in run.stderr


@pytest.mark.parametrize("option", ["--figure", "--trace-figure"])
def test_a_figure_of_another_ending_is_refused_before_anything_is_computed(option: str) -> None:
    run = torqcheck("ramp", SCENARIOS["works_trolley"], option, "curve.pdf")
    assert run.returncode == 2
    assert "must end in .svg or .png" in run.stderr
    assert not Path("curve.pdf").exists()


def test_missing_file_and_missing_folder() -> None:
    assert torqcheck("ramp", "no_such.toml").returncode == 2
    run = torqcheck("ramp", SCENARIOS["works_trolley"], "--out", "no/such/folder/x.txt")
    assert run.returncode == 2
    assert "make it first" in run.stderr


def test_no_picture_library_is_loaded_without_a_figure() -> None:
    script = (
        "import sys, io, contextlib\n"
        "from torqcheck.cli import run\n"
        "with contextlib.redirect_stdout(io.StringIO()):\n"
        f"    run(['ramp', {str(SCENARIOS['vineyard_carrier'])!r}, '--trace'])\n"
        "print(*{name.split('.')[0] for name in sys.modules})\n"
    )
    run = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True, timeout=60
    )
    assert not {"matplotlib", "scipy", "pandas", "pint", "rich"} & set(run.stdout.split())


def changed(tmp_path: Path, name: str, old: str, new: str) -> Path:
    """An example with one piece replaced."""
    text = SCENARIOS[name].read_text()
    assert old in text
    path = tmp_path / "changed.toml"
    path.write_text(text.replace(old, new, 1))
    return path


def test_a_regeneration_swing_that_fails_stands_in_the_headline(tmp_path: Path) -> None:
    new = 'percent_per_10ms = 2.1\nregen_rise = "50000 N*m/s"'
    path = changed(tmp_path, "vineyard_carrier", "percent_per_10ms = 5", new)
    head = " ".join(torqcheck("ramp", path, "--units", "si").stdout.split("VERDICT")[0].split())
    assert "AND SET regen_rise to at most 420 N m/s" in head
    assert "Nothing has to be changed" not in head
    assert "Only the regeneration has to be changed" in head
    # what it says holds, and what is set does not: asked of the other command
    simulated = {}
    for rise in ("50000", "420"):
        path.write_text(path.read_text().replace("50000", rise))
        result = json.loads(torqcheck("assess", path, "--format", "json").stdout)
        simulated[rise] = min(
            check["safety_factor"]
            for joint in result["joints"]
            for check in joint["checks"]
            if check["method"] == "guide, simulated"
        )
    assert simulated["50000"] < 1.0
    assert simulated["420"] >= 1.5


def test_two_stages_are_told_so_that_they_cannot_be_set_too_short() -> None:
    text = " ".join(torqcheck("ramp", SCENARIOS["vineyard_carrier"], "--units", "si").stdout.split())
    assert "Rise to 13 N m (6.7 % of the peak), hold it there for" in text
    assert "do not set a shorter rest" in text


def test_two_figures_in_one_file_are_refused(tmp_path: Path) -> None:
    figure = tmp_path / "one.svg"
    run = torqcheck("ramp", SCENARIOS["stone_saw"], "--figure", figure, "--trace-figure", figure)
    assert run.returncode == 2
    assert "name the same file" in run.stderr
    assert not figure.exists()


def test_next_to_no_inertia_before_the_slip_is_raised_and_said(tmp_path: Path) -> None:
    path = changed(tmp_path, "narrow_gauge_loco", "0.12 kg*m^2", "1e-9 kg*m^2")
    run = torqcheck("assess", path, "--units", "si")
    assert run.returncode == 3
    assert "below a thousandth of the driving inertia; 0.00011 kg m^2 is taken" in " ".join(
        run.stdout.split()
    )


def test_examples_in_the_help_exist() -> None:
    for line in torqcheck("ramp", "--help").stdout.splitlines():
        for word in line.split():
            if word.startswith("scenarios/"):
                assert Path(word).stem in SCENARIOS
