"""What one wants to know of a steel before it is ordered for a member, in words."""

from dataclasses import dataclass, fields

from torqcheck.assessment.compare.choices import holds_for
from torqcheck.assessment.order.note import core_words, order_note, surface_words
from torqcheck.assessment.teeth.state import SplineState, sections
from torqcheck.errors import DomainError
from torqcheck.materials import Steel, composition_of_grade, preheat_for, treatment_note
from torqcheck.scenario.joint_schema import SteelPart

__all__ = ["NOT_HELD", "MemberNotes", "hardness_words", "member_notes"]

FREEZING = 273.15
NOT_HELD = "the row does not hold for this part"
THICKEST = 0.4
"""m: the table of preheats ends here."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MemberNotes:
    """Notes on one steel for one member; an empty text where nothing is known."""

    order: str
    surface: str
    core: str
    machining: str
    welding: str
    heat_treatment: str
    hardening: str
    distortion: str
    drawing: str
    lead: str
    cost: str
    section: str
    data: str

    def to_dict(self) -> dict[str, str | None]:
        """Return the notes as plain data for JSON, None where nothing is known."""
        return {field.name: getattr(self, field.name) or None for field in fields(self)}


def member_notes(steel: Steel, state: SplineState, side: str) -> MemberNotes:
    """
    Put together what to know of a steel that is to be ordered for a member.

    Parameters
    ----------
    steel : Steel
        The choice.
    state : SplineState
        The joint as the file has it.
    side : str
        ``external`` or ``internal``.
    """
    part: SteelPart = getattr(state.joint, side)
    section = sections(state.joint, state.spline)[0 if side == "external" else 1]
    notes, treatment = steel.notes, treatment_note(steel)
    machined = "" if notes.machinability is None else f"{notes.machinability:g} % of free-cutting 1212"
    return MemberNotes(
        order=order_note(steel),
        surface=surface_words(steel) or "as the core",
        core=core_words(steel),
        machining=machined,
        welding=_welding(steel, section) if part.welded_near else notes.welding,
        heat_treatment=notes.heat_treatment,
        hardening=notes.hardenability,
        distortion=treatment.growth,
        drawing=treatment.drawing,
        lead=_days(notes.lead_days_min, notes.lead_days_max),
        cost=""
        if notes.cost_index is None
        else f"{notes.cost_index:g} per kg, cold drawn 1018 = 1, indicative",
        section=_section(steel, state, side, section),
        data=steel.data_flag,
    )


def hardness_words(steel: Steel) -> str:
    """
    Return the low end of the flank's hardness, short.

    Examples
    --------
    >>> from torqcheck.materials import steel
    >>> hardness_words(steel("8620_carb_63")), hardness_words(steel("4140_QT540"))
    ('58 HRC', '285 HB')
    """
    if steel.surface_hardness_min is not None:
        return f"{steel.surface_hardness_min:g} HRC"
    if steel.surface_hardness_min_hv is not None:
        return f"{steel.surface_hardness_min_hv:.0f} HV"
    return f"{steel.core_hardness_min:.0f} HB"


def _days(low: float | None, high: float | None) -> str:
    if low is None or high is None:
        return ""
    return f"{low:g} to {high:g} working days for the heat treatment, indicative"


def _welding(steel: Steel, thickness: float) -> str:
    """Welding of a part with a weld near its teeth: carbon equivalent and preheat beside the words."""
    told = steel.notes.welding or "nothing is known"
    composition = composition_of_grade(steel.grade)
    drawn = "the weld draws the teeth beside it, which count as annealed whatever the steel"
    if composition is None:
        return f"{told}; carbon equivalent not known; {drawn}"
    equivalent = composition.carbon_equivalent
    words = f"{told}; carbon equivalent {equivalent:.2f}"
    if composition.resulphurised:
        words += ", with sulphur that cracks hot: no steel for a weld"
    try:
        preheat = preheat_for(equivalent, min(thickness, THICKEST))
    except DomainError:
        return f"{words}, no preheat is known; {drawn}"
    if preheat.needed:
        words += f", preheat {preheat.least - FREEZING:.0f} to {preheat.most - FREEZING:.0f} C"
    return f"{words}; {drawn}"


def _section(steel: Steel, state: SplineState, side: str, section: float) -> str:
    """How the row and the thickness of the part go together, where that is not plain."""
    if steel.section_max is None:
        return "the row states no section: ask for the strength in yours"
    limit, bar = f"up to {steel.section_max * 1e3:g} mm", state.outside_diameter
    if side == "external":
        thick = f"the shaft has {section * 1e3:.0f} mm over its teeth"
        return "" if section <= steel.section_max else f"{NOT_HELD}: it is for {limit}, {thick}"
    if bar is None:
        return f"the row is for {limit}; the outside diameter of the hub is not in the file"
    if bar <= steel.section_max:
        return ""
    stock = f"bar for this hub has {bar * 1e3:.0f} mm"
    if holds_for(steel, state, side):
        return f"the row is for {limit}, {stock}: bore it before it is hardened (wall {section * 1e3:.0f} mm)"
    return f"{NOT_HELD}: it is for {limit}, {stock}"
