"""`torqcheck materials`: the tables of steels."""

from typing import Annotated

import typer

from torqcheck.cli.completing import steel_names
from torqcheck.cli.options import Format, FormatOption, OutOption, PlainOption, emit, terminal

__all__ = ["materials"]


def materials(
    name: Annotated[
        str,
        typer.Argument(
            help="One steel in full, or part of a name.", show_default=False, autocompletion=steel_names
        ),
    ] = "",
    harder_than: Annotated[
        float,
        typer.Option(
            "--harder-than",
            metavar="HB",
            help="Only flanks at least this hard (Brinell).",
            show_default=False,
        ),
    ] = 0.0,
    format: FormatOption = Format.table,
    out: OutOption = None,
    plain: PlainOption = False,
) -> None:
    r"""List the steels of the tables, or show one in full with its notes and source.

    \b
    torqcheck materials
    torqcheck materials 4140
    torqcheck materials 4140_QT425
    torqcheck materials --harder-than 300
    """
    from torqcheck.report.steels import steel_data, steel_sheet

    if format in {Format.json, Format.csv}:
        from torqcheck.report.formats.as_csv import rows_as_csv
        from torqcheck.report.formats.as_json import as_json

        data = steel_data(name, harder_than)
        emit(as_json({"steels": data}) if format is Format.json else rows_as_csv(data), out)
        return
    emit(terminal(steel_sheet(name, harder_than), format, out=out, plain=plain), out)
