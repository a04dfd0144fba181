"""The kinds of joint that a scenario may hold: one class each, and the list of them."""

from typing import Annotated, TypeAlias

from pydantic import Field

from torqcheck.scenario.joint_schema import AnyJoint, InvoluteSplineJoint, StraightSplineJoint
from torqcheck.scenario.kinds.shaft import ShaftJoint

__all__ = ["KINDS", "LATER_KINDS", "Joint"]

Joint: TypeAlias = Annotated[
    InvoluteSplineJoint | StraightSplineJoint | ShaftJoint, Field(discriminator="kind")
]

KINDS: dict[str, type[AnyJoint]] = {
    "involute spline": InvoluteSplineJoint,
    "straight spline": StraightSplineJoint,
    "shaft": ShaftJoint,
}

LATER_KINDS = (
    "key",
    "bolted flange",
    "interference fit",
    "sleeve",
    "weld",
    "pin",
    "set screws",
    "clamp",
)
"""Kinds that the file format names and that this version does not check yet."""
