"""The numbers of one joint that can be solved for: where they stand in the file, and how far they may go."""

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Literal, cast

import numpy as np

from torqcheck.assessment.each_edited import Changes
from torqcheck.assessment.stack.engagement import with_stack_engagement
from torqcheck.assessment.teeth.proportions import SHORTEST_ENGAGEMENT
from torqcheck.errors import UsageError
from torqcheck.materials import closest_tilt
from torqcheck.scenario import Scenario
from torqcheck.scenario.estimates import torque_rise
from torqcheck.scenario.joint_names import joint_name
from torqcheck.scenario.joint_schema import InvoluteSplineJoint, Lash, SplineJoint, Tilt, engagement_of
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.quantity import needed
from torqcheck.scenario.sizes import load_diameter, spline_of
from torqcheck.scenario.sleeve_links import sleeve_of
from torqcheck.scenario.stack_rules import engagement_indices
from torqcheck.units import Kind, in_unit

__all__ = [
    "MAKERS",
    "Unknown",
    "key_of",
    "millimetres",
    "ratios",
    "stack_result_of",
    "steps",
    "without_inspections",
]

Wanted = Literal["smallest", "largest"]

LONGEST = 2.5
"""Of the pitch diameter: beyond it, longer teeth hardly share the load any more."""
POINTS, FINE_POINTS = 29, 49
LEAST_LASH, MOST_LASH = 5e-6, 0.98
"""m, and share of the pitch: the teeth would pass each other at a whole one."""
MOST_TILT, MOST_TILT_CROWNED = math.radians(2.0), math.radians(6.0)
SLOWEST_RISE_TIME, FASTEST_RISE_TIME = 20.0, 0.010
LEAST_TORQUE, MOST_TORQUE = 0.05, 20.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Unknown:
    """
    A number that is solved for.

    `values` are those to try first, rising, over the whole range that makes sense; `range_words` says why
    it ends where it does. `fixed` are changes of the file that go with every value, and `notes` why.
    """

    find: str
    meaning: str
    kind: Kind
    key: str
    wanted: Wanted
    values: tuple[float, ...]
    range_words: str
    now: float | None
    write: Callable[[float], Any]
    fixed: Changes
    notes: tuple[str, ...] = ()

    def changes(self, value: float) -> dict[str, Any]:
        """What to write into the file, by key."""
        return {**self.fixed, self.key: self.write(value)}


def _text(value: float, kind: Kind, unit: str) -> str:
    """A value as the file would have it, exact enough for the end of a bisection."""
    return f"{in_unit(value, kind, 'si')[0]:.9g} {unit}"


def millimetres(value: float) -> str:
    """Write a length as the file would have it."""
    return _text(value, "length", "mm")


def _newton_metres(value: float) -> str:
    return _text(value, "torque", "N*m")


def steps(low: float, high: float, points: int = POINTS) -> tuple[float, ...]:
    """Return values an equal distance apart."""
    return tuple(np.linspace(low, high, points).tolist())


def ratios(low: float, high: float, points: int = POINTS) -> tuple[float, ...]:
    """Return values an equal ratio apart."""
    return tuple(np.geomspace(low, high, points).tolist())


def _splined(scenario: Scenario, index: int, find: str) -> SplineJoint:
    joint = scenario.joint[index]
    if isinstance(joint, SplineJoint):
        return joint
    raise UsageError(
        f'--find {find}: "{joint_name(joint, index)}" is a {joint.kind} and has none; '
        "it goes with an involute spline or a straight spline"
    )


def key_of(index: int, rest: str) -> str:
    """Key of the file below one joint."""
    return f"joint[{index + 1}].{rest}"


# engagement


def _engagement(scenario: Scenario, index: int) -> Unknown:
    joint = _splined(scenario, index, "engagement")
    diameter = load_diameter(spline_of(joint))
    stack = stack_result_of(scenario, index)
    fixed: dict[str, Any] = {}
    notes: tuple[str, ...] = ()
    now = joint.engagement.value if joint.engagement is not None else None
    if stack is not None:
        whole = with_stack_engagement(scenario, Ledger())
        fixed = {"stack": None} | {
            key_of(i, "engagement"): millimetres(engagement_of(other).value)
            for i, other in enumerate(whole.joint)
            if i != index and isinstance(other, SplineJoint)
        }
        now = needed(cast("SplineJoint", whole.joint[index]).engagement).value
        notes = (
            "The axial stack decides the engagement of this joint. It was solved for with the stack taken "
            "out of the file; the other joints keep the engagement that the stack gives them.",
        )
    high = max(LONGEST * diameter, 1.2 * (now or 0.0))
    return Unknown(
        find="engagement",
        meaning="engagement",
        kind="length",
        key=key_of(index, "engagement"),
        wanted="smallest",
        values=ratios(SHORTEST_ENGAGEMENT * diameter, high),
        range_words=f"{SHORTEST_ENGAGEMENT:g} to {high / diameter:.3g} pitch diameters; shorter teeth hold "
        "no axis in line (common practice, no source)",
        now=now,
        write=millimetres,
        fixed=fixed,
        notes=notes,
    )


def stack_result_of(scenario: Scenario, index: int) -> Any:
    """Return the result of the axial stack that gives a joint its engagement; None if none does."""
    if scenario.stack is None:
        return None
    results = [(result.kind, result.joint) for result in scenario.stack.result]
    places = engagement_indices(results, [(joint.name, joint.kind) for joint in scenario.joint])
    return next((r for r, place in zip(scenario.stack.result, places, strict=True) if place == index), None)


# lash and tilt


def _lash(scenario: Scenario, index: int) -> Unknown:
    joint = _splined(scenario, index, "lash")
    spline = spline_of(joint)
    diameter = load_diameter(spline)
    high = MOST_LASH * math.pi * diameter / spline.teeth
    fixed, notes = without_inspections(scenario, index)
    now = _lash_now(joint, diameter)
    if now is None:
        said = joint.lash if isinstance(joint.lash, str) else "given in another form"
        notes = (
            *notes,
            f'The file says of the lash "{said}"; what is found is the most that may be read on the bench.',
        )
    if joint.radial_play is not None:
        notes = (*notes, "The radial play stays as read; it is one more sign of the play that is there.")
    return Unknown(
        find="lash",
        meaning="lash along the pitch circle",
        kind="length",
        key=key_of(index, "lash"),
        wanted="largest",
        values=ratios(LEAST_LASH, high),
        range_words="from next to none to almost a whole pitch",
        now=now,
        write=lambda value: {"clearance": millimetres(value)},
        fixed=fixed,
        notes=notes,
    )


def _lash_now(joint: SplineJoint, diameter: float) -> float | None:
    """Lash as stated, along the circle on which it counts, m."""
    lash = joint.lash
    if not isinstance(lash, Lash):
        return None
    if lash.clearance is not None:
        return lash.clearance.value
    if lash.angle is not None:
        return 0.5 * diameter * lash.angle.value
    if lash.travel is None or lash.radius is None:
        return None
    return 0.5 * diameter * lash.travel.value / lash.radius.value


def without_inspections(scenario: Scenario, index: int) -> tuple[dict[str, Any], tuple[str, ...]]:
    """Take out later readings of the lash of a joint: the newest would stand for the value that is tried."""
    written = scenario.document.get("inspection")
    if not isinstance(written, list) or not written:
        return {}, ()
    name = joint_name(scenario.joint[index], index)
    only = sum(isinstance(joint, SplineJoint) for joint in scenario.joint) == 1
    kept = [
        entry for entry in written if entry.get("joint", "") != name and not (only and "joint" not in entry)
    ]
    if len(kept) == len(written):
        return {}, ()
    return {"inspection": kept or None}, ("Later readings of its lash ([[inspection]]) are taken out.",)


def _tilt(scenario: Scenario, index: int) -> Unknown:
    joint = _splined(scenario, index, "tilt")
    sleeve = sleeve_of(scenario.joint, index)
    if sleeve is not None and sleeve.floats is not None:
        place = scenario.joint.index(sleeve)
        raise UsageError(
            f'--find tilt: the tilt of "{joint_name(joint, index)}" follows from the offset of '
            f'"{joint_name(sleeve, place)}", which floats: change {key_of(place, "floats.offset")}'
        )
    turns = isinstance(joint.tilt, Tilt) and joint.tilt.turns_with_shaft
    crowned = isinstance(joint, InvoluteSplineJoint) and joint.crown_height is not None
    more = {"turns_with_shaft": True} if turns else {}
    angle = joint.tilt.angle if isinstance(joint.tilt, Tilt) else None
    closest = closest_tilt()
    least = needed(closest.excellent)
    notes = (
        () if angle is not None else ("The tilt is tried as an angle, in place of what the file says of it.",)
    )
    return Unknown(
        find="tilt",
        meaning="tilt",
        kind="angle",
        key=key_of(index, "tilt"),
        wanted="largest",
        values=ratios(least, MOST_TILT_CROWNED if crowned else MOST_TILT),
        range_words=f"from {least * 1e3:g} mrad, called excellent of {closest.item} at their fastest, as no "
        "axes stay closer in line, to beyond what such teeth are meant for",
        now=None if angle is None else angle.value,
        write=lambda value: {"angle": _text(value, "angle", "deg"), **more},
        fixed={},
        notes=notes,
    )


# the motor


def _torque_rise(scenario: Scenario, index: int) -> Unknown:
    motor = scenario.motor
    peak = motor.boost * motor.peak_torque.value
    now = torque_rise(motor)
    notes: tuple[str, ...] = ()
    if motor.regen_rise is None:
        notes = ("The ramp into regeneration goes with it: the file gives it no rise of its own.",)
    return Unknown(
        find="torque-rise",
        meaning="torque rise",
        kind="torque rise",
        key="motor.torque_rise",
        wanted="largest",
        values=ratios(max(5.0, peak / SLOWEST_RISE_TIME), min(1e6, peak / FASTEST_RISE_TIME), FINE_POINTS),
        range_words=f"{SLOWEST_RISE_TIME:g} s to {FASTEST_RISE_TIME * 1e3:g} ms from zero to peak torque",
        now=now if math.isfinite(now) else None,
        write=lambda value: _text(value, "torque rise", "N*m/s"),
        fixed={"motor.rise_time": None, "motor.percent_per_10ms": None},
        notes=notes,
    )


def _motor_torque(scenario: Scenario, index: int) -> Unknown:
    motor = scenario.motor
    now = motor.peak_torque.value
    notes = []
    if motor.torque_rise is None:
        notes.append(
            "Time or percentage of the ramp stay as they are, so that its slope grows with the torque."
        )
    if motor.boost != 1.0:
        notes.append(f"It is the torque of the data sheet; the boost of {motor.boost:g} comes on top.")
    if scenario.duty_record is not None:
        notes.append("The torque record of the duty stays as it was recorded.")
    return Unknown(
        find="motor-torque",
        meaning="peak torque of the motor",
        kind="torque",
        key="motor.peak_torque",
        wanted="largest",
        values=ratios(max(1.0, LEAST_TORQUE * now), min(2e4, MOST_TORQUE * now)),
        range_words=f"{LEAST_TORQUE:g} to {MOST_TORQUE:g} times the torque of the file",
        now=now,
        write=_newton_metres,
        fixed={},
        notes=tuple(notes),
    )


MAKERS: dict[str, Callable[[Scenario, int], Unknown]] = {
    "engagement": _engagement,
    "lash": _lash,
    "tilt": _tilt,
    "torque-rise": _torque_rise,
    "motor-torque": _motor_torque,
}
