"""Fatigue notch factors of key seats and press fits by DIN 743-2."""

import numpy as np

from torqcheck._types import FloatArray, Numeric
from torqcheck.errors import DomainError
from torqcheck.fatigue._sources import DIN_743
from torqcheck.fatigue._symbols import ULTIMATE
from torqcheck.formulas import Symbol, formula

__all__ = [
    "DIN_NOTCH_RANGE",
    "din_keyseat_bending_factor",
    "din_keyseat_torsion_factor",
    "din_press_fit_bending_factor",
    "din_press_fit_torsion_factor",
]

DIN_NOTCH_RANGE = (300e6, 1400e6)
"""Ultimate strengths for which these factors are used, Pa."""

_IN_BENDING = Symbol("bs", "-", "fatigue notch factor in bending")
_IN_TORSION = Symbol("bt", "-", "fatigue notch factor in torsion")


def _in_gigapascal(ultimate_strength: Numeric) -> FloatArray:
    low, high = DIN_NOTCH_RANGE
    if np.any(np.less(ultimate_strength, low) | np.greater(ultimate_strength, high)):
        raise DomainError("ultimate_strength must lie between 300 and 1400 MPa")
    return np.asarray(np.divide(ultimate_strength, 1e9))


@formula(
    "bs = 3.0 (Sut/1000 MPa)^0.38",
    result=_IN_BENDING,
    source=DIN_743,
    ultimate_strength=ULTIMATE,
)
def din_keyseat_bending_factor(ultimate_strength: Numeric) -> Numeric:
    """
    Fatigue notch factor of a shaft in bending at the seat of its key.

    ::

        bs = 3.0 (Sut/1000 MPa)^0.38

    Parameters
    ----------
    ultimate_strength : float or array, Pa
        Sut.

    Returns
    -------
    float or array, -
        bs.

    Raises
    ------
    DomainError
        If ultimate_strength lies outside 300 to 1400 MPa anywhere.

    Notes
    -----
    A fatigue factor, notch sensitivity included: not comparable with an elastic stress
    concentration. For a diameter of about 40 mm; the ends of the range are our own. NaN gives NaN.

    References
    ----------
    .. [1] DIN 743-2. Mark: from memory.

    Examples
    --------
    >>> print(f"{din_keyseat_bending_factor(800e6):.2f}")
    2.76
    """
    return (3.0 * _in_gigapascal(ultimate_strength) ** 0.38)[()]


@formula(
    "bt = 0.56 bs + 0.1",
    result=_IN_TORSION,
    source=DIN_743,
    ultimate_strength=ULTIMATE,
)
def din_keyseat_torsion_factor(ultimate_strength: Numeric) -> Numeric:
    """
    Fatigue notch factor of a shaft in torsion at the seat of its key.

    ::

        bt = 0.56 bs + 0.1

    Parameters
    ----------
    ultimate_strength : float or array, Pa
        Sut.

    Returns
    -------
    float or array, -
        bt.

    Raises
    ------
    DomainError
        If ultimate_strength lies outside 300 to 1400 MPa anywhere.

    Notes
    -----
    A fatigue factor, notch sensitivity included: not comparable with an elastic stress
    concentration. For a diameter of about 40 mm; the ends of the range are our own. NaN gives NaN.

    References
    ----------
    .. [1] DIN 743-2. Mark: from memory.

    Examples
    --------
    >>> print(f"{din_keyseat_torsion_factor(800e6):.2f}")
    1.64
    """
    return 0.56 * din_keyseat_bending_factor(ultimate_strength) + 0.1


@formula(
    "bs = 2.7 (Sut/1000 MPa)^0.43",
    result=_IN_BENDING,
    source=DIN_743,
    ultimate_strength=ULTIMATE,
)
def din_press_fit_bending_factor(ultimate_strength: Numeric) -> Numeric:
    """
    Fatigue notch factor of a shaft in bending at the edge of a hub that is pressed on.

    ::

        bs = 2.7 (Sut/1000 MPa)^0.43

    Parameters
    ----------
    ultimate_strength : float or array, Pa
        Sut.

    Returns
    -------
    float or array, -
        bs.

    Raises
    ------
    DomainError
        If ultimate_strength lies outside 300 to 1400 MPa anywhere.

    Notes
    -----
    A fatigue factor, notch sensitivity included: not comparable with an elastic stress
    concentration. For a diameter of about 40 mm; the ends of the range are our own. NaN gives NaN.

    References
    ----------
    .. [1] DIN 743-2. Mark: from memory.

    Examples
    --------
    >>> print(f"{din_press_fit_bending_factor(800e6):.2f}")
    2.45
    """
    return (2.7 * _in_gigapascal(ultimate_strength) ** 0.43)[()]


@formula(
    "bt = 0.65 bs",
    result=_IN_TORSION,
    source=DIN_743,
    ultimate_strength=ULTIMATE,
)
def din_press_fit_torsion_factor(ultimate_strength: Numeric) -> Numeric:
    """
    Fatigue notch factor of a shaft in torsion at the edge of a hub that is pressed on.

    ::

        bt = 0.65 bs

    Parameters
    ----------
    ultimate_strength : float or array, Pa
        Sut.

    Returns
    -------
    float or array, -
        bt.

    Raises
    ------
    DomainError
        If ultimate_strength lies outside 300 to 1400 MPa anywhere.

    Notes
    -----
    A fatigue factor, notch sensitivity included: not comparable with an elastic stress
    concentration. For a diameter of about 40 mm; the ends of the range are our own. NaN gives NaN.

    References
    ----------
    .. [1] DIN 743-2. Mark: from memory.

    Examples
    --------
    >>> print(f"{din_press_fit_torsion_factor(800e6):.2f}")
    1.59
    """
    return 0.65 * din_press_fit_bending_factor(ultimate_strength)
