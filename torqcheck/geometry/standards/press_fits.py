"""Interference that an ISO 286 fit of the basic hole leaves on the diameter: least and greatest, in m."""

import re
from bisect import bisect_left
from dataclasses import dataclass

from torqcheck.errors import DomainError
from torqcheck.geometry.standards.iso_286 import ISO_286, grade_tolerance
from torqcheck.provenance import Source

__all__ = ["FitLimits", "press_fit"]

_FIT = re.compile(r"H([678])\s*/\s*([a-z]{1,2})([5678])")
_UP_TO = (3, 6, 10, 14, 18, 24, 30, 40, 50, 65, 80, 100, 120, 140, 160, 180, 200, 225, 250, 280, 315)
# micrometre, distance of the shaft's lower limit above nominal; from memory. None: not standardised
_DEVIATIONS: dict[str, tuple[int | None, ...]] = {
    "p": (6, 12, 15, 18, 18, 22, 22, 26, 26, 32, 32, 37, 37, 43, 43, 43, 50, 50, 50, 56, 56),
    "r": (10, 15, 19, 23, 23, 28, 28, 34, 34, 41, 43, 51, 54, 63, 65, 68, 77, 80, 84, 94, 98),
    "s": (14, 19, 23, 28, 28, 35, 35, 43, 43, 53, 59, 71, 79, 92, 100, 108, 122, 130, 140, 158, 170),
    "t": (None,) * 6 + (41, 48, 54, 66, 75, 91, 104, 122, 134, 146, 166, 180, 196, 218, 240),
    "u": (18, 23, 28, 33, 33, 41, 48, 60, 70, 87, 102, 124, 144, 170, 190, 210, 236, 258, 284, 315, 350),
    "x": (20, 28, 34, 40, 45, 54, 64, 80, 97, 122, 146, 178, 210, 248, 280, 310, 350, 385, 425, 475, 525),
}
_LOOSE = "abcdefghjkmn"


@dataclass(frozen=True, slots=True, kw_only=True)
class FitLimits:
    """
    Limits of a fit, m: of the bore and the shaft above nominal, and of the interference.

    `least` may be negative, a clearance: such a fit need not grip.
    """

    designation: str
    hole: tuple[float, float]
    shaft: tuple[float, float]
    source: Source

    @property
    def least(self) -> float:
        """Smallest shaft in the largest bore."""
        return self.shaft[0] - self.hole[1]

    @property
    def greatest(self) -> float:
        """Largest shaft in the smallest bore."""
        return self.shaft[1] - self.hole[0]


def press_fit(size: float, designation: str) -> FitLimits:
    """
    Limits of an interference fit of the basic hole, by its designation.

    Parameters
    ----------
    size : float, m
        Nominal diameter, up to 0.315 m.
    designation : str
        H6, H7 or H8 with p, r, s, t, u or x of grade 5 to 8: ``"H7/s6"``.

    Raises
    ------
    DomainError
        If it is no such fit, or the table does not hold the size.

    Examples
    --------
    >>> fit = press_fit(0.040, "H7/s6")
    >>> print(f"{fit.least * 1e6:.0f} to {fit.greatest * 1e6:.0f} um")
    18 to 59 um
    """
    found = _FIT.fullmatch(designation.strip())
    if found is None:
        raise DomainError(f'"{designation[:30]}" is no fit of the basic hole such as H7/s6')
    hole_grade, letter, shaft_grade = int(found[1]), found[2], int(found[3])
    if letter not in _DEVIATIONS:
        known = ", ".join(_DEVIATIONS)
        loose = "leaves room or may leave it: it locates and does not grip; " if letter[0] in _LOOSE else ""
        raise DomainError(f"shaft {letter}{shaft_grade} {loose}the tabled letters are {known}")
    lower = _deviation(size, letter)
    return FitLimits(
        designation=f"H{hole_grade}/{letter}{shaft_grade}",
        hole=(0.0, grade_tolerance(size, hole_grade)),
        shaft=(lower, lower + grade_tolerance(size, shaft_grade)),
        source=Source(ISO_286.work, "tables of fundamental deviations", "from memory"),
    )


def _deviation(size: float, letter: str) -> float:
    """Lower limit of a shaft above nominal, m."""
    # a size that was worked out from inches must not slip over the limit by a rounding bit
    rounded = round(size * 1e3, 9)
    if not 0.0 < rounded <= _UP_TO[-1]:
        raise DomainError(f"the table of press fits holds sizes above 0 and up to {_UP_TO[-1]} mm")
    value = _DEVIATIONS[letter][bisect_left(_UP_TO, rounded)]
    if value is None:
        raise DomainError(f"letter {letter} begins above 24 mm")
    return value * 1e-6
