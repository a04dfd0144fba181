"""Refusal of arguments outside the range of a formula. NaN is let through: NaN in gives NaN out."""

import numpy as np

from torqcheck._types import ArrayLike, Numeric
from torqcheck.errors import DomainError

__all__ = [
    "refuse",
    "require_angle",
    "require_not_negative",
    "require_poisson_ratio",
    "require_positive",
    "require_share",
    "require_tube",
]


def refuse(wrong: ArrayLike, message: str) -> None:
    """
    Refuse arguments for which something holds that must not hold.

    Parameters
    ----------
    wrong : bool or array
        Where it holds. A comparison with NaN is false, so that NaN passes.
    message : str
        What is said if it holds anywhere.
    """
    # most calls are with one number, for which numpy would cost more than the formula
    if wrong is not False and np.any(wrong):
        raise DomainError(message)


def require_positive(**arguments: Numeric) -> None:
    """
    Refuse values at or below zero.

    Parameters
    ----------
    **arguments : float or array
        By the name that the message is to give.
    """
    for name, value in arguments.items():
        # most calls are with one number, for which an array would cost more than the formula
        if value <= 0.0 if isinstance(value, float) else np.any(np.less_equal(value, 0.0)):
            raise DomainError(f"{name} must be above zero")


def require_not_negative(**arguments: Numeric) -> None:
    """
    Refuse values below zero.

    Parameters
    ----------
    **arguments : float or array
        By the name that the message is to give.
    """
    for name, value in arguments.items():
        if value < 0.0 if isinstance(value, float) else np.any(np.less(value, 0.0)):
            raise DomainError(f"{name} must not be negative")


def require_share(**arguments: Numeric) -> None:
    """
    Refuse shares that are not above 0 and at most 1.

    Parameters
    ----------
    **arguments : float or array
        By the name that the message is to give.
    """
    for name, value in arguments.items():
        if np.any(np.less_equal(value, 0.0) | np.greater(value, 1.0)):
            raise DomainError(f"{name} must be above 0 and at most 1")


def require_angle(**arguments: Numeric) -> None:
    """
    Refuse angles of a right angle or more, of either sign.

    Parameters
    ----------
    **arguments : float or array
        In rad, by the name that the message is to give.
    """
    for name, value in arguments.items():
        if np.any(np.greater_equal(np.abs(value), 0.5 * np.pi)):
            raise DomainError(f"{name} must lie between -90 and +90 degrees (and is taken in rad)")


def require_poisson_ratio(**arguments: Numeric) -> None:
    """
    Refuse ratios that no solid metal has.

    Parameters
    ----------
    **arguments : float or array
        By the name that the message is to give.
    """
    for name, value in arguments.items():
        if np.any(np.less(value, 0.0) | np.greater(value, 0.5)):
            raise DomainError(f"{name} must lie between 0 and 0.5")


def require_tube(outer_diameter: Numeric, bore: Numeric) -> None:
    """
    Refuse a round section without a wall, or with a hole of negative size.

    Parameters
    ----------
    outer_diameter, bore : float or array, m
        Of the section.
    """
    if np.any(np.less(bore, 0.0) | np.less_equal(outer_diameter, bore)):
        raise DomainError("the outer diameter must be above the bore, and the bore not negative")
