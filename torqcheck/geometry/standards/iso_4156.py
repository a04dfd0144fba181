"""Metric involute splines of ISO 4156 (ANSI B92.2M): dimensions from teeth and module."""

import math
from dataclasses import dataclass

from torqcheck.errors import DomainError
from torqcheck.geometry._domain import LEAST_TEETH
from torqcheck.geometry.spline import InvoluteSpline, Member, NewClearance, Root
from torqcheck.geometry.standards._angles import nominal_angle
from torqcheck.geometry.standards.iso_4156_tolerances import (
    COMPONENTS,
    TOTAL,
    total_tolerance,
    variation_allowance,
)
from torqcheck.provenance import Source, weakest_mark

__all__ = ["MODULES", "STANDARD", "class_clearance", "form_diameter", "series_module", "spline"]

STANDARD = "iso 4156"

BASIC = Source(
    "ISO 4156-1:2005, Straight cylindrical involute splines (ANSI B92.2M)", "basic dimensions", "from memory"
)
GUIDE = Source(
    "Machinery's Handbook, Involute Splines",
    "radial depth of engagement 0.9 m (flat root), m (fillet root)",
    "from memory",
)

MODULES = (0.25, 0.5, 0.75, 1, 1.25, 1.5, 1.75, 2, 2.5, 3, 4, 5, 6, 8, 10)
"""Modules of the standard, mm (mark: from memory)."""

_FORM_CLEARANCE = 0.1  # of the module
_LEAST_STANDARD_TEETH = 6
_MOST_TEETH = 100


@dataclass(frozen=True, slots=True)
class _Form:
    """One column of the table: tip, roots and form depth in modules."""

    tip: float
    form: float  # hub form diameter m (Z + form) + 2 cF
    root: float
    form_depth: float


_FORMS: dict[tuple[float, Root], _Form] = {
    (30.0, "flat"): _Form(1.0, 1.0, 1.5, 0.6),
    (30.0, "fillet"): _Form(1.0, 1.0, 1.8, 0.6),
    (37.5, "fillet"): _Form(0.9, 0.9, 1.4, 0.55),
    (45.0, "fillet"): _Form(0.8, 0.8, 1.2, 0.5),
}


def series_module(module: float, series: tuple[float, ...], standard: str) -> float:
    """
    Return the module of the series that a module means, m.

    Parameters
    ----------
    module : float, m
        Module.
    series : tuple of float, mm
        Modules of the standard.
    standard : str
        Its name, for the message.

    Raises
    ------
    DomainError
        If the series has no such module; names those that it has.
    """
    for value in series:
        if math.isclose(module, value * 1e-3, rel_tol=1e-9):
            return value * 1e-3
    raise DomainError(
        f"{standard} has no module of {module * 1e3:.6g} mm; its series in mm: "
        + " ".join(f"{value:g}" for value in series)
    )


def form_diameter(teeth: int, module: float, pressure_angle: float, form_depth: float) -> float:
    """
    Largest form diameter of the shaft, m: the flank must be true down to here.

    Where the rack would reach below the base circle, that circle is the limit.

    Parameters
    ----------
    teeth : int, -
        Number of teeth.
    module : float, m
        Module.
    pressure_angle : float, rad
        At the pitch diameter.
    form_depth : float, m
        Depth of the basic rack below the pitch line.
    """
    D = teeth * module
    unwound = 0.5 * D * math.sin(pressure_angle) - form_depth / math.sin(pressure_angle)
    return 2.0 * math.hypot(0.5 * D * math.cos(pressure_angle), max(unwound, 0.0))


def class_clearance(teeth: int, module: float, fit_class: int, assumes: str, stand_in: bool) -> NewClearance:
    """
    Clearance of a new H/h pair of one tolerance class.

    The allowance for errors of lead is taken for a spline as long as its pitch diameter.

    Parameters
    ----------
    teeth : int, -
        Number of teeth.
    module : float, m
        Module.
    fit_class : int, -
        4 (closest) to 7.
    assumes : str
        What the clearance holds for, in words.
    stand_in : bool
        Whether these tolerances stand in for unread ones of another standard, so that they are assumed.

    Raises
    ------
    DomainError
        If the class does not exist.
    """
    total = total_tolerance(teeth, module, fit_class)
    variation = variation_allowance(teeth, module, teeth * module, fit_class)
    return NewClearance(
        minimum=0.0,
        maximum=2.0 * (total - variation),
        bedded_in=2.0 * total,
        assumes=assumes,
        source=Source(
            TOTAL.work,
            f"total tolerance of class {fit_class}; Machinery's Handbook, 31st edition, Table 16",
            "assumed" if stand_in else weakest_mark((TOTAL.mark, COMPONENTS.mark)),
        ),
    )


def _refuse_bad(teeth: int) -> None:
    """Raise DomainError for a number of teeth that is no spline."""
    if teeth != int(teeth) or teeth < LEAST_TEETH:
        raise DomainError(f"teeth must be a whole number, {LEAST_TEETH} or more")


def spline(
    teeth: int, module: float, pressure_angle: float = math.radians(30.0), root: Root = "flat"
) -> InvoluteSpline:
    """
    Side-fit spline of ISO 4156 with fit H/h.

    Parameters
    ----------
    teeth : int, -
        Z, 4 or more; outside the standard's 6 to 100 a note says so.
    module : float, m
        One of the standard's series.
    pressure_angle : float, rad, optional
        30, 37.5 or 45 deg.
    root : str, optional
        "flat" (30 deg only) or "fillet".

    Returns
    -------
    InvoluteSpline
        Dimensions of both members in m, the clearance of a new class 5 pair, sources and notes.

    Raises
    ------
    DomainError
        If the standard has no such module, angle or root, or the teeth are fewer than 4.
    """
    _refuse_bad(teeth)
    m = series_module(module, MODULES, STANDARD)
    angle = nominal_angle(pressure_angle, (30.0, 37.5, 45.0), STANDARD)
    form = _FORMS.get((angle, root))
    if form is None:
        raise DomainError(
            f'{STANDARD} at {angle:g} deg has no root {root!r}; write root = "fillet"'
            + (' or "flat"' if angle == 30.0 else "")
        )
    clearance = _FORM_CLEARANCE * m
    shaft_form = form_diameter(teeth, m, math.radians(angle), form.form_depth * m)
    external = Member(
        major_diameter=m * (teeth + form.tip),
        minor_diameter=m * (teeth - form.root),
        form_diameter=shaft_form,
    )
    internal = Member(
        major_diameter=m * (teeth + form.root),
        minor_diameter=shaft_form + 2.0 * clearance,
        form_diameter=m * (teeth + form.form) + 2.0 * clearance,
    )
    overlap = 0.5 * (external.major_diameter - internal.minor_diameter)
    guide = {(30.0, "flat"): 0.9 * m, (30.0, "fillet"): m}.get((angle, root), overlap)
    notes = []
    if not _LEAST_STANDARD_TEETH <= teeth <= _MOST_TEETH:
        notes.append(
            f"{teeth} teeth lie outside the standard's {_LEAST_STANDARD_TEETH} to {_MOST_TEETH} (limits from "
            "memory); the formulas are carried on"
        )
    if guide > overlap:
        notes.append(
            f"the strength guide's contact height, {guide / m:.2f} of the module, is more than the "
            f"{overlap / m:.2f} on which these members really face each other"
        )
    return InvoluteSpline(
        standard=STANDARD,
        designation=f"{teeth}Z x {m * 1e3:g}m x {angle:g} deg {root} root",
        teeth=int(teeth),
        module=m,
        pressure_angle=math.radians(angle),
        root=root,
        external=external,
        internal=internal,
        tooth_thickness=0.5 * math.pi * m,
        space_width=0.5 * math.pi * m,
        contact_height=guide,
        new_clearance=class_clearance(teeth, m, 5, "both members class 5, fit H/h", stand_in=False),
        sources=(BASIC, GUIDE),
        notes=tuple(notes),
    )
