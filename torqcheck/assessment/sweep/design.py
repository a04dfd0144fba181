"""The points of a sweep: a full grid, or a Latin hypercube that needs no memory.

Any stretch of points can be asked for by itself: the points depend on keys, number and seed alone, not
on chunks or processes. In the Latin hypercube each key walks once through as many equal strata as there
are points, in an order of its own: a bijection by a seeded Feistel network, so that no permutation is
held, however many points there are.
"""

from dataclasses import dataclass
from typing import Any, Literal

import numpy as np

from torqcheck._types import FloatArray, IntArray
from torqcheck.assessment.sweep.keys import VariedKey

__all__ = ["Design", "Stretch", "shuffled"]

ROUNDS = 6
_MIX = (np.uint64(0xBF58476D1CE4E5B9), np.uint64(0x94D049BB133111EB))
_STEP = 0x9E3779B97F4A7C15
_WORD = (1 << 64) - 1


@dataclass(frozen=True, slots=True)
class Stretch:
    """
    Points from `first` on, in order.

    Parameters
    ----------
    first : int
        Number of the first point, from 0.
    values : tuple of arrays
        One for each key, in its unit.
    levels : tuple of arrays
        For each key a whole number that is the same where its value is the same.
    """

    first: int
    values: tuple[FloatArray, ...]
    levels: tuple[IntArray, ...]

    @property
    def count(self) -> int:
        """Number of points."""
        return len(self.values[0])


@dataclass(frozen=True, slots=True)
class Design:
    """
    Which points a sweep asks.

    Parameters
    ----------
    name : str
        ``grid`` (the last key runs fastest) or ``latin``.
    keys : tuple of VariedKey
        What is varied.
    points : int
        Number of points.
    seed : int
        Of the Latin hypercube.
    """

    name: Literal["grid", "latin"]
    keys: tuple[VariedKey, ...]
    points: int
    seed: int = 0

    def stretch(self, first: int, last: int) -> Stretch:
        """Points `first` to `last` - 1."""
        return self.at(np.arange(first, last, dtype=np.int64), first)

    def at(self, index: IntArray, first: int = 0) -> Stretch:
        """Any points, by number."""
        return self._grid(index, first) if self.name == "grid" else self._latin(index, first)

    def _grid(self, index: IntArray, first: int) -> Stretch:
        rest, levels = index, []
        for key in reversed(self.keys):
            rest, level = np.divmod(rest, key.count)
            levels.append(level)
        levels.reverse()
        values = tuple(key.at_level(level) for key, level in zip(self.keys, levels, strict=True))
        return Stretch(first, values, tuple(levels))

    def _latin(self, index: IntArray, first: int) -> Stretch:
        values, levels = [], []
        for number, key in enumerate(self.keys):
            stratum = shuffled(index, self.points, self.seed, number)
            inside = _uniform(index, self.seed, number)
            share = np.minimum((stratum + inside) / self.points, 1.0 - 2.0**-53)
            value = key.at_share(share)
            values.append(value)
            if key.listed:
                levels.append(key.level_of_share(share))
            else:
                levels.append(value.astype(np.int64) if key.whole else index)
        return Stretch(first, tuple(values), tuple(levels))


def shuffled(index: IntArray, count: int, seed: int, number: int) -> IntArray:
    """
    Place of each index in one of the orders of 0 to `count` - 1: a bijection, chosen by seed and number.

    Parameters
    ----------
    index : array of int
        From 0 to `count` - 1.
    count : int
        How many there are.
    seed, number : int
        Together they choose the order.

    Notes
    -----
    A Feistel network over the next even number of bits; what falls beyond `count` is sent through it
    again until it falls within, which keeps it a bijection.
    """
    half = np.uint64(max(1, (max(count - 1, 1).bit_length() + 1) // 2))
    mask = np.uint64((1 << int(half)) - 1)
    keys = [_key(seed, 2 * (ROUNDS * number + turn)) for turn in range(ROUNDS)]
    result = np.asarray(index, dtype=np.uint64).copy()
    open_ = np.arange(result.size)
    while open_.size:
        part = result[open_]
        left, right = part >> half, part & mask
        for key in keys:
            left, right = right, left ^ (_mixed(right + key) & mask)
        part = (left << half) | right
        result[open_] = part
        open_ = open_[part >= count]
    return result.astype(np.int64)


def _uniform(index: IntArray, seed: int, number: int) -> FloatArray:
    """Evenly spread numbers from 0 to below 1, one for each index."""
    step = np.asarray(index, dtype=np.uint64) * np.uint64(_STEP)
    bits = _mixed(step + _key(seed, 2 * number + 1)) >> np.uint64(11)
    return np.asarray(bits.astype(np.float64) * 2.0**-53)


def _key(seed: int, number: int) -> Any:
    """A word that seed and number choose."""
    word = np.array([(seed * 0xD1342543DE82EF95 + (number + 1) * _STEP) & _WORD], dtype=np.uint64)
    return _mixed(_mixed(word))[0]


def _mixed(word: Any) -> Any:
    """Mix the bits of 64-bit words (the finisher of splitmix64)."""
    word = (word ^ (word >> np.uint64(30))) * _MIX[0]
    word = (word ^ (word >> np.uint64(27))) * _MIX[1]
    return word ^ (word >> np.uint64(31))
