"""Where along a line of values a condition holds, without taking for granted that it does so but once."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

__all__ = ["Sample", "Window", "find_windows", "sampled"]

ROUNDS = 2
"""So often the places are looked at more closely at which a short gap or a short window may hide."""
HALVINGS = 40


@dataclass(frozen=True, slots=True)
class Sample:
    """One value that was tried: whether all holds there, and the lowest factor over its target."""

    value: float
    holds: bool
    margin: float


@dataclass(frozen=True, slots=True)
class Window:
    """
    Values that hold, from `low` to `high`, both tried.

    `below` and `above` are the nearest values tried that do not; None where the range ends first.
    """

    low: float
    high: float
    below: float | None
    above: float | None


Ask = Callable[[Sequence[float]], Sequence[Sample]]


def sampled(ask: Ask, values: Sequence[float]) -> tuple[Sample, ...]:
    """
    Try the values, and more of them where the margin comes near 1 and turns back between two of them.

    Parameters
    ----------
    ask : callable
        Takes values and returns a sample for each.
    values : sequence of float
        Rising.
    """
    samples = tuple(ask(values))
    for _ in range(ROUNDS):
        more = _doubtful(samples)
        if not more:
            break
        samples = tuple(sorted((*samples, *ask(more)), key=lambda sample: sample.value))
    return samples


def find_windows(ask: Ask, samples: Sequence[Sample], *, tolerance: float) -> tuple[Window, ...]:
    """
    Find the windows of values that hold, their ends by bisection.

    Parameters
    ----------
    ask : callable
        Takes values and returns a sample for each.
    samples : sequence of Sample
        By rising value, as `sampled` returns them.
    tolerance : float
        How far apart the last value that holds and the first that does not may stay, as a share of the value.

    Returns
    -------
    tuple of Window
        By rising value. What lies between two samples that agree is not looked at again.
    """
    if not samples:
        return ()
    brackets = [[one, other] for one, other in pairwise(samples) if one.holds != other.holds]
    for _ in range(HALVINGS):
        open_ones = [pair for pair in brackets if not _narrow(pair, tolerance)]
        if not open_ones:
            break
        middles = ask([_middle(pair[0].value, pair[1].value) for pair in open_ones])
        for pair, middle in zip(open_ones, middles, strict=True):
            pair[0 if middle.holds == pair[0].holds else 1] = middle
    return _between(samples, brackets)


def _between(samples: Sequence[Sample], brackets: Sequence[Sequence[Sample]]) -> tuple[Window, ...]:
    """Windows from the changes between them."""
    windows = []
    low, below = samples[0].value, None
    for one, other in brackets:
        if one.holds:
            windows.append(Window(low, one.value, below, other.value))
        else:
            low, below = other.value, one.value
    if samples[-1].holds:
        windows.append(Window(low, samples[-1].value, below, None))
    return tuple(windows)


def _narrow(pair: Sequence[Sample], tolerance: float) -> bool:
    low, high = pair[0].value, pair[1].value
    return high - low <= tolerance * abs(high)


def _middle(low: float, high: float) -> float:
    """Halfway; by ratio where the two are of different size."""
    return math.sqrt(low * high) if 0.0 < 2.0 * low < high else 0.5 * (low + high)


def _doubtful(samples: Sequence[Sample]) -> list[float]:
    """
    Values around a turn of the margin that may reach its target unseen.

    A margin that holds and has a low between two neighbours, or fails and has a high, may turn further
    than was seen, by as much as it changed on the way there.
    """
    more = set()
    for before, here, after in zip(samples, samples[1:], samples[2:], strict=False):
        if not before.holds == here.holds == after.holds:
            continue
        sign = 1.0 if here.holds else -1.0
        fall, rise = sign * (before.margin - here.margin), sign * (after.margin - here.margin)
        if not (fall >= 0.0 and rise >= 0.0 and fall + rise > 0.0) or not math.isfinite(fall + rise):
            continue
        if sign * (here.margin - 1.0) < max(fall, rise):
            more.add(_middle(before.value, here.value))
            more.add(_middle(here.value, after.value))
    return sorted(more - {sample.value for sample in samples})
