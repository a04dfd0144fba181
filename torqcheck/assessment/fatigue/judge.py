"""Torsional fatigue of one splined joint: damage per hour, life, and a check for each member."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from torqcheck.assessment.fatigue.cycles import (
    Cycles,
    TorqueDuty,
    damage_per_hour,
    lives_at,
    recorded_duty,
    reversed_amplitude,
    torque_cycles,
    torque_duty,
)
from torqcheck.assessment.fatigue.members import FatigueMember, Place, fatigue_members
from torqcheck.assessment.fatigue.result import CycleKind, DinSafety, FatigueMemberResult, FatigueResult
from torqcheck.assessment.teeth.state import SplineState
from torqcheck.assessment.torque.path import JointLoad
from torqcheck.capacity import torsional_shear_stress
from torqcheck.checks import Check, Verdict
from torqcheck.fatigue import (
    DIN_743_LEAST_SAFETY,
    StrengthLine,
    amplitude_of_few_cycles,
    damage_sum,
    din_allowable_amplitude,
    din_endurance_limit,
    din_mean_sensitivity,
    din_roughness_factor,
    din_size_factor,
    din_spline_notch_factor,
    din_total_factor,
    goodman_amplitude,
    low_cycle_exponent,
    spline_stress_concentration,
)
from torqcheck.formulas import FORMULAS
from torqcheck.geometry import InvoluteSpline
from torqcheck.provenance import Source
from torqcheck.scenario.duty_record import DutyRecord
from torqcheck.scenario.estimates import Spell
from torqcheck.scenario.ledger import Ledger

if TYPE_CHECKING:
    from torqcheck.assessment.result import ShockResult

__all__ = [
    "LONGEST_CYCLES",
    "MARGINAL_DAMAGE",
    "PASSING_DAMAGE",
    "UNCYCLED",
    "PathBlow",
    "borne",
    "damage_per_hour",
    "damage_verdict",
    "fatigue_members",
    "fatigue_of",
    "path_blow",
    "result_of",
    "steady_share",
    "torque_duty_of",
]

PASSING_DAMAGE, MARGINAL_DAMAGE = 0.3, 1.0
"""Damage over the service life up to which it is a pass, and marginal. Mark: assumed."""
LONGEST_CYCLES = 1e9
"""Torque cycles beyond which no life is stated: nothing is known of so many."""
MACHINED_ROUGHNESS = 10e-6
STRONGEST_FOR_DIN = 1400e6
INVOLUTE_SHARE, STRAIGHT_SHARE = 0.75, 1.0

UNCYCLED = FatigueResult(
    verdict=None, service_damage=None, members=(), reason="the duty list holds no torque cycles"
)
"""Of a joint whose torque never changes."""
_ENDLESS = "the damage is so small that the life is beyond 1e9 torque cycles, where nothing is known"
_ESTIMATES = Source("Root fillet, surface and scatter of the fatigue life", "own choice", "assumed")


def damage_verdict(damage: float) -> Verdict:
    """Judge a damage over the service life: up to 0.3 passes, up to 1 is marginal, above fails."""
    if damage <= PASSING_DAMAGE:
        return "pass"
    return "marginal" if damage <= MARGINAL_DAMAGE else "fail"


def result_of(members: Sequence[FatigueMemberResult], hours: float) -> FatigueResult:
    """Judge a joint by the member that suffers most; those without a damage stand last."""
    ordered = sorted(members, key=lambda m: -1.0 if m.damage_per_hour is None else m.damage_per_hour)
    ordered.reverse()
    worst = ordered[0]
    damage = None if worst.damage_per_hour is None else worst.damage_per_hour * hours
    return FatigueResult(
        verdict=None if damage is None else damage_verdict(damage),
        service_damage=damage,
        members=tuple(ordered),
        reason=worst.reason,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class PathBlow:
    """The blows at the reference joint, N m, and what the path makes of the steady torque."""

    drive_peak: float
    brake_peak: float
    share: float
    damping_ratio: float


def steady_share(driving_inertia: float, driven_inertia: float | None) -> float:
    """Steady torque in the path over the torque that drives it; 1 for a driven side that is held."""
    if driven_inertia is None or math.isinf(driven_inertia):
        return 1.0
    return driven_inertia / (driving_inertia + driven_inertia)


def path_blow(shock: "ShockResult") -> PathBlow:
    """The blows of the path as the fatigue of its joints takes them."""
    return PathBlow(
        drive_peak=shock.drive_peak_torque,
        brake_peak=shock.brake_peak_torque,
        share=steady_share(shock.driving_inertia, shock.driven_inertia),
        damping_ratio=shock.damping_ratio,
    )


def torque_duty_of(
    load: JointLoad,
    reference: JointLoad,
    spells: Sequence[Spell],
    blow: PathBlow,
    ledger: Ledger,
    record: DutyRecord | None = None,
) -> TorqueDuty:
    """
    Torque cycles at one joint, with the blows of the reference joint carried there.

    Parameters
    ----------
    load, reference : JointLoad
        This joint, and the one at which the blow was computed.
    spells : sequence of Spell
        The duty list.
    blow : PathBlow
        The blows there.
    ledger : Ledger
        Takes what had to be assumed.
    record : DutyRecord, optional
        Torque record that stands in place of the duty list; its cycles are counted.
    """
    ratio, losses = load.beyond(reference)
    drive_blow, brake_blow = blow.drive_peak * ratio * losses, blow.brake_peak * ratio / losses
    if record is not None:
        return recorded_duty(
            record,
            load,
            share=blow.share,
            drive_blow=drive_blow,
            brake_blow=brake_blow,
            damping_ratio=blow.damping_ratio,
        )
    return torque_duty(
        spells,
        load,
        share=blow.share,
        drive_blow=drive_blow,
        brake_blow=brake_blow,
        damping_ratio=blow.damping_ratio,
        ledger=ledger,
    )


def fatigue_of(
    state: SplineState,
    duty: TorqueDuty,
    service_life: float,
    blow_source: Source,
    ledger: Ledger,
) -> FatigueResult:
    """
    Estimate the torsional fatigue of a splined joint.

    Parameters
    ----------
    state : SplineState
        The joint.
    duty : TorqueDuty
        Its torque cycles, from `torque_duty_of`.
    service_life : float
        Wanted running time, s.
    blow_source : Source
        What the blow rests on.
    ledger : Ledger
        Takes assumptions.
    """
    members = fatigue_members(state, ledger)
    for member in members:
        if member.reason:
            ledger.warn(
                f"{state.key} fatigue, {member.side}",
                f"{state.name}: no torsional fatigue life of the {member.side} member: {member.reason}.",
            )
    if not duty.names:
        return UNCYCLED
    hours = service_life / 3600.0
    return result_of([_member(state, member, duty, hours, blow_source) for member in members], hours)


def _member(
    state: SplineState, member: FatigueMember, duty: TorqueDuty, hours: float, blow_source: Source
) -> FatigueMemberResult:
    """Damage of one member at its worst place."""
    if member.reason:
        return FatigueMemberResult(
            side=member.side, damage_per_hour=None, life=None, reason=member.reason, steps={}
        )
    found = []
    for place in member.places:
        cycles = torque_cycles(duty, -1.0 / float(place.line.exponent), duty.drive_blow, duty.brake_blow)
        found.append((float(damage_sum(cycles.per_hour, lives_at(place, cycles))), place, cycles))
    damage, place, cycles = max(found, key=lambda entry: entry[0])
    endless = damage * LONGEST_CYCLES <= duty.cycles_per_hour
    return FatigueMemberResult(
        side=member.side,
        damage_per_hour=damage,
        life=None if endless else 3600.0 / damage,
        reason=_ENDLESS if endless else "",
        place=place.name,
        places=tuple((entry[1].name, entry[0]) for entry in found),
        steps=_steps(member, place),
        cycles=_kinds(place, cycles, damage),
        din_743=_din(state, member, cycles),
        check=_check(state, member, place, cycles, damage * hours, duty.cycles_per_hour * hours, blow_source),
    )


def _steps(member: FatigueMember, place: Place) -> dict[str, float]:
    """What the life rests on, step by step."""
    return {
        "ultimate_strength_MPa": place.ultimate_strength / 1e6,
        "fillet_radius_mm": member.fillet_radius * 1e3,
        "Kts": place.stress_concentration,
        "qs": place.sensitivity,
        "Kfs": place.notch_factor,
        "Ssu_MPa": float(place.line.ultimate) / 1e6,
        "S3_MPa": float(place.line.low_cycle) / 1e6,
        "Sse_MPa": float(place.line.limit) / 1e6,
        "a_MPa": float(place.line.coefficient) / 1e6,
        "b": float(place.line.exponent),
        "stress_per_torque_MPa_per_Nm": place.stress_per_torque / 1e6,
    }


def _kinds(place: Place, cycles: Cycles, damage: float) -> tuple[CycleKind, ...]:
    """Each kind of cycle with its stresses and its part of the damage; those that do not occur left out."""
    lives, equivalent = lives_at(place, cycles), reversed_amplitude(place, cycles)
    kinds = []
    for i, name in enumerate(cycles.names):
        amplitude, mean, life = float(cycles.amplitude[i]), float(cycles.mean[i]), float(lives[i])
        if amplitude == 0.0:
            continue
        kinds.append(
            CycleKind(
                name=name,
                per_hour=float(cycles.per_hour[i]),
                torque_low=mean - amplitude,
                torque_high=mean + amplitude,
                amplitude=place.stress_per_torque * amplitude,
                mean=place.stress_per_torque * mean,
                # a mean that reaches the strength leaves no amplitude: as bad as the strength itself
                reversed_amplitude=min(float(equivalent[i]), float(place.line.ultimate)),
                life=life if math.isfinite(life) else None,
                damage_share=float(cycles.per_hour[i]) / life / damage if damage else 0.0,
            )
        )
    return tuple(kinds)


def _check(
    state: SplineState,
    member: FatigueMember,
    place: Place,
    cycles: Cycles,
    damage: float,
    count: float,
    blow_source: Source,
) -> Check:
    """
    The damage as a stress against a strength.

    value: reversed amplitude that, once in every torque cycle, does the same damage; allowable: the
    amplitude that is borne for so many cycles. Their ratio is 1 at a damage of 1, and the target is
    the ratio at the damage that passes.
    """
    line = place.line
    alike = count / damage if damage else math.inf
    allowable = borne(line, count)
    concentration = FORMULAS[spline_stress_concentration].source
    member_state = state.external if member.side == "external" else state.internal
    return Check(
        joint=state.name,
        name=f"torsional fatigue, {member.side} member",
        method="material",
        member=member.side,
        value=borne(line, alike),
        allowable=allowable,
        target=allowable / borne(line, count / PASSING_DAMAGE),
        torque=float(np.max(np.abs(cycles.mean) + cycles.amplitude)),
        factors={"Kfs": place.notch_factor, "damage": damage},
        sources=(
            FORMULAS[goodman_amplitude].source,
            concentration,
            member_state.steel.source,
            _ESTIMATES,
            blow_source,
        ),
    )


def borne(line: StrengthLine, life: float) -> float:
    """Amplitude borne for a number of cycles; the line is carried on below one, where damage exceeds 1."""
    if life >= 1.0:
        return float(line.amplitude(life))
    exponent = float(low_cycle_exponent(line.low_cycle, line.ultimate))
    return float(amplitude_of_few_cycles(life, line.ultimate, exponent))


def _din(state: SplineState, member: FatigueMember, cycles: Cycles) -> DinSafety | None:
    """Safety against endless life by the outline of DIN 743, for the shaft's worst torque cycle."""
    if member.side != "external":
        return None
    strength = min(member.strength, STRONGEST_FOR_DIN)
    share = INVOLUTE_SHARE if isinstance(state.spline, InvoluteSpline) else STRAIGHT_SHARE
    notch = float(din_spline_notch_factor(strength, share))
    total = din_total_factor(
        notch, din_size_factor(member.diameter), din_roughness_factor(strength, MACHINED_ROUGHNESS)
    )
    limit = float(din_endurance_limit(strength, total))
    sensitivity = din_mean_sensitivity(limit, strength)
    nominal = float(torsional_shear_stress(1.0, member.diameter, member.bore))
    loaded = cycles.amplitude > 0.0
    if not np.any(loaded):
        return None
    amplitude, mean = nominal * cycles.amplitude[loaded], nominal * cycles.mean[loaded]
    allowable = np.asarray(din_allowable_amplitude(limit, sensitivity, mean / amplitude))
    worst = int(np.argmin(allowable / amplitude))
    return DinSafety(
        safety_factor=float(allowable[worst] / amplitude[worst]),
        least=DIN_743_LEAST_SAFETY,
        amplitude=float(amplitude[worst]),
        allowable=float(allowable[worst]),
        notch_factor=notch,
        limit=limit,
    )
