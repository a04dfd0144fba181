"""Interference of ISO 286 fits. The tables are from memory; what they must fulfil is checked here."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torqcheck.errors import DomainError
from torqcheck.geometry.standards.iso_286 import grade_tolerance
from torqcheck.geometry.standards.press_fits import press_fit


def test_40_h7_s6_as_the_example_has_it() -> None:
    fit = press_fit(0.040, "H7/s6")
    assert (fit.least, fit.greatest) == pytest.approx((18e-6, 59e-6))
    assert fit.hole == pytest.approx((0.0, 25e-6))
    assert fit.shaft == pytest.approx((43e-6, 59e-6))
    assert fit.source.mark == "from memory"


@pytest.mark.parametrize(
    ("size", "designation", "least", "greatest"),
    [
        (0.025, "H7/p6", 1e-6, 35e-6),
        (0.050, "H7/r6", 9e-6, 50e-6),
        (0.100, "H7/s6", 36e-6, 93e-6),
        (0.060, "H8/x8", 122e-6 - 46e-6, 122e-6 + 46e-6),
        (0.018, "H7/s6", 10e-6, 39e-6),
        (0.018001, "H7/s6", 14e-6, 48e-6),
        (0.030, "H7/u6", 27e-6, 61e-6),
        (0.030, "H7/t6", 20e-6, 54e-6),
    ],
)
def test_common_fits(size: float, designation: str, least: float, greatest: float) -> None:
    fit = press_fit(size, designation)
    assert (fit.least, fit.greatest) == pytest.approx((least, greatest), abs=1e-9)


@given(st.floats(0.0011, 0.315), st.sampled_from(["H6", "H7", "H8"]), st.integers(5, 8))
def test_later_letters_are_tighter(size: float, hole: str, grade: int) -> None:
    letters = "prsux" if size <= 0.024 else "prstux"
    fits = [press_fit(size, f"{hole}/{letter}{grade}") for letter in letters]
    for lower, upper in pairwise(fits):
        assert upper.least > lower.least
    for fit in fits:
        width = grade_tolerance(size, int(hole[1])) + grade_tolerance(size, grade)
        assert fit.greatest - fit.least == pytest.approx(width, rel=1e-9)


@given(st.sampled_from("prsux"), st.floats(0.002, 0.30))
def test_larger_sizes_have_no_less_interference(letter: str, size: float) -> None:
    small, large = press_fit(size, f"H6/{letter}5"), press_fit(min(1.05 * size, 0.315), f"H6/{letter}5")
    assert large.shaft[0] >= small.shaft[0]


@pytest.mark.parametrize(
    ("designation", "problem"),
    [
        ("H7/k6", "shaft k6 leaves room or may leave it: it locates and does not grip"),
        ("H7/g6", "it locates and does not grip; the tabled letters are p, r, s, t, u, x"),
        ("H7/z6", "shaft z6 the tabled letters are"),
        ("S7/h6", '"S7/h6" is no fit of the basic hole such as H7/s6'),
        ("H7", "is no fit of the basic hole"),
        ("H9/s6", "is no fit of the basic hole"),
    ],
)
def test_other_fits_are_refused(designation: str, problem: str) -> None:
    with pytest.raises(DomainError, match=problem):
        press_fit(0.040, designation)


def test_size_beyond_the_table_is_refused() -> None:
    with pytest.raises(DomainError, match="up to 315 mm"):
        press_fit(0.32, "H7/s6")
    with pytest.raises(DomainError, match="letter t begins above 24 mm"):
        press_fit(0.020, "H7/t6")
