"""Numbers for people."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torqcheck.report.numbers import about, both, significant


@pytest.mark.parametrize(
    ("value", "digits", "text"),
    [
        (1234.5, 3, "1230"),
        (999.9, 3, "1000"),
        (0.09996, 3, "0.100"),
        (27.46, 3, "27.5"),
        (0.0, 3, "0"),
        (-0.5, 2, "-0.50"),
        (1.23456e9, 3, "1.23e9"),
        (2e-5, 2, "2.0e-5"),
        (float("inf"), 3, "no limit"),
        (float("nan"), 3, "?"),
    ],
)
def test_significant_digits(value: float, digits: int, text: str) -> None:
    assert significant(value, digits) == text


@given(st.floats(1e-12, 1e12), st.integers(1, 6))
def test_rounding_stays_within_half_a_digit(value: float, digits: int) -> None:
    assert float(significant(value, digits)) == pytest.approx(value, rel=0.51 * 10 ** (1 - digits))


def test_lives_get_two_digits_and_quantities_both_systems() -> None:
    assert about(4137.0) == "4100"
    assert both(0.0254, "length", ("si", "inch")) == "25.4 mm (1.00 in)"
    assert both(1.0, "time", ("si", "inch")) == both(1.0, "time", ("si",))
