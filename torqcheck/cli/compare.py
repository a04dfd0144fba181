"""`torqcheck compare`: steels side by side before ordering."""

import sys
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from torqcheck.cli.completing import joint_names, steel_names
from torqcheck.cli.options import (
    FIGURE_ENDINGS,
    Format,
    FormatOption,
    OutOption,
    PlainOption,
    ScenarioArgument,
    Units,
    UnitsOption,
    columns,
    emit,
    refuse_same_file,
    refuse_wrong_ending,
    sources_of,
    terminal,
)

if TYPE_CHECKING:
    from torqcheck.assessment.compare.result import Comparison

__all__ = ["compare"]

PLOT_WIDTH = 80


class SortBy(StrEnum):
    """What the rows are sorted by."""

    safety = "safety"
    cost = "cost"
    life = "life"
    hardness = "hardness"


def compare(
    scenario: ScenarioArgument,
    joint: Annotated[
        str | None,
        typer.Option(
            metavar="NAME",
            help="Splined joint, by name or number; the weakest if not given.",
            show_default=False,
            autocompletion=joint_names,
        ),
    ] = None,
    external: Annotated[
        str | None,
        typer.Option(
            metavar="A,B|all", help="Steels for the shaft.", show_default=False, autocompletion=steel_names
        ),
    ] = None,
    internal: Annotated[
        str | None,
        typer.Option(
            metavar="C,D|all", help="Steels for the hub.", show_default=False, autocompletion=steel_names
        ),
    ] = None,
    above: Annotated[
        str | None,
        typer.Option(metavar="300HB", help="With all: flanks at least this hard.", show_default=False),
    ] = None,
    below: Annotated[
        str | None,
        typer.Option(metavar="60HRC", help="With all: flanks at most this hard.", show_default=False),
    ] = None,
    together: Annotated[bool, typer.Option("--together", help="The same steel for both.")] = False,
    sort: Annotated[SortBy, typer.Option(help="What comes first.")] = SortBy.safety,
    min_safety: Annotated[
        float | None,
        typer.Option(metavar="X", help="Hide choices below this safety factor.", show_default=False),
    ] = None,
    max_cost: Annotated[
        float | None, typer.Option(metavar="X", help="Hide choices above this cost.", show_default=False)
    ] = None,
    pareto: Annotated[
        bool,
        typer.Option(
            "--pareto", help="Hide each choice that another one beats: as good in all, better in one."
        ),
    ] = False,
    figure: Annotated[
        Path | None,
        typer.Option(metavar="FILE", help="Draw safety against cost to .svg or .png.", show_default=False),
    ] = None,
    units: UnitsOption = Units.both,
    format: FormatOption = Format.table,
    out: OutOption = None,
    plain: PlainOption = False,
) -> None:
    r"""Set steels for shaft and hub of a splined joint side by side, before one is ordered.

    \b
    torqcheck compare scenarios/vineyard_carrier.toml --external all --pareto
    torqcheck compare my.toml --external 4140_QT425,8620_carb_30 \
      --internal 4140_PH28_32
    torqcheck compare my.toml --internal all --above 300HB --below 60HRC \
      --sort cost

    Each choice is a whole check of the file with a new part in it. Of two lists all pairs are taken; a
    member that is not named stays as in the file. If neither is named, all steels are compared for the one
    member that is new (reused = false). all: every row of the tables, own ones too, that suits the part.
    Safety factors and costs have no unit, hardness keeps its scale: --units changes nothing here.
    Exit codes: 0 answered, 2 bad input, 4 could not finish.
    """
    refuse_wrong_ending("figure", figure, FIGURE_ENDINGS)
    refuse_same_file(figure=figure, out=out)
    from torqcheck.assessment.compare.choices import Wanted
    from torqcheck.assessment.compare.side_by_side import compare as comparison_of
    from torqcheck.cli.following import Following

    wanted = Wanted(
        joint=joint,
        external=_names(external),
        internal=_names(internal),
        together=together,
        above=above,
        below=below,
        min_safety=min_safety,
        max_cost=max_cost,
    )
    with Following("steels") as follow:
        found = comparison_of(scenario, wanted, sort=sort.value, pareto=pareto, follow=follow)
    content = _content(found, format, out, plain)
    if figure is not None:
        from torqcheck.report.plots.compare_plot import compare_words, write_compare_figure

        write_compare_figure(figure, found)
        print(compare_words(found, figure), file=sys.stderr)
    emit(content, out, made_from=sources_of(scenario, found))
    if out is not None:
        print(f"compare: written to {out}", file=sys.stderr)
    raise typer.Exit(0)


def _names(text: str | None) -> tuple[str, ...] | None:
    return None if text is None else tuple(name.strip() for name in text.split(","))


def _content(found: "Comparison", form: Format, out: Path | None, plain: bool) -> str:
    """Render the answer."""
    if form is Format.json:
        from torqcheck.report.formats.as_json import as_json

        return as_json(found.to_dict())
    if form is Format.csv:
        from torqcheck.report.compare import compare_rows
        from torqcheck.report.formats.as_csv import rows_as_csv

        return rows_as_csv(compare_rows(found))
    from torqcheck.report.compare import compare_sheet
    from torqcheck.report.plots.compare_plot import compare_plot

    # in Markdown the table says what the plot shows
    drawn = None
    if form is not Format.markdown:
        drawn = compare_plot(found, width=min(columns(form, out), PLOT_WIDTH))
    return terminal(compare_sheet(found, drawn), form, out=out, plain=plain)
