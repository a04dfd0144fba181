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
from torqcheck.scenario.joint_schema import Lash, SplineJoint, Tilt
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.quantity import needed
from torqcheck.scenario.sizes import width_from_pins
from torqcheck.wear import offset_from_runout, tilt_from_face_reading, tilt_from_offset

__all__ = ["LashReading", "TiltReading", "lash_of", "lubrication_of", "tilt_of", "tooth_widths"]

UNMEASURED_OFFSET = 0.125e-3
UNMEASURED_OFFSET_BAND = (0.025e-3, 0.5e-3)
UNMEASURED_SPAN = 60e-3
UNMEASURED_LASH = math.radians(0.5)
UNMEASURED_LASH_BAND = (math.radians(0.2), math.radians(1.5))

_HOW_TILT = "dial indicator on the hub bore and face while the shaft is turned, or straightedge and feelers"
_HOW_LASH = "lock one part at the spline, rock the other with a lever, dial indicator at a known radius"
_HOW_NOSE = "look whether a pilot or spigot bearing carries the shaft nose"


@dataclass(frozen=True, slots=True)
class TiltReading:
    """Angle between the axes, rad, and how it is known."""

    angle: float
    measured: bool
    turns_with_shaft: bool


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
        return TiltReading(0.0, measured=True, turns_with_shaft=False)
    tilt = joint.tilt
    if isinstance(tilt, Tilt):
        reading = TiltReading(_stated_tilt(tilt, joint, key, ledger), True, tilt.turns_with_shaft)
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


def _stated_tilt(tilt: Tilt, joint: SplineJoint, key: str, ledger: Ledger) -> float:
    """Turn each way of measuring into the angle between the axes."""
    if tilt.angle is not None:
        return tilt.angle.value
    if tilt.offset is not None and tilt.span is not None:
        return float(tilt_from_offset(tilt.offset.value, tilt.span.value))
    if tilt.runout is not None:
        span = (
            tilt.span.value
            if tilt.span is not None
            else ledger.assume(
                f"{key}.tilt.span",
                joint.engagement.value,
                "length",
                "no span given: the offset is taken up over the engagement, the hardest case",
            )
        )
        return float(tilt_from_offset(offset_from_runout(tilt.runout.value), span))
    angle = float(tilt_from_face_reading(needed(tilt.face).value, needed(tilt.diameter).value))
    if tilt.span is not None:
        # two flex planes: the offset of the rim adds to the angle of the face in the worst position
        angle += float(tilt_from_offset(offset_from_runout(needed(tilt.rim).value), tilt.span.value))
    return angle


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
        math.atan(play / joint.engagement.value),
        "angle",
        "without a nose bearing the shaft rocks in its own radial play over the engagement; this is "
        "added to the tilt",
    )
    ledger.warn(
        f"{key} nose",
        f"{name}: the spline itself carries the shaft end. More splines die of this than of torque: "
        "give the nose a pilot or spigot bearing.",
    )
    return TiltReading(reading.angle + rocking, reading.measured, reading.turns_with_shaft)


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
    if lash == "as new":
        clearance = ledger.assume(
            f"{key}.lash",
            spline.new_clearance.maximum,
            "length",
            f"as new: the largest new clearance, {spline.new_clearance.assumes}",
            band=(spline.new_clearance.minimum, spline.new_clearance.maximum),
            mark=spline.new_clearance.source.mark,
        )
        return LashReading(clearance, measured=True, new=True)
    if joint.radial_play is not None and isinstance(spline, InvoluteSpline):
        clearance = ledger.assume(
            f"{key}.lash",
            float(clearance_from_radial_play(joint.radial_play.value, spline.pressure_angle, spline.teeth)),
            "length",
            "inferred from the radial play; a pilot or a major-diameter contact can stop the play earlier",
            mark="derived",
        )
        return LashReading(clearance, measured=True, new=False)
    ledger.miss(name, "lash", _HOW_LASH)
    values = [float(clearance_from_angle(a, diameter)) for a in (UNMEASURED_LASH, *UNMEASURED_LASH_BAND)]
    clearance = ledger.assume(
        f"{key}.lash",
        values[0],
        "length",
        "not measured: 0.5 deg (0.2 to 1.5 deg)",
        band=(values[1], values[2]),
        favourable=values[1],
    )
    return LashReading(clearance, measured=False, new=False)


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


def tooth_widths(
    joint: SplineJoint, spline: InvoluteSpline | StraightSpline, key: str, ledger: Ledger
) -> tuple[float, float, float]:
    """
    Widths that carry load: tooth of the shaft, tooth of the hub (both on the pitch circle), contact height.

    Readings over and between pins replace the nominal widths; measured tip diameters and worn steps
    take from the contact height.
    """
    outer, inner = joint.external.measured, joint.internal.measured
    steps = [m.worn_step.value if m.worn_step is not None else 0.0 for m in (outer, inner)]
    if isinstance(spline, StraightSpline):
        pitch = math.pi * spline.mean_diameter / spline.teeth
        return (
            spline.tooth_width - steps[0],
            pitch - spline.tooth_width - steps[1],
            spline.contact_height - sum(steps),
        )
    thickness = spline.tooth_thickness
    space = spline.space_width
    slant = math.cos(spline.pressure_angle)
    by_pins = width_from_pins(joint, spline, "external")
    thickness = thickness - steps[0] / slant if by_pins is None else min(thickness, by_pins)
    by_pins = width_from_pins(joint, spline, "internal")
    space = space + steps[1] / slant if by_pins is None else max(space, by_pins)
    return thickness, spline.circular_pitch - space, _height(joint, spline, key, ledger) - sum(steps)


def _height(joint: SplineJoint, spline: InvoluteSpline, key: str, ledger: Ledger) -> float:
    """Radial depth of engagement, reduced to what measured tip diameters leave of it."""
    lost = 0.0
    for side, name, sign in (("external", "major_diameter", 1.0), ("internal", "minor_diameter", -1.0)):
        measured = getattr(joint, side).measured
        reading = getattr(measured, name)
        if reading is None or (measured.teeth is not None and measured.teeth != spline.teeth):
            continue
        nominal = getattr(getattr(spline, side), name)
        lost += max(0.0, 0.5 * sign * (nominal - reading.value))
    height = spline.contact_height - lost
    if height < 0.25 * spline.contact_height:
        ledger.warn(
            f"{key} contact height",
            f"{key}: the measured tip diameters leave {max(height, 0) * 1e3:.2f} mm of the "
            f"{spline.contact_height * 1e3:.2f} mm of contact height; check the readings.",
        )
        height = 0.25 * spline.contact_height
    return height
