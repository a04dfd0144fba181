"""Axial growth and stacks: printed examples of growth by heat, and sums worked out by hand.

Two notes on the growth of machines were read; one stops before its result, which is ours then. The sums of
tolerances and the growth of a bell housing are our own arithmetic and say so.
"""

import numpy as np
import pytest
from published._case import Case

from torqcheck.geometry import (
    axial_holding_force,
    statistical_tolerance,
    thermal_growth,
    usable_engagement,
    worst_case_tolerance,
)

INCH, FAHRENHEIT = 0.0254, 5.0 / 9.0
CAST_IRON = 5.9e-6 / FAHRENHEIT  # printed for each degree Fahrenheit
TOLERANCES = np.array([0.10, 0.20, 0.50, 0.30, 0.25]) * 1e-3

GROWTHS = [
    Case(
        "Note on the thermal growth of motors",
        "feet to centre 15 in, 70 to 120 F; inputs as printed, the copy stops before the result",
        "derived",
        {"expansion": CAST_IRON, "length": 15 * INCH, "temperature_rise": 50 * FAHRENHEIT},
        "0.0044",
        unit=INCH,
    ),
    Case(
        "Note on the thermal growth of machines in alignment",
        "26 in, 250 F",
        "published",
        {"expansion": CAST_IRON, "length": 26 * INCH, "temperature_rise": 250 * FAHRENHEIT},
        "0.038",
        unit=INCH,
    ),
    Case(
        "Bell housing of aluminium",
        "150 mm, 60 K",
        "derived",
        {"expansion": 23.0e-6, "length": 0.150, "temperature_rise": 60.0},
        "0.207",
        unit=1e-3,
    ),
    Case(
        "Shafts of steel beside it",
        "150 mm, 60 K",
        "derived",
        {"expansion": 11.7e-6, "length": 0.150, "temperature_rise": 60.0},
        "0.105",
        unit=1e-3,
    ),
]


@pytest.mark.parametrize("case", GROWTHS, ids=str)
def test_thermal_growth(case: Case) -> None:
    case.check(float(thermal_growth(**case.inputs)))


def test_an_aluminium_bell_draws_steel_shafts_apart() -> None:
    bell, shafts = (case.inputs for case in GROWTHS[2:])
    lost = float(thermal_growth(**bell)) - float(thermal_growth(**shafts))
    Case("Bell housing and shafts", "engagement lost", "derived", {}, "0.10", unit=1e-3).check(lost)


@pytest.mark.parametrize(
    ("printed", "ours"),
    [
        ("1.35", worst_case_tolerance(TOLERANCES)),
        ("0.67", statistical_tolerance(TOLERANCES)),
        ("1.01", statistical_tolerance(TOLERANCES, 1.5)),
    ],
)
def test_five_tolerances(printed: str, ours: float) -> None:
    case = Case("Five tolerances", "0.10, 0.20, 0.50, 0.30, 0.25 mm", "derived", {}, printed, unit=1e-3)
    case.check(float(ours))


def test_axial_force_of_a_spline_under_torque() -> None:
    case = Case("Spline under torque", "300 N m, 30 mm, 0.15", "derived", {}, "3.0", unit=1e3)
    case.check(float(axial_holding_force(300.0, 0.030, 0.15)))


def test_each_millimetre_of_spacer_costs_a_millimetre() -> None:
    """Le = P + C - H, less chamfers, run-out and seal lands, not above the cut of either part."""
    before, after = (float(usable_engagement(0.046 + 0.010 - gap, 0.002)) for gap in (0.020, 0.021))
    Case("Spacer of 1 mm", "engagement lost", "derived", {}, "1.0", unit=1e-3).check(before - after)
    assert float(usable_engagement(0.036, 0.002, 0.031, 0.040)) == pytest.approx(0.031)
