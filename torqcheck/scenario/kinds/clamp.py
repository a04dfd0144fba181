"""The block of a clamp hub or a locking collar, and the rules that tie its fields together."""

from collections.abc import Mapping
from typing import Any, Literal

from pydantic import Field

from torqcheck.scenario.joint_schema import AnyJoint, SteelPart, bore_of
from torqcheck.scenario.quantity import AnyLength, Force, Length, SmallLength

__all__ = ["ClampJoint", "ClampShaft", "clamp_presence", "clamp_sizes"]

Rule = tuple[str, str, str]
COLLAR = "locking collar"


class ClampShaft(SteelPart):
    """The shaft in the clamp."""

    bore: AnyLength | None = Field(default=None, description="bore of a hollow shaft")


class ClampJoint(AnyJoint):
    """A hub or a collar that screws clamp on a shaft."""

    kind: Literal["clamp"] = Field(description="kind of joint")
    form: Literal["two-piece", "one slit", "locking collar"] = Field(
        description="two-piece: screws on both sides; one slit: hinged opposite its slit; "
        "locking collar: an axial stop, no torque path"
    )
    diameter: Length = Field(description="diameter of the shaft in the clamp")
    length: Length = Field(description="length over which it is clamped")
    screws: int = Field(ge=1, le=40, description="screws in all (two-piece: of both sides)")
    screw_preload: Force = Field(description="preload of one screw")
    closing_force: Force | None = Field(
        default=None, description="force for each screw that closes the empty clamp on the shaft"
    )
    seat: Literal["dry", "oiled"] | None = Field(default=None, description="state of the seat")
    friction: float | None = Field(
        default=None, gt=0.0, le=0.6, description="coefficient of friction, where it was measured"
    )
    clearance: SmallLength | None = Field(
        default=None, description="bore minus shaft on the diameter, before it is clamped"
    )
    keyed: bool = Field(default=False, description="a key sits in the clamped bore as well")
    axial_force: Force | None = Field(default=None, description="axial force that the clamp must hold")
    shaft: ClampShaft = Field(description="the shaft")


def clamp_presence(written: Mapping[str, Any]) -> list[Rule]:
    """A collar is for an axial force."""
    faults: list[Rule] = []
    if written.get("form") == COLLAR and "axial_force" not in written:
        faults.append(("axial_force", "is missing", "give the force that the locking collar must hold"))
    screws = written.get("screws")
    if written.get("form") == "two-piece" and isinstance(screws, int) and screws % 2 == 1:
        faults.append(("screws", "is odd for a clamp of two pieces", "count the screws of both sides"))
    return faults


def clamp_sizes(joint: ClampJoint) -> list[Rule]:
    """A wall, and some force left when the clamp has closed."""
    faults: list[Rule] = []
    if bore_of(joint.shaft) >= joint.diameter.value:
        faults.append(("shaft.bore", "leaves no wall", "the bore must be below the diameter"))
    if joint.closing_force is not None and joint.closing_force.value >= joint.screw_preload.value:
        faults.append(
            ("closing_force", "is as large as the preload", "nothing is left to grip; the bore is too large")
        )
    return faults
