"""What rotation does to an interference fit: loss of interference, stress of the hub, speed of separation."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._sources import DERIVED
from torqcheck.capacity.joining._fit_symbols import (
    DENSITY,
    HUB_DENSITY,
    HUB_MODULUS,
    HUB_OUTSIDE,
    HUB_POISSON,
    INTERFERENCE,
    POISSON,
    SEAT,
    SHAFT_BORE,
    SHAFT_DENSITY,
    SHAFT_MODULUS,
    SHAFT_POISSON,
    SPEED,
)
from torqcheck.domain import require_not_negative, require_positive, require_tube
from torqcheck.formulas import Symbol, formula

__all__ = [
    "interference_lost_to_speed",
    "same_material_pressure_lost",
    "separation_speed",
    "zero_pressure_hoop_stress",
]


def _bore_stress_per_speed_squared(
    bore: Numeric, outside_diameter: Numeric, density: Numeric, poisson_ratio: Numeric
) -> Numeric:
    """Hoop stress at the inner edge of a free ring over the square of its speed, Pa s2."""
    squares = (3.0 + poisson_ratio) * outside_diameter**2 + (1.0 - poisson_ratio) * bore**2
    return density / 16.0 * squares


@formula(
    "s0 = (rho w^2 / 16) [(3 + nu) D^2 + (1 - nu) d^2]",
    result=Symbol("s0", "Pa", "hoop stress at the bore of a hub that turns without pressure"),
    source=DERIVED,
    speed=SPEED,
    diameter=SEAT,
    outside_diameter=HUB_OUTSIDE,
    density=DENSITY,
    poisson_ratio=POISSON,
)
def zero_pressure_hoop_stress(
    speed: Numeric, diameter: Numeric, outside_diameter: Numeric, density: Numeric, poisson_ratio: Numeric
) -> Numeric:
    """
    Hoop stress at the bore of a hub that turns while nothing presses on its bore.

    ::

        s0 = (rho w^2 / 16) [(3 + nu) D^2 + (1 - nu) d^2]

    Parameters
    ----------
    speed : float or array, rad/s
        w. The sign is ignored.
    diameter : float or array, m
        d, bore of the hub.
    outside_diameter : float or array, m
        D, of the hub.
    density : float or array, kg/m3
        rho, of the hub.
    poisson_ratio : float or array, -
        nu, of the hub.

    Returns
    -------
    float or array, Pa
        s0. At speed it adds to the hoop stress of the pressure that is left.

    Raises
    ------
    DomainError
        If density or diameter is negative, or the hub has no wall, anywhere.

    Notes
    -----
    Rotating disc of even thickness in plane stress. The same stress bursts the internal member of a
    spline (``centrifugal_bursting_stress``). NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Rotating disc, plane stress; reproduces a published disc of 0.5 m. Mark: derived.

    Examples
    --------
    >>> from math import pi
    >>> print(f"{zero_pressure_hoop_stress(6900 * pi / 30, 0.1, 0.5, 7810.0, 0.3) / 1e6:.1f} MPa")
    212.0 MPa
    """
    require_not_negative(density=density)
    require_tube(outside_diameter, diameter)
    return speed**2 * _bore_stress_per_speed_squared(diameter, outside_diameter, density, poisson_ratio)


def _lost_per_speed_squared(
    diameter: Numeric,
    outside_diameter: Numeric,
    bore: Numeric,
    hub_modulus: Numeric,
    hub_poisson_ratio: Numeric,
    hub_density: Numeric,
    shaft_modulus: Numeric,
    shaft_poisson_ratio: Numeric,
    shaft_density: Numeric,
) -> Numeric:
    """Interference lost over the square of the speed, m s2; the shaft's growth is that of its outside."""
    require_tube(outside_diameter, diameter)
    require_tube(diameter, bore)
    require_positive(hub_modulus=hub_modulus, shaft_modulus=shaft_modulus)
    require_not_negative(hub_density=hub_density, shaft_density=shaft_density)
    hub = _bore_stress_per_speed_squared(diameter, outside_diameter, hub_density, hub_poisson_ratio)
    # at the outside of a ring inner and outer diameter change places
    shaft = _bore_stress_per_speed_squared(diameter, bore, shaft_density, shaft_poisson_ratio)
    return diameter * (hub / hub_modulus - shaft / shaft_modulus)


_TWO_PARTS = {
    "diameter": SEAT,
    "outside_diameter": HUB_OUTSIDE,
    "bore": SHAFT_BORE,
    "hub_modulus": HUB_MODULUS,
    "hub_poisson_ratio": HUB_POISSON,
    "hub_density": HUB_DENSITY,
    "shaft_modulus": SHAFT_MODULUS,
    "shaft_poisson_ratio": SHAFT_POISSON,
    "shaft_density": SHAFT_DENSITY,
}


@formula(
    "dU = (d w^2/16) {rhoo [(3+nuo) D^2 + (1-nuo) d^2]/Eo - rhoi [(3+nui) di^2 + (1-nui) d^2]/Ei}",
    result=Symbol("dU", "m", "interference lost to rotation, on the diameter"),
    source=DERIVED,
    speed=SPEED,
    **_TWO_PARTS,
)
def interference_lost_to_speed(
    speed: Numeric,
    diameter: Numeric,
    outside_diameter: Numeric,
    bore: Numeric = 0.0,
    *,
    hub_modulus: Numeric,
    hub_poisson_ratio: Numeric,
    hub_density: Numeric,
    shaft_modulus: Numeric,
    shaft_poisson_ratio: Numeric,
    shaft_density: Numeric,
) -> Numeric:
    """
    Interference that rotation takes from a fit: the hub's bore grows more than the shaft.

    ::

        dU = (d w^2/16) {rhoo [(3+nuo) D^2 + (1-nuo) d^2]/Eo - rhoi [(3+nui) di^2 + (1-nui) d^2]/Ei}

    Parameters
    ----------
    speed : float or array, rad/s
        w. The sign is ignored.
    diameter : float or array, m
        d, of the seat.
    outside_diameter : float or array, m
        D, of the hub.
    bore : float or array, m, optional
        di, of the shaft; 0 if it is solid.
    hub_modulus : float or array, Pa
        Eo.
    hub_poisson_ratio : float or array, -
        nuo.
    hub_density : float or array, kg/m3
        rhoo.
    shaft_modulus : float or array, Pa
        Ei.
    shaft_poisson_ratio : float or array, -
        nui.
    shaft_density : float or array, kg/m3
        rhoi.

    Returns
    -------
    float or array, m
        dU, on the diameter. Negative where the shaft grows more than the hub, which tightens the fit.

    Raises
    ------
    DomainError
        If a wall has no thickness, a modulus is not above zero or a density is negative, anywhere.

    Notes
    -----
    Both parts as free rotating discs in plane stress: at a free edge the hoop strain is the hoop stress
    over E. By superposition the pressure at speed is that of the interference that is left. For one
    material and a solid shaft this is d w^2 rho (3 + nu) D^2/(16 E).
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Two rotating discs, free edges; held against a boundary-value solver. Mark: derived.

    Examples
    --------
    A steel hub of 80 mm on a solid shaft of 40 mm at 6000 rev/min:

    >>> from math import pi
    >>> steel = dict(hub_modulus=207e9, hub_poisson_ratio=0.3, hub_density=7850.0)
    >>> steel |= dict(shaft_modulus=207e9, shaft_poisson_ratio=0.3, shaft_density=7850.0)
    >>> print(f"{interference_lost_to_speed(200 * pi, 0.040, 0.080, **steel) * 1e6:.2f} um")
    0.79 um
    """
    return speed**2 * _lost_per_speed_squared(
        diameter,
        outside_diameter,
        bore,
        hub_modulus,
        hub_poisson_ratio,
        hub_density,
        shaft_modulus,
        shaft_poisson_ratio,
        shaft_density,
    )


@formula(
    "dp = (3 + nu) rho w^2 (D^2 - d^2) / 32",
    result=Symbol("dp", "Pa", "pressure lost to rotation"),
    source=DERIVED,
    speed=SPEED,
    diameter=SEAT,
    outside_diameter=HUB_OUTSIDE,
    density=DENSITY,
    poisson_ratio=POISSON,
)
def same_material_pressure_lost(
    speed: Numeric, diameter: Numeric, outside_diameter: Numeric, density: Numeric, poisson_ratio: Numeric
) -> Numeric:
    """
    Pressure that rotation takes from a fit of one material with a solid shaft.

    ::

        dp = (3 + nu) rho w^2 (D^2 - d^2) / 32

    Parameters
    ----------
    speed : float or array, rad/s
        w. The sign is ignored.
    diameter : float or array, m
        d, of the seat.
    outside_diameter : float or array, m
        D, of the hub.
    density : float or array, kg/m3
        rho, of both.
    poisson_ratio : float or array, -
        nu, of both.

    Returns
    -------
    float or array, Pa
        dp. The fit is loose where it comes to the pressure at rest.

    Raises
    ------
    DomainError
        If density or diameter is negative, or the hub has no wall, anywhere.

    Notes
    -----
    ``interference_lost_to_speed`` put through ``same_material_pressure``; the modulus drops out.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived; reproduces two published discs. Mark: derived.

    Examples
    --------
    >>> from math import pi
    >>> print(f"{same_material_pressure_lost(100 * pi, 0.300, 0.450, 7470.0, 0.3) / 1e6:.2f} MPa")
    8.55 MPa
    """
    require_not_negative(density=density)
    require_tube(outside_diameter, diameter)
    return (3.0 + poisson_ratio) * density * speed**2 * (outside_diameter**2 - diameter**2) / 32.0


@formula(
    "ws = w sqrt(U / dU)",
    result=Symbol("ws", "rad/s", "speed at which the pressure is gone; inf if it never is"),
    source=DERIVED,
    interference=INTERFERENCE,
    **_TWO_PARTS,
)
def separation_speed(
    interference: Numeric,
    diameter: Numeric,
    outside_diameter: Numeric,
    bore: Numeric = 0.0,
    *,
    hub_modulus: Numeric,
    hub_poisson_ratio: Numeric,
    hub_density: Numeric,
    shaft_modulus: Numeric,
    shaft_poisson_ratio: Numeric,
    shaft_density: Numeric,
) -> Numeric:
    """
    Speed at which the hub has grown away from its shaft and no pressure is left.

    ::

        ws = w sqrt(U / dU)

    Parameters
    ----------
    interference : float or array, m
        U, on the diameter, at rest.
    diameter : float or array, m
        d, of the seat.
    outside_diameter : float or array, m
        D, of the hub.
    bore : float or array, m, optional
        di, of the shaft; 0 if it is solid.
    hub_modulus : float or array, Pa
        Eo.
    hub_poisson_ratio : float or array, -
        nuo.
    hub_density : float or array, kg/m3
        rhoo.
    shaft_modulus : float or array, Pa
        Ei.
    shaft_poisson_ratio : float or array, -
        nui.
    shaft_density : float or array, kg/m3
        rhoi.

    Returns
    -------
    float or array, rad/s
        ws; inf where the shaft grows as much as the hub or more.

    Raises
    ------
    DomainError
        If interference is negative, a wall has no thickness, a modulus is not above zero or a density
        is negative, anywhere.

    Notes
    -----
    dU is ``interference_lost_to_speed`` at any speed w; it grows with w^2.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Two rotating discs, free edges. Mark: derived.

    Examples
    --------
    >>> from math import pi
    >>> steel = dict(hub_modulus=207e9, hub_poisson_ratio=0.3, hub_density=7470.0)
    >>> steel |= dict(shaft_modulus=207e9, shaft_poisson_ratio=0.3, shaft_density=7470.0)
    >>> print(f"{separation_speed(44.6e-6, 0.300, 0.450, **steel) * 30 / pi:.0f} rev/min")
    2999 rev/min
    """
    require_not_negative(interference=interference)
    lost = _lost_per_speed_squared(
        diameter,
        outside_diameter,
        bore,
        hub_modulus,
        hub_poisson_ratio,
        hub_density,
        shaft_modulus,
        shaft_poisson_ratio,
        shaft_density,
    )
    # NaN is not at or below zero, so it goes through the division
    never = np.less_equal(lost, 0.0)
    ratio = np.sqrt(interference / np.where(never, 1.0, lost))
    return np.where(never, np.inf + 0.0 * ratio, ratio)[()]
