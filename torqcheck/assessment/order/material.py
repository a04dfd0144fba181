"""Material and heat treatment of a part that is ordered: from the tables, with the marks of their rows."""

from collections.abc import Iterator

from torqcheck.assessment.order.note import core_words, order_note, surface_words
from torqcheck.assessment.order.result import OrderLine
from torqcheck.geometry.standards.limits import Band
from torqcheck.materials import Steel, TreatmentNote, treatment_note
from torqcheck.provenance import Mark

__all__ = ["case_band", "material_lines"]

LEAST_CASE = 0.5e-3
"""m; least effective case on a spline flank (mark: common practice, no source)."""
MOST_CASE_SHARE = 0.4
"""Most effective case over the tooth thickness, on each flank (mark: common practice, no source)."""
PRACTICE: Mark = "common practice, no source"


def material_lines(steel: Steel, thickness: float, tooth: float, welded: bool) -> Iterator[OrderLine]:
    """
    Lines of the drawing on steel and heat treatment.

    Parameters
    ----------
    steel : Steel
        As it is ordered.
    thickness : float, m
        Ruling section of the part: tip diameter of a shaft, wall of a hub.
    tooth : float, m
        Thickness of its tooth on the pitch circle.
    welded : bool
        Whether a weld comes near the teeth.
    """
    note = treatment_note(steel)
    yield OrderLine(name="on the drawing", words=order_note(steel), mark=steel.source.mark)
    yield _section(steel, thickness)
    yield OrderLine(name="certificate", words=_certificate(steel), mark=PRACTICE)
    yield OrderLine(name=_core_name(steel), words=core_words(steel), mark=steel.source.mark)
    yield from _layer(steel, note, tooth)
    yield OrderLine(name="way of treatment", words=f"{note.process}: {note.drawing}", mark=note.source.mark)
    yield OrderLine(name="growth and warping", words=note.growth, mark=note.growth_source.mark)
    yield OrderLine(name="lead time", words=_days(steel, note), mark=steel.notes.lead_and_cost_mark)
    if welded:
        yield OrderLine(
            name="weld",
            words="weld first, then harden, then gauge: a weld beside finished teeth draws their temper",
            mark=PRACTICE,
        )
    if steel.data_flag:
        yield OrderLine(name="about the row", words=steel.data_flag, mark=steel.source.mark)


def case_band(steel: Steel, tooth: float) -> Band | None:
    """
    Effective case to order on a tooth: the band of the row, as far as the tooth bears it.

    Returns
    -------
    Band or None
        None where the row has no case, or the tooth is too thin for any of its band.
    """
    if steel.surface_treatment != "carburised" or steel.case_depth_min is None:
        return None
    least = max(steel.case_depth_min, LEAST_CASE)
    most = min(steel.case_depth_max or MOST_CASE_SHARE * tooth, MOST_CASE_SHARE * tooth)
    return Band(least, most) if least < most else None


def _section(steel: Steel, thickness: float) -> OrderLine:
    """For which bar the strengths hold, and whether the part is such a one."""
    about = f"this part is about {thickness * 1e3:.0f} mm thick"
    fits = steel.fits_section(thickness)
    if steel.section_max is None or fits is None:
        words = f"the row states no section; {about}: ask the supplier for the strength at this size"
    elif fits:
        words = f"the strengths hold for this round; {about}"
    elif thickness > steel.section_max:
        words = (
            f"{about}, MORE than the row holds for: a thicker bar is weaker, choose the row of its section"
        )
    else:
        words = f"{about}, less than the row holds for: the strength is at least that of the row"
    band = None if steel.section_max is None else Band(steel.section_min, steel.section_max)
    return OrderLine(name="section", words=words, band=band, mark=steel.source.mark)


def _certificate(steel: Steel) -> str:
    """What to ask of the supplier: a bar that is hardened later cannot show the strength of its core."""
    strength = (
        f"{steel.ultimate_strength / 1e6:.0f} MPa ultimate and {steel.yield_strength / 1e6:.0f} MPa yield"
    )
    asked = "inspection certificate 3.1 to EN 10204 of the bar: cast, analysis, "
    if steel.surface_treatment == "carburised":
        return f"{asked}hardenability; the core was checked with {strength}, its hardness proves them"
    return f"{asked}at least {strength}, hardness as measured"


def _core_name(steel: Steel) -> str:
    return "hardness" if steel.surface_treatment == "none" else "core hardness"


def _layer(steel: Steel, note: TreatmentNote, tooth: float) -> Iterator[OrderLine]:
    """The hard layer: hardness, depth as the tooth bears it, where it must not be."""
    if steel.surface_treatment == "none":
        return
    mark = steel.surface_mark or steel.source.mark
    yield OrderLine(name="surface hardness", words=f"{note.process}, {surface_words(steel)}", mark=mark)
    if note.depth_source is not None:
        yield OrderLine(name="depth counts", words=note.depth_rule, mark=note.depth_source.mark)
    if steel.surface_treatment == "carburised":
        band = case_band(steel, tooth)
        words = (
            f"at most {MOST_CASE_SHARE:g} of the tooth thickness, or the tooth is hard through and brittle"
        )
        if band is None:
            words = (
                f"this tooth of {tooth * 1e3:.2f} mm bears {MOST_CASE_SHARE * tooth * 1e3:.2f} mm at most, "
                "less than the row's least: agree a thinner case, or nitride"
            )
        yield OrderLine(name="effective case on this tooth", words=words, band=band, mark=PRACTICE)
    yield OrderLine(name="keep soft", words=note.keep_soft, mark=note.source.mark)


def _days(steel: Steel, note: TreatmentNote) -> str:
    """Working days that the heat treatment adds: those of the row, else those of the process."""
    least, most = steel.notes.lead_days_min, steel.notes.lead_days_max
    if least is None or most is None:
        least, most = note.add_days_min, note.add_days_max
    days = f"{least:g}" if least == most else f"{least:g} to {most:g}"
    return f"adds {days} working days to the machining"
