"""Search for the position of a shaft that needs the least clearance: a row of small linear programs."""

import math

import numpy as np

from torqcheck._types import FloatArray
from torqcheck.geometry.pairs._off_centre_contacts import Contacts, Row

__all__ = ["best_state"]

_PENALTY = 20.0  # of a gap below 0; above 1/(dg/dc), 2.3 at 30 deg, it makes such a gap never worth while
_OFFSETS, _DIRECTIONS = 9, 5
_BEST_OF_GRID = 4
_STEPS = 60
_FIRST_TRUST, _MOST_TRUST = 0.1, 0.3  # modules
_CLEARANCE_REACH = 4.0  # clearance may change by so much more: a flank moves by a quarter of it or less
_CONVERGED = 1e-8  # modules


def best_state(contacts: Contacts) -> FloatArray:
    """
    State (x, y, u, c) in modules with the least added clearance c.

    Local searches start from the centre, from the best offset towards a tooth and towards a gap,
    and from the best other positions of a coarse grid; the best end is taken.
    """
    ends = [_descend(contacts, start) for start in _starts(contacts)]
    return min(ends, key=lambda end: float(end[3]))


def _starts(contacts: Contacts) -> list[FloatArray]:
    """Return positions worth a search, with the clearance that each needs as it is."""
    shaft, hub = contacts.shaft, contacts.hub
    grid = []
    # what lies beyond half a pitch of the hub is a mirror image
    for direction in np.linspace(0.0, 0.5 * hub.pitch, _DIRECTIONS):
        for offset in np.linspace(0.0, max(contacts.limit, 0.0), _OFFSETS):
            for half_turn in (0.0, 0.5 * shaft.pitch):
                # teeth and spaces in step at the point that the offset leads to, or half a pitch out
                turn = direction * (1.0 - hub.teeth / shaft.teeth) + half_turn
                state = np.array(
                    (
                        offset * math.cos(direction),
                        offset * math.sin(direction),
                        turn * contacts.pitch_radius,
                        0.0,
                    )
                )
                state[3] = contacts.need(state, rounds=1)
                grid.append((float(direction), float(offset), state))
    grid = [entry for entry in grid if math.isfinite(entry[2][3])]
    grid.sort(key=lambda entry: float(entry[2][3]))
    chosen = [
        next((entry for entry in grid if entry[1] == 0.0), None),
        next((entry for entry in grid if entry[0] == 0.0 and entry[1] > 0.0), None),
        next((entry for entry in grid if entry[0] == 0.5 * hub.pitch and entry[1] > 0.0), None),
        *grid[:_BEST_OF_GRID],
    ]
    return [entry[2] for number, entry in enumerate(chosen) if entry and not _among(entry, chosen[:number])]


def _among(
    entry: tuple[float, float, FloatArray], others: list[tuple[float, float, FloatArray] | None]
) -> bool:
    return any(entry is other for other in others)


def _descend(contacts: Contacts, state: FloatArray) -> FloatArray:
    """Follow linear programs within a region of trust until none promises less clearance."""
    rows = contacts.rows(state)
    merit, trust = _merit(state, rows), _FIRST_TRUST
    for _ in range(_STEPS):
        step, promised = _linear_step(state, rows, trust)
        gain = merit - promised
        if not gain > _CONVERGED:
            break
        trial = state + step
        trial_rows = contacts.rows(trial)
        trial_merit = _merit(trial, trial_rows)
        kept = (merit - trial_merit) / gain
        if kept > 0.1:
            state, rows, merit = trial, trial_rows, trial_merit
        if kept > 0.75:
            trust = min(2.0 * trust, _MOST_TRUST)
        elif kept < 0.25:
            trust *= 0.25
        if trust < _CONVERGED:
            break
    end = np.array(state)
    end[3] = contacts.need(end)
    return end


def _merit(state: FloatArray, rows: tuple[Row, Row, Row]) -> float:
    """Clearance, and the deepest overlap at a heavy price."""
    flank, radial, roots = rows
    deepest = min(float(np.min(np.maximum(flank.value, radial.value))), float(np.min(roots.value)))
    return float(state[3]) + _PENALTY * max(0.0, -deepest)


def _linear_step(state: FloatArray, rows: tuple[Row, Row, Row], trust: float) -> tuple[FloatArray, float]:
    """Return the step that the program linearised at the state takes, and the merit that it promises."""
    from scipy.optimize import linprog  # slow to load, and only needed for parts that are not mates

    flank, radial, roots = rows
    along = flank.value >= radial.value
    value = np.concatenate((np.where(along, flank.value, radial.value), roots.value))
    gradient = np.concatenate((np.where(along, flank.gradient, radial.gradient), roots.gradient), axis=1).T
    box = trust * np.array((1.0, 1.0, 1.0, _CLEARANCE_REACH))
    # what no step within the box can close need not be asked
    near = value < np.abs(gradient) @ box
    result = linprog(
        (0.0, 0.0, 0.0, 1.0, _PENALTY),
        A_ub=-np.column_stack((gradient[near], np.ones(np.count_nonzero(near)))),
        b_ub=value[near],
        bounds=[*((-reach, reach) for reach in box), (0.0, None)],
        method="highs",
    )
    if result.x is None:
        return np.zeros(4), math.inf
    return np.asarray(result.x[:4], dtype=np.float64), float(state[3]) + float(result.fun)
