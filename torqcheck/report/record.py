"""A build record for people: its entries, what was altered, and what changed between two of them."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from torqcheck.assessment.result import Assessment
from torqcheck.errors import OutputError
from torqcheck.record.comparing import RESULT, SCENARIO, Difference, FactorChange, LashReading
from torqcheck.record.entry import Entry, sha256_of
from torqcheck.record.verifying import Verified
from torqcheck.report.build import CAUTION, sheet_of
from torqcheck.report.formats.as_html import as_html
from torqcheck.report.formats.as_json import as_json
from torqcheck.report.formats.as_text import as_text
from torqcheck.report.numbers import or_dash
from torqcheck.report.printout.whole import printout_of
from torqcheck.report.sheet import Column, Note, Sheet, Table
from torqcheck.report.words import VERDICT_WORDS
from torqcheck.scenario import Scenario

__all__ = ["about_entry", "difference_sheet", "entry_files", "verified_sheet", "verified_to_dict"]

SHEET, PRINTOUT = "sheet.txt", "sheet.html"
LIMITS = (
    "The log ties each entry to the one before by a hash, so that a change, a gap or another order shows. It "
    "cannot show that the newest entries were taken away together with their lines, or that somebody wrote "
    "the whole record anew: write the hash of the newest entry on the printout, and look for it with --head."
)
MOST_FACTORS = 20


def entry_files(
    assessment: Assessment, scenario: Scenario, companions: Mapping[str, bytes]
) -> dict[str, bytes]:
    """
    Return the files of an entry: the scenario, what it was read with, the result, and the sheets.

    The sheet as text is what the terminal shows; the one as HTML is the printout, to be signed.

    Raises
    ------
    OutputError
        If the scenario is not any more what was assessed.
    """
    try:
        content = scenario.path.read_bytes()
    except OSError as error:
        raise OutputError(f"{scenario.path.name}: cannot be read again: {error.strerror or error}") from error
    if sha256_of(content) != assessment.file_sha256:
        raise OutputError(
            f"{scenario.path.name}: was changed while it was checked; nothing is recorded, check again"
        )
    return {
        **companions,
        SCENARIO: content,
        RESULT: as_json(assessment.to_dict()).encode(),
        SHEET: as_text(sheet_of(assessment, "both", 80)).encode(),
        PRINTOUT: as_html(printout_of(assessment, scenario)).encode(),
    }


def about_entry(assessment: Assessment, checked_by: str, date: str) -> dict[str, str]:
    """Return what the log says of an entry."""
    return {
        "torqcheck": assessment.version,
        "title": assessment.title,
        "build": assessment.build,
        "checked_by": checked_by,
        "date": date,
        "verdict": assessment.verdict,
    }


def verified_to_dict(found: Verified) -> dict[str, Any]:
    """Return what was found as plain data."""
    return {
        "format": 1,
        "sound": found.sound,
        "head": found.head,
        "entries": [entry.to_dict() | {"hash": entry.hash} for entry in found.entries],
        "findings": [
            {"entry": f.entry, "file": f.file, "kind": f.kind, "words": f.words} for f in found.findings
        ],
        "left_over": list(found.left_over),
    }


def verified_sheet(found: Verified, folder: Path) -> Sheet:
    """Arrange what was found in a record."""
    count = len(found.entries)
    entries = f"{count} {'entry' if count == 1 else 'entries'}"
    if found.sound:
        words = [f"Sound: {entries}, each as it was written, in the order in which they were written."]
    else:
        faults = len(found.findings)
        words = [
            f"NOT SOUND: {faults} {'thing is' if faults == 1 else 'things are'} not as written ({entries}). "
            "Keep the folder as it is, and look for a copy."
        ]
    words.append(f"Hash of the newest entry: {found.head}")
    parts: list[Table | Note] = []
    if found.findings:
        parts.append(Note("Not as it was written", tuple(str(finding) for finding in found.findings)))
    parts.append(_entries(found.entries))
    if found.left_over:
        left = ", ".join(found.left_over)
        parts.append(
            Note("Belongs to no entry", (f"{left}: left by a writer that was stopped, or put there.",))
        )
    return Sheet(f"Build record {folder}", (), None, tuple(words), tuple(parts), (LIMITS,))


def _entries(entries: tuple[Entry, ...]) -> Table:
    columns = tuple(
        Column(name) for name in ("Entry", "Written, UTC", "Build", "Verdict", "Checked by", "Hash")
    )
    rows = tuple(
        (
            entry.folder,
            entry.written[:16].replace("T", " "),
            entry.build or "-",
            _verdict(entry.verdict),
            entry.checked_by or "-",
            entry.hash[:12],
        )
        for entry in entries
    )
    return Table("Entries", columns, rows)


def _verdict(verdict: str) -> str:
    """Verdict in words; as it stands if it is none that this version knows."""
    known = {str(name): words for name, words in VERDICT_WORDS.items()}
    return known.get(verdict, verdict)


def difference_sheet(found: Difference) -> Sheet:
    """Arrange what changed between two entries."""
    parts: list[Table | Note] = [
        _changes("Inputs that changed", found.inputs),
        _changes("Results that changed", found.results),
    ]
    if found.factors:
        parts.append(_factors(found.factors))
    parts += _lash(found.lash)
    return Sheet(
        f"What changed: {_named(found.before)} to {_named(found.after)}",
        _about(found),
        None,
        (_answer(found),),
        tuple(parts),
        (CAUTION,),
    )


def _named(entry: Entry) -> str:
    return f"entry {entry.folder} of {entry.date or entry.written[:10]}"


def _about(found: Difference) -> tuple[str, ...]:
    """Title and build, and a word where two builds are compared."""
    before, after = found.before, found.after
    lines = [" ".join(part for part in (after.title, f"({after.build})" if after.build else "") if part)]
    if before.build != after.build:
        lines.append(f'Two builds: "{before.build}" and "{after.build}".')
    return tuple(lines)


def _answer(found: Difference) -> str:
    """Verdicts in one sentence."""
    before, after = _verdict(found.before.verdict), _verdict(found.after.verdict)
    if before == after:
        return f"The verdict is {after}, as before."
    return f"The verdict was {before} and is now {after}."


def _changes(title: str, changes: Any) -> Table | Note:
    """What stood there and what stands there now."""
    if not changes:
        return Note(title, ("none",))
    rows = tuple((change.key, change.before or "-", change.after or "-") for change in changes)
    columns = (Column("What", width=40), Column("before", width=18), Column("now", width=18))
    return Table(title, columns, rows)


def _factors(factors: tuple[FactorChange, ...]) -> Table:
    """Safety factors, the lowest of today first."""
    rows = tuple(
        (f"{change.joint}, {change.check}", change.method, or_dash(change.before), or_dash(change.after))
        for change in factors[:MOST_FACTORS]
    )
    columns = (
        Column("Check", width=36),
        Column("Method", width=16),
        Column("before", "right"),
        Column("now", "right"),
    )
    left = len(factors) - MOST_FACTORS
    legend = f"{left} more; all are in --format json." if left > 0 else ""
    return Table("Safety factors that changed, the lowest first", columns, rows, legend=legend)


def _lash(readings: tuple[LashReading, ...]) -> list[Table | Note]:
    """The lash of each joint over the entries, with its change since the first."""
    if not readings:
        return []
    first: dict[str, LashReading] = {}
    rows = []
    for reading in readings:
        begin = first.setdefault(reading.joint, reading)
        grown = "-"
        if reading.clearance is not None and begin.clearance is not None and reading is not begin:
            grown = f"{(reading.clearance - begin.clearance) * 1e3:+.3f}"
        rows.append(
            (
                reading.joint,
                reading.entry,
                reading.date,
                "-" if reading.clearance is None else f"{reading.clearance * 1e3:.3f}",
                grown,
                f"{reading.angle:.5f}",
            )
        )
    rows.sort(key=lambda row: [*first].index(row[0]))
    columns = (
        Column("Joint"),
        Column("Entry"),
        Column("Date"),
        Column("mm", "right"),
        Column("since the first", "right"),
        Column("rad", "right"),
    )
    legend = "Along the pitch circle, as each scenario states it."
    return [Table("Lash over the entries", columns, tuple(rows), legend=legend)]
