"""The block of a clamp hub or a locking collar, and the rules that tie its fields together."""

from collections.abc import Mapping
from typing import Any, Literal

from pydantic import Field

from torqcheck.scenario.forms import below
from torqcheck.scenario.joint_schema import AnyJoint, Block, SteelPart, bore_of, no_wall
from torqcheck.scenario.kinds.flange import Tightening, thread_faults, tightening_rules
from torqcheck.scenario.quantity import AnyLength, Diameter, Force, Line, SeatLength, SmallLength

__all__ = ["ClampJoint", "ClampScrew", "ClampShaft", "clamp_presence", "clamp_sizes"]

Rule = tuple[str, str, str]
COLLAR = "locking collar"


class ClampShaft(SteelPart):
    """The shaft in the clamp."""

    bore: AnyLength | None = Field(default=None, description="bore of a hollow shaft")


class ClampScrew(Block):
    """The screws of a clamp, all alike."""

    size: Line = Field(max_length=20, description='"M8", "M8x1", "5/16-18"')
    strength: Line = Field(max_length=20, description='"12.9" (metric), "grade 5", "a574" (inch)')


class ClampJoint(AnyJoint):
    """A hub or a collar that screws clamp on a shaft."""

    kind: Literal["clamp"] = Field(description="kind of joint")
    form: Literal["two-piece", "one slit", "locking collar"] = Field(
        description="two-piece: screws on both sides; one slit: hinged opposite its slit; "
        "locking collar: an axial stop, no torque path"
    )
    diameter: Diameter = Field(description="diameter of the shaft in the clamp")
    length: SeatLength = Field(description="length over which it is clamped")
    screws: int = Field(ge=1, le=40, description="screws in all (two-piece: of both sides)")
    screw_preload: Force | None = Field(
        default=None, description="preload of one screw, where it is known; otherwise screw and tightening"
    )
    screw: ClampScrew | None = Field(default=None, description="size and strength of the screws")
    tightening: Tightening | None = Field(default=None, description="how the screws are tightened")
    closing_force: Force | None = Field(
        default=None, description="force for each screw that closes the empty clamp on the shaft"
    )
    seat: Literal["dry", "oiled"] | None = Field(default=None, description="state of the seat")
    friction: float | None = Field(
        default=None, ge=1e-3, le=0.6, description="coefficient of friction, where it was measured"
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
    faults += _preload_rules(written)
    screws = written.get("screws")
    if written.get("form") == "two-piece" and isinstance(screws, int) and screws % 2 == 1:
        faults.append(("screws", "is odd for a clamp of two pieces", "count the screws of both sides"))
    return faults


def _preload_rules(written: Mapping[str, Any]) -> list[Rule]:
    """A preload, or screws and the way they are tightened."""
    if "screw_preload" in written:
        mend = "keep screw_preload, or screw and tightening"
        return [(key, "contradicts screw_preload", mend) for key in ("screw", "tightening") if key in written]
    if "screw" not in written and "tightening" not in written:
        return [
            ("screw_preload", "is missing", "give it, or screw { size, strength } and tightening { torque }")
        ]
    if "screw" not in written:
        return [("screw", "is missing", "what a torque pulls depends on the size: { size, strength }")]
    if "tightening" not in written:
        return [
            ("tightening", "is missing", "give { torque, lubrication }, or screw_preload in place of screw")
        ]
    tightening = written["tightening"]
    if not isinstance(tightening, Mapping):
        return []
    return below("tightening", tightening_rules(tightening))


def clamp_sizes(joint: ClampJoint) -> list[Rule]:
    """A wall, and some force left when the clamp has closed."""
    faults: list[Rule] = []
    if no_wall(bore_of(joint.shaft), joint.diameter.value):
        faults.append(("shaft.bore", "leaves no wall", "the bore must be below the diameter"))
    if joint.screw is not None:
        faults += thread_faults("screw", joint.screw.size, joint.screw.strength)
    stated = joint.screw_preload
    if joint.closing_force is not None and stated is not None and joint.closing_force.value >= stated.value:
        faults.append(
            ("closing_force", "is as large as the preload", "nothing is left to grip; the bore is too large")
        )
    return faults
