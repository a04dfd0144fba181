"""What to write on a drawing about a steel: grade, condition, hardness, case, where it stays soft."""

from torqcheck.errors import DomainError
from torqcheck.materials import Steel, hrc_from_hb, treatment_note

__all__ = ["core_words", "order_note", "surface_words"]

_STRENGTH_OF_CORE = ": core"
_LEAST_ROCKWELL = 20.0  # below it the cone goes too deep: HB alone is asked for


def order_note(steel: Steel) -> str:
    """
    Return one or two sentences for the drawing of a part made of this steel.

    Parameters
    ----------
    steel : Steel
        Of the shipped tables or of an own one.

    Returns
    -------
    str
        Grade, condition, hardness band, case depth, where not to harden. For an unknown steel: that it
        must be chosen first.

    Examples
    --------
    >>> from torqcheck.materials import steel
    >>> print(order_note(steel("4150_QT540_1in")))
    AISI 4150, oil quenched, tempered 540 C (1000 F), 1 in round; 350 to 375 HB (38 to 40 HRC).
    """
    if steel.id == "unknown":
        return "Choose the steel first: an unknown steel cannot be ordered."
    condition = steel.condition.split(_STRENGTH_OF_CORE)[0]
    if steel.surface_treatment == "none":
        return f"{steel.grade}, {condition}; {core_words(steel)}."
    note = treatment_note(steel)
    rule = f" ({note.depth_rule})" if note.depth_rule else ""
    return (
        f"{steel.grade}, {condition}; {surface_words(steel)}{rule}; core {core_words(steel)}. "
        f"Keep soft: {note.keep_soft}."
    )


def core_words(steel: Steel) -> str:
    """Return the hardness of the section, or below the hard layer, for a drawing; HRC where it reaches there.

    A row that knows one hardness only is a least one.
    """
    low, high = steel.core_hardness_min, steel.core_hardness_max
    if low == high:
        return f"at least {low:.0f} HB{_in_rockwell(low)}"
    return f"{low:.0f} to {high:.0f} HB{_in_rockwell(low, high)}"


def surface_words(steel: Steel) -> str:
    """Return hardness and depth of the hard layer for a drawing; empty where there is none."""
    if steel.surface_hardness_min is None:
        return ""
    words = f"surface {steel.surface_hardness_min:g} HRC at least"
    if steel.surface_hardness_max is not None and steel.surface_hardness_max > steel.surface_hardness_min:
        words = f"surface {steel.surface_hardness_min:g} to {steel.surface_hardness_max:g} HRC"
    if steel.case_depth_min is None:
        return f"{words}, depth to be agreed"
    if steel.case_depth_max is None:
        return f"{words} to a depth of {steel.case_depth_min * 1e3:g} mm at least"
    return f"{words} to a depth of {steel.case_depth_min * 1e3:g} to {steel.case_depth_max * 1e3:g} mm"


def _in_rockwell(*brinell: float) -> str:
    """The same in HRC in brackets, where the scale reaches so far down and up."""
    try:
        rockwell = [hrc_from_hb(value) for value in brinell]
    except DomainError:
        return ""
    if min(rockwell) < _LEAST_ROCKWELL:
        return ""
    return f" ({' to '.join(f'{value:.0f}' for value in rockwell)} HRC)"
