"""What workshops do not make is said, whatever its stresses: thin walls, next to no engagement."""

from typing import Any

import pytest
from builder import EXAMPLES

from torqcheck.assessment.assess import assess_without_ranges
from torqcheck.scenario import load_scenario
from torqcheck.scenario.edits import edited

(TROLLEY,) = (path for path in EXAMPLES if path.stem == "works_trolley")
"""Grooves of the hub to 40.20 mm, root of the shaft 35.40 mm, pitch diameter 36 mm."""


def cautions(change: dict[str, Any]) -> dict[str, str]:
    result = assess_without_ranges(edited(load_scenario(TROLLEY), change))
    return {caution.key: caution.text for caution in result.cautions}


@pytest.mark.parametrize(
    ("change", "key", "said"),
    [
        # (42 - 40.2) / 2 = 0.9 mm, and 0.9 / 40.2 = 0.022
        ({"joint[2].internal.outside_diameter": "42 mm"}, "joint[2] wall, hub", "0.9 mm, is thin: 0.02 of"),
        # (35.4 - 34) / 2 = 0.7 mm, and 0.7 / 34 = 0.021
        ({"joint[2].external.bore": "34 mm"}, "joint[2] wall, shaft", "0.7 mm, is thin: 0.02 of"),
        # 3 / 36 = 0.083
        ({"joint[2].engagement": "3 mm"}, "joint[2] engagement", "of 3 mm is 0.083 of the pitch diameter"),
    ],
)
def test_slight_parts_are_named(change: dict[str, Any], key: str, said: str) -> None:
    assert said in cautions(change)[key]
    assert "common practice, no source" in cautions(change)[key]


def test_usual_proportions_say_nothing() -> None:
    """A wall of 0.2 of what lies inside it, or teeth of a quarter of the diameter, are still made."""
    usual = {
        "joint[2].internal.outside_diameter": "56.3 mm",
        "joint[2].external.bore": "25.2 mm",
        "joint[2].engagement": "9.1 mm",
    }
    assert not {"joint[2] wall, hub", "joint[2] wall, shaft", "joint[2] engagement"} & set(cautions(usual))


def test_a_hard_layer_from_both_sides_of_a_thin_wall_leaves_no_core() -> None:
    """The row of the shaft is carburised to 0.8 mm at least: twice that is more than a wall of 0.7 mm."""
    thin = {"joint[2].external.bore": "34 mm"}
    assert "from both sides leaves 0 mm of tough core" in cautions(thin)["joint[2] wall, shaft"]
