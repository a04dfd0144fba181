"""Whether the two halves of a splined joint belong together: by count, and by play."""

from torqcheck.assessment.result import MateResult, MateVerdict
from torqcheck.assessment.spline_state import SplineState
from torqcheck.geometry import InvoluteSpline, centred_assembly, neighbour
from torqcheck.scenario.joint_schema import Member
from torqcheck.scenario.ledger import Ledger

__all__ = ["mate_of"]

_HOW_COUNT = "mark the first tooth with paint and count twice, on each part"
LEAST_INVOLUTE_TEETH = 4
SNUG = "A snug fit by hand, without load, proves nothing [common practice, no source]."


def mate_of(state: SplineState, ledger: Ledger) -> MateResult:
    """
    Compare the counted teeth, then the play with what a new pair shows.

    Different counts are a false fit whatever else was found. A part that is new, made to the stated
    size, need not be counted.
    """
    outer = _count(state, "external", state.joint.external, ledger)
    inner = _count(state, "internal", state.joint.internal, ledger)
    if outer is not None and inner is not None and outer != inner:
        return _false_fit(state, outer, inner)
    if outer is None or inner is None:
        return _result(state, "not measured", ("The teeth of both parts have not been counted.", SNUG))
    if outer != state.spline.teeth:
        reason = (
            f"Both parts have {outer} teeth, the stated size has {state.spline.teeth}: "
            "the stresses are those of another spline."
        )
        ledger.miss(state.name, "the size of the spline", f"state the size for {outer} teeth")
        return _result(state, "not measured", (reason,))
    return _by_play(state)


def _count(state: SplineState, side: str, member: Member, ledger: Ledger) -> int | None:
    """Counted teeth; those of the drawing for a part that is stated to be new."""
    if member.measured.teeth is not None:
        return member.measured.teeth
    if member.reused is False:
        return state.spline.teeth
    ledger.miss(state.name, f"tooth count of the {side} member", _HOW_COUNT)
    return None


def _false_fit(state: SplineState, outer: int, inner: int) -> MateResult:
    first = (
        f"The shaft has {outer} teeth and the hub {inner}: they are not mates, however well they slide "
        "together."
    )
    if not isinstance(state.spline, InvoluteSpline) or min(outer, inner) < LEAST_INVOLUTE_TEETH:
        return _result(state, "false fit", (first, SNUG))
    assembly = centred_assembly(neighbour(state.spline, outer), neighbour(state.spline, inner))
    stand_in = f"The stresses are those of a true mate with {state.spline.teeth} teeth, for comparison only."
    return _result(state, "false fit", (first, SNUG, stand_in), assembly.missing, assembly.free_teeth)


def _by_play(state: SplineState) -> MateResult:
    """Counts agree: the play tells a worn pair from a sound one, as far as it can."""
    limits = state.spline.new_clearance
    clearance = state.lash.clearance
    shown = f"The play, {clearance * 1e3:.3f} mm along the pitch circle, is"
    new = f"{limits.minimum * 1e3:.3f} to {limits.maximum * 1e3:.3f} mm ({limits.assumes})"
    counted = "The counts agree; pitch and pressure angle of each part were not compared."
    if not state.lash.measured:
        return _result(state, "not measured", (counted, "The play has not been measured."))
    if state.lash.new:
        return _result(state, "true mate", (counted, f"The play is stated as new: {new}."))
    if clearance <= limits.maximum:
        return _result(state, "true mate", (counted, f"{shown} what a new pair shows: {new}."))
    if limits.bedded_in is not None and clearance <= limits.bedded_in:
        bedded = f"{limits.bedded_in * 1e3:.3f} mm"
        return _result(
            state,
            "true mate",
            (counted, f"{shown} above what a new pair shows, {new}, and within {bedded} once bedded in."),
        )
    return _result(
        state,
        "worn mate",
        (
            f"{shown} beyond what a new pair shows, {new}.",
            counted,
            "Equal counts of a neighbouring pitch feel like a worn mate: compare pin readings of each part.",
            "Play that can be felt or heard is a reason not to reuse [common practice, no source].",
        ),
    )


def _result(
    state: SplineState,
    verdict: MateVerdict,
    reasons: tuple[str, ...],
    missing: float | None = None,
    free_teeth: int | None = None,
) -> MateResult:
    limits = state.spline.new_clearance
    return MateResult(
        verdict=verdict,
        reasons=reasons,
        missing=missing,
        free_teeth=free_teeth,
        clearance=state.lash.clearance if state.lash.measured else None,
        new_clearance=(limits.minimum, limits.maximum, limits.bedded_in),
    )
