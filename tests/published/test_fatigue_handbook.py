"""Strength line, factors, mean stress and damage against worked problems of Budynas and Nisbett.

Read: pages of the 9th edition; worked solutions of chapters 6 and 7 of the 8th, 10th and 11th.
"""

from math import pi, sqrt

import numpy as np
import pytest
from published._case import held as published

from torqcheck.fatigue import (
    SURFACE_FINISHES,
    StrengthLine,
    amplitude_on_line,
    bending_limit,
    damage_sum,
    elliptic_safety_factor,
    endurance_limit,
    fatigue_notch_factor,
    gerber_amplitude,
    gerber_safety_factor,
    life_on_line,
    line_coefficient,
    line_exponent,
    linear_safety_factor,
    load_factor_of_strength,
    reliability_factor,
    size_factor,
    strength_fraction,
    strength_fraction_11th,
    surface_factor,
)
from torqcheck.fatigue.endurance import KSI
from torqcheck.fatigue.endurance_factors import Edition, Finish

NINTH = "Budynas and Nisbett, Mechanical Engineering Design, 9th ed., 2011"
SOLUTIONS = "Budynas and Nisbett, Mechanical Engineering Design, solutions"
EIGHTH, TENTH, ELEVENTH = f"{SOLUTIONS}, 8th ed.", f"{SOLUTIONS}, 10th ed.", f"{SOLUTIONS}, 11th ed."
INCH, MPA = 0.0254, 1e6
FOUR_DIGITS = "the book rounds a and b to four digits first, and a life is very sensitive to b"
TWO_FORMS = "the book uses the inch form of the formula, 0.2 percent apart"


def finish(strength: float, name: Finish, edition: Edition = "9th") -> float:
    constants = SURFACE_FINISHES[name, edition]
    return float(surface_factor(strength, constants.coefficient, constants.exponent))


def test_polished_bar() -> None:  # F1
    limit = bending_limit(90 * KSI)
    low = 0.86 * 90 * KSI
    a, b = line_coefficient(low, limit), line_exponent(low, limit)
    where = "Example 6-2, p 286"
    published(NINTH, where, "45", limit, KSI)
    published(NINTH, where, "133.1", a, KSI)
    published(NINTH, where, "-0.0785", b)
    published(NINTH, where, "64.6", amplitude_on_line(1e4, a, b), KSI)
    published(NINTH, where, "77500", life_on_line(55 * KSI, a, b), 1.0, 115, FOUR_DIGITS)
    line = StrengthLine(90 * KSI, low, limit)
    published(NINTH, where, "64.6", line.amplitude(1e4), KSI)
    published(NINTH, where, "77500", line.life(55 * KSI), 1.0, 115, FOUR_DIGITS)


def test_machined_bar_under_axial_load_at_550_fahrenheit() -> None:  # F2
    strength = 49.0 * KSI  # at temperature, so that the temperature factor is 1
    where = "Example 6-8, p 298"
    published(NINTH, where, "0.963", finish(strength, "machined"), 1.0, 0.001, "its constant in ksi")
    limit = endurance_limit(
        bending_limit(strength), finish(strength, "machined"), 1.0, 0.85, 1.0, reliability_factor(0.99)
    )
    published(NINTH, where, "16.3", limit, KSI)
    published(NINTH, where, "119.3", line_coefficient(0.9 * strength, 16.3 * KSI), KSI)


def test_ground_bar_of_490_brinell() -> None:  # F3
    strength = 242.6 * KSI
    ka, kb = finish(strength, "ground"), size_factor(0.25 * INCH)
    published(EIGHTH, "Problem 6-1", "0.840", ka, 1.0, 0.001, "its constant in ksi")
    published(EIGHTH, "Problem 6-1", "1.02", kb)
    limit = endurance_limit(bending_limit(strength), ka, kb)
    published(EIGHTH, "Problem 6-1", "85.7", limit, KSI, 1.4, "the 8th ed. caps at 100 ksi, 1.5 % less")


def test_line_of_a_soft_steel() -> None:  # F4
    strength = 66.2 * KSI
    low = 0.8949 * strength
    a, b = line_coefficient(low, bending_limit(strength)), line_exponent(low, bending_limit(strength))
    where = "Problem 6-3"
    published(EIGHTH, where, "106.0", a, KSI)
    published(EIGHTH, where, "-0.08426", b, 1.0, 1e-5, "the book works from rounded logarithms")
    published(EIGHTH, where, "47.9", amplitude_on_line(12_500, a, b), KSI)
    published(EIGHTH, where, "368250", life_on_line(36 * KSI, 106.0 * KSI, -0.08426), 1.0, 20, "logarithms")


def test_line_through_two_points() -> None:  # F5
    low, limit = 90 * KSI, 50 * KSI
    published(EIGHTH, "Problem 6-5", "162", line_coefficient(low, limit), KSI)
    published(EIGHTH, "Problem 6-5", "-0.08509", line_exponent(low, limit))


def test_notched_bar_of_two_inches() -> None:  # F6
    strength, where = 120 * KSI, "Problem 6-11"
    ka, kb = finish(strength, "machined"), size_factor(2.0 * INCH)
    published(EIGHTH, where, "0.816", kb, 1.0, 0.0017, TWO_FORMS)
    published(EIGHTH, where, "0.759", ka, 1.0, 0.0015, "its constant in ksi")
    limit = endurance_limit(bending_limit(strength), ka, kb)
    published(EIGHTH, where, "37.2", limit, KSI)
    low = 0.9 * strength
    a, b = line_coefficient(low, 37.2 * KSI), line_exponent(low, 37.2 * KSI)
    published(EIGHTH, where, "313.5", a, KSI)
    published(EIGHTH, where, "-0.15429", b, 1.0, 2e-5, "the book works from rounded logarithms")
    borne = amplitude_on_line(3450, a, b)
    published(EIGHTH, where, "89.2", borne, KSI)
    notch = fatigue_notch_factor(1.68, 0.87)
    published(EIGHTH, where, "1.59", notch)
    published(EIGHTH, where, "60.7", 1.59 * 38.2 * KSI, KSI, 0.05, "the book rounds 60.74")
    published(EIGHTH, where, "1.47", borne / (notch * 38.2 * KSI))


def test_bending_with_steady_torsion() -> None:  # F7
    amplitude, mean = 172 * MPA, sqrt(3.0) * 103 * MPA
    limit, yields, ultimate = 276 * MPA, 413 * MPA, 551 * MPA
    where = "Problem 6-12"
    published(EIGHTH, where, "178.4", mean, MPA)
    published(EIGHTH, where, "1.06", linear_safety_factor(amplitude, mean, limit, ultimate))
    published(EIGHTH, where, "1.31", gerber_safety_factor(amplitude, mean, limit, ultimate))
    published(EIGHTH, where, "1.32", elliptic_safety_factor(amplitude, mean, limit, yields))


def test_reversed_torsion_by_von_mises() -> None:  # F8
    amplitude, where = sqrt(3.0) * 207 * MPA, "Problem 6-15"
    published(EIGHTH, where, "358.5", amplitude, MPA)
    published(EIGHTH, where, "0.77", linear_safety_factor(amplitude, 0.0, 276 * MPA, 551 * MPA))
    low, limit = 0.9 * 551 * MPA, 276 * MPA
    a, b = line_coefficient(low, limit), line_exponent(low, limit)
    published(EIGHTH, where, "891.0", a, MPA)
    published(EIGHTH, where, "-0.084828", b, 1.0, 1e-6, "the book works from rounded logarithms")
    published(EIGHTH, where, "45800", life_on_line(amplitude, a, b), 1.0, 50, FOUR_DIGITS)


def test_ground_bar_of_300_brinell() -> None:  # F9
    strength, where = 1020 * MPA, "Problem 6-1"
    ka, kb = finish(strength, "ground", "11th"), size_factor(0.010)
    published(ELEVENTH, where, "510", bending_limit(strength), MPA)
    published(ELEVENTH, where, "0.868", ka, 1.0, 0.0005, "the book rounds 0.8676 in steps")
    published(ELEVENTH, where, "0.969", kb)
    published(ELEVENTH, where, "429", endurance_limit(bending_limit(strength), ka, kb), MPA)


@pytest.mark.parametrize(
    ("strength", "fraction", "a", "b", "amplitude", "life", "unit", "slack"),
    [
        (120, 0.82, "161.4", "-0.0716", 70, "117000", KSI, 900),  # F10
        (1600, 0.77, "2168.3", "-0.081838", 900, "46380", MPA, 30),  # F11; the life is ours
    ],
)
def test_lines_of_strong_steels(
    strength: float,
    fraction: float,
    a: str,
    b: str,
    amplitude: float,
    life: str,
    unit: float,
    slack: float,
) -> None:
    limit = bending_limit(strength * unit)
    low = fraction * strength * unit
    coefficient, exponent = line_coefficient(low, limit), line_exponent(low, limit)
    published(ELEVENTH, "Problem 6-3, 6-4", a, coefficient, unit)
    published(ELEVENTH, "Problem 6-3, 6-4", b, exponent, 1.0, 5e-7, "the book works from rounded logarithms")
    published(
        ELEVENTH,
        "Problem 6-3, 6-4",
        life,
        life_on_line(amplitude * unit, coefficient, exponent),
        1.0,
        slack,
        FOUR_DIGITS,
    )


def test_three_kinds_of_cycles() -> None:  # F12
    ultimate, limit = 151 * KSI, 67.5 * KSI
    line = StrengthLine(ultimate, 0.795 * ultimate, limit)
    where = "Example 6-15, p 323"
    published(NINTH, where, "213.5", line.coefficient, KSI)
    published(NINTH, where, "-0.0833", line.exponent)
    amplitudes, means = np.array([70.0, 10.0, 10.0]) * KSI, np.array([10.0, 50.0, -30.0]) * KSI
    borne = amplitudes * gerber_safety_factor(amplitudes, means, limit, ultimate)
    published(NINTH, where, "67.2", borne[0], KSI)
    published(NINTH, where, "24.2", borne[1], KSI)
    reversed_ = gerber_amplitude(amplitudes, means, ultimate)
    published(NINTH, where, "70.3", reversed_[0], KSI)
    lives = line.life(reversed_, "infinite")
    published(NINTH, where, "619000", lives[0], 1.0, 6000, FOUR_DIGITS)
    assert np.isinf(lives[1:]).all()
    assert damage_sum(np.array([100.0, 200.0, 300.0]), lives) == pytest.approx(100.0 / lives[0])


def test_life_left_after_overload() -> None:  # F13
    ultimate, limit = 80 * KSI, 40 * KSI
    line = StrengthLine(ultimate, 0.9 * ultimate, limit)
    where = "Miner's rule, p 324"
    published(NINTH, where, "129.6", line.coefficient, KSI)
    published(NINTH, where, "-0.085091", line.exponent)
    first = line.life(60 * KSI)
    published(NINTH, where, "8520", first, 1.0, 30, FOUR_DIGITS)
    left = 8520 - 3000
    lower = 60 * KSI / left**line.exponent  # the same line, moved through what is left
    published(NINTH, where, "38.6", amplitude_on_line(1e6, lower, line.exponent), KSI, 0.005, "of 38.55")
    published(NINTH, where, "0.648", life_on_line(40 * KSI, lower, line.exponent), 1e6, 0.002, FOUR_DIGITS)


def test_second_load_after_a_first() -> None:  # F14
    a, b, where = 1409.8 * MPA, -0.141355, "Problem 6-29"
    first = amplitude_on_line(131_200, a, b)
    second = life_on_line(315 * MPA, a, b)
    published(EIGHTH, where, "40200", second, 1.0, 50, FOUR_DIGITS)
    spent = damage_sum(np.array([50_000.0]), np.array([life_on_line(first, a, b)]))
    published(EIGHTH, where, "24880", (1.0 - spent) * second, 1.0, 30, FOUR_DIGITS)


def test_three_loads_one_after_the_other() -> None:  # F15
    ultimate, limit = 76 * KSI, 30 * KSI
    line = StrengthLine(ultimate, 0.9 * ultimate, limit)
    where = "Problem 6-30"
    published(EIGHTH, where, "155.95", line.coefficient, KSI)
    published(EIGHTH, where, "-0.11931", line.exponent)
    lives = line.life(np.array([48.0, 38.0, 32.0]) * KSI)
    for ours, printed in zip(lives, ("19460", "137880", "582150"), strict=True):
        published(EIGHTH, where, printed, ours, 1.0, 0.0007 * float(printed), FOUR_DIGITS)
    left = 1.0 - damage_sum(np.array([4000.0, 60_000.0]), lives[:2])
    published(EIGHTH, where, "209160", left * lives[2], 1.0, 150, FOUR_DIGITS)


def test_mixed_loads() -> None:  # F16
    ultimate, limit = 100 * KSI, 50 * KSI
    line = StrengthLine(ultimate, 0.9 * ultimate, limit)
    where = "Problem 6-31"
    lives = line.life(np.array([70.0, 55.0, 40.0]) * KSI, "infinite")
    published(EIGHTH, where, "19170", lives[0], 1.0, 20, FOUR_DIGITS)
    published(EIGHTH, where, "326250", lives[1], 1.0, 300, FOUR_DIGITS)
    assert np.isinf(lives[2])
    total = 1.0 / damage_sum(np.array([0.2, 0.5, 0.3]), lives)
    published(EIGHTH, where, "83570", total, 1.0, 80, FOUR_DIGITS)


@pytest.mark.parametrize(
    ("source", "loads", "strengths", "unit", "length", "a", "b", "printed"),
    [
        (  # F17
            EIGHTH,
            (600, 400, 500, 300),
            (100e3, 80e3, 30e3),
            1.0,
            1.0,
            ("2920", "2391"),
            1.0,
            ("1.016", "1.012", "1.090", "1.073"),
        ),
        (  # F18
            TENTH,
            (70, 45, 55, 35),
            (700 * MPA, 560 * MPA, 210 * MPA),
            1.0,
            1e-3,
            ("338.4", "265.5"),
            1.0,
            ("25.85", "25.77", "27.70", "27.27"),
        ),
    ],
)
def test_diameter_of_a_shaft_in_bending_and_torsion(
    source: str,
    loads: tuple[float, ...],
    strengths: tuple[float, ...],
    unit: float,
    length: float,
    a: tuple[str, str],
    b: float,
    printed: tuple[str, ...],
) -> None:
    (Ma, Ta, Mm, Tm), (ultimate, yields, limit) = loads, strengths
    A = sqrt(4.0 * (2.2 * Ma) ** 2 + 3.0 * (1.8 * Ta) ** 2)
    B = sqrt(4.0 * (2.2 * Mm) ** 2 + 3.0 * (1.8 * Tm) ** 2)
    for text, ours in zip(a, (A, B), strict=True):
        published(source, "Problem 7-1", text, ours, 1.0, 0.5, "the book truncates")
    amplitude, mean = 16.0 * A / pi, 16.0 * B / pi  # at a diameter of 1
    factors = (
        gerber_safety_factor(amplitude, mean, limit, ultimate),
        elliptic_safety_factor(amplitude, mean, limit, yields),
        linear_safety_factor(amplitude, mean, limit, yields),  # Soderberg
        linear_safety_factor(amplitude, mean, limit, ultimate),  # Goodman
    )
    for factor, text in zip(factors, printed, strict=True):
        published(source, "Problem 7-1", text, (2.0 / float(factor)) ** (1.0 / 3.0), length)


def test_factors_of_a_first_trial() -> None:  # F19
    strength, where = 1226 * MPA, "Problem 7-2, trial 1"
    ka, kb = finish(strength, "machined"), size_factor(0.022)
    published(EIGHTH, where, "0.685", ka)
    published(EIGHTH, where, "0.893", kb, 1.0, 0.002, "another form of the size factor, (d/7.62)^-0.107")
    published(EIGHTH, where, "375", endurance_limit(bending_limit(strength), ka, 0.893), MPA)
    published(EIGHTH, where, "1.49", fatigue_notch_factor(1.5, 0.97), 1.0, 1e-3, "the book rounds 1.485")


@pytest.mark.parametrize(
    ("percent", "printed"),
    [
        ("50", "1"),
        ("90", "0.897"),
        ("95", "0.868"),
        ("99", "0.814"),
        ("99.9", "0.753"),
        ("99.99", "0.702"),
        ("99.999", "0.659"),
        ("99.9999", "0.620"),
    ],
)
def test_reliability(percent: str, printed: str) -> None:
    published(NINTH, "p 345", printed, reliability_factor(float(percent) / 100.0))


@pytest.mark.parametrize(("ksi", "printed"), [(50, "0.535"), (100, "0.583"), (150, "0.614"), (200, "0.636")])
def test_load_factor_in_torsion_by_strength(ksi: float, printed: str) -> None:
    published(NINTH, "p 333", printed, load_factor_of_strength(ksi * KSI))


@pytest.mark.parametrize(("ksi", "printed"), [(60, "0.9"), (90, "0.86"), (120, "0.82"), (151, "0.795")])
def test_chart_of_the_strength_at_1000_cycles(ksi: float, printed: str) -> None:
    for ours in (strength_fraction(ksi * KSI), strength_fraction_11th(ksi * KSI)):
        published(NINTH, "chart", printed, ours, 1.0, 0.002, "read off a chart")


def test_strength_at_1000_cycles_beyond_the_chart() -> None:
    published(ELEVENTH, "Problem 6-4", "0.77", strength_fraction(1600 * MPA))
