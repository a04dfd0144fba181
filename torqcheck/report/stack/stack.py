"""The axial stack for people: engagement, gaps, shims, what widens each sum; sentences first."""

from collections.abc import Iterator, Sequence
from typing import Any

from torqcheck.assessment.stack.finding import StackFinding
from torqcheck.assessment.stack.result import ShimResult, StackCheck, SumResult
from torqcheck.assessment.stack.sums import Range
from torqcheck.report.build import CAUTION, assumption_lines, file_line, systems_of
from torqcheck.report.numbers import both, significant
from torqcheck.report.plots.ramp_plot import plot_table
from torqcheck.report.sheet import Column, Note, Sheet, Table
from torqcheck.report.stack.section import range_lines, section_lines
from torqcheck.report.stack.words import (
    DIGITS,
    chance_text,
    length_text,
    number_text,
    stack_words,
    state_names,
)
from torqcheck.report.words import VERDICT_WORDS
from torqcheck.units import System, in_unit

__all__ = ["drawings", "stack_rows", "stack_sheet"]

DECIDES = (
    "The worst case decides: every dimension at the end of its tolerance that hurts. The root sum square "
    "(RSS), 1.5 times it and the chance stand beside it; they need many dimensions that scatter "
    "independently, and of a coupler that is made once there is one of each."
)
CHANCES = (
    "Chance: of touching or coming apart, each length as it scatters. A tolerance counts as two standard "
    "deviations, so that one part in twenty lies outside; an end float is equally likely anywhere in its "
    "play."
)
RANGES = (
    "[ ] worst case, = root sum square, o nominal, : least that is wanted, 0 touching; each result to a "
    "scale of its own."
)
MOST_CONTRIBUTORS = 4


def stack_sheet(
    finding: StackFinding, units: str, pictures: tuple[Table, ...] = (), *, all_rows: bool = False
) -> Sheet:
    """
    Arrange the finding.

    Parameters
    ----------
    finding : StackFinding
        The result.
    units : str
        ``si``, ``inch`` or ``both``; tables show one system, sentences both.
    pictures : tuple of Table
        What is already drawn, put in front of the tables.
    all_rows : bool, optional
        Show every distance among those that widen a result, not only the widest.
    """
    systems, check = systems_of(units), finding.check
    parts: list[Table | Note | None] = [
        *pictures,
        _ranges(check, "engagement", systems[0]),
        _ranges(check, "gap", systems[0]),
        _collars(check, systems[0]),
        _with_shim(check, systems[0]),
        _contributors(check.results, systems[0], None if all_rows else MOST_CONTRIBUTORS),
        Note("How it is reckoned", tuple(_reckoned(finding, systems))),
        Note.of("Assumptions", assumption_lines(finding.assumptions, systems)),
        Note.of("Cautions", (caution.text for caution in finding.cautions)),
    ]
    return Sheet(
        title=f"torqcheck {finding.version}: axial stack, {finding.title}",
        about=(file_line(finding),),
        verdict=finding.verdict,
        words=tuple(stack_words(check, systems)),
        parts=tuple(part for part in parts if part is not None),
        closing=(CAUTION,),
    )


def drawings(check: StackCheck, system: System, *, width: int, encoding: str) -> tuple[Table, ...]:
    """The section, where parts are stated, and the range of each result, drawn with characters."""
    section = section_lines(check, system, width=width, encoding=encoding)
    ranges = range_lines(check, system, width=width, encoding=encoding)
    unit = in_unit(1.0, "length", system)[1]
    drawn = [plot_table(f"Ranges, {unit}", (*ranges, RANGES))]
    if section:
        drawn.insert(0, plot_table(f"Section, upper half, {unit}", tuple(section)))
    return tuple(drawn)


def stack_rows(finding: StackFinding) -> list[dict[str, Any]]:
    """Each result in each state as plain rows for CSV, mm."""
    return [
        {
            "result": one.name,
            "kind": one.kind,
            "joint": one.joint,
            "state": state.state,
            "nominal_mm": f"{1e3 * state.nominal:.6g}",
            "worst_least_mm": f"{1e3 * state.least:.6g}",
            "worst_greatest_mm": f"{1e3 * state.greatest:.6g}",
            "rss_least_mm": f"{1e3 * state.statistical[0]:.6g}",
            "rss_greatest_mm": f"{1e3 * state.statistical[1]:.6g}",
            "rss_x_1.5_least_mm": f"{1e3 * state.widened[0]:.6g}",
            "rss_x_1.5_greatest_mm": f"{1e3 * state.widened[1]:.6g}",
            "chance_below_0": f"{state.chance:.4g}",
            "least_allowed_mm": "" if one.least is None else f"{1e3 * one.least:.6g}",
            "verdict": one.verdict,
        }
        for one in finding.check.results
        for state in (one.assembled, one.running)
    ]


def _ranges(check: StackCheck, kind: str, system: System) -> Table | None:
    """Engagements or gaps, cold and in service."""
    results = [one for one in check.results if one.kind == kind]
    if not results:
        return None
    unit = in_unit(1.0, "length", system)[1]
    columns = (
        Column("Result", width=20),
        Column(""),
        *(Column(title, "right") for title in ("nominal", "least", "greatest", "RSS", "x 1.5", "chance")),
        Column("wanted", "right"),
        Column("Verdict"),
    )
    rows = [row for one in results for row in _rows(one, check, system)]
    title = "Engagement" if kind == "engagement" else "Gaps"
    closing = "of coming apart" if kind == "engagement" else "of touching"
    return Table(
        f"{title}, {unit}",
        columns,
        tuple(rows),
        tuple(one.verdict if first else None for one in results for first in (True, False)),
        "Least, greatest: worst case. RSS, x 1.5: least by root sum square and by 1.5 of it. Chance: "
        f"{closing}.",
    )


def _rows(one: SumResult, check: StackCheck, system: System) -> Iterator[tuple[str, ...]]:
    """Two rows: cold with name and verdict, in service below."""

    def numbers(state: Range) -> tuple[str, ...]:
        values = (state.nominal, state.least, state.greatest, state.statistical[0], state.widened[0])
        return (*(number_text(value, system) for value in values), chance_text(state.chance))

    wanted = "-" if one.least is None else number_text(one.least, system)
    words = state_names(check)
    yield (one.name, words[0], *numbers(one.assembled), wanted, VERDICT_WORDS[one.verdict])
    yield ("", words[1], *numbers(one.running), "", "")


def _signed(value: float, system: System) -> str:
    """A growth with its sign and a digit more; 0 where nothing grows."""
    return "0" if value == 0.0 else f"{in_unit(value, 'length', system)[0]:+.{DIGITS[system] + 1}f}"


def _collars(check: StackCheck, system: System) -> Table | None:
    if not check.collars:
        return None
    unit = in_unit(1.0, "length", system)[1]
    return Table(
        f"Stop collars, {unit}",
        (
            Column("Collar", width=24),
            *(Column(title, "right") for title in ("from", "to", "sits at", "move by")),
            Column("Verdict"),
        ),
        tuple(
            (
                one.name,
                *(number_text(value, system) for value in (one.low, one.high, one.position, one.move)),
                VERDICT_WORDS[one.verdict],
            )
            for one in check.collars
        ),
        tuple(one.verdict for one in check.collars),
        "From there the engagement keeps its least, up to there the gap does, cold and in service.",
    )


def _with_shim(check: StackCheck, system: System) -> Table | None:
    """Every result before and behind the pack of shims."""
    shim: ShimResult | None = check.shim
    if shim is None or not shim.after:
        return None
    unit = in_unit(1.0, "length", system)[1]
    before = {one.name: one for one in check.results}
    rows = [
        (
            one.name,
            number_text(before[one.name].worst, system),
            number_text(one.worst, system),
            number_text(one.greatest, system),
            VERDICT_WORDS[one.verdict],
        )
        for one in shim.after
    ]
    return Table(
        f'With {number_text(sum(shim.pack or ()), system)} {unit} of shims in "{shim.place}"',
        (
            Column("Result", width=24),
            *(Column(title, "right") for title in ("least before", "least then", "greatest then")),
            Column("Verdict then"),
        ),
        tuple(rows),
        tuple(one.verdict for one in shim.after),
        f"Worst case, cold and in service, {unit}.",
    )


def _contributors(results: Sequence[SumResult], system: System, most: int | None) -> Table:
    """The widest distances of each result: which tolerance to tighten."""
    unit = in_unit(1.0, "length", system)[1]
    rows = []
    for one in results:
        for place, each in enumerate(one.contributors[:most]):
            rows.append(
                (
                    one.name if place == 0 else "",
                    each.name,
                    f"+/- {number_text(each.tolerance, system)}",
                    f"{100.0 * each.share_of_worst:.0f} %",
                    f"{100.0 * each.share_of_variance:.0f} %",
                    _signed(each.growth, system),
                )
            )
    return Table(
        f"What widens each result, the widest first: tighten these ({unit})",
        (
            Column("Result", width=18),
            Column("Distance"),
            *(Column(title, "right") for title in ("tolerance", "of worst", "of RSS", "growth")),
        ),
        tuple(rows),
        legend="Of worst, of RSS: share of the tolerance and of the variance of the sum. Growth: what "
        "it adds to the sum in service.",
    )


def _reckoned(finding: StackFinding, systems: tuple[System, ...]) -> Iterator[str]:
    """Which rule decides, how chances are counted, and what heating does to the bearings."""
    check = finding.check
    yield DECIDES
    yield CHANCES
    yield (
        f"Assembled at {both(check.assembled_at, 'temperature', systems)}, in service "
        f"{both(check.running_at, 'temperature', systems)} unless a part has its own; growth is expansion x "
        "length x rise, by the table of expansions."
    )
    for one in finding.forces:
        yield (
            f"{one.joint}: in service the overlap changes by {length_text(one.growth, systems)}. Under "
            f"{both(one.torque, 'torque', systems)} the flanks hold {both(one.force, 'force', systems)} "
            "along the axis before they slide; bearings on both sides take it while the parts warm up. Leave "
            "float, keep it greased."
        )
        yield (
            f"{one.joint}: at its least the engagement is {significant(one.pitch_diameters, 2)} pitch "
            "diameters; 0.75 to 1.25 is common practice [published]. Whether it carries the "
            "torque, `torqcheck assess` says."
        )
    yield (
        "Mark the nose with marking blue on a dry assembly, turn it by hand a full turn: no rub, no contact "
        "at the end of the stroke. A hub that is closed pumps its grease like a piston: give it a vent hole."
    )
