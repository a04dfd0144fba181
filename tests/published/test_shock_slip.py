"""Reference results for a slip element behind an inertia, from the three-inertia torsional model.

Worked out in closed form and checked there by independent integration; a run with a regularised
friction law (no sticking) tends to the peak of case B30 from below.
"""

import math

import pytest
from published._case import Case

from torqcheck.provenance import Mark
from torqcheck.shock import peak, sliding_torque, slip_onset_torque

MODEL = "Three-inertia torsional model with a slip element, closed form and independent integration"
DERIVED: Mark = "derived"
SLIP = {
    "peak_torque": 240.0,
    "driving_inertia": 0.05,
    "driven_inertia": 2.4,
    "stiffness": 12000.0,
    "slip_torque": 150.0,
    "inertia_before_slip": 0.3,
}
B29 = SLIP | {"torque_rise": math.inf}
B30 = SLIP | {"torque_rise": 4000.0, "lash": 0.02}


def test_case_b29_lets_go() -> None:
    blow = peak(**B29)
    Case(MODEL, "case B29, onset", DERIVED, B29, "171.42857").check(slip_onset_torque(150.0, 0.3, 2.4))
    Case(MODEL, "case B29, time of onset", DERIVED, B29, "2.619402", 1e-3).check(blow.slip_time)
    Case(MODEL, "case B29, mean torque", DERIVED, B29, "227.14286").check(
        sliding_torque(240.0, 150.0, 0.05, 0.3)
    )
    Case(MODEL, "case B29, mean torque", DERIVED, B29, "227.14286").check(blow.steady_torque)
    Case(MODEL, "case B29, peak", DERIVED, B29, "446.05016").check(blow.peak_torque)


def test_case_b29_without_slip() -> None:
    inputs = {name: value for name, value in B29.items() if "slip" not in name}
    Case(MODEL, "case B29, without slip", DERIVED, inputs, "470.20408").check(peak(**inputs).peak_torque)


def test_case_b29_peak_in_closed_form() -> None:
    # y_peak = m + sqrt((k x0 - m)^2 + k mu' x0'^2) after slip onset; printed: x0' 9.335034
    mean, reduced = sliding_torque(240.0, 150.0, 0.05, 0.3), 0.05 * 0.3 / 0.35
    speed = Case(MODEL, "case B29, rate at onset", DERIVED, B29, "9.335034")
    frequency = math.sqrt(12000.0 * (0.05 + 2.4) / (0.05 * 2.4))
    share = 2.4 / 2.45
    rate = share * 240.0 / 12000.0 * frequency * math.sin(frequency * peak(**B29).slip_time)
    speed.check(rate)
    highest = mean + math.sqrt((171.428571428571 - mean) ** 2 + 12000.0 * reduced * rate**2)
    assert peak(**B29).peak_torque == pytest.approx(highest, rel=1e-12)


def test_case_b30() -> None:
    blow = peak(**B30)
    Case(MODEL, "case B30, first slip", DERIVED, B30, "14.4455", 1e-3).check(blow.slip_time)
    Case(MODEL, "case B30, peak", DERIVED, B30, "343.062").check(blow.peak_torque)


def test_slip_hardly_bounds_the_blow() -> None:
    """The steady torque is cut to 227 N m, the blow of B29 only from 470 to 446 N m."""
    with_slip, without = peak(**B29), peak(**{name: B29[name] for name in B29 if "slip" not in name})
    assert with_slip.steady_torque / without.steady_torque < 0.97
    assert with_slip.peak_torque > 1.9 * with_slip.steady_torque
