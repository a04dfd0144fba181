"""The notches of a shaft in the scenario file, what bends it, and what cannot be about their sizes."""

from collections.abc import Mapping
from typing import Annotated, Any, Literal, TypeAlias

from pydantic import Field

from torqcheck.scenario.joint_schema import Block, no_wall
from torqcheck.scenario.quantity import (
    AnyLength,
    CornerRadius,
    Diameter,
    Force,
    Length,
    Line,
    SideStiffness,
    SmallLength,
)

__all__ = [
    "Bending",
    "CrossHole",
    "Finish",
    "ForcedOffset",
    "Keyseat",
    "Notch",
    "PressFitEdge",
    "RingGroove",
    "ShoulderFillet",
    "SplineRunOut",
    "notch_keys",
    "notch_sizes",
]

Rule: TypeAlias = tuple[str, str, str]
Finish: TypeAlias = Literal["ground", "machined", "hot rolled", "forged"]

SHARPEST, BLUNTEST_KEYSEAT, SHARPEST_KEYSEAT = 0.002, 0.07, 0.005
WIDEST_KEYWAY, DEEPEST_KEYWAY, WIDEST_HOLE = 0.5, 0.3, 0.4
"""Over the diameter: where the formulas end."""


class _AnyNotch(Block):
    """What every notch has."""

    kind: str = Field(description="kind of notch")
    name: Line = Field(default="", max_length=30, description="name on the report; the kind if not given")
    diameter: Diameter | None = Field(
        default=None, description="outside diameter at the notch; that of the shaft if not given"
    )
    from_load: AnyLength | None = Field(
        default=None,
        description="distance along the shaft from the side load or the offset to the notch; where the shaft "
        "bends most if not given",
    )


class ShoulderFillet(_AnyNotch):
    """The corner where a thinner length meets a thicker one."""

    kind: Literal["shoulder fillet"] = Field(description="kind of notch")
    larger_diameter: Diameter = Field(description="diameter of the thicker length")
    radius: CornerRadius | None = Field(default=None, description="radius of the fillet")


class Keyseat(_AnyNotch):
    """The groove of a parallel key."""

    kind: Literal["keyseat"] = Field(description="kind of notch")
    form: Literal["end-milled", "sled-runner"] = Field(
        default="end-milled",
        description="end-milled: cut with an end mill, round at its end; sled-runner: cut with a disc",
    )
    width: Length = Field(description="width of the keyseat")
    depth: Length = Field(description="depth of the keyseat in the shaft, at its side")
    root_radius: CornerRadius | None = Field(default=None, description="radius of its bottom corner")
    loaded_by_key: bool = Field(
        default=True, description="the torque enters or leaves through a key in this seat"
    )


class CrossHole(_AnyNotch):
    """A hole through the shaft, across its axis."""

    kind: Literal["cross hole"] = Field(description="kind of notch")
    hole: Length = Field(description="diameter of the hole")


class SplineRunOut(_AnyNotch):
    """Where the teeth of a spline run out into the full shaft; `diameter` is that of the tooth roots."""

    kind: Literal["spline run-out"] = Field(description="kind of notch")
    larger_diameter: Diameter = Field(description="full diameter behind the teeth")
    radius: CornerRadius | None = Field(default=None, description="radius with which the roots rise to it")
    form: Literal["involute", "straight", "serration"] = Field(
        default="involute", description="form of the teeth"
    )


class RingGroove(_AnyNotch):
    """The groove of a retaining ring; `diameter` is that of its bottom."""

    kind: Literal["ring groove"] = Field(description="kind of notch")
    diameter: Diameter = Field(description="diameter of the bottom of the groove")
    width: Length | None = Field(default=None, description="width of the groove")
    radius: CornerRadius | None = Field(default=None, description="radius of its bottom corners")


class PressFitEdge(_AnyNotch):
    """The edge of a hub that is pressed or shrunk on."""

    kind: Literal["press fit edge"] = Field(description="kind of notch")


Notch: TypeAlias = Annotated[
    ShoulderFillet | Keyseat | CrossHole | SplineRunOut | RingGroove | PressFitEdge,
    Field(discriminator="kind"),
]


class Bending(Block):
    """A force across the axis that does not turn with the shaft: a belt, a gear, a weight."""

    side_load: Force = Field(description="force across the axis")
    overhang: Length = Field(description="distance of the force from where the shaft bends most")


class ForcedOffset(Block):
    """Two shafts that are rigidly joined although their axes do not meet."""

    offset: SmallLength = Field(description="parallel offset of the axes, half the total indicator reading")
    overhang: Length = Field(description="from the nearer bearing to the joint")
    bearing_spacing: Length = Field(description="distance between the two bearings of this shaft")
    stiffness_of_other_side: SideStiffness | None = Field(
        default=None, description="stiffness of the other shaft end across its axis"
    )
    turns_with_shaft: bool = Field(
        default=False, description="the offset turns with the shaft: a bore that is not concentric"
    )


def notch_keys(written: Mapping[str, Any]) -> list[Rule]:
    """A place along the shaft only means something where something bends it."""
    notches = written.get("notches")
    bends = "bending" in written or "forced_offset" in written
    if bends or not isinstance(notches, list):
        return []
    return [
        (
            f"notches[{number}].from_load",
            "has no load to be away from",
            "give bending or forced_offset, or leave it out",
        )
        for number, notch in enumerate(notches, start=1)
        if isinstance(notch, Mapping) and "from_load" in notch
    ]


def notch_sizes(joint: Any, bore: float) -> list[Rule]:
    """What cannot be about the notches of a shaft."""
    faults: list[Rule] = []
    names: list[str] = []
    for number, notch in enumerate(joint.notches, start=1):
        diameter = (notch.diameter or joint.diameter).value
        found = _wall(diameter, bore) or _size(notch, diameter) + _place(joint, notch)
        faults += [(f"notches[{number}].{key}", problem, mend) for key, problem, mend in found]
        if notch.name and notch.name in names:
            faults.append((f"notches[{number}].name", "is used twice", "give each notch its own name"))
        names.append(notch.name)
    return faults


def _wall(diameter: float, bore: float) -> list[Rule]:
    if no_wall(bore, diameter):
        return [("diameter", "leaves no wall", "it must be above the bore of the shaft")]
    return []


def _place(joint: Any, notch: Any) -> list[Rule]:
    """No notch lies farther from the load than where the shaft bends most."""
    ends = [load.overhang.value for load in (joint.bending, joint.forced_offset) if load is not None]
    if notch.from_load is None or not ends or notch.from_load.value <= max(ends) * (1.0 + 1e-9):
        return []
    return [("from_load", "is beyond the overhang", "the shaft bends most there: leave from_load out")]


def _size(notch: Any, diameter: float) -> list[Rule]:
    if isinstance(notch, ShoulderFillet | SplineRunOut):
        return _shoulder(notch, diameter)
    if isinstance(notch, Keyseat):
        return _keyseat(notch, diameter)
    if isinstance(notch, CrossHole) and notch.hole.value > WIDEST_HOLE * diameter:
        return [("hole", "is above 0.4 of the diameter", "no formula holds there: drill it smaller")]
    return []


def _shoulder(notch: Any, diameter: float) -> list[Rule]:
    if notch.larger_diameter.value <= diameter:
        return [
            ("larger_diameter", "is not above the diameter", "diameter is that of the thinner length (roots)")
        ]
    radius = notch.radius
    if radius is not None and not SHARPEST * diameter <= radius.value <= diameter:
        mend = "no formula holds there: break the corner, or leave it out to have it assumed"
        return [("radius", "is not between 0.002 of the diameter and the diameter", mend)]
    return []


def _keyseat(notch: Keyseat, diameter: float) -> list[Rule]:
    faults: list[Rule] = []
    if notch.width.value > WIDEST_KEYWAY * diameter:
        faults.append(("width", "is above half the diameter", "no formula holds there"))
    if notch.depth.value > DEEPEST_KEYWAY * diameter:
        faults.append(("depth", "is above 0.3 of the diameter", "no formula holds there"))
    radius = notch.root_radius
    if radius is not None and not SHARPEST_KEYSEAT * diameter <= radius.value <= BLUNTEST_KEYSEAT * diameter:
        mend = "no formula holds there; leave it out to have it assumed"
        faults.append(("root_radius", "is not between 0.005 and 0.07 of the diameter", mend))
    return faults
