"""Strength against life beyond both ends of the line: below the endurance limit, and for few cycles."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.errors import DomainError
from torqcheck.fatigue._sources import HANDBOOK, LECTURES
from torqcheck.fatigue._symbols import AMPLITUDE, ENDURANCE, EXPONENT
from torqcheck.formulas import Symbol, formula

__all__ = ["LIFE_AT_LIMIT", "amplitude_below_limit", "amplitude_of_few_cycles", "life_below_limit"]

LIFE_AT_LIMIT = 1e6
"""Cycles at which the line reaches the endurance limit."""


@formula(
    "N = 1e6 (Se/S)^(-2/b - 1)",
    result=Symbol("N", "-", "cycles to failure"),
    source=LECTURES,
    amplitude=AMPLITUDE,
    endurance_limit=ENDURANCE,
    exponent=EXPONENT,
)
def life_below_limit(amplitude: Numeric, endurance_limit: Numeric, exponent: Numeric) -> Numeric:
    """
    Life at an amplitude below the limit, when larger ones in between have started cracks (Haibach).

    ::

        N = 1e6 (Se/S)^(-2/b - 1)

    Parameters
    ----------
    amplitude : float or array, Pa
        S, fully reversed.
    endurance_limit : float or array, Pa
        Se of the part.
    exponent : float or array, -
        b of the line above the limit, negative.

    Returns
    -------
    float or array, -
        N; infinite at no amplitude.

    Raises
    ------
    DomainError
        If amplitude is negative, endurance_limit not above zero, or exponent not in -1 to 0,
        anywhere.

    Notes
    -----
    The slope m = -1/b becomes 2 m - 1. Meant for mixed loads; a load that never exceeds the limit
    may live for ever. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] E. Haibach, on the modified damage sum. Mark: from memory.

    Examples
    --------
    >>> print(f"{life_below_limit(100e6, 143.5e6, -0.1837):.3g}")
    3.56e+07
    """
    require_not_negative(amplitude=amplitude)
    require_positive(endurance_limit=endurance_limit)
    if np.any(np.greater_equal(exponent, 0.0) | np.less_equal(exponent, -1.0)):
        raise DomainError("exponent must lie between -1 and 0")
    ratio = np.divide(amplitude, endurance_limit)
    some = np.where(np.equal(ratio, 0.0), 1.0, ratio)
    with np.errstate(over="ignore"):
        lives = LIFE_AT_LIMIT * np.power(some, np.divide(2.0, exponent) + 1.0)
    return np.where(np.equal(ratio, 0.0), np.inf, lives)[()]


@formula(
    "S = Se (N/1e6)^(1/(2/b + 1))",
    result=AMPLITUDE,
    source=LECTURES,
    life=Symbol("N", "-", "cycles to failure"),
    endurance_limit=ENDURANCE,
    exponent=EXPONENT,
)
def amplitude_below_limit(life: Numeric, endurance_limit: Numeric, exponent: Numeric) -> Numeric:
    """
    Reversed amplitude below the limit that is borne for a number of cycles; inverse of ``life_below_limit``.

    ::

        S = Se (N/1e6)^(1/(2/b + 1))

    Parameters
    ----------
    life : float or array, -
        N, from 1e6 on.
    endurance_limit : float or array, Pa
        Se of the part.
    exponent : float or array, -
        b of the line above the limit, negative.

    Returns
    -------
    float or array, Pa
        S.

    Raises
    ------
    DomainError
        If life or endurance_limit is not above zero, or exponent not in -1 to 0, anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] E. Haibach, on the modified damage sum. Mark: from memory.

    Examples
    --------
    >>> print(f"{amplitude_below_limit(3.562e7, 143.5e6, -0.1837) / 1e6:.1f} MPa")
    100.0 MPa
    """
    require_positive(life=life, endurance_limit=endurance_limit)
    if np.any(np.greater_equal(exponent, 0.0) | np.less_equal(exponent, -1.0)):
        raise DomainError("exponent must lie between -1 and 0")
    flat = np.divide(1.0, np.divide(2.0, exponent) + 1.0)
    return endurance_limit * np.power(np.divide(life, LIFE_AT_LIMIT), flat)


@formula(
    "S = Su N^c",
    result=AMPLITUDE,
    source=HANDBOOK,
    life=Symbol("N", "-", "cycles to failure"),
    ultimate=Symbol("Su", "Pa", "ultimate strength, in the kind of stress of the line"),
    exponent=Symbol("c", "-", "exponent of the line of few cycles"),
)
def amplitude_of_few_cycles(life: Numeric, ultimate: Numeric, exponent: Numeric) -> Numeric:
    """
    Reversed amplitude that is borne for fewer than 1e3 cycles.

    ::

        S = Su N^c

    Parameters
    ----------
    life : float or array, -
        N, up to 1e3; carried on below 1 for what breaks at once.
    ultimate : float or array, Pa
        Su.
    exponent : float or array, -
        c, negative.

    Returns
    -------
    float or array, Pa
        S.

    Raises
    ------
    DomainError
        If life or ultimate is not above zero, or exponent not below zero, anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, p 286.
       Mark: published.

    Examples
    --------
    >>> print(f"{amplitude_of_few_cycles(1e3, 80e6, -0.015253) / 1e6:.1f} MPa")
    72.0 MPa
    """
    require_positive(life=life, ultimate=ultimate)
    if np.any(np.greater_equal(exponent, 0.0)):
        raise DomainError("exponent must be below zero")
    return ultimate * np.power(life, exponent)
