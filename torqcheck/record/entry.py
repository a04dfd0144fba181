"""One entry of a build record, and the hash that ties it to the entry before."""

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

__all__ = ["FIRST", "Entry", "canonical", "entry_from_line", "sha256_of"]

FIRST = "0" * 64
"""What stands for the hash before the first entry."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """
    One line of the log.

    Parameters
    ----------
    number : int
        From 1 on.
    written : str
        When it was written, UTC, ISO 8601.
    torqcheck : str
        Version of the program.
    title, build, checked_by, date : str
        From the record block of the scenario.
    verdict : str
        Of the check.
    files : mapping
        SHA-256 of each file of the entry, by its name.
    tables : str
        SHA-256 over all shipped tables.
    previous : str
        Hash of the entry before; `FIRST` at the first.
    """

    number: int
    written: str
    torqcheck: str
    title: str
    build: str
    checked_by: str
    date: str
    verdict: str
    files: Mapping[str, str]
    tables: str
    previous: str

    @property
    def folder(self) -> str:
        """Name of the folder that holds its files."""
        return f"{self.number:04d}"

    @property
    def hash(self) -> str:
        """SHA-256 over everything that the entry says, the hash of the entry before included."""
        return sha256_of(canonical(self.to_dict()).encode())

    def to_dict(self) -> dict[str, Any]:
        """Return it as plain data, without its hash."""
        return {
            "number": self.number,
            "written": self.written,
            "torqcheck": self.torqcheck,
            "title": self.title,
            "build": self.build,
            "checked_by": self.checked_by,
            "date": self.date,
            "verdict": self.verdict,
            "files": dict(sorted(self.files.items())),
            "tables": self.tables,
            "previous": self.previous,
        }

    def line(self) -> str:
        """Return the line of the log, its hash at the end."""
        return canonical(self.to_dict() | {"hash": self.hash})


def entry_from_line(line: str) -> tuple[Entry, str]:
    """
    Return the entry of a line of the log, and the hash that the line states.

    Raises
    ------
    ValueError
        If the line is not one that `Entry.line` can have written.
    """
    try:
        found = json.loads(line)
    except RecursionError:
        found = None
    if not isinstance(found, dict):
        raise ValueError("is no entry")
    stated = found.pop("hash", None)
    files = found.get("files")
    texts = [value for key, value in found.items() if key not in {"number", "files"}]
    if not (
        isinstance(stated, str)
        and found.keys() == Entry.__dataclass_fields__.keys()
        and type(found["number"]) is int
        and isinstance(files, dict)
        and all(isinstance(value, str) for value in (*texts, *files.values()))
    ):
        raise ValueError("is no entry")
    entry = Entry(**found)
    if entry.number < 1 or canonical(entry.to_dict() | {"hash": stated}) != line:
        raise ValueError("is not written as an entry is")
    return entry, stated


def canonical(data: Mapping[str, Any]) -> str:
    """Write plain data in the one way that its hash is taken over."""
    return json.dumps(data, sort_keys=True, ensure_ascii=True, separators=(",", ":"), allow_nan=False)


def sha256_of(content: bytes) -> str:
    """SHA-256 of some bytes, as hexadecimal digits."""
    return hashlib.sha256(content).hexdigest()
