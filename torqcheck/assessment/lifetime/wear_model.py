"""How one splined joint wears, resolved: rates, grease, limits, the course of its flanks."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from torqcheck.assessment.members import MemberState
from torqcheck.assessment.teeth.state import SplineState, worn_state
from torqcheck.assessment.torque.path import JointLoad
from torqcheck.checks import Verdict
from torqcheck.materials import WearClass, default_lash_limit, hv_from_hb, wear_class
from torqcheck.scenario.estimates import Spell
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.schema import Scenario
from torqcheck.scenario.sizes import worn_step
from torqcheck.wear import (
    COEFFICIENT_SIGMA_UNKNOWN,
    LIMIT_SIGMA,
    LOAD_SIGMA,
    SLIP_SIGMA_ASSUMED,
    SLIP_SIGMA_MEASURED,
    THICKNESS_LOSS_LIMIT,
    Course,
    DepthRates,
    GreaseClock,
    HardLayer,
    WearLimit,
    clearance_growth,
    combined_sigma,
    depth_at_thickness_loss,
    depth_per_revolution,
    depth_sum_at_lash_limit,
    flank_height,
    hardness_scale,
    running_in_depth,
    slip_amplitude,
    slip_regime,
    wear_course,
)

__all__ = [
    "Bedding",
    "WearModel",
    "bedded_state",
    "beyond_limits",
    "depth_rates",
    "lash_limit",
    "rate_sigmas",
    "tilt_slip",
    "wear_model",
    "wears_by_tilt",
    "why_no_wear",
]

GREASE_INDUCTION = 500.0
"""Hours for which sealed grease works when nobody renews it."""
GREASE_INDUCTION_SIGMA = 1.0
"""Of the logarithm: from about the 62.5 h of a severe rig with splines to three times what joints get."""
ALIGNED_SLIP = 1e-6
"""Slip that no workshop can tell from none, m."""
TWO_PI = 2.0 * math.pi
COURSE_BEYOND, MOST_OF_HEIGHT = 3.0, 0.9
"""How far a course goes beyond the lash limit, and the share of the contact height it may use up."""


@dataclass(frozen=True, slots=True)
class Bedding:
    """Depth that bedding in wears from each flank, m, and the hours over which 63 percent of it goes."""

    depth: float
    hours: float

    def clearance(self, hours: float, per_depth: float) -> float:
        """Growth of the clearance by bedding in, m."""
        return 2.0 * per_depth * float(running_in_depth(hours, self.depth, self.hours))


@dataclass(frozen=True, slots=True, kw_only=True)
class WearModel:
    """
    What the life of one joint is computed from. Depths in m, times in h.

    Parameters
    ----------
    state : SplineState
        The joint.
    rates : DepthRates
        Median depth per hour, with the lubricant as it is now.
    clock : GreaseClock
        With the median of the hours for which the grease works.
    working_sigma : float
        Of the logarithm of those hours.
    sigmas : mapping of str to float
        Of the logarithm of the rate, by what is uncertain: coefficient, slip, load.
    limits : tuple of WearLimit
        Depths that end the life.
    course : Course
        Depths against exposure.
    bedding : Bedding or None
        What bedding in wears besides.
    """

    state: SplineState
    rates: DepthRates
    clock: GreaseClock
    working_sigma: float
    sigmas: dict[str, float]
    limits: tuple[WearLimit, ...]
    course: Course
    bedding: Bedding | None = None

    @property
    def sigma(self) -> float:
        """Of the logarithm of the rate, all causes together."""
        return float(combined_sigma(*self.sigmas.values()))

    @property
    def bedded(self) -> SplineState:
        """The joint where its course begins: as it was read first, and bedded in."""
        if self.bedding is None:
            return self.state
        return worn_state(self.state, self.bedding.depth, self.bedding.depth)

    @property
    def deepest_in_use(self) -> float:
        """Sum of both depths at which the first of the limits is reached, m."""
        reached = [float(self.course.exposure_at(limit.member, limit.depth)) for limit in self.limits]
        return float(self.course.total_at(min(reached)))

    @property
    def clearance_per_depth(self) -> float:
        """Growth of the clearance for each metre of the sum of depths."""
        return float(clearance_growth(1.0, 0.0, self.state.spline.pressure_angle))


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


def wear_model(
    state: SplineState,
    load: JointLoad,
    spells: Sequence[Spell],
    limit: float,
    ledger: Ledger,
    *,
    limit_stated: bool,
    slap_share: float = 0.0,
) -> WearModel:
    """
    Put together how a joint wears that is not beyond a limit and that the wear law holds for.

    Parameters
    ----------
    state : SplineState
        The joint.
    load : JointLoad
        What reaches it.
    spells : sequence of Spell
        How it is used.
    limit : float
        Lash limit, m along the pitch circle.
    ledger : Ledger
        Takes what is assumed about coefficient and grease.
    limit_stated : bool
        Whether somebody set the limit; else it has a spread.
    slap_share : float, optional
        What if: share by which the blows of the opened play raise the rate at the lash limit.
    """
    lubricant = wear_class(state.lubrication)
    rates = depth_rates(state, load, spells, lubricant)
    ledger.assume(
        f"{state.key}.wear_coefficient",
        lubricant.wear_coefficient * 1e9,
        None,
        f"in mm3/(N*m): {lubricant.lubrication} between hard flanks, median; softer flanks in proportion",
        band=(lubricant.wear_coefficient_p10 * 1e9, lubricant.wear_coefficient_p90 * 1e9),
    )
    clock, working_sigma = _clock(state, lubricant, ledger)
    bedded = bedded_state(state, load, spells)
    limits = _limits(bedded, limit, stated=limit_stated)
    return WearModel(
        state=state,
        rates=rates,
        clock=clock,
        working_sigma=working_sigma,
        sigmas=rate_sigmas(state),
        limits=limits,
        course=_course(bedded, rates, float(limits[0].depth), slap_share),
        bedding=_bedding(state, load, spells),
    )


def rate_sigmas(state: SplineState) -> dict[str, float]:
    """Sigma of the logarithm of the rate of wear, by what is uncertain about it."""
    known = state.joint.lubrication is not None
    return {
        "coefficient": wear_class(state.lubrication).sigma_ln if known else COEFFICIENT_SIGMA_UNKNOWN,
        "slip": SLIP_SIGMA_MEASURED if state.tilt.measured else SLIP_SIGMA_ASSUMED,
        "load": LOAD_SIGMA,
    }


def bedded_state(state: SplineState, load: JointLoad, spells: Sequence[Spell]) -> SplineState:
    """The joint when it has bedded in; as it is where nothing is said of that."""
    bedding = _bedding(state, load, spells)
    return state if bedding is None else worn_state(state, bedding.depth, bedding.depth)


def _bedding(state: SplineState, load: JointLoad, spells: Sequence[Spell]) -> Bedding | None:
    """Bedding in as stated, its revolutions turned into hours."""
    stated = state.joint.running_in
    turns = sum(spell.share * load.speed(spell.speed) for spell in spells) / TWO_PI * 3600.0
    if stated is None or turns <= 0.0:
        return None
    return Bedding(stated.depth.value, stated.revolutions / turns)


def _course(state: SplineState, rates: DepthRates, lash_depth: float, slap_share: float) -> Course:
    """Wear the flanks down to well beyond the lash limit, or to what the contact height allows."""
    growths = [slap_share / lash_depth] if slap_share else []
    if state.joint.nose_supported is False and state.joint.seat == "flexible" and state.tilt.angle > 0.0:
        # the shaft end rocks in its radial play, which grows by the worn depth
        growths.append(1.0 / (state.engagement * state.tilt.angle))
    layers = {
        member.side: HardLayer(
            depth=left, core_over_layer=float(hardness_scale(_core(member)) / hardness_scale(member.vickers))
        )
        for member, _ in state.halves
        if (left := _layer_left(state, member)) is not None and member.vickers > _core(member)
    }
    return wear_course(
        rates=rates,
        deepest=min(COURSE_BEYOND * lash_depth, MOST_OF_HEIGHT * state.contact_height),
        contact_height=state.contact_height,
        layers=layers,
        growths=growths,
    )


def beyond_limits(state: SplineState, limit: float) -> str:
    """Say which limit of wear is passed already, if one is; an empty text if none is."""
    if state.lash.clearance >= limit:
        known = "" if state.lash.measured else "assumed "
        return f"the {known}lash is at or beyond its limit now: renew both parts"
    for (member, width), lost, new in zip(state.halves, state.lost, state.new_widths, strict=True):
        if lost >= THICKNESS_LOSS_LIMIT * new:
            return (
                f"the teeth of the {member.side} member are {width * 1e3:.3f} mm thick, new at most "
                f"{new * 1e3:.3f} mm: {lost * 1e3:.3f} mm or {100.0 * lost / new:.1f} % are gone, "
                f"{100.0 * THICKNESS_LOSS_LIMIT:.0f} % may be: renew it"
            )
    return ""


def why_no_wear(state: SplineState, spells: Sequence[Spell], ledger: Ledger) -> tuple[str, Verdict | None]:
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
    amplitude = tilt_slip(state)
    if slip_regime(amplitude) != "partial slip":
        return "", None
    unprotected = state.lubrication in {"dry", "expired grease"}
    if amplitude > ALIGNED_SLIP or unprotected:
        slip = f"slip of up to {amplitude * 1e6:.2g} um at each turn is too little for the wear law and"
        ledger.warn(
            f"{state.key} fretting",
            f"{state.name}: {slip if amplitude else 'without a lubricant the smallest rocking is'} enough to "
            "fret: red-brown dust, and cracks at the tooth roots. Look for both at each inspection.",
        )
    reason = f"slip {amplitude * 1e6:.2g} um: fretting regime, wear law does not hold"
    if not amplitude:
        reason = "without a tilt nothing slides, so nothing wears by the law"
        reason += "; without a lubricant the smallest rocking frets" if unprotected else ""
    # without a working lubricant, low slip and low stress are no ground for a pass
    return reason, "marginal" if unprotected else None


def wears_by_tilt(state: SplineState) -> bool:
    """Whether the tilt makes the flanks slip far enough for the wear law to hold."""
    return slip_regime(tilt_slip(state)) != "partial slip"


def tilt_slip(state: SplineState) -> float:
    """Slip amplitude that the wear law is asked about, m; 0 where the tilt makes none."""
    if state.joint.seat == "fixed" or state.tilt.turns_with_shaft:
        return 0.0
    return float(slip_amplitude(0.5 * state.pitch_diameter, _wear_tilt(state)))


def _wear_tilt(state: SplineState) -> float:
    """Tilt for the wear law: as read, or the far end of its tolerance where only that makes it slip."""
    radius = 0.5 * state.pitch_diameter
    if slip_regime(float(slip_amplitude(radius, state.tilt.angle))) == "partial slip":
        return state.tilt.angle + state.tilt.tolerance
    return state.tilt.angle


def _core(member: MemberState) -> float:
    """Vickers hardness under the surface, low end."""
    return hv_from_hb(member.steel.core_hardness_min)


def _layer_left(state: SplineState, member: MemberState) -> float | None:
    """What is left of the hard case of a member, m; None where it has none."""
    case = member.steel.case_depth_min
    part = state.joint.external if member.side == "external" else state.joint.internal
    return None if case is None else case - worn_step(part)


def _clock(state: SplineState, lubricant: WearClass, ledger: Ledger) -> tuple[GreaseClock, float]:
    """Clock of the grease, and the sigma of the hours for which it works."""
    if state.lubrication != "sealed grease":
        return GreaseClock(), 0.0
    tenth = math.exp(-1.2816 * GREASE_INDUCTION_SIGMA)
    hours = ledger.assume(
        f"{state.key}.grease_life",
        GREASE_INDUCTION * 3600.0,
        "time",
        "sealed grease works for a time, then the flanks wear as if dry; 500 h is a renewal interval of "
        "driveline joints, a severe rig with splines ran 62.5 h",
        band=(GREASE_INDUCTION * tenth * 3600.0, GREASE_INDUCTION / tenth * 3600.0),
    )
    renewal = state.joint.grease_renewal
    clock = GreaseClock(
        working=hours / 3600.0,
        ratio=wear_class("dry").wear_coefficient / lubricant.wear_coefficient,
        renewal=None if renewal is None else renewal.value / 3600.0,
    )
    return clock, GREASE_INDUCTION_SIGMA


def depth_rates(
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
        left = _layer_left(state, member)
        if left is not None and left > 0.0:
            limits.append(
                WearLimit(name=f"case worn through, {member.side} member", member=member.side, depth=left)
            )
    return tuple(limits)
