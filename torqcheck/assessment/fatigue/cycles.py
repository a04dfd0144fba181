"""Torque cycles of a duty list at one joint, and the damage that they do in an hour."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from torqcheck._types import FloatArray, Numeric
from torqcheck.assessment.fatigue.members import FatigueMember, Place
from torqcheck.assessment.torque.path import JointLoad
from torqcheck.domain import require_not_negative
from torqcheck.fatigue import (
    CountedCycles,
    counted_cycles,
    damage_sum,
    equivalent_full_cycles,
    first_ringing_share,
    goodman_amplitude,
)
from torqcheck.scenario.duty_record import DutyRecord
from torqcheck.scenario.estimates import Spell
from torqcheck.scenario.ledger import Ledger

__all__ = [
    "Cycles",
    "TorqueDuty",
    "damage_per_hour",
    "lives_at",
    "recorded_duty",
    "reversed_amplitude",
    "torque_cycles",
    "torque_duty",
]

RECORD_LEVELS, ROUNDING, RIPPLE = 20, 1e-9, 0.1
LEAST_DAMPING = 0.001
"""Damping of shaft steel alone: below it a ringing would be counted for ever."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TorqueDuty:
    """
    Torque cycles per hour at one joint before any blow: one entry per spell that has some. SI.

    Parameters
    ----------
    names : tuple of str
        Spells.
    drive, brake : array, N m
        Torque that each cycle rises to, and how far it goes the other way; 0 if not at all, one of
        them negative where it does not even come back to zero: no lash is crossed, no blow struck.
    per_hour : array
        Cycles in an hour of running.
    share : float
        Steady torque in the path over the torque that drives it, J2/(J1 + J2).
    full_drive, full_brake : float, N m
        Torque to which a blow belongs, driving and braking.
    drive_blow, brake_blow : float, N m
        Peak torque of the blows as computed.
    damping_ratio : float
        Of the path: how long a blow rings.
    """

    names: tuple[str, ...]
    drive: FloatArray
    brake: FloatArray
    per_hour: FloatArray
    share: float
    full_drive: float
    full_brake: float
    drive_blow: float
    brake_blow: float
    damping_ratio: float

    @property
    def cycles_per_hour(self) -> float:
        """Torque cycles in an hour; a reversal is one."""
        return float(np.sum(self.per_hour))


@dataclass(frozen=True, slots=True)
class Cycles:
    """Kinds of cycles along the last axis: N m and per hour; `name` and `ringing` say what they are."""

    names: tuple[str, ...]
    ringing: tuple[bool, ...]
    amplitude: FloatArray
    mean: FloatArray
    per_hour: FloatArray


def torque_duty(
    spells: Sequence[Spell],
    load: JointLoad,
    *,
    share: float,
    drive_blow: float,
    brake_blow: float,
    damping_ratio: float,
    ledger: Ledger,
) -> TorqueDuty:
    """
    Turn the duty list into torque cycles at one joint.

    Parameters
    ----------
    spells : sequence of Spell
        The duty list.
    load : JointLoad
        Torques at the joint.
    share : float
        J2/(J1 + J2); 1 if the driven side is held.
    drive_blow, brake_blow : float, N m
        Peak torque of the blows at the joint, driving and braking.
    damping_ratio : float
        Of the path.
    ledger : Ledger
        Takes what had to be assumed.

    Notes
    -----
    A spell that drives goes from standstill to its torque and back; if the file knows regeneration,
    on to the regeneration torque; if it reverses without any, as far to the other side. A spell that
    brakes goes from nothing to its torque.
    """
    several = [spell for spell in spells if spell.events_per_hour > 0.0 and spell.torque != 0.0]
    _say_what_reverses(several, load, ledger)
    drive, brake = [], []
    for spell in several:
        if spell.torque < 0.0:
            drive.append(0.0)
            # braking, the losses before the joint are overcome at the joint as well
            brake.append(min(-spell.torque * load.motor_torque / load.efficiency**2, load.regen_torque))
            continue
        top = min(spell.torque * load.motor_torque, load.torque)
        drive.append(top)
        brake.append(load.regen_torque or (top if spell.reversals else 0.0))
    braked = load.regen_torque > 0.0
    return TorqueDuty(
        names=tuple(spell.name for spell in several),
        drive=np.array(drive),
        brake=np.array(brake),
        per_hour=np.array([spell.events_per_hour for spell in several]),
        share=share,
        full_drive=load.torque,
        full_brake=load.regen_torque if braked else load.torque,
        drive_blow=drive_blow,
        brake_blow=brake_blow if braked else drive_blow,
        damping_ratio=max(damping_ratio, LEAST_DAMPING),
    )


def recorded_duty(
    record: DutyRecord,
    load: JointLoad,
    *,
    share: float,
    drive_blow: float,
    brake_blow: float,
    damping_ratio: float,
) -> TorqueDuty:
    """
    Turn a torque record into torque cycles at one joint, counted by rainflow.

    Parameters
    ----------
    record : DutyRecord
        Torque of the motor shaft over time, one of many alike.
    load : JointLoad
        As for ``torque_duty``.
    share, drive_blow, brake_blow, damping_ratio : float
        As for ``torque_duty``.

    Notes
    -----
    The end of a record is followed by its beginning, so that no half cycle is left. Counted cycles
    are gathered in levels of a twentieth of the largest torque, each taken at its far ends: never
    too small. Ranges below a tenth of the largest torque are ripple: they strike no blow, and their
    damage is none that could be seen. What grip or clutch do not let through does not reach the joint.
    """
    counted, largest = _counted(
        record,
        load.ratio * load.efficiency,
        load.ratio / load.efficiency,
        load.slip_torque,
        load.brake_slip_torque,
    )
    step, seen = largest / RECORD_LEVELS or 1.0, counted.range >= RIPPLE * largest
    high = np.ceil((counted.mean + counted.amplitude) / step - ROUNDING) * step
    low = np.floor((counted.mean - counted.amplitude) / step + ROUNDING) * step
    kinds, which = np.unique(np.stack((high, low), axis=1)[seen], axis=0, return_inverse=True)
    per_hour = np.bincount(which.reshape(-1), counted.count[seen], len(kinds)).astype(np.float64)
    return TorqueDuty(
        names=("recorded cycle",) * len(kinds),
        drive=kinds[:, 0],
        brake=-kinds[:, 1],
        per_hour=per_hour * 3600.0 / record.repeats_every,
        share=share,
        full_drive=load.torque,
        full_brake=load.regen_torque if load.regen_torque > 0.0 else load.torque,
        drive_blow=drive_blow,
        brake_blow=brake_blow if load.regen_torque > 0.0 else drive_blow,
        damping_ratio=max(damping_ratio, LEAST_DAMPING),
    )


@lru_cache(maxsize=16)
def _counted(
    record: DutyRecord, drive_scale: float, brake_scale: float, slip: float, brake_slip: float
) -> tuple[CountedCycles, float]:
    """Cycles of a record at one joint, counted once, and the largest torque in it."""
    torque = np.where(record.torque > 0.0, drive_scale, brake_scale) * record.torque
    torque = np.clip(torque, -brake_slip, slip)
    if record.duration < record.repeats_every * (1.0 - 1e-6):
        torque = np.append(torque, 0.0)  # until it repeats the machine stands still
    return counted_cycles(torque), float(np.max(np.abs(torque)))


def _say_what_reverses(spells: Sequence[Spell], load: JointLoad, ledger: Ledger) -> None:
    """Write down how far a torque cycle goes the other way, where the file leaves it open."""
    driving = [spell for spell in spells if spell.torque > 0.0]
    if load.regen_torque > 0.0 and driving:
        ledger.assume_word(
            "fatigue.cycles",
            "every torque cycle ends in full regeneration",
            "the duty list does not say which stops regenerate; the swing from drive to regeneration is one "
            "large cycle",
        )
    elif any(spell.reversals for spell in driving):
        ledger.assume_word(
            "fatigue.cycles", "reversals go as far back as forth", "no regeneration torque is stated"
        )


def torque_cycles(
    duty: TorqueDuty, line_slope: float, blow_torque: Numeric, brake_blow_torque: Numeric | None = None
) -> Cycles:
    """
    Cycles of the duty with its blows: the large cycle of each start, and the ringing after it.

    Parameters
    ----------
    duty : TorqueDuty
        Cycles before any blow.
    line_slope : float
        m of the strength line; ringing is counted in full cycles by it.
    blow_torque : float or array, N m
        Peak torque of the blow, driving at full torque.
    brake_blow_torque : float or array, N m, optional
        The same, braking; in proportion to the other if not given.

    Notes
    -----
    A blow overshoots the steady torque in the path by a height that depends on rise, lash and
    inertias; the same height is taken at part torque, which is on the safe side. The first peak is
    the top of its start's cycle; what rings on is counted about the steady torque.
    """
    peak = np.asarray(blow_torque, dtype=np.float64)[..., np.newaxis]
    if brake_blow_torque is None:
        in_proportion = duty.brake_blow / duty.drive_blow if duty.drive_blow else 0.0
        brake_peak = in_proportion * peak
    else:
        brake_peak = np.asarray(brake_blow_torque, dtype=np.float64)[..., np.newaxis]
    # maximum, not a comparison: NaN must stay NaN
    over = np.maximum(peak - duty.share * duty.full_drive, 0.0) * ((duty.drive > 0.0) & (duty.brake >= 0.0))
    back = np.maximum(brake_peak - duty.share * duty.full_brake, 0.0) * (
        (duty.brake > 0.0) & (duty.drive >= 0.0)
    )
    top = np.maximum(duty.drive, duty.share * duty.drive + over)
    bottom = np.where(duty.brake < 0.0, duty.brake, np.maximum(duty.brake, duty.share * duty.brake + back))
    first = float(first_ringing_share(duty.damping_ratio))
    ringing = duty.per_hour * float(equivalent_full_cycles(duty.damping_ratio, line_slope))
    shape = np.broadcast_shapes(top.shape, bottom.shape)
    kinds = (
        (0.5 * (top + bottom), 0.5 * (top - bottom), duty.per_hour),
        (first * over, duty.share * duty.drive, ringing),
        (first * back, -duty.share * duty.brake, ringing),
    )
    together = [
        np.concatenate([np.broadcast_to(kind[part], shape) for kind in kinds], axis=-1) for part in range(3)
    ]
    count = len(duty.names)
    names = (*duty.names, *(f"{name}, ringing" for name in duty.names + duty.names))
    return Cycles(names, (False,) * count + (True,) * (2 * count), *together)


def lives_at(place: Place, cycles: Cycles) -> FloatArray:
    """Cycles of each kind that one place lives through."""
    return np.asarray(place.line.life(reversed_amplitude(place, cycles), "haibach"))


def reversed_amplitude(place: Place, cycles: Cycles) -> FloatArray:
    """Reversed stress amplitude that does the same damage as each kind of cycle at one place, Pa."""
    stress = place.stress_per_torque
    return np.asarray(goodman_amplitude(stress * cycles.amplitude, stress * cycles.mean, place.line.ultimate))


def damage_per_hour(
    member: FatigueMember,
    duty: TorqueDuty,
    blow_torque: Numeric,
    brake_blow_torque: Numeric | None = None,
) -> Numeric:
    """
    Damage that an hour of running does to one member, for one blow or for many.

    Parameters
    ----------
    member : FatigueMember
        From ``fatigue_members``; one with a `reason` has no places and no damage.
    duty : TorqueDuty
        From ``torque_duty``.
    blow_torque : float or array, N m
        Peak torque of the blow at this joint, driving; any shape, say that of a table over lash.
    brake_blow_torque : float or array, N m, optional
        The same, braking; if not given it goes in proportion to `blow_torque` as computed for the
        joint as it is.

    Returns
    -------
    float or array
        Damage per hour at the place that suffers most; failure is expected when it adds up to 1.
        Shape: that of `blow_torque`, broadcast with `brake_blow_torque`. NaN gives NaN.

    Raises
    ------
    DomainError
        If a torque is negative anywhere.

    Notes
    -----
    It never falls with a larger blow. Goodman at the notch, slope 2 m - 1 below the limit.
    """
    require_not_negative(blow_torque=blow_torque)
    if brake_blow_torque is not None:
        require_not_negative(brake_blow_torque=brake_blow_torque)
    shape = np.broadcast_shapes(
        np.shape(blow_torque), () if brake_blow_torque is None else np.shape(brake_blow_torque)
    )
    worst: FloatArray = np.zeros(shape)
    for place in member.places:
        cycles = torque_cycles(duty, -1.0 / float(place.line.exponent), blow_torque, brake_blow_torque)
        worst = np.maximum(worst, damage_sum(cycles.per_hour, lives_at(place, cycles)))
    return worst[()]
