"""Asks edited scenarios, each of them once, and sorts out what no value of the unknown changes."""

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from typing import Any

from torqcheck.assessment.each_edited import Changes, Refused, each_edited
from torqcheck.assessment.size.result import Point
from torqcheck.assessment.size.trial import Demand, Key, Trial, confirmed_trial, quick_trial, refused
from torqcheck.assessment.verdict.beside import percent_beside
from torqcheck.scenario import Scenario

__all__ = ["Asker", "depends", "edge_of_law", "governing_words", "point_of", "standing", "unheard"]

CONSTANT = 1e-3
"""A margin that varies by less over the whole range does not depend on the unknown."""
PLAIN = frozenset({"reading", "mate", "alignment", "stack", "rule"})
"""Sorts of demands that are no number: met or not."""


class Asker:
    """One scenario and one joint, ready to be edited and asked; counts what it asks."""

    def __init__(
        self,
        scenario: Scenario,
        index: int,
        *,
        whole_path: bool,
        progress: Callable[[int], None] | None = None,
    ) -> None:
        self.scenario, self.index, self.whole_path = scenario, index, whole_path
        self.count = 0
        self._progress = progress
        self._known: dict[str, Trial] = {}

    def trials(self, changes: Sequence[Changes]) -> list[Trial]:
        """Ask each edit, without ranges; what was asked before is remembered."""
        names = [_name(one) for one in changes]
        fresh = {name: one for name, one in zip(names, changes, strict=True) if name not in self._known}
        ask = partial(quick_trial, index=self.index, whole_path=self.whole_path)
        for name, answer in zip(fresh, each_edited(self.scenario, list(fresh.values()), ask), strict=True):
            self._known[name] = _trial(answer)
            self._step()
        return [self._known[name] for name in names]

    def confirmed(self, changes: Sequence[Changes]) -> list[Trial]:
        """Ask each edit as `torqcheck assess` does."""
        ask = partial(confirmed_trial, index=self.index, whole_path=self.whole_path)
        found = []
        for answer in each_edited(self.scenario, changes, ask):
            found.append(_trial(answer))
            self._step()
        return found

    def _step(self) -> None:
        self.count += 1
        if self._progress is not None:
            self._progress(self.count)


def _name(changes: Mapping[str, Any]) -> str:
    return repr(sorted(changes.items()))


def _trial(answer: Trial | Refused) -> Trial:
    """An answer, or a stand-in for a file that its own rules refuse."""
    if isinstance(answer, Trial):
        return answer
    fault = answer.faults[0]
    return refused(f"{fault.key.split('.')[-1]} {fault.problem}".strip())


def standing(trials: Sequence[Trial]) -> tuple[tuple[Demand, ...], tuple[Demand, ...]]:
    """
    Find what is never met: first what does not depend on the unknown, then what does, each at its best.

    Parameters
    ----------
    trials : sequence of Trial
        Over the whole range.
    """
    sound = [trial for trial in trials if not trial.refused]
    if not sound:
        return (), ()
    common = [d.key for d in sound[0].unmet() if all(_unmet(trial, d.key) for trial in sound)]
    apart: list[Demand] = []
    reached: list[Demand] = []
    for key in common:
        found = [demand for trial in sound if (demand := trial.find(key)) is not None]
        best = max(found, key=lambda demand: demand.margin or 0.0)
        (apart if _constant(found) else reached).append(best)
    return tuple(apart), tuple(reached)


def depends(trials: Sequence[Trial]) -> bool:
    """Whether anything that is judged changes over the range: a margin, or whether a demand is met."""
    sound = [trial for trial in trials if not trial.refused]
    keys = {demand.key for trial in sound for demand in trial.demands}
    for key in keys:
        found = [demand for trial in sound if (demand := trial.find(key)) is not None]
        if len(found) < len(sound) or len({demand.verdict for demand in found}) > 1 or not _constant(found):
            return True
    return False


def edge_of_law(trial: Trial, beyond: Trial | None) -> bool:
    """Whether an edge is only that from which on the wear law holds, and the life by it is too short."""
    if beyond is None or not trial.frets:
        return False
    return any(demand.sort == "wear" and demand.verdict != "pass" for demand in beyond.demands)


def unheard(trials: Sequence[Trial], trial: Trial, *, edge: bool = False) -> str:
    """
    Say that a wear life, judged at other values, is not stated at this one; empty where it is.

    Parameters
    ----------
    trials : sequence of Trial
        Over the whole range.
    trial : Trial
        At the answer.
    edge : bool, optional
        Whether the answer ends where the wear law begins to hold.
    """
    judged = any(demand.sort == "wear" for other in trials for demand in other.demands)
    if not judged or not trial.no_wear_life or any(demand.sort == "wear" for demand in trial.demands):
        return ""
    words = f"No wear life is stated and judged at this value ({trial.no_wear_life}): "
    words += "the edge is where the wear law begins to hold, no limit of the wear itself. " if edge else ""
    watch = "look for red-brown dust and for cracks at the first inspection." if trial.frets else ""
    watch = watch or "watch it on the machine."
    return words + (watch.capitalize() if edge else watch)


def _unmet(trial: Trial, key: Key) -> bool:
    demand = trial.find(key)
    return demand is not None and demand.verdict != "pass"


def _constant(found: Sequence[Demand]) -> bool:
    """Whether a demand is the same at every value."""
    margins = [demand.margin for demand in found if demand.margin is not None]
    if len(margins) == len(found):
        return max(margins) - min(margins) <= CONSTANT * max(margins)
    return found[0].sort in PLAIN or len({demand.words for demand in found}) == 1


def point_of(
    trial: Trial, value: float, label: str, aside: frozenset[Key] = frozenset(), note: str = ""
) -> Point:
    """Put one trial into a row of the curve."""
    if trial.refused:
        return Point(
            value=value,
            label=label,
            safety_factor=None,
            margin=None,
            governing=trial.refused,
            verdict="fail",
            holds=False,
            refused=True,
            note=note,
        )
    tightest = trial.tightest(aside)
    own = tightest is not None and tightest.sort == "check"
    return Point(
        value=value,
        label=label,
        safety_factor=tightest.factor if own and tightest is not None else trial.safety_factor,
        margin=None
        if any(d.sort == "wear" and d.factor is None for d in trial.unmet(aside))
        else trial.margin(aside),
        governing="" if tightest is None else governing_words(tightest),
        verdict=trial.verdict,
        holds=trial.holds(aside),
        note=note,
    )


def governing_words(demand: Demand) -> str:
    """Name what governs, with its number where it is no safety factor."""
    if demand.sort == "wear":
        if demand.factor is None:
            return "wear life"
        bar = demand.factor if demand.target is None else demand.target
        return f"wear life ({percent_beside(demand.factor, bar)} of 100 last)"
    return demand.name
