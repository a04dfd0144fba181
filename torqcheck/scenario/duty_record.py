"""A torque record in place of the duty list: a CSV file beside the scenario, read and checked."""

import csv
import hashlib
import io
import math
from array import array
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple

import numpy as np

from torqcheck._types import FloatArray, IntArray
from torqcheck.errors import Fault, ScenarioError
from torqcheck.scenario.faults import nearest, printable, written_text

__all__ = ["LARGEST_RECORD", "MOST_ROWS", "DutyRecord", "FileHash", "beyond_motor", "read_record"]

LARGEST_RECORD = 20_000_000
"""Bytes."""
MOST_ROWS = 1_000_000
FEWEST_ROWS = 2
MOST_FAULTS = 10
"""Faults of one record that are listed; a wrong file has one in every line."""
LARGEST_NUMBER = 1e9
RPM = math.pi / 30.0
NOISE = 0.02
"""Part of a limit of the motor by which a record may exceed it: what a sensor adds."""
HARDEST_BRAKING = 2.0
"""Part of the peak torque; as in the duty list."""

NEEDED = ("time_s", "torque_Nm")
KNOWN = (*NEEDED, "speed_rpm")
HEADER = "write the header time_s,torque_Nm or time_s,torque_Nm,speed_rpm"


class FileHash(NamedTuple):
    """A file that belongs to the record of a check: its name as written, and the hash of its bytes."""

    file: str
    sha256: str


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class DutyRecord:
    """
    Torque of the motor shaft over time, as recorded.

    Parameters
    ----------
    time : array, s
        Rising.
    torque : array, N m
        At the motor shaft; negative is regeneration.
    speed : array, rad/s, or None
        Of the motor shaft; None if the record has no speed.
    file, sha256 : str
        Name as written in the scenario, and the hash of the bytes.
    repeats_every : float, s
        Running time for which one record stands.
    lines : array of int
        Line of the file on which each row stands.
    """

    time: FloatArray
    torque: FloatArray
    speed: FloatArray | None
    file: str
    sha256: str
    repeats_every: float
    lines: IntArray

    @property
    def file_hash(self) -> FileHash:
        """What the results say of the file."""
        return FileHash(self.file, self.sha256)

    @property
    def duration(self) -> float:
        """From the first row to the last, s."""
        return float(self.time[-1] - self.time[0])


def read_record(scenario: Path, written: str, repeats_every: float) -> DutyRecord:
    """
    Read the torque record that a scenario names.

    Parameters
    ----------
    scenario : Path
        The scenario file; the record lies in its folder or below it.
    written : str
        Path of the record as it stands in the scenario.
    repeats_every : float, s
        Running time for which one record stands.

    Raises
    ------
    ScenarioError
        With the faults of the path or of the lines of the file.
    """
    content = _content(scenario, written)
    name = printable(Path(written).name)
    values, lines = _table(_text(content, name), name)
    _refuse_time(values["time_s"], lines, name, repeats_every)
    if not np.any(values["torque_Nm"]):
        raise _error(name, "", "", "holds no torque at all", "check which column was recorded")
    speed = values.get("speed_rpm")
    record = DutyRecord(
        time=values["time_s"],
        torque=values["torque_Nm"],
        speed=None if speed is None else speed * RPM,
        file=written,
        sha256=hashlib.sha256(content).hexdigest(),
        repeats_every=repeats_every,
        lines=lines,
    )
    for column in (record.time, record.torque, record.speed, record.lines):
        if column is not None:
            column.setflags(write=False)
    return record


def beyond_motor(record: DutyRecord, peak_torque: float, max_speed: float) -> list[Fault]:
    """
    Return what a record shows and the motor of the scenario cannot do.

    Every check of the joints starts from the peak torque of the motor block; a record beyond it would
    make all of them too kind, so it is refused, not cut.
    """
    name = printable(Path(record.file).name)
    most, least = int(np.argmax(record.torque)), int(np.argmin(record.torque))
    faults = []
    for row, size, limit, words, mend in (
        (most, record.torque[most], peak_torque, "", "raise motor.boost if the controller does that, or "),
        (least, -record.torque[least], HARDEST_BRAKING * peak_torque, ", twice, for braking", ""),
    ):
        if size > limit * (1.0 + NOISE):
            problem = f"is beyond {limit:.6g} N m (motor.peak_torque x boost{words})"
            place = f"line {record.lines[row]}, torque_Nm"
            mend += "check unit and shaft of the record"
            faults.append(Fault(name, place, f"{record.torque[row]:.6g}", problem, mend))
    if record.speed is not None:
        row = int(np.argmax(np.abs(record.speed)))
        value = abs(float(record.speed[row]))
        if value > max_speed * (1.0 + NOISE):
            problem = f"is above motor.max_speed ({max_speed / RPM:.6g} rpm)"
            place = f"line {record.lines[row]}, speed_rpm"
            mend = "check the unit of the record, or write the higher speed there"
            faults.append(Fault(name, place, f"{value / RPM:.6g}", problem, mend))
    return faults


class _Faults:
    """Faults of the lines of one record: the first are listed, all are counted."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.count = 0
        self.listed: list[Fault] = []

    def add(self, place: str, written: str, problem: str, mend: str) -> None:
        """Take one fault."""
        self.count += 1
        if len(self.listed) < MOST_FAULTS:
            self.listed.append(Fault(self.name, place, written, problem, mend))

    def raise_any(self) -> None:
        """Raise what was listed, and say how many more there are."""
        more = self.count - len(self.listed)
        if more:
            self.listed.append(
                Fault(self.name, "", "", f"has {more} more faults in its lines", "mend these first")
            )
        if self.listed:
            raise ScenarioError(self.listed)


def _error(file: str, key: str, written: str, problem: str, mend: str) -> ScenarioError:
    return ScenarioError([Fault(file, key, written, problem, mend)])


def _content(scenario: Path, written: str) -> bytes:
    """Return the bytes of the record; a path that leaves the folder of the scenario is not followed."""

    def refused(problem: str, mend: str) -> ScenarioError:
        return _error(printable(scenario.name), "duty_file.path", written_text(written), problem, mend)

    path = Path(written)
    beside = "a record lies in the folder of the scenario or below it; name it from there"
    if not written.strip() or path.is_absolute() or ".." in path.parts:
        raise refused("leaves the folder of the scenario", beside)
    try:
        folder = scenario.parent.resolve()
        file = (folder / path).resolve()
        if not file.is_relative_to(folder):
            raise refused("is a link that leaves the folder of the scenario", beside)
        if file.is_dir():
            raise refused("is a folder", "name a CSV file")
        if not file.is_file():
            near = nearest(path.name, sorted(p.name for p in folder.glob("*.csv")))
            raise refused("does not exist", f"{near}name a CSV file beside the scenario")
        with file.open("rb") as stream:
            content = stream.read(LARGEST_RECORD + 1)
    except (OSError, ValueError, RuntimeError) as reason:
        why = getattr(reason, "strerror", None) or "the name cannot be used"
        raise refused(f"cannot be read: {why}", "name a CSV file that you may read") from None
    if len(content) > LARGEST_RECORD:
        raise refused(f"is larger than {LARGEST_RECORD // 1_000_000} MB", "thin it out to 1000 rows a second")
    return content


def _text(content: bytes, name: str) -> str:
    """Decode the bytes, or say on which line they are no text."""
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as reason:
        line = content[: reason.start].count(b"\n") + 1
        raise _error(name, f"line {line}", "", "is not UTF-8 text", "save the record as CSV text") from None


def _lines(text: str, name: str) -> Iterator[tuple[int, list[str]]]:
    """Yield every line that is not empty, with its number."""
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    try:
        for cells in reader:
            if any(cell.strip() for cell in cells):
                yield reader.line_num, cells
    except csv.Error as reason:
        line = f"line {reader.line_num}"
        raise _error(name, line, "", f"is not CSV: {reason}", "write plain numbers and commas") from None


def _table(text: str, name: str) -> tuple[Mapping[str, FloatArray], IntArray]:
    """Read the columns, and the line on which each row stands."""
    lines = _lines(text, name)
    first = next(lines, None)
    if first is None:
        raise _error(name, "", "", "is empty", HEADER)
    columns = _header(*first, name)
    numbers, places = array("d"), array("q")
    faults = _Faults(name)
    for line, cells in lines:
        if len(places) == MOST_ROWS:
            raise _error(name, "", "", f"has more than {MOST_ROWS} rows", "thin it out or record less")
        places.append(line)
        if len(cells) == len(columns):
            numbers.extend(_row(line, cells, columns, faults))
        else:
            cell = "cell" if len(cells) == 1 else "cells"
            problem = f"has {len(cells)} {cell} where the header has {len(columns)}"
            faults.add(f"line {line}", "", problem, "write one number under each name, with a decimal point")
    faults.raise_any()
    if len(places) < FEWEST_ROWS:
        mend = "a record needs two rows at least: time and torque at its start and at its end"
        raise _error(name, "", "", "has fewer than two rows", mend)
    table = np.array(numbers).reshape(-1, len(columns))
    return {column: table[:, place].copy() for place, column in enumerate(columns)}, np.array(places)


def _header(line: int, cells: list[str], name: str) -> tuple[str, ...]:
    """Names of the columns, in any order; nothing unknown, nothing twice, nothing missing."""
    columns = tuple(cell.strip() for cell in cells)
    place = f"line {line}"
    faults = _Faults(name)
    for index, column in enumerate(columns):
        if column not in KNOWN:
            hint = "commas, no semicolons; " if ";" in column else nearest(column, KNOWN)
            faults.add(place, written_text(column), "is not a column known here", f"{hint}{HEADER}")
        elif column in columns[:index]:
            faults.add(place, written_text(column), "stands twice", HEADER)
    faults.raise_any()
    for column in NEEDED:
        if column not in columns:
            faults.add(place, "", f"has no column {column}", HEADER)
    faults.raise_any()
    return columns


def _row(line: int, cells: list[str], columns: tuple[str, ...], faults: _Faults) -> list[float]:
    """Numbers of one row; 0 stands where a cell is at fault."""
    row = []
    for cell, column in zip(cells, columns, strict=True):
        value, problem = _number(cell)
        if problem:
            faults.add(f"line {line}, {column}", written_text(cell), problem, "write for example 120.5")
        row.append(value)
    return row


def _number(cell: str) -> tuple[float, str]:
    """Read a plain decimal number: no underscores, no digits of other scripts, no words for infinity."""
    try:
        value = float(cell)
    except ValueError:
        return 0.0, "is not a number"
    if not cell.isascii() or "_" in cell:
        return 0.0, "is not a number"
    if not math.isfinite(value):
        return 0.0, "is not a finite number"
    return (value, "") if abs(value) <= LARGEST_NUMBER else (0.0, "is beyond anything that can be recorded")


def _refuse_time(time: FloatArray, lines: IntArray, name: str, repeats_every: float) -> None:
    """Time rises from row to row, and the record ends before it begins again."""
    faults = _Faults(name)
    for index in np.flatnonzero(np.diff(time) <= 0.0) + 1:
        faults.add(
            f"line {lines[index]}, time_s",
            f"{time[index]:.9g}",
            f"does not rise above {time[index - 1]:.9g} of the row before",
            "each row is later than the one before; write seconds with enough digits",
        )
    faults.raise_any()
    length = float(time[-1] - time[0])
    if length > repeats_every * (1.0 + 1e-6):
        problem = f"lasts {length:.6g} s, longer than duty_file.repeats_every ({repeats_every:.6g} s)"
        raise _error(name, "", "", problem, "write the length of the record there, or more")
