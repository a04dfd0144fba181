"""Many writers at once, and writers that are killed: no entry is lost, none is half there."""

import random
import subprocess
import sys
import time
from pathlib import Path

from record._writer import ABOUT, files

from torqcheck.record import append, verify
from torqcheck.record.folder import entry_folders

WRITER = Path(__file__).parent / "_writer.py"


def started(folder: Path, count: int, size: int, name: str) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, str(WRITER), str(folder), str(count), str(size), name],
        stdout=subprocess.PIPE,
        text=True,
    )


def test_twenty_writers_at_once_lose_nothing(tmp_path: Path) -> None:
    folder = tmp_path / "build"
    writers = [started(folder, 2, 0, str(number)) for number in range(20)]
    for writer in writers:
        assert writer.communicate(timeout=120)[0].split() == ["0", "1"]
        assert writer.returncode == 0
    found = verify(folder)
    assert found.sound
    assert not found.left_over
    assert [entry.number for entry in found.entries] == list(range(1, 41))
    notes = {(folder / entry.folder / "scenario.toml").read_text() for entry in found.entries}
    assert notes == {
        files(f"writer {number}, {time}")["scenario.toml"].decode()
        for number in range(20)
        for time in range(2)
    }


def test_a_writer_that_is_killed_leaves_a_record_that_can_be_verified(tmp_path: Path) -> None:
    folder = tmp_path / "build"
    pauses = random.Random(20_260_704)
    written = 0
    for round_ in range(12):
        writer = started(folder, 200, 3_000_000, str(round_))
        assert writer.stdout is not None
        assert writer.stdout.readline() == "0\n"
        time.sleep(pauses.uniform(0.0, 0.05))
        writer.kill()
        said = 1 + len(writer.communicate(timeout=60)[0].split())
        found = verify(folder)
        assert found.sound
        # everything that was said to be written is there, and at most one entry that was not said yet
        assert said <= len(found.entries) - written <= said + 1
        written = len(found.entries)
    append(folder, files("last"), ABOUT)
    found = verify(folder)
    assert found.sound
    assert not found.left_over
    assert entry_folders(folder) == {entry.folder for entry in found.entries}
