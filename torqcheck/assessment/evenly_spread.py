"""Draws that fill a range evenly: less noise than random ones at the same number."""

import numpy as np

from torqcheck._types import FloatArray
from torqcheck.scenario.bands import deviations

__all__ = ["evenly_spread", "latin_draws"]


def latin_draws(dimensions: int, count: int, generator: np.random.Generator) -> FloatArray:
    """Standard deviations, each dimension in equal parts of the distribution, the order by chance."""
    parts = deviations((np.arange(count) + 0.5) / count)
    return np.array([generator.permutation(parts) for _ in range(dimensions)]).reshape(dimensions, count)


def evenly_spread(count: int, dimensions: int, seed: int) -> FloatArray:
    """Halton points, shifted by the seed: one row for each dimension."""
    shift = np.random.default_rng(seed).random(dimensions)
    points = np.stack([_mirrored_digits(count, base) for base in _primes(dimensions)])
    return np.asarray((points + shift[:, None]) % 1.0)


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
