"""How a number is known: its source and its mark."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal, get_args

__all__ = ["MARKS", "Mark", "Source", "weakest_mark"]

Mark = Literal["measured", "published", "derived", "common practice, no source", "from memory", "assumed"]

MARKS: tuple[Mark, ...] = get_args(Mark)
"""All marks, the firmest first."""


@dataclass(frozen=True, slots=True)
class Source:
    """Where a formula or a table row was taken from.

    Parameters
    ----------
    work : str
        Author, title, edition or year; or what the reasoning rests on.
    where : str
        Page, table, equation or example number in that work; may be empty.
    mark : Mark
        How the number is known. ``published`` only if it was read in a copy of the work.
    """

    work: str
    where: str
    mark: Mark

    def __str__(self) -> str:
        """Render as ``work, where [mark]``."""
        place = f", {self.where}" if self.where else ""
        return f"{self.work}{place} [{self.mark}]"


def weakest_mark(marks: Iterable[Mark]) -> Mark:
    """
    Return the least firm of several marks: a chain is known as well as its weakest link.

    Parameters
    ----------
    marks : iterable of str
        At least one.
    """
    return max(marks, key=MARKS.index)
