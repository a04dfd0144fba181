"""A bolted flange resolved: bolts, preload, faces, dowels, and what each path can carry."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from torqcheck.assessment.kinds.bolt_preload import Bolt, Preload, bolt_of, preload_of, settled
from torqcheck.assessment.members import MemberState, member_state
from torqcheck.capacity.joining import bolt_circle_radius, bolt_shank_area, face_friction_radius
from torqcheck.materials import DowelPin, face_friction
from torqcheck.provenance import Source, weakest_mark
from torqcheck.scenario.kinds.flange import BoltedFlangeJoint, FlangePart, dowel_of
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.steel_library import Library

__all__ = ["FlangeSide", "FlangeState", "Pins", "flange_state"]

CLEARANCE_SHARE, CLEARANCE_BAND = 0.50, (0.25, 0.75)
REAMED_SHARE, REAMED_BAND = 0.75, (0.75, 1.0)
"""Share of the bolts, or of the dowels, that bear; common practice, the bands own choice."""
SHARE_SOURCE = Source("How many bolts or dowels of a circle bear", "", "common practice, no source")
OILY = "oily"
Side: TypeAlias = Literal["driving flange", "driven flange"]


@dataclass(frozen=True, slots=True)
class FlangeSide:
    """One flange: its name, steel and thickness, m."""

    side: Side
    member: MemberState
    thickness: float


@dataclass(frozen=True, slots=True)
class Pins:
    """Dowels on their circle; `bearing` is how many of them count."""

    pin: DowelPin
    count: int
    circle_diameter: float
    bearing: float
    lengths: tuple[float, float]


@dataclass(frozen=True, slots=True)
class FlangeState:
    """
    A bolted flange, resolved. SI.

    Parameters
    ----------
    name : str
        Of the joint.
    bolt, count, circle_diameter : Bolt, int, float
        The bolts and their circle.
    preload : Preload
        When just tightened.
    grip_force : float, N
        Least preload of a bolt in service.
    friction, friction_source : float, Source
        Of the faces.
    face_radius, circle_radius : float, m
        Radius of the friction by the face and by the bolt circle.
    reamed : bool
        The bolts fit their holes.
    bearing : float
        How many bolts count in shear.
    section : float, m2
        Of a bolt in the shear plane.
    threaded : bool
        That section is the root of the thread.
    sides : tuple of FlangeSide
        Driving side first.
    pins : Pins or None
        Dowels beside the bolts, if there are any.
    """

    name: str
    bolt: Bolt
    count: int
    circle_diameter: float
    preload: Preload
    grip_force: float
    friction: float
    friction_source: Source
    face_radius: float
    circle_radius: float
    reamed: bool
    bearing: float
    section: float
    threaded: bool
    sides: tuple[FlangeSide, FlangeSide]
    pins: Pins | None

    @property
    def friction_radius(self) -> float:
        """The smaller of the two radii, m."""
        return min(self.face_radius, self.circle_radius)


def flange_state(
    joint: BoltedFlangeJoint, key: str, name: str, library: Library, ledger: Ledger
) -> FlangeState:
    """Resolve what the file says, and assume what it leaves open."""
    bolts, face = joint.bolts, joint.face
    bolt = bolt_of(bolts)
    preload = preload_of(joint.tightening, bolt, key, name, ledger)
    sides = _sides(joint, key, name, library, ledger)
    friction, source = _friction(joint, key, ledger)
    inner = face.inner_diameter.value if face.inner_diameter is not None else 0.0
    reamed = bolts.holes == "reamed"
    threaded = _threads_between(joint, key, ledger)
    return FlangeState(
        name=name,
        bolt=bolt,
        count=bolts.count,
        circle_diameter=bolts.circle_diameter.value,
        preload=preload,
        grip_force=settled(preload, bolt, _clamped_length(joint), key, ledger),
        friction=friction,
        friction_source=source,
        face_radius=float(face_friction_radius(face.outer_diameter.value, inner)),
        circle_radius=float(bolt_circle_radius(bolts.circle_diameter.value)),
        reamed=reamed,
        bearing=bolts.count * _share(f"{key}.bolts", "bolts", reamed, ledger),
        section=bolt.root_area if threaded else float(bolt_shank_area(bolt.thread.diameter)),
        threaded=threaded,
        sides=sides,
        pins=_pins(joint, sides, key, ledger),
    )


def _sides(
    joint: BoltedFlangeJoint, key: str, name: str, library: Library, ledger: Ledger
) -> tuple[FlangeSide, FlangeSide]:
    def side(words: Side, place: str, part: FlangePart) -> FlangeSide:
        thickness = part.thickness.value
        member = member_state(words, f"{key}.{place}", name, part, thickness, library, ledger)
        return FlangeSide(words, member, thickness)

    return (
        side("driving flange", "driving_flange", joint.driving_flange),
        side("driven flange", "driven_flange", joint.driven_flange),
    )


def _clamped_length(joint: BoltedFlangeJoint) -> float:
    """Between head and nut; with a tapped hole that of the thinner flange, as the file does not say which."""
    both = joint.driving_flange.thickness.value, joint.driven_flange.thickness.value
    return sum(both) if joint.bolts.ends_in == "nut" else min(both)


def _threads_between(joint: BoltedFlangeJoint, key: str, ledger: Ledger) -> bool:
    """Whether the shear plane goes through the thread."""
    stated = joint.bolts.threads_in_shear_plane
    if stated is None:
        ledger.assume_word(
            f"{key}.bolts.threads_in_shear_plane", "true", "not stated; bolts threaded to the head are usual"
        )
    return stated is not False


def _friction(joint: BoltedFlangeJoint, key: str, ledger: Ledger) -> tuple[float, Source]:
    """Friction as measured, or by the condition of the faces."""
    face = joint.face
    if face.friction is not None:
        return face.friction, Source("Friction of the faces as stated", "", "measured")
    if face.condition is None:
        ledger.assume_word(f"{key}.face.condition", OILY, "not stated; faces that nobody degreased are oily")
    condition = face.condition or OILY
    table = face_friction(condition)
    friction = ledger.assume(
        f"{key}.face.friction",
        table.friction,
        None,
        f"faces {condition}: {table.note}",
        band=(table.least, table.most),
        favourable=table.most,
        mark=weakest_mark((table.source.mark, table.band_mark)),
    )
    return friction, table.source


def _share(key: str, what: str, reamed: bool, ledger: Ledger) -> float:
    """Share of the bolts or dowels that bear."""
    share, band = (REAMED_SHARE, REAMED_BAND) if reamed else (CLEARANCE_SHARE, CLEARANCE_BAND)
    why = (
        f"share of the {what} that bear in holes that fit them; the rest come late by their pitch error"
        if reamed
        else f"share of the {what} that bear in clearance holes; one or two touch first"
    )
    return ledger.assume(
        f"{key}.bearing", share, None, why, band=band, favourable=band[1], mark=SHARE_SOURCE.mark
    )


def _pins(
    joint: BoltedFlangeJoint, sides: tuple[FlangeSide, FlangeSide], key: str, ledger: Ledger
) -> Pins | None:
    dowels = joint.dowels
    if dowels is None:
        return None
    lengths = tuple(
        min(side.thickness, dowels.engagement.value) if dowels.engagement is not None else side.thickness
        for side in sides
    )
    share = _share(f"{key}.dowels", "dowels", True, ledger)
    return Pins(
        dowel_of(dowels),
        dowels.count,
        dowels.circle_diameter.value,
        max(dowels.count * share, 1.0),
        (lengths[0], lengths[1]),
    )
