"""What a key or a pin takes out of its shaft, as a notch that is checked for yield and fatigue."""

from dataclasses import replace

from torqcheck.assessment.fatigue.shaft_notches import ShaftNotch, cross_hole_notch, keyseat_notch
from torqcheck.assessment.kinds.key_state import KeyState
from torqcheck.assessment.kinds.pin_state import PinState
from torqcheck.assessment.kinds.shaft_notches import assumed_finish, assumed_keyseat_radius
from torqcheck.provenance import Source
from torqcheck.scenario.ledger import Ledger

__all__ = ["key_notch", "pin_notch"]

BLUNTEST = 0.07
"""Corner of a keyseat over the diameter where its curves end."""
TWO_SEATS = Source("Two keyseats weaken the section twice as much as one", "", "assumed")
ROUND_GROOVE = Source("A half-round groove taken as a keyseat with a round bottom", "", "assumed")


def key_notch(state: KeyState, key: str, ledger: Ledger) -> ShaftNotch:
    """Return the keyseat of the shaft; that of a Woodruff key is cut with a disc."""
    joint, diameter = state.joint, state.diameter
    if joint.root_radius is not None:
        radius = joint.root_radius.value
    else:
        radius = assumed_keyseat_radius(key, diameter, ledger)
    notch = keyseat_notch(
        "keyseat",
        state.shaft,
        diameter,
        width=state.section.width,
        depth=state.section.shaft_depth,
        root_radius=radius,
        form="sled-runner" if joint.standard == "woodruff" else "end-milled",
        bore=state.bore,
        finish=assumed_finish(None, ledger),
    )
    return notch if joint.keys == 1 else _twice(notch)


def pin_notch(state: PinState, ledger: Ledger) -> ShaftNotch:
    """Return the hole across the shaft, or the groove that a pin along it leaves."""
    finish, diameter = assumed_finish(None, ledger), state.shaft_diameter
    if state.across:
        return cross_hole_notch(
            "pin hole", state.shaft, diameter, hole=state.hole_diameter, bore=state.bore, finish=finish
        )
    notch = keyseat_notch(
        "pin groove",
        state.shaft,
        diameter,
        width=state.pin_diameter,
        depth=0.5 * state.pin_diameter,
        root_radius=min(0.5 * state.pin_diameter, BLUNTEST * diameter),
        pressed_by="pin",
        bore=state.bore,
        finish=finish,
    )
    notch = replace(notch, sources=(*notch.sources, ROUND_GROOVE))
    return notch if state.joint.pins == 1 else _twice(notch)


def _twice(notch: ShaftNotch) -> ShaftNotch:
    """The same seat a second time in one section."""
    left = 1.0 - 2.0 * (1.0 - notch.torsion_section)
    return replace(
        notch,
        bending_section=left,
        torsion_section=left,
        sources=(*notch.sources, TWO_SEATS),
        note=f"{notch.note} Two of them leave {left:.2f}.",
    )
