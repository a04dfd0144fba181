"""From readings at the bench to what the physics needs: lash, lubrication, tooth widths."""

import math
from dataclasses import dataclass

from torqcheck.geometry import (
    InvoluteSpline,
    StraightSpline,
    clearance_from_angle,
    clearance_from_radial_play,
    clearance_from_travel,
)
from torqcheck.scenario.joint_schema import Lash, SplineJoint
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.quantity import needed
from torqcheck.scenario.sizes import lost_height, width_from_pins, worn_step

__all__ = ["LashReading", "WornWidths", "lash_of", "lubrication_of", "tooth_widths"]

UNMEASURED_LASH = math.radians(0.5)
UNMEASURED_LASH_BAND = (math.radians(0.2), math.radians(1.5))

_HOW_LASH = "lock one part at the spline, rock the other with a lever, dial indicator at a known radius"


@dataclass(frozen=True, slots=True)
class LashReading:
    """Rotational play: clearance along the pitch circle, m, and how it is known."""

    clearance: float
    measured: bool
    new: bool

    def angle(self, pitch_diameter: float) -> float:
        """Whole lash as an angle, rad."""
        return 2.0 * self.clearance / pitch_diameter


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
