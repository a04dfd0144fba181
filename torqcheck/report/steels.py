"""The tables of steels for people, and as plain data."""

from typing import Any

from torqcheck.errors import TableError
from torqcheck.materials import Steel, allowable_stresses, hb_from_hrc, softest_brinell, steel, steels
from torqcheck.materials.steels import SteelNotes, plain_name
from torqcheck.report.numbers import significant
from torqcheck.report.sheet import Column, Note, Sheet, Table

__all__ = ["steel_data", "steel_sheet"]

HARDEST_BRINELL_HRC = 58.0


def _chosen(name: str, harder_than: float) -> list[Steel]:
    """Steels whose id or grade holds the name, hard enough at the flank, in the order of the table."""
    wanted = plain_name(name)
    found = [
        row
        for row in steels().values()
        if wanted in plain_name(f"{row.id} {row.grade}") and _flank_brinell(row) >= harder_than
    ]
    if not found and not name:
        raise TableError(f"no steel of the tables has flanks of {harder_than:g} HB or more")
    return found or [steel(name)]


def _flank_brinell(row: Steel) -> float:
    """Low end of the flank's hardness in Brinell; the scale ends at 58 HRC."""
    if row.surface_hardness_min is None:
        return row.core_hardness_min
    return hb_from_hrc(min(row.surface_hardness_min, HARDEST_BRINELL_HRC))


def steel_data(name: str, harder_than: float) -> list[dict[str, Any]]:
    """Return the chosen steels as plain data, units in the keys."""
    return [
        {
            "id": row.id,
            "grade": row.grade,
            "condition": row.condition,
            "ultimate_MPa": row.ultimate_strength / 1e6,
            "yield_MPa": row.yield_strength / 1e6,
            "core_hardness_min_HB": row.core_hardness_min,
            "core_hardness_max_HB": row.core_hardness_max,
            "surface_treatment": row.surface_treatment,
            "surface_hardness_min_HRC": row.surface_hardness_min,
            "hardness_class": row.hardness_class,
            "strength_factor": row.strength_factor,
            "strength_basis": row.notes.strength_basis,
            "elongation_percent": row.notes.elongation,
            "reduction_of_area_percent": row.notes.reduction_of_area,
            "ductility_mark": row.notes.ductility_mark,
            "machinability_percent": row.notes.machinability,
            "machinability_mark": row.notes.machinability_mark,
            "lead_days_min": row.notes.lead_days_min,
            "lead_days_max": row.notes.lead_days_max,
            "cost_index": row.notes.cost_index,
            "mark": row.source.mark,
            "source": str(row.source),
        }
        for row in _chosen(name, harder_than)
    ]


def steel_sheet(name: str, harder_than: float) -> Sheet:
    """Arrange the chosen steels as a list, or one of them in full."""
    found = _chosen(name, harder_than)
    exact = [row for row in found if name and plain_name(row.id) == plain_name(name)]
    if exact or (name and len(found) == 1):
        return _one((exact or found)[0])
    columns = (
        Column("Steel"), Column("Rm MPa", "right"), Column("Re MPa", "right"), Column("Core HB", "right"),
        Column("Flank", width=18), Column("Cost", "right"), Column("Mark"),
    )  # fmt: skip
    rows = tuple(
        (
            row.id,
            significant(row.ultimate_strength / 1e6),
            significant(row.yield_strength / 1e6),
            _band(row.core_hardness_min, row.core_hardness_max),
            _surface(row),
            "" if row.notes.cost_index is None else f"{row.notes.cost_index:.1f}",
            "reference only" if row.reference_only else row.source.mark,
        )
        for row in found
    )
    legend = (
        "Rm, Re: ultimate and yield strength. Cost: per kilogram, cold drawn 1018 = 1, indicative, common "
        "practice without a source. `torqcheck materials NAME` shows a steel in full."
    )
    return Sheet(f"{len(found)} steels", (), None, (), (Table("Steels", columns, rows, legend=legend),))


def _band(low: float, high: float) -> str:
    return f"{low:.0f}" if low == high else f"{low:.0f}-{high:.0f}"


def _surface(row: Steel) -> str:
    if row.surface_hardness_min is None or row.surface_hardness_max is None:
        return "as core" if row.surface_treatment == "none" else row.surface_treatment
    return f"{row.surface_treatment} {_band(row.surface_hardness_min, row.surface_hardness_max)} HRC"


def _ductility(notes: SteelNotes) -> str:
    """How far the steel gives before it breaks."""
    told = [
        f"{name} {value:g} %"
        for name, value in (("elongation", notes.elongation), ("reduction of area", notes.reduction_of_area))
        if value is not None
    ]
    return f"{', '.join(told)} [{notes.ductility_mark}]" if told else ""


def _machining(notes: SteelNotes) -> str:
    if notes.machinability is None:
        return ""
    return f"{notes.machinability:g} % of free-cutting 1212 [{notes.machinability_mark}]"


def _through(notes: SteelNotes) -> str:
    if notes.through_harden_round is None:
        return ""
    return f"a round of up to {notes.through_harden_round * 1e3:g} mm"


def _days(notes: SteelNotes) -> str:
    if notes.lead_days_min is None or notes.lead_days_max is None:
        return ""
    return f"{notes.lead_days_min:g} to {notes.lead_days_max:g} working days (indicative)"


def _one(row: Steel) -> Sheet:
    """One steel in full: strengths, allowables, notes, source."""
    notes = row.notes
    allowed = allowable_stresses(row.hardness_class, softest_brinell(row))
    depth = ""
    if row.case_depth_min is not None and row.case_depth_max is not None:
        depth = f", case {row.case_depth_min * 1e3:g} to {row.case_depth_max * 1e3:g} mm"
    section = "" if row.section_max is None else f"up to {row.section_max * 1e3:g} mm round"
    most = "" if notes.ultimate_max is None else f" to {notes.ultimate_max / 1e6:.0f}"
    facts = [
        ("condition", row.condition),
        ("section", section),
        ("number", ", ".join(filter(None, (notes.number, notes.standard)))),
        ("ultimate strength", f"{row.ultimate_strength / 1e6:.0f}{most} MPa"),
        ("yield strength", f"{row.yield_strength / 1e6:.0f} MPa"),
        ("basis of both", notes.strength_basis),
        ("design factor on both", f"{row.strength_factor:g}, strength of the {row.strength_of}"),
        ("core hardness", f"{_band(row.core_hardness_min, row.core_hardness_max)} HB"),
        ("flank", _surface(row) + depth),
        ("guide, shear", f"{allowed.shear / 1e6:.0f} MPa"),
        ("guide, flank straight", f"{allowed.flank_straight / 1e6:.1f} MPa"),
        ("guide, flank crowned", f"{allowed.flank_crowned / 1e6:.1f} MPa"),
        ("guide, tension", f"{allowed.tension / 1e6:.0f} MPa"),
        ("ductility", _ductility(notes)),
        ("machining", _machining(notes)),
        ("welding", notes.welding),
        ("heat treatment", notes.heat_treatment),
        ("hardening", notes.hardenability),
        ("hardens through", _through(notes)),
        ("use", notes.typical_use),
        ("heat treatment takes", _days(notes)),
        ("cost index", "" if notes.cost_index is None else f"{notes.cost_index:.1f} (indicative)"),
        ("source", str(row.source)),
        ("other sources", notes.cross_check),
        ("caution", row.data_flag),
    ]
    rows = tuple((label, text) for label, text in facts if text)
    table = Table("Data", (Column(""), Column("")), rows)
    reasons = (Note("Hardness band", (allowed.note,)),) if allowed.note else ()
    return Sheet(f"{row.id}: {row.grade}", (), None, (), (table, *reasons))
