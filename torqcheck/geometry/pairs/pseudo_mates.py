"""Splines of other standards with the same number of teeth that slide together like a worn pair."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from torqcheck.errors import DomainError
from torqcheck.geometry.involute import width_at_radius
from torqcheck.geometry.lengths import INCH
from torqcheck.geometry.pairs.mating import centred_assembly
from torqcheck.geometry.spline import InvoluteSpline, Root
from torqcheck.geometry.standards import ansi_b92_1, din_5480, iso_4156

__all__ = [
    "MOST_WEAR",
    "EqualCountFit",
    "EqualCountNeighbour",
    "equal_count_fit",
    "neighbours_with_equal_count",
    "same_flanks",
]

MOST_WEAR = 0.3e-3
"""Play at which published practice for ground machinery replaces a pair, m (mark: published)."""
_VERY_WORN = 0.5e-3  # between the 0.38 and 0.76 mm that slow shafts are allowed
_ROUNDING = 1e-10

_INCH_ANGLES = ((30.0, 2.5, 48.0), (37.5, 2.5, 48.0), (45.0, 10.0, 128.0))
_FINEST_FLAT = 32.0
_ISO_ANGLES: tuple[tuple[float, Root], ...] = ((30.0, "flat"), (37.5, "fillet"), (45.0, "fillet"))
_DIN_REACH = (1.0, 2.0)  # of the module, reference less pitch diameter: the usual profile shifts


@dataclass(frozen=True, slots=True, kw_only=True)
class EqualCountFit:
    """A shaft of one spline in a hub of another of equal count, basic widths, on one axis. m, rad.

    `clearance` and `flank_angles` (shaft, hub) stand for the tips of the hub and then the tips of
    the shaft, the two ends of the overlap; None without one. `lash` is what a hand would feel, at
    the hub's pitch circle; None where the shaft does not enter.
    """

    shaft: str
    hub: str
    overlap_diameters: tuple[float, float] | None
    clearance: tuple[float, float] | None
    flank_angles: tuple[tuple[float, float], tuple[float, float]] | None
    enters: bool
    lash: float | None
    looks: str


@dataclass(frozen=True, slots=True, kw_only=True)
class EqualCountNeighbour:
    """A standard spline of the same count and nearly the same pitch, tried both ways round.

    `pitch_difference` is its module over that of the spline asked about, less 1. `as_shaft`: its
    shaft in the hub asked about; `as_hub`: the shaft asked about in its hub.
    """

    spline: InvoluteSpline
    pitch_difference: float
    as_shaft: EqualCountFit
    as_hub: EqualCountFit


def same_flanks(first: InvoluteSpline, second: InvoluteSpline) -> bool:
    """Whether two splines have the same flanks and tips, whatever their root is."""
    pairs = (
        (first.module, second.module),
        (first.pressure_angle, second.pressure_angle),
        (first.tooth_thickness, second.tooth_thickness),
        (first.external.major_diameter, second.external.major_diameter),
    )
    return all(math.isclose(one, other, rel_tol=1e-9) for one, other in pairs)


def neighbours_with_equal_count(
    spline: InvoluteSpline, within: float = 0.06
) -> tuple[EqualCountNeighbour, ...]:
    """
    Standard splines of the same number of teeth whose pitch is within a few percent, nearest first.

    Parameters
    ----------
    spline : InvoluteSpline
        The spline asked about.
    within : float, -, optional
        Largest difference of the pitch, as a share.

    Returns
    -------
    tuple of EqualCountNeighbour
        ANSI B92.1, ISO 4156 (30, 37.5, 45 deg, one root each) and DIN 5480 (reference diameters of
        whole millimetres with usual profile shift); other angles of the same pitch included.

    Raises
    ------
    DomainError
        If `within` is not between 0 and 0.5.
    """
    if not 0.0 < within < 0.5:
        raise DomainError("within must lie between 0 and 0.5")
    found = [
        EqualCountNeighbour(
            spline=other,
            pitch_difference=other.module / spline.module - 1.0,
            as_shaft=equal_count_fit(other, spline),
            as_hub=equal_count_fit(spline, other),
        )
        for other in _standard_splines(spline.teeth, spline.module, within)
        if not same_flanks(spline, other)
    ]
    return tuple(sorted(found, key=lambda item: (abs(item.pitch_difference), item.spline.pressure_angle)))


def _standard_splines(teeth: int, module: float, within: float) -> Iterator[InvoluteSpline]:
    """Yield the splines of the standards whose pitch lies near."""

    def near(other: float) -> bool:
        return abs(other / module - 1.0) <= within

    for P in (P for P in ansi_b92_1.PITCHES if near(INCH / P)):
        for angle, coarsest, finest in _INCH_ANGLES:
            if coarsest <= P <= finest:
                root: Root = "flat" if angle == 30.0 and P <= _FINEST_FLAT else "fillet"
                yield ansi_b92_1.spline(teeth, f"{P:g}/{2 * P:g}", math.radians(angle), root)
    for m in (m for m in iso_4156.MODULES if near(m * 1e-3)):
        for angle, iso_root in _ISO_ANGLES:
            yield iso_4156.spline(teeth, m * 1e-3, math.radians(angle), iso_root)
    for m in (m for m in din_5480.MODULES if near(m * 1e-3)):
        least, most = (m * (teeth + reach) for reach in _DIN_REACH)
        for reference in range(math.ceil(least - 1e-9), math.floor(most + 1e-9) + 1):
            yield din_5480.spline(reference * 1e-3, m * 1e-3, teeth)


def equal_count_fit(shaft: InvoluteSpline, hub: InvoluteSpline) -> EqualCountFit:
    """
    Put the shaft of one spline into the hub of another with as many teeth.

    All teeth line up, so only the clearance c(r) over the overlap matters: the shaft slides in
    where it is nowhere negative, and then feels like a worn mate. Mark: derived.

    Raises
    ------
    DomainError
        If the counts differ.
    """
    if shaft.teeth != hub.teeth:
        raise DomainError("the numbers of teeth differ; see centred_assembly")
    assembly = centred_assembly(shaft, hub)
    low, high = hub.internal.minor_diameter, min(shaft.external.major_diameter, hub.internal.major_diameter)
    if assembly.drops_through:
        return EqualCountFit(
            shaft=shaft.designation,
            hub=hub.designation,
            overlap_diameters=None,
            clearance=None,
            flank_angles=None,
            enters=True,
            lash=None,
            looks="passes through without meeting a tooth",
        )
    radius = np.linspace(0.5 * low, 0.5 * high, 201)
    space = width_at_radius(radius, hub.pitch_diameter, hub.pressure_angle, hub.space_width)
    tooth = width_at_radius(radius, shaft.pitch_diameter, shaft.pressure_angle, shaft.tooth_thickness)
    clearance = np.asarray(space - tooth)
    ends = (float(clearance[0]), float(clearance[-1]))
    enters = not assembly.tips_foul and float(np.min(clearance)) >= -_ROUNDING
    lash = float(np.min(clearance / radius)) * 0.5 * hub.pitch_diameter if enters else None
    return EqualCountFit(
        shaft=shaft.designation,
        hub=hub.designation,
        overlap_diameters=(low, high),
        clearance=ends,
        flank_angles=(_angles(shaft, hub, low), _angles(shaft, hub, high)),
        enters=enters,
        lash=max(lash, 0.0) if lash is not None else None,
        looks=_looks(ends, assembly.tips_foul, lash, hub),
    )


def _angles(shaft: InvoluteSpline, hub: InvoluteSpline, diameter: float) -> tuple[float, float]:
    """Return the angle between flank and radius on a diameter, of the shaft and of the hub."""
    shares = (min(spline.base_diameter / diameter, 1.0) for spline in (shaft, hub))
    first, second = (math.acos(share) for share in shares)
    return first, second


def _looks(ends: tuple[float, float], tips_foul: bool, lash: float | None, hub: InvoluteSpline) -> str:
    """Say what the pair would pass for."""
    if lash is None:
        if tips_foul:
            return "does not enter: tips foul"
        if min(ends) < 0.0 <= max(ends):
            return f"binds at the {'shaft' if ends[1] < ends[0] else 'hub'} tips"
        return "does not enter"
    new = hub.new_clearance
    if lash <= (new.bedded_in if new.bedded_in is not None else new.maximum):
        return "looks like a new or bedded-in pair"
    if lash <= MOST_WEAR:
        return "looks like a worn pair still inside the usual 0.3 mm; bears on an edge"
    return f"looks like a {'very ' if lash > _VERY_WORN else ''}worn pair; bears on an edge"
