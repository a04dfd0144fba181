"""Straight lines between the points of a printed list."""

import math
from bisect import bisect_right
from typing import NamedTuple

from torqcheck.errors import DomainError

__all__ = ["Curve"]

_ROUNDING = 1e-12  # a scale turned there and back must not fall off its end


class Curve(NamedTuple):
    """Points of a rising curve."""

    x: tuple[float, ...]
    y: tuple[float, ...]

    def at(self, value: float, what: str) -> float:
        """Straight line between the points; NaN at NaN, DomainError outside."""
        x, y = self
        if math.isnan(value):
            return math.nan
        if not x[0] * (1.0 - _ROUNDING) <= value <= x[-1] * (1.0 + _ROUNDING):
            raise DomainError(f"{what} must lie between {x[0]:g} and {x[-1]:g}, not at {value:g}")
        value = min(max(value, x[0]), x[-1])
        i = min(bisect_right(x, value), len(x) - 1)
        return y[i - 1] + (y[i] - y[i - 1]) * (value - x[i - 1]) / (x[i] - x[i - 1])
