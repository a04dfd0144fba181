"""A pin across or along the shaft: shear, pressure in shaft and hub, and a fuse that is meant to break."""

from torqcheck.assessment.fatigue.notch_yield import notch_yield_checks
from torqcheck.assessment.fatigue.notched import notched_fatigue
from torqcheck.assessment.kinds.key_seat import pin_notch
from torqcheck.assessment.kinds.pin_notes import pin_notes, warn_of_pin
from torqcheck.assessment.kinds.pin_state import FuseBand, PinState, pin_state
from torqcheck.assessment.members import MemberState
from torqcheck.assessment.resolved import Requirement, Resolved
from torqcheck.assessment.torque.design_load import DesignLoad, larger_load
from torqcheck.capacity import shear_yield_strength
from torqcheck.capacity.joining import carrying_keys, pin_breaking_torque
from torqcheck.checks import Check
from torqcheck.formulas import FORMULAS
from torqcheck.provenance import Source
from torqcheck.scenario.kinds.pin import PinJoint
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.steel_library import Library

__all__ = ["FUSE_TARGET", "pin_checks", "resolve_pin"]

FUSE_TARGET = 2.0
"""Load that a fuse sees again and again: at most half of what breaks it, or it tires; assumed."""
GROOVED = Source("School encyclopaedia, cross pins", "grooved pins", "published")
SCATTER = Source("Scatter of the torque that breaks a shear pin", "", "common practice, no source")


def resolve_pin(joint: PinJoint, key: str, name: str, library: Library, ledger: Ledger) -> Resolved:
    """Resolve a hub that pins hold on its shaft."""
    state = pin_state(joint, key, name, library, ledger)
    notch = pin_notch(state, ledger)
    warn_of_pin(state, key, ledger)

    def check(asked: Requirement) -> tuple[Check, ...]:
        load = larger_load(asked.lines)
        if asked.life.reversed_torque:
            _warn_of_reversal(joint, key, name, asked.ledger)
        if state.fuse is not None:
            _warn_of_breaking(state.fuse, load, key, name, asked.ledger)
        yields = notch_yield_checks((notch,), load, joint=name, target=asked.target)
        return (*pin_checks(state, load, asked.target), *yields)

    return Resolved(
        key=key,
        name=name,
        kind=joint.kind,
        description=_described(state),
        spline=None,
        steel=state.shaft.steel,
        diameter=state.shaft_diameter,
        check=check,
        lash=state.lash,
        fatigue=notched_fatigue((notch,), key=key, name=name),
        notes=(*pin_notes(state), f"{notch.name}: {notch.note}"),
    )


def pin_checks(state: PinState, load: DesignLoad, target: float) -> tuple[Check, ...]:
    """Compare shear of the pin and its pressure in shaft and hub with the yield of each part."""
    in_shaft, shaft_formula = state.shaft_pressure(load.torque)
    in_hub, hub_formula = state.hub_pressure(load.torque)

    def against(name: str, member: MemberState, value: float, *formulas: Source) -> Check:
        return load.check(
            joint=state.name,
            name=name,
            member=member.side,
            value=value,
            allowable=state.pressure_share * member.yield_strength,
            target=target,
            sources=(*formulas, *_shares(state), member.steel.source),
            factors=_factors(state),
        )

    return (
        _shear(state, load, target) if state.fuse is None else _fuse_holds(state, state.fuse, load),
        against("pin bearing, shaft", state.shaft, in_shaft, shaft_formula),
        against("pin bearing, hub", state.hub, in_hub, hub_formula),
        against("pin bearing, pin", state.pin, max(in_shaft, in_hub), shaft_formula, hub_formula),
    )


def _shear(state: PinState, load: DesignLoad, target: float) -> Check:
    stress, formula = state.shear_stress(load.torque)
    return load.check(
        joint=state.name,
        name="pin shear",
        member="pin",
        value=stress,
        allowable=state.shear_share * float(shear_yield_strength(state.pin.yield_strength)),
        target=target,
        sources=(formula, FORMULAS[shear_yield_strength].source, *_shares(state), state.pin.steel.source),
        factors=_factors(state),
    )


def _fuse_holds(state: PinState, fuse: FuseBand, load: DesignLoad) -> Check:
    """Whether the fuse lives through its work: below 1 the starts break it, below 2 they tire it."""
    return load.check(
        joint=state.name,
        name="fuse pin holds",
        member="pin",
        value=load.torque,
        allowable=fuse.drawn,
        target=FUSE_TARGET,
        sources=(FORMULAS[pin_breaking_torque].source, SCATTER, state.pin.steel.source),
        quantity="torque",
    )


def _factors(state: PinState) -> dict[str, float]:
    return {"pins counted": state.carrying} if state.joint.pins > 1 else {}


def _shares(state: PinState) -> tuple[Source, ...]:
    """Where the shares of a grooved pin, and of one of two pins, come from."""
    found = [GROOVED] if state.joint.form == "grooved" else []
    if state.joint.pins > 1:
        found.append(FORMULAS[carrying_keys].source)
    return tuple(found)


def _warn_of_reversal(joint: PinJoint, key: str, name: str, ledger: Ledger) -> None:
    ledger.warn(
        f"{key} reversal",
        f"{name}: the torque reverses. A pin works loose in its holes then and widens them; drive it in "
        "tight, secure it, and look at it at each inspection.",
    )
    if joint.fuse:
        ledger.warn(
            f"{key} fuse both ways",
            f"{name}: a fuse pin that is loaded both ways tires sooner than its strength says; renew it at "
            "fixed intervals.",
        )


def _warn_of_breaking(fuse: FuseBand, load: DesignLoad, key: str, name: str, ledger: Ledger) -> None:
    """Say whether the load of every day breaks the fuse, or wears it out."""
    if load.torque >= fuse.least:
        ledger.warn(
            f"{key} fuse breaks",
            f"{name}: the torque of ordinary starts reaches into the band in which the pin breaks. It does "
            "not protect, it stops the machine: take a thicker or stronger pin, or a slower ramp.",
        )
    elif FUSE_TARGET * load.torque > fuse.least:
        ledger.warn(
            f"{key} fuse tires",
            f"{name}: ordinary starts load the pin above half of what breaks it; it will tire and break "
            "without an overload some day. Keep spare pins of the same bar.",
        )


def _described(state: PinState) -> str:
    """The joint in one line."""
    joint = state.joint
    count = "2 " if joint.pins > 1 else ""
    what = "fuse pin" if joint.fuse else f"{joint.form} pin"
    way = "across" if state.across else f"{state.length * 1e3:.1f} mm along"
    neck = (
        f" in holes of {state.hole_diameter * 1e3:.2f} mm" if state.hole_diameter > state.pin_diameter else ""
    )
    return (
        f"{count}{what}{'s' if joint.pins > 1 else ''} {state.pin_diameter * 1e3:.2f} mm{neck} {way}, shaft "
        f"{state.shaft_diameter * 1e3:.1f} mm, pin {state.pin.steel.id}, shaft {state.shaft.steel.id}, hub "
        f"{state.hub.steel.id}"
    )
