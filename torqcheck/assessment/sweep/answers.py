"""Answers for one stretch of points: by the guide on whole columns, or by the full assessment one by one."""

from collections import OrderedDict
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal, Protocol, TypeAlias

import numpy as np

from torqcheck._types import IntArray
from torqcheck.assessment.prepared import Prepared, prepared_of
from torqcheck.assessment.sweep.columns import moves_blow, takes_column
from torqcheck.assessment.sweep.design import Design, Stretch
from torqcheck.assessment.sweep.guide import GuideRows, guide_rows
from torqcheck.assessment.sweep.keys import VariedKey
from torqcheck.assessment.sweep.rules import Limits, limits_of, refusal
from torqcheck.assessment.sweep.table import Column, Table, Words
from torqcheck.errors import DomainError, ScenarioError
from torqcheck.scenario import Scenario
from torqcheck.scenario.edits import edited, numeric_key

__all__ = ["Answers", "GuideAnswers", "Method"]

Method: TypeAlias = Literal["guide", "all"]
KEPT_FRAMES = 512
"""Paths that were resolved for one combination of the slow keys and may be needed again."""
NOT_FOLLOWED = "the blow cannot be followed: without damping the hammering has no end"


class Answers(Protocol):
    """What a method of the sweep offers."""

    def table(self, stretch: Stretch) -> Table:
        """Rows of a stretch of points; an empty stretch gives the columns."""
        ...


@dataclass(frozen=True, slots=True)
class _Frame:
    """
    One combination of the slow keys, resolved; what the rules then allow of the fast ones.

    Without a path where no fast value makes the combination possible, or where it cannot be resolved: then
    `reason` says why.
    """

    prepared: Prepared | None
    limits: tuple[Limits, ...] = ()
    reason: str = ""


class GuideAnswers:
    """
    Torque, blow and the guide's checks of every splined joint.

    Keys that take a column are handled together; for each combination of the others the scenario is
    edited and resolved by the ordinary code.
    """

    def __init__(self, scenario: Scenario, design: Design) -> None:
        self.scenario, self.design = scenario, design
        # what a place means must not hang on the values of the other keys
        fast = [takes_column(scenario, key.place) for key in design.keys]
        self.fast = tuple(i for i, yes in enumerate(fast) if yes)
        self.slow = tuple(i for i, yes in enumerate(fast) if not yes)
        self._frames: OrderedDict[tuple[float, ...], _Frame] = OrderedDict()
        self._names, self._factors = _names(prepared_of(scenario))

    def table(self, stretch: Stretch) -> Table:
        """Rows of a stretch of points."""
        answer = _Answer(stretch.count, self._names, self._factors)
        for rows in self._groups(stretch):
            self._fill(stretch, rows, answer)
        keys: dict[str, Column] = {
            key.title: key.column(value) for key, value in zip(self.design.keys, stretch.values, strict=True)
        }
        margin = answer.margin
        over_target = {"safety_factor_over_target": np.where(np.isinf(margin), np.nan, margin)}
        columns = {**keys, **answer.columns, **over_target, **answer.words()}
        return Table(columns, margin, {"refused": int(np.count_nonzero(np.isnan(margin)))})

    def _groups(self, stretch: Stretch) -> list[IntArray]:
        """Rows that have the values of the slow keys in common."""
        if stretch.count == 0:
            return []
        if not self.slow:
            return [np.arange(stretch.count)]
        alike = _combined([stretch.levels[i] for i in self.slow])
        order = np.argsort(alike, kind="stable")
        return np.split(order, np.flatnonzero(np.diff(alike[order])) + 1)

    def _fill(self, stretch: Stretch, rows: IntArray, answer: "_Answer") -> None:
        """Answer the rows of one group, and write them where they belong."""
        frame = self._frame(tuple(float(stretch.values[i][rows[0]]) for i in self.slow))
        if frame.reason:
            answer.refuse(rows, frame.reason)
            return
        if frame.prepared is None:
            for row in rows:
                self._fill_alone(stretch, int(row), answer)
            return
        allowed = np.full(len(rows), True)
        for i, limits in zip(self.fast, frame.limits, strict=True):
            for beyond, reason in limits.refused(stretch.values[i][rows]):
                answer.refuse(rows[beyond & allowed], reason)
                allowed &= ~beyond
        if np.any(allowed):
            self._follow(frame.prepared, stretch, rows[allowed], answer)

    def _follow(self, prepared: Prepared, stretch: Stretch, rows: IntArray, answer: "_Answer") -> None:
        """Check some rows together; where a formula has no answer for one of them, in halves."""
        keys = self.design.keys
        si = {keys[i].place: keys[i].in_si(stretch.values[i][rows]) for i in self.fast}
        moving = [stretch.levels[i][rows] for i in self.fast if moves_blow(keys[i].place)]
        alike = _combined(moving) if moving else np.zeros(len(rows), dtype=np.int64)
        try:
            answer.write(rows, guide_rows(prepared, si, alike))
        except DomainError as error:
            if len(rows) == 1:
                answer.refuse(rows, str(error))
                return
            for part in np.array_split(rows, 2):
                self._follow(prepared, stretch, part, answer)

    def _fill_alone(self, stretch: Stretch, row: int, answer: "_Answer") -> None:
        """Ask the rules about one row, and check it by itself if they allow it after all."""
        pairs = zip(self.design.keys, stretch.values, strict=True)
        changes = {key.key: key.written(float(value[row])) for key, value in pairs}
        reason, alone = refusal(self.scenario, changes), np.array([row])
        if reason:
            answer.refuse(alone, reason)
            return
        prepared = prepared_of(edited(self.scenario, changes))
        answer.write(alone, guide_rows(prepared, {}, np.zeros(1, dtype=np.int64)))

    def _frame(self, values: tuple[float, ...]) -> _Frame:
        """The path for one combination of the slow keys."""
        if values in self._frames:
            self._frames.move_to_end(values)
            return self._frames[values]
        slow = {
            self.design.keys[i].key: self.design.keys[i].written(value)
            for i, value in zip(self.slow, values, strict=True)
        }
        try:
            frame = self._resolved(slow)
        except DomainError as error:
            frame = _Frame(None, reason=str(error))
        self._frames[values] = frame
        if len(self._frames) > KEPT_FRAMES:
            self._frames.popitem(last=False)
        return frame

    def _resolved(self, slow: Mapping[str, Any]) -> _Frame:
        base = self._base(slow)
        if base is None:
            return _Frame(None)
        keys = [self.design.keys[i] for i in self.fast]
        limits = tuple(limits_of(base, key, self.design, _present(base, key)) for key in keys)
        return _Frame(prepared_of(base), limits)

    def _base(self, slow: Mapping[str, Any]) -> Scenario | None:
        """A scenario with these slow values that the rules allow: as written, or with other fast values."""
        keys = [self.design.keys[i] for i in self.fast]
        middle = [key.at_level(np.array([key.count // 2]))[0] for key in keys]
        for fast in ([], [key.lowest for key in keys], middle, [key.highest for key in keys]):
            changes = {key.key: key.written(float(value)) for key, value in zip(keys, fast, strict=False)}
            try:
                return edited(self.scenario, {**slow, **changes})
            except ScenarioError:
                continue
        return None


class _Answer:
    """The columns of a stretch while they are filled."""

    def __init__(self, count: int, names: tuple[str, ...], factors: tuple[str, ...]) -> None:
        self.columns = {name: np.full(count, np.nan) for name in names}
        self.margin = np.full(count, np.nan)
        self._factors = factors
        self._weakest = np.full(count, -1, dtype=np.int64)
        self._reason = np.full(count, -1, dtype=np.int64)
        self._reasons: dict[str, int] = {}

    def refuse(self, rows: IntArray, reason: str) -> None:
        """Leave some rows without a result."""
        self._reason[rows] = self._reasons.setdefault(reason, len(self._reasons))

    def write(self, rows: IntArray, found: GuideRows) -> None:
        """Write what was found to its rows; a blow that could not be followed is no result."""
        if np.any(found.failed):
            self.refuse(rows[found.failed], NOT_FOLLOWED)
        good = ~found.failed
        rows = rows[good]
        for name, column in self.columns.items():
            column[rows] = found.columns[name][good]
        best, which = np.full(len(rows), np.inf), np.full(len(rows), -1, dtype=np.int64)
        for number, name in enumerate(self._factors):
            over = found.columns[name][good] / found.target[good]
            lower = over < best  # NaN is not
            best = np.where(lower, over, best)
            which[lower] = number
        self.margin[rows], self._weakest[rows] = best, which

    def words(self) -> dict[str, Words]:
        """The check that is the weakest, and why a row is refused."""
        names = tuple(name.removesuffix("_safety_factor") for name in self._factors)
        return {
            "weakest": Words(self._weakest, names),
            "refused": Words(self._reason, tuple(self._reasons)),
        }


def _combined(levels: list[IntArray]) -> IntArray:
    """One whole number for each row that is the same where all of them are."""
    combined = np.asarray(levels[0])
    for level in levels[1:]:
        _, combined = np.unique(combined, return_inverse=True)
        low = int(level.min())
        combined = combined * (int(level.max()) - low + 1) + (level - low)
    return combined


def _present(scenario: Scenario, key: VariedKey) -> float:
    """What stands at a key now, in the unit of the sweep."""
    si = numeric_key(scenario, key.key).value
    zero, one = key.in_si(np.array([0.0, 1.0]))
    return float((si - zero) / (one - zero))


def _names(prepared: Prepared) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Names of all result columns, and of those that are safety factors."""
    rows = guide_rows(prepared, {}, np.zeros(1, dtype=np.int64))
    return tuple(rows.columns), rows.factors
