"""Where a value lies that is not known exactly: so many standard deviations from the middle of its band."""

from statistics import NormalDist
from typing import TypeVar

import numpy as np

from torqcheck._types import FloatArray

__all__ = [
    "FARTHEST",
    "deviations",
    "share_below",
    "value_between",
    "value_in_band",
    "value_of_reading",
    "value_of_share",
]

Value = TypeVar("Value", float, FloatArray)

FARTHEST = 3.0
"""Standard deviations at which a draw is cut off."""
_NORMAL = NormalDist()


def deviations(points: FloatArray) -> FloatArray:
    """Turn evenly spread numbers between 0 and 1 into standard deviations of a normal distribution."""
    edge = _NORMAL.cdf(-FARTHEST)
    inside = edge + (1.0 - 2.0 * edge) * points
    return np.array([_NORMAL.inv_cdf(point) for point in inside.tolist()])


def value_in_band(value: float, low: float, high: float, deviation: Value) -> Value:
    """
    Return an assumed value at so many standard deviations.

    Its median is the value and the ends of its band are two standard deviations away, even in the
    logarithm on each side. Where the value stands at an end of the band, or the band begins at zero,
    anything in the band is as likely as anything else.
    """
    if not 0.0 < low < value < high:
        return low + (high - low) * share_below(deviation)
    return value_between(value, low, high, deviation)


def value_between(value: float, low: float, high: float, deviation: Value) -> Value:
    """Return a value whose median is given, with two standard deviations to each end, in the logarithm."""
    half = 0.5 * np.abs(deviation)
    found = value * np.where(np.less(deviation, 0.0), (low / value) ** half, (high / value) ** half)
    return found if isinstance(deviation, np.ndarray) else float(found)


def value_of_share(value: float, share: float, deviation: Value) -> Value:
    """Return a value whose tolerance, two standard deviations, is a share of it."""
    found = value * np.exp(0.5 * deviation * np.log1p(share))
    return np.asarray(found) if isinstance(deviation, np.ndarray) else float(found)


def value_of_reading(value: float, tolerance: float, deviation: Value) -> Value:
    """Return a reading at so many standard deviations; what is measured is never negative."""
    found = np.maximum(value + 0.5 * tolerance * deviation, 0.0)
    return found if isinstance(deviation, np.ndarray) else float(found)


def share_below(deviation: Value) -> Value:
    """Part of the draws that lie below, from 0 at the lower cut to 1 at the upper one."""
    edge = _NORMAL.cdf(-FARTHEST)
    shares = [(_NORMAL.cdf(z) - edge) / (1.0 - 2.0 * edge) for z in np.ravel(deviation).tolist()]
    inside = np.clip(shares, 0.0, 1.0)
    return inside.reshape(deviation.shape) if isinstance(deviation, np.ndarray) else float(inside[0])
