"""Whole sections that a keyway or a cross hole has weakened, for yield and not for fatigue."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._sources import DERIVED, MOORE, PETERSON
from torqcheck.capacity._symbols import BENDING_STRESS, BORE, MOMENT, OUTER, SHEAR_STRESS, TORQUE
from torqcheck.domain import require_positive, require_tube
from torqcheck.errors import DomainError
from torqcheck.formulas import Symbol, formula

__all__ = ["cross_hole_bending_stress", "cross_hole_shear_stress", "keyway_strength_factor"]

WIDEST_KEYWAY, DEEPEST_KEYWAY = 0.5, 0.3
"""Of the diameter: what the rule of Moore is used for here."""
WIDEST_HOLE = 0.4

_HOLE = Symbol("dh", "m", "diameter of a hole through the shaft, across its axis")


def _require_hole(outer_diameter: Numeric, bore: Numeric, hole_diameter: Numeric) -> None:
    require_tube(outer_diameter, bore)
    require_positive(hole_diameter=hole_diameter)
    if np.any(np.greater(hole_diameter, np.multiply(WIDEST_HOLE, outer_diameter) * (1.0 + 1e-12))):
        raise DomainError("hole_diameter must be at most 0.4 of the outer diameter")


@formula(
    "e = 1 - 0.2 w/D - 1.1 t/D",
    result=Symbol("e", "-", "strength of the keyed shaft over that of the plain one"),
    source=MOORE,
    outer_diameter=OUTER,
    keyway_width=Symbol("w", "m", "width of the keyway"),
    keyway_depth=Symbol("t", "m", "depth of the keyway at its side"),
)
def keyway_strength_factor(outer_diameter: Numeric, keyway_width: Numeric, keyway_depth: Numeric) -> Numeric:
    """
    Share of its elastic strength that a shaft keeps when a keyway is cut, whole section.

    ::

        e = 1 - 0.2 w/D - 1.1 t/D

    Parameters
    ----------
    outer_diameter : float or array, m
        D.
    keyway_width : float or array, m
        w.
    keyway_depth : float or array, m
        t.

    Returns
    -------
    float or array, -
        e, below 1.

    Raises
    ------
    DomainError
        If a size is not above zero, the width above half or the depth above 0.3 of the diameter,
        anywhere.

    Notes
    -----
    A static factor of the section; not the stress concentration at the corner, which counts in fatigue.
    Hollow shafts with a thin wall under the keyway lose more. The ends of the range are our own.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] H. F. Moore, University of Illinois Bulletin 42, 1910. Mark: from memory.

    Examples
    --------
    >>> print(f"{keyway_strength_factor(0.040, 0.010, 0.005):.4f}")
    0.8125
    """
    require_positive(outer_diameter=outer_diameter, keyway_width=keyway_width, keyway_depth=keyway_depth)
    width, depth = np.divide(keyway_width, outer_diameter), np.divide(keyway_depth, outer_diameter)
    if np.any(np.greater(width, WIDEST_KEYWAY) | np.greater(depth, DEEPEST_KEYWAY)):
        raise DomainError("keyway must be at most 0.5 of the diameter wide and 0.3 deep")
    return (1.0 - 0.2 * width - 1.1 * depth)[()]


@formula(
    "tau = T / (pi (D^4 - d^4)/(16 D) - dh (D^3 - d^3)/(6 D))",
    result=SHEAR_STRESS,
    source=PETERSON,
    torque=TORQUE,
    outer_diameter=OUTER,
    hole_diameter=_HOLE,
    bore=BORE,
)
def cross_hole_shear_stress(
    torque: Numeric, outer_diameter: Numeric, hole_diameter: Numeric, bore: Numeric = 0.0
) -> Numeric:
    """
    Shear stress on the net section of a shaft with a hole through it, in torsion.

    ::

        tau = T / (pi (D^4 - d^4)/(16 D) - dh (D^3 - d^3)/(6 D))

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    outer_diameter : float or array, m
        D.
    hole_diameter : float or array, m
        dh.
    bore : float or array, m, optional
        d, diameter of a concentric hole; 0 for a solid shaft.

    Returns
    -------
    float or array, Pa
        tau.

    Raises
    ------
    DomainError
        If there is no wall, or hole_diameter is not above zero or above 0.4 of the outer diameter,
        anywhere.

    Notes
    -----
    The book gives the solid shaft, pi D^3/16 - dh D^2/6; the strip of width dh that the hole takes out
    has the polar second moment dh (D^3 - d^3)/12, which carries it over to the hollow one.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Peterson's Stress Concentration Factors; Norton, Machine Design. Mark: from memory.

    Examples
    --------
    A shaft of 25 mm with a pin of 8 mm under 200 N m:

    >>> print(f"{cross_hole_shear_stress(200.0, 0.025, 0.008) / 1e6:.0f} MPa")
    90 MPa
    """
    _require_hole(outer_diameter, bore, hole_diameter)
    D, d = outer_diameter, bore
    section = np.pi * (D**4 - d**4) / (16.0 * D) - hole_diameter * (D**3 - d**3) / (6.0 * D)
    return np.abs(torque) / section


@formula(
    "sb = Mb / (pi (D^4 - d^4)/(32 D) - dh (D^3 - d^3)/(6 D))",
    result=BENDING_STRESS,
    source=DERIVED,
    moment=MOMENT,
    outer_diameter=OUTER,
    hole_diameter=_HOLE,
    bore=BORE,
)
def cross_hole_bending_stress(
    moment: Numeric, outer_diameter: Numeric, hole_diameter: Numeric, bore: Numeric = 0.0
) -> Numeric:
    """
    Bending stress on the net section of a shaft with a hole through it, the hole where it weakens most.

    ::

        sb = Mb / (pi (D^4 - d^4)/(32 D) - dh (D^3 - d^3)/(6 D))

    Parameters
    ----------
    moment : float or array, N m
        Mb. The sign is ignored.
    outer_diameter : float or array, m
        D.
    hole_diameter : float or array, m
        dh.
    bore : float or array, m, optional
        d, diameter of a concentric hole; 0 for a solid shaft.

    Returns
    -------
    float or array, Pa
        sb.

    Raises
    ------
    DomainError
        If there is no wall, or hole_diameter is not above zero or above 0.4 of the outer diameter,
        anywhere.

    Notes
    -----
    The axis of the hole lies in the plane of bending, as it does twice in every turn: the strip taken
    out has the second moment dh (D^3 - d^3)/12 about the neutral axis. NaN gives NaN.

    References
    ----------
    .. [1] Second moment of the section less that of the strip. Mark: derived.

    Examples
    --------
    >>> print(f"{cross_hole_bending_stress(50.0, 0.025, 0.004) / 1e6:.0f} MPa")
    45 MPa
    """
    _require_hole(outer_diameter, bore, hole_diameter)
    D, d = outer_diameter, bore
    section = np.pi * (D**4 - d**4) / (32.0 * D) - hole_diameter * (D**3 - d**3) / (6.0 * D)
    return np.abs(moment) / section
