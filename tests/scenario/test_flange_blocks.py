"""Blocks of bolted flanges: what is refused, and what the user is told."""

from pathlib import Path
from typing import get_args

import pytest
from builder import BASE, refusal

from torqcheck.materials import face_conditions, lubrications, tightening_methods
from torqcheck.scenario import scenario_from_text
from torqcheck.scenario.kinds.flange import BoltedFlangeJoint, Face, Tightening, dowel_of

FLANGE = """
[[joint]]
name = "flange"
kind = "bolted flange"
bolts = { size = "M10", strength = "8.8", count = 6, circle_diameter = "100 mm" }
tightening = { torque = "45 N*m", lubrication = "lubricated" }
face = { outer_diameter = "125 mm", inner_diameter = "70 mm" }
driving_flange = { steel = "1045_CD", thickness = "14 mm" }
driven_flange = { steel = "1045_CD", thickness = "12 mm" }
dowels = { size = "5/16 in", count = 2, circle_diameter = "100 mm" }
"""
TIGHTENING = 'torque = "45 N*m", lubrication = "lubricated"'


def test_sound_block_is_read() -> None:
    joint = scenario_from_text((BASE + FLANGE).encode(), Path("test.toml")).joint[1]
    assert isinstance(joint, BoltedFlangeJoint)
    assert joint.bolts.holes == "clearance"
    assert joint.dowels is not None
    assert dowel_of(joint.dowels).diameter == pytest.approx(0.0079375)


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('"M10"', '"M7"', "joint[2].bolts.size: \"M7\" cannot be used: 'M7' is no size of the tables"),
        ('"M10"', '"3/8-18"', "they have 3/8-16, 3/8-24"),
        ('"8.8"', '"grade 5"', "is an inch strength"),
        ('"8.8"', '"grade 12"', "M10 has 4.6, 5.8, 8.8, 10.9, 12.9; read the marks on the heads"),
        ("count = 6", "count = 40", 'bolts.circle_diameter: "100 mm" leaves no metal between the bolts'),
        ("count = 6", "count = 1", "count"),
        ('"5/16 in"', '"7 mm"', 'dowels.size: "7 mm" cannot be used: no dowel of 7 mm is tabled'),
        ('"5/16 in"', '"8"', 'dowels.size: "8" has no unit'),
        (
            "count = 2, ",
            'count = 2, engagement = "20 mm", ',
            'dowels.engagement: "20 mm" is more than either flange is thick',
        ),
        (
            'count = 2, circle_diameter = "100 mm"',
            'count = 24, circle_diameter = "50 mm"',
            "leaves no metal between the dowels",
        ),
        ('"70 mm"', '"130 mm"', 'face.inner_diameter: "130 mm" leaves no face'),
        (
            'circle_diameter = "100 mm" }\ntight',
            'circle_diameter = "250 mm" }\ntight',
            "over the edge of face",
        ),
        ("face = {", 'edge_distance = "4 mm"\nface = {', 'edge_distance: "4 mm" is within the hole'),
        (
            'inner_diameter = "70 mm"',
            'condition = "oily", friction = 0.2',
            "face.friction: 0.2 contradicts condition",
        ),
        ("face = {", 'lubrication = "plain"\nface = {', "lubrication"),
        ('"lubricated"', '"greasy"', "tightening.lubrication"),
        (
            TIGHTENING,
            TIGHTENING + ', preload = "25 kN"',
            'tightening.preload: "25 kN" contradicts torque; keep one of them',
        ),
        (
            TIGHTENING,
            TIGHTENING + ', method = "feel"',
            'tightening.method: "feel" does not measure a torque; give the preload',
        ),
        (TIGHTENING, 'preload = "25 kN"', "tightening.method: is missing; say how the preload is known"),
        (
            TIGHTENING,
            'preload = "25 kN", method = "elongation", nut_factor = 0.2',
            "tightening.nut_factor: 0.2 only goes with a torque",
        ),
        (TIGHTENING, 'method = "feel"', "tightening.torque: is missing; give torque or preload"),
        (TIGHTENING, "", "tightening.torque: is missing"),
        (TIGHTENING, 'torque = "45"', "has no unit"),
    ],
)
def test_unsound_block_is_refused_with_a_mend(old: str, new: str, says: str) -> None:
    assert says in refusal(FLANGE, (old, new))


def test_words_of_the_block_are_those_of_the_tables() -> None:
    def words(model: type, field: str) -> set[str]:
        return set(get_args(get_args(model.model_fields[field].annotation)[0]))

    assert words(Tightening, "method") == set(tightening_methods())
    assert words(Tightening, "lubrication") == set(lubrications())
    assert words(Face, "condition") == set(face_conditions())
