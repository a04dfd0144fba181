"""How long each joint lasts, how sure that is, and when to open it again."""

import math
from pathlib import Path

import numpy as np

from torqcheck import __version__
from torqcheck._types import FloatArray
from torqcheck.assessment.blow import worst_blow
from torqcheck.assessment.growth import JointGrowth, NoLife, growth_of
from torqcheck.assessment.inspection_plan import inspection_plan
from torqcheck.assessment.life_result import JointLife, Life, LifeLimit, LifePoint, SeenReading
from torqcheck.assessment.mate import mate_of
from torqcheck.assessment.prepared import Prepared, checks_at, first_state, prepared_of
from torqcheck.assessment.verdict import joint_verdict
from torqcheck.assessment.wear import wear_result, wear_verdict
from torqcheck.checks import Verdict, worst_verdict
from torqcheck.draws import SEED
from torqcheck.scenario import Scenario, load_scenario
from torqcheck.scenario.estimates import running_per_year
from torqcheck.scenario.joint_schema import Lash
from torqcheck.scenario.usual import DIAL
from torqcheck.wear import LEAST_DRAWS, percentiles, share_reaching

__all__ = ["life"]

PERCENT = (10.0, 50.0, 90.0)
ROWS, FAN_POINTS = 10, 61
STEPS = (1.0, 2.0, 2.5, 5.0, 10.0)
BEYOND_SERVICE, MOST_SERVICES = 1.25, 5.0
"""How far the table goes: beyond the service life, and at most so many of them to see a median end."""


def life(path_or_scenario: str | Path | Scenario, *, blow_wear: float = 0.0) -> Life:
    """
    Estimate how the splined joints of a scenario wear, until when, and when to open them.

    Parameters
    ----------
    path_or_scenario : str, Path or Scenario
        A scenario file, or one that was loaded before.
    blow_wear : float, optional
        What if: share by which the blows of the opened play raise the rate of wear by the time the
        lash is at its limit. Nothing is published on it, so that the default is none.

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
    _ask_for_readings(prepared)
    joints = _joints(prepared, blow_wear)
    missing = prepared.ledger.missing
    found = _worst(joints)
    yearly = running_per_year(scenario)
    verdict = found
    if missing and found is not None:
        favourable = _worst(_joints(prepared_of(scenario, "favourable"), blow_wear)) or "pass"
        verdict = joint_verdict(found, favourable, missing_here=True, missing_anywhere=True)
    return Life(
        version=__version__,
        title=scenario.record.title,
        build=scenario.record.build,
        file=scenario.path.name,
        file_sha256=scenario.file_sha256,
        verdict=verdict,
        joints=joints,
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


def _ask_for_readings(prepared: Prepared) -> None:
    """Let every part say what it misses, as `assess` does."""
    shock = worst_blow(prepared.scenario, prepared.path, prepared.loads, prepared.ledger)
    for index, joint in enumerate(prepared.joints):
        checks_at(prepared, index, shock.peak_torque)
        if joint.spline is not None:
            mate_of(first_state(prepared, index), prepared.ledger)


def _worst(joints: tuple[JointLife, ...]) -> Verdict | None:
    """The worst verdict of the joints that have one; None where no life is stated at all."""
    found = tuple(joint.verdict for joint in joints if joint.verdict is not None)
    return worst_verdict(found) if found else None


def _joints(prepared: Prepared, blow_wear: float) -> tuple[JointLife, ...]:
    """Every splined joint of the path."""
    growths = growth_of(prepared, slap_share=blow_wear)
    plain = growth_of(prepared) if blow_wear else growths
    return tuple(
        _joint(prepared, index, growth, plain[index])
        for index, growth in enumerate(growths)
        if growth is not None
    )


def _joint(
    prepared: Prepared, index: int, growth: JointGrowth | NoLife, plain: JointGrowth | NoLife | None
) -> JointLife:
    """Sum up one joint."""
    state = prepared.joints[index].spline
    assert state is not None
    wear = wear_result(prepared, index, growth)
    if isinstance(growth, NoLife):
        return JointLife(
            name=state.name,
            verdict=growth.verdict,
            reason=growth.reason,
            lash_limit=prepared.lash_limit,
            first_lash=first_state(prepared, index).lash.clearance,
            pitch_diameter=state.pitch_diameter,
            guide_revolutions=wear.guide_revolutions,
            guide_hours=None if wear.guide_life is None else wear.guide_life / 3600.0,
        )
    lives = growth.draws.hours
    service = prepared.service_life / 3600.0
    found = percentiles(lives)
    p10, p50, p90 = float(found.p10), float(found.p50), float(found.p90)
    horizon = _horizon((p10, p50, p90), service, growth.now)
    plan = inspection_plan(
        growth, prepared.lash_limit, _gauge(prepared, index), now=growth.now, longest=service, seed=SEED
    )
    share = share_reaching(lives, service)
    median = None
    if plain is not growth and isinstance(plain, JointGrowth):
        median = float(percentiles(plain.draws.hours).p50)
    return JointLife(
        name=state.name,
        verdict=wear_verdict(share, prepared.scenario.targets.reliability),
        reason="",
        life=(p10, p50, p90),
        limit=growth.draws.governing,
        share_reaching=share,
        plain_median=median,
        limits=_limits(growth),
        growth=tuple(_point(growth, hours) for hours in _rows(growth.now, horizon)),
        fan=tuple(_point(growth, h) for h in np.linspace(growth.now, horizon, FAN_POINTS).tolist()),
        lash_limit=prepared.lash_limit,
        first_lash=first_state(prepared, index).lash.clearance,
        plan=plan,
        stop_travel=None if plan is None else _travel(prepared, index, plan.stop_reading),
        pitch_diameter=state.pitch_diameter,
        readings=_readings(growth),
        rate_over_median=_range(growth.runs.speed),
        sigma=wear.spread,
        guide_revolutions=wear.guide_revolutions,
        guide_hours=None if wear.guide_life is None else wear.guide_life / 3600.0,
    )


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


def _point(growth: JointGrowth, hours: float) -> LifePoint:
    """The joint after some hours; a lash beyond the end of the course is not known."""
    lash = _range(growth.clearance_at(hours))
    model = growth.model
    end = float(np.median(growth.first_clearance)) + model.clearance_per_depth * model.course.total[-1]
    worn = (lash[1] - float(np.median(growth.first_clearance))) / model.clearance_per_depth
    blow, factor, check = growth.strength.at(min(max(worn, 0.0), float(model.course.total[-1])))
    known = [value if value < end * (1.0 - 1e-9) else None for value in lash]
    return LifePoint(
        hours, (known[0], known[1], known[2]), blow, factor if math.isfinite(factor) else None, check
    )


def _limits(growth: JointGrowth) -> tuple[LifeLimit, ...]:
    """What each limit alone would allow, and which share of the draws it ends."""
    found = []
    for limit, factor, share in zip(
        growth.limits, growth.runs.limit_factors, growth.draws.shares, strict=True
    ):
        reached = growth.model.course.exposure_at(limit.member, limit.depth_drawn(factor))
        hours = growth.runs.hours(reached)
        # a limit that some draws never reach within the course has no percentile there
        values = [float(v) for v in np.percentile(hours, PERCENT, method="inverted_cdf")]
        known = [value if math.isfinite(value) else None for value in values]
        found.append(LifeLimit(limit.name, (known[0], known[1], known[2]), share))
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
