"""Points drawn with characters, each with a letter of its own: no colour, never wider than asked."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from torqcheck.errors import DomainError
from torqcheck.report.plots.scale import Scale, linear_scale, log_scale

__all__ = ["Point", "point_plot"]

LEAST_WIDTH, LEAST_HEIGHT = 40, 5
ROWS_PER_TICK, COLUMNS_PER_TICK = (2, 5), (8, 20)
WIDEST_LINEAR = 20.0
"""Beyond this ratio of the largest to the smallest value the upright axis is logarithmic."""


@dataclass(frozen=True, slots=True)
class Point:
    """One point and the character that stands for it."""

    x: float
    y: float
    sign: str


def point_plot(
    points: Sequence[Point],
    *,
    x_label: str,
    y_label: str,
    level: float,
    level_label: str,
    width: int = 80,
    height: int = 16,
) -> tuple[str, ...]:
    """
    Draw points over a level; where two fall on one place the earlier one is seen.

    Parameters
    ----------
    points : sequence of Point
        At least one, finite, those to be seen first in front; above 0 in y.
    x_label, y_label : str
        What the axes show, in plain words.
    level : float
        A horizontal line, above 0.
    level_label : str
        What it is.
    width : int, optional
        Most columns of a line, 40 or more.
    height : int, optional
        Rows of the plot itself, 5 or more.

    Returns
    -------
    tuple of str
        Plain ASCII without blanks at the ends; the last line says how many points lie behind others.

    Raises
    ------
    DomainError
        If there is nothing to draw, a value is not finite, or the size is too small.
    """
    if width < LEAST_WIDTH or height < LEAST_HEIGHT:
        raise DomainError(f"a plot needs {LEAST_WIDTH} columns and {LEAST_HEIGHT} rows at least")
    if not points or not all(math.isfinite(one.x) and math.isfinite(one.y) for one in points):
        raise DomainError("nothing to draw: points must be there and finite")
    up = _upright([level, *(one.y for one in points)], height)
    margin = max(len(text) for _, text in up.ticks)
    xs = [one.x for one in points]
    across = linear_scale(min(xs), max(xs), width - margin - 4, *COLUMNS_PER_TICK)
    line = up.cell_of(level)
    cells = [["-" if row == line else " "] * across.count for row in range(up.count)]
    hidden = _put(cells, points, across, up)
    rows = _rows(cells, up, margin, line)
    behind = [f"{hidden} more lie behind others."] if hidden else []
    label = f"  ---  {level_label}"
    return (y_label, *rows, *_axis(across, margin, width), f"{x_label:>{width}}".rstrip(), label, *behind)


def _upright(values: list[float], height: int) -> Scale:
    low, high = min(values), max(values)
    if low > 0.0 and high > WIDEST_LINEAR * low:
        return log_scale(low, high, height)
    return linear_scale(low, high, height, *ROWS_PER_TICK)


def _put(cells: list[list[str]], points: Sequence[Point], across: Scale, up: Scale) -> int:
    """Write the signs into their cells; tell how many found theirs taken."""
    taken: set[tuple[int, int]] = set()
    hidden = 0
    for one in points:
        place = across.cell_of(one.x), up.cell_of(one.y)
        if place in taken:
            hidden += 1
            continue
        taken.add(place)
        cells[place[1]][place[0]] = one.sign
    return hidden


def _rows(cells: list[list[str]], up: Scale, margin: int, level: int) -> list[str]:
    """The plot with its left axis, the highest row first."""
    ticks = dict(up.ticks)
    lines = []
    for row in range(up.count - 1, -1, -1):
        edge = "+" if row in ticks else "|"
        text = f"{ticks.get(row, ''):>{margin}} {edge}{''.join(cells[row])}"
        lines.append(text if row == level else text.rstrip())
    return lines


def _axis(across: Scale, margin: int, width: int) -> list[str]:
    """The lower axis and its numbers; a number that finds no room is left out."""
    edge = ["-"] * across.count
    numbers = [" "] * width
    for column, text in across.ticks:
        edge[column] = "+"
        start = min(margin + 2 + column - (len(text) - 1) // 2, width - len(text))
        around = numbers[max(start - 1, 0) : start + len(text) + 1]
        if all(sign == " " for sign in around):
            numbers[start : start + len(text)] = text
    return [" " * (margin + 1) + "+" + "".join(edge), "".join(numbers).rstrip()]
