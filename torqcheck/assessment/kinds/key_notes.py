"""What to know of a keyed joint beside its checks: what carries, what gives way first, what to beware of."""

from torqcheck.assessment.fatigue.shaft_notches import ShaftNotch
from torqcheck.assessment.kinds.hub_wall import warn_of_thin_hub
from torqcheck.assessment.kinds.key_state import KeyState
from torqcheck.assessment.kinds.spoken import in_mm, three_digits, torque_in_words
from torqcheck.capacity import shear_yield_strength, torsional_shear_stress
from torqcheck.capacity.joining import (
    DIN_USEFUL_LENGTH,
    DIN_YIELD_SHARE,
    SHARE_OF_TWO_AT_PEAK,
    din_6892_pressure,
    key_bearing_length,
    key_textbook_seat,
    key_useful_length,
    keyway_corner_diameter,
)
from torqcheck.errors import DomainError
from torqcheck.materials import KEY_STANDARDS, KeySize, WoodruffKey, key_fit, key_for_shaft, woodruff_shafts
from torqcheck.scenario.ledger import Ledger

__all__ = ["key_notes", "warn_of_key"]

HUNDRED = 100.0
OTHER_WIDTH = 0.15
"""Share by which an own key may differ in width from every table before it is worth a word."""


def key_notes(state: KeyState) -> tuple[str, ...]:
    """Sentences for the report."""
    notes = [_seated(state), _gives_way(state)]
    if state.straight > state.useful:
        beyond = state.straight - state.useful
        notes.append(
            f"The last {three_digits(beyond * 1e3)} mm of the key are not counted: beyond 1.5 shaft "
            "diameters the shaft winds up and the far end idles. A longer key does not carry more."
        )
    if state.joint.keys > 1:
        notes.append(
            "Two keys count as one and a half, for position errors let one touch first (1.8 for rare peaks, "
            f"from memory: {SHARE_OF_TWO_AT_PEAK:g} each). Sources set them at 90 degrees or at 180."
        )
    notes.append(_by_the_standard(state))
    fit = key_fit(state.joint.fit)
    metric = "" if state.joint.standard == "din 6885" else " of the metric system, which stands in here"
    notes.append(f"Width fit {fit.fit}: {fit.shaft_seat} in the shaft, {fit.hub_seat} in the hub{metric}.")
    notes.append(
        "A key does not add to a press fit or a clamp in the same seat: count on the stronger of the two."
    )
    return tuple(notes)


def _seated(state: KeyState) -> str:
    """Length and heights that carry, and what the textbook would have."""
    textbook = float(key_textbook_seat(state.section.height))
    lower = min(state.hub_seat, state.shaft_seat)
    over = "" if state.over_ends == state.straight else f"of {in_mm(state.over_ends)} mm over its ends "
    return (
        f"The key carries over {in_mm(state.useful)} mm {over}and bears over {in_mm(state.shaft_seat)} mm of "
        f"its height in the shaft, {in_mm(state.hub_seat)} mm in the hub. With half its height, as textbooks "
        f"have it, the lower of the two would look {textbook / lower:.2f} times as strong."
    )


def _gives_way(state: KeyState) -> str:
    """Torques at which each place begins to give way, the weakest first, and the length that 100 N m need."""
    ranked = sorted(state.torques.items(), key=_torque)
    listed = ", ".join(f"{place} {torque_in_words(torque)}" for place, torque in ranked)
    length = float(
        key_bearing_length(
            HUNDRED / state.carrying,
            state.diameter,
            min(state.hub_seat, state.shaft_seat),
            state.lowest_yield,
        )
    )
    return (
        f"Begins to give way, at a safety factor of 1: {listed}. Each 100 N m need {in_mm(length)} mm of "
        "length on the lower side, by the weakest of the three steels."
    )


def _torque(entry: tuple[str, float]) -> float:
    return entry[1]


def _by_the_standard(state: KeyState) -> str:
    """Torque by method C of the standard, a second view."""
    section = state.section
    length = float(key_useful_length(state.straight, state.diameter, DIN_USEFUL_LENGTH))
    per_torque = din_6892_pressure(
        1.0, state.diameter, section.height, section.shaft_depth, length, state.carrying
    )
    torque = DIN_YIELD_SHARE * state.lowest_yield / float(per_torque)
    return (
        f"Beside it, the estimate of DIN 6892 (method C, from memory): {torque_in_words(torque)} at 0.9 of "
        f"the lowest yield, {in_mm(length)} mm counted, chamfers left out."
    )


def warn_of_key(state: KeyState, notch: ShaftNotch, key: str, ledger: Ledger) -> None:
    """Cautions: a key that is not that of its shaft, one that is no fuse, and a hub that is thin over it."""
    outside = state.joint.hub.outside_diameter
    if outside is not None:
        corners = keyway_corner_diameter(state.diameter, state.section.width, state.section.hub_depth)
        warn_of_thin_hub(key, state.name, "keyway", outside.value, float(corners), ledger)
    words = _other_size(state)
    if words:
        ledger.warn(f"{key} size", f"{state.name}: {words}")
    softest = min(state.shaft.yield_strength, state.hub.yield_strength)
    if state.key.yield_strength > softest:
        ledger.warn(
            f"{key} hard key",
            f"{state.name}: the key is harder than shaft or hub, and upsets their keyways before it gives "
            "way itself. A key should be the softest of the three, of plain cold-drawn steel.",
        )
    plain = float(torsional_shear_stress(1.0, state.diameter, state.bore))
    shaft = notch.torsion_section * float(shear_yield_strength(state.shaft.yield_strength)) / plain
    if min(state.torques.values()) > shaft:
        ledger.warn(
            f"{key} no fuse",
            f"{state.name}: the shaft gives way before the key, at {torque_in_words(shaft)}. "
            "A key should be the fuse; a shorter one protects the shaft.",
        )
    if isinstance(state.section.listed, WoodruffKey):
        ledger.warn(
            f"{key} deep seat",
            f"{state.name}: the seat of a Woodruff key is deep and takes more of the shaft than that of a "
            "parallel key.",
        )


def _other_size(state: KeyState) -> str:
    """Say what the table has for the shaft, where the key is another."""
    listed, diameter = state.section.listed, state.diameter
    shaft = f"a shaft of {in_mm(diameter)} mm"
    if isinstance(listed, KeySize):
        if listed.suits(diameter):
            return ""
        try:
            usual = key_for_shaft(listed.standard, diameter, "flat" if listed.section == "flat" else "square")
        except DomainError:
            return f"the table has no key for {shaft}; {listed.size} is that of another."
        return f"a key {listed.size} is not that of {shaft}; its table has {usual.size}. Measure both again."
    if isinstance(listed, WoodruffKey):
        suited = woodruff_shafts(listed.width)
        if suited is None or suited[0] * (1.0 - 1e-9) <= diameter <= suited[1] * (1.0 + 1e-9):
            return ""
        ends = f"{in_mm(suited[0])} to {in_mm(suited[1])} mm"
        return f"Woodruff keys of this width are meant for shafts of {ends}, not for {shaft}."
    return _unlike_any(state)


def _unlike_any(state: KeyState) -> str:
    """Of an own size: the widths that the tables have, if none is near."""
    widths = []
    for standard in KEY_STANDARDS:
        try:
            widths.append(key_for_shaft(standard, state.diameter).width)
        except DomainError:
            continue
    if not widths or any(abs(state.section.width / width - 1.0) <= OTHER_WIDTH for width in widths):
        return ""
    usual = " or ".join(in_mm(width) for width in widths)
    return (
        f"a key {in_mm(state.section.width)} mm wide is unlike those of the tables for this shaft, {usual} "
        "mm. Measure both again."
    )
