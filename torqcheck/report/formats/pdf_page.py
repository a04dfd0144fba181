"""Pages of a PDF: a pen that moves down, breaks pages where they end, and writes the foot of each."""

import datetime
import re
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from torqcheck.report.formats.as_html import Paper
from torqcheck.report.formats.letters import font_files, font_letters, legible

if TYPE_CHECKING:
    from fpdf import FPDF

__all__ = ["LEFT", "Pen", "line_height"]

LEFT, RIGHT, TOP, BOTTOM = 16.0, 16.0, 14.0, 20.0
"""Margins, mm; the foot stands in the lower one."""
FOOT_SIZE, PAGE_NUMBER_ROOM = 6.5, 24.0
FONT = "DejaVu"
COUNT = "\ue000" * 4
"""Stands for the number of pages until it is known; no text can hold it, see `Pen.shown`."""
_POINT = 25.4 / 72.0
_PIECE = re.compile(r"\[U\+[0-9A-F]{4,6}\]|.", re.DOTALL)
"""A letter, or one that is written by its number, which is not parted."""
_SPACING = 1.32
UNDATED = datetime.datetime(2000, 1, 1, tzinfo=datetime.UTC)
"""Stands as the date of creation where the scenario has none: the same input gives the same bytes."""


def line_height(size: float) -> float:
    """Height of a line of text of a size in points, mm."""
    return size * _POINT * _SPACING


class Pen:
    """
    Writes down a page and from page to page; `y` is where the next thing begins, mm from the top.

    Parameters
    ----------
    paper : str
        ``a4`` or ``letter``.
    foot : sequence of str
        Lines at the foot of every page, beside the number of the page.
    title, producer : str
        Data about the file.
    date : date or None
        Date of creation.
    """

    def __init__(
        self, paper: Paper, foot: Sequence[str], *, title: str, producer: str, date: datetime.date | None
    ) -> None:
        self.pdf = _document(paper)
        self._widths: dict[tuple[str, bool], float] = {}
        self.pdf.set_title(self.shown(title))
        self.pdf.set_creator(producer)
        self.pdf.set_producer(producer)
        self.pdf.set_lang("en")
        self.pdf.set_creation_date(
            UNDATED
            if date is None
            else datetime.datetime(date.year, date.month, date.day, tzinfo=datetime.UTC)
        )
        self._foot = tuple(foot)
        self.right = self.pdf.w - RIGHT
        self.bottom = self.pdf.h - BOTTOM
        self.width = self.right - LEFT
        self.y = TOP
        self.new_page()

    @property
    def left_over(self) -> float:
        """Height that is left on this page."""
        return self.bottom - self.y

    @property
    def at_top(self) -> bool:
        """Nothing stands on this page yet."""
        return self.y <= TOP

    @property
    def tallest(self) -> float:
        """Height of an empty page."""
        return self.bottom - TOP

    def new_page(self) -> None:
        """Begin a page and write its foot."""
        self.pdf.add_page()
        self.y = TOP
        below = self.pdf.h - BOTTOM + 5.0
        self._line(LEFT, below - 1.0, self.right)
        room = self.width - PAGE_NUMBER_ROOM
        lines = [line for text in self._foot for line in self.lines(text, room, FOOT_SIZE)]
        for number, line in enumerate(lines[:3]):
            self.write(LEFT, below + number * line_height(FOOT_SIZE), line, FOOT_SIZE)
        # the count is not known yet; two digits are as wide as it gets
        shown = self.measure(f"page {self.pdf.page_no()} of 00", FOOT_SIZE)
        self.write(self.right - shown, below, f"page {self.pdf.page_no()} of {COUNT}", FOOT_SIZE)

    def room(self, height: float) -> None:
        """Go to a new page unless so much is left on this one."""
        if height > self.left_over and not self.at_top:
            self.new_page()

    def shown(self, text: str) -> str:
        """Return a text as the font can show it: a letter that it lacks is written by its number."""
        return legible(text, font_letters())

    def measure(self, text: str, size: float, bold: bool = False) -> float:
        """Width of a text in mm."""
        return size * sum(self._width(letter, bold) for letter in text)

    def _width(self, letter: str, bold: bool) -> float:
        known = self._widths.get((letter, bold))
        if known is None:
            self._font(10.0, bold)
            known = self._widths[letter, bold] = self.pdf.get_string_width(letter) / 10.0
        return known

    def lines(self, text: str, width: float, size: float, bold: bool = False) -> list[str]:
        """Break a text into lines of at most `width`; a word that is wider is broken where it must be."""
        lines: list[str] = []
        for piece in text.splitlines() or [""]:
            line = ""
            for word in self.shown(piece).split():
                longer = f"{line} {word}" if line else word
                if self.measure(longer, size, bold) <= width:
                    line = longer
                    continue
                if line:
                    lines.append(line)
                *full, line = self._broken(word, width, size, bold)
                lines += full
            lines.append(line)
        return lines

    def _broken(self, word: str, width: float, size: float, bold: bool) -> list[str]:
        """A word in pieces of at most `width`."""
        pieces, piece, used = [], "", 0.0
        for letter in _PIECE.findall(word):
            wide = self.measure(letter, size, bold)
            if piece and used + wide > width:
                pieces.append(piece)
                piece, used = "", 0.0
            piece, used = piece + letter, used + wide
        return [*pieces, piece]

    def write(self, x: float, y: float, text: str, size: float, bold: bool = False) -> None:
        """Write one line whose top is at `y`."""
        if text:
            self._font(size, bold)
            self.pdf.set_xy(x, y)
            self.pdf.cell(text=text, h=line_height(size))

    def paragraph(self, text: str, size: float, *, bold: bool = False, indent: float = 0.0) -> None:
        """Write a text across the page, a line after the other."""
        height = line_height(size)
        for line in self.lines(text, self.width - indent, size, bold):
            self.room(height)
            self.write(LEFT + indent, self.y, line, size, bold)
            self.y += height

    def rule(self) -> None:
        """Draw a line across the page."""
        self._line(LEFT, self.y, self.right)

    def line_to(self, right: float, grey: int = 0) -> None:
        """Draw a line from the left margin."""
        self._line(LEFT, self.y, right, grey)

    def _line(self, left: float, y: float, right: float, grey: int = 0) -> None:
        self.pdf.set_draw_color(grey)
        self.pdf.set_line_width(0.2)
        self.pdf.line(left, y, right, y)

    def box(self, x: float, width: float, height: float) -> None:
        """Draw a frame whose top is at the pen."""
        self.pdf.set_draw_color(60)
        self.pdf.set_line_width(0.2)
        self.pdf.rect(x, self.y, width, height)

    def picture(self, image: Any, width: float, height: float, words: str) -> None:
        """Put a picture under the pen."""
        self.pdf.image(image, LEFT, self.y, width, height, alt_text=self.shown(words))
        self.y += height

    def content(self) -> bytes:
        """The whole file."""
        return bytes(self.pdf.output())

    def _font(self, size: float, bold: bool) -> None:
        self.pdf.set_font(FONT, "B" if bold else "", size)


def _document(paper: Paper) -> "FPDF":
    """An empty document with the fonts that travel with matplotlib; only the letters used are embedded."""
    from fpdf import FPDF

    pdf = FPDF(unit="mm", format="A4" if paper == "a4" else "letter")
    pdf.set_auto_page_break(False)
    pdf.set_margin(0.0)
    pdf.c_margin = 0.0
    pdf.alias_nb_pages(COUNT)
    for style, file in zip(("", "B"), font_files(), strict=True):
        pdf.add_font(FONT, style, file)
    return pdf
