"""Where a build record lies: its log, its lock, the folders of its entries."""

import os
import re
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO

from torqcheck.errors import InputError, OutputError
from torqcheck.record.entry import Entry, entry_from_line
from torqcheck.scenario.faults import printable

__all__ = [
    "LOCK",
    "LOG",
    "UNFINISHED",
    "RecordError",
    "entry_folders",
    "files_of",
    "locked",
    "log_lines",
    "read_entry",
    "read_log",
    "shown",
]

LOG, LOCK = "log.jsonl", ".lock"
UNFINISHED = ".unfinished-"
"""Beginning of the name of an entry that is being written."""
LARGEST_LOG = 50_000_000
_ENTRY = re.compile(r"\d{4,9}", re.ASCII)
PATIENCE = 60.0
"""Seconds for which a writer waits for others to finish."""


class RecordError(InputError):
    """A folder that is no build record, or one that does not say what was asked for."""


def shown(path: Path) -> str:
    """A path as text for a message, shortened."""
    text = printable(str(path))
    return text if len(text) <= 120 else f"{text[:110]}..."


def read_log(folder: Path) -> list[Entry]:
    """
    Return the entries of a record, oldest first, without looking whether anything was altered.

    Parameters
    ----------
    folder : Path
        The record.

    Raises
    ------
    RecordError
        If the folder holds no log, or a line of it cannot be read.
    """
    entries = []
    for count, line in enumerate(log_lines(folder), start=1):
        try:
            entries.append(entry_from_line(line)[0])
        except ValueError as error:
            raise RecordError(
                f"{shown(folder / LOG)}: line {count} {_why(error)}; run torqcheck record verify"
            ) from error
    return entries


def _why(error: ValueError) -> str:
    """Say why a line cannot be read, in the words of `entry_from_line`."""
    text = str(error)
    return text if text.startswith("is ") else "is no entry"


def log_lines(folder: Path) -> list[str]:
    """Lines of the log; an empty list for a record without entries."""
    log = folder / LOG
    try:
        with log.open("rb") as file:
            content = file.read(LARGEST_LOG + 1)
    except (FileNotFoundError, NotADirectoryError):
        raise RecordError(
            f"{shown(folder)}: is no build record (it has no {LOG}); torqcheck assess --record makes one"
        ) from None
    except OSError as error:
        raise RecordError(f"{shown(log)}: cannot be read: {error.strerror or error}") from error
    if len(content) > LARGEST_LOG:
        raise RecordError(f"{shown(log)}: is larger than {LARGEST_LOG} bytes")
    # only line feeds end a line; whatever else stands in it belongs to it and to its hash
    lines = content.decode("utf-8", errors="backslashreplace").split("\n")
    if lines[-1]:
        # a log that was cut short within its last line, or only by its end
        lines[-1] += " (cut short)"
        return lines
    return lines[:-1]


def read_entry(path: Path) -> tuple[Path, Entry]:
    """
    Return the record and the entry that a path such as ``record/0002`` names.

    A record itself stands for its newest entry.

    Parameters
    ----------
    path : Path
        A record, or an entry in one.

    Raises
    ------
    RecordError
        If there is no such entry.
    """
    if (path / LOG).is_file():
        entries = read_log(path)
        if not entries:
            raise RecordError(f"{shown(path)}: has no entry yet")
        return path, entries[-1]
    folder = path.parent
    if not _ENTRY.fullmatch(path.name) or not (folder / LOG).is_file():
        raise RecordError(f"{shown(path)}: is no entry of a build record; name one like record/0002")
    for entry in read_log(folder):
        if entry.folder == path.name:
            return folder, entry
    raise RecordError(f"{shown(path)}: the log of {shown(folder)} has no such entry")


def files_of(folder: Path, name: str) -> Path | None:
    """Folder that holds the files of an entry, renamed already or not yet; None if there is none."""
    # a writer may rename it between two looks
    for candidate in (folder / name, folder / f"{UNFINISHED}{name}", folder / name):
        if candidate.is_dir():
            return candidate
    return None


def entry_folders(folder: Path) -> set[str]:
    """Names of all folders that look like entries."""
    try:
        return {item.name for item in folder.iterdir() if item.is_dir() and _ENTRY.fullmatch(item.name)}
    except OSError as error:
        raise RecordError(f"{shown(folder)}: cannot be read: {error.strerror or error}") from error


@contextmanager
def locked(folder: Path) -> Iterator[None]:
    """
    Keep other writers out of a record; the lock is gone with the process that holds it.

    Raises
    ------
    OutputError
        If others write for longer than one can wait, or the folder cannot be written.
    """
    try:
        file = (folder / LOCK).open("a+b")
    except OSError as error:
        raise OutputError(f"{shown(folder)}: cannot be written: {error.strerror or error}") from error
    with file:
        _wait_for(file, folder)
        try:
            yield
        finally:
            _release(file)


def _wait_for(file: IO[bytes], folder: Path) -> None:
    """Take the lock, trying again until the patience is over."""
    import time

    end = time.monotonic() + PATIENCE
    while not _taken(file):
        if time.monotonic() > end:
            raise OutputError(f"{shown(folder)}: another torqcheck is writing to it; try again")
        time.sleep(0.02)


if os.name == "nt":  # pragma: no cover
    import msvcrt

    def _taken(file: IO[bytes]) -> bool:
        """Lock the first byte."""
        try:
            file.seek(0)
            msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)  # type: ignore[attr-defined]
        except OSError:
            return False
        return True

    def _release(file: IO[bytes]) -> None:
        """Give the first byte back."""
        file.seek(0)
        msvcrt.locking(file.fileno(), msvcrt.LK_UNLCK, 1)  # type: ignore[attr-defined]

else:
    import fcntl

    def _taken(file: IO[bytes]) -> bool:
        """Lock the whole file."""
        try:
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError:
            return False
        return True

    def _release(file: IO[bytes]) -> None:
        """Give the file back."""
        fcntl.flock(file, fcntl.LOCK_UN)
