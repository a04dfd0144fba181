"""Torsion of round shafts.

Read: pages of a strength-of-materials lecture (module 6, elastic), and of a lecture on
elastoplastic torsion of 2018; an abstract on the static strength of hardened splines.
"""

from math import pi

from published._case import Case

from torqcheck.capacity import (
    balanced_case_depth,
    elastic_torque,
    plastic_reserve,
    polar_second_moment,
    shear_yield_strength,
    torsional_shear_stress,
)

LECTURE = "Strength-of-materials lecture, torsion of circular shafts, module 6"
PLASTIC = "Lecture on elastoplastic torsion, 2018"
TUBE = {"outer_diameter": 0.040, "bore": 0.030}  # 40 mm outside, 5 mm wall


def test_second_moment_of_a_tube() -> None:
    case = Case(LECTURE, "page m06_04_s030", "published", TUBE, "171805.85", unit=1e-12)
    case.check(float(polar_second_moment(**case.inputs)))


def test_second_moment_of_a_larger_tube() -> None:
    inputs = {"outer_diameter": 0.075, "bore": 0.055}
    case = Case(LECTURE, "page m06_23_s070", "published", inputs, "2207951", unit=1e-12)
    case.check(float(polar_second_moment(**case.inputs)))


def test_torque_that_gives_50_megapascal() -> None:
    case = Case(
        LECTURE,
        "page m06_04_s040",
        "published",
        TUBE,
        "429514.53",
        unit=1e-3,
        slack=0.1,
        because="the source's own J, 171 805.85 mm4, gives 429 514.63; its last digits do not follow",
    )
    case.check(50e6 / float(torsional_shear_stress(1.0, **case.inputs)))
    case.check(float(elastic_torque(0.040, 50e6, 0.030)))


def test_torque_at_first_yield() -> None:
    case = Case(
        PLASTIC, "example", "published", {"outer_diameter": 0.1, "shear_yield": 150e6}, "29.45", unit=1e3
    )
    case.check(float(elastic_torque(**case.inputs)))


def test_fully_plastic_torque() -> None:
    case = Case(PLASTIC, "example", "published", {"outer_diameter": 0.1}, "39.27", unit=1e3)
    first_yield = float(elastic_torque(0.1, 150e6))
    case.check(first_yield * float(plastic_reserve(**case.inputs)))
    case.check(pi * 0.1**3 * 150e6 / 12.0)  # the moment of a stress that is the same everywhere


def test_shear_yield_over_tensile_yield() -> None:
    work = "Budynas and Nisbett, Mechanical Engineering Design, 9th ed., 2011"
    case = Case(work, "p 347", "published", {"yield_strength": 1.0}, "0.577")
    case.check(float(shear_yield_strength(**case.inputs)))


def test_best_case_depth_of_a_hardened_spline() -> None:
    # Analysis of the torsional strength of hardened splined shafts, Materials and Design 54, 2014,
    # 130, abstract (published): best static strength with the layer at half the radius. The core's
    # strength was not readable; cores of 20 and 30 HRC under 52 HRC (Heat Treating Progress, Oct
    # 2009, list of torsional yield, published) must lie on either side of it.
    published, case_yield = 0.25, 966e6
    softer, harder = (float(balanced_case_depth(core, case_yield)) for core in (366e6, 503e6))
    assert harder < published < softer
    assert softer - harder < 0.08
