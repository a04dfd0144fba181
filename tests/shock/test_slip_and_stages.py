"""Limits, scaling and refusals of the slip element and of a rise in two stages."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from torqcheck.errors import DomainError
from torqcheck.shock import peak, sliding_torque, slip_onset_torque, step_factor, trace

BASE = {
    "torque_rise": 4000.0,
    "peak_torque": 240.0,
    "driving_inertia": 0.05,
    "driven_inertia": 1.2,
    "stiffness": 12000.0,
    "damping_ratio": 0.03,
    "lash": 0.02,
}
SLIP = BASE | {"slip_torque": 150.0, "inertia_before_slip": 0.3}

cases = some.fixed_dictionaries(
    {
        "torque_rise": some.floats(500.0, 1e5) | some.just(math.inf),
        "peak_torque": some.floats(20.0, 1000.0),
        "driving_inertia": some.floats(0.01, 1.0),
        "driven_inertia": some.floats(0.5, 10.0) | some.just(math.inf),
        "stiffness": some.floats(1e3, 1e5),
        "damping_ratio": some.floats(0.005, 1.5),
        "lash": some.floats(1e-4, 0.1) | some.just(0.0),
        "slip_torque": some.floats(10.0, 2000.0),
        "inertia_before_slip": some.floats(0.01, 0.4),
    }
)


# --- slip element ------------------------------------------------------------------------------------


@given(cases)
@settings(max_examples=150)
def test_an_element_that_holds_the_peak_changes_nothing(case: dict[str, float]) -> None:
    plain = peak(**{name: value for name, value in case.items() if "slip" not in name})
    part = 1.0 - case["inertia_before_slip"] / case["driven_inertia"]
    strong = peak(**(case | {"slip_torque": 1.01 * plain.peak_torque * part}))
    assert not strong.slipped
    assert math.isnan(strong.slip_time)
    assert strong.peak_torque == plain.peak_torque
    weak = peak(**(case | {"slip_torque": 0.99 * plain.peak_torque * part}))
    assert weak.slipped
    assert 0.0 < weak.slip_time <= plain.time_of_peak * (1.0 + 1e-12)


@given(cases)
@settings(max_examples=150)
def test_the_peak_is_at_least_the_onset_and_the_steady_torque(case: dict[str, float]) -> None:
    blow = peak(**case)
    if blow.slipped:
        onset = slip_onset_torque(case["slip_torque"], case["inertia_before_slip"], case["driven_inertia"])
        assert blow.peak_torque >= onset * (1.0 - 1e-12)
    assert blow.peak_torque >= blow.steady_torque * (1.0 - 1e-9)


@given(cases)
@settings(max_examples=150)
def test_torques_and_stiffness_scale_together(case: dict[str, float]) -> None:
    """Twice the torques, inertias and stiffness: the same motion under twice the torque."""
    scaled = {
        name: value if name in ("damping_ratio", "lash") else 2.0 * value for name, value in case.items()
    }
    one, two = peak(**case), peak(**scaled)
    assert two.peak_torque == pytest.approx(2.0 * one.peak_torque, rel=1e-12)
    assert two.slip_time == pytest.approx(one.slip_time, rel=1e-12, nan_ok=True)
    assert two.contact_losses == one.contact_losses


def test_slip_never_raises_the_peak() -> None:
    """Not proven, but so in every one of many random cases: what holds without slip holds with it."""
    random, count = np.random.default_rng(11), 4000
    driving = 10 ** random.uniform(-2, 0, count)
    driven = driving * 10 ** random.uniform(-0.3, 2, count)
    stiffness, torque = 10 ** random.uniform(3, 5, count), random.uniform(50, 500, count)
    share = driven / (driving + driven)
    period = 2 * np.pi * np.sqrt(share * driving / stiffness)
    before = driven * random.uniform(0.02, 0.9, count)
    onset = share * torque * 10 ** random.uniform(-0.4, 0.4, count)
    case = {
        "torque_rise": torque / (period * 10 ** random.uniform(-0.7, 1, count)),
        "peak_torque": torque,
        "driving_inertia": driving,
        "driven_inertia": driven,
        "stiffness": stiffness,
        "damping_ratio": random.uniform(0.01, 0.1, count),
        "lash": share * torque / stiffness * 10 ** random.uniform(-1.5, 1, count),
        "start_torque": np.where(random.random(count) < 0.4, -0.95 * np.minimum(onset / share, torque), 0.0),
    }
    firm = peak(**case).peak_torque
    slips = peak(**case, slip_torque=onset * (1 - before / driven), inertia_before_slip=before)
    assert np.mean(slips.slipped) > 0.5
    assert np.all(slips.peak_torque <= firm * (1 + 1e-9))


def test_steady_torque_is_what_the_closed_form_gives() -> None:
    assert peak(**SLIP).steady_torque == pytest.approx(sliding_torque(240.0, 150.0, 0.05, 0.3), rel=1e-14)
    grips = SLIP | {"slip_torque": 220.0}
    assert peak(**grips).steady_torque == pytest.approx(240.0 * 1.2 / 1.25, rel=1e-14)


def test_steady_torque_is_where_the_trace_ends() -> None:
    times = np.array([20.0, 21.0])
    torque = trace(**SLIP, times=times).torque
    assert torque == pytest.approx(sliding_torque(240.0, 150.0, 0.05, 0.3), rel=1e-9)
    assert trace(**SLIP, times=times).slip.tolist() == [1, 1]


def test_the_trace_shows_where_the_element_slides() -> None:
    # lets go once in the swing and grips again
    case = SLIP | {"slip_torque": 195.0, "driven_inertia": math.inf, "lash": 0.0, "torque_rise": math.inf}
    case |= {"peak_torque": 150.0}
    found, blow = trace(**case), peak(**case)
    assert blow.slipped
    assert found.slip[0] == found.slip[-1] == 0
    assert found.times[np.argmax(found.slip)] == pytest.approx(blow.slip_time, rel=1e-9)
    assert found.torque.max() == pytest.approx(blow.peak_torque, rel=1e-9)
    assert blow.peak_torque < 150.0 * step_factor(0.03)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"slip_torque": 0.0}, "slip_torque must be above 0"),
        ({"inertia_before_slip": 1.2}, "between 0 and driven_inertia"),
        ({"inertia_before_slip": 0.0}, "between 0 and driven_inertia"),
        ({"inertia_before_slip": math.inf, "driven_inertia": math.inf}, "between 0 and driven_inertia"),
        ({"start_torque": -230.0}, "does not hold start_torque"),
    ],
)
def test_an_element_that_makes_no_sense_is_refused(change: dict[str, float], message: str) -> None:
    with pytest.raises(DomainError, match=message):
        peak(**(SLIP | change))


def test_a_slip_torque_needs_the_inertia_before_it() -> None:
    with pytest.raises(DomainError, match="inertia_before_slip"):
        peak(**BASE, slip_torque=150.0)


def test_a_held_side_in_a_batch_of_two_stages_raises_no_warning() -> None:
    driven = np.array([1.2, math.inf])
    blow = peak(**(BASE | {"driven_inertia": driven}), closing_torque=20.0, closing_time=0.1)
    one = peak(**(BASE | {"driven_inertia": math.inf}), closing_torque=20.0, closing_time=0.1)
    assert blow.peak_torque[1] == pytest.approx(one.peak_torque, rel=1e-12)


# --- two stages --------------------------------------------------------------------------------------


@given(cases, some.floats(0.05, 1.0))
@settings(max_examples=100)
def test_no_rest_is_no_stage(case: dict[str, float], share: float) -> None:
    one = {name: value for name, value in case.items() if "slip" not in name}
    two = one | {"closing_torque": share * one["peak_torque"], "closing_time": 0.0}
    if math.isinf(one["torque_rise"]):  # then the rest has no length either
        assert peak(**two).peak_torque == pytest.approx(peak(**one).peak_torque, rel=1e-9)
    assert peak(**two).peak_torque == pytest.approx(peak(**one).peak_torque, rel=1e-9)


def test_a_long_rest_ends_on_a_settled_path() -> None:
    """After the swing has died away only the second rise is left: from the closing torque, lash closed."""
    staged = peak(**(BASE | {"damping_ratio": 0.1}), closing_torque=10.0, closing_time=3.0)
    settled = peak(**(BASE | {"damping_ratio": 0.1}), start_torque=10.0)
    assert staged.peak_torque == pytest.approx(settled.peak_torque, rel=1e-9)
    assert staged.closing_speed < 0.6 * peak(**BASE).closing_speed


def test_the_closing_torque_alone_decides_the_closing() -> None:
    at_once = BASE | {"torque_rise": math.inf}
    staged = peak(**at_once, closing_torque=11.7, closing_time=1.0)
    assert staged.closing_speed == pytest.approx(math.sqrt(2 * 11.7 * 0.02 / 0.05), rel=1e-12)
    assert staged.closing_time == pytest.approx(math.sqrt(2 * 0.05 * 0.02 / 11.7), rel=1e-12)


def test_the_trace_of_two_stages_follows_the_motor() -> None:
    case = BASE | {"lash": 0.0, "damping_ratio": 1.0}
    found = trace(**case, closing_torque=100.0, closing_time=1.0, times=np.array([0.9, 3.0]))
    assert found.torque == pytest.approx([100.0 * 1.2 / 1.25, 240.0 * 1.2 / 1.25], rel=1e-9)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"closing_torque": 0.0}, "closing_torque must be above 0"),
        ({"closing_torque": 50.0, "start_torque": 60.0}, "above start_torque"),
        ({"closing_torque": 241.0}, "must not be above peak_torque"),
        ({"closing_torque": 50.0, "closing_time": -1.0}, "closing_time must be 0 s or more"),
        ({"closing_torque": 50.0, "closing_time": math.inf}, "closing_time must be 0 s or more"),
    ],
)
def test_stages_that_make_no_sense_are_refused(change: dict[str, float], message: str) -> None:
    with pytest.raises(DomainError, match=message):
        peak(**(BASE | change))
