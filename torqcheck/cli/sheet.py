"""`torqcheck sheet`: the printout for the build record."""

import sys
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from torqcheck.cli.options import VERDICT_CODES, ScenarioArgument, Units, UnitsOption, sources_of
from torqcheck.errors import UsageError

if TYPE_CHECKING:
    from torqcheck.assessment import Assessment

__all__ = ["Paper", "PaperOption", "SheetOption", "refuse_name", "sheet", "write_sheet"]

ENDINGS = (".html", ".pdf", ".md", ".txt")


class Paper(StrEnum):
    """Sizes of the page."""

    a4 = "a4"
    letter = "letter"


PaperOption = Annotated[Paper, typer.Option("--paper", help="Page of the printout (HTML, PDF).")]
SheetOption = Annotated[
    Path | None,
    typer.Option(
        "--sheet",
        metavar="FILE",
        help="Write the printout too: .html, .pdf, .md or .txt.",
        show_default=False,
    ),
]


def sheet(
    scenario: ScenarioArgument,
    out: Annotated[
        Path | None,
        typer.Option(
            "--out",
            metavar="FILE",
            help="The printout to write: .html, .pdf, .md or .txt.  [required]",
            show_default=False,
        ),
    ] = None,
    paper: PaperOption = Paper.a4,
    units: UnitsOption = Units.both,
) -> None:
    r"""Write the printout for the build record: everything about a check, with figures, ready to sign.

    \b
    torqcheck sheet scenarios/vineyard_carrier.toml --out carrier.pdf
    torqcheck sheet my.toml --out my.html --paper letter
    torqcheck sheet my.toml --out my.md

    The form follows the ending: .html (one file, for browser and printer), .pdf, .md or .txt.
    Exit codes as assess: 0 pass or marginal, 1 fail, 2 bad input, 3 undecided, 4 could not finish.
    """
    if out is None:
        raise UsageError("--out FILE is missing; write for example --out my.pdf (or .html, .md, .txt)")
    refuse_name("--out", out, scenario)
    from torqcheck.assessment import assess as assess_scenario
    from torqcheck.cli.following import waiting

    with waiting("checks"):
        assessment = assess_scenario(scenario)
    write_sheet(out, scenario, assessment, units, paper)
    raise typer.Exit(VERDICT_CODES[assessment.verdict])


def refuse_name(option: str, path: Path, scenario: Path) -> None:
    """Refuse, before any work is done, a name that does not tell the form or that cannot be written."""
    if path.suffix.lower() not in ENDINGS:
        known = f"{', '.join(ENDINGS[:-1])} or {ENDINGS[-1]}"
        raise UsageError(f"{option}: {str(path)[:200]!r} must end in {known}")
    from torqcheck.report.formats.files import refuse_target

    refuse_target(path, keep=(scenario,))


def write_sheet(out: Path, scenario: Path, assessment: "Assessment", units: Units, paper: Paper) -> None:
    """Write the printout of an assessment whole, and say so."""
    from torqcheck.cli.following import waiting
    from torqcheck.errors import OutputError
    from torqcheck.report.formats.files import write_whole
    from torqcheck.report.printout.sheet_file import sheet_content
    from torqcheck.scenario import load_scenario

    read = load_scenario(scenario)
    if read.file_sha256 != assessment.file_sha256:
        raise OutputError(f"{scenario.name}: was changed while it was checked; check again")
    with waiting("printout"):
        content = sheet_content(assessment, read, out, units.value, paper.value)
    write_whole(out, content, keep=sources_of(scenario, assessment))
    print(f"{assessment.verdict}: printout written to {out}", file=sys.stderr)
