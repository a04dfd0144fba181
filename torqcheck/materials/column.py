"""One column of a shipped table, one layout of it, and short ways to write them."""

from dataclasses import dataclass
from typing import Literal

__all__ = ["SOURCE", "Column", "Layout", "mark", "number", "text", "word"]


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its kind and, for a number, the range outside which it must be a slip of the pen."""

    name: str
    kind: Literal["text", "number", "word", "source", "mark"] = "text"
    least: float = 0.0
    most: float = 0.0
    required: bool = True
    words: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Layout:
    """The columns of one table and those whose values together name a row once."""

    columns: tuple[Column, ...]
    key: tuple[str, ...]


def number(name: str, least: float, most: float, *, required: bool = True) -> Column:
    """A column of numbers within a plausible range."""
    return Column(name, "number", least, most, required)


def text(name: str, *, required: bool = True) -> Column:
    """A column of text."""
    return Column(name, required=required)


def word(name: str, *words: str) -> Column:
    """A column that holds one of a few words."""
    return Column(name, "word", words=words)


def mark(name: str = "mark", *, required: bool = True) -> Column:
    """A column of marks."""
    return Column(name, "mark", required=required)


SOURCE = (Column("source", "source"), text("where", required=False), mark())
