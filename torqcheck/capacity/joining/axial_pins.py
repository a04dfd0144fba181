"""Pins along the joint, drilled half in the shaft and half in the hub: round keys."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._symbols import TORQUE
from torqcheck.capacity.joining._key_sources import STATICS
from torqcheck.capacity.joining._key_symbols import CARRYING, KEYS, PIN, SHAFT
from torqcheck.domain import require_positive
from torqcheck.formulas import Symbol, formula

__all__ = ["axial_pin_pressure", "axial_pin_shear_stress"]


@formula(
    "tau = 2 T / (d dp l i)",
    result=Symbol("tau", "Pa", "shear stress in the pin, along it"),
    source=STATICS,
    torque=TORQUE,
    shaft_diameter=SHAFT,
    pin_diameter=PIN,
    key_length=CARRYING,
    carrying=KEYS,
)
def axial_pin_shear_stress(
    torque: Numeric,
    shaft_diameter: Numeric,
    pin_diameter: Numeric,
    key_length: Numeric,
    carrying: Numeric = 1.0,
) -> Numeric:
    """
    Shear stress of a pin that lies along the joint, half in the shaft and half in the hub.

    ::

        tau = 2 T / (d dp l i)

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    shaft_diameter : float or array, m
        d.
    pin_diameter : float or array, m
        dp, diameter of the pin.
    key_length : float or array, m
        l, over which the pin is seated in both.
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
    A round key: sheared along its diameter. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Force of the torque over the area that carries it. Mark: derived.

    Examples
    --------
    >>> print(f"{axial_pin_shear_stress(200.0, 0.025, 0.008, 0.030) / 1e6:.0f} MPa")
    67 MPa
    """
    require_positive(
        shaft_diameter=shaft_diameter, pin_diameter=pin_diameter, key_length=key_length, carrying=carrying
    )
    return np.divide(2.0 * np.abs(torque), shaft_diameter * pin_diameter * key_length * carrying)[()]


@formula(
    "p = 4 T / (d dp l i)",
    result=Symbol("p", "Pa", "pressure of the pin along the joint"),
    source=STATICS,
    torque=TORQUE,
    shaft_diameter=SHAFT,
    pin_diameter=PIN,
    key_length=CARRYING,
    carrying=KEYS,
)
def axial_pin_pressure(
    torque: Numeric,
    shaft_diameter: Numeric,
    pin_diameter: Numeric,
    key_length: Numeric,
    carrying: Numeric = 1.0,
) -> Numeric:
    """
    Pressure of a pin that lies along the joint, on its half in the shaft or in the hub.

    ::

        p = 4 T / (d dp l i)

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    shaft_diameter : float or array, m
        d.
    pin_diameter : float or array, m
        dp, diameter of the pin.
    key_length : float or array, m
        l, over which the pin is seated in both.
    carrying : float or array, -
        i, pins that share the torque.

    Returns
    -------
    float or array, Pa
        p, never negative.

    Raises
    ------
    DomainError
        If a size or the number of pins is not above zero, anywhere.

    Notes
    -----
    On the projected half of the diameter. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Force of the torque over the area that carries it. Mark: derived.

    Examples
    --------
    >>> print(f"{axial_pin_pressure(200.0, 0.025, 0.008, 0.030) / 1e6:.0f} MPa")
    133 MPa
    """
    return 2.0 * axial_pin_shear_stress(torque, shaft_diameter, pin_diameter, key_length, carrying)
