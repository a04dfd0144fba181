"""The axial stack in the scenario file: distances along the axis, signed sums of them, shims, parts."""

from typing import Literal

from pydantic import Field

from torqcheck.scenario.joint_schema import Block, ListOf
from torqcheck.scenario.quantity import AnyLength, Length, Line, SmallLength, Temperature

__all__ = [
    "Stack",
    "StackDistance",
    "StackPart",
    "StackResult",
    "StackShim",
    "StackSum",
]


class StackDistance(Block):
    """One distance of the axial stack-up."""

    name: Line = Field(max_length=120, description="name by which the results refer to it")
    length: AnyLength = Field(description="length with its tolerance; of an end float the whole of it")
    kind: Literal["dimension", "end float"] = Field(
        default="dimension", description="dimension: a length of a part; end float: play of a bearing"
    )
    from_stop: bool = Field(
        default=False,
        description="of an end float: everything else was measured with the shaft at one stop, so that it "
        "moves one way only, that of the sign in the sum; otherwise it may move by the float either way",
    )
    spread: Literal["normal", "even"] = Field(
        default="normal",
        description="how it scatters within its tolerance: normal, two standard deviations wide; or even, "
        "anywhere in it as likely. For the chance only; an end float is always even",
    )
    steel: Line = Field(default="", max_length=80, description="steel of that part, for thermal growth")
    material: Line = Field(
        default="",
        max_length=80,
        description="material of that part, for thermal growth: steel, cast iron, aluminium, bronze, or a "
        "row of the steel tables",
    )
    running_at: Temperature | None = Field(
        default=None, description="temperature of that part in service, if it has its own"
    )


class StackSum(Block):
    """A signed sum of distances: a position along the axis, for the drawing."""

    plus: ListOf[Line] = Field(default=(), description="distances that add")
    minus: ListOf[Line] = Field(default=(), description="distances that subtract")


class StackResult(Block):
    """One engagement, gap or stop collar: a signed sum of distances."""

    name: Line = Field(max_length=120, description="what the sum is")
    kind: Literal["engagement", "gap", "stop collar"] = Field(
        description="overlap of teeth, free space, or where a collar must sit"
    )
    joint: Line = Field(default="", description="name of the joint whose engagement it is")
    plus: ListOf[Line] = Field(description="distances that add")
    minus: ListOf[Line] = Field(default=(), description="distances that subtract")
    least: AnyLength | None = Field(default=None, description="least value that is acceptable")
    less: ListOf[SmallLength] = Field(
        default=(),
        max_length=10,
        description="engagement: what does not bear at its ends: chamfers, run-out of teeth, seal lands",
    )
    external_cut: Length | None = Field(
        default=None, description="engagement: length of full teeth on the shaft"
    )
    internal_cut: Length | None = Field(
        default=None, description="engagement: length of full teeth in the hub"
    )
    against: Line = Field(
        default="", max_length=60, description="gap: what is touched when it closes, for example the plug"
    )
    engagement: Line = Field(
        default="", description="stop collar: engagement that grows as it sits farther on"
    )
    gap: Line = Field(default="", description="stop collar: gap that closes as it sits farther on")
    at: StackSum | None = Field(default=None, description="where it begins, for the drawing")


class StackShim(Block):
    """Shims of the stock that bring one result to its target."""

    in_: Line = Field(alias="in", description="distance to which the pack adds")
    result: Line = Field(description="engagement or gap to bring to the target")
    target: AnyLength | None = Field(
        default=None, description="what the result must reach in the worst case; its least if not given"
    )
    stock: ListOf[SmallLength] = Field(
        default=(), max_length=30, description="thicknesses at hand; stack.shims if not given"
    )
    pieces: int = Field(default=4, ge=1, le=8, description="most shims in one pack")


class StackPart(Block):
    """A part of the drawing."""

    name: Line = Field(max_length=60, description="what it is")
    from_: StackSum = Field(alias="from", description="where it begins")
    to: StackSum = Field(description="where it ends")
    outside_diameter: Length = Field(description="outside diameter")
    bore: AnyLength | None = Field(default=None, description="bore; none if it is solid")


class Stack(Block):
    """Axial stack-up: what overlaps, what stays free, cold and in service."""

    distance: ListOf[StackDistance] = Field(max_length=60, description="distances, each named once")
    result: ListOf[StackResult] = Field(max_length=30, description="signed sums of them")
    shims: ListOf[SmallLength] = Field(default=(), max_length=30, description="stock shims")
    shim: StackShim | None = Field(default=None, description="what the stock shims are to bring about")
    part: ListOf[StackPart] = Field(default=(), max_length=20, description="parts, for the drawing")
    assembled_at: Temperature | None = Field(default=None, description="temperature at assembly")
    running_at: Temperature | None = Field(default=None, description="temperature in service")
