"""Steels side by side, for people."""

import math
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from torqcheck.assessment.compare.advice import cheapest_that_passes
from torqcheck.assessment.compare.choices import SIDES
from torqcheck.assessment.compare.notes import MemberNotes, hardness_words
from torqcheck.assessment.compare.result import COST_IS, Choice, Comparison
from torqcheck.assessment.compare.row import HOUR, Found
from torqcheck.assessment.result import Link
from torqcheck.report.build import CAUTION, file_line, range_text
from torqcheck.report.formats.layout import table_gap
from torqcheck.report.numbers import about, significant
from torqcheck.report.plots.compare_plot import sign_of
from torqcheck.report.sheet import Column, Note, Sheet, Table

__all__ = ["compare_rows", "compare_sheet"]

NARROW = 80
IN_FULL = 3
"""Choices whose notes are written out."""
MOST_LETTERS = 12
PARTS = {"external": "shaft", "internal": "hub"}
DOMINATED = (
    "Dominated: another choice is at least as good in all that is compared (verdict, safety factor over "
    "target of the path and of the joint, wear life p10, fatigue life, cost, longest lead) and better in at "
    "least one; where only one of two states a life or a cost, neither dominates. Equal choices stay."
)
PAIRS = (
    "In practice both halves are equally hard, or the one that is cheaper and easier to replace is the "
    "softer one, so that it wears first and spares the other (common practice, no source; within 15 % in "
    "Vickers counts as equal, assumed). The hub is the easier one, unless an old hub meets a new shaft."
)
_Cells = Mapping[str, str]


def compare_sheet(found: Comparison, plot: Table | None = None) -> Sheet:
    """
    Arrange a comparison: what to order, the table, the notes of the first few, what was changed.

    Parameters
    ----------
    found : Comparison
        The result.
    plot : Table, optional
        Safety against cost, drawn.
    """
    parts: list[Table | Note | None] = [
        _table(found) if found.rows else None,
        plot,
        Note("The weakest check", tuple(_weakest(found))) if found.rows else None,
        *_in_full(_first(found)),
        Note("The pairing rule", (PAIRS,)) if found.rows else None,
        Note("What was compared", tuple(_compared(found))),
        _not_checked(found),
    ]
    return Sheet(
        title=f"torqcheck {found.version}: steels side by side, {found.title}",
        about=(*found.advice, "", *_in_file(found), "", file_line(found)),
        verdict=None,
        words=(),
        parts=tuple(part for part in parts if part is not None),
        closing=(CAUTION,),
    )


def compare_rows(found: Comparison) -> list[dict[str, Any]]:
    """The choices as plain rows for CSV; one empty row if none is left."""
    rows = [_plain(row) for row in found.rows]
    if rows:
        return rows
    return [dict.fromkeys(("external", "internal", "safety_factor", "verdict", "cost_index"))]


def _plain(row: Choice) -> dict[str, Any]:
    full = row.to_dict()
    kept = (
        "external",
        "internal",
        "safety_factor",
        "target",
        "verdict",
        "joint_safety_factor",
        "joint_target",
    )
    plain: dict[str, Any] = {name: _cell(full[name]) for name in kept}
    for start in ("", "joint_"):
        link = full[f"{start}governing"] or {}
        plain |= {f"{start}governing_{name}": link.get(name) for name in ("joint", "check", "method")}
        interval = full[f"{start}interval"] or {}
        plain |= {f"{start}safety_factor_{end}": _cell(interval.get(end)) for end in ("p5", "p95")}
    plain |= {f"life_hours_{end}": _cell(full["life_hours"][end]) for end in ("p10", "p50")}
    plain |= {name: _cell(full[name]) for name in ("life_reason", "fatigue_life_hours", "cost_index")}
    for side, one in zip(SIDES, row.steels, strict=True):
        plain[f"cost_{side}"] = full["cost"][side]
        plain[f"flank_{side}_HV"] = _cell(full["hardness"][side]["flank_HV"])
        plain[f"order_{side}"] = None if one is None else row.notes[side].order
    plain |= {f"lead_days_{end}": full["lead_days"][end] for end in ("min", "max")}
    plain |= {"pairing": full["pairing"], "pairing_holds": "yes" if full["pairing_holds"] else "no"}
    better = full["dominated_by"]
    plain["dominated"] = "yes" if better else "no"
    plain["dominated_by"] = f"{better['external']} / {better['internal']}" if better else None
    return plain


def _cell(value: Any) -> Any:
    return f"{value:.6g}" if isinstance(value, float) else value


def _in_file(found: Comparison) -> Iterator[str]:
    """What the file has now, to compare with."""
    yield (
        f"AS IN THE FILE: {found.external} / {found.internal}, {_safety(found.base.weakest)}, "
        f"{found.base.verdict}."
    )
    for hindrance in found.base.hindered:
        if hindrance.what == "false fit":
            yield (
                f"FALSE FIT as the file stands, at {hindrance.joint}: whatever the steel, these two parts "
                "are no mates. A new part is taken as cut to the size in the file; count the teeth of its "
                "mate first."
            )


def _safety(link: Link | None) -> str:
    if link is None:
        return "nothing is loaded"
    return (
        f"safety factor {significant(link.safety_factor)} against {link.target:.3g} "
        f"({link.joint}, {link.check})"
    )


def _table(found: Comparison) -> Table:
    """One line for each choice; columns that find no room in 80 characters are left to JSON and CSV."""
    rows = [_cells(row, found) for row in found.rows]
    names = list(rows[0])
    if _governs(found):
        names.remove("Here")
    if all(row.dominated_by is None for row in found.rows):
        names.remove("By")
    for empty in ("Wear h", "Fatigue h"):
        if all(row[empty] in {"-", "endless"} for row in rows):
            names.remove(empty)
    left: list[str] = []
    for name in ("Range", "Days", "Fatigue h") if "Here" in names else ("Days", "Fatigue h", "Range"):
        if name in names and not _fits(_laid_out(names, rows)):
            names.remove(name)
            left.append(name)
    title = f"{_sides(found).capitalize()} of {found.joint}: {_order(found.sort)} first"
    table = _laid_out(names, rows)
    return Table(title, table.columns, table.rows, legend=_legend(found, names, left))


def _laid_out(names: Sequence[str], rows: Sequence[_Cells]) -> Table:
    left = {"", "Steel", "Verdict", "Pair", "By"}
    columns = tuple(
        Column(name, "left" if name in left else "right", 19 if name == "Steel" else None) for name in names
    )
    return Table("", columns, tuple(tuple(row[name] for name in names) for row in rows))


def _fits(table: Table) -> bool:
    widths, _ = table_gap(table, 10 * NARROW)
    return sum(widths) + len(widths) - 1 <= NARROW


def _governs(found: Comparison) -> bool:
    """Whether the weakest check of the path is at this joint, whatever the choice."""
    links = (row.found.weakest for row in found.rows)
    return all(link is None or link.joint == found.joint for link in links)


def _sides(found: Comparison) -> str:
    return " and ".join(PARTS[side] for side in found.sides)


def _order(sort: str) -> str:
    return {"safety": "safest", "cost": "cheapest", "life": "longest lived", "hardness": "hardest"}[sort]


def _cells(row: Choice, found: Comparison) -> dict[str, str]:
    """Every cell that a row may have."""
    weakest, check = row.found.weakest, row.found
    days = row.lead_days
    cost = "-" if row.cost_index is None else f"{row.cost_index:.1f}"
    return {
        "": sign_of(row),
        "Steel": row.name,
        "Safety": _of_target(weakest),
        "Here": _of_target(check.here),
        "Range": range_text(weakest.interval if weakest is not None else None),
        "Verdict": check.verdict,
        "Hard": "/".join(hardness_words(one) for one in row.steels if one is not None),
        "Wear h": "-" if check.life is None else about(check.life[0] / HOUR),
        "Fatigue h": _fatigue(check),
        "Cost": cost,
        "Pair": "ok" if row.pairing.holds else "no",
        "By": _by(row, found),
        "Days": "-" if None in days else f"{days[0]:g}-{days[1]:g}",
    }


def _of_target(link: Link | None) -> str:
    return "-" if link is None else f"{significant(link.safety_factor)}/{link.target:.3g}"


def _by(row: Choice, found: Comparison) -> str:
    """Letter of the choice that dominates this one."""
    if row.dominated_by is None:
        return ""
    letters = {(other.external, other.internal): other.letter for other in found.rows}
    return letters.get(row.dominated_by, "") or "+"


def _fatigue(found: Found) -> str:
    if found.fatigue_life is None:
        return "-"
    return "endless" if math.isinf(found.fatigue_life) else about(found.fatigue_life / HOUR)


def _legend(found: Comparison, names: list[str], left: list[str]) -> str:
    """What the columns are."""
    words = [
        "Safety: weakest check of the whole path / its target; which is the weakest, and the safest, goes by "
        "the ratio of the two."
    ]
    if "Here" in names:
        words.append(f"Here: the same for {found.joint} alone, as another joint is weaker.")
    if "Range" in names:
        words.append("Range: 5th to 95th percentile of the factor.")
    words.append("Hard: low end of the flank.")
    if "Wear h" in names:
        words.append("Wear h: nine joints in ten reach it (p10).")
    else:
        reason = next((row.found.life_reason for row in found.rows if row.found.life_reason), "")
        words.append(f"No wear life is stated ({reason}).")
    if "Fatigue h" in names:
        words.append("Fatigue h: running hours to a damage of 1 at this joint.")
    if all(row.found.fatigue_life == math.inf for row in found.rows):
        words.append("Fatigue of the joint: beyond what is known, with every choice.")
    cost = f"Cost: {COST_IS}"
    words.append(f"{cost}; the sum of both members." if len(found.sides) > 1 else f"{cost}.")
    if "Days" in names:
        words.append("Days: working days of the heat treatment, indicative.")
    if "By" in names:
        words.append("By: the choice that dominates this one (+: one that has no letter, see JSON).")
    words += ["Pair: whether it keeps the pairing rule below.", DOMINATED]
    if left:
        words.append(f"Not shown for want of room, in JSON and CSV: {', '.join(left)}.")
    return " ".join(words)


def _weakest(found: Comparison) -> Iterator[str]:
    """Which check of the path is the weakest, and with how many choices."""
    where: dict[tuple[str, str], list[Choice]] = {}
    for row in found.rows:
        link = row.found.weakest
        if link is not None:
            where.setdefault((link.joint, link.check), []).append(row)
    for (joint, check), rows in where.items():
        number = "every choice" if len(rows) == len(found.rows) else f"{len(rows)} of {len(found.rows)}"
        letters = [row.letter for row in rows if row.letter]
        few = 0 < len(letters) <= MOST_LETTERS and len(rows) < len(found.rows)
        named = f" ({', '.join(letters)})" if few else ""
        yield f"{joint}, {check}: with {number}{named}"


def _first(found: Comparison) -> list[Choice]:
    """The choices to write out: the cheapest that passes, then those that nothing dominates."""
    best = [row for row in found.rows if row.dominated_by is None]
    cheapest = cheapest_that_passes(found.rows)
    if cheapest is not None:
        best = [cheapest, *(row for row in best if row is not cheapest)]
    return best[:IN_FULL]


def _in_full(rows: list[Choice]) -> Iterator[Note]:
    """Everything about some choices, in sentences; what stands there already is not said again."""
    said: set[tuple[str, str]] = set()
    for row in rows:
        items = [*_of_checks(row), *_of_pair(row)]
        for side, one in zip(SIDES, row.steels, strict=True):
            if one is None:
                continue
            part = f"{PARTS[side]}, " if len(row.notes) > 1 else ""
            if (side, one.id) in said:
                items.append(f"{part}{one.id}: as above")
                continue
            said.add((side, one.id))
            items += [f"{part}{text}" for text in _of_steel(row.notes[side])]
        yield Note(f"{sign_of(row)}: {row.name}", tuple(items))


def _of_steel(notes: MemberNotes) -> Iterator[str]:
    """What to know of one steel, the order first."""
    said = (
        ("order", notes.order),
        ("machining", notes.machining),
        ("welding", notes.welding),
        ("heat treatment", notes.heat_treatment),
        ("hardening", notes.hardening),
        ("distortion", notes.distortion),
        ("drawing", notes.drawing),
        ("lead", notes.lead),
        ("section", notes.section),
        ("mind", notes.data),
    )
    yield from (f"{label}: {text}" for label, text in said if text)


def _of_checks(row: Choice) -> Iterator[str]:
    found = row.found
    yield f"{_safety(found.weakest)}; {found.verdict}"
    if found.here is not None and found.here != found.weakest:
        yield f"at this joint itself: {_safety(found.here)}; {found.joint_verdict}"
    if found.life is not None:
        low, middle = (about(end / HOUR) for end in found.life)
        yield f"wear life {low} h (p10), {middle} h (p50); {found.life_reason} ends it"
    else:
        yield f"no wear life: {found.life_reason}"
    if found.fatigue_life == math.inf:
        yield "fatigue life beyond what is known"
    elif found.fatigue_life is None:
        yield f"no fatigue life: {found.fatigue_reason}"
    else:
        yield f"fatigue life {_fatigue(found)} h"
    if len([cost for cost in row.costs if cost is not None]) > 1 and row.cost_index is not None:
        yield f"relative cost {row.costs[0]:g} (shaft) + {row.costs[1]:g} (hub) = {row.cost_index:.3g}"


def _of_pair(row: Choice) -> Iterator[str]:
    shaft, hub = row.found.vickers
    rule = "keeps the rule" if row.pairing.holds else "AGAINST THE RULE"
    yield f"pair {rule}: {row.pairing.word}, {shaft:.0f} HV on {hub:.0f} HV; {row.pairing.why}"


def _compared(found: Comparison) -> Iterator[str]:
    """What was changed, taken in and left out."""
    if found.assumed:
        yield found.assumed
    yield found.changed
    number = "1 choice" if found.checked == 1 else f"{found.checked} choices, each"
    yield f"{number} checked as torqcheck assess checks the edited file."
    if not found.rows:
        yield "None is left to show."
    if found.hidden:
        yield "Hidden: " + "; ".join(f"{count} {reason}" for reason, count in found.hidden.items()) + "."
    if found.left_out:
        gone = "; ".join(f"{count} ({reason})" for reason, count in found.left_out.items())
        yield f"Steels of the tables that were not taken in: {gone}."


def _not_checked(found: Comparison) -> Note | None:
    if not found.not_checked:
        return None
    items = tuple(f"{one.external} / {one.internal}: {one.reason}" for one in found.not_checked)
    return Note("Not checked", items)
