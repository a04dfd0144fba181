"""`torqcheck influence`: which reading or assumption moves the weakest link most."""

import sys

import typer

from torqcheck.cli.options import (
    Format,
    FormatOption,
    OutOption,
    PlainOption,
    ScenarioArgument,
    Units,
    UnitsOption,
    emit,
    sources_of,
    terminal,
)

__all__ = ["influence"]


def influence(
    scenario: ScenarioArgument,
    units: UnitsOption = Units.both,
    format: FormatOption = Format.table,
    out: OutOption = None,
    plain: PlainOption = False,
) -> None:
    r"""Rank readings and assumptions by what they do to the weakest link: what to measure better.

    \b
    torqcheck influence scenarios/vineyard_carrier.toml
    torqcheck influence my.toml --format json | python -m json.tool

    It takes some seconds: the blow is followed again for each of many thousand draws.
    Exit codes: 0 answered, 2 bad input, 4 could not finish.
    """
    from torqcheck.assessment.ranges.influence import influence as influence_of
    from torqcheck.cli.following import Following

    with Following("repeats") as follow:
        found = influence_of(scenario, follow=follow)
    if format is Format.json:
        from torqcheck.report.formats.as_json import as_json

        content = as_json(found.to_dict())
    elif format is Format.csv:
        from torqcheck.report.formats.as_csv import rows_as_csv
        from torqcheck.report.influence import influence_rows

        content = rows_as_csv(influence_rows(found))
    else:
        from torqcheck.report.influence import influence_sheet

        content = terminal(influence_sheet(found, units.value), format, out=out, plain=plain)
    emit(content, out, made_from=sources_of(scenario, found))
    if out is not None:
        print(f"influence: written to {out}", file=sys.stderr)
    raise typer.Exit(0)
