"""Taper and keyless bushes: the radial force that a taper makes of an axial one, and the hub they need."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._sources import DERIVED
from torqcheck.capacity.joining._fit_symbols import FRICTION, YIELD
from torqcheck.domain import require_angle, require_not_negative, require_positive, require_share
from torqcheck.errors import DomainError
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source

__all__ = ["bush_hub_diameter", "bush_hub_diameter_by_shear", "taper_radial_force"]

_SELECTION = Source(
    "Selection pages of makers of keyless bushes", "outside diameter of the hub", "from memory"
)
_HUB_BORE = Symbol("dh", "m", "bore of the hub, outside diameter of the bush")
_HUB_PRESSURE = Symbol("p", "Pa", "pressure of the bush on the bore of the hub")
_WIDTH = Symbol("C", "-", "share of the pressure that counts, by the width of the hub")
_OUTSIDE = Symbol("D", "m", "least outside diameter of the hub")


@formula(
    "Fr = Fs / tan(theta + phi),  phi = arctan(mu)",
    result=Symbol("Fr", "N", "radial force around the bush"),
    source=DERIVED,
    tightening_force=Symbol("Fs", "N", "axial force of all the screws of the bush"),
    taper_angle=Symbol("theta", "rad", "angle between the taper and the axis"),
    friction=FRICTION,
)
def taper_radial_force(tightening_force: Numeric, taper_angle: Numeric, friction: Numeric) -> Numeric:
    """
    Radial force, summed around, that a taper makes of the axial force of its screws.

    ::

        Fr = Fs / tan(theta + phi),  phi = arctan(mu)

    Parameters
    ----------
    tightening_force : float or array, N
        Fs, axial force of all the screws.
    taper_angle : float or array, rad
        theta, half the angle of the cone.
    friction : float or array, -
        mu, on the taper.

    Returns
    -------
    float or array, N
        Fr; over pi d L it is the pressure, times mu d/2 on the shaft the torque.

    Raises
    ------
    DomainError
        If tightening_force or friction is negative, the taper is no angle between 0 and 90 degrees, or
        taper and friction together make the tangent zero or endless, anywhere.

    Notes
    -----
    Oil on the taper raises the radial force by a third and more: a taper lubricated against its maker's
    advice has split a hub of cast iron. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Wedge with friction. Mark: derived.

    Examples
    --------
    >>> from math import radians
    >>> dry, oiled = (taper_radial_force(20e3, radians(7.0), mu) / 1e3 for mu in (0.15, 0.08))
    >>> print(f"{dry:.1f} kN dry, {oiled:.1f} kN oiled")
    72.0 kN dry, 97.7 kN oiled
    """
    require_not_negative(tightening_force=tightening_force, friction=friction, taper_angle=taper_angle)
    require_angle(taper_angle=taper_angle)
    whole = taper_angle + np.arctan(friction)
    if np.any(np.less_equal(whole, 0.0) | np.greater_equal(whole, 0.5 * np.pi)):
        raise DomainError("taper_angle and friction must together make an angle between 0 and 90 degrees")
    return tightening_force / np.tan(whole)


@formula(
    "D = dh sqrt((Re + C p) / (Re - C p))",
    result=_OUTSIDE,
    source=_SELECTION,
    hub_bore=_HUB_BORE,
    pressure=_HUB_PRESSURE,
    yield_strength=YIELD,
    width_share=_WIDTH,
)
def bush_hub_diameter(
    hub_bore: Numeric, pressure: Numeric, yield_strength: Numeric, width_share: Numeric = 1.0
) -> Numeric:
    """
    Least outside diameter of the hub over a keyless bush, by its largest hoop stress.

    ::

        D = dh sqrt((Re + C p) / (Re - C p))

    Parameters
    ----------
    hub_bore : float or array, m
        dh, bore of the hub.
    pressure : float or array, Pa
        p, of the bush on that bore, from its catalogue.
    yield_strength : float or array, Pa
        Re, of the hub.
    width_share : float or array, -, optional
        C: 1 for a hub as wide as the bush, 0.8 for one and a half times, 0.6 for twice and more.

    Returns
    -------
    float or array, m
        D, at which the hoop stress C p (D^2 + dh^2)/(D^2 - dh^2) just reaches yield.

    Raises
    ------
    DomainError
        If hub_bore is not above zero, pressure is negative, width_share is not above 0 and at most 1,
        or C p is as large as the yield strength, anywhere.

    Notes
    -----
    The usual form; ``bush_hub_diameter_by_shear`` asks for more. Not contained: keyways and tapped holes
    in the hub. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Selection pages of makers of keyless bushes: the shares were read there. Mark of the formula:
       from memory; derived again here.

    Examples
    --------
    >>> print(f"{bush_hub_diameter(0.060, 100e6, 400e6, 0.8) * 1e3:.1f} mm")
    73.5 mm
    """
    load = _counted_pressure(hub_bore, pressure, width_share)
    if np.any(np.greater_equal(load, yield_strength)):
        raise DomainError("yield_strength must be above the pressure that counts")
    return hub_bore * np.sqrt((yield_strength + load) / (yield_strength - load))


@formula(
    "D = dh / sqrt(1 - 2 C p / Re)",
    result=_OUTSIDE,
    source=DERIVED,
    hub_bore=_HUB_BORE,
    pressure=_HUB_PRESSURE,
    yield_strength=YIELD,
    width_share=_WIDTH,
)
def bush_hub_diameter_by_shear(
    hub_bore: Numeric, pressure: Numeric, yield_strength: Numeric, width_share: Numeric = 1.0
) -> Numeric:
    """
    Least outside diameter of the hub over a keyless bush, by its largest shear (Tresca).

    ::

        D = dh / sqrt(1 - 2 C p / Re)

    Parameters
    ----------
    hub_bore : float or array, m
        dh, bore of the hub.
    pressure : float or array, Pa
        p, of the bush on that bore, from its catalogue.
    yield_strength : float or array, Pa
        Re, of the hub.
    width_share : float or array, -, optional
        C, as in ``bush_hub_diameter``.

    Returns
    -------
    float or array, m
        D.

    Raises
    ------
    DomainError
        If hub_bore is not above zero, pressure is negative, width_share is not above 0 and at most 1,
        or 2 C p is as large as the yield strength, anywhere.

    Notes
    -----
    Hoop stress and pressure differ by 2 C p D^2/(D^2 - dh^2); where that is Re the bore yields.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Thick cylinder, largest shear at the bore. Mark: derived.

    Examples
    --------
    >>> print(f"{bush_hub_diameter_by_shear(0.060, 100e6, 400e6, 0.8) * 1e3:.1f} mm")
    77.5 mm
    """
    load = _counted_pressure(hub_bore, pressure, width_share)
    if np.any(np.greater_equal(2.0 * load, yield_strength)):
        raise DomainError("yield_strength must be above twice the pressure that counts")
    return hub_bore / np.sqrt(1.0 - 2.0 * load / yield_strength)


def _counted_pressure(hub_bore: Numeric, pressure: Numeric, width_share: Numeric) -> Numeric:
    require_positive(hub_bore=hub_bore)
    require_not_negative(pressure=pressure)
    require_share(width_share=width_share)
    return width_share * pressure
