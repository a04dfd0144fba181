"""How likely a sum of lengths falls below a limit: some scatter normally, some evenly between two ends."""

import math
from collections.abc import Sequence

import numpy as np

from torqcheck._types import FloatArray, Numeric
from torqcheck.domain import require_not_negative
from torqcheck.draws import SEED, evenly_spread
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source

__all__ = ["chance_below", "chance_of_sum_below", "deviation_of_sum"]

DRAWS = 8192
FINE = 1e-6
"""An even spread narrower than this share of the normal one changes nothing that can be seen."""
NEXT_TO_NOTHING = 1e-9
"""A normal spread narrower than this share of the even one likewise."""
_NORMAL = Source("Normal distribution with the mean and the deviation of the sum", "", "derived")


@formula(
    "p = Phi((x0 - x) / s)",
    result=Symbol("p", "-", "chance that the sum is below the limit"),
    source=_NORMAL,
    limit=Symbol("x0", "m", "limit of the sum"),
    nominal=Symbol("x", "m", "middle of the sum"),
    deviation=Symbol("s", "m", "standard deviation of the sum"),
)
def chance_below(limit: Numeric, nominal: Numeric, deviation: Numeric) -> Numeric:
    """
    Chance that a sum of many lengths falls below a limit, as if it scattered normally.

    ::

        p = Phi((x0 - x) / s)

    Parameters
    ----------
    limit : float or array, m
        x0; 0 for a gap that closes.
    nominal : float or array, m
        x, middle of the sum.
    deviation : float or array, m
        s, standard deviation of the sum; 0 gives a step, half at the limit itself.

    Returns
    -------
    float or array, -
        p, from 0 to 1.

    Raises
    ------
    DomainError
        If deviation is negative anywhere.

    Notes
    -----
    Good where many lengths of like tolerance add up. One wide end float among narrow tolerances is no
    normal distribution: `chance_of_sum_below` takes each as it is. NaN gives NaN.

    References
    ----------
    .. [1] Central limit theorem. Mark: derived.

    Examples
    --------
    0.3 mm of room, a standard deviation of 0.15 mm:

    >>> print(f"{chance_below(0.0, 0.3e-3, 0.15e-3):.4f}")
    0.0228
    """
    require_not_negative(deviation=deviation)
    room = np.asarray(limit, dtype=np.float64) - nominal
    width = np.asarray(deviation, dtype=np.float64)
    still = width == 0.0
    with np.errstate(over="ignore"):  # next to no width is a step
        ratio = np.divide(room, np.where(still, 1.0, width))
    return np.where(still, 0.5 * (np.sign(room) + 1.0), _below(ratio))[()]


def deviation_of_sum(deviation: float, half_widths: Sequence[float]) -> float:
    """
    Standard deviation of a normal deviate plus even spreads, each of so much on either side.

    An even spread of half width a has the standard deviation a / sqrt(3).

    Parameters
    ----------
    deviation : float
        Standard deviation of the normal deviate.
    half_widths : sequence of float
        Half width of each even spread, in the same unit.

    Raises
    ------
    DomainError
        If an argument is negative.

    Examples
    --------
    >>> print(f"{deviation_of_sum(0.0, [0.3]):.4f}")
    0.1732
    """
    require_not_negative(deviation=deviation, half_widths=np.asarray(half_widths, dtype=np.float64))
    return math.sqrt(deviation**2 + sum(half**2 for half in half_widths) / 3.0)


def chance_of_sum_below(
    limit: float,
    nominal: float,
    deviation: float,
    half_widths: Sequence[float],
    *,
    draws: int = DRAWS,
    seed: int = SEED,
) -> float:
    """
    Chance that a sum falls below a limit: normal scatter together with any number of even spreads.

    Parameters
    ----------
    limit : float, m
        Limit of the sum.
    nominal : float, m
        Middle of the sum.
    deviation : float, m
        Standard deviation of all that scatters normally, together.
    half_widths : sequence of float, m
        Half of the width of each even spread: an end float, a length anywhere within its tolerance.
    draws, seed : int, optional
        Points at which all even spreads but the widest are tried, and where their sequence begins.

    Returns
    -------
    float, -
        From 0 to 1. Exact with no or one even spread; with more, the widest one and the normal scatter
        are integrated in closed form at each point of an evenly spread sequence for the others.

    Raises
    ------
    DomainError
        If deviation or a half width is negative.

    Notes
    -----
    For z = limit - nominal - (the others), with a the widest half width and s the deviation::

        P = s / (2 a) (G((z + a) / s) - G((z - a) / s)),   G(y) = y Phi(y) + phi(y)

    NaN gives NaN.

    Examples
    --------
    A gap of 0.2 mm, nothing but an end float of 0.3 mm to either side: closed in 1 of 6 places.

    >>> print(f"{chance_of_sum_below(0.0, 0.2e-3, 0.0, [0.3e-3]):.4f}")
    0.1667
    """
    require_not_negative(deviation=deviation, half_widths=np.asarray(half_widths, dtype=np.float64))
    widths = sorted((half for half in half_widths if half > FINE * deviation and half > 0.0), reverse=True)
    room = np.array([limit - nominal])
    if not widths:
        return float(chance_below(limit, nominal, deviation))
    widest, others = widths[0], widths[1:]
    if others:
        points = 2.0 * evenly_spread(draws, len(others), seed) - 1.0
        room = room - np.asarray(others) @ points
    return float(np.mean(_below_with_one(room, deviation, widest)))


def _below_with_one(room: FloatArray, deviation: float, half: float) -> FloatArray:
    """Chance that a normal deviate plus one even spread stays below each room."""
    if deviation <= NEXT_TO_NOTHING * half:
        with np.errstate(over="ignore"):
            inside = np.clip((room + half) / (2.0 * half), 0.0, 1.0)
        return np.asarray(np.where(np.isnan(room), np.nan, inside))
    upper, lower = (room + half) / deviation, (room - half) / deviation
    chance = (_integral(upper) - _integral(lower)) * deviation / (2.0 * half)
    return np.asarray(np.clip(chance, 0.0, 1.0))


def _integral(ratio: FloatArray) -> FloatArray:
    """Integral of the distribution function: y Phi(y) + phi(y)."""
    density = np.exp(-0.5 * np.square(ratio)) / math.sqrt(2.0 * math.pi)
    return np.asarray(ratio * _below(ratio) + density)


def _below(ratio: Numeric) -> FloatArray:
    """Distribution function of the standard normal distribution."""
    flat = np.asarray(ratio, dtype=np.float64)
    values = [0.5 * math.erfc(-value / math.sqrt(2.0)) for value in flat.ravel().tolist()]
    return np.reshape(np.array(values), flat.shape)
