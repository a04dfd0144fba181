"""Elastic stress concentration of a round hole through a shaft, across its axis."""

import numpy as np

from torqcheck._types import FloatArray, Numeric
from torqcheck.domain import require_positive, require_tube
from torqcheck.errors import DomainError
from torqcheck.fatigue._sources import ROARK
from torqcheck.fatigue._symbols import BENDING_CONCENTRATION, BORE, HOLE, SECTION
from torqcheck.formulas import Symbol, formula

__all__ = ["LARGEST_HOLE", "cross_hole_bending_concentration", "cross_hole_torsion_concentration"]

LARGEST_HOLE = 0.4
"""Diameter of the hole over that of the shaft up to which the formulas hold."""


def _shares(hole_diameter: Numeric, diameter: Numeric, bore: Numeric) -> tuple[FloatArray, FloatArray]:
    """Hole and bore over the diameter."""
    require_tube(diameter, bore)
    require_positive(hole_diameter=hole_diameter)
    y = np.asarray(np.divide(hole_diameter, diameter))
    if np.any(np.greater(y, LARGEST_HOLE * (1.0 + 1e-12))):
        raise DomainError("hole_diameter must be at most 0.4 of the diameter")
    return y, np.asarray(np.divide(bore, diameter))


@formula(
    "Kt = 3.0 + c1 y + c2 y^2 + c3 y^3,  y = 2 r/D",
    result=BENDING_CONCENTRATION,
    source=ROARK,
    hole_diameter=HOLE,
    diameter=SECTION,
    bore=BORE,
)
def cross_hole_bending_concentration(
    hole_diameter: Numeric, diameter: Numeric, bore: Numeric = 0.0
) -> Numeric:
    """
    Elastic stress concentration of a cross hole in bending.

    ::

        Kt = 3.0 + c1 y + c2 y^2 + c3 y^3,  y = 2 r/D
        c by q = di/D

    Parameters
    ----------
    hole_diameter : float or array, m
        2 r, diameter of the hole.
    diameter : float or array, m
        D, of the shaft; the nominal stress stands on the whole section.
    bore : float or array, m, optional
        di, diameter of a concentric hole; 0 for a solid shaft.

    Returns
    -------
    float or array, -
        Kt, on the nominal stress of the whole section.

    Raises
    ------
    DomainError
        If hole_diameter is above 0.4 of diameter or not above zero, or there is no wall, anywhere.

    Notes
    -----
    The hole where it does most, its axis in the plane of bending.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Roark's Formulas for Stress and Strain, Table 17.1. Mark: from memory.

    Examples
    --------
    >>> print(f"{cross_hole_bending_concentration(0.004, 0.040):.2f}")
    2.73
    """
    y, q = _shares(hole_diameter, diameter, bore)
    first = -6.690 + q * (-1.620 + q * 4.432)
    second = 44.739 + q * (10.724 - q * 19.927)
    third = -53.307 + q * (-25.998 + q * 43.258)
    return (3.0 + y * (first + y * (second + y * third)))[()]


@formula(
    "Kt = 4.0 + c1 y + c2 y^2 + c3 y^3,  y = 2 r/D",
    result=Symbol("Kt", "-", "tensile stress at the hole over the shear stress of the whole section"),
    source=ROARK,
    hole_diameter=HOLE,
    diameter=SECTION,
    bore=BORE,
)
def cross_hole_torsion_concentration(
    hole_diameter: Numeric, diameter: Numeric, bore: Numeric = 0.0
) -> Numeric:
    """
    Largest tensile stress at a cross hole in torsion, over the nominal shear stress.

    ::

        Kt = 4.0 + c1 y + c2 y^2 + c3 y^3,  y = 2 r/D
        c by q = di/D

    Parameters
    ----------
    hole_diameter : float or array, m
        2 r, diameter of the hole.
    diameter : float or array, m
        D, of the shaft; the nominal stress stands on the whole section.
    bore : float or array, m, optional
        di, diameter of a concentric hole; 0 for a solid shaft.

    Returns
    -------
    float or array, -
        Kt; the largest shear stress there is half of it.

    Raises
    ------
    DomainError
        If hole_diameter is above 0.4 of diameter or not above zero, or there is no wall, anywhere.

    Notes
    -----
    The edge of the hole feels a tension in one direction, so that von Mises sees Kt/sqrt(3) times the
    nominal shear stress, more than the Kt/2 of the largest shear.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Roark's Formulas for Stress and Strain, Table 17.1. Mark: from memory.

    Examples
    --------
    >>> print(f"{cross_hole_torsion_concentration(0.004, 0.040):.2f}")
    3.66
    """
    y, q = _shares(hole_diameter, diameter, bore)
    first = -6.793 + q * (1.133 - q * 0.126)
    second = 38.382 + q * (-7.242 + q * 6.495)
    third = -44.576 + q * (-7.428 + q * 58.656)
    return (4.0 + y * (first + y * (second + y * third)))[()]
