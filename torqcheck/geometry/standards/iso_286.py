"""Limits of sizes by ISO 286: grades and the deviations of shafts that splines need. All in m."""

import math
from bisect import bisect_left

from torqcheck.errors import DomainError
from torqcheck.geometry.lengths import MICROMETRE, MILLIMETRE
from torqcheck.provenance import Source

__all__ = ["ISO_286", "grade_tolerance", "shaft_deviation"]

ISO_286 = Source("ISO 286-1, ISO 286-2, Limits and fits", "standard tolerance grades", "from memory")

_UP_TO = (3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500)
# micrometre, one number for each range
_GRADES = {
    5: (4, 5, 6, 8, 9, 11, 13, 15, 18, 20, 23, 25, 27),
    6: (6, 8, 9, 11, 13, 16, 19, 22, 25, 29, 32, 36, 40),
    7: (10, 12, 15, 18, 21, 25, 30, 35, 40, 46, 52, 57, 63),
    8: (14, 18, 22, 27, 33, 39, 46, 54, 63, 72, 81, 89, 97),
    9: (25, 30, 36, 43, 52, 62, 74, 87, 100, 115, 130, 140, 155),
    10: (40, 48, 58, 70, 84, 100, 120, 140, 160, 185, 210, 230, 250),
    11: (60, 75, 90, 110, 130, 160, 190, 220, 250, 290, 320, 360, 400),
    12: (100, 120, 150, 180, 210, 250, 300, 350, 400, 460, 520, 570, 630),
    14: (250, 300, 360, 430, 520, 620, 740, 870, 1000, 1150, 1300, 1400, 1550),
}
# distance of the shaft's upper limit below nominal; `a` has finer ranges
_UP_TO_A = (3, 6, 10, 18, 30, 40, 50, 65, 80, 100, 120, 140)
_DEVIATIONS = {
    "a": (270, 270, 280, 290, 300, 310, 320, 340, 360, 380, 410, 460),
    "d": (20, 30, 40, 50, 65, 80, 100, 120, 145, 170, 190, 210, 230),
    "f": (6, 10, 13, 16, 20, 25, 30, 36, 43, 50, 56, 62, 68),
    "g": (2, 4, 5, 6, 7, 9, 10, 12, 14, 15, 17, 18, 20),
}


def _of_range(size: float, up_to: tuple[int, ...], values: tuple[int, ...]) -> float:
    """Return the number of the range that holds a size in m; a limit belongs to the range below it."""
    # a size that was worked out from inches or modules must not slip over the limit by a rounding bit
    rounded = round(size / MILLIMETRE, 9)
    if not 0.0 < rounded <= up_to[-1]:
        raise DomainError(f"the table of limits holds sizes above 0 and up to {up_to[-1]} mm")
    return values[bisect_left(up_to, rounded)] * MICROMETRE


def grade_tolerance(size: float, grade: int) -> float:
    """
    Width of a standard tolerance grade, m.

    Parameters
    ----------
    size : float, m
        Nominal size, up to 0.5 m.
    grade : int, -
        IT number: 5 to 12 or 14.

    Raises
    ------
    DomainError
        If the size lies beyond the table or the grade is not in it.

    Examples
    --------
    >>> print(f"{grade_tolerance(0.052, 7) * 1e6:.0f} um")
    30 um
    """
    if grade not in _GRADES:
        raise DomainError(f"tolerance grade {grade!r} is not one of {', '.join(map(str, _GRADES))}")
    return _of_range(size, _UP_TO, _GRADES[grade])


def shaft_deviation(size: float, letter: str) -> float:
    """
    Distance of the upper limit of a shaft below its nominal size, m; 0 for h.

    Parameters
    ----------
    size : float, m
        Nominal size, up to 0.5 m (letter a: 0.14 m).
    letter : str
        a, d, f, g or h.

    Raises
    ------
    DomainError
        If the size lies beyond the table or the letter is not in it.

    Examples
    --------
    >>> print(f"{shaft_deviation(0.060, 'a') * 1e6:.0f} um")
    340 um
    """
    if letter == "h":
        return 0.0 if math.isfinite(size) else math.nan
    if letter not in _DEVIATIONS:
        raise DomainError(f"letter {letter!r} is not one of {', '.join(_DEVIATIONS)}, h")
    return _of_range(size, _UP_TO_A if letter == "a" else _UP_TO, _DEVIATIONS[letter])
