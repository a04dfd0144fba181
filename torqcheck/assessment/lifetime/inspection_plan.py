"""When to open a joint again, and the lash reading at which to stop using it."""

import math
from dataclasses import dataclass

import numpy as np

from torqcheck._types import BoolArray, FloatArray
from torqcheck.assessment.lifetime.growth import JointGrowth

__all__ = ["CHANCE", "InspectionPlan", "inspection_plan"]

CHANCE = 0.05
"""Most that may pass a limit between two inspections."""
INTERVALS, STOPS = 20, 33
"""Intervals that are looked at one after the other, and stop readings that are tried."""
SHORTER, MOST_TRIES = 0.8, 24
LEAST_INTERVAL = 1.0
"""Running hours: nobody opens a joint more often."""
LEAST_LEFT = 200
"""Draws still in use below which a later interval says nothing more."""
LEAST_ROOM = 0.2
"""Share of the way from the first lash to its limit below which a stop reading is of no use."""


@dataclass(frozen=True, slots=True)
class InspectionPlan:
    """
    Inspect in these intervals, and stop at this reading.

    Parameters
    ----------
    interval : float, h
        Running hours between inspections, rounded down to what one can keep.
    next_at : float, h
        Running hours at the next one, from where the hours began.
    stop_reading : float, m
        Lash along the pitch circle at which the part is not used on.
    chance : float
        Largest chance, over the intervals, to pass a limit before the next inspection.
    """

    interval: float
    next_at: float
    stop_reading: float
    chance: float


def inspection_plan(
    growth: JointGrowth,
    lives: FloatArray,
    limit: float,
    gauge: float,
    *,
    now: float = 0.0,
    longest: float = math.inf,
    seed: int,
) -> InspectionPlan | None:
    """
    Find the longest interval and the highest stop reading that keep the chance small.

    Parameters
    ----------
    growth : JointGrowth
        Draws of the joint.
    lives : array, h
        When each of them ends, by whatever limit.
    limit : float, m
        Lash limit along the pitch circle.
    gauge : float, m
        Standard deviation of a reading.
    now : float, h, optional
        Running hours so far.
    longest : float, h, optional
        Never a longer interval than this.
    seed : int
        Of the errors of the gauge.

    Returns
    -------
    InspectionPlan or None
        None where no interval does it: a joint that may be worn out at once.

    Notes
    -----
    In every interval at most `CHANCE` of the joints that are still in use pass any of their limits
    before it ends; in use are those that never showed the stop reading. Rates, grease and limits
    differ from draw to draw; the gauge errs anew at each inspection.
    """
    first = float(np.quantile(lives, CHANCE)) - now
    interval = _kept(min(first, longest))
    for _ in range(MOST_TRIES):
        if interval < min(LEAST_INTERVAL, longest):
            return None
        found = _stop(growth, lives, limit, gauge, now, interval, seed)
        if found is not None:
            return InspectionPlan(interval, now + interval, *found)
        interval = _kept(SHORTER * interval)
    return None


def _kept(hours: float) -> float:
    """Rounded down to two digits: what one can keep."""
    if not hours > 0.0:
        return 0.0
    step = 10.0 ** (math.floor(math.log10(hours)) - 1)
    return math.floor(hours / step * (1.0 + 1e-12)) * step


def _stop(
    growth: JointGrowth,
    lives: FloatArray,
    limit: float,
    gauge: float,
    now: float,
    interval: float,
    seed: int,
) -> tuple[float, float] | None:
    """Highest reading that keeps the chance in every interval, and the largest chance; None if none does."""
    generator = np.random.default_rng(seed)
    begin = float(np.median(growth.first_clearance))
    readings = [
        growth.clearance_at(now + n * interval) + gauge * generator.standard_normal(lives.size)
        for n in range(1, INTERVALS + 1)
    ]
    largest = float(np.mean(lives <= now + interval))
    if largest > CHANCE:
        return None
    highest = min(limit, begin + growth.model.clearance_per_depth * growth.model.deepest_in_use)
    for stop in np.linspace(highest, begin + LEAST_ROOM * (highest - begin), STOPS).tolist():
        chance = max(largest, _largest_chance(readings, lives, stop, now, interval))
        if chance <= CHANCE:
            return stop, chance
    return None


def _largest_chance(
    readings: list[FloatArray], lives: FloatArray, stop: float, now: float, interval: float
) -> float:
    """Largest share of the joints in use that pass a limit before the next inspection."""
    in_use: BoolArray = np.ones(lives.size, bool)
    largest = 0.0
    for n, reading in enumerate(readings, start=1):
        at = now + n * interval
        in_use &= (lives > at) & (reading < stop)
        if np.count_nonzero(in_use) < LEAST_LEFT:
            break
        largest = max(largest, float(np.mean(lives[in_use] <= at + interval)))
    return largest
