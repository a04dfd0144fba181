"""Checks of a plain length of shaft: torsional shear by the guide, and yield."""

from torqcheck.assessment.factors import LifeFactors
from torqcheck.assessment.members import MemberState
from torqcheck.assessment.spline_checks import Line
from torqcheck.capacity import shear_yield_strength, torsional_shear_stress
from torqcheck.checks import Check
from torqcheck.formulas import FORMULAS

__all__ = ["shaft_checks"]


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
