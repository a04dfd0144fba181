"""Tables on paper: heads of columns stay whole, and short tables stay in one piece."""

import io
from collections.abc import Iterator

import pytest
from pypdf import PdfReader

from torqcheck.report.formats.pdf_page import Pen
from torqcheck.report.formats.pdf_table import SIZE, _layout, first_height, write_table
from torqcheck.report.sheet import VERDICT, Column, Table

TITLES = ("Joint", "Check", VERDICT, "Factor", "Target", "Range", "By", "Value MPa", "Limit MPa", "Value psi")
NUMBERS = {"Factor", "Target", "Value MPa", "Limit MPa", "Value psi"}


@pytest.fixture
def pen() -> Iterator[Pen]:
    """An empty page; the fonts are closed when it is written."""
    pen = Pen("a4", ("foot",), title="t", producer="p", date=None)
    yield pen
    pen.content()


def table_of(name: str, rows: int, check: str = "") -> Table:
    columns = tuple(Column(title, "right" if title in NUMBERS else "left") for title in TITLES)
    row = (
        name,
        check or name,
        "UNDECIDED",
        "0.779",
        "1.25",
        "0.752-0.825",
        "M",
        "1670 N m",
        "4570 N m",
        "109000",
    )
    return Table("t", columns, (row,) * rows)


@pytest.mark.parametrize("name", ["hub", "W" * 60, "W" * 300, "long name " * 12])
def test_heads_and_numbers_are_never_broken(pen: Pen, name: str) -> None:
    table = table_of(name, 3)
    layout = _layout(pen, table)
    assert layout.right <= pen.right + 1e-6
    for index, (column, width) in enumerate(zip(table.columns, layout.widths, strict=True)):
        for word in column.title.split():
            assert pen.lines(word, width, SIZE, bold=True) == [word]
        if index >= 2:
            assert pen.lines(table.rows[0][index], width, SIZE, bold=True) == [table.rows[0][index]]


@pytest.mark.parametrize(("rows", "whole"), [(4, True), (12, True), (40, False)])
def test_a_short_table_is_kept_in_one_piece(pen: Pen, rows: int, whole: bool) -> None:
    table = table_of("hub", rows, "a check of many words " * 6)
    pen.y = 200.0
    height = first_height(pen, table)
    pen.room(height)
    begun = pen.pdf.page_no()
    write_table(pen, table)
    assert (pen.pdf.page_no() == begun) == whole
    pages = [page.extract_text().count("UNDECIDED") for page in PdfReader(io.BytesIO(pen.content())).pages]
    assert sum(pages) == rows
    assert (rows in pages) == whole
