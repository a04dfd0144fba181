"""Readings of the bench with their tolerance, and tooth thickness and space width from them."""

import math
from dataclasses import dataclass
from typing import Literal

from torqcheck.errors import DomainError
from torqcheck.geometry.measuring.pin_sensitivity import (
    between_pins_per_pin,
    between_pins_per_space,
    over_pins_per_pin,
    over_pins_per_thickness,
)
from torqcheck.geometry.measuring.pins import space_from_pins, thickness_from_pins
from torqcheck.geometry.measuring.span import thickness_from_span
from torqcheck.geometry.spline import InvoluteSpline

__all__ = [
    "PartReadings",
    "PinReading",
    "Reading",
    "Side",
    "SpanReading",
    "millimetres",
    "pin_gains",
    "thickness_over_span",
    "width_over_pins",
]

Side = Literal["external", "internal"]


def _refuse_bad(tolerances: tuple[float, ...], lengths: tuple[float, ...] = ()) -> None:
    """Raise DomainError for a tolerance or a length that no instrument can have given."""
    for tolerance in tolerances:
        if not 0.0 <= tolerance < math.inf:
            raise DomainError("a tolerance must be 0 or more, and finite")
    for length in lengths:
        if not 0.0 < length < math.inf:
            raise DomainError("a reading must be above 0 and finite")


@dataclass(frozen=True, slots=True)
class Reading:
    """A number read or worked out, with its tolerance: two standard deviations to either side."""

    value: float
    tolerance: float = 0.0

    def __post_init__(self) -> None:
        _refuse_bad((self.tolerance,))
        if not math.isfinite(self.value):
            raise DomainError("a reading must be finite")


@dataclass(frozen=True, slots=True)
class PinReading:
    """Dimension over two pins (external) or between them (internal), m; tolerances are two sigma."""

    reading: float
    reading_tolerance: float
    pin: float
    pin_tolerance: float = 0.0

    def __post_init__(self) -> None:
        _refuse_bad((self.reading_tolerance, self.pin_tolerance), (self.reading, self.pin))


@dataclass(frozen=True, slots=True)
class SpanReading:
    """Span over several external teeth, m; the tolerance is two sigma."""

    reading: float
    reading_tolerance: float
    spanned_teeth: int

    def __post_init__(self) -> None:
        _refuse_bad((self.reading_tolerance,), (self.reading,))


@dataclass(frozen=True, slots=True, kw_only=True)
class PartReadings:
    """All that was read on one member; None or empty where nothing was.

    `new` says that the part is new and made to the stated size: it need not be counted or measured.
    `pins` may hold several sizes of pin, `spans` several numbers of teeth. `worn_step` is the depth
    of the worn band below the unworn flank, normal to it.
    """

    teeth: int | None = None
    new: bool = False
    pins: tuple[PinReading, ...] = ()
    spans: tuple[SpanReading, ...] = ()
    major_diameter: Reading | None = None
    minor_diameter: Reading | None = None
    worn_step: Reading | None = None


def millimetres(length: float) -> str:
    """Return a length for a sentence: micrometres are the last digit that a workshop reads."""
    text = f"{length * 1e3:.3f}"
    return f"{'0.000' if text == '-0.000' else text} mm"


def pin_gains(spline: InvoluteSpline, side: Side, width: float, pin: float) -> tuple[float, float]:
    """
    Changes of a pin reading per width and per pin diameter, both as magnitudes without a unit.

    Parameters
    ----------
    spline : InvoluteSpline
        The spline.
    side : str
        "external" or "internal".
    width : float, m
        Tooth thickness or space width along the pitch circle.
    pin : float, m
        Diameter of the pins.
    """
    arguments = (spline.teeth, spline.module, spline.pressure_angle, width, pin)
    if side == "external":
        return float(over_pins_per_thickness(*arguments)), float(over_pins_per_pin(*arguments))
    return float(between_pins_per_space(*arguments)), abs(float(between_pins_per_pin(*arguments)))


def width_over_pins(spline: InvoluteSpline, side: Side, pins: PinReading) -> Reading:
    """
    Tooth thickness (external) or space width (internal) from a pin reading, with its tolerance.

    The tolerances of reading and pin are carried through the slope of the exact formula and added
    as root sum square: u(t) = sqrt(u_M^2 + (dM/dd u_d)^2) / (dM/dt). Mark: derived.

    Parameters
    ----------
    spline : InvoluteSpline
        The spline that the part is taken to be.
    side : str
        "external" (over pins) or "internal" (between pins).
    pins : PinReading
        The reading.

    Returns
    -------
    Reading
        Width along the pitch circle, m.

    Raises
    ------
    DomainError
        If no part of this spline can give the reading.
    """
    function = thickness_from_pins if side == "external" else space_from_pins
    width = float(function(spline.teeth, spline.module, spline.pressure_angle, pins.reading, pins.pin))
    per_width, per_pin = pin_gains(spline, side, width, pins.pin)
    return Reading(width, math.hypot(pins.reading_tolerance, per_pin * pins.pin_tolerance) / per_width)


def thickness_over_span(spline: InvoluteSpline, span: SpanReading) -> Reading:
    """Tooth thickness from a span, m; u(t) = u_W / cos(a). DomainError for an impossible span."""
    thickness = thickness_from_span(
        spline.teeth, spline.module, spline.pressure_angle, span.reading, span.spanned_teeth
    )
    return Reading(float(thickness), span.reading_tolerance / math.cos(spline.pressure_angle))
