"""`torqcheck sweep`: a grid or a Latin hypercube over the numbers of a scenario."""

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from torqcheck.cli.options import (
    FIGURE_ENDINGS,
    Format,
    FormatOption,
    PlainOption,
    ScenarioArgument,
    columns,
    emit,
    refuse_same_file,
    refuse_wrong_ending,
    terminal,
)
from torqcheck.errors import UsageError

if TYPE_CHECKING:
    from torqcheck.assessment.sweep.run import Question
    from torqcheck.report.sweep.run import Progress, Swept

__all__ = ["sweep"]

MOST_WITHOUT_FILE = 10_000
MOST_WORKERS = 256
MOST_TOGETHER = 1_000_000
PLOT_WIDTH = 80


class DesignName(StrEnum):
    """Ways to choose the points."""

    grid = "grid"
    latin = "latin"


class MethodName(StrEnum):
    """What is computed at each point."""

    guide = "guide"
    all = "all"


def sweep(
    scenario: ScenarioArgument,
    vary: Annotated[
        list[str] | None,
        typer.Option(
            "--vary",
            metavar="KEY=VALUES",
            help="KEY=START:STOP:COUNT, KEY=START:STOP:COUNT:log or KEY=V1,V2,V3; the unit may stand on the "
            "last value only. Repeat for more keys.",
            show_default=False,
        ),
    ] = None,
    design: Annotated[
        DesignName,
        typer.Option(
            "--design",
            help="grid: every combination; latin: points strewn evenly over all ranges (Latin hypercube).",
        ),
    ] = DesignName.grid,
    points: Annotated[
        int | None,
        typer.Option("--points", metavar="N", help="How many, with --design latin.", show_default=False),
    ] = None,
    seed: Annotated[
        int, typer.Option("--seed", metavar="N", help="With --design latin: another number, other points.")
    ] = 0,
    method: Annotated[
        MethodName, typer.Option("--method", help="Only the guide's checks of the splines, or all.")
    ] = MethodName.guide,
    out: Annotated[
        Path | None,
        typer.Option(
            "--out", metavar="FILE", help="Write the rows to a .csv or .parquet file.", show_default=False
        ),
    ] = None,
    resume: Annotated[bool, typer.Option("--resume", help="Go on with a run that was stopped.")] = False,
    force: Annotated[bool, typer.Option("--force", help="Replace FILE or an unfinished run.")] = False,
    workers: Annotated[
        int | None,
        typer.Option("--workers", metavar="N", help="Cores to use; all if not given.", show_default=False),
    ] = None,
    chunk: Annotated[
        int | None,
        typer.Option(
            "--chunk",
            metavar="N",
            help="Points answered together; 50,000 if not given, with --method all 8.",
            show_default=False,
        ),
    ] = None,
    figure: Annotated[
        Path | None,
        typer.Option(
            "--figure", metavar="FILE", help="Line or contours as .svg or .png; one or two keys.",
            show_default=False,
        ),
    ] = None,
    format: FormatOption = Format.table,
    plain: PlainOption = False,
) -> None:  # fmt: skip
    r"""Ask the same of many points: vary any numbers of the scenario, write a row for each point.

    \b
    torqcheck sweep my.toml --vary "joint[1].engagement=20:40 mm:21"
    torqcheck sweep my.toml --vary "joint[1].engagement=20:40 mm:100" \
      --vary "motor.peak_torque=100:300 N*m:100" --out rows.csv
    torqcheck sweep my.toml --vary "motor.torque_rise=1e3:1e5 N*m/s:9:log" \
      --vary "joint[1].lash.clearance=0.05:0.5 mm:2" \
      --design latin --points 5000 --out rows.parquet

    A row holds the varied keys (unit in the head), for each joint torque_Nm, peak_torque_Nm and lash_rad
    (rad), for each splined joint the safety factors root_shear, pitch_line_shear, flank_pressure and
    bursting, each _tabulated (steady torque with application factor) and _simulated (blow); then
    safety_factor_over_target (the weakest factor over its target), weakest (which one) and refused (why
    there is no result). With --method all: verdict, and for each joint safety_factor, life_hours_p10,
    life_hours_p50, service_damage and verdict. Numbers are written in all their digits.

    A value that the rules of the file refuse inside a range gives a row without result; an end of a
    range that they refuse stops the sweep. A varied value has no tolerance of its own.

    Rows are written in order, chunk by chunk, to FILE.part beside FILE, which appears when it is whole.
    A stop loses at most one chunk for each core: the same command with --resume goes on, and the file
    is the same as without the stop. Without --out at most 10,000 points, for the summary alone.
    Exit codes: 0 done, 2 bad input, 4 could not finish, 130 stopped.
    """
    _refuse_options(out, resume, force, workers, chunk, figure)
    from torqcheck.assessment.sweep.run import question_of
    from torqcheck.cli.following import Following
    from torqcheck.scenario import load_scenario

    base = load_scenario(scenario)
    question = question_of(
        base, vary or (), design=design.value, points=points, seed=seed, method=method.value, chunk=chunk
    )
    _refuse_question(question, scenario, out, figure)
    with _stoppable(), Following("points") as follow:
        found = _swept(
            question, out, resume, force, workers, lambda done: follow(done, question.design.points)
        )
    if figure is not None and found.map is not None:
        from torqcheck.report.plots.sweep_plot import figure_words, write_sweep_figure

        write_sweep_figure(figure, found.map, found.summary.title)
        print(figure_words(found.map, figure), file=sys.stderr)
    emit(_content(found, format, plain, out), None)
    raise typer.Exit(0)


def _refuse_options(
    out: Path | None,
    resume: bool,
    force: bool,
    workers: int | None,
    chunk: int | None,
    figure: Path | None,
) -> None:
    """Refuse what cannot be, before anything is read."""
    refuse_same_file(out=out, figure=figure)
    refuse_wrong_ending("figure", figure, FIGURE_ENDINGS)
    if resume and force:
        raise UsageError("--resume goes on with an unfinished run and --force begins anew: give one of them")
    if (resume or force) and out is None:
        raise UsageError("--resume and --force go with --out FILE")
    if workers is not None and not 1 <= workers <= MOST_WORKERS:
        raise UsageError(f"--workers {workers}: write a number from 1 to {MOST_WORKERS}")
    if chunk is not None and not 1 <= chunk <= MOST_TOGETHER:
        raise UsageError(f"--chunk {chunk}: write a number from 1 to {MOST_TOGETHER}")


def _refuse_question(question: "Question", scenario: Path, out: Path | None, figure: Path | None) -> None:
    """Refuse a sweep whose rows or whose figure could not be written, before anything is computed."""
    size = question.design.points
    if out is None and size > MOST_WITHOUT_FILE:
        raise UsageError(
            f"{size:,} points need a file: add --out FILE.csv or FILE.parquet (without one at most "
            f"{MOST_WITHOUT_FILE:,})"
        )
    if out is not None:
        from torqcheck.report.sweep.file import check_target
        from torqcheck.report.sweep.rows import require_parquet

        record = question.scenario.duty_file_hash
        sources = (scenario,) if record is None else (scenario, scenario.parent / record.file)
        check_target(out, sources)
        if out.suffix.lower() == ".parquet":
            require_parquet()
    if figure is not None:
        from torqcheck.assessment.sweep.summary import can_be_mapped

        if not can_be_mapped(question):
            raise UsageError("--figure draws a grid of one or two keys with at most 1,000,000 points")


def _swept(
    question: "Question",
    out: Path | None,
    resume: bool,
    force: bool,
    workers: int | None,
    progress: "Progress",
) -> "Swept":
    from torqcheck.report.sweep.run import swept_here, swept_to_file

    if out is None:
        return swept_here(question, workers=workers, progress=progress)
    return swept_to_file(question, out, resume=resume, force=force, workers=workers, progress=progress)


def _content(found: "Swept", form: Format, plain: bool, out: Path | None) -> str:
    """Render the summary."""
    if form is Format.json:
        from torqcheck.report.formats.as_json import as_json

        return as_json(found.summary.to_dict())
    if form is Format.csv:
        from torqcheck.report.formats.as_csv import rows_as_csv
        from torqcheck.report.sweep.sweep import summary_rows

        return rows_as_csv(summary_rows(found.summary))
    from torqcheck.report.plots.sweep_plot import sweep_plots
    from torqcheck.report.sweep.sweep import sweep_sheet

    on_terminal = form is Format.table and sys.stdout is not None and sys.stdout.isatty()
    encoding = (sys.stdout.encoding or "ascii") if on_terminal else "ascii"
    plots = (
        ()
        if form is Format.markdown
        else sweep_plots(found.map, width=min(columns(form, None), PLOT_WIDTH), encoding=encoding)
    )
    sheet = sweep_sheet(found.summary, plots, found.rows, "" if out is None else str(out))
    return terminal(sheet, form, out=None, plain=plain)


@contextmanager
def _stoppable() -> Iterator[None]:
    """Let a request to end stop the run as Ctrl-C does: in good order."""
    import signal

    def stop(*_: object) -> None:
        raise KeyboardInterrupt

    try:
        before = signal.signal(signal.SIGTERM, stop)
    except ValueError:  # not the main thread
        yield
        return
    try:
        yield
    finally:
        signal.signal(signal.SIGTERM, before)
