"""The guide's stresses of a splined joint with their factors, against what is allowed of them.

Every function takes plain numbers or columns: the checks of one scenario and a sweep over millions of
points go through the same lines. Columns may stand in the torque, in the factors, and in engagement,
tilt, lash, bore and outside diameter of the joint.
"""

from dataclasses import dataclass
from typing import Any

from torqcheck.assessment.teeth.state import SplineState
from torqcheck.capacity import (
    FIXED_SEAT_DIVISOR,
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
from torqcheck.elementwise import chosen, number
from torqcheck.scenario.quantity import needed

__all__ = [
    "GuideLoad",
    "GuideStress",
    "bursting",
    "crown_works",
    "crowned_flank",
    "distribution_factor",
    "external_is_softer",
    "pitch_line_shear",
    "root_shear",
    "straight_flank",
]


@dataclass(frozen=True, slots=True)
class GuideLoad:
    """Torque (N m) of one design line, and the factors that go with it; numbers or columns."""

    torque: float
    application: float
    distribution: float
    fatigue_life: float
    wear_life: float
    top_speed: float


@dataclass(frozen=True, slots=True)
class GuideStress:
    """Stress with its load factors and what is allowed with its life factor, Pa; and in which member."""

    value: float
    allowable: float
    external: bool


def distribution_factor(state: SplineState) -> float:
    """Load-distribution factor: 1 for a fixed seat, by the end gap for a flexible one."""
    if state.joint.seat == "fixed":
        return 1.0
    factor: float = number(load_distribution_factor(state.tilt.angle, state.engagement))
    return factor


def root_shear(state: SplineState, load: GuideLoad) -> GuideStress:
    """Shear under the roots of the external teeth."""
    stress = number(root_shear_stress(load.torque, state.root_diameter, state.bore))
    allowable = state.external.allowable.shear * load.fatigue_life
    return GuideStress(stress * load.application, allowable, external=True)


def pitch_line_shear(state: SplineState, load: GuideLoad) -> GuideStress:
    """Shear of the teeth at the pitch line: each member with its own tooth and steel, the worse of them."""
    factor = load.application * load.distribution
    stresses: list[Any] = [
        factor
        * number(
            pitch_line_shear_stress(
                load.torque, state.pitch_diameter, state.spline.teeth, state.engagement, thickness
            )
        )
        for _, thickness in state.halves
    ]
    allowed = [member.allowable.shear for member, _ in state.halves]
    external = stresses[0] / allowed[0] >= stresses[1] / allowed[1]
    return GuideStress(
        chosen(external, *stresses), chosen(external, *allowed) * load.fatigue_life, external=external
    )


def external_is_softer(state: SplineState) -> bool:
    """Whether the flank of the shaft allows no more than that of the hub, and so decides."""
    return state.external.allowable.flank_straight <= state.internal.allowable.flank_straight


def straight_flank(state: SplineState, load: GuideLoad) -> GuideStress:
    """Flank pressure of straight teeth, in a flexible or in a fixed seat, against the softer flank."""
    external = external_is_softer(state)
    softer = state.external if external else state.internal
    pressure = number(
        flank_pressure(
            load.torque, state.pitch_diameter, state.spline.teeth, state.engagement, state.contact_height
        )
    )
    stress, life = load.application * load.distribution * pressure, load.wear_life
    if state.joint.seat == "fixed":
        stress, life = stress / FIXED_SEAT_DIVISOR, load.fatigue_life
    return GuideStress(stress, softer.allowable.flank_straight * life, external)


def _crown_load(state: SplineState, load: GuideLoad) -> tuple[float, float, int, float, float]:
    """Arguments of the contact on a crowned flank."""
    radius = number(crown_radius(state.engagement, needed(state.crown_height)))
    torque = load.torque * load.application
    return torque, state.pitch_diameter, state.spline.teeth, state.contact_height, radius


def crown_works(state: SplineState, load: GuideLoad) -> bool:
    """Whether the flanks are crowned, and enough so that the contact stays off the ends of the teeth."""
    if state.crown_height is None or state.joint.seat == "fixed":
        return False
    arguments = _crown_load(state, load)
    margin = edge_margin(
        state.engagement, contact_half_width(*arguments), contact_shift(arguments[-1], state.tilt.angle)
    )
    stays: Any = margin >= 0.0
    works: bool = stays & (state.crown_height >= least_crown_height(state.engagement, state.tilt.angle))
    return works


def crowned_flank(state: SplineState, load: GuideLoad) -> GuideStress:
    """Line contact on crowned flanks, where `crown_works`."""
    external = external_is_softer(state)
    softer = state.external if external else state.internal
    value = number(crowned_flank_pressure(*_crown_load(state, load)))
    return GuideStress(value, softer.allowable.flank_crowned, external)


def bursting(state: SplineState, load: GuideLoad) -> GuideStress:
    """Hoop stress of the hub; only where its outside diameter is known."""
    stress = number(
        bursting_stress(
            load.torque,
            state.pitch_diameter,
            state.internal_major_diameter,
            needed(state.outside_diameter),
            state.engagement,
            state.engagement,
            pressure_angle=state.spline.pressure_angle,
            speed=load.top_speed,
            density=state.internal.steel.density,
            load_factor=load.application * load.distribution,
        )
    )
    allowable = state.internal.allowable.tension * load.fatigue_life
    return GuideStress(stress, allowable, external=False)
