"""Checks of one splined joint by the guide, and those of the material beside them."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from torqcheck.assessment.design_load import Line
from torqcheck.assessment.factors import LifeFactors
from torqcheck.assessment.material_checks import material_checks, torsional_yield
from torqcheck.assessment.spline_state import SplineState
from torqcheck.assessment.teeth_under_load import TeethUnderLoad
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
)
from torqcheck.checks import Check, Member
from torqcheck.formulas import FORMULAS
from torqcheck.provenance import Source
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.quantity import needed
from torqcheck.wear import peak_slip_speed

__all__ = ["spline_checks"]

LONGEST_USEFUL = 1.25
"""Engagement over pitch diameter: top of the range of common practice."""
MOST_TILT_OF_STRAIGHT_TEETH = math.radians(1.0)
MOST_SLIP_SPEED = 0.012
"""m/s; conservative limit for lubricated steel on steel."""


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
            sources=(*sources, line.source),
        )


def spline_checks(
    state: SplineState,
    lines: tuple[Line, ...],
    life: LifeFactors,
    top_speed: float,
    target: float,
    ledger: Ledger,
    teeth: TeethUnderLoad | None,
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
    teeth : TeethUnderLoad or None
        What the uneven load of the teeth rests on; None leaves the checks of the teeth out.
    """
    context = _Context(state, life, _distribution(state, ledger), top_speed, target)
    checks: list[Check] = []
    for line in lines:
        checks += _root_shear(context, line)
        checks += _pitch_line_shear(context, line)
        checks += _flank(context, line, ledger)
        checks += _bursting(context, line)
    worst = max(lines, key=lambda line: line.torque)
    checks += torsional_yield(state, worst.torque, worst.source, target)
    if teeth is not None:
        checks += material_checks(teeth, worst.torque, worst.source, target, ledger)
    if state.outside_diameter is None:
        ledger.miss(
            state.name,
            "outside diameter of the internal member",
            "without it bursting and yield of the hub are not checked; a caliper over the hub",
        )
    _warn_of_limits(context, ledger)
    return tuple(checks)


def _warn_of_limits(context: _Context, ledger: Ledger) -> None:
    """Say where the guide or the trade sees a limit that no stress shows."""
    state = context.state
    if state.engagement > LONGEST_USEFUL * state.pitch_diameter:
        ledger.warn(
            f"{state.key} length",
            f"{state.name}: an engagement beyond about {LONGEST_USEFUL:g} pitch diameters adds little: the "
            "teeth where the torque enters carry most of it. The stresses here are spread over the whole.",
        )
    if state.joint.seat == "fixed":
        return
    if state.crown_height is None and state.tilt.angle > MOST_TILT_OF_STRAIGHT_TEETH:
        ledger.warn(
            f"{state.key} tilt",
            f"{state.name}: straight teeth are meant for less than 1 deg of tilt; crowned ones stand more.",
        )
    speed = float(peak_slip_speed(0.5 * state.pitch_diameter, state.tilt.angle, context.top_speed))
    if speed > MOST_SLIP_SPEED:
        ledger.warn(
            f"{state.key} slip speed",
            f"{state.name}: at top speed the teeth slide at {speed * 1e3:.0f} mm/s; 12 mm/s is a common "
            "limit for lubricated steel. Align better or turn slower.",
        )


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
    stress = float(root_shear_stress(line.torque, state.root_diameter, state.bore))
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
    if state.joint.seat == "flexible" and _crown_works(context, line, ledger):
        yield _crowned(context, line, member)
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
    factors = {"Ka": line.application_factor, "Km": context.distribution, "life": life}
    if state.joint.seat == "fixed":
        stress /= FIXED_SEAT_DIVISOR
        life = context.life.fatigue
        factors |= {"life": life, "fixed seat divisor": FIXED_SEAT_DIVISOR}
    yield context.check(
        "flank pressure",
        line,
        member,
        stress,
        softer.allowable.flank_straight * life,
        factors,
        (FORMULAS[flank_pressure].source, softer.allowable.source),
    )


def _crown_load(context: _Context, line: Line) -> tuple[float, float, int, float, float]:
    """Arguments of the contact on a crowned flank."""
    state = context.state
    radius = float(crown_radius(state.engagement, needed(state.crown_height)))
    torque = line.torque * line.application_factor
    return torque, state.pitch_diameter, state.spline.teeth, state.contact_height, radius


def _crown_works(context: _Context, line: Line, ledger: Ledger) -> bool:
    """Whether the flanks are crowned, and enough so that the contact stays off the ends of the teeth."""
    state = context.state
    if state.crown_height is None:
        return False
    load = _crown_load(context, line)
    margin = edge_margin(
        state.engagement, contact_half_width(*load), contact_shift(load[-1], state.tilt.angle)
    )
    if margin >= 0.0 and state.crown_height >= least_crown_height(state.engagement, state.tilt.angle):
        return True
    ledger.warn(
        f"{state.key} crown",
        f"{state.name}: at this tilt and torque the contact on the crowned flank reaches the end of the "
        "teeth, so the flank is checked as a straight one. More crown or less tilt.",
    )
    return False


def _crowned(context: _Context, line: Line, member: Member) -> Check:
    """Line contact on crowned flanks."""
    state = context.state
    softer = state.external if member == "external" else state.internal
    return context.check(
        "flank pressure",
        line,
        member,
        float(crowned_flank_pressure(*_crown_load(context, line))),
        softer.allowable.flank_crowned,
        {"Ka": line.application_factor, "life": 1.0, "crowned": 1.0},
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
