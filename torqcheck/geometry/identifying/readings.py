"""What was read on one member of an unknown spline, with the tolerance of each reading."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from torqcheck.errors import DomainError
from torqcheck.geometry._domain import LEAST_TEETH
from torqcheck.geometry.identifying._room import Side

__all__ = [
    "CALIPER",
    "OVER_PINS",
    "PIN",
    "Measured",
    "PinPair",
    "Readings",
    "refuse_bad_readings",
    "with_tolerances",
]

CALIPER = 0.05e-3
"""Tolerance of a caliper reading where none is written, m. Mark: assumed."""
OVER_PINS = CALIPER
"""Tolerance of a reading over or between pins where none is written, m: the same caliper. Mark: assumed."""
PIN = 0.02e-3
"""Tolerance of a pin or drill shank where none is written, m. Mark: assumed."""

_MOST_TEETH = 1000


@dataclass(frozen=True, slots=True)
class Measured:
    """A length and its tolerance (two standard deviations), m; None where no tolerance is known."""

    value: float
    tolerance: float | None = None

    @property
    def spread(self) -> float:
        """The tolerance, once `with_tolerances` has filled it in."""
        return CALIPER if self.tolerance is None else self.tolerance


@dataclass(frozen=True, slots=True)
class PinPair:
    """A reading over pins (shaft) or between pins (hub) and the diameter of the pins."""

    reading: Measured
    pin: Measured


@dataclass(frozen=True, slots=True, kw_only=True)
class Readings:
    """Readings on one member; any may be missing except the number of teeth.

    `width` is the width of a parallel-sided tooth (shaft) or slot (hub). `flanks` is what the eye
    sees. `module` (m) restricts the choice to a pitch that is known from elsewhere.
    """

    teeth: int
    major_diameter: Measured | None = None
    minor_diameter: Measured | None = None
    pins: tuple[PinPair, ...] = ()
    width: Measured | None = None
    flanks: Literal["curved", "parallel", "vee"] | None = None
    module: float | None = None

    @property
    def lengths(self) -> int:
        """How many lengths were read."""
        single = (self.major_diameter, self.minor_diameter, self.width)
        return sum(reading is not None for reading in single) + len(self.pins)


def _all(readings: Readings) -> Iterator[tuple[str, Measured]]:
    """Every length with the name that it has in a message."""
    for name in ("major_diameter", "minor_diameter", "width"):
        reading = getattr(readings, name)
        if reading is not None:
            yield name, reading
    for pair in readings.pins:
        yield "reading over or between pins", pair.reading
        yield "pin", pair.pin


def refuse_bad_readings(side: Side, readings: Readings) -> None:
    """
    Refuse readings that no spline can give.

    Raises
    ------
    DomainError
        For teeth that are no count, lengths or tolerances that are not positive and finite, a
        tolerance of the length itself, diameters in the wrong order, pins larger than the reading
        allows, or no reading at all.
    """
    if side not in ("external", "internal"):
        raise DomainError(f'side {side!r} is neither "external" nor "internal"')
    if readings.teeth != int(readings.teeth) or not LEAST_TEETH <= readings.teeth <= _MOST_TEETH:
        raise DomainError(f"teeth must be a whole number from {LEAST_TEETH} to {_MOST_TEETH}")
    if readings.lengths == 0:
        raise DomainError("no length was read: give at least one diameter, or a reading with pins")
    for name, reading in _all(readings):
        if not 0.0 < reading.value < math.inf:
            raise DomainError(f"{name} must be above 0 and finite")
        if not 0.0 < reading.spread < reading.value:
            raise DomainError(f"the tolerance of {name} must be above 0 and below the value itself")
    _refuse_contradictions(side, readings)


def _refuse_contradictions(side: Side, readings: Readings) -> None:
    """Raise DomainError for readings that exclude each other."""
    major, minor = readings.major_diameter, readings.minor_diameter
    if major is not None and minor is not None and minor.value >= major.value:
        raise DomainError("minor_diameter must be below major_diameter")
    for pair in readings.pins:
        if side == "external" and pair.pin.value >= 0.5 * pair.reading.value:
            raise DomainError("the reading over pins must be more than two pin diameters")
    if readings.width is not None and readings.flanks == "curved":
        raise DomainError("a width is read between parallel flanks; curved flanks are read with pins")
    if readings.module is not None and not 0.0 < readings.module < math.inf:
        raise DomainError("module must be above 0 and finite")


def with_tolerances(readings: Readings) -> tuple[Readings, tuple[str, ...]]:
    """Fill in the tolerance of an ordinary caliper and of a drill shank; say for which readings."""
    names: dict[str, None] = {}

    def filled(name: str, measured: Measured | None, tolerance: float) -> Measured | None:
        if measured is None or measured.tolerance is not None:
            return measured
        names[name] = None
        return replace(measured, tolerance=tolerance)

    major = filled("major diameter", readings.major_diameter, CALIPER)
    minor = filled("minor diameter", readings.minor_diameter, CALIPER)
    width = filled("width", readings.width, CALIPER)
    pins = []
    for pair in readings.pins:
        reading = filled("pin reading", pair.reading, OVER_PINS)
        pin = filled("pin diameter", pair.pin, PIN)
        pins.append(PinPair(reading or pair.reading, pin or pair.pin))
    done = replace(readings, major_diameter=major, minor_diameter=minor, width=width, pins=tuple(pins))
    if not names:
        return done, ()
    return done, (
        f"no tolerance written for {', '.join(names)}: assumed {CALIPER * 1e3:g} mm for lengths (caliper) "
        f"and {PIN * 1e3:g} mm for pins (drill shanks), each taken as two standard deviations",
    )
