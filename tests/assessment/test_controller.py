"""The three ways in which controllers say a rise, and what one can set."""

import pytest
from builder import loaded
from hypothesis import given
from hypothesis import strategies as st

from torqcheck.assessment.ramp.controller import Rise, language_of, rounded_down, rounded_up, settable


# practice of an open vehicle-control firmware: 3 %, 5 %, 2 % per 10 ms are 0.333, 0.200, 0.500 s and at
# 225 N m 675, 1125, 450 N m/s [derived from its defaults]
@pytest.mark.parametrize(
    ("percent", "time", "slope"), [(3, 0.333, 675.0), (5, 0.200, 1125.0), (2, 0.500, 450.0)]
)
def test_three_forms_of_one_rise(percent: float, time: float, slope: float) -> None:
    rise = Rise(slope, 225.0)
    assert rise.percent_per_10ms == pytest.approx(percent)
    assert rise.rise_time == pytest.approx(time, abs=0.0005)


@given(value=st.floats(1e-3, 1e7))
def test_two_digits_never_to_the_steeper_side(value: float) -> None:
    down, up = rounded_down(value), rounded_up(value)
    assert 0.9 * value <= down <= value * (1.0 + 1e-8)
    assert value * (1.0 - 1e-8) <= up <= 1.1 * value
    for number in (down, up):
        assert float(f"{number:.1e}") == pytest.approx(number, rel=1e-12)


@pytest.mark.parametrize("language", ["torque_rise", "rise_time", "percent_per_10ms"])
@given(rise=st.floats(1.0, 1e6), peak=st.floats(1.0, 2000.0))
def test_what_one_can_set_is_never_steeper(language: str, rise: float, peak: float) -> None:
    set_to = settable(rise, peak, language)  # type: ignore[arg-type]
    assert 0.89 * rise <= set_to <= rise * (1.0 + 1e-8)
    assert settable(set_to, peak, language) == pytest.approx(set_to, rel=1e-9)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("written", "language"),
    [
        ('torque_rise = "4800 N*m/s"', "torque_rise"),
        ('rise_time = "50 ms"', "rise_time"),
        ("percent_per_10ms = 3", "percent_per_10ms"),
    ],
)
def test_the_language_is_that_of_the_scenario(written: str, language: str) -> None:
    assert language_of(loaded(('torque_rise = "4800 N*m/s"', written)).motor) == language
