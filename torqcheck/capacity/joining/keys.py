"""Keys: shear, pressure on their sides, and the torque at which either gives way."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._symbols import TORQUE
from torqcheck.capacity.joining._key_sources import STATICS
from torqcheck.capacity.joining._key_symbols import ALLOWABLE, CARRYING, KEYS, SEAT, SHAFT, SHEAR_YIELD, WIDTH
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.formulas import Symbol, formula

__all__ = ["key_bearing_torque", "key_pressure", "key_shear_stress", "key_shear_torque"]


@formula(
    "tau = 2 T / (d w l i)",
    result=Symbol("tau", "Pa", "shear stress in the key"),
    source=STATICS,
    torque=TORQUE,
    shaft_diameter=SHAFT,
    key_width=WIDTH,
    key_length=CARRYING,
    carrying=KEYS,
)
def key_shear_stress(
    torque: Numeric, shaft_diameter: Numeric, key_width: Numeric, key_length: Numeric, carrying: Numeric = 1.0
) -> Numeric:
    """
    Mean shear stress of a key, in the plane between shaft and hub.

    ::

        tau = 2 T / (d w l i)

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    shaft_diameter : float or array, m
        d.
    key_width : float or array, m
        w.
    key_length : float or array, m
        l, of the parallel part that is engaged.
    carrying : float or array, -
        i, keys that share the torque; 1.5 of two (see ``carrying_keys``).

    Returns
    -------
    float or array, Pa
        tau, never negative.

    Raises
    ------
    DomainError
        If any size or the number of keys is not above zero, anywhere.

    Notes
    -----
    All the torque goes through the key: friction of a hub that grips is not counted. Even along the
    length, which holds for short keys only. NaN gives NaN.

    References
    ----------
    .. [1] Force of the torque at the surface of the shaft over the area that carries it, as in every
       textbook. Mark: derived.

    Examples
    --------
    150 N m by a key of 12.5 mm, 50 mm long, whose force is taken to act at 45 mm:

    >>> print(f"{key_shear_stress(150.0, 0.045, 0.0125, 0.050) / 1e6:.2f} MPa")
    10.67 MPa
    """
    require_positive(
        shaft_diameter=shaft_diameter, key_width=key_width, key_length=key_length, carrying=carrying
    )
    return np.divide(2.0 * np.abs(torque), shaft_diameter * key_width * key_length * carrying)[()]


@formula(
    "p = 2 T / (d hb l i)",
    result=Symbol("p", "Pa", "mean pressure on the side of the key"),
    source=STATICS,
    torque=TORQUE,
    shaft_diameter=SHAFT,
    seated_height=SEAT,
    key_length=CARRYING,
    carrying=KEYS,
)
def key_pressure(
    torque: Numeric,
    shaft_diameter: Numeric,
    seated_height: Numeric,
    key_length: Numeric,
    carrying: Numeric = 1.0,
) -> Numeric:
    """
    Mean pressure between the side of a key and its keyway, in the shaft or in the hub.

    ::

        p = 2 T / (d hb l i)

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    shaft_diameter : float or array, m
        d.
    seated_height : float or array, m
        hb, from ``key_shaft_seat``, ``key_hub_seat`` or ``key_textbook_seat``.
    key_length : float or array, m
        l, of the parallel part that is engaged.
    carrying : float or array, -
        i, keys that share the torque; 1.5 of two (see ``carrying_keys``).

    Returns
    -------
    float or array, Pa
        p, never negative.

    Raises
    ------
    DomainError
        If any size or the number of keys is not above zero, anywhere.

    Notes
    -----
    The force is taken to act at the surface of the shaft, on both sides of it. NaN gives NaN.

    References
    ----------
    .. [1] Force of the torque at the surface of the shaft over the area that carries it, as in every
       textbook. Mark: derived.

    Examples
    --------
    >>> print(f"{key_pressure(150.0, 0.045, 0.005, 0.050) / 1e6:.2f} MPa")
    26.67 MPa
    """
    require_positive(
        shaft_diameter=shaft_diameter, seated_height=seated_height, key_length=key_length, carrying=carrying
    )
    return np.divide(2.0 * np.abs(torque), shaft_diameter * seated_height * key_length * carrying)[()]


@formula(
    "T = tau_y w l d i / 2",
    result=Symbol("T", "N m", "torque at which the key shears"),
    source=STATICS,
    shear_yield=SHEAR_YIELD,
    shaft_diameter=SHAFT,
    key_width=WIDTH,
    key_length=CARRYING,
    carrying=KEYS,
)
def key_shear_torque(
    shear_yield: Numeric,
    shaft_diameter: Numeric,
    key_width: Numeric,
    key_length: Numeric,
    carrying: Numeric = 1.0,
) -> Numeric:
    """
    Torque at which a key begins to give way in shear.

    ::

        T = tau_y w l d i / 2

    Parameters
    ----------
    shear_yield : float or array, Pa
        tau_y of the key, or the shear stress that is allowed.
    shaft_diameter : float or array, m
        d.
    key_width : float or array, m
        w.
    key_length : float or array, m
        l, of the parallel part that is engaged.
    carrying : float or array, -
        i, keys that share the torque; 1.5 of two (see ``carrying_keys``).

    Returns
    -------
    float or array, N m
        T.

    Raises
    ------
    DomainError
        If any size or the number of keys is not above zero, or the stress is negative, anywhere.

    Notes
    -----
    The inverse of ``key_shear_stress``. NaN gives NaN.

    References
    ----------
    .. [1] Force of the torque at the surface of the shaft over the area that carries it, as in every
       textbook. Mark: derived.

    Examples
    --------
    >>> print(f"{key_shear_torque(200e6, 0.050, 0.0125, 0.0375) / 1e3:.3f} kN m")
    2.344 kN m
    """
    require_positive(
        shaft_diameter=shaft_diameter, key_width=key_width, key_length=key_length, carrying=carrying
    )
    require_not_negative(shear_yield=shear_yield)
    return np.multiply(0.5 * shear_yield, key_width * key_length * shaft_diameter * carrying)[()]


@formula(
    "T = p hb l d i / 2",
    result=Symbol("T", "N m", "torque at which the side of the keyway gives way"),
    source=STATICS,
    allowable=ALLOWABLE,
    shaft_diameter=SHAFT,
    seated_height=SEAT,
    key_length=CARRYING,
    carrying=KEYS,
)
def key_bearing_torque(
    allowable: Numeric,
    shaft_diameter: Numeric,
    seated_height: Numeric,
    key_length: Numeric,
    carrying: Numeric = 1.0,
) -> Numeric:
    """
    Torque at which the side of a key, or of its keyway, begins to give way.

    ::

        T = p hb l d i / 2

    Parameters
    ----------
    allowable : float or array, Pa
        p, the lower yield strength of the two that touch.
    shaft_diameter : float or array, m
        d.
    seated_height : float or array, m
        hb.
    key_length : float or array, m
        l, of the parallel part that is engaged.
    carrying : float or array, -
        i, keys that share the torque; 1.5 of two (see ``carrying_keys``).

    Returns
    -------
    float or array, N m
        T.

    Raises
    ------
    DomainError
        If any size or the number of keys is not above zero, or the pressure is negative, anywhere.

    Notes
    -----
    The inverse of ``key_pressure``. NaN gives NaN.

    References
    ----------
    .. [1] Force of the torque at the surface of the shaft over the area that carries it, as in every
       textbook. Mark: derived.

    Examples
    --------
    A key 11.1 mm high and 76.2 mm long on a shaft of 50.8 mm, half its height seated, at 172 MPa:

    >>> print(f"{key_bearing_torque(172.4e6, 0.0508, 0.0055563, 0.0762):.0f} N m")
    1854 N m
    """
    require_positive(
        shaft_diameter=shaft_diameter, seated_height=seated_height, key_length=key_length, carrying=carrying
    )
    require_not_negative(allowable=allowable)
    return np.multiply(0.5 * allowable, seated_height * key_length * shaft_diameter * carrying)[()]
