"""What lash readings taken later say about how fast a joint wears: the estimate narrows by Bayes' rule."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from torqcheck._types import FloatArray, IntArray
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.draws import evenly_spread, normal_deviates
from torqcheck.errors import DomainError
from torqcheck.wear.clock import GreaseClock
from torqcheck.wear.course import Course
from torqcheck.wear.life import LEAST_DRAWS, Runs, WearLimit
from torqcheck.wear.spread import COEFFICIENT_SIGMA_OWN

__all__ = ["LashObservation", "Reread", "reread_runs"]

POOL = 4
"""So many times the draws are followed and thinned out at the end."""
CLEAR_GROWTH = 4.0
"""Standard deviations of the readings above which a growth is taken from the reading itself."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LashObservation:
    """A lash read after some running hours: m along the pitch circle, with its standard deviation."""

    hours: float
    clearance: float
    sigma: float
    regreased: bool = False


@dataclass(frozen=True, slots=True)
class Reread:
    """
    Draws that agree with the readings.

    Parameters
    ----------
    runs : Runs
        From the last reading on.
    clearance : array, m
        Lash when the hours began, of each draw.
    effective : float
        How many equally likely draws the pool was worth.
    surprise : float
        Standard deviations between the wear that a reading shows and the wear that was expected
        before it, the largest of all readings: beyond 3 or 4 something else is wrong.
    """

    runs: Runs
    clearance: FloatArray
    effective: float
    surprise: float


@dataclass(slots=True)
class _Pool:
    """Many candidates: each holds ln(speed) as a normal distribution, and where its flanks are."""

    mean: FloatArray
    variance: FloatArray
    working: FloatArray
    clearance: FloatArray
    exposure: FloatArray

    def pick(self, chosen: IntArray) -> None:
        """Keep the chosen ones."""
        for name in ("mean", "variance", "working", "clearance", "exposure"):
            setattr(self, name, getattr(self, name)[chosen])


def reread_runs(
    *,
    course: Course,
    clearance: float,
    clearance_sigma: float,
    clearance_per_depth: float,
    sigma: float,
    observations: Sequence[LashObservation],
    limits: Sequence[WearLimit],
    seed: int,
    clock: GreaseClock | None = None,
    working_sigma: float = 0.0,
    own_sigma: float = COEFFICIENT_SIGMA_OWN,
    draws: int = LEAST_DRAWS,
) -> Reread:
    """
    Draw a joint as ``drawn_runs`` does, and keep what agrees with lash readings taken later.

    Parameters
    ----------
    course : Course
        Depth against exposure.
    clearance, clearance_sigma : float, m
        Lash when the hours began, and its standard deviation.
    clearance_per_depth : float, -
        Growth of the clearance for each metre of the sum of depths.
    sigma : float, -
        Of the logarithm of the rate, before any reading.
    observations : sequence of LashObservation
        In the order of their hours.
    limits : sequence of WearLimit
        As for ``drawn_runs``.
    seed : int
        The same seed gives the same draws.
    clock, working_sigma : optional
        As for ``drawn_runs``; the readings say which time the grease is renewed at.
    own_sigma : float, -, optional
        Of the logarithm of the wear between two readings about what the lasting rate would give:
        wear of one and the same joint does not repeat itself better.
    draws : int, optional
        At least ``LEAST_DRAWS``.

    Returns
    -------
    Reread
        Lives, and what the readings say of the rate.

    Raises
    ------
    DomainError
        If there are too few draws, the hours do not rise, a sigma is out of its range, or no draw
        can be brought into agreement with a reading.

    Notes
    -----
    Between two readings a joint wears by exp(u + e) times its median, u normal with `sigma` for
    good, e normal with `own_sigma` anew each time. Given the growth, u stays normal: with a perfect
    gauge and no grease that ends, its variance after one reading is 1/(1/sigma^2 + 1/own_sigma^2)
    and its mean that of the conjugate normal pair. The gauge's error, the first lash and the hours
    of the grease are drawn, weighted by the likelihood, and drawn again after each reading. Where
    the growth is clearly larger than the error of the gauge, it is drawn from the reading and
    weighted by what was expected; else the other way round.

    Examples
    --------
    >>> from torqcheck.wear import DepthRates, wear_course
    >>> course = wear_course(rates=DepthRates(external=1e-7, internal=1e-7), deepest=1e-3)
    >>> seen = LashObservation(hours=500.0, clearance=0.3e-3, sigma=1e-6)
    >>> found = reread_runs(course=course, clearance=0.1e-3, clearance_sigma=1e-6, clearance_per_depth=1.0,
    ...                     sigma=2.0, observations=[seen], limits=(), seed=1)
    >>> print(f"{np.std(np.log(found.runs.speed)):.2f}")  # 1/sqrt(1/2^2 + 1/0.4^2)
    0.39
    """
    if draws < LEAST_DRAWS:
        raise DomainError(f"draws must be at least {LEAST_DRAWS}")
    require_not_negative(clearance_sigma=clearance_sigma, working_sigma=working_sigma)
    require_positive(sigma=sigma, own_sigma=own_sigma, clearance_per_depth=clearance_per_depth)
    require_positive(hours=np.diff((0.0, *(seen.hours for seen in observations))))
    count = POOL * draws
    base = GreaseClock() if clock is None else clock
    base = replace(
        base, regreased=base.regreased + tuple(seen.hours for seen in observations if seen.regreased)
    )
    z = normal_deviates(evenly_spread(count, 3 + len(observations) + len(limits), seed))
    ones = np.ones(count)
    pool = _Pool(
        0.0 * ones,
        sigma**2 * ones,
        base.working * np.exp(working_sigma * z[0]) if working_sigma else base.working * ones,
        np.maximum(clearance + clearance_sigma * z[1], 0.0),
        0.0 * ones,
    )
    generator = np.random.default_rng(seed)
    effective, surprise, before = float(count), 0.0, 0.0
    for seen, deviates in zip(observations, z[3:], strict=False):
        clocks = replace(base, working=pool.working)
        worked = np.asarray(clocks.exposure(seen.hours)) - np.asarray(clocks.exposure(before))
        weights, shift = _step(pool, seen, worked, deviates, course, clearance_per_depth, own_sigma)
        surprise = max(surprise, abs(float(np.sum(weights * shift) / np.sum(weights))))
        effective = min(effective, _effective(weights))
        pool.pick(_again(weights, count, generator))
        before = seen.hours
    kept = generator.permutation(count)[:draws]
    pool.pick(kept)
    speed = np.exp(pool.mean + np.sqrt(pool.variance) * z[2][:draws])
    clocks = replace(base, working=pool.working)
    runs = Runs(
        speed=speed,
        clock=clocks,
        limit_factors=np.exp(
            np.array([limit.sigma for limit in limits])[:, None] * z[3 + len(observations) :, :draws]
        ),
        ahead=pool.exposure - speed * np.asarray(clocks.exposure(before)),
    )
    return Reread(runs, pool.clearance, effective, surprise)


def _step(
    pool: _Pool,
    seen: LashObservation,
    worked: FloatArray,
    deviates: FloatArray,
    course: Course,
    clearance_per_depth: float,
    own_sigma: float,
) -> tuple[FloatArray, FloatArray]:
    """Bring every candidate to one reading; returns their weights, and their wear in sigmas."""
    spread = np.sqrt(pool.variance + own_sigma**2)
    total, depth = course.total, course.exposure
    begun = pool.clearance + clearance_per_depth * np.interp(pool.exposure, depth, total)
    gauge = max(seen.sigma, 1e-9)
    if float(np.median(seen.clearance - begun)) > CLEAR_GROWTH * float(np.hypot(gauge, np.std(begun))):
        # from the reading: where the flanks are, then how likely that was
        clearance = seen.clearance + gauge * deviates
        height = (clearance - pool.clearance) / clearance_per_depth
        reached = np.interp(height, total, depth)
        run = reached - pool.exposure
        possible = (run > 0.0) & (height < total[-1])
        rate = np.log(np.where(possible, run, 1.0) / worked)
        slope = np.interp(height, 0.5 * (total[1:] + total[:-1]), np.diff(depth) / np.diff(total))
        expected = np.exp(-0.5 * ((rate - pool.mean) / spread) ** 2) / spread
        weights = np.where(possible, expected * slope / np.where(possible, run, 1.0), 0.0)
    else:
        # from what was expected: how fast, then how likely the reading is
        rate = pool.mean + spread * deviates
        reached = pool.exposure + np.exp(rate) * worked
        clearance = pool.clearance + clearance_per_depth * np.interp(reached, depth, total)
        weights = np.exp(-0.5 * ((seen.clearance - clearance) / gauge) ** 2)
    if not np.sum(weights) > 0.0:
        raise DomainError("a lash reading that no wear of this joint can bring about")
    shift = (rate - pool.mean) / spread
    gain = pool.variance / spread**2
    pool.mean = pool.mean + gain * (rate - pool.mean)
    pool.variance = pool.variance * (1.0 - gain)
    pool.exposure = reached
    return np.asarray(weights), np.asarray(shift)


def _effective(weights: FloatArray) -> float:
    """Number of equally weighted candidates that would be worth as much."""
    # squares of weights that are all next to nothing would vanish
    shares = weights / np.max(weights)
    return float(np.sum(shares) ** 2 / np.sum(shares**2))


def _again(weights: FloatArray, count: int, generator: np.random.Generator) -> IntArray:
    """Draw candidates anew in proportion to their weights, evenly along the list."""
    edges = np.cumsum(weights) / np.sum(weights)
    return np.asarray(
        np.minimum(np.searchsorted(edges, (np.arange(count) + generator.random()) / count), count - 1)
    )
