"""Every size that the standards list for a number of teeth, with the room that making and wear leave it.

Each dimension of a candidate is one-sided: a shaft is made at its basic size or smaller and wears
smaller still, a hub is made at its basic size or larger and wears larger. `Room` holds how far.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import Literal, cast

from torqcheck.errors import DomainError
from torqcheck.geometry._domain import LEAST_TEETH
from torqcheck.geometry.identifying._room import (
    Room,
    Rooms,
    Side,
    involute_rooms,
    serration_rooms,
    straight_rooms,
)
from torqcheck.geometry.identifying._series_sizes import (
    ANSI_FORMS,
    DIN_5480_DIAMETERS,
    DIN_5480_LIST,
    ISO_FORMS,
    LEAST_TEETH_LISTED,
    MOST_TEETH_LISTED,
    SAE_DIAMETERS,
    SAE_LIST,
)
from torqcheck.geometry.lengths import INCH, MILLIMETRE
from torqcheck.geometry.spline import InvoluteSpline, Root, StraightSpline
from torqcheck.geometry.standards import ansi_b92_1, din_5480, iso_4156, serration, straight
from torqcheck.geometry.standards._straight_sizes import ISO_14_SIZES, SAE_PROPORTIONS
from torqcheck.provenance import Source

__all__ = ["MOST_TEETH", "Candidate", "Flanks", "Room", "Rooms", "Side", "candidates", "listed_sizes"]

Flanks = Literal["curved", "parallel", "vee"]

MOST_TEETH = 1000
_LEAST_SHIFT, _MOST_SHIFT = -0.05, 0.45
_ROUNDING = 1e-6
_WHOLE_MILLIMETRES_UP_TO = 100


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Candidate:
    """One size of one standard, the same object each time.

    `listed` is false where it lies outside the standard's own range.
    """

    standard: str
    designation: str
    teeth: int
    flanks: Flanks
    spline: InvoluteSpline | StraightSpline | None
    rooms: dict[Side, Rooms]
    listed: bool
    sources: tuple[Source, ...]
    pitch: str | None = None

    @property
    def involute(self) -> InvoluteSpline | None:
        """The dimensions, where the flanks are involutes."""
        return self.spline if isinstance(self.spline, InvoluteSpline) else None

    @property
    def module(self) -> float | None:
        """Module, m; None where the standard has none."""
        return self.involute.module if self.involute else None

    @property
    def pressure_angle(self) -> float | None:
        """Pressure angle at the pitch diameter, rad; None where the standard has none."""
        return self.involute.pressure_angle if self.involute else None

    @property
    def root(self) -> Root | None:
        """Form of the root; None where the standard has but one."""
        return self.involute.root if self.involute else None

    def same_part(self, other: "Candidate", side: Side) -> bool:
        """Whether both names mean the same teeth down to the root: flanks and tips coincide."""
        if (self.flanks, self.teeth) != (other.flanks, other.teeth) or self.flanks == "vee":
            return self is other
        mine, theirs = self.rooms[side], other.rooms[side]
        tip = "major_diameter" if side == "external" else "minor_diameter"
        pairs = [
            (mine.of(tip).basic, theirs.of(tip).basic),
            (mine.width.basic, theirs.width.basic),
            (self.module or 0.0, other.module or 0.0),
            (self.pressure_angle or 0.0, other.pressure_angle or 0.0),
        ]
        if self.flanks == "parallel":
            pairs += [
                (mine.minor_diameter.basic, theirs.minor_diameter.basic),
                (mine.major_diameter.basic, theirs.major_diameter.basic),
            ]
        return all(math.isclose(a, b, rel_tol=1e-9, abs_tol=1e-12) for a, b in pairs)


@cache
def candidates(teeth: int) -> tuple[Candidate, ...]:
    """
    Sizes of all standards with a number of teeth.

    Parameters
    ----------
    teeth : int, -
        N, 4 to 1000.

    Returns
    -------
    tuple of Candidate
        Involute splines of ANSI B92.1, ISO 4156 and DIN 5480, straight-sided ones of ISO 14 and
        SAE J499, serrations of DIN 5481. Sizes just outside a standard's range (more teeth, other
        pitches of the series, other whole reference diameters) are kept, with `listed` false. Empty
        where no standard has any.

    Raises
    ------
    DomainError
        If the number of teeth is not a whole number from 4 to 1000.
    """
    if teeth != int(teeth) or not LEAST_TEETH <= teeth <= MOST_TEETH:
        raise DomainError(f"teeth must be a whole number from {LEAST_TEETH} to {MOST_TEETH}")
    found = (*_ansi(teeth), *_iso(teeth), *_din(teeth), *_iso_14(teeth), *_sae(teeth), *_serrations(teeth))
    return tuple(found)


def listed_sizes() -> Iterator[Candidate]:
    """Every size that the standards themselves list, by number of teeth."""
    for teeth in range(LEAST_TEETH, MOST_TEETH_LISTED + 1):
        yield from (candidate for candidate in candidates(teeth) if candidate.listed)


def _within(teeth: int, most: int) -> bool:
    return LEAST_TEETH_LISTED <= teeth <= most


def _involute(spline: InvoluteSpline, listed: bool, source: tuple[Source, ...] = ()) -> Candidate:
    """Wrap an involute spline; its notes and sources stay with it."""
    pitch = None
    if spline.standard == ansi_b92_1.STANDARD:
        P = INCH / spline.module
        pitch = f"{P:g}/{2 * P:g}"
    return Candidate(
        standard=spline.standard,
        designation=spline.designation,
        teeth=spline.teeth,
        flanks="curved",
        spline=spline,
        rooms=involute_rooms(spline),
        listed=listed,
        sources=(*spline.sources, *source),
        pitch=pitch,
    )


def _ansi(teeth: int) -> Iterator[Candidate]:
    if teeth > MOST_TEETH_LISTED:
        return
    for (angle, root), (coarsest, finest, most) in ANSI_FORMS.items():
        for P in ansi_b92_1.PITCHES:
            spline = ansi_b92_1.spline(teeth, f"{P:g}/{2 * P:g}", math.radians(angle), root)
            yield _involute(spline, _within(teeth, most) and coarsest <= P <= finest)


def _iso(teeth: int) -> Iterator[Candidate]:
    if teeth > MOST_TEETH_LISTED:
        return
    for angle, root in ISO_FORMS:
        for m in iso_4156.MODULES:
            spline = iso_4156.spline(teeth, m * MILLIMETRE, math.radians(angle), root)
            yield _involute(spline, _within(teeth, MOST_TEETH_LISTED))


def _din(teeth: int) -> Iterator[Candidate]:
    """Reference diameters of the list first, other whole millimetres as well, by the usual profile shift."""
    for m in din_5480.MODULES:
        least = m * (teeth + 1.1 + 2.0 * _LEAST_SHIFT) - _ROUNDING
        most = m * (teeth + 1.1 + 2.0 * _MOST_SHIFT) + _ROUNDING
        for diameter in range(math.ceil(least), math.floor(most) + 1):
            in_list = diameter in DIN_5480_DIAMETERS
            if in_list or DIN_5480_DIAMETERS[0] <= diameter <= _WHOLE_MILLIMETRES_UP_TO:
                spline = din_5480.spline(diameter * MILLIMETRE, m * MILLIMETRE, teeth)
                listed = in_list and _within(teeth, MOST_TEETH_LISTED)
                yield _involute(spline, listed, (DIN_5480_LIST,))


def _parallel(spline: StraightSpline, source: tuple[Source, ...] = ()) -> Candidate:
    return Candidate(
        standard=spline.standard,
        designation=spline.designation,
        teeth=spline.teeth,
        flanks="parallel",
        spline=spline,
        rooms=straight_rooms(spline),
        listed=True,
        sources=(*spline.sources, *source),
    )


def _iso_14(teeth: int) -> Iterator[Candidate]:
    for sizes in ISO_14_SIZES.values():
        for number, minor, major, _ in sizes:
            if number == teeth:
                yield _parallel(straight.iso_14(f"{number}x{minor}x{major}"))


def _sae(teeth: int) -> Iterator[Candidate]:
    if teeth not in SAE_PROPORTIONS:
        return
    for diameter in SAE_DIAMETERS[teeth]:
        for fit in SAE_PROPORTIONS[teeth][1]:
            yield _parallel(straight.sae(teeth, diameter * INCH, cast("straight.SaeFit", fit)), (SAE_LIST,))


def _serrations(teeth: int) -> Iterator[Candidate]:
    for (minor, major), number in serration.SIZES.items():
        if number != teeth:
            continue
        yield Candidate(
            standard=serration.STANDARD,
            designation=f"{minor}x{major}, {teeth} teeth",
            teeth=teeth,
            flanks="vee",
            spline=None,
            rooms=serration_rooms(minor * MILLIMETRE, major * MILLIMETRE),
            listed=True,
            sources=(serration.NOMINAL,),
        )
