"""What a sweep found, for people: how many points pass, the best and the worst, what each key does."""

from collections.abc import Iterator
from typing import Any

import numpy as np

from torqcheck.assessment.sweep.summary import KeyEffect, Point, SweepSummary
from torqcheck.assessment.sweep.table import Table as Rows
from torqcheck.assessment.sweep.table import Words
from torqcheck.report.build import CAUTION, file_line
from torqcheck.report.numbers import significant
from torqcheck.report.sheet import Column, Note, Sheet, Table

__all__ = ["summary_rows", "sweep_sheet"]

MOST_ROWS = 25
"""So many points are listed one by one where the rows go to no file."""
METHODS = {
    "guide": "the guide's checks of the splined joints: root shear, pitch-line shear, flank pressure and "
    "bursting, each under the steady torque with its application factor and under the simulated blow. Not in "
    "it: other joints, wear, fatigue, mates, readings that are missing. Before a point is used, assess it",
    "all": "the full assessment of every point, all its checks and lives",
}
RANKED = (
    "Rank correlation: +1 where the factor only rises with the key, -1 where it only falls, 0 where the key "
    "tells nothing of it. Medians: of the factor over target in up to eight stretches of the key."
)


def sweep_sheet(
    found: SweepSummary, plots: tuple[Table, ...] = (), rows: tuple[Rows, ...] = (), out: str = ""
) -> Sheet:
    """
    Arrange the summary of a sweep.

    Parameters
    ----------
    found : SweepSummary
        The sweep.
    plots : tuple of Table, optional
        Pictures made of characters.
    rows : tuple of Rows, optional
        The points themselves, where they went to no file.
    out : str, optional
        The file that they went to.
    """
    parts: list[Table | Note] = [_factors(found), _keys(found), *plots]
    count = sum(table.count for table in rows)
    if 0 < count <= MOST_ROWS:
        parts.append(_listed(found, rows))
    parts.append(Note("What was asked", tuple(_asked(found, out, count))))
    return Sheet(
        title=f"torqcheck {found.version}: sweep, {found.title}",
        about=(*_answer(found), "", file_line(found)),
        verdict=None,
        words=(),
        parts=tuple(parts),
        closing=(CAUTION,),
    )


def summary_rows(found: SweepSummary) -> list[dict[str, Any]]:
    """The summary as plain rows for CSV: one for each key."""
    rows = []
    for effect in found.effects:
        low, high = effect.range or (None, None)
        rows.append(
            {
                "key": effect.title,
                "at_worst": None if found.worst is None else found.worst.values[effect.title],
                "at_best": None if found.best is None else found.best.values[effect.title],
                "rank_correlation": effect.rank_correlation,
                "lowest_median": low,
                "highest_median": high,
                "points": found.points,
                "refused": found.refused,
                "passing": found.passing,
                "smallest": None if found.worst is None else found.worst.margin,
                "median": found.median,
                "largest": None if found.best is None else found.best.margin,
            }
        )
    return rows


def _answer(found: SweepSummary) -> Iterator[str]:
    """The answer in sentences."""
    if not found.answered:
        yield f"None of {found.points:,} points is possible: the rules of the scenario file refuse them all."
        return
    share = found.passing / found.answered
    passing = f"{found.passing:,} of {found.answered:,} points"
    checks = "every check" if found.method == "all" else "every check of the guide"
    yield f"{passing} reach the target in {checks} ({_percent(share)})."
    if found.method != "all":
        yield "Mates, wear, fatigue and first tooth were not asked: --method all, or torqcheck assess."
    if found.refused:
        yield f"{found.refused:,} more have no result: see the column refused."
    if found.unloaded:
        yield f"Of those {found.unloaded:,} load nothing."
    words = {word: number for word, number in found.tally.items() if word != "refused"}
    if words:
        yield "Verdicts: " + ", ".join(f"{word} {number:,}" for word, number in sorted(words.items())) + "."


def _percent(share: float) -> str:
    """A share in percent that never rounds to all or none."""
    percent = 100.0 * share
    if 0.0 < percent < 0.1:
        return "less than 0.1 %"
    if 99.9 < percent < 100.0:
        return "more than 99.9 %"
    return f"{percent:.3g} %"


def _factors(found: SweepSummary) -> Table:
    def line(name: str, point: Point | None) -> tuple[str, str, str]:
        return (name, "none", "") if point is None else (name, significant(point.margin), f"{point.number:,}")

    median = "none" if found.median is None else significant(found.median)
    return Table(
        "Weakest safety factor over its target",
        (Column(""), Column("factor / target", "right"), Column("point", "right")),
        (line("smallest", found.worst), ("median", median, ""), line("largest", found.best)),
    )


def _keys(found: SweepSummary) -> Table:
    """One row for each key."""
    columns = (
        Column("key", width=34),
        Column("at worst", "right"),
        Column("at best", "right"),
        Column("rank corr.", "right"),
        Column("medians", "right"),
    )
    return Table("What each key does", columns, tuple(_key(found, e) for e in found.effects), legend=RANKED)


def _key(found: SweepSummary, effect: KeyEffect) -> tuple[str, ...]:
    ends = [
        "" if point is None else f"{point.values[effect.title]:.6g}" for point in (found.worst, found.best)
    ]
    correlation = "none" if effect.rank_correlation is None else f"{effect.rank_correlation:+.2f}"
    span = effect.range
    medians = "none" if span is None else " to ".join(significant(value) for value in span)
    return effect.title, *ends, correlation, medians


def _listed(found: SweepSummary, rows: tuple[Rows, ...]) -> Table:
    """The points one by one."""
    titles = [effect.title for effect in found.effects]
    columns = (
        Column("point", "right"),
        *(Column(title, "right", 22) for title in titles),
        Column("factor / target", "right", 8),
        Column("weakest, or why refused", width=34),
    )
    lines: list[tuple[str, ...]] = []
    for table in rows:
        for index in range(table.count):
            keys = [f"{np.asarray(table.columns[title])[index]:.6g}" for title in titles]
            margin = float(table.margin[index])
            factor = "" if np.isnan(margin) else significant(margin)
            why = _check_words(_text(table, "weakest", index)) or _text(table, "refused", index)
            lines.append((f"{len(lines) + 1}", *keys, factor, why))
    return Table("Points", columns, tuple(lines))


def _check_words(column: str) -> str:
    """A check by the name of its column, in words: joint[1] flank pressure (tabulated)."""
    joint, dot, check = column.partition("].")
    for way in ("tabulated", "simulated"):
        check = check.replace(f"_{way}", f" ({way})")
    return f"{joint}] {check.replace('_', ' ')}" if dot else column


def _text(table: Rows, name: str, index: int) -> str:
    words = table.columns[name]
    assert isinstance(words, Words)
    code = int(words.code[index])
    return words.text[code] if code >= 0 else ""


def _asked(found: SweepSummary, out: str, kept: int) -> Iterator[str]:
    """How the points were chosen, what was computed, where it is."""
    if found.design == "grid":
        yield f"{found.points:,} points: every combination of the values."
    else:
        yield f"{found.points:,} points of a Latin hypercube, seed {found.seed}."
    yield f"Method {found.method}: {METHODS[found.method]}."
    if found.ranked < found.points:
        yield f"Rank correlations and medians come from {found.ranked:,} points drawn at random."
    if out:
        yield f"The rows are in {out}."
    elif kept > MOST_ROWS:
        yield "The rows were not kept: name a file with --out FILE.csv or FILE.parquet."
