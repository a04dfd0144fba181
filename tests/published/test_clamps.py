"""Clamp hubs, collars, split muffs and keyless bushes.

Read: a fragment of instructor's solutions with a locking collar; statements of split muffs with four
bolts, of which the case with six bolts is a remembered neighbour; shares of the pressure by the width of
a hub over a bush. The rest is worked out.
"""

from math import pi

import pytest
from published._case import Case

from torqcheck.capacity.joining import (
    bush_hub_diameter,
    bush_hub_diameter_by_shear,
    collar_axial_hold,
    one_slit_belt_torque,
    one_slit_stiff_torque,
    split_muff_torque,
    two_piece_pressure,
    two_piece_stiff_torque,
    two_piece_torque,
)

SOLUTIONS = "Instructor's solutions to Budynas and Nisbett, Mechanical Engineering Design, 8th ed."
KHURMI = "Khurmi and Gupta, A Textbook of Machine Design"
OWN = "Worked out for this project"
LBF = 4.4482216152605


def test_locking_collar_holds_four_and_a_half_times_its_load() -> None:
    """A screw of 0.375 in at 400 lbf in with K = 0.18: 5926 lbf."""
    inputs = {"screw_force": 400.0 / (0.18 * 0.375) * LBF, "screws": 1.0, "friction": 0.12}
    case = Case(SOLUTIONS, "locking collar, 1000 lbf", "published", inputs, "4.47")
    case.check(float(collar_axial_hold(**case.inputs)) / (1000.0 * LBF))


def test_locking_collar_holds_4468_pounds() -> None:
    inputs = {"screw_force": 5926.0 * LBF, "screws": 1.0, "friction": 0.12}
    case = Case(SOLUTIONS, "locking collar, 2 pi f F", "derived", inputs, "4468", unit=LBF)
    case.check(float(collar_axial_hold(**case.inputs)))


def test_torque_of_a_collar_is_its_axial_hold_at_half_the_diameter() -> None:
    """The belt form and the published axial form are one model."""
    assert float(one_slit_belt_torque(25e3, 2.0, 0.030, 0.12)) == pytest.approx(
        float(collar_axial_hold(25e3, 2.0, 0.12)) * 0.015, rel=1e-14
    )


def test_split_muff_with_six_bolts() -> None:
    """30 kW at 100 rev/min; bolts of 22.2 mm at 70 MPa, shafts of 75 mm, mu = 0.3."""
    torque = 30e3 / (100.0 * pi / 30.0)
    Case(KHURMI, "split muff, six bolts, torque", "from memory", {}, "2865").check(torque)
    shaft = (16.0 * torque / (pi * 40e6)) ** (1.0 / 3.0)
    Case(KHURMI, "split muff, six bolts, shaft", "from memory", {}, "71.4", unit=1e-3).check(shaft)
    inputs = {"bolt_stress": 70e6, "screws": 6.0, "diameter": 0.075, "friction": 0.3}
    per_square = float(split_muff_torque(1.0, **inputs))
    coefficient = Case(KHURMI, "split muff, db^2", "from memory", inputs, "5.83e3", unit=1e3)
    coefficient.check(per_square)
    bolt = (torque / per_square) ** 0.5
    Case(KHURMI, "split muff, bolts", "from memory", inputs, "22.2", unit=1e-3).check(bolt)


def test_split_muff_is_a_two_piece_clamp_with_half_of_its_bolts() -> None:
    force = 70e6 * pi * 0.0222**2 / 4.0
    ours = float(two_piece_torque(force, 3.0, 0.075, 0.3))
    assert float(split_muff_torque(0.0222, 70e6, 6.0, 0.075, 0.3)) == pytest.approx(ours, rel=1e-14)


CLAMP = {"screw_force": 25e3, "screws": 1.0, "diameter": 0.030, "friction": 0.12}


def test_one_slit_holds_between_two_forms() -> None:
    Case(OWN, "clamp, stiff", "derived", CLAMP, "180").check(float(one_slit_stiff_torque(**CLAMP)))
    Case(OWN, "clamp, belt", "derived", CLAMP, "283").check(float(one_slit_belt_torque(**CLAMP)))
    ratio = float(one_slit_belt_torque(**CLAMP)) / float(one_slit_stiff_torque(**CLAMP))
    Case(OWN, "belt over stiff", "derived", CLAMP, "1.57").check(ratio)


def test_two_pieces_hold_between_two_forms() -> None:
    four = CLAMP | {"screws": 4.0}
    Case(OWN, "two-piece, lines", "derived", four, "360").check(float(two_piece_stiff_torque(**four)))
    Case(OWN, "two-piece, even", "derived", four, "565.5").check(float(two_piece_torque(**four)))


def test_pressure_of_a_two_piece_clamp_gives_its_torque() -> None:
    pressure = float(two_piece_pressure(25e3, 4.0, 0.030, 0.040))
    ours = 0.12 * pressure * pi * 0.030**2 * 0.040 / 2.0
    assert ours == pytest.approx(float(two_piece_torque(25e3, 4.0, 0.030, 0.12)), rel=1e-14)


BUSH = {"hub_bore": 0.060, "pressure": 100e6, "yield_strength": 400e6, "width_share": 0.8}


def test_hub_over_a_keyless_bush() -> None:
    Case(OWN, "bush of 60 mm", "derived", BUSH, "73.5", unit=1e-3).check(float(bush_hub_diameter(**BUSH)))
    case = Case(OWN, "bush of 60 mm, by shear", "derived", BUSH, "77.5", unit=1e-3)
    case.check(float(bush_hub_diameter_by_shear(**BUSH)))
