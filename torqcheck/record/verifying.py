"""Find whatever was altered, taken away, added or put in another order in a build record."""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from torqcheck.record.entry import FIRST, Entry, entry_from_line, sha256_of
from torqcheck.record.folder import LOCK, LOG, UNFINISHED, entry_folders, files_of, log_lines, shown

__all__ = ["Finding", "Verified", "log_faults", "verify"]


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that is not as it was written: which entry, which file of it, what is wrong."""

    entry: str
    file: str
    kind: Literal["altered", "missing", "added", "order"]
    words: str

    def __str__(self) -> str:
        """One line."""
        place = "/".join(part for part in (self.entry, self.file) if part)
        return f"{place}: {self.words}"


@dataclass(frozen=True, slots=True)
class Verified:
    """
    What was found in a record.

    Parameters
    ----------
    entries : tuple of Entry
        Every line of the log that could be read.
    findings : tuple of Finding
        Empty if all is as it was written.
    left_over : tuple of str
        What a writer that was stopped has left; it belongs to no entry.
    """

    entries: tuple[Entry, ...]
    findings: tuple[Finding, ...]
    left_over: tuple[str, ...]

    @property
    def sound(self) -> bool:
        """Whether everything is as it was written."""
        return not self.findings

    @property
    def head(self) -> str:
        """Hash of the newest entry; with it on paper, a record that was cut short shows."""
        return self.entries[-1].hash if self.entries else FIRST


def verify(folder: Path, head: str = "") -> Verified:
    """
    Look through a whole record.

    Parameters
    ----------
    folder : Path
        The record.
    head : str, optional
        Hash of an entry, or at least its first eight digits, as it stands on a printout. A record whose
        last entries were taken away together with their lines looks whole by itself; this finds it.

    Raises
    ------
    RecordError
        If the folder is no record or cannot be read.
    """
    findings = list(log_faults(folder))
    entries = [entry for entry, _ in _readable(log_lines(folder))]
    known = {entry.folder for entry in entries}
    for entry in entries:
        findings += _file_findings(folder, entry)
    findings += [
        Finding(name, "", "added", "stands in the folder, but not in the log")
        for name in sorted(entry_folders(folder) - known)
    ]
    if head and not any(entry.hash.startswith(head.lower()) for entry in entries):
        words = f"no entry has the hash {head[:64]}: entries were taken away, or it is of another record"
        findings.append(Finding(LOG, "", "missing", words))
    return Verified(tuple(entries), tuple(findings), _left_over(folder, known))


def log_faults(folder: Path) -> Iterator[Finding]:
    """Lines of the log that were altered, are missing, or stand in another order."""
    number, previous = 0, FIRST
    for count, line in enumerate(log_lines(folder), start=1):
        place = f"{LOG} line {count}"
        try:
            entry, stated = entry_from_line(line)
        except ValueError:
            yield Finding(place, "", "altered", "cannot be read as an entry any more")
            number, previous = number + 1, ""
            continue
        if entry.hash != stated:
            yield Finding(place, "", "altered", f"entry {entry.folder} does not have the hash that it states")
        if entry.number != number + 1:
            yield Finding(place, "", "order", f"holds entry {entry.number} where {number + 1} belongs")
        elif previous and entry.previous != previous:
            yield Finding(place, "", "order", f"entry {entry.folder} does not follow from the one before it")
        number, previous = entry.number, entry.hash


def _readable(lines: list[str]) -> Iterator[tuple[Entry, str]]:
    """Entries of the lines that can be read."""
    for line in lines:
        try:
            yield entry_from_line(line)
        except ValueError:
            continue


def _file_findings(folder: Path, entry: Entry) -> Iterator[Finding]:
    """Hold the files of one entry against the log."""
    place = files_of(folder, entry.folder)
    if place is None:
        yield Finding(entry.folder, "", "missing", "the folder of the entry is gone")
        return
    for name, expected in sorted(entry.files.items()):
        found = _content(place / name)
        if found is None:
            yield Finding(entry.folder, name, "missing", "is gone or cannot be read")
        elif sha256_of(found) != expected:
            yield Finding(entry.folder, name, "altered", "is not what was recorded")
    for item in sorted(place.rglob("*")):
        name = item.relative_to(place).as_posix()
        if name not in entry.files and not (
            item.is_dir() and any(f.startswith(f"{name}/") for f in entry.files)
        ):
            yield Finding(entry.folder, shown(Path(name)), "added", "was added afterwards")


def _content(path: Path) -> bytes | None:
    """Bytes of a plain file; None for anything else."""
    try:
        return path.read_bytes() if path.is_file() and not path.is_symlink() else None
    except OSError:
        return None


def _left_over(folder: Path, known: set[str]) -> tuple[str, ...]:
    """What is neither the log, nor the lock, nor an entry."""
    own = {LOG, LOCK, *known, *(f"{UNFINISHED}{name}" for name in known), *entry_folders(folder)}
    return tuple(sorted(shown(Path(item.name)) for item in folder.iterdir() if item.name not in own))
