"""A sleeve or tube: its wall in torsion and bursting at its weaker end, and its stiffness."""

from dataclasses import dataclass

from torqcheck.assessment.fatigue.notched import notched_fatigue
from torqcheck.assessment.kinds.sleeve_fatigue import sleeve_notches
from torqcheck.assessment.kinds.sleeve_notes import (
    say_how_it_floats,
    warn_of_ends,
    warn_of_speed,
    warn_of_wall,
)
from torqcheck.assessment.members import MemberState, member_state
from torqcheck.assessment.resolved import Requirement, Resolved
from torqcheck.assessment.torque.design_load import DesignLoad, larger_load
from torqcheck.capacity import (
    centrifugal_bursting_stress,
    radial_bursting_stress,
    shear_yield_strength,
    torsional_shear_stress,
    torsional_stiffness,
)
from torqcheck.capacity.joining import combined_wall_stress
from torqcheck.checks import Check
from torqcheck.formulas import FORMULAS
from torqcheck.scenario.joint_schema import SplineJoint, engagement_of
from torqcheck.scenario.kinds.sleeve import SleeveJoint
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.sizes import groove_diameter, load_diameter, spline_of
from torqcheck.scenario.steel_library import Library

__all__ = ["Section", "resolve_sleeve", "sections_of"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """
    One place of the wall. SI.

    Parameters
    ----------
    place : str
        Where it is, for the report.
    outside, inside : float, m
        Diameter over the wall and over the deepest feature inside it.
    pitch_diameter, engagement, pressure_angle : float
        Of the spline inside it; no engagement where there is none.
    loaded_inside : bool
        Teeth or a key push on it from inside.
    """

    place: str
    outside: float
    inside: float
    pitch_diameter: float = 0.0
    engagement: float = 0.0
    pressure_angle: float = 0.0
    loaded_inside: bool = False

    def shear(self, torque: float) -> float:
        """Shear stress at the outer surface, Pa."""
        return float(torsional_shear_stress(torque, self.outside, self.inside))

    def hoop(self, torque: float, speed: float, density: float) -> float:
        """Hoop stress at the bottom of its grooves from the teeth and from rotation, Pa."""
        hoop = float(centrifugal_bursting_stress(self.inside, self.outside, speed, density))
        if self.engagement == 0.0:
            return hoop
        load = self.pitch_diameter, self.inside, self.outside, self.engagement, self.pressure_angle
        return hoop + float(radial_bursting_stress(torque, *load))

    def equivalent(self, torque: float, speed: float, density: float) -> float:
        """Hoop and shear together, Pa."""
        return float(combined_wall_stress(self.hoop(torque, speed, density), self.shear(torque)))


def sections_of(joint: SleeveJoint) -> tuple[Section, ...]:
    """Every place at which the wall may be weakest: over each spline, over a keyway, between the ends."""
    outside = joint.outside_diameter.value
    found = [_over_teeth(name, spline, outside) for name, spline in joint.held]
    if joint.keyway is not None:
        found.append(
            Section(
                place="the keyway", outside=outside, inside=joint.keyway.corner_diameter, loaded_inside=True
            )
        )
    if joint.inside_diameter is not None:
        found.append(Section(place="its middle", outside=outside, inside=joint.inside_diameter.value))
    return tuple(found)


def _over_teeth(name: str, joint: SplineJoint, outside: float) -> Section:
    """The wall over one spline: by the outside diameter of that end, or else by that of the sleeve."""
    spline = spline_of(joint)
    own = joint.internal.outside_diameter
    return Section(
        place=f"the teeth of {name}",
        outside=outside if own is None else own.value,
        inside=groove_diameter(joint, spline),
        pitch_diameter=load_diameter(spline),
        engagement=engagement_of(joint).value,
        pressure_angle=spline.pressure_angle,
        loaded_inside=True,
    )


def resolve_sleeve(joint: SleeveJoint, key: str, name: str, library: Library, ledger: Ledger) -> Resolved:
    """Resolve a sleeve with the splines that it holds."""
    sections = sections_of(joint)
    weakest = max(sections, key=lambda section: section.shear(1.0))
    thickness = 0.5 * (joint.outside_diameter.value - min(section.inside for section in sections))
    member = member_state("sleeve", key, name, joint, thickness, library, ledger)
    warn_of_wall(key, name, sections, ledger)
    warn_of_ends(joint, key, name, ledger)
    notches = sleeve_notches(joint, member, weakest.outside, weakest.inside, key, ledger)
    length = joint.length.value if joint.floats is None else joint.floats.span.value
    free = weakest.inside if joint.inside_diameter is None else joint.inside_diameter.value

    def check(asked: Requirement) -> tuple[Check, ...]:
        warn_of_speed(joint, key, name, free, member.steel, asked.top_speed, asked.ledger)
        load = larger_load(asked.lines)
        return _torsion(name, weakest, member, load, asked.target), _together(
            name, sections, member, load, asked.top_speed, asked.target
        )

    return Resolved(
        key=key,
        name=name,
        kind=joint.kind,
        description=f"sleeve {joint.outside_diameter.value * 1e3:.1f} mm, {joint.length.value * 1e3:.1f} mm "
        f"long, weakest over {weakest.place} ({weakest.inside * 1e3:.2f} mm inside), {member.steel.id}",
        spline=None,
        steel=member.steel,
        diameter=joint.outside_diameter.value,
        check=check,
        stiffness=float(
            torsional_stiffness(joint.outside_diameter.value, length, free, member.steel.shear_modulus)
        ),
        stiffness_name=name,
        fatigue=notched_fatigue(notches, key=key, name=name),
        notes=say_how_it_floats(joint),
    )


def _torsion(name: str, weakest: Section, member: MemberState, load: DesignLoad, target: float) -> Check:
    """Shear in the wall against yield in shear."""
    return load.check(
        joint=name,
        name="torsional yield of the wall",
        member="sleeve",
        value=weakest.shear(load.torque),
        allowable=float(shear_yield_strength(member.yield_strength)),
        target=target,
        sources=(
            FORMULAS[torsional_shear_stress].source,
            FORMULAS[shear_yield_strength].source,
            member.steel.source,
        ),
    )


def _together(
    name: str,
    sections: tuple[Section, ...],
    member: MemberState,
    load: DesignLoad,
    speed: float,
    target: float,
) -> Check:
    """Hoop from the teeth and from rotation, together with the shear, against yield."""
    density = member.steel.density
    return load.check(
        joint=name,
        name="bursting with torsion",
        member="sleeve",
        value=max(section.equivalent(load.torque, speed, density) for section in sections),
        allowable=member.yield_strength,
        target=target,
        sources=(
            FORMULAS[combined_wall_stress].source,
            FORMULAS[radial_bursting_stress].source,
            FORMULAS[centrifugal_bursting_stress].source,
            member.steel.source,
        ),
    )
