"""Closed contact, damped below critical: the torque swings about the load.

In the units of this folder (see ``states``) a closed contact obeys ::

    x'' + 2 zeta x' + x = load + slope t          torque y = x + 2 zeta x'

and its torque is, with omega = sqrt(1 - zeta^2) and sin(lag) = zeta, ::

    y   = load + slope t + A exp(-zeta t) cos(theta - lag)       theta = angle + omega t
    y'  = slope - A exp(-zeta t) sin(theta)
    y'' = -A exp(-zeta t) cos(theta + lag)

Maxima of y lie in the arched stretches, centre of the stretch near theta = 2 pi n, minima in the
hollow stretches, near theta = pi + 2 pi n; a stretch reaches from (centre - pi/2 - lag) to
(centre + pi/2 - lag), and y' is monotone in it. That isolates every root beforehand.
"""

from math import pi
from typing import NamedTuple

from torqcheck.shock.arithmetic import SMALLEST, Arithmetic, Number, Truth, sine_and_cosine
from torqcheck.shock.states import Case, Stretch

__all__ = ["Swing", "crossing", "first_maximum", "first_minimum", "last_maximum", "swing", "torque_at"]

FLAT = 1e-5
"""Newton's last step towards a maximum; the error left in its time is of the order of its square."""
SHARP = 1e-7
"""Newton's last step towards a zero of the torque."""


class Swing(NamedTuple):
    """Coefficients of the torque in one closed contact."""

    load: Number
    slope: Number
    amplitude: Number
    angle: Number
    zeta: Number
    omega: Number
    lag: Number


def swing(use: Arithmetic, case: Case, stretch: Stretch, torque: Number, rate: Number) -> Swing:
    """Coefficients from torque and its rate at the start; theta + lag starts in [-pi/2, 3 pi/2)."""
    load, slope, _ = stretch
    cosine_part = torque - load
    sine_part = (rate - slope + case.zeta * cosine_part) / case.omega
    amplitude = use.sqrt(cosine_part * cosine_part + sine_part * sine_part)
    turned = 2.0 * case.lag - use.arctan2(sine_part, cosine_part)
    turned = use.where(turned < -0.5 * pi, turned + 2.0 * pi, turned)
    turned = use.where(turned >= 1.5 * pi, turned - 2.0 * pi, turned)
    return Swing(load, slope, amplitude, turned - case.lag, case.zeta, case.omega, case.lag)


def torque_at(use: Arithmetic, motion: Swing, time: Number) -> tuple[Number, Number, Number]:
    """Torque, its rate and its curvature."""
    load, slope, amplitude, angle, zeta, omega, _ = motion
    sine, cosine = sine_and_cosine(use, angle + omega * time)
    left = amplitude * use.exp(-zeta * time)
    sine = left * sine
    cosine = omega * (left * cosine)
    leaning = zeta * sine
    return load + slope * time + (cosine + leaning), slope - sine, leaning - cosine


def _stationary(
    use: Arithmetic, motion: Swing, centre: Number, sign: float, rising: bool
) -> tuple[Number, Truth]:
    """Time of the maximum (sign 1) or minimum (sign -1) near theta = centre, and whether there is one."""
    _, slope, amplitude, angle, zeta, omega, lag = motion
    middle = (centre - angle) / omega
    if not rising:
        return middle, amplitude > 0.0
    steepness = use.where(slope < 0.0, -sign, sign)
    narrow = (centre + steepness * (0.5 * pi) - lag - angle) / omega
    left = amplitude * omega * use.exp(-zeta * use.maximum(narrow, 0.0))
    exists = (narrow <= 0.0) | (left > abs(slope))
    decayed = use.maximum(amplitude * use.exp(-zeta * use.maximum(middle, 0.0)), SMALLEST)
    lean = use.arcsin(use.minimum(use.maximum(slope / decayed, -1.0), 1.0))
    low = use.maximum((centre - 0.5 * pi - lag - angle) / omega, 0.0)
    high = use.maximum(use.where(exists, (centre + 0.5 * pi - lag - angle) / omega, low), low)

    def falling(time: Number) -> tuple[Number, Number]:
        _, rate, curvature = torque_at(use, motion, time)
        return sign * rate, sign * curvature

    time = use.root(falling, low, high, middle + sign * lean / omega, FLAT)
    return time, exists


def first_minimum(use: Arithmetic, motion: Swing, rate: Number, rising: bool) -> tuple[Number, Truth]:
    """Time of the first minimum after the start, and whether there is one."""
    ahead = (motion.angle + motion.lag < 0.5 * pi) | (rate < 0.0)
    return _stationary(use, motion, use.where(ahead, pi, 3.0 * pi), -1.0, rising)


def first_maximum(use: Arithmetic, motion: Swing, rate: Number, rising: bool) -> tuple[Number, Truth]:
    """Time of the first maximum after the start, and whether there is one."""
    ahead = (motion.angle + motion.lag < 0.5 * pi) & (rate > 0.0)
    return _stationary(use, motion, use.where(ahead, 0.0, 2.0 * pi), 1.0, rising)


def last_maximum(
    use: Arithmetic, motion: Swing, length: Number, rate_at_end: Number
) -> tuple[Number, Number]:
    """
    Height and time of the larger of the last two maxima before the end of a rising ramp.

    The envelope of the maxima on a rising ramp is convex at first, where the first maximum is the
    largest, and then rises to within less than one period of the point where the swing has died
    away. So the largest of all is the first, the last or the last but one.
    """
    _, slope, amplitude, angle, zeta, omega, lag = motion
    end = angle + omega * length + lag
    count = use.floor((end + 0.5 * pi) / (2.0 * pi))
    passed = (end - 2.0 * pi * count >= 0.5 * pi) | (rate_at_end <= 0.0)
    count = use.where(passed, count, count - 1.0)
    decay_time = use.log(use.maximum(amplitude * omega, SMALLEST) / slope) / use.maximum(zeta, 1e-12)
    alive = use.floor((omega * decay_time + angle + lag - 0.5 * pi) / (2.0 * pi))
    count = use.minimum(count, alive)
    heights, times = [], []
    for back in (0.0, 1.0):
        time, exists = _stationary(use, motion, 2.0 * pi * use.maximum(count - back, 0.0), 1.0, rising=True)
        valid = exists & (time >= 0.0) & (time <= length)
        time = use.where(valid, time, 0.0)
        times.append(time)
        heights.append(use.where(valid, torque_at(use, motion, time)[0], -1.0))
    later = heights[0] >= heights[1]
    return use.where(later, heights[0], heights[1]), use.where(later, times[0], times[1])


def crossing(use: Arithmetic, motion: Swing, high: Number) -> Number:
    """Time at which the torque, not negative at the start, falls through zero before ``high``."""
    load, slope, amplitude, angle, zeta, omega, lag = motion
    # where the swing last passes through zero, falling, before the end
    turns = use.floor((angle + omega * high - lag - 0.5 * pi) / (2.0 * pi))
    fall = 0.5 * pi + lag + 2.0 * pi * turns
    level = use.maximum((fall - angle) / omega, 0.0)
    share = (load + slope * level) / use.maximum(amplitude * use.exp(-zeta * level), SMALLEST)
    share = use.minimum(use.maximum(share, -1.0), 1.0)
    guess = (fall + use.arcsin(share) - angle) / omega

    def falling(time: Number) -> tuple[Number, Number]:
        torque, rate, _ = torque_at(use, motion, time)
        return torque, rate

    return use.root(falling, 0.0 * high, high, guess, SHARP)
