"""Solve for the hardness: every row of the steel tables in the place of the steel of the file."""

from collections.abc import Mapping, Sequence
from typing import Any

from torqcheck.assessment.size.asker import Asker, standing
from torqcheck.assessment.size.from_list import common_fields, helpless, list_reason, points_of
from torqcheck.assessment.size.result import Point, Value
from torqcheck.assessment.size.standard_sizes import Choice
from torqcheck.assessment.size.steels import bands, cost, steel_changes, steel_rows, wanted_sides
from torqcheck.assessment.size.words import demand_words
from torqcheck.materials import Steel, band_words

__all__ = ["solved_hardness"]


def solved_hardness(asker: Asker, side: str | None) -> dict[str, Any]:
    """
    Ask every row of the steel tables; a band holds where one of its rows does.

    Parameters
    ----------
    asker : Asker
        Asks about scenarios with a steel in the place of the present one.
    side : str or None
        "external", "internal" or "both"; None for the parts that are new, or for both.

    Returns
    -------
    dict
        Fields of `Size`.
    """
    sides = wanted_sides(asker.scenario, asker.index, side)
    choices = _steel_choices(asker, sides)
    trials = asker.trials([choice.changes for choice in choices])
    apart, reached = standing(trials)
    aside = frozenset(demand.key for demand in (*apart, *reached))
    points = points_of(choices, trials, aside)
    holding = [i for i, point in enumerate(points) if point.holds]
    pick = min(
        holding, key=lambda i: (choices[i].order, choices[i].extra["cost_index"] or 99.0), default=None
    )
    # where something is out of reach, the table shows it: nothing then holds
    only_apart = frozenset(demand.key for demand in apart)
    shown = points_of(choices, trials, only_apart) if reached else points
    fields = common_fields(asker, "hardness", choices, shown, None if reached else pick)
    parts = " and ".join({"external": "the shaft", "internal": "the hub"}[name] for name, _ in sides if name)
    table = _band_table(choices, shown)
    fields |= {
        "now": _now(asker, sides),
        "notes": _hardness_notes(parts),
        "gaps": (),
        "stopped_by": apart,
        "out_of_reach": reached,
        "rest": choices[pick].value if pick is not None and reached else None,
        "unit": "hardness class",
        "wanted": "softest",
        "extra": {"sides": [name for name, _ in sides if name], "bands": table},
    }
    if pick is not None and not reached:
        fields["extra"]["steel"] = choices[pick].label
    fields |= helpless(asker, "hardness", choices, trials, fields)
    return fields | {"reason": _hardness_reason(fields, table, choices, pick)}


def _steel_choices(asker: Asker, sides: Sequence[tuple[str, str]]) -> list[Choice]:
    order = {band: place for place, band in enumerate(bands())}
    rows = sorted(steel_rows(asker.scenario), key=lambda s: (order[s.hardness_class], *cost(s)))
    return [_steel_choice(asker, steel, sides, order[steel.hardness_class]) for steel in rows]


def _steel_choice(asker: Asker, steel: Steel, sides: Sequence[tuple[str, str]], order: int) -> Choice:
    changes = steel_changes(asker.scenario, asker.index, [place for _, place in sides], steel)
    index_of_cost = steel.notes.cost_index
    return Choice(
        order=float(order),
        label=steel.id,
        value=Value(steel.hardness_class, f"{band_words(steel.hardness_class)}, {steel.id}"),
        unit="hardness class",
        changes=changes,
        note=steel.hardness_class,
        extra={"steel": steel.id, "condition": steel.condition, "cost_index": index_of_cost},
    )


def _now(asker: Asker, sides: Sequence[tuple[str, str]]) -> str:
    """Steel of the parts as it is."""
    joint: Any = asker.scenario.joint[asker.index]
    parts = [joint if not place else getattr(joint, place) for _, place in sides]
    return ", ".join(str(part.steel) for part in parts)


def _band_table(choices: Sequence[Choice], points: Sequence[Point]) -> list[dict[str, Any]]:
    """One row for each band: rows tried, rows that hold, the cheapest of these."""
    table = []
    for order, band in enumerate(bands()):
        here = [i for i, choice in enumerate(choices) if choice.order == order]
        if not here:
            continue
        good = [i for i in here if points[i].holds]
        nearest = max(here, key=lambda i: points[i].margin or 0.0)
        shown = good[0] if good else nearest
        table.append(
            {
                "band": band,
                "words": band_words(band),
                "rows": len(here),
                "hold": len(good),
                "steel": choices[shown].label,
                "cost_index": choices[shown].extra["cost_index"],
                "safety_factor": points[shown].safety_factor,
                "governing": points[shown].governing,
                "holding": [choices[i].label for i in good],
            }
        )
    return table


def _hardness_notes(parts: str) -> tuple[str, ...]:
    of = f" for {parts}" if parts else ""
    return (
        f"Each band of the guide was tried{of} with the steels of the tables that lie in it: one after the "
        "other in place of the steel of the file, as a new part, without what was read on the old one. "
        "Strength and core go with the steel, so that two of one band may differ.",
        "A row holds for the section of bar that the table states; torqcheck materials NAME shows it.",
    )


def _hardness_reason(
    fields: Mapping[str, Any], table: Sequence[Mapping[str, Any]], choices: Sequence[Choice], pick: int | None
) -> str:
    if fields["value"] is None or pick is None:
        return list_reason("hardness", fields, fields["curve"])
    band = fields["value"].si
    here = next(row for row in table if row["band"] == band)
    softer = table[: table.index(here)]
    words = f"{here['hold']} of {here['rows']} rows of this band hold, {choices[pick].label} is the cheapest."
    if softer:
        last = softer[-1]
        words += (
            f" In the next softer band, {last['words']}, none does; nearest is {last['steel']}: "
            f"{last['governing']}."
        )
    if fields["stopped_by"]:
        words += " The steel does not change this, which stops a pass: "
        words += "; ".join(demand_words(demand) for demand in fields["stopped_by"]) + "."
    return words
