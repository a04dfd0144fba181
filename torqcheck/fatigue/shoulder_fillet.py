"""Elastic stress concentration of a shoulder fillet: the larger of what two collections of charts give."""

from collections.abc import Callable
from typing import Literal

import numpy as np

from torqcheck._types import FloatArray, Numeric
from torqcheck.errors import DomainError
from torqcheck.fatigue._sources import SHOULDERS
from torqcheck.fatigue._symbols import BENDING_CONCENTRATION, CONCENTRATION, LARGER, NOTCH_RADIUS, SMALLER
from torqcheck.fatigue.shoulder_polynomials import (
    BENDING_RANGE,
    TORSION_RANGE,
    require_shoulder,
    shoulder_bending_by_polynomial,
    shoulder_torsion_by_polynomial,
)
from torqcheck.fatigue.shoulder_power import (
    BLUNTEST,
    FIRST_ROW_IN_BENDING,
    FIRST_ROW_IN_TORSION,
    SHARPEST,
    shoulder_bending_by_power,
    shoulder_torsion_by_power,
)
from torqcheck.formulas import formula

__all__ = [
    "governing_shoulder_formula",
    "shoulder_bending_concentration",
    "shoulder_torsion_concentration",
]

Kernel = Callable[[Numeric, Numeric, Numeric], Numeric]

TALLEST = 3.0
"""D/d up to which the polynomials are fed; the step of a flange counts as this."""


def governing_shoulder_formula(
    load: Literal["bending", "torsion"], larger_diameter: float, diameter: float, fillet_radius: float
) -> str:
    """
    Say which of the two formulas gives the stress concentration of a shoulder that is used.

    Parameters
    ----------
    load : str
        bending or torsion.
    larger_diameter, diameter, fillet_radius : float, m
        Of the shoulder.
    """
    both = _in_bending if load == "bending" else _in_torsion
    polynomial, power = both(larger_diameter, diameter, fillet_radius)
    return "polynomial" if float(polynomial) >= float(power) else "power fit"


def _in_bending(D: Numeric, d: Numeric, r: Numeric) -> tuple[FloatArray, FloatArray]:
    by_polynomial, by_power = shoulder_bending_by_polynomial, shoulder_bending_by_power
    return _both(D, d, r, by_polynomial, BENDING_RANGE, by_power, FIRST_ROW_IN_BENDING)


def _in_torsion(D: Numeric, d: Numeric, r: Numeric) -> tuple[FloatArray, FloatArray]:
    by_polynomial, by_power = shoulder_torsion_by_polynomial, shoulder_torsion_by_power
    return _both(D, d, r, by_polynomial, TORSION_RANGE, by_power, FIRST_ROW_IN_TORSION)


def _both(
    larger_diameter: Numeric,
    diameter: Numeric,
    fillet_radius: Numeric,
    by_polynomial: Kernel,
    ends: tuple[float, float],
    by_power: Kernel,
    first_row: float,
) -> tuple[FloatArray, FloatArray]:
    """Both values, each as far as it may count; 1 where the power fit does not."""
    require_shoulder(larger_diameter, diameter, fillet_radius)
    D, d, r = np.broadcast_arrays(larger_diameter, diameter, fillet_radius)
    if np.any(np.less(r, SHARPEST * d * (1.0 - 1e-9))):
        raise DomainError(f"fillet_radius must be at least {SHARPEST:g} of the diameter")
    tall = np.minimum(D, TALLEST * d)
    h = 0.5 * (tall - d)
    polynomial = by_polynomial(tall, d, np.minimum(np.clip(r, h / ends[1], h / ends[0]), d))
    power = by_power(np.maximum(D, first_row * d), d, np.clip(r, SHARPEST * d, BLUNTEST * d))
    counts = (first_row * d <= D) | (r < h / ends[1]) | np.isnan(D)
    return np.asarray(polynomial), np.where(counts, power, 1.0)


@formula(
    "Kt = max(polynomial, power fit)",
    result=BENDING_CONCENTRATION,
    source=SHOULDERS,
    larger_diameter=LARGER,
    diameter=SMALLER,
    fillet_radius=NOTCH_RADIUS,
)
def shoulder_bending_concentration(
    larger_diameter: Numeric, diameter: Numeric, fillet_radius: Numeric
) -> Numeric:
    """
    Elastic stress concentration of a shoulder fillet in bending.

    ::

        Kt = max(polynomial, power fit)

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
        If larger_diameter is not above diameter, fillet_radius is below 0.002 of diameter or above
        it, or a size is not above zero, anywhere.

    Notes
    -----
    The larger of polynomial and power fit where both hold. A sharper fillet has at least the
    concentration of a milder one: beyond its sharp end the polynomial counts with its value there, which
    for a step below the rows of the fits is above their first row. A blunter one counts as the bluntest
    in range. ``governing_shoulder_formula`` says which of the two it was.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Peterson's Stress Concentration Factors; Norton, Machine Design. Mark: from memory.

    Examples
    --------
    >>> print(f"{shoulder_bending_concentration(0.060, 0.040, 0.0008):.2f}")
    2.96
    """
    return np.maximum(*_in_bending(larger_diameter, diameter, fillet_radius))[()]


@formula(
    "Kts = max(polynomial, power fit)",
    result=CONCENTRATION,
    source=SHOULDERS,
    larger_diameter=LARGER,
    diameter=SMALLER,
    fillet_radius=NOTCH_RADIUS,
)
def shoulder_torsion_concentration(
    larger_diameter: Numeric, diameter: Numeric, fillet_radius: Numeric
) -> Numeric:
    """
    Elastic stress concentration of a shoulder fillet in torsion.

    ::

        Kts = max(polynomial, power fit)

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
        If larger_diameter is not above diameter, fillet_radius is below 0.002 of diameter or above
        it, or a size is not above zero, anywhere.

    Notes
    -----
    The larger of polynomial and power fit where both hold. A sharper fillet has at least the
    concentration of a milder one: beyond its sharp end the polynomial counts with its value there, which
    for a step below the rows of the fits is above their first row. A blunter one counts as the bluntest
    in range. ``governing_shoulder_formula`` says which of the two it was.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Peterson's Stress Concentration Factors; Norton, Machine Design. Mark: from memory.

    Examples
    --------
    >>> print(f"{shoulder_torsion_concentration(0.060, 0.040, 0.0008):.2f}")
    2.12
    """
    return np.maximum(*_in_torsion(larger_diameter, diameter, fillet_radius))[()]
