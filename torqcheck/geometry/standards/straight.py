"""Straight-sided splines: ISO 14, SAE J499, and the user's own dimensions."""

import math
import re
from typing import Literal

from torqcheck.errors import DomainError
from torqcheck.geometry.lengths import INCH, MICROMETRE, MILLIMETRE
from torqcheck.geometry.spline import NewClearance, StraightSpline
from torqcheck.geometry.standards._straight_sizes import (
    DEVIATIONS,
    ISO_14,
    ISO_14_SIZES,
    SAE_J499,
    SAE_PROPORTIONS,
    STRAIGHT_CHAMFER,
    TOLERANCE_GRADES,
)
from torqcheck.provenance import Source

__all__ = ["iso_14", "own", "sae"]

IsoFit = Literal["sliding", "close", "fixed"]
SaeFit = Literal["A", "B", "C"]

_SIZE = re.compile(r"\s*(\d{1,2})\s*x\s*(\d{1,3})\s*x\s*(\d{1,3})\s*", re.ASCII | re.IGNORECASE)
# fit of the width: letter and grade of the shaft; the hole is H9
_WIDTH_FITS: dict[IsoFit, tuple[str, int]] = {"sliding": ("d", 10), "close": ("f", 9), "fixed": ("h", 10)}
_HOLE_GRADE = 9
_SAE_WORDS = {"A": "permanent fit", "B": "to slide when not under load", "C": "to slide under load"}
_ASSUMED = NewClearance(
    minimum=0.02e-3,
    maximum=0.12e-3,
    bedded_in=None,
    assumes="0.02 to 0.12 mm, the order of the new clearances in workshop manuals; no tolerance known",
    source=Source("Own estimate after new clearances printed in workshop manuals", "", "assumed"),
)


def _range_row(width: float, table: tuple[tuple[float, dict[str, float]], ...]) -> dict[str, float]:
    """Return the row of an ISO size range for a width in mm."""
    return next(row for largest, row in table if width <= largest)


def _iso_clearance(width: float, fit: IsoFit) -> NewClearance:
    """Return slot H9 less tooth d10, f9 or h10; width in mm."""
    letter, grade = _WIDTH_FITS[fit]
    grades, deviations = _range_row(width, TOLERANCE_GRADES), _range_row(width, DEVIATIONS)
    least = deviations[letter]
    most = grades[f"IT{_HOLE_GRADE}"] + least + grades[f"IT{grade}"]
    return NewClearance(
        minimum=least * MICROMETRE,
        maximum=most * MICROMETRE,
        bedded_in=None,
        assumes=f"slot H{_HOLE_GRADE}, not hardened after broaching, and tooth {letter}{grade} ({fit})",
        source=Source(
            "ISO 14:1982, fits of the width; ISO 286-2, limits of tolerance classes",
            "letters read, micrometres remembered",
            "from memory",
        ),
    )


_SIZE_NOTES = {
    (8, 56, 65): ("source conflict: one copy of the table names it 8x56x66 but prints 65 as its diameter",)
}


def iso_14(designation: str, chamfer: float | None = None, fit: IsoFit = "sliding") -> StraightSpline:
    """
    Minor-centred straight-sided spline of ISO 14 from its designation.

    Parameters
    ----------
    designation : str
        N x d x D in mm, for example "8x52x60".
    chamfer : float, m, optional
        c, as measured; the standard's remembered value if not given.
    fit : str, optional
        "sliding", "close" or "fixed".

    Raises
    ------
    DomainError
        If the standard has no such size or fit, or the chamfer leaves no flank.
    """
    if fit not in _WIDTH_FITS:
        raise DomainError(f"fit {fit!r} is not one of {', '.join(_WIDTH_FITS)}")
    series, (teeth, minor, major, width) = _iso_size(designation)
    remembered = next(c for largest, c in STRAIGHT_CHAMFER[series] if minor <= largest)
    source = "given by the user" if chamfer is not None else "from memory"
    chamfer = remembered * MILLIMETRE if chamfer is None else chamfer
    _refuse_bad_chamfer(chamfer, (major - minor) * MILLIMETRE)
    return StraightSpline(
        standard="iso 14",
        designation=f"{teeth}x{minor}x{major}",
        teeth=teeth,
        major_diameter=major * MILLIMETRE,
        minor_diameter=minor * MILLIMETRE,
        tooth_width=width * MILLIMETRE,
        chamfer=chamfer,
        new_clearance=_iso_clearance(width, fit),
        sources=ISO_14,
        notes=(
            f"{series} series; chamfer {chamfer / MILLIMETRE:g} mm at tip and root is {source}",
            *_SIZE_NOTES.get((teeth, minor, major), ()),
        ),
    )


def _iso_size(designation: str) -> tuple[str, tuple[int, int, int, float]]:
    """Return series and table row of a designation; else raise DomainError naming the sizes."""
    match = _SIZE.fullmatch(designation)
    key = tuple(int(part) for part in match.groups()) if match else ()
    for series, sizes in ISO_14_SIZES.items():
        for row in sizes:
            if key == row[:3]:
                return series, row
    known = " ".join(f"{n}x{d}x{D}" for sizes in ISO_14_SIZES.values() for n, d, D, _ in sizes)
    raise DomainError(f"iso 14 has no size {designation!r}; it has {known}")


def _refuse_bad_chamfer(chamfer: float, difference: float) -> None:
    """Raise DomainError for a chamfer that leaves no flank between two diameters."""
    if not 0.0 <= chamfer < 0.25 * difference:
        raise DomainError("chamfer must be 0 or more and leave some flank")


def sae(teeth: int, major_diameter: float, fit: SaeFit) -> StraightSpline:
    """
    Straight-sided spline of SAE J499 by its proportions.

    Parameters
    ----------
    teeth : int, -
        4, 6, 10 or 16.
    major_diameter : float, m
        D.
    fit : str
        "A" permanent, "B" to slide when not under load, "C" to slide under load.

    Raises
    ------
    DomainError
        If the standard has no such number of teeth or fit, or the diameter is not positive.
    """
    if not 0.0 < major_diameter < math.inf:
        raise DomainError("major_diameter must be above 0 and finite")
    if teeth not in SAE_PROPORTIONS:
        raise DomainError(f"SAE J499 has {', '.join(map(str, SAE_PROPORTIONS))} teeth, not {teeth}")
    width, minors = SAE_PROPORTIONS[teeth]
    if fit not in minors:
        raise DomainError(f"SAE J499 with {teeth} teeth has fit {', '.join(minors)}, not {fit!r}")
    return StraightSpline(
        standard="sae j499",
        designation=f"{teeth}-spline, {major_diameter / INCH:.4g} in, {teeth}{fit}",
        teeth=teeth,
        major_diameter=major_diameter,
        minor_diameter=minors[fit] * major_diameter,
        tooth_width=width * major_diameter,
        chamfer=0.0,
        new_clearance=_ASSUMED,
        sources=SAE_J499,
        notes=(
            f"fit {fit}: {_SAE_WORDS[fit]}",
            "the standard gives hole sizes only; shaft sizes, and so the clearance, are left to the maker",
        ),
    )


def own(
    teeth: int, major_diameter: float, minor_diameter: float, tooth_width: float, chamfer: float = 0.0
) -> StraightSpline:
    """
    Straight-sided spline from the user's own dimensions.

    Parameters
    ----------
    teeth : int, -
        N, 2 or more.
    major_diameter : float, m
        D.
    minor_diameter : float, m
        d.
    tooth_width : float, m
        b, across the parallel flanks.
    chamfer : float, m, optional
        c, taken off the flank at tip and root, along the radius.

    Raises
    ------
    DomainError
        If a number is impossible by itself or with the others.
    """
    if teeth != int(teeth) or teeth < 2:
        raise DomainError("teeth must be a whole number, 2 or more")
    if not 0.0 < minor_diameter < major_diameter < math.inf:
        raise DomainError("minor_diameter must be above 0 and below major_diameter")
    _refuse_bad_chamfer(chamfer, major_diameter - minor_diameter)
    if not 0.0 < tooth_width < math.pi * minor_diameter / teeth:
        raise DomainError("tooth_width must be above 0 and leave a space at the minor diameter")
    return StraightSpline(
        standard="own",
        designation=f"{teeth} teeth, {minor_diameter * 1e3:g} x {major_diameter * 1e3:g} mm",
        teeth=int(teeth),
        major_diameter=major_diameter,
        minor_diameter=minor_diameter,
        tooth_width=tooth_width,
        chamfer=chamfer,
        new_clearance=_ASSUMED,
        sources=(Source("Dimensions given by the user", "", "measured"),),
    )
