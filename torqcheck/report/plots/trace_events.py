"""What happens in a torque-time trace: flanks meet and part, the blows, slip; named, lettered, in words."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from string import ascii_uppercase
from typing import Literal

import numpy as np

from torqcheck._types import FloatArray, IntArray
from torqcheck.errors import DomainError
from torqcheck.report.numbers import significant
from torqcheck.report.sheet import Column, Table
from torqcheck.shock import Trace
from torqcheck.units import System, in_unit

__all__ = ["Event", "EventKind", "TracePicture", "motor_line", "trace_picture", "trace_table"]

EventKind = Literal[
    "flanks meet", "flanks part", "coast flanks meet", "coast flanks part",
    "first blow", "peak", "first blow and peak", "slip begins", "slip ends",
]  # fmt: skip
MOST_NAMED: dict[EventKind, int] = {"flanks meet": 4}
"""So many of a kind are named one by one, ..."""
OTHERWISE_NAMED = 3
"""... of most kinds so many; the rest is counted."""
SHOWN_BEYOND = 1.5
"""A picture reaches beyond the last event that is named by this factor, if the trace does."""
FALLING = 1e-9
"""Share of the peak by which the torque must fall to have passed a maximum."""
DRIVE, COAST = 1, -1
MILLISECONDS = 1e3


@dataclass(frozen=True, slots=True)
class Event:
    """One moment of a trace; `letter` marks it in the pictures, and is empty if it is only counted."""

    time: float
    torque: float
    kind: EventKind
    letter: str = ""

    @property
    def is_point(self) -> bool:
        """A height of the torque, not only a moment."""
        return self.kind in ("first blow", "peak", "first blow and peak")

    def words(self, system: System = "si") -> str:
        """Say it plainly, with its time."""
        when = f"{significant(self.time * MILLISECONDS)} ms"
        if not self.is_point:
            return f"{self.kind} at {when}"
        number, unit = in_unit(self.torque, "torque", system)
        return f"{self.kind} {significant(number)} {unit} at {when}"


@dataclass(frozen=True, slots=True)
class TracePicture:
    """Everything that a picture of a trace shows; times in s, torques in N m."""

    title: str
    trace: Trace
    slip: IntArray | None
    motor: tuple[FloatArray, FloatArray]  # times, torque
    steady_torque: float
    events: tuple[Event, ...]  # in the order of time
    until: float

    @property
    def named(self) -> tuple[Event, ...]:
        """The events that have a letter."""
        return tuple(event for event in self.events if event.letter)

    @property
    def peak(self) -> Event:
        """The largest torque."""
        return next(event for event in self.events if "peak" in event.kind)

    def shown_path(self) -> tuple[FloatArray, FloatArray]:
        """Times and torque in the path up to where the picture ends."""
        return _cut(self.trace.times, self.trace.torque, self.until)

    def shown_motor(self) -> tuple[FloatArray, FloatArray]:
        """Times and motor torque up to where the picture ends."""
        return _cut(*self.motor, self.until)

    def spans(self, of: Literal["gap", "slip"]) -> tuple[tuple[float, float], ...]:
        """Times from and to in which the flanks are apart, or the slip element slides."""
        if of == "slip" and self.slip is None:
            return ()
        active = self.trace.mode == 0 if of == "gap" else self.slip != 0
        edges = np.flatnonzero(np.diff(np.concatenate(([False], active, [False])).astype(np.int8)))
        times = np.append(self.trace.times, self.trace.times[-1])
        pairs = zip(times[edges[::2]], times[edges[1::2]], strict=True)
        return tuple((float(a), min(float(b), self.until)) for a, b in pairs if a < self.until)

    def uncounted(self) -> tuple[str, ...]:
        """Say how many events of each kind have no letter."""
        lines = []
        for kind in dict.fromkeys(event.kind for event in self.events):
            rest = [event for event in self.events if event.kind == kind and not event.letter]
            if rest:
                last = significant(rest[-1].time * MILLISECONDS)
                times = "once more" if len(rest) == 1 else f"{len(rest)} more times, the last"
                lines.append(f"{kind} {times} at {last} ms")
        return tuple(lines)


def _cut(times: FloatArray, torque: FloatArray, until: float) -> tuple[FloatArray, FloatArray]:
    """What lies before an end, and the value there."""
    inside = times < until
    end = np.interp(until, times, torque)
    return np.append(times[inside], until), np.append(torque[inside], end)


def motor_line(
    torque_rise: float, peak_torque: float, until: float, start_torque: float = 0.0
) -> tuple[FloatArray, FloatArray]:
    """Corners of a motor torque that rises evenly and then stays: times and torque."""
    rise_time = (peak_torque - start_torque) / torque_rise  # 0 if the torque is there at once
    return (
        np.array([0.0, rise_time, max(until, rise_time)]),
        np.array([start_torque, peak_torque, peak_torque]),
    )


def trace_picture(
    trace: Trace,
    *,
    motor: tuple[FloatArray, FloatArray],
    steady_torque: float,
    title: str,
    slip: IntArray | None = None,
) -> TracePicture:
    """
    Find the events of a trace and choose what is shown of it.

    Parameters
    ----------
    trace : Trace
        At its own times, which hold every switching event and the peak; at other times an event is
        placed at the first of them that lies behind it.
    motor : tuple of arrays
        Times, s, and motor torque, N m: the corners are enough. The torque stays after the last.
    steady_torque : float, N m
        In the path, after the swing has died away.
    title : str
        What is shown.
    slip : array of int, optional
        1 or -1 where the slip element slides, 0 where it sticks. Default: that of the trace.

    Raises
    ------
    DomainError
        If the trace is empty.
    """
    if not trace.times.size:
        raise DomainError("nothing to show: the trace holds no times")
    slip = getattr(trace, "slip", None) if slip is None else slip
    events = sorted((*_contacts(trace), *_slips(trace, slip), *_heights(trace)), key=lambda event: event.time)
    events = list(_lettered(events))
    last = max(_rise_end(*motor), *(event.time for event in events if event.letter))
    end = float(trace.times[-1])
    until = min(end, SHOWN_BEYOND * last) if last > 0.0 else end
    return TracePicture(title, trace, slip, motor, steady_torque, tuple(events), until)


def _rise_end(times: FloatArray, torque: FloatArray) -> float:
    """When the motor torque has reached what it keeps."""
    moving = np.flatnonzero(torque != torque[-1])
    return float(times[moving[-1] + 1]) if moving.size else float(times[0])


def _contacts(trace: Trace) -> Iterator[Event]:
    """Meetings and partings of the flanks."""
    for index in np.flatnonzero(np.diff(trace.mode)):
        before, after = trace.mode[index], trace.mode[index + 1]
        time, torque = float(trace.times[index + 1]), float(trace.torque[index + 1])
        if before:
            yield Event(time, 0.0, "flanks part" if before == DRIVE else "coast flanks part")
        if after:
            yield Event(time, torque, "flanks meet" if after == DRIVE else "coast flanks meet")


def _slips(trace: Trace, slip: IntArray | None) -> Iterator[Event]:
    """Beginnings and ends of sliding."""
    if slip is None:
        return
    for index in np.flatnonzero(np.diff(slip, prepend=0)):
        time, torque = float(trace.times[index]), float(trace.torque[index])
        if index and slip[index - 1]:
            yield Event(time, torque, "slip ends")
        if slip[index]:
            yield Event(time, torque, "slip begins")


def _heights(trace: Trace) -> Iterator[Event]:
    """The first blow and the peak, as one event where they are the same."""
    top = int(np.argmax(trace.torque))
    peak = Event(float(trace.times[top]), float(trace.torque[top]), "peak")
    blow = _first_blow(trace)
    if blow is not None and top in blow[1]:
        yield replace(peak, kind="first blow and peak")
        return
    if blow is not None:
        yield blow[0]
    yield peak


def _first_blow(trace: Trace) -> tuple[Event, range] | None:
    """The first maximum after the flanks have met, and the samples around it."""
    closed = np.flatnonzero((trace.mode[1:] == DRIVE) & (trace.mode[:-1] != DRIVE)) + 1
    if not closed.size:
        return None
    first = int(closed[0])
    parted = np.flatnonzero(trace.mode[first:] != DRIVE)
    end = first + int(parted[0]) if parted.size else trace.mode.size
    torque = trace.torque[first:end]
    falls = np.flatnonzero(np.diff(torque) < -FALLING * float(trace.torque.max()))
    if not falls.size:
        return None
    top = first + int(np.argmax(torque[: falls[0] + 1]))
    time, height = _vertex(trace, top) if first < top < end - 1 else (trace.times[top], trace.torque[top])
    return Event(float(time), float(height), "first blow"), range(top - 1, top + 2)


def _vertex(trace: Trace, top: int) -> tuple[float, float]:
    """Top of the parabola through three samples."""
    around = slice(top - 1, top + 2)
    times, torque = trace.times[around] - trace.times[top], trace.torque[around] - trace.torque[top]
    left, right = torque[0] / times[0], torque[2] / times[2]
    curvature = (right - left) / (times[2] - times[0])
    if not curvature < 0.0:
        return trace.times[top], trace.torque[top]
    slope = left - curvature * times[0]
    shift = min(max(-0.5 * slope / curvature, times[0]), times[2])
    return trace.times[top] + shift, trace.torque[top] + shift * (slope + curvature * shift)


def _lettered(events: list[Event]) -> Iterator[Event]:
    """Give letters to the first few of every kind."""
    letters = iter(ascii_uppercase)
    count: dict[EventKind, int] = {}
    for event in events:
        count[event.kind] = count.get(event.kind, 0) + 1
        named = count[event.kind] <= MOST_NAMED.get(event.kind, OTHERWISE_NAMED)
        yield replace(event, letter=next(letters)) if named else event


def trace_table(picture: TracePicture, system: System = "si") -> Table:
    """The picture in words: every named event with its time and torque, and how many more there are."""
    _, unit = in_unit(0.0, "torque", system)

    def shown(torque: float) -> str:
        settled = torque if abs(torque) > FALLING * picture.peak.torque else 0.0
        return significant(in_unit(settled, "torque", system)[0])

    rows: list[tuple[str, ...]] = [
        (event.letter, significant(event.time * MILLISECONDS, 4), event.kind, shown(event.torque))
        for event in picture.named
    ]
    rows += [("", "", words, "") for words in picture.uncounted()]
    rows.append(("", "", "steady torque, when the swing has died away", shown(picture.steady_torque)))
    columns = (
        Column(""),
        Column("time, ms", "right"),
        Column("event"),
        Column(f"torque, {unit}", "right"),
    )
    return Table(picture.title, columns, tuple(rows), legend="Times from the beginning of the rise.")
