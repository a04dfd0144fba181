"""The block of a bolted flange, the rules that tie its fields together, and its impossible sizes."""

import math
from collections.abc import Mapping
from typing import Any, Literal

from pydantic import Field

from torqcheck.errors import DomainError, QuantityError
from torqcheck.materials import DowelPin, bolt_strength, dowel_pin, thread
from torqcheck.scenario.forms import below
from torqcheck.scenario.joint_schema import AnyJoint, Block, SteelPart, no_wall
from torqcheck.scenario.quantity import AnyLength, Diameter, Force, Length, Line, Reading, SeatLength, Torque
from torqcheck.scenario.usual import has_tolerance
from torqcheck.units import read

__all__ = [
    "BoltedFlangeJoint",
    "Bolts",
    "Dowels",
    "Face",
    "FlangePart",
    "Tightening",
    "dowel_of",
    "flange_presence",
    "flange_sizes",
    "thread_faults",
    "tightening_rules",
]

Rule = tuple[str, str, str]
WRENCH = "torque wrench"


class Bolts(Block):
    """The bolts of a flange."""

    size: Line = Field(max_length=20, description='"M10", "M10x1.25", "3/8-16"')
    strength: Line = Field(max_length=20, description='"8.8" (metric), "grade 5", "a574" (inch)')
    count: int = Field(ge=2, le=60, description="number of bolts on the circle")
    circle_diameter: Diameter = Field(description="diameter of the bolt circle")
    holes: Literal["clearance", "reamed"] = Field(
        default="clearance", description="reamed: bolts that fit their holes without play"
    )
    threads_in_shear_plane: bool | None = Field(
        default=None, description="the thread reaches between the flanges; counts as true if not stated"
    )
    ends_in: Literal["nut", "tapped hole", "blind hole"] = Field(
        default="nut", description="what the bolts are screwed into"
    )
    reused: bool | None = Field(default=None, description="bolts that were tightened before")


class Tightening(Block):
    """How the bolts are tightened, or the preload that they have."""

    torque: Torque | None = Field(default=None, description="torque at the wrench")
    preload: Force | None = Field(default=None, description="preload of one bolt, where it is known")
    method: (
        Literal["torque wrench", "feel", "turn of nut", "load washer", "elongation", "ultrasonic"] | None
    ) = Field(default=None, description="what the scatter of the preload goes by")
    lubrication: (
        Literal[
            "plain",
            "black, no oil",
            "zinc plated",
            "lubricated",
            "cadmium plated",
            "anti-seize",
            "waxed",
            "anti-friction washer",
        ]
        | None
    ) = Field(default=None, description="state of thread and head when they are tightened")
    nut_factor: float | None = Field(
        default=None, gt=0.03, le=0.6, description="nut factor K, where it was measured"
    )


class Face(Block):
    """The faces that the bolts press together."""

    outer_diameter: Diameter = Field(description="outer diameter of the face that touches")
    inner_diameter: AnyLength | None = Field(default=None, description="inner diameter of that face")
    condition: (
        Literal[
            "oily",
            "degreased",
            "as rolled",
            "wire-brushed",
            "zinc silicate paint",
            "blasted",
            "friction shim",
        ]
        | None
    ) = Field(default=None, description="state of the faces; counts as oily if not stated")
    friction: float | None = Field(
        default=None, ge=1e-3, le=0.8, description="coefficient of friction, where it was measured"
    )


class FlangePart(SteelPart):
    """One of the two flanges."""

    thickness: Length = Field(description="thickness at the bolts, without counterbore")


class Dowels(Block):
    """Hardened dowel pins between the flanges."""

    size: Line = Field(max_length=20, description='diameter of a dowel of the tables: "8 mm", "5/16 in"')
    count: int = Field(ge=1, le=24, description="number of dowels on the circle")
    circle_diameter: Diameter = Field(description="diameter of their circle")
    engagement: SeatLength | None = Field(
        default=None, description="length of the dowel in each flange; the thickness if not stated"
    )


class BoltedFlangeJoint(AnyJoint):
    """Two flanges that bolts press together, with dowels or without."""

    kind: Literal["bolted flange"] = Field(description="kind of joint")
    bolts: Bolts = Field(description="the bolts")
    tightening: Tightening | None = Field(
        default=None, description="how they are tightened; no pass is given without it"
    )
    face: Face = Field(description="the faces that touch")
    driving_flange: FlangePart = Field(description="the flange on the driving side")
    driven_flange: FlangePart = Field(description="the flange on the driven side")
    dowels: Dowels | None = Field(default=None, description="dowel pins, if there are any")
    edge_distance: Length | None = Field(
        default=None, description="centre of a bolt hole to the nearest edge of the flange"
    )


def dowel_of(dowels: Dowels) -> DowelPin:
    """
    Return the dowel of the tables that a block names.

    Raises
    ------
    QuantityError
        If its size is no length.
    DomainError
        If there is no such dowel.
    """
    return dowel_pin(read(dowels.size, "length")[0])


def flange_presence(written: Mapping[str, Any]) -> list[Rule]:
    """One way to say the preload, one to say the friction."""
    faults: list[Rule] = []
    face, tightening = written.get("face"), written.get("tightening")
    if isinstance(face, Mapping) and "friction" in face and "condition" in face:
        faults.append(("face.friction", "contradicts condition", "keep one of them"))
    if isinstance(tightening, Mapping):
        faults += below("tightening", tightening_rules(tightening))
    return faults


def tightening_rules(written: Mapping[str, Any]) -> list[Rule]:
    """Say what goes with a torque, and what with a preload."""
    if "torque" in written and "preload" in written:
        return [("preload", "contradicts torque", "keep one of them")]
    if "torque" in written:
        if written.get("method", WRENCH) != WRENCH:
            mend = "give the preload that the method measures, or leave the method out"
            return [("method", "does not measure a torque", mend)]
        return []
    if "preload" not in written:
        mend = "give torque or preload; leave [joint.tightening] out if neither is known"
        return [("torque", "is missing", mend)]
    mend = "give the torque in place of the preload, or leave it out"
    faults: list[Rule] = [
        (key, "only goes with a torque", mend) for key in ("lubrication", "nut_factor") if key in written
    ]
    says = str(written["preload"])
    if "method" not in written and not has_tolerance(says):
        faults.append(
            ("method", "is missing", 'say how the preload is known, or how well: "25 +/- 3 kN" for example')
        )
    return faults


def flange_sizes(joint: BoltedFlangeJoint) -> list[Rule]:
    """Bolts and dowels that there are, on circles that hold them, and a face."""
    return [*_bolt_faults(joint.bolts), *_dowel_faults(joint), *_face_faults(joint)]


def thread_faults(place: str, size: str, strength: str) -> list[Rule]:
    """A size and a class that the tables hold."""
    try:
        known = thread(size)
    except DomainError as error:
        return [(f"{place}.size", f"cannot be used: {error}", 'write for example "M10" or "3/8-16"')]
    try:
        bolt_strength(strength, known)
    except DomainError as error:
        mend = "read the marks on the heads; without marks take 4.6 or grade 2"
        return [(f"{place}.strength", f"cannot be used: {error}", mend)]
    return []


def _bolt_faults(bolts: Bolts) -> list[Rule]:
    faults = thread_faults("bolts", bolts.size, bolts.strength)
    diameter = _thread_diameter(bolts)
    if diameter and _chord(bolts.circle_diameter.value, bolts.count) <= diameter:
        mend = "check count, size and bolt circle; it is the diameter of the circle"
        faults.append(("bolts.circle_diameter", "leaves no metal between the bolts", mend))
    return faults


def _dowel_faults(joint: BoltedFlangeJoint) -> list[Rule]:
    dowels = joint.dowels
    if dowels is None:
        return []
    faults: list[Rule] = []
    try:
        diameter = dowel_of(dowels).diameter
    except QuantityError as error:
        return [("dowels.size", error.problem, error.mend)]
    except DomainError as error:
        return [("dowels.size", f"cannot be used: {error}", "give the size of a hardened dowel")]
    if dowels.count > 1 and _chord(dowels.circle_diameter.value, dowels.count) <= diameter:
        mend = "check count, size and circle; it is the diameter of the circle"
        faults.append(("dowels.circle_diameter", "leaves no metal between the dowels", mend))
    if dowels.engagement is not None:
        thickest = max(joint.driving_flange.thickness.value, joint.driven_flange.thickness.value)
        if dowels.engagement.value > thickest:
            mend = "give the length in one flange, not that of the whole dowel"
            faults.append(("dowels.engagement", "is more than either flange is thick", mend))
    return faults


def _face_faults(joint: BoltedFlangeJoint) -> list[Rule]:
    face = joint.face
    if face.inner_diameter is not None and face.inner_diameter.value >= face.outer_diameter.value:
        return [("face.inner_diameter", "leaves no face", "it must be below the outer diameter")]
    faults = _hole_faults("bolts", joint.bolts.circle_diameter, _thread_diameter(joint.bolts), face)
    if joint.dowels is not None:
        faults += _hole_faults("dowels", joint.dowels.circle_diameter, _dowel_diameter(joint.dowels), face)
    edge = joint.edge_distance
    if not faults and edge is not None and edge.value <= 0.5 * _thread_diameter(joint.bolts):
        return [("edge_distance", "is within the hole", "measure from the centre of the hole to the edge")]
    return faults


def _hole_faults(what: str, circle: Reading, hole: float, face: Face) -> list[Rule]:
    """Holes lie in the faces that they are to press or drive: circle and hole within the two diameters."""
    outer, inner = face.outer_diameter, face.inner_diameter
    mend = "check both; they are diameters"
    if no_wall(circle.value + hole, outer.value):
        says = f'puts its holes over the edge of face.outer_diameter = "{outer.text}"'
        return [(f"{what}.circle_diameter", says, mend)]
    if inner is not None and no_wall(inner.value, circle.value - hole):
        says = f'reaches into the holes of {what}.circle_diameter = "{circle.text}"'
        return [("face.inner_diameter", says, mend)]
    return []


def _dowel_diameter(dowels: Dowels) -> float:
    """Diameter of the dowels, m; 0 where the size is none, which has its own fault."""
    try:
        return dowel_of(dowels).diameter
    except (DomainError, QuantityError):
        return 0.0


def _thread_diameter(bolts: Bolts) -> float:
    """Diameter of the bolts, m; 0 where the size is none, which has its own fault."""
    try:
        return thread(bolts.size).diameter
    except DomainError:
        return 0.0


def _chord(circle_diameter: float, count: int) -> float:
    """Distance between neighbouring holes."""
    return circle_diameter * math.sin(math.pi / count)
