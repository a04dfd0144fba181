"""Checks of arguments that several kernels share."""

import math

import numpy as np

from torqcheck._types import ArrayLike, Numeric
from torqcheck.errors import DomainError

__all__ = [
    "LEAST_TEETH",
    "refuse",
    "refuse_bad_teeth",
    "refuse_negative",
    "refuse_unless_positive",
    "refuse_unless_within_pitch",
]

LEAST_TEETH = 4


def refuse(wrong: ArrayLike, message: str) -> None:
    """Raise DomainError with `message` if anything in `wrong` is true. NaN compares false, so it passes."""
    if wrong is not False and np.any(wrong):
        raise DomainError(message)


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


def refuse_bad_teeth(teeth: Numeric, module: Numeric, pressure_angle: Numeric) -> None:
    """Raise DomainError unless the three numbers describe an involute flank at all."""
    refuse_unless_positive(module=module)
    refuse(
        np.less(teeth, LEAST_TEETH) | np.isinf(teeth) | np.greater(np.abs(teeth - np.round(teeth)), 0.0),
        f"teeth must be a whole number, {LEAST_TEETH} or more",
    )
    refuse(
        np.less_equal(pressure_angle, 0.0) | np.greater_equal(pressure_angle, 0.5 * np.pi),
        "pressure_angle must lie between 0 and pi/2 rad",
    )


def refuse_unless_within_pitch(module: Numeric, **widths: Numeric) -> None:
    """Raise DomainError for a tooth or space as wide as the whole pitch, or with no width left."""
    for name, width in widths.items():
        refuse(
            np.less_equal(width, 0.0) | np.greater_equal(width, np.pi * np.asarray(module)),
            f"{name} must lie between 0 and the circular pitch (pi x module)",
        )
