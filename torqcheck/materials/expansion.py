"""Thermal expansion of the materials that joints and housings are made of, by table."""

from dataclasses import dataclass
from functools import cache

from torqcheck.errors import DomainError
from torqcheck.materials.tables import Row, number, source, table
from torqcheck.provenance import Source

__all__ = ["ROOM_TEMPERATURE", "Expansion", "expansion_materials", "thermal_expansion"]

ROOM_TEMPERATURE = 293.15
"""K; the temperature at which parts are measured, 20 C."""

_MICROMETRE = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Expansion:
    """
    Linear thermal expansion of one material, 1/K.

    Parameters
    ----------
    material : str
        As in the table: steel, cast iron, aluminium ...
    coefficient : float, 1/K
        The value to calculate with.
    least, most : float, 1/K
        Ends of what the works print; equal to the coefficient where there is only one.
    source : Source
        Where the value to calculate with stands.
    others : tuple of (float, Source)
        Values of other works, which disagree.
    note : str
        What the table says about it.
    """

    material: str
    coefficient: float
    least: float
    most: float
    source: Source
    others: tuple[tuple[float, Source], ...]
    note: str


def thermal_expansion(material: str) -> Expansion:
    """
    Return the thermal expansion of a material.

    Parameters
    ----------
    material : str
        A name of the table; case does not matter.

    Raises
    ------
    DomainError
        If there is no such material; names those that there are.

    Examples
    --------
    >>> steel = thermal_expansion("steel")
    >>> print(f"{steel.coefficient * 1e6:.1f}e-6/K, others {steel.least * 1e6:.1f} to {steel.most * 1e6:.1f}")
    11.3e-6/K, others 10.8 to 11.7
    """
    wanted = material.strip().lower()
    if wanted not in expansion_materials():
        names = "; ".join(expansion_materials())
        raise DomainError(f"the expansion of {material[:60]!r} is not in the table; it has {names}")
    return _expansion(wanted)


@cache
def expansion_materials() -> tuple[str, ...]:
    """Return the materials of the table, in its order."""
    return tuple(dict.fromkeys(row["material"] for row in table("expansion")))


@cache
def _expansion(material: str) -> Expansion:
    """Return the row that is taken, and what stands beside it."""
    rows = [row for row in table("expansion") if row["material"] == material]
    (taken,) = (row for row in rows if row["use"] == "taken")
    values = [_coefficient(row) for row in rows]
    return Expansion(
        material=material,
        coefficient=_coefficient(taken),
        least=min(values),
        most=max(values),
        source=source(taken),
        others=tuple((_coefficient(row), source(row)) for row in rows if row is not taken),
        note=taken["note"],
    )


def _coefficient(row: Row) -> float:
    return number(row, "expansion_um_m_K", _MICROMETRE)
