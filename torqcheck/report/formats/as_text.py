"""A sheet as plain text for e-mail, logs and files: 80 columns, no colour, no boxes."""

from torqcheck.report.formats.layout import header_lines, note_lines, row_lines, table_gap, wrapped
from torqcheck.report.sheet import Sheet, Table
from torqcheck.report.words import VERDICT_WORDS

__all__ = ["as_text"]


def as_text(sheet: Sheet, width: int = 80) -> str:
    """Render a sheet as plain text of at most `width` columns."""
    lines = [line for text in (sheet.title, *sheet.about) for line in wrapped(text, width)]
    if sheet.verdict is not None:
        lines += ["", f"{sheet.verdict_title.upper()}: {VERDICT_WORDS[sheet.verdict]}"]
    lines += [line for words in sheet.words for line in wrapped(words, width)]
    for part in sheet.parts:
        title = wrapped(part.title, width)
        lines += ["", *title, "=" * max(len(line) for line in title)]
        lines += _table(part, width) if isinstance(part, Table) else note_lines(part, width)
    if sheet.closing:
        lines += ["", *(line for closing in sheet.closing for line in wrapped(closing, width))]
    return "\n".join(lines) + "\n"


def _table(table: Table, width: int) -> list[str]:
    widths, gap = table_gap(table, width)
    lines = header_lines(table, widths, gap)
    for row in table.rows:
        lines += row_lines(row, table.columns, widths, gap)
    return [*lines, *wrapped(table.legend, width)] if table.legend else lines
