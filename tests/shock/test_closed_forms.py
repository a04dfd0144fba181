"""Limits and refusals of the closed forms for closing, factors and first blows."""

import math

import numpy as np
import pytest

from torqcheck.errors import DomainError
from torqcheck.shock import (
    blow_energy,
    closing_speed,
    closing_time,
    closing_torque_from_blow,
    first_blow_on_ramp,
    natural_frequency,
    ramp_factor,
    ramp_factor_envelope,
    sliding_torque,
    slip_onset_torque,
    step_factor,
    step_peak_with_lash,
    torque_share,
)


def test_constant_torque_closes_like_a_falling_body() -> None:
    assert closing_time(math.inf, 240.0, 0.05, 0.02) == pytest.approx(
        math.sqrt(2 * 0.05 * 0.02 / 240.0), rel=1e-14
    )
    assert closing_speed(math.inf, 240.0, 0.05, 0.02) == pytest.approx(
        math.sqrt(2 * 240.0 * 0.02 / 0.05), rel=1e-14
    )


def test_ramp_and_plateau_meet_where_the_gap_is_just_crossed_on_the_ramp() -> None:
    lash = 240.0**3 / (6.0 * 0.05 * 4000.0**2)
    edge = np.array([lash * (1 - 1e-12), lash * (1 + 1e-12)])
    assert np.ptp(closing_time(4000.0, 240.0, 0.05, edge)) < 1e-12
    assert closing_time(4000.0, 240.0, 0.05, lash) == pytest.approx(0.06, rel=1e-12)
    assert np.ptp(closing_speed(4000.0, 240.0, 0.05, edge)) < 1e-9


def test_no_lash_closes_at_once() -> None:
    assert closing_time(4000.0, 240.0, 0.05, 0.0) == 0.0
    assert closing_speed(4000.0, 240.0, 0.05, 0.0) == 0.0


def test_eight_times_slower_halves_the_closing_speed() -> None:
    fast, slow = closing_speed(np.array([4000.0, 500.0]), 240.0, 0.05, 0.02)
    assert slow == pytest.approx(fast / 2.0, rel=1e-12)


def test_energy_of_a_constant_torque_is_its_share_times_torque_times_lash() -> None:
    energy = blow_energy(closing_speed(math.inf, 240.0, 0.05, 0.02), 0.05, 0.25)
    assert energy == pytest.approx(torque_share(0.05, 0.25) * 240.0 * 0.02, rel=1e-14)


def test_closing_torque_is_the_inverse_of_the_step_peak() -> None:
    torque = closing_torque_from_blow(np.array([50.0, 260.0, 900.0]), 0.05, 1.2, 12000.0, 0.02)
    assert step_peak_with_lash(torque, 0.05, 1.2, 12000.0, 0.02) == pytest.approx(
        [50.0, 260.0, 900.0], rel=1e-13
    )


def test_ramp_factor_lies_under_its_envelope_and_touches_it() -> None:
    periods = np.linspace(0.0, 12.0, 2401)
    factor, envelope = ramp_factor(periods, 1.0), ramp_factor_envelope(periods, 1.0)
    assert np.all(factor <= envelope + 1e-15)
    assert factor[0] == envelope[0] == 2.0
    assert factor[::200][1:] == pytest.approx(1.0, abs=1e-15)
    assert factor[100::200] == pytest.approx(envelope[100::200], rel=1e-14)


def test_vanishing_lash_on_a_ramp_tends_to_a_whole_swing() -> None:
    # without lash the torque first pauses after one period, at s S Tn
    frequency = natural_frequency(0.05, 1.2, 12000.0)
    assert first_blow_on_ramp(4000.0, 0.05, 1.2, 12000.0, 1e-18) == pytest.approx(
        0.96 * 4000.0 / frequency, rel=1e-4
    )


GOOD = {
    torque_share: (0.05, 1.2),
    natural_frequency: (0.05, 1.2, 12000.0),
    ramp_factor: (0.1, 80.0),
    ramp_factor_envelope: (0.1, 80.0),
    step_factor: (0.1,),
    step_peak_with_lash: (240.0, 0.05, 1.2, 12000.0, 0.0),
    first_blow_on_ramp: (4000.0, 0.05, 1.2, 12000.0, 0.02),
    closing_time: (4000.0, 240.0, 0.05, 0.0),
    closing_speed: (4000.0, 240.0, 0.05, 0.0),
    blow_energy: (5.0, 0.05, 1.2),
    closing_torque_from_blow: (260.0, 0.05, 1.2, 12000.0, 0.0),
    slip_onset_torque: (150.0, 0.0, 2.4),
    sliding_torque: (240.0, 150.0, 0.05, 0.3),
}


def test_held_driven_side() -> None:
    assert torque_share(0.05, math.inf) == 1.0
    assert natural_frequency(0.05, math.inf, 12000.0) == pytest.approx(
        math.sqrt(12000.0 / 0.05) / (2 * math.pi)
    )


@pytest.mark.parametrize(
    ("function", "arguments", "message"),
    [
        (torque_share, (0.0, 1.2), "driving_inertia must be above zero"),
        (natural_frequency, (0.05, 1.2, -1.0), "stiffness must be above zero"),
        (ramp_factor, (-0.1, 80.0), "rise_time must not be negative"),
        (ramp_factor_envelope, (0.1, 0.0), "natural_frequency must be above zero"),
        (step_factor, (1.0,), "damping_ratio must be 0 or more and below 1"),
        (step_peak_with_lash, (240.0, 0.05, 1.2, 12000.0, -0.1), "lash 0 or more"),
        (step_peak_with_lash, (0.0, 0.05, 1.2, 12000.0, 0.02), "torque and stiffness must be above 0"),
        (step_peak_with_lash, (240.0, 0.05, 1.2, 0.0, 0.02), "torque and stiffness must be above 0"),
        (first_blow_on_ramp, (4000.0, 0.05, 1.2, 12000.0, 0.0), "lash must be above 0"),
        (first_blow_on_ramp, (math.inf, 0.05, 1.2, 12000.0, 0.02), "torque_rise must be finite"),
        (
            closing_time,
            (0.0, 240.0, 0.05, 0.02),
            "torque_rise, peak_torque and driving_inertia must be above 0",
        ),
        (closing_speed, (4000.0, 240.0, 0.05, -0.02), "lash not negative"),
        (blow_energy, (5.0, 0.05, 0.0), "driving_inertia and driven_inertia must be above 0"),
        (closing_torque_from_blow, (0.0, 0.05, 1.2, 12000.0, 0.02), "blow_torque, inertias and stiffness"),
        (closing_torque_from_blow, (260.0, 0.05, 1.2, 12000.0, -0.1), "lash must be 0 rad or more"),
        (slip_onset_torque, (0.0, 0.3, 2.4), "slip_torque must be above 0"),
        (
            slip_onset_torque,
            (150.0, 2.4, 2.4),
            "inertia_before_slip must be 0 or more and below driven_inertia",
        ),
        (slip_onset_torque, (150.0, -0.3, 2.4), "inertia_before_slip must be 0 or more"),
        (sliding_torque, (240.0, 150.0, 0.05, 0.0), "slip_torque and the inertias must be above 0"),
        (sliding_torque, (240.0, 0.0, 0.05, 0.3), "slip_torque and the inertias must be above 0"),
    ],
)
def test_impossible_arguments_are_refused(function, arguments, message: str) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(DomainError, match=message):
        function(*arguments)
    # one bad case spoils an array
    among_good = [np.array([good, bad]) for good, bad in zip(GOOD[function], arguments, strict=True)]
    with pytest.raises(DomainError, match=message):
        function(*among_good)


@pytest.mark.parametrize("function", GOOD, ids=lambda function: function.__name__)
def test_possible_arguments_are_not(function) -> None:  # type: ignore[no-untyped-def]
    assert np.isfinite(function(*GOOD[function]))
