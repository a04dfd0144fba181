"""What each shipped table must hold: its columns, their kinds and plausible ranges, its key."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Literal

__all__ = ["LAYOUTS", "SURFACE_TREATMENTS", "Column", "Layout", "own_steel_layout"]

SURFACE_TREATMENTS = ("none", "induction", "carburised", "nitrided")
CHARACTERS = ("uniform", "light shock", "medium shock")
LOADS = ("uniform", "light shock", "intermittent shock", "heavy shock")


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its kind and, for a number, the range outside which it must be a slip of the pen."""

    name: str
    kind: Literal["text", "number", "word", "source", "mark"] = "text"
    least: float = 0.0
    most: float = 0.0
    required: bool = True
    words: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Layout:
    """The columns of one table and those whose values together name a row once."""

    columns: tuple[Column, ...]
    key: tuple[str, ...]


def _number(name: str, least: float, most: float, *, required: bool = True) -> Column:
    return Column(name, "number", least, most, required)


def _text(name: str, *, required: bool = True) -> Column:
    return Column(name, required=required)


def _word(name: str, *words: str) -> Column:
    return Column(name, "word", words=words)


def _mark(name: str = "mark", *, required: bool = True) -> Column:
    return Column(name, "mark", required=required)


_SOURCE = (Column("source", "source"), _text("where", required=False), _mark())

_STEELS = (
    _text("id"),
    _text("grade"),
    _text("condition"),
    _number("section_min_mm", 1, 400, required=False),
    _number("section_max_mm", 5, 600, required=False),
    _number("ultimate_MPa", 250, 3000),
    _number("yield_MPa", 120, 3000),
    _number("core_hardness_min_HB", 80, 615),
    _number("core_hardness_max_HB", 80, 615),
    _word("surface_treatment", *SURFACE_TREATMENTS),
    _number("surface_hardness_min_HRC", 40, 72, required=False),
    _number("surface_hardness_max_HRC", 40, 72, required=False),
    _number("surface_hardness_min_HV", 350, 1300, required=False),
    _number("surface_hardness_max_HV", 350, 1300, required=False),
    _number("case_depth_min_mm", 0.05, 12, required=False),
    _number("case_depth_max_mm", 0.05, 12, required=False),
    _number("elastic_modulus_GPa", 150, 220),
    _number("shear_modulus_GPa", 60, 90),
    _number("density_kg_m3", 6900, 8200),
    _text("hardness_class"),
    _number("strength_factor", 0, 1),
    _word("strength_of", "whole section", "core"),
    *_SOURCE,
    _mark("surface_mark", required=False),
    _mark("constants_mark"),
    _text("data_flag", required=False),
)

_STEEL_NOTES = (
    _text("id"),
    _word("family", "wrought steel", "cast steel", "ductile iron"),
    _text("number"),
    _text("standard"),
    _text("strength_basis"),
    _text("hardness_basis"),
    _number("ultimate_max_MPa", 400, 3000, required=False),
    _number("elongation_percent", 1, 40, required=False),
    _number("reduction_of_area_percent", 10, 80, required=False),
    _mark("ductility_mark", required=False),
    _number("machinability_percent", 20, 100, required=False),
    Column("machinability_source", "source", required=False),
    _mark("machinability_mark", required=False),
    _text("welding"),
    _text("heat_treatment"),
    _text("hardenability"),
    _number("through_harden_round_mm", 5, 300, required=False),
    _text("typical_use"),
    _text("cross_check", required=False),
    *_SOURCE,
    _number("lead_days_min", 0, 120),
    _number("lead_days_max", 0, 120),
    _number("cost_index", 0.5, 50),
    _mark("lead_and_cost_mark"),
)

LAYOUTS: Mapping[str, Layout] = MappingProxyType(
    {
        "sources": Layout(
            (
                _text("key"),
                _text("work"),
                _word("read", "copy of the page", "reprint", "not read"),
                _text("note", required=False),
            ),
            ("key",),
        ),
        "steels": Layout(_STEELS, ("id",)),
        "steel_notes": Layout(_STEEL_NOTES, ("id",)),
        "allowables": Layout(
            (
                _text("hardness_class"),
                _text("description"),
                _number("hardness_min_HB", 100, 650, required=False),
                _number("hardness_max_HB", 100, 650, required=False),
                _number("hardness_min_HRC", 20, 68, required=False),
                _number("hardness_max_HRC", 20, 68, required=False),
                _number("shear_psi", 10_000, 60_000),
                _number("flank_straight_psi", 1000, 6000, required=False),
                _number("flank_crowned_psi", 4000, 24_000, required=False),
                _number("tension_psi", 10_000, 60_000),
                *_SOURCE,
                _mark("tension_mark"),
            ),
            ("hardness_class",),
        ),
        "application_factors": Layout(
            (
                _word("character", *CHARACTERS),
                _word("load", *LOADS),
                _text("character_example"),
                _text("load_example"),
                _number("factor", 1, 3),
                *_SOURCE,
            ),
            ("character", "load"),
        ),
        "load_distribution_factors": Layout(
            (
                _number("misalignment_mm_mm", 0.0005, 0.01),
                _number("face_width_in", 0.25, 6),
                _number("face_width_printed_mm", 5, 150),
                _number("factor", 1, 4),
                *_SOURCE,
                _mark("face_width_mark"),
            ),
            ("misalignment_mm_mm", "face_width_in"),
        ),
        "fatigue_life_factors": Layout(
            (
                _number("torque_cycles", 1e3, 1e7),
                _number("one_way", 0.1, 2),
                _number("reversed", 0.1, 2),
                *_SOURCE,
            ),
            ("torque_cycles",),
        ),
        "wear_life_factors": Layout(
            (_number("revolutions", 1e4, 1e10), _number("factor", 0.3, 5), *_SOURCE), ("revolutions",)
        ),
        "wear_classes": Layout(
            (
                _text("lubrication"),
                _number("wear_coefficient_mm3_Nm", 1e-8, 1e-3),
                _number("wear_coefficient_p10_mm3_Nm", 1e-9, 1e-3),
                _number("wear_coefficient_p90_mm3_Nm", 1e-8, 1e-2),
                _number("sigma_ln", 0.1, 3),
                _number("reference_hardness_HV", 100, 1000),
                _text("meaning"),
                *_SOURCE,
            ),
            ("lubrication",),
        ),
        "hardness_conversion": Layout(
            (
                _word("part", "B", "C"),
                _number("hardness_HRC", 20, 68, required=False),
                _number("hardness_HRB", 60, 100, required=False),
                _number("hardness_HV", 200, 950, required=False),
                _number("hardness_HB", 100, 620, required=False),
                _number("ultimate_ksi", 50, 360, required=False),
                *_SOURCE,
            ),
            ("part", "hardness_HRC", "hardness_HRB"),
        ),
        "hardness_yield": Layout(
            (
                _number("hardness_HRC", 0, 60),
                _number("hardness_HB", 100, 620),
                _number("ultimate_MPa", 400, 2500),
                _number("yield_MPa", 300, 2000),
                _number("torsional_yield_MPa", 150, 1200),
                _number("yield_printed_MPa", 300, 2000),
                *_SOURCE,
                _text("note", required=False),
            ),
            ("hardness_HB",),
        ),
        "yield_ratio_floor": Layout(
            (
                _number("hardness_HB", 100, 620),
                _number("yield_to_ultimate", 0.4, 1.0),
                *_SOURCE,
                _text("note"),
            ),
            ("hardness_HB",),
        ),
        "lash_limits": Layout(
            (
                _text("id"),
                _text("item"),
                _word("reading", "clearance", "step"),
                _number("new_min_mm", 0.001, 1, required=False),
                _number("new_max_mm", 0.01, 1, required=False),
                _number("limit_mm", 0.05, 2, required=False),
                *_SOURCE,
                _text("note", required=False),
            ),
            ("id",),
        ),
    }
)

_OWN_REQUIRED = ("id", "grade", "condition", "ultimate_MPa", "yield_MPa", "core_hardness_min_HB", "source")


def own_steel_layout() -> Layout:
    """Return the layout of a user's own table: the columns of steels.csv, few of them required."""
    columns = tuple(
        replace(
            column,
            kind="text" if column.kind == "source" else column.kind,
            required=column.name in _OWN_REQUIRED,
        )
        for column in _STEELS
    )
    return Layout(columns, ("id",))
