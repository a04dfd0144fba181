"""Holding power of set screws and the factors of their points, from the tables. SI."""

from dataclasses import dataclass
from functools import cache

from torqcheck.errors import DomainError
from torqcheck.materials.tables import Row, number, source, table
from torqcheck.provenance import Source

__all__ = ["ListsApart", "SetScrew", "lists_apart", "set_screw", "set_screw_point", "set_screw_points"]

_INCH, _POUND = 0.0254, 4.4482216152605


@dataclass(frozen=True, slots=True, kw_only=True)
class SetScrew:
    """A set screw with a cup point: m, N m, N."""

    size: str
    diameter: float
    seating_torque: float
    holding_power: float
    source: Source


@dataclass(frozen=True, slots=True)
class ListsApart:
    """By which factor two lists of holding power disagree, on which size, and the lower list."""

    factor: float
    size: str
    source: Source


def set_screw(size: str) -> SetScrew:
    """
    Return a set screw by its size: "1/4", "#10".

    Parameters
    ----------
    size : str
        In inches, or a number size.

    Raises
    ------
    DomainError
        If the table has no such size; names those that it has.

    Examples
    --------
    >>> print(f"{set_screw('1/4').holding_power:.0f} N")
    4448 N
    """
    wanted = size.strip().lower().removesuffix('"').removesuffix("in").strip()
    rows = [row for row in table("set_screws") if row["list"] == "handbook"]
    for row in rows:
        if row["size"] == wanted:
            return _screw(row)
    known = ", ".join(row["size"] for row in rows)
    raise DomainError(f"the table of set screws has no {size.strip()!r}; it has {known}")


@cache
def lists_apart() -> ListsApart:
    """Return the widest disagreement between two lists of holding power."""
    found = [
        ListsApart(set_screw(row["size"]).holding_power / _screw(row).holding_power, row["size"], source(row))
        for row in table("set_screws")
        if row["list"] != "handbook"
    ]
    return max(found, key=lambda apart: apart.factor)


def set_screw_points() -> tuple[str, ...]:
    """Return the forms of points that the table has a factor for."""
    return tuple(row["point"] for row in table("set_screw_points"))


def set_screw_point(point: str) -> tuple[float, Source]:
    """
    Return the factor of the form of a point, and where it stands.

    Parameters
    ----------
    point : str
        As in the table: see ``set_screw_points``.

    Raises
    ------
    DomainError
        If the table has no such point.
    """
    for row in table("set_screw_points"):
        if row["point"] == point:
            return number(row, "factor"), source(row)
    raise DomainError(f"{point!r} is no point of a set screw; they are {', '.join(set_screw_points())}")


def _screw(row: Row) -> SetScrew:
    return SetScrew(
        size=row["size"],
        diameter=number(row, "diameter_in", _INCH),
        seating_torque=number(row, "seating_torque_lbf_in", _POUND * _INCH),
        holding_power=number(row, "holding_power_lbf", _POUND),
        source=source(row),
    )
