"""From readings at the bench to what the physics needs: tilt, lash, lubrication, tooth widths."""

import math
from dataclasses import dataclass

from torqcheck.geometry import (
    InvoluteSpline,
    StraightSpline,
    clearance_from_angle,
    clearance_from_radial_play,
    clearance_from_travel,
)
from torqcheck.scenario.joint_schema import Lash, SplineJoint, Tilt, engagement_of
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.quantity import Reading, needed
from torqcheck.scenario.sizes import lost_height, width_from_pins, worn_step
from torqcheck.wear import offset_from_runout, tilt_from_face_reading, tilt_from_offset

__all__ = ["LashReading", "TiltReading", "WornWidths", "lash_of", "lubrication_of", "tilt_of", "tooth_widths"]

UNMEASURED_OFFSET = 0.125e-3
UNMEASURED_OFFSET_BAND = (0.025e-3, 0.5e-3)
UNMEASURED_SPAN = 60e-3
UNMEASURED_LASH = math.radians(0.5)
UNMEASURED_LASH_BAND = (math.radians(0.2), math.radians(1.5))

_HOW_TILT = (
    "dial indicator carried by one shaft, sweeping rim and face of the other; a dial on the housing shows "
    "only errors that turn with the part"
)
_HOW_LASH = "lock one part at the spline, rock the other with a lever, dial indicator at a known radius"
_HOW_NOSE = "look whether a pilot or spigot bearing carries the shaft nose"


@dataclass(frozen=True, slots=True)
class TiltReading:
    """Angle between the axes, rad, its tolerance, and how it is known."""

    angle: float
    measured: bool
    turns_with_shaft: bool
    tolerance: float = 0.0


@dataclass(frozen=True, slots=True)
class LashReading:
    """Rotational play: clearance along the pitch circle, m, and how it is known."""

    clearance: float
    measured: bool
    new: bool

    def angle(self, pitch_diameter: float) -> float:
        """Whole lash as an angle, rad."""
        return 2.0 * self.clearance / pitch_diameter


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
        return TiltReading(0.0, measured=True, turns_with_shaft=False)
    tilt = joint.tilt
    if isinstance(tilt, Tilt):
        angle, tolerance = _stated_tilt(tilt, joint, key, ledger)
        reading = TiltReading(angle, True, tilt.turns_with_shaft, tolerance)
    else:
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
        reading = TiltReading(angle, False, False)
    return _with_nose(joint, key, name, reading, lash, spline, ledger)


def _stated_tilt(tilt: Tilt, joint: SplineJoint, key: str, ledger: Ledger) -> tuple[float, float]:
    """Turn each way of measuring into the angle between the axes and its tolerance."""
    if tilt.angle is not None:
        return tilt.angle.value, tilt.angle.tolerance
    if tilt.offset is not None:
        span = needed(tilt.span).value
        return float(tilt_from_offset(tilt.offset.value, span)), tilt.offset.tolerance / span
    span = _span(tilt, joint, key, ledger)
    if tilt.runout is not None:
        return _from_runout(tilt.runout, span)
    face, diameter = needed(tilt.face), needed(tilt.diameter).value
    # the offset at the rim adds to the angle at the face in the worst position
    offset, doubt = _from_runout(needed(tilt.rim), span)
    angle = float(tilt_from_face_reading(face.value, diameter))
    return angle + offset, math.hypot(face.tolerance / diameter, doubt)


def _from_runout(reading: Reading, span: float) -> tuple[float, float]:
    """Angle and tolerance of a total indicator reading taken up over a span."""
    offset = float(offset_from_runout(reading.value))
    return float(tilt_from_offset(offset, span)), 0.5 * reading.tolerance / span


def _span(tilt: Tilt, joint: SplineJoint, key: str, ledger: Ledger) -> float:
    """Length over which an offset is taken up; the engagement, the hardest case, where none is given."""
    if tilt.span is not None:
        return tilt.span.value
    return ledger.assume(
        f"{key}.tilt.span",
        engagement_of(joint).value,
        "length",
        "no span given: the offset is taken up over the engagement, the hardest case",
    )


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
    return TiltReading(reading.angle + rocking, False, False, reading.tolerance)


def lash_of(
    joint: SplineJoint,
    key: str,
    name: str,
    spline: InvoluteSpline | StraightSpline,
    diameter: float,
    ledger: Ledger,
) -> LashReading:
    """Rotational play along the pitch circle: as measured, inferred from other readings, or assumed."""
    lash = joint.lash
    if isinstance(lash, Lash):
        return LashReading(_stated_lash(lash, diameter), measured=True, new=False)
    new = spline.new_clearance
    if lash == "as new":
        clearance = ledger.assume(
            f"{key}.lash",
            new.maximum,
            "length",
            f"as new: the largest new clearance, {new.assumes}",
            band=(new.minimum, new.maximum),
            mark=new.source.mark,
        )
        if joint.external.reused is not False or joint.internal.reused is not False:
            ledger.miss(name, "lash", f"one part is not new; {_HOW_LASH}")
        return LashReading(clearance, measured=True, new=True)
    by_pins = _lash_by_pins(joint, spline)
    if by_pins is not None:
        return LashReading(by_pins, measured=True, new=False)
    ledger.miss(name, "lash", _HOW_LASH)
    if joint.radial_play is not None and isinstance(spline, InvoluteSpline):
        clearance = ledger.assume(
            f"{key}.lash",
            float(clearance_from_radial_play(joint.radial_play.value, spline.pressure_angle, spline.teeth)),
            "length",
            "inferred from the radial play; a pilot or a major-diameter contact can stop the play earlier, "
            "so that the lash may be larger",
            mark="derived",
        )
        return LashReading(clearance, measured=False, new=False)
    values = [float(clearance_from_angle(a, diameter)) for a in (UNMEASURED_LASH, *UNMEASURED_LASH_BAND)]
    clearance = ledger.assume(
        f"{key}.lash",
        values[0],
        "length",
        "not measured: 0.5 deg (0.2 to 1.5 deg)",
        band=(values[1], values[2]),
        favourable=min(values[1], new.maximum),
    )
    return LashReading(clearance, measured=False, new=False)


def _lash_by_pins(joint: SplineJoint, spline: InvoluteSpline | StraightSpline) -> float | None:
    """Clearance from the widths of both members, if both were read with pins."""
    if not isinstance(spline, InvoluteSpline):
        return None
    thickness = width_from_pins(joint, spline, "external")
    space = width_from_pins(joint, spline, "internal")
    return None if thickness is None or space is None else max(0.0, space - thickness)


def _stated_lash(lash: Lash, diameter: float) -> float:
    if lash.clearance is not None:
        return lash.clearance.value
    if lash.angle is not None:
        return float(clearance_from_angle(lash.angle.value, diameter))
    return float(clearance_from_travel(needed(lash.travel).value, needed(lash.radius).value, diameter))


def lubrication_of(joint: SplineJoint, key: str, ledger: Ledger) -> str:
    """State of the lubrication; without a word on it, grease that has had its time."""
    if joint.lubrication is not None:
        return joint.lubrication
    return ledger.assume_word(
        f"{key}.lubrication", "expired grease", "not stated; grease that nobody renews has had its time"
    )


@dataclass(frozen=True, slots=True)
class WornWidths:
    """What the readings leave of a spline, m; `lost` is what each tooth has lost of its new thickness."""

    external: float
    internal: float
    external_lost: float
    internal_lost: float
    height: float


def tooth_widths(joint: SplineJoint, spline: InvoluteSpline | StraightSpline) -> WornWidths:
    """
    Widths of the teeth on the pitch circle and contact height, as far as readings take from them.

    Readings over and between pins replace the nominal widths in the worn direction; measured tip
    diameters and worn steps take from the contact height.
    """
    steps = [worn_step(joint.external), worn_step(joint.internal)]
    height = spline.contact_height - lost_height(joint, spline)
    if isinstance(spline, StraightSpline):
        pitch = math.pi * spline.mean_diameter / spline.teeth
        internal = pitch - spline.tooth_width
        return WornWidths(spline.tooth_width - steps[0], internal - steps[1], steps[0], steps[1], height)
    slant = math.cos(spline.pressure_angle)
    losses = []
    for side, step in zip(("external", "internal"), steps, strict=True):
        by_pins = width_from_pins(joint, spline, side)
        nominal = spline.tooth_thickness if side == "external" else spline.space_width
        sign = 1.0 if side == "external" else -1.0
        losses.append(step / slant if by_pins is None else max(0.0, sign * (nominal - by_pins)))
    return WornWidths(
        spline.tooth_thickness - losses[0],
        spline.circular_pitch - spline.space_width - losses[1],
        losses[0],
        losses[1],
        height,
    )
