"""The printout as PDF: searchable text, fonts inside, file hash, version, date and number on every page."""

import io
from dataclasses import replace
from typing import Any

from torqcheck.report.formats.as_html import Paper
from torqcheck.report.formats.figure_file import drawn
from torqcheck.report.formats.letters import font_letters, letters_note
from torqcheck.report.formats.pdf_page import LEFT, Pen, line_height
from torqcheck.report.formats.pdf_table import first_height, write_table
from torqcheck.report.sheet import Blanks, Fields, Figure, Note, Part, Printout, Table
from torqcheck.report.words import VERDICT_WORDS

__all__ = ["as_pdf"]

TITLE, HEADING, BODY, SMALL, VERDICT = 15.0, 10.0, 8.2, 6.8, 13.0
"""Sizes of text, points."""
ABOVE_HEADING, BELOW_HEADING = 4.2, 1.2
INDENT, LABEL = 3.6, 46.0
"""mm: of items, and the width of the names in the record block."""
RESOLUTION, COLOURS, TALLEST_FIGURE = 200, 64, 104.0
UPRIGHT, TALLEST_UPRIGHT = 1.5, 185.0
"""A figure that would be so much taller gets a page of its own rather than letters that nobody can read."""
SMALLEST = 0.8
"""By so much a figure is made smaller to fit what is left of a page."""
TOGETHER = 8
"""An item of so many lines or fewer is not parted."""
FIRST_ITEMS = 3
"""So many items stay with their heading, unless they are longer."""
BLANK_HEIGHT, LINE_LENGTH = 11.0, 110.0


def as_pdf(printout: Printout, paper: Paper = "a4") -> bytes:
    """
    Render a printout as PDF.

    Parameters
    ----------
    printout : Printout
        What is said.
    paper : str, optional
        ``a4`` or ``letter``.

    Returns
    -------
    bytes
        The file; the same for the same printout. Its date of creation is that of the scenario, 2000-01-01
        where the scenario has none. A letter that the font lacks, or that runs from right to left, is
        written by its number, and the record block says so.
    """
    pen = Pen(
        paper,
        printout.foot,
        title=printout.title,
        producer=f"torqcheck {printout.version}",
        date=printout.date,
    )
    pen.paragraph(f"Printout for the build record, torqcheck {printout.version}", BODY)
    pen.paragraph(printout.title, TITLE, bold=True)
    note = letters_note(printout, font_letters())
    rows = printout.record.rows
    _fields(pen, replace(printout.record, rows=(*rows, ("Letters", note)) if note else rows))
    _verdict(pen, printout)
    for part in printout.parts:
        _part(pen, part)
    pen.y += ABOVE_HEADING
    for text in printout.closing:
        pen.room(len(pen.lines(text, pen.width, BODY, bold=True)) * line_height(BODY))
        pen.paragraph(text, BODY, bold=True)
    return pen.content()


def _heading(pen: Pen, text: str, together: float, size: float = HEADING) -> None:
    """A heading that stays with at least so much of what follows."""
    pen.room(_heading_height(pen, text, size) + together)
    if not pen.at_top:
        pen.y += ABOVE_HEADING
    pen.paragraph(text, size, bold=True)
    pen.rule()
    pen.y += BELOW_HEADING


def _heading_height(pen: Pen, text: str, size: float) -> float:
    lines = pen.lines(text, pen.width, size, bold=True)
    return ABOVE_HEADING + len(lines) * line_height(size) + BELOW_HEADING


def _part(pen: Pen, part: Part) -> None:
    if isinstance(part, Table):
        _heading(pen, part.title, first_height(pen, part))
        write_table(pen, part)
    elif isinstance(part, Note):
        _note(pen, part)
    elif isinstance(part, Fields):
        _fields(pen, part)
    elif isinstance(part, Figure):
        _figure(pen, part)
    else:
        _blanks(pen, part)


def _fields(pen: Pen, fields: Fields) -> None:
    """Names on the left, texts on the right."""
    _heading(pen, fields.title, 2.0 * line_height(BODY))
    for name, text in fields.rows:
        for number, line in enumerate(pen.lines(text, pen.width - LABEL, BODY)):
            pen.room(line_height(BODY))
            if number == 0:
                pen.write(LEFT, pen.y, name, BODY)
            pen.write(LEFT + LABEL, pen.y, line, BODY)
            pen.y += line_height(BODY)


def _verdict(pen: Pen, printout: Printout) -> None:
    """The verdict as a word, and the sentences under it."""
    _heading(pen, f"Verdict: {VERDICT_WORDS[printout.verdict]}", 4.0 * line_height(BODY), VERDICT)
    for words in printout.words:
        indent = INDENT if words.startswith("  ") else 0.0
        _item(pen, words.strip(), indent, "")
        pen.y += 0.6


def _item(pen: Pen, text: str, indent: float, mark: str) -> None:
    """A sentence or an item of a list, in one piece where it is short."""
    lines = pen.lines(text, pen.width - indent, BODY)
    if len(lines) <= TOGETHER:
        pen.room(len(lines) * line_height(BODY))
    pen.room(line_height(BODY))
    pen.write(LEFT, pen.y, mark, BODY)
    pen.paragraph(text, BODY, indent=indent)


def _note(pen: Pen, note: Note) -> None:
    first = sum(len(pen.lines(item, pen.width - INDENT, BODY)) for item in note.items[:FIRST_ITEMS])
    _heading(pen, note.title, min(first, TOGETHER) * line_height(BODY) + 1.0)
    _items(pen, note.items)


def _items(pen: Pen, items: tuple[str, ...]) -> None:
    for item in items:
        _item(pen, item, INDENT, "\u2022")
        pen.y += 0.4


def _figure(pen: Pen, figure: Figure) -> None:
    """Picture, caption, and the same in words under it."""
    image = _image(figure)
    width = pen.width
    height = width * image.height / image.width
    tallest = TALLEST_FIGURE if height < UPRIGHT * TALLEST_FIGURE else TALLEST_UPRIGHT
    if height > tallest:
        width, height = width * tallest / height, tallest
    beside = len(pen.lines(figure.caption, pen.width, SMALL)) * line_height(SMALL) + 2.0
    left = pen.left_over - _heading_height(pen, figure.title, HEADING) - beside - 0.5
    if SMALLEST * height <= left < height:
        width, height = width * left / height, left
    _heading(pen, figure.title, height + beside)
    pen.picture(image, width, height, figure.title)
    pen.y += 1.0
    pen.paragraph(figure.caption, SMALL)
    pen.y += 1.0
    if isinstance(figure.words, Table):
        pen.room(first_height(pen, figure.words))
        write_table(pen, figure.words)
    else:
        _items(pen, figure.words.items)


def _image(figure: Figure) -> Any:
    """The picture in few colours: its greys and its edges need no more."""
    from PIL import Image

    content = drawn(figure.draw, figure.title, ".png", RESOLUTION)
    return Image.open(io.BytesIO(content)).convert("RGB").quantize(COLOURS).convert("RGB")


def _blanks(pen: Pen, blanks: Blanks) -> None:
    """Boxes to write in, and lines under them."""
    below = (BLANK_HEIGHT + 2.0) * len(blanks.lines)
    height = line_height(BODY) + BLANK_HEIGHT * len(blanks.rows) + below
    _heading(pen, blanks.title, height)
    first = 22.0
    width = (pen.width - first) / len(blanks.columns)
    for number, title in enumerate(blanks.columns):
        pen.write(LEFT + first + number * width + 1.0, pen.y, title, BODY, bold=True)
    pen.y += line_height(BODY) + 0.5
    for name in blanks.rows:
        pen.write(LEFT, pen.y + 0.5 * (BLANK_HEIGHT - line_height(BODY)), name, BODY)
        for number in range(len(blanks.columns)):
            pen.box(LEFT + first + number * width, width, BLANK_HEIGHT)
        pen.y += BLANK_HEIGHT
    for text in blanks.lines:
        pen.y += 2.0
        pen.paragraph(text, BODY)
        pen.y += 6.5
        pen.line_to(LEFT + LINE_LENGTH)
