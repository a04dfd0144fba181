"""Straight-sided splines.

Read: lecture slides after Bhandari (worked example), slides after Mott (formula), a Chinese
textbook extract (flank pressure with a share of the teeth), and one homework page that is wrong.
The coefficients of the American series are remembered.
"""

from math import pi

import pytest
from published._case import Case

from torqcheck.capacity import (
    shifting_force,
    straight_flank_pressure,
    straight_length,
    straight_torque_capacity,
    torque_coefficient,
)

BHANDARI = "Lecture slides on splines after Bhandari, Design of Machine Elements"
MOTT = "R. L. Mott, Machine Elements in Mechanical Design"
CHINESE = "Chinese textbook extract on the strength of splines"
HOMEWORK = "Worked homework page on an 8 x 52 x 60 spline"

SIZE = {"major_diameter": 0.060, "minor_diameter": 0.052}  # 8 x 52 x 60
TORQUE = 20e3 / (2 * pi * 300 / 60)  # 20 kW at 300 rev/min

COEFFICIENTS = [
    (4, 0.850, "139", "138.75"),
    (4, 0.750, "219", "218.75"),
    (6, 0.900, "143", "142.5"),
    (6, 0.850, "208", "208.125"),
    (6, 0.800, "270", "270"),
    (10, 0.910, "215", "214.875"),
    (10, 0.860, "326", "325.5"),
    (10, 0.810, "430", "429.875"),
    (16, 0.910, "344", "343.8"),
    (16, 0.860, "521", "520.8"),
    (16, 0.810, "688", "687.8"),
]


def test_torque_of_the_example() -> None:
    case = Case(
        BHANDARI,
        "example, torque",
        "published",
        {},
        "636619.76",
        unit=1e-3,
        slack=0.01,
        because="the exact value is 636 619.77; the source cuts the last digit",
    )
    case.check(TORQUE)


def test_length_of_the_example() -> None:
    inputs = {"torque": TORQUE, "allowable": 6.5e6, "teeth": 8.0, **SIZE}
    length = float(straight_length(**inputs))
    # rounded up to the full millimetre and then to a preferred length
    case = Case(
        BHANDARI,
        "example, length",
        "published",
        inputs,
        "110",
        unit=1e-3,
        slack=0.2,
        because="the source rounds 109.31 up to a preferred length",
    )
    case.check(length)
    assert length == pytest.approx(109.31e-3, abs=5e-6)
    assert float(straight_torque_capacity(6.5e6, 8.0, length, **SIZE)) == pytest.approx(TORQUE, rel=1e-12)


def test_forces_of_the_example() -> None:
    Case(BHANDARI, "example, force on the teeth", "published", {}, "22736.42").check(TORQUE / 0.028)
    inputs = {"torque": TORQUE, "mean_radius": 0.028, "friction": 0.06}
    case = Case(BHANDARI, "example, force to shift", "published", inputs, "1364.19")
    case.check(float(shifting_force(**case.inputs)))


@pytest.mark.parametrize(("teeth", "ratio", "printed", "exact"), COEFFICIENTS)
def test_coefficients_of_the_american_series(teeth: int, ratio: float, printed: str, exact: str) -> None:
    inputs = {"teeth": float(teeth), "minor_over_major": ratio}
    ours = 1000 * float(torque_coefficient(**inputs))
    Case(MOTT, f"table, {teeth} teeth, d = {ratio} D", "from memory", inputs, printed).check(ours)
    Case(MOTT, "formula, worked out", "derived", inputs, exact).check(ours)
    # the coefficient is the torque per inch of length at 1000 psi and 1 in major diameter
    inch, psi, pound_inch = 0.0254, 6894.757293168361, 0.1129848290276167
    torque = float(straight_torque_capacity(1000 * psi, teeth, inch, inch, ratio * inch))
    assert torque / pound_inch == pytest.approx(ours, rel=1e-12)


def test_flank_pressure_of_the_chinese_formula() -> None:
    inputs = {"torque": 636.61977, "teeth": 8.0, "length": 0.1093097, **SIZE}
    all_teeth = Case(CHINESE, "formula, all teeth", "published", inputs, "6.5000", unit=1e6)
    all_teeth.check(float(straight_flank_pressure(**all_teeth.inputs)))
    three_quarters = Case(CHINESE, "formula, share 0.75", "published", inputs, "8.667", unit=1e6)
    three_quarters.check(float(straight_flank_pressure(**three_quarters.inputs, loaded_share=0.75)))


def test_the_homework_page_is_not_followed() -> None:
    # it reports 28.4 mm and 1.50 kN: it takes the 60 of 8 x 52 x 60 for a face width
    torque = 18e3 / (2 * pi * 440 / 60)
    length = float(straight_length(torque, 6.5e6, 8.0, **SIZE))
    force = float(shifting_force(torque, 0.028, 0.05))
    Case(HOMEWORK, "torque, worked out here", "derived", {}, "390653", unit=1e-3).check(torque)
    Case(HOMEWORK, "length, worked out here", "derived", {}, "67.08", unit=1e-3).check(length)
    Case(HOMEWORK, "force, worked out here", "derived", {}, "697.6").check(force)
    for reported, ours, unit in (("28.4", length, 1e-3), ("1.50", force, 1e3)):
        with pytest.raises(AssertionError, match="Worked homework page"):
            Case(HOMEWORK, "as reported", "published", {}, reported, unit=unit).check(ours)
