"""What the comparison of several plays of one joint shows, in sentences."""

import math
from collections.abc import Sequence
from itertools import pairwise

from torqcheck.assessment.bench.play_result import PlayResult, PlayRow
from torqcheck.assessment.teeth.first_tooth import TeethOf
from torqcheck.assessment.teeth.state import SplineState
from torqcheck.geometry import InvoluteSpline, StraightSpline, radial_play_from_clearance
from torqcheck.scenario.ledger import Ledger

__all__ = ["STOPPED_BY_FLANKS", "allowed_play", "play_notes", "warn_of_first_tooth"]

STOPPED_BY_FLANKS = 0.9
"""Share of the radial play that the clearance allows from which on a reading is taken to show it."""
DOUBTFUL = 1.1
"""Share of it beyond which a reading contradicts the lash."""
FALLS = 1e-3
"""Part by which the blow has to fall before it is worth a remark."""


def allowed_play(state: SplineState, clearance: float) -> float:
    """Play across the axis, stop to stop, that a clearance allows if only the flanks stop the shaft, m."""
    spline = state.spline
    if isinstance(spline, InvoluteSpline):
        return float(radial_play_from_clearance(clearance, spline.pressure_angle, spline.teeth))
    return clearance * math.cos(spline.pressure_angle)


def play_notes(rows: Sequence[PlayRow], state: SplineState, teeth: TeethOf) -> tuple[str, ...]:
    """
    Say what the rows do not show by themselves.

    Parameters
    ----------
    rows : sequence of PlayRow
        The present play first, the lash limit last.
    state : SplineState
        The joint.
    teeth : TeethOf
        How its teeth share.
    """
    present, limit = rows[0], rows[-1]
    notes = [_on_radial_play(present, state)]
    if present.clearance > limit.clearance:
        notes.append(
            f"The lash, {present.clearance * 1e3:.2f} mm along the pitch circle, is beyond its limit of "
            f"{limit.clearance * 1e3:.2f} mm already."
        )
    notes += _on_falling_peaks(rows)
    soft, hard = teeth.median_shares(present.blow_torque, 0.5 * present.radial_play)
    notes.append(
        f"Over the band of the tooth stiffness the first tooth, {present.state} and held off centre, carries "
        f"{100.0 * soft:.0f} to {100.0 * hard:.0f} % in the median."
    )
    if state.crown_height is not None:
        notes.append("Crowned flanks bear on part of their length only: no pressure is given for the first.")
    return tuple(notes)


def _on_falling_peaks(rows: Sequence[PlayRow]) -> list[str]:
    """Say where more play gives the lower peak, so that nobody takes it for a remedy."""
    return [
        f"{more.state.capitalize()} the peak is lower than {less.state}, although the play is larger: there "
        "the flanks meet in another phase of the rise. Speed and energy of the closing do not fall, and "
        "another ramp turns it round."
        for less, more in pairwise(sorted(rows, key=lambda row: row.clearance))
        if more.blow_torque < (1.0 - FALLS) * less.blow_torque
    ]


def _on_radial_play(present: PlayRow, state: SplineState) -> str:
    """Say where the radial play comes from, and whether it agrees with the lash."""
    read = state.joint.radial_play
    if read is None:
        return (
            "The radial play was not read: the shaft is taken as far off centre as the clearance allows. "
            f"{_what_holds(state)} it better; read the play across the axis."
        )
    allowed = allowed_play(state, present.clearance)
    if read.value - read.tolerance > DOUBTFUL * allowed:
        return (
            f"The radial play that was read, {read.value * 1e3:.3f} mm, is more than the {allowed * 1e3:.3f} "
            "mm that the clearance allows: one of the two readings is wrong."
        )
    if read.value >= STOPPED_BY_FLANKS * allowed:
        return "The radial play as read is what the flanks allow; it grows with their clearance."
    return (
        f"The radial play as read is less than the {allowed * 1e3:.3f} mm that the clearance allows: a pilot "
        "or bearing stops the shaft, and is taken to stop it there at the lash limit too."
    )


def _what_holds(state: SplineState) -> str:
    """Name what may hold a shaft closer to its centre than its flanks do."""
    if state.joint.seat == "fixed":
        return "What fixes the seat holds"
    if isinstance(state.spline, StraightSpline):
        return "Bearings, or a fit on the minor or major diameter, may hold"
    return "A pilot or bearings may hold"


def warn_of_first_tooth(result: PlayResult, state: SplineState, ledger: Ledger) -> None:
    """
    Warn where the first flank yields in the blow with the play as it is.

    Parameters
    ----------
    result : PlayResult
        The comparison.
    state : SplineState
        The joint.
    ledger : Ledger
        Takes the caution.
    """
    row = result.rows[0]
    pressure = row.held.pressure
    if pressure is None or pressure[1] <= result.flank_yield:
        return
    weaker = min((state.external, state.internal), key=lambda member: member.yield_strength)
    median, high = (value / 1e6 for value in pressure)
    how = "as read" if state.joint.radial_play is not None else "the most that its clearance allows"
    ledger.warn(
        f"{state.key} first tooth",
        f"{state.name}: with the shaft held off centre in {row.radial_play * 1e3:.2f} mm of radial play "
        f"({how}) the blow presses the flank of the first tooth with {median:.0f} MPa, in one spline of "
        f"twenty with {high:.0f} MPa or more; the {weaker.side} member yields at "
        f"{result.flank_yield / 1e6:.0f} MPa. It gives way until other teeth share; wear and cracks start "
        "there. Centre the shaft, take the play out, or slow the ramp. Beside the guide; the checks "
        "of the first tooth add tilt and twist.",
    )
