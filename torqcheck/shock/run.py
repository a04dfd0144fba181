"""Follow cases from segment to segment until their contact stays closed: one by one, or in batches."""

from collections.abc import Callable
from typing import Any, TypeAlias

import numpy as np

from torqcheck._types import BoolArray, FloatArray
from torqcheck.errors import NoSolutionError
from torqcheck.shock.arithmetic import ARRAYS, FLOATS
from torqcheck.shock.course import Course, Standing, first_standing
from torqcheck.shock.segments import first_state, fly, press
from torqcheck.shock.slide import cross_gap, hold_contact
from torqcheck.shock.states import CUT, GAP, LIVE, SETTLED, Case, State

__all__ = ["follow_batch", "follow_course", "follow_courses", "follow_one"]

MOST_SEGMENTS = 5_000
ENDLESS_HAMMERING = (
    f"more than {MOST_SEGMENTS} segments before the ramp ends: the driving side hammers in the gap with next "
    "to no damping; give a damping_ratio of 0.001 or more, or a steeper torque_rise"
)

Watcher = Callable[[State, State], None]
CourseWatcher = Callable[[Standing, Standing], None]


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


def follow_course(course: Course, watch: CourseWatcher | None = None, until: float = 0.0) -> Standing:
    """Do the same with a slip element or a torque in two stages."""
    standing = first_standing(FLOATS, course)
    for _ in range(MOST_SEGMENTS):
        if standing.mode == GAP:
            after = cross_gap(FLOATS, course, standing)
        else:
            zeta = course.sliding_zeta if standing.sliding else course.zeta
            after = hold_contact(FLOATS, course, standing, zeta >= 1.0)
        if watch:
            watch(standing, after)
        standing = after
        if standing.end == SETTLED or (standing.end == CUT and standing.time >= until):
            return standing
    raise NoSolutionError(ENDLESS_HAMMERING)


Block: TypeAlias = FloatArray
"""Many cases or states: a row for each field, a column for each case."""
Step: TypeAlias = Callable[[Block, Block], Any]
Kinds: TypeAlias = list[tuple[BoolArray, Step]]
"""Masks of the cases that take the same kind of step now, with the step."""


def _kinds_of_cases(case: Block, state: Block) -> Kinds:
    """Sort cases of the plain path."""
    zeta, ramp_end = case[Case._fields.index("zeta")], case[Case._fields.index("ramp_end")]
    rising = state[State._fields.index("time")] < ramp_end
    gap = state[State._fields.index("mode")] == GAP
    creeping = zeta >= 1.0
    kinds: Kinds = []
    for on_ramp, phase in ((True, rising), (False, ~rising)):
        kinds.append((gap & phase, _flight(on_ramp)))
        kinds.append((~gap & phase & ~creeping, _contact(on_ramp, False)))
        kinds.append((~gap & phase & creeping, _contact(on_ramp, True)))
    return kinds


def _flight(rising: bool) -> Step:
    return lambda case, state: fly(ARRAYS, Case(*case), State(*state), rising)


def _contact(rising: bool, creeping: bool) -> Step:
    return lambda case, state: press(ARRAYS, Case(*case), State(*state), rising, creeping)


def _kinds_of_courses(course: Block, standing: Block) -> Kinds:
    """Sort cases with a slip element or two stages."""
    fields = Course._fields
    sliding = standing[Standing._fields.index("sliding")] != 0.0
    zeta = np.where(sliding, course[fields.index("sliding_zeta")], course[fields.index("zeta")])
    gap = standing[Standing._fields.index("mode")] == GAP
    creeping = zeta >= 1.0
    return [
        (gap, lambda course, standing: cross_gap(ARRAYS, Course(*course), Standing(*standing))),
        (~gap & ~creeping, _hold(False)),
        (~gap & creeping, _hold(True)),
    ]


def _hold(creeping: bool) -> Step:
    return lambda course, standing: hold_contact(ARRAYS, Course(*course), Standing(*standing), creeping)


def _follow_all(case: Block, state: Block, ends: int, sort: Callable[[Block, Block], Kinds]) -> Block:
    """Advance all live cases by one segment per round, and set aside those that have ended."""
    result = np.empty_like(state)
    place = np.arange(case.shape[1])
    for _ in range(MOST_SEGMENTS):
        for mask, step in sort(case, state):
            index = np.flatnonzero(mask)
            if index.size == place.size:
                state = np.array(step(case, state))
            elif index.size:
                state[:, index] = step(case[:, index], state[:, index])
        ended = state[ends] != LIVE
        if ended.any():
            result[:, place[ended]] = state[:, ended]
            case, state, place = case[:, ~ended], state[:, ~ended], place[~ended]
        if not place.size:
            return result
    raise NoSolutionError(ENDLESS_HAMMERING)


def follow_batch(case: Case) -> State:
    """Follow many cases, all arrays of one length."""
    block = np.array(case)
    if not block.shape[1]:
        return State(*np.empty((len(State._fields), 0)))
    begin = np.array(first_state(ARRAYS, case))
    return State(*_follow_all(block, begin, State._fields.index("end"), _kinds_of_cases))


def follow_courses(course: Course) -> Standing:
    """Follow many cases with a slip element or two stages, all arrays of one length."""
    begin = np.array(first_standing(ARRAYS, course))
    return Standing(*_follow_all(np.array(course), begin, Standing._fields.index("end"), _kinds_of_courses))
