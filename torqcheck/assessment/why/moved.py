"""Whether a number moves with the one that it is said to come from: equal numbers part when all move."""

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from torqcheck.assessment.why.belief import same
from torqcheck.errors import ScenarioError
from torqcheck.scenario import Scenario
from torqcheck.scenario.edits import edited, numeric_keys, written_at
from torqcheck.tracing import Call

__all__ = ["Twin", "moved_scenario", "twins_of"]

HAIR = 1e-7
"""Largest relative move: what depends on a number hardly changes, and it is still told from its equal."""
NEAR = 1e-4
"""Relative difference up to which a formula was asked the same before and after the move."""
TRIALS = 5
_NUMBER = re.compile(r"(?<![\w^.])\d+(?:\.\d*)?(?:[eE][-+]?\d+)?")
"""A number that is no part of a unit."""


def moved_scenario(scenario: Scenario) -> Scenario | None:
    """
    Return a scenario in which every number of the file is a hair larger, each by a share of its own.

    Counts stay, and so does what the rules of the file do not let move, such as a standard pitch; None if
    nothing can move.
    """
    keys = [key for key in numeric_keys(scenario) if not key.whole and key.value != 0.0]
    shares = {key.key: HAIR * (place + 1) / len(keys) for place, key in enumerate(keys)}
    for _ in range(TRIALS):
        try:
            return edited(
                scenario, {key.key: _moved(written_at(scenario, key.key), shares[key.key]) for key in keys}
            )
        except ScenarioError as error:
            refused = [fault.key for fault in error.faults]
            kept = [key for key in keys if not any(key.key.startswith(name) for name in refused)]
            if len(kept) == len(keys):
                return None
            keys = kept
    return None


def _moved(written: Any, share: float) -> Any:
    """Move what the file states, its tolerance or its range with it."""
    if not isinstance(written, str):
        return written * (1.0 + share)
    return _NUMBER.sub(lambda found: repr(float(found[0]) * (1.0 + share)), written)


@dataclass(frozen=True, slots=True)
class Twin:
    """
    One evaluation of a formula, as the result has it and when every number of the file has moved.

    Parameters
    ----------
    call, after : Call
        Before and after.
    """

    call: Call
    after: Call

    @property
    def passes_on(self) -> bool:
        """Whether it gives one of its own arguments, as the smaller of two does."""
        values = self.after.arguments.values()
        return any(isinstance(value, float) and same(value, self.after.value) for value in values)


def twins_of(calls: Sequence[Call], after: Sequence[Call]) -> tuple[Twin, ...]:
    """
    Find for each evaluation after the move the one before it, which it differs from by hairs.

    Two evaluations of equal numbers are one before the move, and two after it: both get the same twin.
    What was only evaluated on one side, a step of a search for example, is left out.
    """
    before: dict[object, list[Call]] = {}
    for call in calls:
        before.setdefault(call.function, []).append(call)
    found = []
    for call in after:
        near = [other for other in before.get(call.function, ()) if _alike(other, call)]
        if near:
            found.append(Twin(min(near, key=lambda other, to=call: _distance(other, to)), call))  # type: ignore[misc]
    return tuple(found)


def _alike(one: Call, other: Call) -> bool:
    return one.arguments.keys() == other.arguments.keys() and all(
        _near(value, other.arguments[name]) for name, value in one.arguments.items()
    )


def _distance(one: Call, other: Call) -> float:
    """How far the numbers of two evaluations lie apart in all."""
    return math.fsum(
        abs(value - other.arguments[name]) / abs(value)
        for name, value in one.arguments.items()
        if isinstance(value, float) and value and math.isfinite(value)
    )


def _near(one: Any, other: Any) -> bool:
    if isinstance(one, tuple) and isinstance(other, tuple):
        return len(one) == len(other) and all(map(_near, one, other))
    if isinstance(one, float) and isinstance(other, float):
        return bool(one == other or abs(one - other) <= NEAR * max(abs(one), abs(other)))
    return bool(one == other)
