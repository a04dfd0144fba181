"""The largest torque rise that keeps its limit and lets every slower one keep it too.

Peak torque against rise has lobes: it swings with the rise time over the natural period. Each member is
therefore followed from a slow end, below which the bound of ``ramp_envelope`` answers for every phase,
over all of its lobes to the torque that is there at once. A percentile over draws has lobes only while
the draws agree about the phase; beyond, it is smooth and is followed in even steps of the logarithm.
"""

import math
from dataclasses import dataclass

import numpy as np

from torqcheck._types import FloatArray, IntArray
from torqcheck.assessment.ramp.cases import ONE, Cases, Sample
from torqcheck.assessment.ramp.result import Window

__all__ = ["Fastest", "find_fastest", "find_fastest_percentile", "find_windows"]

POINTS_PER_LOBE, MOST_POINTS = 16, 8000
FASTEST_OF_LOBES = 500.0
"""Rise times down to this part of the natural period are looked at, then the torque that is there at once."""
FAST_POINTS = 24
COARSE_POINTS, BOUND_POINTS, BOUND_POINTS_OF_DRAWS = 48, 240, 40
FINER = 8
NEAR, NEARER = 0.97, 0.995
"""Share of the limit from which the neighbourhood of a point is looked at more closely."""
ROUNDS, SECTIONS = 5, 16
OCTAVES_BELOW = 6
STEP, COARSE_STEP = 1.06, 1.12
"""From one rise of the draws to the next; the coarse one where many driven sides level the lobes out."""
LOBES_OF_DRAWS, POINTS_PER_LOBE_OF_DRAWS = 8, 10
NEAR_OF_DRAWS, BETWEEN = 0.985, 4
SCOUTS = 128
"""Draws that look for the region in which all of them are needed."""
NARROWEST_WINDOW, MOST_WINDOWS, WINDOW_POINTS, MOST_MEMBERS_WITH_WINDOWS = 1.02, 3, 600, 6


@dataclass(frozen=True, slots=True)
class Fastest:
    """Result of a search, N m/s at the motor shaft.

    Parameters
    ----------
    rise : float or None
        Largest rise; None if not even the slowest that was looked at holds.
    any_rise : bool
        Even the torque that is there at once holds; `rise` is then infinite.
    proven : bool
        Slower rises than those looked at are covered by the bound.
    """

    rise: float | None
    any_rise: bool
    proven: bool


def find_fastest(cases: Cases, slowest: float) -> Fastest:
    """
    Search with the values as stated, every lobe of every member.

    Parameters
    ----------
    cases : Cases
        Members and limits.
    slowest : float, N m/s
        Slowest rise that can be set.
    """
    member, rise, proven = _grid(cases, slowest)
    demand = _demand(cases, member, rise)
    for threshold in (NEAR, NEARER):
        best = _first_failing(rise, demand)
        more = _between_neighbours(member, rise, demand, threshold, best)
        if more[0].size == 0:
            break
        member, rise = np.concatenate((member, more[0])), np.concatenate((rise, more[1]))
        demand = np.concatenate((demand, _demand(cases, *more)))
    if not np.any(demand > 1.0):
        return Fastest(math.inf, True, proven)
    edges = _edges(member, rise, demand)
    if edges is None:
        return Fastest(None, False, proven)
    return Fastest(_narrowed(cases, *edges), False, proven)


def _grid(cases: Cases, slowest: float) -> tuple[IntArray, FloatArray, bool]:
    """
    Rises of each member over all lobes that can set the limit, and whether the bound covers the rest.

    A member is followed from its own slow end up to a rise that some member is known to fail at.
    """
    per_period = cases.members.peak_torque / (cases.members.rise * cases.periods)
    fastest = FASTEST_OF_LOBES * float(per_period.max())
    starts, proven = _slow_ends(cases, slowest, fastest)
    coarse = np.append(np.geomspace(slowest, fastest, COARSE_POINTS), math.inf)
    members = np.arange(cases.members.size)
    demand = _demand(cases, members[:, None], coarse)
    end = float(np.min(coarse, where=(demand > 1.0).any(axis=0), initial=math.inf))
    member, rise = [], []
    for index, (unit, start) in enumerate(zip(per_period.tolist(), starts.tolist(), strict=True)):
        fails = coarse[demand[index] > 1.0]
        if start > end:
            continue
        rises = _rises_over_lobes(unit, start, end)
        rises = np.append(rises, fails.min(initial=math.inf))
        rise.append(rises)
        member.append(np.full(rises.size, index))
    return np.concatenate(member), np.concatenate(rise), proven


def _slow_ends(cases: Cases, slowest: float, fastest: float) -> tuple[FloatArray, bool]:
    """Largest rise of each member up to which the bound keeps the limit, not below the slowest."""
    rises = np.geomspace(slowest / 2.0**OCTAVES_BELOW, fastest, BOUND_POINTS)
    holds = np.logical_and.accumulate(cases.bounds(cases.nominal, rises)[:, :, 0] <= 1.0, axis=0)
    count = holds.sum(axis=0)
    found = np.where(count > 0, rises[np.maximum(count - 1, 0)], 0.0)
    return np.maximum(found, slowest), bool(np.all(found >= slowest))


def _rises_over_lobes(unit: float, start: float, end: float) -> FloatArray:
    """Ascending rises, so many in each lobe; `unit` over a rise is the number of periods it lasts."""
    lobes = unit / start
    step = max(1.0 / POINTS_PER_LOBE, lobes / MOST_POINTS)
    slow = np.arange(lobes, step, -step)
    fast = np.geomspace(min(step, lobes), 1.0 / FASTEST_OF_LOBES, FAST_POINTS)
    rises = np.concatenate(([start], unit / slow, unit / fast))
    return np.unique(rises[rises < end])


def _demand(cases: Cases, member: IntArray, rise: FloatArray) -> FloatArray:
    """Peak over allowed torque, point by point."""
    return cases.peaks(cases.nominal, member, ONE, rise) / cases.allowed[member]


def _first_failing(rise: FloatArray, demand: FloatArray) -> float:
    """Slowest rise that fails; infinite if none does."""
    return float(np.min(rise, where=demand > 1.0, initial=math.inf))


def _between_neighbours(
    member: IntArray, rise: FloatArray, demand: FloatArray, threshold: float, below: float
) -> tuple[IntArray, FloatArray]:
    """Further points on both sides of those that come near the limit and are slower than `below`."""
    order = np.lexsort((rise, member))
    m, r, d = member[order], rise[order], demand[order]
    joined = (m[1:] == m[:-1]) & (r[1:] > r[:-1]) & np.isfinite(r[1:])
    close = np.maximum(d[1:], d[:-1]) > threshold
    wanted = np.flatnonzero(joined & close & (r[:-1] < below))
    share = np.arange(1, FINER) / FINER
    inverse = 1.0 / r[wanted, None] + (1.0 / r[wanted + 1, None] - 1.0 / r[wanted, None]) * share
    return np.repeat(m[wanted], FINER - 1), (1.0 / inverse).ravel()


def _edges(
    member: IntArray, rise: FloatArray, demand: FloatArray
) -> tuple[IntArray, FloatArray, FloatArray] | None:
    """For each member that may set the limit: the slowest failing rise and the one before it."""
    best = math.inf
    found: list[tuple[int, float, float]] = []
    for index in np.unique(member):
        here = np.flatnonzero(member == index)
        here = here[np.argsort(rise[here])]
        failing = np.flatnonzero(demand[here] > 1.0)
        if failing.size == 0:
            continue
        if failing[0] == 0:
            return None
        slow, fast = rise[here[failing[0] - 1]], rise[here[failing[0]]]
        found.append((int(index), float(slow), float(fast)))
        best = min(best, float(fast))
    kept = [entry for entry in found if entry[1] < best]
    indices, slow_sides, fast_sides = zip(*kept, strict=True)
    return np.array(indices), np.array(slow_sides), np.array(fast_sides)


def _narrowed(cases: Cases, member: IntArray, slow: FloatArray, fast: FloatArray) -> float:
    """Narrow each bracket to the slowest failing part of it; return the slow side of the slowest."""
    for _ in range(ROUNDS):
        share = np.arange(SECTIONS + 1) / SECTIONS
        inverse = 1.0 / slow[:, None] + (1.0 / fast - 1.0 / slow)[:, None] * share
        rise = 1.0 / np.maximum(inverse, 1e-300)
        demand = _demand(cases, np.broadcast_to(member[:, None], rise.shape).ravel(), rise.ravel())
        failing = demand.reshape(rise.shape) > 1.0
        failing[:, 0], failing[:, -1] = False, True
        first = failing.argmax(axis=1)
        rows = np.arange(member.size)
        slow, fast = rise[rows, first - 1], rise[rows, first]
    return float(slow.min())


def find_fastest_percentile(
    cases: Cases, sample: Sample, share: float, slowest: float, fastest: float
) -> Fastest:
    """
    Search with many draws: at the rise found and at every slower one, `share` of the draws hold.

    Parameters
    ----------
    cases : Cases
        Members and limits.
    sample : Sample
        Draws.
    share : float
        Percentile, 0.95.
    slowest, fastest : float, N m/s
        Where to look.
    """
    start, proven = _slow_end_of_draws(cases, sample, share, slowest, fastest)
    rises = _even_steps(cases, min(start, fastest), fastest)
    scouts = sample.first(SCOUTS)
    demand = np.quantile(cases.demands(scouts, rises), share, axis=1)
    demand = _looked_at_closely(cases, sample, share, rises, demand)
    rises, demand = _with_points_between(cases, sample, share, rises, demand)
    failing = np.flatnonzero(demand > 1.0)
    if failing.size == 0:
        return Fastest(float(rises[-1]), False, proven)
    if failing[0] == 0:
        return Fastest(None, False, proven)
    slow, fast = rises[failing[0] - 1], rises[failing[0]]
    for _ in range(2):
        inner = np.geomspace(slow, fast, 7)
        fails = np.quantile(cases.demands(sample, inner[1:-1]), share, axis=1) > 1.0
        first = int(np.argmax(np.append(fails, True)))
        slow, fast = inner[first], inner[first + 1]
    return Fastest(float(slow), False, proven)


def _slow_end_of_draws(
    cases: Cases, sample: Sample, share: float, slowest: float, fastest: float
) -> tuple[float, bool]:
    """Largest rise up to which the bound keeps the limit in a share of the draws; whether there is one."""
    rises = np.geomspace(slowest / 2.0**OCTAVES_BELOW, fastest, BOUND_POINTS_OF_DRAWS)
    draws = sample if cases.few else sample.first(SCOUTS)
    kept = (cases.bounds(draws, rises).max(axis=1) <= 1.0).mean(axis=1) >= share
    count = int(np.logical_and.accumulate(kept).sum())
    found = float(rises[count - 1]) if count else 0.0
    return max(found, slowest), found >= slowest


def _looked_at_closely(
    cases: Cases, sample: Sample, share: float, rises: FloatArray, demand: FloatArray
) -> FloatArray:
    """Replace what the scouts say by what all draws say, up to the first rise that surely fails."""
    if sample.size <= SCOUTS:
        return demand
    clear = np.flatnonzero(demand > 1.0 / NEAR)
    last = clear[0] if clear.size else rises.size - 1
    doubtful = np.flatnonzero((demand > NEAR) & (np.arange(rises.size) <= last))
    around = (
        np.unique(np.clip(np.concatenate((doubtful - 1, doubtful)), 0, last)) if doubtful.size else doubtful
    )
    result = demand.copy()
    if around.size:
        result[around] = np.quantile(cases.demands(sample, rises[around]), share, axis=1)
    return result


def _with_points_between(
    cases: Cases, sample: Sample, share: float, rises: FloatArray, demand: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Further points between those that come near the limit, up to the first rise that fails."""
    failing = np.flatnonzero(demand > 1.0)
    last = failing[0] if failing.size else rises.size - 1
    near = np.maximum(demand[1:], demand[:-1]) > NEAR_OF_DRAWS
    slow = np.flatnonzero(near & (np.arange(rises.size - 1) < last))
    if slow.size == 0:
        return rises, demand
    share_of_step = np.arange(1, BETWEEN) / BETWEEN
    between = np.ravel(rises[slow, None] * (rises[slow + 1] / rises[slow])[:, None] ** share_of_step)
    found = np.quantile(cases.demands(sample, between), share, axis=1)
    rises, demand = np.concatenate((rises, between)), np.concatenate((demand, found))
    order = np.argsort(rises, kind="stable")
    return rises[order], demand[order]


def _even_steps(cases: Cases, start: float, fastest: float) -> FloatArray:
    """Ascending rises: several in each of the first lobes, beyond them even in the logarithm."""
    members, periods = cases.members, cases.periods
    unit = float((members.peak_torque / (members.rise * periods)).max())
    step = STEP if cases.few else COARSE_STEP
    count = max(2, math.ceil(math.log(fastest / start) / math.log(step)) + 1)
    even = np.geomspace(start, fastest, count)
    if not cases.few:
        return even
    first = max(unit / fastest, 1.0 / POINTS_PER_LOBE_OF_DRAWS)
    lobes = np.arange(first, min(LOBES_OF_DRAWS, unit / start), 1.0 / POINTS_PER_LOBE_OF_DRAWS)
    return np.unique(np.concatenate((even, np.clip(unit / lobes, start, fastest))))


def find_windows(cases: Cases, above: float, fastest: float) -> tuple[Window, ...]:
    """Faster rises at which the values as stated hold all the same."""
    if cases.members.size > MOST_MEMBERS_WITH_WINDOWS or not above < fastest:
        return ()
    rises = np.append(np.geomspace(above, fastest, WINDOW_POINTS), math.inf)
    holds = cases.demands(cases.nominal, rises)[:, 0] <= 1.0
    holds[0] = False
    change = np.flatnonzero(np.diff(np.append(holds, False).astype(np.int8)))
    windows = []
    for opened, closed in zip(change[::2], change[1::2], strict=False):
        slow, fast = float(rises[opened + 1]), float(rises[closed])
        if fast > NARROWEST_WINDOW * slow:
            windows.append(Window(slow, fast))
    return tuple(windows[:MOST_WINDOWS])
