"""How long a key must be, and how much of its length carries."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._symbols import TORQUE
from torqcheck.capacity.joining._key_sources import GEOMETRY, HANDBOOK, STATICS
from torqcheck.capacity.joining._key_symbols import ALLOWABLE, SAFETY, SEAT, SHAFT, SHEAR_YIELD, WIDTH
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.errors import DomainError
from torqcheck.formulas import Symbol, formula

__all__ = [
    "DIN_USEFUL_LENGTH",
    "KEY_USEFUL_LENGTH",
    "key_bearing_length",
    "key_shear_length",
    "key_straight_length",
    "key_useful_length",
]

KEY_USEFUL_LENGTH = 1.5
"""Shaft diameters of key that carry; beyond, the shaft winds up and the far end idles."""
DIN_USEFUL_LENGTH = 1.3
"""The same in method C of DIN 6892, from memory."""


@formula(
    "l = 2 T n / (d w tau_y)",
    result=Symbol("l", "m", "length that one key needs in shear"),
    source=STATICS,
    torque=TORQUE,
    shaft_diameter=SHAFT,
    key_width=WIDTH,
    shear_yield=SHEAR_YIELD,
    safety_factor=SAFETY,
)
def key_shear_length(
    torque: Numeric,
    shaft_diameter: Numeric,
    key_width: Numeric,
    shear_yield: Numeric,
    safety_factor: Numeric = 1.0,
) -> Numeric:
    """
    Length that a key needs so that it does not shear.

    ::

        l = 2 T n / (d w tau_y)

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    shaft_diameter : float or array, m
        d.
    key_width : float or array, m
        w.
    shear_yield : float or array, Pa
        tau_y of the key, or the shear stress that is allowed.
    safety_factor : float or array, -
        n.

    Returns
    -------
    float or array, m
        l; what lies beyond ``key_useful_length`` does not carry.

    Raises
    ------
    DomainError
        If any argument but the torque is not above zero, anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Force of the torque at the surface of the shaft over the area that carries it, as in every
       textbook. Mark: derived.

    Examples
    --------
    >>> print(f"{key_shear_length(3612.8, 0.065, 0.018, 50.25e6) * 1e3:.1f} mm")
    122.9 mm
    """
    require_positive(
        shaft_diameter=shaft_diameter,
        key_width=key_width,
        shear_yield=shear_yield,
        safety_factor=safety_factor,
    )
    return np.divide(2.0 * np.abs(torque) * safety_factor, shaft_diameter * key_width * shear_yield)[()]


@formula(
    "l = 2 T n / (d hb p)",
    result=Symbol("l", "m", "length that one key needs on its sides"),
    source=STATICS,
    torque=TORQUE,
    shaft_diameter=SHAFT,
    seated_height=SEAT,
    allowable=ALLOWABLE,
    safety_factor=SAFETY,
)
def key_bearing_length(
    torque: Numeric,
    shaft_diameter: Numeric,
    seated_height: Numeric,
    allowable: Numeric,
    safety_factor: Numeric = 1.0,
) -> Numeric:
    """
    Length that a key needs so that its sides, and those of the keyway, do not give way.

    ::

        l = 2 T n / (d hb p)

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    shaft_diameter : float or array, m
        d.
    seated_height : float or array, m
        hb.
    allowable : float or array, Pa
        p, the lower yield strength of the two that touch, or the pressure that is allowed.
    safety_factor : float or array, -
        n.

    Returns
    -------
    float or array, m
        l; what lies beyond ``key_useful_length`` does not carry.

    Raises
    ------
    DomainError
        If any argument but the torque is not above zero, anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Force of the torque at the surface of the shaft over the area that carries it, as in every
       textbook. Mark: derived.

    Examples
    --------
    >>> print(f"{key_bearing_length(3612.8, 0.065, 0.0055, 125.625e6) * 1e3:.1f} mm")
    160.9 mm
    """
    require_positive(
        shaft_diameter=shaft_diameter,
        seated_height=seated_height,
        allowable=allowable,
        safety_factor=safety_factor,
    )
    return np.divide(2.0 * np.abs(torque) * safety_factor, shaft_diameter * seated_height * allowable)[()]


@formula(
    "l = L - e w/2",
    result=Symbol("l", "m", "length of the parallel part of the key"),
    source=GEOMETRY,
    key_length=Symbol("L", "m", "length of the key over its ends"),
    key_width=WIDTH,
    round_ends=Symbol("e", "-", "ends of the key that are round: 0, 1 or 2"),
)
def key_straight_length(key_length: Numeric, key_width: Numeric, round_ends: Numeric = 0.0) -> Numeric:
    """
    Length of the parallel part of a key: what bears on the sides of the keyway.

    ::

        l = L - e w/2

    Parameters
    ----------
    key_length : float or array, m
        L, over the ends.
    key_width : float or array, m
        w, twice the radius of a round end.
    round_ends : float or array, -
        e: 0 for square ends, 1, or 2 for a key that fills an end-milled keyway.

    Returns
    -------
    float or array, m
        l.

    Raises
    ------
    DomainError
        If a size is not above zero, round_ends is not from 0 to 2, or nothing is left, anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Geometry of the key; textbooks count the length so. Mark: derived.

    Examples
    --------
    >>> print(f"{key_straight_length(0.040, 0.008, round_ends=2) * 1e3:.0f} mm")
    32 mm
    """
    require_positive(key_length=key_length, key_width=key_width)
    require_not_negative(round_ends=round_ends)
    if np.any(np.greater(round_ends, 2.0)):
        raise DomainError("round_ends must be 0, 1 or 2")
    left = np.subtract(key_length, np.multiply(0.5 * round_ends, key_width))[()]
    if np.any(np.less_equal(left, 0.0)):
        raise DomainError("key_length must be above what its round ends take")
    return left


@formula(
    "lu = min(l, a d)",
    result=Symbol("lu", "m", "length of the key that carries"),
    source=HANDBOOK,
    key_length=Symbol("l", "m", "length of the parallel part of the key"),
    shaft_diameter=SHAFT,
    most_diameters=Symbol("a", "-", "length that carries at most, in shaft diameters"),
)
def key_useful_length(
    key_length: Numeric, shaft_diameter: Numeric, most_diameters: Numeric = KEY_USEFUL_LENGTH
) -> Numeric:
    """
    Length of a key that may be counted: the shaft winds up along a long one, and its far end idles.

    ::

        lu = min(l, a d)

    Parameters
    ----------
    key_length : float or array, m
        l, of the parallel part.
    shaft_diameter : float or array, m
        d.
    most_diameters : float or array, -
        a: 1.5 by the handbook, 1.3 in method C of DIN 6892 (from memory).

    Returns
    -------
    float or array, m
        lu.

    Raises
    ------
    DomainError
        If any argument is not above zero, anywhere.

    Notes
    -----
    A rule and no sharp limit. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, p 391.
       Mark: published.

    Examples
    --------
    >>> print(f"{key_useful_length(0.060, 0.030) * 1e3:.0f} mm")
    45 mm
    """
    require_positive(key_length=key_length, shaft_diameter=shaft_diameter, most_diameters=most_diameters)
    return np.minimum(key_length, np.multiply(most_diameters, shaft_diameter))[()]
