"""Friction of seats, how hot a hub may become, and what hubs are made of besides steel: by table."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from torqcheck.errors import DomainError
from torqcheck.materials.steels import Steel
from torqcheck.materials.tables import Row, number, source, table
from torqcheck.provenance import Source

__all__ = [
    "HeatingLimit",
    "HubMaterial",
    "SeatFriction",
    "heating_limit",
    "heating_limit_of",
    "hub_material",
    "hub_materials",
    "seat_friction",
    "ways_of_joining",
]

_ZERO_CELSIUS = 273.15
_TEMPERED = re.compile(r"QT(\d{3})(?!\d)")
SOFT_HUB_BRINELL = 240.0
"""Harder than this, a steel without a hard layer counts as quenched and tempered; own choice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SeatFriction:
    """Coefficient of friction of a seat, the band in which it may lie, and what other works print."""

    joining: str
    hub: str
    friction: float
    least: float
    most: float
    note: str
    source: Source
    others: tuple[tuple[float, Source], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class HeatingLimit:
    """Highest temperature of a hub that is heated for joining, K."""

    condition: str
    temperature: float
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class HubMaterial:
    """
    A material of hubs besides steel: Pa, kg/m3.

    `strength` is the yield strength, or the tensile strength of a material that `cracks`.
    """

    material: str
    elastic_modulus: float
    poisson_ratio: float
    density: float
    strength: float
    strength_least: float
    strength_most: float
    cracks: bool
    note: str
    source: Source


def seat_friction(joining: str, hub: str = "steel") -> SeatFriction:
    """
    Return the friction of a seat on a steel shaft.

    Parameters
    ----------
    joining : str
        Way of joining, as in the table: pressed oiled, shrunk, clamped dry ...
    hub : str, optional
        Material of the hub: steel, aluminium, cast iron, bronze.

    Raises
    ------
    DomainError
        If the table has no such pair.

    Examples
    --------
    >>> seat_friction("shrunk").friction
    0.14
    """
    rows = [row for row in table("fit_friction") if (row["joining"], row["hub"]) == (joining, hub)]
    if not rows:
        known = "; ".join(ways_of_joining())
        raise DomainError(f"no friction is tabled for {joining!r} with a hub of {hub}; it has {known}")
    (taken,) = (row for row in rows if row["use"] == "taken")
    return SeatFriction(
        joining=joining,
        hub=hub,
        friction=number(taken, "friction"),
        least=number(taken, "friction_least"),
        most=number(taken, "friction_most"),
        note=taken["note"],
        source=source(taken),
        others=tuple((number(row, "friction"), source(row)) for row in rows if row is not taken),
    )


@cache
def ways_of_joining() -> tuple[str, ...]:
    """Return the ways of joining that the table of friction knows."""
    return tuple(dict.fromkeys(row["joining"] for row in table("fit_friction")))


def heating_limit(condition: str) -> HeatingLimit:
    """
    Return how hot a hub in one condition may become.

    Parameters
    ----------
    condition : str
        As in the table, for example quenched and tempered.

    Raises
    ------
    DomainError
        If the table has no such condition.
    """
    for row in table("heating_limits"):
        if row["condition"] == condition:
            return HeatingLimit(
                condition=condition,
                temperature=number(row, "temperature_C") + _ZERO_CELSIUS,
                source=source(row),
            )
    known = "; ".join(row["condition"] for row in table("heating_limits"))
    raise DomainError(f"no limit of heating is tabled for {condition!r}; it has {known}")


def heating_limit_of(steel: Steel) -> HeatingLimit:
    """
    Return how hot a hub of a steel may become: by its condition, and never above its tempering.

    The tempering temperature is taken from the name of the row, 4140_QT205, where it stands there.

    Parameters
    ----------
    steel : Steel
        Of the hub.
    """
    if steel.surface_treatment == "carburised":
        found = heating_limit("case-hardened")
    elif steel.surface_treatment == "induction":
        found = heating_limit("surface hardened")
    elif steel.surface_treatment == "nitrided" or steel.core_hardness_min > SOFT_HUB_BRINELL:
        found = heating_limit("quenched and tempered")
    else:
        found = heating_limit("mild or cast steel")
    tempered = _TEMPERED.search(steel.id)
    if tempered is None or float(tempered[1]) + _ZERO_CELSIUS >= found.temperature:
        return found
    return HeatingLimit(
        condition=f"tempered at {tempered[1]} C",
        temperature=float(tempered[1]) + _ZERO_CELSIUS,
        source=steel.source,
    )


def hub_material(name: str) -> HubMaterial:
    """
    Return one material of hubs besides steel.

    Parameters
    ----------
    name : str
        As in the table: see ``hub_materials``.

    Raises
    ------
    DomainError
        If the table has no such material.
    """
    known = hub_materials()
    if name not in known:
        raise DomainError(f"hub material must be one of {', '.join(known)}, not {name!r}")
    return known[name]


@cache
def hub_materials() -> Mapping[str, HubMaterial]:
    """Return the materials of hubs besides steel, by name."""
    return MappingProxyType({row["material"]: _hub_material(row) for row in table("hub_materials")})


def _hub_material(row: Row) -> HubMaterial:
    return HubMaterial(
        material=row["material"],
        elastic_modulus=number(row, "elastic_modulus_GPa", 1e9),
        poisson_ratio=number(row, "poisson_ratio"),
        density=number(row, "density_kg_m3"),
        strength=number(row, "strength_MPa", 1e6),
        strength_least=number(row, "strength_least_MPa", 1e6),
        strength_most=number(row, "strength_most_MPa", 1e6),
        cracks=row["failure"] == "cracks",
        note=row["note"],
        source=source(row),
    )
