"""The printed report of each example, kept whole: a change must be looked at by eye.

After looking, rewrite them with ``TORQCHECK_SNAPSHOTS=write pytest tests/commands/test_snapshots.py``.
"""

import os
from pathlib import Path

import pytest
from builder import EXAMPLES
from commands._run import started_anew as torqcheck

FOLDER = Path(__file__).parent / "snapshots"


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_report_is_as_it_was_when_last_looked_at(path: Path) -> None:
    kept = FOLDER / f"{path.stem}.txt"
    now = torqcheck("assess", path, "--format", "text").stdout
    if os.environ.get("TORQCHECK_SNAPSHOTS") == "write":
        kept.write_text(now, encoding="utf-8")
    assert now == kept.read_text(encoding="utf-8")


def test_no_snapshot_without_its_example() -> None:
    assert {kept.stem for kept in FOLDER.glob("*.txt")} == {path.stem for path in EXAMPLES}
