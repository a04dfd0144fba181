"""Fatigue against other textbooks: Faires; Juvinall and Marshek. Read: worked solutions of both."""

from published._case import Case

from torqcheck.fatigue import StrengthLine, bending_limit, endurance_limit, linear_safety_factor

FAIRES = "Faires, Design of Machine Elements, solutions"
JUVINALL = "Juvinall and Marshek, Fundamentals of Machine Component Design, solutions"
MPA = 1e6


def test_steady_torque_as_an_alternating_one() -> None:  # F20
    # 16 x 6300 / (pi d^3) at d = 1 in; limits of torsion 0.6 of those of tension
    steady, limit, yields = 32_085.7, 0.6 * 42.5e3, 0.6 * 55e3
    alternating = limit / float(linear_safety_factor(0.0, steady, limit, yields))
    case = Case(FAIRES, "Problem 471", "published", {}, "24796", 1.0, 3.0, "0.01 %, from rounding on the way")
    case.check(alternating)


def test_ground_bar_in_bending() -> None:  # F21
    ultimate = 1200 * MPA
    limit = endurance_limit(bending_limit(ultimate), 0.86, 0.9)
    Case(JUVINALL, "Problem 8.19", "published", {}, "464.4", MPA).check(float(limit))
    line = StrengthLine(ultimate, 0.9 * ultimate, limit)
    Case(JUVINALL, "Problem 8.19", "published", {}, "1080", MPA).check(float(line.amplitude(1e3)))
    case = Case(JUVINALL, "Problem 8.19", "published", {}, "565.5", MPA, 0.2, "the book rounds logarithms")
    case.check(float(line.amplitude(2e5)))
