"""Stress concentrations of shafts: values reckoned by hand from remembered curves, and chart readings.

None of the books was at hand: Pilkey's and Norton's curves, Roark's table and DIN 743-2 are remembered; the
numbers were worked out from them once, apart from this code.
"""

from functools import partial

import pytest
from published._case import held as held_as

from torqcheck.capacity import (
    bending_stress,
    cross_hole_shear_stress,
    forced_offset_force,
    keyway_strength_factor,
    old_code_allowable_shear,
    old_code_diameter,
    overhung_moment,
    overhung_stiffness,
    torsional_shear_stress,
)
from torqcheck.fatigue import (
    cross_hole_bending_concentration,
    cross_hole_torsion_concentration,
    din_keyseat_bending_factor,
    din_keyseat_torsion_factor,
    din_press_fit_bending_factor,
    din_press_fit_torsion_factor,
    governing_shoulder_formula,
    keyseat_bending_concentration,
    keyseat_torsion_concentration,
    shaft_standard_diameter,
    shoulder_bending_by_polynomial,
    shoulder_bending_by_power,
    shoulder_bending_concentration,
    shoulder_torsion_by_polynomial,
    shoulder_torsion_by_power,
    shoulder_torsion_concentration,
)

PETERSON = "Pilkey, Peterson's Stress Concentration Factors, reckoned from the curves"
NORTON = "Norton, Machine Design, appendix C, reckoned from the fits"
ROARK = "Roark's Formulas for Stress and Strain, Table 17.1, reckoned"
DIN = "DIN 743-2, reckoned"
MM, MPA = 1e-3, 1e6
held = partial(held_as, mark="derived")


def test_shoulder_by_polynomial_and_by_power() -> None:
    sharp, round_ = (60 * MM, 40 * MM, 0.8 * MM), (60 * MM, 40 * MM, 4 * MM)
    held(PETERSON, "chart 3.10, D/d 1.5, r/d 0.02", "2.96", shoulder_bending_by_polynomial(*sharp))
    held(PETERSON, "chart 3.10, D/d 1.5, r/d 0.1", "1.743", shoulder_bending_by_polynomial(*round_))
    held(PETERSON, "chart 3.12, D/d 1.5, r/d 0.1", "1.413", shoulder_torsion_by_polynomial(*round_))
    held(NORTON, "bending, D/d 1.5, r/d 0.02", "2.57", shoulder_bending_by_power(*sharp))
    # straight between 2.10 at 1.33 and 2.20 at 2
    held(NORTON, "torsion, D/d 1.5, r/d 0.02", "2.12", shoulder_torsion_by_power(*sharp))


def test_shoulder_against_chart_readings() -> None:
    spread = "a chart of this kind carries about 8 percent"
    at = (60 * MM, 40 * MM, 4 * MM)
    book = "Budynas and Nisbett, Mechanical Engineering Design, example 7-1"
    bending, torsion = shoulder_bending_concentration(*at), shoulder_torsion_concentration(*at)
    held(book, "chart, D/d 1.5, r/d 0.1", "1.68", bending, 1.0, 0.08 * 1.68, spread, mark="from memory")
    held(book, "chart, D/d 1.5, r/d 0.1", "1.42", torsion, 1.0, 0.08 * 1.42, spread, mark="from memory")
    sharp = (60 * MM, 40 * MM, 0.8 * MM)
    book = "Budynas and Nisbett, Mechanical Engineering Design, 9th ed., 2011"
    where, mark = "Table 7-1, sharp shoulder", "published"
    larger = "first estimate for all steps; the larger of two formulas is used"
    held(book, where, "2.7", shoulder_bending_concentration(*sharp), 1.0, 0.25, larger, mark=mark)
    held(book, where, "2.2", shoulder_torsion_concentration(*sharp), 1.0, 0.05, larger, mark=mark)


def test_the_larger_formula_is_named() -> None:
    assert governing_shoulder_formula("bending", 60 * MM, 40 * MM, 0.8 * MM) == "polynomial"
    assert governing_shoulder_formula("torsion", 60 * MM, 40 * MM, 0.8 * MM) == "power fit"


@pytest.mark.parametrize(
    ("share", "bending", "torsion"),
    [
        (0.01, "2.88", "3.18"),
        (0.02, "2.20", "2.62"),
        (0.0208, "2.17", "2.59"),
        (0.03, "1.95", "2.41"),
        (0.05, "1.75", "2.23"),
        (0.07, "1.66", "2.15"),
    ],
)
def test_end_milled_keyseat(share: float, bending: str, torsion: str) -> None:
    where = f"charts 5.1 and 5.2, r/d {share:g}"
    held(PETERSON, where, bending, keyseat_bending_concentration(share * 50 * MM, 50 * MM))
    held(PETERSON, where, torsion, keyseat_torsion_concentration(share * 50 * MM, 50 * MM))


@pytest.mark.parametrize(
    ("share", "bending", "torsion"),
    [
        (0.05, "2.77", "3.75"),
        (0.1, "2.73", "3.66"),
        (0.15, "2.82", "3.69"),
        (0.2, "3.03", "3.82"),
        (0.25, "3.29", "4.00"),
        (0.3, "3.58", "4.21"),
    ],
)
def test_cross_hole_in_a_solid_shaft(share: float, bending: str, torsion: str) -> None:
    where = f"2 r/D {share:g}"
    held(ROARK, where, bending, cross_hole_bending_concentration(share * 30 * MM, 30 * MM))
    held(ROARK, where, torsion, cross_hole_torsion_concentration(share * 30 * MM, 30 * MM))


@pytest.mark.parametrize(
    ("strength", "key", "press"),
    [
        (600, ("2.47", "1.48"), ("2.17", "1.41")),
        (800, ("2.76", "1.64"), ("2.45", "1.59")),
        (1000, ("3.00", "1.78"), ("2.70", "1.76")),
        (1200, ("3.22", "1.90"), ("2.92", "1.90")),
    ],
)
def test_key_seat_and_press_fit(strength: float, key: tuple[str, str], press: tuple[str, str]) -> None:
    S = strength * MPA
    held(DIN, "key seat, bending", key[0], din_keyseat_bending_factor(S))
    held(DIN, "key seat, torsion", key[1], din_keyseat_torsion_factor(S))
    held(DIN, "press fit, bending", press[0], din_press_fit_bending_factor(S))
    held(DIN, "press fit, torsion", press[1], din_press_fit_torsion_factor(S))


def test_forced_offset_between_two_overhung_shafts() -> None:
    source, where = "Reckoned: beam formula and springs in series", "d 25, a 60, b 150 mm, e 0.10 mm"
    stiffness = overhung_stiffness(25 * MM, 60 * MM, 150 * MM, 207e9)
    force = forced_offset_force(0.10 * MM, stiffness, stiffness)
    moment = overhung_moment(force, 60 * MM)
    held(source, where, "15751", stiffness, 1e3)
    held(source, where, "788", force)
    held(source, where, "47.3", moment)
    held(source, where, "30.8", bending_stress(moment, 25 * MM), MPA)


def test_whole_sections_with_keyway_and_cross_hole() -> None:
    moore = "H. F. Moore, University of Illinois Bulletin 42, 1910, reckoned"
    held(moore, "w = d/4, t = d/8", "0.8125", keyway_strength_factor(40 * MM, 10 * MM, 5 * MM))
    source, where = "Peterson, net section, reckoned", "D 25, hole 8 mm, 200 N m"
    held(source, where, "65", torsional_shear_stress(200.0, 25 * MM), MPA)
    held(source, where, "90", cross_hole_shear_stress(200.0, 25 * MM, 8 * MM), MPA)


def test_old_shaft_codes() -> None:
    source = "ASME code for transmission shafting, 1927, after handbooks"
    for keyed, printed in ((1.0, "55"), (0.75, "41")):
        # steel that just earns the 8000 psi of commercial shafting
        shear = old_code_allowable_shear(8000 / 0.30 * 6894.757, 8000 / 0.18 * 6894.757, keyed)
        held(source, "commercial shafting", printed, shear, MPA, mark="from memory")
    held(source, "reckoned", "34.1", old_code_diameter(100.0, 400.0, 55 * MPA), MM)
    standard = "ANSI/ASME B106.1M, 1985, reckoned from the inputs of problem 7-2"
    size = shaft_standard_diameter(70.0, 45.0, 2.5, 375 * MPA, 1130 * MPA, 1.81)
    held(standard, "Kf 1.81, M 70 N m, T 45 N m, n 2.5", "20.53", size, MM)
