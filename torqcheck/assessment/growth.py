"""The growth loop: every joint wears, its play feeds the blow, and the first limit ends its life."""

from dataclasses import dataclass

import numpy as np

from torqcheck._types import FloatArray
from torqcheck.assessment.prepared import Prepared
from torqcheck.assessment.strength_course import NODES, StrengthCourse, strength_course
from torqcheck.assessment.wear_model import WearModel, beyond_limits, wear_model, why_no_wear
from torqcheck.capacity import reflected_lash
from torqcheck.checks import Verdict
from torqcheck.wear import LEAST_DRAWS, LifeDraws, Runs, WearLimit, drawn_runs, life_draws

__all__ = ["SEED", "JointGrowth", "NoLife", "growth_of"]

SEED = 20_260_314
STRENGTH_SIGMA = 0.1
"""Of the logarithm of a safety factor as the wear of one and the same joint changes it."""


@dataclass(frozen=True, slots=True)
class NoLife:
    """Why a joint has no wear life to state, and what that means for its verdict."""

    reason: str
    verdict: Verdict | None


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
        The lives.
    """

    model: WearModel
    strength: StrengthCourse
    limits: tuple[WearLimit, ...]
    runs: Runs
    draws: LifeDraws

    def clearance_at(self, hours: float) -> FloatArray:
        """Lash of every draw after some running hours, m along the pitch circle."""
        total = self.model.course.total_at(self.runs.exposure(hours))
        return self.model.state.lash.clearance + self.model.clearance_per_depth * total


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
        strength = strength_course(prepared, index, model.course, others, rise)
        limits = (*model.limits, *_strength_limit(strength))
        runs = drawn_runs(
            sigma=model.sigma,
            limits=limits,
            seed=seed,
            clock=model.clock,
            working_sigma=model.working_sigma,
            draws=draws,
        )
        found.append(JointGrowth(model, strength, limits, runs, life_draws(model.course, limits, runs)))
    return tuple(found)


def _model(prepared: Prepared, index: int, slap_share: float) -> WearModel | NoLife | None:
    """Resolve how one joint wears, or say why that cannot be told."""
    state = prepared.joints[index].spline
    if state is None:
        return None
    beyond = beyond_limits(state, prepared.lash_limit)
    if beyond:
        return NoLife(beyond, "fail")
    reason, verdict = why_no_wear(state, prepared.spells, prepared.ledger)
    if reason:
        return NoLife(reason, verdict)
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
    """The strength as a limit, where wear brings it down at all."""
    if not np.isfinite(strength.factor[0]):
        return ()
    name = f"safety factor 1, {strength.check[int(np.argmin(strength.factor))]}"
    factors = (strength.depth, strength.factor)
    return (WearLimit(name=name, member="both", sigma=STRENGTH_SIGMA, factors=factors),)


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
