"""What each shipped table must hold: its columns, their kinds and plausible ranges, its key."""

from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType

from torqcheck.materials.column import SOURCE, Column, Layout, mark, number, text, word
from torqcheck.materials.joint_columns import JOINT_LAYOUTS

__all__ = ["LAYOUTS", "SURFACE_TREATMENTS", "Column", "Layout", "own_steel_layout"]

SURFACE_TREATMENTS = ("none", "induction", "carburised", "nitrided")
CHARACTERS = ("uniform", "light shock", "medium shock")
LOADS = ("uniform", "light shock", "intermittent shock", "heavy shock")


_STEELS = (
    text("id"),
    text("grade"),
    text("condition"),
    number("section_min_mm", 1, 400, required=False),
    number("section_max_mm", 5, 600, required=False),
    number("ultimate_MPa", 250, 3000),
    number("yield_MPa", 120, 3000),
    number("core_hardness_min_HB", 80, 615),
    number("core_hardness_max_HB", 80, 615),
    word("surface_treatment", *SURFACE_TREATMENTS),
    number("surface_hardness_min_HRC", 40, 72, required=False),
    number("surface_hardness_max_HRC", 40, 72, required=False),
    number("surface_hardness_min_HV", 350, 1300, required=False),
    number("surface_hardness_max_HV", 350, 1300, required=False),
    number("case_depth_min_mm", 0.05, 12, required=False),
    number("case_depth_max_mm", 0.05, 12, required=False),
    number("elastic_modulus_GPa", 150, 220),
    number("shear_modulus_GPa", 60, 90),
    number("density_kg_m3", 6900, 8200),
    text("hardness_class"),
    number("strength_factor", 0, 1),
    word("strength_of", "whole section", "core"),
    *SOURCE,
    mark("surface_mark", required=False),
    mark("constants_mark"),
    text("data_flag", required=False),
)

_STEEL_NOTES = (
    text("id"),
    word("family", "wrought steel", "cast steel", "ductile iron"),
    text("number"),
    text("standard"),
    text("strength_basis"),
    text("hardness_basis"),
    number("ultimate_max_MPa", 400, 3000, required=False),
    number("elongation_percent", 1, 40, required=False),
    number("reduction_of_area_percent", 10, 80, required=False),
    mark("ductility_mark", required=False),
    number("machinability_percent", 20, 100, required=False),
    Column("machinability_source", "source", required=False),
    mark("machinability_mark", required=False),
    text("welding"),
    text("heat_treatment"),
    text("hardenability"),
    number("through_harden_round_mm", 5, 300, required=False),
    text("typical_use"),
    text("cross_check", required=False),
    *SOURCE,
    number("lead_days_min", 0, 120),
    number("lead_days_max", 0, 120),
    number("cost_index", 0.5, 50),
    mark("lead_and_cost_mark"),
)

LAYOUTS: Mapping[str, Layout] = MappingProxyType(
    {
        "sources": Layout(
            (
                text("key"),
                text("work"),
                word("read", "copy of the page", "reprint", "not read"),
                text("note", required=False),
            ),
            ("key",),
        ),
        "steels": Layout(_STEELS, ("id",)),
        "steel_notes": Layout(_STEEL_NOTES, ("id",)),
        "allowables": Layout(
            (
                text("hardness_class"),
                text("description"),
                number("hardness_min_HB", 100, 650, required=False),
                number("hardness_max_HB", 100, 650, required=False),
                number("hardness_min_HRC", 20, 68, required=False),
                number("hardness_max_HRC", 20, 68, required=False),
                number("shear_psi", 10_000, 60_000),
                number("flank_straight_psi", 1000, 6000, required=False),
                number("flank_crowned_psi", 4000, 24_000, required=False),
                number("tension_psi", 10_000, 60_000),
                *SOURCE,
                mark("tension_mark"),
            ),
            ("hardness_class",),
        ),
        "application_factors": Layout(
            (
                word("character", *CHARACTERS),
                word("load", *LOADS),
                text("character_example"),
                text("load_example"),
                number("factor", 1, 3),
                *SOURCE,
            ),
            ("character", "load"),
        ),
        "load_distribution_factors": Layout(
            (
                number("misalignment_mm_mm", 0.0005, 0.01),
                number("face_width_in", 0.25, 6),
                number("face_width_printed_mm", 5, 150),
                number("factor", 1, 4),
                *SOURCE,
                mark("face_width_mark"),
            ),
            ("misalignment_mm_mm", "face_width_in"),
        ),
        "fatigue_life_factors": Layout(
            (
                number("torque_cycles", 1e3, 1e7),
                number("one_way", 0.1, 2),
                number("reversed", 0.1, 2),
                *SOURCE,
            ),
            ("torque_cycles",),
        ),
        "wear_life_factors": Layout(
            (number("revolutions", 1e4, 1e10), number("factor", 0.3, 5), *SOURCE), ("revolutions",)
        ),
        "wear_classes": Layout(
            (
                text("lubrication"),
                number("wear_coefficient_mm3_Nm", 1e-8, 1e-3),
                number("wear_coefficient_p10_mm3_Nm", 1e-9, 1e-3),
                number("wear_coefficient_p90_mm3_Nm", 1e-8, 1e-2),
                number("sigma_ln", 0.1, 3),
                number("reference_hardness_HV", 100, 1000),
                text("meaning"),
                *SOURCE,
            ),
            ("lubrication",),
        ),
        "hardness_conversion": Layout(
            (
                word("part", "B", "C"),
                number("hardness_HRC", 20, 68, required=False),
                number("hardness_HRB", 60, 100, required=False),
                number("hardness_HV", 200, 950, required=False),
                number("hardness_HB", 100, 620, required=False),
                number("ultimate_ksi", 50, 360, required=False),
                *SOURCE,
            ),
            ("part", "hardness_HRC", "hardness_HRB"),
        ),
        "hardness_yield": Layout(
            (
                number("hardness_HRC", 0, 60),
                number("hardness_HB", 100, 620),
                number("ultimate_MPa", 400, 2500),
                number("yield_MPa", 300, 2000),
                number("torsional_yield_MPa", 150, 1200),
                number("yield_printed_MPa", 300, 2000),
                *SOURCE,
                text("note", required=False),
            ),
            ("hardness_HB",),
        ),
        "yield_ratio_floor": Layout(
            (
                number("hardness_HB", 100, 620),
                number("yield_to_ultimate", 0.4, 1.0),
                *SOURCE,
                text("note"),
            ),
            ("hardness_HB",),
        ),
        "lash_limits": Layout(
            (
                text("id"),
                text("item"),
                word("reading", "clearance", "step"),
                number("new_min_mm", 0.001, 1, required=False),
                number("new_max_mm", 0.01, 1, required=False),
                number("limit_mm", 0.05, 2, required=False),
                *SOURCE,
                text("note", required=False),
            ),
            ("id",),
        ),
        **JOINT_LAYOUTS,
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
