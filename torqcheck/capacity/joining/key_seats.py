"""What of a key is seated in shaft and hub, how two keys share, and the outline of DIN 6892."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._symbols import TORQUE
from torqcheck.capacity.joining._key_sources import DIN_6892, GEOMETRY, TEXTBOOK
from torqcheck.capacity.joining._key_symbols import CARRYING, KEY_HEIGHT, KEYS, SHAFT, SHAFT_DEPTH
from torqcheck.domain import require_not_negative, require_positive, require_share
from torqcheck.errors import DomainError
from torqcheck.formulas import Symbol, formula

__all__ = [
    "DIN_YIELD_SHARE",
    "SHARE_OF_TWO",
    "SHARE_OF_TWO_AT_PEAK",
    "carrying_keys",
    "din_6892_pressure",
    "key_hub_seat",
    "key_shaft_seat",
    "key_textbook_seat",
]

SHARE_OF_TWO, SHARE_OF_TWO_AT_PEAK = 0.75, 0.9
"""What each of two keys is counted with: for the load that repeats, and for rare peaks."""
DIN_YIELD_SHARE = 0.9
"""Share of the lowest yield strength that method C of DIN 6892 allows."""

CHAMFER = Symbol("c", "m", "chamfer of the edges of the key")


def _left(height: Numeric) -> Numeric:
    if np.any(np.less_equal(height, 0.0)):
        raise DomainError("the chamfer must leave something of the seat")
    return height


@formula(
    "hb = t1 - c",
    result=Symbol("hb", "m", "height that bears in the shaft"),
    source=GEOMETRY,
    shaft_depth=SHAFT_DEPTH,
    edge_chamfer=CHAMFER,
)
def key_shaft_seat(shaft_depth: Numeric, edge_chamfer: Numeric = 0.0) -> Numeric:
    """
    Height over which a key bears in its shaft.

    ::

        hb = t1 - c

    Parameters
    ----------
    shaft_depth : float or array, m
        t1, depth of the keyway at its side.
    edge_chamfer : float or array, m
        c, of the edges of the key, or the radius in the corner of the keyway if that is larger.

    Returns
    -------
    float or array, m
        hb.

    Raises
    ------
    DomainError
        If the depth is not above zero, the chamfer is negative, or nothing is left, anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Geometry of key and keyway. Mark: derived.

    Examples
    --------
    >>> print(f"{key_shaft_seat(0.004, 0.0004) * 1e3:.1f} mm")
    3.6 mm
    """
    require_positive(shaft_depth=shaft_depth)
    require_not_negative(edge_chamfer=edge_chamfer)
    return _left(np.subtract(shaft_depth, edge_chamfer)[()])


@formula(
    "hb = h - t1 - c",
    result=Symbol("hb", "m", "height that bears in the hub"),
    source=GEOMETRY,
    key_height=KEY_HEIGHT,
    shaft_depth=SHAFT_DEPTH,
    edge_chamfer=CHAMFER,
)
def key_hub_seat(key_height: Numeric, shaft_depth: Numeric, edge_chamfer: Numeric = 0.0) -> Numeric:
    """
    Height over which a key bears in its hub: what stands out of the shaft.

    ::

        hb = h - t1 - c

    Parameters
    ----------
    key_height : float or array, m
        h.
    shaft_depth : float or array, m
        t1, depth of the keyway in the shaft at its side.
    edge_chamfer : float or array, m
        c, of the edges of the key, or the radius in the corner of the keyway if that is larger.

    Returns
    -------
    float or array, m
        hb.

    Raises
    ------
    DomainError
        If a size is not above zero, the chamfer is negative, or nothing is left, anywhere.

    Notes
    -----
    The gap above the key takes nothing from its sides. NaN gives NaN.

    References
    ----------
    .. [1] Geometry of key and keyway. Mark: derived.

    Examples
    --------
    >>> print(f"{key_hub_seat(0.007, 0.004, 0.0004) * 1e3:.1f} mm")
    2.6 mm
    """
    require_positive(key_height=key_height, shaft_depth=shaft_depth)
    require_not_negative(edge_chamfer=edge_chamfer)
    return _left(np.subtract(np.subtract(key_height, shaft_depth), edge_chamfer)[()])


@formula(
    "hb = x h",
    result=Symbol("hb", "m", "height that a textbook counts"),
    source=TEXTBOOK,
    key_height=KEY_HEIGHT,
    seated_share=Symbol("x", "-", "share of the height of the key that bears"),
)
def key_textbook_seat(key_height: Numeric, seated_share: Numeric = 0.5) -> Numeric:
    """
    Height over which a key bears, as textbooks count it: half its height on either side.

    ::

        hb = x h

    Parameters
    ----------
    key_height : float or array, m
        h.
    seated_share : float or array, -
        x: 0.5; a German textbook has 0.45 for the hub.

    Returns
    -------
    float or array, m
        hb.

    Raises
    ------
    DomainError
        If the height is not above zero, or the share is not above 0 and at most 1, anywhere.

    Notes
    -----
    More than the seat in the hub that is there: 3.5 mm against 2.6 mm of a key 8 x 7. NaN gives NaN.

    References
    ----------
    .. [1] Textbooks on machine elements; 0.45 in Roloff and Matek, 12.1. Mark: from memory.

    Examples
    --------
    >>> print(f"{key_textbook_seat(0.007) * 1e3:.1f} mm")
    3.5 mm
    """
    require_positive(key_height=key_height)
    require_share(seated_share=seated_share)
    return np.multiply(seated_share, key_height)[()]


@formula(
    "i = 1 + (k - 1)(2 f - 1)",
    result=Symbol("i", "-", "keys that carry, as many of them as count"),
    source=DIN_6892,
    keys=Symbol("k", "-", "number of keys or pins: 1 or 2"),
    counted_share=Symbol("f", "-", "what each of two keys is counted with"),
)
def carrying_keys(keys: Numeric, counted_share: Numeric = SHARE_OF_TWO) -> Numeric:
    """
    Number of keys that may be counted: two never share a torque evenly.

    ::

        i = 1 + (k - 1)(2 f - 1)

    Parameters
    ----------
    keys : float or array, -
        k: 1 or 2.
    counted_share : float or array, -
        f: 0.75 for the load that repeats, 0.9 for rare peaks, at which the first key has given way.

    Returns
    -------
    float or array, -
        i: 1 of one key, 2 f of two.

    Raises
    ------
    DomainError
        If keys is not 1 or 2, or the share is not from 0.5 to 1, anywhere.

    Notes
    -----
    Position errors of the keyways let one key touch first. The formula only joins the two cases.
    NaN gives NaN.

    References
    ----------
    .. [1] DIN 6892, share of two keys. Mark: from memory.

    Examples
    --------
    >>> print(f"{carrying_keys(2):.1f} {carrying_keys(2, 0.9):.1f}")
    1.5 1.8
    """
    count = np.asarray(keys, dtype=np.float64)
    if np.any((count != 1.0) & (count != 2.0) & ~np.isnan(count)):
        raise DomainError("keys must be 1 or 2")
    if np.any(np.less(counted_share, 0.5) | np.greater(counted_share, 1.0)):
        raise DomainError("counted_share must be from 0.5 to 1")
    return (1.0 + (count - 1.0) * (np.multiply(2.0, counted_share) - 1.0))[()]


@formula(
    "p = 2 T / (d (h - t1) l i)",
    result=Symbol("p", "Pa", "pressure on the key in the hub, method C"),
    source=DIN_6892,
    torque=TORQUE,
    shaft_diameter=SHAFT,
    key_height=KEY_HEIGHT,
    shaft_depth=SHAFT_DEPTH,
    key_length=CARRYING,
    carrying=KEYS,
)
def din_6892_pressure(
    torque: Numeric,
    shaft_diameter: Numeric,
    key_height: Numeric,
    shaft_depth: Numeric,
    key_length: Numeric,
    carrying: Numeric = 1.0,
) -> Numeric:
    """
    Pressure on a key by the estimate of DIN 6892, its method C; up to 0.9 of the lowest yield is allowed.

    ::

        p = 2 T / (d (h - t1) l i)

    Parameters
    ----------
    torque : float or array, N m
        T, with the application factor in it. The sign is ignored.
    shaft_diameter : float or array, m
        d.
    key_height : float or array, m
        h.
    shaft_depth : float or array, m
        t1.
    key_length : float or array, m
        l, of the parallel part, at most 1.3 d.
    carrying : float or array, -
        i: 1, or 1.5 of two keys.

    Returns
    -------
    float or array, Pa
        p.

    Raises
    ------
    DomainError
        If a size or the number of keys is not above zero, or nothing stands out of the shaft, anywhere.

    Notes
    -----
    No chamfer is taken off, which the 0.9 makes up for. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] DIN 6892, method C. Mark: from memory.

    Examples
    --------
    >>> print(f"{din_6892_pressure(100.0, 0.028, 0.007, 0.004, 0.032) / 1e6:.1f} MPa")
    74.4 MPa
    """
    require_positive(shaft_diameter=shaft_diameter, key_length=key_length, carrying=carrying)
    seat = key_hub_seat(key_height, shaft_depth)
    return np.divide(2.0 * np.abs(torque), shaft_diameter * seat * key_length * carrying)[()]
