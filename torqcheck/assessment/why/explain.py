"""Why a number of the result is what it is: the formulas behind it, with their values and origins."""

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from pathlib import Path
from typing import Any

from torqcheck.assessment.assess import Evaluation, assess, evaluate
from torqcheck.assessment.result import Assessment
from torqcheck.assessment.torque.factors import life_factors
from torqcheck.assessment.verdict.answered import Answered, answered_for
from torqcheck.assessment.why.belief import believed, same, shared_words
from torqcheck.assessment.why.known import Known, known_values
from torqcheck.assessment.why.moved import Twin, moved_scenario, twins_of
from torqcheck.assessment.why.names import Named, named_numbers, number_called
from torqcheck.assessment.why.result import Explanation, Step, Term
from torqcheck.assessment.why.steps import BELOW, FACTORS, Number, Workings
from torqcheck.checks import Check
from torqcheck.errors import DomainError, NoSolutionError
from torqcheck.formulas import FORMULAS, Symbol
from torqcheck.provenance import Source
from torqcheck.scenario import Scenario, load_scenario
from torqcheck.scenario.ledger import Ledger
from torqcheck.tracing import Call, calls_during

__all__ = ["Reasons", "why"]

QUANTITIES = {"stress": ("Pa", "stress"), "torque": ("N m", "torque"), "force": ("N", "force")}
UNIT_IN_SI = {"MPa": "Pa", "mm": "m", "um": "m", "h": "s", "kN": "N", "N/mm": "N/m"}
WORDS: tuple[tuple[str, str], ...] = (
    (r"interval\.p5|p5$", "5th percentile over the draws of everything that was read or assumed"),
    (r"interval\.p95|p95$", "95th percentile over the draws"),
    (r"chance_below_1", "share of the draws in which the safety factor is below 1"),
    (r"p10$", "10th percentile over the draws: one in ten is below it"),
    (r"p50$", "median over the draws"),
    (r"p90$", "90th percentile over the draws"),
    (r"share_reaching", "share of the draws that reach the service life"),
    (
        r"^shock\.",
        "from the exact response of two inertias with lash to the ramp; its inputs stand in shock.inputs",
    ),
    (r"\.play\.", "effect of the play, by the shock model and the load sharing of the teeth"),
    (r"load_distribution", "from the balance of springs of all teeth, over the draws of the spacing errors"),
    (r"fatigue", "from the strength line, the cycles of the duty and the damage sum"),
    (r"alignment", "from the readings of the dial around the clock"),
    (r"stack", "from the sum of the distances with their signs and tolerances"),
    (r"seed$|draws|count$|contact_losses", "a count or the seed of the draws"),
    (r"target", "what the scenario asks for, or what this check asks for by itself"),
)
"""What a number is, where no single formula gives it: the first pattern that its name holds."""


@dataclass(frozen=True)
class Reasons:
    """A scenario assessed so that its numbers can be taken apart."""

    scenario: Scenario
    assessment: Assessment
    _seen: dict[int, Workings] = field(default_factory=dict, init=False, repr=False)
    _as_stated: dict[int, Workings] = field(default_factory=dict, init=False, repr=False)

    @cached_property
    def result(self) -> Mapping[str, Any]:
        """The JSON of the assessment."""
        return self.assessment.to_dict()

    @cached_property
    def _traced(self) -> tuple[Evaluation, tuple[Call, ...]]:
        return calls_during(lambda: evaluate(self.scenario, "as stated"))

    @cached_property
    def _after(self) -> tuple[Scenario, Evaluation, tuple[Call, ...]]:
        """The same when every number of the file has moved by a hair; as it stands if that cannot be."""
        moved = moved_scenario(self.scenario)
        if moved is not None:
            try:
                return moved, *calls_during(lambda: evaluate(moved, "as stated"))
            except (DomainError, NoSolutionError):
                pass
        return self.scenario, *self._traced

    @cached_property
    def _text(self) -> str:
        try:
            return self.scenario.path.read_text("utf-8-sig")
        except (OSError, UnicodeDecodeError):
            return ""

    def names(self) -> tuple[Named, ...]:
        """Return every number that can be asked for."""
        return named_numbers(self.result)

    def why(self, name: str) -> Explanation:
        """
        Take one number apart.

        Raises
        ------
        UsageError
            If no number is called so, or several are.
        """
        number = number_called(self.result, name)
        head = Answered(**answered_for(self.scenario)).head()
        step = self._step(number)
        words = "" if step is not None else self._words(number)
        return Explanation(
            name=number.name, value=number.value, unit=number.unit, words=words, step=step, head=head
        )

    def _step(self, number: Named) -> Step | None:
        """The formula behind a number, if one is filed."""
        path = number.path
        if path[0] == "joints" and len(path) > 4 and path[2] == "checks":
            joint, place = int(path[1]), int(path[3])
            check = self.assessment.joints[joint].checks[place]
            return self._of_check(check, joint, str(path[4])) if len(path) == 5 else self._term(number).step
        workings = self._workings(_joint_of(number))
        value = number.value * number.in_si
        for twin in workings.twins:
            meaning = FORMULAS[twin.call.function].result.meaning
            shared = shared_words(_meaning(number), meaning, telling=True)
            if same(twin.call.value, value) and believed(value, shared):
                return workings.step_of(twin)
        return None

    def _of_check(self, check: Check, joint: int, key: str) -> Step | None:
        """Value, allowable or safety factor of a check."""
        unit, noun = QUANTITIES[check.quantity]
        workings, after = self._workings(joint), self._check_after(check, joint)
        if key == "safety_factor":
            value = Symbol("S", unit, f"{noun} that arises")
            limit = Symbol("A", unit, f"{noun} that is allowed")
            terms = (
                _side(limit, Number(check.allowable, after.allowable), check, after, workings),
                _side(value, Number(check.value, after.value), check, after, workings),
            )
            return Step(
                letter="n", meaning=f"safety factor of {check.name}", value=check.safety_factor or math.inf,
                unit="-", formula="n = A / S", terms=terms,
                source=Source("Definition of the safety factor", "", "derived"),
            ) if check.value else None  # fmt: skip
        if key in {"value", "allowable"}:
            letter, meaning = (
                ("S", f"{noun} that arises") if key == "value" else ("A", f"{noun} that is allowed")
            )
            number = Number(getattr(check, key), getattr(after, key))
            return workings.product(Symbol(letter, unit, meaning), number, _factors(check, after), check.name)
        return None

    def _workings(self, joint: int) -> Workings:
        """What was computed, and what is known, seen from one joint, equal numbers told apart."""
        if joint not in self._seen:
            plain = self._plain(joint)
            moved, evaluation, calls = self._after
            after: dict[str, list[Known]] = {}
            for each in _known(moved, self._text, evaluation, joint):
                after.setdefault(_called(each), []).append(each)
            known = [
                replace(each, moved=same_name.pop(0).value)
                if (same_name := after.get(_called(each)))
                else each
                for each in plain.known
            ]
            self._seen[joint] = Workings(twins_of(self._traced[1], calls), known)
        return self._seen[joint]

    def _plain(self, joint: int) -> Workings:
        """The same where nothing has moved."""
        if joint not in self._as_stated:
            evaluation, calls = self._traced
            known = _known(self.scenario, self._text, evaluation, joint)
            self._as_stated[joint] = Workings([Twin(call, call) for call in calls], known)
        return self._as_stated[joint]

    def _check_after(self, check: Check, joint: int) -> Check:
        """A check when every number of the file has moved, or itself if that cannot be told."""
        key = (check.name, check.method, check.member)
        alike = [
            other
            for other in self._after[1].findings[joint].checks
            if (other.name, other.method, other.member) == key
            and other.factors.keys() == check.factors.keys()
        ]
        return alike[0] if len(alike) == 1 else check

    def _words(self, number: Named) -> str:
        """What a number is, where no formula is filed for it."""
        for pattern, words in WORDS:
            if re.search(pattern, number.name):
                return words
        return self._term(number).origin

    def _term(self, number: Named) -> Term:
        """A number that no formula of its own is filed for, as if it stood in one."""
        symbol = Symbol("", UNIT_IN_SI.get(number.unit, number.unit) or "-", _meaning(number))
        joint, path = _joint_of(number), number.path
        if len(path) == 6 and path[2] == "checks" and path[4] == "factors":
            check = self.assessment.joints[joint].checks[int(path[3])]
            factor = _factors(check, self._check_after(check, joint)).get(str(path[5]))
            if factor is not None:
                return self._workings(joint).term(symbol, factor, 1)
        value = number.value * number.in_si
        return self._plain(joint).term(symbol, Number(value, value), 1)


def _side(symbol: Symbol, number: Number, check: Check, after: Check, workings: Workings) -> Term:
    """One side of a check, with its own formula where there is one."""
    step = workings.product(symbol, number, _factors(check, after), check.name)
    if step is None:
        return workings.term(symbol, number, 1)
    mark = "derived" if step.source is None else step.source.mark
    return Term(
        letter=symbol.letter, meaning=symbol.meaning, value=number.value, unit=symbol.unit,
        origin=BELOW, mark=mark, step=step,
    )  # fmt: skip


def _factors(check: Check, after: Check) -> dict[str, Number]:
    return {name: Number(value, after.factors[name]) for name, value in check.factors.items()}


def _known(scenario: Scenario, text: str, evaluation: Evaluation, joint: int) -> tuple[Known, ...]:
    """What is known, seen from one joint."""
    prepared = evaluation.prepared
    factors = life_factors(prepared.spells, prepared.loads[joint], prepared.service_life, Ledger())
    return known_values(scenario, text, prepared, evaluation.shock, joint, factors)


def _called(known: Known) -> str:
    """What a known number is called, without the value that the file states."""
    return known.words.partition(" = ")[0]


def _joint_of(number: Named) -> int:
    return int(number.path[1]) if number.path[0] == "joints" else 0


def _meaning(number: Named) -> str:
    """Name a number by the last key of its path, a factor of the guide in full."""
    last = str(number.path[-1])
    return FACTORS[last][1] if last in FACTORS else last


def why(path_or_scenario: str | Path | Scenario, name: str) -> Explanation:
    """
    Take one number of the result of a scenario apart.

    Parameters
    ----------
    path_or_scenario : str, Path or Scenario
        The scenario.
    name : str
        Name of the number, or enough words of it.

    Raises
    ------
    ScenarioError
        If the file cannot be used.
    UsageError
        If no number is called so, or several are.
    """
    scenario = path_or_scenario if isinstance(path_or_scenario, Scenario) else load_scenario(path_or_scenario)
    return Reasons(scenario, assess(scenario)).why(name)
