"""How stiff a shaft end beyond its bearings is, and what force an offset between two of them makes."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._sources import DERIVED, MECHANICS
from torqcheck.capacity._symbols import BORE, OUTER, OVERHANG
from torqcheck.domain import require_not_negative, require_positive, require_tube
from torqcheck.formulas import Symbol, formula

__all__ = ["forced_offset_force", "overhung_stiffness"]

_SIDE = Symbol("k1", "N/m", "stiffness of this shaft end across its axis")


@formula(
    "k1 = 3 E I / (a^2 (a + b)),  I = pi (D^4 - d^4)/64",
    result=_SIDE,
    source=MECHANICS,
    outer_diameter=OUTER,
    overhang=OVERHANG,
    bearing_spacing=Symbol("b", "m", "distance between the two bearings"),
    elastic_modulus=Symbol("E", "Pa", "modulus of elasticity"),
    bore=BORE,
)
def overhung_stiffness(
    outer_diameter: Numeric,
    overhang: Numeric,
    bearing_spacing: Numeric,
    elastic_modulus: Numeric,
    bore: Numeric = 0.0,
) -> Numeric:
    """
    Stiffness across the axis at the tip of a shaft that overhangs two bearings.

    ::

        k1 = 3 E I / (a^2 (a + b)),  I = pi (D^4 - d^4)/64

    Parameters
    ----------
    outer_diameter : float or array, m
        D, the same over the whole length.
    overhang : float or array, m
        a, from the nearer bearing to the tip.
    bearing_spacing : float or array, m
        b.
    elastic_modulus : float or array, Pa
        E.
    bore : float or array, m, optional
        d, diameter of a concentric hole; 0 for a solid shaft.

    Returns
    -------
    float or array, N/m
        k1.

    Raises
    ------
    DomainError
        If a length or the modulus is not above zero, or there is no wall, anywhere.

    Notes
    -----
    Slender shaft on two rigid bearings that do not hold it against tilting; shear is left out.
    Both make the real shaft softer or stiffer by their own share; a stepped shaft is stiffer than its
    thinnest length. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Standard beam formula, overhang beyond two supports. Mark: derived.

    Examples
    --------
    >>> print(f"{overhung_stiffness(0.025, 0.060, 0.150, 207e9) / 1e3:.0f} N/mm")
    15751 N/mm
    """
    require_tube(outer_diameter, bore)
    require_positive(overhang=overhang, bearing_spacing=bearing_spacing, elastic_modulus=elastic_modulus)
    second_moment = np.pi * (outer_diameter**4 - bore**4) / 64.0
    return 3.0 * elastic_modulus * second_moment / (overhang**2 * (overhang + bearing_spacing))


@formula(
    "F = e / (1/k1 + 1/k2)",
    result=Symbol("F", "N", "force between the two shaft ends, across the axis"),
    source=DERIVED,
    offset=Symbol("e", "m", "parallel offset of the two axes"),
    side_stiffness=_SIDE,
    other_side_stiffness=Symbol("k2", "N/m", "the same of the other shaft end; inf if it does not give"),
)
def forced_offset_force(
    offset: Numeric, side_stiffness: Numeric, other_side_stiffness: Numeric = np.inf
) -> Numeric:
    """
    Force with which two rigidly joined shafts bend each other when their axes do not meet.

    ::

        F = e / (1/k1 + 1/k2)

    Parameters
    ----------
    offset : float or array, m
        e; half the total indicator reading.
    side_stiffness : float or array, N/m
        k1, from ``overhung_stiffness``.
    other_side_stiffness : float or array, N/m, optional
        k2; infinite if the other side does not give at all.

    Returns
    -------
    float or array, N
        F.

    Raises
    ------
    DomainError
        If offset is negative or a stiffness not above zero, anywhere.

    Notes
    -----
    Two springs in series that take up the offset together. An offset fixed in space bends the turning
    shaft to and fro and loads its bearings always on one side; one that turns with the shaft is a
    steady stress in it and a turning load on the bearings. NaN in any argument gives NaN.

    References
    ----------
    .. [1] Springs in series. Mark: derived.

    Examples
    --------
    >>> print(f"{forced_offset_force(0.1e-3, 15.751e6, 15.751e6):.0f} N")
    788 N
    """
    require_not_negative(offset=offset)
    require_positive(side_stiffness=side_stiffness, other_side_stiffness=other_side_stiffness)
    return offset / (np.divide(1.0, side_stiffness) + np.divide(1.0, other_side_stiffness))
