"""Which reading to take next: the one that separates the leading candidates best."""

import math
from collections.abc import Iterator

from torqcheck.geometry.identifying._expected import customary_pins, pin_reading, pins_rest
from torqcheck.geometry.identifying._room import Side
from torqcheck.geometry.identifying.identification import NextReading, NextReadingKind, Ranked, quantity_of
from torqcheck.geometry.identifying.readings import CALIPER, PIN, Readings
from torqcheck.geometry.identifying.series import Candidate

__all__ = ["next_reading"]

_ENOUGH = 5.0  # separations beyond this decide as well as any
_EYE = 6.0  # looking needs no instrument, so it comes first where it decides as well
_OTHER_PIN = 0.06  # a second pin must differ by this share to tell anything new
_FLANKS = {
    "curved": "curved flanks",
    "parallel": "parallel flanks",
    "vee": "straight flanks of a V groove",
}
_RIVALS = 6


def next_reading(
    side: Side, readings: Readings, rivals: tuple[Ranked, ...], *, doubt_pins: bool = False
) -> NextReading | None:
    """
    Reading that separates the first of the rivals from the others best.

    `rivals` differ as parts and stand in the order of their rank. Where the pins are in doubt, a second
    pin size is asked for first: it shows as well whether the first was written down right. None where
    nothing is left to read.
    """
    rivals = rivals[:_RIVALS]
    if not rivals:
        return None
    options = [option for option in _options(side, readings, rivals) if option[1] > 0.0]
    if doubt_pins:
        options = [option for option in options if option[0].pin is not None] or options
    if options:
        return max(options, key=lambda option: option[1])[0]
    return _anything_new(side, readings, rivals[0].candidate)


def _options(
    side: Side, readings: Readings, rivals: tuple[Ranked, ...]
) -> Iterator[tuple[NextReading, float]]:
    """Every reading not yet taken, with its worth: mean separation from the first, weighted by likelihood."""
    if readings.flanks is None and readings.width is None:
        first = rivals[0].candidate.flanks
        apart = [_EYE if rival.candidate.flanks != first else 0.0 for rival in rivals[1:]]
        words = tuple((r.candidate.designation, _FLANKS[r.candidate.flanks]) for r in rivals)
        yield NextReading("flanks", None, None, words), _worth(rivals, apart)
    diameters: tuple[NextReadingKind, ...] = ("major diameter", "minor diameter")
    for kind in diameters:
        if getattr(readings, quantity_of(kind)) is None:
            yield _judged(kind, None, side, rivals)
    pins: NextReadingKind = "over pins" if side == "external" else "between pins"
    for pin in _pin_sizes(side, readings, rivals):
        yield _judged(pins, pin, side, rivals)
    if readings.width is None and all(rival.candidate.flanks == "parallel" for rival in rivals):
        yield _judged("width", None, side, rivals)


def _pin_sizes(side: Side, readings: Readings, rivals: tuple[Ranked, ...]) -> Iterator[float]:
    """Pins that lie on the flanks of every involute rival and differ from those already used."""
    involutes = [rival for rival in rivals if rival.candidate.module is not None]
    sizes = {round(pin, 5) for r in involutes[:3] for pin in customary_pins(r.candidate, side)}
    used = [pair.pin.value for pair in readings.pins]
    for pin in sorted(sizes):
        new = all(abs(pin - other) > _OTHER_PIN * other for other in used)
        if new and all(pins_rest(r.candidate, side, _likely_width(r, side)[0], pin) for r in involutes):
            yield pin


def _likely_width(ranked: Ranked, side: Side) -> tuple[float, float]:
    """Width as read, or the middle of its room; and how far it may lie to either side."""
    if ranked.width is not None:
        return ranked.width, 0.0  # the error of the first reading moves all rivals alike
    return _middle(ranked.candidate, side, "width")


def _middle(candidate: Candidate, side: Side, kind: NextReadingKind) -> tuple[float, float]:
    room = candidate.rooms[side].of(quantity_of(kind))
    sign = -1.0 if side == "external" else 1.0
    return room.basic + sign * 0.5 * room.made, 0.5 * room.made


def _forecast(kind: NextReadingKind, pin: float | None, side: Side, ranked: Ranked) -> tuple[float, float]:
    """Reading expected on a rival and how far it may lie to either side; NaN where it cannot be read."""
    candidate = ranked.candidate
    if pin is None:
        return _middle(candidate, side, kind)
    width, room = _likely_width(ranked, side)
    ends = [pin_reading(candidate, side, width + step, pin) for step in (-room, 0.0, room)]
    if ends[1] is None or (room and (ends[0] is None or ends[2] is None)):
        return math.nan, math.nan
    return ends[1], 0.5 * abs((ends[2] or 0.0) - (ends[0] or 0.0))


def _judged(
    kind: NextReadingKind, pin: float | None, side: Side, rivals: tuple[Ranked, ...]
) -> tuple[NextReading, float]:
    """Return a reading with what it should show on each rival, and its worth."""
    forecasts = [_forecast(kind, pin, side, rival) for rival in rivals]
    tolerance = CALIPER if pin is None else math.hypot(CALIPER, 3.0 * PIN)
    (first, first_room), *others = forecasts
    apart = [
        abs(first - other) / math.hypot(tolerance, first_room, room) if math.isfinite(first - other) else 0.0
        for other, room in others
    ]
    worth = _worth(rivals, [min(a, _ENOUGH) for a in apart])
    expected = tuple(
        (rival.candidate.designation, value)
        for rival, (value, _) in zip(rivals, forecasts, strict=True)
        if math.isfinite(value)
    )
    return NextReading(kind, pin, apart[0] if apart else None, expected), worth


def _worth(rivals: tuple[Ranked, ...], apart: list[float]) -> float:
    """Mean separation from the first rival, each other one counted by its likelihood."""
    weights = [1.0 if rival.likelihood is None else rival.likelihood for rival in rivals[1:]]
    return sum(w * a for w, a in zip(weights, apart, strict=True)) / (sum(weights) or 1.0)


def _anything_new(side: Side, readings: Readings, candidate: Candidate) -> NextReading | None:
    """A reading that at least confirms: pins if there are none yet, else the tip, else the root."""
    width = candidate.rooms[side].width.basic
    if not readings.pins:
        for pin in customary_pins(candidate, side):
            if pins_rest(candidate, side, width, pin):
                kind: NextReadingKind = "over pins" if side == "external" else "between pins"
                reading = pin_reading(candidate, side, width, pin)
                return NextReading(kind, pin, None, ((candidate.designation, reading or math.nan),))
    kinds: tuple[NextReadingKind, ...] = ("major diameter", "minor diameter")
    for kind in kinds if side == "external" else tuple(reversed(kinds)):
        basic = candidate.rooms[side].of(quantity_of(kind)).basic
        if getattr(readings, quantity_of(kind)) is None and math.isfinite(basic):
            return NextReading(kind, None, None, ((candidate.designation, basic),))
    return None
