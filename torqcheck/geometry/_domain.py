"""Checks of arguments that several kernels share."""

import math

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import refuse

__all__ = [
    "LEAST_TEETH",
    "refuse_bad_angle",
    "refuse_bad_count",
    "refuse_bad_teeth",
    "refuse_negative",
    "refuse_unless_positive",
    "refuse_unless_within_pitch",
]

LEAST_TEETH = 4


def refuse_unless_positive(**values: Numeric) -> None:
    """Raise DomainError for a value that is zero, negative or infinite."""
    for name, value in values.items():
        # most calls are with one number
        wrong = (
            value <= 0.0 or math.isinf(value)
            if isinstance(value, float)
            else np.less_equal(value, 0.0) | np.isinf(value)
        )
        refuse(wrong, f"{name} must be above 0 and finite")


def refuse_negative(**values: Numeric) -> None:
    """Raise DomainError for a value that is negative or infinite."""
    for name, value in values.items():
        refuse(np.less(value, 0.0) | np.isinf(value), f"{name} must be 0 or more, and finite")


def refuse_bad_count(teeth: Numeric) -> None:
    """Raise DomainError unless the number of teeth is a whole one, and not too small for a spline."""
    refuse(
        np.less(teeth, LEAST_TEETH) | np.isinf(teeth) | np.greater(np.abs(teeth - np.round(teeth)), 0.0),
        f"teeth must be a whole number, {LEAST_TEETH} or more",
    )


def refuse_bad_angle(pressure_angle: Numeric) -> None:
    """Raise DomainError unless the pressure angle lies between 0 and a right angle."""
    refuse(
        np.less_equal(pressure_angle, 0.0) | np.greater_equal(pressure_angle, 0.5 * np.pi),
        "pressure_angle must lie between 0 and pi/2 rad",
    )


def refuse_bad_teeth(teeth: Numeric, module: Numeric, pressure_angle: Numeric) -> None:
    """Raise DomainError unless the three numbers describe an involute flank at all."""
    refuse_unless_positive(module=module)
    refuse_bad_count(teeth)
    refuse_bad_angle(pressure_angle)


def refuse_unless_within_pitch(module: Numeric, **widths: Numeric) -> None:
    """Raise DomainError for a tooth or space as wide as the whole pitch, or with no width left."""
    for name, width in widths.items():
        refuse(
            np.less_equal(width, 0.0) | np.greater_equal(width, np.pi * np.asarray(module)),
            f"{name} must lie between 0 and the circular pitch (pi x module)",
        )
