"""Tolerances and fits of ISO 4156 (ANSI B92.2M), by class. All in m."""

import math

from torqcheck.errors import DomainError
from torqcheck.geometry.lengths import MICROMETRE, MILLIMETRE
from torqcheck.provenance import Source

__all__ = [
    "COMPONENTS",
    "DEVIATIONS",
    "TOTAL",
    "fundamental_deviation",
    "index_variation",
    "lead_variation",
    "profile_variation",
    "total_tolerance",
    "variation_allowance",
]

TOTAL = Source("ISO 4156-1:2005, Straight cylindrical involute splines", "total tolerance", "from memory")
COMPONENTS = Source("Machinery's Handbook, 31st edition, 2020", "page 2356, Table 16", "published")
DEVIATIONS = Source("Machinery's Handbook, 31st edition, 2020", "page 2356, Table 17", "published")

# factors of the tolerance units i* (diameter) and i** (width)
_TOTAL = {4: (10.0, 40.0), 5: (16.0, 64.0), 6: (25.0, 100.0), 7: (40.0, 160.0)}
# (slope, constant) of index, profile and lead variation, micrometre and mm
_INDEX = {4: (2.5, 6.3), 5: (3.55, 9.0), 6: (5.0, 12.5), 7: (7.1, 18.0)}
_PROFILE = {4: (1.6, 10.0), 5: (2.5, 16.0), 6: (4.0, 25.0), 7: (6.3, 40.0)}
_LEAD = {4: (0.8, 4.0), 5: (1.0, 5.0), 6: (1.25, 6.3), 7: (2.0, 10.0)}

# largest pitch diameter of the range, mm: thickness reduction of the shaft for d, e, f, micrometre
_DEVIATIONS = (
    (3.0, (20.0, 14.0, 6.0)),
    (6.0, (30.0, 20.0, 10.0)),
    (10.0, (40.0, 25.0, 13.0)),
    (18.0, (50.0, 32.0, 16.0)),
    (30.0, (65.0, 40.0, 20.0)),
    (50.0, (80.0, 50.0, 25.0)),
    (80.0, (100.0, 60.0, 30.0)),
    (120.0, (120.0, 72.0, 36.0)),
    (180.0, (145.0, 85.0, 43.0)),
    (250.0, (170.0, 100.0, 50.0)),
)
_FITS = ("d", "e", "f")


def _of_class(table: dict[int, tuple[float, float]], fit_class: int) -> tuple[float, float]:
    """Return the two numbers of a tolerance class."""
    if fit_class not in table:
        raise DomainError(f"tolerance class {fit_class!r} is not one of {', '.join(map(str, table))}")
    return table[fit_class]


def _unit(length: float) -> float:
    """Return the tolerance unit 0.45 x^(1/3) + 0.001 x in micrometre, x in mm."""
    return 0.45 * math.cbrt(length) + 0.001 * length


def total_tolerance(teeth: int, module: float, fit_class: int = 5) -> float:
    """
    Machining tolerance and variation allowance together, for tooth thickness or space width, m.

    Parameters
    ----------
    teeth : int, -
        Number of teeth.
    module : float, m
        Module.
    fit_class : int, optional
        4 (closest) to 7.

    Raises
    ------
    DomainError
        If the class does not exist.
    """
    of_diameter, of_width = _of_class(_TOTAL, fit_class)
    m = module / MILLIMETRE
    return (of_diameter * _unit(m * teeth) + of_width * _unit(0.5 * math.pi * m)) * MICROMETRE


def index_variation(teeth: int, module: float, fit_class: int = 5) -> float:
    """
    Total index variation Fp, m: spacing error of any two teeth.

    Parameters
    ----------
    teeth : int, -
        Number of teeth.
    module : float, m
        Module.
    fit_class : int, optional
        4 (closest) to 7.

    Raises
    ------
    DomainError
        If the class does not exist.
    """
    slope, constant = _of_class(_INDEX, fit_class)
    return (slope * math.sqrt(0.5 * math.pi * teeth * module / MILLIMETRE) + constant) * MICROMETRE


def profile_variation(teeth: int, module: float, fit_class: int = 5) -> float:
    """
    Total profile variation ff, m: departure of the flank from its involute.

    Parameters
    ----------
    teeth : int, -
        Number of teeth.
    module : float, m
        Module.
    fit_class : int, optional
        4 (closest) to 7.

    Raises
    ------
    DomainError
        If the class does not exist.
    """
    slope, constant = _of_class(_PROFILE, fit_class)
    return (slope * module / MILLIMETRE * (1.0 + 0.0125 * teeth) + constant) * MICROMETRE


def lead_variation(length: float, fit_class: int = 5) -> float:
    """
    Total lead variation Fb, m.

    Parameters
    ----------
    length : float, m
        Of the spline.
    fit_class : int, optional
        4 (closest) to 7.

    Raises
    ------
    DomainError
        If the class does not exist.
    """
    slope, constant = _of_class(_LEAD, fit_class)
    return (slope * math.sqrt(length / MILLIMETRE) + constant) * MICROMETRE


def variation_allowance(teeth: int, module: float, length: float, fit_class: int = 5) -> float:
    """
    Part of the space that errors may take up, m: 0.6 of the root sum square of the three variations.

    Parameters
    ----------
    teeth : int, -
        Number of teeth.
    module : float, m
        Module.
    length : float, m
        Of the spline.
    fit_class : int, optional
        4 (closest) to 7.

    Raises
    ------
    DomainError
        If the class does not exist.
    """
    return 0.6 * math.hypot(
        index_variation(teeth, module, fit_class),
        profile_variation(teeth, module, fit_class),
        lead_variation(length, fit_class),
    )


def fundamental_deviation(pitch_diameter: float, fit: str) -> float:
    """
    By how much the shaft's tooth is thinned for a fit, m; the least effective clearance with a hub H.

    Parameters
    ----------
    pitch_diameter : float, m
        D, up to 0.250 m for d, e and f.
    fit : str
        Letter of the shaft: d, e, f or h (none).

    Raises
    ------
    DomainError
        If the letter is another, or D lies beyond the table.
    """
    if fit == "h":
        return 0.0
    if fit not in _FITS:
        raise DomainError(f"fit {fit!r} is not one of d, e, f, h")
    for largest, row in _DEVIATIONS:
        if pitch_diameter <= largest * MILLIMETRE:
            return row[_FITS.index(fit)] * MICROMETRE
    raise DomainError("the table of fits ends at a pitch diameter of 250 mm")
