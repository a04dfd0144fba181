"""Shafts in bending and torsion against worked problems of Budynas and Nisbett, chapters 5 to 7.

Read: worked solutions of chapters 5 and 7 of the 8th edition, and one page of the 9th. Example 7-1 and the
result of example 6-6 are remembered.
"""

from math import pi

import pytest
from published._case import held

from torqcheck.capacity import bending_stress, torsional_shear_stress, von_mises_stress
from torqcheck.fatigue import (
    LOADED_KEYSEAT_TORSION,
    SURFACE_FINISHES,
    bending_limit,
    combined_load,
    de_elliptic_diameter,
    de_elliptic_factor,
    de_gerber_diameter,
    de_gerber_factor,
    de_goodman_diameter,
    de_goodman_factor,
    de_soderberg_diameter,
    de_soderberg_factor,
    endurance_limit,
    fatigue_notch_factor,
    first_cycle_yield_factor,
    loaded_keyseat_torsion_concentration,
    notch_constant_in_bending,
    notch_sensitivity,
    size_factor,
    surface_factor,
)
from torqcheck.fatigue.endurance import KSI

BOOK = "Budynas and Nisbett, Mechanical Engineering Design"
EIGHTH, NINTH, MEMORY = f"{BOOK}, solutions, 8th ed.", f"{BOOK}, 9th ed., 2011", f"{BOOK}, 9th ed."
INCH, LBF_IN, MPA = 0.0254, 4.4482216152605 * 0.0254, 1e6
PSI = KSI / 1000.0


def test_diameter_under_bending_and_torsion_both_swinging() -> None:  # O1.1
    where = "Problem 7-1"
    A = combined_load(600 * LBF_IN, 400 * LBF_IN, 2.2, 1.8)
    B = combined_load(500 * LBF_IN, 300 * LBF_IN, 2.2, 1.8)
    held(EIGHTH, where, "2920", A, LBF_IN, 0.1, "the book truncates")
    held(EIGHTH, where, "2391", B, LBF_IN)
    limit, ultimate, yields = 30e3 * PSI, 100e3 * PSI, 80e3 * PSI
    held(EIGHTH, where, "1.016", de_gerber_diameter(A, B, 2.0, limit, ultimate), INCH)
    held(EIGHTH, where, "1.012", de_elliptic_diameter(A, B, 2.0, limit, yields), INCH)
    held(EIGHTH, where, "1.090", de_soderberg_diameter(A, B, 2.0, limit, yields), INCH)
    held(EIGHTH, where, "1.073", de_goodman_diameter(A, B, 2.0, limit, ultimate), INCH)


def test_notch_factors_of_a_shaft_with_reversed_bending() -> None:  # O1.2
    where = "Problem 7-2"
    bending, torsion = fatigue_notch_factor(1.9, 0.90), fatigue_notch_factor(1.5, 0.97)
    held(EIGHTH, where, "1.81", bending)
    held(EIGHTH, where, "1.49", torsion, 1.0, 1e-3, "the book rounds 1.485")
    A, B = combined_load(70.0, 0.0, 1.81, 1.49), combined_load(0.0, 45.0, 1.81, 1.49)
    size = de_elliptic_diameter(A, B, 2.5, 375 * MPA, 1130 * MPA)
    held("From the inputs of problem 7-2", where, "20.57", size, 1e-3, mark="derived")


def test_keyseat_of_a_two_inch_shaft() -> None:  # O1.3
    where, strength = "Problem on a keyed shaft", 68 * KSI
    held(EIGHTH, where, "1.9", fatigue_notch_factor(2.2, 0.75))
    held(EIGHTH, where, "2.8", fatigue_notch_factor(LOADED_KEYSEAT_TORSION, 0.9))
    constants = SURFACE_FINISHES["machined", "9th"]
    ka = surface_factor(strength, constants.coefficient, constants.exponent)
    kb = size_factor(2.0 * INCH)
    held(EIGHTH, where, "0.883", ka, 1.0, 0.001, "its constant in ksi")
    held(EIGHTH, where, "0.816", kb, 1.0, 0.0017, "the book uses the inch form, 0.2 percent apart")
    limit = endurance_limit(bending_limit(strength), ka, kb)
    held(EIGHTH, where, "24.5", limit, KSI, 0.05, "both factors above, 0.3 percent together")


def test_keyseat_with_its_key_in_place() -> None:
    at = loaded_keyseat_torsion_concentration(0.02 * 40e-3, 40e-3)
    held(NINTH, "Table 7-1, p 373", "3.0", at)


def test_static_strength_of_a_shaft_in_bending_and_torsion() -> None:  # O1.4
    where, moment, torque = "Problem 5-25, 5-26", 7200 * LBF_IN, 3383 * LBF_IN
    bending, shear = bending_stress(moment, INCH), torsional_shear_stress(torque, INCH)
    held(EIGHTH, where, "73340", bending, PSI, 5.0, "four digits")
    held(EIGHTH, where, "17230", shear, PSI, 5.0, "four digits")
    at_one_inch = first_cycle_yield_factor(moment, torque, INCH, 60 * KSI)
    held(EIGHTH, where, "1.665", (3.5 / float(at_one_inch)) ** (1.0 / 3.0))
    by_stress = von_mises_stress(bending, shear) * 3.5 / (60 * KSI)
    held(EIGHTH, where, "1.665", float(by_stress) ** (1.0 / 3.0))


def test_shoulder_under_reversed_bending_and_steady_torque() -> None:  # O1.5
    where, mark, d = "Example 7-1", "from memory", 1.10 * INCH
    held(MEMORY, where, "1.58", fatigue_notch_factor(1.68, 0.85), mark=mark)
    held(MEMORY, where, "1.39", fatigue_notch_factor(1.42, 0.92), mark=mark)
    A, B = combined_load(1260 * LBF_IN, 0.0, 1.58, 1.39), combined_load(0.0, 1100 * LBF_IN, 1.58, 1.39)
    limit, ultimate, yields = 29.3 * KSI, 105 * KSI, 82 * KSI
    rounding = "the book rounds A and B on the way"
    held(MEMORY, where, "1.62", de_goodman_factor(A, B, d, limit, ultimate), mark=mark)
    held(MEMORY, where, "1.87", de_gerber_factor(A, B, d, limit, ultimate), 1.0, 0.005, rounding, mark)
    held(MEMORY, where, "1.88", de_elliptic_factor(A, B, d, limit, yields), 1.0, 0.005, rounding, mark)
    held(MEMORY, where, "1.56", de_soderberg_factor(A, B, d, limit, yields), 1.0, 0.002, rounding, mark)
    factor = first_cycle_yield_factor(1260 * LBF_IN, 1100 * LBF_IN, d, yields, 0.0, 1.58, 1.39)
    held(MEMORY, where, "4.50", factor, 1.0, 0.02, "the book rounds the stress", mark)


def test_notch_sensitivity_of_a_step_in_bending() -> None:  # O1.6
    where, constant = "Example 6-6", notch_constant_in_bending(690 * MPA)
    held(NINTH, where, "0.313", constant / 1e-3**0.5, 1.0, 0.001, "read off with rounded ksi", "from memory")
    factor = fatigue_notch_factor(1.65, notch_sensitivity(3e-3, constant))
    held(NINTH, where, "1.55", factor, mark="from memory")


@pytest.mark.parametrize(
    ("factor", "diameter", "strength"),
    [
        (de_goodman_factor, de_goodman_diameter, 700e6),
        (de_soderberg_factor, de_soderberg_diameter, 500e6),
        (de_elliptic_factor, de_elliptic_diameter, 500e6),
        (de_gerber_factor, de_gerber_diameter, 700e6),
    ],
)
def test_factor_of_the_least_diameter_is_the_one_wanted(factor, diameter, strength) -> None:  # type: ignore[no-untyped-def]
    size = float(diameter(150.0, 200.0, 2.0, 200e6, strength, 0.4))
    assert factor(150.0, 200.0, size, 200e6, strength, 0.4 * size) == pytest.approx(2.0, rel=1e-12)
    solid = 16.0 / pi / size**3 / (1.0 - 0.4**4)
    if factor is de_goodman_factor:
        assert solid * (150.0 / 200e6 + 200.0 / strength) == pytest.approx(0.5, rel=1e-12)
