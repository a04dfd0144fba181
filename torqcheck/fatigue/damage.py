"""Damage sum, and the ringing after a blow counted as full cycles."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.errors import DomainError
from torqcheck.fatigue._sources import DERIVED, LECTURES
from torqcheck.formulas import Symbol, formula

__all__ = [
    "LIFE_SCATTER",
    "boundary_stress_share",
    "damage_sum",
    "equivalent_full_cycles",
    "first_ringing_share",
]

LIFE_SCATTER = 3.0
"""Factor by which a life estimated without tests of the part is uncertain, either way."""

_DAMPING = Symbol("zeta", "-", "damping ratio of the path")


@formula(
    "D = sum(n_i/N_i)",
    result=Symbol("D", "-", "damage; failure is expected at 1"),
    source=LECTURES,
    counts=Symbol("n_i", "-", "cycles of each kind"),
    lives=Symbol("N_i", "-", "cycles of each kind that lead to failure"),
)
def damage_sum(counts: Numeric, lives: Numeric) -> Numeric:
    """
    Damage of several kinds of cycles, after Palmgren and Miner.

    ::

        D = sum(n_i/N_i)

    Parameters
    ----------
    counts : float or array, -
        n_i, kinds along the last axis.
    lives : float or array, -
        N_i, likewise; infinite for a kind that does nothing.

    Returns
    -------
    float or array, -
        D, summed over the last axis.

    Raises
    ------
    DomainError
        If counts is negative or lives not above zero, anywhere.

    Notes
    -----
    Order has no say in it. Tests fail at 0.7 to 2.2; 0.5 or less is used for a sequence that is not
    known (from memory). NaN in any argument gives NaN.

    References
    ----------
    .. [1] M. A. Miner, 1945, after A. Palmgren, 1924. Mark: from memory.

    Examples
    --------
    >>> print(f"{damage_sum(np.array([4000.0, 60000.0]), np.array([19460.0, 137880.0])):.4f}")
    0.6407
    """
    require_not_negative(counts=counts)
    require_positive(lives=lives)
    total: Numeric = np.sum(np.atleast_1d(np.divide(counts, lives)), axis=-1)
    return total


@formula(
    "n = 1 / (1 - exp(-m 2 pi zeta/sqrt(1 - zeta^2)))",
    result=Symbol("n", "-", "full cycles of the first amplitude that do the damage of the whole ringing"),
    source=DERIVED,
    damping_ratio=_DAMPING,
    line_slope=Symbol("m", "-", "slope of the strength line, -1/b"),
)
def equivalent_full_cycles(damping_ratio: Numeric, line_slope: Numeric) -> Numeric:
    """
    Full cycles that do the damage of a ringing that dies away.

    ::

        n = 1 / (1 - exp(-m 2 pi zeta/sqrt(1 - zeta^2)))

    Parameters
    ----------
    damping_ratio : float or array, -
        zeta, above 0. From 1 on nothing rings, and n is 1.
    line_slope : float or array, -
        m = -1/b of the strength line.

    Returns
    -------
    float or array, -
        n, in cycles of the first amplitude; 1 or more.

    Raises
    ------
    DomainError
        If damping_ratio or line_slope is not above zero, anywhere: without damping the ringing never
        ends.

    Notes
    -----
    Amplitudes A exp(-2 pi zeta j/sqrt(1 - zeta^2)), damage by their power m, a geometric series.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived: free vibration of one mode. Mark: derived.

    Examples
    --------
    >>> print(f"{equivalent_full_cycles(0.03, 8.0):.3f}")
    1.284
    """
    require_positive(damping_ratio=damping_ratio, line_slope=line_slope)
    return -1.0 / np.expm1(-line_slope * _decrement(damping_ratio))


@formula(
    "A1/A0 = (q + q^2)/2,  q = exp(-pi zeta/sqrt(1 - zeta^2))",
    result=Symbol("A1/A0", "-", "amplitude of the first cycle of the ringing over the first overshoot"),
    source=DERIVED,
    damping_ratio=_DAMPING,
)
def first_ringing_share(damping_ratio: Numeric) -> Numeric:
    """
    Amplitude of the first cycle after the first peak, over the overshoot of that peak.

    ::

        A1/A0 = (q + q^2)/2,  q = exp(-pi zeta/sqrt(1 - zeta^2))

    Parameters
    ----------
    damping_ratio : float or array, -
        zeta, 0 or more. From 1 on nothing rings, and A1/A0 is 0.

    Returns
    -------
    float or array, -
        A1/A0.

    Raises
    ------
    DomainError
        If damping_ratio is negative anywhere.

    Notes
    -----
    Counting cycles closes the first peak with the standstill before and after it; the next cycle
    runs from the first trough, A0 q below the mean, to the second peak, A0 q^2 above it.
    NaN gives NaN.

    References
    ----------
    .. [1] Derived: free vibration of one mode, counted after ASTM E1049. Mark: derived.

    Examples
    --------
    >>> print(f"{first_ringing_share(0.03):.3f}")
    0.869
    """
    require_not_negative(damping_ratio=damping_ratio)
    q = np.exp(-0.5 * _decrement(damping_ratio))
    share: Numeric = 0.5 * (q + q**2)
    return share


def _decrement(damping_ratio: Numeric) -> Numeric:
    """Logarithmic decrement of one full cycle; without end from critical damping on."""
    rings = np.logical_not(np.greater_equal(damping_ratio, 1.0))  # not a number stays what it is
    ratio = np.where(rings, damping_ratio, 0.0)
    decrement = np.where(rings, 2.0 * np.pi * ratio / np.sqrt(1.0 - np.square(ratio)), np.inf)
    return decrement if decrement.ndim else float(decrement)


@formula(
    "x = 1 - 2 h/d",
    result=Symbol("x", "-", "stress at the boundary of case and core over that at the surface"),
    source=DERIVED,
    case_depth=Symbol("h", "m", "effective depth of the hard layer"),
    diameter=Symbol("d", "m", "diameter of the section"),
)
def boundary_stress_share(case_depth: Numeric, diameter: Numeric) -> Numeric:
    """
    Torsional stress where a hard layer ends, over that at the surface.

    ::

        x = 1 - 2 h/d

    Parameters
    ----------
    case_depth : float or array, m
        h, measured from the surface of the section.
    diameter : float or array, m
        d, of the section; the root diameter of a spline.

    Returns
    -------
    float or array, -
        x.

    Raises
    ------
    DomainError
        If case_depth is negative, or reaches the axis, anywhere.

    Notes
    -----
    The ratio of the two radii. The stress under a notch falls faster than that; no credit is taken
    for it. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived: elastic torsion of a round bar. Mark: derived.

    Examples
    --------
    >>> print(f"{boundary_stress_share(0.9e-3, 0.036):.3f}")
    0.950
    """
    require_positive(diameter=diameter)
    require_not_negative(case_depth=case_depth)
    if np.any(np.greater_equal(2.0 * np.asarray(case_depth), diameter)):
        raise DomainError("case_depth must end before the axis of the shaft")
    return 1.0 - 2.0 * case_depth / diameter
