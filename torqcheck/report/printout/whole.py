"""The printout for the build record: everything about a check that belongs on paper, as data."""

from torqcheck.assessment.pictured import Pictured, pictured
from torqcheck.assessment.result import Assessment
from torqcheck.checks import Verdict
from torqcheck.record.writing import tables_hash
from torqcheck.report.build import ASSUMPTIONS, CAUTION, SOURCES, sheet_of, systems_of
from torqcheck.report.next_step import next_step
from torqcheck.report.printout.checks import marks_note, printed_checks, sources_note
from torqcheck.report.printout.figures import figures_of
from torqcheck.report.printout.input_echo import input_tables
from torqcheck.report.sheet import Blanks, Fields, Note, Part, Printout, Table
from torqcheck.report.stack.stack import stack_sheet
from torqcheck.report.verdict_words import verdict_words
from torqcheck.report.words import VERDICT_WORDS
from torqcheck.scenario import Scenario

__all__ = ["NARROW", "printout_of"]

NARROW = 80
"""Columns; with no more the table of checks is the short one of the terminal."""
HELD_BACK: dict[Verdict, str] = {
    "undecided": "The build is not to be run before the missing readings are taken and checked.",
    "fail": "The build is not to be run as it stands.",
}
"""Said over the sign-off of what nobody may approve."""
NOT_STATED = "not stated"
LONGEST_NAME = 60


def printout_of(
    assessment: Assessment, scenario: Scenario, units: str = "both", *, width: int = 2 * NARROW
) -> Printout:
    """
    Arrange the printout.

    Parameters
    ----------
    assessment : Assessment
        The result.
    scenario : Scenario
        What was assessed.
    units : str, optional
        ``si``, ``inch`` or ``both``.
    width : int, optional
        Columns that the medium has for its tables; on 80 the table of checks is that of the terminal.

    Returns
    -------
    Printout
        The same for the same input; its figures are drawn when a renderer asks for them.
    """
    systems = systems_of(units)
    sheet = sheet_of(assessment, units, min(width, NARROW))
    shown = pictured(scenario, assessment)
    checks, *found = (part for part in sheet.parts if part.title != SOURCES)
    assumed = next((i for i, part in enumerate(found) if part.title == ASSUMPTIONS), len(found))
    parts: list[Part] = [
        checks if width <= NARROW else printed_checks(assessment, systems),
        *found[:assumed],
        *_stack(shown, units),
        *found[assumed:],
        *input_tables(scenario, assessment.assumptions, systems),
        *figures_of(assessment, shown, systems),
        marks_note(assessment),
        sources_note(assessment),
        _sign_off(assessment.verdict),
    ]
    date = scenario.record.date
    stated = f"date {date.isoformat()}" if date is not None else "no date stated"
    return Printout(
        title=assessment.title,
        record=_record(assessment, scenario),
        verdict=assessment.verdict,
        words=(*verdict_words(assessment, systems), next_step(assessment, on_paper=True)),
        parts=tuple(parts),
        closing=(CAUTION,),
        foot=(
            f"torqcheck {assessment.version}, {_short(assessment.file)}, {stated}",
            f"sha256 {assessment.file_sha256}",
        ),
        version=assessment.version,
        date=date,
    )


def _short(name: str) -> str:
    """A file name for the foot of the page, its middle left out where it is very long."""
    return name if len(name) <= LONGEST_NAME else f"{name[: LONGEST_NAME - 20]}...{name[-17:]}"


def _record(assessment: Assessment, scenario: Scenario) -> Fields:
    """What was checked, by whom, when; and what it was computed from."""
    record, duty = scenario.record, assessment.duty_file
    rows = [
        ("Title", assessment.title),
        ("Build", assessment.build or NOT_STATED),
        ("Checked by", record.checked_by or NOT_STATED),
        ("Date", NOT_STATED if record.date is None else record.date.isoformat()),
        ("Notes", record.notes.strip() or "none"),
        ("Scenario file", assessment.file),
        ("sha256 of the file", assessment.file_sha256),
    ]
    if duty is not None:
        rows += [("Torque record", duty.file), ("sha256 of the torque record", duty.sha256)]
    rows += [("Own table", name) for name in scenario.materials.tables]
    rows += [
        ("torqcheck", f"version {assessment.version}"),
        ("sha256 of the shipped tables", tables_hash()),
        ("Random draws", f"{assessment.draws.count} for the ranges, seed {assessment.draws.seed}"),
    ]
    return Fields("Record", tuple(rows))


def _stack(shown: Pictured, units: str) -> tuple[Table | Note, ...]:
    """The tables of the axial stack; what it assumed and warns of stands with the rest."""
    if shown.stack is None:
        return ()
    sheet = stack_sheet(shown.stack, units, all_rows=True)
    return tuple(
        Table(f"Axial stack: {part.title}", part.columns, part.rows, part.verdicts, part.legend)
        if isinstance(part, Table)
        else Note(f"Axial stack: {part.title}", part.items)
        for part in sheet.parts
        if part.title not in {ASSUMPTIONS, "Cautions"}
    )


def _sign_off(verdict: Verdict) -> Blanks:
    """Who measured and checked; and who released the build, or else has seen why it is not released."""
    word = VERDICT_WORDS[verdict]
    held = HELD_BACK.get(verdict)
    return Blanks(
        "Sign-off" if held is None else f"Sign-off. Not released: {word}. {held}",
        ("Name", "Date", "Measured with", "Signature"),
        ("Measured", "Checked", "Approved" if held is None else "Seen"),
        ("Hash of the entry in the build record (torqcheck record verify --head finds it):",),
    )
