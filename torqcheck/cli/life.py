"""`torqcheck life`: wear over time as a range, and when to open each joint again."""

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
from torqcheck.errors import UsageError

if TYPE_CHECKING:
    from torqcheck.assessment.lifetime.life_result import Life

__all__ = ["life"]

PLOT_WIDTH = 80
MOST_BLOW_WEAR = 100.0


def life(
    scenario: ScenarioArgument,
    figure: Annotated[
        Path | None,
        typer.Option(
            "--figure", metavar="FILE", help="Draw lash over time to .svg or .png.", show_default=False
        ),
    ] = None,
    blow_wear: Annotated[
        float,
        typer.Option(
            "--blow-wear",
            metavar="SHARE",
            show_default=False,
            help="What if blows wear: share by which they raise the wear at the lash limit (0.5: half more); "
            "0 if not given.",
        ),
    ] = 0.0,
    units: UnitsOption = Units.both,
    format: FormatOption = Format.table,
    out: OutOption = None,
    plain: PlainOption = False,
) -> None:
    r"""Estimate how long each joint lasts, and when to open it again.

    \b
    torqcheck life scenarios/orchard_tractor.toml
    torqcheck life my.toml --figure lash.svg
    torqcheck life my.toml --format json | python -m json.tool

    A later lash reading, written into [[inspection]], narrows the range.
    The verdict is that of the life; where the whole check (torqcheck assess) says worse, a line under it
    says so, and the exit code is that of the whole check.
    Exit codes: 0 enough of the estimates reach the service life, or half of them do, 1 fewer, or fatigue,
    mate or the whole check fails, 2 bad input, 3 readings are missing that could overturn the answer, 4
    could not finish.
    """
    refuse_wrong_ending("figure", figure, FIGURE_ENDINGS)
    if not 0.0 <= blow_wear <= MOST_BLOW_WEAR:
        raise UsageError(
            f"--blow-wear: {blow_wear:g} must lie between 0 and {MOST_BLOW_WEAR:g}; 0.5 for half more wear"
        )
    refuse_same_file(figure=figure, out=out)
    from torqcheck.assessment.lifetime.life import life as life_of
    from torqcheck.cli.following import waiting

    with waiting("life"):
        found = life_of(scenario, blow_wear=blow_wear)
    content = _content(found, units, format, out, plain)
    if figure is not None:
        from torqcheck.report.plots.life_plot import fan_words, write_fan_figure

        write_fan_figure(figure, found, shown_system(units))
        print(fan_words(found, figure), file=sys.stderr)
    emit(content, out, made_from=sources_of(scenario, found))
    if out is not None:
        print(f"{found.worse or 'no wear life stated'}: written to {out}", file=sys.stderr)
    raise typer.Exit(0 if found.worse is None else VERDICT_CODES[found.worse])


def _content(found: "Life", units: Units, form: Format, out: Path | None, plain: bool) -> str:
    """Render the answer."""
    if form is Format.json:
        from torqcheck.report.formats.as_json import as_json

        return as_json(found.to_dict())
    if form is Format.csv:
        from torqcheck.report.formats.as_csv import rows_as_csv
        from torqcheck.report.life import growth_rows

        return rows_as_csv(growth_rows(found))
    from torqcheck.report.life import life_sheet

    if form is Format.markdown:
        # the table says what the plot shows
        return terminal(life_sheet(found, units.value), form, out=out, plain=plain)
    from torqcheck.report.plots.life_plot import fan_plots

    plots = fan_plots(
        found,
        shown_system(units),
        width=min(columns(form, out), PLOT_WIDTH),
        encoding=encoding_of(form, out),
    )
    return terminal(life_sheet(found, units.value, plots), form, out=out, plain=plain)
