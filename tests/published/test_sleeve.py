"""Walls of sleeves and tubes: worked examples.

Two sizes of a wall in torsion were worked out by hand beside the formulas; the whirling speed is the one
that handbooks print in millimetres and rev/min, remembered, with the constant that follows from theory.
"""

from math import pi, sqrt

from published._case import Case

from torqcheck.capacity import torsional_shear_stress
from torqcheck.capacity.joining import thin_tube_shear_stress, whirling_speed

BY_HAND = "Worked by hand from standard mechanics"
WALL = {"torque": 500.0, "mean_diameter": 0.060, "wall": 0.003}


def test_thin_wall() -> None:
    case = Case(BY_HAND, "wall of 3 mm at 60 mm, thin", "derived", WALL, "29.5", unit=1e6)
    case.check(float(thin_tube_shear_stress(**case.inputs)))


def test_the_same_wall_exactly() -> None:
    inputs = {"torque": 500.0, "outer_diameter": 0.063, "bore": 0.057}
    case = Case(BY_HAND, "wall of 3 mm at 60 mm, exact", "derived", inputs, "30.9", unit=1e6)
    case.check(float(torsional_shear_stress(**case.inputs)))


def test_capacity_of_a_sleeve_wall_is_the_torque_that_gives_the_stress() -> None:
    # Ssy pi (D^4 - Dm^4) / (16 D): 52 mm over grooves of 39 mm at 210 MPa
    inputs = {"outer_diameter": 0.052, "bore": 0.039}
    case = Case(BY_HAND, "sleeve wall at first yield", "derived", inputs, "3.963", unit=1e3)
    case.check(210e6 / float(torsional_shear_stress(1.0, **case.inputs)))


def whirling_constant(outer: float, bore: float, length: float) -> float:
    """Constant of n = c sqrt(Do^2 + Di^2)/L^2, mm and rev/min."""
    speed = float(whirling_speed(outer, length, bore)) * 30.0 / pi
    return speed * (1e3 * length) ** 2 / (1e3 * sqrt(outer**2 + bore**2))


def test_constant_of_the_whirling_speed() -> None:
    case = Case(BY_HAND, "whirling speed of a steel tube", "derived", {"L": 1.2}, "1.21", unit=1e8)
    case.check(whirling_constant(0.060, 0.054, case.inputs["L"]))
    case.check(whirling_constant(0.090, 0.0, 0.5))


def test_constant_of_the_whirling_speed_as_remembered() -> None:
    case = Case(
        "Handbooks on drive shafts",
        "whirling speed of a steel tube",
        "from memory",
        {"L": 1.2},
        "1.22",
        unit=1e8,
        slack=0.01,
        because="theory with 207 GPa and 7850 kg/m3 gives 1.210; the book's constants are not known",
    )
    case.check(whirling_constant(0.060, 0.054, case.inputs["L"]))
