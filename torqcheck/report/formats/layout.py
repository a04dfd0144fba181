"""Lay tables and notes out in columns of a given width; one layout for terminal, text and files."""

import re
import textwrap

from torqcheck.report.formats.terminal_cells import cells, even, folded, padded
from torqcheck.report.sheet import Column, Note, Table

__all__ = ["header_lines", "note_lines", "row_lines", "table_gap", "wrapped"]

WIDE_GAP, NARROW_GAP = 2, 1
LEAST_WIDTH = 8
ROOM_TO_GLUE = 40
"""Columns that are narrower need every blank to break at."""
UNITS = "mm|um|in|N|h|ms|MPa|psi|deg|rpm|Hz|HB|HRC|HV|lbf|kg|lb|rad|J"
GLUED = re.compile(rf"(?<=\d) (?=(?:{UNITS})\b|%)|(?<=\bN) (?=m\b)|(?<=\blbf) (?=(?:ft|in)\b)")
"""Blanks between a number and its unit, and within the unit of a torque."""
JOINTS = re.compile(r"(?<=[._/])")
"""Where a key or a path may be broken."""


def wrapped(text: str, width: int, indent: str = "") -> list[str]:
    """Break a text into lines of at most `width`; lines after the first keep its indent and one more."""
    leading = " " * (len(text) - len(text.lstrip(" ")))
    follow = f"{leading}  " if leading else indent
    text = leading + _broken_keys(text[len(leading) :], width - len(follow or leading))
    if width >= ROOM_TO_GLUE:
        text = GLUED.sub("\xa0", text)
    if even(text):
        lines = textwrap.wrap(text, width, subsequent_indent=follow, break_on_hyphens=False) or [""]
    else:
        lines = folded(text, width, follow)
    return [line.replace("\xa0", " ") for line in lines]


def _broken_keys(text: str, width: int) -> str:
    """Part a key that is longer than a line behind one of its dots or bars, not within a word."""
    words = text.split(" ")
    if all(len(word) <= width for word in words):
        return text
    for place, word in enumerate(words):
        pieces = [""]
        for piece in JOINTS.split(word) if len(word) > width else [word]:
            if pieces[-1] and len(pieces[-1]) + len(piece) > width:
                pieces.append("")
            pieces[-1] += piece
        words[place] = " ".join(pieces)
    return " ".join(words)


def note_lines(note: Note, width: int) -> list[str]:
    """Lay the items of a note out, each behind a dash."""
    return [line for item in note.items for line in wrapped(f"- {item}", width, "  ")]


def table_gap(table: Table, width: int) -> tuple[list[int], int]:
    """Return the widths of the columns and the gap between them; narrow tables stand wider apart."""
    natural = [_natural(table, index, column) for index, column in enumerate(table.columns)]
    between = len(natural) - 1
    gap = WIDE_GAP if sum(natural) + WIDE_GAP * between <= width else NARROW_GAP
    while sum(natural) + gap * between > width:
        left = [i for i, column in enumerate(table.columns) if column.align == "left"]
        widest = max(left, key=lambda i: natural[i])
        if natural[widest] <= LEAST_WIDTH:
            break
        natural[widest] -= 1
    return natural, gap


def _natural(table: Table, index: int, column: Column) -> int:
    width = max([cells(column.title), *(cells(row[index]) for row in table.rows)])
    return min(width, column.width) if column.width else width


def header_lines(table: Table, widths: list[int], gap: int) -> list[str]:
    """Titles of the columns over a rule; nothing where no column has a title."""
    titles = tuple(column.title for column in table.columns)
    if not any(titles):
        return []
    rule = "-" * (sum(widths) + gap * (len(widths) - 1))
    return [*row_lines(titles, table.columns, widths, gap), rule]


def row_lines(row: tuple[str, ...], columns: tuple[Column, ...], widths: list[int], gap: int) -> list[str]:
    """Lay one row out, wrapping texts that are too long."""
    parts = [wrapped(text, size) for text, size in zip(row, widths, strict=True)]
    lines = []
    for level in range(max(len(part) for part in parts)):
        texts = []
        for part, column, size in zip(parts, columns, widths, strict=True):
            text = part[level] if level < len(part) else ""
            texts.append(padded(text, size, right=column.align == "right"))
        lines.append((" " * gap).join(texts).rstrip())
    return lines
