"""What wear does to the blow and to the strength of one joint: wear opens the play, play feeds the blow."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from torqcheck._types import FloatArray
from torqcheck.assessment.joints import with_spline
from torqcheck.assessment.prepared import Prepared, checks_at
from torqcheck.assessment.teeth.state import SplineState, worn_state
from torqcheck.assessment.torque.blow import blow_of
from torqcheck.assessment.torque.starts import starts_of
from torqcheck.capacity import reflected_lash
from torqcheck.checks import Check
from torqcheck.scenario.ledger import Ledger
from torqcheck.wear import Course

__all__ = ["NODES", "StrengthCourse", "strength_course"]

NODES = 33
"""States of wear at which blow and checks are computed; between them the factor is interpolated."""
WEAR_OF_THE_GUIDE = "flank pressure"
"""Its allowable counts revolutions in a wear model of its own, so that it ends no life by this one."""


@dataclass(frozen=True, slots=True)
class StrengthCourse:
    """
    Blow and weakest strength check of one joint as its flanks wear.

    Parameters
    ----------
    depth : array, m
        Sum of the worn depths of both members, from 0 on.
    clearance : array, m
        Lash of this joint along the pitch circle.
    blow : array, N m
        Peak torque of the worst blow at this joint.
    drive, brake : array, N m
        The same, driving and braking.
    factor : array
        Lowest safety factor of the checks that count; inf where nothing is loaded.
    check : tuple of str
        Which check that is.
    """

    depth: FloatArray
    clearance: FloatArray
    blow: FloatArray
    drive: FloatArray
    brake: FloatArray
    factor: FloatArray
    check: tuple[str, ...]

    def at(self, depth: float) -> tuple[float, float, str]:
        """Blow, lowest factor and its check at a state of wear."""
        nearest = int(np.argmin(np.abs(self.depth - depth)))
        return (
            float(np.interp(depth, self.depth, self.blow)),
            float(np.interp(depth, self.depth, self.factor)),
            self.check[nearest],
        )


def strength_course(
    prepared: Prepared,
    index: int,
    start: SplineState,
    course: Course,
    others: FloatArray | None = None,
    rise: float | None = None,
    nodes: int = NODES,
) -> StrengthCourse:
    """
    Follow the blow and the strength of a splined joint along its course of wear.

    Parameters
    ----------
    prepared : Prepared
        The path.
    index : int
        Which joint.
    start : SplineState
        The joint where the course begins.
    course : Course
        How its flanks wear.
    others : array, rad, optional
        Lash that the other joints have gained meanwhile, at the reference joint, one value for each
        of `nodes` states evenly spread over the depth; none without it.
    rise : float, N m/s, optional
        Rise of the motor torque, instead of that of the scenario.
    nodes : int, optional
        States of wear.

    Notes
    -----
    For each state the blow of the whole path is computed anew, the worst over all starts and all
    driven sides that are tried, and the checks run with the worn widths, height and lash. Not
    counted are flank pressure, whose allowable is itself a wear life by another model, checks of
    first contact, which beds in, and what is below a factor of 1 already: that is no matter of wear.
    """
    resolved = prepared.joints[index]
    assert resolved.spline is not None
    depth = np.linspace(0.0, course.total[-1], nodes)
    external = np.interp(depth, course.total, course.external)
    states = [
        worn_state(start, float(outer), float(both - outer))
        for outer, both in zip(external, depth, strict=True)
    ]
    drive, brake = _peaks(prepared, index, states, np.zeros(nodes) if others is None else others, rise)
    here, there = prepared.loads[index], prepared.loads[prepared.path.reference]
    ratio, losses = here.beyond(there)
    drive, brake = drive * ratio * losses, brake * ratio / losses
    blow = np.maximum(drive, brake)
    aside = replace(prepared, ledger=Ledger(prepared.ledger.outlook))
    rows: list[tuple[Check, ...]] = []
    for state, torque in zip(states, blow.tolist(), strict=True):
        joints = list(prepared.joints)
        joints[index] = with_spline(resolved, state)
        rows.append(checks_at(replace(aside, joints=tuple(joints)), index, torque, no_teeth=True))
    counted = [i for i, check in enumerate(rows[0]) if _counts(check)]
    table = np.array([[_factor(row[i]) for i in counted] for row in rows]).reshape(nodes, len(counted))
    if not counted:
        return StrengthCourse(
            depth, _clearances(states), blow, drive, brake, np.full(nodes, np.inf), ("",) * nodes
        )
    lowest = np.argmin(table, axis=1)
    return StrengthCourse(
        depth,
        _clearances(states),
        blow,
        drive,
        brake,
        table[np.arange(nodes), lowest],
        tuple(rows[0][counted[i]].name for i in lowest),
    )


def _clearances(states: Sequence[SplineState]) -> FloatArray:
    return np.array([state.lash.clearance for state in states])


def _counts(check: Check) -> bool:
    return check.name != WEAR_OF_THE_GUIDE and not check.local and _factor(check) > 1.0


def _factor(check: Check) -> float:
    return np.inf if check.safety_factor is None else check.safety_factor


def _peaks(
    prepared: Prepared, index: int, states: Sequence[SplineState], others: FloatArray, rise: float | None
) -> tuple[FloatArray, FloatArray]:
    """Largest peak at the reference joint, driving and braking, for each state."""
    path, loads = prepared.path, prepared.loads
    ratio = loads[index].ratio / loads[path.reference].ratio
    present = prepared.joints[index].spline
    assert present is not None
    gained = _clearances(states) - present.lash.clearance  # the path holds the lash of today
    lash = path.lash + reflected_lash(2.0 * gained / states[0].pitch_diameter, ratio) + others
    cases = [
        (start, inertia, stiffness)
        for start in starts_of(prepared.scenario, loads[path.reference], rise)
        for inertia in path.driven_inertias
        for stiffness in path.stiffnesses
    ]
    peaks = np.asarray(blow_of(path, cases, np.asarray(lash)).peak_torque)
    braking = np.array([start.braking for start, _, _ in cases])
    return (
        np.asarray(peaks[:, ~braking].max(axis=1)),
        np.asarray(peaks[:, braking].max(axis=1, initial=0.0)),
    )
