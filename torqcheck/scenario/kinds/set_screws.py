"""The block of set screws, the rules that tie its fields together, and impossible sizes."""

from collections.abc import Mapping
from typing import Any, Literal

from pydantic import Field

from torqcheck.errors import DomainError
from torqcheck.materials import set_screw
from torqcheck.scenario.forms import Rule
from torqcheck.scenario.joint_schema import AnyJoint, SteelPart, bore_of, no_wall
from torqcheck.scenario.quantity import AnyLength, Diameter, Force, HardnessField, Length, Line

__all__ = ["SetScrewsJoint", "SetScrewsShaft", "set_screws_presence", "set_screws_size_faults"]

LARGEST_SCREW = 0.8
"""Of the shaft diameter: a screw that is bigger does not find the shaft."""


class SetScrewsShaft(SteelPart):
    """The shaft under the screws."""

    bore: AnyLength | None = Field(default=None, description="bore of a hollow shaft")


class SetScrewsJoint(AnyJoint):
    """A hub that only set screws hold on its shaft."""

    kind: Literal["set screws"] = Field(description="kind of joint")
    shaft_diameter: Diameter = Field(description="diameter of the shaft in the hub")
    size: Line | None = Field(
        default=None, max_length=10, description='inch size of the table, "1/4" or "#10"'
    )
    holding_power: Force | None = Field(
        default=None, description="in place of a size: force that one screw holds, by its maker or by test"
    )
    screw_diameter: Length | None = Field(default=None, description="with a holding power: diameter")
    point: Literal["cup", "cone", "flat", "dog", "oval"] = Field(
        default="cup", description="form of the point"
    )
    screws: int = Field(default=1, ge=1, le=8, description="number of screws")
    in_line: bool = Field(
        default=False, description="the screws stand in one line along the shaft, not around it"
    )
    screw_hardness: HardnessField | None = Field(
        default=None, description="hardness of the screws; 45 HRC is assumed if not given"
    )
    shaft: SetScrewsShaft = Field(description="the shaft")


def set_screws_presence(written: Mapping[str, Any]) -> list[Rule]:
    """A size of the table, or what the screw holds."""
    if "size" in written and "holding_power" in written:
        return [("holding_power", "contradicts size", "keep one of size, holding_power")]
    if "size" not in written and "holding_power" not in written:
        mend = "give size, or holding_power and screw_diameter for a screw that the table has not"
        return [("size", "is missing", mend)]
    if "size" in written and "screw_diameter" in written:
        return [("screw_diameter", "contradicts size", "the size says how thick it is")]
    return []


def set_screws_size_faults(joint: SetScrewsJoint) -> list[Rule]:
    """A screw that the table has, and that is smaller than its shaft."""
    shaft = joint.shaft_diameter.value
    if no_wall(bore_of(joint.shaft), shaft):
        return [("shaft.bore", "leaves no wall", "the bore must be below the diameter")]
    key = "screw_diameter"
    diameter = joint.screw_diameter.value if joint.screw_diameter is not None else None
    if joint.size is not None:
        try:
            key, diameter = "size", set_screw(joint.size).diameter
        except DomainError as error:
            mend = "or give holding_power, of a metric screw that of the next smaller inch size"
            return [("size", f"cannot be used: {error}", mend)]
    if diameter is not None and diameter > LARGEST_SCREW * shaft:
        return [(key, "is bigger than its shaft can take", "usual is half the diameter of the shaft")]
    return []
