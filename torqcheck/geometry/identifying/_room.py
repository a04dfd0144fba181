"""How far a dimension may lie from its basic size: by making (up to tolerance class 7), and by wear."""

import math
from dataclasses import dataclass
from typing import Literal, cast

from torqcheck.geometry.lengths import INCH, MILLIMETRE
from torqcheck.geometry.spline import InvoluteSpline, StraightSpline
from torqcheck.geometry.standards import ansi_b92_1, din_5480, iso_4156, iso_4156_tolerances
from torqcheck.geometry.standards.ansi_b92_1_tolerances import machining_tolerance, variation_allowance
from torqcheck.geometry.standards.iso_286 import grade_tolerance, shaft_deviation

__all__ = [
    "MOST_WEAR",
    "Quantity",
    "Room",
    "Rooms",
    "Side",
    "involute_rooms",
    "serration_rooms",
    "straight_rooms",
]

Side = Literal["external", "internal"]
Quantity = Literal["major_diameter", "minor_diameter", "width"]

_LOOSEST_CLASS, _USUAL_CLASS = 7, 5
_MOST_FIT_DIAMETER, _MOST_SIZE = 0.250, 0.500  # ends of the tables of fits and of grades
_USUAL_SHARE = 0.25  # parts as made lie this share of the tolerance off the basic size, on average (assumed)
_USUAL_WIDTH = 0.5  # the same for widths, of the class 5 total (assumed)

MOST_WEAR = 0.4e-3
"""Most wear with which a size is still offered, m of tooth thickness or space width. Mark: assumed; a
little above the largest total clearance at which workshop manuals still keep a joint (0.3 mm)."""
_WORN_SHARE = 0.3  # and never more than this share of the basic width (assumed)
_TIP_LOSS = 0.2e-3  # tips turned, dressed or rubbed down, on the diameter (assumed) ...
_TIP_LOSS_SHARE = 0.1  # ... and this share of the module

_MAKERS_CHOICE = 0.15e-3  # SAE J499 leaves shaft sizes to the maker (assumed)
_NOMINAL_ONLY = 0.2e-3  # a serration is named by rounded diameters (assumed)


@dataclass(frozen=True, slots=True)
class Room:
    """Basic size; how far making may take it to the worn side, and usually does; how much further wear may.

    All in m. NaN as basic size: the standard's number is not known.
    """

    basic: float
    made: float
    worn: float
    usual: float


@dataclass(frozen=True, slots=True)
class Rooms:
    """The three dimensions that can be read on one member. Width: tooth thickness, or space width."""

    major_diameter: Room
    minor_diameter: Room
    width: Room

    def of(self, quantity: Quantity | str) -> Room:
        """The room of one dimension by its name."""
        return cast("Room", getattr(self, quantity))


UNKNOWN = Room(math.nan, math.nan, math.nan, math.nan)


def _part(basic: float, tolerance: float, worn: float = 0.0, below: float = 0.0) -> Room:
    """Room of a dimension with a plain tolerance, `below` which a looser fit may lie."""
    return Room(basic, tolerance + below, worn, _USUAL_SHARE * tolerance)


def _total(spline: InvoluteSpline, fit_class: int) -> float:
    """Machining tolerance and variation allowance of tooth or space; ISO 4156's for DIN 5480 as well."""
    if spline.standard == ansi_b92_1.STANDARD:
        P = INCH / spline.module
        return machining_tolerance(spline.teeth, P, fit_class) + variation_allowance(
            spline.teeth, P, fit_class
        )
    return iso_4156_tolerances.total_tolerance(spline.teeth, spline.module, fit_class)


def _tip_tolerance(spline: InvoluteSpline, diameter: float) -> float:
    """Tolerance of a tip diameter. Inch: 0.005 in, read for one size at 16/32; less for finer pitches."""
    m = spline.module
    if spline.standard == ansi_b92_1.STANDARD:
        return min(0.005 * INCH, 0.08 * m)
    grade = 11
    if spline.standard == iso_4156.STANDARD:
        grade = 10 if m < 0.76 * MILLIMETRE else 11 if m < 1.99 * MILLIMETRE else 12
    return grade_tolerance(min(diameter, _MOST_SIZE), grade)


def _loosest_fit(spline: InvoluteSpline) -> float:
    """Return the thickness reduction of fit d; the table's last row beyond its end."""
    if spline.standard == ansi_b92_1.STANDARD:
        return 0.0
    diameter = min(spline.pitch_diameter, _MOST_FIT_DIAMETER)
    return iso_4156_tolerances.fundamental_deviation(diameter, "d")


def involute_rooms(spline: InvoluteSpline) -> dict[Side, Rooms]:
    """Rooms of both members of an involute spline."""
    m = spline.module
    din = spline.standard == din_5480.STANDARD
    external, internal = spline.external, spline.internal
    outer = _tip_tolerance(spline, external.major_diameter)
    inner = _tip_tolerance(spline, internal.minor_diameter)
    root = 0.7 * m if din else outer + 0.1 * m  # DIN: broached to cold rolled
    shallower = 0.1 * m if din else 0.0  # the module of the standard knows the hobbed root
    thinner = _loosest_fit(spline)
    lower = thinner / math.tan(spline.pressure_angle)
    total = _total(spline, _LOOSEST_CLASS)
    usual = _USUAL_WIDTH * _total(spline, _USUAL_CLASS)
    worn = min(MOST_WEAR, _WORN_SHARE * spline.tooth_thickness)
    tip_loss = _TIP_LOSS + _TIP_LOSS_SHARE * m
    return {
        "external": Rooms(
            _part(external.major_diameter, outer, tip_loss, lower),
            _part(external.minor_diameter + shallower, root, 0.0, lower),
            Room(spline.tooth_thickness, total + thinner, worn, usual),
        ),
        "internal": Rooms(
            _part(internal.major_diameter - shallower, root),
            _part(internal.minor_diameter, inner, tip_loss),
            Room(spline.space_width, total, worn, usual),
        ),
    }


def straight_rooms(spline: StraightSpline) -> dict[Side, Rooms]:
    """Rooms of both members of a straight-sided spline."""
    D, d, b = spline.major_diameter, spline.minor_diameter, spline.tooth_width
    worn = min(MOST_WEAR, _WORN_SHARE * b)
    if spline.standard == "sae j499":
        free = _MAKERS_CHOICE
        return {
            "external": Rooms(_part(D, free, _TIP_LOSS), _part(d, free), _part(b, free, worn)),
            "internal": Rooms(_part(D, free), _part(d, free, _TIP_LOSS), _part(b, free, worn)),
        }
    # shaft D a11, d f7 to h7, B d10 to h10; hub D H10, d H7, B H9 or, hardened, H11
    seat = grade_tolerance(d, 7)
    return {
        "external": Rooms(
            _part(D, shaft_deviation(D, "a") + grade_tolerance(D, 11), _TIP_LOSS),
            _part(d, shaft_deviation(d, "f") + seat, _TIP_LOSS),
            _part(b, shaft_deviation(b, "d") + grade_tolerance(b, 10), worn),
        ),
        "internal": Rooms(
            _part(D, grade_tolerance(D, 10)),
            _part(d, seat, _TIP_LOSS),
            _part(b, grade_tolerance(b, 11), worn),
        ),
    }


def serration_rooms(minor: float, major: float) -> dict[Side, Rooms]:
    """Rooms of a serration that is known by its nominal diameters alone; its width cannot be judged."""
    room = 2.0 * _NOMINAL_ONLY
    return {
        "external": Rooms(_part(major + _NOMINAL_ONLY, room, _TIP_LOSS), UNKNOWN, UNKNOWN),
        "internal": Rooms(UNKNOWN, _part(minor - _NOMINAL_ONLY, room, _TIP_LOSS), UNKNOWN),
    }
