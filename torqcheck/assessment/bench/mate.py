"""Whether the two halves of a splined joint belong together, and how worn they are."""

from dataclasses import replace

from torqcheck.assessment.result import MateResult, MateVerdict
from torqcheck.assessment.teeth.state import SplineState
from torqcheck.geometry import InvoluteSpline, StraightSpline, neighbour
from torqcheck.geometry.pairs.judgement import (
    COUNT_IS_NOT_ENOUGH,
    COUNT_THE_TEETH,
    PLAY_FELT,
    SNUG_FIT,
    Judgement,
    judge,
)
from torqcheck.geometry.pairs.lash_comparison import READ_THE_LASH
from torqcheck.geometry.pairs.off_centre import least_clearance
from torqcheck.geometry.pairs.worn_members import new_clearance
from torqcheck.geometry.spline import NewClearance
from torqcheck.scenario.joint_schema import Member
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.parts import lash_readings, part_readings

__all__ = ["mate_of", "mate_result"]

_HOW_COUNT = "mark the first tooth with paint and count twice, on each part"


def mate_of(state: SplineState, ledger: Ledger) -> MateResult:
    """
    Judge a pair: counts first, then the pitch of each part, widths over pins, and the play.

    Different counts are a false fit whatever else was found. A part that is new, made to the stated
    size, need not be counted.
    """
    if isinstance(state.spline, StraightSpline):
        return _straight(state, state.spline, ledger)
    return _involute(state, state.spline, ledger)


def _involute(state: SplineState, spline: InvoluteSpline, ledger: Ledger) -> MateResult:
    joint = state.joint
    for side, member in (("external", joint.external), ("internal", joint.internal)):
        _ask_for_count(state, side, member, ledger)
    outer = part_readings(joint.external, f"{state.key}.external", ledger)
    inner = part_readings(joint.internal, f"{state.key}.internal", ledger)
    found = judge(spline, outer, inner, lash_readings(joint, spline))
    _ask_for_what_decides(state, found, ledger)
    result = mate_result(spline, found)
    if found.assembly is None:
        return result
    stand_in = f"The stresses are those of a true mate with {spline.teeth} teeth, for comparison only."
    return replace(result, reasons=(*result.reasons, stand_in))


def mate_result(spline: InvoluteSpline, found: Judgement, fit_class: int | None = None) -> MateResult:
    """
    Turn a judgement into the result that is shown, with what the parts would need to go together.

    Parameters
    ----------
    spline : InvoluteSpline
        The spline that the pair is said to be.
    found : Judgement
        What `judge` found.
    fit_class : int, optional
        Tolerance class that it was judged by.
    """
    reasons = list(found.reasons)
    limits = new_clearance(spline, fit_class)
    off_centre = None
    if found.assembly is not None:
        counts = found.assembly.external_teeth, found.assembly.internal_teeth
        off_centre = least_clearance(neighbour(spline, counts[0]), neighbour(spline, counts[1]))
        reasons.append(f"Off centre: {off_centre.words}")
        if not off_centre.slides_as_given and off_centre.clearance is not None:
            reasons.append(_wear_that_is_enough(off_centre.clearance, limits))
    reasons += found.practice
    return MateResult(
        verdict=found.verdict,
        reasons=tuple(reasons),
        next_readings=found.next_readings,
        missing=None if found.assembly is None else found.assembly.missing,
        free_teeth=None if found.assembly is None else found.assembly.free_teeth,
        off_centre_clearance=None if off_centre is None else off_centre.clearance,
        off_centre_offset=None if off_centre is None else off_centre.offset,
        runout=None if off_centre is None else off_centre.runout,
        clearance=found.lash.clearance if found.lash is not None else None,
        new_clearance=(limits.minimum, limits.maximum, limits.bedded_in),
        external_wear=found.external.wear if found.external is not None else None,
        internal_wear=found.internal.wear if found.internal is not None else None,
    )


def _wear_that_is_enough(clearance: float, new: NewClearance) -> str:
    """Say how little wear lets a pair of unequal counts slide together, the play of new parts counted."""
    most = new.bedded_in if new.bedded_in is not None else new.maximum
    had = f"New parts have {new.minimum * 1e3:.2f} to {most * 1e3:.2f} mm of it from the start"
    if clearance <= most:
        return f"{had}: loose ones may slide together without any wear."
    return f"{had}: {(clearance - most) * 1e3:.2f} mm of wear in all may be enough."


def _ask_for_count(state: SplineState, side: str, member: Member, ledger: Ledger) -> None:
    """Old parts are counted before a pass."""
    if member.measured.teeth is None and member.reused is not False:
        ledger.miss(state.name, f"tooth count of the {side} member", _HOW_COUNT)


def _ask_for_what_decides(state: SplineState, found: Judgement, ledger: Ledger) -> None:
    """A pair that cannot be called a mate is no ground for a pass."""
    if found.verdict != "not measured" or found.lash is None:
        return  # counts are asked for by themselves
    if not found.lash.readings and READ_THE_LASH in found.next_readings:
        return  # so is the play
    how = "; ".join(found.next_readings) or "repeat the readings"
    ledger.miss(state.name, "whether the two parts are mates", how)


def _straight(state: SplineState, spline: StraightSpline, ledger: Ledger) -> MateResult:
    """Straight sides: counts, then the play against that of a new pair."""
    counts = []
    for side, member in (("external", state.joint.external), ("internal", state.joint.internal)):
        _ask_for_count(state, side, member, ledger)
        new = spline.teeth if member.reused is False else None
        counts.append(member.measured.teeth if member.measured.teeth is not None else new)
    outer, inner = counts
    limits, clearance = spline.new_clearance, state.lash.clearance
    shown = f"The play, {clearance * 1e3:.3f} mm along the mean circle, is"
    new_pair = f"{limits.minimum * 1e3:.3f} to {limits.maximum * 1e3:.3f} mm ({limits.assumes})"
    verdict: MateVerdict
    reasons: tuple[str, ...]
    asked: tuple[str, ...] = ()
    if outer is None or inner is None:
        verdict, reasons = "not measured", ("The teeth of both parts have not been counted.", SNUG_FIT)
    elif outer != inner:
        first = (
            f"The shaft has {outer} teeth and the hub {inner}: a false fit, however well they slide together."
        )
        verdict, reasons = "false fit", (first, SNUG_FIT, COUNT_THE_TEETH)
    elif not state.lash.measured:
        verdict, reasons = "not measured", ("The counts agree. The play has not been measured.", SNUG_FIT)
    elif clearance <= limits.maximum:
        as_new = f"The counts agree. {shown} what a new pair shows: {new_pair}."
        asked = _diameters_asked(state)
        if asked:
            verdict, reasons = "not measured", (as_new, COUNT_IS_NOT_ENOUGH, SNUG_FIT)
            ledger.miss(state.name, "whether the two parts are mates", "; ".join(asked))
        else:
            verdict, reasons = "true mate", (as_new, SNUG_FIT)
    else:
        verdict, reasons = (
            "worn mate",
            (f"{shown} beyond what a new pair shows, {new_pair}.", SNUG_FIT, PLAY_FELT),
        )
    return MateResult(
        verdict=verdict,
        reasons=reasons,
        next_readings=asked,
        clearance=clearance if state.lash.measured else None,
        new_clearance=(limits.minimum, limits.maximum, limits.bedded_in),
    )


def _diameters_asked(state: SplineState) -> tuple[str, ...]:
    """Series of one count differ in their diameters: each old part needs one of them."""
    members = (("shaft", state.joint.external), ("hub", state.joint.internal))
    return tuple(
        f"outside and minor diameter of the {name} with a caliper"
        for name, member in members
        if member.reused is not False
        and member.measured.major_diameter is None
        and member.measured.minor_diameter is None
    )
