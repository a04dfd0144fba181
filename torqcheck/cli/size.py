"""`torqcheck size`: solve for one unknown of a joint so that all targets hold."""

import sys
from enum import StrEnum
from typing import TYPE_CHECKING, Annotated

import typer

from torqcheck.cli.completing import joint_names, unknown_names
from torqcheck.cli.options import (
    Format,
    FormatOption,
    OutOption,
    PlainOption,
    ScenarioArgument,
    Units,
    UnitsOption,
    columns,
    emit,
    encoding_of,
    shown_system,
    sources_of,
    terminal,
)

if TYPE_CHECKING:
    from pathlib import Path

    from torqcheck.assessment.size.result import Size

__all__ = ["size"]

PLOT_WIDTH = 80


class SideChoice(StrEnum):
    """Parts of a joint."""

    external = "external"
    internal = "internal"
    both = "both"


def size(
    scenario: ScenarioArgument,
    joint: Annotated[
        str | None,
        typer.Option(
            "--joint",
            metavar="NAME",
            help="The joint, by name or number; the only splined one if not given.",
            autocompletion=joint_names,
            show_default=False,
        ),
    ] = None,
    find: Annotated[
        str,
        typer.Option(
            "--find",
            metavar="WHAT",
            help="engagement, teeth, pitch, hardness, bore, outside-diameter, lash, tilt, torque-rise or "
            "motor-torque.",
            autocompletion=unknown_names,
        ),
    ] = "engagement",
    side: Annotated[
        SideChoice | None,
        typer.Option(
            "--side", help="Of the shaft, the hub or both; with --find hardness.", show_default=False
        ),
    ] = None,
    path: Annotated[
        bool, typer.Option("--path", help="Every joint of the path must pass, not this one alone.")
    ] = False,
    units: UnitsOption = Units.both,
    format: FormatOption = Format.table,
    out: OutOption = None,
    plain: PlainOption = False,
) -> None:
    r"""Solve for one unknown of a joint so that all targets hold.

    \b
    torqcheck size scenarios/works_trolley.toml --joint "gearbox input"
    torqcheck size my.toml --joint hub --find hardness --side internal
    torqcheck size my.toml --joint hub --find teeth
    torqcheck size my.toml --joint hub --find lash --format json

    The whole range is scanned, each value by the checks of assess; lengths are rounded to the safe side.
    What the unknown does not change is set aside and named.
    Exit codes: 0 a value is found and the joint passes with it, 1 no value makes it pass, 2 bad input,
    4 could not finish.
    """
    from torqcheck.assessment.size.solve import size as size_of
    from torqcheck.cli.following import Following

    with Following("scenarios tried") as follow:
        found = size_of(
            scenario, joint, find, None if side is None else side.value, whole_path=path, progress=follow
        )
    emit(_content(found, units, format, out, plain), out, made_from=sources_of(scenario, found))
    if out is not None:
        print(f"size: written to {out}", file=sys.stderr)
    raise typer.Exit(0 if found.passes else 1)


def _content(found: "Size", units: Units, form: Format, out: "Path | None", plain: bool) -> str:
    """Render the answer."""
    if form is Format.json:
        from torqcheck.report.formats.as_json import as_json

        return as_json(found.to_dict())
    from torqcheck.report.size import curve_rows, size_sheet

    if form is Format.csv:
        from torqcheck.report.formats.as_csv import rows_as_csv

        return rows_as_csv(curve_rows(found))
    if form is Format.markdown:
        return terminal(size_sheet(found, units.value), form, out=out, plain=plain)
    from torqcheck.report.plots.size_plot import size_plots

    encoding = encoding_of(form, out)
    plots = size_plots(
        found, shown_system(units), width=min(columns(form, out), PLOT_WIDTH), encoding=encoding
    )
    return terminal(size_sheet(found, units.value, plots), form, out=out, plain=plain)
