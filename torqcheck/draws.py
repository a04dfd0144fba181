"""Evenly spread draws: points of a quasi-random sequence, and the deviates of a normal distribution."""

import math

import numpy as np

from torqcheck._types import FloatArray
from torqcheck.errors import DomainError

__all__ = ["SEED", "evenly_spread", "normal_deviates"]

SEED = 20_260_314
"""Where one seed serves: the same check gives the same numbers."""

FARTHEST, TABLE_STEPS = 5.5, 2200
"""End of the table in standard deviations, and its steps: 0.005 each."""


def evenly_spread(count: int, dimensions: int, seed: int) -> FloatArray:
    """
    Points of the Halton sequence in the unit cube, shifted as a whole by a seeded draw.

    Parameters
    ----------
    count : int
        Number of points.
    dimensions : int
        Number of coordinates.
    seed : int
        Of the shift: the same seed gives the same points.

    Returns
    -------
    array, shape (dimensions, count)
        Between 0 and 1; the first points of a longer sequence are those of a shorter one.

    Raises
    ------
    DomainError
        If count or dimensions is below 1.

    References
    ----------
    .. [1] J. H. Halton, Numerische Mathematik 2, 1960, 84; the shift: R. Cranley and
       T. N. L. Patterson, SIAM Journal on Numerical Analysis 13, 1976, 904. Mark: from memory.

    Examples
    --------
    >>> evenly_spread(1000, 3, 1).shape
    (3, 1000)
    """
    if count < 1 or dimensions < 1:
        raise DomainError("count and dimensions must be at least 1")
    shift = np.random.default_rng(seed).random(dimensions)
    points = np.stack([_mirrored_digits(count, base) for base in _primes(dimensions)])
    return np.asarray((points + shift[:, None]) % 1.0)


def normal_deviates(points: FloatArray) -> FloatArray:
    """
    Deviates of the standard normal distribution at given probabilities.

    Parameters
    ----------
    points : array
        Probabilities, 0 to 1.

    Returns
    -------
    array
        Same shape, within 1e-5 of the exact deviate up to 4.5 standard deviations; never beyond 5.5.

    Notes
    -----
    Read from a table of the distribution function, which is many times faster than solving for
    each point and needs no further package.

    Examples
    --------
    >>> print(np.round(normal_deviates(np.array([0.1, 0.5, 0.975])), 4))
    [-1.2816  0.      1.96  ]
    """
    deviates = np.linspace(-FARTHEST, FARTHEST, TABLE_STEPS + 1)
    below = np.array([0.5 * math.erfc(-deviate / math.sqrt(2.0)) for deviate in deviates.tolist()])
    return np.asarray(np.interp(points, below, deviates))


def _primes(count: int) -> list[int]:
    """The first primes."""
    found: list[int] = []
    number = 2
    while len(found) < count:
        if all(number % prime for prime in found):
            found.append(number)
        number += 1
    return found


def _mirrored_digits(count: int, base: int) -> FloatArray:
    """The numbers from 1, their digits in a base mirrored behind the point."""
    left = np.arange(1, count + 1)
    point, place = np.zeros(count), 1.0 / base
    while np.any(left):
        point += place * (left % base)
        left, place = left // base, place / base
    return point
