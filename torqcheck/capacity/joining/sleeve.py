"""Wall of a sleeve or tube: shear, hoop and shear together, keyway corner, proportions."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._sources import DERIVED, MECHANICS
from torqcheck.capacity._symbols import TORQUE
from torqcheck.domain import require_positive, require_tube
from torqcheck.errors import DomainError
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source

__all__ = [
    "LEAST_WALL_SHARE",
    "LEAST_WALL_SHARE_TOUCHED",
    "WALL_SOURCE",
    "combined_wall_stress",
    "keyway_corner_diameter",
    "thin_tube_shear_stress",
    "wall_share",
]

LEAST_WALL_SHARE, LEAST_WALL_SHARE_TOUCHED = 0.20, 0.25
"""Wall over the diameter of the deepest feature below which a hub is thin: certainly, and perhaps."""

WALL_SOURCE = Source("Hub proportions of the workshop; Khurmi and Gupta", "", "common practice, no source")

_DEEPEST = Symbol("Dm", "m", "diameter of the deepest feature inside: spline major, keyway corner, bore")


@formula(
    "tau = 2 T / (pi Dw^2 t)",
    result=Symbol("tau", "Pa", "shear stress in the wall"),
    source=MECHANICS,
    torque=TORQUE,
    mean_diameter=Symbol("Dw", "m", "mean diameter of the wall"),
    wall=Symbol("t", "m", "thickness of the wall"),
)
def thin_tube_shear_stress(torque: Numeric, mean_diameter: Numeric, wall: Numeric) -> Numeric:
    """
    Shear stress in the wall of a thin tube in torsion.

    ::

        tau = 2 T / (pi Dw^2 t)

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    mean_diameter : float or array, m
        Dw, halfway through the wall.
    wall : float or array, m
        t.

    Returns
    -------
    float or array, Pa
        tau, mean over the wall.

    Raises
    ------
    DomainError
        If mean_diameter or wall is not above zero, or the wall is as thick as the mean diameter,
        anywhere.

    Notes
    -----
    Shear flow T/(2 A) over the wall. The outer surface has more, by about t/Dw: 4.7 % where the wall is
    a twentieth of the diameter. ``torsional_shear_stress`` has no such limit and is what the checks use.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Standard mechanics of thin closed sections. Mark: derived.

    Examples
    --------
    A wall of 3 mm at 60 mm under 500 N m; the exact value is 30.9 MPa:

    >>> print(f"{thin_tube_shear_stress(500.0, 0.060, 0.003) / 1e6:.1f} MPa")
    29.5 MPa
    """
    require_positive(mean_diameter=mean_diameter, wall=wall)
    if np.any(np.greater_equal(wall, mean_diameter)):
        raise DomainError("the wall must be thinner than the mean diameter")
    return 2.0 * np.abs(torque) / (np.pi * np.square(mean_diameter) * wall)


@formula(
    "Dm = 2 sqrt((w/2)^2 + (d/2 + t2)^2)",
    result=_DEEPEST,
    source=DERIVED,
    bore=Symbol("d", "m", "bore of the sleeve"),
    keyway_width=Symbol("w", "m", "width of the keyway"),
    keyway_depth=Symbol("t2", "m", "depth of the keyway, from the bore in the middle of the key"),
)
def keyway_corner_diameter(bore: Numeric, keyway_width: Numeric, keyway_depth: Numeric) -> Numeric:
    """
    Diameter of the circle through the corners of a keyway in a bore.

    ::

        Dm = 2 sqrt((w/2)^2 + (d/2 + t2)^2)

    Parameters
    ----------
    bore : float or array, m
        d.
    keyway_width : float or array, m
        w.
    keyway_depth : float or array, m
        t2, as the key tables give it: bore + t2 is what a caliper reads across.

    Returns
    -------
    float or array, m
        Dm.

    Raises
    ------
    DomainError
        If a size is not above zero, or the keyway is wider than the bore, anywhere.

    Notes
    -----
    By Pythagoras, from the axis to the corner. The wall counts as if it were so thin all around, which is
    on the safe side; the notch of the corner is another matter and stands with fatigue.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    >>> print(f"{keyway_corner_diameter(0.038, 0.010, 0.0033) * 1e3:.2f} mm")
    45.71 mm
    """
    require_positive(bore=bore, keyway_width=keyway_width, keyway_depth=keyway_depth)
    if np.any(np.greater(keyway_width, bore)):
        raise DomainError("keyway_width must not be above the bore")
    return 2.0 * np.hypot(np.divide(keyway_width, 2.0), np.divide(bore, 2.0) + keyway_depth)


@formula(
    "x = (D - Dm) / (2 Dm)",
    result=Symbol("x", "-", "wall over the diameter of the deepest feature inside"),
    source=WALL_SOURCE,
    outer_diameter=Symbol("D", "m", "outside diameter"),
    deepest_diameter=_DEEPEST,
)
def wall_share(outer_diameter: Numeric, deepest_diameter: Numeric) -> Numeric:
    """
    Thickness of a wall as a share of the diameter inside it.

    ::

        x = (D - Dm) / (2 Dm)

    Parameters
    ----------
    outer_diameter : float or array, m
        D.
    deepest_diameter : float or array, m
        Dm, of the deepest feature inside.

    Returns
    -------
    float or array, -
        x.

    Raises
    ------
    DomainError
        If deepest_diameter is not above zero, or outer_diameter not above it, anywhere.

    Notes
    -----
    Workshops keep it above 0.2 to 0.25 and make a steel hub 1.5 to 2 times as thick as its bore and 1 to
    1.5 times as long as thick. A rule of proportion, no stress: a thinner wall breathes under the radial
    part of the tooth load, opens the fit and loses its shape in heat treatment.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Workshop rule; hub proportions also in R. S. Khurmi and J. K. Gupta. Mark: common practice, no
       source.

    Examples
    --------
    >>> print(f"{wall_share(0.052, 0.039):.3f}")
    0.167
    """
    require_positive(deepest_diameter=deepest_diameter)
    require_tube(outer_diameter, deepest_diameter)
    return np.subtract(outer_diameter, deepest_diameter) / (2.0 * np.asarray(deepest_diameter))


@formula(
    "sv = sqrt(sh^2 + 3 tau^2)",
    result=Symbol("sv", "Pa", "equivalent stress after von Mises"),
    source=MECHANICS,
    hoop_stress=Symbol("sh", "Pa", "hoop stress in the wall"),
    wall_shear=Symbol("tau", "Pa", "shear stress in the wall"),
)
def combined_wall_stress(hoop_stress: Numeric, wall_shear: Numeric) -> Numeric:
    """
    Hoop stress and torsional shear of a wall as one stress, after von Mises.

    ::

        sv = sqrt(sh^2 + 3 tau^2)

    Parameters
    ----------
    hoop_stress : float or array, Pa
        sh, from radial tooth load and rotation.
    wall_shear : float or array, Pa
        tau, from the torque.

    Returns
    -------
    float or array, Pa
        sv, to be held against the yield strength in tension.

    Raises
    ------
    DomainError
        Never.

    Notes
    -----
    Hoop and shear are taken at the same place; in truth the shear is largest outside and the hoop inside,
    so that it is on the safe side. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Standard mechanics, plane stress with one normal stress. Mark: derived.

    Examples
    --------
    >>> print(f"{combined_wall_stress(20e6, 30e6) / 1e6:.2f} MPa")
    55.68 MPa
    """
    return np.sqrt(np.square(hoop_stress) + 3.0 * np.square(wall_shear))
