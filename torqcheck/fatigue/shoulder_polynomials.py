"""Elastic stress concentration of a shoulder fillet by the polynomials behind Peterson's charts."""

import numpy as np

from torqcheck._types import FloatArray, Numeric
from torqcheck.domain import require_positive
from torqcheck.errors import DomainError
from torqcheck.fatigue._sources import PETERSON
from torqcheck.fatigue._symbols import BENDING_CONCENTRATION, CONCENTRATION, LARGER, NOTCH_RADIUS, SMALLER
from torqcheck.formulas import formula

__all__ = [
    "BENDING_RANGE",
    "TORSION_RANGE",
    "require_shoulder",
    "shoulder_bending_by_polynomial",
    "shoulder_torsion_by_polynomial",
]

BENDING_RANGE, TORSION_RANGE = (0.1, 20.0), (0.25, 4.0)
"""Heights of the shoulder over its fillet radius, h/r, for which the polynomials hold."""
_MIDDLE = 2.0
_ROUNDING = 1e-9


def require_shoulder(larger_diameter: Numeric, diameter: Numeric, fillet_radius: Numeric) -> None:
    """Refuse a shoulder that does not rise, and a radius that is none."""
    require_positive(diameter=diameter, fillet_radius=fillet_radius)
    if np.any(np.less_equal(larger_diameter, diameter)):
        raise DomainError("larger_diameter must be above diameter")
    if np.any(np.greater(fillet_radius, diameter)):
        raise DomainError("fillet_radius must be at most the diameter")


def _shape(
    larger_diameter: Numeric,
    diameter: Numeric,
    fillet_radius: Numeric,
    ends: tuple[float, float],
) -> tuple[FloatArray, FloatArray]:
    """h/r and 2 h/D, refused outside the range."""
    require_shoulder(larger_diameter, diameter, fillet_radius)
    h = 0.5 * np.subtract(larger_diameter, diameter)
    x = np.asarray(h / fillet_radius)
    low, high = ends[0] * (1.0 - _ROUNDING), ends[1] * (1.0 + _ROUNDING)
    if np.any(np.less(x, low) | np.greater(x, high)):
        raise DomainError(f"height of the shoulder over fillet_radius must lie in {ends[0]:g} to {ends[1]:g}")
    return x, np.asarray(2.0 * h / larger_diameter)


def _cubic(y: FloatArray, *coefficients: FloatArray) -> FloatArray:
    first, second, third, fourth = coefficients
    return np.asarray(np.maximum(first + y * (second + y * (third + y * fourth)), 1.0))


@formula(
    "Kt = max(1, C1 + C2 y + C3 y^2 + C4 y^3)",
    result=BENDING_CONCENTRATION,
    source=PETERSON,
    larger_diameter=LARGER,
    diameter=SMALLER,
    fillet_radius=NOTCH_RADIUS,
)
def shoulder_bending_by_polynomial(
    larger_diameter: Numeric, diameter: Numeric, fillet_radius: Numeric
) -> Numeric:
    """
    Elastic stress concentration of a shoulder fillet in bending, by polynomial.

    ::

        Kt = max(1, C1 + C2 y + C3 y^2 + C4 y^3)
        h = (D - d)/2,  x = h/r,  y = 2 h/D

    Parameters
    ----------
    larger_diameter : float or array, m
        D, of the thicker length.
    diameter : float or array, m
        d, of the thinner length; the nominal stress stands on it.
    fillet_radius : float or array, m
        r.

    Returns
    -------
    float or array, -
        Kt, on the nominal stress at the smaller diameter.

    Raises
    ------
    DomainError
        If larger_diameter is not above diameter, a size is not above zero, fillet_radius is above
        diameter, or h/r lies outside 0.1 to 20, anywhere.

    Notes
    -----
    The C are two sets of polynomials in x and its square root, joined at x = 2, where the set for the
    smaller x counts. Charts of this kind carry about 8 percent.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Pilkey, Peterson's Stress Concentration Factors, charts 3.10 to 3.12. Mark: from memory.

    Examples
    --------
    >>> print(f"{shoulder_bending_by_polynomial(0.060, 0.040, 0.004):.3f}")
    1.743
    """
    x, y = _shape(larger_diameter, diameter, fillet_radius, BENDING_RANGE)
    s = np.sqrt(x)
    blunt = _cubic(
        y,
        0.947 + 1.206 * s - 0.131 * x,
        0.022 - 3.405 * s + 0.915 * x,
        0.869 + 1.777 * s - 0.555 * x,
        -0.810 + 0.422 * s - 0.260 * x,
    )
    sharp = _cubic(
        y,
        1.232 + 0.832 * s - 0.008 * x,
        -3.813 + 0.968 * s - 0.260 * x,
        7.423 - 4.868 * s + 0.869 * x,
        -3.839 + 3.070 * s - 0.600 * x,
    )
    return np.where(np.greater(x, _MIDDLE), sharp, blunt)[()]


@formula(
    "Kts = max(1, C1 + C2 y + C3 y^2 + C4 y^3)",
    result=CONCENTRATION,
    source=PETERSON,
    larger_diameter=LARGER,
    diameter=SMALLER,
    fillet_radius=NOTCH_RADIUS,
)
def shoulder_torsion_by_polynomial(
    larger_diameter: Numeric, diameter: Numeric, fillet_radius: Numeric
) -> Numeric:
    """
    Elastic stress concentration of a shoulder fillet in torsion, by polynomial.

    ::

        Kts = max(1, C1 + C2 y + C3 y^2 + C4 y^3)
        h = (D - d)/2,  x = h/r,  y = 2 h/D

    Parameters
    ----------
    larger_diameter : float or array, m
        D, of the thicker length.
    diameter : float or array, m
        d, of the thinner length; the nominal stress stands on it.
    fillet_radius : float or array, m
        r.

    Returns
    -------
    float or array, -
        Kts, on the nominal stress at the smaller diameter.

    Raises
    ------
    DomainError
        If larger_diameter is not above diameter, a size is not above zero, fillet_radius is above
        diameter, or h/r lies outside 0.25 to 4, anywhere.

    Notes
    -----
    The C are polynomials in x and its square root.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Pilkey, Peterson's Stress Concentration Factors, charts 3.10 to 3.12. Mark: from memory.

    Examples
    --------
    >>> print(f"{shoulder_torsion_by_polynomial(0.060, 0.040, 0.004):.3f}")
    1.413
    """
    x, y = _shape(larger_diameter, diameter, fillet_radius, TORSION_RANGE)
    s = np.sqrt(x)
    return _cubic(
        y,
        0.905 + 0.783 * s - 0.075 * x,
        -0.437 - 1.969 * s + 0.553 * x,
        1.557 + 1.073 * s - 0.578 * x,
        -1.061 + 0.171 * s + 0.086 * x,
    )[()]
