"""Options that several commands share, written once; and the way out for what they print."""

import os
import sys
from collections.abc import Sequence
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from torqcheck.errors import OutputError, UsageError

if TYPE_CHECKING:
    from torqcheck.assessment.verdict.answered import Answered
    from torqcheck.report.sheet import Sheet
    from torqcheck.units import System

__all__ = [
    "DXF_ENDINGS",
    "FIGURE_ENDINGS",
    "INTERRUPTED",
    "VERDICT_CODES",
    "DxfOption",
    "Format",
    "FormatOption",
    "OutOption",
    "PlainOption",
    "ScenarioArgument",
    "Units",
    "UnitsOption",
    "columns",
    "emit",
    "encoding_of",
    "refuse_same_file",
    "refuse_wrong_ending",
    "shown_system",
    "sources_of",
    "terminal",
]

NARROW, WIDE = 80, 120
INTERRUPTED = 130
"""Exit code of what a person broke off."""
DXF_ENDINGS = (".dxf",)
FIGURE_ENDINGS = (".svg", ".png")
VERDICT_CODES = {"pass": 0, "marginal": 0, "undecided": 3, "fail": 1}
"""Exit code of a whole check."""


class Units(StrEnum):
    """Unit systems for tables."""

    si = "si"
    inch = "inch"
    both = "both"


SYSTEMS: "dict[Units, tuple[System, ...]]" = {
    Units.si: ("si",),
    Units.inch: ("inch",),
    Units.both: ("si", "inch"),
}
"""What the tables show, the leading system first."""


class Format(StrEnum):
    """Forms of the result."""

    table = "table"
    text = "text"
    markdown = "markdown"
    json = "json"
    csv = "csv"


ScenarioArgument = Annotated[
    Path, typer.Argument(metavar="SCENARIO", help="The scenario file (TOML).", show_default=False)
]
UnitsOption = Annotated[
    Units, typer.Option("--units", help="Units of the tables; JSON and CSV are always SI.")
]
FormatOption = Annotated[Format, typer.Option("--format", help="Form of the result.")]
OutOption = Annotated[
    Path | None,
    typer.Option("--out", metavar="FILE", help="Write to a file instead.", show_default=False),
]
DxfOption = Annotated[
    Path | None,
    typer.Option(
        "--dxf", metavar="FILE", help="Outline, tooth space and pins to a .dxf file, mm.", show_default=False
    ),
]
PlainOption = Annotated[bool, typer.Option("--plain", help="No colour.")]


def sources_of(scenario: Path, found: "Answered") -> tuple[Path, ...]:
    """The files that a result was made from: nothing is ever written over them."""
    record = found.duty_file
    return (scenario,) if record is None else (scenario, scenario.parent / record.file)


def refuse_same_file(**outputs: Path | None) -> None:
    """Refuse two outputs into one file."""
    seen: dict[Path, str] = {}
    for name, path in outputs.items():
        if path is None:
            continue
        option = f"--{name.replace('_', '-')}"
        other = seen.setdefault(Path(os.path.realpath(path)), option)
        if other != option:
            raise UsageError(f"{other} and {option} name the same file: give each its own")


def refuse_wrong_ending(option: str, path: Path | None, endings: Sequence[str]) -> None:
    """Refuse a file whose name does not say what it will hold."""
    if path is not None and path.suffix.lower() not in endings:
        raise UsageError(f"--{option}: {str(path)[:120]!r} must end in {' or '.join(endings)}")


def emit(content: str, out: Path | None, *, made_from: Sequence[Path] = ()) -> None:
    """Print a result, or write it to a file whole; never over the files that it was made from."""
    if out is None:
        _print(content)
        return
    from torqcheck.report.formats.files import write_whole

    write_whole(out, content, keep=made_from)


def _print(content: str) -> None:
    """Write to standard output; what goes wrong there is no defect of ours."""
    if sys.stdout is None:
        raise OutputError("standard output is closed")
    try:
        sys.stdout.write(content)
        sys.stdout.flush()
    except OSError as error:
        # nothing more can be printed, so that the interpreter must not try on its way out
        sys.stdout = None
        raise OutputError(f"standard output: cannot be written: {error.strerror or error}") from error


def columns(form: Format, out: Path | None) -> int:
    """Width to lay out for: that of the terminal, 80 where there is none, never beyond easy reading."""
    if form is not Format.table or out is not None or not _on_terminal():
        return NARROW
    import shutil

    return max(60, min(shutil.get_terminal_size((NARROW, 24)).columns, WIDE))


def encoding_of(form: Format, out: Path | None) -> str:
    """Letters that the place of printing can show; files and pipes get plain ASCII."""
    if form is not Format.table or out is not None or not _on_terminal():
        return "ascii"
    return sys.stdout.encoding or "ascii"


def shown_system(units: Units) -> "System":
    """System of a plot, which has room for one."""
    return "inch" if units is Units.inch else "si"


def terminal(sheet: "Sheet", form: Format, *, out: Path | None, plain: bool) -> str:
    """Render a sheet as a table for the terminal, as plain text or as Markdown."""
    if form is Format.markdown:
        from torqcheck.report.formats.as_markdown import as_markdown

        return as_markdown(sheet)
    if form is Format.text:
        from torqcheck.report.formats.as_text import as_text

        return as_text(sheet, NARROW)
    from torqcheck.report.formats.as_terminal import as_terminal

    return as_terminal(sheet, width=columns(form, out), colour=_colour(plain, out))


def _colour(plain: bool, out: Path | None) -> bool:
    """Colour only on a terminal, and never against the user's wish."""
    unwanted = plain or out is not None or "NO_COLOR" in os.environ or os.environ.get("TERM") == "dumb"
    return not unwanted and _on_terminal()


def _on_terminal() -> bool:
    """Whether standard output is there and is a terminal."""
    return sys.stdout is not None and sys.stdout.isatty()
