"""The printout as plain text and as Markdown: figures in words, blanks as lines to write on."""

from torqcheck.report.formats.as_markdown import as_markdown
from torqcheck.report.formats.as_text import as_text
from torqcheck.report.sheet import Blanks, Column, Fields, Figure, Note, Part, Printout, Sheet, Table

__all__ = ["printout_as_markdown", "printout_as_text"]

LINE = "_" * 12


def printout_as_text(printout: Printout, width: int = 80) -> str:
    """Render a printout as plain text of at most `width` columns."""
    return as_text(_plain(printout), width)


def printout_as_markdown(printout: Printout) -> str:
    """Render a printout as Markdown."""
    return as_markdown(_plain(printout))


def _plain(printout: Printout) -> Sheet:
    """Tables and notes alone."""
    return Sheet(
        title=printout.title,
        about=tuple(
            f"{name}: {line}" if first == 0 else f"  {line}"
            for name, text in printout.record.rows[1:]
            for first, line in enumerate(text.splitlines() or [""])
        ),
        verdict=printout.verdict,
        words=printout.words,
        parts=tuple(plain for part in printout.parts for plain in _part(part)),
        closing=(*printout.closing, *printout.foot),
    )


def _part(part: Part) -> tuple[Table | Note, ...]:
    if isinstance(part, Figure):
        return (_figure(part),)
    if isinstance(part, Fields):
        return (Table(part.title, (Column(""), Column("")), part.rows),)
    if isinstance(part, Blanks):
        return (_blanks(part),)
    return (part,)


def _figure(figure: Figure) -> Table | Note:
    """What a figure shows, without the picture."""
    words = figure.words
    if isinstance(words, Note):
        return Note(f"Figure in words: {figure.title}", words.items)
    return Table(
        f"Figure in numbers: {figure.title}", words.columns, words.rows, words.verdicts, words.legend
    )


def _blanks(blanks: Blanks) -> Table:
    """A table to write in."""
    columns = (Column(""), *(Column(title) for title in blanks.columns))
    rows = tuple((name, *(LINE for _ in blanks.columns)) for name in blanks.rows)
    legend = " ".join(f"{line} {LINE}" for line in blanks.lines)
    return Table(blanks.title, columns, rows, legend=legend)
