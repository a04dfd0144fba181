"""Inch involute splines of ANSI B92.1: dimensions from teeth, pitch, pressure angle and root."""

import math
import re
from dataclasses import dataclass

from torqcheck.errors import DomainError
from torqcheck.geometry._domain import LEAST_TEETH
from torqcheck.geometry.lengths import INCH
from torqcheck.geometry.spline import InvoluteSpline, Member, NewClearance, Root
from torqcheck.geometry.standards._angles import nominal_angle
from torqcheck.geometry.standards.ansi_b92_1_tolerances import machining_tolerance, variation_allowance
from torqcheck.provenance import Source

__all__ = ["PITCHES", "STANDARD", "diametral_pitch", "form_clearance", "spline"]

STANDARD = "ansi b92.1"

FORMULAS_TABLE = Source(
    "ANSI B92.1-1970 (R1993), Involute Splines",
    "table of basic formulas, as reproduced in a handbook-type table",
    "published",
)
FROM_MEMORY = Source(
    "ANSI B92.1-1970 (R1993), Involute Splines",
    "tooth thickness equal to space width; root diameters at 16/32 and finer; 45 deg hub",
    "from memory",
)
SERIES = Source("BS 3550:1963, Involute splines", "list of tables (2.5/5 to 32/64)", "published")
FINE_SERIES = Source("ANSI B92.1-1970 (R1993), Involute Splines", "40/80 to 128/256", "from memory")
GUIDE = Source(
    "D. W. Dudley, How to Design Involute Splines, Product Engineering, Oct. 28, 1957; Machinery's Handbook",
    "radial depth of engagement 0.9/P (flat root), 1/P (fillet root)",
    "from memory",
)

PITCHES = (2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20, 24, 32, 40, 48, 64, 80, 128)
"""Published diametral pitches, per inch; up to 32 read in a list of tables, finer ones from memory."""

_PITCH = re.compile(r"\s*(\d{1,3}(?:\.\d)?)\s*/\s*(\d{1,3})\s*", re.ASCII)
_FINEST_SEEN = 32.0
_FINEST_TOLERANCES = 48.0
_FINE = 16.0  # from this pitch on some roots are deeper


@dataclass(frozen=True, slots=True)
class _Form:
    """One column of the table: what is added to or taken from N, in units of 1/P."""

    coarsest: float
    finest: float
    most_teeth: int
    internal_major: float
    internal_minor: float
    external_minor: float
    external_minor_fine: float
    wider: float  # space width above pi/2
    notes: tuple[str, ...] = ()
    notes_fine: tuple[str, ...] = ()


_FILLET_CONFLICT = (
    "source conflict: one copy of the table gives (N - 1.2)/P for the root diameter of the shaft at 16/32 "
    "and finer, which leaves no room for a full fillet below the form diameter; (N - 2)/P, from memory, is "
    "used"
)
_SERRATION_CONFLICT = (
    "source conflict: one copy of the table gives (N - 0.8)/P for the minor diameter of the hub and a space "
    "width of (pi/2 + 0.1)/P at 45 deg, but its own form diameter needs N - 0.6; (N - 0.6)/P and "
    "(pi/2 + 0.2)/P, from memory, are used"
)
_FORMS: dict[tuple[float, Root], _Form] = {
    (30.0, "flat"): _Form(2.5, 32, 60, 1.35, 1.0, 1.35, 1.35, 0.0),
    (30.0, "fillet"): _Form(2.5, 48, 60, 1.8, 1.0, 1.8, 2.0, 0.0, notes_fine=(_FILLET_CONFLICT,)),
    (37.5, "fillet"): _Form(2.5, 48, 60, 1.6, 0.8, 1.3, 1.3, 0.1),
    (45.0, "fillet"): _Form(10, 128, 100, 1.4, 0.6, 1.0, 1.0, 0.2, notes=(_SERRATION_CONFLICT,)),
}


def diametral_pitch(pitch: str) -> float:
    """
    Diametral pitch, teeth per inch of pitch diameter, from a designation.

    Parameters
    ----------
    pitch : str
        As the standard writes it, "20/40" for example.

    Raises
    ------
    DomainError
        If the text is no such designation, or the pitch is not of the published series.
    """
    series = " ".join(f"{value:g}/{2 * value:g}" for value in PITCHES)
    match = _PITCH.fullmatch(pitch)
    if match is None:
        raise DomainError(f'pitch {pitch!r} is not written like "20/40"; published: {series}')
    first, second = float(match[1]), float(match[2])
    if second != 2.0 * first or first not in PITCHES:
        raise DomainError(f"pitch {pitch!r} is not of the published series: {series}")
    return first


def form_clearance(pitch_diameter: float) -> float:
    """
    Radial clearance between form and tip circle, m: 0.001 D, from 0.002 in to 0.010 in.

    Parameters
    ----------
    pitch_diameter : float, m
        D.
    """
    return min(max(0.001 * pitch_diameter, 0.002 * INCH), 0.010 * INCH)


def _form(pressure_angle: float, root: Root) -> tuple[float, _Form]:
    """Return the angle in degrees and the column of the table for it."""
    angle = nominal_angle(pressure_angle, (30.0, 37.5, 45.0), STANDARD)
    form = _FORMS.get((angle, root))
    if form is None:
        raise DomainError(
            f'{STANDARD} at {angle:g} deg has no root {root!r}; write root = "fillet"'
            + (' or "flat"' if angle == 30.0 else "")
        )
    return angle, form


def _range_notes(teeth: int, P: float, form: _Form) -> tuple[str, ...]:
    """Return a note for each limit of the standard's tables that is passed."""
    notes = []
    if not 6 <= teeth <= form.most_teeth:
        notes.append(
            f"{teeth} teeth lie outside the standard's 6 to {form.most_teeth} (limits from memory); "
            "the formulas are carried on"
        )
    if not form.coarsest <= P <= form.finest:
        notes.append(
            f"pitch {P:g}/{2 * P:g} lies outside the {form.coarsest:g}/{2 * form.coarsest:g} to "
            f"{form.finest:g}/{2 * form.finest:g} tabulated for this form; the formulas are carried on"
        )
    return tuple(notes)


def _new_clearance(teeth: int, P: float) -> NewClearance:
    """Return what a new class 5 side-fit pair shows, and what it may show once bedded in."""
    machining = machining_tolerance(teeth, P)
    return NewClearance(
        minimum=0.0,
        maximum=2.0 * machining,
        bedded_in=2.0 * (machining + variation_allowance(teeth, P)),
        assumes="both members class 5, side fit (least effective clearance 0)"
        + (", tolerances of 24/48 to 48/96 carried on" if P > _FINEST_TOLERANCES else ""),
        source=Source("ANSI B92.1-1970 (R1993), Involute Splines", "tolerance table, class 5", "from memory"),
    )


def spline(
    teeth: int, pitch: str, pressure_angle: float = math.radians(30.0), root: Root = "flat"
) -> InvoluteSpline:
    """
    Side-fit spline of ANSI B92.1 from its designation.

    Parameters
    ----------
    teeth : int, -
        N, 4 or more; outside the standard's 6 to 60 (45 deg: 100) a note says so.
    pitch : str
        Pitch designation, for example "20/40".
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
        If the standard has no such pitch, angle or root, or the teeth are fewer than 4.
    """
    if teeth != int(teeth) or teeth < LEAST_TEETH:
        raise DomainError(f"teeth must be a whole number, {LEAST_TEETH} or more")
    P = diametral_pitch(pitch)
    angle, form = _form(pressure_angle, root)
    module = INCH / P
    fine = P >= _FINE
    clearance = form_clearance(teeth * module)
    external_minor = form.external_minor_fine if fine else form.external_minor
    width = (0.5 * math.pi + form.wider) * module
    external = Member(
        major_diameter=(teeth + 1.0) * module,
        minor_diameter=(teeth - external_minor) * module,
        form_diameter=(teeth - form.internal_minor) * module - 2.0 * clearance,
    )
    internal = Member(
        major_diameter=(teeth + form.internal_major) * module,
        minor_diameter=(teeth - form.internal_minor) * module,
        form_diameter=(teeth + 1.0) * module + 2.0 * clearance,
    )
    overlap = 0.5 * (external.major_diameter - internal.minor_diameter)
    guide = {(30.0, "flat"): 0.9 * module, (30.0, "fillet"): module}.get((angle, root), overlap)
    return InvoluteSpline(
        standard=STANDARD,
        designation=f"{teeth}T {P:g}/{2 * P:g} {angle:g} deg {root} root",
        teeth=int(teeth),
        module=module,
        pressure_angle=math.radians(angle),
        root=root,
        external=external,
        internal=internal,
        tooth_thickness=width,
        space_width=width,
        contact_height=guide,
        new_clearance=_new_clearance(teeth, P),
        sources=(FORMULAS_TABLE, FROM_MEMORY, SERIES if P <= _FINEST_SEEN else FINE_SERIES, GUIDE),
        notes=(
            *form.notes,
            *(form.notes_fine if fine else ()),
            *_range_notes(teeth, P, form),
        ),
    )
