"""How well each candidate agrees with the readings: one vectorised pass over all of them.

The model (assumed throughout). Every reading is the true length plus an independent normal error whose
two standard deviations are the reading's tolerance. The true length lies to the worn side of the basic
size by x >= 0, and x is exponential: close to the basic size (many parts, and what the standards print
for pins), as parts usually are made, or worn as well. The density of a reading is then a mixture of
three exponentially modified normals, in closed form. Pins and width all read the one width of tooth or
space. Beyond the most wear, and on the far side of the basic size, a candidate is not allowed. A spline
of no standard is a rival too: its first length may be anything from module 0.25 to 10, each further one
anything within a module of what the first suggests.
"""

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from torqcheck._types import FloatArray
from torqcheck.geometry.identifying._room import Quantity, Room, Side
from torqcheck.geometry.identifying.readings import Measured, PinPair, Readings
from torqcheck.geometry.identifying.series import Candidate
from torqcheck.geometry.involute import involute
from torqcheck.geometry.measuring.pins import opposition

__all__ = ["AGREES", "ASSUMED_MODEL", "Columns", "Fit", "PinWidths", "columns_of", "fit", "pin_widths"]

AGREES = 2.0
"""A candidate agrees if no reading is off by more than this many tolerances: four standard deviations."""

# chances that a part lies at the basic size, as parts usually do, or worn; they add to 1 (assumed)
_AT_BASIC, _AS_MADE, _WORN = 0.4, 0.4, 0.2
_BASIC_SHARE = 0.1  # a part at the basic size lies this share of the usual offset below it
_WIDTH_WEAR = 0.10e-3
_TIP_WEAR = 0.05e-3
_UNLISTED = 0.1  # weight of a size outside the standard's own list
_OWN_SERIES = 0.1  # chance that the spline is of no standard
_MODULE_RANGE = math.log(10.0 / 0.25)
_MOST_RELIEF_TEETH = 60  # above this a caliper across odd teeth errs by less than 0.1 %

ASSUMED_MODEL = (
    "ranked by likelihood under an assumed model: independent normal errors of reading; "
    f"{100 * _AT_BASIC:.0f} % of parts at the basic size, {100 * _AS_MADE:.0f} % off it as parts are usually "
    f"made, {100 * _WORN:.0f} % worn by {_WIDTH_WEAR * 1e3:g} mm of width on average (exponential); one "
    "spline in ten of no standard"
)


@dataclass(frozen=True, slots=True)
class Columns:
    """Candidates of one member as arrays of equal length; NaN where a number does not exist."""

    teeth: int
    side: Side
    module: FloatArray
    pressure_angle: FloatArray
    parallel: FloatArray  # 1 for straight-sided, else 0
    listed: FloatArray
    basic: dict[Quantity, FloatArray]
    made: dict[Quantity, FloatArray]
    worn: dict[Quantity, FloatArray]
    usual: dict[Quantity, FloatArray]

    @property
    def sign(self) -> float:
        """1 where wear makes smaller (external), -1 where it makes larger."""
        return 1.0 if self.side == "external" else -1.0


@lru_cache(maxsize=256)
def columns_of(teeth: int, side: Side, chosen: tuple[Candidate, ...]) -> Columns:
    """Lay the candidates of one member out as arrays."""

    def column(values: list[float]) -> FloatArray:
        return np.array(values, dtype=np.float64)

    def rooms(quantity: Quantity) -> list[Room]:
        return [candidate.rooms[side].of(quantity) for candidate in chosen]

    quantities: tuple[Quantity, ...] = ("major_diameter", "minor_diameter", "width")
    return Columns(
        teeth=teeth,
        side=side,
        module=column([c.module or math.nan for c in chosen]),
        pressure_angle=column([c.pressure_angle or math.nan for c in chosen]),
        parallel=column([float(c.flanks == "parallel") for c in chosen]),
        listed=column([float(c.listed) for c in chosen]),
        basic={q: column([room.basic for room in rooms(q)]) for q in quantities},
        made={q: column([room.made for room in rooms(q)]) for q in quantities},
        worn={q: column([room.worn for room in rooms(q)]) for q in quantities},
        usual={q: column([room.usual for room in rooms(q)]) for q in quantities},
    )


@dataclass(frozen=True, slots=True)
class PinWidths:
    """Width that one pin reading means for each candidate. `per_width` is dM/dwidth.

    `possible` is false where such a reading cannot come about on that candidate's flanks; width and
    tolerance are NaN there, and where the candidate's flanks are not known.
    """

    width: FloatArray
    tolerance: FloatArray
    per_width: FloatArray
    possible: FloatArray


def pin_widths(columns: Columns, pair: PinPair) -> PinWidths:
    """Return the width that a pin reading means, with its tolerance, for all candidates at once."""
    curved, straight = _involute_widths(columns, pair), _parallel_widths(columns, pair)
    is_straight = columns.parallel > 0.0
    width, per_width, per_pin = (
        np.where(is_straight, b, a) for a, b in zip(curved[:3], straight[:3], strict=True)
    )
    touches = np.where(is_straight, straight[3], curved[3])
    tolerance = np.hypot(pair.reading.spread, per_pin * pair.pin.spread) / per_width
    # vee flanks and hub slots are not read with pins: neither possible nor impossible
    unread = np.isnan(columns.basic["width"]) | (is_straight & (columns.side == "internal"))
    good = np.isfinite(width) & (touches > 0.0) & ~unread
    return PinWidths(
        np.where(good, width, np.nan),
        np.where(good, tolerance, np.nan),
        np.where(good, per_width, np.nan),
        (good | unread).astype(np.float64),
    )


def _involute_widths(c: Columns, pair: PinPair) -> tuple[FloatArray, FloatArray, FloatArray, FloatArray]:
    """Width, dM/dwidth, |dM/dpin| and whether the pin touches the flanks, for involute candidates."""
    M, d, N = pair.reading.value, pair.pin.value, float(c.teeth)
    with np.errstate(invalid="ignore"):
        D = N * c.module
        Db = D * np.cos(c.pressure_angle)
        f = float(opposition(N))
        ratio = (M - c.sign * d) / (f * Db)
        tangent = np.sqrt(np.where(ratio > 1.0, (ratio - 1.0) * (ratio + 1.0), np.nan))
        angle = np.arctan(tangent)
        basis = np.where(np.isnan(c.pressure_angle), np.nan, c.pressure_angle)
        gap = np.pi / N if c.side == "external" else 0.0
        width = D * (tangent - angle - np.asarray(involute(basis)) - c.sign * d / Db + gap)
        sine = np.sin(angle)
        touched = tangent - c.sign * d / Db
        contact = Db * np.sqrt(1.0 + np.square(touched))
        slack = 0.5 * c.module  # a worn or differently cut tip or root must not rule the pin out
        reach = (contact > c.basic["minor_diameter"] - slack) & (contact < c.basic["major_diameter"] + slack)
        inside = (width > 0.0) & (width < np.pi * c.module) & (touched > 0.0) & reach
        return width, f * np.cos(c.pressure_angle) / sine, 1.0 + f / sine, inside.astype(np.float64)


def _parallel_widths(c: Columns, pair: PinPair) -> tuple[FloatArray, FloatArray, FloatArray, FloatArray]:
    """Return the same for straight-sided shafts, whose pins rest between two parallel-sided teeth.

    The pin's centre lies on the middle of the gap, half a pin off either flank:
    (b + d)/2 = r sin(pi/N), M = 2 f r + d.
    """
    M, d, N = pair.reading.value, pair.pin.value, float(c.teeth)
    f, half = float(opposition(N)), math.sin(math.pi / N)
    r = 0.5 * (M - d) / f
    with np.errstate(invalid="ignore"):
        width = np.where(c.parallel > 0.0, 2.0 * r * half - d, np.nan)
        contact = 2.0 * np.hypot(r * math.cos(math.pi / N), 0.5 * width)
        clear = 2.0 * r - d > c.basic["minor_diameter"]  # else the pin lies on the root
        on_flank = (contact < c.basic["major_diameter"]) & clear & (width > 0.0)
    ones = np.ones_like(width)
    return width, ones * f / half, ones * (1.0 + f / half), on_flank.astype(np.float64)


@dataclass(frozen=True, slots=True)
class Fit:
    """Agreement of each candidate with all readings.

    `likelihood`: logarithm, -inf if not `allowed`, that is within the most wear and never on the
    impossible side. `deviation` in tolerances of the worst reading, 0 inside the room;
    `diameter_deviation` of the diameters alone. `width` is the best estimate of tooth or space, `wear`
    what lies beyond class 7, both m, NaN where nothing read it. `predicted`: how many of the lengths the
    candidate says anything about.
    """

    likelihood: FloatArray
    own_series: float
    deviation: FloatArray
    diameter_deviation: FloatArray
    width: FloatArray
    wear: FloatArray
    predicted: FloatArray
    allowed: FloatArray


def fit(columns: Columns, readings: Readings) -> Fit:
    """Compare all candidates with all readings."""
    size = columns.module.shape
    likelihood, deviation, predicted = np.zeros(size), np.zeros(size), np.zeros(size)
    vague = _vague(readings)
    for quantity in ("major_diameter", "minor_diameter"):
        measured: Measured | None = getattr(readings, quantity)
        if measured is None:
            continue
        density, off = _diameter(columns, quantity, measured)
        unknown = np.isnan(density)
        likelihood += np.where(unknown, vague, density)
        deviation = np.fmax(deviation, off)
        predicted += ~unknown
    of_diameters = deviation
    density, off, width, number = _width(columns, readings, vague)
    likelihood += density
    deviation = np.fmax(deviation, off)
    predicted += number
    allowed = (deviation <= AGREES) & np.isfinite(likelihood)
    likelihood = likelihood + np.where(columns.listed > 0.0, 0.0, math.log(_UNLISTED))
    short = columns.sign * (columns.basic["width"] - width) - columns.made["width"]
    return Fit(
        likelihood=np.where(allowed, likelihood, -np.inf),
        own_series=_own_series(readings, vague, int(columns.listed.sum())),
        deviation=deviation,
        diameter_deviation=of_diameters,
        width=width,
        wear=np.where(np.isnan(width), np.nan, np.maximum(short, 0.0)),
        predicted=predicted,
        allowed=allowed.astype(np.float64),
    )


def _vague(readings: Readings) -> float:
    """Logarithm of the density of a length about which only the rough pitch is known: +- one module."""
    return -math.log(2.0 * _rough_diameter(readings) / readings.teeth)


def _rough_diameter(readings: Readings) -> float:
    diameters = (readings.major_diameter, readings.minor_diameter, *(pair.reading for pair in readings.pins))
    known = [measured.value for measured in diameters if measured is not None]
    return known[0] if known else readings.teeth * 2.0 * (readings.width or Measured(1e-3)).value / math.pi


def _own_series(readings: Readings, vague: float, rivals: int) -> float:
    """Logarithm of the weight of a spline of no standard, on the scale of one listed candidate."""
    first = -math.log(_rough_diameter(readings) * _MODULE_RANGE)
    odds = math.log(_OWN_SERIES / (1.0 - _OWN_SERIES) * max(rivals, 1))
    return first + (readings.lengths - 1) * vague + odds


def _diameter(c: Columns, quantity: Quantity, measured: Measured) -> tuple[FloatArray, FloatArray]:
    """Logarithm of the density of a diameter, and its deviation."""
    basic, made, worn = c.basic[quantity], c.made[quantity], c.worn[quantity]
    across = _across_odd_teeth(c, quantity) * measured.value
    short = c.sign * (basic - measured.value)
    mean_wear = np.where(worn > 0.0, _TIP_WEAR, 0.0) + 0.5 * across
    density = _mixture(short, 0.5 * measured.spread, c.usual[quantity], mean_wear)
    past = np.fmax(-short, short - made - worn - across)
    return density, np.maximum(past, 0.0) / measured.spread


def _across_odd_teeth(c: Columns, quantity: Quantity) -> float:
    """Most by which a caliper errs that spans a tip and the gap opposite, as a share of the diameter.

    On a shaft it reads low, (1 - cos(pi/N))/2 at most; the same share stands in for a hub's tips.
    """
    tips: Quantity = "major_diameter" if c.side == "external" else "minor_diameter"
    if c.teeth % 2 == 0 or quantity != tips or c.teeth > _MOST_RELIEF_TEETH:
        return 0.0
    return 0.5 * (1.0 - math.cos(math.pi / c.teeth))


def _width(
    c: Columns, readings: Readings, vague: float
) -> tuple[FloatArray, FloatArray, FloatArray, FloatArray]:
    """Density, deviation, best estimate of the width, and the number of lengths that read it."""
    widths, tolerances, scales, possible = [], [], [], np.ones(c.module.shape, dtype=bool)
    for pair in readings.pins:
        pins = pin_widths(c, pair)
        widths.append(pins.width)
        tolerances.append(pins.tolerance)
        scales.append(pins.per_width)
        possible &= pins.possible > 0.0
    if readings.width is not None:
        known = np.where(c.parallel > 0.0, 1.0, np.nan)
        widths.append(known * readings.width.value)
        tolerances.append(known * readings.width.spread)
        scales.append(known)
    if not widths:
        nothing = np.full(c.module.shape, np.nan)
        return np.zeros_like(nothing), np.zeros_like(nothing), nothing, np.zeros_like(nothing)
    density, off, mean, number = _shared_width(c, *map(np.array, (widths, tolerances, scales)))
    density = density + (len(widths) - number) * vague
    return np.where(possible, density, -np.inf), np.where(possible, off, np.inf), mean, number


def _shared_width(
    c: Columns, width: FloatArray, tolerance: FloatArray, scale: FloatArray
) -> tuple[FloatArray, FloatArray, FloatArray, FloatArray]:
    """Join the readings of one width; rows are readings, columns candidates, NaN where none."""
    known = np.isfinite(width)
    number = known.sum(axis=0)
    some = number > 0
    spread = np.where(known, 0.5 * tolerance, np.inf)
    weight = 1.0 / np.square(spread)
    total = np.where(some, weight.sum(axis=0), 1.0)
    mean = np.where(some, np.where(known, weight * width, 0.0).sum(axis=0) / total, np.nan)
    residual = np.where(known, (width - mean) / spread, 0.0)
    # product of the normals of all readings = normal of their mean times how well they agree
    agreement = -0.5 * np.square(residual).sum(axis=0)
    norm = -np.where(known, np.log(np.where(known, spread * scale, 1.0)), 0.0).sum(axis=0)
    norm += -0.5 * (number - 1) * math.log(2.0 * math.pi) - 0.5 * np.log(total)
    short = c.sign * (c.basic["width"] - mean)
    made, worn = c.made["width"], c.worn["width"]
    prior = _mixture(short, np.sqrt(1.0 / total), c.usual["width"], np.full_like(made, _WIDTH_WEAR))
    nearest = c.basic["width"] - c.sign * np.clip(short, 0.0, made + worn)
    off = np.where(known, np.abs(width - nearest) / (2.0 * spread), 0.0).max(axis=0)
    return np.where(some, agreement + norm + prior, 0.0), np.where(some, off, 0.0), mean, number.astype(float)


def _mixture(
    short: FloatArray, deviation: FloatArray | float, usual: FloatArray, wear: FloatArray
) -> FloatArray:
    """Logarithm of the density of basic size less reading: as made, or as made and worn."""
    parts = ((_AT_BASIC, _BASIC_SHARE * usual), (_AS_MADE, usual), (_WORN, usual + wear))
    density = np.full(np.broadcast_shapes(np.shape(short), np.shape(usual)), -np.inf)
    with np.errstate(invalid="ignore"):  # a candidate that says nothing of this length stays NaN throughout
        for chance, mean in parts:
            density = np.logaddexp(density, math.log(chance) + _exponential_normal(short, deviation, mean))
    return density


def _exponential_normal(short: FloatArray, deviation: FloatArray | float, mean: FloatArray) -> FloatArray:
    """Logarithm of the density of an exponential plus a normal variable, without loss in the tails."""
    from scipy.special import log_ndtr

    ratio = deviation / mean
    reach = short / deviation - ratio
    return np.asarray(-np.log(mean) + 0.5 * np.square(ratio) - short / mean + log_ndtr(reach))
