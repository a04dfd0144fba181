"""Where torsional fatigue can begin in the two members of a spline, and how strong the steel is there."""

from dataclasses import dataclass

from torqcheck.assessment.members import MemberState
from torqcheck.assessment.teeth.state import SplineState
from torqcheck.capacity import torsional_shear_stress
from torqcheck.checks import Member
from torqcheck.errors import DomainError
from torqcheck.fatigue import (
    NOTCH_RANGE,
    SURFACE_FINISHES,
    TORSION_LOAD_FACTOR,
    StrengthLine,
    bending_limit,
    boundary_stress_share,
    diameter_share,
    endurance_limit,
    equivalent_diameter,
    fatigue_notch_factor,
    notch_constant_in_torsion,
    notch_sensitivity,
    reliability_factor,
    shear_ultimate_strength,
    size_factor,
    spline_stress_concentration,
    strength_fraction,
    surface_factor,
)
from torqcheck.geometry import InvoluteSpline
from torqcheck.materials import Steel, design_ultimate, hb_from_hv, ultimate_strength_from_hb
from torqcheck.scenario.ledger import Ledger

__all__ = [
    "RELIABILITY",
    "SOFTEST_NOTCH",
    "FatigueMember",
    "Place",
    "beyond_range",
    "core_strength",
    "fatigue_members",
    "surface_strength",
]

RELIABILITY = 0.99
FLAT_ROOT_FILLET, FILLET_ROOT_FILLET, LARGEST_FILLET = 0.2, 0.4, 0.4
"""Root fillet radius over module."""
STRAIGHT_FILLET, LARGEST_STRAIGHT_FILLET = 0.1, 0.2
"""Root fillet radius of a straight-sided spline over the height of its teeth."""
CONVERTED = 0.9
"""Strengths converted from a hardness are indicative: the same share as everywhere else."""
HARDEST_VICKERS = 653.0
"""End of the Brinell scale, 615 HB; harder surfaces are given the strength of this."""
SOFTEST_NOTCH, STRONGEST = NOTCH_RANGE

_MACHINED = SURFACE_FINISHES["machined", "9th"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """
    One place of a member: local shear stress for each N m, and the strength line there. SI.

    `stress_per_torque` holds the fatigue notch factor; amplitude and mean both carry it.
    """

    name: str
    stress_per_torque: float
    line: StrengthLine
    ultimate_strength: float
    stress_concentration: float
    sensitivity: float
    notch_factor: float


@dataclass(frozen=True, slots=True, kw_only=True)
class FatigueMember:
    """One member: the places where it can begin, or the reason why no life is stated."""

    side: Member
    diameter: float
    bore: float
    strength: float
    places: tuple[Place, ...]
    fillet_radius: float
    reason: str = ""


def fatigue_members(state: SplineState, ledger: Ledger) -> tuple[FatigueMember, ...]:
    """
    Find the places of both members; the hub is left out while its outside diameter is not known.

    Parameters
    ----------
    state : SplineState
        The joint, resolved.
    ledger : Ledger
        Takes the assumptions on fillet and surface.
    """
    fillet = _fillet(state, ledger)
    ledger.assume_word(
        "fatigue.surface",
        "machined, 99 % of parts",
        "surface and reliability factor of the endurance limit, by the handbook in its 9th edition",
    )
    members = [_external(state, fillet)]
    if state.outside_diameter is not None:
        members.append(_internal(state, state.outside_diameter, fillet))
    return tuple(members)


def _fillet(state: SplineState, ledger: Ledger) -> float:
    """Root fillet radius, which no caliper reads."""
    spline = state.spline
    if isinstance(spline, InvoluteSpline):
        share = FILLET_ROOT_FILLET if spline.root == "fillet" else FLAT_ROOT_FILLET
        size, largest, of = spline.module, LARGEST_FILLET, "module"
    else:
        share, largest, of = STRAIGHT_FILLET, LARGEST_STRAIGHT_FILLET, "tooth height"
        size = 0.5 * (spline.major_diameter - spline.minor_diameter)
    return ledger.assume(
        f"{state.key}.fillet_radius",
        share * size,
        "length",
        f"smallest radius at the tooth root, {share:g} of the {of}; a radius gauge or a cast would tell",
        band=(0.5 * share * size, largest * size),
    )


def _external(state: SplineState, fillet: float) -> FatigueMember:
    """The shaft: its tooth roots, and under them the boundary of a hard layer."""
    root, member = state.root_diameter, state.external
    nominal = float(torsional_shear_stress(1.0, root, state.bore))
    concentration = _concentration(state, fillet)
    places: tuple[Place, ...] = ()
    reason = beyond_range(member.steel, root)
    if not reason:
        depth = member.steel.case_depth_min or 0.0
        under = float(boundary_stress_share(min(depth, 0.49 * root), root))
        places = _with_layer(member, "tooth root", root, nominal, under, concentration, fillet)
    return FatigueMember(
        side="external",
        diameter=root,
        bore=state.bore,
        strength=core_strength(member.steel),
        places=places,
        fillet_radius=fillet,
        reason=reason,
    )


def _internal(state: SplineState, outside: float, fillet: float) -> FatigueMember:
    """The hub: its outside without a notch, and the roots of its spaces at the bore."""
    bottom, member = state.internal_major_diameter, state.internal
    reason = "" if bottom < outside else "no wall is left outside the teeth"
    reason = reason or beyond_range(member.steel, outside)
    places: tuple[Place, ...] = ()
    if not reason:
        surface = float(torsional_shear_stress(1.0, outside, bottom))
        core = core_strength(member.steel)
        depth = member.steel.case_depth_min or 0.0
        # the stress grows outwards from the bore, up to that of the outside
        under = min(1.0 + 2.0 * depth / bottom, outside / bottom)
        concentration = _concentration(state, fillet)
        places = (
            _place("outside", surface, core, outside, 1.0, fillet, finished=True),
            *_with_layer(
                member, "tooth root", outside, surface * bottom / outside, under, concentration, fillet
            ),
        )
    return FatigueMember(
        side="internal",
        diameter=outside,
        bore=bottom,
        strength=core_strength(member.steel),
        places=places,
        fillet_radius=fillet,
        reason=reason,
    )


def beyond_range(steel: Steel, diameter: float) -> str:
    """Say why the rules do not hold for a member, if they do not."""
    if steel.is_iron:
        return "cast iron: the fatigue rules used here are for steel"
    try:
        size_factor(diameter)
    except DomainError:
        return f"a section of {diameter * 1e3:.0f} mm is outside the range of the size factor"
    return ""


def _concentration(state: SplineState, fillet: float) -> float:
    """Elastic stress concentration of the shaft's tooth roots, on the stress at the root diameter."""
    spline = state.spline
    involute = isinstance(spline, InvoluteSpline)
    major = spline.external.major_diameter if isinstance(spline, InvoluteSpline) else spline.major_diameter
    sizes, share = (state.root_diameter, major), diameter_share(involute)
    on_root = (state.root_diameter / equivalent_diameter(*sizes, share)) ** 3
    return max(1.0, float(spline_stress_concentration(*sizes, fillet, share) * on_root))


def _with_layer(
    member: MemberState,
    name: str,
    diameter: float,
    nominal: float,
    under: float,
    concentration: float,
    fillet: float,
) -> tuple[Place, ...]:
    """The surface of a place, and the boundary of case and core if there is a hard layer."""
    core = core_strength(member.steel)
    if member.steel.surface_treatment == "none":
        return (_place(f"{name}, surface", nominal, core, diameter, concentration, fillet, finished=True),)
    hard = max(core, surface_strength(member.vickers))
    return (
        _place(f"{name}, surface", nominal, hard, diameter, concentration, fillet, finished=True),
        # the notch is not taken to fade on the way down: on the safe side
        _place(
            f"{name}, case-core boundary",
            nominal * under,
            core,
            diameter,
            concentration,
            fillet,
            finished=False,
        ),
    )


def core_strength(steel: Steel) -> float:
    """Ultimate strength through the section, no higher than the fatigue rules go."""
    return min(design_ultimate(steel), STRONGEST)


def surface_strength(vickers: float) -> float:
    """Ultimate strength that a hard surface is given: by the conversion list, as far as the rules go."""
    hardness = hb_from_hv(min(vickers, HARDEST_VICKERS))
    return min(CONVERTED * ultimate_strength_from_hb(hardness), STRONGEST)


def _place(
    name: str,
    nominal: float,
    strength: float,
    diameter: float,
    concentration: float,
    fillet: float,
    *,
    finished: bool,
) -> Place:
    """Strength line and notch of one place; below the surface no surface finish counts."""
    ka = surface_factor(strength, _MACHINED.coefficient, _MACHINED.exponent) if finished else 1.0
    limit = endurance_limit(
        bending_limit(strength),
        ka,
        size_factor(diameter),
        TORSION_LOAD_FACTOR,
        reliability_factor=reliability_factor(RELIABILITY),
    )
    ultimate = float(shear_ultimate_strength(strength))
    sensitivity = float(notch_sensitivity(fillet, notch_constant_in_torsion(max(strength, SOFTEST_NOTCH))))
    notch = float(fatigue_notch_factor(concentration, sensitivity))
    return Place(
        name=name,
        stress_per_torque=nominal * notch,
        line=StrengthLine(ultimate, float(strength_fraction(strength)) * ultimate, float(limit)),
        ultimate_strength=strength,
        stress_concentration=concentration,
        sensitivity=sensitivity,
        notch_factor=notch,
    )
