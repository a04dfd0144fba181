"""Metric involute splines of DIN 5480 (30 deg): from reference diameter, module and teeth."""

import math

from torqcheck.errors import DomainError
from torqcheck.geometry._domain import LEAST_TEETH
from torqcheck.geometry.spline import InvoluteSpline, Member, NewClearance
from torqcheck.geometry.standards.iso_4156 import class_clearance, series_module
from torqcheck.provenance import Source

__all__ = ["MODULES", "STANDARD", "profile_shift", "spline"]

STANDARD = "din 5480"
PRESSURE_ANGLE = math.radians(30.0)

BASIC = Source(
    "DIN 5480-1:2006, Involute splines based on reference diameters",
    "basic dimensions; they reproduce the printed inspection values of 50 x 2 x 24",
    "from memory",
)

MODULES = (0.5, 0.6, 0.75, 0.8, 1, 1.25, 1.5, 1.75, 2, 2.5, 3, 4, 5, 6, 8, 10)
"""Modules of the standard, mm (mark: from memory)."""

_USUAL_SHIFT = (-0.05, 0.45)
_WORST_SHIFT = 1.0  # beyond this the diameter and the teeth do not belong together
_TOOTH_ROOT = 0.60  # depth of the hobbed root below the profile reference line, in modules
_WORKING_DEPTH = 0.9
_ROUNDING = 1e-6
_STAND_IN_CLASS = 6


def profile_shift(reference_diameter: float, module: float, teeth: int) -> float:
    """
    Profile shift coefficient x1 of the shaft; the hub has its negative. 2 x1 m = dB - m z - 1.1 m.

    Parameters
    ----------
    reference_diameter : float, m
        dB.
    module : float, m
        m.
    teeth : int, -
        z.
    """
    return 0.5 * (reference_diameter / module - teeth - 1.1)


def spline(reference_diameter: float, module: float, teeth: int) -> InvoluteSpline:
    """
    Flank-centred spline of DIN 5480 with nominal tooth thickness (H/h), roots as hobbed.

    Parameters
    ----------
    reference_diameter : float, m
        dB.
    module : float, m
        One of the standard's series.
    teeth : int, -
        z, 4 or more.

    Returns
    -------
    InvoluteSpline
        Dimensions of both members in m, a stand-in for the clearance of a new pair, sources, notes.

    Raises
    ------
    DomainError
        If the standard has no such module, the teeth are fewer than 4, or diameter, module and
        teeth do not belong together.
    """
    if teeth != int(teeth) or teeth < LEAST_TEETH:
        raise DomainError(f"teeth must be a whole number, {LEAST_TEETH} or more")
    if not 0.0 < reference_diameter < math.inf:
        raise DomainError("reference_diameter must be above 0 and finite")
    m = series_module(module, MODULES, STANDARD)
    shift = profile_shift(reference_diameter, m, teeth)
    if not abs(shift) <= _WORST_SHIFT:
        fitting = max(round(reference_diameter / m - 1.1 - 2.0 * 0.2), LEAST_TEETH)
        raise DomainError(
            f"reference diameter {reference_diameter * 1e3:g} mm, module {m * 1e3:g} mm and {teeth} teeth "
            f"do not belong together; about {fitting} teeth would"
        )
    least, most = _USUAL_SHIFT
    notes = [
        f"roots as hobbed, {_TOOTH_ROOT:g} of the module below the profile line; 0.55 broached, 0.65 shaped",
        "no form diameter: the standard's form clearance could not be read",
    ]
    if not least - _ROUNDING <= shift <= most + _ROUNDING:
        notes.append(
            f"profile shift {shift:.3f} lies outside the usual {least:g} to {most:g}: check diameter, "
            "module and number of teeth"
        )
    width = 0.5 * math.pi * m + 2.0 * shift * m * math.tan(PRESSURE_ANGLE)
    profile_line = m * (teeth + 2.0 * shift)
    return InvoluteSpline(
        standard=STANDARD,
        designation=f"{reference_diameter * 1e3:g} x {m * 1e3:g} x {teeth}",
        teeth=int(teeth),
        module=m,
        pressure_angle=PRESSURE_ANGLE,
        root="flat",
        external=Member(
            major_diameter=reference_diameter - 0.2 * m,
            minor_diameter=profile_line - 2.0 * _TOOTH_ROOT * m,
            form_diameter=None,
        ),
        internal=Member(
            major_diameter=profile_line + 2.0 * _TOOTH_ROOT * m,
            minor_diameter=reference_diameter - 2.0 * m,
            form_diameter=None,
        ),
        tooth_thickness=width,
        space_width=width,
        contact_height=_WORKING_DEPTH * m,
        new_clearance=_stand_in(teeth, m),
        sources=(BASIC,),
        notes=tuple(notes),
    )


def _stand_in(teeth: int, module: float) -> NewClearance:
    """Return another standard's clearance: the tolerances of DIN 5480 could not be read."""
    return class_clearance(
        teeth,
        module,
        _STAND_IN_CLASS,
        f"ISO 4156 class {_STAND_IN_CLASS}, fit H/h, in place of the tolerances of DIN 5480, which could "
        "not be read",
        stand_in=True,
    )
