"""An involute spline of no standard, from the user's own dimensions."""

import math
from collections.abc import Mapping

from torqcheck.errors import DomainError
from torqcheck.geometry._domain import LEAST_TEETH
from torqcheck.geometry.spline import InvoluteSpline, Member
from torqcheck.geometry.standards.iso_4156 import class_clearance
from torqcheck.provenance import Source

__all__ = ["STANDARD", "own_spline"]

STANDARD = "own"
GIVEN = Source("Dimensions given by the user", "", "measured")
INFERRED = Source(
    "Dimensions given by the user", "tips set half the contact height off the pitch line", "assumed"
)
_STAND_IN_CLASS = 6


def _refuse_impossible(lengths: Mapping[str, float], teeth: int, pressure_angle: float) -> None:
    """Raise DomainError for dimensions that no spline can have together."""
    if teeth != int(teeth) or teeth < LEAST_TEETH:
        raise DomainError(f"teeth must be a whole number, {LEAST_TEETH} or more")
    if not 0.0 < pressure_angle < 0.5 * math.pi:
        raise DomainError("pressure_angle must lie between 0 and pi/2 rad")
    for name, length in lengths.items():
        if not 0.0 < length < math.inf:
            raise DomainError(f"{name} must be above 0 and finite")
    if not lengths["root_diameter"] < lengths["pitch_diameter"] < lengths["internal_major_diameter"]:
        raise DomainError("pitch_diameter must lie between root_diameter and internal_major_diameter")
    if not lengths["tooth_thickness"] < math.pi * lengths["pitch_diameter"] / teeth:
        raise DomainError("tooth_thickness leaves no space: it must be below the circular pitch")
    depth = 0.5 * (lengths["internal_major_diameter"] - lengths["root_diameter"])
    if not lengths["contact_height"] <= depth:
        raise DomainError(
            "contact_height is more than the depth between root_diameter and internal_major_diameter"
        )


def own_spline(
    *,
    teeth: int,
    pressure_angle: float,
    pitch_diameter: float,
    root_diameter: float,
    internal_major_diameter: float,
    tooth_thickness: float,
    contact_height: float,
) -> InvoluteSpline:
    """
    Involute spline from the user's own dimensions.

    Parameters
    ----------
    teeth : int, -
        N, 4 or more.
    pressure_angle : float, rad
        At the pitch diameter.
    pitch_diameter : float, m
        D.
    root_diameter : float, m
        Minor diameter of the external member.
    internal_major_diameter : float, m
        Diameter at the bottom of the hub's spaces.
    tooth_thickness : float, m
        Along the pitch circle.
    contact_height : float, m
        Radial depth of engagement.

    Returns
    -------
    InvoluteSpline
        Space width set equal to the tooth thickness; the tips, which are not given, set so that the
        contact height straddles the pitch line as far as the roots allow.

    Raises
    ------
    DomainError
        If a number is impossible by itself or with the others.
    """
    lengths = {
        "pitch_diameter": pitch_diameter,
        "root_diameter": root_diameter,
        "internal_major_diameter": internal_major_diameter,
        "tooth_thickness": tooth_thickness,
        "contact_height": contact_height,
    }
    _refuse_impossible(lengths, teeth, pressure_angle)
    # keep both tips clear of the other member's root
    internal_minor = max(pitch_diameter - contact_height, root_diameter)
    external_major = min(internal_minor + 2.0 * contact_height, internal_major_diameter)
    internal_minor = external_major - 2.0 * contact_height
    module = pitch_diameter / teeth
    return InvoluteSpline(
        standard=STANDARD,
        designation=f"{teeth}T, pitch diameter {pitch_diameter * 1e3:.4g} mm, "
        f"{math.degrees(pressure_angle):.4g} deg",
        teeth=int(teeth),
        module=module,
        pressure_angle=pressure_angle,
        root="flat",
        external=Member(major_diameter=external_major, minor_diameter=root_diameter, form_diameter=None),
        internal=Member(
            major_diameter=internal_major_diameter, minor_diameter=internal_minor, form_diameter=None
        ),
        tooth_thickness=tooth_thickness,
        space_width=tooth_thickness,
        contact_height=contact_height,
        new_clearance=class_clearance(
            int(teeth),
            module,
            _STAND_IN_CLASS,
            f"ISO 4156 class {_STAND_IN_CLASS}, fit H/h, in place of a drawing's tolerances",
            stand_in=True,
        ),
        sources=(GIVEN, INFERRED),
        notes=(
            "tip diameters are not given; they are set so that the contact height straddles the pitch line",
            "the hub's space is taken as wide as the shaft's tooth",
            "no form diameter: none was given",
        ),
    )
