"""Wear coefficients, their units, and slip, as far as outside numbers could be read.

Read: a page on wear coefficients with the list of Archard and Hirst and its worked hardness,
Machinery's Handbook table 10, a rig report's abstract (induction times), threads of practitioners.
Remembered: the hardnesses of the list, the inputs of the pin-on-disc test.
"""

from math import pi, sqrt

import pytest
from published._case import Case

from torqcheck.capacity import wear_life_factor
from torqcheck.wear import (
    CUBIC_MILLIMETRE_PER_NEWTON_METRE,
    KILOGRAM_FORCE_PER_SQUARE_MILLIMETRE,
    hardness_scale,
    hours_to_depth,
    implied_wear_coefficient,
    offset_from_runout,
    offset_slip_path,
    wear_coefficient_from_hardness,
    worn_volume,
)

HIRST = "Archard and Hirst, Proc. R. Soc. A 236, 1956, 397, list on a wear-coefficient page"
RIG = "Report on a misaligned-spline rig, ADA091861, 1980"
HANDBOOK = "Machinery's Handbook, Involute Splines"

# name, K (published), hardness in kgf/mm2 (from memory), k by K/H and by K/(3 H) in mm3/(N m)
PAIRS = [
    ("mild steel on itself", 7e-3, 186, "3.8e-3", "1.3e-3"),
    ("hard tool steel on itself", 1.3e-4, 850, "1.6e-5", "5.2e-6"),
    ("ferritic stainless on tool steel", 1.7e-5, 250, "6.9e-6", "2.3e-6"),
    ("brass on tool steel", 6e-4, 95, "6.4e-4", "2.1e-4"),
    ("copper-beryllium on tool steel", 3.7e-5, 210, "1.8e-5", "6.0e-6"),
]


@pytest.mark.parametrize(("name", "dimensionless", "hardness", "plain", "third"), PAIRS)
def test_list_of_dry_pairs(name: str, dimensionless: float, hardness: float, plain: str, third: str) -> None:
    inputs = {"dimensionless": dimensionless, "hardness": hardness * KILOGRAM_FORCE_PER_SQUARE_MILLIMETRE}
    unit = CUBIC_MILLIMETRE_PER_NEWTON_METRE
    by_h = float(wear_coefficient_from_hardness(**inputs, convention="K over H"))
    by_3h = float(wear_coefficient_from_hardness(**inputs, convention="K over 3 H"))
    Case(HIRST, f"{name}, K/H", "from memory", inputs, plain, unit=unit).check(by_h)
    Case(HIRST, f"{name}, K/(3 H)", "from memory", inputs, third, unit=unit).check(by_3h)
    assert by_h == pytest.approx(3 * by_3h, rel=1e-15)


def test_hard_tool_steel_to_four_digits() -> None:
    inputs = {"dimensionless": 1.3e-4, "hardness": 850 * KILOGRAM_FORCE_PER_SQUARE_MILLIMETRE}
    unit = CUBIC_MILLIMETRE_PER_NEWTON_METRE
    by_h = Case(HIRST, "hard tool steel, K/H", "derived", inputs, "1.560e-5", unit=unit)
    by_h.check(float(wear_coefficient_from_hardness(**inputs, convention="K over H")))
    by_3h = Case(HIRST, "hard tool steel, K/(3 H)", "derived", inputs, "5.199e-6", unit=unit)
    by_3h.check(float(wear_coefficient_from_hardness(**inputs, convention="K over 3 H")))


def test_mild_steel_of_brinell_120() -> None:
    hardness = 120 * KILOGRAM_FORCE_PER_SQUARE_MILLIMETRE
    page = Case(
        HIRST,
        "hardness of 120 HB",
        "published",
        {},
        "1.176e9",
        slack=0.0004e9,
        because="the page takes 9.8 for 9.80665",
    )
    page.check(hardness)
    unit = CUBIC_MILLIMETRE_PER_NEWTON_METRE
    by_h = float(wear_coefficient_from_hardness(7e-3, hardness, convention="K over H"))
    by_3h = float(wear_coefficient_from_hardness(7e-3, hardness, convention="K over 3 H"))
    Case(HIRST, "120 HB, K/H", "derived", {}, "5.95e-3", unit=unit).check(by_h)
    Case(HIRST, "120 HB, K/(3 H)", "derived", {}, "1.98e-3", unit=unit).check(by_3h)


def test_unit_of_the_wear_coefficient() -> None:
    # 1e-5 mm3/(N m) = 1e-14 m2/N, from the definition of the units
    assert pytest.approx(1e-14, rel=1e-15) == 1e-5 * CUBIC_MILLIMETRE_PER_NEWTON_METRE


def test_pin_on_disc() -> None:
    # the inputs are remembered, so that this checks the code and not the coefficient
    source = "Podra and Andersson, Tribology International 32, 1999, 71"
    inputs = {"wear_coefficient": 1.33e-13, "normal_force": 21.0, "path": 4.5}
    volume = float(worn_volume(**inputs))
    Case(source, "volume", "from memory", inputs, "0.01257", unit=1e-9).check(volume)
    depth = sqrt(volume / (pi * 5e-3))  # small cap of a ball of 5 mm radius
    Case(source, "depth of the cap", "from memory", inputs, "28.3", unit=1e-6).check(depth)


def test_grease_delays_wear_and_does_not_slow_it() -> None:
    # 250 h of induction with a gold coat are four times those of the uncoated; after it the wear
    # is as fast as without any lubricant
    induction = 250.0 / 4.0
    Case(RIG, "induction of the uncoated", "derived", {}, "62.5", unit=1.0).check(induction)
    dry = 2.5e-6
    coated, uncoated = (float(hours_to_depth(250e-6, 0.0, hours, dry)) for hours in (250.0, induction))
    assert coated - uncoated == pytest.approx(250.0 - 62.5, rel=1e-12)
    assert uncoated - induction == pytest.approx(250e-6 / dry, rel=1e-12)


def test_hardness_alone_does_not_explain_the_pump_drive() -> None:
    # thread of practitioners (published): above 10 000 h with about 60 HRC, below 3 000 h at 35 HRC
    # with less length, one greasing and runout. 345 HV for 35 HRC is from memory.
    scale = float(hardness_scale(345.0))
    Case("Hardness conversion, 697 and 345 HV", "", "from memory", {}, "2.0").check(scale)
    assert scale < 10_000 / 3_000
    assert 10_000 / 3_000 / scale == pytest.approx(1.65, abs=0.005)


def test_path_of_an_offset_joint() -> None:
    # a boat owner's sum (published) has 0.002 in at 3000 rev/min go 6 in/min, one offset per turn;
    # a tooth goes there and back over twice the offset, four times as far
    inch = 0.0254
    path = float(offset_slip_path(0.002 * inch)) * 3000 / inch
    assert path == pytest.approx(4 * 6.0, rel=1e-12)


def test_runout_of_the_pump_drive() -> None:
    inch = 0.0254
    case = Case(
        "Thread of practitioners, 0.010 in TIR", "", "derived", {"reading": 0.010 * inch}, "0.127", unit=1e-3
    )
    case.check(float(offset_from_runout(**case.inputs)))


GUIDE_COMPARED = [
    (1e4, "138", "2.3e-3"),
    (1e5, "97.6", "3.2e-4"),
    (1e6, "69.0", "4.5e-5"),
    (1e7, "48.8", "6.4e-6"),
    (1e8, "34.5", "9.1e-7"),
    (1e9, "24.4", "1.3e-7"),
    (1e10, "17.2", "1.8e-8"),
]


@pytest.mark.parametrize(("revolutions", "pressure", "coefficient"), GUIDE_COMPARED)
def test_what_the_wear_life_table_implies(revolutions: float, pressure: str, coefficient: str) -> None:
    # allowable 34.5 MPa, radius 20 mm, tilt 1 mrad, depth 0.25 mm
    allowed = 34.5e6 * float(wear_life_factor(revolutions))
    Case(HANDBOOK, f"Table 10 x 34.5 MPa, {revolutions:.0e}", "derived", {}, pressure, unit=1e6).check(
        allowed
    )
    implied = float(implied_wear_coefficient(0.25e-3, allowed, 4 * 0.020 * 1e-3, revolutions))
    unit = CUBIC_MILLIMETRE_PER_NEWTON_METRE
    Case(HANDBOOK, f"implied, {revolutions:.0e}", "derived", {}, coefficient, unit=unit).check(implied)
