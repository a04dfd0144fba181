"""How long each joint lasts, how sure that is, and when to open it again."""

import math
from collections.abc import Sequence
from pathlib import Path

import numpy as np

from torqcheck._types import FloatArray
from torqcheck.assessment.assess import assess_without_ranges
from torqcheck.assessment.bench.alignment import alignment_verdict
from torqcheck.assessment.bench.mate import mate_of
from torqcheck.assessment.fatigue.result import FatigueResult
from torqcheck.assessment.lifetime.fatigue_course import FatigueCourse, fatigue_course, fatigue_now
from torqcheck.assessment.lifetime.growth import JointGrowth, NoLife, growth_of
from torqcheck.assessment.lifetime.inspection_plan import inspection_plan
from torqcheck.assessment.lifetime.life_result import (
    JointLife,
    Life,
    LifeLimit,
    LifePoint,
    OtherJoint,
    SeenReading,
)
from torqcheck.assessment.lifetime.wear import wear_result, wear_verdict
from torqcheck.assessment.prepared import Prepared, checks_at, first_state, prepared_of
from torqcheck.assessment.result import Assessment, MateResult
from torqcheck.assessment.torque.blow import peak_at, worst_blow
from torqcheck.assessment.verdict.answered import answered_for
from torqcheck.assessment.verdict.verdict import found_verdict, joint_verdict
from torqcheck.assessment.verdict.whole import WholeCheck
from torqcheck.checks import Verdict, worst_verdict
from torqcheck.draws import SEED
from torqcheck.scenario import Scenario, load_scenario
from torqcheck.scenario.estimates import running_per_year
from torqcheck.scenario.joint_schema import Lash
from torqcheck.scenario.usual import DIAL
from torqcheck.wear import LEAST_DRAWS, LifeDraws, first_of, share_reaching

__all__ = ["life"]

MATE_DOUBTS = {"false fit", "worn mate"}
PERCENT = (10.0, 50.0, 90.0)
ROWS, FAN_POINTS = 10, 61
STEPS = (1.0, 2.0, 2.5, 5.0, 10.0)
BEYOND_SERVICE, MOST_SERVICES = 1.25, 5.0
"""How far the table goes: beyond the service life, and at most so many of them to see a median end."""


def life(
    path_or_scenario: str | Path | Scenario,
    *,
    blow_wear: float = 0.0,
    assessment: Assessment | None = None,
) -> Life:
    """
    Estimate how the splined joints of a scenario wear, until when, and when to open them.

    Parameters
    ----------
    path_or_scenario : str, Path or Scenario
        A scenario file, or one that was loaded before.
    blow_wear : float, optional
        What if: share by which the blows of the opened play raise the rate of wear by the time the
        lash is at its limit. Nothing is published on it, so that the default is none.
    assessment : Assessment, optional
        What `assess` says of the scenario, where it has been asked already.

    Returns
    -------
    Life
        Frozen.

    Raises
    ------
    ScenarioError
        If the file cannot be used; carries every fault.
    """
    scenario = path_or_scenario if isinstance(path_or_scenario, Scenario) else load_scenario(path_or_scenario)
    prepared = prepared_of(scenario)
    joints, others = _joints(prepared, blow_wear)
    missing = prepared.ledger.missing
    found = _worst(joints, others)
    yearly = running_per_year(scenario)
    verdict = found
    if missing and found is not None:
        favourable = _worst(*_joints(prepared_of(scenario, "favourable"), blow_wear)) or "pass"
        verdict = joint_verdict(found, favourable, missing_here=True, missing_anywhere=True)
    return Life(
        **answered_for(scenario),
        verdict=verdict,
        whole=WholeCheck.of(assess_without_ranges(scenario) if assessment is None else assessment),
        joints=joints,
        others=others,
        service_life=prepared.service_life,
        reliability=scenario.targets.reliability,
        hours_per_year=None if yearly is None else yearly / 3600.0,
        blow_wear=blow_wear,
        draws=LEAST_DRAWS,
        seed=SEED,
        undecided_by=tuple(missing),
        assumptions=tuple(prepared.ledger.assumptions),
        cautions=tuple(prepared.ledger.cautions),
    )


def _worst(joints: tuple[JointLife, ...], others: tuple[OtherJoint, ...]) -> Verdict | None:
    """The worst verdict of the joints that have one; None where no life is stated at all."""
    found = (*(joint.verdict for joint in joints), *(joint.fatigue.verdict for joint in others))
    stated = tuple(verdict for verdict in found if verdict is not None)
    return worst_verdict(stated) if stated else None


def _joints(prepared: Prepared, blow_wear: float) -> tuple[tuple[JointLife, ...], tuple[OtherJoint, ...]]:
    """
    Every splined joint of the path, and every other one of which the fatigue is known.

    On the way every part says what it misses, as in `assess`.
    """
    shock = worst_blow(prepared.scenario, prepared.path, prepared.loads, prepared.ledger)
    growths = growth_of(prepared, slap_share=blow_wear)
    plain = growth_of(prepared) if blow_wear else growths
    found, others = [], []
    for index, growth in enumerate(growths):
        joint = prepared.joints[index]
        checks_at(prepared, index, peak_at(index, shock, prepared.path, prepared.loads))
        if growth is None:
            if joint.fatigue is not None:
                others.append(OtherJoint(joint.name, joint.kind, joint.fatigue(prepared, index, shock)))
            continue
        mate = mate_of(first_state(prepared, index), prepared.ledger)
        fatigue = fatigue_now(prepared, index, shock)
        if isinstance(growth, NoLife):
            found.append(_without_life(prepared, index, growth, mate, fatigue))
        else:
            course = fatigue_course(prepared, index, shock, growth)
            median, other = None, plain[index]
            if other is not growth and isinstance(other, JointGrowth):
                before = _first(_ends(other, fatigue_course(prepared, index, shock, other)))
                median = _range(before.hours)[1]
            found.append(_joint(prepared, index, growth, mate, fatigue, course, median))
    return tuple(found), tuple(others)


def _without_life(
    prepared: Prepared, index: int, growth: NoLife, mate: MateResult, fatigue: FatigueResult
) -> JointLife:
    """A joint for which no wear life is stated."""
    state, wear = prepared.joints[index].spline, wear_result(prepared, index, growth)
    assert state is not None
    alignment = alignment_verdict(state)
    found = growth.verdict, fatigue.verdict, alignment
    judged = any(verdict is not None for verdict in found) or mate.verdict in MATE_DOUBTS
    return JointLife(
        name=state.name,
        verdict=found_verdict((), mate, wear, fatigue, alignment) if judged else None,
        mate=mate,
        reason=growth.reason,
        lash_limit=prepared.lash_limit,
        pitch_diameter=state.pitch_diameter,
        guide_revolutions=wear.guide_revolutions,
        guide_hours=None if wear.guide_life is None else wear.guide_life / 3600.0,
        fatigue=fatigue,
    )


def _joint(
    prepared: Prepared,
    index: int,
    growth: JointGrowth,
    mate: MateResult,
    fatigue: FatigueResult,
    course: FatigueCourse | None,
    plain_median: float | None,
) -> JointLife:
    """Sum up one joint that wears."""
    state, wear = prepared.joints[index].spline, wear_result(prepared, index, growth)
    assert state is not None
    ends = _ends(growth, course)
    first = _first(ends)
    lives, service = first.hours, prepared.service_life / 3600.0
    p10, p50, p90 = _range(lives)
    horizon = _horizon((p10, p50, p90), service, growth.now)
    plan = inspection_plan(
        growth,
        lives,
        prepared.lash_limit,
        _gauge(prepared, index),
        now=growth.now,
        longest=service - growth.now if service > growth.now else service,
        seed=SEED,
    )
    share = share_reaching(lives, service)
    verdict = wear_verdict(share, prepared.scenario.targets.reliability)
    return JointLife(
        name=state.name,
        verdict=worst_verdict((verdict, found_verdict((), mate, None, fatigue, alignment_verdict(state)))),
        mate=mate,
        reason="",
        life=(p10, p50, p90),
        limit=first.governing,
        share_reaching=share,
        plain_median=plain_median,
        limits=_limits(ends, first),
        growth=tuple(_point(growth, hours, course) for hours in _rows(growth.now, horizon)),
        fan=tuple(_point(growth, h, None) for h in np.linspace(growth.now, horizon, FAN_POINTS).tolist()),
        lash_limit=prepared.lash_limit,
        plan=plan,
        stop_travel=None if plan is None else _travel(prepared, index, plan.stop_reading),
        pitch_diameter=state.pitch_diameter,
        readings=_readings(growth),
        rate_over_median=_range(growth.runs.speed),
        sigma=wear.spread,
        guide_revolutions=wear.guide_revolutions,
        guide_hours=None if wear.guide_life is None else wear.guide_life / 3600.0,
        fatigue=fatigue,
    )


def _ends(growth: JointGrowth, course: FatigueCourse | None) -> list[tuple[str, FloatArray]]:
    """Hours at which each limit alone would end each draw, fatigue with its growing blows among them."""
    ends = []
    for limit, factor in zip(growth.limits, growth.runs.limit_factors, strict=True):
        reached = growth.model.course.exposure_at(limit.member, limit.depth_drawn(factor))
        ends.append((limit.name, growth.runs.hours(reached)))
    if course is not None:
        ends.append((course.name, np.maximum(course.hours(growth.runs, SEED), growth.now)))
    return ends


def _first(ends: Sequence[tuple[str, FloatArray]]) -> LifeDraws:
    return first_of(np.array([hours for _, hours in ends]), [name for name, _ in ends])


def _horizon(lives: tuple[float, float, float], service: float, now: float) -> float:
    """Running hours at which the table ends."""
    far = max(BEYOND_SERVICE * service, min(1.1 * lives[1], MOST_SERVICES * service))
    return max(min(far, lives[2]), now + 0.1 * min(far, lives[2]))


def _rows(now: float, horizon: float) -> list[float]:
    """Round hours from now to the horizon."""
    if not horizon > now:
        return [now]
    rough = (horizon - now) / ROWS
    power = 10.0 ** math.floor(math.log10(rough))
    step = power * next(step for step in STEPS if step * power >= rough * (1.0 - 1e-9))
    first = math.floor(now / step) + 1
    rows = [now]
    while first * step <= horizon * (1.0 + 1e-9):
        rows.append(first * step)
        first += 1
    return rows


def _range(values: FloatArray) -> tuple[float, float, float]:
    p10, p50, p90 = (float(value) for value in np.percentile(values, PERCENT))
    return p10, p50, p90


def _point(growth: JointGrowth, hours: float, course: FatigueCourse | None) -> LifePoint:
    """The joint after some hours; a lash beyond the end of the course is not known."""
    lash, model = _range(growth.clearance_at(hours)), growth.model
    begin = float(np.median(growth.first_clearance))
    deepest = float(model.course.total[-1])
    worn = (lash[1] - begin) / model.clearance_per_depth
    blow, factor, check = growth.strength.at(min(max(worn, 0.0), deepest))
    end = (begin + model.clearance_per_depth * deepest) * (1.0 - 1e-9)
    low, middle, high = (value if value < end else None for value in lash)
    damage = None if course is None else course.damage_at(growth.runs, hours)
    return LifePoint(
        hours, (low, middle, high), blow, factor if math.isfinite(factor) else None, check, damage
    )


def _limits(ends: Sequence[tuple[str, FloatArray]], first: LifeDraws) -> tuple[LifeLimit, ...]:
    """What each limit alone would allow, and which share of the draws it ends."""
    found = []
    for (name, hours), share in zip(ends, first.shares, strict=True):
        # a limit that some draws never reach within the course has no percentile there
        low, middle, high = (
            float(value) if math.isfinite(value) else None
            for value in np.percentile(hours, PERCENT, method="inverted_cdf")
        )
        found.append(LifeLimit(name, (low, middle, high), share))
    return tuple(sorted(found, key=lambda limit: -limit.share))


def _readings(growth: JointGrowth) -> tuple[SeenReading, ...]:
    return tuple(
        SeenReading(seen.hours, seen.clearance, _range(growth.expected_at(seen.hours)))
        for seen in growth.observations
    )


def _gauge(prepared: Prepared, index: int) -> float:
    """Standard deviation of a lash reading at this joint, m along the pitch circle."""
    state = prepared.joints[index].spline
    assert state is not None
    lash = state.joint.lash
    if isinstance(lash, Lash) and lash.radius is not None:
        return 0.5 * DIAL * 0.5 * state.pitch_diameter / lash.radius.value
    return 0.5 * DIAL


def _travel(prepared: Prepared, index: int, clearance: float) -> tuple[float, float] | None:
    """A clearance as the travel of the dial where the user has it, and that radius."""
    state = prepared.joints[index].spline
    assert state is not None
    lash = state.joint.lash
    if not isinstance(lash, Lash) or lash.radius is None:
        return None
    return clearance * lash.radius.value / (0.5 * state.pitch_diameter), lash.radius.value
