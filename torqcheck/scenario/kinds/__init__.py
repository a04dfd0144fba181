"""The kinds of joint that a scenario may hold: one class each, and the list of them."""

from typing import Annotated, TypeAlias

from pydantic import Field

from torqcheck.scenario.joint_schema import AnyJoint, InvoluteSplineJoint, StraightSplineJoint
from torqcheck.scenario.kinds.clamp import ClampJoint
from torqcheck.scenario.kinds.flange import BoltedFlangeJoint
from torqcheck.scenario.kinds.interference import InterferenceFitJoint
from torqcheck.scenario.kinds.key import KeyJoint
from torqcheck.scenario.kinds.pin import PinJoint
from torqcheck.scenario.kinds.set_screws import SetScrewsJoint
from torqcheck.scenario.kinds.shaft import ShaftJoint
from torqcheck.scenario.kinds.sleeve import SleeveJoint
from torqcheck.scenario.kinds.weld import WeldJoint

__all__ = ["KINDS", "Joint"]

Joint: TypeAlias = Annotated[
    InvoluteSplineJoint
    | StraightSplineJoint
    | ShaftJoint
    | InterferenceFitJoint
    | ClampJoint
    | SleeveJoint
    | WeldJoint
    | KeyJoint
    | PinJoint
    | SetScrewsJoint
    | BoltedFlangeJoint,
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
    "key": KeyJoint,
    "pin": PinJoint,
    "set screws": SetScrewsJoint,
    "bolted flange": BoltedFlangeJoint,
}
