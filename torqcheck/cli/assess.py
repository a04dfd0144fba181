"""`torqcheck assess`: the main job."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from torqcheck.cli.options import (
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
    refuse_same_file,
    sources_of,
    terminal,
)
from torqcheck.cli.sheet import Paper, PaperOption, SheetOption, refuse_name, write_sheet

if TYPE_CHECKING:
    from torqcheck.assessment import Assessment

__all__ = ["assess"]


def assess(
    scenario: ScenarioArgument,
    units: UnitsOption = Units.both,
    format: FormatOption = Format.table,
    out: OutOption = None,
    plain: PlainOption = False,
    record: Annotated[
        Path | None,
        typer.Option(
            "--record", metavar="FOLDER", help="Add the check to a build record.", show_default=False
        ),
    ] = None,
    sheet: SheetOption = None,
    paper: PaperOption = Paper.a4,
    strict: Annotated[bool, typer.Option("--strict", help="A marginal result gives exit code 1.")] = False,
) -> None:
    r"""Check every joint of a scenario: torque, blow, stress, mate, wear.

    \b
    torqcheck assess scenarios/works_trolley.toml
    torqcheck assess my.toml --format text --out my.txt
    torqcheck assess my.toml --format json | python -m json.tool
    torqcheck assess my.toml --record my_build --sheet my.pdf

    Exit codes: 0 pass or marginal (--strict: marginal gives 1), 1 fail, 2 bad input, 3 undecided,
    4 could not finish.
    """
    if sheet is not None:
        refuse_name("--sheet", sheet, scenario)
    refuse_same_file(sheet=sheet, out=out)
    if record is not None:
        from torqcheck.record import refuse_folder

        refuse_folder(record)
    from torqcheck.assessment import assess as assess_scenario

    assessment = assess_scenario(scenario)
    if format is Format.json:
        from torqcheck.report.formats.as_json import as_json

        content = as_json(assessment.to_dict())
    elif format is Format.csv:
        from torqcheck.report.formats.as_csv import as_csv

        content = as_csv(assessment)
    else:
        from torqcheck.report.build import sheet_of

        report = sheet_of(assessment, units.value, columns(format, out))
        content = terminal(report, format, out=out, plain=plain)
    emit(content, out, made_from=sources_of(scenario, assessment))
    if out is not None:
        print(f"{assessment.verdict}: written to {out}", file=sys.stderr)
    if sheet is not None:
        write_sheet(sheet, scenario, assessment, units, paper)
    if record is not None:
        _record(record, scenario, assessment)
    code = VERDICT_CODES[assessment.verdict]
    raise typer.Exit(1 if strict and assessment.verdict == "marginal" else code)


def _record(folder: Path, scenario: Path, assessment: "Assessment") -> None:
    """Add the check to a build record, and say as what."""
    from torqcheck.record import append, verify
    from torqcheck.report.record import about_entry, entry_files
    from torqcheck.scenario import load_scenario
    from torqcheck.scenario.companions import companions_of

    read = load_scenario(scenario)
    date = read.record.date
    about = about_entry(assessment, read.record.checked_by, "" if date is None else date.isoformat())
    entry = append(folder, entry_files(assessment, read, companions_of(read)), about)
    print(
        f"{assessment.verdict}: recorded as {folder / entry.folder}\nhash {entry.hash}\n"
        "Write the hash, or its first 8 digits, on the printout: torqcheck record verify --head finds it.",
        file=sys.stderr,
    )
    findings = verify(folder).findings
    if findings:
        print(
            f"The record is NOT as it was written: {findings[0]}; torqcheck record verify {folder} tells all",
            file=sys.stderr,
        )
