"""Fatigue of shafts at their notches: torque cycles and turning under a bending moment, together."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from torqcheck.assessment.fatigue.cycles import Cycles, TorqueDuty, torque_cycles
from torqcheck.assessment.fatigue.judge import (
    LONGEST_CYCLES,
    PASSING_DAMAGE,
    UNCYCLED,
    PathBlow,
    borne,
    path_blow,
    result_of,
    torque_duty_of,
)
from torqcheck.assessment.fatigue.notch_places import NotchPlace, notch_places, why_no_places
from torqcheck.assessment.fatigue.result import CycleKind, FatigueMemberResult, FatigueResult
from torqcheck.assessment.fatigue.shaft_notches import ShaftNotch
from torqcheck.assessment.torque.path import JointLoad
from torqcheck.checks import Check
from torqcheck.fatigue import damage_sum, goodman_amplitude, linear_safety_factor
from torqcheck.formulas import FORMULAS
from torqcheck.provenance import Source
from torqcheck.scenario.estimates import Spell
from torqcheck.scenario.ledger import Ledger

if TYPE_CHECKING:
    from torqcheck.assessment.prepared import Prepared
    from torqcheck.assessment.resolved import Fatiguer
    from torqcheck.assessment.result import ShockResult

__all__ = ["notched_fatigue", "notches_under"]

_ENDLESS = "the damage is so small that the life is beyond 1e9 cycles, where nothing is known"
_ESTIMATES = Source("Surface, reliability and scatter of the fatigue life", "own choice", "assumed")


def notched_fatigue(notches: Sequence[ShaftNotch], *, key: str, name: str) -> Fatiguer:
    """
    Return the fatigue of the notches of one joint, as `Resolved` takes it.

    Parameters
    ----------
    notches : sequence of ShaftNotch
        At least one.
    key, name : str
        Place in the scenario and name of the joint.

    Notes
    -----
    The duty of torque is that of the joint: starts with their blows, ringing, reversals. A moment that
    stands still in space adds one fully reversed cycle for each turn, and stands beside the amplitude of
    each torque cycle.
    """

    def fatigue(prepared: Prepared, index: int, shock: ShockResult | PathBlow) -> FatigueResult:
        # the path is made of the joints, so it can only be known here
        from torqcheck.assessment.prepared import blow_source

        blow = shock if isinstance(shock, PathBlow) else path_blow(shock)
        load, ledger = prepared.loads[index], prepared.ledger
        reference, record = prepared.loads[prepared.path.reference], prepared.scenario.duty_record
        duty = torque_duty_of(load, reference, prepared.spells, blow, ledger, record)
        turning = _turning(prepared.spells, load)
        return notches_under(
            notches,
            duty,
            turning,
            prepared.service_life,
            blow_source(ledger),
            ledger,
            key=key,
            name=name,
        )

    return fatigue


def notches_under(
    notches: Sequence[ShaftNotch],
    duty: TorqueDuty,
    turning: Cycles,
    service_life: float,
    blow_source: Source,
    ledger: Ledger,
    *,
    key: str,
    name: str,
) -> FatigueResult:
    """
    Add up the damage at each notch; the one that suffers most comes first.

    Parameters
    ----------
    notches : sequence of ShaftNotch
        Of one joint.
    duty : TorqueDuty
        Its torque cycles.
    turning : Cycles
        Turns per hour under each torque.
    service_life : float
        Wanted running time, s.
    blow_source : Source
        What the blow rests on.
    ledger : Ledger
        Takes what no life can be stated for.
    key, name : str
        Of the joint.
    """
    bent = any(notch.moments.still > 0.0 for notch in notches)
    if not duty.names and not (bent and turning.names):
        return UNCYCLED
    hours = service_life / 3600.0
    found = [_member(name, notch, duty, turning, hours, blow_source) for notch in notches]
    for member in found:
        if member.damage_per_hour is None:
            text = f"{name}: no fatigue life of the {member.place}: {member.reason}."
            ledger.warn(f"{key} fatigue, {member.place}", text)
    return result_of(found, hours)


def _turning(spells: Sequence[Spell], load: JointLoad) -> Cycles:
    """Turns per hour of each spell, under the torque of the spell."""
    turns = [spell for spell in spells if spell.speed > 0.0 and spell.share > 0.0]
    torques = [
        min(spell.torque * load.motor_torque, load.torque)
        if spell.torque >= 0.0
        # braking, the losses before the joint are overcome at the joint as well
        else -min(-spell.torque * load.motor_torque / load.efficiency**2, load.regen_torque)
        for spell in turns
    ]
    rates = [load.speed(spell.speed) * spell.share * 3600.0 / (2.0 * math.pi) for spell in turns]
    return Cycles(
        tuple(f"{spell.name}, turning" for spell in turns),
        (False,) * len(turns),
        np.zeros(len(turns)),
        np.array(torques, dtype=np.float64),
        np.array(rates, dtype=np.float64),
    )


def _together(notch: ShaftNotch, place: NotchPlace, duty: TorqueDuty, turning: Cycles) -> Cycles:
    """Every kind of cycle that occurs at a notch."""
    slope = -1.0 / float(place.line.exponent)
    torque = torque_cycles(duty, slope, duty.drive_blow, duty.brake_blow)
    occurs = np.where(torque.amplitude > 0.0, torque.per_hour, 0.0)
    if notch.moments.still <= 0.0:
        return Cycles(torque.names, torque.ringing, torque.amplitude, torque.mean, occurs)
    return Cycles(
        torque.names + turning.names,
        torque.ringing + turning.ringing,
        np.concatenate((torque.amplitude, turning.amplitude)),
        np.concatenate((torque.mean, turning.mean)),
        np.concatenate((occurs, turning.per_hour)),
    )


def _member(
    joint: str, notch: ShaftNotch, duty: TorqueDuty, turning: Cycles, hours: float, blow_source: Source
) -> FatigueMemberResult:
    """Damage of one notch at its worst place."""
    side, reason = notch.member.side, why_no_places(notch)
    if reason:
        return FatigueMemberResult(
            side=side, damage_per_hour=None, life=None, reason=reason, place=notch.name, steps={}
        )
    found = []
    for place in notch_places(notch):
        cycles = _together(notch, place, duty, turning)
        lives = np.asarray(place.line.life(place.reversed_amplitude(notch, cycles), "haibach"))
        found.append((float(damage_sum(cycles.per_hour, lives)), place, cycles, lives))
    damage, place, cycles, lives = max(found, key=lambda entry: entry[0])
    count = float(np.sum(cycles.per_hour))
    endless = damage * LONGEST_CYCLES <= count and damage * hours <= PASSING_DAMAGE
    # once in every torque cycle, as for a spline; once a turn where there are none
    events = duty.cycles_per_hour or count
    return FatigueMemberResult(
        side=side,
        damage_per_hour=damage,
        life=None if endless else 3600.0 / damage,
        reason=_ENDLESS if endless else "",
        place=place.name,
        places=tuple((entry[1].name, entry[0]) for entry in found),
        steps=_steps(notch, place),
        cycles=_kinds(notch, place, cycles, lives, damage),
        de_goodman=_endless_factor(notch, place, cycles),
        check=_check(joint, notch, place, cycles, (damage * hours, events * hours), blow_source),
    )


def _steps(notch: ShaftNotch, place: NotchPlace) -> dict[str, float]:
    """What the life rests on, step by step."""
    radius = {} if notch.radius is None else {"radius_mm": notch.radius * 1e3}
    return {
        "ultimate_strength_MPa": place.ultimate_strength / 1e6,
        "diameter_mm": notch.diameter * 1e3,
        "bore_mm": notch.bore * 1e3,
        **radius,
        "Kt": notch.bending_concentration,
        "q": place.bending_sensitivity,
        "Kf": place.bending_notch_factor,
        "Kts": notch.torsion_concentration,
        "qs": place.torsion_sensitivity,
        "Kfs": place.torsion_notch_factor,
        "S3_MPa": float(place.line.low_cycle) / 1e6,
        "Se_MPa": float(place.line.limit) / 1e6,
        "a_MPa": float(place.line.coefficient) / 1e6,
        "b": float(place.line.exponent),
        "reversed_moment_Nm": notch.moments.still,
        "steady_moment_Nm": notch.moments.turning,
        "bending_stress_per_moment_MPa_per_Nm": place.bending_per_moment / 1e6,
        "shear_stress_per_torque_MPa_per_Nm": place.shear_per_torque / 1e6,
    }


def _kinds(
    notch: ShaftNotch, place: NotchPlace, cycles: Cycles, lives: np.ndarray, damage: float
) -> tuple[CycleKind, ...]:
    """Each kind of cycle with its equivalent stresses and its part of the damage."""
    amplitude, mean = place.stresses(notch, cycles)
    equivalent = place.reversed_amplitude(notch, cycles)
    return tuple(
        CycleKind(
            name=name,
            per_hour=float(cycles.per_hour[i]),
            torque_low=float(cycles.mean[i] - cycles.amplitude[i]),
            torque_high=float(cycles.mean[i] + cycles.amplitude[i]),
            amplitude=float(amplitude[i]),
            mean=float(mean[i]),
            # a mean that reaches the strength leaves no amplitude: as bad as the strength itself
            reversed_amplitude=min(float(equivalent[i]), float(place.line.ultimate)),
            life=float(lives[i]) if math.isfinite(lives[i]) else None,
            damage_share=float(cycles.per_hour[i] / lives[i]) / damage if damage else 0.0,
        )
        for i, name in enumerate(cycles.names)
        if cycles.per_hour[i] > 0.0
    )


def _endless_factor(notch: ShaftNotch, place: NotchPlace, cycles: Cycles) -> float | None:
    """DE-Goodman factor of the worst kind of cycle for endless life."""
    amplitude, mean = place.stresses(notch, cycles)
    factors = np.asarray(linear_safety_factor(amplitude, mean, place.line.limit, place.line.ultimate))
    occurring = factors[cycles.per_hour > 0.0]
    return float(np.min(occurring)) if occurring.size and np.isfinite(np.min(occurring)) else None


def _check(
    joint: str,
    notch: ShaftNotch,
    place: NotchPlace,
    cycles: Cycles,
    damage_and_count: tuple[float, float],
    blow_source: Source,
) -> Check:
    """
    The damage as a stress against a strength.

    value: reversed equivalent amplitude that, once in every torque cycle, does the same damage;
    allowable: the amplitude that is borne for so many cycles. The target is their ratio at the
    damage that passes.
    """
    line, (damage, count) = place.line, damage_and_count
    alike = count / damage if damage else math.inf
    allowable = borne(line, count)
    occurring = cycles.per_hour > 0.0
    return Check(
        joint=joint,
        name=f"fatigue, {notch.name}",
        method="material",
        member=notch.member.side,
        value=borne(line, alike),
        allowable=allowable,
        target=allowable / borne(line, count / PASSING_DAMAGE),
        torque=float(np.max(np.abs(cycles.mean) + cycles.amplitude, where=occurring, initial=0.0)),
        factors={"Kf": place.bending_notch_factor, "Kfs": place.torsion_notch_factor, "damage": damage},
        sources=(
            FORMULAS[goodman_amplitude].source,
            *notch.sources,
            notch.member.steel.source,
            _ESTIMATES,
            blow_source,
        ),
    )
