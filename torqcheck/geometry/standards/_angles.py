"""Pressure angles that a standard knows."""

import math
from collections.abc import Sequence

from torqcheck.errors import DomainError

__all__ = ["nominal_angle"]

_TOLERANCE = 1e-6  # rad; far below any difference between standard angles


def nominal_angle(pressure_angle: float, known: Sequence[float], standard: str) -> float:
    """Return the standard's angle in degrees that `pressure_angle`, in rad, means; else raise DomainError."""
    for angle in known:
        if abs(pressure_angle - math.radians(angle)) <= _TOLERANCE:
            return angle
    choices = ", ".join(f"{angle:g}" for angle in known)
    raise DomainError(
        f"{standard} has no pressure angle of {math.degrees(pressure_angle):.6g} deg; it has {choices} deg"
    )
