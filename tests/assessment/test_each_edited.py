"""Many edited scenarios: in order, the same on one core and on several, faults beside answers."""

import pytest
from builder import loaded

from torqcheck.assessment import assess
from torqcheck.assessment.each_edited import Refused, each_edited
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
