"""Tilt of a splined joint: from the readings of its alignment, or assumed, with what rocking adds."""

import math
from dataclasses import dataclass, replace

from pydantic import BaseModel

from torqcheck.errors import DomainError
from torqcheck.geometry import InvoluteSpline, StraightSpline
from torqcheck.scenario.alignment import Across, Axes, Closing, Input, axes_of, inputs_of, rises_of
from torqcheck.scenario.bench import LashReading
from torqcheck.scenario.joint_schema import SplineJoint, engagement_of
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.quantity import Reading, needed
from torqcheck.scenario.tilt_rules import steep_faults
from torqcheck.scenario.tilt_schema import ClockReadings, Tilt
from torqcheck.scenario.usual import CLOCK, tolerance_of
from torqcheck.wear import offset_from_runout, tilt_from_face_reading, tilt_from_offset

__all__ = ["AlignmentReading", "TiltReading", "tilt_faults", "tilt_of"]

UNMEASURED_OFFSET = 0.125e-3
UNMEASURED_OFFSET_BAND = (0.025e-3, 0.5e-3)
UNMEASURED_SPAN = 60e-3
FAR_OFF = 2.0
"""Tolerances by which four readings may miss closing before they are worth nothing."""

_HOW_TILT = (
    "dial indicator carried by one shaft, sweeping rim and face of the other; a dial on the housing shows "
    "only errors that turn with the part"
)
_HOW_NOSE = "look whether a pilot or spigot bearing carries the shaft nose"


@dataclass(frozen=True, slots=True, kw_only=True)
class AlignmentReading:
    """
    How the two axes lie, and what that makes of the tilt at the mesh. SI.

    Parameters
    ----------
    method : str
        How it was read.
    measured : bool
        Read, not assumed.
    offset, tilt : Across or None
        Of the axes, as they run; None where the method does not show it.
    cold_offset : Across or None
        As it was read, where feet grow warm afterwards.
    span : float or None
        Length over which the offset is taken up.
    mesh : Across
        Tilt of the mesh, without any rocking of an unsupported nose.
    cold_mesh : float or None
        The same with cold feet.
    without_offset, without_tilt : float
        The same if only the one, or only the other, were put right.
    rocking : float
        What an unsupported nose adds.
    turning_offset, turning_tilt : Across or None
        What turns with the shaft and makes no cyclic slip.
    closings : tuple of Closing
        How well the four readings of each sweep close.
    """

    method: str
    measured: bool
    mesh: Across
    offset: Across | None = None
    tilt: Across | None = None
    cold_offset: Across | None = None
    cold_mesh: float | None = None
    span: float | None = None
    without_offset: float = 0.0
    without_tilt: float = 0.0
    rocking: float = 0.0
    turning_offset: Across | None = None
    turning_tilt: Across | None = None
    closings: tuple[Closing, ...] = ()


@dataclass(frozen=True, slots=True)
class TiltReading:
    """Angle between the axes, rad, its tolerance, and how it is known."""

    angle: float
    measured: bool
    turns_with_shaft: bool
    tolerance: float = 0.0
    alignment: AlignmentReading | None = None


def tilt_of(
    joint: SplineJoint,
    key: str,
    name: str,
    lash: LashReading,
    spline: InvoluteSpline | StraightSpline,
    ledger: Ledger,
) -> TiltReading:
    """Angle between the two axes: as measured, or assumed from the offset that is common unmeasured."""
    if joint.seat == "fixed":
        ledger.assume_word(
            f"{key}.seat",
            "fixed",
            "as stated: shrunk, clamped, or piloted at both ends, so that it cannot rock; a joint that can "
            "rock all the same wears, and its flanks carry a ninth of what is allowed here",
        )
        # nothing is taken up at the teeth; what was read is shown, and forced upon the shafts
        aside = Ledger(ledger.outlook, deviations=ledger.deviations)
        forced = _stated(joint.tilt, joint, key, name, aside) if isinstance(joint.tilt, Tilt) else None
        ledger.cautions.extend(entry for entry in aside.cautions if entry not in ledger.cautions)
        return TiltReading(0.0, measured=True, turns_with_shaft=False, alignment=forced)
    tilt = joint.tilt
    if isinstance(tilt, Tilt):
        found = _stated(tilt, joint, key, name, ledger)
        angle = found.mesh.total
        if ledger.outlook == "favourable" and _far_off(found.closings):
            # such a set is worth nothing: what is hoped for is what is hoped for unmeasured
            angle = min(angle, float(tilt_from_offset(UNMEASURED_OFFSET_BAND[0], UNMEASURED_SPAN)))
        reading = TiltReading(angle, True, tilt.turns_with_shaft, _counted(tilt, found), found)
    else:
        reading = _unmeasured(key, name, ledger)
    return _with_nose(joint, key, name, reading, lash, spline, ledger)


def tilt_faults(joint: BaseModel) -> list[tuple[str, str, str]]:
    """Readings that mean an angle at which no joint can be put together are a slip: key, problem, mend."""
    if not isinstance(joint, SplineJoint) or not isinstance(joint.tilt, Tilt):
        return []
    tilt = joint.tilt
    if joint.engagement is None and tilt.span is None:
        return []
    try:
        angle = _stated(tilt, joint, "", "", Ledger()).mesh.total
    except DomainError:
        angle = 0.5 * math.pi
    return steep_faults("tilt", angle)


def _counted(tilt: Tilt, found: AlignmentReading) -> float:
    """Tolerance that counts at the edge of fretting: of total readings only what is written behind them."""
    if isinstance(tilt.rim, ClockReadings) or found.cold_offset is not None:
        return found.mesh.tolerance
    across = (tilt.offset, 1.0), (tilt.runout, 0.5), (_total_reading(tilt.rim), 0.5)
    doubts = [reading.tolerance * share / needed(found.span) for reading, share in across if reading]
    doubts += [tilt.angle.tolerance] if tilt.angle is not None else []
    face = _total_reading(tilt.face)
    doubts += [face.tolerance / needed(tilt.diameter).value] if face is not None else []
    return math.hypot(*doubts)


def _total_reading(written: Reading | ClockReadings | None) -> Reading | None:
    """A reading that is one number, if it is one."""
    return written if isinstance(written, Reading) else None


def _unmeasured(key: str, name: str, ledger: Ledger) -> TiltReading:
    """Tilt by the offset that is common where nobody has measured it."""
    ledger.miss(name, "tilt or runout", _HOW_TILT)
    low, high = (tilt_from_offset(offset, UNMEASURED_SPAN) for offset in UNMEASURED_OFFSET_BAND)
    angle = ledger.assume(
        f"{key}.tilt",
        float(tilt_from_offset(UNMEASURED_OFFSET, UNMEASURED_SPAN)),
        "angle",
        "not measured: 0.25 mm total indicator reading (0.05 to 1.0 mm) taken up over 60 mm",
        band=(float(low), float(high)),
        favourable=float(low),
    )
    found = AlignmentReading(
        method="not measured",
        measured=False,
        mesh=Across(angle, 0.0),
        offset=Across(math.tan(angle) * UNMEASURED_SPAN, 0.0),
        span=UNMEASURED_SPAN,
        without_tilt=angle,
    )
    return TiltReading(angle, False, False, alignment=found)


def _stated(tilt: Tilt, joint: SplineJoint, key: str, name: str, ledger: Ledger) -> AlignmentReading:
    """Turn each way of measuring into offset, tilt of the axes, and tilt of the mesh."""
    if isinstance(tilt.rim, ClockReadings):
        found = _around(tilt, joint, key, name, ledger)
    else:
        found = _total(tilt, joint, key, ledger)
    if found.turning_offset is None and tilt.shaft_runout is not None:
        runout = tilt.shaft_runout
        doubt = 0.5 * tolerance_of(runout, "joint.tilt.shaft_runout")
        turning = Across(float(offset_from_runout(runout.value)), doubt)
        return replace(found, turning_offset=turning)
    return found


def _total(tilt: Tilt, joint: SplineJoint, key: str, ledger: Ledger) -> AlignmentReading:
    """Readings without a direction: what they show adds up in the worst position."""
    slope, offset, method = _parts(tilt)
    cold = offset
    rises = rises_of(tilt, key, ledger)
    if rises is not None:
        before = offset or Input(0.0, 0.0)
        more = abs(rises[1].value - rises[0].value)
        doubt = math.hypot(before.tolerance, rises[0].tolerance, rises[1].tolerance)
        cold, offset = before, Input(before.value + more, doubt)
    steep = slope or Input(0.0, 0.0)
    if offset is None or cold is None:
        mesh = Across(steep.value, steep.tolerance)
        return AlignmentReading(
            method=method, measured=True, mesh=mesh, tilt=_plain(slope), without_offset=steep.value
        )
    span = _span(tilt, joint, key, ledger)
    taken_up = float(tilt_from_offset(offset.value, span.value))
    doubts = steep.tolerance, offset.tolerance / span.value, taken_up * span.tolerance / span.value
    return AlignmentReading(
        method=method,
        measured=True,
        mesh=Across(steep.value + taken_up, math.hypot(*doubts)),
        offset=_plain(offset),
        tilt=_plain(slope),
        cold_offset=None if rises is None else _plain(cold),
        cold_mesh=None if rises is None else steep.value + float(tilt_from_offset(cold.value, span.value)),
        span=span.value,
        without_offset=steep.value,
        without_tilt=taken_up,
    )


def _plain(given: Input | None) -> Across | None:
    return None if given is None else Across(given.value, given.tolerance)


def _parts(tilt: Tilt) -> tuple[Input | None, Input | None, str]:
    """Tilt and offset of the axes as far as the readings show them, and the method."""
    if tilt.angle is not None:
        angle = tilt.angle
        return Input(angle.value, tolerance_of(angle, "joint.tilt.angle")), None, "angle"
    if tilt.offset is not None:
        offset = tilt.offset
        return None, Input(offset.value, tolerance_of(offset, "joint.tilt.offset")), "offset"
    if tilt.runout is not None:
        reading = tilt.runout
        half = 0.5 * tolerance_of(reading, "joint.tilt.runout")
        return None, Input(float(offset_from_runout(reading.value)), half), "run-out"
    rim, face = needed(_total_reading(tilt.rim)), needed(_total_reading(tilt.face))
    diameter = needed(tilt.diameter)
    angle_read = float(tilt_from_face_reading(face.value, diameter.value))
    doubt = math.hypot(
        tolerance_of(face, "joint.tilt.face"),
        angle_read * tolerance_of(diameter, "joint.tilt.diameter"),
    )
    offset_read = float(offset_from_runout(rim.value))
    return (
        Input(angle_read, doubt / diameter.value),
        Input(offset_read, 0.5 * tolerance_of(rim, "joint.tilt.rim")),
        "rim and face, total readings",
    )


def _around(tilt: Tilt, joint: SplineJoint, key: str, name: str, ledger: Ledger) -> AlignmentReading:
    """Readings at four places of the clock: two axes in space."""
    inputs = inputs_of(tilt, key, ledger)
    rises = rises_of(tilt, key, ledger)
    axes = axes_of(tilt, inputs, rises)
    if any(_misses(closing) for closing in axes.closings):
        axes = axes_of(tilt, _widened(inputs, axes.closings), rises)
        axes = replace(axes, closings=axes_of(tilt, inputs, rises).closings)
    _say(tilt, axes, key, name, ledger)
    span = _span(tilt, joint, key, ledger).value
    tangents = [math.tan(needed(part)) for part in (axes.tilt.vertical, axes.tilt.horizontal)]
    return AlignmentReading(
        method="rim and face, four places" if tilt.reverse_rim is None else "two rims, four places",
        measured=True,
        mesh=axes.mesh(span, False),
        offset=axes.offset,
        tilt=axes.tilt,
        cold_offset=None if rises is None else axes.cold_offset,
        cold_mesh=None if rises is None else axes.mesh(span, True).total,
        span=span,
        without_offset=math.atan(math.hypot(*tangents)),
        without_tilt=float(tilt_from_offset(axes.offset.total, span)),
        turning_offset=axes.turning_offset,
        turning_tilt=axes.turning_tilt,
        closings=axes.closings,
    )


def _misses(closing: Closing) -> bool:
    return abs(closing.error) > closing.tolerance


def _far_off(closings: tuple[Closing, ...]) -> bool:
    return any(abs(closing.error) > FAR_OFF * closing.tolerance for closing in closings)


def _widened(inputs: dict[str, Input], closings: tuple[Closing, ...]) -> dict[str, Input]:
    """Readings of a sweep that does not close are no better than half of what it misses by."""
    wider = dict(inputs)
    for closing in closings:
        if _misses(closing):
            for place in CLOCK:
                given = inputs[f"{closing.sweep}.{place}"]
                doubt = max(given.tolerance, 0.5 * abs(closing.error))
                wider[f"{closing.sweep}.{place}"] = replace(given, tolerance=doubt)
    return wider


def _say(tilt: Tilt, axes: Axes, key: str, name: str, ledger: Ledger) -> None:
    """Write down what is doubtful about the readings."""
    for closing in axes.closings:
        if _misses(closing):
            sweep = closing.sweep.replace("_", " ")
            ledger.warn(
                f"{key} {closing.sweep} does not close",
                f"{name}: the four readings of {sweep} do not close: top and bottom together differ from "
                f"right and left together by {abs(closing.error) * 1e3:.3f} mm, where "
                f"{closing.tolerance * 1e3:.3f} mm would do. A dial that slipped, a rim that is not round, a "
                "warped face or play in a bearing: read them again.",
            )
    if _far_off(axes.closings):
        ledger.miss(name, "alignment, once more", "the four readings of a sweep must close: " + _HOW_TILT)
    if tilt.turned is None and tilt.rim_after_half_turn is None:
        ledger.assume_word(
            f"{key}.tilt.turned",
            "both together",
            "not stated; with both shafts turned together the run-out of the part that is read drops out",
        )
    if tilt.turned == "dial only" and tilt.rim_after_half_turn is None and tilt.shaft_runout is None:
        ledger.warn(
            f"{key} run-out in the reading",
            f"{name}: only the shaft with the dial was turned, so the run-out of the part that was read is "
            "still in the offset. Turn both together, or read again after half a turn of that part.",
        )


def _span(tilt: Tilt, joint: SplineJoint, key: str, ledger: Ledger) -> Input:
    """Length over which an offset is taken up; the engagement, the hardest case, where none is given."""
    if tilt.span is not None:
        return Input(tilt.span.value, tolerance_of(tilt.span, "joint.tilt.span"))
    length = ledger.assume(
        f"{key}.tilt.span",
        engagement_of(joint).value,
        "length",
        "no span given: the offset is taken up over the engagement, the hardest case",
    )
    return Input(length, tolerance_of(engagement_of(joint), "joint.engagement"))


def _with_nose(
    joint: SplineJoint,
    key: str,
    name: str,
    reading: TiltReading,
    lash: LashReading,
    spline: InvoluteSpline | StraightSpline,
    ledger: Ledger,
) -> TiltReading:
    """Add the rocking of a shaft end that only the spline carries."""
    if joint.nose_supported is None:
        ledger.miss(name, "support of the shaft nose", _HOW_NOSE)
        ledger.assume_word(f"{key}.nose_supported", "true", "not stated")
        return reading
    if joint.nose_supported:
        return reading
    play = (
        joint.radial_play.value
        if joint.radial_play is not None
        else lash.clearance * math.cos(spline.pressure_angle)
    )
    rocking = ledger.assume(
        f"{key}.tilt (shaft nose not supported)",
        math.atan(play / engagement_of(joint).value),
        "angle",
        "without a nose bearing the shaft rocks in its own radial play over the engagement; this is "
        "added to the tilt",
    )
    ledger.warn(
        f"{key} nose",
        f"{name}: the spline itself carries the shaft end. More splines die of this than of torque: "
        "give the nose a pilot or spigot bearing.",
    )
    # a shaft end that hangs in its play is tilted in space, so it slips at every turn
    found = None if reading.alignment is None else replace(reading.alignment, rocking=rocking)
    return replace(
        reading, angle=reading.angle + rocking, measured=False, turns_with_shaft=False, alignment=found
    )
