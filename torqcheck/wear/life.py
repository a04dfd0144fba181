"""Hours until a spline is worn out, as many draws: which of several limits ends it, and when.

Linear: pressure, slip and coefficient do not change as the flanks wear, but for grease that ends.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from torqcheck._types import FloatArray, IntArray, Numeric
from torqcheck.checks import Member
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.errors import DomainError
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source
from torqcheck.wear.spread import LIMIT_SIGMA, Percentiles

__all__ = [
    "LEAST_DRAWS",
    "DepthRates",
    "Induction",
    "LifeDraws",
    "WearLimit",
    "hours_to_depth",
    "life_draws",
    "percentiles",
    "share_reaching",
]

LEAST_DRAWS = 20_000
"""Fewer draws are refused: the tenth percentile would be uncertain by more than a few percent."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DepthRates:
    """Median depth worn per hour from the flanks of each member, m/h."""

    external: float
    internal: float

    def of(self, member: Member) -> float:
        """Rate of one member, or of both together."""
        if member == "both":
            return self.external + self.internal
        return self.external if member == "external" else self.internal


@dataclass(frozen=True, slots=True, kw_only=True)
class WearLimit:
    """A depth that ends the life: of one member, or of the sum of both (play)."""

    name: str
    member: Member
    depth: float  # m, median
    sigma: float = LIMIT_SIGMA  # of the logarithm; 0 for a limit that somebody sets


@dataclass(frozen=True, slots=True, kw_only=True)
class Induction:
    """Grease that works for some hours of running, and the rates once it has ended.

    `sigma` is of the logarithm of the hours; `renewal` the hours between renewals, each of which
    gives the grease its full time again, None if nobody renews it.
    """

    hours: float
    rates_after: DepthRates
    sigma: float = 0.0
    renewal: float | None = None


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


def life_draws(
    *,
    rates: DepthRates,
    limits: Sequence[WearLimit],
    sigma: float,
    generator: np.random.Generator,
    draws: int = LEAST_DRAWS,
    induction: Induction | None = None,
) -> LifeDraws:
    """
    Draw the hours until the first of several wear limits is reached.

    Parameters
    ----------
    rates : DepthRates
        Median depth per hour of each member; while the grease works if `induction` is given.
    limits : sequence of WearLimit
        Every limit that can end the life.
    sigma : float, -
        Of the logarithm of the rate: coefficient, slip and load together (``combined_sigma``).
    generator : numpy.random.Generator
        Seeded by the caller, so that the same check gives the same life.
    draws : int, optional
        At least ``LEAST_DRAWS``.
    induction : Induction, optional
        Grease that ends, renewed or not; None if the rates hold throughout.

    Returns
    -------
    LifeDraws
        Hours, the limit that ends each draw, and the names of the limits.

    Raises
    ------
    DomainError
        If there are too few draws or no limits, a number is negative, or no limit is ever reached
        because nothing wears: such a joint has no life to print, and the caller says why.

    Notes
    -----
    One deviate multiplies the rates of both members in both phases: lubricant, slip and load are
    common to them, so that their ratio stays fixed. Each limit has a deviate of its own. With one
    limit and no induction the percentiles are those of ``lognormal_percentiles`` with
    S^2 = sigma^2 + sigma_limit^2.
    """
    if draws < LEAST_DRAWS:
        raise DomainError(f"draws must be at least {LEAST_DRAWS}")
    require_not_negative(sigma=sigma, external=rates.external, internal=rates.internal)
    spread = np.exp(sigma * generator.standard_normal(draws))
    working = _working_hours(induction, generator, draws)
    hours = np.full((len(limits), draws), np.inf)
    for row, limit in enumerate(limits):
        require_not_negative(depth=limit.depth, sigma=limit.sigma)
        depth = limit.depth * np.exp(limit.sigma * generator.standard_normal(draws))
        rate = rates.of(limit.member)
        if induction is not None:
            after = induction.rates_after.of(limit.member)
            if after or rate:
                hours[row] = _hours_with_grease(
                    depth, rate * spread, working, after * spread, induction.renewal
                )
        elif rate:
            hours[row] = depth / (rate * spread)
    if not np.any(np.isfinite(hours) | np.isnan(hours)):
        raise DomainError("no limit is ever reached: nothing wears, or no limit is given")
    ends = np.argmin(hours, axis=0)
    first = np.take_along_axis(hours, ends[np.newaxis, :], axis=0)[0]
    for array in (first, ends):
        array.setflags(write=False)
    return LifeDraws(first, ends, tuple(limit.name for limit in limits))


def _working_hours(induction: Induction | None, generator: np.random.Generator, draws: int) -> FloatArray:
    """Hours for which the grease works, drawn; not used without induction."""
    if induction is None:
        return np.zeros(draws)
    require_not_negative(hours=induction.hours, sigma=induction.sigma)
    return induction.hours * np.exp(induction.sigma * generator.standard_normal(draws))


def _hours_with_grease(
    depth: FloatArray,
    rate: FloatArray,
    working: FloatArray,
    rate_after: FloatArray,
    renewal: float | None,
) -> FloatArray:
    """Hours to a depth through the intervals between renewals, each of two phases."""
    if renewal is None:
        return np.asarray(hours_to_depth(depth, rate, working, rate_after))
    require_positive(renewal=renewal)
    working = np.minimum(working, renewal)
    per_interval = rate * working + rate_after * (renewal - working)
    intervals = np.floor(depth / per_interval)
    left = np.maximum(depth - intervals * per_interval, 0.0)
    return np.asarray(intervals * renewal + hours_to_depth(left, rate, working, rate_after))


def percentiles(hours: FloatArray) -> Percentiles:
    """Return the tenth, fiftieth and ninetieth percentile of drawn lives, in their unit."""
    p10, p50, p90 = (float(value) for value in np.percentile(hours, (10.0, 50.0, 90.0)))
    return Percentiles(p10, p50, p90)


def share_reaching(hours: FloatArray, service: float) -> float:
    """Return the share of drawn lives that last at least the hours of service asked for."""
    return float(np.mean(np.greater_equal(hours, service)))
