"""The rows of one stretch of a sweep: numbers and words by column."""

from dataclasses import dataclass, field
from typing import Any, TypeAlias

import numpy as np

from torqcheck._types import FloatArray, IntArray

__all__ = ["Column", "Table", "Words", "words_of"]


@dataclass(frozen=True, slots=True)
class Words:
    """A column of texts: for each row the number of its text; -1 stands for none."""

    code: IntArray
    text: tuple[str, ...]


Column: TypeAlias = FloatArray | IntArray | Words


@dataclass(frozen=True, slots=True)
class Table:
    """
    Rows of a sweep.

    Parameters
    ----------
    columns : dict
        Numbers (NaN where there is none) or words, by the name of the column.
    margin : array
        Lowest safety factor over target; NaN where a point is refused, inf where nothing is loaded.
    tally : dict
        How many points are refused, or have which verdict.
    """

    columns: dict[str, Column]
    margin: FloatArray
    tally: dict[str, int] = field(default_factory=dict)

    @property
    def count(self) -> int:
        """Number of rows."""
        return len(self.margin)


def words_of(texts: list[str] | tuple[str, ...]) -> Words:
    """A column of texts, empty ones as none."""
    known: dict[str, int] = {}
    code: list[Any] = [known.setdefault(text, len(known)) if text else -1 for text in texts]
    return Words(np.array(code, dtype=np.int64), tuple(known))
