"""What stands around a candidate: miscounted teeth, sizes of another standard, pins of another size."""

import math
from collections.abc import Sequence

import numpy as np

from torqcheck.errors import DomainError
from torqcheck.geometry._domain import LEAST_TEETH
from torqcheck.geometry.identifying._expected import customary_pins, pin_reading
from torqcheck.geometry.identifying._fit import AGREES, columns_of, fit
from torqcheck.geometry.identifying._room import Side
from torqcheck.geometry.identifying.identification import Neighbour, PinDoubt, PseudoMate, Ranked
from torqcheck.geometry.identifying.readings import PinPair, Readings
from torqcheck.geometry.identifying.series import Candidate, candidates
from torqcheck.geometry.pairs.mating import neighbour

__all__ = ["chosen", "indistinguishable", "neighbours", "pin_doubts", "pseudo_mates", "tip_diameter"]

_CLOSE_PITCH = (
    0.065  # 24/48 and module 1, the widest of the pairs that are known to be mixed up, differ by 5.8 %
)
_PIN_SLIP = 0.10  # a pin that differs more from the one written is no slip
_MOST_DOUBTS, _COMPARED = 3, 4
_SAME_MODULE = 1e-3


def tip_diameter(candidate: Candidate, side: Side) -> float:
    """Basic diameter over the tips of a shaft, or between the tips of a hub, m."""
    rooms = candidate.rooms[side]
    return (rooms.major_diameter if side == "external" else rooms.minor_diameter).basic


def chosen(readings: Readings, teeth: int) -> tuple[Candidate, ...]:
    """Candidates with a number of teeth that fit what the eye saw and what is known from elsewhere."""
    found = []
    for candidate in candidates(teeth):
        seen = candidate.flanks
        if readings.flanks is not None and seen != readings.flanks:
            continue
        if readings.width is not None and seen != "parallel":
            continue
        if readings.module is not None and not _of_module(candidate, readings.module):
            continue
        found.append(candidate)
    return tuple(found)


def _of_module(candidate: Candidate, module: float) -> bool:
    return candidate.module is not None and math.isclose(candidate.module, module, rel_tol=_SAME_MODULE)


def neighbours(side: Side, readings: Readings, best: Candidate | None) -> tuple[Neighbour, ...]:
    """One tooth less and one more."""
    around = (readings.teeth - 1, readings.teeth + 1)
    return tuple(_neighbour(side, readings, best, teeth) for teeth in around if teeth >= LEAST_TEETH)


def _neighbour(side: Side, readings: Readings, best: Candidate | None, teeth: int) -> Neighbour:
    same, tip, pins = _same_series(side, readings, best, teeth)
    others = chosen(readings, teeth)
    fits, deviation = None, None
    if others:
        found = fit(columns_of(teeth, side, others), readings)
        index = int(np.argmax(found.likelihood))
        if found.allowed[index] > 0.0:
            fits = f"{others[index].standard} {others[index].designation}"
            deviation = float(found.deviation[index])
    return Neighbour(
        teeth=teeth,
        same_series=same,
        tip_difference=tip,
        pin_difference=pins,
        fits=fits,
        deviation=deviation,
    )


def _same_series(
    side: Side, readings: Readings, best: Candidate | None, teeth: int
) -> tuple[str | None, float | None, float | None]:
    """Designation of the same pitch with another number of teeth; differences of tip and pin reading."""
    spline = best.involute if best else None
    if best is None or spline is None:
        return None, None, None
    try:
        other = neighbour(spline, teeth)
    except DomainError:
        return None, None, None
    tip = other.external.major_diameter if side == "external" else other.internal.minor_diameter
    difference = tip - tip_diameter(best, side)
    pins = None
    if readings.pins:
        pin = readings.pins[0].pin.value
        relative = next((c for c in candidates(teeth) if c.designation == other.designation), None)
        width = other.tooth_thickness if side == "external" else other.space_width
        theirs = pin_reading(relative, side, width, pin) if relative else None
        ours = pin_reading(best, side, best.rooms[side].width.basic, pin)
        pins = theirs - ours if theirs is not None and ours is not None else None
    return other.designation, difference, pins


def pseudo_mates(side: Side, best: Candidate) -> tuple[PseudoMate, ...]:
    """Sizes of other standards with equal teeth and angle and nearly the same pitch."""
    if best.module is None or best.pressure_angle is None:
        return ()
    found = []
    for other in candidates(best.teeth):
        if other.standard == best.standard or other.module is None or not other.listed:
            continue
        apart = other.module / best.module - 1.0
        same_angle = math.isclose(other.pressure_angle or 0.0, best.pressure_angle)
        same_root = other.standard == "din 5480" or best.standard == "din 5480" or other.root == best.root
        if abs(apart) <= _CLOSE_PITCH and same_angle and same_root:
            tip = tip_diameter(other, side) - tip_diameter(best, side)
            found.append(PseudoMate(other.standard, other.designation, apart, tip))
    return tuple(sorted(found, key=lambda mate: abs(mate.tip_difference)))


def pin_doubts(side: Side, readings: Readings, rivals: Sequence[Candidate]) -> tuple[PinDoubt, ...]:
    """Candidates, right in all else, that would agree had the pins been of the customary size."""
    found = [
        doubt
        for pair in readings.pins
        for candidate in rivals
        for pin in customary_pins(candidate, side)
        if (doubt := _pin_doubt(side, pair, candidate, pin)) is not None
    ]
    best: dict[tuple[str, str], PinDoubt] = {}
    for doubt in sorted(found, key=lambda d: abs(d.difference)):
        best.setdefault((doubt.standard, doubt.designation), doubt)
    return tuple(best.values())[:_MOST_DOUBTS]


def _pin_doubt(side: Side, pair: PinPair, candidate: Candidate, pin: float) -> PinDoubt | None:
    """Whether another pin, close to the one written but surely another, would explain the reading."""
    written = pair.pin.value
    if not pair.pin.spread < abs(pin - written) <= _PIN_SLIP * written:
        return None
    band = _new_band(candidate, side, pin)
    basic = pin_reading(candidate, side, candidate.rooms[side].width.basic, pin)
    if band is None or basic is None:
        return None
    tolerance = math.hypot(pair.reading.spread, 3.0 * pair.pin.spread)
    deviation = max(band[0] - pair.reading.value, pair.reading.value - band[1], 0.0) / tolerance
    if deviation > AGREES:
        return None
    difference = pair.reading.value - basic
    return PinDoubt(candidate.standard, candidate.designation, pin, basic, difference, deviation)


def indistinguishable(side: Side, readings: Readings, ranked: tuple[Ranked, ...]) -> tuple[str, ...]:
    """Pairs of candidates of which new parts, up to class 7, can read alike with the pins in use."""
    parts = [r.candidate for r in ranked if r.same_part_as is None][:_COMPARED]
    notes = []
    for pair in readings.pins:
        tolerance = math.hypot(pair.reading.spread, 3.0 * pair.pin.spread)
        bands = [(c, band) for c in parts if (band := _new_band(c, side, pair.pin.value)) is not None]
        for index, (one, first) in enumerate(bands):
            for other, second in bands[index + 1 :]:
                if first[0] - tolerance <= second[1] and second[0] - tolerance <= first[1]:
                    notes.append(
                        f"a pin of {pair.pin.value * 1e3:.3f} mm cannot tell {one.designation} from "
                        f"{other.designation}: new parts up to class 7 read {first[0] * 1e3:.2f} to "
                        f"{first[1] * 1e3:.2f} mm and {second[0] * 1e3:.2f} to {second[1] * 1e3:.2f} mm"
                    )
    return tuple(notes)


def _new_band(candidate: Candidate, side: Side, pin: float) -> tuple[float, float] | None:
    """Readings that new parts give, least and most; None where the pin cannot be read."""
    room = candidate.rooms[side].width
    sign = -1.0 if side == "external" else 1.0
    ends = [pin_reading(candidate, side, room.basic + sign * step, pin) for step in (0.0, room.made)]
    if ends[0] is None or ends[1] is None:
        return None
    return min(ends[0], ends[1]), max(ends[0], ends[1])
