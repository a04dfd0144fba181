"""Closed contact, damped above critical: the torque creeps towards the load on two exponentials.

::

    y = load + slope t + fast exp(-quick t) + slow exp(-sluggish t)
    quick = zeta + sqrt(zeta^2 - 1)        sluggish = 1/quick

The curvature of y has at most one zero, so y' has at most two and y falls at most into two
stretches; all brackets follow from that.
"""

from typing import NamedTuple

from torqcheck.shock.arithmetic import Arithmetic, Number, Truth
from torqcheck.shock.states import Case, Stretch

__all__ = ["Creep", "creep", "crossing", "stationary", "torque_at"]

FLAT = 1e-9
SHARP = 1e-9
SETTLED = 60.0
"""After so many sluggish time constants the exponentials are below rounding."""


class Creep(NamedTuple):
    """Coefficients of the torque in one closed contact."""

    load: Number
    slope: Number
    fast: Number
    slow: Number
    quick: Number
    sluggish: Number


def creep(use: Arithmetic, case: Case, stretch: Stretch, torque: Number, rate: Number) -> Creep:
    """Coefficients from torque and its rate at the start."""
    load, slope, _ = stretch
    quick = case.zeta + use.sqrt(case.zeta * case.zeta - 1.0)
    sluggish = 1.0 / quick
    offset = torque - load
    slow = (rate - slope + quick * offset) / (quick - sluggish)
    return Creep(load, slope, offset - slow, slow, quick, sluggish)


def torque_at(use: Arithmetic, motion: Creep, time: Number) -> tuple[Number, Number, Number]:
    """Torque, its rate and its curvature."""
    load, slope, fast, slow, quick, sluggish = motion
    fast = fast * use.exp(-quick * time)
    slow = slow * use.exp(-sluggish * time)
    rate = slope - quick * fast - sluggish * slow
    return load + slope * time + fast + slow, rate, quick * quick * fast + sluggish * sluggish * slow


def _rate_zero(use: Arithmetic, motion: Creep, low: Number, high: Number) -> tuple[Number, Truth]:
    """Zero of y' between two times between which it is monotone, and whether there is one."""
    early = torque_at(use, motion, low)[1]
    late = torque_at(use, motion, high)[1]
    exists = early * late < 0.0
    sign = use.where(early > 0.0, 1.0, -1.0)

    def falling(time: Number) -> tuple[Number, Number]:
        _, rate, curvature = torque_at(use, motion, time)
        return sign * rate, sign * curvature

    time = use.root(falling, low, use.where(exists, high, low), low, FLAT)
    return time, exists


def stationary(use: Arithmetic, motion: Creep, length: Number) -> tuple[Number, Truth, Number, Truth, Number]:
    """Both zeros of y' in order (time, whether it exists), and the end of the search."""
    _, slope, fast, slow, quick, sluggish = motion
    end = use.minimum(length, use.where(slope == 0.0, SETTLED / sluggish, length))
    against = (fast * slow < 0.0) & (abs(slow) > 0.0)
    ratio = use.where(against, -fast * quick * quick, 1.0) / use.where(
        against, slow * sluggish * sluggish, 1.0
    )
    inflection = use.log(use.maximum(ratio, 1.0)) / (quick - sluggish)
    inflection = use.minimum(inflection, end)
    first, first_exists = _rate_zero(use, motion, 0.0 * end, inflection)
    second, second_exists = _rate_zero(use, motion, inflection, end)
    return first, first_exists, second, second_exists, end


def crossing(use: Arithmetic, motion: Creep, low: Number, high: Number) -> Number:
    """Zero of the torque between two times between which it falls through zero."""

    def falling(time: Number) -> tuple[Number, Number]:
        torque, rate, _ = torque_at(use, motion, time)
        return torque, rate

    return use.root(falling, low, high, 0.5 * (low + high), SHARP)
