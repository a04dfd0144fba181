"""Solve for a number: scan its whole range, find the edges, choose one, round it, and check it in full."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any

from torqcheck.assessment.size.asker import (
    Asker,
    depends,
    edge_of_law,
    governing_words,
    point_of,
    standing,
    unheard,
)
from torqcheck.assessment.size.remedies import remedies_of
from torqcheck.assessment.size.result import Gap, Point, Value
from torqcheck.assessment.size.rounding import Rounded, roundings
from torqcheck.assessment.size.search import Sample, Window, find_windows, sampled
from torqcheck.assessment.size.trial import Demand, Key, Trial
from torqcheck.assessment.size.unknown import Unknown
from torqcheck.assessment.size.words import no_more_words, number_reason, value_words
from torqcheck.checks import VERDICTS
from torqcheck.errors import NoSolutionError
from torqcheck.units import System

__all__ = ["solved_number"]

TOLERANCE = 1e-4
"""Share of the value to which an edge is found."""
NEARLY = 0.98
"""Share of the best margin that is as good as the best."""


@dataclass(frozen=True, slots=True)
class _Line:
    """The unknown along its range, with what has been set aside."""

    asker: Asker
    unknown: Unknown
    aside: frozenset[Key] = frozenset()

    def trial(self, value: float) -> Trial:
        return self.asker.trials([self.unknown.changes(value)])[0]

    def ask(self, values: Sequence[float]) -> list[Sample]:
        trials = self.asker.trials([self.unknown.changes(value) for value in values])
        return [
            Sample(value, trial.holds(self.aside), trial.margin(self.aside))
            for value, trial in zip(values, trials, strict=True)
        ]

    def point(self, value: float, note: str = "") -> Point:
        return point_of(self.trial(value), value, value_words(self.unknown, value), self.aside, note)


def solved_number(asker: Asker, unknown: Unknown) -> dict[str, Any]:
    """
    Solve for one number of a joint.

    Parameters
    ----------
    asker : Asker
        The scenario and the joint.
    unknown : Unknown
        What to solve for.

    Returns
    -------
    dict
        Fields of `Size`.
    """
    trials = asker.trials([unknown.changes(value) for value in unknown.values])
    values = _sound(unknown.values, trials)
    apart, reached = standing(trials)
    line = _Line(asker, unknown, _keys((*apart, *reached)))
    samples = sampled(line.ask, values) if values else ()
    windows = find_windows(line.ask, samples, tolerance=TOLERANCE)
    idle = bool(values) and not depends(trials)
    window = None if idle else _chosen(unknown, windows)
    rounded = {system: _rounded(line, window, system) for system in ("si", "inch")} if window else {}
    found = rounded.get("si")
    fields: dict[str, Any] = {
        "value": found if not reached else None,
        "value_inch": rounded.get("inch") if not reached else None,
        "rest": found if reached else None,
        "exact": None if window is None or reached else _edge(unknown, window),
        "now": unknown.now,
        "stopped_by": apart,
        "out_of_reach": reached,
        "holds_to": None if window is None else _other_end(unknown, window),
        "range_low": values[0] if values else None,
        "range_high": values[-1] if values else None,
        "range_words": unknown.range_words,
        "gaps": _gaps(line, samples, windows, window),
        "curve": (
            _curve(replace(line, aside=_keys(apart)), samples, None, found, "for the rest")
            if reached
            else _curve(line, samples, window, found, _use(unknown))
        ),
        "changes": {} if found is None or reached else unknown.changes(_number(found)),
        "notes": unknown.notes,
        "no_more": no_more_words(unknown, samples, line.trial) if samples else "",
        "extra": {},
    }
    fields |= _confirmed(line, window, fields["value"], fields["value_inch"])
    if idle:
        fields |= {"best": None, "remedies": (), "passes": trials[0].verdict == "pass"}
    else:
        fields |= _helpless(line, samples, fields)
    reason, law, silence = number_reason(unknown, {**fields, "idle": idle}, trials), False, ""
    if found is not None and window is not None:
        law = fields["exact"] is not None and _edge_of_law(line, window)
        silence = unheard(trials, line.trial(_number(found)), edge=law)
    return fields | {"idle": idle, "reason": f"{reason} {silence}".strip(), "edge_of_law": law}


def _keys(demands: Sequence[Demand]) -> frozenset[Key]:
    return frozenset(demand.key for demand in demands)


def _sound(values: Sequence[float], trials: Sequence[Trial]) -> list[float]:
    """The range without its ends that the file itself refuses."""
    good = [place for place, trial in enumerate(trials) if not trial.refused]
    return list(values[good[0] : good[-1] + 1]) if good else []


def _chosen(unknown: Unknown, windows: Sequence[Window]) -> Window | None:
    """The window on the good side: from its edge on everything holds, as far as it reaches."""
    if not windows:
        return None
    return windows[-1] if unknown.wanted == "smallest" else windows[0]


def _edge(unknown: Unknown, window: Window) -> float:
    return window.low if unknown.wanted == "smallest" else window.high


def _past(unknown: Unknown, window: Window) -> float | None:
    """A value that fails beyond the edge; None where the range ends first."""
    return window.below if unknown.wanted == "smallest" else window.above


def _edge_of_law(line: _Line, window: Window) -> bool:
    past = _past(line.unknown, window)
    beyond = None if past is None else line.trial(past)
    return edge_of_law(line.trial(_edge(line.unknown, window)), beyond)


def _other_end(unknown: Unknown, window: Window) -> float | None:
    """Where the window ends on the good side, if before the range does."""
    if unknown.wanted == "smallest":
        return None if window.above is None else window.high
    return None if window.below is None else window.low


def _rounded(line: _Line, window: Window, system: System) -> Value | None:
    """The nearest value for the drawing that holds as well, or the edge itself where none does."""
    edge = _edge(line.unknown, window)
    options: list[Rounded] = list(roundings(line.unknown, edge, system, line.asker.scenario.motor))
    for option in options:
        if window.low <= option.value <= window.high and line.trial(option.value).holds(line.aside):
            return Value(option.value, option.text)
    return Value(edge, f"{value_words(line.unknown, edge)} (no round value holds)")


def _number(value: Value) -> float:
    assert not isinstance(value.si, str)
    return value.si


def _confirmed(line: _Line, window: Window | None, value: Value | None, inch: Value | None) -> dict[str, Any]:
    """Check the answer, and what lies just beyond it, as `torqcheck assess` does."""
    nothing: dict[str, Any] = {"at": None, "beyond": None, "passes": False}
    if window is None or value is None:
        return nothing
    here, past = _number(value), _past(line.unknown, window)
    asked = [here] if inch is None else [here, _number(inch)]
    if past is not None:
        asked.append(past)
    trials = line.asker.confirmed([line.unknown.changes(one) for one in asked])
    beyond = trials.pop() if past is not None else None
    if not all(trial.holds(line.aside) for trial in trials) or (beyond and beyond.holds(line.aside)):
        raise NoSolutionError(
            f"the search found {value.text} for {line.unknown.meaning}, and the full check disagrees"
        )
    words = value_words(line.unknown, past) if past is not None else ""
    return {
        "at": point_of(trials[0], here, value.text, line.aside),
        "beyond": None if beyond is None or past is None else point_of(beyond, past, words, line.aside),
        "passes": trials[0].verdict == "pass",
    }


def _gaps(
    line: _Line, samples: Sequence[Sample], windows: Sequence[Window], chosen: Window | None
) -> tuple[Gap, ...]:
    """Stretches that fail although they lie between values that hold, or beyond them on the good side."""
    if chosen is None:
        return ()
    stretches = [(one.above, other.below) for one, other in pairwise(windows)]
    if line.unknown.wanted == "smallest" and chosen.above is not None:
        stretches.append((chosen.above, samples[-1].value))
    if line.unknown.wanted == "largest" and chosen.below is not None:
        stretches.insert(0, (samples[0].value, chosen.below))
    found = []
    for low, high in stretches:
        assert low is not None
        assert high is not None
        inside = [s.value for s in samples if low <= s.value <= high and not s.holds] or [low]
        worst = min(inside, key=lambda value: line.trial(value).margin(line.aside))
        demand = line.trial(worst).tightest(line.aside)
        found.append(Gap(low, high, _because(demand)))
    return tuple(found)


def _because(demand: Demand | None) -> str:
    if demand is None:
        return ""
    if demand.sort == "check" and demand.factor is not None:
        return f"{demand.name} has a factor of {demand.factor:.3g} against {demand.target:.3g}"
    return f"{governing_words(demand)}{f': {demand.words}' if demand.words else ''}"


def _use(unknown: Unknown) -> str:
    return "for the drawing" if unknown.kind == "length" else "rounded"


def _curve(
    line: _Line, samples: Sequence[Sample], window: Window | None, found: Value | None, use: str
) -> tuple[Point, ...]:
    """Every value of the scan, the edge and the answer with what it is for, by rising value."""
    notes: dict[float, str] = {}
    now = line.unknown.now
    if now is not None and samples and samples[0].value <= now <= samples[-1].value:
        notes[now] = "as it is"
    if window is not None:
        past = _past(line.unknown, window)
        if past is not None:
            notes[past] = "just beyond"
            notes[_edge(line.unknown, window)] = "exact"
    if found is not None:
        notes[_number(found)] = use
    values = {sample.value for sample in samples} | set(notes)
    return tuple(line.point(value, notes.get(value, "")) for value in sorted(values))


def _helpless(line: _Line, samples: Sequence[Sample], fields: dict[str, Any]) -> dict[str, Any]:
    """Where no value holds: the best one, what limits there, and what else would mend it."""
    if fields["value"] is not None or not samples:
        return {"best": None, "remedies": ()}
    apart, never = _keys(fields["stopped_by"]), _keys(fields["out_of_reach"])
    best = _best([sample.value for sample in samples], line, apart)
    trial = line.trial(best)
    limiting = [demand for demand in trial.unmet(apart) if not never or demand.key in never]
    words = value_words(line.unknown, best)
    return {
        "out_of_reach": tuple(limiting) if never else (),
        "best": point_of(trial, best, words, apart),
        "remedies": remedies_of(line.asker, line.unknown.find, line.unknown.changes(best), limiting),
    }


def _best(values: Sequence[float], line: _Line, apart: frozenset[Key]) -> float:
    """
    The value nearest to holding.

    Where the worst verdict is best, of these where the lowest margin is at its highest or next to it, and of
    these where the fewest demands are not met.
    """
    tried = {value: line.trial(value) for value in values}
    mildest = min(_severity(trial, apart) for trial in tried.values() if not trial.refused)
    sound = [v for v, trial in tried.items() if not trial.refused and _severity(trial, apart) == mildest]
    most = max(line.trial(value).margin(apart) for value in sound)
    good = [value for value in sound if line.trial(value).margin(apart) >= NEARLY * most]
    return min(good, key=lambda value: len(line.trial(value).unmet(apart)))


def _severity(trial: Trial, apart: frozenset[Key]) -> int:
    """Place of the worst verdict among the demands that are not met."""
    return max((VERDICTS.index(demand.verdict) for demand in trial.unmet(apart)), default=0)
