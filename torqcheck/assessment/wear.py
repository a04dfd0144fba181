"""Wear life of one splined joint as a range, and the guide's own count of revolutions beside it."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from torqcheck.assessment.path import JointLoad
from torqcheck.assessment.result import WearResult
from torqcheck.assessment.spline_state import SplineState
from torqcheck.capacity import flank_pressure, load_distribution_factor, wear_life_revolutions
from torqcheck.checks import Verdict
from torqcheck.materials import WearClass, default_lash_limit, wear_class
from torqcheck.scenario.estimates import Spell
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.schema import Scenario
from torqcheck.scenario.sizes import worn_step
from torqcheck.wear import (
    COEFFICIENT_SIGMA_UNKNOWN,
    LEAST_DRAWS,
    LIMIT_SIGMA,
    LOAD_SIGMA,
    SLIP_SIGMA_ASSUMED,
    SLIP_SIGMA_MEASURED,
    THICKNESS_LOSS_LIMIT,
    DepthRates,
    Induction,
    WearLimit,
    combined_sigma,
    depth_at_thickness_loss,
    depth_per_revolution,
    depth_sum_at_lash_limit,
    flank_height,
    hardness_scale,
    life_draws,
    percentiles,
    share_reaching,
    slip_amplitude,
    slip_regime,
)

__all__ = ["SEED", "lash_limit", "wear_of"]

SEED = 20_260_314
GREASE_INDUCTION = 500.0
"""Hours for which sealed grease works when nobody renews it."""
GREASE_INDUCTION_SIGMA = 1.0
"""Of the logarithm: from about the 62.5 h of a severe rig with splines to three times what joints get."""
ALIGNED_SLIP = 1e-6
"""Slip that no workshop can tell from none, m."""

TWO_PI = 6.283185307179586


@dataclass(frozen=True, slots=True)
class _Rates:
    """Median rates, and the grease that ends."""

    rates: DepthRates
    induction: Induction | None
    sigma: float


def lash_limit(scenario: Scenario, ledger: Ledger) -> float:
    """Largest lash that is accepted, m along the pitch circle."""
    if scenario.targets.lash_limit is not None:
        return scenario.targets.lash_limit.value
    limit = default_lash_limit()
    assert limit.limit is not None
    return ledger.assume(
        "targets.lash_limit",
        limit.limit,
        "length",
        f"not stated; the limit that a manual prints for: {limit.item}",
    )


def wear_of(
    state: SplineState,
    scenario: Scenario,
    load: JointLoad,
    spells: Sequence[Spell],
    service_life: float,
    limit: float,
    application_factor: float,
    ledger: Ledger,
) -> WearResult:
    """
    Estimate the wear life of a splined joint.

    Parameters
    ----------
    state, scenario, load, spells
        The joint, the file, what reaches the joint and how it is used.
    service_life : float
        Wanted running time, s.
    limit : float
        Lash limit, m along the pitch circle.
    application_factor : float
        Of the guide, for its own count of revolutions.
    ledger : Ledger
        Takes assumptions and cautions.
    """
    revolutions, guide_life = _guide(state, load, spells, application_factor)
    amplitude = float(slip_amplitude(0.5 * state.pitch_diameter, state.tilt.angle))
    softer = "external" if state.external.vickers < state.internal.vickers else "internal"

    def without_life(reason: str, verdict: Verdict | None) -> WearResult:
        return WearResult(
            verdict=verdict,
            life=None,
            share_reaching_service_life=None,
            limit="",
            reason=reason,
            guide_revolutions=revolutions,
            guide_life=guide_life,
            slip_amplitude=amplitude,
            spread=None,
            softer_member=softer,
        )

    beyond = _beyond_limits(state, limit)
    if beyond:
        return without_life(beyond, "fail")
    reason, verdict = _why_no_wear(state, spells, ledger)
    if reason:
        return without_life(reason, verdict)
    rated = _rates(state, load, spells, ledger)
    draws = life_draws(
        rates=rated.rates,
        limits=_limits(state, limit, stated=scenario.targets.lash_limit is not None),
        sigma=rated.sigma,
        generator=np.random.default_rng(SEED),
        draws=LEAST_DRAWS,
        induction=rated.induction,
    )
    life = percentiles(draws.hours)
    share = share_reaching(draws.hours, service_life / 3600.0)
    spread = float(np.log(life.p90 / life.p10) / 2.5631)
    return WearResult(
        verdict=_verdict(share, scenario.targets.reliability),
        life=(float(life.p10) * 3600.0, float(life.p50) * 3600.0, float(life.p90) * 3600.0),
        share_reaching_service_life=share,
        limit=draws.governing,
        reason="",
        guide_revolutions=revolutions,
        guide_life=guide_life,
        slip_amplitude=amplitude,
        spread=spread,
        softer_member=softer,
    )


def _verdict(share: float, reliability: float) -> Verdict:
    """Pass when enough of the draws reach the service life, marginal when the median does."""
    if share >= reliability:
        return "pass"
    return "marginal" if share >= 0.5 else "fail"


def _beyond_limits(state: SplineState, limit: float) -> str:
    """Say which limit of wear is passed already, if one is."""
    if state.lash.clearance >= limit:
        known = "" if state.lash.measured else "assumed "
        return f"the {known}lash is at or beyond its limit now: renew both parts"
    for (member, _), lost, nominal in zip(state.halves, state.lost, state.new_widths, strict=True):
        if lost >= THICKNESS_LOSS_LIMIT * nominal:
            return f"the teeth of the {member.side} member have lost a tenth of their thickness: renew it"
    return ""


def _why_no_wear(state: SplineState, spells: Sequence[Spell], ledger: Ledger) -> tuple[str, Verdict | None]:
    """Say why no wear life is stated, if none is, and what that means."""
    if state.joint.seat == "fixed":
        return "fixed seat: no rocking, no tilt wear", None
    if not any(spell.torque and spell.speed for spell in spells):
        return "the duty list holds no torque at speed", None
    if state.tilt.turns_with_shaft:
        ledger.warn(
            f"{state.key} turning error",
            f"{state.name}: an error that turns with the shaft makes no cyclic slip, but loads the same "
            "teeth and the bearings all the time; the parts still creep as far as the lash lets them.",
        )
        return "the error turns with the shaft: no cyclic slip", None
    amplitude = float(slip_amplitude(0.5 * state.pitch_diameter, _wear_tilt(state)))
    if slip_regime(amplitude) != "partial slip":
        return "", None
    unprotected = state.lubrication in {"dry", "expired grease"}
    if amplitude > ALIGNED_SLIP or unprotected:
        ledger.warn(
            f"{state.key} fretting",
            f"{state.name}: slip of up to {amplitude * 1e6:.0f} um at each turn is too little for the wear "
            "law and enough to fret: red-brown dust, and cracks at the tooth roots. Look for both at each "
            "inspection.",
        )
    reason = f"slip {amplitude * 1e6:.0f} um: fretting regime, wear law does not hold"
    # without a working lubricant, low slip and low stress are no ground for a pass
    return reason, "marginal" if unprotected else None


def _wear_tilt(state: SplineState) -> float:
    """Tilt for the wear law: as read, or the far end of its tolerance where only that makes it slip."""
    radius = 0.5 * state.pitch_diameter
    if slip_regime(float(slip_amplitude(radius, state.tilt.angle))) == "partial slip":
        return state.tilt.angle + state.tilt.tolerance
    return state.tilt.angle


def _rates(state: SplineState, load: JointLoad, spells: Sequence[Spell], ledger: Ledger) -> _Rates:
    """Depth per hour of each member, and the spread of the logarithm."""
    grease = wear_class(state.lubrication)
    slip = SLIP_SIGMA_MEASURED if state.tilt.measured else SLIP_SIGMA_ASSUMED
    known = state.joint.lubrication is not None
    sigma = float(combined_sigma(grease.sigma_ln if known else COEFFICIENT_SIGMA_UNKNOWN, slip, LOAD_SIGMA))
    fresh = _depth_rates(state, load, spells, grease)
    ledger.assume(
        f"{state.key}.wear_coefficient",
        grease.wear_coefficient * 1e9,
        None,
        f"mm3/(N m) for {grease.lubrication} between hard flanks, median; softer flanks in proportion",
        band=(grease.wear_coefficient_p10 * 1e9, grease.wear_coefficient_p90 * 1e9),
    )
    if state.lubrication != "sealed grease":
        return _Rates(fresh, None, sigma)
    tenth = math.exp(-1.2816 * GREASE_INDUCTION_SIGMA)
    ledger.assume(
        f"{state.key}.grease_life",
        GREASE_INDUCTION * 3600.0,
        "time",
        "sealed grease works for a time, then the flanks wear as if dry; 500 h is a renewal interval of "
        "driveline joints, a severe rig with splines ran 62.5 h",
        band=(GREASE_INDUCTION * tenth * 3600.0, GREASE_INDUCTION / tenth * 3600.0),
    )
    renewal = state.joint.grease_renewal
    grease_life = Induction(
        hours=GREASE_INDUCTION,
        rates_after=_depth_rates(state, load, spells, wear_class("dry")),
        sigma=GREASE_INDUCTION_SIGMA,
        renewal=None if renewal is None else renewal.value / 3600.0,
    )
    return _Rates(fresh, grease_life, sigma)


def _depth_rates(
    state: SplineState, load: JointLoad, spells: Sequence[Spell], lubrication: WearClass
) -> DepthRates:
    """Sum depth per revolution times revolutions per hour over the duty list, for each member."""
    torque = np.array([abs(spell.torque) * load.torque for spell in spells])
    turns = np.array([spell.share * load.speed(spell.speed) / TWO_PI * 3600.0 for spell in spells])
    depths = []
    for member in (state.external, state.internal):
        coefficient = lubrication.wear_coefficient * float(hardness_scale(member.vickers))
        depth = depth_per_revolution(
            wear_coefficient=coefficient,
            torque=torque,
            pitch_radius=0.5 * state.pitch_diameter,
            teeth=state.spline.teeth,
            length=state.engagement,
            contact_height=float(flank_height(state.contact_height, state.spline.pressure_angle)),
            pressure_angle=state.spline.pressure_angle,
            tilt=_wear_tilt(state),
        )
        depths.append(float(np.sum(depth * turns)))
    return DepthRates(external=depths[0], internal=depths[1])


def _limits(state: SplineState, limit: float, *, stated: bool) -> tuple[WearLimit, ...]:
    """
    Return every depth at which the joint is worn out: play, tooth thickness, case.

    The depths of driving and of braking are added up, whichever flank they come from: so do the play
    and the loss of a tooth; for the case, which is one flank's, it is on the safe side.
    """
    angle = state.spline.pressure_angle
    play = float(depth_sum_at_lash_limit(state.lash.clearance, limit, angle))
    limits = [WearLimit(name="lash limit", member="both", depth=play, sigma=0.0 if stated else LIMIT_SIGMA)]
    for (member, _), lost, nominal in zip(state.halves, state.lost, state.new_widths, strict=True):
        share = THICKNESS_LOSS_LIMIT - lost / nominal
        loss = float(depth_at_thickness_loss(nominal, angle, share))
        limits.append(
            WearLimit(name=f"tooth thickness, {member.side} member", member=member.side, depth=loss)
        )
        case = member.steel.case_depth_min
        if case is not None:
            part = state.joint.external if member.side == "external" else state.joint.internal
            left = case - worn_step(part)
            limits.append(
                WearLimit(name=f"case worn through, {member.side} member", member=member.side, depth=left)
            )
    return tuple(limits)


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
