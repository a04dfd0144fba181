"""Serrations of DIN 5481: straight flanks at 60 deg, by their nominal sizes.

Involute serrations at 45 deg belong to ``ansi_b92_1`` and ``iso_4156``.
"""

import math
import re
from dataclasses import dataclass

from torqcheck.errors import DomainError
from torqcheck.geometry.lengths import MILLIMETRE
from torqcheck.provenance import Source

__all__ = ["SIZES", "STANDARD", "SerrationSpline", "spline"]

STANDARD = "din 5481"
NOMINAL = Source("DIN 5481, Serrations", "nominal sizes and numbers of teeth; 60 deg gap", "from memory")

# smaller nominal diameter of the hub x larger one of the shaft, mm: teeth
SIZES: dict[tuple[int, int], int] = {
    (7, 8): 28, (8, 10): 28, (10, 12): 30, (12, 14): 31, (15, 17): 32, (17, 20): 33, (21, 24): 34,
    (26, 30): 35, (30, 34): 36, (36, 40): 37, (40, 44): 38, (45, 50): 39, (50, 55): 40, (55, 60): 42,
}  # fmt: skip
"""Sizes of the standard (mark: from memory)."""

_GAP_ANGLE = math.radians(60.0)
_SIZE = re.compile(r"\s*(\d{1,2})\s*x\s*(\d{1,2})\s*", re.ASCII | re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class SerrationSpline:
    """A serrated joint of one designation; diameters are the nominal ones of its name, no more is known."""

    standard: str
    designation: str
    teeth: int
    major_diameter: float
    minor_diameter: float
    gap_angle: float
    sources: tuple[Source, ...]
    notes: tuple[str, ...] = ()

    @property
    def tooth_angle(self) -> float:
        """Angle between the flanks of one shaft tooth: the gap's, less one pitch."""
        return self.gap_angle - 2.0 * math.pi / self.teeth

    @property
    def mean_diameter(self) -> float:
        """Half way between the nominal diameters."""
        return 0.5 * (self.major_diameter + self.minor_diameter)


def spline(designation: str) -> SerrationSpline:
    """
    Serration of DIN 5481 from its designation.

    Parameters
    ----------
    designation : str
        Nominal diameters in mm, for example "15x17".

    Raises
    ------
    DomainError
        If the standard has no such size.

    Examples
    --------
    >>> serration = spline("15x17")
    >>> print(f"{serration.teeth} teeth, tooth {math.degrees(serration.tooth_angle):.2f} deg")
    32 teeth, tooth 48.75 deg
    """
    match = _SIZE.fullmatch(designation)
    size = (int(match[1]), int(match[2])) if match else (0, 0)
    if size not in SIZES:
        known = " ".join(f"{small}x{large}" for small, large in SIZES)
        raise DomainError(f"{STANDARD} has no size {designation!r}; it has {known}")
    small, large = size
    return SerrationSpline(
        standard=STANDARD,
        designation=f"{small}x{large}",
        teeth=SIZES[size],
        major_diameter=large * MILLIMETRE,
        minor_diameter=small * MILLIMETRE,
        gap_angle=_GAP_ANGLE,
        sources=(NOMINAL,),
        notes=(
            "the diameters are those of the name; exact diameters, pitch diameter and limits could not be "
            "read: take them from the drawing or from an unworn part",
        ),
    )
