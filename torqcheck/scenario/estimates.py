"""What a person at the bench cannot know, estimated openly: value, band, mark and reason."""

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from torqcheck.elementwise import chosen
from torqcheck.scenario.duty_record import DutyRecord
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.quantity import needed
from torqcheck.scenario.schema import Driven, Duty, Motor, Scenario
from torqcheck.scenario.spells import Spell, recorded_spells

__all__ = [
    "Spell",
    "damping_ratio",
    "driven_inertias",
    "duty_spells",
    "peak_torque",
    "regen_rise",
    "regen_torque",
    "rotor_inertia",
    "running_per_year",
    "service_life",
    "torque_rise",
]

ROTOR_SHARE_OF_MASS = 0.4
ROTOR_SHARE_OF_FRAME_RADIUS = 0.32
INERTIA_PER_TORQUE = 2.2e-4
INERTIA_RATIOS_TRIED = (1.0, 3.0, 10.0, 30.0, math.inf)
DAMPING_RATIO = 0.03
EVENTS_PER_HOUR = 20.0
SERVICE_LIFE = 1000.0 * 3600.0
NEARLY_ALL = 0.98
"""Part of the time after which a record repeats; what is missing below it is worth a word."""


def peak_torque(motor: Motor) -> float:
    """Peak torque that the controller can ask for, N m at the motor shaft."""
    return motor.peak_torque.value * motor.boost


def torque_rise(motor: Motor) -> float:
    """Slope of the motor torque, N m/s at the motor shaft; infinite for an instant rise."""
    peak = peak_torque(motor)
    if motor.torque_rise is not None:
        return motor.torque_rise.value
    if motor.rise_time is not None:
        slow = motor.rise_time.value > 0.0
        rise: float = chosen(slow, peak / chosen(slow, motor.rise_time.value, 1.0), math.inf)
        return rise
    return needed(motor.percent_per_10ms) / 100.0 * peak / 0.010


def regen_torque(
    motor: Motor, spells: Sequence[Spell], ledger: Ledger, record: DutyRecord | None = None
) -> float:
    """Largest braking torque, N m at the motor shaft: as stated, or what the duty needs."""
    stated = motor.regen_torque.value if motor.regen_torque is not None else 0.0
    needed_torque = max((-spell.torque for spell in spells), default=0.0) * peak_torque(motor)
    if record is not None:
        needed_torque = max(0.0, -float(record.torque.min()))
    enough = needed_torque <= stated * (1.0 + 1e-9)
    if np.all(enough):
        return stated
    assumed = ledger.assume(
        "motor.regen_torque",
        needed_torque,
        "torque",
        f"the duty {'list' if record is None else 'record'} brakes harder than the motor block says",
    )
    torque: float = chosen(enough, stated, assumed)
    return torque


def regen_rise(motor: Motor) -> float:
    """Slope in regeneration, N m/s at the motor shaft; that of driving if none is given."""
    return motor.regen_rise.value if motor.regen_rise is not None else torque_rise(motor)


def rotor_inertia(motor: Motor, ledger: Ledger) -> float:
    """Inertia of the rotor, kg m^2: as given, or estimated from what is known of the motor."""
    if motor.rotor_inertia is not None:
        return motor.rotor_inertia.value
    if motor.rotor_mass is not None and motor.rotor_diameter is not None:
        value = 0.5 * motor.rotor_mass.value * (motor.rotor_diameter.value / 2.0) ** 2
        why = "solid cylinder of the given mass and diameter"
        return ledger.assume("motor.rotor_inertia", value, "inertia", why, band=(0.7 * value, 1.3 * value))
    if motor.motor_mass is not None and motor.frame_diameter is not None:
        radius = ROTOR_SHARE_OF_FRAME_RADIUS * motor.frame_diameter.value
        value = 0.5 * ROTOR_SHARE_OF_MASS * motor.motor_mass.value * radius**2
        why = "rotor taken as 0.4 of the motor's mass with a radius of 0.32 of the frame diameter"
    else:
        value = INERTIA_PER_TORQUE * peak_torque(motor)
        why = "0.22 g m^2 for each N m of peak torque, the middle of common traction motors"
    return ledger.assume("motor.rotor_inertia", value, "inertia", why, band=(value / 2.0, value * 2.0))


def driven_inertias(driven: Driven, driving_inertia: float, ledger: Ledger) -> tuple[float, ...]:
    """Inertia of the driven side, kg m^2 at the last joint; several to try when it is unknown."""
    if driven.held:
        return (math.inf,)
    if driven.inertia is not None:
        return (driven.inertia.value,)
    if driven.moved is not None:
        moved = driven.moved
        return (moved.mass.value * moved.rolling_radius.value**2 / moved.ratio**2,)
    ledger.assume_word(
        "driven.inertia",
        "unknown: held, and 1, 3, 10 and 30 times the driving inertia, the worst is used",
        "a held driven side is not always the worst case, so several are computed",
    )
    return tuple(ratio * driving_inertia for ratio in INERTIA_RATIOS_TRIED)


def damping_ratio(driven: Driven, ledger: Ledger) -> float:
    """Damping ratio of the torque path in contact."""
    if driven.damping_ratio is not None:
        return driven.damping_ratio
    why = "usual for a rigid re-power path; the first blow hardly depends on it, later peaks do"
    return ledger.assume("driven.damping_ratio", DAMPING_RATIO, None, why, band=(0.01, 0.08))


def service_life(scenario: Scenario, ledger: Ledger) -> float:
    """Running time that the joints must last, s."""
    if scenario.targets.service_life is not None:
        return scenario.targets.service_life.value
    return ledger.assume("targets.service_life", SERVICE_LIFE, "time", "no service life is stated")


def running_per_year(scenario: Scenario) -> float | None:
    """Running time in a year, s; None if nobody says: it only turns hours into years."""
    stated = scenario.targets.running_per_year
    return None if stated is None else stated.value


def duty_spells(scenario: Scenario, ledger: Ledger) -> tuple[Spell, ...]:
    """Return the duty list in SI, or what stands for the record; one hard spell when none is written."""
    if scenario.duty_record is not None:
        return _from_record(scenario.duty_record, scenario.motor, ledger)
    if scenario.duty:
        return _with_events(tuple(_spell(duty) for duty in scenario.duty), ledger)
    regenerates = scenario.motor.regen_torque is not None and scenario.motor.regen_torque.value > 0.0
    ledger.assume_word(
        "duty",
        f"full torque all the time at half the highest speed, {EVENTS_PER_HOUR:g} torque cycles per hour",
        "no duty list is written; this one is meant to be hard",
    )
    return (Spell("assumed", 1.0, 0.5 * scenario.motor.max_speed.value, 1.0, EVENTS_PER_HOUR, regenerates),)


def _from_record(record: DutyRecord, motor: Motor, ledger: Ledger) -> tuple[Spell, ...]:
    """Spells that stand for a torque record; what it does not hold is assumed and said."""
    speed = 0.5 * motor.max_speed.value
    if record.speed is None:
        ledger.assume(
            "duty_file.speed",
            speed,
            "speed",
            "the record holds no speed: half the highest speed all the time",
            band=(0.0, motor.max_speed.value),
        )
    if record.duration < NEARLY_ALL * record.repeats_every:
        share = 100.0 * record.duration / record.repeats_every
        ledger.warn(
            "duty record",
            f"The torque record {record.file} covers {share:.2g} % of the running time after which it "
            "repeats; in the rest the machine is taken to stand still. If it goes on as recorded, write the "
            "length of the record as duty_file.repeats_every.",
        )
    return recorded_spells(record, peak_torque(motor), speed)


def _with_events(spells: tuple[Spell, ...], ledger: Ledger) -> tuple[Spell, ...]:
    """Count torque cycles where the duty list has none: no machine runs without starting."""
    if any(spell.events_per_hour > 0.0 for spell in spells):
        return spells
    count = ledger.assume(
        "duty.events_per_hour",
        EVENTS_PER_HOUR,
        None,
        "torque cycles per hour of running; the duty list has none, and every machine starts and stops",
    )
    return (replace(spells[0], events_per_hour=count), *spells[1:])


def _spell(duty: Duty) -> Spell:
    return Spell(duty.name, duty.torque, duty.speed.value, duty.share, duty.events_per_hour, duty.reversals)
