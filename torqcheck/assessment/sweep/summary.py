"""What a sweep says as a whole: how many points pass, the best and the worst, what each key does."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from torqcheck._types import FloatArray, IntArray
from torqcheck.assessment.sweep.keys import VariedKey
from torqcheck.assessment.sweep.run import Question
from torqcheck.assessment.verdict.answered import Answered, answered_for

__all__ = ["KeyEffect", "Map", "Point", "SweepSummary", "can_be_mapped", "map_of", "summary_of"]

MOST_SORTED = 1_000_000
"""Up to so many points the median is that of all of them; beyond, of as many drawn at random."""
MOST_RANKED = 250_000
"""The same for what each key does."""
BINS = 8
MOST_MAPPED = 1_000_000


@dataclass(frozen=True, slots=True)
class Point:
    """One point: its number from 1, the values of the keys by their titles, its factor over target."""

    number: int
    values: Mapping[str, float]
    margin: float


@dataclass(frozen=True, slots=True)
class KeyEffect:
    """
    What one key does to the weakest factor.

    Parameters
    ----------
    title : str
        The key with its unit.
    rank_correlation : float or None
        Of key and factor over target; None where either does not change.
    medians : tuple of (float, float)
        Middle of a stretch of the key, and median factor over target in it, in the order of the key.
    """

    title: str
    rank_correlation: float | None
    medians: tuple[tuple[float, float], ...]

    @property
    def range(self) -> tuple[float, float] | None:
        """Lowest and highest of the medians."""
        if not self.medians:
            return None
        found = [median for _, median in self.medians]
        return min(found), max(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class SweepSummary(Answered):
    """A sweep as a whole. Factors are the weakest safety factor over its target."""

    method: str
    design: str
    seed: int | None
    points: int
    tally: Mapping[str, int]
    answered: int
    unloaded: int
    passing: int
    median: float | None
    worst: Point | None
    best: Point | None
    effects: tuple[KeyEffect, ...]
    ranked: int

    @property
    def refused(self) -> int:
        """Points that the rules do not allow."""
        return self.tally.get("refused", 0)

    def to_dict(self) -> dict[str, Any]:
        """Return the summary as plain data for JSON."""

        def entry(point: Point | None) -> dict[str, Any] | None:
            if point is None:
                return None
            return {
                "point": point.number,
                "values": dict(point.values),
                "safety_factor_over_target": point.margin,
            }

        return {
            **self.head(),
            "method": self.method,
            "design": self.design,
            "seed": self.seed,
            "points": self.points,
            "refused": self.refused,
            "unloaded": self.unloaded,
            "passing": self.passing,
            "share_passing": self.passing / self.answered if self.answered else None,
            "tally": dict(self.tally),
            "safety_factor_over_target": {
                "smallest": None if self.worst is None else self.worst.margin,
                "median": self.median,
                "largest": None if self.best is None else self.best.margin,
            },
            "worst": entry(self.worst),
            "best": entry(self.best),
            "keys": [
                {
                    "key": effect.title,
                    "rank_correlation": effect.rank_correlation,
                    "medians": [
                        {"value": value, "safety_factor_over_target": median}
                        for value, median in effect.medians
                    ],
                }
                for effect in self.effects
            ],
            "points_ranked": self.ranked,
        }


@dataclass(frozen=True, slots=True)
class Map:
    """Factor over target over one or two keys of a grid: values along each, and one number for each pair."""

    keys: tuple[VariedKey, ...]
    values: tuple[FloatArray, ...]
    margin: FloatArray


def can_be_mapped(question: Question) -> bool:
    """Whether a sweep is a grid of one or two keys that is small enough to be drawn."""
    design = question.design
    return design.name == "grid" and len(design.keys) <= 2 and design.points <= MOST_MAPPED


def map_of(question: Question, margins: Iterable[FloatArray]) -> Map | None:
    """The factors of a grid over one or two keys, rising along each; None for any other sweep."""
    keys = question.design.keys
    if not can_be_mapped(question):
        return None
    values = [key.at_level(np.arange(key.count)) for key in keys]
    order = [np.argsort(value) for value in values]
    field = np.concatenate(list(margins)).reshape(tuple(key.count for key in keys))[np.ix_(*order)]
    return Map(keys, tuple(v[o] for v, o in zip(values, order, strict=True)), field)


def summary_of(question: Question, margins: Iterable[FloatArray], tally: Mapping[str, int]) -> SweepSummary:
    """
    Sum a sweep up.

    Parameters
    ----------
    question : Question
        What was asked.
    margins : iterable of arrays
        Factor over target of every point, in order; NaN where refused, inf where nothing is loaded.
    tally : mapping
        Points that are refused or have which verdict.
    """
    design = question.design
    sorting, ranking = _Drawn(design.points, MOST_SORTED), _Drawn(design.points, MOST_RANKED)
    counted = _Counted()
    for part in margins:
        sorting.take(part, counted.points)
        ranking.take(part, counted.points)
        counted.add(part)
    sorted_ = sorting.value[np.isfinite(sorting.value)]
    return SweepSummary(
        **answered_for(question.scenario),
        method=question.method,
        design=design.name,
        seed=design.seed if design.name == "latin" else None,
        points=design.points,
        tally=dict(tally),
        answered=counted.answered,
        unloaded=counted.unloaded,
        passing=counted.passing,
        median=float(np.median(sorted_)) if len(sorted_) else None,
        worst=_point(question, counted.worst),
        best=_point(question, counted.best),
        effects=_effects(question, ranking.value, ranking.index),
        ranked=len(ranking.index),
    )


class _Counted:
    """What can be counted in passing."""

    def __init__(self) -> None:
        self.points = self.answered = self.unloaded = self.passing = 0
        self.worst: tuple[int, float] | None = None
        self.best: tuple[int, float] | None = None

    def add(self, part: FloatArray) -> None:
        """Count the next points."""
        there, finite = ~np.isnan(part), np.isfinite(part)
        self.answered += int(np.count_nonzero(there))
        self.unloaded += int(np.count_nonzero(np.isinf(part)))
        self.passing += int(np.count_nonzero(part[there] >= 1.0))
        if np.any(finite):
            low = int(np.argmin(np.where(finite, part, np.inf)))
            high = int(np.argmax(np.where(finite, part, -np.inf)))
            if self.worst is None or part[low] < self.worst[1]:
                self.worst = self.points + low, float(part[low])
            if self.best is None or part[high] > self.best[1]:
                self.best = self.points + high, float(part[high])
        self.points += len(part)


class _Drawn:
    """Every point, or so many drawn at random: a fixed step would fall in step with the grid."""

    def __init__(self, points: int, most: int) -> None:
        everyone = points <= most
        drawn = np.arange(points) if everyone else np.random.default_rng(0).integers(0, points, most)
        self.index: IntArray = np.sort(drawn.astype(np.int64))
        self.value = np.full(len(self.index), np.nan)

    def take(self, part: FloatArray, first: int) -> None:
        """Keep what is drawn of the points from `first` on."""
        low, high = np.searchsorted(self.index, (first, first + len(part)))
        self.value[low:high] = part[self.index[low:high] - first]


def _point(question: Question, counted: tuple[int, float] | None) -> Point | None:
    """One point with the values of its keys."""
    if counted is None:
        return None
    index, margin = counted
    found = question.design.at(np.array([index], dtype=np.int64))
    keys = question.design.keys
    values = {key.title: float(value[0]) for key, value in zip(keys, found.values, strict=True)}
    return Point(index + 1, values, margin)


def _effects(question: Question, margin: FloatArray, index: IntArray) -> tuple[KeyEffect, ...]:
    finite = np.isfinite(margin)
    margin, stretch = margin[finite], question.design.at(index[finite])
    ranks = _ranks(margin)
    return tuple(
        KeyEffect(key.title, _correlation(_ranks(value), ranks), _medians(value, margin))
        for key, value in zip(question.design.keys, stretch.values, strict=True)
    )


def _ranks(value: FloatArray) -> FloatArray:
    """Rank of each value; equal ones share theirs."""
    _, place, counts = np.unique(value, return_inverse=True, return_counts=True)
    middle = np.cumsum(counts) - 0.5 * (counts - 1)
    return np.asarray(middle[place])


def _correlation(first: FloatArray, second: FloatArray) -> float | None:
    if len(first) < 2 or np.ptp(first) == 0.0 or np.ptp(second) == 0.0:
        return None
    return float(np.corrcoef(first, second)[0, 1])


def _medians(value: FloatArray, margin: FloatArray) -> tuple[tuple[float, float], ...]:
    """Median factor in up to eight stretches of the key that hold about as many points each."""
    levels, place, counts = np.unique(value, return_inverse=True, return_counts=True)
    if len(levels) == 0:
        return ()
    before = np.cumsum(counts) - counts
    bins = np.arange(len(levels)) if len(levels) <= BINS else BINS * before // len(value)
    return tuple(
        (float(np.median(levels[bins == one])), float(np.median(margin[bins[place] == one])))
        for one in np.unique(bins)
    )
