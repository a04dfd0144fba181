"""Wear life of one splined joint as a range, and the guide's own count of revolutions beside it."""

import math
from collections.abc import Sequence

import numpy as np

from torqcheck.assessment.lifetime.growth import JointGrowth, NoLife
from torqcheck.assessment.prepared import Prepared
from torqcheck.assessment.result import WearResult
from torqcheck.assessment.teeth.state import SplineState
from torqcheck.assessment.torque.path import JointLoad
from torqcheck.capacity import flank_pressure, load_distribution_factor, wear_life_revolutions
from torqcheck.checks import Verdict
from torqcheck.scenario.estimates import Spell
from torqcheck.wear import percentiles, share_reaching, slip_amplitude

__all__ = ["wear_result", "wear_verdict"]

TWO_PI = 2.0 * math.pi


def wear_result(prepared: Prepared, index: int, growth: JointGrowth | NoLife) -> WearResult:
    """
    Sum up the wear life of a splined joint.

    Parameters
    ----------
    prepared : Prepared
        The path.
    index : int
        Which joint.
    growth : JointGrowth or NoLife
        How it wears, or why it has no life to state.
    """
    state = prepared.joints[index].spline
    assert state is not None
    revolutions, guide_life = _guide(
        state, prepared.loads[index], prepared.spells, prepared.application_factor
    )
    amplitude = float(slip_amplitude(0.5 * state.pitch_diameter, state.tilt.angle))
    softer = "external" if state.external.vickers < state.internal.vickers else "internal"
    if isinstance(growth, NoLife):
        return WearResult(
            verdict=growth.verdict,
            life=None,
            share_reaching_service_life=None,
            limit="",
            reason=growth.reason,
            guide_revolutions=revolutions,
            guide_life=guide_life,
            slip_amplitude=amplitude,
            spread=None,
            softer_member=softer,
            frets=growth.frets,
        )
    life = percentiles(growth.draws.hours)
    share = share_reaching(growth.draws.hours, prepared.service_life / 3600.0)
    return WearResult(
        verdict=wear_verdict(share, prepared.scenario.targets.reliability),
        life=(float(life.p10) * 3600.0, float(life.p50) * 3600.0, float(life.p90) * 3600.0),
        share_reaching_service_life=share,
        limit=growth.draws.governing,
        reason="",
        guide_revolutions=revolutions,
        guide_life=guide_life,
        slip_amplitude=amplitude,
        spread=float(np.log(life.p90 / life.p10) / 2.5631) if life.p10 > 0.0 else None,
        softer_member=softer,
    )


def wear_verdict(share: float, reliability: float) -> Verdict:
    """Pass when enough of the draws reach the service life, marginal when the median does."""
    if share >= reliability:
        return "pass"
    return "marginal" if share >= 0.5 else "fail"


def _guide(
    state: SplineState, load: JointLoad, spells: Sequence[Spell], application_factor: float
) -> tuple[float | None, float | None]:
    """Revolutions and running time that the guide's wear-life factor grants, s; None for a fixed seat."""
    if state.joint.seat == "fixed" or state.crown_height is not None:
        return None, None
    factor = application_factor * float(load_distribution_factor(state.tilt.angle, state.engagement))
    pressure = factor * float(
        flank_pressure(
            load.torque, state.pitch_diameter, state.spline.teeth, state.engagement, state.contact_height
        )
    )
    allowable = min(state.external.allowable.flank_straight, state.internal.allowable.flank_straight)
    revolutions = float(wear_life_revolutions(pressure, allowable))
    mean_speed = load.speed(sum(spell.share * spell.speed for spell in spells))
    if mean_speed == 0.0:
        return revolutions, None
    return revolutions, revolutions * TWO_PI / mean_speed
