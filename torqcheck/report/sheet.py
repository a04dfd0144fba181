"""A report as data: what is said, in which order. Renderers turn it into text of some kind."""

import datetime
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any, Literal

from torqcheck.checks import Verdict

__all__ = ["VERDICT", "Blanks", "Column", "Fields", "Figure", "Note", "Part", "Printout", "Sheet", "Table"]

VERDICT = "Verdict"
SHORT = 12
"""Rows of a table that is not parted on paper."""


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table; `width` is the most it may take, longer texts are wrapped."""

    title: str
    align: Literal["left", "right"] = "left"
    width: int | None = None


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of ready-made texts under a title; `verdicts` colours a row where it has one.

    The column that is called `VERDICT` holds the words for them, if any does.
    """

    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    verdicts: tuple[Verdict | None, ...] = ()
    legend: str = ""

    @property
    def short(self) -> bool:
        """Whether it is so short that it stays in one piece on paper."""
        return len(self.rows) <= SHORT

    @property
    def verdict_column(self) -> int | None:
        """Where the verdicts stand: the last column where none is called so; None without verdicts."""
        titles = [column.title for column in self.columns]
        if VERDICT in titles:
            return titles.index(VERDICT)
        return len(titles) - 1 if self.verdicts else None


@dataclass(frozen=True, slots=True)
class Note:
    """Sentences under a title, each its own item."""

    title: str
    items: tuple[str, ...]

    @classmethod
    def of(cls, title: str, items: Iterable[str]) -> "Note | None":
        """Sentences under a title; None where there is nothing to say."""
        found = tuple(items)
        return cls(title, found) if found else None


@dataclass(frozen=True, slots=True)
class Fields:
    """What belongs to a file or a job: pairs of a name and a text under a title."""

    title: str
    rows: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Blanks:
    """What is filled in by hand: a table whose rows have a name and empty cells, and lines below it."""

    title: str
    columns: tuple[str, ...]
    rows: tuple[str, ...]
    lines: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Figure:
    """A picture: `draw` fills an empty figure of matplotlib; `words` say the same as a table or a note."""

    title: str
    draw: Callable[[Any], None]
    caption: str
    words: Table | Note


@dataclass(frozen=True, slots=True)
class Sheet:
    """
    A whole report: what it is about, the verdict in words if there is one, then tables and notes.

    `verdict_title` says what the verdict is of, where it is not that of the whole check.
    """

    title: str
    about: tuple[str, ...]
    verdict: Verdict | None
    words: tuple[str, ...]
    parts: tuple[Table | Note, ...]
    closing: tuple[str, ...] = ()
    verdict_title: str = VERDICT


Part = Table | Note | Fields | Blanks | Figure


@dataclass(frozen=True, slots=True)
class Printout:
    """
    The printout for the build record, whole; renderers get nothing else.

    Parameters
    ----------
    title : str
        Title of the job.
    record : Fields
        The record block, which stands first.
    verdict : str
        Of the whole check.
    words : tuple of str
        The verdict in words; an item that begins with two blanks belongs to the one before.
    parts : tuple of Part
        In the order in which they stand.
    closing : tuple of str
        Last sentences.
    foot : tuple of str
        Lines that stand at the foot of every page: file, hash, version, date.
    version : str
        Of torqcheck.
    date : date or None
        Of the check, as the scenario states it.
    """

    title: str
    record: Fields
    verdict: Verdict
    words: tuple[str, ...]
    parts: tuple[Part, ...]
    closing: tuple[str, ...]
    foot: tuple[str, ...]
    version: str
    date: datetime.date | None
