"""`torqcheck why`: one number taken apart."""

import sys
from typing import Annotated

import typer

from torqcheck.cli.completing import number_words
from torqcheck.cli.options import (
    SYSTEMS,
    Format,
    FormatOption,
    OutOption,
    PlainOption,
    ScenarioArgument,
    Units,
    UnitsOption,
    emit,
    terminal,
)
from torqcheck.errors import UsageError

__all__ = ["why"]


def why(
    scenario: ScenarioArgument,
    name: Annotated[
        list[str] | None,
        typer.Argument(
            metavar="NAME",
            help="The number; without one, all names.",
            show_default=False,
            autocompletion=number_words,
        ),
    ] = None,
    units: UnitsOption = Units.both,
    format: FormatOption = Format.table,
    out: OutOption = None,
    plain: PlainOption = False,
) -> None:
    r"""Take one number of the result apart: formula, symbols, values, and where each comes from.

    \b
    torqcheck why scenarios/works_trolley.toml
    torqcheck why scenarios/works_trolley.toml flank pressure S
    torqcheck why my.toml shock.peak_torque_Nm --format json

    Exit codes: 0 answered, 2 bad input or no such number, 4 could not finish.
    """
    if format is Format.csv:
        raise UsageError("--format csv: an explanation is no table; use json")
    from torqcheck.assessment import assess
    from torqcheck.assessment.why.explain import Reasons
    from torqcheck.report.formats.as_json import as_json
    from torqcheck.report.why import names_sheet, why_sheet
    from torqcheck.scenario import load_scenario

    read = load_scenario(scenario)
    reasons = Reasons(read, assess(read))
    if name:
        found = reasons.why(" ".join(name))
        data, sheet = found.to_dict(), why_sheet(found, SYSTEMS[units])
    else:
        names = reasons.names()
        data = {"format": 1, "names": [{"name": n.name, "value": n.value, "unit": n.unit} for n in names]}
        sheet = names_sheet(names, read.record.title)
    content = as_json(data) if format is Format.json else terminal(sheet, format, out=out, plain=plain)
    emit(content, out, made_from=(scenario,))
    if out is not None:
        print(f"why: written to {out}", file=sys.stderr)
