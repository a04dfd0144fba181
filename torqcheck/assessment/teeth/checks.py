"""Checks of one splined joint by the guide, and those of the material beside them."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from torqcheck.assessment.resolved import Requirement
from torqcheck.assessment.teeth.guide_stresses import (
    GuideLoad,
    GuideStress,
    bursting,
    crown_works,
    crowned_flank,
    distribution_factor,
    external_is_softer,
    pitch_line_shear,
    root_shear,
    straight_flank,
)
from torqcheck.assessment.teeth.material_checks import material_checks, torsional_yield
from torqcheck.assessment.teeth.state import SplineState
from torqcheck.assessment.teeth.under_load import TeethUnderLoad
from torqcheck.assessment.torque.design_load import Line
from torqcheck.capacity import (
    FIXED_SEAT_DIVISOR,
    beyond_load_distribution_table,
    bursting_stress,
    crowned_flank_pressure,
    flank_pressure,
    pitch_line_shear_stress,
    root_shear_stress,
)
from torqcheck.capacity.joining import GRAVITY, unbalance_force
from torqcheck.checks import Check
from torqcheck.formulas import FORMULAS
from torqcheck.provenance import Source
from torqcheck.scenario.ledger import Ledger
from torqcheck.wear import SLIP_SPEED_LIMIT, peak_slip_speed

__all__ = ["spline_checks"]

LONGEST_USEFUL = 1.25
"""Engagement over pitch diameter: top of the range of common practice."""
MOST_TILT_OF_STRAIGHT_TEETH = math.radians(1.0)
UNREAD_ECCENTRICITY = 0.025e-3
"""m; a run-out of 0.05 mm where none was read. Mark: assumed."""


@dataclass(frozen=True, slots=True)
class _Context:
    """What all checks of one joint share."""

    state: SplineState
    asked: Requirement
    distribution: float

    def load(self, line: Line) -> GuideLoad:
        """Torque and factors of one design line."""
        return GuideLoad(
            line.torque,
            line.application_factor,
            self.distribution,
            self.asked.life.fatigue,
            self.asked.life.wear,
            self.asked.top_speed,
        )

    def check(
        self,
        name: str,
        line: Line,
        stress: GuideStress,
        factors: dict[str, float],
        sources: tuple[Source, ...],
    ) -> Check:
        return Check(
            joint=self.state.name,
            name=name,
            method=line.method,
            member="external" if stress.external else "internal",
            value=stress.value,
            allowable=stress.allowable,
            target=self.asked.target,
            torque=line.torque,
            factors=factors,
            sources=(*sources, line.source),
        )


def spline_checks(state: SplineState, asked: Requirement, teeth: TeethUnderLoad | None) -> tuple[Check, ...]:
    """
    Compare every stress of a splined joint with what its steels allow.

    Parameters
    ----------
    state : SplineState
        The joint, resolved.
    asked : Requirement
        Design torques of the guide, tabulated and simulated, of which the largest serves the yield
        checks; what the service life allows, the target, and where cautions go.
    teeth : TeethUnderLoad or None
        What the uneven load of the teeth rests on; None leaves the checks of the teeth out.
    """
    ledger = asked.ledger
    context = _Context(state, asked, _distribution(state, ledger))
    checks: list[Check] = []
    for line in asked.lines:
        checks += [_root_shear(context, line), _pitch_line_shear(context, line)]
        checks += [_flank(context, line, ledger), *_bursting(context, line)]
    worst = max(asked.lines, key=lambda line: line.torque)
    checks += torsional_yield(state, worst.torque, worst.source, asked.target)
    if teeth is not None and not asked.no_teeth:
        checks += material_checks(teeth, worst.torque, worst.source, asked.target, ledger)
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
    _warn_of_unbalance(context, ledger)
    if state.joint.seat == "fixed":
        return
    if state.crown_height is None and state.tilt.angle > MOST_TILT_OF_STRAIGHT_TEETH:
        ledger.warn(
            f"{state.key} tilt",
            f"{state.name}: straight teeth are meant for less than 1 deg of tilt; crowned ones stand more.",
        )
    speed = float(peak_slip_speed(0.5 * state.pitch_diameter, state.tilt.angle, context.asked.top_speed))
    if speed > SLIP_SPEED_LIMIT:
        ledger.warn(
            f"{state.key} slip speed",
            f"{state.name}: at top speed the teeth slide at {speed * 1e3:.0f} mm/s; 12 mm/s is a common "
            "limit for lubricated steel. Align better or turn slower.",
        )


def _warn_of_unbalance(context: _Context, ledger: Ledger) -> None:
    """A hub that runs out of true is thrown sideways with the square of the speed, whatever it weighs."""
    state, speed = context.state, context.asked.top_speed
    reading = state.tilt.alignment
    turning = None if reading is None else reading.turning_offset
    beside = UNREAD_ECCENTRICITY if turning is None else turning.total
    pull = float(unbalance_force(1.0, beside, speed)) / GRAVITY
    if pull > 1.0:
        known = "as read" if turning is not None else "as a careful workshop leaves it, not read"
        ledger.warn(
            f"{state.key} unbalance",
            f"{state.name}: {beside * 1e3:.3f} mm beside its axis ({known}) the coupler is thrown sideways "
            f"with {pull:.2g} times its weight at top speed. Read its run-out in place, true it up, and have "
            "it balanced with all that is bolted to it; where it rattles or buzzes, stop (common practice, "
            "no source).",
        )


def _distribution(state: SplineState, ledger: Ledger) -> float:
    """Load-distribution factor; says where the guide's table has no more to say."""
    if state.joint.seat != "fixed" and bool(
        beyond_load_distribution_table(state.tilt.angle, state.engagement)
    ):
        ledger.warn(
            f"{state.key} end gap",
            f"{state.name}: the tilt opens a larger end gap than the guide's table goes to (0.81 mm); its "
            "closed form is carried on.",
        )
    return distribution_factor(state)


def _root_shear(context: _Context, line: Line) -> Check:
    source = context.state.external.allowable.source
    return context.check(
        "root shear, external member",
        line,
        root_shear(context.state, context.load(line)),
        {"Ka": line.application_factor, "life": context.asked.life.fatigue},
        (FORMULAS[root_shear_stress].source, source),
    )


def _pitch_line_shear(context: _Context, line: Line) -> Check:
    """Each member with its own tooth and steel; the worse of the two is the check."""
    stress = pitch_line_shear(context.state, context.load(line))
    worse = context.state.external if stress.external else context.state.internal
    return context.check(
        "pitch-line tooth shear",
        line,
        stress,
        {"Ka": line.application_factor, "Km": context.distribution, "life": context.asked.life.fatigue},
        (FORMULAS[pitch_line_shear_stress].source, worse.allowable.source),
    )


def _flank(context: _Context, line: Line, ledger: Ledger) -> Check:
    """Flank pressure against the softer flank: fixed, flexible or crowned."""
    state, load = context.state, context.load(line)
    softer = state.external if external_is_softer(state) else state.internal
    if crown_works(state, load):
        crowned = {"Ka": line.application_factor, "life": 1.0, "crowned": 1.0}
        sources = FORMULAS[crowned_flank_pressure].source, softer.allowable.source
        return context.check("flank pressure", line, crowned_flank(state, load), crowned, sources)
    if state.crown_height is not None and state.joint.seat == "flexible":
        ledger.warn(
            f"{state.key} crown",
            f"{state.name}: at this tilt and torque the contact on the crowned flank reaches the end of the "
            "teeth, so the flank is checked as a straight one. More crown or less tilt.",
        )
    factors = {"Ka": line.application_factor, "Km": context.distribution, "life": context.asked.life.wear}
    if state.joint.seat == "fixed":
        factors |= {"life": context.asked.life.fatigue, "fixed seat divisor": FIXED_SEAT_DIVISOR}
    sources = FORMULAS[flank_pressure].source, softer.allowable.source
    return context.check("flank pressure", line, straight_flank(state, load), factors, sources)


def _bursting(context: _Context, line: Line) -> Iterator[Check]:
    state = context.state
    if state.outside_diameter is None:
        return
    yield context.check(
        "bursting, internal member",
        line,
        bursting(state, context.load(line)),
        {"Ka": line.application_factor, "Km": context.distribution, "life": context.asked.life.fatigue},
        (FORMULAS[bursting_stress].source, state.internal.allowable.tension_source),
    )
