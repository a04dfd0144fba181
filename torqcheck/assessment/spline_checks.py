"""Checks of one splined joint by the guide, and torsional yield beside it."""

from collections.abc import Iterator
from dataclasses import dataclass

from torqcheck.assessment.factors import LifeFactors
from torqcheck.assessment.spline_state import SplineState
from torqcheck.capacity import (
    FIXED_SEAT_DIVISOR,
    beyond_load_distribution_table,
    bursting_stress,
    contact_half_width,
    contact_shift,
    crown_radius,
    crowned_flank_pressure,
    edge_margin,
    flank_pressure,
    least_crown_height,
    load_distribution_factor,
    pitch_line_shear_stress,
    root_shear_stress,
    shear_yield_strength,
    torsional_shear_stress,
)
from torqcheck.checks import Check, Member, Method
from torqcheck.formulas import FORMULAS
from torqcheck.provenance import Source
from torqcheck.scenario.ledger import Ledger

__all__ = ["Line", "spline_checks"]


@dataclass(frozen=True, slots=True)
class Line:
    """One design torque: how it came about, its size and the application factor that goes with it."""

    method: Method
    torque: float
    application_factor: float


@dataclass(frozen=True, slots=True)
class _Context:
    """What all checks of one joint share."""

    state: SplineState
    life: LifeFactors
    distribution: float
    top_speed: float
    target: float

    def check(
        self,
        name: str,
        line: Line,
        member: Member,
        value: float,
        allowable: float,
        factors: dict[str, float],
        sources: tuple[Source, ...],
    ) -> Check:
        return Check(
            joint=self.state.name,
            name=name,
            method=line.method,
            member=member,
            value=value,
            allowable=allowable,
            target=self.target,
            torque=line.torque,
            factors=factors,
            sources=sources,
        )


def spline_checks(
    state: SplineState,
    lines: tuple[Line, ...],
    life: LifeFactors,
    top_speed: float,
    target: float,
    ledger: Ledger,
) -> tuple[Check, ...]:
    """
    Compare every stress of a splined joint with what its steels allow.

    Parameters
    ----------
    state : SplineState
        The joint, resolved.
    lines : tuple of Line
        Design torques of the guide, tabulated and simulated; the largest serves the yield checks.
    life : LifeFactors
        Fatigue-life and wear-life factors.
    top_speed : float
        Highest speed of the joint, rad/s.
    target : float
        Wanted safety factor.
    ledger : Ledger
        Takes cautions.
    """
    context = _Context(state, life, _distribution(state, ledger), top_speed, target)
    checks: list[Check] = []
    for line in lines:
        checks += _root_shear(context, line)
        checks += _pitch_line_shear(context, line)
        checks += _flank(context, line, ledger)
        checks += _bursting(context, line)
    checks += _yield(context, max(lines, key=lambda line: line.torque))
    if state.outside_diameter is None:
        ledger.warn(
            f"{state.key} outside diameter",
            f"{state.name}: bursting and yield of the internal member are not checked, because its outside "
            "diameter is not given.",
        )
    return tuple(checks)


def _distribution(state: SplineState, ledger: Ledger) -> float:
    """Load-distribution factor: 1 for a fixed seat, by the end gap for a flexible one."""
    if state.joint.seat == "fixed":
        return 1.0
    if bool(beyond_load_distribution_table(state.tilt.angle, state.engagement)):
        ledger.warn(
            f"{state.key} end gap",
            f"{state.name}: the tilt opens a larger end gap than the guide's table goes to (0.81 mm); its "
            "closed form is carried on.",
        )
    return float(load_distribution_factor(state.tilt.angle, state.engagement))


def _root_shear(context: _Context, line: Line) -> Iterator[Check]:
    state = context.state
    stress = float(root_shear_stress(line.torque, state.spline.root_diameter, state.bore))
    yield context.check(
        "root shear, external member",
        line,
        "external",
        stress * line.application_factor,
        state.external.allowable.shear * context.life.fatigue,
        {"Ka": line.application_factor, "life": context.life.fatigue},
        (FORMULAS[root_shear_stress].source, state.external.allowable.source),
    )


def _pitch_line_shear(context: _Context, line: Line) -> Iterator[Check]:
    """Each member with its own tooth and steel; the worse of the two is the check."""
    state = context.state
    factor = line.application_factor * context.distribution
    stresses = {
        member: factor
        * float(
            pitch_line_shear_stress(
                line.torque, state.pitch_diameter, state.spline.teeth, state.engagement, thickness
            )
        )
        for member, thickness in state.halves
    }
    worse = max(stresses, key=lambda member: stresses[member] / member.allowable.shear)
    yield context.check(
        "pitch-line tooth shear",
        line,
        worse.side,
        stresses[worse],
        worse.allowable.shear * context.life.fatigue,
        {"Ka": line.application_factor, "Km": context.distribution, "life": context.life.fatigue},
        (FORMULAS[pitch_line_shear_stress].source, worse.allowable.source),
    )


def _flank(context: _Context, line: Line, ledger: Ledger) -> Iterator[Check]:
    """Flank pressure against the softer flank: fixed, flexible or crowned."""
    state = context.state
    softer = min((state.external, state.internal), key=lambda member: member.allowable.flank_straight)
    member: Member = "external" if softer is state.external else "internal"
    if state.crown_height is not None and state.joint.seat == "flexible":
        yield _crowned(context, line, member, ledger)
        return
    stress = (
        line.application_factor
        * context.distribution
        * float(
            flank_pressure(
                line.torque, state.pitch_diameter, state.spline.teeth, state.engagement, state.contact_height
            )
        )
    )
    life = context.life.wear
    if state.joint.seat == "fixed":
        stress /= FIXED_SEAT_DIVISOR
        life = context.life.fatigue
    yield context.check(
        "flank pressure",
        line,
        member,
        stress,
        softer.allowable.flank_straight * life,
        {"Ka": line.application_factor, "Km": context.distribution, "life": life},
        (FORMULAS[flank_pressure].source, softer.allowable.source),
    )


def _crowned(context: _Context, line: Line, member: Member, ledger: Ledger) -> Check:
    """Line contact on crowned flanks; warns when the tilt carries the contact to the tooth ends."""
    state = context.state
    assert state.crown_height is not None
    softer = state.external if member == "external" else state.internal
    radius = float(crown_radius(state.engagement, state.crown_height))
    load = (
        line.torque * line.application_factor,
        state.pitch_diameter,
        state.spline.teeth,
        state.contact_height,
        radius,
    )
    stress = float(crowned_flank_pressure(*load))
    margin = edge_margin(state.engagement, contact_half_width(*load), contact_shift(radius, state.tilt.angle))
    if margin < 0.0 or state.crown_height < least_crown_height(state.engagement, state.tilt.angle):
        ledger.warn(
            f"{state.key} crown",
            f"{state.name}: at this tilt and torque the contact on the crowned flank reaches the end of the "
            "teeth; the pressure there is higher than stated. More crown, less tilt or a wider face.",
        )
    return context.check(
        "flank pressure, crowned",
        line,
        member,
        stress,
        softer.allowable.flank_crowned,
        {"Ka": line.application_factor, "life": 1.0},
        (FORMULAS[crowned_flank_pressure].source, softer.allowable.source),
    )


def _bursting(context: _Context, line: Line) -> Iterator[Check]:
    state = context.state
    if state.outside_diameter is None:
        return
    factor = line.application_factor * context.distribution
    stress = float(
        bursting_stress(
            line.torque,
            state.pitch_diameter,
            state.internal_major_diameter,
            state.outside_diameter,
            state.engagement,
            state.engagement,
            pressure_angle=state.spline.pressure_angle,
            speed=context.top_speed,
            density=state.internal.steel.density,
            load_factor=factor,
        )
    )
    yield context.check(
        "bursting, internal member",
        line,
        "internal",
        stress,
        state.internal.allowable.tension * context.life.fatigue,
        {"Ka": line.application_factor, "Km": context.distribution, "life": context.life.fatigue},
        (FORMULAS[bursting_stress].source, state.internal.allowable.tension_source),
    )


def _yield(context: _Context, line: Line) -> Iterator[Check]:
    """Torsional yield of each member at its weakest section, under the largest torque."""
    state = context.state
    sections = [(state.external, state.spline.root_diameter, state.bore)]
    if state.outside_diameter is not None:
        sections.append((state.internal, state.outside_diameter, state.internal_major_diameter))
    bare = Line("material", line.torque, 1.0)
    for member, outer, inner in sections:
        yield context.check(
            f"torsional yield, {member.side} member",
            bare,
            member.side,
            float(torsional_shear_stress(line.torque, outer, inner)),
            float(shear_yield_strength(member.yield_strength)),
            {},
            (
                FORMULAS[torsional_shear_stress].source,
                FORMULAS[shear_yield_strength].source,
                member.steel.source,
            ),
        )
