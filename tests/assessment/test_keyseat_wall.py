"""A bored shaft with a keyseat: no pass on a wall that no formula here knows."""

from pathlib import Path

import pytest
from builder import BASE, EXAMPLES, assessed

from torqcheck.assessment import Assessment, assess
from torqcheck.assessment.size.solve import size
from torqcheck.scenario import Scenario, load_scenario
from torqcheck.scenario.edits import edited

(AUGER,) = (path for path in EXAMPLES if path.stem == "grain_auger")
READING = "strength of the wall under the keyseat"
SHAFT = """
[[joint]]
name = "stub"
kind = "shaft"
diameter = "40 mm"
bore = "{bore}"
length = "80 mm"
steel = "4140_QT425"
reused = false
notches = [ {{ kind = "keyseat", width = "8 mm", depth = "4 mm", root_radius = "0.6 mm" }} ]
"""


def bored(bore: str, path: Path = AUGER) -> Scenario:
    return edited(load_scenario(path), {"joint[1].shaft.bore": bore})


def missing(assessment: Assessment) -> set[str]:
    return {entry.reading for entry in assessment.undecided_by}


@pytest.mark.parametrize(
    ("bore", "thin"),
    # 28 mm with a seat of 4 mm: 14 - 4 - bore / 2
    [("19.5 mm", True), ("12.1 mm", True), ("12.0 mm", False), ("6 mm", False)],
)
def test_a_key_needs_as_much_wall_as_its_seat_is_deep(bore: str, thin: bool) -> None:
    found = assess(bored(bore))
    assert (READING in missing(found)) == thin
    assert (found.joints[0].verdict == "undecided") == thin
    said = [entry.text for entry in found.cautions if entry.key.endswith("wall") and "keyseat" in entry.text]
    assert bool(said) == thin
    if bore == "19.5 mm":
        assert "leaves 0.25 mm of wall" in said[0]


@pytest.mark.parametrize(("bore", "thin"), [("25 mm", True), ("24 mm", False)])
def test_a_keyseat_of_a_plain_shaft_likewise(bore: str, thin: bool) -> None:
    """20 - 4 - 12.5 = 3.5 mm is thin, 20 - 4 - 12 = 4 mm is not."""
    assert (READING in missing(assessed(base=BASE + SHAFT.format(bore=bore)))) == thin


def test_no_bore_is_sized_that_leaves_less() -> None:
    found = size(load_scenario(AUGER), "1", "bore")
    assert found.exact is None or found.exact <= 0.012 * (1.0 + 1e-6)
