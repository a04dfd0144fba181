"""Readings of a scenario as the judgement of a pair takes them, with a tolerance for each."""

from torqcheck.geometry.pairs.bench_readings import PartReadings, PinReading
from torqcheck.geometry.pairs.bench_readings import Reading as PlainReading
from torqcheck.geometry.pairs.lash_comparison import (
    LashReading,
    lash_from_angle,
    lash_from_clearance,
    lash_from_dial,
    lash_from_radial_play,
)
from torqcheck.geometry.spline import InvoluteSpline
from torqcheck.scenario.joint_schema import Lash, Member, SplineJoint
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.quantity import Reading, needed
from torqcheck.scenario.usual import ARM, CALIPER, DIAL, LASH_ANGLE, OVER_PINS, PIN

__all__ = ["lash_readings", "part_readings", "stated_lash"]

_ASSUMED = (
    f"+/- {CALIPER * 1e3:g} mm on diameters, {OVER_PINS * 1e3:g} mm over pins, {PIN * 1e3:g} mm on the pin"
)


def part_readings(member: Member, key: str, ledger: Ledger) -> PartReadings:
    """What was read on one member; tolerances that were not written are assumed and listed."""
    measured = member.measured
    pins = measured.over_pins or measured.between_pins
    bare = [
        reading
        for reading in (measured.major_diameter, measured.minor_diameter, pins)
        if reading is not None and reading.tolerance == 0.0
    ]
    if bare:
        ledger.assume_word(
            f"{key}.measured",
            _ASSUMED,
            "no tolerance is written with the readings",
        )
    return PartReadings(
        teeth=measured.teeth,
        new=member.reused is False,
        pins=()
        if pins is None
        else (
            PinReading(
                pins.value,
                pins.tolerance or OVER_PINS,
                needed(measured.pin).value,
                needed(measured.pin).tolerance or PIN,
            ),
        ),
        major_diameter=_plain(measured.major_diameter, CALIPER),
        minor_diameter=_plain(measured.minor_diameter, CALIPER),
        worn_step=_plain(measured.worn_step, CALIPER),
    )


def lash_readings(joint: SplineJoint, spline: InvoluteSpline) -> tuple[LashReading, ...]:
    """Every way in which the play of a joint was read; that from pins is worked out by the judgement."""
    found = []
    if isinstance(joint.lash, Lash):
        found.append(stated_lash(joint.lash, spline.pitch_diameter))
    if joint.radial_play is not None:
        play = _given(joint.radial_play, DIAL)
        found.append(lash_from_radial_play(play, spline.pressure_angle, spline.teeth))
    return tuple(found)


def stated_lash(lash: Lash, diameter: float) -> LashReading:
    """Clearance along the circle of a diameter from a lash as written, with its tolerance."""
    if lash.clearance is not None:
        return lash_from_clearance(_given(lash.clearance, DIAL))
    if lash.angle is not None:
        return lash_from_angle(_given(lash.angle, LASH_ANGLE * lash.angle.value), diameter)
    travel, radius = needed(lash.travel), needed(lash.radius)
    return lash_from_dial(_given(travel, DIAL), _given(radius, ARM), diameter)


def _given(reading: Reading, usual: float) -> PlainReading:
    return PlainReading(reading.value, reading.tolerance or usual)


def _plain(reading: Reading | None, usual: float) -> PlainReading | None:
    return None if reading is None else _given(reading, usual)
