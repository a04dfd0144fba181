"""The block of a sleeve or tube, alone or as the hub of one or two splines, and what cannot be about it."""

from collections.abc import Mapping
from typing import Any, Literal

from pydantic import Field, PrivateAttr

from torqcheck.capacity.joining import keyway_corner_diameter
from torqcheck.scenario.joint_schema import AnyJoint, Block, ListOf, SplineJoint, SteelPart, no_wall
from torqcheck.scenario.quantity import Angle, Diameter, Length, Line, SmallLength, needed
from torqcheck.scenario.tilt_rules import steep_faults
from torqcheck.wear import tilts_of_floating_sleeve

__all__ = ["Floats", "Keyway", "SleeveJoint", "sleeve_presence", "sleeve_sizes"]

Rule = tuple[str, str, str]
ENDS = 2
"""Ends of a sleeve, each with a spline at most."""


class Keyway(Block):
    """A keyway in the bore of the sleeve, whose corners the wall begins at."""

    bore: Diameter = Field(description="bore in which the keyway lies")
    width: Length = Field(description="width of the keyway")
    depth: Length = Field(description="depth from the bore, in the middle of the key")

    @property
    def corner_diameter(self) -> float:
        """Diameter of the circle through its corners, m."""
        return float(keyway_corner_diameter(self.bore.value, self.width.value, self.depth.value))


class Floats(Block):
    """How the two shafts lie that a floating sleeve joins."""

    offset: SmallLength | None = Field(default=None, description="parallel offset of the two shafts")
    runout: SmallLength | None = Field(
        default=None, description="total indicator reading of one shaft from the other; offset is half of it"
    )
    span: Length = Field(description="distance between the middles of the two meshes")
    angle: Angle | None = Field(default=None, description="angle between the two shafts")
    read_at: Line | None = Field(
        default=None,
        max_length=60,
        description="name of the spline in whose plane the offset was read; the angle adds there",
    )


class SleeveJoint(SteelPart, AnyJoint):
    """A sleeve or tube in the torque path."""

    kind: Literal["sleeve"] = Field(description="kind of joint")
    outside_diameter: Diameter = Field(description="outside diameter, the smallest of its length")
    length: Length = Field(description="whole length")
    inside_diameter: Diameter | None = Field(
        default=None, description="largest bore between its ends; at the ends its splines count as well"
    )
    keyway: Keyway | None = Field(default=None, description="keyway in its bore")
    holds: ListOf[Line] = Field(
        default=(),
        max_length=ENDS,
        description="names of the splined joints whose hub this sleeve is, one for each end",
    )
    floats: Floats | None = Field(
        default=None,
        description="a sleeve that is carried by its two splines alone: how the two shafts lie",
    )
    end_play: SmallLength | None = Field(default=None, description="end play between the stops of the sleeve")

    _held: tuple[tuple[str, SplineJoint], ...] = PrivateAttr(default=())

    def holding(self, held: tuple[tuple[str, SplineJoint], ...]) -> "SleeveJoint":
        """Return the same sleeve with the splines that it names."""
        copy = self.model_copy()
        copy._held = held
        return copy

    @property
    def held(self) -> tuple[tuple[str, SplineJoint], ...]:
        """The splines whose hub it is, each with its name; known once the path has been put together."""
        return self._held


def sleeve_presence(written: Mapping[str, Any]) -> list[Rule]:
    """Something inside, and a statement of how it floats that is whole."""
    faults: list[Rule] = []
    inside = ("holds", "inside_diameter", "keyway")
    if not any(written.get(key) for key in inside):
        mend = f"give one of {', '.join(inside)}; a solid length is a shaft"
        faults.append(("inside_diameter", "is missing", mend))
    floats = written.get("floats")
    if not isinstance(floats, Mapping):
        return faults
    holds = written.get("holds")
    if not isinstance(holds, list) or len(holds) != ENDS:
        faults.append(("holds", "does not name two splines beside floats", "name the splines of both ends"))
    given = [key for key in ("offset", "runout") if key in floats]
    if len(given) != 1:
        problem = "contradicts offset" if given else "is missing"
        key = "runout" if given else "offset"
        faults.append((f"floats.{key}", problem, "give one of offset, runout; 0 mm is an answer too"))
    if "angle" in floats and "read_at" not in floats:
        faults.append(
            ("floats.read_at", "is missing beside angle", "name the spline at which the offset was read")
        )
    if "read_at" in floats and isinstance(holds, list) and floats["read_at"] not in holds:
        faults.append(("floats.read_at", "is none of holds", "name one of the two splines of the sleeve"))
    return faults


def sleeve_sizes(joint: SleeveJoint) -> list[Rule]:
    """A wall, a keyway that fits into its bore, and meshes within the sleeve."""
    faults: list[Rule] = []
    outside = joint.outside_diameter.value
    if joint.inside_diameter is not None and no_wall(joint.inside_diameter.value, outside):
        faults.append(("inside_diameter", "leaves no wall", "it must be below outside_diameter"))
    keyway = joint.keyway
    if keyway is not None:
        if no_wall(keyway.bore.value, outside):
            faults.append(("keyway.bore", "leaves no wall", "it must be below outside_diameter"))
        elif keyway.width.value > keyway.bore.value:
            faults.append(("keyway.width", "is wider than its bore", "check both readings"))
        elif no_wall(keyway.corner_diameter, outside):
            faults.append(("keyway.depth", "leaves no wall", "bore and keyway must lie inside the sleeve"))
    if joint.floats is not None and joint.floats.span.value >= joint.length.value:
        faults.append(
            (
                "floats.span",
                "is not below the length of the sleeve",
                "the span runs from the middle of one mesh to the middle of the other, inside the sleeve",
            )
        )
    return faults + (_steep_floats(joint.floats) if joint.floats is not None else [])


def _steep_floats(floats: Floats) -> list[Rule]:
    """Offset and angle of the shafts that no sleeve could join."""
    across = floats.offset.value if floats.offset is not None else 0.5 * needed(floats.runout).value
    between = floats.angle.value if floats.angle is not None else 0.0
    tilt, _ = tilts_of_floating_sleeve(across, floats.span.value, between)
    return steep_faults("floats", float(tilt))
