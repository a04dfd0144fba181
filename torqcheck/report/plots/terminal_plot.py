"""Lines drawn with characters, for a terminal or a text file: no colour, never wider than asked.

Every line has its own sign, every mark a capital letter, every level a small one; the key under the
plot says what they are, so that the plot can also be read aloud. Where the encoding carries them,
the first line is drawn with braille dots (2 x 4 to a character) and the frame with box characters;
otherwise everything is plain ASCII.
"""

import math
import textwrap
from collections.abc import Sequence
from dataclasses import dataclass
from string import ascii_lowercase, ascii_uppercase
from typing import TypeAlias

from torqcheck._types import FloatArray
from torqcheck.errors import DomainError
from torqcheck.report.formats.letters import can_show
from torqcheck.report.plots.scale import Scale, linear_scale, log_scale
from torqcheck.scenario.faults import printable

__all__ = ["Level", "Mark", "Series", "line_plot"]

LEAST_WIDTH, LEAST_HEIGHT = 40, 5
SIGNS = "*o+x#@%&"
DOTS_ACROSS, DOTS_DOWN = 2, 4
BRAILLE = 0x2800
DASHES = "\u2812" * 3
DOT = ((0x01, 0x02, 0x04, 0x40), (0x08, 0x10, 0x20, 0x80))  # [across][down]
ROWS_PER_TICK, COLUMNS_PER_TICK = (2, 5), (8, 20)
SHIFT = 1e-9
"""Of a cell: what lies on the edge of two belongs to the lower one, whatever the rounding."""


@dataclass(frozen=True, slots=True)
class Series:
    """One line; where a value is not finite the line is broken."""

    label: str
    x: Sequence[float] | FloatArray
    y: Sequence[float] | FloatArray


@dataclass(frozen=True, slots=True)
class Mark:
    """A point that the key explains; without `y` a position, drawn from top to bottom."""

    label: str
    x: float
    y: float | None = None


@dataclass(frozen=True, slots=True)
class Level:
    """A horizontal line that the key explains."""

    label: str
    y: float


@dataclass(frozen=True, slots=True)
class _Signs:
    """The characters of the frame."""

    upright: str
    flat: str
    corner: str
    left_tick: str
    lower_tick: str
    position: str
    level: str
    fine: bool  # the first line in braille dots


_ASCII = _Signs("|", "-", "+", "+", "+", ":", "-", fine=False)
_BOXES = _Signs("\u2502", "\u2500", "\u2514", "\u2524", "\u252c", "\u250a", "\u254c", fine=True)
_NEEDED = "\u2502\u2500\u2514\u2524\u252c\u250a\u254c\u28ff"

_Cells: TypeAlias = list[list[str]]  # rows from the bottom up
_Points: TypeAlias = list[tuple[float, float] | None]  # None: a break


def line_plot(
    series: Sequence[Series],
    *,
    x_label: str,
    y_label: str,
    width: int = 80,
    height: int = 18,
    marks: Sequence[Mark] = (),
    levels: Sequence[Level] = (),
    log_x: bool = False,
    encoding: str = "ascii",
) -> tuple[str, ...]:
    """
    Draw lines over a common axis, with a key under them.

    Parameters
    ----------
    series : sequence of Series
        At least one; the first is drawn over the others.
    x_label, y_label : str
        What the axes show, in plain words with the unit.
    width : int, optional
        Most columns of a line, 40 or more.
    height : int, optional
        Rows of the plot itself, 5 or more; axes and key come in addition.
    marks : sequence of Mark, optional
        Lettered A, B, C ... in the order given.
    levels : sequence of Level, optional
        Lettered a, b, c ... in the order given.
    log_x : bool, optional
        Logarithmic x axis.
    encoding : str, optional
        What the place of printing can show; one that lacks box and braille characters, or is not
        known, gives plain ASCII.

    Returns
    -------
    tuple of str
        The lines, without escape characters and without blanks at their ends.

    Raises
    ------
    DomainError
        If there is nothing to draw, x and y differ in length, the size is too small, there are more
        lines, marks or levels than signs, or a logarithmic axis meets a value that is not above 0.
    """
    _refuse(series, marks, levels, width, height)
    signs = _BOXES if can_show(encoding, _NEEDED) else _ASCII
    encoding = encoding if signs.fine else "ascii"
    lines = [_points(one) for one in series]
    xs, ys = _values(lines, marks, levels)
    low, high = min(ys), max(ys)
    low = 0.0 if 0.0 < low < 0.5 * high else low
    up = linear_scale(low, high, height, *ROWS_PER_TICK)
    margin = max(len(text) for _, text in up.ticks)
    letters = _level_letters(levels, up)
    columns = width - margin - len(" | ") - max(map(len, letters.values()), default=0)
    across = (
        log_scale(min(xs), max(xs), columns)
        if log_x
        else linear_scale(min(xs), max(xs), columns, *COLUMNS_PER_TICK)
    )
    cells = [[" "] * columns for _ in range(height)]
    for level in levels:
        cells[up.cell_of(level.y)] = [signs.level] * columns
    for mark in marks:
        if mark.y is None:
            for row in cells:
                row[across.cell_of(mark.x)] = signs.position
    hidden = _draw_lines(cells, lines, across, up, signs.fine)
    _letter_points(cells, marks, across, up)
    return (
        *textwrap.wrap(_clean(y_label, encoding), width),
        *_letter_rows(marks, across, margin),
        *_rows(cells, letters, up, margin, signs),
        *_lower_axis(across, margin, width, signs),
        *(line.center(width).rstrip() for line in textwrap.wrap(_clean(x_label, encoding), width)),
        *_key([one.label for one in series], marks, levels, hidden, width, signs, encoding),
    )


def _refuse(
    series: Sequence[Series], marks: Sequence[Mark], levels: Sequence[Level], width: int, height: int
) -> None:
    """Refuse what cannot be drawn."""
    if width < LEAST_WIDTH or height < LEAST_HEIGHT:
        raise DomainError(f"a plot needs at least {LEAST_WIDTH} columns and {LEAST_HEIGHT} rows")
    if not 1 <= len(series) <= len(SIGNS):
        raise DomainError(f"a plot shows 1 to {len(SIGNS)} lines, not {len(series)}")
    if max(len(marks), len(levels)) > len(ascii_uppercase):
        raise DomainError(f"a plot has at most {len(ascii_uppercase)} marks and as many levels")
    for one in series:
        if len(one.x) != len(one.y):
            raise DomainError(f"{one.label}: {len(one.x)} values of x and {len(one.y)} of y")
    given = (*(mark.x for mark in marks), *(m.y for m in marks if m.y is not None), *(e.y for e in levels))
    if not all(map(math.isfinite, given)):
        raise DomainError("marks and levels must lie at finite values")


def _clean(text: str, encoding: str) -> str:
    """A text without control characters and without what the encoding lacks."""
    return printable(text).encode(encoding, "replace").decode(encoding)


def _points(one: Series) -> _Points:
    pairs = ((float(x), float(y)) for x, y in zip(one.x, one.y, strict=True))
    return [pair if all(map(math.isfinite, pair)) else None for pair in pairs]


def _values(
    lines: list[_Points], marks: Sequence[Mark], levels: Sequence[Level]
) -> tuple[list[float], list[float]]:
    """Everything that the axes must reach."""
    points = [point for line in lines for point in line if point is not None]
    if not points:
        raise DomainError("nothing to draw: no line has a finite point")
    xs = [x for x, _ in points] + [mark.x for mark in marks]
    ys = [y for _, y in points] + [mark.y for mark in marks if mark.y is not None]
    return xs, ys + [level.y for level in levels]


def _trodden(points: _Points, across: Scale, up: Scale, fine: bool) -> set[tuple[int, int]]:
    """Fine or whole cells (column, row) that a line passes through, each neighbour of the last."""
    columns, rows = (DOTS_ACROSS, DOTS_DOWN) if fine else (1, 1)
    cells: set[tuple[int, int]] = set()
    before: tuple[float, float] | None = None
    for point in points:
        here = None
        if point is not None:
            # a cell reaches half its size to both sides of its centre
            here = (
                (across.place(point[0]) + 0.5) * columns - SHIFT,
                (up.place(point[1]) + 0.5) * rows - SHIFT,
            )
            start = before or here
            steps = max(1, math.ceil(max(abs(here[0] - start[0]), abs(here[1] - start[1]))))
            for step in range(steps + 1):
                share = step / steps
                column = start[0] + share * (here[0] - start[0])
                row = start[1] + share * (here[1] - start[1])
                cells.add((math.floor(column), math.floor(row)))
        before = here
    return cells


def _draw_lines(cells: _Cells, lines: list[_Points], across: Scale, up: Scale, fine: bool) -> list[bool]:
    """Draw the lines, the first last; tell which of them others hide completely."""
    owner: dict[tuple[int, int], int] = {}
    for number in range(len(lines) - 1, -1, -1):
        dotted = fine and number == 0
        dots: dict[tuple[int, int], int] = {}
        for column, row in _trodden(lines[number], across, up, dotted):
            if dotted:
                place = column // DOTS_ACROSS, row // DOTS_DOWN
                bit = DOT[column % DOTS_ACROSS][DOTS_DOWN - 1 - row % DOTS_DOWN]
                dots[place] = dots.get(place, 0) | bit
            else:
                dots[column, row] = 0
        for (column, row), bits in dots.items():
            cells[row][column] = chr(BRAILLE + bits) if dotted else SIGNS[number]
            owner[column, row] = number
    seen = set(owner.values())
    return [number not in seen and any(line) for number, line in enumerate(lines)]


def _letter_points(cells: _Cells, marks: Sequence[Mark], across: Scale, up: Scale) -> None:
    """Put the letters of points where they lie, or beside a letter that is there already."""
    taken: set[tuple[int, int]] = set()
    for letter, mark in zip(ascii_uppercase, marks, strict=False):
        if mark.y is None:
            continue
        column, row = across.cell_of(mark.x), up.cell_of(mark.y)
        while (column, row) in taken and column + 1 < across.count:
            column += 1
        taken.add((column, row))
        cells[row][column] = letter


def _letter_rows(marks: Sequence[Mark], across: Scale, margin: int) -> list[str]:
    """Letters of positions above the plot, as many rows as letters share a column."""
    rows: list[list[str]] = []
    for letter, mark in zip(ascii_uppercase, marks, strict=False):
        if mark.y is not None:
            continue
        column = across.cell_of(mark.x)
        row = next((row for row in rows if row[column] == " "), None)
        if row is None:
            row = [" "] * across.count
            rows.append(row)
        row[column] = letter
    return [" " * (margin + 2) + "".join(row).rstrip() for row in rows]


def _level_letters(levels: Sequence[Level], up: Scale) -> dict[int, str]:
    """The letters of levels by row."""
    letters: dict[int, str] = {}
    for letter, level in zip(ascii_lowercase, levels, strict=False):
        row = up.cell_of(level.y)
        letters[row] = letters.get(row, "") + letter
    return letters


def _rows(cells: _Cells, letters: dict[int, str], up: Scale, margin: int, signs: _Signs) -> list[str]:
    """The plot with its left axis and the letters of levels behind it."""
    ticks = dict(up.ticks)
    lines = []
    for row in range(up.count - 1, -1, -1):
        edge = signs.left_tick if row in ticks else signs.upright
        line = f"{ticks.get(row, ''):>{margin}} {edge}{''.join(cells[row])}"
        lines.append(f"{line} {letters.get(row, '')}".rstrip())
    return lines


def _lower_axis(across: Scale, margin: int, width: int, signs: _Signs) -> list[str]:
    """The lower axis and its numbers; a number that finds no room is left out."""
    edge = [signs.flat] * across.count
    numbers = [" "] * width
    # whole decades first, so that they are the ones to stay
    order = sorted(across.ticks, key=lambda tick: across.logarithmic and tick[1].strip("0.") != "1")
    for column, text in order:
        edge[column] = signs.lower_tick
        start = min(max(margin + 2 + column - (len(text) - 1) // 2, 0), width - len(text))
        around = numbers[max(start - 1, 0) : start + len(text) + 1]
        if all(sign == " " for sign in around):
            numbers[start : start + len(text)] = text
    line = " " * (margin + 1) + signs.corner + "".join(edge)
    return [line, "".join(numbers).rstrip()]


def _key(
    labels: Sequence[str],
    marks: Sequence[Mark],
    levels: Sequence[Level],
    hidden: list[bool],
    width: int,
    signs: _Signs,
    encoding: str,
) -> list[str]:
    """What every sign and letter stands for."""
    entries = []
    for number, (label, behind) in enumerate(zip(labels, hidden, strict=True)):
        sign = DASHES if signs.fine and number == 0 else SIGNS[number] * 3
        entries.append((sign, label + (" (hidden behind the lines above)" if behind else "")))
    for letter, level in zip(ascii_lowercase, levels, strict=False):
        entries.append((f"{signs.level * 2}{letter}", level.label))
    for letter, mark in zip(ascii_uppercase, marks, strict=False):
        entries.append((f"{signs.position if mark.y is None else ' '} {letter}", mark.label))
    return [
        line
        for sign, text in entries
        for line in textwrap.wrap(
            _clean(text, encoding), width, initial_indent=f"  {sign}  ", subsequent_indent=" " * 7
        )
        or [f"  {sign}"]
    ]
