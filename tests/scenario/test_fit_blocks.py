"""Blocks of interference fits and clamps: what is refused, and what the user is told."""

from pathlib import Path

import pytest
from builder import BASE, refusal

from torqcheck.scenario import scenario_from_text

FIT = """
[[joint]]
name = "hub"
kind = "interference fit"
diameter = "50 mm"
length = "60 mm"
interference = "0.060 +/- 0.010 mm"
joining = "shrunk"
shaft = { steel = "4140_QT540", reused = false }
hub = { steel = "1045_HR", reused = false, outside_diameter = "85 mm" }
"""
CLAMP = """
[[joint]]
name = "clamp"
kind = "clamp"
form = "two-piece"
diameter = "50 mm"
length = "60 mm"
screws = 4
screw_preload = "40 kN"
shaft = { steel = "4140_QT540", reused = false }
"""
INTERFERENCE = 'interference = "0.060 +/- 0.010 mm"\n'


@pytest.mark.parametrize("text", [FIT, CLAMP], ids=["fit", "clamp"])
def test_sound_block_is_read(text: str) -> None:
    scenario = scenario_from_text((BASE + text).encode(), Path("test.toml"))
    assert scenario.joint[1].kind in {"interference fit", "clamp"}


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        (INTERFERENCE, "", "joint[2].interference: is missing; give interference, fit, or shaft.measured"),
        (INTERFERENCE, INTERFERENCE + 'fit = "H7/s6"\n', 'joint[2].fit: "H7/s6" contradicts interference'),
        ("0.060 +/- 0.010 mm", "0.060 mm", "has no tolerance, and the grip counts on the least interference"),
        (
            "0.060 +/- 0.010 mm",
            "0 +/- 0.010 mm",
            "leaves no interference; a shaft that is not above its bore",
        ),
        ("0.060 +/- 0.010 mm", "0.60 +/- 0.010 mm", "means an interference of 0.6 mm on 50 mm"),
        (INTERFERENCE, 'fit = "H7/k6"\n', "cannot be used: shaft k6 leaves room or may leave it"),
        (INTERFERENCE, 'fit = "tight"\n', 'cannot be used: "tight" is no fit of the basic hole'),
        (
            'steel = "1045_HR"',
            'steel = "1045_HR", material = "aluminium"',
            'hub.material: "aluminium" contra',
        ),
        (
            'steel = "1045_HR", reused = false, ',
            "",
            "joint[2].hub.steel: is missing; give steel, or material",
        ),
        ('steel = "1045_HR"', 'material = "aluminium"', "hub.reused: false only goes with steel"),
        ('steel = "1045_HR"', 'material = "wood"', "is not one of the words known here"),
        ('steel = "1045_HR"', 'steel = "1045_HR", strength = "300 MPa"', 'hub.strength: "300 MPa" contra'),
        ('steel = "1045_HR"', 'steel = "1045_XX"', 'joint[2].hub.steel: "1045_XX" cannot be used'),
        ('"85 mm"', '"50 mm"', 'hub.outside_diameter: "50 mm" leaves no wall'),
        ('"85 mm"', '"85 mm", weakest_outside = "49 mm"', 'hub.weakest_outside: "49 mm" leaves no wall'),
        ('"85 mm"', '"85 mm", weakest_outside = "86 mm"', "is above the outside diameter"),
        ('"85 mm"', '"85 mm", feature_diameter = "48 mm"', "is below the diameter of the seat"),
        ('"85 mm"', '"85 mm", feature_diameter = "88 mm"', "leaves no wall; the hub is hollow to 88.00 mm"),
        ('"85 mm"', '"85 mm", measured_bore = "49.9 +/- 0 mm"', "contradicts interference"),
        ('"4140_QT540"', '"4140_QT540", bore = "50 mm"', 'shaft.bore: "50 mm" leaves no wall'),
        ('"shrunk"', '"glued"', "is not one of the words known here"),
        ('"shrunk"', '"shrunk"\nfriction = 1.2', "must be at most 0.6"),
        ('"shrunk"', '"shrunk"\nkeyd = true', "is not a known key"),
    ],
)
def test_fit_that_cannot_be_is_refused(old: str, new: str, says: str) -> None:
    assert says in refusal(FIT, (old, new))


def test_two_diameters_go_together_and_must_match_the_seat() -> None:
    shaft = ("shaft = { ", 'shaft = { measured_diameter = "50.06 +/- 0.01 mm", ')
    bore = ("hub = { ", 'hub = { measured_bore = "50.00 +/- 0.01 mm", ')
    gone = (INTERFERENCE, "")
    assert "hub.measured_bore: is missing beside shaft.measured_diameter" in refusal(FIT, gone, shaft)
    assert "shaft.measured_diameter: is missing beside hub.measured_bore" in refusal(FIT, gone, bore)
    loose = (shaft[0], shaft[1].replace("50.06 +/- 0.01", "49.98 +/- 0.01"))
    assert "leaves no interference" in refusal(FIT, gone, loose, bore)
    exact = (shaft[0], shaft[1].replace(" +/- 0.01", ""))
    assert 'shaft.measured_diameter: "50.06 mm" has no tolerance' in refusal(FIT, gone, exact, bore)
    other = (shaft[0], shaft[1].replace("50.06", "60.06"))
    far = (bore[0], bore[1].replace("50.00", "60.00"))
    assert "does not match the diameter of the seat" in refusal(FIT, gone, other, far)


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        (
            '"two-piece"',
            '"locking collar"',
            "joint[2].axial_force: is missing; give the force that the locking",
        ),
        ("screws = 4", "screws = 3", "screws: 3 is odd for a clamp of two pieces"),
        ("screws = 4", "screws = 0", "screws: 0 must be at least 1"),
        ('"4140_QT540"', '"4140_QT540", bore = "55 mm"', 'shaft.bore: "55 mm" leaves no wall'),
        (
            "screws = 4",
            'screws = 4\nclosing_force = "40 kN"',
            'closing_force: "40 kN" is as large as the prel',
        ),
        ('"two-piece"', '"three-piece"', "is not one of the words known here"),
    ],
)
def test_clamp_that_cannot_be_is_refused(old: str, new: str, says: str) -> None:
    assert says in refusal(CLAMP, (old, new))


SCREW = 'screw = { size = "M8", strength = "12.9" }'
WRENCH = 'tightening = { torque = "35 N*m", lubrication = "plain" }'
PRELOAD = 'screw_preload = "40 kN"'


@pytest.mark.parametrize(
    ("new", "says"),
    [
        ("", "joint[2].screw_preload: is missing; give it, or screw { size, strength } and tightening"),
        (
            f"{PRELOAD}\n{SCREW}",
            "joint[2].screw: contradicts screw_preload; keep screw_preload, or screw and",
        ),
        (SCREW, "joint[2].tightening: is missing; give { torque, lubrication }"),
        (WRENCH, "joint[2].screw: is missing; what a torque pulls depends on the size"),
        (
            SCREW.replace("M8", "M8.5") + "\n" + WRENCH,
            'joint[2].screw.size: "M8.5" cannot be used: ',
        ),
        (
            SCREW.replace("12.9", "13") + "\n" + WRENCH,
            'joint[2].screw.strength: "13" cannot be used: ',
        ),
        (SCREW + '\ntightening = { lubrication = "plain" }', "joint[2].tightening.torque: is missing"),
    ],
)
def test_screws_of_a_clamp_and_their_tightening(new: str, says: str) -> None:
    assert says in refusal(CLAMP, (PRELOAD, new))
