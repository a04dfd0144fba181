"""The block of a circular weld, and what cannot be about it."""

from collections.abc import Mapping
from typing import Any, Literal

from pydantic import Field

from torqcheck.scenario.joint_schema import AnyJoint, SteelPart
from torqcheck.scenario.quantity import AnyLength, Diameter, Length, Temperature, TorqueOrNone

__all__ = ["WeldJoint", "WeldPart", "weld_presence", "weld_sizes"]

Rule = tuple[str, str, str]
LARGEST_LEG = 0.5
"""Leg over the diameter beyond which a fillet is no line around it any more."""


class WeldPart(SteelPart):
    """One of the two parts that are welded together."""


class WeldJoint(AnyJoint):
    """A weld around a tube or bar in the torque path."""

    kind: Literal["weld"] = Field(description="kind of joint")
    diameter: Diameter = Field(description="outside diameter of the tube or bar at the weld")
    leg: Length | None = Field(default=None, description="leg of the fillet, the shorter one")
    both_sides: bool = Field(default=False, description="a fillet on both sides of the hub")
    penetration: Literal["fillet", "full"] = Field(
        default="fillet",
        description="fillet: throat of the fillet; full: welded through the wall of the tube",
    )
    wall: Length | None = Field(default=None, description="wall of the tube; left out for a bar")
    electrode: Literal["E60", "E70", "E80", "E90", "E100", "E110"] = Field(
        description="class of the electrode or wire, by its tensile strength in ksi"
    )
    bending_moment: TorqueOrNone | None = Field(
        default=None, description="bending moment at the weld, fixed in space: the weld turns under it"
    )
    thickness: Length | None = Field(
        default=None, description="thickest metal at the weld, for the preheat; the diameter if left out"
    )
    distance_to_teeth: AnyLength | None = Field(
        default=None,
        description="from the weld to the nearest teeth on either part; left out if there are none",
    )
    preheat: Temperature | None = Field(default=None, description="temperature of the parts when welded")
    post_weld: Literal["none", "slow cooled", "stress relieved", "heat treated"] | None = Field(
        default=None,
        description="what was done after welding; heat treated: hardened and tempered again as a whole",
    )
    crack_tested: bool = Field(
        default=False,
        description="two days after welding: no crack by magnetic particles or dye, and measured beside the "
        "weld no hardness above 350 HV",
    )
    shaft: WeldPart = Field(description="the tube or bar")
    hub: WeldPart = Field(description="the flange, yoke or hub around it")


def weld_presence(written: Mapping[str, Any]) -> list[Rule]:
    """A fillet has a leg, a weld through a wall has a wall, and only one side."""
    if written.get("penetration") == "full":
        faults: list[Rule] = []
        if "wall" not in written:
            faults.append(("wall", "is missing beside full penetration", "give the wall of the tube"))
        if written.get("both_sides") is True:
            mend = "a weld through the wall has one throat: leave both_sides out"
            faults.append(("both_sides", "contradicts full penetration", mend))
        return faults
    return [] if "leg" in written else [("leg", "is missing", "give the leg of the fillet")]


def weld_sizes(joint: WeldJoint) -> list[Rule]:
    """A tube that is one, and a fillet that is small beside it."""
    faults: list[Rule] = []
    diameter = joint.diameter.value
    if joint.wall is not None and joint.wall.value >= 0.5 * diameter:
        faults.append(("wall", "is half the diameter or more", "leave it out for a bar"))
    if joint.leg is not None and joint.leg.value > LARGEST_LEG * diameter:
        faults.append(("leg", "is above half the diameter", "give the leg of the fillet, not its length"))
    return faults
