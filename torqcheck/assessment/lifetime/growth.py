"""The growth loop: every joint wears, its play feeds the blow, and the first limit ends its life."""

from dataclasses import dataclass, replace

import numpy as np

from torqcheck._types import FloatArray
from torqcheck.assessment.lifetime.strength_course import NODES, StrengthCourse, strength_course
from torqcheck.assessment.lifetime.wear_model import (
    WearModel,
    bedded_state,
    beyond_limits,
    tilt_slip,
    wear_model,
    why_no_wear,
)
from torqcheck.assessment.prepared import Prepared, first_state
from torqcheck.assessment.teeth.state import SplineState
from torqcheck.capacity import reflected_lash
from torqcheck.checks import Verdict
from torqcheck.draws import SEED
from torqcheck.errors import DomainError
from torqcheck.scenario.inspections import inspections_of
from torqcheck.scenario.joint_schema import Lash, SplineJoint
from torqcheck.scenario.parts import stated_lash
from torqcheck.wear import (
    LEAST_DRAWS,
    LashObservation,
    LifeDraws,
    Runs,
    WearLimit,
    depth_sum_at_lash_limit,
    drawn_runs,
    life_draws,
    reread_runs,
)

__all__ = ["JointGrowth", "NoLife", "growth_of"]


CONTRADICTION = (
    "the lash readings contradict everything that the estimate holds possible: check readings, alignment, "
    "lubrication and duty"
)
CLEARLY = 1.5
"""Tolerances of a reading beyond which a growth is one."""
LEAST_ALIVE, LEAST_EFFECTIVE, MOST_SURPRISE = 0.02, 100.0, 3.5
"""Share of the draws that must be alive at the last reading, draws that the readings must leave, and
how many standard deviations the wear may lie from what was expected."""


@dataclass(frozen=True, slots=True)
class NoLife:
    """Why a joint has no wear life to state, what that means for its verdict, and whether it frets."""

    reason: str
    verdict: Verdict | None
    frets: bool = False


@dataclass(frozen=True, slots=True)
class JointGrowth:
    """
    How one joint wears and what ends it.

    Parameters
    ----------
    model : WearModel
        Rates, grease, limits of depth, course.
    strength : StrengthCourse
        Blow and strength along that course.
    limits : tuple of WearLimit
        Everything that can end the life, the strength included.
    runs : Runs
        What was drawn.
    draws : LifeDraws
        The lives, h from where the hours began.
    first_clearance : array, m
        Lash of each draw when the hours began.
    observations : tuple of LashObservation
        Lash readings taken since, which the draws agree with.
    before : Runs
        What was drawn before any of them was heeded; the same where there are none.
    """

    model: WearModel
    strength: StrengthCourse
    limits: tuple[WearLimit, ...]
    runs: Runs
    draws: LifeDraws
    first_clearance: FloatArray
    observations: tuple[LashObservation, ...]
    before: Runs

    @property
    def now(self) -> float:
        """Running hours at the last reading."""
        return self.observations[-1].hours if self.observations else 0.0

    def clearance_at(self, hours: float) -> FloatArray:
        """Lash of every draw after some running hours, m along the pitch circle."""
        return self.first_clearance + self._growth(self.runs, hours)

    def expected_at(self, hours: float) -> FloatArray:
        """The same before any later reading was heeded."""
        return self.model.state.lash.clearance + self._growth(self.before, hours)

    def _growth(self, runs: Runs, hours: float) -> FloatArray:
        model, per_depth = self.model, self.model.clearance_per_depth
        bedded = 0.0 if model.bedding is None else model.bedding.clearance(hours, per_depth)
        return per_depth * model.course.total_at(runs.exposure(hours)) + bedded


def growth_of(
    prepared: Prepared,
    *,
    rise: float | None = None,
    slap_share: float = 0.0,
    draws: int = LEAST_DRAWS,
    seed: int = SEED,
) -> tuple[JointGrowth | NoLife | None, ...]:
    """
    Wear every splined joint of a path down until something ends it.

    Parameters
    ----------
    prepared : Prepared
        The path; its ledger takes what is assumed about wear.
    rise : float, N m/s, optional
        Rise of the motor torque instead of that of the scenario.
    slap_share : float, optional
        What if: share by which the blows of the opened play raise the rate of wear at the lash limit.
    draws, seed : int, optional
        Number of draws, and their seed.

    Returns
    -------
    tuple of JointGrowth, NoLife or None
        One for each joint; None for a joint that is no spline.

    Notes
    -----
    The play of all joints adds up in the blow. While one joint is followed through its states of
    wear, the others are taken as worn as they are at their median when it is at its own.
    """
    models = [_model(prepared, index, slap_share) for index in range(len(prepared.joints))]
    found: list[JointGrowth | NoLife | None] = []
    for index, model in enumerate(models):
        if not isinstance(model, WearModel):
            found.append(model)
            continue
        others = _gained_by_others(prepared, index, models)
        strength = strength_course(prepared, index, model.bedded, model.course, others, rise)
        limits = (*model.limits, *_strength_limit(strength))
        before = drawn_runs(
            sigma=model.sigma,
            limits=limits,
            seed=seed,
            clock=model.clock,
            working_sigma=model.working_sigma,
            draws=draws,
        )
        seen = _observations(prepared, index)
        if seen:
            began = _first_sigma(prepared, index, seen)
            found.append(_reread(prepared, model, strength, limits, before, seen, began, seed))
            continue
        first = np.full(draws, model.state.lash.clearance)
        lives = life_draws(model.course, limits, before)
        found.append(JointGrowth(model, strength, limits, before, lives, first, (), before))
    return tuple(found)


def _observations(prepared: Prepared, index: int) -> tuple[LashObservation, ...]:
    """Lash readings taken since; none where the first one is not known, so that they show no growth."""
    state = first_state(prepared, index)
    if state is prepared.joints[index].spline:
        return ()
    return tuple(
        LashObservation(
            hours=found.running_time / 3600.0,
            clearance=found.clearance,
            sigma=0.5 * found.tolerance,
            regreased=found.regreased,
        )
        for found in inspections_of(prepared.written, index, state.pitch_diameter)
    )


def _first_sigma(prepared: Prepared, index: int, seen: tuple[LashObservation, ...]) -> float:
    """Standard deviation of the play with which the hours began, m; of new parts as later."""
    joint = prepared.written.joint[index]
    if isinstance(joint, SplineJoint) and isinstance(joint.lash, Lash):
        return 0.5 * stated_lash(joint.lash, first_state(prepared, index).pitch_diameter).tolerance
    return seen[0].sigma


def _reread(
    prepared: Prepared,
    model: WearModel,
    strength: StrengthCourse,
    limits: tuple[WearLimit, ...],
    before: Runs,
    seen: tuple[LashObservation, ...],
    began: float,
    seed: int,
) -> JointGrowth | NoLife:
    """Narrow the draws by the readings, and keep those that are alive at the last of them."""
    state, now = model.state, seen[-1].hours
    if seen[-1].clearance >= prepared.lash_limit:
        return NoLife("the last lash reading is at or beyond its limit: renew both parts", "fail")
    bedded = 0.0 if model.bedding is None else model.bedding.clearance(np.inf, model.clearance_per_depth)
    try:
        found = reread_runs(
            course=model.course,
            clearance=state.lash.clearance + bedded,
            clearance_sigma=began,
            clearance_per_depth=model.clearance_per_depth,
            sigma=model.sigma,
            observations=seen,
            limits=limits,
            seed=seed,
            clock=model.clock,
            working_sigma=model.working_sigma,
            draws=before.speed.size,
        )
    except DomainError:
        return _contradicted(prepared, state)
    room = depth_sum_at_lash_limit(found.clearance, prepared.lash_limit, state.spline.pressure_angle)
    own = (replace(limits[0], depth=np.asarray(room)), *limits[1:])
    lives = life_draws(model.course, own, found.runs)
    alive = lives.hours > now
    if np.mean(alive) < LEAST_ALIVE or found.effective < LEAST_EFFECTIVE or found.surprise > MOST_SURPRISE:
        return _contradicted(prepared, state)
    kept = LifeDraws(lives.hours[alive], lives.limit[alive], lives.names)
    own = (replace(limits[0], depth=np.asarray(room)[alive]), *limits[1:])
    return JointGrowth(
        model, strength, own, found.runs.pick(alive), kept, found.clearance[alive] - bedded, seen, before
    )


def _contradicted(prepared: Prepared, state: SplineState) -> NoLife:
    """Readings that nothing explains decide nothing: one of them, or what the estimate rests on, is wrong."""
    prepared.ledger.miss(
        state.name, "lash, once more", "read it again as it was read first, with the same arm and dial"
    )
    return NoLife(CONTRADICTION, "undecided")


def _grown_all_the_same(prepared: Prepared, index: int, first: SplineState) -> str:
    """Say how far the play has grown in service where no wear law speaks; nothing if it has not."""
    seen = _observations(prepared, index)
    if not seen:
        return ""
    grown, last = seen[-1].clearance - first.lash.clearance, seen[-1]
    if grown <= CLEARLY * 2.0 * last.sigma:
        return ""
    pace = grown / last.hours
    left = (prepared.lash_limit - last.clearance) / pace
    return (
        f"; yet the play has grown by {grown * 1e3:.3f} mm in {last.hours:.3g} h, so it does wear: at this "
        f"pace it reaches its limit after {left:.2g} h more. Find out what moves there"
    )


def _model(prepared: Prepared, index: int, slap_share: float) -> WearModel | NoLife | None:
    """Resolve how one joint wears, or say why that cannot be told."""
    present = prepared.joints[index].spline
    if present is None:
        return None
    state = first_state(prepared, index)
    beyond = beyond_limits(present, prepared.lash_limit)
    if beyond:
        return NoLife(beyond, "fail")
    reason, verdict = why_no_wear(state, prepared.spells, prepared.ledger)
    if reason:
        grown = _grown_all_the_same(prepared, index, state)
        turning = any(spell.torque and spell.speed for spell in prepared.spells)
        return NoLife(
            reason + grown, "marginal" if grown else verdict, frets=turning and tilt_slip(state) > 0.0
        )
    bedded = bedded_state(state, prepared.loads[index], prepared.spells)
    if beyond_limits(bedded, prepared.lash_limit):
        return NoLife(
            "bedding in alone (running_in) takes the joint to a limit of wear: fit it closer, or allow more",
            "fail",
        )
    return wear_model(
        state,
        prepared.loads[index],
        prepared.spells,
        prepared.lash_limit,
        prepared.ledger,
        limit_stated=prepared.scenario.targets.lash_limit is not None,
        slap_share=slap_share,
    )


def _strength_limit(strength: StrengthCourse) -> tuple[WearLimit, ...]:
    """
    The strength as a limit, where wear brings it down at all.

    Without a spread of its own: how sure a factor is stands beside each check, and what may be
    below 1 already is no matter of wear.
    """
    if not np.isfinite(strength.factor[0]):
        return ()
    below = np.flatnonzero(strength.factor <= 1.0)
    first = int(below[0]) if below.size else int(np.argmin(strength.factor))
    name = f"safety factor 1, {strength.check[first]}"
    factors = (strength.depth, strength.factor)
    return (WearLimit(name=name, member="both", sigma=0.0, factors=factors),)


def _gained_by_others(prepared: Prepared, index: int, models: list[WearModel | NoLife | None]) -> FloatArray:
    """Lash that the other joints gain while one wears, rad at the reference joint, at each of its states."""
    own = models[index]
    assert isinstance(own, WearModel)
    gained = np.zeros(NODES)
    depth = np.linspace(0.0, own.course.total[-1], NODES)
    hours = own.clock.hours(np.interp(depth, own.course.total, own.course.exposure))
    reference = prepared.loads[prepared.path.reference].ratio
    for other, model in enumerate(models):
        if other == index or not isinstance(model, WearModel):
            continue
        worn = model.course.total_at(model.clock.exposure(hours))
        angle = 2.0 * model.clearance_per_depth * worn / model.state.pitch_diameter
        gained = gained + reflected_lash(angle, prepared.loads[other].ratio / reference)
    return np.asarray(gained)
