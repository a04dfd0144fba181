"""Limits as data: a band of a dimension, the widths of a tooth or space, all limits of a member.

Two kinds of width are told apart. The actual width is that of one tooth or space as cut. The
effective width is that of the perfect mate that just enters: errors of spacing, profile and lead
make a tooth thicker and a space narrower than it was cut, by the variation allowance.
"""

from dataclasses import dataclass

from torqcheck.geometry.standards.iso_286 import grade_tolerance
from torqcheck.provenance import Mark, Source, weakest_mark

__all__ = ["Band", "ExternalLimits", "InternalLimits", "WidthLimits", "hole_limits"]


@dataclass(frozen=True, slots=True)
class Band:
    """Least and most of a dimension, m; None where the basis sets no such end."""

    minimum: float | None
    maximum: float | None

    @property
    def middle(self) -> float | None:
        """Half way between the ends; None where one is open."""
        if self.minimum is None or self.maximum is None:
            return None
        return 0.5 * (self.minimum + self.maximum)


@dataclass(frozen=True, slots=True)
class WidthLimits:
    """Limits of a tooth thickness or a space width along the pitch circle.

    A part is judged by `actual.minimum` and `effective.maximum` of a tooth, by `actual.maximum` and
    `effective.minimum` of a space; the other two are for reference. `effective` is None where the
    basis knows no effective width.
    """

    actual: Band
    effective: Band | None


@dataclass(frozen=True, slots=True, kw_only=True)
class _MemberLimits:
    """What both members have; `absent` says for each dimension that is None why it is."""

    fit: str
    fit_class: int | None
    major_diameter: Band
    minor_diameter: Band
    form_diameter: float | None
    width_source: Source
    diameter_source: Source
    form_source: Source
    absent: tuple[tuple[str, str], ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def mark(self) -> Mark:
        """The weakest of the marks on which the limits rest."""
        return weakest_mark((self.width_source.mark, self.diameter_source.mark))


@dataclass(frozen=True, slots=True, kw_only=True)
class ExternalLimits(_MemberLimits):
    """Limits of the shaft. The flank must be true down to `form_diameter` or further."""

    tooth_thickness: WidthLimits | None


@dataclass(frozen=True, slots=True, kw_only=True)
class InternalLimits(_MemberLimits):
    """Limits of the hub. The flank must be true up to `form_diameter` or further."""

    space_width: WidthLimits | None


def hole_limits(size: float, grade: int) -> Band:
    """
    Limits H of a hole's dimension by ISO 286, m.

    Parameters
    ----------
    size : float, m
        Nominal size, up to 0.5 m.
    grade : int, -
        IT number.

    Raises
    ------
    DomainError
        If the table has no such size or grade.
    """
    return Band(size, size + grade_tolerance(size, grade))
