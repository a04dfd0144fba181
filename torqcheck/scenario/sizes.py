"""From the size that a joint states to the dimensions of its spline; and what cannot be."""

import math
from collections.abc import Callable, Mapping
from typing import Any

from torqcheck.errors import DomainError
from torqcheck.geometry import (
    InvoluteSpline,
    StraightSpline,
    ansi_b92_1,
    din_5480,
    iso_4156,
    own_spline,
    space_from_pins,
    straight,
    thickness_from_pins,
)
from torqcheck.scenario.joint_schema import (
    InvoluteSplineJoint,
    Lash,
    Member,
    SplineJoint,
    StraightSplineJoint,
    bore_of,
    no_wall,
)
from torqcheck.scenario.kinds.clamp import clamp_sizes
from torqcheck.scenario.kinds.flange import flange_sizes
from torqcheck.scenario.kinds.interference import interference_sizes
from torqcheck.scenario.kinds.key import key_size_faults
from torqcheck.scenario.kinds.pin import pin_size_faults
from torqcheck.scenario.kinds.set_screws import set_screws_size_faults
from torqcheck.scenario.kinds.shaft import shaft_sizes
from torqcheck.scenario.kinds.sleeve import sleeve_sizes
from torqcheck.scenario.kinds.weld import weld_sizes
from torqcheck.scenario.quantity import needed
from torqcheck.scenario.rules import presence_faults

__all__ = [
    "groove_diameter",
    "has_a_size",
    "lash_faults",
    "load_diameter",
    "lost_height",
    "most_engagement",
    "root_under_teeth",
    "size_faults",
    "spline_of",
    "width_from_pins",
    "worn_step",
]

DEFAULT_ANGLE = math.radians(30.0)
MOST_WORN = 0.4
LEAST_HEIGHT = 0.25
MOST_DIAMETERS = 20.0
"""Engagement over the pitch diameter: even a long sliding shaft has less; 1 or 2 carry all there is."""
MODULES_OFF = 2.0
"""A measured diameter may differ from the stated size by this many modules before it is refused."""


def spline_of(joint: SplineJoint) -> InvoluteSpline | StraightSpline:
    """
    Return the dimensions of the spline that a joint states.

    Raises
    ------
    DomainError
        If the standard has no such spline.
    """
    if isinstance(joint, InvoluteSplineJoint):
        return _involute(joint)
    if isinstance(joint, StraightSplineJoint):
        return _straight(joint)
    raise TypeError(f"not a spline: {type(joint).__name__}")


def _involute(joint: InvoluteSplineJoint) -> InvoluteSpline:
    size = joint.size
    teeth = needed(size.teeth)
    angle = size.pressure_angle.value if size.pressure_angle is not None else DEFAULT_ANGLE
    root = size.root or ("flat" if abs(angle - DEFAULT_ANGLE) < 1e-6 else "fillet")
    if joint.standard == "ansi b92.1":
        return ansi_b92_1.spline(teeth, needed(size.pitch), angle, root)
    if joint.standard == "iso 4156":
        return iso_4156.spline(teeth, needed(size.module).value, angle, root)
    if joint.standard == "din 5480":
        return din_5480.spline(needed(size.reference_diameter).value, needed(size.module).value, teeth)
    return own_spline(
        teeth=teeth,
        pressure_angle=angle,
        pitch_diameter=needed(size.pitch_diameter).value,
        root_diameter=needed(size.root_diameter).value,
        internal_major_diameter=needed(size.internal_major_diameter).value,
        tooth_thickness=needed(size.tooth_thickness).value,
        contact_height=needed(size.contact_height).value,
    )


def _straight(joint: StraightSplineJoint) -> StraightSpline:
    size = joint.size
    chamfer = size.chamfer.value if size.chamfer is not None else None
    if joint.standard == "iso 14":
        return straight.iso_14(needed(size.designation), chamfer)
    teeth, major = needed(size.teeth), needed(size.major_diameter).value
    if joint.standard == "sae":
        return straight.sae(teeth, major, needed(size.fit))
    minor, width = needed(size.minor_diameter).value, needed(size.tooth_width).value
    return straight.own(teeth, major, minor, width, chamfer or 0.0)


def size_faults(joint: Any) -> list[tuple[str, str, str]]:
    """Return what cannot be about the size of a joint: key, problem, mend."""
    if not isinstance(joint, SplineJoint):
        return _OTHER_SIZES[joint.kind](joint) if joint.kind in _OTHER_SIZES else []
    try:
        spline = spline_of(joint)
    except DomainError as error:
        return [("size", f"is not possible: {error}", "mend the size")]
    return [
        *_engagement_faults(joint, spline),
        *_wall_faults(joint, spline),
        *_reading_faults(joint, spline),
        *_pin_faults(joint, spline),
        *lash_faults(joint.lash, spline),
        *_radial_play_faults(joint, spline),
        *_wear_faults(joint, spline),
    ]


def has_a_size(joint: SplineJoint, written: Mapping[str, Any]) -> bool:
    """Whether a joint, as the file writes it, has no fault of its own that leaves its size open."""
    return not presence_faults(joint.kind, written) and not size_faults(joint)


def groove_diameter(joint: SplineJoint, spline: InvoluteSpline | StraightSpline) -> float:
    """Diameter at the bottom of the hub's spaces: nominal, or measured where that is larger."""
    reading = joint.internal.measured.major_diameter
    nominal = _nominal_grooves(spline)
    return nominal if reading is None else max(nominal, reading.value)


def _nominal_grooves(spline: InvoluteSpline | StraightSpline) -> float:
    return spline.internal.major_diameter if isinstance(spline, InvoluteSpline) else spline.major_diameter


def root_under_teeth(joint: SplineJoint, spline: InvoluteSpline | StraightSpline) -> float:
    """Diameter under the teeth of the shaft: nominal, or measured where that is smaller."""
    reading = joint.external.measured.minor_diameter
    return spline.root_diameter if reading is None else min(spline.root_diameter, reading.value)


def most_engagement(spline: InvoluteSpline | StraightSpline) -> float:
    """Longest engagement that teeth of their diameter can be meant to have, m."""
    return MOST_DIAMETERS * load_diameter(spline)


def _engagement_faults(
    joint: SplineJoint, spline: InvoluteSpline | StraightSpline
) -> list[tuple[str, str, str]]:
    """Teeth that overlap over many diameters are a slip of the unit."""
    most = most_engagement(spline)
    if joint.engagement is None or joint.engagement.value <= most * (1.0 + 1e-9):
        return []
    says = f"is more than {MOST_DIAMETERS:g} times the pitch diameter of the teeth"
    return [("engagement", says, f"at most {most * 1e3:.0f} mm is taken; check the number and the unit")]


def _wall_faults(joint: SplineJoint, spline: InvoluteSpline | StraightSpline) -> list[tuple[str, str, str]]:
    """Bore and outside diameter must leave metal, beside nominal teeth and beside those that were read."""
    faults = []
    root = root_under_teeth(joint, spline)
    if no_wall(bore_of(joint.external), root):
        measured = "" if root == spline.root_diameter else ", as measured"
        faults.append(
            ("external.bore", "leaves no wall", f"the root diameter is {root * 1e3:.2f} mm{measured}")
        )
    outside, bottom = joint.internal.outside_diameter, groove_diameter(joint, spline)
    if outside is not None and no_wall(bottom, outside.value):
        measured = "" if bottom == _nominal_grooves(spline) else ", as measured"
        faults.append(
            (
                "internal.outside_diameter",
                "leaves no wall",
                f"the teeth of the hub reach to {bottom * 1e3:.2f} mm{measured}",
            )
        )
    return faults


def _reading_faults(
    joint: SplineJoint, spline: InvoluteSpline | StraightSpline
) -> list[tuple[str, str, str]]:
    """Measured diameters far from what the counted teeth can have are slips of pen or pitch."""
    faults = []
    for side in ("external", "internal"):
        measured = getattr(joint, side).measured
        teeth = measured.teeth or spline.teeth
        for name in ("major_diameter", "minor_diameter"):
            reading, expected = getattr(measured, name), _expected(spline, side, name, teeth)
            if reading is None or expected is None:
                continue
            if abs(reading.value - expected) >= _most_off(spline) * (1.0 - 1e-9):
                faults.append(
                    (
                        f"{side}.measured.{name}",
                        f"does not match {teeth} teeth of this size, "
                        f"which have about {expected * 1e3:.2f} mm",
                        "check the count, the size and the unit",
                    )
                )
    return faults


def _expected(spline: InvoluteSpline | StraightSpline, side: str, name: str, teeth: int) -> float | None:
    """Diameter of a part with so many teeth of this size; a straight spline of another count is unknown."""
    if isinstance(spline, InvoluteSpline):
        return float(getattr(getattr(spline, side), name) + (teeth - spline.teeth) * spline.module)
    return float(getattr(spline, name)) if teeth == spline.teeth else None


def _most_off(spline: InvoluteSpline | StraightSpline) -> float:
    """From here on no wear explains a diameter: straight teeth would be gone, or twice as deep."""
    if isinstance(spline, InvoluteSpline):
        return MODULES_OFF * spline.module
    return spline.major_diameter - spline.minor_diameter


def load_diameter(spline: InvoluteSpline | StraightSpline) -> float:
    """Pitch diameter of an involute, mean diameter of a straight-sided spline."""
    return spline.pitch_diameter if isinstance(spline, InvoluteSpline) else spline.mean_diameter


def lash_faults(lash: Lash | str, spline: InvoluteSpline | StraightSpline) -> list[tuple[str, str, str]]:
    """A play of a whole pitch is a slip of the unit: the teeth would pass each other."""
    if not isinstance(lash, Lash):
        return []
    radius = 0.5 * load_diameter(spline)
    key, clearance = "clearance", lash.clearance.value if lash.clearance is not None else 0.0
    if lash.angle is not None:
        key, clearance = "angle", lash.angle.value * radius
    elif lash.travel is not None and lash.radius is not None:
        key, clearance = "travel", lash.travel.value / lash.radius.value * radius
    pitch = 2.0 * math.pi * radius / spline.teeth
    if clearance < pitch:
        return []
    says = f"is {clearance * 1e3:.3g} mm along the pitch circle, a whole pitch ({pitch * 1e3:.3g} mm) or more"
    return [(f"lash.{key}", says, "check reading and unit")]


def _radial_play_faults(
    joint: SplineJoint, spline: InvoluteSpline | StraightSpline
) -> list[tuple[str, str, str]]:
    """A play across the axis that means a lash of a whole pitch is a slip as well."""
    if joint.radial_play is None or not isinstance(spline, InvoluteSpline):
        return []
    clearance = joint.radial_play.value / math.cos(spline.pressure_angle)
    pitch = math.pi * spline.module
    if clearance < pitch:
        return []
    says = (
        f"means {clearance * 1e3:.3g} mm along the pitch circle, a whole pitch ({pitch * 1e3:.3g} mm) or more"
    )
    return [("radial_play", says, "check reading and unit")]


def _pin_faults(joint: SplineJoint, spline: InvoluteSpline | StraightSpline) -> list[tuple[str, str, str]]:
    """A reading over pins that no such spline can give is a slip."""
    faults = []
    for side, name in (("external", "over_pins"), ("internal", "between_pins")):
        if getattr(getattr(joint, side).measured, name) is None:
            continue
        if not isinstance(spline, InvoluteSpline):
            faults.append(
                (f"{side}.measured.{name}", "means nothing on straight sides", "measure the width directly")
            )
            continue
        try:
            width = width_from_pins(joint, spline, side)
        except DomainError as error:
            faults.append((f"{side}.measured.{name}", f"cannot be: {error}", "check reading and pin"))
            continue
        usual = spline.tooth_thickness if side == "external" else spline.space_width
        if width is not None and abs(width - usual) > 0.5 * usual:
            faults.append(
                (
                    f"{side}.measured.{name}",
                    f"would mean a width of {width * 1e3:.2f} mm where {usual * 1e3:.2f} mm is nominal",
                    "check reading, pin, count and pitch",
                )
            )
    return faults


def width_from_pins(joint: SplineJoint, spline: InvoluteSpline, side: str) -> float | None:
    """
    Tooth thickness (external) or space width (internal) from a pin reading; None without one.

    A part whose count differs from the stated size is another spline: its reading says nothing here.

    Raises
    ------
    DomainError
        If no spline of this size can give the reading.
    """
    measured = getattr(joint, side).measured
    reading = measured.over_pins if side == "external" else measured.between_pins
    if reading is None or measured.pin is None or measured.teeth not in {None, spline.teeth}:
        return None
    function = thickness_from_pins if side == "external" else space_from_pins
    return float(
        function(spline.teeth, spline.module, spline.pressure_angle, reading.value, measured.pin.value)
    )


def worn_step(member: Member) -> float:
    """Depth of the worn band, m; 0 where none was measured."""
    step = member.measured.worn_step
    return step.value if step is not None else 0.0


def lost_height(joint: SplineJoint, spline: InvoluteSpline | StraightSpline) -> float:
    """What measured tip diameters and worn steps take from the contact height, m.

    The edge of a worn band gives way by about its depth, on each member.
    """
    lost = worn_step(joint.external) + worn_step(joint.internal)
    if isinstance(spline, StraightSpline):
        return lost
    for side, name, sign in (("external", "major_diameter", 1.0), ("internal", "minor_diameter", -1.0)):
        measured = getattr(joint, side).measured
        reading = getattr(measured, name)
        if reading is not None and measured.teeth in {None, spline.teeth}:
            nominal = getattr(getattr(spline, side), name)
            lost += max(0.0, 0.5 * sign * (nominal - reading.value))
    return lost


def _wear_faults(joint: SplineJoint, spline: InvoluteSpline | StraightSpline) -> list[tuple[str, str, str]]:
    """What is worn away cannot be more than there was; next to no contact left is no joint."""
    thickness = spline.tooth_thickness if isinstance(spline, InvoluteSpline) else spline.tooth_width
    faults = []
    for side in ("external", "internal"):
        if worn_step(getattr(joint, side)) >= MOST_WORN * thickness:
            faults.append(
                (
                    f"{side}.measured.worn_step",
                    "leaves next to nothing of the tooth",
                    f"the tooth is {thickness * 1e3:.2f} mm thick",
                )
            )
    running_in = joint.running_in
    if running_in is not None and running_in.depth.value >= MOST_WORN * thickness:
        problem = "leaves next to nothing of the tooth"
        faults.append(("running_in.depth", problem, f"the tooth is {thickness * 1e3:.2f} mm thick"))
    left = spline.contact_height - lost_height(joint, spline)
    if left < LEAST_HEIGHT * spline.contact_height:
        faults.append(
            (
                "",
                "has next to no contact left: tip diameters and worn steps leave "
                f"{max(left, 0) * 1e3:.2f} mm of {spline.contact_height * 1e3:.2f} mm",
                "check the readings and the size; if they are right, the parts are no mates or worn out",
            )
        )
    return faults


_OTHER_SIZES: Mapping[str, Callable[[Any], list[tuple[str, str, str]]]] = {
    "shaft": shaft_sizes,
    "sleeve": sleeve_sizes,
    "weld": weld_sizes,
    "interference fit": interference_sizes,
    "clamp": clamp_sizes,
    "key": key_size_faults,
    "pin": pin_size_faults,
    "set screws": set_screws_size_faults,
    "bolted flange": flange_sizes,
}
