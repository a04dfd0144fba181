"""Limits of straight-sided splines for a drawing: ISO 14 by its fits, SAE J499 as far as it goes."""

from torqcheck.errors import DomainError
from torqcheck.geometry.lengths import INCH
from torqcheck.geometry.spline import StraightSpline
from torqcheck.geometry.standards.iso_286 import ISO_286, grade_tolerance, shaft_deviation
from torqcheck.geometry.standards.limit_bands import hole_limits
from torqcheck.geometry.standards.limits import Band, ExternalLimits, InternalLimits, WidthLimits
from torqcheck.provenance import Source

__all__ = ["ISO_14_FITS", "iso_14_limits", "sae_limits"]


# shaft letters and grades: tooth width, major diameter, minor diameter; the hub has H9 or H11, H10, H7
ISO_14_FITS: dict[str, tuple[tuple[str, int], tuple[str, int], tuple[str, int]]] = {
    "sliding": (("d", 10), ("a", 11), ("f", 7)),
    "close": (("f", 9), ("a", 11), ("g", 7)),
    "fixed": (("h", 10), ("a", 11), ("h", 7)),
}
"""Tolerance letters of the fits of ISO 14 (mark: published; the micrometres from memory)."""

_ISO_14_LIMITS = Source(
    f"ISO 14:1982, Straight-sided splines for cylindrical shafts; {ISO_286.work}",
    "letters read, micrometres remembered",
    "from memory",
)
_SAE_ROW = Source(
    "SAE J499 (2014 copy), Parallel side splines for soft broached holes in fittings",
    "six-spline row of 1 in",
    "published",
)
_SAE_CARRIED = Source(
    "SAE J499a, Parallel side splines for soft broached holes in fittings",
    "limits of the six-spline row of 1 in carried to this size",
    "assumed",
)
_CHAMFERED = ("form_diameter", "straight flanks run from chamfer to chamfer; no form diameter is defined")


def _shaft(size: float, letter_and_grade: tuple[str, int]) -> Band:
    """Limits of a shaft's dimension."""
    letter, grade = letter_and_grade
    most = size - shaft_deviation(size, letter)
    return Band(most - grade_tolerance(size, grade), most)


def iso_14_limits(
    spline: StraightSpline, fit: str = "sliding", hardened: bool = False
) -> tuple[ExternalLimits, InternalLimits]:
    """
    Limits of both members of an ISO 14 spline.

    Parameters
    ----------
    spline : StraightSpline
        Of ISO 14.
    fit : str, optional
        "sliding", "close" or "fixed".
    hardened : bool, optional
        Whether the hub is hardened after broaching, which widens its slot from H9 to H11.

    Returns
    -------
    tuple of ExternalLimits and InternalLimits
        Limits in m; the widths are those between parallel flanks.

    Raises
    ------
    DomainError
        If the fit is another.
    """
    if fit not in ISO_14_FITS:
        raise DomainError(f"fit {fit!r} is not one of {', '.join(ISO_14_FITS)}")
    width, major, minor = ISO_14_FITS[fit]
    slot = 11 if hardened else 9
    shaft_words = " ".join(
        f"{name} {letter}{grade}" for name, (letter, grade) in zip("BDd", (width, major, minor), strict=True)
    )
    external = ExternalLimits(
        fit=fit,
        fit_class=None,
        tooth_thickness=WidthLimits(_shaft(spline.tooth_width, width), None),
        major_diameter=_shaft(spline.major_diameter, major),
        minor_diameter=_shaft(spline.minor_diameter, minor),
        form_diameter=None,
        width_source=_ISO_14_LIMITS,
        diameter_source=_ISO_14_LIMITS,
        form_source=_ISO_14_LIMITS,
        absent=(_CHAMFERED,),
        notes=(f"shaft {shaft_words}",),
    )
    internal = InternalLimits(
        fit=fit,
        fit_class=None,
        space_width=WidthLimits(hole_limits(spline.tooth_width, slot), None),
        major_diameter=hole_limits(spline.major_diameter, 10),
        minor_diameter=hole_limits(spline.minor_diameter, 7),
        form_diameter=None,
        width_source=_ISO_14_LIMITS,
        diameter_source=_ISO_14_LIMITS,
        form_source=_ISO_14_LIMITS,
        absent=(_CHAMFERED,),
        notes=(
            f"hub B H{slot} ({'hardened' if hardened else 'not hardened'} after broaching), D H10, d H7; the "
            "minor diameter centres",
        ),
    )
    return external, internal


def sae_limits(spline: StraightSpline) -> tuple[ExternalLimits, InternalLimits]:
    """
    Limits of the hole of an SAE J499 spline; the standard leaves the shaft to its maker.

    Parameters
    ----------
    spline : StraightSpline
        Of SAE J499.

    Returns
    -------
    tuple of ExternalLimits and InternalLimits
        Limits in m: the hole ends at the nominal size and may be smaller. Those of the shaft are None.

    Notes
    -----
    Read for the six-spline hole of 1 in: diameters 0.001 in, slot 0.002 in below nominal. Other
    sizes take the same and are marked assumed.
    """
    read = spline.teeth == 6 and abs(spline.major_diameter - INCH) < 1e-9
    source = _SAE_ROW if read else _SAE_CARRIED
    makers = "the standard gives hole sizes only; shaft sizes are left to the maker"
    external = ExternalLimits(
        fit=spline.designation[-1],
        fit_class=None,
        tooth_thickness=None,
        major_diameter=Band(None, None),
        minor_diameter=Band(None, None),
        form_diameter=None,
        width_source=source,
        diameter_source=source,
        form_source=source,
        absent=(
            ("tooth_thickness", makers),
            ("major_diameter", makers),
            ("minor_diameter", makers),
            _CHAMFERED,
        ),
    )
    internal = InternalLimits(
        fit=spline.designation[-1],
        fit_class=None,
        space_width=WidthLimits(Band(spline.tooth_width - 0.002 * INCH, spline.tooth_width), None),
        major_diameter=Band(spline.major_diameter - 0.001 * INCH, spline.major_diameter),
        minor_diameter=Band(spline.minor_diameter - 0.001 * INCH, spline.minor_diameter),
        form_diameter=None,
        width_source=source,
        diameter_source=source,
        form_source=source,
        absent=(_CHAMFERED,),
    )
    return external, internal
