"""Bending and torsion of a shaft as one load, and the least diameter by the withdrawn standard."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import require_positive
from torqcheck.errors import DomainError
from torqcheck.fatigue._sources import SHAFT_DESIGN, SHAFT_STANDARD
from torqcheck.fatigue._symbols import (
    ALTERNATING,
    BENDING_NOTCH,
    ENDURANCE,
    LEAST,
    TENSILE_YIELD,
    TORSION_NOTCH,
    WANTED,
)
from torqcheck.formulas import Symbol, formula

__all__ = ["combined_load", "shaft_standard_diameter"]


@formula(
    "A = sqrt(4 (Kf M)^2 + 3 (Kfs T)^2)",
    result=ALTERNATING,
    source=SHAFT_DESIGN,
    moment=Symbol("M", "N m", "bending moment, alternating or mean"),
    torque=Symbol("T", "N m", "torque, alternating or mean"),
    bending_notch_factor=BENDING_NOTCH,
    torsion_notch_factor=TORSION_NOTCH,
)
def combined_load(
    moment: Numeric, torque: Numeric, bending_notch_factor: Numeric = 1.0, torsion_notch_factor: Numeric = 1.0
) -> Numeric:
    """
    Bending moment and torque as one load by distortion energy, the notch in it.

    ::

        A = sqrt(4 (Kf M)^2 + 3 (Kfs T)^2)

    Parameters
    ----------
    moment : float or array, N m
        M. The sign is ignored.
    torque : float or array, N m
        T. The sign is ignored.
    bending_notch_factor : float or array, -, optional
        Kf.
    torsion_notch_factor : float or array, -, optional
        Kfs.

    Returns
    -------
    float or array, N m
        A from alternating loads, B from mean ones.

    Raises
    ------
    DomainError
        If a notch factor is below 1 anywhere.

    Notes
    -----
    16 A/(pi d^3) is the equivalent tensile stress.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Budynas and Nisbett, Mechanical Engineering Design, 8th ed., chapter 7, worked problem 7-1.
       Mark: published.

    Examples
    --------
    >>> print(f"{combined_load(600.0, 400.0, 2.2, 1.8):.0f} lbf in")
    2920 lbf in
    """
    if np.any(np.less(bending_notch_factor, 1.0) | np.less(torsion_notch_factor, 1.0)):
        raise DomainError("notch factors must be at least 1")
    bending = 2.0 * np.multiply(bending_notch_factor, moment)
    result: Numeric = np.hypot(bending, np.sqrt(3.0) * np.multiply(torsion_notch_factor, torque))[()]
    return result


@formula(
    "d = ((32 n/pi) sqrt((Kf M/Se)^2 + 0.75 (T/Sy)^2))^(1/3)",
    result=LEAST,
    source=SHAFT_STANDARD,
    moment=Symbol("M", "N m", "fully reversed bending moment"),
    torque=Symbol("T", "N m", "steady torque"),
    safety_factor=WANTED,
    endurance_limit=ENDURANCE,
    yield_strength=TENSILE_YIELD,
    bending_notch_factor=BENDING_NOTCH,
)
def shaft_standard_diameter(
    moment: Numeric,
    torque: Numeric,
    safety_factor: Numeric,
    endurance_limit: Numeric,
    yield_strength: Numeric,
    bending_notch_factor: Numeric = 1.0,
) -> Numeric:
    """
    Least diameter of a solid shaft in reversed bending and steady torsion, by the withdrawn standard.

    ::

        d = ((32 n/pi) sqrt((Kf M/Se)^2 + 0.75 (T/Sy)^2))^(1/3)

    Parameters
    ----------
    moment : float or array, N m
        M. The sign is ignored.
    torque : float or array, N m
        T. The sign is ignored.
    safety_factor : float or array, -
        n.
    endurance_limit : float or array, Pa
        Se of the part, in bending.
    yield_strength : float or array, Pa
        Sy.
    bending_notch_factor : float or array, -, optional
        Kf.

    Returns
    -------
    float or array, m
        d.

    Raises
    ------
    DomainError
        If a strength or safety_factor is not above zero, or the notch factor below 1, anywhere.

    Notes
    -----
    The elliptic line with Ta = 0 and Mm = 0, the torque without a notch.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] ANSI/ASME B106.1M, 1985, withdrawn. Mark: from memory.

    Examples
    --------
    >>> print(f"{shaft_standard_diameter(70.0, 45.0, 2.5, 375e6, 1130e6, 1.81) * 1e3:.2f} mm")
    20.53 mm
    """
    require_positive(
        safety_factor=safety_factor, endurance_limit=endurance_limit, yield_strength=yield_strength
    )
    if np.any(np.less(bending_notch_factor, 1.0)):
        raise DomainError("bending_notch_factor must be at least 1")
    bending = np.multiply(bending_notch_factor, moment) / endurance_limit
    load = np.hypot(bending, np.sqrt(0.75) * np.divide(torque, yield_strength))
    result: Numeric = np.cbrt(32.0 / np.pi * safety_factor * load)[()]
    return result
