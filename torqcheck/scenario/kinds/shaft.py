"""The block of a plain or stepped length of shaft, and what cannot be about its sizes."""

from typing import Any, Literal

from pydantic import Field

from torqcheck.scenario.joint_schema import AnyJoint, Block, ListOf, SteelPart, bore_of
from torqcheck.scenario.quantity import AnyLength, Length

__all__ = ["ShaftJoint", "ShaftStep", "shaft_sizes"]


class ShaftStep(Block):
    """A further length of a stepped shaft."""

    diameter: Length = Field(description="outside diameter of the step")
    length: Length = Field(description="length of the step")
    bore: AnyLength | None = Field(default=None, description="bore within the step")


class ShaftJoint(SteelPart, AnyJoint):
    """A plain round length of shaft in the torque path."""

    kind: Literal["shaft"] = Field(description="kind of joint")
    diameter: Length = Field(description="outside diameter, the smallest of the length")
    bore: AnyLength | None = Field(default=None, description="bore of a hollow shaft")
    length: Length | None = Field(default=None, description="free length, for its stiffness")
    steps: ListOf[ShaftStep] = Field(
        default=(), max_length=20, description="further lengths of a stepped shaft, for its stiffness"
    )


def shaft_sizes(joint: ShaftJoint) -> list[tuple[str, str, str]]:
    """A wall everywhere, and no step weaker than the length that is checked."""
    if bore_of(joint) >= joint.diameter.value:
        return [("bore", "leaves no wall", "the bore must be below the diameter")]
    faults = []
    weakest = _section_modulus(joint)
    for number, step in enumerate(joint.steps, start=1):
        if bore_of(step) >= step.diameter.value:
            faults.append((f"steps[{number}].bore", "leaves no wall", "the bore must be below the diameter"))
        elif _section_modulus(step) < weakest * (1.0 - 1e-9):
            faults.append(
                (
                    f"steps[{number}].diameter",
                    "is a weaker section than diameter and bore of the shaft",
                    "give the weakest length as diameter, bore and length of the shaft, the others as steps",
                )
            )
    return faults


def _section_modulus(section: Any) -> float:
    """What a round section is worth against torsion: (D^4 - d^4)/D, in m^3."""
    diameter = float(section.diameter.value)
    return diameter**3 - bore_of(section) ** 4 / diameter
