"""A table on pages: columns that fit, rows that stay whole where they can, heads that are repeated."""

from dataclasses import dataclass

from torqcheck.report.formats.pdf_page import LEFT, Pen, line_height
from torqcheck.report.sheet import Table

__all__ = ["first_height", "write_table"]

SIZE, LEGEND_SIZE = 7.2, 6.8
GAP, NARROW_GAP, PADDING = 2.6, 1.6, 0.55
"""Between columns, between those of a wide table, and above and below the text of a row; mm."""
SLIM = 24.0
"""A column that is no wider, mm, is not squeezed while others can be."""
WIDEST_WORD = 0.42
"""Share of the page that a column claims for its longest word; longer words are broken."""
LOW = 80.0
"""A table that is no taller, mm, is not parted."""
SHORT_SHARE = 0.7
"""Nor is a short one that takes no more than so much of a page."""
FIRST_ROWS, TALLEST_BEGINNING = 3, 40.0
"""So many rows stay with the title, unless they are taller than so many mm."""
LAST_ROWS, LEGEND_LINES = 2, 6
"""So many rows go overleaf with so many lines of the legend."""
NOTABLE = {"marginal", "undecided", "fail"}


@dataclass(frozen=True, slots=True)
class _Layout:
    """Where the columns stand and how wide they are, mm."""

    places: tuple[float, ...]
    widths: tuple[float, ...]

    @property
    def right(self) -> float:
        return self.places[-1] + self.widths[-1]


def _layout(pen: Pen, table: Table) -> _Layout:
    """As wide as the texts want; where that is too much, long texts are wrapped."""
    room = pen.width - GAP * (len(table.columns) - 1)
    natural, least, heads = [], [], []
    for index, column in enumerate(table.columns):
        cells = [row[index] for row in table.rows]
        title = pen.measure(pen.shown(column.title), SIZE, bold=True)
        wide = max([title, *(pen.measure(pen.shown(cell), SIZE, bold=True) for cell in cells)])
        words = [
            pen.measure(word, SIZE, bold=True)
            for cell in (*cells, column.title)
            for word in pen.shown(cell).split()
        ]
        word = wide if column.align == "right" else max(words, default=0.0)
        natural.append(wide + 0.1)
        least.append(wide + 0.1 if wide <= SLIM else min(word + 0.1, WIDEST_WORD * room))
        head = max((pen.measure(word, SIZE, bold=True) for word in column.title.split()), default=0.0)
        # numbers stay whole as the heads do: a long name gives way to them
        heads.append(least[-1] if wide <= SLIM else min(head + 0.1, least[-1]))
    gap, widths = GAP, natural
    if sum(natural) > room:
        gap = NARROW_GAP
        widths = _squeezed(natural, least, heads, pen.width - gap * (len(table.columns) - 1))
    places, x = [], LEFT
    for width in widths:
        places.append(x)
        x += width + gap
    return _Layout(tuple(places), tuple(widths))


def _squeezed(natural: list[float], least: list[float], heads: list[float], room: float) -> list[float]:
    """Widths that fill the room, none below its longest word; where that is too much, those of the heads."""
    if sum(least) >= room:
        natural, least = least, heads
        if sum(least) >= room:
            return [width * room / sum(least) for width in least]
    least = [min(pair) for pair in zip(natural, least, strict=True)]
    spare = room - sum(least)
    wanted = sum(natural) - sum(least)
    return [narrow + spare * (wide - narrow) / wanted for wide, narrow in zip(natural, least, strict=True)]


def _cells(pen: Pen, texts: tuple[str, ...], layout: _Layout, bold: bool) -> list[list[str]]:
    return [pen.lines(text, width, SIZE, bold) for text, width in zip(texts, layout.widths, strict=True)]


def first_height(pen: Pen, table: Table) -> float:
    """Height of what must not part from the title: head and first rows, or all of a short table."""
    layout = _layout(pen, table)
    heights = [_height(_cells(pen, row, layout, True)) for row in table.rows]
    head = _head_height(pen, table, layout)
    legend = pen.lines(table.legend, pen.width, LEGEND_SIZE) if table.legend else []
    whole = head + sum(heights) + len(legend) * line_height(LEGEND_SIZE) + 1.0
    if whole <= (SHORT_SHARE * pen.tallest if table.short else LOW):
        return whole
    return head + min(sum(heights[:FIRST_ROWS]), TALLEST_BEGINNING)


def _height(cells: list[list[str]]) -> float:
    return max(len(lines) for lines in cells) * line_height(SIZE) + 2.0 * PADDING


def _head_height(pen: Pen, table: Table, layout: _Layout) -> float:
    titles = tuple(column.title for column in table.columns)
    return _height(_cells(pen, titles, layout, True)) if any(titles) else 0.0


def write_table(pen: Pen, table: Table) -> None:
    """Write a table under the pen, over as many pages as it takes, and its legend."""
    layout = _layout(pen, table)
    _write_head(pen, table, layout)
    verdicts = table.verdicts or (None,) * len(table.rows)
    legend = pen.lines(table.legend, pen.width, LEGEND_SIZE) if table.legend else []
    below = min(len(legend), LEGEND_LINES) * line_height(LEGEND_SIZE) + 0.8
    last = len(table.rows) - LAST_ROWS
    for number, (row, verdict) in enumerate(zip(table.rows, verdicts, strict=True)):
        if number == last and last > 0:
            rest = sum(_height(_cells(pen, row, layout, True)) for row in table.rows[last:])
            if pen.left_over < rest + below <= pen.tallest - _head_height(pen, table, layout):
                _turn(pen, table, layout)
        _write_row(pen, table, row, layout, verdict in NOTABLE)
    if legend:
        pen.y += 0.8
        pen.room(below)
        pen.paragraph(table.legend, LEGEND_SIZE)


def _write_head(pen: Pen, table: Table, layout: _Layout) -> None:
    """Titles of the columns over a rule; nothing where no column has one."""
    titles = tuple(column.title for column in table.columns)
    if any(titles):
        cells = _cells(pen, titles, layout, True)
        _write_lines(pen, table, cells, layout, bold=tuple(True for _ in cells))
        pen.line_to(layout.right)


def _write_row(pen: Pen, table: Table, row: tuple[str, ...], layout: _Layout, notable: bool) -> None:
    """One row; whole on one page, unless it is taller than a page."""
    bold = tuple(notable and index == table.verdict_column for index in range(len(row)))
    cells = [
        pen.lines(text, width, SIZE, heavy)
        for text, width, heavy in zip(row, layout.widths, bold, strict=True)
    ]
    if _height(cells) > pen.left_over:
        if _height(cells) <= pen.tallest - _head_height(pen, table, layout):
            _turn(pen, table, layout)
        while _height(cells) > pen.left_over:
            fit = int((pen.left_over - 2.0 * PADDING) / line_height(SIZE))
            if fit > 0:
                _write_lines(pen, table, [lines[:fit] for lines in cells], layout, bold)
                cells = [lines[fit:] or [""] for lines in cells]
            _turn(pen, table, layout)
    _write_lines(pen, table, cells, layout, bold)
    pen.line_to(layout.right, grey=190)


def _turn(pen: Pen, table: Table, layout: _Layout) -> None:
    """Go on overleaf, under the heads of the columns."""
    pen.new_page()
    _write_head(pen, table, layout)


def _write_lines(
    pen: Pen, table: Table, cells: list[list[str]], layout: _Layout, bold: tuple[bool, ...]
) -> None:
    """Lines of every cell beside each other."""
    for column, lines, x, width, heavy in zip(
        table.columns, cells, layout.places, layout.widths, bold, strict=True
    ):
        y = pen.y + PADDING
        for line in lines:
            shift = width - pen.measure(line, SIZE, heavy) if column.align == "right" else 0.0
            pen.write(x + shift, y, line, SIZE, heavy)
            y += line_height(SIZE)
    pen.y += _height(cells)
