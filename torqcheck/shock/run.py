"""Follow cases from segment to segment until their contact stays closed: one by one, or in batches."""

from collections.abc import Callable
from typing import Any

import numpy as np

from torqcheck._types import BoolArray, FloatArray
from torqcheck.errors import NoSolutionError
from torqcheck.shock.arithmetic import ARRAYS, FLOATS
from torqcheck.shock.segments import first_state, fly, press
from torqcheck.shock.states import CUT, GAP, LIVE, SETTLED, Case, State

__all__ = ["follow_batch", "follow_one"]

CHUNK = 65_536
"""Cases advanced together: bounds the memory, and hides numpy's overhead in the last rounds."""
MOST_SEGMENTS = 40_000
ENDLESS_HAMMERING = (
    f"more than {MOST_SEGMENTS} segments before the ramp ends: the driving side hammers in the gap with next "
    "to no damping; give a damping_ratio of 0.001 or more, or a steeper torque_rise"
)

Watcher = Callable[[State, State], None]


def follow_one(case: Case, watch: Watcher | None = None, until: float = 0.0) -> State:
    """Follow one case, all floats, if need be past the horizon; ``watch`` sees both ends of each segment."""
    state = first_state(FLOATS, case)
    for _ in range(MOST_SEGMENTS):
        rising = state.time < case.ramp_end
        if state.mode == GAP:
            after = fly(FLOATS, case, state, rising)
        else:
            after = press(FLOATS, case, state, rising, case.zeta >= 1.0)
        if watch:
            watch(state, after)
        state = after
        if state.end == SETTLED or (state.end == CUT and state.time >= until):
            return state
    raise NoSolutionError(ENDLESS_HAMMERING)


def _sorted_by_kind(
    case: FloatArray, state: FloatArray
) -> list[tuple[BoolArray, Callable[[Case, State], State]]]:
    """Masks of the cases that take the same kind of step now, with the step."""
    zeta, ramp_end = case[Case._fields.index("zeta")], case[Case._fields.index("ramp_end")]
    rising = state[State._fields.index("time")] < ramp_end
    gap = state[State._fields.index("mode")] == GAP
    creeping = zeta >= 1.0
    kinds: list[tuple[BoolArray, Callable[[Case, State], State]]] = []
    for on_ramp, phase in ((True, rising), (False, ~rising)):
        kinds.append((gap & phase, _flight(on_ramp)))
        kinds.append((~gap & phase & ~creeping, _contact(on_ramp, False)))
        kinds.append((~gap & phase & creeping, _contact(on_ramp, True)))
    return kinds


def _flight(rising: bool) -> Callable[[Case, State], State]:
    return lambda case, state: fly(ARRAYS, case, state, rising)


def _contact(rising: bool, creeping: bool) -> Callable[[Case, State], State]:
    return lambda case, state: press(ARRAYS, case, state, rising, creeping)


def _follow_chunk(case: FloatArray) -> FloatArray:
    """Advance all live cases by one segment per round, and set aside those that have ended."""
    ends = State._fields.index("end")
    state = np.array(first_state(ARRAYS, Case(*case)))
    result = np.empty_like(state)
    place = np.arange(case.shape[1])
    for _ in range(MOST_SEGMENTS):
        for mask, step in _sorted_by_kind(case, state):
            index = np.flatnonzero(mask)
            if index.size == place.size:
                state = np.array(step(Case(*case), State(*state)))
            elif index.size:
                state[:, index] = step(Case(*case[:, index]), State(*state[:, index]))
        ended = state[ends] != LIVE
        if ended.any():
            result[:, place[ended]] = state[:, ended]
            case, state, place = case[:, ~ended], state[:, ~ended], place[~ended]
        if not place.size:
            return result
    raise NoSolutionError(ENDLESS_HAMMERING)


def follow_batch(case: Case, chunk: int = CHUNK) -> State:
    """Follow many cases, all arrays of one length."""
    block = np.array(case)
    count = block.shape[1]
    done = [_follow_chunk(block[:, first : first + chunk]) for first in range(0, count, chunk)]
    whole: Any = np.concatenate(done, axis=1) if done else np.empty((len(State._fields), 0))
    return State(*whole)
