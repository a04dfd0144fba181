"""Fatigue of a weld by its class: the duty's torque cycles and the turns under a bending moment."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from torqcheck._types import BoolArray, FloatArray
from torqcheck.assessment.fatigue.cycles import TorqueDuty, torque_cycles
from torqcheck.assessment.fatigue.judge import (
    LONGEST_CYCLES,
    PASSING_DAMAGE,
    UNCYCLED,
    PathBlow,
    path_blow,
    result_of,
    torque_duty_of,
)
from torqcheck.assessment.fatigue.result import CycleKind, FatigueMemberResult, FatigueResult
from torqcheck.assessment.torque.path import JointLoad
from torqcheck.checks import Check
from torqcheck.fatigue import (
    BENDING_SLOPE,
    LIFE_SCATTER,
    SURFACE_FINISHES,
    TORSION_LOAD_FACTOR,
    WELD_NOTCH_FACTORS,
    WELD_SLOPE,
    bending_limit,
    damage_sum,
    endurance_limit,
    linear_safety_factor,
    shear_ultimate_strength,
    surface_factor,
    weld_life,
    weld_range,
)
from torqcheck.formulas import FORMULAS
from torqcheck.materials import Electrode
from torqcheck.provenance import Source
from torqcheck.scenario.estimates import Spell

if TYPE_CHECKING:
    from torqcheck.assessment.prepared import Prepared
    from torqcheck.assessment.resolved import Fatiguer
    from torqcheck.assessment.result import ShockResult

__all__ = ["WeldDetail", "weld_fatigue"]

_ENDLESS = "the damage is so small that the life is beyond 1e9 cycles, where nothing is known"
_SCATTER = Source(
    f"Damage that passes, a life being uncertain {LIFE_SCATTER:g} times either way", "", "assumed"
)
_NOTCH = "end of a parallel fillet"
"""Start and end of the run count as such an end: of the factors that apply the least kind."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WeldDetail:
    """
    What fatigue needs to know of a weld. SI.

    Parameters
    ----------
    name, place : str
        Name of the joint, and the detail in words.
    shear_per_torque : float, Pa/(N m)
        Nominal shear stress of the throat.
    bending : float, Pa
        Nominal stress of the throat from a bending moment that stands still in space.
    detail_class, bending_class : float, Pa
        Range borne for two million cycles, in shear along the weld and across it.
    electrode : Electrode
        For the view by notch factors.
    """

    name: str
    place: str
    shear_per_torque: float
    bending: float
    detail_class: float
    bending_class: float
    electrode: Electrode


@dataclass(frozen=True, slots=True)
class _Kinds:
    """Kinds of cycles: names, torques, amplitude and mean of their stress, number per hour, which bend it."""

    names: tuple[str, ...]
    torque_low: FloatArray
    torque_high: FloatArray
    amplitude: FloatArray
    mean: FloatArray
    per_hour: FloatArray
    bends: BoolArray

    def lives(self, detail: WeldDetail) -> FloatArray:
        """Cycles of each kind that the weld lives through: its mean has no say."""
        classes = np.where(self.bends, detail.bending_class, detail.detail_class)
        slopes = np.where(self.bends, BENDING_SLOPE, WELD_SLOPE)
        return np.asarray(weld_life(2.0 * self.amplitude, classes, slopes), dtype=np.float64)


def weld_fatigue(detail: WeldDetail) -> Fatiguer:
    """Return the fatigue of one weld, as `Resolved` takes it."""

    def fatigue(prepared: Prepared, index: int, shock: ShockResult | PathBlow) -> FatigueResult:
        # the path is made of the joints, so it can only be known here
        from torqcheck.assessment.prepared import blow_source

        blow = shock if isinstance(shock, PathBlow) else path_blow(shock)
        load, ledger = prepared.loads[index], prepared.ledger
        reference, record = prepared.loads[prepared.path.reference], prepared.scenario.duty_record
        duty = torque_duty_of(load, reference, prepared.spells, blow, ledger, record)
        kinds = _kinds_of(detail, duty, prepared.spells, load)
        return _result(detail, kinds, prepared.service_life, blow_source(ledger))

    return fatigue


def _kinds_of(detail: WeldDetail, duty: TorqueDuty, spells: Sequence[Spell], load: JointLoad) -> _Kinds:
    """Torque cycles with their blows and ringing; and one cycle for each turn under a bending moment."""
    cycles = torque_cycles(duty, WELD_SLOPE, duty.drive_blow, duty.brake_blow)
    per = detail.shear_per_torque
    turning = [spell for spell in spells if spell.speed > 0.0 and spell.share > 0.0]
    if detail.bending == 0.0:
        turning = []
    torque = np.array([max(spell.torque, 0.0) * load.torque for spell in turning])
    turns = [load.speed(spell.speed) * spell.share * 3600.0 / (2.0 * math.pi) for spell in turning]
    return _Kinds(
        (*cycles.names, *(f"{spell.name}, turning under bending" for spell in turning)),
        np.concatenate((cycles.mean - cycles.amplitude, torque)),
        np.concatenate((cycles.mean + cycles.amplitude, torque)),
        np.concatenate((per * cycles.amplitude, np.full(len(turning), detail.bending))),
        np.concatenate((per * cycles.mean, per * torque)),
        np.concatenate((cycles.per_hour, np.array(turns))),
        np.repeat([False, True], [len(cycles.names), len(turning)]),
    )


def _result(detail: WeldDetail, kinds: _Kinds, service_life: float, blow_source: Source) -> FatigueResult:
    if not kinds.names or not np.any(kinds.amplitude > 0.0):
        return UNCYCLED
    hours = service_life / 3600.0
    per_hour, lives = kinds.per_hour, kinds.lives(detail)
    damage, count = float(damage_sum(per_hour, lives)), float(np.sum(per_hour))
    endless = damage * LONGEST_CYCLES <= count
    member = FatigueMemberResult(
        side="weld",
        damage_per_hour=damage,
        life=None if endless else 3600.0 / damage,
        reason=_ENDLESS if endless else "",
        place=detail.place,
        places=((detail.place, damage),),
        steps=_steps(detail, kinds),
        cycles=_cycle_kinds(kinds, lives, damage),
        check=_check(detail, kinds, damage * hours, count * hours, blow_source),
    )
    return result_of([member], hours)


def _cycle_kinds(kinds: _Kinds, lives: FloatArray, damage: float) -> tuple[CycleKind, ...]:
    """Each kind with its stresses and its part of the damage; those that do not occur left out."""
    return tuple(
        CycleKind(
            name=name,
            per_hour=float(kinds.per_hour[i]),
            torque_low=float(kinds.torque_low[i]),
            torque_high=float(kinds.torque_high[i]),
            amplitude=float(kinds.amplitude[i]),
            mean=float(kinds.mean[i]),
            reversed_amplitude=float(kinds.amplitude[i]),
            life=float(lives[i]),
            damage_share=float(kinds.per_hour[i] / lives[i]) / damage,
        )
        for i, name in enumerate(kinds.names)
        if kinds.amplitude[i] > 0.0
    )


def _check(detail: WeldDetail, kinds: _Kinds, damage: float, count: float, blow_source: Source) -> Check:
    """
    The damage as a range of stress against a range that is borne.

    value: range in shear that, once in every cycle, does the same damage; allowable: the range in shear that
    is borne for so many cycles. Their ratio is 1 at a damage of 1, and the target is the ratio at the damage
    that passes.
    """

    def borne(cycles: float) -> float:
        return float(weld_range(cycles, detail.detail_class))

    allowable = borne(count)
    across = {"class across the weld, MPa": detail.bending_class / 1e6} if detail.bending else {}
    return Check(
        joint=detail.name,
        name="fatigue, weld",
        method="material",
        member="weld",
        value=borne(count / damage),
        allowable=allowable,
        target=allowable / borne(count / PASSING_DAMAGE),
        torque=float(np.max(np.abs(np.concatenate((kinds.torque_low, kinds.torque_high))))),
        factors={"class, MPa": detail.detail_class / 1e6, "damage": damage} | across,
        sources=(FORMULAS[weld_life].source, _SCATTER, blow_source),
    )


def _steps(detail: WeldDetail, kinds: _Kinds) -> dict[str, float]:
    """What the life rests on; and beside it, never blended, the factor for endless life by a notch factor."""
    ultimate, notch = detail.electrode.ultimate_strength, WELD_NOTCH_FACTORS[_NOTCH]
    forged = SURFACE_FINISHES["forged", "9th"]  # the skin of a weld is no better
    limit = float(
        endurance_limit(
            bending_limit(ultimate),
            surface_factor(ultimate, forged.coefficient, forged.exponent),
            1.0,
            TORSION_LOAD_FACTOR,
        )
    )
    shear = float(shear_ultimate_strength(ultimate))
    worst = int(np.argmax(kinds.amplitude / limit + np.abs(kinds.mean) / shear))
    factor = linear_safety_factor(
        notch * float(kinds.amplitude[worst]), notch * abs(float(kinds.mean[worst])), limit, shear
    )
    return {
        "class_MPa": detail.detail_class / 1e6,
        "slope": WELD_SLOPE,
        "stress_per_torque_MPa_per_Nm": detail.shear_per_torque / 1e6,
        "bending_MPa": detail.bending / 1e6,
        "bending_class_MPa": detail.bending_class / 1e6,
        "bending_slope": BENDING_SLOPE,
        "Kfs": notch,
        "Sse_MPa": limit / 1e6,
        "Ssu_MPa": shear / 1e6,
        "endless_life_factor_by_Kfs": float(factor),
    }
