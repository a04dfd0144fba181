"""What a reading on a candidate should show: forward, for a few candidates at a time."""

import math

from torqcheck.errors import DomainError
from torqcheck.geometry.identifying._room import Side
from torqcheck.geometry.identifying.series import Candidate
from torqcheck.geometry.measuring.pin_contact import between_pins_contact_diameter, over_pins_contact_diameter
from torqcheck.geometry.measuring.pins import between_pins, opposition, over_pins

__all__ = ["customary_pins", "pin_reading", "pins_rest"]

_EXTERNAL_PINS = (1.92, 2.0, 1.728, 2.2, 1.6)
_INTERNAL_PINS = (1.728, 1.44, 1.92, 1.75, 1.6)


def customary_pins(candidate: Candidate, side: Side) -> tuple[float, ...]:
    """Pin diameters in use for a pitch, m, multiples of the module; none where flanks are no involutes."""
    if candidate.module is None:
        return ()
    return tuple(k * candidate.module for k in (_EXTERNAL_PINS if side == "external" else _INTERNAL_PINS))


def pin_reading(candidate: Candidate, side: Side, width: float, pin: float) -> float | None:
    """Return the reading over or between pins, m; None where pins of this size cannot be read."""
    spline = candidate.involute
    if spline is None:
        return _over_pins_of_parallel(candidate, width, pin) if side == "external" else None
    kernel = over_pins if side == "external" else between_pins
    try:
        return float(kernel(spline.teeth, spline.module, spline.pressure_angle, width, pin))
    except DomainError:
        return None


def _over_pins_of_parallel(candidate: Candidate, width: float, pin: float) -> float | None:
    """Pins between parallel-sided teeth: the centre half a pin off either flank."""
    if candidate.flanks != "parallel":
        return None
    N = candidate.teeth
    radius = 0.5 * (width + pin) / math.sin(math.pi / N)
    if 2.0 * radius - pin <= candidate.rooms["external"].minor_diameter.basic:
        return None
    return float(2.0 * radius * float(opposition(N)) + pin)


def pins_rest(candidate: Candidate, side: Side, width: float, pin: float) -> bool:
    """Whether pins of this size touch the flanks well inside the teeth, and stand where they can be read."""
    spline = candidate.involute
    reading = pin_reading(candidate, side, width, pin)
    if spline is None or reading is None:
        return False
    kernel = over_pins_contact_diameter if side == "external" else between_pins_contact_diameter
    try:
        contact = float(kernel(spline.teeth, spline.module, spline.pressure_angle, width, pin))
    except DomainError:
        return False
    member = spline.external if side == "external" else spline.internal
    inside = member.minor_diameter < contact < member.major_diameter
    proud = reading > member.major_diameter if side == "external" else reading < member.minor_diameter
    return inside and proud
