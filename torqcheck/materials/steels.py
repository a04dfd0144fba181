"""Steels: strength, hardness and case by grade, condition and section, in SI."""

import difflib
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cache
from types import MappingProxyType

from torqcheck.errors import TableError
from torqcheck.materials.tables import Row, mark, number, optional_number, source, table
from torqcheck.provenance import Mark, Source

__all__ = [
    "Steel",
    "SteelNotes",
    "design_ultimate",
    "design_yield",
    "plain_name",
    "steel",
    "steel_from_row",
    "steels",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class SteelNotes:
    """What one wants to know before ordering a steel; nothing here enters a check.

    An empty text or None says that nothing is known. Times and cost are common practice without a
    source; cost is per kilogram, with cold drawn 1018 as 1.
    """

    family: str = ""
    number: str = ""
    standard: str = ""
    strength_basis: str = ""
    hardness_basis: str = ""
    ultimate_max: float | None = None  # Pa
    elongation: float | None = None  # percent
    reduction_of_area: float | None = None  # percent
    ductility_mark: Mark | None = None
    machinability: float | None = None  # percent of free-cutting 1212
    machinability_mark: Mark | None = None
    welding: str = ""
    heat_treatment: str = ""
    hardenability: str = ""
    through_harden_round: float | None = None  # m
    typical_use: str = ""
    cross_check: str = ""
    lead_days_min: float | None = None
    lead_days_max: float | None = None
    cost_index: float | None = None
    source: Source | None = None
    lead_and_cost_mark: Mark = "common practice, no source"


@dataclass(frozen=True, slots=True, kw_only=True)
class Steel:
    """One steel in one condition and section: Pa, m, kg/m3; hardness in HB, HRC and HV.

    `source` and its mark stand for the strengths and the core hardness together; `surface_mark` for
    surface hardness and case depth; `constants_mark` for the elastic constants and the density.
    """

    id: str
    grade: str
    condition: str
    section_min: float | None = None  # m; None: not stated
    section_max: float | None = None
    ultimate_strength: float
    yield_strength: float
    core_hardness_min: float  # HB
    core_hardness_max: float
    surface_treatment: str = "none"
    surface_hardness_min: float | None = None  # HRC
    surface_hardness_max: float | None = None
    surface_hardness_min_hv: float | None = None
    surface_hardness_max_hv: float | None = None
    case_depth_min: float | None = None  # m
    case_depth_max: float | None = None
    elastic_modulus: float = 205e9
    shear_modulus: float = 80e9
    density: float = 7850.0
    hardness_class: str
    strength_factor: float
    strength_of: str = "whole section"
    data_flag: str = ""
    source: Source
    surface_mark: Mark | None = None
    constants_mark: Mark = "from memory"
    notes: SteelNotes = field(default_factory=SteelNotes)
    own_table: bool = False

    @property
    def reference_only(self) -> bool:
        """Whether the row is kept to be looked at, and never to be designed with."""
        return self.strength_factor == 0.0

    @property
    def is_iron(self) -> bool:
        """Whether it is cast iron, whose strength does not follow from its hardness."""
        return "iron" in self.notes.family

    def fits_section(self, diameter: float) -> bool | None:
        """Whether the row holds for a round bar of this diameter (m); None if it states no section.

        A row for 16 to 40 mm holds above 16 mm and up to 40 mm; a row for one size, up to that size.
        """
        if self.section_max is None:
            return None
        single = self.section_min is None or self.section_min == self.section_max
        above = single or (self.section_min is not None and diameter > self.section_min)
        return above and diameter <= self.section_max


def steel(name: str, extra: Iterable[Mapping[str, Steel]] = ()) -> Steel:
    """Return the steel called `name`; case, spaces, dots, hyphens and underscores do not matter.

    Parameters
    ----------
    name : str
        Id of a row, ``"4140_QT425"`` or ``"4140 qt425"``.
    extra : iterable of mappings, optional
        Own tables, as `load_own_table` returns them.

    Raises
    ------
    TableError
        If there is no such steel (names the three nearest), or its row is for reference only.
    """
    known = steels(extra)
    by_name = dict(_shipped_names()) | {plain_name(key): key for own in extra for key in own}
    plain = plain_name(name[:80])
    if plain not in by_name:
        near = difflib.get_close_matches(plain, by_name, n=3, cutoff=0.0)
        names = ", ".join(by_name[key] for key in near)
        raise TableError(f'there is no steel "{name[:80]}" in the tables; the nearest names are {names}')
    found = known[by_name[plain]]
    if found.reference_only:
        raise TableError(f'steel "{found.id}" is for reference only, not to design with: {found.data_flag}')
    return found


def steels(extra: Iterable[Mapping[str, Steel]] = ()) -> Mapping[str, Steel]:
    """
    Return all steels by id, the rows for reference included; own tables after the shipped one.

    Parameters
    ----------
    extra : iterable of mapping, optional
        Own tables, as ``load_own_table`` returns them.

    Raises
    ------
    TableError
        If two steels have the same name.
    """
    together = dict(_shipped())
    names = dict(_shipped_names())
    for own in extra:
        for key, value in own.items():
            if plain_name(key) in names:
                raise TableError(f'steel "{key}" of an own table is there already; give it another id')
            names[plain_name(key)] = key
            together[key] = value
    return MappingProxyType(together)


def design_yield(steel: Steel) -> float:
    """
    Return the yield strength to design with, in Pa: 0.9 of a typical value, a minimum as it is.

    Parameters
    ----------
    steel : Steel
        A row, or what an estimate made of it.
    """
    return steel.yield_strength * _usable_factor(steel)


def design_ultimate(steel: Steel) -> float:
    """
    Return the ultimate strength to design with, in Pa: 0.9 of a typical value, a minimum as it is.

    Parameters
    ----------
    steel : Steel
        A row, or what an estimate made of it.
    """
    return steel.ultimate_strength * _usable_factor(steel)


def plain_name(name: str) -> str:
    """Return a name without what people write differently: case and separators."""
    return re.sub(r"[\W_]+", "", name).casefold()


def _usable_factor(steel: Steel) -> float:
    """Strength factor, unless the row must not be designed with."""
    if steel.reference_only:
        raise TableError(f'steel "{steel.id}" is for reference only, not to design with: {steel.data_flag}')
    return steel.strength_factor


@cache
def _shipped_names() -> Mapping[str, str]:
    """Ids of the shipped steels by their plain names."""
    return MappingProxyType({plain_name(key): key for key in _shipped()})


@cache
def _shipped() -> Mapping[str, Steel]:
    """Steels of the shipped tables, by id."""
    notes = {row["id"]: _notes(row) for row in table("steel_notes")}
    rows = table("steels")
    if notes.keys() != {row["id"] for row in rows}:
        raise TableError("steel_notes.csv: its ids are not those of steels.csv")
    return MappingProxyType({row["id"]: steel_from_row(row, source(row), notes[row["id"]]) for row in rows})


def steel_from_row(row: Row, origin: Source, notes: SteelNotes, *, own_table: bool = False) -> Steel:
    """Return the steel of one complete row, in SI."""
    return Steel(
        id=row["id"],
        grade=row["grade"],
        condition=row["condition"],
        section_min=optional_number(row, "section_min_mm", 1e-3),
        section_max=optional_number(row, "section_max_mm", 1e-3),
        ultimate_strength=number(row, "ultimate_MPa", 1e6),
        yield_strength=number(row, "yield_MPa", 1e6),
        core_hardness_min=number(row, "core_hardness_min_HB"),
        core_hardness_max=number(row, "core_hardness_max_HB"),
        surface_treatment=row["surface_treatment"],
        surface_hardness_min=optional_number(row, "surface_hardness_min_HRC"),
        surface_hardness_max=optional_number(row, "surface_hardness_max_HRC"),
        surface_hardness_min_hv=optional_number(row, "surface_hardness_min_HV"),
        surface_hardness_max_hv=optional_number(row, "surface_hardness_max_HV"),
        case_depth_min=optional_number(row, "case_depth_min_mm", 1e-3),
        case_depth_max=optional_number(row, "case_depth_max_mm", 1e-3),
        elastic_modulus=number(row, "elastic_modulus_GPa", 1e9),
        shear_modulus=number(row, "shear_modulus_GPa", 1e9),
        density=number(row, "density_kg_m3"),
        hardness_class=row["hardness_class"],
        strength_factor=number(row, "strength_factor"),
        strength_of=row["strength_of"],
        data_flag=row["data_flag"],
        source=origin,
        surface_mark=mark(row["surface_mark"]) if row["surface_mark"] else None,
        constants_mark=mark(row["constants_mark"]),
        notes=notes,
        own_table=own_table,
    )


def _notes(row: Row) -> SteelNotes:
    """Return the notes of one row, in SI."""
    return SteelNotes(
        family=row["family"],
        number=row["number"],
        standard=row["standard"],
        strength_basis=row["strength_basis"],
        hardness_basis=row["hardness_basis"],
        ultimate_max=optional_number(row, "ultimate_max_MPa", 1e6),
        elongation=optional_number(row, "elongation_percent"),
        reduction_of_area=optional_number(row, "reduction_of_area_percent"),
        ductility_mark=mark(row["ductility_mark"]) if row["ductility_mark"] else None,
        machinability=optional_number(row, "machinability_percent"),
        machinability_mark=mark(row["machinability_mark"]) if row["machinability_mark"] else None,
        welding=row["welding"],
        heat_treatment=row["heat_treatment"],
        hardenability=row["hardenability"],
        through_harden_round=optional_number(row, "through_harden_round_mm", 1e-3),
        typical_use=row["typical_use"],
        cross_check=row["cross_check"],
        lead_days_min=optional_number(row, "lead_days_min"),
        lead_days_max=optional_number(row, "lead_days_max"),
        cost_index=optional_number(row, "cost_index"),
        source=source(row),
        lead_and_cost_mark=mark(row["lead_and_cost_mark"]),
    )
