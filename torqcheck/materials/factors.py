"""Factors of the spline guide, wear classes and lash limits, by table."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from torqcheck.errors import DomainError
from torqcheck.materials.tables import Row, number, optional_number, source, table
from torqcheck.provenance import Source

__all__ = [
    "LashLimit",
    "LifeFactor",
    "WearClass",
    "application_factor",
    "application_factor_source",
    "default_lash_limit",
    "fatigue_life_factor",
    "lash_limits",
    "wear_class",
    "wear_classes",
]

_COEFFICIENT = 1e-9  # m2/N in 1 mm3/(N m)
_DEFAULT_LASH_LIMIT = "tractor-clutch-hub"


@dataclass(frozen=True, slots=True)
class LifeFactor:
    """A life factor; whether it lies beyond the printed table; where the table stands."""

    value: float
    extrapolated: bool
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class WearClass:
    """Wear coefficient of one lubrication class, m2/N (1/Pa), lognormal.

    For flanks of the reference hardness, HV; softer flanks wear more.
    """

    lubrication: str
    wear_coefficient: float
    wear_coefficient_p10: float
    wear_coefficient_p90: float
    sigma_ln: float
    reference_hardness: float
    meaning: str
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class LashLimit:
    """Play or worn step of one joint as a manual prints it, m; None where it prints none."""

    id: str
    item: str
    reading: str
    new_min: float | None
    new_max: float | None
    limit: float | None
    note: str
    source: Source


def application_factor(character: str, load: str) -> float:
    """
    Return the guide's application factor Ka for a character of the motor and of the load.

    Parameters
    ----------
    character : str
        Of the motor: uniform, light shock, medium shock.
    load : str
        Of the driven machine: uniform, light shock, intermittent shock, heavy shock.

    Raises
    ------
    DomainError
        If the table has no such pair; names the words that it has.
    """
    return number(_application_row(character, load), "factor")


def application_factor_source(character: str, load: str) -> Source:
    """
    Return where the application factor of a pair stands.

    Parameters
    ----------
    character : str
        Of the motor: uniform, light shock, medium shock.
    load : str
        Of the driven machine: uniform, light shock, intermittent shock, heavy shock.
    """
    return source(_application_row(character, load))


def fatigue_life_factor(cycles: float, reversed_torque: bool) -> LifeFactor:
    """
    Fatigue-life factor Kf of the guide; one start and stop is one cycle.

    Parameters
    ----------
    cycles : float, -
        Torque cycles in the life of the joint.
    reversed_torque : bool
        Whether torque reverses or regenerates in any of them.

    Returns
    -------
    LifeFactor
        The factor, where it comes from, and whether it lies beyond the guide.

    Raises
    ------
    DomainError
        If cycles is negative.

    Notes
    -----
    Straight lines in log-log between the printed points; 1.8 at and below 1000 cycles, where the
    guide ends. Beyond 1e7 cycles the last line is continued, which is flagged. NaN gives NaN.

    Examples
    --------
    >>> fatigue_life_factor(1e5, reversed_torque=True).value
    0.4
    """
    if cycles < 0.0:
        raise DomainError(f"torque cycles must not be negative, not {cycles:g}")
    rows = table("fatigue_life_factors")
    origin = source(rows[0])
    column = "reversed" if reversed_torque else "one_way"
    points = [(number(row, "torque_cycles"), number(row, column)) for row in rows]
    if math.isnan(cycles):
        return LifeFactor(math.nan, False, origin)
    if cycles <= points[0][0]:
        return LifeFactor(points[0][1], False, origin)
    for point in points:
        if cycles == point[0]:
            return LifeFactor(point[1], False, origin)
    beyond = cycles > points[-1][0]
    right = len(points) - 1 if beyond else next(i for i, point in enumerate(points) if cycles < point[0])
    (x0, y0), (x1, y1) = points[right - 1], points[right]
    slope = math.log(y1 / y0) / math.log(x1 / x0)
    return LifeFactor(y1 * math.exp(slope * math.log(cycles / x1)), beyond, origin)


def wear_class(lubrication: str) -> WearClass:
    """
    Return the wear class of a lubrication: oil flooded, sealed grease, expired grease, dry.

    Parameters
    ----------
    lubrication : str
        One of the four.

    Raises
    ------
    DomainError
        If there is no such class.
    """
    classes = wear_classes()
    if lubrication not in classes:
        raise DomainError(f"lubrication must be one of {', '.join(classes)}, not {lubrication!r}")
    return classes[lubrication]


@cache
def wear_classes() -> Mapping[str, WearClass]:
    """Return all wear classes by lubrication, the best first."""
    return MappingProxyType(
        {
            row["lubrication"]: WearClass(
                lubrication=row["lubrication"],
                wear_coefficient=number(row, "wear_coefficient_mm3_Nm", _COEFFICIENT),
                wear_coefficient_p10=number(row, "wear_coefficient_p10_mm3_Nm", _COEFFICIENT),
                wear_coefficient_p90=number(row, "wear_coefficient_p90_mm3_Nm", _COEFFICIENT),
                sigma_ln=number(row, "sigma_ln"),
                reference_hardness=number(row, "reference_hardness_HV"),
                meaning=row["meaning"],
                source=source(row),
            )
            for row in table("wear_classes")
        }
    )


@cache
def lash_limits() -> Mapping[str, LashLimit]:
    """Return the play and the wear limits that manuals print, by id."""
    return MappingProxyType(
        {
            row["id"]: LashLimit(
                id=row["id"],
                item=row["item"],
                reading=row["reading"],
                new_min=optional_number(row, "new_min_mm", 1e-3),
                new_max=optional_number(row, "new_max_mm", 1e-3),
                limit=optional_number(row, "limit_mm", 1e-3),
                note=row["note"],
                source=source(row),
            )
            for row in table("lash_limits")
        }
    )


def default_lash_limit() -> LashLimit:
    """Return the limit of play that holds where the user gives none: 0.30 mm at the pitch circle.

    Two manuals, of a tractor and of a light truck, print this same limit for a slip-fit spline.
    """
    return lash_limits()[_DEFAULT_LASH_LIMIT]


def _application_row(character: str, load: str) -> Row:
    """Row of one pair."""
    rows = table("application_factors")
    for row in rows:
        if (row["character"], row["load"]) == (character, load):
            return row
    for what, written in (("character", character), ("load", load)):
        words = dict.fromkeys(row[what] for row in rows)
        if written not in words:
            raise DomainError(f"{what} must be one of {', '.join(words)}, not {written!r}")
    raise DomainError(f"the table has no factor for {character!r} and {load!r}")
