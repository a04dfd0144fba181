"""A bolted flange: friction of the faces, bolts and dowels as paths beside one another, never added."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from torqcheck.assessment.kinds.bolt_preload import stretch_check
from torqcheck.assessment.kinds.flange_notes import flange_notes, warn_of_flange, warn_of_path
from torqcheck.assessment.kinds.flange_state import SHARE_SOURCE, FlangeSide, FlangeState, Pins, flange_state
from torqcheck.assessment.resolved import Requirement, Resolved
from torqcheck.assessment.torque.design_load import DesignLoad, larger_load
from torqcheck.capacity import shear_yield_strength
from torqcheck.capacity.joining import (
    bolt_bearing_stress,
    bolt_circle_force,
    bolt_circle_radius,
    bolt_shear_stress,
    face_friction_radius,
    face_friction_torque,
    least_preload,
    metric_root_area,
    settling_loss,
)
from torqcheck.checks import Check
from torqcheck.formulas import FORMULAS
from torqcheck.provenance import Source
from torqcheck.scenario.kinds.flange import BoltedFlangeJoint
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.steel_library import Library

__all__ = ["GRIP_TARGET", "SHEAR_TARGET", "path_that_counts", "resolve_bolted_flange"]

GRIP_TARGET, SHEAR_TARGET = 1.5, 2.0
"""Least targets of the friction at the least preload, and of bolts and dowels in shear; assumed."""


@dataclass(frozen=True, slots=True)
class _Flange:
    """A resolved flange and the checks of its paths."""

    state: FlangeState

    def grip(self, load: DesignLoad, target: float) -> Check:
        """Torque against the friction of the faces at the least preload, by the smaller radius."""
        state = self.state
        by_face = state.face_radius <= state.circle_radius
        radius = face_friction_radius if by_face else bolt_circle_radius
        return load.check(
            joint=state.name,
            name="grip",
            member="both",
            value=load.torque,
            allowable=float(
                face_friction_torque(
                    state.grip_force, float(state.count), state.friction, state.friction_radius
                )
            ),
            target=max(target, GRIP_TARGET),
            quantity="torque",
            factors={"friction": state.friction},
            sources=(
                FORMULAS[face_friction_torque].source,
                FORMULAS[radius].source,
                FORMULAS[least_preload].source,
                FORMULAS[settling_loss].source,
                state.friction_source,
                *state.preload.sources,
            ),
        )

    def bolts(self, load: DesignLoad, target: float) -> tuple[Check, ...]:
        """Bolts in shear and on the sides of their holes, without any friction."""
        state, bolt = self.state, self.state.bolt
        force = float(bolt_circle_force(load.torque, state.bearing, state.circle_diameter))
        share = {"bolts that bear": state.bearing}
        area = (FORMULAS[metric_root_area].source,) if state.threaded else ()
        shear = load.check(
            joint=state.name,
            name="bolt shear",
            member="bolts",
            value=float(bolt_shear_stress(force, state.section)),
            allowable=float(shear_yield_strength(bolt.strength.yield_strength)),
            target=max(target, SHEAR_TARGET),
            factors=share,
            sources=(
                *_shear_sources(),
                FORMULAS[shear_yield_strength].source,
                *area,
                bolt.thread.source,
                bolt.strength.source,
            ),
        )
        lengths = [side.thickness for side in state.sides]
        limits = [min(side.member.yield_strength, bolt.strength.yield_strength) for side in state.sides]
        bearing = self._bearing("bolt bearing", load, target, force, bolt.thread.diameter, lengths, limits)
        return shear, replace(bearing, factors={**bearing.factors, **share})

    def dowels(self, pins: Pins, load: DesignLoad, target: float) -> tuple[Check, ...]:
        """Dowels alone, as if there were no bolts."""
        state = self.state
        force = float(bolt_circle_force(load.torque, pins.bearing, pins.circle_diameter))
        share = {"dowels that bear": pins.bearing}
        shear = load.check(
            joint=state.name,
            name="dowel shear",
            member="dowels",
            value=force,
            allowable=pins.pin.single_shear,
            target=max(target, SHEAR_TARGET),
            quantity="force",
            factors=share,
            sources=(*_shear_sources(), pins.pin.source),
        )
        limits = [side.member.yield_strength for side in state.sides]
        bearing = self._bearing("dowel bearing", load, target, force, pins.pin.diameter, pins.lengths, limits)
        return shear, replace(bearing, factors={**bearing.factors, **share})

    def _bearing(
        self,
        name: str,
        load: DesignLoad,
        target: float,
        force: float,
        diameter: float,
        lengths: Sequence[float],
        limits: Sequence[float],
    ) -> Check:
        """Bearing in the flange that gives way first."""
        found = [float(bolt_bearing_stress(force, diameter, length)) for length in lengths]
        worst = max(range(len(found)), key=lambda i: found[i] / limits[i])
        side: FlangeSide = self.state.sides[worst]
        return load.check(
            joint=self.state.name,
            name=name,
            member=side.side,
            value=found[worst],
            allowable=limits[worst],
            target=target,
            sources=(
                *_shear_sources(),
                FORMULAS[bolt_bearing_stress].source,
                side.member.steel.source,
            ),
        )


def _shear_sources() -> tuple[Source, ...]:
    """What the force across a bolt or dowel rests on."""
    return FORMULAS[bolt_circle_force].source, SHARE_SOURCE


def resolve_bolted_flange(
    joint: BoltedFlangeJoint, key: str, name: str, library: Library, ledger: Ledger
) -> Resolved:
    """Resolve two flanges that bolts press together."""
    state = flange_state(joint, key, name, library, ledger)
    flange = _Flange(state)
    warn_of_flange(joint, state, key, ledger)

    def check(asked: Requirement) -> tuple[Check, ...]:
        load = larger_load(asked.lines)
        paths = {"grip": (flange.grip(load, asked.target),), "bolts": flange.bolts(load, asked.target)}
        if state.pins is not None:
            paths["dowels"] = flange.dowels(state.pins, load, asked.target)
        holding = path_that_counts(paths, reamed=state.reamed, reverses=asked.life.reversed_torque)
        grips = all(check.margin >= 1.0 for check in paths["grip"])
        warn_of_path(state, key, "grip" if grips else holding, asked.life.reversed_torque, asked.ledger)
        return (
            *(replace(c, counts=path == holding) for path, checks in paths.items() for c in checks),
            stretch_check(flange.state.name, "bolts", flange.state.bolt, flange.state.preload),
        )

    return Resolved(
        key=key,
        name=name,
        kind=joint.kind,
        description=_described(state),
        spline=None,
        steel=state.sides[0].member.steel,
        # no shaft is seen here; what lies behind a flange is about half as thick as its bolt circle
        diameter=state.circle_radius,
        check=check,
        notes=flange_notes(state),
    )


def path_that_counts(paths: Mapping[str, Sequence[Check]], *, reamed: bool, reverses: bool) -> str:
    """
    Return the path that holds the joint: the strongest of those that may be counted on.

    Friction always may. Dowels and bolts in reamed holes may where the torque never reverses. Bolts in
    clearance holes never may: the flange must slip before they bear, and with every reversal it slips back,
    which wears the holes and turns the bolts loose.
    """
    allowed = {"grip"}
    if not reverses:
        allowed |= {"dowels"} | ({"bolts"} if reamed else set())
    return max(
        (path for path in paths if path in allowed), key=lambda path: min(c.margin for c in paths[path])
    )


def _described(state: FlangeState) -> str:
    """The flange in one line."""
    bolt = state.bolt
    holes = "reamed" if state.reamed else "clearance"
    text = (
        f"{state.count} bolts {bolt.thread.size} {bolt.strength.name} in {holes} holes on "
        f"{state.circle_diameter * 1e3:.1f} mm, {state.preload.meant / 1e3:.3g} kN each"
    )
    pins = state.pins
    if pins is None:
        return text
    on = f"{pins.pin.diameter * 1e3:.4g} mm on {pins.circle_diameter * 1e3:.1f} mm"
    return f"{text}, {pins.count} dowels of {on}"
