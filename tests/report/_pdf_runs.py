"""Where every run of text of a PDF stands, by the widths that the file itself states."""

from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from pypdf import PageObject, PdfReader
from pypdf.generic import ContentStream

MILLIMETRES = 25.4 / 72.0


@dataclass(frozen=True)
class Run:
    """Left end, right end and baseline, mm from the lower left corner; size in points."""

    left: float
    right: float
    base: float
    size: float


def runs_of(reader: PdfReader, page: PageObject) -> list[Run]:
    """Every run of text of a page."""
    fonts = {name: _widths(font) for name, font in page["/Resources"]["/Font"].items()}  # type: ignore[index]
    runs = []
    widths, size, line, x, y = {}, 0.0, 0.0, 0.0, 0.0
    for operands, operator in ContentStream(page.get_contents(), reader).operations:
        if operator == b"Tf":
            widths, size = fonts[operands[0]], float(operands[1])
        elif operator == b"BT":
            line, x, y = 0.0, 0.0, 0.0
        elif operator == b"Td":
            line, y = line + float(operands[0]), y + float(operands[1])
            x = line
        elif operator == b"Tj":
            code = operands[0].original_bytes
            glyphs = [int.from_bytes(code[i : i + 2], "big") for i in range(0, len(code), 2)]
            width = sum(widths.get(glyph, widths[-1]) for glyph in glyphs) * size / 1000.0
            runs.append(Run(x * MILLIMETRES, (x + width) * MILLIMETRES, y * MILLIMETRES, size))
            x += width
        elif operator in {b"TJ", b"'", b'"', b"Tm"}:
            raise AssertionError(f"the pages are not written with {operator!r}; teach this reader")
    return runs


def _widths(font: Any) -> dict[int, float]:
    """Width of each glyph in thousandths of the size; -1 for those that are not listed."""
    inner = font["/DescendantFonts"][0].get_object()
    widths, items = {-1: float(inner["/DW"])}, list(inner["/W"])
    while items:
        first, second = int(items.pop(0)), items.pop(0)
        if isinstance(second, list):
            widths |= {first + index: float(width) for index, width in enumerate(second)}
        else:
            widths |= dict.fromkeys(range(first, int(second) + 1), float(items.pop(0)))
    return widths


def overlapping(runs: list[Run]) -> list[tuple[Run, Run]]:
    """Runs of one page that are written over each other."""
    found = []
    for line in _lines(runs):
        line.sort(key=lambda run: run.left)
        found += [(a, b) for a, b in pairwise(line) if b.left < a.right - 0.05]
    return found


def _lines(runs: list[Run]) -> list[list[Run]]:
    """Runs whose letters share a height: baselines less than half a letter apart."""
    lines: list[list[Run]] = []
    for run in sorted(runs, key=lambda run: run.base):
        if lines and run.base - lines[-1][0].base < 0.5 * run.size * MILLIMETRES:
            lines[-1].append(run)
        else:
            lines.append([run])
    return lines
