"""Limits of involute splines for a drawing: widths and diameters of both members, by class and fit."""

import math
from dataclasses import replace
from typing import Any

from torqcheck.errors import DomainError
from torqcheck.geometry.lengths import INCH
from torqcheck.geometry.spline import InvoluteSpline, Member
from torqcheck.geometry.standards import ansi_b92_1, din_5480, iso_4156
from torqcheck.geometry.standards.ansi_b92_1_tolerances import machining_tolerance
from torqcheck.geometry.standards.ansi_b92_1_tolerances import variation_allowance as inch_variation_allowance
from torqcheck.geometry.standards.iso_286 import ISO_286, grade_tolerance
from torqcheck.geometry.standards.iso_4156_tolerances import (
    COMPONENTS,
    DEVIATIONS,
    TOTAL,
    fundamental_deviation,
    total_tolerance,
    variation_allowance,
)
from torqcheck.geometry.standards.limit_bands import (
    Band,
    ExternalLimits,
    InternalLimits,
    WidthLimits,
    hole_limits,
)
from torqcheck.provenance import Source, weakest_mark

__all__ = [
    "FITS",
    "MAJOR_DIAMETER_FIT",
    "SIDE_FIT",
    "Band",
    "ExternalLimits",
    "InternalLimits",
    "WidthLimits",
    "involute_limits",
    "known_fit",
    "with_major_diameter_fit",
]

SIDE_FIT = "side fit"
MAJOR_DIAMETER_FIT = "major diameter fit"
FITS: dict[str, tuple[str, ...]] = {
    ansi_b92_1.STANDARD: (SIDE_FIT, MAJOR_DIAMETER_FIT),
    iso_4156.STANDARD: ("H/h", "H/f", "H/e", "H/d"),
    din_5480.STANDARD: ("H/h", "H/f", "H/e", "H/d"),
}
"""Fits of each standard, the usual one first."""

_USUAL_CLASS = {ansi_b92_1.STANDARD: 5, iso_4156.STANDARD: 5, din_5480.STANDARD: 6}
_COARSEST_CLASS = 7


def involute_limits(
    spline: InvoluteSpline, fit_class: int | None = None, fit: str | None = None, length: float | None = None
) -> tuple[ExternalLimits, InternalLimits]:
    """
    Limits of both members of an involute spline.

    Parameters
    ----------
    spline : InvoluteSpline
        Of ANSI B92.1, ISO 4156 or DIN 5480; a major diameter fit by ``with_major_diameter_fit``.
    fit_class : int, -, optional
        Tolerance class 4 (closest) to 7; 5 if not given, 6 for the stand-in of DIN 5480.
    fit : str, optional
        One of `FITS` of the standard; the first of them if not given.
    length : float, m, optional
        Length of the spline, on which the errors of lead depend (ISO 4156 only); the pitch diameter
        if not given.

    Returns
    -------
    tuple of ExternalLimits and InternalLimits
        Limits in m with their sources.

    Raises
    ------
    DomainError
        If the standard, class or fit is not known, or a size lies beyond a table.

    Notes
    -----
    With E the space, S the tooth, T the machining tolerance, lam the variation allowance and es the
    thinning of the tooth by the fit::

        E_v min = basic             E max = E_v min + T + lam     E min = E_v min + lam
        S_v max = basic - es        S min = S_v max - T - lam     S max = S_v max - lam

    Examples
    --------
    >>> shaft, hub = involute_limits(ansi_b92_1.spline(27, "24/48"))
    >>> print(f"{shaft.tooth_thickness.actual.minimum / 0.0254:.4f} in")
    0.0627 in
    """
    builders = {ansi_b92_1.STANDARD: _ansi, iso_4156.STANDARD: _iso, din_5480.STANDARD: _din}
    if spline.standard not in builders:
        raise DomainError(f"no limits are known for a spline of standard {spline.standard!r}")
    if length is not None and not 0.0 < length < math.inf:
        raise DomainError("length must be above 0 and finite")
    fit = known_fit(spline.standard, fit)
    fit_class = _USUAL_CLASS[spline.standard] if fit_class is None else fit_class
    return builders[spline.standard](spline, fit_class, fit, length or spline.pitch_diameter)


def known_fit(standard: str, fit: str | None) -> str:
    """
    Return the fit in the spelling of `FITS`.

    Parameters
    ----------
    standard : str
        One of those that have fits.
    fit : str or None
        As it is written; None for the usual one.

    Raises
    ------
    DomainError
        If the standard has no such fit.
    """
    fits = FITS[standard]
    if fit is None:
        return fits[0]
    plain = fit.replace(" ", "") if standard != ansi_b92_1.STANDARD else fit.strip().lower()
    if standard == ansi_b92_1.STANDARD and plain in {"side", "major diameter"}:
        plain += " fit"
    if plain not in fits:
        raise DomainError(f"{standard} has no fit {fit!r}; it has {', '.join(fits)}")
    return plain


def _tooth(largest_effective: float, total: float, variation: float) -> WidthLimits:
    """Limits of a tooth below its largest effective thickness."""
    least = largest_effective - total
    return WidthLimits(
        actual=Band(least, largest_effective - variation),
        effective=Band(least + variation, largest_effective),
    )


def _space(least_effective: float, total: float, variation: float) -> WidthLimits:
    """Limits of a space above its least effective width."""
    most = least_effective + total
    return WidthLimits(
        actual=Band(least_effective + variation, most), effective=Band(least_effective, most - variation)
    )


_TIP_TOLERANCE = 0.005 * INCH
_TIP_TOLERANCE_PITCH = 16.0  # the pitch for which it was read
_B92_1_WIDTHS = Source(ansi_b92_1.FROM_MEMORY.work, "tolerance table and class factors", "from memory")
_TIP_READ = Source(
    "Forum question on dimension across pins, ANSI B92.1, thread of practitioners, 2011",
    "minor diameter 2.188 to 2.193 in of a hub of 36 teeth 16/32",
    "published",
)
_TIP_CARRIED = Source(
    "Tolerance 0.005 in of one hub of 16/32 pitch, carried to this tip",
    "0.08/P at finer pitches; roots reach the form circle",
    "assumed",
)


def with_major_diameter_fit(spline: InvoluteSpline) -> InvoluteSpline:
    """
    Return an inch side-fit spline as a major diameter fit: hub bottom and shaft tip centre the parts.

    Raises
    ------
    DomainError
        If the spline is not of ANSI B92.1 with a flat root at 30 deg, the only form that has it.
    """
    flat = spline.root == "flat" and abs(spline.pressure_angle - math.radians(30.0)) < 1e-6
    if spline.standard != ansi_b92_1.STANDARD or not flat:
        raise DomainError("a major diameter fit exists in ANSI B92.1 at 30 deg with a flat root only")
    m, N = spline.module, spline.teeth
    clearance, P = ansi_b92_1.form_clearance(spline.pitch_diameter), INCH / m
    return replace(
        spline,
        designation=f"{spline.designation}, {MAJOR_DIAMETER_FIT}",
        internal=Member(
            major_diameter=(N + 1.0) * m,
            minor_diameter=spline.internal.minor_diameter,
            form_diameter=(N + 0.8) * m - 0.004 * INCH + 2.0 * clearance,
        ),
        notes=(
            *spline.notes,
            *(() if 2.99 < P < 16.01 else ("major diameter fits are tabulated from 3/6 to 16/32 only",)),
        ),
    )


def _ansi(
    spline: InvoluteSpline, fit_class: int, fit: str, _length: float
) -> tuple[ExternalLimits, InternalLimits]:
    """ANSI B92.1: class factors on the class 5 table; all classes share the effective limits."""
    P, m = INCH / spline.module, spline.module
    machining = machining_tolerance(spline.teeth, P, fit_class)
    variation = inch_variation_allowance(spline.teeth, P, fit_class)
    total = machining + variation
    major_fit = fit == MAJOR_DIAMETER_FIT
    if major_fit and not math.isclose(spline.internal.major_diameter, spline.external.major_diameter):
        spline = with_major_diameter_fit(spline)
    tip = min(_TIP_TOLERANCE, 0.08 * m)
    shaft, hub = spline.external, spline.internal
    # at the finest pitches the least form clearance, 0.002 in, is more than the root leaves
    shaft_room = shaft.form_diameter is not None and shaft.minor_diameter < shaft.form_diameter
    hub_room = hub.form_diameter is not None and hub.form_diameter < hub.major_diameter
    no_room = "the least form clearance, 0.002 in, puts the form circle beyond the root at so fine a pitch"
    thinned = "how far the tooth of a major diameter fit is thinned could not be read"
    centring = "the tolerance of the centring diameters could not be read"
    external = ExternalLimits(
        fit=fit,
        fit_class=fit_class,
        tooth_thickness=None if major_fit else _tooth(spline.tooth_thickness, total, variation),
        major_diameter=Band(None if major_fit else shaft.major_diameter - tip, shaft.major_diameter),
        minor_diameter=Band(shaft.minor_diameter, shaft.form_diameter if shaft_room else None),
        form_diameter=shaft.form_diameter,
        width_source=_B92_1_WIDTHS,
        diameter_source=_TIP_CARRIED,
        form_source=ansi_b92_1.FORMULAS_TABLE,
        absent=(("tooth_thickness", thinned), ("major_diameter", centring)) if major_fit else (),
        notes=() if shaft_room else (f"shaft: {no_room}",),
    )
    internal = InternalLimits(
        fit=fit,
        fit_class=fit_class,
        space_width=_space(spline.space_width, total, variation),
        major_diameter=(
            Band(hub.major_diameter, None)
            if major_fit
            else Band(hub.form_diameter if hub_room else None, hub.major_diameter)
        ),
        minor_diameter=Band(hub.minor_diameter, hub.minor_diameter + tip),
        form_diameter=hub.form_diameter,
        width_source=_B92_1_WIDTHS,
        diameter_source=_TIP_READ if math.isclose(P, _TIP_TOLERANCE_PITCH) else _TIP_CARRIED,
        form_source=ansi_b92_1.FORMULAS_TABLE,
        absent=(("major_diameter", centring),) if major_fit else (),
        notes=() if hub_room else (f"hub: {no_room}",),
    )
    return external, internal


_ISO_WIDTHS = Source(
    f"{TOTAL.work}; {COMPONENTS.work}, {COMPONENTS.where}; Table 17",
    "total tolerance, variations, fits",
    weakest_mark((TOTAL.mark, COMPONENTS.mark, DEVIATIONS.mark)),
)
_ISO_DIAMETERS = Source(
    iso_4156.BASIC.work, "tips by grade of ISO 286, roots by the total tolerance of class 7", "from memory"
)


def _tip_grade(module: float) -> int:
    """Grade of the tip diameters by module."""
    if module <= 0.75e-3 * (1.0 + 1e-9):
        return 10
    return 11 if module < 2e-3 * (1.0 - 1e-9) else 12


def _variation_within(total: float, teeth: int, m: float, length: float, fit_class: int) -> float:
    """Variation allowance of ISO 4156; beyond the total tolerance it would turn the limits around."""
    variation = variation_allowance(teeth, m, length, fit_class)
    if variation >= total:
        raise DomainError(
            f"over a length of {length * 1e3:.4g} mm the errors of lead take the whole tolerance of class "
            f"{fit_class}: no limits are left; check the length, or take a coarser class"
        )
    return variation


def _iso(
    spline: InvoluteSpline, fit_class: int, fit: str, length: float
) -> tuple[ExternalLimits, InternalLimits]:
    """ISO 4156: the fit thins the tooth and draws all diameters of the shaft in with it."""
    m, teeth, a = spline.module, spline.teeth, spline.pressure_angle
    total = total_tolerance(teeth, m, fit_class)
    variation = _variation_within(total, teeth, m, length, fit_class)
    thinning = fundamental_deviation(spline.pitch_diameter, fit[-1])
    drawn_in = thinning / math.tan(a)
    at_root = total_tolerance(teeth, m, _COARSEST_CLASS) / math.tan(a)
    major, minor = spline.external.major_diameter - drawn_in, spline.external.minor_diameter - drawn_in
    hub_major, hub_minor = spline.internal.major_diameter, spline.internal.minor_diameter
    grade = _tip_grade(m)
    common: dict[str, Any] = {
        "fit": fit,
        "fit_class": fit_class,
        "width_source": _ISO_WIDTHS,
        "diameter_source": _ISO_DIAMETERS,
        "form_source": iso_4156.BASIC,
    }
    inch_form = 0.2e-3 * (m * 1e3) ** 0.667 - 0.01e-3 * (m * 1e3) ** -0.5
    external = ExternalLimits(
        tooth_thickness=_tooth(spline.tooth_thickness - thinning, total, variation),
        major_diameter=Band(major - grade_tolerance(major, grade), major),
        minor_diameter=Band(minor - at_root, minor),
        form_diameter=_iso_form(spline, thinning),
        **common,
    )
    internal = InternalLimits(
        space_width=_space(spline.space_width, total, variation),
        major_diameter=Band(hub_major, hub_major + at_root),
        minor_diameter=Band(hub_minor, hub_minor + grade_tolerance(hub_minor, grade)),
        form_diameter=spline.internal.form_diameter,
        notes=(
            f"tip tolerance IT{grade}; ANSI B92.2M (from memory) gives {inch_form * 1e3:.3f} mm in its place",
            f"variation allowance for a spline {length * 1e3:.4g} mm long",
        ),
        **common,
    )
    return external, internal


def _iso_form(spline: InvoluteSpline, thinning: float) -> float | None:
    """Form diameter of a shaft whose basic rack is moved in by the fit; never below the base circle."""
    basic, a, Db = spline.external.form_diameter, spline.pressure_angle, spline.base_diameter
    if basic is None:
        return None
    unwound = 0.5 * math.sqrt(max(basic**2 - Db**2, 0.0)) - 0.5 * thinning / (math.tan(a) * math.sin(a))
    return 2.0 * math.hypot(0.5 * Db, max(unwound, 0.0))


_DIN_DIAMETERS = Source(
    f"{din_5480.BASIC.work}; {ISO_286.work}", "tips h11 and H11, roots h14 and H14", "from memory"
)


def _din(
    spline: InvoluteSpline, fit_class: int, fit: str, length: float
) -> tuple[ExternalLimits, InternalLimits]:
    """DIN 5480: nominal widths with the tolerances of ISO 4156 in place of its own."""
    m, teeth = spline.module, spline.teeth
    total = total_tolerance(teeth, m, fit_class)
    variation = _variation_within(total, teeth, m, length, fit_class)
    thinning = fundamental_deviation(spline.pitch_diameter, fit[-1])
    stand_in = (
        f"width limits by ISO 4156 class {fit_class}, fit {fit}, in place of those of DIN 5480, which could "
        "not be read: use the drawing's where there is one"
    )
    common: dict[str, Any] = {
        "fit": fit,
        "fit_class": fit_class,
        "form_diameter": None,
        "width_source": Source(
            _ISO_WIDTHS.work, "in place of DIN 5480-1, which could not be read", "assumed"
        ),
        "diameter_source": _DIN_DIAMETERS,
        "form_source": din_5480.BASIC,
        "absent": (("form_diameter", "the form clearance of DIN 5480 could not be read"),),
        "notes": (stand_in,),
    }
    shaft, hub = spline.external, spline.internal
    external = ExternalLimits(
        tooth_thickness=_tooth(spline.tooth_thickness - thinning, total, variation),
        major_diameter=_below(shaft.major_diameter, 11),
        minor_diameter=_below(shaft.minor_diameter, 14),
        **common,
    )
    internal = InternalLimits(
        space_width=_space(spline.space_width, total, variation),
        major_diameter=hole_limits(hub.major_diameter, 14),
        minor_diameter=hole_limits(hub.minor_diameter, 11),
        **common,
    )
    return external, internal


def _below(size: float, grade: int) -> Band:
    """Limits of letter h."""
    return Band(size - grade_tolerance(size, grade), size)
