"""An interference fit: does it grip at its least interference, and do hub and shaft bear its greatest."""

from dataclasses import dataclass

from torqcheck.assessment.fatigue.notched import notched_fatigue
from torqcheck.assessment.kinds.fit_materials import FitMaterial, hub_of, shaft_of
from torqcheck.assessment.kinds.fit_notes import fit_notes, warn_of_fit
from torqcheck.assessment.kinds.fit_state import FitState, fit_state
from torqcheck.assessment.kinds.shaft_notches import edge_of_hub
from torqcheck.assessment.resolved import Requirement, Resolved
from torqcheck.assessment.torque.design_load import DesignLoad, larger_load
from torqcheck.capacity.joining import (
    grip_torque,
    interference_after_roughness,
    interference_lost_to_speed,
    interference_pressure,
    shaft_equivalent_stress,
    torque_beside_thrust,
    weakest_wall_hoop_stress,
)
from torqcheck.checks import Check, Member
from torqcheck.formulas import FORMULAS
from torqcheck.materials import SeatFriction, seat_friction
from torqcheck.provenance import Source
from torqcheck.scenario.kinds.interference import InterferenceFitJoint
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.steel_library import Library

__all__ = ["SLIP_TARGET", "resolve_interference_fit"]

SLIP_TARGET = 2.0
"""Least target of what holds by friction, and of what cracks; assumed."""


@dataclass(frozen=True, slots=True)
class _Fit:
    """A resolved fit with what its checks rest on."""

    name: str
    state: FitState
    friction: float
    friction_source: Source
    axial_force: float

    @property
    def grip_sources(self) -> tuple[Source, ...]:
        """What the grip rests on, each once."""
        kernels = (
            grip_torque,
            interference_pressure,
            interference_after_roughness,
            interference_lost_to_speed,
        )
        works = [FORMULAS[kernel].source for kernel in kernels]
        return tuple(dict.fromkeys((*works, self.friction_source, self.state.source)))

    def grip(self, load: DesignLoad, top_speed: float, target: float) -> Check:
        """Torque, with the thrust beside it, against what the least pressure holds."""
        state = self.state
        pressure = state.least_pressure(top_speed)
        return load.check(
            joint=self.name,
            name="grip",
            member="both",
            value=float(torque_beside_thrust(load.torque, self.axial_force, state.diameter)),
            allowable=float(grip_torque(pressure, state.diameter, state.length, self.friction)),
            target=max(target, SLIP_TARGET),
            quantity="torque",
            factors={"friction": self.friction},
            sources=self.grip_sources,
        )

    def strength(self, member: Member, part: FitMaterial, value: float, target: float) -> Check:
        """Stress of one part at the greatest interference; no torque loads it."""
        formula = weakest_wall_hoop_stress if member == "hub" else shaft_equivalent_stress
        return Check(
            joint=self.name,
            name=f"{member} {'cracking' if part.cracks else 'yield'}",
            method="larger load",
            member=member,
            value=value,
            allowable=part.strength,
            target=max(target, SLIP_TARGET) if part.cracks else target,
            torque=0.0,
            sources=(
                FORMULAS[interference_pressure].source,
                FORMULAS[formula].source,
                part.source,
                self.state.source,
            ),
        )


def resolve_interference_fit(
    joint: InterferenceFitJoint, key: str, name: str, library: Library, ledger: Ledger
) -> Resolved:
    """Resolve a hub that is pressed or shrunk on its shaft."""
    member, shaft = shaft_of(joint, key, name, library, ledger)
    hub = hub_of(joint, key, name, library, ledger)
    state = fit_state(joint, key, shaft, hub, ledger)
    table = seat_friction(joint.joining, hub.family)
    friction, source = _friction(joint, table, key, ledger)
    axial = joint.axial_force.value if joint.axial_force is not None else 0.0
    fit = _Fit(name, state, friction, source, axial)
    warn_of_fit(joint, key, name, state, ledger)
    edge = edge_of_hub(member, state.diameter, state.bore, ledger)

    def check(asked: Requirement) -> tuple[Check, ...]:
        return (
            fit.grip(larger_load(asked.lines), asked.top_speed, asked.target),
            fit.strength("hub", hub, state.hub_stress(asked.top_speed), asked.target),
            fit.strength("shaft", shaft, state.shaft_stress(), asked.target),
        )

    return Resolved(
        key=key,
        name=name,
        kind=joint.kind,
        description=_described(joint, state),
        spline=None,
        steel=member.steel,
        diameter=state.diameter,
        check=check,
        fatigue=notched_fatigue((edge,), key=key, name=name),
        notes=fit_notes(joint, state, table),
    )


def _friction(
    joint: InterferenceFitJoint, table: SeatFriction, key: str, ledger: Ledger
) -> tuple[float, Source]:
    """Friction as measured, or by the way of joining."""
    if joint.friction is not None:
        return joint.friction, Source("Friction of the seat as stated", "", "measured")
    friction = ledger.assume(
        f"{key}.friction",
        table.friction,
        None,
        f"{joint.joining}, hub of {table.hub}: {table.note}",
        band=(table.least, table.most),
        favourable=table.most,
        mark=table.source.mark,
    )
    return friction, table.source


def _described(joint: InterferenceFitJoint, state: FitState) -> str:
    """The fit in one line."""
    hollow = f", shaft bore {state.bore * 1e3:.1f} mm" if state.bore else ""
    fit = f" {joint.fit.strip()}" if joint.fit is not None else ""
    return (
        f"{joint.joining} fit {state.diameter * 1e3:.1f}{fit} x {state.length * 1e3:.1f} mm, hub "
        f"{state.outside_diameter * 1e3:.1f} mm{hollow}, {state.hub.name} on {state.shaft.name}"
    )
