"""Stresses of hub and shaft in an interference fit, and the pressure at which they begin to yield."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity.joining._fit_symbols import (
    DIN_7190,
    HUB_OUTSIDE,
    PRESSURE,
    SEAT,
    SHAFT_BORE,
    THICK_CYLINDER,
    YIELD,
)
from torqcheck.domain import require_not_negative, require_tube
from torqcheck.errors import DomainError
from torqcheck.formulas import Symbol, formula

__all__ = [
    "bore_equivalent_stress",
    "hub_bore_hoop_stress",
    "hub_pressure_limit",
    "shaft_equivalent_stress",
    "shaft_pressure_limit",
    "weakest_wall_hoop_stress",
]

_HOOP = Symbol("st", "Pa", "hoop stress at the bore of the hub")


@formula(
    "st = p (D^2 + d^2) / (D^2 - d^2)",
    result=_HOOP,
    source=THICK_CYLINDER,
    pressure=PRESSURE,
    diameter=SEAT,
    outside_diameter=HUB_OUTSIDE,
)
def hub_bore_hoop_stress(pressure: Numeric, diameter: Numeric, outside_diameter: Numeric) -> Numeric:
    """
    Hoop stress at the bore of a hub under the pressure of its seat.

    ::

        st = p (D^2 + d^2) / (D^2 - d^2)

    Parameters
    ----------
    pressure : float or array, Pa
        p, in the seat.
    diameter : float or array, m
        d, of the seat.
    outside_diameter : float or array, m
        D, of the hub.

    Returns
    -------
    float or array, Pa
        st, tension. The radial stress there is -p.

    Raises
    ------
    DomainError
        If pressure or diameter is negative, or the hub has no wall, anywhere.

    Notes
    -----
    Holds for a round hub without slot or groove; see ``weakest_wall_hoop_stress``.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Instructor's solutions to Budynas and Nisbett, Mechanical Engineering Design, 8th ed.,
       problem 3-68. Mark: published.

    Examples
    --------
    A hub of 2 in on a shaft of 1 in; [1]_ gives 37 500 psi at 22 500 psi:

    >>> print(f"{hub_bore_hoop_stress(22500.0, 1.0, 2.0):.0f}")
    37500
    """
    require_not_negative(pressure=pressure)
    require_tube(outside_diameter, diameter)
    return pressure * (outside_diameter**2 + diameter**2) / (outside_diameter**2 - diameter**2)


@formula(
    "st = p (d / df) (Dw^2 + df^2) / (Dw^2 - df^2)",
    result=Symbol("st", "Pa", "hoop stress at the inner edge of the weakest wall"),
    source=THICK_CYLINDER,
    pressure=PRESSURE,
    diameter=SEAT,
    wall_outside=Symbol("Dw", "m", "outside diameter at the weakest wall"),
    wall_inside=Symbol("df", "m", "diameter to the outer corners of the slot in the bore"),
)
def weakest_wall_hoop_stress(
    pressure: Numeric, diameter: Numeric, wall_outside: Numeric, wall_inside: Numeric
) -> Numeric:
    """
    Hoop stress in the weakest wall of a hub: over a keyway or a spline in it, or under a groove.

    ::

        st = p (d / df) (Dw^2 + df^2) / (Dw^2 - df^2)

    Parameters
    ----------
    pressure : float or array, Pa
        p, in the seat.
    diameter : float or array, m
        d, of the seat.
    wall_outside : float or array, m
        Dw, outside diameter at the weakest wall: at the bottom of a groove or an outside spline.
    wall_inside : float or array, m
        df, diameter to the outer corners of a keyway or spline in the bore; d without one.

    Returns
    -------
    float or array, Pa
        st. With Dw = D and df = d it is ``hub_bore_hoop_stress``.

    Raises
    ------
    DomainError
        If pressure or diameter is negative, wall_inside is below diameter or there is no wall, anywhere.

    Notes
    -----
    The pressure pulls the hub apart with p d for each length, which the wall between df and Dw must
    carry: a ring of that wall under the pressure p d/df. Not contained: the notch at the corner of the
    slot, which matters for fatigue and cracks hard or brittle hubs.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Balance of the pressure with the thick ring that is left. Mark: derived.

    Examples
    --------
    A 40 mm hub of 80 mm with a keyway to 46.6 mm across:

    >>> print(f"{weakest_wall_hoop_stress(100e6, 0.040, 0.080, 0.0466) / 1e6:.0f} MPa")
    174 MPa
    """
    require_not_negative(pressure=pressure, diameter=diameter)
    require_tube(wall_outside, wall_inside)
    if np.any(np.less(wall_inside, diameter)):
        raise DomainError("wall_inside must not be below diameter")
    ring = (wall_outside**2 + wall_inside**2) / (wall_outside**2 - wall_inside**2)
    return pressure * diameter / wall_inside * ring


@formula(
    "sv = sqrt(st^2 + st p + p^2)",
    result=Symbol("sv", "Pa", "equivalent stress at the bore of the hub, von Mises"),
    source=THICK_CYLINDER,
    hoop_stress=_HOOP,
    pressure=PRESSURE,
)
def bore_equivalent_stress(hoop_stress: Numeric, pressure: Numeric) -> Numeric:
    """
    Equivalent stress at the bore of a hub after von Mises, from its hoop stress and the pressure.

    ::

        sv = sqrt(st^2 + st p + p^2)

    Parameters
    ----------
    hoop_stress : float or array, Pa
        st, tension, from pressure and rotation together.
    pressure : float or array, Pa
        p, in the seat; the radial stress is -p.

    Returns
    -------
    float or array, Pa
        sv. Under pressure alone it is p sqrt(3 + Q^4) / (1 - Q^2), Q = d/D.

    Raises
    ------
    DomainError
        If an argument is negative anywhere.

    Notes
    -----
    Plane stress. Not contained: the shear of the torque, mu p at most, which adds a percent or two.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Distortion energy with the principal stresses st, -p and 0. Mark: derived.

    Examples
    --------
    >>> print(f"{bore_equivalent_stress(190.8e6, 114.5e6) / 1e6:.1f} MPa")
    267.1 MPa
    """
    require_not_negative(hoop_stress=hoop_stress, pressure=pressure)
    return np.sqrt(hoop_stress**2 + hoop_stress * pressure + pressure**2)


@formula(
    "sv = p if di = 0,  else 2 p d^2 / (d^2 - di^2)",
    result=Symbol("sv", "Pa", "equivalent stress of the shaft, von Mises"),
    source=THICK_CYLINDER,
    pressure=PRESSURE,
    diameter=SEAT,
    bore=SHAFT_BORE,
)
def shaft_equivalent_stress(pressure: Numeric, diameter: Numeric, bore: Numeric = 0.0) -> Numeric:
    """
    Largest equivalent stress of the shaft under the pressure of the seat: compression, von Mises.

    ::

        sv = p if di = 0,  else 2 p d^2 / (d^2 - di^2)

    Parameters
    ----------
    pressure : float or array, Pa
        p, in the seat.
    diameter : float or array, m
        d, of the seat.
    bore : float or array, m, optional
        di, of the shaft; 0 if it is solid.

    Returns
    -------
    float or array, Pa
        sv, as a positive number.

    Raises
    ------
    DomainError
        If pressure or bore is negative, or the shaft has no wall, anywhere.

    Notes
    -----
    A solid shaft is pressed by p from all sides in its plane; in a hollow one the hoop stress at the
    bore is -2 p d^2/(d^2 - di^2) and nothing acts beside it. However small the hole, it doubles the
    stress at its edge. Rotation relieves the shaft. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Thick cylinder under outside pressure. Mark: derived.

    Examples
    --------
    >>> print(f"{shaft_equivalent_stress(100e6, 0.040, 0.020) / 1e6:.1f} MPa")
    266.7 MPa
    """
    require_not_negative(pressure=pressure)
    require_tube(diameter, bore)
    hollow: Numeric = 2.0 * pressure * diameter**2 / (diameter**2 - bore**2)
    solid: Numeric = pressure + 0.0 * hollow
    largest: Numeric = np.where(np.equal(bore, 0.0), solid, hollow)[()]
    return largest


@formula(
    "pA = (1 - (d/D)^2) Re / sqrt(3)",
    result=Symbol("pA", "Pa", "pressure at which the hub begins to yield"),
    source=DIN_7190,
    yield_strength=YIELD,
    diameter=SEAT,
    outside_diameter=HUB_OUTSIDE,
)
def hub_pressure_limit(yield_strength: Numeric, diameter: Numeric, outside_diameter: Numeric) -> Numeric:
    """
    Pressure in the seat up to which the hub stays elastic, by the rule of the standard.

    ::

        pA = (1 - (d/D)^2) Re / sqrt(3)

    Parameters
    ----------
    yield_strength : float or array, Pa
        Re, of the hub.
    diameter : float or array, m
        d, of the seat.
    outside_diameter : float or array, m
        D, of the hub.

    Returns
    -------
    float or array, Pa
        pA.

    Raises
    ------
    DomainError
        If yield_strength is negative, or the hub has no wall, anywhere.

    Notes
    -----
    Shear-stress rule with the factor of von Mises. Von Mises in plane stress, which the checks use, has
    sqrt(3 + (d/D)^4) in place of sqrt(3): 1 % lower in a hub of twice the bore, 7 % in one of 1.25 times.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] DIN 7190, Interference fits. Mark: from memory.

    Examples
    --------
    >>> print(f"{hub_pressure_limit(400e6, 0.040, 0.080) / 1e6:.1f} MPa")
    173.2 MPa
    """
    require_not_negative(yield_strength=yield_strength)
    require_tube(outside_diameter, diameter)
    limit: Numeric = (1.0 - np.divide(diameter, outside_diameter) ** 2) * yield_strength / np.sqrt(3.0)
    return limit


@formula(
    "pI = 2 Re / sqrt(3) if di = 0,  else (1 - (di/d)^2) Re / sqrt(3)",
    result=Symbol("pI", "Pa", "pressure at which the shaft begins to yield"),
    source=DIN_7190,
    yield_strength=YIELD,
    diameter=SEAT,
    bore=SHAFT_BORE,
)
def shaft_pressure_limit(yield_strength: Numeric, diameter: Numeric, bore: Numeric = 0.0) -> Numeric:
    """
    Pressure in the seat up to which the shaft stays elastic, by the rule of the standard.

    ::

        pI = 2 Re / sqrt(3) if di = 0,  else (1 - (di/d)^2) Re / sqrt(3)

    Parameters
    ----------
    yield_strength : float or array, Pa
        Re, of the shaft.
    diameter : float or array, m
        d, of the seat.
    bore : float or array, m, optional
        di, of the shaft; 0 if it is solid.

    Returns
    -------
    float or array, Pa
        pI.

    Raises
    ------
    DomainError
        If yield_strength or bore is negative, or the shaft has no wall, anywhere.

    Notes
    -----
    Shear-stress rule with the factor of von Mises: 15 % above von Mises in plane stress, which the
    checks use. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] DIN 7190, Interference fits. Mark: from memory.

    Examples
    --------
    >>> print(f"{shaft_pressure_limit(400e6, 0.040, 0.020) / 1e6:.1f} MPa")
    173.2 MPa
    """
    require_not_negative(yield_strength=yield_strength)
    require_tube(diameter, bore)
    hollow: Numeric = (1.0 - np.divide(bore, diameter) ** 2) * yield_strength / np.sqrt(3.0)
    limit: Numeric = np.where(np.equal(bore, 0.0), 2.0 * hollow, hollow)[()]
    return limit
