"""Letters on paper and on a terminal: what is lacking is written by its number, or by a plain sign."""

import unicodedata
from collections.abc import Iterator, Set
from dataclasses import fields, is_dataclass
from functools import cache
from pathlib import Path
from typing import Any

__all__ = ["FONTS", "can_show", "font_files", "font_letters", "legible", "letters_note", "text_width"]

FONTS = ("DejaVuSans.ttf", "DejaVuSans-Bold.ttf")
"""They travel with matplotlib."""
_FINE = 600.0
"""Pixels to the inch at which a text is measured; coarse ones round every letter to whole pixels."""
_RIGHT_TO_LEFT = {"R", "AL", "AN"}


def can_show(encoding: str, letters: str) -> bool:
    """Whether an encoding is known here and carries all of these letters."""
    try:
        letters.encode(encoding)
    except (UnicodeEncodeError, LookupError):
        return False
    return True


def font_files() -> tuple[Path, ...]:
    """Files of the fonts of the printout, upright and bold."""
    import matplotlib as mpl

    return tuple(Path(mpl.get_data_path()) / "fonts" / "ttf" / name for name in FONTS)


@cache
def font_letters() -> frozenset[int]:
    """Every letter that the fonts can show, bold and not."""
    from matplotlib.font_manager import get_font

    return frozenset.intersection(*(frozenset(get_font(str(file)).get_charmap()) for file in font_files()))


def legible(text: str, known: Set[int]) -> str:
    """
    Write a letter by its number where the font lacks it, or where it runs from right to left.

    Words that run from right to left would have to be turned round and their letters joined; a mark that
    stands on such a letter goes with it.

    Parameters
    ----------
    text : str
        One line.
    known : set of int
        Numbers of the letters that the font has.

    Examples
    --------
    >>> legible("saw 木", {ord(letter) for letter in "saw "})
    'saw [U+6728]'
    """
    if text.isascii() and text.isprintable():
        return text
    shown: list[str] = []
    before = False
    for letter in text:
        numbered = (
            ord(letter) not in known
            or not letter.isprintable()
            or unicodedata.bidirectional(letter) in _RIGHT_TO_LEFT
            or (before and unicodedata.category(letter) == "Mn")
        )
        shown.append(f"[U+{ord(letter):04X}]" if numbered else letter)
        before = numbered
    return "".join(shown)


def text_width(text: str, size: float) -> float:
    """Width in inches of a line in a size in points, set upright and legibly."""
    from matplotlib.font_manager import get_font

    font = get_font(str(font_files()[0]))
    font.set_size(size, _FINE)
    font.set_text(legible(text, font_letters()))
    return float(font.get_width_height()[0]) / 64.0 / _FINE


def letters_note(printout: Any, known: Set[int]) -> str:
    """Say once how letters are shown that the font lacks; nothing where it has all of them."""
    for text in _texts(printout):
        for line in text.splitlines():
            for letter in line:
                if (shown := legible(letter, known)) != letter:
                    return (
                        "what the font lacks, or what is written from right to left, is shown by its number "
                        f"in Unicode, like {shown}; the HTML form shows it as it was written"
                    )
    return ""


def _texts(thing: Any) -> Iterator[str]:
    """Every text of a printout."""
    if isinstance(thing, str):
        yield thing
    elif isinstance(thing, tuple):
        for item in thing:
            yield from _texts(item)
    elif is_dataclass(thing):
        for field in fields(thing):
            yield from _texts(getattr(thing, field.name))
