"""Which values of a key the rules of the file allow, found by asking those rules and nothing else."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from torqcheck._types import FloatArray
from torqcheck.assessment.sweep.design import Design
from torqcheck.assessment.sweep.keys import VariedKey
from torqcheck.errors import ScenarioError
from torqcheck.scenario import Scenario
from torqcheck.scenario.edits import edited

__all__ = ["Limits", "limits_of", "refusal"]

MOST_HALVINGS = 1100
"""More than enough to come down to two neighbouring floats."""


def refusal(scenario: Scenario, changes: Mapping[str, Any]) -> str:
    """Why the rules refuse an edit, in a few words; empty where they allow it."""
    try:
        edited(scenario, changes)
    except ScenarioError as error:
        fault = error.faults[0]
        return f"{fault.key}: {fault.problem}" if fault.key else fault.problem
    return ""


@dataclass(frozen=True, slots=True)
class Limits:
    """
    Smallest and largest value of a key that the rules allow beside the others, in the unit of the key.

    Infinite where the range of the sweep meets no limit. `reason` says what is wrong beyond them.
    """

    key: VariedKey
    low: float = -np.inf
    high: float = np.inf
    reason: Mapping[bool, str] = field(default_factory=dict)

    def refused(self, value: FloatArray) -> list[tuple[Any, str]]:
        """Masks of the values that are refused, each with the reason."""
        return [
            (beyond, self.reason[above])
            for above, beyond in ((False, value < self.low), (True, value > self.high))
            if above in self.reason
        ]


def limits_of(scenario: Scenario, key: VariedKey, design: Design, present: float) -> Limits:
    """
    Find the limits of one key within its range.

    Parameters
    ----------
    scenario : Scenario
        One that the rules allow.
    key : VariedKey
        The key, one that takes a column.
    design : Design
        A grid has only the values at its levels.
    present : float
        What stands there in that scenario, in the unit of the key.

    Notes
    -----
    The rules for such a key are limits, each from one side: between two values that are allowed every
    value is. So the ends of the range are asked, and where one is refused the limit is searched by
    halving, down to neighbouring levels or floats.
    """

    def why(value: float) -> str:
        return refusal(scenario, {key.key: key.written(value)})

    low, high = key.lowest, key.highest
    reasons = {False: why(low), True: why(high)}
    ends = {False: -np.inf, True: np.inf}
    for above, end in ((False, low), (True, high)):
        if reasons[above]:
            beyond = present < end if not above else present > end
            # with all that is allowed on the far side of it, the whole range is refused
            ends[above] = (
                (np.inf if not above else -np.inf) if beyond else _edge(why, key, design, present, end)
            )
    return Limits(key, ends[False], ends[True], {side: text for side, text in reasons.items() if text})


def _edge(why: Any, key: VariedKey, design: Design, allowed: float, refused: float) -> float:
    """The last allowed value on the way to a refused one."""
    if design.name == "grid" or key.listed:
        return _edge_of_levels(why, key, allowed, refused)
    for _ in range(MOST_HALVINGS):
        middle = 0.5 * (allowed + refused)
        if middle in (allowed, refused):
            break
        if why(middle):
            refused = middle
        else:
            allowed = middle
    return allowed


def _edge_of_levels(why: Any, key: VariedKey, allowed: float, refused: float) -> float:
    """The same among the levels of a grid or a list, of which as many are asked as halving needs."""
    upward = refused > allowed
    order = np.argsort(np.asarray(key.listed)) if key.listed else None
    rising = order is not None or key.stop > key.start

    def value(rank: int) -> float:
        level = order[rank] if order is not None else rank if rising else key.count - 1 - rank
        return float(key.at_level(np.array([level]))[0])

    # rank of a level that is allowed or outside the range, and of one that is refused
    near, far = (-1, key.count - 1) if upward else (key.count, 0)
    while abs(far - near) > 1:
        middle = (near + far) // 2
        beyond = value(middle) > allowed if upward else value(middle) < allowed
        if beyond and why(value(middle)):
            far = middle
        else:
            near = middle
    inside = 0 <= near < key.count
    return value(near) if inside else allowed
