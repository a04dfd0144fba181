"""What to know of a pinned joint beside its checks: proportions, what it is worth, when a fuse breaks."""

from torqcheck.assessment.kinds.hub_wall import warn_of_thin_hub
from torqcheck.assessment.kinds.pin_state import FuseBand, PinState
from torqcheck.assessment.kinds.spoken import three_digits, torque_in_words
from torqcheck.capacity import shear_yield_strength
from torqcheck.capacity.joining import PIN_SCATTER
from torqcheck.scenario.ledger import Ledger

__all__ = ["pin_notes", "warn_of_pin"]

USUAL_PIN = (0.2, 0.3)
"""Pin over shaft by a school encyclopaedia; published."""
THIN_WALL = 0.25
"""Wall of a steel hub over shaft, at least, by the same."""


def pin_notes(state: PinState) -> tuple[str, ...]:
    """Sentences for the report."""
    notes = [_fuse(state.fuse) if state.fuse is not None else _gives_way(state)]
    if state.joint.form == "taper":
        notes.append(
            f"Mean diameter {three_digits(state.pin_diameter * 1e3)} mm. Drill and ream hub and shaft "
            "together, and secure the large end."
        )
    if state.joint.form == "grooved":
        notes.append("A grooved pin is allowed 0.7 of the pressure and 0.8 of the shear of a plain one.")
    if state.joint.pins > 1:
        notes.append(
            "Two pins count as one and a half, for position errors let one bear first (from memory)."
        )
    return tuple(notes)


def _gives_way(state: PinState) -> str:
    """Torques at which each place begins to give way, the weakest first."""
    pin = state.pin.yield_strength
    shear = state.shear_share * float(shear_yield_strength(pin)) / state.shear_stress(1.0)[0]
    share = state.pressure_share
    in_shaft = share * min(pin, state.shaft.yield_strength) / state.shaft_pressure(1.0)[0]
    in_hub = share * min(pin, state.hub.yield_strength) / state.hub_pressure(1.0)[0]
    found = {"the pin shears": shear, "its hole in the shaft": in_shaft, "its hole in the hub": in_hub}
    ranked = sorted(found.items(), key=_torque)
    listed = ", ".join(f"{place} {torque_in_words(torque)}" for place, torque in ranked)
    return f"Begins to give way, at a safety factor of 1: {listed}."


def _torque(entry: tuple[str, float]) -> float:
    return entry[1]


def _fuse(fuse: FuseBand) -> str:
    predicted = 0.5 * (fuse.least + fuse.most)
    return (
        f"The fuse breaks at about {torque_in_words(predicted)}, {100 * PIN_SCATTER:.0f} % either way: from "
        f"{torque_in_words(fuse.least)} to {torque_in_words(fuse.most)}. It protects what holds more than "
        f"the last of these, and should run below {torque_in_words(0.5 * fuse.least)}, so that "
        "it does not tire."
    )


def warn_of_pin(state: PinState, key: str, ledger: Ledger) -> None:
    """Cautions of proportion, and of what happens when a fuse has broken."""
    if state.across:
        _warn_of_proportions(state, key, ledger)
    elif state.joint.hub.outside_diameter is not None:
        # half of the pin lies in the hub
        outside, inside = state.joint.hub.outside_diameter.value, state.shaft_diameter + state.pin_diameter
        warn_of_thin_hub(key, state.name, "pin", outside, inside, ledger)
    if state.fuse is not None:
        _warn_of_soft_holes(state, state.fuse, key, ledger)
        ledger.warn(
            f"{key} after breaking",
            f"{state.name}: when the pin has broken, both halves turn freely: contain the pieces, keep both "
            "ends supported, and remember that the motor brakes nothing any more. Never put in a bolt or a "
            "stronger pin; break some pins of the bar in use to know their torque.",
        )


def _warn_of_soft_holes(state: PinState, fuse: FuseBand, key: str, ledger: Ledger) -> None:
    """Holes that give way before the pin does bend it, and nobody knows then when it breaks."""
    places = (
        ("shaft", state.shaft_pressure(fuse.most)[0], state.shaft.yield_strength),
        ("hub", state.hub_pressure(fuse.most)[0], state.hub.yield_strength),
    )
    soft = [place for place, pressure, strength in places if pressure > strength]
    if soft:
        ledger.warn(
            f"{key} soft holes",
            f"{state.name}: before the pin is certain to break, it presses its hole in the "
            f"{' and the '.join(soft)} out of round. Line the holes with hard bushes.",
        )


def _warn_of_proportions(state: PinState, key: str, ledger: Ledger) -> None:
    share = state.hole_diameter / state.shaft_diameter
    least, most = USUAL_PIN
    if not least * (1.0 - 1e-9) <= share <= most * (1.0 + 1e-9):
        ledger.warn(
            f"{key} proportion",
            f"{state.name}: the hole is {share:.2f} of the shaft; {least:g} to {most:g} is usual.",
        )
    outside = state.joint.hub.outside_diameter
    if outside is None:
        return
    wall = 0.5 * (outside.value / state.shaft_diameter - 1.0)
    if wall < THIN_WALL * (1.0 - 1e-9):
        ledger.warn(
            f"{key} wall",
            f"{state.name}: the wall of the hub is {wall:.2f} of the shaft; {THIN_WALL:g} to 0.5 is usual "
            "for steel, 0.75 for cast iron.",
        )
