"""Which pins to measure an involute spline with, what they read at its limits, and spans beside them.

A pin is good when it touches the flanks on their true part, clears the root and stands proud of the
tips. The customary size for the pitch comes first; if it fails, the next one on the shelf.
"""

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np

from torqcheck._types import FloatArray, Numeric
from torqcheck.errors import DomainError
from torqcheck.geometry.lengths import INCH
from torqcheck.geometry.measuring.pin_contact import (
    between_pins_contact_diameter,
    over_pins_contact_diameter,
    pin_at_pitch_circle_of_gap,
    pin_at_pitch_circle_of_space,
)
from torqcheck.geometry.measuring.pins import PINS, between_pins, opposition, over_pins
from torqcheck.geometry.measuring.span import SPAN, span_over_teeth
from torqcheck.geometry.spline import InvoluteSpline
from torqcheck.geometry.standards import ansi_b92_1
from torqcheck.geometry.standards.limits import Band, WidthLimits
from torqcheck.provenance import Source

__all__ = [
    "PinReading",
    "SpanReading",
    "external_pins",
    "external_spans",
    "internal_pins",
    "internal_spans",
]

R40 = (
    1.00, 1.06, 1.12, 1.18, 1.25, 1.32, 1.40, 1.50, 1.60, 1.70, 1.80, 1.90, 2.00, 2.12, 2.24, 2.36, 2.50,
    2.65, 2.80, 3.00, 3.15, 3.35, 3.55, 3.75, 4.00, 4.25, 4.50, 4.75, 5.00, 5.30, 5.60, 6.00, 6.30, 6.70,
    7.10, 7.50, 8.00, 8.50, 9.00, 9.50,
)  # fmt: skip
"""Preferred numbers of the R40 series, on which metric measuring pins are made (mark: from memory)."""

_WIRES = (1.92, 1.728, 1.68, 1.44)  # customary wire sizes in 1/P
_INCH_STEP = 0.001 * INCH  # step of inch pin gauges on the shelf (common practice, no source)
_WIDEST_SEARCH = 1.35  # largest shelf pin that is tried, over the pin that touches at the pitch circle


@dataclass(frozen=True, slots=True, kw_only=True)
class PinReading:
    """A pair of pins and what they read, in m.

    `touching` is the pin that would touch just at the pitch circle, in the middle of the limits.
    `reading` belongs to the actual, `effective_reading` to the effective limits of the width.
    `doubts` names each contact test that the pin fails; empty for a good pin.
    """

    pin: float
    size: str
    touching: float | None
    reading: Band
    effective_reading: Band | None
    contact_diameter: Band
    doubts: tuple[str, ...]
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class SpanReading:
    """A span over `count` teeth (hub: across as many spaces), where parallel faces touch true flanks."""

    count: int
    reading: Band
    contact_diameter: Band
    source: Source


@dataclass(frozen=True, slots=True)
class _Side:
    """What differs between shaft and hub."""

    read: Callable[..., Numeric]
    contact: Callable[..., Numeric]
    sign: int  # side of the pin's centre on which the outer face lies: 1 shaft, -1 hub
    flank: tuple[float, float]  # innermost and outermost diameter of the true flank
    tip: float
    root: float


def _shaft_side(spline: InvoluteSpline) -> _Side:
    """Return the shaft: where no form diameter is known, the flank is true where the mate bears."""
    shaft = spline.external
    inner = spline.internal.minor_diameter if shaft.form_diameter is None else shaft.form_diameter
    flank = (inner, shaft.major_diameter)
    return _Side(over_pins, over_pins_contact_diameter, 1, flank, shaft.major_diameter, shaft.minor_diameter)


def _hub_side(spline: InvoluteSpline) -> _Side:
    """Return the hub."""
    hub = spline.internal
    outer = spline.external.major_diameter if hub.form_diameter is None else hub.form_diameter
    flank = (hub.minor_diameter, outer)
    return _Side(
        between_pins, between_pins_contact_diameter, -1, flank, hub.minor_diameter, hub.major_diameter
    )


def external_pins(spline: InvoluteSpline, width: WidthLimits, pin: float | None = None) -> PinReading | None:
    """
    Pins for the shaft and the reading over them at the limits of its tooth thickness.

    Parameters
    ----------
    spline : InvoluteSpline
        The spline.
    width : WidthLimits
        Limits of its tooth thickness.
    pin : float, m, optional
        The user's own pin; a recommended one if not given.

    Returns
    -------
    PinReading or None
        None if no recommended pin rests on the flanks at all.

    Raises
    ------
    DomainError
        If the user's own pin does not rest on both flanks.
    """
    return _reading(spline, _shaft_side(spline), width, pin)


def internal_pins(spline: InvoluteSpline, width: WidthLimits, pin: float | None = None) -> PinReading | None:
    """
    Pins for the hub and the reading between them at the limits of its space width.

    Parameters
    ----------
    spline : InvoluteSpline
        The spline.
    width : WidthLimits
        Limits of its space width.
    pin : float, m, optional
        The user's own pin; a recommended one if not given.

    Returns
    -------
    PinReading or None
        None if no recommended pin rests on the flanks at all.

    Raises
    ------
    DomainError
        If the user's own pin does not rest on both flanks.
    """
    return _reading(spline, _hub_side(spline), width, pin)


def _reading(spline: InvoluteSpline, side: _Side, width: WidthLimits, pin: float | None) -> PinReading | None:
    """Take the first pin without a doubt, else the one with the fewest."""
    touching = _touching(spline, side, width)
    sizes = [(pin, "as given")] if pin is not None else list(_sizes(spline, side, touching))
    tried = []
    for diameter, size in sizes:
        found = _with_pin(spline, side, width, diameter, size, touching)
        if found is not None and not found.doubts:
            return found
        if found is not None:
            tried.append(found)
    if pin is not None and not tried:
        name = "shaft" if side.sign > 0 else "hub"
        raise DomainError(f"a pin of {pin * 1e3:g} mm does not rest on both flanks of the {name}")
    return min(tried, key=lambda found: len(found.doubts), default=None)


def _touching(spline: InvoluteSpline, side: _Side, width: WidthLimits) -> float | None:
    """Pin that touches at the pitch circle in the middle of the limits; None where there is none."""
    middle = 0.5 * sum(_ends(width.actual))
    kernel = pin_at_pitch_circle_of_gap if side.sign > 0 else pin_at_pitch_circle_of_space
    try:
        return float(kernel(spline.teeth, spline.module, spline.pressure_angle, middle))
    except DomainError:
        return None


def _ends(band: Band) -> tuple[float, float]:
    """Both ends of a band that has both."""
    if band.minimum is None or band.maximum is None:
        raise DomainError("the width needs both limits for a reading with pins")
    return band.minimum, band.maximum


def _sizes(spline: InvoluteSpline, side: _Side, touching: float | None) -> Iterator[tuple[float, str]]:
    """Pins to try in turn: customary for the pitch, then the shelf, nearest to the touching pin first."""
    m = spline.module
    inch = spline.standard == ansi_b92_1.STANDARD
    if inch:
        steep = spline.pressure_angle > math.radians(44.0)
        first = 1.92 if side.sign > 0 or steep else 1.728
        for k in (first, *(wire for wire in _WIRES if wire != first)):
            yield k * m, f"{k:g}/P"
    centre = 1.8 * m if touching is None else touching
    shelf = _inch_shelf(centre) if inch else _metric_shelf(centre)
    words = "pin gauge in steps of 0.001 in" if inch else "R40 preferred number"
    for diameter in sorted(shelf, key=lambda d: abs(d - centre)):
        yield diameter, words


def _metric_shelf(centre: float) -> list[float]:
    """R40 pins around a size, m, rising."""
    sizes = [number * decade for decade in (1e-4, 1e-3, 1e-2) for number in R40]
    return [d for d in sizes if centre / _WIDEST_SEARCH <= d <= centre * _WIDEST_SEARCH]


def _inch_shelf(centre: float) -> list[float]:
    """Inch pin gauges around a size, m, rising."""
    low, high = (centre / _WIDEST_SEARCH / _INCH_STEP, centre * _WIDEST_SEARCH / _INCH_STEP)
    return [step * _INCH_STEP for step in range(math.ceil(low), math.floor(high) + 1)]


def _with_pin(
    spline: InvoluteSpline, side: _Side, width: WidthLimits, pin: float, size: str, touching: float | None
) -> PinReading | None:
    """Reading and contact tests of one pin at both limits; None where it does not rest on both flanks."""
    try:
        reading = _pair(side.read, spline, width.actual, pin)
        contact = _pair(side.contact, spline, width.actual, pin)
        effective = None if width.effective is None else _pair(side.read, spline, width.effective, pin)
    except DomainError:
        return None
    centre = (reading - side.sign * pin) / opposition(spline.teeth)
    return PinReading(
        pin=pin,
        size=size,
        touching=touching,
        reading=_band(reading),
        effective_reading=None if effective is None else _band(effective),
        contact_diameter=_band(np.sort(contact)),
        doubts=_doubts(side, centre, contact, pin),
        source=PINS,
    )


def _pair(kernel: Callable[..., Numeric], spline: InvoluteSpline, width: Band, pin: float) -> FloatArray:
    """Evaluate a pin formula at both ends of a width."""
    ends = np.array(_ends(width))
    return np.asarray(kernel(spline.teeth, spline.module, spline.pressure_angle, ends, pin))


def _band(pair: FloatArray) -> Band:
    """Turn two numbers into a band."""
    return Band(float(pair[0]), float(pair[1]))


def _doubts(side: _Side, centre: FloatArray, contact: FloatArray, pin: float) -> tuple[str, ...]:
    """Return what speaks against a pin, in words; all lengths are diameters."""
    inner, outer = side.flank
    outward, inward = centre + side.sign * pin, centre - side.sign * pin
    tests = (
        (
            np.less(contact, inner),
            "touches below the true flank" if side.sign > 0 else "touches the tip edge",
        ),
        (
            np.greater(contact, outer),
            "touches the tip edge" if side.sign > 0 else "touches beyond the true flank",
        ),
        (np.less_equal(side.sign * (inward - side.root), 0.0), "reaches the root: grind a flat on the pin"),
        (np.less_equal(side.sign * (outward - side.tip), 0.0), "does not stand proud of the tips"),
    )
    return tuple(words for wrong, words in tests if np.any(wrong))


def external_spans(spline: InvoluteSpline, width: WidthLimits) -> tuple[SpanReading, ...]:
    """Spans over k shaft teeth, for each k whose faces touch true flanks at both limits."""
    return _spans(spline, _shaft_side(spline), width)


def internal_spans(spline: InvoluteSpline, width: WidthLimits) -> tuple[SpanReading, ...]:
    """Spans across k hub spaces between ball-ended anvils, for each k that touches true flanks.

    A space has the form of a tooth, so the formula of the shaft holds with the space width.
    """
    return _spans(spline, _hub_side(spline), width)


def _spans(spline: InvoluteSpline, side: _Side, width: WidthLimits) -> tuple[SpanReading, ...]:
    inner, outer = side.flank
    ends = np.array(_ends(width.actual))
    found = []
    for count in range(1, spline.teeth // 2 + 1):
        span = np.asarray(span_over_teeth(spline.teeth, spline.module, spline.pressure_angle, ends, count))
        contact = np.hypot(spline.base_diameter, span)
        if inner <= contact.min() and contact.max() <= outer:
            found.append(
                SpanReading(
                    count=count,
                    reading=_band(span),
                    contact_diameter=_band(contact),
                    source=SPAN,
                )
            )
    return tuple(found)
