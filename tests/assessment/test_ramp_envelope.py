"""The bound at any phase: never below the kernel, close enough to be of use, without lash the closed form."""

import math

import numpy as np
import pytest

from torqcheck.assessment.ramp.envelope import envelope
from torqcheck.shock import peak, ramp_factor_envelope, sliding_torque, slip_onset_torque

COUNT = 60_000


@pytest.mark.parametrize("regeneration", [False, True])
@pytest.mark.parametrize("seed", [1, 2])
def test_never_below_the_peak(seed: int, regeneration: bool) -> None:
    """Sixty thousand random cases: lash over five decades, damping to above critical, slopes over five."""
    rng = np.random.default_rng(seed)
    lash = 10.0 ** rng.uniform(-3.0, 1.5, COUNT) * (rng.random(COUNT) < 0.95)
    damping = 10.0 ** rng.uniform(-2.5, 0.1, COUNT)
    slope = 10.0 ** rng.uniform(-3.5, 1.0, COUNT)
    start = -(10.0 ** rng.uniform(-2.0, 0.5, COUNT)) if regeneration else np.zeros(COUNT)
    blow = peak(
        torque_rise=slope, peak_torque=1.0, driving_inertia=1.0, driven_inertia=math.inf, stiffness=1.0,
        damping_ratio=damping, lash=lash, start_torque=start,
    )  # fmt: skip
    bound = envelope(slope, lash, damping, start < 0.0).peak
    assert np.all(blow.peak_torque <= bound * (1.0 + 1e-9))


@pytest.mark.parametrize("seed", [3, 4])
def test_never_below_the_peak_with_a_slip_element(seed: int) -> None:
    rng = np.random.default_rng(seed)
    count = 20_000
    lash = 10.0 ** rng.uniform(-2.5, 0.8, count) * (rng.random(count) < 0.8)
    damping, slope = 10.0 ** rng.uniform(-2.3, -0.3, count), 10.0 ** rng.uniform(-3.0, 0.7, count)
    driven = 10.0 ** rng.uniform(-1.0, 2.0, count)
    share = driven / (1.0 + driven)  # driving inertia 1
    before = driven * rng.uniform(0.02, 0.9, count)
    friction = 10.0 ** rng.uniform(-0.7, 0.3, count) * (1.0 - before / driven)
    motor = 1.0 / share  # so that the steady torque without slip is 1
    blow = peak(
        torque_rise=slope * motor / np.sqrt(share), peak_torque=motor, driving_inertia=1.0,
        driven_inertia=driven, stiffness=1.0, damping_ratio=damping, lash=lash, slip_torque=friction,
        inertia_before_slip=before,
    )  # fmt: skip
    onset = slip_onset_torque(friction, before, driven)
    steady = np.where(onset < 1.0, sliding_torque(motor, friction, 1.0, before), 1.0)
    bound = envelope(slope, lash, damping, np.zeros(count, bool))
    highest = np.minimum(bound.peak, np.maximum(bound.blow, steady + bound.swing + bound.kick))
    assert np.mean(blow.slipped) > 0.5
    assert np.all(blow.peak_torque <= highest * (1.0 + 1e-9))


def test_without_lash_and_damping_it_is_the_known_envelope() -> None:
    periods = np.array([0.7, 1.43, 3.0, 20.0])
    ours = envelope(1.0 / (2.0 * np.pi * periods), np.zeros(4), np.zeros(4), np.zeros(4, bool)).peak
    assert ours == pytest.approx(ramp_factor_envelope(periods, 1.0), rel=1e-12)


def test_close_enough_to_be_of_use() -> None:
    """The slow end that it gives is a few times, not hundreds of times, slower than the last failing lobe."""
    slope = np.geomspace(1e-4, 3.0, 4000)
    for damping, lash, factor in ((0.03, 0.3, 1.05), (0.03, 1.0, 1.2), (0.08, 1.0, 1.05), (0.01, 0.05, 1.2)):
        true = peak(
            torque_rise=slope, peak_torque=1.0, driving_inertia=1.0, driven_inertia=math.inf, stiffness=1.0,
            damping_ratio=damping, lash=lash,
        )  # fmt: skip
        bound = envelope(slope, np.full(1, lash), np.full(1, damping), np.zeros(1, bool)).peak
        last = [slope[np.flatnonzero(values > factor)[0]] for values in (true.peak_torque, bound)]
        assert 1.0 <= last[0] / last[1] < 6.0
