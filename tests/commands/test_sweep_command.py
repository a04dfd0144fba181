"""`torqcheck sweep`: rows, summary, bad input; stopped and taken up again to the byte."""

import csv
import io
import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import numpy as np
import pyarrow.parquet as pq
import pytest
from builder import EXAMPLES
from commands._run import torqcheck

ELEVATOR = next(path for path in EXAMPLES if path.stem == "hop_elevator")
SMALL = ("--vary", "joint[1].engagement=20:60 mm:5", "--vary", "motor.peak_torque=60:120 N*m:3")
LONG = (
    "--vary", "joint[1].engagement=20:60 mm:25", "--vary", "motor.peak_torque=60:120 N*m:25",
    "--vary", "duty[1].speed=900,1200 rpm", "--vary", "joint[1].tilt.angle=0:0.5 deg:25",
    "--vary", "motor.max_speed=1000:1800 rpm:4", "--chunk", "4000",
)  # fmt: skip
LONG_POINTS = 25**3 * 8


def rows(path: Path) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(path.read_text())))


def beside(path: Path) -> list[str]:
    """Names of everything in the folder but the file itself."""
    return sorted(other.name for other in path.parent.iterdir() if other != path)


def test_rows_hold_what_the_single_check_says(tmp_path: Path) -> None:
    out = tmp_path / "rows.csv"
    run = torqcheck("sweep", ELEVATOR, *SMALL, "--out", out)
    assert (run.returncode, run.stderr) == (0, "")
    found = rows(out)
    assert len(found) == 15
    assert list(found[0])[:3] == ["joint[1].engagement (mm)", "motor.peak_torque (N*m)", "joint[1].torque_Nm"]
    assert found[1]["joint[1].engagement (mm)"] == "20.0"
    assert found[1]["motor.peak_torque (N*m)"] == "90.0"
    own = tmp_path / "own.toml"
    text = ELEVATOR.read_text()
    engagement, torque = (
        next(line for line in text.splitlines() if line.startswith(f"{key} ="))
        for key in ("engagement", "peak_torque")
    )
    own.write_text(text.replace(engagement, 'engagement = "20 mm"').replace(torque, 'peak_torque = "90 N*m"'))
    joint = json.loads(torqcheck("assess", own, "--format", "json").stdout)["joints"][0]
    checks = {(check["name"], check["method"]): check["safety_factor"] for check in joint["checks"]}
    assert float(found[1]["joint[1].peak_torque_Nm"]) == joint["peak_torque_Nm"]
    for name, column in (("flank pressure", "flank_pressure"), ("root shear, external member", "root_shear")):
        assert (
            float(found[1][f"joint[1].{column}_tabulated_safety_factor"]) == checks[name, "guide, tabulated"]
        )
        assert (
            float(found[1][f"joint[1].{column}_simulated_safety_factor"]) == checks[name, "guide, simulated"]
        )
    assert beside(out) == ["own.toml"]


def test_the_summary_fits_80_columns_and_says_what_it_means() -> None:
    run = torqcheck("sweep", ELEVATOR, *SMALL)
    assert (run.returncode, run.stderr) == (0, "")
    assert run.stdout.isascii()
    assert max(map(len, run.stdout.splitlines())) <= 80
    for words in ("points reach the target", "rank corr.", "as a map", "Not in it", "licensed practice"):
        assert words in " ".join(run.stdout.split())


def test_the_answer_says_which_checks_were_asked() -> None:
    head = " ".join(torqcheck("sweep", ELEVATOR, *SMALL).stdout.split("\n\n")[0].split())
    assert "reach the target in every check of the guide" in head
    assert "Mates, wear, fatigue and first tooth were not asked" in head


def test_csv_and_parquet_hold_the_same_numbers(tmp_path: Path) -> None:
    for name in ("a.csv", "a.parquet"):
        assert torqcheck("sweep", ELEVATOR, *SMALL, "--out", tmp_path / name).returncode == 0
    table = pq.read_table(tmp_path / "a.parquet")
    written = rows(tmp_path / "a.csv")
    assert table.column_names == list(written[0])
    for name in table.column_names[:-2]:
        assert [float(row[name]) for row in written] == table[name].to_pylist()
    assert [row["weakest"] for row in written] == table["weakest"].to_pylist()
    assert table["refused"].null_count == 15


def test_the_full_assessment_of_each_point(tmp_path: Path) -> None:
    out = tmp_path / "all.csv"
    run = torqcheck(
        "sweep", ELEVATOR, "--vary", "joint[1].engagement=20,60 mm", "--method", "all", "--out", out,
        "--format", "json",
    )  # fmt: skip
    assert (run.returncode, run.stderr) == (0, "")
    summary, found = json.loads(run.stdout), rows(out)
    assert summary["points"] == 2
    assert sum(summary["tally"].values()) == 2
    for row in found:
        assert row["verdict"] in {"pass", "marginal", "undecided", "fail"}
        assert float(row["joint[1].life_hours_p10"] or 1.0) <= float(row["joint[1].life_hours_p50"] or 1.0)
    assert float(found[0]["safety_factor_over_target"]) < float(found[1]["safety_factor_over_target"])


def test_workers_change_nothing(tmp_path: Path) -> None:
    for workers in (1, 2):
        out = tmp_path / f"{workers}.csv"
        arguments = (*LONG[:6], "--chunk", "200")
        assert (
            torqcheck("sweep", ELEVATOR, *arguments, "--workers", str(workers), "--out", out).returncode == 0
        )
    assert (tmp_path / "1.csv").read_bytes() == (tmp_path / "2.csv").read_bytes()


def test_a_hypercube_is_the_same_again(tmp_path: Path) -> None:
    latin = ("--design", "latin", "--points", "300", "--seed", "7")
    for name in ("a.csv", "b.csv"):
        assert torqcheck("sweep", ELEVATOR, *SMALL, *latin, "--out", tmp_path / name).returncode == 0
    assert (tmp_path / "a.csv").read_bytes() == (tmp_path / "b.csv").read_bytes()
    assert len(rows(tmp_path / "a.csv")) == 300


def started(out: Path, *arguments: str) -> subprocess.Popen[str]:
    command = [sys.executable, "-m", "torqcheck", "sweep", str(ELEVATOR), *LONG, "--out", str(out)]
    return subprocess.Popen(
        [*command, *arguments], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
        env={**os.environ, "PYTHONUTF8": "1"}, preexec_fn=heed_interrupts,
    )  # fmt: skip


def heed_interrupts() -> None:
    """Take back what a shell does to a test run in its background: there an interrupt is ignored."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)


def half_done(out: Path, process: subprocess.Popen[str]) -> int:
    """Wait until some chunks are written and others are not; how many there are."""
    journal = out.with_name(out.name + ".journal")
    for _ in range(3000):
        lines = journal.read_bytes().count(b"\n") if journal.exists() else 0
        if lines >= 3:
            return lines - 1
        assert process.poll() is None, "it was done before it could be stopped"
        time.sleep(0.01)
    pytest.fail("nothing was written")


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """Each file as one run without a stop writes it."""
    folder = tmp_path_factory.mktemp("whole")
    found = {}
    for ending in ("csv", "parquet"):
        out = folder / f"rows.{ending}"
        run = torqcheck("sweep", ELEVATOR, *LONG, "--out", out)
        assert (run.returncode, run.stderr) == (0, "")
        found[ending] = out.read_bytes()
    assert found["csv"].count(b"\n") == LONG_POINTS + 1
    return found


@pytest.mark.parametrize("ending", ["csv", "parquet"])
@pytest.mark.parametrize("how", [signal.SIGKILL, signal.SIGTERM, signal.SIGINT], ids=lambda how: how.name)
def test_a_stopped_run_is_taken_up_to_the_byte(
    tmp_path: Path, how: signal.Signals, ending: str, whole: dict[str, bytes]
) -> None:
    out = tmp_path / f"rows.{ending}"
    process = started(out)
    half_done(out, process)
    process.send_signal(how)
    _, error = process.communicate(timeout=60)
    assert not out.exists()
    if how is signal.SIGKILL:
        assert process.returncode == -how
        # as if it had been caught in the middle of writing rows, margins and journal
        for other in ("part", "margins", "journal"):
            with out.with_name(f"{out.name}.{other}").open("ab") as file:
                file.write(b'{"chunk": 99, "end')
                file.truncate(file.tell() + 2 * len(whole["csv"]))
    else:
        assert process.returncode == 130
        assert "--resume" in error
        assert error.count("\n") == 1
    again = torqcheck("sweep", ELEVATOR, *LONG, "--out", out)
    assert again.returncode == 2
    assert "add --resume to go on with it" in again.stderr
    time.sleep(0.3)
    resumed = torqcheck("sweep", ELEVATOR, *LONG, "--out", out, "--resume", "--format", "json")
    assert (resumed.returncode, resumed.stderr) == (0, "")
    assert out.read_bytes() == whole[ending]
    assert beside(out) == []
    summary = json.loads(resumed.stdout)
    assert summary["points"] == LONG_POINTS
    factors = np.array([float(row["safety_factor_over_target"] or "nan") for row in _rows(out)])
    assert summary["refused"] == np.count_nonzero(np.isnan(factors)) > 0
    assert summary["passing"] == np.count_nonzero(factors >= 1.0)
    assert summary["safety_factor_over_target"]["smallest"] == np.nanmin(factors)
    assert summary["safety_factor_over_target"]["median"] == np.nanmedian(factors)


def _rows(out: Path) -> list[dict[str, str]]:
    return rows(out) if out.suffix == ".csv" else pq.read_table(out).to_pylist()


def test_a_chunk_that_was_damaged_is_computed_again(tmp_path: Path, whole: dict[str, bytes]) -> None:
    out = tmp_path / "rows.csv"
    process = started(out)
    half_done(out, process)
    process.kill()
    process.communicate(timeout=60)
    part = out.with_name("rows.csv.part")
    content = bytearray(part.read_bytes())
    content[1000] ^= 1
    part.write_bytes(content)
    time.sleep(0.3)
    assert torqcheck("sweep", ELEVATOR, *LONG, "--out", out, "--resume").returncode == 0
    assert out.read_bytes() == whole["csv"]


def test_only_one_run_writes_a_file_and_only_the_same_question_goes_on(tmp_path: Path) -> None:
    out = tmp_path / "rows.csv"
    process = started(out)
    try:
        half_done(out, process)
        process.send_signal(signal.SIGSTOP)  # it holds the file while it stands still
        second = torqcheck("sweep", ELEVATOR, *LONG, "--out", out, "--resume")
        assert second.returncode == 4
        assert "another sweep is writing it" in second.stderr
        assert second.stderr.count("\n") == 1
    finally:
        process.kill()
        process.communicate(timeout=60)
    time.sleep(0.3)
    other = torqcheck("sweep", ELEVATOR, *SMALL, "--out", out, "--resume")
    assert other.returncode == 2
    assert "asked something else (chunk, points, vary)" in other.stderr
    assert torqcheck("sweep", ELEVATOR, *SMALL, "--out", out, "--force").returncode == 0
    assert len(rows(out)) == 15
    assert beside(out) == []


def test_a_finished_run_is_not_done_again(tmp_path: Path) -> None:
    out = tmp_path / "rows.csv"
    assert torqcheck("sweep", ELEVATOR, *SMALL, "--out", out).returncode == 0
    before = out.read_bytes()
    for more in ((), ("--resume",)):
        run = torqcheck("sweep", ELEVATOR, *SMALL, "--out", out, *more)
        assert run.returncode == 2
        assert "exists" in run.stderr
    assert out.read_bytes() == before
    assert torqcheck("sweep", ELEVATOR, *SMALL, "--out", out, "--force").returncode == 0
    assert out.read_bytes() == before


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        ((), "nothing is varied"),
        ((*SMALL, "--chunk", "0"), "from 1 to 1000000"),
        (("--vary", "joint[1].engagement=20:40 mm:20000"), "need a file"),
        ((*SMALL, "--out", "rows.txt"), "must end in .csv or .parquet"),
        ((*SMALL, "--out", "none/rows.csv"), "does not exist"),
        ((*SMALL, "--resume"), "go with --out"),
        ((*SMALL, "--out", "a.csv", "--resume", "--force"), "give one of them"),
        ((*SMALL, "--workers", "0"), "from 1 to 256"),
        ((*SMALL, "--figure", "map.pdf"), "must end in .svg or .png"),
        ((*SMALL, "--vary", "driven.damping_ratio=0.02,0.03", "--figure", "map.svg"), "one or two keys"),
    ],
)
def test_what_cannot_be_is_said_before_anything_is_computed(
    tmp_path: Path, arguments: tuple[str, ...], says: str
) -> None:
    run = torqcheck("sweep", ELEVATOR, *arguments, folder=tmp_path)
    assert run.returncode in {2, 4}
    assert says in run.stderr
    assert run.stdout == ""
    assert list(tmp_path.iterdir()) == []


def test_without_pyarrow_a_line_says_how_to_get_it(tmp_path: Path) -> None:
    (tmp_path / "pyarrow.py").write_text("raise ImportError\n")
    path = os.pathsep.join([str(tmp_path), *filter(None, [os.environ.get("PYTHONPATH")])])
    run = torqcheck("sweep", ELEVATOR, *SMALL, "--out", tmp_path / "a.parquet", PYTHONPATH=path)
    assert run.returncode == 2
    assert "pip install 'torqcheck[parquet]'" in run.stderr
    assert run.stderr.count("\n") == 1
    good = torqcheck("sweep", ELEVATOR, *SMALL, "--out", tmp_path / "a.csv", PYTHONPATH=path)
    assert good.returncode == 0


@pytest.mark.parametrize("vary", [SMALL, SMALL[:2]], ids=["contours", "line"])
@pytest.mark.parametrize("ending", ["svg", "png"])
def test_a_figure_with_its_words(tmp_path: Path, vary: tuple[str, ...], ending: str) -> None:
    out = tmp_path / f"map.{ending}"
    run = torqcheck("sweep", ELEVATOR, *vary, "--figure", out)
    assert run.returncode == 0
    assert "weakest safety factor over its target against joint[1].engagement (mm)" in run.stderr
    assert out.stat().st_size > 5000


def test_summary_as_csv_and_markdown() -> None:
    found = list(csv.DictReader(io.StringIO(torqcheck("sweep", ELEVATOR, *SMALL, "--format", "csv").stdout)))
    assert [row["key"] for row in found] == ["joint[1].engagement (mm)", "motor.peak_torque (N*m)"]
    assert float(found[0]["rank_correlation"]) > 0.0 > float(found[1]["rank_correlation"])
    shown = torqcheck("sweep", ELEVATOR, *SMALL, "--format", "markdown").stdout
    assert r"| joint\[1\].engagement (mm) |" in shown
