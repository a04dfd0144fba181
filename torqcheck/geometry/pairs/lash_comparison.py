"""Rotational play read in several ways: which readings agree, which are doubtful, what new pairs show."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Literal

from torqcheck.errors import DomainError
from torqcheck.geometry.pairs.bench_readings import Reading, millimetres
from torqcheck.geometry.pairs.lash import clearance_from_angle, clearance_from_travel
from torqcheck.geometry.pairs.radial_play import clearance_from_radial_play
from torqcheck.geometry.spline import NewClearance

__all__ = [
    "READ_THE_LASH",
    "LashComparison",
    "LashReading",
    "LashStanding",
    "LashWay",
    "compare_lash",
    "lash_from_angle",
    "lash_from_clearance",
    "lash_from_dial",
    "lash_from_pins",
    "lash_from_radial_play",
]

LashWay = Literal["pins", "dial", "clearance", "radial play"]
LashStanding = Literal["new", "bedded in", "beyond new", "below new", "cannot tell"]

READ_THE_LASH = "read the lash: lock one part at the spline, rock the other under a dial"

_ORDER: tuple[LashWay, ...] = ("clearance", "dial", "pins", "radial play")
_AGAIN: dict[LashWay, str] = {
    "pins": "repeat both pin readings with balls at the worn place, and measure the pins",
    "dial": "repeat the dial reading: lock one part at the spline itself, indicator on a lever of known "
    "radius, at three or four positions of the shaft",
    "clearance": "repeat the direct reading of the clearance at three or four positions of the shaft",
    "radial play": "repeat the radial play with the shaft free of any pilot",
}


@dataclass(frozen=True, slots=True)
class LashReading:
    """Clearance along the pitch circle, m, with two sigma, and how it was found.

    Pins give space less tooth as cut (actual); the other ways give what moves (effective).
    """

    by: LashWay
    clearance: float
    tolerance: float

    @property
    def words(self) -> str:
        """Way and number, for a sentence."""
        return f"{self.by} {millimetres(self.clearance)} +/- {millimetres(self.tolerance)}"


@dataclass(frozen=True, slots=True, kw_only=True)
class LashComparison:
    """Play of a pair, the readings held against each other and against a new pair.

    `agree` is None with fewer than two readings. `clearance` is the reading to go on with: a
    direct one before pins before radial play, None while it is open which reading is wrong.
    """

    readings: tuple[LashReading, ...]
    agree: bool | None
    doubtful: tuple[LashWay, ...]
    clearance: float | None
    tolerance: float | None
    by: LashWay | None
    standing: LashStanding
    bedded_in: float | None
    reasons: tuple[str, ...]
    next_readings: tuple[str, ...]


def lash_from_pins(tooth_thickness: Reading, space_width: Reading) -> LashReading:
    """Clearance c = s - t from pin readings of both members; tolerances as root sum square."""
    return LashReading(
        "pins",
        space_width.value - tooth_thickness.value,
        math.hypot(space_width.tolerance, tooth_thickness.tolerance),
    )


def lash_from_dial(travel: Reading, radius: Reading, pitch_diameter: float) -> LashReading:
    """
    Clearance from the travel of a dial indicator, stop to stop, at a radius.

    u(c) = D/(2 R) sqrt(u_x^2 + (x u_R/R)^2). Mark: derived.

    Parameters
    ----------
    travel, radius : Reading, m
        x and R.
    pitch_diameter : float, m
        D.

    Raises
    ------
    DomainError
        If a length is impossible.
    """
    clearance = float(clearance_from_travel(travel.value, radius.value, pitch_diameter))
    error = math.hypot(travel.tolerance, travel.value * radius.tolerance / radius.value)
    return LashReading("dial", clearance, 0.5 * pitch_diameter / radius.value * error)


def lash_from_angle(angle: Reading, pitch_diameter: float) -> LashReading:
    """
    Clearance from the rotational play as an angle.

    Parameters
    ----------
    angle : Reading, rad
        Stop to stop.
    pitch_diameter : float, m
        D.
    """
    return LashReading(
        "dial",
        float(clearance_from_angle(angle.value, pitch_diameter)),
        0.5 * pitch_diameter * angle.tolerance,
    )


def lash_from_clearance(clearance: Reading) -> LashReading:
    """Clearance read directly at the flanks, with feelers for example."""
    if clearance.value < 0.0:
        raise DomainError("clearance must be 0 or more")
    return LashReading("clearance", clearance.value, clearance.tolerance)


def lash_from_radial_play(radial_play: Reading, pressure_angle: float, teeth: int) -> LashReading:
    """
    Clearance from the play across the axis; too low where a pilot stops the shaft before the flanks do.

    Parameters
    ----------
    radial_play : Reading, m
        Stop to stop.
    pressure_angle : float, rad
        At the pitch diameter.
    teeth : int, -
        Number of teeth.

    Raises
    ------
    DomainError
        If the play is negative.
    """
    per_play = float(clearance_from_radial_play(1.0, pressure_angle, teeth))
    if radial_play.value < 0.0:
        raise DomainError("radial_play must be 0 or more")
    return LashReading("radial play", per_play * radial_play.value, per_play * radial_play.tolerance)


def compare_lash(readings: Sequence[LashReading], new: NewClearance) -> LashComparison:
    """
    Compare clearances found in several ways with each other and with a new pair.

    Two readings agree when they differ by no more than their tolerances together; pins may besides
    exceed the others by the variation allowances of both members, which turn into lash only as the
    errors bed in. With three or more, one reading that disagrees with all others, which agree among
    themselves, is the doubtful one; otherwise every reading that disagrees with another is.

    Parameters
    ----------
    readings : sequence of LashReading
        Any number, one for each way.
    new : NewClearance
        What a new pair of the standard shows.

    Returns
    -------
    LashComparison
        With a sentence for each disagreement and the reading to repeat.

    Raises
    ------
    DomainError
        If a way occurs twice.
    """
    ordered = tuple(sorted(readings, key=lambda reading: _ORDER.index(reading.by)))
    if len({reading.by for reading in ordered}) != len(ordered):
        raise DomainError("each way of reading the lash may occur once; average repeated readings")
    allowance = (new.bedded_in - new.maximum) if new.bedded_in is not None else 0.0
    apart = [pair for pair in combinations(ordered, 2) if not _agrees(*pair, allowance)]
    doubtful = _doubtful(ordered, apart)
    trusted = [reading for reading in ordered if reading.by not in doubtful]
    chosen = trusted[0] if trusted else None
    standing = _standing(chosen, new) if chosen else "cannot tell"
    return LashComparison(
        readings=ordered,
        agree=not apart if len(ordered) > 1 else None,
        doubtful=doubtful,
        clearance=chosen.clearance if chosen else None,
        tolerance=chosen.tolerance if chosen else None,
        by=chosen.by if chosen else None,
        standing=standing,
        bedded_in=new.bedded_in,
        reasons=_reasons(ordered, apart, doubtful, chosen, standing, new),
        next_readings=tuple(_AGAIN[way] for way in doubtful) or (() if chosen else (READ_THE_LASH,)),
    )


def _agrees(first: LashReading, second: LashReading, allowance: float) -> bool:
    """Whether two readings can be of one pair."""
    excess = first.clearance - second.clearance
    together = math.hypot(first.tolerance, second.tolerance)
    above = together + (allowance if first.by == "pins" else 0.0)
    below = together + (allowance if second.by == "pins" else 0.0)
    return -below <= excess <= above


def _doubtful(
    readings: Sequence[LashReading], apart: Sequence[tuple[LashReading, LashReading]]
) -> tuple[LashWay, ...]:
    """Return the one reading against all others, or everything that disagrees."""
    for reading in readings:
        against = [pair for pair in apart if reading in pair]
        if len(readings) > 2 and len(against) == len(apart) == len(readings) - 1:
            return (reading.by,)
    return tuple(reading.by for reading in readings if any(reading in pair for pair in apart))


def _standing(reading: LashReading, new: NewClearance) -> LashStanding:
    """Hold the play against a new pair; a limit inside the tolerance leaves it open."""
    most = new.bedded_in if new.bedded_in is not None else new.maximum
    low, high = reading.clearance - reading.tolerance, reading.clearance + reading.tolerance
    if high < new.minimum:
        return "below new"
    # pins read space less tooth as cut, in which the allowance for errors is contained from the start
    if high <= (most if reading.by == "pins" else new.maximum):
        return "new"
    if high <= most:
        return "bedded in"
    return "beyond new" if low > most else "cannot tell"


def _reasons(
    readings: Sequence[LashReading],
    apart: Sequence[tuple[LashReading, LashReading]],
    doubtful: tuple[LashWay, ...],
    chosen: LashReading | None,
    standing: LashStanding,
    new: NewClearance,
) -> tuple[str, ...]:
    """Say what agrees, what does not and why that may be, and how the play stands to a new pair."""
    sentences = []
    if len(readings) > 1 and not apart:
        widest = max(readings, key=lambda r: r.clearance), min(readings, key=lambda r: r.clearance)
        bare = widest[0].clearance - widest[1].clearance <= math.hypot(*(r.tolerance for r in widest))
        allowed = "" if bare else " once the allowance for errors not yet bedded in is counted"
        sentences.append(f"The readings of the lash agree{allowed}: {', '.join(r.words for r in readings)}.")
    sentences += [_why(first, second) for first, second in apart]
    if apart:
        sentences.append(f"Doubtful: {', '.join(doubtful)}.")
    if chosen is None:
        return tuple(sentences) or ("The lash was not read.",)
    as_cut = chosen.by == "pins" and new.bedded_in is not None
    most = new.bedded_in if as_cut and new.bedded_in is not None else new.maximum
    known = (
        f"{millimetres(new.minimum)} to {millimetres(most)} new{' as cut' if as_cut else ''} ({new.assumes})"
    )
    if new.bedded_in is not None and not as_cut:
        known += f", up to {millimetres(new.bedded_in)} bedded in"
    verdict = {
        "new": "as in a new pair",
        "bedded in": "as in a bedded-in pair",
        "beyond new": "beyond any new pair",
        "below new": "less than any new pair has: another fit, or parts that are not of this standard",
        "cannot tell": "cannot tell whether beyond new, the limit lies inside the tolerance",
    }[standing]
    sentences.append(f"Lash by {chosen.words} along the pitch circle: {verdict}; {known}.")
    return tuple(sentences)


def _why(first: LashReading, second: LashReading) -> str:
    """Return what commonly sets two ways of reading apart."""
    large, small = (first, second) if first.clearance > second.clearance else (second, first)
    said = f"The lash by {large.words} exceeds that by {small.words}"
    if small.by == "radial play":
        return f"{said}: a pilot or contact at the tips may stop the shaft before the flanks do."
    if small.by == "pins":
        return (
            f"{said}: bearings, keys or gear train moved under the reading (lock both parts at the spline), "
            "or the pins rode on unworn ends."
        )
    if large.by == "pins":
        return (
            f"{said}, by more than errors that have not bedded in explain: the readings over or between pins "
            "do not belong to this spline, the pins are not of the size written, or the shaft did not rock "
            "from stop to stop."
        )
    return f"{said}: one of them was not taken from stop to stop, or holds play from elsewhere."
