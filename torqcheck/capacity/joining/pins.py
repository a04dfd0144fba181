"""Pins across the shaft: shear in two planes, pressure in shaft and hub, taper."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._symbols import BORE, TORQUE
from torqcheck.capacity.joining._key_sources import GEOMETRY, PIN_TEXT, STATICS
from torqcheck.capacity.joining._key_symbols import HUB_OUTSIDE, KEYS, PIN, SHAFT
from torqcheck.domain import require_positive, require_tube
from torqcheck.errors import DomainError
from torqcheck.formulas import Symbol, formula

__all__ = [
    "GROOVED_PRESSURE",
    "GROOVED_SHEAR",
    "pin_hub_pressure",
    "pin_shaft_pressure",
    "pin_shear_stress",
    "taper_pin_diameter",
]

GROOVED_PRESSURE, GROOVED_SHEAR = 0.7, 0.8
"""What a grooved pin is allowed of the pressure and of the shear of a plain one; published."""


@formula(
    "tau = 4 T / (pi dp^2 d i)",
    result=Symbol("tau", "Pa", "shear stress in the pin"),
    source=STATICS,
    torque=TORQUE,
    shaft_diameter=SHAFT,
    pin_diameter=PIN,
    carrying=KEYS,
)
def pin_shear_stress(
    torque: Numeric, shaft_diameter: Numeric, pin_diameter: Numeric, carrying: Numeric = 1.0
) -> Numeric:
    """
    Mean shear stress of a pin across the shaft, in its two planes.

    ::

        tau = 4 T / (pi dp^2 d i)

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    shaft_diameter : float or array, m
        d, where the two planes lie.
    pin_diameter : float or array, m
        dp, diameter of the pin; of a taper pin the mean (``taper_pin_diameter``).
    carrying : float or array, -
        i, pins that share the torque.

    Returns
    -------
    float or array, Pa
        tau, never negative.

    Raises
    ------
    DomainError
        If a size or the number of pins is not above zero, anywhere.

    Notes
    -----
    Force of T/d on each plane. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Force of the torque over the two areas that carry it. Mark: derived.

    Examples
    --------
    >>> print(f"{pin_shear_stress(200.0, 0.025, 0.008) / 1e6:.0f} MPa")
    159 MPa
    """
    require_positive(shaft_diameter=shaft_diameter, pin_diameter=pin_diameter, carrying=carrying)
    return np.divide(4.0 * np.abs(torque), np.pi * np.square(pin_diameter) * shaft_diameter * carrying)[()]


@formula(
    "p = 6 T D / (dp (D^3 - d^3) i)",
    result=Symbol("p", "Pa", "pressure of the pin in the shaft, at its surface"),
    source=PIN_TEXT,
    torque=TORQUE,
    outer_diameter=Symbol("D", "m", "diameter of the shaft in the joint"),
    pin_diameter=PIN,
    bore=BORE,
    carrying=KEYS,
)
def pin_shaft_pressure(
    torque: Numeric,
    outer_diameter: Numeric,
    pin_diameter: Numeric,
    bore: Numeric = 0.0,
    carrying: Numeric = 1.0,
) -> Numeric:
    """
    Largest pressure between a pin across the shaft and its hole in the shaft.

    ::

        p = 6 T D / (dp (D^3 - d^3) i)          = 6 T / (dp D^2) in a solid shaft

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    outer_diameter : float or array, m
        D, of the shaft.
    pin_diameter : float or array, m
        dp, diameter of the pin.
    bore : float or array, m
        d, of a hollow shaft; 0 for a solid one.
    carrying : float or array, -
        i, pins that share the torque.

    Returns
    -------
    float or array, Pa
        p, never negative.

    Raises
    ------
    DomainError
        If there is no wall, or the pin or the number of pins is not above zero, anywhere.

    Notes
    -----
    The pressure grows from nothing on the axis in proportion to the radius, as a stiff pin has it that
    turns a little in its hole. The textbook gives the solid shaft; its integral carries it over to the
    hollow one. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Roloff and Matek, Machine Elements, 9.2. Mark: from memory.

    Examples
    --------
    >>> print(f"{pin_shaft_pressure(200.0, 0.025, 0.008) / 1e6:.0f} MPa")
    240 MPa
    """
    require_tube(outer_diameter, bore)
    require_positive(pin_diameter=pin_diameter, carrying=carrying)
    cubes = np.power(outer_diameter, 3) - np.power(bore, 3)
    return np.divide(6.0 * np.abs(torque) * outer_diameter, pin_diameter * cubes * carrying)[()]


@formula(
    "p = 4 T / (dp (Do^2 - d^2) i)",
    result=Symbol("p", "Pa", "pressure of the pin in the hub"),
    source=PIN_TEXT,
    torque=TORQUE,
    shaft_diameter=SHAFT,
    hub_outside_diameter=HUB_OUTSIDE,
    pin_diameter=PIN,
    carrying=KEYS,
)
def pin_hub_pressure(
    torque: Numeric,
    shaft_diameter: Numeric,
    hub_outside_diameter: Numeric,
    pin_diameter: Numeric,
    carrying: Numeric = 1.0,
) -> Numeric:
    """
    Mean pressure between a pin across the shaft and its holes in the wall of the hub.

    ::

        p = 4 T / (dp (Do^2 - d^2) i)

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    shaft_diameter : float or array, m
        d, the bore of the hub.
    hub_outside_diameter : float or array, m
        Do.
    pin_diameter : float or array, m
        dp, diameter of the pin.
    carrying : float or array, -
        i, pins that share the torque.

    Returns
    -------
    float or array, Pa
        p, never negative.

    Raises
    ------
    DomainError
        If there is no wall, or the pin or the number of pins is not above zero, anywhere.

    Notes
    -----
    Two walls of s = (Do - d)/2, each with the force T/(d + s): T/(dp s (d + s)). NaN gives NaN.

    References
    ----------
    .. [1] Roloff and Matek, Machine Elements, 9.2. Mark: from memory.

    Examples
    --------
    >>> print(f"{pin_hub_pressure(200.0, 0.025, 0.045, 0.008) / 1e6:.0f} MPa")
    71 MPa
    """
    require_positive(shaft_diameter=shaft_diameter, pin_diameter=pin_diameter, carrying=carrying)
    if np.any(np.less_equal(hub_outside_diameter, shaft_diameter)):
        raise DomainError("hub_outside_diameter must be above the diameter of the shaft")
    ring = np.square(hub_outside_diameter) - np.square(shaft_diameter)
    return np.divide(4.0 * np.abs(torque), pin_diameter * ring * carrying)[()]


@formula(
    "dm = ds + L/(2 k)",
    result=Symbol("dm", "m", "mean diameter of the taper pin"),
    source=GEOMETRY,
    small_end=Symbol("ds", "m", "diameter of a taper pin at its small end"),
    pin_length=Symbol("L", "m", "length of the taper pin in its hole"),
    taper=Symbol("k", "-", "length over growth of the diameter: 50 (metric) or 48 (inch)"),
)
def taper_pin_diameter(small_end: Numeric, pin_length: Numeric, taper: Numeric = 50.0) -> Numeric:
    """
    Mean diameter of a taper pin across the shaft: what shears and bears.

    ::

        dm = ds + L/(2 k)

    Parameters
    ----------
    small_end : float or array, m
        ds, where the pin leaves its hole.
    pin_length : float or array, m
        L, in the hole: the outside diameter of the hub.
    taper : float or array, -
        k: 50 of a metric pin, 48 of an inch one.

    Returns
    -------
    float or array, m
        dm.

    Raises
    ------
    DomainError
        If any argument is not above zero, anywhere.

    Notes
    -----
    One plane is a little thicker and one thinner than the mean. NaN gives NaN.

    References
    ----------
    .. [1] Geometry of the taper. Mark: derived.

    Examples
    --------
    >>> print(f"{taper_pin_diameter(0.008, 0.045) * 1e3:.2f} mm")
    8.45 mm
    """
    require_positive(small_end=small_end, pin_length=pin_length, taper=taper)
    return np.add(small_end, np.divide(pin_length, np.multiply(2.0, taper)))[()]
