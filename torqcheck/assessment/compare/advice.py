"""What a comparison of steels comes to: what to order, or what helps where no steel does."""

import math
from collections.abc import Iterator, Sequence

from torqcheck.assessment.compare.notes import NOT_HELD
from torqcheck.assessment.compare.result import Choice, margin
from torqcheck.assessment.compare.row import Hindrance
from torqcheck.checks import VERDICTS

__all__ = ["advice_on", "cheapest_that_passes"]

MOST_HINDRANCES = 3
SHORTER = 100


def cheapest_that_passes(rows: Sequence[Choice]) -> Choice | None:
    """
    Return the cheapest choice with which the whole path passes, the safer of two; None if none does.

    One whose row does not hold for the section of the part is taken only where there is no other.
    """
    passing = [row for row in rows if row.found.verdict == "pass"]
    return min(
        passing, key=lambda row: (_not_held(row), _cost(row), -margin(row.found.weakest)), default=None
    )


def _not_held(row: Choice) -> bool:
    return any(notes.section.startswith(NOT_HELD) for notes in row.notes.values())


def advice_on(rows: Sequence[Choice], joint: str) -> tuple[str, ...]:
    """
    Say what to do next, from all choices that were checked.

    Parameters
    ----------
    rows : sequence of Choice
        At least one.
    joint : str
        The joint whose members are exchanged.
    """
    return (*_order(rows, joint), *_elsewhere(rows, joint))


def _by_the_rule(rows: Sequence[Choice], cheapest: Choice) -> Iterator[str]:
    """Where the cheapest choice breaks the pairing rule, name the cheapest that keeps it."""
    if cheapest.pairing.holds:
        return
    kept = cheapest_that_passes([row for row in rows if row.pairing.holds])
    other = "none that passes keeps it"
    if kept is not None and kept.cost_index is not None:
        other = f"the cheapest that passes and keeps it is {kept.name}, relative cost {kept.cost_index:.3g}"
    yield f"It is against the pairing rule ({cheapest.pairing.word}); {other}."


def _cost(row: Choice) -> float:
    return math.inf if row.cost_index is None else row.cost_index


def _order(rows: Sequence[Choice], joint: str) -> Iterator[str]:
    """The cheapest choice that passes, or what keeps the best one from it."""
    cheapest = cheapest_that_passes(rows)
    if cheapest is not None:
        cost = "not known" if cheapest.cost_index is None else f"{cheapest.cost_index:.3g}"
        yield f"CHEAPEST THAT PASSES: {cheapest.name}, {_factor(cheapest)}, relative cost {cost}."
        yield from _by_the_rule(rows, cheapest)
        for notes in cheapest.notes.values():
            yield f"Order: {notes.order}"
            if notes.section.startswith(NOT_HELD):
                yield f"Mind the section: {notes.section}."
        return
    best = min(
        rows,
        key=lambda row: (
            VERDICTS.index(row.found.verdict), -margin(row.found.weakest), -margin(row.found.here), _cost(row)
        ),
    )  # fmt: skip
    yield f"NO CHOICE PASSES. The best is {best.name}: {best.found.verdict}, {_factor(best)}."
    always = _always(rows, best)
    if always:
        yield f"Whatever the steel, this stays (in the numbers of the best choice): {_said(always)}."
    others = [one for one in best.found.hindered if one not in always]
    if others:
        yield f"With {best.name} besides: {_said(others)}."
    if all(one.joint != joint for one in best.found.hindered):
        yield from _at_the_joint(rows, joint)
    yield from _helps(always or others)


def _at_the_joint(rows: Sequence[Choice], joint: str) -> Iterator[str]:
    """Name the cheapest choice with which the joint itself passes, where what limits is elsewhere."""
    passing = [row for row in rows if row.found.joint_verdict == "pass"]
    if not passing:
        return
    cheapest = min(passing, key=lambda row: (_cost(row), -margin(row.found.here)))
    here = cheapest.found.here
    factor = "" if here is None else f", safety factor {here.safety_factor:.3g} there"
    yield (
        f"None of that is at {joint}: no steel there turns the verdict. The joint itself passes; the "
        f"cheapest choice with which it does is {cheapest.name}{factor}."
    )


def _factor(row: Choice) -> str:
    weakest = row.found.weakest
    if weakest is None:
        return "nothing is loaded"
    return f"safety factor {weakest.safety_factor:.3g} against a target of {weakest.target:.3g}"


def _always(rows: Sequence[Choice], best: Choice) -> list[Hindrance]:
    """What keeps every choice from a pass, with the numbers of the best one."""
    common = set.intersection(*({(one.joint, one.what) for one in row.found.hindered} for row in rows))
    return [one for one in best.found.hindered if (one.joint, one.what) in common]


def _said(hindrances: Sequence[Hindrance]) -> str:
    named = "; ".join(f"{one.joint}: {_short(one.text)}" for one in hindrances[:MOST_HINDRANCES])
    more = len(hindrances) - MOST_HINDRANCES
    return f"{named}; and {more} more" if more > 0 else named


def _short(text: str) -> str:
    return text if len(text) <= SHORTER else f"{text[: SHORTER - 3].rstrip()}..."


def _helps(hindrances: Sequence[Hindrance]) -> Iterator[str]:
    """What helps against what no steel mends."""
    whats = [one.what for one in hindrances]
    if any("simulated" in what or "larger load" in what or what == "bands of the blow" for what in whats):
        yield (
            "Where the blow is what loads it, a slower ramp helps, or one that closes the lash first: "
            "torqcheck ramp finds it."
        )
    if any("guide" in what or "material" in what for what in whats):
        yield "Longer teeth carry more: torqcheck size finds the engagement that meets the target."
    if "wear" in whats:
        yield "Against wear: less tilt, a fixed seat, oil or fresh grease; torqcheck size finds the tilt."
    if "worn mate" in whats or "false fit" in whats:
        yield (
            "A worn mate stays one while an old half or its lash is kept: renew both halves, or read the "
            "lash again with the new one."
        )
    if any(what.startswith("reading: ") for what in whats):
        yield "Take the readings that are missing: without them no steel is given a pass."


def _elsewhere(rows: Sequence[Choice], joint: str) -> Iterator[str]:
    """Say where the weakest check of the path is not at this joint: a better steel does not help there."""
    away = [row for row in rows if row.found.weakest is not None and row.found.weakest.joint != joint]
    if not away:
        return
    weakest = away[0].found.weakest
    assert weakest is not None
    how_many = "every choice" if len(away) == len(rows) else f"{len(away)} of {len(rows)} choices"
    yield (
        f"With {how_many} the weakest check of the path is not at {joint} but at {weakest.joint} "
        f"({weakest.check}): there a better steel at {joint} does not help."
    )
