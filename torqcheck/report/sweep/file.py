"""The file of a sweep while it grows, with a journal beside it, so that a stop loses nothing.

Beside FILE stand, until it is whole, FILE.part (its rows so far), FILE.margins (the factor over target of
every row, for the summary) and FILE.journal: one line that says what was asked, then one for each chunk
with the ends of what belongs to it and checksums. A chunk counts once its line is written. Whoever
resumes goes through the journal, keeps what agrees with its checksum, and cuts off the rest.
"""

import json
import os
import zlib
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, BinaryIO, TypeGuard

import numpy as np

from torqcheck import __version__
from torqcheck._types import FloatArray
from torqcheck.assessment.sweep.run import Chunk
from torqcheck.errors import OutputError, UsageError
from torqcheck.report.formats.files import mode_of, refuse_target

__all__ = ["ENDINGS", "SweepFile", "check_target"]

ENDINGS = (".csv", ".parquet")
FORMAT = 1
FINISHED = {"finished": True}
BLOCK = 1 << 20
STRETCH = 500_000
"""Margins that are read together."""
BYTES = 8
"""Of a margin."""


class SweepFile:
    """
    The growing file of one sweep; a context manager that holds the lock.

    Parameters
    ----------
    out : Path
        The final name.
    identity : mapping
        What the rows depend on.
    head : bytes
        What stands before the first row.
    chunks : int
        How many chunks it will have.
    """

    def __init__(self, out: Path, identity: Mapping[str, Any], head: bytes, chunks: int) -> None:
        self.out = out.resolve()
        self.part, self.margins, self.journal = (
            self.out.with_name(f"{self.out.name}.{ending}") for ending in ("part", "margins", "journal")
        )
        self._question = {"format": FORMAT, "torqcheck": __version__, **identity}
        self._head, self._chunks = head, chunks
        self._files: list[BinaryIO] = []
        self.ends: list[int] = []
        self.rows = 0
        self.tally: dict[str, int] = {}
        self.finished = False

    def __enter__(self) -> "SweepFile":
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def begin(self, *, resume: bool, force: bool) -> None:
        """
        Open or take up the file.

        Raises
        ------
        UsageError
            If there is a file or an unfinished run and nobody said what to do with it, or the run that
            is to be resumed asked something else.
        OutputError
            If the folder is not writable, or another process is writing the file.
        """
        there = self.journal.exists()
        if there:
            self._open(self.journal)
        if self.out.exists() and not force and not (resume and there):
            more = "it is whole already; " if resume else ""
            raise UsageError(f"{self.out}: exists; {more}name another file, or add --force to replace it")
        if not there and self.part.exists() and not force:
            raise UsageError(
                f"{self.part}: is in the way and no journal stands beside it; move it, or --force"
            )
        if there and not resume and not force:
            raise UsageError(
                f"{self.out}: an unfinished sweep stands there; add --resume to go on with it, or --force to "
                "begin anew"
            )
        for path in (self.part, self.margins) if there else (self.journal, self.part, self.margins):
            self._open(path)
        try:
            if there and not force:
                self._take_up()
            else:
                self._start()
        except OSError as error:
            if not there:
                self.clear()
            raise self._unwritable(error) from error

    def _open(self, path: Path) -> None:
        """Open one of the files; never cut it before the lock is held."""
        try:
            file = os.fdopen(os.open(path, os.O_RDWR | os.O_CREAT, 0o666), "r+b", buffering=0)
        except OSError as error:
            raise self._unwritable(error) from error
        self._files.append(file)
        if path == self.journal:
            _lock(file, path, self.out)

    def _unwritable(self, error: OSError, more: str = "") -> OutputError:
        return OutputError(f"{self.out}: cannot be written: {error.strerror or error}{more}")

    def close(self) -> None:
        """Close the files, and with them the lock; they stay for a later run."""
        for file in reversed(self._files):
            file.close()
        self._files.clear()

    def _start(self) -> None:
        """Begin with nothing."""
        journal, part, margins = self._files
        for file in (margins, part, journal):
            file.truncate(0)
            file.seek(0)
        _write(part, self._head)
        _write(journal, _line(self._question))

    def _take_up(self) -> None:
        """Keep the chunks that are whole, cut off everything behind them."""
        journal, part, margins = self._files
        *lines, _ = journal.read().split(b"\n")  # what no line break ends is not whole
        question = _entry(lines[0]) if lines else None
        if question is None:
            self._start()
            return
        self._refuse_other(question)
        entries = [_entry(line) for line in lines[1:]]
        if entries and entries[-1] == FINISHED and self.out.exists() and not part.seek(0, os.SEEK_END):
            # it was given its name and only what stands beside it was left
            for entry in filter(_is_chunk, entries[:-1]):
                self._count(entry)
            self.finished = True
            return
        part.seek(0)
        if part.read(len(self._head)) != self._head:
            self._start()
            return
        length = len(lines[0]) + 1
        for line, entry in zip(lines[1:], entries, strict=True):
            if not self._holds(entry, part, margins):
                break
            assert entry is not None
            self._count(entry)
            length += len(line) + 1
        for file, end in zip((journal, part, margins), (length, self._end, self.rows * BYTES), strict=True):
            file.truncate(end)
            file.seek(end)

    def _refuse_other(self, question: Mapping[str, Any]) -> None:
        """Never mix the answers to two questions."""
        names = sorted(self._question.keys() | question.keys())
        differs = [name for name in names if self._question.get(name) != question.get(name)]
        if differs:
            raise UsageError(
                f"{self.out}: the unfinished sweep there asked something else ({', '.join(differs)}); ask "
                "the same, name another file, or add --force to begin anew"
            )

    @property
    def _end(self) -> int:
        return self.ends[-1] if self.ends else len(self._head)

    def _holds(self, entry: Mapping[str, Any] | None, part: BinaryIO, margins: BinaryIO) -> bool:
        """Whether a chunk of the journal is whole."""
        if not _is_chunk(entry) or entry["chunk"] != len(self.ends) or len(self.ends) >= self._chunks:
            return False
        if entry["end"] < self._end:
            return False
        rows = self.rows * BYTES, (self.rows + entry["rows"]) * BYTES
        sums = _checksum(part, self._end, entry["end"]), _checksum(margins, *rows)
        return sums == (entry["part"], entry["margins"])

    def _count(self, entry: Mapping[str, Any]) -> None:
        """Add one chunk to what is there."""
        self.ends.append(entry["end"])
        self.rows += entry["rows"]
        for word, number in entry["tally"].items():
            self.tally[word] = self.tally.get(word, 0) + number

    def append(self, chunk: Chunk) -> None:
        """
        Write one chunk behind the others.

        Raises
        ------
        OutputError
            If the disk is full.
        """
        journal, part, margins = self._files
        content = np.ascontiguousarray(chunk.margin, dtype="<f8").tobytes()
        entry = {
            "chunk": chunk.number,
            "end": self._end + len(chunk.content),
            "rows": len(chunk.margin),
            "part": chunk.checksum,
            "margins": zlib.crc32(content),
            "tally": chunk.tally,
        }
        try:
            _write(part, chunk.content)
            _write(margins, content)
            _write(journal, _line(entry))
        except OSError as error:
            kept = f"; {self.rows} rows are kept beside it: mend that and give the same command with --resume"
            raise self._unwritable(error, kept) from error
        self._count(entry)

    def finish(self, schema: Any = None) -> None:
        """Give the whole file its name: the rows as they stand, or joined into a Parquet file."""
        journal, part, _ = self._files
        joined = self.out.with_name(f"{self.out.name}.joined")
        whole = self.part if schema is None else joined
        try:
            if schema is None:
                os.fsync(part.fileno())
            else:
                from torqcheck.report.sweep.rows import write_parquet

                write_parquet(self.part, self.ends, schema, joined)
            whole.chmod(mode_of(self.out))
            _write(journal, _line(FINISHED))
            whole.replace(self.out)
        except OSError as error:
            raise self._unwritable(error) from error
        finally:
            joined.unlink(missing_ok=True)
        self.finished = True

    def read_margins(self) -> Iterator[FloatArray]:
        """Factor over target of every row, stretch by stretch."""
        for first in range(0, self.rows, STRETCH):
            count = min(STRETCH, self.rows - first)
            yield np.fromfile(self.margins, dtype="<f8", count=count, offset=first * BYTES)

    def clear(self) -> None:
        """Take away what stands beside the finished file."""
        for path in (self.part, self.journal, self.margins):
            path.unlink(missing_ok=True)
        self.close()


def check_target(out: Path, keep: tuple[Path, ...]) -> None:
    """Refuse a name that is no file for a sweep."""
    if out.suffix.lower() not in ENDINGS:
        raise UsageError(f"--out {str(out)[:120]!r} must end in {' or '.join(ENDINGS)}")
    refuse_target(out, keep)


def _line(entry: Mapping[str, Any]) -> bytes:
    return json.dumps(entry).encode() + b"\n"


def _entry(line: bytes) -> dict[str, Any] | None:
    """One line of the journal; None where it is not whole."""
    try:
        entry = json.loads(line)
    except (ValueError, RecursionError):
        return None
    return entry if isinstance(entry, dict) else None


def _is_chunk(entry: Mapping[str, Any] | None) -> TypeGuard[Mapping[str, Any]]:
    """Whether a line of the journal speaks of a chunk; a file that people can reach may say anything."""
    if entry is None or not isinstance(entry.get("tally"), dict):
        return False
    counts = [
        *(entry.get(key) for key in ("chunk", "end", "rows", "part", "margins")),
        *entry["tally"].values(),
    ]
    return all(type(count) is int and count >= 0 for count in counts)


def _write(file: BinaryIO, content: bytes) -> None:
    """Write all of it, whatever the system takes at once."""
    view = memoryview(content)
    while view:
        view = view[file.write(view) :]


def _checksum(file: BinaryIO, start: int, end: int) -> int | None:
    """Checksum of a stretch of a file; None where the file is shorter."""
    file.seek(start)
    checksum, left = 0, end - start
    while left > 0:
        block = file.read(min(BLOCK, left))
        if not block:
            return None
        checksum, left = zlib.crc32(block, checksum), left - len(block)
    return checksum


def _lock(file: BinaryIO, path: Path, out: Path) -> None:
    """Let only one process write the file; the lock goes with the process, however it ends."""
    try:
        import fcntl
    except ImportError:  # a system without such locks
        return
    busy = f"{out}: another sweep is writing it; wait for it, or name another file"
    try:
        fcntl.lockf(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        raise OutputError(busy) from None
    if not path.exists() or path.stat().st_ino != os.fstat(file.fileno()).st_ino:
        raise OutputError(busy)
