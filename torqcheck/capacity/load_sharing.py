"""How the teeth of a spline share one tangential force when their clearances differ.

Tooth pairs touch in the order of their clearances. Each that touches takes load as a spring until
the next one touches, so the sharing is piecewise linear in the force and exact for any clearances.
"""

import numpy as np

from torqcheck._types import FloatArray, IntArray, Numeric
from torqcheck.capacity._sources import DERIVED
from torqcheck.domain import require_positive
from torqcheck.errors import DomainError
from torqcheck.formulas import Symbol, formula

__all__ = ["effective_teeth", "engaged_pairs", "engaging_forces", "first_tooth_share", "pair_loads"]

_FORCE = Symbol("F", "N", "tangential force of all teeth together")
_CLEARANCES = Symbol("c_i", "m", "clearance of each tooth pair along the pitch circle")
_STIFFNESS = Symbol("K", "N/m", "tangential stiffness of one tooth pair")


def _sorted_lag(clearances: Numeric) -> tuple[FloatArray, FloatArray]:
    """Return the clearances beyond the tightest, in rising order, and their running sum."""
    c = np.asarray(clearances, dtype=np.float64)
    if c.ndim == 0 or c.shape[-1] == 0:
        raise DomainError("clearances must hold one value for each tooth pair along the last axis")
    c = np.sort(c, axis=-1)
    if np.any(np.isinf(c)):
        raise DomainError("clearances must be finite")
    # numpy sorts NaN to the end; one unknown clearance leaves the whole case unknown
    c = np.where(np.isnan(c[..., -1:]), np.nan, c)
    lag = c - c[..., :1]
    return lag, np.cumsum(lag, axis=-1)


def _engagement(lag: FloatArray, total: FloatArray) -> FloatArray:
    """Force over K at which each pair touches: n c(n+1) - sum of the n before it."""
    before = np.arange(lag.shape[-1], dtype=np.float64)
    return before * lag - (total - lag)


def _first_approach(
    force: Numeric, clearances: Numeric, pair_stiffness: Numeric
) -> tuple[FloatArray, IntArray]:
    """Return how far the tightest pair deflects, and how many pairs are engaged."""
    require_positive(force=force, pair_stiffness=pair_stiffness)
    lag, total = _sorted_lag(clearances)
    sum_of_deflections = np.divide(force, pair_stiffness)
    touched = _engagement(lag, total) < sum_of_deflections[..., np.newaxis]
    engaged = np.maximum(np.count_nonzero(touched, axis=-1), 1)
    shape = np.broadcast_shapes(engaged.shape, total.shape[:-1])
    total = np.broadcast_to(total, (*shape, total.shape[-1]))
    gaps = np.take_along_axis(total, engaged[..., np.newaxis] - 1, axis=-1)[..., 0]
    return np.asarray((sum_of_deflections + gaps) / engaged), engaged


@formula(
    "F_(n+1) = K (n c(n+1) - sum(c(1) .. c(n)))",
    result=Symbol("F_n", "N", "force at which each further tooth pair touches"),
    source=DERIVED,
    clearances=_CLEARANCES,
    pair_stiffness=_STIFFNESS,
)
def engaging_forces(clearances: Numeric, pair_stiffness: Numeric) -> FloatArray:
    """
    Forces at which one tooth pair after the other touches.

    ::

        F_(n+1) = K (n c(n+1) - sum(c(1) .. c(n)))          c(1) <= c(2) <= ... <= c(N)

    Parameters
    ----------
    clearances : float or array, m
        c_i, one for each tooth pair along the last axis, in any order; only differences matter.
    pair_stiffness : float or array, N/m
        K, one value for each case: broadcasts against the leading axes.

    Returns
    -------
    float or array, N
        F_n for the first, second, ... pair to touch, never falling; the first is 0. The last axis is
        that of the clearances.

    Raises
    ------
    DomainError
        If there is no axis of tooth pairs, a clearance is infinite, or the stiffness is not above zero.

    Notes
    -----
    Rigid bodies that turn about one axis and tooth pairs that are equal linear springs. NaN in a
    clearance gives NaN in the whole case.

    References
    ----------
    .. [1] Derived: equal approach of all engaged pairs. Mark: derived. The mechanism, pairs engaging
       in the order of their clearance: opening part of K. W. Chase, C. D. Sorensen and B. DeCaires,
       Gear Technology, June 2010, 54. Mark: published.

    Examples
    --------
    Three pairs of 450 N/um, 10 and 30 um behind the first:

    >>> forces = engaging_forces(np.array([0.0, 10e-6, 30e-6]), 450e6)
    >>> print(f"{forces[1]:.0f} N, {forces[2]:.0f} N")
    4500 N, 22500 N
    """
    require_positive(pair_stiffness=pair_stiffness)
    lag, total = _sorted_lag(clearances)
    return np.asarray(np.asarray(pair_stiffness)[..., np.newaxis] * _engagement(lag, total))


@formula(
    "n = number of pairs with F_i < F",
    result=Symbol("n", "-", "number of tooth pairs that carry load"),
    source=DERIVED,
    force=_FORCE,
    clearances=_CLEARANCES,
    pair_stiffness=_STIFFNESS,
)
def engaged_pairs(force: Numeric, clearances: Numeric, pair_stiffness: Numeric) -> IntArray:
    """
    Number of tooth pairs that carry load.

    ::

        n = number of pairs with F_i < F          F_i from engaging_forces

    Parameters
    ----------
    force : float or array, N
        F = 2 T/D; broadcasts against the leading axes of the clearances.
    clearances : float or array, m
        c_i, one for each tooth pair along the last axis, in any order.
    pair_stiffness : float or array, N/m
        K; broadcasts like the force.

    Returns
    -------
    int or array of int, -
        n, from 1 to the number of pairs. Shape: the leading axes.

    Raises
    ------
    DomainError
        As for ``engaging_forces``, or if the force is not above zero.

    Notes
    -----
    Where an argument is NaN the count is 1, the only number that is right for every force; loads
    and shares are NaN there.

    References
    ----------
    .. [1] Derived: see ``engaging_forces``. Mark: derived.

    Examples
    --------
    >>> print(engaged_pairs(10e3, np.array([0.0, 10e-6, 30e-6]), 450e6))
    2
    """
    return _first_approach(force, clearances, pair_stiffness)[1][()]


@formula(
    "F_i = F/n + K (mean(c(1) .. c(n)) - c_i)",
    result=Symbol("F_i", "N", "load of each tooth pair"),
    source=DERIVED,
    force=_FORCE,
    clearances=_CLEARANCES,
    pair_stiffness=_STIFFNESS,
)
def pair_loads(force: Numeric, clearances: Numeric, pair_stiffness: Numeric) -> FloatArray:
    """
    Load of every tooth pair, 0 for those that do not touch.

    ::

        F_i = F/n + K (mean(c(1) .. c(n)) - c_i)          for the n engaged pairs

    Parameters
    ----------
    force : float or array, N
        F = 2 T/D; broadcasts against the leading axes of the clearances.
    clearances : float or array, m
        c_i, one for each tooth pair along the last axis, in any order.
    pair_stiffness : float or array, N/m
        K; broadcasts like the force.

    Returns
    -------
    float or array, N
        F_i in the order of the clearances.

    Raises
    ------
    DomainError
        As for ``engaging_forces``, or if the force is not above zero.

    Notes
    -----
    Exact for linear pairs; yielding and wear even the load out, so that the first tooth of a ductile
    spline carries less than this after the first heavy load. NaN in gives NaN out.

    References
    ----------
    .. [1] Derived: see ``engaging_forces``. Mark: derived.

    Examples
    --------
    >>> loads = pair_loads(10e3, np.array([10e-6, 30e-6, 0.0]), 450e6)
    >>> print(", ".join(f"{load:.0f} N" for load in loads))
    2750 N, 0 N, 7250 N
    """
    approach, _ = _first_approach(force, clearances, pair_stiffness)
    c = np.asarray(clearances, dtype=np.float64)
    lag = c - np.min(c, axis=-1, keepdims=True)
    stiffness = np.asarray(pair_stiffness)[..., np.newaxis]
    return np.asarray(stiffness * np.maximum(approach[..., np.newaxis] - lag, 0.0))


@formula(
    "s1 = 1/n + K (mean(c(1) .. c(n)) - c(1)) / F",
    result=Symbol("s1", "-", "share of the force that the first tooth carries"),
    source=DERIVED,
    force=_FORCE,
    clearances=_CLEARANCES,
    pair_stiffness=_STIFFNESS,
)
def first_tooth_share(force: Numeric, clearances: Numeric, pair_stiffness: Numeric) -> Numeric:
    """
    Share of the force that the first tooth to touch carries; no tooth carries more.

    ::

        s1 = 1/n + K (mean(c(1) .. c(n)) - c(1)) / F

    Parameters
    ----------
    force : float or array, N
        F = 2 T/D; broadcasts against the leading axes of the clearances.
    clearances : float or array, m
        c_i, one for each tooth pair along the last axis, in any order.
    pair_stiffness : float or array, N/m
        K; broadcasts like the force.

    Returns
    -------
    float or array, -
        s1, from 1/N (even) to 1 (alone). Shape: the leading axes.

    Raises
    ------
    DomainError
        As for ``engaging_forces``, or if the force is not above zero.

    Notes
    -----
    For first-contact stress and fatigue, not for static collapse. NaN in gives NaN out.

    References
    ----------
    .. [1] Derived: see ``engaging_forces``. Mark: derived.

    Examples
    --------
    >>> print(f"{first_tooth_share(10e3, np.array([0.0, 10e-6, 30e-6]), 450e6):.4f}")
    0.7250
    """
    approach, _ = _first_approach(force, clearances, pair_stiffness)
    return np.asarray(approach * pair_stiffness / force)[()]


@formula(
    "Neff = 1/s1",
    result=Symbol("Neff", "-", "number of teeth that would carry as much each as the first"),
    source=DERIVED,
    force=_FORCE,
    clearances=_CLEARANCES,
    pair_stiffness=_STIFFNESS,
)
def effective_teeth(force: Numeric, clearances: Numeric, pair_stiffness: Numeric) -> Numeric:
    """
    Effective number of teeth: the force over the load of the first tooth.

    ::

        Neff = 1/s1          = F/F_1

    Parameters
    ----------
    force : float or array, N
        F = 2 T/D; broadcasts against the leading axes of the clearances.
    clearances : float or array, m
        c_i, one for each tooth pair along the last axis, in any order.
    pair_stiffness : float or array, N/m
        K; broadcasts like the force.

    Returns
    -------
    float or array, -
        Neff, from 1 to N; below the count of engaged pairs unless they share evenly.

    Raises
    ------
    DomainError
        As for ``engaging_forces``, or if the force is not above zero.

    Notes
    -----
    More force never lowers it. NaN in gives NaN out.

    References
    ----------
    .. [1] Derived: see ``engaging_forces``. Mark: derived.

    Examples
    --------
    >>> print(f"{effective_teeth(10e3, np.array([0.0, 10e-6, 30e-6]), 450e6):.3f}")
    1.379
    """
    return np.divide(1.0, first_tooth_share(force, clearances, pair_stiffness))
