"""Solve over a list: sizes of a standard, or other pitches of about the same diameter."""

from collections.abc import Mapping, Sequence
from typing import Any

from torqcheck.assessment.size.asker import Asker, point_of, standing, unheard
from torqcheck.assessment.size.remedies import remedies_of
from torqcheck.assessment.size.result import Gap, Point
from torqcheck.assessment.size.search import Sample, find_windows
from torqcheck.assessment.size.standard_sizes import Choice, pitch_choices, size_choices
from torqcheck.assessment.size.trial import Key, Trial
from torqcheck.assessment.size.words import demand_words
from torqcheck.checks import VERDICTS

__all__ = ["DISCRETE", "common_fields", "helpless", "list_reason", "points_of", "solved_list"]

DISCRETE = ("teeth", "pitch", "hardness")
_MEANINGS = {"teeth": "size of the spline", "pitch": "pitch of the spline", "hardness": "hardness"}


def solved_list(asker: Asker, find: str) -> dict[str, Any]:
    """
    Solve over a list of choices.

    Parameters
    ----------
    asker : Asker
        Asks about scenarios with a size in the place of the present one.
    find : str
        "teeth" for the smallest size of the standard that holds, "pitch" for the best other pitch.

    Returns
    -------
    dict
        Fields of `Size`.
    """
    scenario, index = asker.scenario, asker.index
    choices, notes, now = (size_choices if find == "teeth" else pitch_choices)(scenario, index)
    trials = asker.trials([choice.changes for choice in choices])
    apart, reached = standing(trials)
    aside = frozenset(demand.key for demand in (*apart, *reached))
    points = points_of(choices, trials, aside)
    pick = _smallest(points) if find == "teeth" else _best(points)
    fields = common_fields(asker, find, choices, points, None if reached else pick)
    chosen = None if pick is None else choices[pick]
    fields |= {
        "now": now,
        "notes": notes,
        "gaps": _gaps(points, pick) if find == "teeth" else (),
        "stopped_by": apart,
        "out_of_reach": reached,
        "rest": chosen.value if chosen is not None and reached else None,
        "unit": choices[0].unit if choices else "",
        "wanted": "smallest" if find == "teeth" else "best",
    }
    if chosen is not None and not reached:
        fields["extra"] = {**fields["extra"], "size": dict(chosen.extra)}
    fields |= helpless(asker, find, choices, trials, fields)
    silence = unheard(trials, trials[pick]) if pick is not None else ""
    return fields | {"reason": f"{list_reason(find, fields, points)} {silence}".strip()}


def points_of(choices: Sequence[Choice], trials: Sequence[Trial], aside: frozenset[Key]) -> tuple[Point, ...]:
    """What each choice of a list came to, without the demands that are set aside."""
    return tuple(
        point_of(trial, choice.order, choice.label, aside, choice.note)
        for choice, trial in zip(choices, trials, strict=True)
    )


def common_fields(
    asker: Asker, find: str, choices: Sequence[Choice], points: tuple[Point, ...], pick: int | None
) -> dict[str, Any]:
    """What every list has in common: the choice, checked in full, and its smaller neighbour."""
    sound = [point for point in points if not point.refused]
    fields: dict[str, Any] = {
        "kind": None,
        "meaning": _MEANINGS[find],
        "value": None,
        "value_inch": None,
        "exact": None,
        "idle": False,
        "passes": False,
        "at": None,
        "beyond": None,
        "holds_to": None,
        "range_low": None,
        "range_high": None,
        "range_words": f"{sound[0].label} to {sound[-1].label}" if sound else "no size of the list fits in",
        "curve": points,
        "changes": {},
        "no_more": "",
        "extra": {},
    }
    if pick is None:
        return fields
    choice = choices[pick]
    trial = asker.confirmed([choice.changes])[0]
    fields |= {
        "value": choice.value,
        "passes": trial.verdict == "pass",
        "at": points[pick],
        "beyond": points[pick - 1] if find == "teeth" and pick > 0 else None,
        "changes": choice.changes,
    }
    return fields


def _samples(points: Sequence[Point]) -> list[Sample]:
    """Places of the sizes that can be; those that the file refuses end the list, they do not break it."""
    good = [i for i, point in enumerate(points) if not point.refused]
    if not good:
        return []
    inside = range(good[0], good[-1] + 1)
    return [Sample(float(i), points[i].holds, points[i].margin or 0.0) for i in inside]


def _smallest(points: Sequence[Point]) -> int | None:
    """The smallest size from which on all larger ones hold, as far as the last stretch that holds reaches."""
    windows = find_windows(_nothing_between, _samples(points), tolerance=float("inf"))
    return int(windows[-1].low) if windows else None


def _nothing_between(values: Sequence[float]) -> Sequence[Sample]:
    raise AssertionError("there is nothing between two sizes of a list")


def _best(points: Sequence[Point]) -> int | None:
    """The choice that holds with the highest margin."""
    good = [i for i, point in enumerate(points) if point.holds]
    return max(good, key=lambda i: points[i].margin or 0.0, default=None)


def _gaps(points: Sequence[Point], pick: int | None) -> tuple[Gap, ...]:
    """Stretches of sizes that fail again although smaller ones hold."""
    if pick is None:
        return ()
    first = next(i for i, point in enumerate(points) if point.holds)
    found: list[Gap] = []
    start: int | None = None
    for i in range(first, len(points) + 1):
        fails = i < len(points) and not points[i].holds and not points[i].refused
        if fails and start is None:
            start = i
        elif not fails and start is not None:
            found.append(_gap(points[start], points[i - 1]))
            start = None
    return tuple(found)


def _gap(first: Point, last: Point) -> Gap:
    """One stretch, named by its ends."""
    labels = first.label if first is last else f"{first.label} to {last.label}"
    return Gap(first.value, last.value, f"{labels}: {first.governing}")


def helpless(
    asker: Asker, find: str, choices: Sequence[Choice], trials: Sequence[Trial], fields: Mapping[str, Any]
) -> dict[str, Any]:
    """Where nothing of the list holds: the best of it, and what else would mend it."""
    points: tuple[Point, ...] = fields["curve"]
    sound = [i for i, point in enumerate(points) if not point.refused]
    if fields["value"] is not None or not sound:
        return {"best": None, "remedies": ()}
    apart = frozenset(demand.key for demand in fields["stopped_by"])
    best = min(sound, key=lambda i: _nearness(trials[i], apart))
    never = {demand.key for demand in fields["out_of_reach"]}
    limiting = [demand for demand in trials[best].unmet(apart) if not never or demand.key in never]
    return {
        "out_of_reach": tuple(limiting) if never else (),
        "best": point_of(trials[best], points[best].value, points[best].label, apart),
        "remedies": remedies_of(asker, find, choices[best].changes, limiting),
    }


def _nearness(trial: Trial, apart: frozenset[Key]) -> tuple[int, int, float]:
    """Order by how little is missing: the worst verdict, how much is not met, the lowest margin."""
    unmet = trial.unmet(apart)
    worst = VERDICTS.index(unmet[0].verdict) if unmet else 0
    return worst, len(unmet), -trial.margin(apart)


def list_reason(find: str, fields: Mapping[str, Any], points: Sequence[Point]) -> str:
    """Why this one."""
    sentences = []
    value, best = fields["value"], fields["best"]
    holding = sum(point.holds for point in points)
    if value is None and fields["out_of_reach"]:
        limits = "; ".join(demand_words(demand) for demand in fields["out_of_reach"])
        at = f" At its best, {best.label}, this" if best is not None else " This"
        sentences.append(f"No {fields['meaning']} of the list helps.{at} is not met: {limits}.")
    elif value is None:
        near = f" Nearest is {best.label}: {best.governing}." if best is not None else ""
        sentences.append(f"No {fields['meaning']} of the list meets all targets.{near}")
    elif find == "teeth":
        before = fields["beyond"]
        sentences.append(
            "It is the smallest that can be."
            if before is None or before.refused
            else f"The next smaller, {before.label}, does not hold: {before.governing}."
        )
        again = [gap for gap in fields["gaps"] if gap.low > fields["at"].value]
        if again:
            sentences.append(f"Larger ones fail again, {again[0].because}.")
    else:
        at = fields["at"]
        sentences.append(
            f"{holding} of {len(points)} hold; this one best: {at.governing} governs, "
            f"factor {at.safety_factor:.3g}."
        )
    if fields["stopped_by"]:
        sentences.append(
            f"The {fields['meaning']} does not change this, which stops a pass: "
            + "; ".join(demand_words(demand) for demand in fields["stopped_by"])
            + "."
        )
    return " ".join(sentences)
