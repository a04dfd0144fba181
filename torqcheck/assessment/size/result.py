"""What was found for one unknown: frozen data, and its JSON."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from torqcheck.assessment.size.trial import Demand
from torqcheck.assessment.verdict.answered import Answered
from torqcheck.checks import Verdict
from torqcheck.units import Kind, in_unit

__all__ = ["Gap", "Point", "Remedy", "Size", "Value"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """
    One value that was tried; `value` in SI, `label` as one writes it.

    `holds` leaves aside what the unknown cannot change; `verdict` is that of `torqcheck assess`.
    """

    value: float
    label: str
    safety_factor: float | None
    margin: float | None
    governing: str
    verdict: Verdict
    holds: bool
    refused: bool = False
    note: str = ""


@dataclass(frozen=True, slots=True)
class Gap:
    """Values that fail although others on their worse side hold; SI."""

    low: float
    high: float
    because: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedy:
    """
    Something else that was changed to see whether it mends what no value of the unknown does.

    `unjudged` where it takes the wear beyond what the law holds for, so that nothing is known of it.
    """

    what: str
    command: str
    words: str
    factor: float | None
    mends: bool
    changes: Mapping[str, Any]
    unjudged: bool = False


@dataclass(frozen=True, slots=True)
class Value:
    """An answer: in SI, or a name where it is no number; and as one writes it."""

    si: float | str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Size(Answered):
    """
    The answer for one unknown of one joint.

    Parameters
    ----------
    joint : str
        Whose size is asked for.
    find, meaning : str
        The unknown, as it is asked for and in words.
    kind, unit : Kind or None, str
        Of its values; None for a count, a ratio and a list.
    wanted : str
        The smallest or the largest.
    whole_path : bool
        Every joint must pass, not only this one.
    reason : str
        What decides, in a sentence.
    value, value_inch : Value or None
        For the drawing, in either system; None where no value holds.
    exact : float or None
        The edge itself, SI; None for a list of sizes.
    now : float, str or None
        What the file has.
    idle : bool
        Nothing that is judged depends on the unknown: there is no value to advise.
    passes : bool
        Whether the joint (or the whole path) passes with it.
    stopped_by : tuple of Demand
        What the unknown does not change and what stops a pass.
    out_of_reach : tuple of Demand
        What depends on it and is never met, each at its best.
    best : Point or None
        Where the least margin is largest, if nothing holds.
    rest : Value or None
        What would do for everything but `out_of_reach`.
    at, beyond : Point or None
        The full check at the value, and just beyond the edge.
    holds_to : float or None
        Where the values that hold end on the good side, if before the end of the range.
    range_low, range_high, range_words : float or None, float or None, str
        Where it was searched, and why there.
    gaps : tuple of Gap
        Values in between that fail.
    curve : tuple of Point
        What was tried, along the range.
    changes : mapping
        What to write into the file for the value.
    notes : tuple of str
        What else to know.
    no_more : str
        Why going further gains nothing, if so.
    remedies : tuple of Remedy
        What else would help where no value does.
    trials : int
        How many assessments it took.
    extra : mapping
        More of the answer for JSON, by kind of unknown.
    edge_of_law : bool
        Whether the edge is only that from which on the wear law holds: no wear life is judged at the answer.
    """

    joint: str
    find: str
    meaning: str
    kind: Kind | None
    unit: str
    wanted: str
    whole_path: bool
    reason: str
    value: Value | None
    value_inch: Value | None
    exact: float | None
    now: float | str | None
    idle: bool
    passes: bool
    stopped_by: tuple[Demand, ...]
    out_of_reach: tuple[Demand, ...]
    best: Point | None
    rest: Value | None
    at: Point | None
    beyond: Point | None
    holds_to: float | None
    range_low: float | None
    range_high: float | None
    range_words: str
    gaps: tuple[Gap, ...]
    curve: tuple[Point, ...]
    changes: Mapping[str, Any]
    notes: tuple[str, ...]
    no_more: str
    remedies: tuple[Remedy, ...]
    trials: int
    extra: Mapping[str, Any]
    edge_of_law: bool = False

    def to_dict(self) -> dict[str, Any]:
        """Return the answer as plain data for JSON: mm, deg, N m; `changes` can be written into the file."""
        value = None if self.value is None else self.value.si
        return {
            **self.head(),
            "joint": self.joint,
            "quantity": self.find,
            "value": self._shown(value),
            "unit": self.unit,
            "reason": self.reason,
            "text": None if self.value is None else self.value.text,
            "text_inch": None if self.value_inch is None else self.value_inch.text,
            "value_inch_rounding": None if self.value_inch is None else self._shown(self.value_inch.si),
            "exact": self._shown(self.exact),
            "exact_is_edge_of_wear_law": self.edge_of_law,
            "now": self._shown(self.now),
            "wanted": self.wanted,
            "demanded_of": "whole path" if self.whole_path else "joint",
            "nothing_depends_on_it": self.idle,
            "passes": self.passes,
            "stopped_by": [_demand(demand) for demand in self.stopped_by],
            "out_of_reach": [_demand(demand) for demand in self.out_of_reach],
            "value_for_the_rest": None if self.rest is None else self._shown(self.rest.si),
            "at_value": self._point(self.at),
            "just_beyond": self._point(self.beyond),
            "best": self._point(self.best),
            "range": {
                "low": self._shown(self.range_low),
                "high": self._shown(self.range_high),
                "why": self.range_words,
            },
            "holds_to": self._shown(self.holds_to),
            "gaps": [self._gap(gap) for gap in self.gaps],
            "no_more": self.no_more or None,
            "remedies": [
                {
                    "what": remedy.what,
                    "command": remedy.command,
                    "safety_factor": remedy.factor,
                    "mends": remedy.mends,
                    "unjudged": remedy.unjudged,
                    "changes": dict(remedy.changes),
                }
                for remedy in self.remedies
            ],
            "changes": dict(self.changes),
            "notes": list(self.notes),
            "curve": [self._point(point) for point in self.curve],
            "trials": self.trials,
            **self.extra,
        }

    def _gap(self, gap: Gap) -> dict[str, Any]:
        return {"low": self._shown(gap.low), "high": self._shown(gap.high), "because": gap.because}

    def _shown(self, value: float | str | None) -> float | str | None:
        """A number in the unit of the answer."""
        if value is None or isinstance(value, str) or self.kind is None:
            return value
        return in_unit(value, self.kind, "si")[0]

    def _point(self, point: Point | None) -> dict[str, Any] | None:
        if point is None:
            return None
        entry = {
            "value": self._shown(point.value) if self.kind is not None else point.label,
            "safety_factor": point.safety_factor,
            "governing": point.governing,
            "verdict": point.verdict,
            "holds": point.holds,
        }
        return entry | ({"note": point.note} if point.note else {})


def _demand(demand: Demand) -> dict[str, Any]:
    return {
        "what": demand.name,
        "joint": demand.joint,
        "verdict": demand.verdict,
        "factor": demand.factor,
        "target": demand.target,
        "words": demand.words or None,
    }
