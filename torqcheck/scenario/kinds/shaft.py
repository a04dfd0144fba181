"""The block of a plain or stepped length of shaft, and what cannot be about its sizes."""

from typing import Any, Literal

from pydantic import Field

from torqcheck.scenario.joint_schema import AnyJoint, Block, ListOf, SteelPart, bore_of, no_wall
from torqcheck.scenario.kinds.shaft_notches import Bending, Finish, ForcedOffset, Notch, notch_sizes
from torqcheck.scenario.quantity import AnyLength, Diameter, Length

__all__ = ["ShaftJoint", "ShaftStep", "shaft_sizes"]


class ShaftStep(Block):
    """A further length of a stepped shaft."""

    diameter: Diameter = Field(description="outside diameter of the step")
    length: Length = Field(description="length of the step")
    bore: AnyLength | None = Field(default=None, description="bore within the step")


class ShaftJoint(SteelPart, AnyJoint):
    """A round length of shaft in the torque path, plain or with its notches."""

    kind: Literal["shaft"] = Field(description="kind of joint")
    diameter: Diameter = Field(description="outside diameter, the smallest of the length")
    bore: AnyLength | None = Field(default=None, description="bore of a hollow shaft")
    length: Length | None = Field(default=None, description="free length, for its stiffness")
    steps: ListOf[ShaftStep] = Field(
        default=(), max_length=20, description="further lengths of a stepped shaft, for its stiffness"
    )
    notches: ListOf[Notch] = Field(
        default=(), max_length=20, description="steps, grooves, seats and holes where a crack could begin"
    )
    finish: Finish | None = Field(
        default=None, description="surface at the notches; machined is assumed if not given"
    )
    bending: Bending | None = Field(default=None, description="a force across the axis that stands still")
    forced_offset: ForcedOffset | None = Field(
        default=None, description="offset that a rigid joint forces upon this shaft and the next"
    )


def shaft_sizes(joint: ShaftJoint) -> list[tuple[str, str, str]]:
    """A wall everywhere, and no step weaker than the length that is checked."""
    if no_wall(bore_of(joint), joint.diameter.value):
        return [("bore", "leaves no wall", "the bore must be below the diameter")]
    faults = []
    weakest = _section_modulus(joint)
    for number, step in enumerate(joint.steps, start=1):
        if no_wall(bore_of(step), step.diameter.value):
            faults.append((f"steps[{number}].bore", "leaves no wall", "the bore must be below the diameter"))
        elif _section_modulus(step) < weakest * (1.0 - 1e-9):
            faults.append(
                (
                    f"steps[{number}].diameter",
                    "is a weaker section than diameter and bore of the shaft",
                    "give the weakest length as diameter, bore and length of the shaft, the others as steps",
                )
            )
    return faults + notch_sizes(joint, bore_of(joint))


def _section_modulus(section: Any) -> float:
    """What a round section is worth against torsion: (D^4 - d^4)/D, in m^3."""
    diameter = float(section.diameter.value)
    return diameter**3 - bore_of(section) ** 4 / diameter
