"""Bolts and dowels across which a torque goes in shear: on circles, and in a pattern beside its load."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._sources import DERIVED
from torqcheck.capacity.joining._bolt_symbols import (
    BEARING_LENGTH,
    BOLT_DIAMETER,
    BOLT_FORCE,
    BOLTS,
    CIRCLE,
    COUPLINGS,
    SHEAR_AREA,
    TORQUE,
)
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.errors import DomainError
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source

__all__ = [
    "bolt_bearing_stress",
    "bolt_circle_force",
    "bolt_shear_stress",
    "eccentric_bolt_force",
    "tear_out_stress",
    "two_circle_force",
]

ECCENTRIC = Source(
    "Budynas and Nisbett, Mechanical Engineering Design, 8th ed.", "solution of 8-48", "published"
)


@formula(
    "F = 2 T / (n D)",
    result=BOLT_FORCE,
    source=COUPLINGS,
    torque=TORQUE,
    bolts=BOLTS,
    circle_diameter=CIRCLE,
)
def bolt_circle_force(torque: Numeric, bolts: Numeric, circle_diameter: Numeric) -> Numeric:
    """
    Force across each bolt or dowel of one circle that carries a torque in shear.

    ::

        F = 2 T / (n D)

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    bolts : float or array, -
        n, bolts that bear; a part of them where they do not all touch.
    circle_diameter : float or array, m
        D.

    Returns
    -------
    float or array, N
        F, never negative.

    Raises
    ------
    DomainError
        If bolts or circle_diameter is not above zero, anywhere.

    Notes
    -----
    In clearance holes one or two bolts touch first; half of all at most is a usual count. NaN in any
    argument gives NaN in the same place.

    References
    ----------
    .. [1] Lecture page on flanged bolt couplings. Mark: published.

    Examples
    --------
    >>> print(f"{bolt_circle_force(25.13e3, 10.0, 0.400) / 1e3:.2f} kN")
    12.56 kN
    """
    require_positive(bolts=bolts, circle_diameter=circle_diameter)
    return 2.0 * np.abs(torque) / (bolts * circle_diameter)


@formula(
    "F = 2 T / (n D + m C^2 / D)",
    result=BOLT_FORCE,
    source=COUPLINGS,
    torque=TORQUE,
    bolts=BOLTS,
    circle_diameter=CIRCLE,
    inner_bolts=Symbol("m", "-", "number of bolts on the inner circle"),
    inner_circle_diameter=Symbol("C", "m", "diameter of the inner circle"),
)
def two_circle_force(
    torque: Numeric,
    bolts: Numeric,
    circle_diameter: Numeric,
    inner_bolts: Numeric,
    inner_circle_diameter: Numeric,
) -> Numeric:
    """
    Force across each bolt of the outer of two circles with the same bolts.

    ::

        F = 2 T / (n D + m C^2 / D)

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    bolts : float or array, -
        n, on the outer circle.
    circle_diameter : float or array, m
        D, of the outer circle.
    inner_bolts : float or array, -
        m; 0 for one circle alone.
    inner_circle_diameter : float or array, m
        C.

    Returns
    -------
    float or array, N
        F, never negative; a bolt of the inner circle has F C/D.

    Raises
    ------
    DomainError
        If inner_bolts is negative, or another argument but torque is not above zero, anywhere.

    Notes
    -----
    The flange turns as one piece, so that the load of a bolt goes with its radius. NaN in any argument
    gives NaN in the same place.

    References
    ----------
    .. [1] Lecture page on flanged bolt couplings. Mark: published.

    Examples
    --------
    >>> print(f"{two_circle_force(10.72e3, 8.0, 0.400, 6.0, 0.300) / 1e3:.2f} kN")
    4.71 kN
    """
    require_not_negative(inner_bolts=inner_bolts)
    require_positive(
        bolts=bolts, circle_diameter=circle_diameter, inner_circle_diameter=inner_circle_diameter
    )
    share = np.square(inner_circle_diameter) / circle_diameter
    return 2.0 * np.abs(torque) / (bolts * circle_diameter + inner_bolts * share)


@formula(
    "tau = F / A",
    result=Symbol("tau", "Pa", "mean shear stress in the bolt"),
    source=COUPLINGS,
    force=BOLT_FORCE,
    section=SHEAR_AREA,
)
def bolt_shear_stress(force: Numeric, section: Numeric) -> Numeric:
    """
    Mean shear stress of a bolt or dowel with one shear plane.

    ::

        tau = F / A

    Parameters
    ----------
    force : float or array, N
        F. The sign is ignored.
    section : float or array, m2
        A: of the shank, or at the root where threads lie in the shear plane.

    Returns
    -------
    float or array, Pa
        tau, never negative.

    Raises
    ------
    DomainError
        If section is not above zero, anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Lecture page on flanged bolt couplings. Mark: published.

    Examples
    --------
    >>> print(f"{bolt_shear_stress(12.566e3, 314.16e-6) / 1e6:.1f} MPa")
    40.0 MPa
    """
    require_positive(section=section)
    return np.abs(force) / section


@formula(
    "sigma = F / (d t)",
    result=Symbol("sigma", "Pa", "bearing stress on the side of the hole"),
    source=COUPLINGS,
    force=BOLT_FORCE,
    diameter=BOLT_DIAMETER,
    thickness=BEARING_LENGTH,
)
def bolt_bearing_stress(force: Numeric, diameter: Numeric, thickness: Numeric) -> Numeric:
    """
    Bearing stress between a bolt or dowel and the hole in a flange.

    ::

        sigma = F / (d t)

    Parameters
    ----------
    force : float or array, N
        F. The sign is ignored.
    diameter : float or array, m
        d.
    thickness : float or array, m
        t.

    Returns
    -------
    float or array, Pa
        sigma, never negative.

    Raises
    ------
    DomainError
        If diameter or thickness is not above zero, anywhere.

    Notes
    -----
    Mean over the projected area. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Lecture page on flanged bolt couplings. Mark: published.

    Examples
    --------
    >>> print(f"{bolt_bearing_stress(12e3, 0.012, 0.010) / 1e6:.0f} MPa")
    100 MPa
    """
    require_positive(diameter=diameter, thickness=thickness)
    return np.abs(force) / (np.multiply(diameter, thickness))


@formula(
    "tau = F / (2 t (e - d/2))",
    result=Symbol("tau", "Pa", "shear stress of the metal that would tear out"),
    source=DERIVED,
    force=BOLT_FORCE,
    thickness=BEARING_LENGTH,
    edge_distance=Symbol("e", "m", "centre of the hole to the edge, along the force"),
    diameter=BOLT_DIAMETER,
)
def tear_out_stress(force: Numeric, thickness: Numeric, edge_distance: Numeric, diameter: Numeric) -> Numeric:
    """
    Shear stress of the metal between a hole and the edge towards which its bolt presses.

    ::

        tau = F / (2 t (e - d/2))

    Parameters
    ----------
    force : float or array, N
        F. The sign is ignored.
    thickness : float or array, m
        t.
    edge_distance : float or array, m
        e.
    diameter : float or array, m
        d.

    Returns
    -------
    float or array, Pa
        tau, never negative.

    Raises
    ------
    DomainError
        If thickness or diameter is not above zero, or edge_distance is not above half the diameter,
        anywhere.

    Notes
    -----
    Two planes from the sides of the hole to the edge. An edge distance of two diameters, common practice,
    keeps it below a third of the bearing stress. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Two planes in shear. Mark: derived.

    Examples
    --------
    >>> print(f"{tear_out_stress(12e3, 0.010, 0.024, 0.012) / 1e6:.1f} MPa")
    33.3 MPa
    """
    require_positive(thickness=thickness, diameter=diameter)
    if np.any(np.less_equal(edge_distance, np.multiply(0.5, diameter))):
        raise DomainError("edge_distance must be above half the diameter; the hole would cut the edge")
    return np.abs(force) / (2.0 * thickness * (edge_distance - np.multiply(0.5, diameter)))


@formula(
    "F = P sqrt((1/n)^2 + (a r / S)^2 + 2 (1/n) (a r / S) cos(b))",
    result=BOLT_FORCE,
    source=ECCENTRIC,
    pattern_load=Symbol("P", "N", "force on the whole pattern"),
    bolts=BOLTS,
    lever=Symbol("a", "m", "distance of the force from the centre of the pattern"),
    radius=Symbol("r", "m", "distance of the bolt from the centre of the pattern"),
    sum_of_squares=Symbol("S", "m2", "sum of r^2 over all bolts"),
    force_angle=Symbol("b", "rad", "angle between the primary and the secondary force"),
)
def eccentric_bolt_force(
    pattern_load: Numeric,
    bolts: Numeric,
    lever: Numeric,
    radius: Numeric,
    sum_of_squares: Numeric,
    force_angle: Numeric = 0.0,
) -> Numeric:
    """
    Force across one bolt of a pattern whose load passes beside its centre.

    ::

        F = P sqrt((1/n)^2 + (a r / S)^2 + 2 (1/n) (a r / S) cos(b))

    Parameters
    ----------
    pattern_load : float or array, N
        P. The sign is ignored.
    bolts : float or array, -
        n.
    lever : float or array, m
        a.
    radius : float or array, m
        r, of the bolt that is looked at; the farthest one is the worst.
    sum_of_squares : float or array, m2
        S, over all bolts; n r^2 on one circle.
    force_angle : float or array, rad, optional
        b; 0 where the two forces add, the worst that can be.

    Returns
    -------
    float or array, N
        F, never negative.

    Raises
    ------
    DomainError
        If lever or radius is negative, or bolts or sum_of_squares is not above zero, anywhere.

    Notes
    -----
    The primary force P/n is shared evenly; the secondary one, P a r/S, stands across the radius and goes
    with it. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Instructor's solutions to Budynas and Nisbett, Mechanical Engineering Design, 8-48. Mark:
       published.

    Examples
    --------
    >>> print(f"{eccentric_bolt_force(1.0, 3.0, 0.201, 0.050, 2 * 0.050**2):.3f} N")
    2.343 N
    """
    require_not_negative(lever=lever, radius=radius)
    require_positive(bolts=bolts, sum_of_squares=sum_of_squares)
    primary, secondary = np.divide(1.0, bolts), np.multiply(lever, radius) / sum_of_squares
    both = primary**2 + secondary**2 + 2.0 * primary * secondary * np.cos(force_angle)
    # opposite and equal forces leave a rounding error that may be below zero
    force = np.abs(pattern_load) * np.sqrt(np.maximum(both, 0.0))
    return force if isinstance(force, np.ndarray) else float(force)
