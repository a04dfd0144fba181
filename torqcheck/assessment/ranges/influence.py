"""Which reading or assumption moves the weakest link most, and what to measure better."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TypeAlias

import numpy as np

from torqcheck._types import BoolArray, FloatArray
from torqcheck.assessment.assess import assess_with_draws
from torqcheck.assessment.ranges.influence_result import Influence, InfluenceRow, WearShares
from torqcheck.assessment.ranges.responses import Key
from torqcheck.assessment.ranges.spread import HIGH, LOW, Factors, Spread
from torqcheck.assessment.ranges.uncertain import uncertain_of
from torqcheck.assessment.ranges.wear_shares import wear_shares
from torqcheck.assessment.result import Assessment, Link
from torqcheck.assessment.torque.drawn_blows import blows_per_draw
from torqcheck.assessment.verdict.answered import answered_for
from torqcheck.checks import Check
from torqcheck.scenario import Scenario, load_scenario
from torqcheck.scenario.bands import deviations

__all__ = ["SEED", "Shares", "influence", "shares_of"]

Follow: TypeAlias = Callable[[int, int], None]
SEED = 20_260_815
REPEATS = 8
"""The indices are found so many times over with other points: their scatter says how sure they are."""
STUDENT = 2.365
"""Of eight repeats: so many standard errors to either side hold 95 of 100."""
MOST_POINTS, LEAST_POINTS = 512, 32
BLOWS, BLOWS_WITH_SLIP = 400_000, 40_000
"""Blows that all repeats together may take."""
LEAST_SPREAD = 1e-9
"""Of the logarithm: below it nothing is spread."""
LEAST_PART = 0.001
"""Of the draws: a check that is the weakest one less often is not named."""


@dataclass(frozen=True, slots=True)
class Shares:
    """Indices of each uncertain value, in their order; standard errors; evaluations that they took."""

    total: FloatArray
    first: FloatArray
    error: FloatArray
    evaluations: int


def influence(
    path_or_scenario: str | Path | Scenario,
    *,
    seed: int = SEED,
    follow: Follow | None = None,
) -> Influence:
    """
    Rank the readings and assumptions by what they do to the lowest safety factor.

    Parameters
    ----------
    path_or_scenario : str, Path or Scenario
        A scenario file, or one that was loaded before.
    seed : int, optional
        Of the points.
    follow : callable, optional
        Told after each repeat how many of how many are done.

    Returns
    -------
    Influence
        Frozen.

    Raises
    ------
    ScenarioError
        If the file cannot be used; carries every fault.

    Notes
    -----
    Share is the total effect, a variance-based index of the logarithm of the lowest safety factor
    over its target, over all checks: the part of its variance that would be left if everything else
    were known. Shares add up to 1 where nothing interacts, and to more where something does.
    """
    scenario = path_or_scenario if isinstance(path_or_scenario, Scenario) else load_scenario(path_or_scenario)
    assessment, spread = assess_with_draws(scenario)
    lowest = _lowest(assessment, spread)
    now = lowest.at(spread.deviations, spread.blows)
    unit = assessment.weakest.target if assessment.weakest is not None else 1.0
    responses = spread.factors.responses
    shares = shares_of(lowest.at, len(responses.uncertain), _points(spread), seed, follow)
    moving = {entry.key for entry in responses.uncertain}
    return Influence(
        **answered_for(scenario),
        verdict=assessment.verdict,
        weakest=assessment.weakest,
        interval=_interval(now * unit),
        chance_below_one=lowest.chance_below_one(spread),
        governing=_governing(lowest, spread),
        apart=_apart(assessment),
        rows=_rows(lowest, spread, unit, shares),
        unmoved=tuple(entry.key for entry in uncertain_of(responses.prepared) if entry.key not in moving),
        wear=_wear(scenario, assessment, spread),
        draws=spread.draws,
        blows=spread.blows,
        evaluations=shares.evaluations,
        seed=seed,
    )


@dataclass(frozen=True, slots=True)
class _Lowest:
    """The lowest safety factor over its target, over all loaded checks but those of the first tooth alone."""

    factors: Factors
    targets: FloatArray
    whole: BoolArray

    def all(self, z: FloatArray, blows: int | None = None) -> FloatArray:
        """Safety factors over their targets: one row for each check."""
        found = self.factors.at(z, blows) / self.targets[:, None]
        return np.asarray(np.where(np.isnan(found) | ~self.whole[:, None], np.inf, found))

    def at(self, z: FloatArray, blows: int | None = None) -> FloatArray:
        """The lowest of them in each draw."""
        return np.asarray(self.all(z, blows).min(axis=0))

    def chance_below_one(self, spread: Spread) -> float:
        """Share of the draws in which any safety factor is below 1."""
        found = self.all(spread.deviations, spread.blows) * self.targets[:, None]
        return float(np.mean(np.any(found < 1.0, axis=0)))


def _lowest(assessment: Assessment, spread: Spread) -> _Lowest:
    """Target of each check, and whether it is one of the whole joint, in the order of the draws."""
    by_key: dict[Key, Check] = {
        (index, check.name, check.method, check.member): check
        for index, joint in enumerate(assessment.joints)
        for check in joint.checks
    }
    checks = [by_key[key] for key in spread.factors.responses.keys]
    return _Lowest(
        spread.factors,
        np.array([check.target for check in checks]),
        np.array([check.counts and not check.local for check in checks]),
    )


def _interval(values: FloatArray) -> tuple[float, float]:
    low, high = np.quantile(values, (LOW, HIGH))
    return float(low), float(high)


def _points(spread: Spread) -> int:
    """Base points of one repeat, a power of two, so that all together stay within what may be followed."""
    responses = spread.factors.responses
    slips = responses.prepared.path.slip is not None
    each = (len(responses.uncertain) + 2) * REPEATS * blows_per_draw(responses.prepared)
    most = (BLOWS_WITH_SLIP if slips else BLOWS) / each
    points = LEAST_POINTS
    while 2 * points <= min(most, MOST_POINTS):
        points *= 2
    return points


class _Deviations:
    """The distribution of every deviation, as the indices take it."""

    def ppf(self, share: FloatArray) -> FloatArray:
        return deviations(np.ravel(share)).reshape(np.shape(share))


def shares_of(
    lowest: Callable[[FloatArray], FloatArray],
    count: int,
    points: int,
    seed: int,
    follow: Follow | None = None,
) -> Shares:
    """
    Find total effect and first-order index of each uncertain value on the logarithm of a number.

    Parameters
    ----------
    lowest : callable
        Deviations, one row for each value and one column for each draw -> the number in each draw.
    count : int
        Number of uncertain values.
    points : int
        Base points of each repeat, a power of two.
    seed : int
        Of the points.
    follow : callable, optional
        Told after each repeat how many of how many are done.
    """
    # only this command pays for it
    from scipy.stats import sobol_indices

    def logarithm(z: FloatArray) -> FloatArray:
        flat = z.reshape(count, -1)
        return np.log(lowest(flat)).reshape(1, *z.shape[1:])

    nothing = np.zeros(count)
    if count == 0 or not np.ptp(logarithm(_corners(count))) >= LEAST_SPREAD:
        return Shares(nothing, nothing, nothing, 0)
    found = []
    for repeat in range(REPEATS):
        found.append(
            sobol_indices(
                func=logarithm,
                n=points,
                dists=[_Deviations()] * count,
                random_state=np.random.default_rng((seed, repeat)),
            )
        )
        if follow is not None:
            follow(repeat + 1, REPEATS)
    total = np.array([np.ravel(result.total_order) for result in found])
    first = np.array([np.ravel(result.first_order) for result in found])
    error = total.std(axis=0, ddof=1) / np.sqrt(REPEATS)
    return Shares(total.mean(axis=0), first.mean(axis=0), error, REPEATS * points * (count + 2))


def _corners(count: int) -> FloatArray:
    """Every value at two standard deviations to either side, one at a time, and all as stated."""
    return np.concatenate((np.zeros((count, 1)), 2.0 * np.eye(count), -2.0 * np.eye(count)), axis=1)


def _rows(lowest: _Lowest, spread: Spread, unit: float, shares: Shares) -> tuple[InfluenceRow, ...]:
    """One row for each uncertain value, the largest share first."""
    rows = []
    for index, entry in enumerate(spread.factors.responses.uncertain):
        known = spread.deviations.copy()
        known[index] = 0.0
        margin = STUDENT * float(shares.error[index])
        share = float(shares.total[index])
        rows.append(
            InfluenceRow(
                uncertain=entry,
                share=share,
                share_band=(max(0.0, share - margin), share + margin),
                first_order=float(shares.first[index]),
                interval_if_known=_interval(lowest.at(known, spread.blows) * unit),
            )
        )
    return tuple(sorted(rows, key=lambda row: -row.share))


def _governing(lowest: _Lowest, spread: Spread) -> tuple[tuple[str, str, str, float], ...]:
    """Checks that are the weakest in some of the draws: joint, name, method, share of the draws."""
    responses = spread.factors.responses
    weakest = np.argmin(lowest.all(spread.deviations, spread.blows), axis=0)
    counts = np.bincount(weakest, minlength=len(responses.keys)) / weakest.size
    found = []
    for index in np.argsort(-counts, kind="stable"):
        joint, name, method, _ = responses.keys[index]
        if counts[index] >= LEAST_PART:
            found.append((responses.prepared.joints[joint].name, name, method, float(counts[index])))
    return tuple(found)


def _apart(assessment: Assessment) -> tuple[Link, ...]:
    """Checks of the first tooth alone, the weakest first."""
    checks = [check for joint in assessment.joints for check in joint.checks if check.counts and check.local]
    return tuple(
        Link.of(check, check.safety_factor)
        for check in sorted(checks, key=lambda check: check.margin)
        if check.safety_factor is not None
    )


def _wear(scenario: Scenario, assessment: Assessment, spread: Spread) -> tuple[WearShares, ...]:
    """What makes the wear life of each joint uncertain."""
    stated = scenario.targets.lash_limit is not None
    found = []
    for joint, resolved in zip(assessment.joints, spread.factors.responses.prepared.joints, strict=True):
        if joint.wear is not None and resolved.spline is not None:
            shares = wear_shares(resolved.spline, joint.wear, limit_stated=stated)
            found += [] if shares is None else [shares]
    return tuple(found)
