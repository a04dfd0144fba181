"""A keyed hub: shear of the key, pressure on its sides in shaft and hub, by the weakest of three steels."""

from torqcheck.assessment.fatigue.notch_yield import notch_yield_checks
from torqcheck.assessment.fatigue.notched import notched_fatigue
from torqcheck.assessment.kinds.key_notes import key_notes, warn_of_key
from torqcheck.assessment.kinds.key_seat import key_notch
from torqcheck.assessment.kinds.key_state import KeyState, key_state
from torqcheck.assessment.kinds.keyseat_wall import weigh_wall_under_keyseat
from torqcheck.assessment.members import MemberState
from torqcheck.assessment.resolved import Requirement, Resolved
from torqcheck.assessment.torque.design_load import DesignLoad, larger_load
from torqcheck.capacity import shear_yield_strength
from torqcheck.capacity.joining import carrying_keys, key_pressure, key_shear_stress, key_useful_length
from torqcheck.checks import Check
from torqcheck.formulas import FORMULAS
from torqcheck.provenance import Source
from torqcheck.scenario.kinds.key import KeyJoint
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.steel_library import Library

__all__ = ["REVERSING_TARGET", "key_checks", "resolve_key"]

REVERSING_TARGET = 2.0
"""Least target on the sides of a key where the torque reverses; assumed."""


def resolve_key(joint: KeyJoint, key: str, name: str, library: Library, ledger: Ledger) -> Resolved:
    """Resolve a hub with one or two keys."""
    state = key_state(joint, key, name, library, ledger)
    notch = key_notch(state, key, ledger)
    warn_of_key(state, notch, key, ledger)
    weigh_wall_under_keyseat(key, name, state.diameter, state.bore, state.section.shaft_depth, ledger)

    def check(asked: Requirement) -> tuple[Check, ...]:
        if asked.life.reversed_torque and joint.fit != "tight":
            asked.ledger.warn(
                f"{key} rattle",
                f"{name}: the torque reverses, and a key with play is hammered at each reversal until its "
                "keyways are wide. Take a tight fit (P9), and a hub that grips the shaft besides.",
            )
        load = larger_load(asked.lines)
        return (
            *key_checks(state, load, asked.target, reversing=asked.life.reversed_torque),
            *notch_yield_checks((notch,), load, joint=name, target=asked.target),
        )

    return Resolved(
        key=key,
        name=name,
        kind=joint.kind,
        description=_described(state),
        spline=None,
        steel=state.shaft.steel,
        diameter=state.diameter,
        check=check,
        lash=state.lash,
        fatigue=notched_fatigue((notch,), key=key, name=name),
        notes=(*key_notes(state), f"{notch.name}: {notch.note}"),
    )


def key_checks(state: KeyState, load: DesignLoad, target: float, *, reversing: bool) -> tuple[Check, ...]:
    """Compare shear of the key and pressure on its sides with the yield of each of the three parts."""
    d, length, carrying = state.diameter, state.useful, state.carrying
    shear = float(key_shear_stress(load.torque, d, state.section.width, length, carrying))
    in_hub = float(key_pressure(load.torque, d, state.hub_seat, length, carrying))
    in_shaft = float(key_pressure(load.torque, d, state.shaft_seat, length, carrying))
    side_target = max(target, REVERSING_TARGET) if reversing else target
    factors = {"keys counted": carrying} if state.joint.keys > 1 else {}

    def against(name: str, member: MemberState, value: float) -> Check:
        return load.check(
            joint=state.name,
            name=name,
            member=member.side,
            value=value,
            allowable=member.yield_strength,
            target=side_target,
            sources=(
                FORMULAS[key_pressure].source,
                *_sources(state),
                state.chamfer_source,
                member.steel.source,
            ),
            factors=factors,
        )

    return (
        load.check(
            joint=state.name,
            name="key shear",
            member="key",
            value=shear,
            allowable=float(shear_yield_strength(state.key.yield_strength)),
            target=target,
            sources=(
                FORMULAS[key_shear_stress].source,
                FORMULAS[shear_yield_strength].source,
                *_sources(state),
                state.key.steel.source,
            ),
            factors=factors,
        ),
        against("side bearing, hub", state.hub, in_hub),
        against("side bearing, shaft", state.shaft, in_shaft),
        against("side bearing, key", state.key, max(in_hub, in_shaft)),
    )


def _sources(state: KeyState) -> tuple[Source, ...]:
    """Where the size, the length that counts and the share of two keys come from."""
    found = [FORMULAS[key_useful_length].source]
    if state.section.listed is not None:
        found.append(state.section.listed.source)
    if state.joint.keys > 1:
        found.append(FORMULAS[carrying_keys].source)
    return tuple(found)


def _described(state: KeyState) -> str:
    """The joint in one line."""
    joint, section = state.joint, state.section
    size = section.listed.size if section.listed is not None else _millimetres(section.width, section.height)
    kind = "Woodruff key" if joint.standard == "woodruff" else "key"
    count = f"{joint.keys} {kind}s" if joint.keys > 1 else kind
    standard = "" if joint.standard in {"own", "woodruff"} else f" {joint.standard.upper()}"
    return (
        f"{count} {size}{standard}, {state.useful * 1e3:.1f} mm carry, shaft {state.diameter * 1e3:.1f} mm, "
        f"{joint.fit} fit, key {state.key.steel.id}, shaft {state.shaft.steel.id}, hub {state.hub.steel.id}"
    )


def _millimetres(width: float, height: float) -> str:
    return f"{width * 1e3:.4g} x {height * 1e3:.4g} mm"
