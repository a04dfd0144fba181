"""A plain, stepped or notched length of shaft: stiffness, torsional shear by the guide, yield, fatigue."""

from torqcheck.assessment.fatigue.notch_yield import notch_yield_checks
from torqcheck.assessment.fatigue.notched import notched_fatigue
from torqcheck.assessment.kinds.keyseat_wall import weigh_wall_under_keyseat
from torqcheck.assessment.kinds.shaft_notches import BendingLoads, bending_loads, shaft_notches
from torqcheck.assessment.members import MemberState, member_state
from torqcheck.assessment.resolved import Requirement, Resolved
from torqcheck.assessment.torque.design_load import Line, larger_load
from torqcheck.assessment.torque.factors import LifeFactors
from torqcheck.capacity import (
    series_stiffness,
    shear_yield_strength,
    torsional_shear_stress,
    torsional_stiffness,
)
from torqcheck.checks import Check
from torqcheck.formulas import FORMULAS
from torqcheck.materials import Steel
from torqcheck.scenario.joint_schema import bore_of
from torqcheck.scenario.kinds.shaft import ShaftJoint
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.steel_library import Library

__all__ = ["resolve_shaft", "shaft_checks"]


def resolve_shaft(joint: ShaftJoint, key: str, name: str, library: Library, ledger: Ledger) -> Resolved:
    """Resolve a length of shaft."""
    diameter, bore = joint.diameter.value, bore_of(joint)
    member = member_state("external", key, name, joint, diameter, library, ledger)
    loads = bending_loads(joint, key, member, ledger)
    notches = shaft_notches(joint, key, member, loads, ledger)
    for notch in joint.notches:
        if notch.kind == "keyseat":
            around = (notch.diameter or joint.diameter).value
            weigh_wall_under_keyseat(key, name, around, bore, notch.depth.value, ledger)

    def check(asked: Requirement) -> tuple[Check, ...]:
        plain = shaft_checks(name, diameter, bore, member, asked.lines, asked.life, asked.target)
        return plain + notch_yield_checks(notches, larger_load(asked.lines), joint=name, target=asked.target)

    return Resolved(
        key=key,
        name=name,
        kind=joint.kind,
        description=f"shaft {diameter * 1e3:.1f} mm, bore {bore * 1e3:.1f} mm, {member.steel.id}",
        spline=None,
        steel=member.steel,
        diameter=diameter,
        check=check,
        stiffness=_stiffness(joint, member.steel),
        stiffness_name=name,
        fatigue=notched_fatigue(notches, key=key, name=name) if notches else None,
        notes=(*_bending_notes(loads), *(f"{notch.name}: {notch.note}" for notch in notches if notch.note)),
    )


def _bending_notes(loads: BendingLoads) -> tuple[str, ...]:
    """Say what bends the shaft, and that the bearings feel it too."""
    notes = []
    if loads.side_load > 0.0:
        still = loads.side_load * loads.overhang
        notes.append(
            f"The side load of {loads.side_load:.0f} N bends the turning shaft to and fro, up to "
            f"{still:.1f} N m."
        )
    if loads.offset_force > 0.0:
        moment = loads.offset_force * loads.offset_overhang
        how = (
            "it turns with the shaft: a steady stress in it, a turning load on the bearings"
            if loads.turns_with_shaft
            else "it stands still: the shaft bends to and fro once a turn, the bearings are pushed one way"
        )
        notes.append(
            f"The forced offset makes {loads.offset_force:.0f} N across the axis and {moment:.1f} N m; {how}."
        )
    return tuple(notes)


def _stiffness(joint: ShaftJoint, steel: Steel) -> float | None:
    """Torsional stiffness of a shaft with its steps, at the shaft; None if no length is given."""
    lengths = [(step.diameter.value, step.length.value, bore_of(step)) for step in joint.steps]
    if joint.length is not None:
        lengths.append((joint.diameter.value, joint.length.value, bore_of(joint)))
    parts = [torsional_stiffness(*length, steel.shear_modulus) for length in lengths]
    return float(series_stiffness(*parts)) if parts else None


def shaft_checks(
    name: str,
    diameter: float,
    bore: float,
    member: MemberState,
    lines: tuple[Line, ...],
    life: LifeFactors,
    target: float,
) -> tuple[Check, ...]:
    """Compare the torsional shear of a round length with the guide's allowable and with yield."""
    formula = FORMULAS[torsional_shear_stress].source
    checks = []
    for line in lines:
        stress = float(torsional_shear_stress(line.torque, diameter, bore))
        checks.append(
            Check(
                joint=name,
                name="torsional shear",
                method=line.method,
                member="external",
                value=stress * line.application_factor,
                allowable=member.allowable.shear * life.fatigue,
                target=target,
                torque=line.torque,
                factors={"Ka": line.application_factor, "life": life.fatigue},
                sources=(formula, member.allowable.source, line.source),
            )
        )
    worst = max(lines, key=lambda line: line.torque)
    checks.append(
        Check(
            joint=name,
            name="torsional yield",
            method="material",
            member="external",
            value=float(torsional_shear_stress(worst.torque, diameter, bore)),
            allowable=float(shear_yield_strength(member.yield_strength)),
            target=target,
            torque=worst.torque,
            sources=(formula, FORMULAS[shear_yield_strength].source, member.steel.source, worst.source),
        )
    )
    return tuple(checks)
