"""`torqcheck stack`: engagement, gaps and shims along the axis, cold and in service."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from torqcheck.cli.options import (
    FIGURE_ENDINGS,
    VERDICT_CODES,
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
    refuse_same_file,
    refuse_wrong_ending,
    shown_system,
    sources_of,
    terminal,
)

if TYPE_CHECKING:
    from torqcheck.assessment.stack.finding import StackFinding

__all__ = ["stack"]

PLOT_WIDTH = 80


def stack(
    scenario: ScenarioArgument,
    figure: Annotated[
        Path | None,
        typer.Option(
            "--figure", metavar="FILE", help="Draw section and ranges to .svg or .png.", show_default=False
        ),
    ] = None,
    units: UnitsOption = Units.both,
    format: FormatOption = Format.table,
    out: OutOption = None,
    plain: PlainOption = False,
    strict: Annotated[bool, typer.Option("--strict", help="A marginal result gives exit code 1.")] = False,
) -> None:
    r"""Add up the lengths along the axis: engagement, room to seal and plug, shims, cold and hot.

    \b
    torqcheck stack scenarios/glasshouse_tug.toml
    torqcheck stack my.toml --figure section.svg
    torqcheck stack my.toml --format json | python -m json.tool

    The lengths stand in the [stack] of the scenario. The worst case decides.
    Exit codes: 0 pass or marginal (--strict: marginal gives 1), 1 something touches or comes apart,
    2 bad input, 3 a temperature or a material is missing that could overturn it, 4 could not finish.
    """
    refuse_wrong_ending("figure", figure, FIGURE_ENDINGS)
    refuse_same_file(figure=figure, out=out)
    from torqcheck.assessment.stack.judge import stack as stack_of

    found = stack_of(scenario)
    content = _content(found, units, format, out, plain)
    if figure is not None:
        from torqcheck.report.plots.stack_figure import stack_figure_words, write_stack_figure

        write_stack_figure(figure, found, shown_system(units))
        print(stack_figure_words(found, figure), file=sys.stderr)
    emit(content, out, made_from=sources_of(scenario, found))
    if out is not None:
        print(f"{found.verdict}: written to {out}", file=sys.stderr)
    raise typer.Exit(1 if strict and found.verdict == "marginal" else VERDICT_CODES[found.verdict])


def _content(found: "StackFinding", units: Units, form: Format, out: Path | None, plain: bool) -> str:
    """Render the answer."""
    if form is Format.json:
        from torqcheck.report.formats.as_json import as_json

        return as_json(found.to_dict())
    if form is Format.csv:
        from torqcheck.report.formats.as_csv import rows_as_csv
        from torqcheck.report.stack.stack import stack_rows

        return rows_as_csv(stack_rows(found))
    from torqcheck.report.stack.stack import drawings, stack_sheet

    if form is Format.markdown:
        # the tables say what the drawings show
        return terminal(stack_sheet(found, units.value, all_rows=True), form, out=out, plain=plain)
    pictures = drawings(
        found.check,
        shown_system(units),
        width=min(columns(form, out), PLOT_WIDTH),
        encoding=encoding_of(form, out),
    )
    return terminal(stack_sheet(found, units.value, pictures), form, out=out, plain=plain)
