"""One splined joint with everything resolved: dimensions, members, lash, tilt. SI."""

import math
from dataclasses import dataclass, replace

from torqcheck.assessment.members import MemberState, member_state
from torqcheck.geometry import InvoluteSpline, StraightSpline
from torqcheck.geometry.pairs.judgement import judge
from torqcheck.scenario.bench import (
    LashReading,
    WornWidths,
    lash_of,
    lubrication_of,
    tooth_widths,
)
from torqcheck.scenario.joint_schema import (
    InvoluteSplineJoint,
    SplineJoint,
    StraightSplineJoint,
    bore_of,
    engagement_of,
)
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.parts import lash_readings, part_readings
from torqcheck.scenario.sizes import groove_diameter, load_diameter, root_under_teeth, spline_of
from torqcheck.scenario.steel_library import Library
from torqcheck.scenario.tilt_reading import TiltReading, tilt_of

__all__ = [
    "SplineState",
    "described",
    "sections",
    "spline_state",
    "worn_state",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class SplineState:
    """What the checks of a splined joint work on."""

    key: str
    name: str
    joint: SplineJoint
    spline: InvoluteSpline | StraightSpline
    external: MemberState
    internal: MemberState
    lash: LashReading
    tilt: TiltReading
    lubrication: str
    bore: float
    outside_diameter: float | None
    engagement: float
    worn: WornWidths
    crown_height: float | None

    @property
    def pitch_diameter(self) -> float:
        """Diameter at which the tooth force is taken to act."""
        return load_diameter(self.spline)

    @property
    def halves(self) -> tuple[tuple[MemberState, float], tuple[MemberState, float]]:
        """The two members, each with the thickness of its tooth on the pitch circle."""
        return (self.external, self.worn.external), (self.internal, self.worn.internal)

    @property
    def lost(self) -> tuple[float, float]:
        """Thickness that the teeth of shaft and hub have lost."""
        return _lost(self.worn)

    @property
    def new_widths(self) -> tuple[float, float]:
        """Thickness of the teeth of shaft and hub when they were new."""
        return self.worn.external + self.worn.external_lost, self.worn.internal + self.worn.internal_lost

    @property
    def contact_height(self) -> float:
        """Radial depth of engagement that the readings leave."""
        return self.worn.height

    @property
    def root_diameter(self) -> float:
        """Diameter under the teeth of the shaft: nominal, or measured where that is smaller."""
        return root_under_teeth(self.joint, self.spline)

    @property
    def internal_major_diameter(self) -> float:
        """Diameter at the bottom of the hub's spaces: nominal, or measured where that is larger."""
        return groove_diameter(self.joint, self.spline)

    @property
    def lash_angle(self) -> float:
        """Whole lash, rad."""
        return self.lash.angle(self.pitch_diameter)


def worn_state(state: SplineState, external: float, internal: float) -> SplineState:
    """The same joint with so much, m normal to the flank, worn from each member besides."""
    slant = math.cos(state.spline.pressure_angle)
    losses = external / slant, internal / slant
    worn, both = state.worn, external + internal
    tilt = state.tilt
    if state.joint.nose_supported is False and state.joint.seat == "flexible":
        # the shaft end rocks in its radial play, which has grown by the worn depth
        tilt = replace(tilt, angle=tilt.angle + both / state.engagement)
    return replace(
        state,
        lash=replace(state.lash, clearance=state.lash.clearance + sum(losses)),
        tilt=tilt,
        worn=replace(
            worn,
            external=worn.external - losses[0],
            internal=worn.internal - losses[1],
            external_lost=worn.external_lost + losses[0],
            internal_lost=worn.internal_lost + losses[1],
            height=worn.height - both,
        ),
    )


def spline_state(joint: SplineJoint, key: str, name: str, library: Library, ledger: Ledger) -> SplineState:
    """Resolve one splined joint of the file."""
    spline = spline_of(joint)
    diameter = load_diameter(spline)
    lash = lash_of(joint, key, name, spline, diameter, ledger)
    tilt = tilt_of(joint, key, name, lash, spline, ledger)
    outside = joint.internal.outside_diameter
    tip, wall = sections(joint, spline)
    return SplineState(
        key=key,
        name=name,
        joint=joint,
        spline=spline,
        external=member_state("external", f"{key}.external", name, joint.external, tip, library, ledger),
        internal=member_state("internal", f"{key}.internal", name, joint.internal, wall, library, ledger),
        lash=lash,
        tilt=tilt,
        lubrication=lubrication_of(joint, key, ledger),
        bore=bore_of(joint.external),
        outside_diameter=outside.value if outside is not None else None,
        engagement=engagement_of(joint).value,
        worn=_widths(joint, key, spline, ledger),
        crown_height=_crown(joint),
    )


def _widths(
    joint: SplineJoint, key: str, spline: InvoluteSpline | StraightSpline, ledger: Ledger
) -> WornWidths:
    """
    Widths that the readings leave.

    Where the wear of a part cannot be told from another spline with less of it, the reading that tells
    them apart may show that nothing is lost; that is then the outlook that helps the part.
    """
    worn = tooth_widths(joint, spline)
    if ledger.outlook == "as stated" or isinstance(spline, StraightSpline) or not any(_lost(worn)):
        return worn
    apart = Ledger()
    outer = part_readings(joint.external, f"{key}.external", apart)
    inner = part_readings(joint.internal, f"{key}.internal", apart)
    imitated = judge(spline, outer, inner, lash_readings(joint, spline)).imitated
    if "external" in imitated:
        worn = replace(worn, external=worn.external + worn.external_lost, external_lost=0.0)
    if "internal" in imitated:
        worn = replace(worn, internal=worn.internal + worn.internal_lost, internal_lost=0.0)
    return worn


def _lost(worn: WornWidths) -> tuple[float, float]:
    return worn.external_lost, worn.internal_lost


def sections(joint: SplineJoint, spline: InvoluteSpline | StraightSpline) -> tuple[float, float]:
    """Thickness of the metal of shaft and hub, m: what a row of the steel tables must hold for."""
    tip = spline.external.major_diameter if isinstance(spline, InvoluteSpline) else spline.major_diameter
    outside = joint.internal.outside_diameter
    return tip, 0.5 * (outside.value - tip) if outside is not None else tip


def _crown(joint: SplineJoint) -> float | None:
    if isinstance(joint, InvoluteSplineJoint) and joint.crown_height is not None:
        return joint.crown_height.value or None
    return None


def described(state: SplineState) -> str:
    """Name the spline in one line for the report."""
    word = "" if isinstance(state.joint, StraightSplineJoint) else f"{state.joint.seat} seat, "
    word += "crowned, " if state.crown_height is not None else ""
    return (
        f"{state.spline.designation}, {word}{state.engagement * 1e3:.1f} mm engaged, "
        f"shaft {state.external.steel.id}, hub {state.internal.steel.id}"
    )
