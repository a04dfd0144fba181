"""The block of a pin that carries torque, the rules that tie its fields together, and impossible sizes."""

from collections.abc import Mapping
from typing import Any, Literal

from pydantic import Field

from torqcheck.capacity.joining import taper_pin_diameter
from torqcheck.scenario.forms import LASH_FORMS, Rule, below, one_form
from torqcheck.scenario.joint_schema import AnyJoint, Lash, SteelPart, bore_of, no_wall
from torqcheck.scenario.kinds.key import shaft_lash_faults
from torqcheck.scenario.quantity import AnyLength, Diameter, Length, SeatLength, needed

__all__ = [
    "TAPERS",
    "PinHub",
    "PinJoint",
    "PinShaft",
    "hole_diameter",
    "pin_diameter",
    "pin_presence",
    "pin_size_faults",
]

THICKEST, THINNEST_WALL = 0.4, 0.05
"""Pin over shaft: above the first nothing is left of the shaft. Wall of the hub over shaft."""
TAPERS = {"metric": 50.0, "inch": 48.0}


class PinShaft(SteelPart):
    """The shaft with the hole."""

    bore: AnyLength | None = Field(default=None, description="bore of a hollow shaft")


class PinHub(SteelPart):
    """The hub with the holes."""

    outside_diameter: Diameter | None = Field(default=None, description="outside diameter where the pin is")


class PinJoint(AnyJoint):
    """A pin across the shaft, or along it between shaft and hub."""

    kind: Literal["pin"] = Field(description="kind of joint")
    place: Literal["across", "along"] = Field(
        description="across: through hub and shaft; along: drilled half in each at the end face"
    )
    form: Literal["plain", "grooved", "taper"] = Field(description="form of the pin")
    taper: Literal["metric", "inch"] | None = Field(
        default=None, description="of a taper pin: metric 1:50, inch 1:48"
    )
    shaft_diameter: Diameter = Field(description="diameter of the shaft in the hub")
    diameter: Length = Field(
        description="diameter of the pin: of a taper pin at its small end, of a necked one in the neck"
    )
    hole_diameter: Length | None = Field(
        default=None, description="across: diameter of the holes, where a necked pin is thicker than its neck"
    )
    length: SeatLength | None = Field(default=None, description="along: length that is seated in both")
    pins: int = Field(default=1, ge=1, le=2, description="number of pins")
    fuse: bool = Field(default=False, description="the pin is meant to break before anything else does")
    lash: Lash | None = Field(
        default=None, description="rotational play, measured; clearance: along the surface of the shaft"
    )
    shaft: PinShaft = Field(description="the shaft")
    hub: PinHub = Field(description="the hub")
    pin: SteelPart = Field(description="the pin itself")


def pin_diameter(joint: PinJoint) -> float:
    """Diameter that shears and bears, m: of a taper pin the mean."""
    if joint.form != "taper":
        return joint.diameter.value
    outside = needed(joint.hub.outside_diameter).value
    return float(taper_pin_diameter(joint.diameter.value, outside, TAPERS[needed(joint.taper)]))


def hole_diameter(joint: PinJoint) -> float:
    """Diameter of the holes, m: what bears in them, and what shaft and hub lose."""
    return pin_diameter(joint) if joint.hole_diameter is None else joint.hole_diameter.value


def pin_presence(written: Mapping[str, Any]) -> list[Rule]:
    """What each place and form of a pin needs."""
    across, taper = written.get("place") == "across", written.get("form") == "taper"
    hub = written.get("hub")
    faults: list[Rule] = []
    if across and isinstance(hub, Mapping) and "outside_diameter" not in hub:
        faults.append(("hub.outside_diameter", "is missing for a pin across the shaft", "measure the hub"))
    if across and "length" in written:
        faults.append(("length", "does not belong to a pin across the shaft", "the hub says how long it is"))
    if "hole_diameter" in written and (taper or not across):
        mend = "leave it out; the pin fills its hole"
        faults.append(("hole_diameter", "only goes with a necked pin across the shaft", mend))
    if written.get("place") == "along":
        faults += _along(written)
    if taper and "taper" not in written:
        faults.append(("taper", "is missing for a taper pin", 'write taper = "metric" or "inch"'))
    if not taper and "taper" in written:
        faults.append(("taper", "only goes with a taper pin", 'write form = "taper"'))
    if written.get("fuse") is True and written.get("form") in {"grooved", "taper"}:
        mend = "a fuse is a plain or necked pin in hard bushes, so that it is clear where it breaks"
        faults.append(("form", "is no form for a fuse", mend))
    lash = written.get("lash")
    return faults + (below("lash", one_form(lash, LASH_FORMS)) if isinstance(lash, Mapping) else [])


def _along(written: Mapping[str, Any]) -> list[Rule]:
    faults: list[Rule] = []
    if "length" not in written:
        faults.append(("length", "is missing for a pin along the shaft", "give the length in both parts"))
    if written.get("form") == "taper":
        faults.append(("form", "is no form of a pin along the shaft", 'write form = "plain" or "grooved"'))
    if written.get("fuse") is True:
        faults.append(("fuse", "only goes with a pin across the shaft", 'write place = "across"'))
    return faults


def pin_size_faults(joint: PinJoint) -> list[Rule]:
    """A pin that leaves something of shaft and hub."""
    shaft, bore = joint.shaft_diameter.value, bore_of(joint.shaft)
    if no_wall(bore, shaft):
        return [("shaft.bore", "leaves no wall", "the bore must be below the diameter")]
    faults: list[Rule] = []
    outside = joint.hub.outside_diameter
    if outside is not None and outside.value < shaft * (1.0 + 2.0 * THINNEST_WALL):
        return [("hub.outside_diameter", "leaves no wall", f"the bore is {shaft * 1e3:.2f} mm")]
    pin, hole = pin_diameter(joint), hole_diameter(joint)
    if hole < pin:
        faults.append(("hole_diameter", "is below the diameter of the pin", "check pin and hole"))
    if hole > THICKEST * shaft:
        key = "diameter" if joint.hole_diameter is None else "hole_diameter"
        limit = f"at most {THICKEST * shaft * 1e3:.2f} mm; usual is 0.2 to 0.3 of the shaft"
        faults.append((key, "is bigger than the shaft can bear", limit))
    if joint.place == "along" and bore + pin >= shaft:
        faults.append(("diameter", "breaks into the bore of the shaft", "check pin and bore"))
    if joint.place == "along" and outside is not None and outside.value <= shaft + pin:
        faults.append(("diameter", "breaks through the hub", "check pin and outside diameter"))
    return faults + shaft_lash_faults(joint.lash, shaft, hole)
