"""The line in three pieces: whole, monotone, and its own inverse."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from torqcheck.errors import DomainError
from torqcheck.fatigue import (
    BelowLimit,
    StrengthLine,
    bending_limit,
    equivalent_full_cycles,
    gerber_amplitude,
    goodman_amplitude,
    linear_safety_factor,
    shear_ultimate_strength,
    size_factor,
    soderberg_amplitude,
    strength_fraction,
    temperature_factor,
)

strengths = st.floats(350e6, 1500e6)
knocked_down = st.floats(0.1, 0.55)


def line_of(strength: float, share: float) -> StrengthLine:
    ultimate = float(shear_ultimate_strength(strength))
    return StrengthLine(
        ultimate, float(strength_fraction(strength)) * ultimate, share * float(bending_limit(strength))
    )


@given(strengths, knocked_down, st.floats(0.0, 9.0))
def test_amplitude_is_the_inverse_of_life(strength: float, share: float, decades: float) -> None:
    line, life = line_of(strength, share), 10.0**decades
    for below in ("haibach", "elementary"):
        assert line.life(line.amplitude(life, below), below) == pytest.approx(life, rel=1e-6)


@given(strengths, knocked_down)
def test_line_has_no_jump_and_never_rises(strength: float, share: float) -> None:
    line = line_of(strength, share)
    lives = np.geomspace(1.0, 1e10, 2001)
    for below in ("haibach", "elementary", "infinite"):
        amplitudes = line.amplitude(lives, below)
        steps = np.diff(np.log(amplitudes))
        assert np.all(steps <= 1e-12)
        assert np.all(steps > -0.02)
    assert line.amplitude(1e3) == pytest.approx(line.low_cycle)
    assert line.amplitude(1e6) == pytest.approx(line.limit)
    assert line.amplitude(1.0) == pytest.approx(line.ultimate)


@given(strengths, knocked_down, st.floats(0.2, 0.99))
def test_below_the_limit_the_three_rules_are_in_order(strength: float, share: float, part: float) -> None:
    line = line_of(strength, share)
    amplitude = part * line.limit
    kept, halved, never = (line.life(amplitude, rule) for rule in ("elementary", "haibach", "infinite"))
    assert 1e6 < kept < halved < never
    assert never == np.inf
    assert np.log(halved / 1e6) / np.log(kept / 1e6) == pytest.approx(
        (-2.0 / line.exponent - 1.0) * -line.exponent
    )


def test_ends_of_the_line() -> None:
    line = line_of(945e6, 0.3)
    assert line.life(0.0) == np.inf
    assert line.life(np.inf) == 1.0
    assert line.life(1.5 * line.ultimate) == 1.0
    assert np.isnan(line.life(np.nan))
    assert line.life(np.array([0.0, line.limit, line.low_cycle])) == pytest.approx([np.inf, 1e6, 1e3])


@pytest.mark.parametrize("below", ["miner", ""])
def test_unknown_rule_is_refused(below: BelowLimit) -> None:
    line = line_of(945e6, 0.3)
    with pytest.raises(DomainError, match="must be one of infinite, elementary, haibach"):
        line.life(1e8, below)
    with pytest.raises(DomainError, match="must be one of infinite, elementary, haibach"):
        line.amplitude(1e8, below)
    with pytest.raises(DomainError, match="must not be negative"):
        line.life(-1e8)


@given(st.floats(1e6, 300e6), st.floats(0.0, 300e6))
def test_mean_stress_rules_are_in_order(amplitude: float, mean: float) -> None:
    ultimate, yields = 633e6, 457e6
    gerber = gerber_amplitude(amplitude, mean, ultimate)
    goodman = goodman_amplitude(amplitude, mean, ultimate)
    soderberg = soderberg_amplitude(amplitude, mean, yields)
    assert amplitude <= gerber <= goodman <= soderberg
    # the equivalent amplitude reaches the limit where the safety factor at infinite life is 1
    n = linear_safety_factor(amplitude, mean, 143e6, ultimate)
    assert goodman_amplitude(n * amplitude, n * mean, ultimate) == pytest.approx(143e6)


def test_mean_that_reaches_the_strength_leaves_nothing() -> None:
    for rule in (goodman_amplitude, gerber_amplitude, soderberg_amplitude):
        assert rule(1e6, 700e6, 633e6) == np.inf
    assert linear_safety_factor(0.0, 0.0, 143e6, 633e6) == np.inf


@given(st.floats(0.005, 0.3), st.floats(3.0, 15.0))
def test_more_damping_or_a_flatter_line_counts_less_ringing(zeta: float, slope: float) -> None:
    here = equivalent_full_cycles(zeta, slope)
    assert here >= 1.0
    assert equivalent_full_cycles(1.1 * zeta, slope) <= here
    assert equivalent_full_cycles(zeta, 1.1 * slope) <= here


def test_size_factor_joins_at_51_millimetres_and_falls_faster_above() -> None:
    assert size_factor(0.051) == pytest.approx(size_factor(0.0510001), rel=0.002)
    assert size_factor(0.200) / size_factor(0.100) == pytest.approx(2.0**-0.157)
    assert size_factor(0.040) / size_factor(0.020) == pytest.approx(2.0**-0.107)


def test_temperature_factor_is_1_in_the_workshop_and_falls_when_hot() -> None:
    # the handbook's table in deg C, from memory
    for celsius, printed in (
        (50, 1.010),
        (100, 1.020),
        (200, 1.020),
        (300, 0.975),
        (400, 0.900),
        (500, 0.768),
    ):
        assert temperature_factor(celsius + 273.15) == pytest.approx(printed, abs=0.006)
    assert temperature_factor(294.3) == pytest.approx(1.0, abs=0.001)
