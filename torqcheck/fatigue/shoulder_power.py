"""Elastic stress concentration of a shoulder fillet by power fits, straight between their rows."""

from collections.abc import Mapping

import numpy as np

from torqcheck._types import FloatArray, Numeric
from torqcheck.errors import DomainError
from torqcheck.fatigue._sources import NORTON
from torqcheck.fatigue._symbols import BENDING_CONCENTRATION, CONCENTRATION, LARGER, NOTCH_RADIUS, SMALLER
from torqcheck.fatigue.shoulder_polynomials import require_shoulder
from torqcheck.formulas import formula

__all__ = [
    "BLUNTEST",
    "FIRST_ROW_IN_BENDING",
    "FIRST_ROW_IN_TORSION",
    "SHARPEST",
    "shoulder_bending_by_power",
    "shoulder_torsion_by_power",
]

Rows = Mapping[float, tuple[float, float]]

BENDING_ROWS: Rows = {
    1.05: (0.98137, -0.19653),
    1.1: (0.95120, -0.23757),
    1.2: (0.97098, -0.21796),
    1.5: (0.93836, -0.25759),
    2.0: (0.90879, -0.28598),
}
TORSION_ROWS: Rows = {
    1.09: (0.90337, -0.12692),
    1.2: (0.83425, -0.21649),
    1.33: (0.84897, -0.23161),
    2.0: (0.86331, -0.23865),
}
"""A and b by D/d."""
FIRST_ROW_IN_BENDING, FIRST_ROW_IN_TORSION = min(BENDING_ROWS), min(TORSION_ROWS)
SHARPEST, BLUNTEST = 0.002, 0.3
"""Fillet radius over diameter for which the fits are used; below 0.01 they are carried on."""


def _between(rows: Rows, larger_diameter: Numeric, diameter: Numeric, fillet_radius: Numeric) -> FloatArray:
    """Kt straight between the rows; beyond the last one as in it."""
    require_shoulder(larger_diameter, diameter, fillet_radius)
    step, sharpness = np.divide(larger_diameter, diameter), np.asarray(np.divide(fillet_radius, diameter))
    first = min(rows)
    if np.any(np.less(step, first * (1.0 - 1e-9))):
        raise DomainError(f"larger_diameter must be at least {first:g} of the diameter")
    low, high = SHARPEST * (1.0 - 1e-9), BLUNTEST * (1.0 + 1e-9)
    if np.any(np.less(sharpness, low) | np.greater(sharpness, high)):
        raise DomainError(f"fillet_radius must lie in {SHARPEST:g} to {BLUNTEST:g} of the diameter")
    steps = np.array(list(rows))
    step, sharpness = np.broadcast_arrays(np.clip(step, first, steps[-1]), sharpness)
    fits = np.array([A * np.power(sharpness, b) for A, b in rows.values()])
    after = np.clip(np.searchsorted(steps, np.nan_to_num(step, nan=first)), 1, steps.size - 1)
    share = (step - steps[after - 1]) / (steps[after] - steps[after - 1])
    below = np.take_along_axis(fits, after[np.newaxis] - 1, axis=0)[0]
    above = np.take_along_axis(fits, after[np.newaxis], axis=0)[0]
    return np.asarray(np.maximum(below + share * (above - below), 1.0))


@formula(
    "Kt = A (r/d)^b",
    result=BENDING_CONCENTRATION,
    source=NORTON,
    larger_diameter=LARGER,
    diameter=SMALLER,
    fillet_radius=NOTCH_RADIUS,
)
def shoulder_bending_by_power(larger_diameter: Numeric, diameter: Numeric, fillet_radius: Numeric) -> Numeric:
    """
    Elastic stress concentration of a shoulder fillet in bending, by power fit.

    ::

        Kt = A (r/d)^b
        A and b by D/d

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
        Kt, at least 1, on the nominal stress at the smaller diameter.

    Raises
    ------
    DomainError
        If larger_diameter is below 1.05 of diameter, fillet_radius outside 0.002 to 0.3 of it, or a
        size not above zero, anywhere.

    Notes
    -----
    A and b stand in rows of D/d from 1.05 to 2; Kt goes straight between them. A larger step counts as
    2, beyond which it changes little.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Norton, Machine Design, appendix C. Mark: from memory.

    Examples
    --------
    >>> print(f"{shoulder_bending_by_power(0.060, 0.040, 0.0008):.2f}")
    2.57
    """
    return _between(BENDING_ROWS, larger_diameter, diameter, fillet_radius)[()]


@formula(
    "Kts = A (r/d)^b",
    result=CONCENTRATION,
    source=NORTON,
    larger_diameter=LARGER,
    diameter=SMALLER,
    fillet_radius=NOTCH_RADIUS,
)
def shoulder_torsion_by_power(larger_diameter: Numeric, diameter: Numeric, fillet_radius: Numeric) -> Numeric:
    """
    Elastic stress concentration of a shoulder fillet in torsion, by power fit.

    ::

        Kts = A (r/d)^b
        A and b by D/d

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
        Kts, at least 1, on the nominal stress at the smaller diameter.

    Raises
    ------
    DomainError
        If larger_diameter is below 1.09 of diameter, fillet_radius outside 0.002 to 0.3 of it, or a
        size not above zero, anywhere.

    Notes
    -----
    A and b stand in rows of D/d from 1.09 to 2; Kts goes straight between them. A larger step counts as
    2, beyond which it changes little.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Norton, Machine Design, appendix C. Mark: from memory.

    Examples
    --------
    >>> print(f"{shoulder_torsion_by_power(0.060, 0.040, 0.0008):.2f}")
    2.12
    """
    return _between(TORSION_ROWS, larger_diameter, diameter, fillet_radius)[()]
