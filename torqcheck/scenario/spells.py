"""Spells of the duty list in SI, and the spells that stand for a torque record.

From a record the spells are made so that what is summed over them comes out as if it were summed over
the record itself: time, revolutions, and torque times revolutions (linear between the rows).
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from torqcheck._types import BoolArray, FloatArray, IntArray
from torqcheck.scenario.duty_record import DutyRecord

__all__ = ["Spell", "TorqueCycle", "recorded_spells", "torque_cycles"]

LEVELS = (0.02, 0.25, 0.5, 0.75)
"""Parts of the peak torque at which the levels of a record meet; below the first it counts as idle."""
LOADED, RESTING = 0.10, 0.05
"""Parts of the largest torque of a record: above the first a torque cycle is on, below the second off."""


@dataclass(frozen=True, slots=True)
class Spell:
    """One spell of the duty list in SI: torque as part of the peak, motor speed in rad/s."""

    name: str
    torque: float
    speed: float
    share: float
    events_per_hour: float
    reversals: bool


@dataclass(frozen=True, slots=True)
class TorqueCycle:
    """One torque cycle of a record, off-on-off: its largest torque, N m, and whether braking follows."""

    torque: float
    reverses: bool


@dataclass(frozen=True, slots=True)
class _Pieces:
    """A record in pieces in which the torque is linear and keeps its sign; integrals over each."""

    seconds: FloatArray
    turning: FloatArray  # of the speed over time
    work: FloatArray  # of torque times speed over time
    torque: FloatArray  # mean
    impulse: FloatArray  # of the torque over time


def torque_cycles(record: DutyRecord) -> tuple[TorqueCycle, ...]:
    """
    Return the torque cycles of a record, off-on-off, in their order.

    A cycle is on above a tenth of the largest torque of the record and off below a twentieth, so that
    noise makes none. A stretch of braking right after one of driving makes that cycle a reversing one.
    """
    stretches = _stretches(record.torque)
    cycles: list[TorqueCycle] = []
    driving = False
    for torque in stretches:
        if torque < 0.0 and driving:
            cycles[-1] = TorqueCycle(cycles[-1].torque, True)
        else:
            cycles.append(TorqueCycle(torque, False))
        driving = torque > 0.0
    return tuple(cycles)


def _stretches(torque: FloatArray) -> list[float]:
    """Extreme of every stretch under load of one sign; between two of them the torque was off."""
    torque = np.insert(torque, _sign_changes(torque) + 1, 0.0)
    largest = float(np.max(np.abs(torque)))
    on, off = np.abs(torque) >= LOADED * largest, np.abs(torque) <= RESTING * largest
    # only what is clearly on or clearly off counts
    marked = np.where(off, 0.0, np.sign(torque))
    rows = np.flatnonzero(on | off)
    state = marked[rows]
    starts = np.flatnonzero(np.diff(state, prepend=0.0))
    ends = np.append(starts[1:], state.size)
    extremes = []
    for start, end in zip(starts, ends, strict=True):
        if state[start] != 0.0:
            within = torque[rows[start:end]]
            extremes.append(float(within[np.argmax(np.abs(within))]))
    return extremes


@lru_cache(maxsize=16)
def recorded_spells(record: DutyRecord, peak_torque: float, speed: float) -> tuple[Spell, ...]:
    """
    Return the spells that stand for a record.

    Parameters
    ----------
    record : DutyRecord
        The record.
    peak_torque : float, N m
        Peak torque at the motor shaft, of which each spell is a part.
    speed : float, rad/s
        Speed of the motor shaft where the record has none.

    Notes
    -----
    The torque of a spell is the mean over its turns, so that torque times turns is that of the record;
    the levels only name the spells. What the record leaves of the time after which it repeats is a
    spell of its own, standing still.
    """
    pieces = _pieces(record, speed)
    level = _levels(pieces.torque / peak_torque)
    cycles = torque_cycles(record)
    booked = _levels(np.array([cycle.torque for cycle in cycles]) / peak_torque)
    per_hour = 3600.0 / record.repeats_every
    spells = []
    for number in np.unique(np.concatenate([level, booked])):
        inside, own = level == number, [c for c, at in zip(cycles, booked, strict=True) if at == number]
        seconds = float(np.sum(pieces.seconds[inside]))
        turning = float(np.sum(pieces.turning[inside]))
        spells.append(
            Spell(
                name=_name(int(number)),
                torque=_mean_torque(pieces, inside, own) / peak_torque,
                speed=turning / seconds if seconds else 0.0,
                share=seconds / record.repeats_every,
                events_per_hour=len(own) * per_hour,
                reversals=any(cycle.reverses for cycle in own),
            )
        )
    rest = 1.0 - record.duration / record.repeats_every
    if rest > 1e-9:
        spells.append(Spell("not recorded, standing still", 0.0, 0.0, rest, 0.0, False))
    return tuple(spells)


def _mean_torque(pieces: _Pieces, inside: BoolArray, cycles: Sequence[TorqueCycle]) -> float:
    """Torque of one level: mean over its turns, over its time where nothing turns, or of its cycles."""
    turning = float(np.sum(pieces.turning[inside]))
    seconds = float(np.sum(pieces.seconds[inside]))
    if not seconds:
        return float(np.mean([cycle.torque for cycle in cycles]))
    size = np.sum(pieces.work[inside]) / turning if turning else np.sum(pieces.impulse[inside]) / seconds
    return math.copysign(float(size), float(np.sum(pieces.torque[inside])))


def _sign_changes(torque: FloatArray) -> IntArray:
    """Rows after which the torque goes through zero before the next row."""
    sign = np.sign(torque)
    return np.flatnonzero(sign[:-1] * sign[1:] < 0.0)


def _levels(part: FloatArray) -> IntArray:
    """Level of each torque as part of the peak: 0 idle, 1 to 4 driving, -1 to -4 braking."""
    return (np.sign(part) * np.searchsorted(LEVELS, np.abs(part), side="right")).astype(np.int64)


def _name(number: int) -> str:
    if number == 0:
        return "recorded, next to no torque"
    low = f"{100.0 * LEVELS[abs(number) - 1]:g}"
    most = abs(number) == len(LEVELS)
    high = "% of the peak or more" if most else f"to {100.0 * LEVELS[abs(number)]:g} % of the peak"
    return f"recorded, {'driving' if number > 0 else 'braking'} at {low} {high}"


def _pieces(record: DutyRecord, speed: float) -> _Pieces:
    """Cut a record at its rows and where the torque changes its sign; integrate over each piece."""
    time, torque = record.time, record.torque
    turning = np.abs(record.speed) if record.speed is not None else np.full(time.shape, speed)
    changes = _sign_changes(torque)
    part = torque[changes] / (torque[changes] - torque[changes + 1])
    at = changes + 1
    time = np.insert(time, at, time[changes] + part * (time[changes + 1] - time[changes]))
    turning = np.insert(turning, at, turning[changes] + part * (turning[changes + 1] - turning[changes]))
    size = np.abs(np.insert(torque, at, 0.0))
    signs = np.sign(np.insert(torque, at, 0.0))
    seconds = np.diff(time)
    mean, mean_turning = 0.5 * (size[:-1] + size[1:]), 0.5 * (turning[:-1] + turning[1:])
    together = mean * mean_turning + np.diff(size) * np.diff(turning) / 12.0
    sign = np.where(signs[:-1] == 0.0, signs[1:], signs[:-1])
    columns = (seconds, seconds * mean_turning, seconds * together, sign * mean, seconds * mean)
    lasting = seconds > 0.0  # the torque may go through zero next to no time before a row
    return _Pieces(*(column[lasting] for column in columns))
