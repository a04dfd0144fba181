"""The involute function against its integral and its inverse; widths against drawn flanks."""

import math
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from torqcheck.errors import DomainError
from torqcheck.geometry import inverse_involute, involute, width_at_radius


@given(st.floats(1e-6, 1.57))
def test_inverse_returns_the_angle(angle: float) -> None:
    assert abs(float(inverse_involute(involute(angle))) - angle) <= 1e-13 * max(1.0, angle)


@given(st.floats(1e-18, 1e9))
def test_inverse_meets_the_value(value: float) -> None:
    angle = float(inverse_involute(value))
    # the tangent is steep near pi/2: one rounding of the angle moves the value by so much
    slack = 1e-13 * value + 4e-16 * math.tan(angle) ** 2
    assert abs(float(involute(angle)) - value) <= slack


@pytest.mark.parametrize("angle", [0.02, 0.0999, 0.1001, 0.5, 1.2])
def test_involute_is_the_integral_of_the_squared_tangent(angle: float) -> None:
    integral = quad(lambda x: math.tan(x) ** 2, 0.0, angle, epsabs=0.0, epsrel=1e-13)[0]
    assert float(involute(angle)) == pytest.approx(integral, rel=1e-12)


def test_small_angle_keeps_its_digits() -> None:
    angle = Fraction(1, 10**5)
    exact = angle**3 / 3 + 2 * angle**5 / 15
    assert float(involute(1e-5)) == pytest.approx(float(exact), rel=1e-14)


def test_arrays_and_nan_pass_through() -> None:
    values = np.array([[0.05, np.nan], [0.1, 2.0]])
    angles = np.asarray(inverse_involute(values))
    assert angles.shape == values.shape
    assert np.isnan(angles[0, 1])
    np.testing.assert_allclose(np.asarray(involute(angles))[~np.isnan(values)], [0.05, 0.1, 2.0], rtol=1e-13)
    assert isinstance(inverse_involute(0.05), float)


@pytest.mark.parametrize("value", [0.0, -1e-9, math.inf, -math.inf])
def test_no_flank_has_such_an_involute(value: float) -> None:
    with pytest.raises(DomainError, match="value must be above 0"):
        inverse_involute(value)


@pytest.mark.parametrize("angle", [-1e-12, 0.5 * math.pi, 4.0])
def test_no_flank_has_such_an_angle(angle: float) -> None:
    with pytest.raises(DomainError, match="angle must be 0 or more"):
        involute(angle)


def unwound_flank(base_radius: float, roll: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Radius and polar angle of the end of a thread unwound from the base circle, point by point."""
    x = base_radius * (np.cos(roll) + roll * np.sin(roll))
    y = base_radius * (np.sin(roll) - roll * np.cos(roll))
    return np.hypot(x, y), np.arctan2(y, x)


def test_width_follows_an_unwound_thread() -> None:
    D, a, width = 0.028575, math.radians(30.0), 0.00166
    radius, polar = unwound_flank(0.5 * D * math.cos(a), np.linspace(0.3, 0.9, 50))
    # the flank starts where the thread passes the pitch circle at half the width
    start = width / D + np.interp(0.5 * D, radius, polar)
    expected = 2.0 * radius * (start - polar)
    np.testing.assert_allclose(np.asarray(width_at_radius(radius, D, a, width)), expected, rtol=0, atol=2e-7)


@given(st.integers(6, 100), st.floats(0.2, 0.9), st.floats(0.2, 0.8))
def test_width_at_the_pitch_circle_is_the_width(teeth: int, angle: float, share: float) -> None:
    width = share * math.pi * 1e-3
    assert float(width_at_radius(0.5e-3 * teeth, 1e-3 * teeth, angle, width)) == pytest.approx(
        width, rel=1e-9
    )


def test_flank_is_radial_below_the_base_circle() -> None:
    base = 0.5 * math.cos(math.radians(30.0))
    ratio = [
        float(width_at_radius(r, 1.0, math.radians(30.0), 0.1)) / r for r in (0.8 * base, 0.9 * base, base)
    ]
    # no involute is left to unwind there: the whole angle is the one at the start of the flank
    assert ratio[0] == pytest.approx(2.0 * (0.1 + float(involute(math.radians(30.0)))), rel=1e-12)
    assert ratio[0] == pytest.approx(ratio[1], rel=1e-12)
    assert ratio[0] == pytest.approx(ratio[2], rel=1e-12)


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        ((0.0, 1.0, 0.5, 0.1), "radius must be above 0"),
        ((0.5, -1.0, 0.5, 0.1), "pitch_diameter must be above 0"),
        ((0.5, 1.0, 0.0, 0.1), "pressure_angle must lie"),
        ((0.5, 1.0, 0.5, 0.0), "width must be above 0"),
    ],
)
def test_impossible_width_is_refused(arguments: tuple[float, ...], message: str) -> None:
    with pytest.raises(DomainError, match=message):
        width_at_radius(*arguments)
