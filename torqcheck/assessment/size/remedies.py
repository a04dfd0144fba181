"""When no value of the unknown helps: which other one would, tried at the end that helps most."""

from collections.abc import Iterator, Sequence
from typing import Any

from torqcheck.assessment.each_edited import Changes
from torqcheck.assessment.size.asker import Asker, governing_words, unheard
from torqcheck.assessment.size.diameters import unknown_of
from torqcheck.assessment.size.result import Remedy
from torqcheck.assessment.size.steels import hard_steels, steel_changes, steel_sides
from torqcheck.assessment.size.trial import Demand, Trial
from torqcheck.errors import UsageError

__all__ = ["remedies_of"]

LEAST_HELP = 1.02
"""A margin that rises by less has not been helped."""
MOST = 6
PART = {"external": "a shaft", "internal": "a hub"}

_ENDS = {
    "torque-rise": ("the slowest ramp", "torqcheck ramp SCENARIO"),
    "motor-torque": ("half the motor torque", "torqcheck size ... --find motor-torque"),
    "engagement": ("the longest engagement that makes sense", "torqcheck size ... --find engagement"),
    "lash": ("hardly any lash", "torqcheck size ... --find lash"),
    "tilt": ("the closest that axes can be held in line, 0.2 mrad,", "torqcheck size ... --find tilt"),
    "bore": ("a solid shaft", "torqcheck size ... --find bore"),
    "outside-diameter": ("the thickest hub that makes sense", "torqcheck size ... --find outside-diameter"),
}


def remedies_of(asker: Asker, find: str, base: Changes, limiting: Sequence[Demand]) -> tuple[Remedy, ...]:
    """
    Try everything else on top of the best value.

    Parameters
    ----------
    asker : Asker
        The scenario.
    find : str
        The unknown that does not help by itself.
    base : mapping
        Edits that set it to its best value.
    limiting : sequence of Demand
        What is not met there.
    """
    tried = [(what, command, {**base, **changes}) for what, command, changes in _ideas(asker, find)]
    before, *trials = asker.trials([base, *(changes for _, _, changes in tried)])
    found = []
    for (what, command, changes), trial in zip(tried, trials, strict=True):
        if trial.refused:
            continue
        met = all(_met(trial, demand) for demand in limiting)
        # where no wear life is judged any more, the wear is not mended
        unjudged = unheard((before,), trial) if met else ""
        if met or _margin(trial, limiting) > LEAST_HELP * _margin(before, limiting):
            added = {key: written for key, written in changes.items() if key not in base}
            worst = None if unjudged else _worst(trial, limiting)
            found.append(
                Remedy(
                    what=what,
                    command=command,
                    words=unjudged if worst is None else _words(worst),
                    factor=worst.factor if worst is not None and worst.sort == "check" else None,
                    mends=met and not unjudged,
                    unjudged=bool(unjudged),
                    changes=added,
                )
            )
    found.sort(key=lambda remedy: (not remedy.mends, -(remedy.factor or 0.0)))
    return tuple(found[:MOST])


def _ideas(asker: Asker, find: str) -> Iterator[tuple[str, str, dict[str, Any]]]:
    """What can be tried on this joint: in words, the command that answers it, the edits."""
    scenario, index = asker.scenario, asker.index
    for other, (what, command) in _ENDS.items():
        if other == find:
            continue
        try:
            unknown = unknown_of(scenario, index, other)
        except UsageError:
            continue
        if unknown.now is None and other in {"outside-diameter", "lash", "tilt"}:
            continue
        end = unknown.values[-1] if unknown.wanted == "smallest" else unknown.values[0]
        if other == "motor-torque":
            end = 0.5 * (unknown.now or 0.0)
        yield what, command, unknown.changes(end)
    if find == "hardness":
        return
    joint = scenario.joint[index]
    for side, place in steel_sides(joint):
        for steel, how in hard_steels(scenario):
            words = f"{PART[side]} of {steel.id}, {how}," if side else f"{steel.id}, {how},"
            yield words, "torqcheck size ... --find hardness", steel_changes(scenario, index, [place], steel)


def _met(trial: Trial, demand: Demand) -> bool:
    other = trial.find(demand.key)
    return other is None or other.verdict == "pass"


def _margin(trial: Trial, limiting: Sequence[Demand]) -> float:
    """Lowest margin of what limits."""
    margins = [
        other.margin for demand in limiting if (other := trial.find(demand.key)) and other.margin is not None
    ]
    return min(margins, default=0.0)


def _worst(trial: Trial, limiting: Sequence[Demand]) -> Demand | None:
    """What limits most of all now."""
    found = [other for demand in limiting if (other := trial.find(demand.key)) and other.margin is not None]
    return min(found, key=lambda demand: demand.margin or 0.0, default=None)


def _words(demand: Demand) -> str:
    if demand.sort == "check":
        return f"factor {demand.factor:.3g}"
    return governing_words(demand)
