"""The checks for paper: full names, methods in words, both unit systems where they are wanted."""

from torqcheck.assessment.result import Assessment
from torqcheck.checks import Check, weakest_first
from torqcheck.report.build import amount, range_text
from torqcheck.report.check_words import BESIDE, BY, legend_of, order_words
from torqcheck.report.numbers import significant
from torqcheck.report.play import as_if_mates
from torqcheck.report.sheet import VERDICT, Column, Note, Table
from torqcheck.report.words import VERDICT_WORDS
from torqcheck.units import System

__all__ = ["marks_note", "printed_checks", "sources_note"]


def printed_checks(assessment: Assessment, systems: tuple[System, ...]) -> Table:
    """One row for each check, those of the joint before those of its first tooth, each weakest first."""
    checks = weakest_first(check for joint in assessment.joints for check in joint.checks)
    columns = [Column("Joint"), Column("Check"), Column(VERDICT)]
    columns += [Column("Factor", "right"), Column("Target", "right"), Column("Range"), Column("By")]
    for system in systems:
        unit = "MPa" if system == "si" else "psi"
        columns += [Column(f"Value {unit}", "right"), Column(f"Limit {unit}", "right")]
    return Table(
        f"Checks, {order_words(checks)}{as_if_mates(assessment)}",
        tuple(columns),
        tuple(_row(check, systems) for check in checks),
        tuple(check.verdict for check in checks),
        legend_of(checks),
    )


def _row(check: Check, systems: tuple[System, ...]) -> tuple[str, ...]:
    values = [
        amount(value, check.quantity, system)
        for system in systems
        for value in (check.value, check.allowable)
    ]
    factor = check.safety_factor
    return (
        check.joint,
        check.name,
        VERDICT_WORDS[check.verdict] if check.counts else BESIDE,
        "unloaded" if factor is None else significant(factor),
        f"{check.target:.3g}",
        range_text(check.interval),
        BY[check.method],
        *values,
    )


def marks_note(assessment: Assessment) -> Note:
    """The weakest mark that each check rests on, the checks of one mark together."""
    by_mark: dict[str, dict[str, None]] = {}
    for check in (check for joint in assessment.joints for check in joint.checks):
        by_mark.setdefault(check.mark, {})[f"{check.name} ({check.method})"] = None
    items = tuple(f"{mark}: {'; '.join(names)}" for mark, names in by_mark.items())
    return Note("Weakest mark of each check", items)


def sources_note(assessment: Assessment) -> Note:
    """Every work that the checks rest on, once, with what was taken from it and its marks."""
    works: dict[str, dict[str, None]] = {}
    for check in (check for joint in assessment.joints for check in joint.checks):
        for source in check.sources:
            place = f"{source.where} [{source.mark}]" if source.where else f"[{source.mark}]"
            works.setdefault(source.work, {})[place] = None
    lines = []
    for work, places in works.items():
        plain = next(iter(places)) if len(places) == 1 else ""
        lines.append(f"{work} {plain}" if plain.startswith("[") else f"{work}: {'; '.join(places)}")
    return Note("Sources", tuple(lines))
