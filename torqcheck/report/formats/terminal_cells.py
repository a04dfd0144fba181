"""Columns that a text takes on a terminal: East Asian letters stand over two, combining marks over none."""

import unicodedata

__all__ = ["cells", "cut", "even", "folded", "padded"]

NOTHING = frozenset({"Mn", "Me", "Cf"})
WIDE = frozenset({"W", "F"})


def _width(letter: str) -> int:
    """Columns of one letter."""
    if unicodedata.category(letter) in NOTHING:
        return 0
    return 2 if unicodedata.east_asian_width(letter) in WIDE else 1


def cells(text: str) -> int:
    r"""
    Return the number of columns that a text takes on a terminal.

    Examples
    --------
    >>> cells("saw"), cells("木工"), cells("e\u0301tau")
    (3, 4, 4)
    """
    return len(text) if text.isascii() else sum(map(_width, text))


def even(text: str) -> bool:
    """Return whether each letter of a text stands over one column."""
    return text.isascii() or all(_width(letter) == 1 for letter in text)


def cut(text: str, size: int) -> str:
    """Return so much of a text as stands in a number of columns."""
    while cells(text) > size:
        text = text[:-1]
    return text


def padded(text: str, size: int, *, right: bool = False) -> str:
    """
    Fill a text up with blanks to a number of columns.

    Parameters
    ----------
    text : str
        Left as it is where it is longer.
    size : int
        Columns.
    right : bool, optional
        Blanks before it.
    """
    blanks = " " * max(0, size - cells(text))
    return blanks + text if right else text + blanks


def folded(text: str, width: int, follow: str = "") -> list[str]:
    """
    Break a text into lines of at most so many columns, at its blanks, and within a word that is longer.

    Parameters
    ----------
    text : str
        Its leading blanks stay.
    width : int
        Columns.
    follow : str, optional
        Stands before every line but the first.
    """
    room = max(width, cells(follow) + 2)
    line = text[: len(text) - len(text.lstrip(" "))]
    lines, empty = [], True
    for word in filter(None, text.split(" ")):
        joined = f"{line}{word}" if empty else f"{line} {word}"
        if cells(joined) <= room:
            line, empty = joined, False
            continue
        if not empty:
            lines.append(line)
            line = follow
        for letter in word:
            if cells(line) + _width(letter) > room:
                lines.append(line)
                line = follow
            line += letter
        empty = False
    return [*lines, line]
