"""Unknown parts made from every standard size, read with errors, and how often they are recognised.

Run as a script to measure all sizes: python tests/geometry/_unknown_parts.py STRIDE.
"""

import sys
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

import numpy as np

from torqcheck.errors import DomainError
from torqcheck.geometry import between_pins, over_pins
from torqcheck.geometry.identifying._expected import customary_pins, pins_rest
from torqcheck.geometry.identifying.identify import identify
from torqcheck.geometry.identifying.readings import Measured, PinPair, Readings
from torqcheck.geometry.identifying.series import Candidate, Side, listed_sizes

State = Literal["basic", "as made", "worn"]
# tolerances of diameters and readings over pins, and of the pins; two standard deviations, m
INSTRUMENTS = {"micrometer": (0.01e-3, 0.004e-3), "caliper": (0.05e-3, 0.02e-3)}
MOST_FLANK_WEAR = 0.2e-3  # on the one flank that drives, so of the width
MOST_SHARE = 0.25  # and never more than this share of the width


@dataclass(frozen=True, slots=True)
class Rates:
    """Shares of the parts: true spline first; said to be identified; wrongly so; true one in the list."""

    parts: int
    first: float
    identified: float
    wrong: float
    listed: float


def width_of(part: Candidate, side: Side, state: State, chance: np.random.Generator) -> tuple[float, float]:
    """Tip diameter and width of a part, m."""
    sign = 1.0 if side == "external" else -1.0
    rooms = part.rooms[side]
    tip_room = rooms.major_diameter if side == "external" else rooms.minor_diameter
    tip, width = tip_room.basic, rooms.width.basic
    if state == "as made":  # class 5: between variation allowance and total tolerance off the basic width
        width -= sign * 2.0 * rooms.width.usual * chance.uniform(0.5, 1.0)
        tip -= sign * 4.0 * tip_room.usual * chance.uniform(0.1, 0.8)
    if state == "worn":
        width -= sign * chance.uniform(0.0, min(MOST_FLANK_WEAR, MOST_SHARE * width))
    return tip, width


def readings_of(
    part: Candidate, side: Side, state: State, instrument: str, chance: np.random.Generator, pins: int = 1
) -> Readings | None:
    """Teeth, tip diameter and pin reading; for parallel flanks width and root diameter instead of pins."""
    tolerance, pin_tolerance = INSTRUMENTS[instrument]
    tip, width = width_of(part, side, state, chance)

    def read(true: float) -> Measured:
        return Measured(true + chance.normal(0.0, 0.5 * tolerance), tolerance)

    lengths = {"major_diameter" if side == "external" else "minor_diameter": read(tip)}
    if part.flanks == "parallel":
        root = part.rooms[side].minor_diameter if side == "external" else part.rooms[side].major_diameter
        lengths["minor_diameter" if side == "external" else "major_diameter"] = read(root.basic)
        return Readings(teeth=part.teeth, width=read(width), **lengths)
    pairs: list[PinPair] = []
    for pin in customary_pins(part, side):
        new = all(abs(pin - other.pin.value) > 0.06 * pin for other in pairs)
        if len(pairs) < pins and new and pins_rest(part, side, width, pin):
            true = _with_pins(part, side, width, pin + chance.normal(0.0, 0.5 * pin_tolerance))
            if true is not None:
                pairs.append(PinPair(read(true), Measured(pin, pin_tolerance)))
    if part.flanks == "curved" and not pairs:
        return None
    return Readings(teeth=part.teeth, pins=tuple(pairs), **lengths)


def _with_pins(part: Candidate, side: Side, width: float, pin: float) -> float | None:
    spline = part.involute
    assert spline is not None
    kernel = over_pins if side == "external" else between_pins
    try:
        return float(kernel(part.teeth, spline.module, spline.pressure_angle, width, pin))
    except DomainError:  # the pin's own error has taken it off the flanks
        return None


def parts(stride: int) -> Iterator[Candidate]:
    """Every so-many-th size of the standards; of the few straight-sided ones and serrations more."""
    others = 0
    for index, part in enumerate(listed_sizes()):
        others += part.flanks != "curved"
        often = part.flanks != "curved" and others % min(stride, 8) == 0
        if index % stride == 0 or often:
            yield part


def rates(side: Side, state: State, instrument: str, stride: int, pins: int = 1) -> Rates:
    """Make parts, read them, identify them, count."""
    chance = np.random.default_rng(20250301)
    count = first = identified = wrong = listed = 0
    for part in parts(stride):
        readings = readings_of(part, side, state, instrument, chance, pins)
        if readings is None:
            continue
        found = identify(side, readings)
        right = found.verdict != "none of these" and found.best is not None
        right = right and found.best is not None and part.same_part(found.best.candidate, side)
        count += 1
        first += right
        identified += found.verdict == "identified"
        wrong += found.verdict == "identified" and not right
        listed += any(r.allowed and part.same_part(r.candidate, side) for r in found.candidates)
    return Rates(count, first / count, identified / count, wrong / count, listed / count)


if __name__ == "__main__":
    for instrument in sys.argv[2:] or INSTRUMENTS:
        for state in ("basic", "worn", "as made"):
            for pins in (1, 2):
                for side in ("external", "internal"):
                    found = rates(side, state, instrument, int(sys.argv[1]), pins)
                    sys.stdout.write(f"{instrument}, {state}, {pins} pin size, {side}: {found}\n")
