"""Torque in the path over time, from the same segments as the peak."""

from collections.abc import Callable
from functools import partial
from math import inf
from typing import NamedTuple

import numpy as np

from torqcheck._types import FloatArray, IntArray
from torqcheck.errors import DomainError
from torqcheck.shock import creep, swing
from torqcheck.shock.arguments import cases_of, course_of, path_of
from torqcheck.shock.arithmetic import ARRAYS, FLOATS
from torqcheck.shock.course import Course, Standing, here
from torqcheck.shock.pieces import along
from torqcheck.shock.run import follow_course, follow_one
from torqcheck.shock.segments import stretch_of
from torqcheck.shock.slide import pressed
from torqcheck.shock.states import GAP, SETTLED, Case, State

__all__ = ["Trace", "trace"]

PERIOD = 2.0 * np.pi
POINTS_PER_PERIOD = 48
MOST_POINTS = 4000
"""For one segment."""
POINTS_IN_GAP = 9
JUST_BEFORE = 1e-13
"""Share of the time by which the near side of an event is shown before it."""
SHOWN_AFTER = 8.0 * PERIOD
"""How long a contact that stays closed is shown after the ramp."""


class Trace(NamedTuple):
    """
    Torque in the path over time.

    Attributes
    ----------
    times : array, s
        From the beginning of the rise, ascending.
    torque : array, N m
        Torque in the path: positive on the drive flank, negative on the coast flank, 0 in the gap.
    mode : array of int
        1 drive flank in contact, 0 gap, -1 coast flank in contact.
    slip : array of int
        Of the slip element: 0 grips, 1 slips with its driving side the faster, -1 the slower.
    """

    times: FloatArray
    torque: FloatArray
    mode: IntArray
    slip: IntArray


class _Segment(NamedTuple):
    """One mode from its beginning to its end, dimensionless."""

    start: float
    end: float
    mode: float
    slip: float
    peak_at: float
    torque: Callable[[FloatArray], FloatArray]


def _default_times(segments: list[_Segment]) -> FloatArray:
    """Dimensionless times that resolve every swing, with both sides of every switching event."""
    pieces = []
    for segment in segments:
        start, end = segment.start, segment.end
        periods = (end - start) / PERIOD
        more = 0 if segment.mode == GAP else int(min(POINTS_PER_PERIOD * periods, MOST_POINTS))
        pieces.append(np.linspace(start, end, POINTS_IN_GAP + more))
        pieces.append(np.array([end * (1.0 - JUST_BEFORE)]))
        if start < segment.peak_at < end:
            pieces.append(np.array([segment.peak_at]))
    return np.unique(np.concatenate(pieces))


def _plain_segments(case: Case, until: float) -> list[_Segment]:
    """Segments of a path without slip element whose torque rises in one stage."""
    segments: list[_Segment] = []

    def watch(before: State, after: State) -> None:
        end = before.time + SHOWN_AFTER if after.end == SETTLED else after.time
        torque = partial(_torque_in, before, case)
        segments.append(_Segment(before.time, end, before.mode, 0.0, after.peak_at, torque))

    follow_one(case, watch, until)
    return segments


def _torque_in(before: State, case: Case, time: FloatArray) -> FloatArray:
    """Dimensionless torque in one contact segment, at times from the beginning of the rise."""
    side = before.mode
    stretch = stretch_of(case, before, side, before.time < case.ramp_end)
    if case.zeta < 1.0:
        swinging = swing.swing(FLOATS, case, stretch, before.place, before.rate)
        torque = swing.torque_at(ARRAYS, swinging, time - before.time)[0]
    else:
        creeping = creep.creep(FLOATS, case, stretch, before.place, before.rate)
        torque = creep.torque_at(ARRAYS, creeping, time - before.time)[0]
    return np.asarray(side * (torque if case.locked else np.maximum(torque, 0.0)))


def _course_segments(course: Course, until: float) -> list[_Segment]:
    """Segments with a slip element or a torque in two stages."""
    segments: list[_Segment] = []

    def watch(before: Standing, after: Standing) -> None:
        end = before.time + SHOWN_AFTER if after.end == SETTLED else after.time
        torque = partial(_torque_of, before, course)
        segments.append(_Segment(before.time, end, before.mode, before.sliding, after.peak_at, torque))

    follow_course(course, watch, until)
    return segments


def _torque_of(before: Standing, course: Course, time: FloatArray) -> FloatArray:
    """Return the same where the slip element may slide."""
    now, start = pressed(FLOATS, course, before, here(FLOATS, course, before))
    passed = (time - before.time) * now.quicker
    torque, _, _ = along(now, start, now.zeta >= 1.0, passed)
    return np.asarray(before.mode * (torque if course.locked else np.maximum(torque, 0.0)))


def trace(
    *,
    torque_rise: float,
    peak_torque: float,
    driving_inertia: float,
    driven_inertia: float,
    stiffness: float,
    damping_ratio: float = 0.0,
    lash: float = 0.0,
    start_torque: float = 0.0,
    slip_torque: float = inf,
    inertia_before_slip: float | None = None,
    closing_torque: float | None = None,
    closing_time: float = 0.0,
    times: FloatArray | None = None,
) -> Trace:
    """
    Torque in the path over time, for one case.

    Parameters
    ----------
    torque_rise, peak_torque, driving_inertia, driven_inertia, stiffness : float
        As for ``peak``, single numbers.
    damping_ratio, lash, start_torque, slip_torque, inertia_before_slip : float, optional
        As for ``peak``, single numbers.
    closing_torque, closing_time : float, optional
        As for ``peak``, single numbers.
    times : array, s, optional
        Where to give the torque, from the beginning of the rise. By default so that every blow is
        resolved: each switching event from both sides, 48 points per natural period in contact,
        until 8 periods after the contact is closed for good (or to the horizon of ``peak``).

    Returns
    -------
    Trace
        times, torque, mode, slip.

    Raises
    ------
    DomainError
        As for ``peak``; if an argument is an array or NaN; if a time is negative or not finite.

    Notes
    -----
    The values are exact at any time: each is the closed form of the segment that holds it. With
    damping the torque jumps where a gap closes (viscous model); the later side is given there.

    Examples
    --------
    >>> result = trace(torque_rise=4000.0, peak_torque=240.0, driving_inertia=0.05, driven_inertia=1.2,
    ...                stiffness=12000.0, damping_ratio=0.03, lash=0.02)
    >>> print(f"{result.torque.max():.2f} N m")
    289.33 N m
    """
    path = path_of(
        torque_rise=torque_rise,
        peak_torque=peak_torque,
        driving_inertia=driving_inertia,
        driven_inertia=driven_inertia,
        stiffness=stiffness,
        damping_ratio=damping_ratio,
        lash=lash,
        start_torque=start_torque,
        slip_torque=slip_torque,
        inertia_before_slip=inertia_before_slip,
        closing_torque=closing_torque,
        closing_time=closing_time,
    )
    case = cases_of(path) if path.extras is None else course_of(path, path.extras)
    if path.shape is not None or np.isnan(sum(case)):
        raise DomainError("trace follows one case: give single numbers, none of them NaN")
    unit = 1.0 / path.circular_frequency
    wanted = None if times is None else np.asarray(times, dtype=float) / unit
    if wanted is not None and not np.all(np.isfinite(wanted) & (wanted >= 0.0)):
        raise DomainError("times must be 0 s or more and finite")

    until = float(wanted.max()) if wanted is not None and wanted.size else 0.0
    segments = _plain_segments(case, until) if isinstance(case, Case) else _course_segments(case, until)
    if wanted is None:
        wanted = _default_times(segments)
        shown = wanted * unit
        distinct = np.diff(shown, prepend=-1.0) > 0.0
        wanted, shown = wanted[distinct], shown[distinct]
    else:
        shown = np.asarray(times, dtype=float)

    starts = np.array([segment.start for segment in segments])
    which = np.maximum(np.searchsorted(starts, wanted, side="right") - 1, 0)
    torque, mode, slip = (
        np.zeros_like(wanted),
        np.zeros(wanted.shape, np.int64),
        np.zeros(wanted.shape, np.int64),
    )
    for number in np.unique(which):
        segment, inside = segments[number], which == number
        mode[inside], slip[inside] = int(segment.mode), int(segment.slip)
        if segment.mode != GAP:
            torque[inside] = segment.torque(wanted[inside])
    return Trace(shown, torque * path.steady_torque, mode, slip)
