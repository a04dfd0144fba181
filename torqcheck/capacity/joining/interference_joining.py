"""What joining does to a fit: roughness that is pressed flat, and a hub that grows outside."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity.joining._fit_symbols import (
    DIN_7190,
    HUB_OUTSIDE,
    INTERFERENCE,
    MODULUS,
    PRESSURE,
    SEAT,
    THICK_CYLINDER,
)
from torqcheck.domain import require_not_negative, require_positive, require_tube
from torqcheck.formulas import Symbol, formula

__all__ = ["ROUGHNESS_SHARE", "hub_outside_growth", "interference_after_roughness"]

ROUGHNESS_SHARE = 0.8
"""Part of the roughness depth of each surface that the diameter loses in joining; from memory."""


@formula(
    "Uw = max(U - c (Rzo + Rzi), 0)",
    result=Symbol("Uw", "m", "interference that is left when the roughness has been pressed flat"),
    source=DIN_7190,
    interference=INTERFERENCE,
    hub_roughness=Symbol("Rzo", "m", "roughness depth Rz of the bore of the hub"),
    shaft_roughness=Symbol("Rzi", "m", "roughness depth Rz of the shaft"),
    roughness_share=Symbol("c", "-", "part of the roughness depth that is lost, on the diameter"),
)
def interference_after_roughness(
    interference: Numeric,
    hub_roughness: Numeric,
    shaft_roughness: Numeric,
    roughness_share: Numeric = ROUGHNESS_SHARE,
) -> Numeric:
    """
    Interference that is left when the peaks of both surfaces have been pressed flat.

    ::

        Uw = max(U - c (Rzo + Rzi), 0)

    Parameters
    ----------
    interference : float or array, m
        U, on the diameter, as measured over the peaks.
    hub_roughness : float or array, m
        Rzo, roughness depth Rz of the bore.
    shaft_roughness : float or array, m
        Rzi, roughness depth Rz of the shaft.
    roughness_share : float or array, -, optional
        c, of the roughness depth lost on the diameter; 0.8, that is 0.4 on each side.

    Returns
    -------
    float or array, m
        Uw, never negative.

    Raises
    ------
    DomainError
        If an argument is negative anywhere.

    Notes
    -----
    A fixed bite, so that a light fit loses most of its grip to a rough surface. Some take half of it
    for shrink fits, whose peaks slide less; that is not on the safe side.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] DIN 7190, Interference fits. Mark: from memory.

    Examples
    --------
    40 H7/s6 at its least interference, both surfaces turned to Rz 6.3 um:

    >>> print(f"{interference_after_roughness(18e-6, 6.3e-6, 6.3e-6) * 1e6:.1f} um")
    7.9 um
    """
    require_not_negative(
        interference=interference,
        hub_roughness=hub_roughness,
        shaft_roughness=shaft_roughness,
        roughness_share=roughness_share,
    )
    return np.maximum(interference - roughness_share * (hub_roughness + shaft_roughness), 0.0)


@formula(
    "dD = 2 p D d^2 / (E (D^2 - d^2))",
    result=Symbol("dD", "m", "growth of the outside diameter of the hub"),
    source=THICK_CYLINDER,
    pressure=PRESSURE,
    diameter=SEAT,
    outside_diameter=HUB_OUTSIDE,
    elastic_modulus=MODULUS,
)
def hub_outside_growth(
    pressure: Numeric, diameter: Numeric, outside_diameter: Numeric, elastic_modulus: Numeric
) -> Numeric:
    """
    Growth of the outside diameter of a hub that is pressed or shrunk on.

    ::

        dD = 2 p D d^2 / (E (D^2 - d^2))

    Parameters
    ----------
    pressure : float or array, Pa
        p, in the seat.
    diameter : float or array, m
        d, of the seat.
    outside_diameter : float or array, m
        D, before joining.
    elastic_modulus : float or array, Pa
        E, of the hub.

    Returns
    -------
    float or array, m
        dD.

    Raises
    ------
    DomainError
        If pressure is negative, the hub has no wall, or the modulus is not above zero, anywhere.

    Notes
    -----
    A micrometer on the hub before and after joining, at the same temperature, shows the pressure
    that is really there. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Thick cylinder under internal pressure, hoop stress at its outside over E. Mark: derived.

    Examples
    --------
    >>> print(f"{hub_outside_growth(114.5e6, 0.040, 0.080, 207e9) * 1e6:.1f} um")
    29.5 um
    """
    require_not_negative(pressure=pressure)
    require_tube(outside_diameter, diameter)
    require_positive(diameter=diameter, elastic_modulus=elastic_modulus)
    D, d = outside_diameter, diameter
    return 2.0 * pressure * D * d**2 / (elastic_modulus * (D**2 - d**2))
