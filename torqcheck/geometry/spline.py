"""What every standard's module hands out: the dimensions of a splined joint as frozen data, in m."""

import math
from dataclasses import dataclass
from typing import Literal

from torqcheck.provenance import Source

__all__ = ["InvoluteSpline", "Member", "NewClearance", "Root", "StraightSpline"]

Root = Literal["flat", "fillet"]


@dataclass(frozen=True, slots=True, kw_only=True)
class NewClearance:
    """Circumferential clearance between the flanks of a new pair, at the pitch circle.

    `minimum` to `maximum` is what a new pair shows as lash: the errors of form and spacing take up
    part of the space. `bedded_in` is the most that shows once those errors have bedded in, with
    next to no wear; None where the basis makes no such difference.
    """

    minimum: float
    maximum: float
    bedded_in: float | None
    assumes: str  # tolerance class and fit, in words
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class Member:
    """Diameters of one member. The form diameter ends the true flank; None where no formula is known."""

    major_diameter: float
    minor_diameter: float
    form_diameter: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class InvoluteSpline:
    """A pair of involute splines of one designation: shaft and hub, without tolerances.

    `tooth_thickness` is the largest effective one of the external, `space_width` the smallest
    effective one of the internal member, both along the pitch circle. `contact_height` is the
    radial depth of engagement that the strength guide's formulas take; `radial_overlap` is the
    depth on which the two members really face each other.
    """

    standard: str
    designation: str
    teeth: int
    module: float
    pressure_angle: float
    root: Root
    external: Member
    internal: Member
    tooth_thickness: float
    space_width: float
    contact_height: float
    new_clearance: NewClearance
    sources: tuple[Source, ...]
    notes: tuple[str, ...] = ()

    @property
    def pitch_diameter(self) -> float:
        """Module times teeth."""
        return self.module * self.teeth

    @property
    def base_diameter(self) -> float:
        """Diameter from which the flank is unwound."""
        return self.pitch_diameter * math.cos(self.pressure_angle)

    @property
    def circular_pitch(self) -> float:
        """Distance from tooth to tooth along the pitch circle."""
        return math.pi * self.module

    @property
    def radial_overlap(self) -> float:
        """From the tips of the internal to the tips of the external teeth, along the radius."""
        return 0.5 * (self.external.major_diameter - self.internal.minor_diameter)

    @property
    def root_diameter(self) -> float:
        """Minor diameter of the external member, where the shaft shears."""
        return self.external.minor_diameter


@dataclass(frozen=True, slots=True, kw_only=True)
class StraightSpline:
    """A pair of straight-sided splines of one designation, without tolerances.

    `chamfer` is taken off the flank at tip and root, measured along the radius.
    """

    standard: str
    designation: str
    teeth: int
    major_diameter: float
    minor_diameter: float
    tooth_width: float
    chamfer: float
    new_clearance: NewClearance
    sources: tuple[Source, ...]
    notes: tuple[str, ...] = ()

    @property
    def mean_diameter(self) -> float:
        """Diameter half way between root and tip, where the force is taken to act."""
        return 0.5 * (self.major_diameter + self.minor_diameter)

    @property
    def contact_height(self) -> float:
        """Radial height of the bearing flank: (D - d)/2 - 2 c."""
        return 0.5 * (self.major_diameter - self.minor_diameter) - 2.0 * self.chamfer

    @property
    def pressure_angle(self) -> float:
        """Angle between flank and radius at the mean diameter: sin(phi) = b/(2 r)."""
        return math.asin(self.tooth_width / self.mean_diameter)

    @property
    def root_diameter(self) -> float:
        """Minor diameter of the external member, where the shaft shears."""
        return self.minor_diameter
