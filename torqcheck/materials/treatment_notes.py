"""What the heat treatment of a steel asks of an order: days, growth, words for the drawing; by table."""

import re
from dataclasses import dataclass

from torqcheck.materials.steels import Steel
from torqcheck.materials.tables import Row, mark, number, source, table
from torqcheck.provenance import Source

__all__ = ["TreatmentNote", "treatment_note", "treatment_process"]

_READY = re.compile(r"\bpre-?hard", re.IGNORECASE)
_QUENCHED = re.compile(r"quench|\+QT", re.IGNORECASE)
_AGED = re.compile(r"\baged\b", re.IGNORECASE)
_CAST = ("cast steel", "ductile iron")


@dataclass(frozen=True, slots=True, kw_only=True)
class TreatmentNote:
    """One way of heat treatment, as an order and a drawing must speak of it.

    `add_days_min` to `add_days_max` are working days that it adds; `depth_rule` says where the hard
    layer ends, empty where there is none. `source` and its mark stand for what has no source of its own.
    """

    process: str
    add_days_min: float
    add_days_max: float
    growth: str
    drawing: str
    keep_soft: str
    source: Source
    growth_source: Source
    depth_rule: str = ""
    depth_source: Source | None = None


def treatment_process(steel: Steel) -> str:
    """
    Return the way of heat treatment that gives a steel its condition, a word of the table.

    Examples
    --------
    >>> from torqcheck.materials import steel
    >>> [treatment_process(steel(name)) for name in ("4140_PH28_32", "4340_QT540", "8620_carb_30", "Mar250")]
    ['as delivered', 'quench and temper', 'carburised', 'maraging']
    """
    if steel.surface_treatment != "none":
        return steel.surface_treatment
    if steel.notes.family in _CAST:
        return "casting"
    if _AGED.search(steel.condition):
        return "maraging" if "maraging" in steel.grade else "age hardened"
    if _QUENCHED.search(steel.condition) and not _READY.search(steel.condition):
        return "quench and temper"
    return "as delivered"


def treatment_note(steel: Steel) -> TreatmentNote:
    """
    Return what the heat treatment of a steel asks of an order and of a drawing.

    Parameters
    ----------
    steel : Steel
        Of the shipped tables or of an own one. Its surface treatment decides; without one, its condition.

    Returns
    -------
    TreatmentNote
        Days, growth and words, with their sources.

    Notes
    -----
    Days, words and most of the growth are common practice without a source; the shrinkage of the
    age-hardening steels and the limits of the hard layer were read. Bar that a stockholder keeps
    quenched and tempered adds no days: the steel's own ``lead_days_min`` says so.

    Examples
    --------
    >>> from torqcheck.materials import steel
    >>> note = treatment_note(steel("4140_ind"))
    >>> note.process, note.add_days_min, note.add_days_max
    ('induction', 3.0, 15.0)
    """
    process = treatment_process(steel)
    (row,) = (row for row in table("treatment_notes") if row["process"] == process)
    return TreatmentNote(
        process=process,
        add_days_min=number(row, "add_days_min"),
        add_days_max=number(row, "add_days_max"),
        growth=row["growth"],
        drawing=row["drawing"],
        keep_soft=row["keep_soft"],
        source=source(row),
        growth_source=_own_source(row, "growth") or source(row),
        depth_rule=row["depth_rule"],
        depth_source=_own_source(row, "depth"),
    )


def _own_source(row: Row, part: str) -> Source | None:
    """Source of one part of a row, where that is known otherwise than the rest."""
    cited = row[f"{part}_source"]
    if not cited:
        return None
    work = source({**row, "source": cited}).work
    return Source(work, "", mark(row[f"{part}_mark"]))
