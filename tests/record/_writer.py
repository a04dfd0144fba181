"""A process of its own that adds entries to a record, for tests that stop it or run many of them."""

import sys
from pathlib import Path

from torqcheck.record import append

ABOUT = {
    "torqcheck": "0",
    "title": "Test bench",
    "build": "T-1",
    "checked_by": "",
    "date": "2026-03-14",
    "verdict": "pass",
}


def files(text: str, size: int = 0) -> dict[str, bytes]:
    """A small entry, or one that takes a while to write."""
    return {
        "scenario.toml": f'format = 1\n[record]\nnotes = "{text}"\n'.encode(),
        "result.json": b'{"verdict": "pass", "joints": []}',
        "data/round.csv": b"time_s,torque_Nm\n" + bytes(size),
    }


if __name__ == "__main__":
    folder, count, size = Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3])
    for number in range(count):
        append(folder, files(f"writer {sys.argv[4]}, {number}", size), ABOUT)
        sys.stdout.write(f"{number}\n")
        sys.stdout.flush()
