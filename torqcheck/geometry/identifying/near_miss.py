"""Inch or metric? A round size of the other system close to a reading."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from torqcheck.geometry.lengths import INCH, MILLIMETRE

__all__ = ["NearMiss", "near_miss"]

_CLOSE = 0.1e-3  # what turning, chrome or a caliper make of a round size (assumed)
_SIXTEENTH = INCH / 16.0
_LEAST = 5.0 * MILLIMETRE  # below this every reading lies close to something round


@dataclass(frozen=True, slots=True)
class NearMiss:
    """A round size of the other system, m, in words, with how far the reading lies from it."""

    size: float
    words: str
    difference: float
    own: str  # round size of the reading's own system, for which it might be taken


def near_miss(value: float, written_in: Literal["in", "mm"]) -> NearMiss | None:
    """
    Round size of the other unit system close to a diameter that is not round in its own.

    Parameters
    ----------
    value : float, m
        The diameter.
    written_in : str
        Unit in which it was read.

    Returns
    -------
    NearMiss or None
        Whole millimetres for a reading in inches, sixteenths of an inch for one in mm.

    Examples
    --------
    >>> near_miss(0.982 * 0.0254, "in").words
    '25 mm'
    """
    millimetres, sixteenths = round(value / MILLIMETRE), round(value / _SIXTEENTH)
    metric, inch = millimetres * MILLIMETRE, sixteenths * _SIXTEENTH
    size, own = (metric, inch) if written_in == "in" else (inch, metric)
    if value < _LEAST or abs(value - size) > _CLOSE or abs(value - own) <= _CLOSE:
        return None
    names = (f"{millimetres} mm", _inches(sixteenths))
    words, other = names if written_in == "in" else names[::-1]
    if written_in == "in":  # the size that a hurried eye would read: eighths
        other = _inches(2 * round(value / (2.0 * _SIXTEENTH)))
    return NearMiss(size, words, value - size, other)


def _inches(sixteenths: int) -> str:
    """Write sixteenths as the shop does: 1 3/8 in."""
    whole, rest = divmod(sixteenths, 16)
    part = f"{Fraction(rest, 16)}" if rest else ""
    return " ".join(piece for piece in (str(whole) if whole or not rest else "", part, "in") if piece)
