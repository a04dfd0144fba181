"""For which mate the data of a new part are, and which play results with the mate as it was measured."""

from collections.abc import Iterator

from torqcheck.assessment.order.result import Lacking, MateFit
from torqcheck.assessment.result import MateResult
from torqcheck.assessment.teeth.state import SplineState
from torqcheck.errors import DomainError
from torqcheck.geometry import InvoluteSpline
from torqcheck.geometry.drawing.data_block import (
    DataBlock,
    MeasuredWidth,
    MemberName,
    measured_space,
    measured_thickness,
)
from torqcheck.geometry.pairs.finding import RENEW_BOTH
from torqcheck.geometry.standards.limits import Band, WidthLimits
from torqcheck.scenario.quantity import needed
from torqcheck.scenario.sizes import worn_step
from torqcheck.scenario.usual import OVER_PINS, PIN

__all__ = ["lacking_of_mate", "mate_fit"]

OTHER: dict[MemberName, MemberName] = {"external": "internal", "internal": "external"}
PART: dict[MemberName, str] = {"external": "shaft", "internal": "hub"}
SAYS_PART: dict[MemberName, tuple[str, ...]] = {
    "external": ("shaft", "over pins"),
    "internal": ("hub", "between pins"),
}


def lacking_of_mate(
    state: SplineState, side: MemberName, mate: MateResult, fitted: MateFit, lash_limit: float
) -> Iterator[Lacking]:
    """
    What the mate has against the data: another count makes scrap of a part made to them.

    Parameters
    ----------
    state : SplineState
        The joint.
    side : str
        The part that is made.
    mate : MateResult
        The finding on the pair as it is.
    fitted : MateFit
        The play with the mate as measured.
    lash_limit : float, m
        Largest play that the job allows.
    """
    other = OTHER[side]
    play = fitted.clearance
    if play is not None and play.maximum is not None and play.maximum > lash_limit:
        yield Lacking(
            f"With the {PART[other]} as measured the play can be {play.maximum * 1e3:.3f} mm from the start, "
            f"beyond the limit of {lash_limit * 1e3:.2f} mm: renew the {PART[other]} as well."
        )
    member = state.joint.external if other == "external" else state.joint.internal
    counted, teeth = member.measured.teeth, state.spline.teeth
    if counted is not None and counted != teeth:
        yield Lacking(
            f"The {PART[other]} that stays has {counted} teeth, the data are for {teeth}: a {PART[side]} "
            f"made to them is a false fit. Find the size of the {PART[other]} first (torqcheck identify) and "
            "write it into the scenario.",
            wrong=True,
        )
    elif counted is None and member.reused is not False:
        yield Lacking(
            f"The teeth of the {PART[other]} that stays have not been counted: count them twice, the first "
            "one marked with paint."
        )
    elif mate.verdict == "not measured" and member.reused is not False:
        # readings of the pair, or of the part that is replaced, say nothing of the one that stays
        asked = [text for text in mate.next_readings if any(word in text for word in SAYS_PART[other])]
        if asked:
            yield Lacking(f"Whether the {PART[other]} is a true mate is not sure yet: {'; '.join(asked)}.")


def mate_fit(
    state: SplineState, block: DataBlock, side: MemberName, mate: MateResult, lash_limit: float
) -> MateFit:
    """
    Say for which mate the data are, and compute the play with the mate as measured.

    Parameters
    ----------
    state : SplineState
        The joint.
    block : DataBlock
        Dimensions and limits of new parts.
    side : str
        The part that is made.
    mate : MateResult
        The finding on the pair as it is.
    lash_limit : float, m
        Largest play that the job allows.
    """
    other = OTHER[side]
    measured = _measured(state, block, other)
    new = block.effective_clearance or block.actual_clearance
    clearance = None if measured is None else _play(block, side, measured)
    words = [*_of_which_mate(state, other, measured), *_false_fit(state, side, mate)]
    words += _of_play(clearance, new, lash_limit, PART[other])
    return MateFit(words=tuple(words), measured=measured, clearance=clearance, new_clearance=new)


def _measured(state: SplineState, block: DataBlock, other: MemberName) -> MeasuredWidth | None:
    """Width of the mate from its pins; None without a reading, or where it has another count."""
    member = state.joint.external if other == "external" else state.joint.internal
    readings = member.measured
    reading = readings.over_pins if other == "external" else readings.between_pins
    if reading is None or readings.teeth not in {None, state.spline.teeth}:
        return None
    if not isinstance(block.spline, InvoluteSpline):
        return None
    pin = needed(readings.pin)
    turned = measured_thickness if other == "external" else measured_space
    tolerances = reading.tolerance or OVER_PINS, pin.tolerance or PIN
    try:
        return turned(block, reading.value, pin.value, *tolerances)
    except DomainError:
        return None


def _play(block: DataBlock, side: MemberName, measured: MeasuredWidth) -> Band | None:
    """Effective limits of the new part against the width of the old one as read, its tolerance included."""
    limits = block.external if side == "external" else block.internal
    width: WidthLimits | None = None
    if limits is not None:
        width = block.external.tooth_thickness if side == "external" and block.external else None
        width = block.internal.space_width if side == "internal" and block.internal else width
    if width is None:
        return None
    band = width.effective or width.actual
    if band.minimum is None or band.maximum is None:
        return None
    old, doubt = measured.width, measured.tolerance
    if side == "internal":
        return Band(band.minimum - old - doubt, band.maximum - old + doubt)
    return Band(old - doubt - band.maximum, old + doubt - band.minimum)


def _of_which_mate(state: SplineState, other: MemberName, measured: MeasuredWidth | None) -> Iterator[str]:
    member = state.joint.external if other == "external" else state.joint.internal
    if member.reused is False:
        yield f"The {PART[other]} is new too: the data are for a new pair, both within their limits."
        return
    if measured is None:
        yield f"The data are for a {PART[other]} within the limits of a new one. {_not_read(state, other)}"
    elif measured.impossible:
        yield (
            f"The reading of the old {PART[other]} lies where no wear leads: another spline, or a wrong "
            "reading. Settle that first."
        )
    elif measured.beyond_new is not None and measured.beyond_new > measured.tolerance:
        yield (
            f"The old {PART[other]} is WORN {measured.beyond_new * 1e3:.3f} mm beyond the limits of a new "
            f"one. The data are for a new {PART[other]}, not for this one. {RENEW_BOTH}"
        )
        yield (
            "Outside the worn band its flanks are as new: where the new part reaches past that band it bears "
            "on the ends only. Try it over the full length."
        )
    elif measured.beyond_new:
        yield f"The old {PART[other]} is at the worn end of the limits, nearer than its reading tells."
    else:
        yield f"The old {PART[other]} is within the limits of a new one: the data are for it as it is."


def _not_read(state: SplineState, other: MemberName) -> str:
    """Why the width of the old mate is not known."""
    member = state.joint.external if other == "external" else state.joint.internal
    if member.measured.teeth not in {None, state.spline.teeth}:
        return "The one that stays has another count."
    step = worn_step(member)
    worn = f" Its worn band is {step * 1e3:.2f} mm deep." if step else ""
    if not isinstance(state.spline, InvoluteSpline):
        return f"Its wear adds to the play: measure its width directly, in the worn band and beside it.{worn}"
    return f"The old one has not been read with pins: its wear adds to the play.{worn}"


def _false_fit(state: SplineState, side: MemberName, mate: MateResult) -> Iterator[str]:
    """The pair as it lies on the bench is none; the new part is for the one that stays."""
    member = state.joint.external if side == "internal" else state.joint.internal
    if mate.verdict == "false fit" and member.measured.teeth in {None, state.spline.teeth}:
        yield (
            f"The pair on the bench is a FALSE FIT. The new {PART[side]} is for the {PART[OTHER[side]]} that "
            f"stays, not for the one that it replaces: the data have {state.spline.teeth} teeth. Do not send "
            "the old part as a sample."
        )


def _of_play(clearance: Band | None, new: Band | None, limit: float, mate: str) -> Iterator[str]:
    if clearance is None or clearance.minimum is None or clearance.maximum is None:
        return
    least, most = max(clearance.minimum, 0.0), clearance.maximum
    text = (
        f"Play along the pitch circle with the {mate} as measured: {least * 1e3:.3f} to {most * 1e3:.3f} mm"
    )
    if new is not None and new.minimum is not None and new.maximum is not None:
        text += f"; a new pair has {new.minimum * 1e3:.3f} to {new.maximum * 1e3:.3f} mm"
    text += f"; the limit is {limit * 1e3:.2f} mm."
    yield text
    if clearance.minimum < 0.0:
        yield (
            f"At its tight end the new part may be {-clearance.minimum * 1e3:.3f} mm too tight for this "
            f"{mate}, by the reading and its tolerance. Read finer, or try it."
        )
