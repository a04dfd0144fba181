"""Limits of time that mean the same on a slow machine: a fixed piece of work is timed beside them."""

import time
from collections.abc import Callable

import numpy as np

__all__ = ["least_seconds", "seconds_here"]

USUAL = 0.008
"""Processor seconds of the piece of work on the machine on which the limits of the tests were set."""


def seconds_here(seconds: float) -> float:
    """What so many seconds are on this machine, just now; never fewer than stated."""
    return seconds * max(1.0, least_seconds(_work) / USUAL)


def least_seconds(work: Callable[[], object], times: int = 5) -> float:
    """Shortest processor time of some runs, after one that loads what it needs: others only lengthen it."""
    work()
    took = []
    for _ in range(times):
        start = time.process_time()
        work()
        took.append(time.process_time() - start)
    return min(took)


def _work() -> float:
    """Plain Python and small arrays, in about equal parts, as in the code that is timed."""
    total = 0.0
    for number in range(40_000):
        total += number % 7 * 0.5
    line = np.linspace(0.0, 1.0, 200)
    for _ in range(400):
        total += float(np.sum(np.sqrt(line * line + 1.0)))
    return total
