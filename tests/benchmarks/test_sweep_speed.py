"""Time and memory of a sweep: a million points of the guide's checks, end to end, and ten times as many."""

import sys
import threading
import time
from pathlib import Path

import pytest
from builder import EXAMPLES

ELEVATOR = next(path for path in EXAMPLES if path.stem == "hop_elevator")
MOST_SECONDS = 5.0
MOST_BYTES = 2**30
GROWTH = 1.15
"""How much more memory four times as many points may take."""


def swept(out: Path, engagements: int) -> tuple[float, int, int]:
    """Seconds, largest memory of all processes together in bytes, and points of one run."""
    import subprocess

    count = 32
    ranges = {
        "joint[1].engagement": f"20:60 mm:{engagements}",
        "joint[1].internal.outside_diameter": f"36:70 mm:{count}",
        "motor.peak_torque": f"50:150 N*m:{count}",
        "joint[1].tilt.angle": f"0:0.5 deg:{count}",
    }
    vary = [part for key, values in ranges.items() for part in ("--vary", f"{key}={values}")]
    command = [sys.executable, "-m", "torqcheck", "sweep", str(ELEVATOR), *vary, "--out", str(out)]
    begin = time.perf_counter()
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL)
    most, done = [0], threading.Event()

    def watch() -> None:
        while not done.wait(0.03):
            most[0] = max(most[0], memory(process.pid))

    watcher = threading.Thread(target=watch)
    watcher.start()
    code = process.wait()
    seconds = time.perf_counter() - begin
    done.set()
    watcher.join()
    assert code == 0
    return seconds, most[0], engagements * count**3


def memory(pid: int) -> int:
    """Resident memory of a process and those that it started; what they share is counted for each."""
    total = 0
    try:
        children = Path(f"/proc/{pid}/task/{pid}/children").read_text().split()
    except OSError:
        return 0
    for one in (str(pid), *children):
        try:
            status = Path(f"/proc/{one}/status").read_text()
        except OSError:
            continue
        total += next((1024 * int(line.split()[1]) for line in status.splitlines() if "VmRSS" in line), 0)
    return total


@pytest.mark.skipif(not Path("/proc/self/status").exists(), reason="memory is read from /proc")
@pytest.mark.parametrize("ending", ["csv", "parquet"])
def test_a_million_points(ending: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    seconds, most, points = min(swept(tmp_path / f"{turn}.{ending}", 32) for turn in range(3))
    with capsys.disabled():
        sys.stdout.write(f"\n{points:,} points to {ending}: {seconds:.2f} s, {most / 2**20:.0f} MiB\n")
    assert seconds < MOST_SECONDS
    assert most < MOST_BYTES


@pytest.mark.skipif(not Path("/proc/self/status").exists(), reason="memory is read from /proc")
@pytest.mark.parametrize("ending", ["csv", "parquet"])
def test_memory_does_not_grow_with_the_points(
    ending: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    _, few, _ = swept(tmp_path / f"few.{ending}", 32)
    seconds, many, points = swept(tmp_path / f"many.{ending}", 128)
    with capsys.disabled():
        sys.stdout.write(
            f"\n{points:,} points to {ending}: {seconds:.1f} s, {many / 2**20:.0f} MiB "
            f"against {few / 2**20:.0f} MiB\n"
        )
    assert many < GROWTH * few
