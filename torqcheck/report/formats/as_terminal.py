"""A sheet on a terminal: the plain layout with bold headings; colour only repeats what the words say."""

from collections.abc import Iterator
from dataclasses import dataclass

from torqcheck.checks import Verdict
from torqcheck.report.formats.layout import header_lines, note_lines, row_lines, table_gap, wrapped
from torqcheck.report.sheet import Sheet, Table
from torqcheck.report.words import VERDICT_WORDS

__all__ = ["as_terminal"]

STYLES: dict[Verdict, str] = {"pass": "green", "marginal": "yellow", "undecided": "magenta", "fail": "red"}


@dataclass(frozen=True, slots=True)
class _Line:
    """One line, the style of the whole of it, and the verdict whose word in it is coloured."""

    text: str
    style: str = ""
    verdict: Verdict | None = None


def as_terminal(sheet: Sheet, *, width: int, colour: bool) -> str:
    """Render a sheet for a terminal of `width` columns; the escape codes only if `colour`."""
    lines = list(_lines(sheet, width))
    if not colour:
        return "".join(f"{line.text}\n" for line in lines)
    return _coloured(lines, width)


def _coloured(lines: list[_Line], width: int) -> str:
    """Render with escape codes; rich is loaded here, because a pipe has no use for it."""
    import io

    from rich.console import Console
    from rich.text import Text

    stream = io.StringIO()
    console = Console(
        file=stream, width=width, force_terminal=True, color_system="standard", legacy_windows=False
    )
    for line in lines:
        text = Text(line.text, style=line.style)
        if line.verdict is not None:
            text.highlight_words([VERDICT_WORDS[line.verdict]], style=STYLES[line.verdict])
        console.print(text, soft_wrap=True)
    return stream.getvalue()


def _lines(sheet: Sheet, width: int) -> Iterator[_Line]:
    """Every line of the sheet with its style."""
    yield from (_Line(line, "bold") for line in wrapped(sheet.title, width))
    yield from _plain(sheet.about, width)
    if sheet.verdict is not None:
        yield _Line("")
        words = f"{sheet.verdict_title.upper()}: {VERDICT_WORDS[sheet.verdict]}"
        yield _Line(words, f"bold {STYLES[sheet.verdict]}")
    yield from _plain(sheet.words, width)
    for part in sheet.parts:
        yield _Line("")
        yield from (_Line(line, "bold") for line in wrapped(part.title, width))
        if isinstance(part, Table):
            yield from _table(part, width)
        else:
            yield from (_Line(line) for line in note_lines(part, width))
    if sheet.closing:
        yield _Line("")
        yield from _plain(sheet.closing, width)


def _plain(texts: tuple[str, ...], width: int) -> Iterator[_Line]:
    for text in texts:
        yield from (_Line(line) for line in wrapped(text, width))


def _table(table: Table, width: int) -> Iterator[_Line]:
    widths, gap = table_gap(table, width)
    yield from (_Line(line, "bold") for line in header_lines(table, widths, gap))
    for index, row in enumerate(table.rows):
        verdict = table.verdicts[index] if table.verdicts else None
        yield from (_Line(line, "", verdict) for line in row_lines(row, table.columns, widths, gap))
    if table.legend:
        yield from _plain((table.legend,), width)
