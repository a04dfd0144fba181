"""What the teeth of one member can take before they yield, and the section at their root."""

import math
from dataclasses import dataclass

from torqcheck.assessment.members import MemberState
from torqcheck.assessment.teeth.state import SplineState
from torqcheck.capacity import (
    DEPTH_OF_LARGEST_SHEAR,
    flank_yield_pressure,
    layered_root_strength,
    line_contact_yield_pressure,
)
from torqcheck.checks import Member
from torqcheck.geometry import InvoluteSpline, StraightSpline, width_at_radius
from torqcheck.materials import (
    hb_from_hv,
    hv_from_hb,
    hv_from_hrc,
    listed_yield_source,
    yield_strength_from_hb,
)
from torqcheck.provenance import Source

__all__ = [
    "ToothRoot",
    "contact_yield_pressure",
    "flank_strength",
    "is_brittle",
    "root_strength",
    "strength_sources",
    "surface_yield",
    "tooth_root",
]

SOFTEST_LISTED = 150.0
HARDEST_LISTED = 514.0
"""HB, 52 HRC: the list of yield strengths against hardness ends there, and is not carried on."""
BRITTLE = 45.0
"""HRC above which a tooth cracks rather than beds in; common practice, no source."""


@dataclass(frozen=True, slots=True)
class ToothRoot:
    """Section of a tooth at its root, m: thickness there, and height of the middle of the flank above it.

    The flank is taken to bear evenly over its height, as where its pressure is checked; a load at the
    tip alone would bend the tooth nearly twice as hard.
    """

    chord: float
    lever: float


def is_brittle(member: MemberState) -> bool:
    """Whether the teeth have a hard layer, or are harder than 45 HRC."""
    return _case_depth(member) > 0.0 or member.vickers > hv_from_hrc(BRITTLE)


def surface_yield(member: MemberState) -> float:
    """Yield strength of the flank, Pa: that of the steel, or of its hard layer.

    The layer's by the low end of its hardness; the list ends at 52 HRC, as which harder layers count, and
    begins at 150 HB, below which nothing is left of the layer.
    """
    if not _case_depth(member) or member.vickers < hv_from_hb(SOFTEST_LISTED):
        return member.yield_strength
    listed = HARDEST_LISTED
    if member.vickers < hv_from_hb(HARDEST_LISTED):
        listed = hb_from_hv(member.vickers)
    return max(member.yield_strength, yield_strength_from_hb(listed))


def strength_sources(member: MemberState) -> tuple[Source, ...]:
    """What the yield strength of its core, and of its hard layer, rests on."""
    layer = (listed_yield_source(),) if _case_depth(member) else ()
    return (member.steel.source, *layer)


def flank_strength(member: MemberState, height: float) -> float:
    """Mean pressure at which a straight flank of this height begins to yield, Pa."""
    return float(
        flank_yield_pressure(surface_yield(member), member.yield_strength, _case_depth(member), height)
    )


def contact_yield_pressure(member: MemberState, half_width: float) -> float:
    """Largest pressure at which a crowned flank begins to yield, Pa: under its layer if that is thin."""
    deep = _case_depth(member) >= DEPTH_OF_LARGEST_SHEAR * half_width
    strength = surface_yield(member) if deep else member.yield_strength
    return float(line_contact_yield_pressure(strength))


def root_strength(member: MemberState, chord: float) -> float:
    """Bending stress at which the root of a tooth begins to yield, Pa."""
    return float(
        layered_root_strength(surface_yield(member), member.yield_strength, _case_depth(member), chord)
    )


def tooth_root(state: SplineState, side: Member) -> ToothRoot | None:
    """Section at the root of the teeth of one member, worn as they are; None if nothing is left."""
    spline = state.spline
    of_kind = _involute_root if isinstance(spline, InvoluteSpline) else _straight_root
    root = of_kind(state, spline, side)  # type: ignore[arg-type]
    return root if root.chord > 0.0 and root.lever > 0.0 else None


def _case_depth(member: MemberState) -> float:
    """Depth of the hard layer at its low end; 0 without one."""
    return member.steel.case_depth_min or 0.0


def _involute_root(state: SplineState, spline: InvoluteSpline, side: Member) -> ToothRoot:
    """By the true flank, down to the base circle at most; the fillet is left out."""
    size = spline.pitch_diameter, spline.pressure_angle
    middle = 0.25 * (spline.external.major_diameter + spline.internal.minor_diameter)
    if side == "external":
        radius = max(0.5 * state.root_diameter, 0.5 * spline.base_diameter)
        chord = float(width_at_radius(radius, *size, state.worn.external))
        return ToothRoot(chord, middle - 0.5 * state.root_diameter)
    radius = 0.5 * state.internal_major_diameter
    space = float(width_at_radius(radius, *size, spline.circular_pitch - state.worn.internal))
    chord = 2.0 * math.pi * radius / spline.teeth - max(space, 0.0)
    return ToothRoot(chord, radius - middle)


def _straight_root(state: SplineState, spline: StraightSpline, side: Member) -> ToothRoot:
    """Parallel flanks: the tooth of the shaft is as thick at its root, that of the hub thicker."""
    lever = 0.25 * (spline.major_diameter - spline.minor_diameter)
    if side == "external":
        return ToothRoot(state.worn.external, lever)
    wider = math.pi * (spline.major_diameter - spline.mean_diameter) / spline.teeth
    return ToothRoot(state.worn.internal + wider, lever)
