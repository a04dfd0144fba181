"""How to join an interference fit, how to see that it holds, and what to beware of."""

import math

from torqcheck.assessment.kinds.fit_state import FitState
from torqcheck.assessment.kinds.spoken import in_mpa, in_um, three_digits
from torqcheck.capacity.joining import (
    hub_outside_growth,
    hub_pressure_limit,
    joining_temperature_rise,
    pressing_force,
    shaft_pressure_limit,
    shaft_shrinkage,
)
from torqcheck.materials import ROOM_TEMPERATURE, SeatFriction, thermal_expansion
from torqcheck.scenario.kinds.interference import InterferenceFitJoint
from torqcheck.scenario.ledger import Ledger

__all__ = ["fit_notes", "joining_temperature", "warn_of_fit"]

ROOM_SHARE, LEAST_ROOM = 1e-3, 0.04e-3
"""Clearance wanted while joining, of the diameter, and at least, m; common practice."""
COLD = {"dry ice": -78.0 + 273.15, "liquid nitrogen": -196.0 + 273.15}
THIN = 1.5
_CELSIUS = 273.15
_HOW_MEASURED = "micrometer on the shaft and bore gauge in the hub, as they are now, three places each"


def joining_temperature(state: FitState, shaft_at: float = ROOM_TEMPERATURE) -> float:
    """Temperature at which the hub slips over its shaft, K; never below room temperature."""
    room = max(ROOM_SHARE * state.diameter, LEAST_ROOM)
    cold = thermal_expansion("steel, cooled").coefficient
    shrunk = float(shaft_shrinkage(state.diameter, cold, ROOM_TEMPERATURE - shaft_at))
    wanted = max(state.joined + room - shrunk, 0.0)
    return ROOM_TEMPERATURE + float(
        joining_temperature_rise(wanted, 0.0, state.hub.expansion, state.diameter)
    )


def fit_notes(joint: InterferenceFitJoint, state: FitState, friction: SeatFriction) -> tuple[str, ...]:
    """Sentences for the report: pressure, joining, proof, limits."""
    least, most = state.pressure(state.least, weakest=True), state.pressure(state.greatest)
    notes = [
        f"Pressure in the seat {in_mpa(least)} to {in_mpa(most)} MPa, at rest and cold, from "
        f"{in_um(state.least)} to {in_um(state.greatest)} um of interference on the diameter that are "
        "left after the roughness. The factors take these ends; their ranges draw what lies between."
    ]
    if joint.joining.startswith("shrunk"):
        notes.append(_heating(state))
    elif joint.joining.startswith("pressed"):
        notes.append(_pressing(state, friction, least, most))
    else:
        notes.append(f"The oil between the seats must come to {in_mpa(most)} MPa and more to part them.")
    growth = [
        float(hub_outside_growth(p, state.diameter, state.outside_diameter, state.hub.elastic_modulus))
        for p in (least, most)
    ]
    notes.append(
        f"Joined and cold again, the hub is {in_um(growth[0])} to {in_um(growth[1])} um larger outside "
        "than before: a micrometer there, before and after, shows the pressure that is really in the seat."
    )
    notes += _losses(state)
    notes.append(_standard(state))
    notes.append("A key in the same seat does not add to the grip: count on the stronger of the two alone.")
    return tuple(notes)


def _heating(state: FitState) -> str:
    """How hot the hub must be, and what helps where that is too hot."""
    wanted, limit = joining_temperature(state), state.hub.heating
    text = (
        f"To shrink it on, heat the hub to {wanted - _CELSIUS:.0f} C over a shaft of 20 C, for "
        f"{max(ROOM_SHARE * state.diameter, LEAST_ROOM) * 1e3:.2f} mm of room at the greatest interference; "
        f"the limit is {limit.temperature - _CELSIUS:.0f} C ({limit.condition})."
    )
    cooled = " or ".join(
        f"{joining_temperature(state, at) - _CELSIUS:.0f} C with the shaft in {name}"
        for name, at in COLD.items()
    )
    return f"{text} Or {cooled}."


def _pressing(state: FitState, friction: SeatFriction, least: float, most: float) -> str:
    """What the gauge of the press should show."""
    forces = [
        three_digits(float(pressing_force(p, state.diameter, state.length, mu)) / 1e3)
        for p, mu in ((least, friction.least), (most, friction.most), (least, friction.friction))
    ]
    return (
        f"Pressing on takes {forces[0]} to {forces[1]} kN at full depth. Less than {forces[2]} kN there says "
        "that friction or interference is below what the grip counts on. Turn a lead of about 1 mm at 5 to "
        "15 degrees, press straight, and do not hammer on bearings."
    )


def _losses(state: FitState) -> list[str]:
    """What speed and warmth take."""
    notes = []
    loose = state.loose_at()
    if math.isfinite(loose) and loose > 0.0:
        turns = three_digits(loose * 30.0 / math.pi)
        notes.append(f"Rotation alone would loosen the least interference at {turns} rpm.")
    lost = state.lost_to_heat
    if abs(lost) >= 0.5e-6:
        does = "loses" if lost > 0.0 else "gains"
        notes.append(
            f"Running with the hub at {state.hub_rise + 20.0:.0f} C and the shaft at "
            f"{state.shaft_rise + 20.0:.0f} C, the fit {does} {in_um(abs(lost))} um."
        )
    return notes


def _standard(state: FitState) -> str:
    """Limits of pressure by the rule of the standard, beside the checks."""
    shaft = float(shaft_pressure_limit(state.shaft.strength, state.diameter, state.bore))
    if state.hub.cracks:
        return f"By DIN 7190, as remembered, the shaft stays elastic up to {in_mpa(shaft)} MPa of pressure."
    hub = float(hub_pressure_limit(state.hub.strength, state.diameter, state.wall_outside))
    return (
        f"By DIN 7190, as remembered, the hub stays elastic up to {in_mpa(hub)} MPa of pressure and the "
        f"shaft up to {in_mpa(shaft)} MPa; the checks use von Mises, which is stricter."
    )


def warn_of_fit(joint: InterferenceFitJoint, key: str, name: str, state: FitState, ledger: Ledger) -> None:
    """Cautions of the fit, and the reading that a joint made again needs."""
    _warn_of_wall(key, name, state, ledger)
    if joint.rejoined:
        ledger.warn(
            f"{key} rejoined",
            f"{name}: a seat loses grip each time that it is joined again, as its peaks are gone and it is "
            "scored; measure both parts before it is joined.",
        )
        if joint.fit is not None:
            ledger.miss(name, "interference, measured", _HOW_MEASURED)
    if joint.joining.startswith("shrunk"):
        _warn_of_heat(key, name, state, ledger)
    if state.hub.family == "aluminium":
        ledger.warn(
            f"{key} unlike metals",
            f"{name}: a hub of aluminium grows away from its steel shaft when warm, and is strained more in "
            "hard frost; measure the temperature after a hard run, or take a hub of steel.",
        )


def _warn_of_wall(key: str, name: str, state: FitState, ledger: Ledger) -> None:
    ratio = state.wall_outside / state.diameter
    if ratio < THIN:
        ledger.warn(
            f"{key} thin hub",
            f"{name}: thin hub, outside over bore is {ratio:.2f}, below {THIN:g}: little pressure for much "
            "stress, and the hub may go out of round.",
        )
    if state.wall_inside > state.diameter or state.wall_outside < state.outside_diameter:
        ledger.warn(
            f"{key} wall",
            f"{name}: the hub is checked at its weakest wall, not at the corner of the keyway, groove or "
            "spline in it; a sharp corner there cracks hard or brittle hubs.",
        )


def _warn_of_heat(key: str, name: str, state: FitState, ledger: Ledger) -> None:
    limit = state.hub.heating
    if joining_temperature(state) > limit.temperature:
        ledger.warn(
            f"{key} too hot",
            f"{name}: heat alone would take {joining_temperature(state) - _CELSIUS:.0f} C, above the "
            f"{limit.temperature - _CELSIUS:.0f} C that the hub stands ({limit.condition}); cool the shaft "
            "as well.",
        )
    ledger.warn(
        f"{key} heating",
        f"{name}: never heat a hub above the temperature at which it was tempered, and never with a torch "
        "alone; a cold shaft is brittle and takes on ice, and dry ice and nitrogen drive out the air that "
        "one breathes.",
    )
