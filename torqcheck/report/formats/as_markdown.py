"""A sheet as Markdown, for a build log or a repository."""

import re

from torqcheck.report.sheet import Note, Sheet, Table
from torqcheck.report.words import VERDICT_WORDS

__all__ = ["as_markdown"]

_MARKUP = re.compile(r"[\\|*_<>`#\[\]~&@]|:(?=//)|(?<=www)\.", re.IGNORECASE)
"""What would be read as markup, as an entity, or as an address that becomes a link by itself."""


def as_markdown(sheet: Sheet) -> str:
    """Render a sheet as Markdown with pipe tables."""
    lines = [f"# {_escaped(sheet.title)}", "", *(_escaped(line) + "  " for line in sheet.about)]
    words = " ".join(_escaped(word) for word in sheet.words)
    if sheet.verdict is not None:
        lines += ["", f"**{sheet.verdict_title}: {VERDICT_WORDS[sheet.verdict]}.** {words}"]
    elif words:
        lines += ["", words]
    for part in sheet.parts:
        lines += ["", f"## {_escaped(part.title)}", ""]
        lines += _table(part) if isinstance(part, Table) else _note(part)
    lines += ["", *(_escaped(line) + "  " for line in sheet.closing)]
    return "\n".join(lines).rstrip() + "\n"


def _escaped(text: str) -> str:
    return _MARKUP.sub(r"\\\g<0>", text)


def _table(table: Table) -> list[str]:
    titles = [column.title or " " for column in table.columns]
    rules = ["---:" if column.align == "right" else "---" for column in table.columns]
    lines = [f"| {' | '.join(_escaped(t) for t in titles)} |", f"| {' | '.join(rules)} |"]
    lines += [f"| {' | '.join(_escaped(cell) for cell in row)} |" for row in table.rows]
    return [*lines, "", _escaped(table.legend)] if table.legend else lines


def _note(note: Note) -> list[str]:
    return [f"- {_escaped(item)}" for item in note.items]
