"""The kinds of joint that a scenario may hold: one class each, and the list of them."""

from typing import Annotated, TypeAlias

from pydantic import Field

from torqcheck.scenario.joint_schema import AnyJoint, InvoluteSplineJoint, StraightSplineJoint
from torqcheck.scenario.kinds.clamp import ClampJoint
from torqcheck.scenario.kinds.interference import InterferenceFitJoint
from torqcheck.scenario.kinds.shaft import ShaftJoint

__all__ = ["KINDS", "LATER_KINDS", "Joint"]

Joint: TypeAlias = Annotated[
    InvoluteSplineJoint | StraightSplineJoint | ShaftJoint | InterferenceFitJoint | ClampJoint,
    Field(discriminator="kind"),
]

KINDS: dict[str, type[AnyJoint]] = {
    "involute spline": InvoluteSplineJoint,
    "straight spline": StraightSplineJoint,
    "shaft": ShaftJoint,
    "interference fit": InterferenceFitJoint,
    "clamp": ClampJoint,
}

LATER_KINDS = (
    "key",
    "bolted flange",
    "sleeve",
    "weld",
    "pin",
    "set screws",
)
"""Kinds that the file format names and that this version does not check yet."""
