"""Hours until a spline is worn out, as many draws: which of several limits ends it, and when."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from torqcheck._types import BoolArray, FloatArray, IntArray, Numeric
from torqcheck.checks import Member
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.draws import evenly_spread, normal_deviates
from torqcheck.errors import DomainError
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source
from torqcheck.wear.clock import GreaseClock
from torqcheck.wear.course import Course
from torqcheck.wear.spread import LIMIT_SIGMA, Percentiles

__all__ = [
    "LEAST_DRAWS",
    "LifeDraws",
    "Runs",
    "WearLimit",
    "drawn_runs",
    "first_of",
    "hours_to_depth",
    "life_draws",
    "percentiles",
    "share_reaching",
]

LEAST_DRAWS = 20_000
"""Fewer draws are refused: the tenth percentile would be uncertain by more than a few percent."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WearLimit:
    """
    What ends the life: a depth of one member or of the sum of both (play), or a strength that falls.

    A limit of strength has `factors` instead of a depth of its own; its sigma is that of the
    logarithm of the safety factor.
    """

    name: str
    member: Member
    depth: Numeric = 0.0  # m, median; or one value for each draw
    sigma: float = LIMIT_SIGMA  # of the logarithm; 0 for a limit that somebody sets
    factors: tuple[FloatArray, FloatArray] | None = None  # depths, and the safety factors there

    def depth_drawn(self, drawn: FloatArray) -> FloatArray:
        """
        Depth at which the limit is reached in each draw, m.

        What is drawn multiplies the depth; for a limit of strength it multiplies the safety factor,
        and the depth is where that first comes down to 1: inf if it never does.

        Parameters
        ----------
        drawn : array, -
            Factor of each draw, 1 at the median.
        """
        if self.factors is None:
            return np.asarray(self.depth * drawn)
        depths, factors = self.factors
        falling = np.minimum.accumulate(factors)
        needed = 1.0 / drawn
        found = np.interp(-needed, -falling, depths)
        return np.asarray(np.where(needed < falling[-1], np.inf, found))


@dataclass(frozen=True, slots=True, kw_only=True)
class Runs:
    """
    What is drawn of one joint: how fast it wears, its grease, and how far each limit lets it.

    Parameters
    ----------
    speed : array, shape (draws,)
        Rate of wear over its median: coefficient, slip and load together.
    clock : GreaseClock
        Running hours against exposure, its working hours drawn or not.
    limit_factors : array, shape (limits, draws)
        Depth of each limit over its median.
    ahead : float or array, h, optional
        Exposure that the joint has run through beyond what its speed explains: what readings of
        the past show, and what is not carried into the future.
    """

    speed: FloatArray
    clock: GreaseClock
    limit_factors: FloatArray
    ahead: Numeric = 0.0

    def pick(self, chosen: BoolArray) -> "Runs":
        """Some of the draws only."""
        clock = self.clock
        if np.ndim(clock.working):
            clock = replace(clock, working=np.asarray(clock.working)[chosen])
        ahead = np.broadcast_to(self.ahead, self.speed.shape)[chosen]
        return Runs(
            speed=self.speed[chosen],
            clock=clock,
            limit_factors=self.limit_factors[:, chosen],
            ahead=ahead,
        )

    def exposure(self, hours: Numeric) -> FloatArray:
        """
        Exposure of each draw after some running hours, h.

        Parameters
        ----------
        hours : float or array, h
            Since the hours began.
        """
        return np.asarray(np.maximum(self.ahead + self.speed * self.clock.exposure(hours), 0.0))

    def hours(self, exposure: Numeric) -> FloatArray:
        """Running hours until each draw has come to an exposure, h; 0 if it began beyond it."""
        left = np.maximum(np.subtract(exposure, self.ahead), 0.0)
        finite = np.isfinite(left)
        hours = self.clock.hours(np.where(finite, left, 0.0) / self.speed)
        return np.asarray(np.where(finite, hours, np.inf))


@dataclass(frozen=True, slots=True)
class LifeDraws:
    """Lives drawn by chance, in h, and the index in `names` of the limit that ends each."""

    hours: FloatArray
    limit: IntArray
    names: tuple[str, ...]

    @property
    def shares(self) -> tuple[float, ...]:
        """Share of the draws that each limit ends."""
        counts = np.bincount(self.limit, minlength=len(self.names))
        return tuple(float(count) / self.limit.size for count in counts)

    @property
    def governing(self) -> str:
        """Name of the limit that ends most draws."""
        return self.names[int(np.argmax(self.shares))]


@formula(
    "t = t1 + (h - v t1) / v2,  t1 = min(ti, h / v)",
    result=Symbol("t", "h", "hours until the depth is reached"),
    source=Source("Derived: two rates one after the other", "", "derived"),
    depth=Symbol("h", "m", "worn depth"),
    rate=Symbol("v", "m/h", "depth per hour while the grease works"),
    induction=Symbol("ti", "h", "hours for which the grease works"),
    rate_after=Symbol("v2", "m/h", "depth per hour afterwards"),
)
def hours_to_depth(depth: Numeric, rate: Numeric, induction: Numeric, rate_after: Numeric) -> Numeric:
    """
    Hours until a depth is worn, first at one rate and after an induction time at another.

    ::

        t = t1 + (h - v t1) / v2,  t1 = min(ti, h / v)

    Parameters
    ----------
    depth : float or array, m
        h, depth at which the life ends.
    rate : float or array, m/h
        v, depth per hour while the grease works; may be 0.
    induction : float or array, h
        ti, hours for which the grease works.
    rate_after : float or array, m/h
        v2, depth per hour afterwards.

    Returns
    -------
    float or array, h
        t. With both rates alike it is h/v.

    Raises
    ------
    DomainError
        If depth, rate or induction is negative, induction is infinite, or rate_after is not above
        zero, anywhere.

    Notes
    -----
    Greased splines on a test rig ran an induction time with little wear, and then wore as fast as
    unlubricated ones. Grease that is renewed in time resets the induction and not the depth.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Report on a misaligned-spline rig with greased and coated splines, ADA091861, 1980:
       induction of 250 h with a gold coat, four times that of the uncoated. Mark: published.

    Examples
    --------
    >>> print(f"{hours_to_depth(250e-6, 0.25e-6, 62.5, 2.5e-6):.2f} h")
    156.25 h
    """
    require_not_negative(depth=depth, rate=rate, induction=induction)
    require_positive(rate_after=rate_after)
    if np.any(np.isinf(induction)):
        raise DomainError("induction must end: for grease that does not, divide the depth by the rate")
    # the induction ends the first phase, unless the depth does; no division, as the rate may be 0
    worn = np.multiply(rate, induction)
    within = np.less_equal(depth, worn) & ~np.isnan(rate_after)
    safe_rate = np.where(within & np.greater(rate, 0.0), rate, 1.0)
    first = np.where(np.equal(depth, 0.0), 0.0, np.divide(depth, safe_rate))
    return np.where(within, first, induction + np.subtract(depth, worn) / rate_after)[()]


def drawn_runs(
    *,
    sigma: float,
    limits: Sequence[WearLimit],
    seed: int,
    clock: GreaseClock | None = None,
    working_sigma: float = 0.0,
    draws: int = LEAST_DRAWS,
) -> Runs:
    """
    Draw how fast a joint wears, how long its grease works, and how far its limits let it.

    Parameters
    ----------
    sigma : float, -
        Of the logarithm of the rate: coefficient, slip and load together (``combined_sigma``).
    limits : sequence of WearLimit
        Every limit that can end the life; each gets a deviate of its own.
    seed : int
        The same seed gives the same draws.
    clock : GreaseClock, optional
        With the median working hours; without it the rate never changes.
    working_sigma : float, -, optional
        Of the logarithm of the working hours.
    draws : int, optional
        At least ``LEAST_DRAWS``.

    Returns
    -------
    Runs
        From evenly spread points: percentiles converge faster than those of random draws.

    Raises
    ------
    DomainError
        If there are too few draws or a sigma is negative.

    Examples
    --------
    >>> runs = drawn_runs(sigma=1.8, limits=(), seed=1)
    >>> print(f"{np.median(runs.speed):.3f}")
    1.000
    """
    if draws < LEAST_DRAWS:
        raise DomainError(f"draws must be at least {LEAST_DRAWS}")
    require_not_negative(sigma=sigma, working_sigma=working_sigma)
    for limit in limits:
        require_not_negative(depth=limit.depth, sigma=limit.sigma)
    z = normal_deviates(evenly_spread(draws, 2 + len(limits), seed))
    base = GreaseClock() if clock is None else clock
    return Runs(
        speed=np.exp(sigma * z[0]),
        clock=replace(base, working=base.working * np.exp(working_sigma * z[1])) if working_sigma else base,
        limit_factors=np.exp(np.array([limit.sigma for limit in limits])[:, None] * z[2:]),
    )


def life_draws(course: Course, limits: Sequence[WearLimit], runs: Runs) -> LifeDraws:
    """
    Running hours of each draw until the first of several wear limits is reached.

    Parameters
    ----------
    course : Course
        Depth against exposure.
    limits : sequence of WearLimit
        As given to ``drawn_runs``, in the same order.
    runs : Runs
        What was drawn.

    Returns
    -------
    LifeDraws
        Hours, the limit that ends each draw, and the names of the limits.

    Raises
    ------
    DomainError
        If no limit is ever reached because nothing wears: such a joint has no life to print, and
        the caller says why.

    Notes
    -----
    One deviate multiplies the rates of both members in both phases: lubricant, slip and load are
    common to them, so that their ratio stays fixed. With one limit, even pressure and no grease
    that ends the percentiles are those of ``lognormal_percentiles`` with
    S^2 = sigma^2 + sigma_limit^2. A limit beyond the end of the course ends no draw.
    """
    hours = np.full((len(limits), runs.speed.size), np.inf)
    for row, (limit, factor) in enumerate(zip(limits, runs.limit_factors, strict=True)):
        hours[row] = runs.hours(course.exposure_at(limit.member, limit.depth_drawn(factor)))
    if not np.any(np.isfinite(hours) | np.isnan(hours)):
        raise DomainError("no limit is ever reached: nothing wears, or no limit is given")
    return first_of(hours, tuple(limit.name for limit in limits))


def first_of(hours: FloatArray, names: Sequence[str]) -> LifeDraws:
    """
    Return the earliest of several ends of each draw: one row of hours for each name.

    Parameters
    ----------
    hours : array, h
        One row for each end, one column for each draw.
    names : sequence of str
        Of the ends, in the order of the rows.
    """
    ends = np.argmin(hours, axis=0)
    first = np.take_along_axis(hours, ends[np.newaxis, :], axis=0)[0]
    for array in (first, ends):
        array.setflags(write=False)
    return LifeDraws(first, ends, tuple(names))


def percentiles(hours: FloatArray) -> Percentiles:
    """
    Return the tenth, fiftieth and ninetieth percentile of drawn lives, in their unit.

    Parameters
    ----------
    hours : array, h
        Lives drawn.
    """
    p10, p50, p90 = (float(value) for value in np.percentile(hours, (10.0, 50.0, 90.0)))
    return Percentiles(p10, p50, p90)


def share_reaching(hours: FloatArray, service: float) -> float:
    """
    Return the share of drawn lives that last at least the hours of service asked for.

    Parameters
    ----------
    hours : array, h
        Lives drawn.
    service : float, h
        What they are to reach.
    """
    return float(np.mean(np.greater_equal(hours, service)))
