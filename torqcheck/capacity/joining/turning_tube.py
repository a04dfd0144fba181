"""A tube or sleeve that turns: weight, whirling speed, and the pull of a centre beside the axis."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._sources import DERIVED, MECHANICS
from torqcheck.capacity._symbols import BORE, OUTER
from torqcheck.capacity.bursting import STEEL_DENSITY
from torqcheck.capacity.crowned import ELASTIC_MODULUS
from torqcheck.domain import require_not_negative, require_positive, require_tube
from torqcheck.formulas import Symbol, formula

__all__ = ["GRAVITY", "WHIRLING_SHARE", "tube_mass", "unbalance_force", "whirling_speed"]

GRAVITY = 9.81
"""m/s^2; to say a force in weights."""
WHIRLING_SHARE = 0.7
"""Share of the whirling speed up to which a tube is run; 0.75 is met as well. Mark: from memory."""

_DENSITY = Symbol("rho", "kg/m3", "density of the tube")
_LENGTH = Symbol("L", "m", "length between the supports, or of the tube")


@formula(
    "w1 = (pi / L)^2 sqrt(E (D^2 + d^2) / (16 rho))",
    result=Symbol("w1", "rad/s", "speed at which the tube whirls"),
    source=MECHANICS,
    outer_diameter=OUTER,
    length=_LENGTH,
    bore=BORE,
    elastic_modulus=Symbol("E", "Pa", "modulus of elasticity"),
    density=_DENSITY,
)
def whirling_speed(
    outer_diameter: Numeric,
    length: Numeric,
    bore: Numeric = 0.0,
    elastic_modulus: Numeric = ELASTIC_MODULUS,
    density: Numeric = STEEL_DENSITY,
) -> Numeric:
    """
    First critical speed of a tube that is carried at both ends and free to tilt there.

    ::

        w1 = (pi / L)^2 sqrt(E (D^2 + d^2) / (16 rho))

    Parameters
    ----------
    outer_diameter : float or array, m
        D.
    length : float or array, m
        L, between the middles of the two supports.
    bore : float or array, m, optional
        d; 0 for a solid shaft.
    elastic_modulus : float or array, Pa, optional
        E; steel by default.
    density : float or array, kg/m3, optional
        rho; steel by default.

    Returns
    -------
    float or array, rad/s
        w1.

    Raises
    ------
    DomainError
        If outer_diameter is not above bore, bore is negative, or another argument is not above zero,
        anywhere.

    Notes
    -----
    Bending of a beam on two hinges, (pi/L)^2 sqrt(E I/(rho A)) with I/A = (D^2 + d^2)/16. For steel it is
    1.21e8 sqrt(D^2 + d^2)/L^2 in rev/min and mm; books print 1.22e8. Soft supports and a joint in the
    middle lower it, and so do the shafts behind: keep to 0.7 of it. NaN in any argument gives NaN.

    References
    ----------
    .. [1] Standard mechanics; derived. Mark: derived.

    Examples
    --------
    >>> print(f"{whirling_speed(0.060, 1.2, bore=0.054) * 30 / np.pi:.0f} rev/min")
    6780 rev/min
    """
    require_tube(outer_diameter, bore)
    require_positive(length=length, elastic_modulus=elastic_modulus, density=density)
    squares = np.square(outer_diameter) + np.square(bore)
    return np.square(np.pi / np.asarray(length)) * np.sqrt(elastic_modulus * squares / (16.0 * density))


@formula(
    "m = rho pi (D^2 - d^2) L / 4",
    result=Symbol("m", "kg", "mass of the tube"),
    source=MECHANICS,
    outer_diameter=OUTER,
    length=_LENGTH,
    bore=BORE,
    density=_DENSITY,
)
def tube_mass(
    outer_diameter: Numeric, length: Numeric, bore: Numeric = 0.0, density: Numeric = STEEL_DENSITY
) -> Numeric:
    """
    Mass of a tube.

    ::

        m = rho pi (D^2 - d^2) L / 4

    Parameters
    ----------
    outer_diameter : float or array, m
        D.
    length : float or array, m
        L.
    bore : float or array, m, optional
        d; 0 for a solid bar.
    density : float or array, kg/m3, optional
        rho; steel by default.

    Returns
    -------
    float or array, kg
        m.

    Raises
    ------
    DomainError
        If outer_diameter is not above bore, bore is negative, or another argument is not above zero,
        anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Volume times density. Mark: derived.

    Examples
    --------
    >>> print(f"{tube_mass(0.060, 0.120, bore=0.036):.3f} kg")
    1.705 kg
    """
    require_tube(outer_diameter, bore)
    require_positive(length=length, density=density)
    return 0.25 * np.pi * density * (np.square(outer_diameter) - np.square(bore)) * length


@formula(
    "F = m e w^2",
    result=Symbol("F", "N", "force across the axis"),
    source=DERIVED,
    mass=Symbol("m", "kg", "mass that turns"),
    eccentricity=Symbol("e", "m", "distance of its centre from the axis"),
    speed=Symbol("w", "rad/s", "speed of the joint"),
)
def unbalance_force(mass: Numeric, eccentricity: Numeric, speed: Numeric) -> Numeric:
    """
    Force across the axis of a mass that turns beside it.

    ::

        F = m e w^2

    Parameters
    ----------
    mass : float or array, kg
        m.
    eccentricity : float or array, m
        e; of a sleeve that hangs in its play, half the radial play.
    speed : float or array, rad/s
        w. The sign is ignored.

    Returns
    -------
    float or array, N
        F.

    Raises
    ------
    DomainError
        If mass or eccentricity is negative anywhere.

    Notes
    -----
    Under torque the flanks of a side-fit spline draw the sleeve to its centre; running light nothing
    does, and the sleeve turns as far out as its play lets it. NaN in any argument gives NaN.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    >>> print(f"{unbalance_force(1.7, 0.05e-3, 314.16):.2f} N")
    8.39 N
    """
    require_not_negative(mass=mass, eccentricity=eccentricity)
    return np.multiply(mass, eccentricity) * np.square(speed)
