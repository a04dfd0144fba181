"""What was recorded of each case, whichever way it was followed."""

from math import isfinite, nan
from typing import Any, NamedTuple

import numpy as np

from torqcheck.shock.arguments import Path, cases_of, course_of
from torqcheck.shock.arithmetic import Number
from torqcheck.shock.course import Course, Standing
from torqcheck.shock.run import follow_batch, follow_course, follow_courses, follow_one
from torqcheck.shock.states import NEVER, SETTLED, Case, State

__all__ = ["Record", "record_of"]


class Record(NamedTuple):
    """Results in the units of ``states``; steady is 1 unless the slip element slides on for good."""

    peak: Number
    peak_at: Number
    least: Number
    closed_at: Number
    closing_speed: Number
    closing_energy: Number
    first_blow: Number
    losses: Number
    slipped_at: Number
    steady: Number
    settled: Number


def record_of(path: Path) -> Record:
    """Follow all cases; NaN for cases that hold a NaN."""
    if path.extras is None:
        case = cases_of(path)
        if path.shape is None:
            return _plain(follow_one(case)) if isfinite(sum(case)) else _nothing()
        return _masked(np.isfinite(sum(case)), _plain_batch, case)
    course = course_of(path, path.extras)
    case = cases_of(path)
    if path.shape is None:
        return _one(case, course) if isfinite(sum(course)) else _nothing()
    known = np.isfinite(sum(course))
    width = len(Case._fields)

    def batch(*columns: Number) -> Record:
        return _batch(Case(*columns[:width]), Course(*columns[width:]))

    return _masked(known, lambda both: batch(*both), (*case, *course))


def _nothing() -> Record:
    return Record(*[nan] * len(Record._fields))


def _masked(known: Number, follow: Any, columns: tuple[Number, ...]) -> Record:
    """Follow the cases that are numbers throughout, and put the results in place."""
    if known.all():
        return Record(*follow(columns))
    whole = np.full((len(Record._fields), known.size), nan)
    whole[:, known] = follow(tuple(values[known] for values in columns))
    return Record(*whole)


def _plain_batch(columns: tuple[Number, ...]) -> Record:
    return _plain(follow_batch(Case(*columns)))


def _plain(state: State) -> Record:
    """Record of the plain path."""
    never = NEVER + 0.0 * state.peak
    return Record(
        state.peak,
        state.peak_at,
        state.least,
        state.closed_at,
        state.closing_speed,
        0.5 * state.closing_speed * state.closing_speed,
        state.first_blow,
        state.losses,
        never,
        0.0 * state.peak + 1.0,
        state.end == SETTLED,
    )


def _one(case: Case, course: Course) -> Record:
    """Follow one case; the slip element is looked at only if the path would let it go."""
    if course.rest >= 1.0:
        plain = _plain(follow_one(case))
        if max(plain.peak, -plain.least) < course.grip:
            return plain
    return _full(course, follow_course(course))


def _batch(case: Case, course: Course) -> Record:
    """Do the same for many cases: each is followed in the cheaper way that holds for it."""
    whole = np.full((len(Record._fields), course.zeta.size), nan)
    single = course.rest >= 1.0
    if single.any():
        whole[:, single] = _plain(follow_batch(Case(*(values[single] for values in case))))
    record = Record(*whole)
    beyond = np.flatnonzero(~(single & (np.maximum(record.peak, -record.least) < course.grip)))
    if beyond.size:
        picked = Course(*(values[beyond] for values in course))
        whole[:, beyond] = _full(picked, follow_courses(picked))
    return Record(*whole)


def _full(course: Course, standing: Standing) -> Record:
    """Record of a path with a slip element or two stages."""
    # the motor carries the element along for good if it gives more than the grip
    sliding = 1.0 * (course.grip < 1.0)
    return Record(
        standing.peak,
        standing.peak_at,
        standing.least,
        standing.closed_at,
        standing.closing_speed,
        standing.closing_energy,
        standing.first_blow,
        standing.losses,
        standing.slipped_at,
        sliding * (course.share + course.push) + (1.0 - sliding),
        standing.end == SETTLED,
    )
