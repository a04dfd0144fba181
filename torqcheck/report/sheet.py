"""A report as data: what is said, in which order. Renderers turn it into text of some kind."""

from dataclasses import dataclass
from typing import Literal

from torqcheck.checks import Verdict

__all__ = ["Column", "Note", "Sheet", "Table"]


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table; `width` is the most it may take, longer texts are wrapped."""

    title: str
    align: Literal["left", "right"] = "left"
    width: int | None = None


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of ready-made texts under a title; `verdicts` colours a row where it has one."""

    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    verdicts: tuple[Verdict | None, ...] = ()
    legend: str = ""


@dataclass(frozen=True, slots=True)
class Note:
    """Sentences under a title, each its own item."""

    title: str
    items: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Sheet:
    """A whole report: what it is about, the verdict in words if there is one, then tables and notes."""

    title: str
    about: tuple[str, ...]
    verdict: Verdict | None
    words: tuple[str, ...]
    parts: tuple[Table | Note, ...]
    closing: tuple[str, ...] = ()
