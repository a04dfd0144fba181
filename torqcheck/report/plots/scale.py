"""Scales of a plot that is made of characters: round ticks that fall exactly on a row or a column."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from torqcheck.errors import DomainError

__all__ = ["Scale", "linear_scale", "log_scale"]

ROUND_NUMBERS = (1.0, 2.0, 2.5, 5.0)
SLACK = 1e-9
"""Share of a cell that rounding may take from a value."""
LONGEST_NUMBER = 8
SMALLEST, SMALLEST_STEP = 1e-280, 1e-6


@dataclass(frozen=True, slots=True)
class Scale:
    """Cells 0 to `count` - 1 along an axis; cell 0 is centred on `low`, the ticks on whole cells."""

    low: float
    cell: float  # what one cell is worth; with a logarithmic scale in decades
    count: int
    ticks: tuple[tuple[int, str], ...]  # cell, text
    logarithmic: bool = False

    def place(self, value: float) -> float:
        """Position in cells, not rounded."""
        if self.logarithmic:
            return (math.log10(value) - math.log10(self.low)) / self.cell
        return (value - self.low) / self.cell

    def cell_of(self, value: float) -> int:
        """The cell that holds a value; values beyond the ends go to the end."""
        return min(max(math.floor(self.place(value) + 0.5 - SLACK), 0), self.count - 1)


def linear_scale(low: float, high: float, count: int, fewest: int, most: int) -> Scale:
    """
    Finest even scale over a range that has a tick, a round number, every `fewest` to `most` cells.

    Raises
    ------
    DomainError
        If the range is not finite.
    """
    if not math.isfinite(high - low):
        raise DomainError("the range of a plot must be finite")
    most = min(most, count // 2)  # two ticks at least
    if high - low <= max(SLACK * max(abs(low), abs(high)), SMALLEST):
        room = 0.05 * abs(low) if abs(low) > SMALLEST else 1.0
        low, high = low - room, high + room
    best: tuple[float, float, int] | None = None
    for step in _round_steps((high - low) / count * fewest, (high - low) / count * most * 10.0):
        for cells in range(fewest, most + 1):
            cell = step / cells
            start = math.floor(low / cell + SLACK)
            fits = math.ceil(high / cell - SLACK) - start <= count - 1
            if fits and (best is None or cell < best[0] * (1.0 - SLACK)):
                best = (cell, step, start)
    if best is None:
        raise DomainError(f"no scale of {count} cells reaches from {low:g} to {high:g}")
    cell, step, start = best
    cells = round(step / cell)
    first = -(-start // cells)
    numbers = range(first, (start + count - 1) // cells + 1)
    ticks = tuple((number * cells - start, _text(number * step, step)) for number in numbers)
    return Scale(start * cell, cell, count, ticks)


def log_scale(low: float, high: float, count: int) -> Scale:
    """
    Logarithmic scale with ticks at 1, 2 and 5 of every decade, each on the nearest cell.

    Raises
    ------
    DomainError
        If the range does not lie above 0.
    """
    if not 0.0 < low <= high < math.inf:
        raise DomainError("a logarithmic scale needs finite values above 0")
    if high <= low * (1.0 + SLACK):
        low, high = low / 2.0, high * 2.0
    cell = math.log10(high / low) / (count - 1)
    scale = Scale(low, cell, count, (), logarithmic=True)
    ticks = []
    for decade in range(math.floor(math.log10(low)) - 1, math.ceil(math.log10(high)) + 1):
        for lead in (1.0, 2.0, 5.0):
            value = lead * 10.0**decade
            if low * (1.0 - SLACK) <= value <= high * (1.0 + SLACK):
                ticks.append((scale.cell_of(value), f"{value:.10g}"))
    return Scale(low, cell, count, tuple(ticks), logarithmic=True)


def _round_steps(low: float, high: float) -> Iterator[float]:
    """Round numbers from a little below to a little above a range."""
    for decade in range(math.floor(math.log10(low)) - 1, math.ceil(math.log10(high)) + 1):
        for lead in ROUND_NUMBERS:
            yield lead * 10.0**decade


def _text(value: float, step: float) -> str:
    """A tick with as many decimals as its step needs."""
    if step >= SMALLEST_STEP:
        decimals = next(n for n in range(12) if abs(round(step, n) - step) < 1e-6 * step)
        text = f"{value:.{decimals}f}"
        if float(text) == 0.0:
            return "0"
        if len(text) <= LONGEST_NUMBER:
            return text
    # so many digits that neighbouring ticks do not read the same
    texts = (f"{value:.{digits}g}" for digits in range(4, 18))
    return next((text for text in texts if abs(float(text) - value) <= 1e-3 * step), f"{value:.17g}")
