"""`torqcheck record`: is a build record as it was written, and what changed between two checks."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from torqcheck.cli.help_page import HelpPage
from torqcheck.cli.options import Format, FormatOption, OutOption, PlainOption, emit, terminal
from torqcheck.errors import UsageError

if TYPE_CHECKING:
    from torqcheck.report.sheet import Sheet

__all__ = ["record"]

record = typer.Typer(
    help="Look after a build record, the folder that torqcheck assess --record writes to.",
    rich_markup_mode=None,
    no_args_is_help=True,
)


@record.command(
    cls=HelpPage,
    short_help="find any entry that was altered, taken away, added or moved",
    help="""Find any entry of a build record that was altered, taken away, added or moved.

\b
torqcheck record verify my_build
torqcheck record verify my_build --head 3fa9c1d2

Exit codes: 0 as it was written, 1 not as it was written, 2 no record, 4 could not finish.""",
)
def verify(
    folder: Annotated[Path, typer.Argument(metavar="FOLDER", help="The record.", show_default=False)],
    head: Annotated[
        str,
        typer.Option("--head", metavar="HASH", help="Hash that a printout states, or its first 8 digits."),
    ] = "",
    format: FormatOption = Format.table,
    out: OutOption = None,
    plain: PlainOption = False,
) -> None:
    """Find whatever is not as it was written."""
    from torqcheck.record import verify as verify_record
    from torqcheck.report.record import verified_sheet, verified_to_dict

    found = verify_record(folder, _hash(head))
    _show(verified_to_dict(found), verified_sheet(found, folder), format, out, plain)
    if out is not None:
        print(f"{'sound' if found.sound else 'not sound'}: written to {out}", file=sys.stderr)
    raise typer.Exit(0 if found.sound else 1)


@record.command(
    cls=HelpPage,
    short_help="what changed between two checks: inputs, verdicts, factors, lash",
    help="""Show what changed between two checks: inputs, verdicts, safety factors, lash.

\b
torqcheck record diff my_build/0001 my_build/0003
torqcheck record diff my_build/0001 my_build      (to its newest entry)

Exit codes: 0 answered, 2 no such entry, 4 could not finish.""",
)
def diff(
    before: Annotated[Path, typer.Argument(metavar="A", help="The older entry.", show_default=False)],
    after: Annotated[Path, typer.Argument(metavar="B", help="The newer entry.", show_default=False)],
    format: FormatOption = Format.table,
    out: OutOption = None,
    plain: PlainOption = False,
) -> None:
    """Compare two entries."""
    from torqcheck.record import difference
    from torqcheck.report.record import difference_sheet

    found = difference(before, after)
    _show(found.to_dict(), difference_sheet(found), format, out, plain)
    if out is not None:
        print(f"record diff: written to {out}", file=sys.stderr)
    raise typer.Exit(0)


def _hash(written: str) -> str:
    """Refuse what cannot be the beginning of a hash."""
    if written and (len(written) < 8 or len(written) > 64 or set(written.lower()) - set("0123456789abcdef")):
        raise UsageError(f"--head {written[:70]!r} is no hash; write at least its first 8 digits (0-9, a-f)")
    return written


def _show(data: dict[str, Any], sheet: "Sheet", form: Format, out: Path | None, plain: bool) -> None:
    """Print or write what was found."""
    if form is Format.csv:
        raise UsageError("--format csv: there is no single table here; use json")
    if form is Format.json:
        from torqcheck.report.formats.as_json import as_json

        emit(as_json(data), out)
    else:
        emit(terminal(sheet, form, out=out, plain=plain), out)
