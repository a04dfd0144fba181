"""Many edited scenarios: in order, the same on one core and on several, faults beside answers."""

import subprocess
import sys
import time
from pathlib import Path

import pytest
from builder import EXAMPLES, loaded

from torqcheck.assessment import assess
from torqcheck.assessment.each_edited import Refused, cores, each_edited
from torqcheck.scenario import Scenario
from torqcheck.scenario.edits import edited

LENGTHS = ["20 mm", "32 mm", "no length", "1.25 in", "40 mm"]


def engagement(scenario: Scenario) -> float:
    return scenario.joint[0].engagement.value  # type: ignore[union-attr]


def weakest(scenario: Scenario) -> dict[str, object]:
    return assess(scenario).to_dict()


@pytest.mark.parametrize("workers", [1, 2, 7])
def test_answers_come_in_order_and_faults_beside_them(workers: int) -> None:
    changes = [{"joint[1].engagement": length} for length in LENGTHS]
    found = list(each_edited(loaded(), changes, engagement, workers=workers))
    assert [found[0], found[1], found[3], found[4]] == pytest.approx([0.020, 0.032, 0.03175, 0.040])
    refused = found[2]
    assert isinstance(refused, Refused)
    (fault,) = refused.faults
    assert fault.key == "joint[1].engagement"


def test_another_process_finds_the_same_to_the_last_digit() -> None:
    changes = [{"joint[1].external.steel": name} for name in ("1045_HR", "4140_QT425", "8620_carb_63")]
    found = list(each_edited(loaded(), changes, weakest, workers=2))
    assert found == [weakest(edited(loaded(), change)) for change in changes]


def test_a_mistake_of_ours_is_not_taken_for_a_fault_of_the_file() -> None:
    with pytest.raises(ZeroDivisionError):
        list(each_edited(loaded(), [{}] * 4, broken, workers=2))


def broken(_: Scenario) -> float:
    return 1 / 0


def test_there_is_a_core() -> None:
    assert cores() >= 1


def test_workers_end_with_a_process_that_is_killed(tmp_path: Path) -> None:
    """However it goes, nothing is left that waits for work."""
    marks = tmp_path / "workers"
    marks.mkdir()
    script = tmp_path / "ask.py"
    script.write_text(
        "import os, sys, time\n"
        "from pathlib import Path\n"
        "from torqcheck.assessment.each_edited import each_edited\n"
        "from torqcheck.scenario import load_scenario\n"
        "def slow(scenario):\n"
        f"    (Path({str(marks)!r}) / str(os.getpid())).touch()\n"
        "    time.sleep(0.2)\n"
        "if __name__ == '__main__':\n"
        "    list(each_edited(load_scenario(sys.argv[1]), [{}] * 1000, slow, workers=2))\n"
    )
    run = subprocess.Popen([sys.executable, str(script), str(EXAMPLES[0])])
    end = time.monotonic() + 60.0
    while len(list(marks.iterdir())) < 2 and time.monotonic() < end:
        time.sleep(0.05)
    workers = [int(mark.name) for mark in marks.iterdir()]
    assert len(workers) == 2
    run.kill()
    run.wait(timeout=30)
    while any(_alive(worker) for worker in workers) and time.monotonic() < end:
        time.sleep(0.05)
    assert not any(_alive(worker) for worker in workers)


def _alive(process: int) -> bool:
    """Whether a process is there and is no mere entry of the table any more."""
    try:
        state = Path(f"/proc/{process}/stat").read_text().rsplit(")", 1)[1].split()[0]
    except OSError:
        return False
    return state != "Z"
