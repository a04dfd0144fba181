"""`torqcheck ramp`: the largest torque rise that keeps the targets."""

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
    from torqcheck.assessment.ramp.result import Ramp
    from torqcheck.report.sheet import Table
    from torqcheck.units import System

__all__ = ["ramp"]

PLOT_WIDTH = 80


def ramp(
    scenario: ScenarioArgument,
    trace: Annotated[
        bool, typer.Option("--trace", help="Show the torque over time as recommended and as set.")
    ] = False,
    figure: Annotated[
        Path | None,
        typer.Option("--figure", metavar="FILE", help="Draw the curve to .svg or .png.", show_default=False),
    ] = None,
    trace_figure: Annotated[
        Path | None,
        typer.Option(
            "--trace-figure",
            metavar="FILE",
            help="Draw the torque over time as recommended to .svg or .png.",
            show_default=False,
        ),
    ] = None,
    units: UnitsOption = Units.both,
    format: FormatOption = Format.table,
    out: OutOption = None,
    plain: PlainOption = False,
) -> None:
    r"""Find the largest torque rise of the controller that keeps the targets.

    \b
    torqcheck ramp scenarios/vineyard_carrier.toml
    torqcheck ramp my.toml --figure curve.svg --trace
    torqcheck ramp my.toml --format json | python -m json.tool

    The setting holds together with every slower one, in 95 of 100 draws of what is uncertain. Verdict and
    exit code are those of the settings that are recommended, not of those in the file.
    Exit codes: 0 a setting is found and all else passes or is marginal, 1 even the slowest ramp fails
    or something fails that no ramp mends, 2 bad input, 3 readings are missing that could overturn the
    answer, 4 could not finish.
    """
    refuse_wrong_ending("figure", figure, FIGURE_ENDINGS)
    refuse_wrong_ending("trace-figure", trace_figure, FIGURE_ENDINGS)
    refuse_same_file(figure=figure, trace_figure=trace_figure, out=out)
    from torqcheck.assessment.ramp.advise import ramp as ramp_of
    from torqcheck.cli.following import waiting

    with waiting("ramp"):
        found = ramp_of(scenario)
    content = _content(found, units, format, out, plain, trace)
    _draw(found, units, figure, trace_figure)
    emit(content, out, made_from=sources_of(scenario, found))
    if out is not None:
        print(f"{found.verdict}: written to {out}", file=sys.stderr)
    raise typer.Exit(VERDICT_CODES[found.verdict])


def _content(found: "Ramp", units: Units, form: Format, out: Path | None, plain: bool, trace: bool) -> str:
    """Render the answer."""
    if form is Format.json:
        from torqcheck.report.formats.as_json import as_json

        return as_json(found.to_dict())
    if form is Format.csv:
        from torqcheck.report.formats.as_csv import rows_as_csv
        from torqcheck.report.ramp import curve_rows

        return rows_as_csv(curve_rows(found))
    from torqcheck.report.ramp import ramp_sheet

    if form is Format.markdown:
        # the table says what the plots show
        return terminal(ramp_sheet(found, units.value), form, out=out, plain=plain)
    plots = _plots(found, shown_system(units), form, out, trace)
    return terminal(ramp_sheet(found, units.value, plots), form, out=out, plain=plain)


def _plots(
    found: "Ramp", system: "System", form: Format, out: Path | None, trace: bool
) -> "tuple[Table, ...]":
    """Draw with what the place of printing can show."""
    from torqcheck.report.plots.ramp_plot import curve_plots, plot_table

    encoding = encoding_of(form, out)
    width = columns(form, out)
    plots = curve_plots(found, system, width=min(width, PLOT_WIDTH), encoding=encoding)
    if not trace:
        return plots
    from torqcheck.report.plots.ramp_trace import ramp_pictures
    from torqcheck.report.plots.trace_plot import terminal_trace

    traces = (
        plot_table(
            f"Torque over time, {picture.title}",
            terminal_trace(picture, width=min(width, PLOT_WIDTH), encoding=encoding, system=system),
        )
        for picture in ramp_pictures(found)
    )
    return *plots, *traces


def _draw(found: "Ramp", units: Units, figure: Path | None, trace_figure: Path | None) -> None:
    """Write the figures that are wanted, and say what they show."""
    if figure is not None:
        from torqcheck.report.plots.ramp_plot import curve_words, write_curve_figure

        write_curve_figure(figure, found, shown_system(units))
        print(curve_words(found, figure), file=sys.stderr)
    if trace_figure is not None:
        from torqcheck.report.plots.ramp_trace import ramp_pictures
        from torqcheck.report.plots.trace_plot import trace_words, write_trace_figure

        picture = ramp_pictures(found)[0]
        write_trace_figure(trace_figure, picture, shown_system(units))
        for words in trace_words(picture, trace_figure, shown_system(units)):
            print(words, file=sys.stderr)
