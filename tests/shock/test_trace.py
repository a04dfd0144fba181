"""Torque in the path over time."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from shock.test_peak import TROLLEY, blows

from torqcheck.errors import DomainError
from torqcheck.shock import peak, trace


@given(blows)
@settings(max_examples=80, deadline=None)
def test_the_trace_shows_what_the_peak_says(case: dict[str, float]) -> None:
    blow, result = peak(**case), trace(**case)
    assert result.torque.max() == pytest.approx(blow.peak_torque, rel=1e-10)
    assert result.torque.min() >= blow.least_torque * (1.0 + 1e-10) - 1e-10 * blow.steady_torque
    assert np.all(np.diff(result.times) > 0.0)
    assert result.times[0] == 0.0
    assert result.times.shape == result.torque.shape == result.mode.shape
    if case["lash"] > 0.0:
        assert np.all(np.sign(result.torque) * result.mode >= 0.0)
        assert result.times[np.argmax(result.mode == 1)] == pytest.approx(blow.closing_time, rel=1e-12)
        losses = np.count_nonzero((result.mode[:-1] == 1) & (result.mode[1:] != 1))
        assert losses == blow.contact_losses or not blow.settled


def test_the_trace_ends_near_the_steady_torque() -> None:
    result, blow = trace(**(TROLLEY | {"damping_ratio": 0.2})), peak(**TROLLEY)
    assert result.torque[-1] == pytest.approx(blow.steady_torque, rel=1e-3)


def test_asked_times_come_back_as_they_were() -> None:
    times = np.array([[0.06, 0.0], [0.0154, 5.0]])
    result = trace(**TROLLEY, times=times)
    assert np.array_equal(result.times, times)
    assert result.torque.shape == times.shape
    assert result.mode.tolist() == [[1, 0], [1, 1]]
    assert result.torque[1, 1] == pytest.approx(230.4, rel=1e-12)


def test_endless_hammering_is_followed_as_far_as_asked() -> None:
    case = TROLLEY | {"torque_rise": math.inf, "damping_ratio": 0.0}
    result = trace(**case, times=np.linspace(0.0, 2.0, 40001))
    late = result.torque[result.times > 1.9]
    assert late.max() == pytest.approx(peak(**case).peak_torque, rel=1e-3)
    assert late.min() == 0.0


def test_torque_is_continuous_where_contact_opens_and_jumps_where_it_closes() -> None:
    result = trace(**TROLLEY)
    opens = np.flatnonzero((result.mode[:-1] == 1) & (result.mode[1:] == 0))
    closes = np.flatnonzero((result.mode[:-1] == 0) & (result.mode[1:] == 1))
    assert len(opens) == 1
    assert len(closes) == 2
    assert result.torque[opens] == pytest.approx(0.0, abs=1e-6)
    # viscous contact law: the torque begins at c v
    damping = 2.0 * 0.03 * math.sqrt(12000.0 * 0.048)
    assert result.torque[closes[0] + 1] == pytest.approx(damping * peak(**TROLLEY).closing_speed, rel=1e-9)


@pytest.mark.parametrize("times", [[-1e-3, 0.0], [math.nan], [math.inf]])
def test_impossible_times_are_refused(times: list[float]) -> None:
    with pytest.raises(DomainError, match="times must be 0 s or more and finite"):
        trace(**TROLLEY, times=times)


@pytest.mark.parametrize("lash", [math.nan, np.array([0.01, 0.02])])
def test_several_cases_or_nan_are_refused(lash: float) -> None:
    with pytest.raises(DomainError, match="trace follows one case"):
        trace(**(TROLLEY | {"lash": lash}))
