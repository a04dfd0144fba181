"""Flanges: friction of the faces, bolts in shear on circles and beside their load.

Read: an example of a textbook as a study page works it, lecture pages on flanged bolt couplings, one
instructor's solution, the slip factors of structural plates. The rest is worked out.
"""

from math import pi

import pytest
from published._case import Case

from torqcheck.capacity.joining import (
    bolt_bearing_stress,
    bolt_circle_force,
    bolt_circle_radius,
    bolt_shank_area,
    bolt_shear_stress,
    eccentric_bolt_force,
    face_friction_radius,
    face_friction_torque,
    least_preload,
    two_circle_force,
)
from torqcheck.materials import face_friction

BHANDARI = "Bhandari, Design of Machine Elements"
COUPLINGS = "Lecture pages on flanged bolt couplings"
SINGER = "Singer, Strength of Materials"
SOLUTIONS = "Instructor's solutions to Budynas and Nisbett, Mechanical Engineering Design, 8th ed."
PLATES = "EN 1090-2, Execution of steel structures"
OWN = "Worked out for this project"


def test_rigid_coupling_of_fifty_kilowatts() -> None:
    """300 rev/min, six bolts, face 200 to 150 mm, mu 0.15, yield 380 MPa, safety 3."""
    torque = 50e3 / (300.0 * pi / 30.0)
    Case(BHANDARI, "9.21, torque", "published", {}, "1591549", unit=1e-3).check(torque)
    inputs = {"outer_diameter": 0.200, "inner_diameter": 0.150}
    radius = float(face_friction_radius(**inputs))
    Case(BHANDARI, "9.21, friction radius", "published", inputs, "88.1", unit=1e-3).check(radius)
    friction = face_friction("degreased").friction
    rounded = torque / float(face_friction_torque(1.0, 6.0, friction, 0.0881))
    Case(BHANDARI, "9.21, preload", "published", inputs, "20072.5").check(rounded)
    Case(BHANDARI, "9.21, preload, radius not rounded", "derived", inputs, "20073.6").check(
        torque / float(face_friction_torque(1.0, 6.0, friction, radius))
    )
    stress = 380e6 / 3.0
    core = (20072.5 / (float(bolt_shank_area(1.0)) * stress)) ** 0.5
    Case(BHANDARI, "9.21, core diameter", "published", inputs, "14.2", unit=1e-3).check(core)


def test_six_bolts_of_ten_millimetres() -> None:
    """8.8 at 75 percent of proof on 100 mm, mu 0.15; with 35 percent less and a factor of 1.25."""
    radius = float(bolt_circle_radius(0.100))
    nominal = float(face_friction_torque(25.2e3, 6.0, 0.15, radius))
    Case(OWN, "6 x M10, nominal", "derived", {}, "1134").check(nominal)
    least = float(face_friction_torque(float(least_preload(25.2e3, 0.35)), 6.0, 0.15, radius))
    Case(OWN, "6 x M10, least", "derived", {}, "590").check(least / 1.25)


@pytest.mark.parametrize(
    ("condition", "printed"),
    [("blasted", "0.50"), ("zinc silicate paint", "0.40"), ("wire-brushed", "0.30"), ("as rolled", "0.20")],
)
def test_slip_factors_of_structural_plates(condition: str, printed: str) -> None:
    friction = face_friction(condition)
    assert friction.source.mark == "published"
    Case(PLATES, f"Table 18, {condition}", "published", {}, printed).check(friction.friction)


def test_ten_bolts_on_one_circle() -> None:
    """20 mm bolts on 400 mm at 40 MPa: 8 pi kN m."""
    area = float(bolt_shank_area(0.020))
    torque = 40e6 / float(bolt_shear_stress(float(bolt_circle_force(1.0, 10.0, 0.400)), area))
    Case(COUPLINGS, "ten bolts of 20 mm", "derived", {}, "25.13", unit=1e3).check(torque)
    Case(SINGER, "ten bolts of 20 mm, over pi", "from memory", {}, "8.000", unit=1e3).check(torque / pi)


def test_two_concentric_circles() -> None:
    """Eight bolts of 10 mm on 400 mm and six on 300 mm at 60 MPa."""
    area = float(bolt_shank_area(0.010))
    force = float(two_circle_force(1.0, 8.0, 0.400, 6.0, 0.300))
    torque = 60e6 / float(bolt_shear_stress(force, area))
    Case(COUPLINGS, "two circles", "derived", {}, "10.72", unit=1e3).check(torque)
    Case(SINGER, "two circles, over pi", "from memory", {}, "3.4125", unit=1e3).check(torque / pi)


BRACKET = {"bolts": 3.0, "lever": 0.201, "radius": 0.050, "sum_of_squares": 2.0 * 0.050**2}


def test_bracket_on_three_bolts() -> None:
    """Three M12 in a row, 50 mm apart, load 201 mm beside the middle one."""
    total = float(eccentric_bolt_force(1.0, **BRACKET))
    Case(SOLUTIONS, "8-48, total", "published", BRACKET, "2.343").check(total)
    Case(SOLUTIONS, "8-48, secondary", "published", BRACKET, "2.01").check(total - 1.0 / 3.0)
    shear = float(bolt_shear_stress(total, float(bolt_shank_area(0.012))))
    Case(SOLUTIONS, "8-48, area", "published", {}, "113.1", unit=1e-6).check(float(bolt_shank_area(0.012)))
    Case(SOLUTIONS, "8-48, shear", "published", BRACKET, "4.18", unit=1e3).check(242.3e6 / 2.8 / shear)
    bearing = float(bolt_bearing_stress(total, 0.012, 0.0064))
    Case(SOLUTIONS, "8-48, bolt bearing", "published", BRACKET, "4.92", unit=1e3).check(420e6 / 2.8 / bearing)
    Case(SOLUTIONS, "8-48, channel", "published", BRACKET, "1.99", unit=1e3).check(170e6 / 2.8 / bearing)
