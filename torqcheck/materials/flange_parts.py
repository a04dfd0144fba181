"""Friction between the faces of flanges, and dowel pins: by table."""

from dataclasses import dataclass
from functools import cache

from torqcheck.errors import DomainError
from torqcheck.materials.bolts import INCH
from torqcheck.materials.tables import mark, number, source, table
from torqcheck.provenance import Mark, Source

__all__ = ["DowelPin", "FaceFriction", "dowel_pin", "dowel_pins", "face_conditions", "face_friction"]

POUND_FORCE = 4.4482216152605
SAME_SIZE = 0.02e-3
"""A pin within this of a size of the table is that size, m."""


@dataclass(frozen=True, slots=True)
class FaceFriction:
    """Friction of a face, and the band in which it may lie."""

    condition: str
    friction: float
    least: float
    most: float
    note: str
    source: Source
    band_mark: Mark


@dataclass(frozen=True, slots=True)
class DowelPin:
    """A hardened, ground dowel: diameter, m, and load at which one section shears off, N."""

    diameter: float
    single_shear: float
    source: Source


@cache
def face_conditions() -> tuple[str, ...]:
    """Return the conditions of faces that the table knows."""
    return tuple(row["condition"] for row in table("face_friction"))


def face_friction(condition: str) -> FaceFriction:
    """
    Return the friction between two flanges by the condition of their faces.

    Parameters
    ----------
    condition : str
        As in the table, for example oily.

    Raises
    ------
    DomainError
        If the table has no such condition.

    Examples
    --------
    >>> face_friction("oily").friction
    0.1
    """
    for row in table("face_friction"):
        if row["condition"] == condition:
            return FaceFriction(
                condition,
                number(row, "friction"),
                number(row, "friction_least"),
                number(row, "friction_most"),
                row["note"],
                source(row),
                mark(row["band_mark"]),
            )
    known = "; ".join(face_conditions())
    raise DomainError(f"no friction is tabled for faces {condition!r}; it has {known}")


@cache
def dowel_pins() -> tuple[DowelPin, ...]:
    """Return the dowels of the tables, metric ones first."""
    metric = tuple(
        DowelPin(number(row, "diameter_mm", 1e-3), number(row, "single_shear_kN", 1e3), source(row))
        for row in table("metric_dowels")
    )
    inch = tuple(
        DowelPin(number(row, "diameter_in", INCH), number(row, "single_shear_lbf", POUND_FORCE), source(row))
        for row in table("inch_dowels")
    )
    return metric + inch


def dowel_pin(diameter: float) -> DowelPin:
    """
    Return the dowel of a diameter, m.

    Parameters
    ----------
    diameter : float, m
        Nominal diameter.

    Raises
    ------
    DomainError
        If the tables have no dowel of this diameter.

    Examples
    --------
    >>> print(f"{dowel_pin(0.008).single_shear / 1e3:.1f} kN")
    52.5 kN
    """
    for pin in dowel_pins():
        if abs(pin.diameter - diameter) <= SAME_SIZE:
            return pin
    metric = ", ".join(f"{number(row, 'diameter_mm'):g}" for row in table("metric_dowels"))
    inch = ", ".join(f"{number(row, 'diameter_in'):g}" for row in table("inch_dowels"))
    raise DomainError(f"no dowel of {diameter * 1e3:.4g} mm is tabled; there are {metric} mm and {inch} in")
