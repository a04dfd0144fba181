"""What moves the weakest link most, for people."""

from collections.abc import Iterator
from typing import Any

from torqcheck.assessment.ranges.influence_result import Influence, InfluenceRow, WearShares, spread_from
from torqcheck.assessment.ranges.uncertain import Uncertain
from torqcheck.assessment.verdict.beside import factor_beside
from torqcheck.report.build import CAUTION, file_line, systems_of
from torqcheck.report.numbers import both, chance_words, significant
from torqcheck.report.sheet import Column, Note, Sheet, Table
from torqcheck.units import System

__all__ = ["influence_rows", "influence_sheet"]

LEAST_SHARE = 0.005
"""Smaller shares are counted and not listed."""
BAR = 20
"""Characters of a bar that stands for the whole spread."""
CSV_COLUMNS = (
    "key",
    "share",
    "share_p2_5",
    "share_p97_5",
    "first_order",
    "p5_if_known",
    "p95_if_known",
    "meaning",
    "value",
    "low",
    "high",
    "spread_from",
    "mark",
    "better",
)
LEGEND = (
    "Share: total effect on the logarithm of the lowest factor, the part of its spread that would be left if "
    "all else were known; in brackets how sure, 95 of 100 repeats. Range if known: 5th to 95th percentile of "
    "the lowest factor if this one value were known exactly."
)
MODELS = (
    "The ranking speaks of the numbers that were put in, not of the models: a wrong steel, a missed crack or "
    "a formula that does not fit are in none of these shares."
)


def influence_sheet(found: Influence, units: str) -> Sheet:
    """
    Arrange the ranking: the answer in a sentence, the bars, how to know each better, the wear life.

    Parameters
    ----------
    found : Influence
        The result.
    units : str
        ``si``, ``inch`` or ``both``.
    """
    systems = systems_of(units)
    named = [row for row in found.rows if row.share >= LEAST_SHARE]
    better = tuple(_in_full(row, systems) for row in named)
    parts: list[Table | Note | None] = [
        _ranking(named) if named else None,
        Note.of("What these are, and how to know them better", better),
        Note("How sure", tuple(_how_sure(found, len(found.rows) - len(named)))),
        *(_wear(entry) for entry in found.wear),
    ]
    return Sheet(
        title=f"torqcheck {found.version}: what moves the weakest link, {found.title}",
        about=(*_answer(found, named), "", file_line(found)),
        verdict=None,
        words=(),
        parts=tuple(part for part in parts if part is not None),
        closing=(CAUTION,),
    )


def influence_rows(found: Influence) -> list[dict[str, Any]]:
    """The ranking as plain rows for CSV; one empty row stands for a path in which nothing is uncertain."""
    rows = []
    for row in found.rows:
        plain = row.to_dict()
        interval = plain.pop("interval_if_known")
        plain |= {"p5_if_known": interval["p5"], "p95_if_known": interval["p95"]}
        rows.append(
            {
                name: f"{plain[name]:.6g}" if isinstance(plain[name], float) else plain[name]
                for name in CSV_COLUMNS
            }
        )
    return rows or [dict.fromkeys(CSV_COLUMNS)]


def _answer(found: Influence, named: list[InfluenceRow]) -> Iterator[str]:
    """The answer in sentences."""
    weakest, interval = found.weakest, found.interval
    if weakest is None or interval is None:
        yield "Nothing loads the joints, so that no link is the weakest."
        return
    chance = chance_words(found.chance_below_one or 0.0, found.blows)
    yield (
        f"WEAKEST LINK: {weakest.joint}, {weakest.check} ({weakest.method}), safety factor "
        f"{significant(weakest.safety_factor)} against a target of {weakest.target:.3g}. The lowest factor "
        f"of all checks of the joints as a whole {_lies('lies', interval)}; chance that it is below 1: "
        f"{chance}."
    )
    yield from _apart(found)
    if not named:
        yield "Nothing that was read or assumed moves it."
        return
    best = named[0]
    yield (
        f"KNOW BETTER FIRST: {best.uncertain.key}, {best.uncertain.meaning}. It makes "
        f"{_percent(best.share)} of the spread; if it were known exactly, the lowest factor "
        f"of the joints as a whole would {_lies('lie', best.interval_if_known)}."
    )


def _apart(found: Influence) -> Iterator[str]:
    """Checks of the first tooth alone: each that is short, else the weakest of them."""
    short = [link for link in found.apart if link.safety_factor < link.target] or list(found.apart[:1])
    for link in short:
        chance = ""
        if link.chance_below_one is not None:
            chance = f"; chance that it is below 1: {chance_words(link.chance_below_one, found.blows)}"
        yield (
            f"JUDGED APART, the first tooth alone: {link.joint}, {link.check} ({link.method}), safety factor "
            f"{factor_beside(link.safety_factor, link.target)} against a target of {link.target:.3g}{chance}."
        )


def _lies(verb: str, interval: tuple[float, float]) -> str:
    """Where a factor lies: between two ends, or at one where they read the same."""
    low, high = (significant(end) for end in interval)
    if low == high:
        return f"{verb} at {low}, with less spread than these digits show"
    return f"{verb} between {low} and {high}"


def _percent(share: float) -> str:
    return f"{100.0 * min(share, 1.0):.0f} %"


def _ranking(named: list[InfluenceRow]) -> Table:
    """Bars of the shares, the largest first."""
    rows = tuple(
        (
            row.uncertain.key,
            _bar(row.share),
            _percent(row.share),
            "({:.0f}-{:.0f})".format(*(100.0 * min(end, 1.0) for end in row.share_band)),
            "-".join(significant(end) for end in row.interval_if_known),
        )
        for row in named
    )
    columns = (
        Column("Reading or assumption", width=32),
        Column(""),
        Column("Share", "right"),
        Column("sure"),
        Column("Range if known"),
    )
    return Table("What moves the weakest link, most first", columns, rows, legend=LEGEND)


def _bar(share: float) -> str:
    """A bar of characters; what is listed shows at least one."""
    return "#" * max(1, round(BAR * min(share, 1.0)))


def _in_full(row: InfluenceRow, systems: tuple[System, ...]) -> str:
    """One value with its spread, in words."""
    entry = row.uncertain
    low, high = entry.ends
    ends = " and ".join(_shown(entry, end, systems[:1]) for end in (low, high))
    better = f" Better: {entry.better}." if entry.better else ""
    return (
        f"{entry.key} = {_shown(entry, entry.value, systems)} [{entry.mark}], {entry.meaning}; between "
        f"{ends} ({spread_from(entry)}).{better}"
    )


def _shown(entry: Uncertain, value: float, systems: tuple[System, ...]) -> str:
    if entry.scale:
        return f"{significant(value)} {entry.scale}"
    # a tolerance shows in the fourth digit
    return significant(value) if entry.kind is None else both(value, entry.kind, systems, 4)


def _how_sure(found: Influence, unlisted: int) -> Iterator[str]:
    """What the ranking rests on."""
    if len(found.governing) > 1:
        shares = "; ".join(
            f"{joint}, {check} ({method}) in {_percent(share)}"
            for joint, check, method, share in found.governing[:4]
        )
        yield f"Which check is the weakest changes from draw to draw: {shares}."
    if found.evaluations:
        yield (
            f"Shares from {found.evaluations} evaluations in 8 independent repeats, whose scatter is given; "
            f"ranges from {found.draws} draws, {found.blows} of them of the blow."
        )
    if unlisted:
        yield f"{unlisted} more move it by less than 1 part in 200 each."
    if found.unmoved:
        yield f"These move no safety factor: {', '.join(found.unmoved)}."
    yield MODELS


def _wear(entry: WearShares) -> Table:
    """What makes a wear life uncertain: a ranking of its own."""
    rows = tuple(
        (what, _bar(share), _percent(share), f"{sigma:.2g}", better)
        for what, sigma, share, better in entry.parts
    )
    columns = (
        Column("", width=24),
        Column("", width=BAR),
        Column("Share", "right"),
        Column("Sigma", "right"),
        Column("Better", width=28),
    )
    legend = (
        "Another question than above: shares of the square of sigma, of the logarithm of the wear life; "
        f"sigmas of independent factors add as squares, here to {entry.sigma:.2g}."
    )
    if entry.grease:
        legend += " The time for which the grease works is not known either and comes on top"
        drawn = entry.sigma_drawn
        legend += f": with it the draws have {drawn:.2g}." if drawn is not None else "."
    return Table(f"What makes the wear life uncertain at {entry.joint}", columns, rows, legend=legend)
