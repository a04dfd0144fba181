"""The kinds of joint that a scenario may hold: one class each, and the list of them."""

from typing import Annotated, TypeAlias

from pydantic import Field

from torqcheck.scenario.joint_schema import AnyJoint, InvoluteSplineJoint, StraightSplineJoint
from torqcheck.scenario.kinds.clamp import ClampJoint
from torqcheck.scenario.kinds.interference import InterferenceFitJoint
from torqcheck.scenario.kinds.shaft import ShaftJoint
from torqcheck.scenario.kinds.sleeve import SleeveJoint
from torqcheck.scenario.kinds.weld import WeldJoint

__all__ = ["KINDS", "LATER_KINDS", "Joint"]

Joint: TypeAlias = Annotated[
    InvoluteSplineJoint
    | StraightSplineJoint
    | ShaftJoint
    | InterferenceFitJoint
    | ClampJoint
    | SleeveJoint
    | WeldJoint,
    Field(discriminator="kind"),
]

KINDS: dict[str, type[AnyJoint]] = {
    "involute spline": InvoluteSplineJoint,
    "straight spline": StraightSplineJoint,
    "shaft": ShaftJoint,
    "interference fit": InterferenceFitJoint,
    "clamp": ClampJoint,
    "sleeve": SleeveJoint,
    "weld": WeldJoint,
}

LATER_KINDS = (
    "key",
    "bolted flange",
    "pin",
    "set screws",
)
"""Kinds that the file format names and that this version does not check yet."""
