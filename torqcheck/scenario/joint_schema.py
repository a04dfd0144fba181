"""What the joints of a scenario file are made of, and the two kinds of splined joint."""

from typing import Annotated, Any, Literal, TypeAlias

from pydantic import BeforeValidator, Discriminator, Field, Tag

from torqcheck.scenario.block import Block, ListOf, as_tuple, form
from torqcheck.scenario.quantity import (
    Angle,
    AnyLength,
    Diameter,
    FlankAngle,
    HardnessField,
    Length,
    Line,
    Name,
    Reading,
    RunningTime,
    SeatLength,
    SmallLength,
    WearDepth,
    needed,
)
from torqcheck.scenario.tilt_schema import Tilt, TiltField

__all__ = [
    "LEAST_EFFICIENCY",
    "LEAST_RATIO",
    "MOST_RATIO",
    "AnyJoint",
    "Block",
    "ExternalMember",
    "InternalMember",
    "InvoluteSize",
    "InvoluteSplineJoint",
    "Lash",
    "ListOf",
    "Measured",
    "Member",
    "RunningIn",
    "SplineJoint",
    "SteelPart",
    "StraightSize",
    "StraightSplineJoint",
    "Tilt",
    "bore_of",
    "engagement_of",
    "no_wall",
]

LEAST_RATIO, MOST_RATIO = 0.002, 500.0
LEAST_EFFICIENCY, MOST_STAGES = 0.01, 12
"""Of a gear stage. What comes near to nothing is a slip of the pen, and arithmetic fails on it."""

LEAST_WALL = 1e-9

Step: TypeAlias = Annotated[
    tuple[
        Annotated[float, Field(ge=LEAST_RATIO, le=MOST_RATIO)],
        Annotated[float, Field(ge=LEAST_EFFICIENCY, le=1.0)],
    ],
    BeforeValidator(as_tuple),
]
"""One gear stage on the way: ratio (speed in over speed out) and efficiency."""


class Lash(Block):
    """Rotational play, in one of the forms in which it is measured."""

    travel: SmallLength | None = Field(default=None, description="travel of a dial indicator on a lever")
    radius: Length | None = Field(default=None, description="radius at which the travel was read")
    clearance: SmallLength | None = Field(default=None, description="clearance along the pitch circle")
    angle: Angle | None = Field(default=None, description="rotational play as an angle")


LashField: TypeAlias = Annotated[
    Annotated[Literal["as new", "not measured"], Tag("words")] | Annotated[Lash, Tag("table")],
    Discriminator(form),
]


class Measured(Block):
    """Readings taken on one member."""

    teeth: int | None = Field(default=None, ge=3, le=400, description="teeth, counted twice")
    major_diameter: Diameter | None = Field(default=None, description="largest diameter over or in the teeth")
    minor_diameter: Diameter | None = Field(
        default=None, description="smallest diameter over or in the teeth"
    )
    over_pins: Length | None = Field(default=None, description="reading over two pins (external)")
    between_pins: Length | None = Field(default=None, description="reading between two pins (internal)")
    pin: Length | None = Field(default=None, description="diameter of the pins")
    worn_step: SmallLength | None = Field(
        default=None, description="depth of the worn band below the unworn flank"
    )


class SteelPart(Block):
    """A part of steel: which one, how hard, new or old."""

    steel: Line = Field(
        max_length=80, description='row of the steel tables, for example "4140_QT425", or "unknown"'
    )
    hardness: HardnessField | None = Field(default=None, description="measured hardness, overrides the row")
    reused: bool | None = Field(default=None, description="an old part; counts as reused if not stated")
    welded_near: bool = Field(
        default=False, description="a weld within about 15 mm of the teeth, or of where the part is checked"
    )


class Member(SteelPart):
    """What the two halves of a splined joint have in common."""

    measured: Measured = Field(default=Measured.model_construct(), description="readings taken on this part")


class ExternalMember(Member):
    """The part with outside teeth: the shaft."""

    bore: AnyLength | None = Field(default=None, description="bore of a hollow shaft")


class InternalMember(Member):
    """The part with inside teeth: hub, sleeve or yoke."""

    outside_diameter: Diameter | None = Field(default=None, description="outside diameter, for bursting")


class InvoluteSize(Block):
    """Size of an involute spline; which keys are needed depends on the standard."""

    teeth: int | None = Field(default=None, ge=4, le=400, description="number of teeth")
    pitch: Line | None = Field(
        default=None, max_length=20, description='diametral pitch, "20/40" (ansi b92.1)'
    )
    module: Length | None = Field(default=None, description="module (iso 4156, din 5480)")
    pressure_angle: FlankAngle | None = Field(default=None, description="30, 37.5 or 45 deg")
    root: Literal["flat", "fillet"] | None = Field(default=None, description="form of the tooth root")
    reference_diameter: Diameter | None = Field(default=None, description="reference diameter (din 5480)")
    pitch_diameter: Diameter | None = Field(default=None, description="own: pitch diameter")
    root_diameter: Diameter | None = Field(default=None, description="own: root diameter of the shaft")
    internal_major_diameter: Diameter | None = Field(
        default=None, description="own: bottom of the hub spaces"
    )
    tooth_thickness: Length | None = Field(default=None, description="own: circular, on the pitch circle")
    contact_height: Length | None = Field(default=None, description="own: radial depth of engagement")


class StraightSize(Block):
    """Size of a straight-sided spline; which keys are needed depends on the standard."""

    designation: Line | None = Field(default=None, max_length=20, description='"8x52x60" (iso 14)')
    teeth: int | None = Field(default=None, ge=3, le=60, description="number of teeth")
    major_diameter: Diameter | None = Field(default=None, description="large diameter")
    minor_diameter: Diameter | None = Field(default=None, description="own: small diameter")
    tooth_width: Length | None = Field(default=None, description="own: width of the tooth")
    chamfer: SmallLength | None = Field(default=None, description="own: chamfer of the tooth edges")
    fit: Literal["A", "B", "C"] | None = Field(
        default=None, description="sae: A permanent, B slides unloaded, C slides under load"
    )


class RunningIn(Block):
    """What bedding in wears from a new pair, as seen on a joint of the same kind."""

    depth: WearDepth = Field(description="depth worn from each flank when they have bedded in")
    revolutions: float = Field(
        ge=1.0, le=1e12, description="revolutions of the joint over which 63 percent of it is worn"
    )


class AnyJoint(Block):
    """What every joint has."""

    kind: str = Field(description="kind of joint")
    name: Name = Field(default="", max_length=60, description="name on the report")
    after: ListOf[Step] = Field(
        default=(),
        max_length=MOST_STAGES,
        description="[ratio, efficiency] steps between the previous joint and this one",
    )


class SplineJoint(AnyJoint):
    """What every splined joint has."""

    engagement: SeatLength | None = Field(
        default=None,
        description="axial length over which the teeth overlap; may be left out if the stack gives it",
    )
    seat: Literal["fixed", "flexible"] = Field(
        description="fixed: shrunk, clamped or piloted so that it cannot rock; "
        "flexible: located by the spline alone"
    )
    tilt: TiltField = Field(default="not measured", description="misalignment of the two axes")
    nose_supported: bool | None = Field(
        default=None,
        description="false: the spline itself carries the shaft end (no pilot or spigot bearing)",
    )
    lash: LashField = Field(default="not measured", description="rotational play")
    radial_play: SmallLength | None = Field(default=None, description="play across the axis")
    lubrication: Literal["oil flooded", "sealed grease", "expired grease", "dry"] | None = Field(
        default=None, description="state of the lubrication"
    )
    grease_renewal: RunningTime | None = Field(
        default=None, description="running hours after which sealed grease is renewed"
    )
    running_in: RunningIn | None = Field(
        default=None, description="bedding in of a new pair, on top of the wear that goes on"
    )
    take_off: Literal["same side", "opposite side"] | None = Field(
        default=None,
        description="where the torque leaves the hub: at the end where the shaft enters it (same side), or "
        "at the other end (opposite side, a sleeve between two shafts)",
    )
    external: ExternalMember = Field(description="the shaft")
    internal: InternalMember = Field(description="the hub or sleeve")


class InvoluteSplineJoint(SplineJoint):
    """An involute spline."""

    kind: Literal["involute spline"] = Field(description="kind of joint")
    standard: Literal["ansi b92.1", "iso 4156", "din 5480", "own"] = Field(
        description="standard of the spline"
    )
    size: InvoluteSize = Field(description="size within the standard")
    crown_height: SmallLength | None = Field(
        default=None, description="crowned teeth: drop of the flank at the tooth ends"
    )


class StraightSplineJoint(SplineJoint):
    """A straight-sided spline."""

    kind: Literal["straight spline"] = Field(description="kind of joint")
    standard: Literal["iso 14", "sae", "own"] = Field(description="standard of the spline")
    size: StraightSize = Field(description="size within the standard")


def bore_of(part: Any) -> float:
    """Bore of a shaft, m; 0 where none is stated."""
    return part.bore.value if part.bore is not None else 0.0


def no_wall(inside: float, outside: float) -> bool:
    """Whether nothing is left between two diameters, but for the rounding of what was read."""
    return inside >= outside * (1.0 - LEAST_WALL)


def engagement_of(joint: SplineJoint) -> Reading:
    """Engagement of a joint, which the stack has given where the joint itself states none."""
    return needed(joint.engagement)
