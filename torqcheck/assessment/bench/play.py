"""Effect of play at one joint: blow, first tooth and safety factor as it is, as new, at the lash limit."""

import math
from dataclasses import dataclass, replace

import numpy as np

from torqcheck.assessment.bench.play_notes import (
    STOPPED_BY_FLANKS,
    allowed_play,
    play_notes,
    warn_of_first_tooth,
)
from torqcheck.assessment.bench.play_result import PlayResult, PlayRow, PlayState
from torqcheck.assessment.joints import resolve
from torqcheck.assessment.prepared import Prepared, checks_at
from torqcheck.assessment.resolved import Resolved
from torqcheck.assessment.result import ShockResult
from torqcheck.assessment.teeth.first_tooth import teeth_of
from torqcheck.assessment.teeth.series import linked_joint
from torqcheck.assessment.teeth.state import SplineState
from torqcheck.assessment.torque.blow import blow_of, peak_at
from torqcheck.assessment.torque.starts import starts_of
from torqcheck.capacity import reflected_lash
from torqcheck.geometry import InvoluteSpline
from torqcheck.provenance import Mark
from torqcheck.scenario.joint_schema import Lash
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.quantity import Reading

__all__ = ["play_of"]


@dataclass(frozen=True, slots=True)
class _Play:
    """One play that is looked at: its name, how its lash is known, clearance and radial play in m."""

    state: PlayState
    mark: Mark
    clearance: float
    radial_play: float


@dataclass(frozen=True, slots=True)
class _Blow:
    """Peak torque at the joint; speed and energy of the closing from rest."""

    torque: float
    closing_speed: float | None
    energy: float | None


def play_of(prepared: Prepared, index: int, shock: ShockResult) -> PlayResult | None:
    """
    Compare the blow at one joint with the play as it is, as it was when new, and at the lash limit.

    Parameters
    ----------
    prepared : Prepared
        The path, as stated.
    index : int
        Which joint.
    shock : ShockResult
        Its worst blow.

    Returns
    -------
    PlayResult or None
        None where the joint is no spline.

    Notes
    -----
    For each row the lash of this joint alone is changed and the blow of the whole path is computed
    anew. The first tooth stands beside the guide's checks and changes none: it takes the shaft as
    held off centre, by half the radial play, by its bearings or pilot for the few milliseconds of a
    blow (assumed). Without them the engaged teeth push it back in less time than that, friction
    aside; the rows give that case too. Contact height and widths stay as worn as they are.
    """
    state = prepared.joints[index].spline
    if state is None:
        return None
    plays = _plays(prepared, state)
    blows = [_blow(prepared, index, shock, play) for play in plays]
    teeth = teeth_of(state, prepared.ledger)
    torques, offsets = [blow.torque for blow in blows], [0.5 * play.radial_play for play in plays]
    held = teeth.first_teeth(torques, offsets)
    centred = teeth.first_teeth(torques, [0.0])
    rows = []
    for play, blow, off_centre, on_centre in zip(plays, blows, held, centred, strict=True):
        factor, check = _lowest_factor(prepared, index, play, blow.torque)
        rows.append(
            PlayRow(
                state=play.state,
                mark=play.mark,
                lash=2.0 * play.clearance / state.pitch_diameter,
                clearance=play.clearance,
                radial_play=play.radial_play,
                blow_torque=blow.torque,
                closing_speed=blow.closing_speed,
                blow_energy=blow.energy,
                held=off_centre,
                centred=on_centre,
                safety_factor=factor,
                check=check,
            )
        )
    result = PlayResult(
        rows=tuple(rows),
        flank_yield=min(state.external.yield_strength, state.internal.yield_strength),
        index_sigma=teeth.index_sigma,
        draws=teeth.draws,
        seed=teeth.seed,
        notes=play_notes(rows, state, teeth),
    )
    warn_of_first_tooth(result, state, prepared.ledger)
    return result


def _plays(prepared: Prepared, state: SplineState) -> tuple[_Play, ...]:
    """List the plays to look at, the present one first."""
    lash, new = state.lash, state.spline.new_clearance
    allowed = allowed_play(state, lash.clearance)
    read = state.joint.radial_play
    stopped_by_flanks = read is None or read.value >= STOPPED_BY_FLANKS * allowed

    def other(name: PlayState, mark: Mark, clearance: float) -> _Play:
        play = allowed_play(state, clearance)
        # what stops the shaft before the flanks do, a pilot say, stops it there with other flanks too
        return _Play(
            name, mark, clearance, play if read is None or stopped_by_flanks else min(play, read.value)
        )

    limit_mark: Mark = "measured" if prepared.scenario.targets.lash_limit is not None else "assumed"
    present = allowed if read is None else read.value
    plays = [] if lash.new else [_Play(*_present_state(state), lash.clearance, present)]
    plays.append(other("as new", new.source.mark, new.maximum))
    plays.append(other("at the lash limit", limit_mark, prepared.lash_limit))
    return tuple(plays)


def _present_state(state: SplineState) -> tuple[PlayState, Mark]:
    """How the lash of the joint is known."""
    if state.lash.measured:
        return "as measured", "measured"
    if state.joint.radial_play is not None and isinstance(state.spline, InvoluteSpline):
        return "as inferred", "derived"
    return "as assumed", "assumed"


def _blow(prepared: Prepared, index: int, shock: ShockResult, play: _Play) -> _Blow:
    """Blow of the whole path with another lash at one joint: the worst over all starts and inertias."""
    path, loads = prepared.path, prepared.loads
    state = prepared.joints[index].spline
    assert state is not None
    ratio = loads[index].ratio / loads[path.reference].ratio
    more = 2.0 * (play.clearance - state.lash.clearance) / state.pitch_diameter
    changed = replace(path, lash=max(0.0, path.lash + float(reflected_lash(more, ratio))))
    cases = [
        (start, inertia, stiffness)
        for start in starts_of(prepared.scenario, loads[path.reference])
        for inertia in path.driven_inertias
        for stiffness in path.stiffnesses
    ]
    blow = blow_of(changed, cases)
    peaks = np.asarray(blow.peak_torque)
    braking = np.array([start.braking for start, _, _ in cases])
    rest = np.array([start.name == "rest" for start, _, _ in cases])
    worst = replace(
        shock,
        drive_peak_torque=float(peaks[~braking].max()),
        brake_peak_torque=float(peaks[braking].max(initial=0.0)),
    )
    speed, energy = (
        float(np.max(np.asarray(field)[rest])) for field in (blow.closing_speed, blow.blow_energy)
    )
    return _Blow(
        peak_at(index, worst, path, loads),
        speed if math.isfinite(speed) else None,
        energy if math.isfinite(energy) else None,
    )


def _lowest_factor(
    prepared: Prepared, index: int, play: _Play, torque: float
) -> tuple[float | None, str | None]:
    """Lowest safety factor of the simulated checks with that play, and which check it is."""
    aside = Ledger(prepared.ledger.outlook)  # what is said here was said of the joint as it is
    joints = list(prepared.joints)
    joints[index] = _with_play(prepared, index, play, aside)
    checks = checks_at(replace(prepared, joints=tuple(joints), ledger=aside), index, torque, no_teeth=True)
    found = [
        (check.safety_factor, check.name)
        for check in checks
        if check.method == "guide, simulated" and check.safety_factor is not None
    ]
    return min(found) if found else (None, None)


def _with_play(prepared: Prepared, index: int, play: _Play, ledger: Ledger) -> Resolved:
    """Resolve a joint with another play: a shaft nose without a bearing rocks in it."""
    joint = linked_joint(prepared.scenario.joint, index)
    update: dict[str, object] = {"lash": Lash(clearance=_reading(play.clearance))}
    if getattr(joint, "radial_play", None) is not None:
        update["radial_play"] = _reading(play.radial_play)
    return resolve(joint.model_copy(update=update), index, prepared.scenario.library, ledger)


def _reading(length: float) -> Reading:
    return Reading(length, 0.0, "", "length")
