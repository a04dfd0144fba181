"""From evaluations of formulas to the steps of an explanation, each checked by its own arithmetic."""

import inspect
import itertools
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from torqcheck.assessment.why.belief import believed, same, shared_words
from torqcheck.assessment.why.known import Known
from torqcheck.assessment.why.moved import Twin
from torqcheck.assessment.why.result import Step, Term
from torqcheck.formulas import FORMULAS, Symbol
from torqcheck.provenance import Mark, Source, weakest_mark

__all__ = ["BELOW", "UNSEEN", "Number", "Workings"]

DEEPEST = 8
FACTORS: Mapping[str, tuple[str, str]] = {
    "Ka": ("Ka", "application factor"),
    "Km": ("Km", "load-distribution factor"),
    "life": ("Lf", "life factor of the guide"),
    "fixed seat divisor": ("fs", "a fixed seat carries so many times the pressure"),
    "Kfs": ("Kfs", "fatigue notch factor in shear"),
}
_LETTER = re.compile(r"[A-Za-z][A-Za-z0-9_]*'*")
BELOW, STANDING = "formula below", "as the formula is used here"
UNSEEN = "worked out on the way; no formula is filed for it"


@dataclass(frozen=True, slots=True)
class Number:
    """A number as the result has it, and when every number of the file has moved; or a word, twice."""

    value: Any
    after: Any


@dataclass(frozen=True, slots=True)
class Workings:
    """
    What was computed for one joint, and what it can have been computed from.

    Parameters
    ----------
    twins : sequence of Twin
        Evaluations of filed formulas. Origins are found by the numbers after the move, where equals
        are told apart; what is shown are those before it.
    known : sequence of Known
        Numbers with their origin, the likeliest origin first.
    """

    twins: Sequence[Twin]
    known: Sequence[Known]

    def step_of(self, twin: Twin, depth: int = 0) -> Step:
        """Return one evaluation with the origin of each of its arguments."""
        call, after = twin.call, twin.after
        formula = FORMULAS[call.function]
        defaults = {
            name: parameter.default
            for name, parameter in inspect.signature(call.function).parameters.items()
            if parameter.default is not inspect.Parameter.empty
        }
        letters = set(_LETTER.findall(formula.text))
        terms = [
            self.term(
                symbol,
                Number(call.arguments[name], after.arguments[name]),
                depth + 1,
                twin,
                defaults.get(name),
            )
            for name, symbol in formula.symbols.items()
            if name in call.arguments and (symbol.letter in letters or not call.within)
        ]
        shown = {term.letter for term in terms}
        for inner in self._within(twin):
            letter = FORMULAS[inner.call.function].result.letter
            if letter in letters and letter not in shown:
                shown.add(letter)
                terms.append(_below(self.step_of(inner, depth + 1)))
        result = formula.result
        return Step(
            letter=result.letter,
            meaning=result.meaning,
            value=call.value,
            unit=result.unit,
            formula=formula.text,
            terms=tuple(terms),
            source=formula.source,
        )

    def _within(self, twin: Twin) -> list[Twin]:
        """Evaluations that one made use of."""
        inner = {id(call) for call in twin.after.within}
        return [other for other in self.twins if id(other.after) in inner]

    def term(
        self, symbol: Symbol, number: "Number", depth: int, above: Twin | None = None, default: Any = None
    ) -> Term:
        """Return one symbol with the origin of its value."""
        origin, mark, step = self._origin(symbol, number, depth, above, default)
        return Term(
            letter=symbol.letter,
            meaning=symbol.meaning,
            value=number.value,
            unit=symbol.unit,
            origin=origin,
            mark=mark,
            step=step,
        )

    def product(
        self, symbol: Symbol, number: "Number", factors: "Mapping[str, Number]", check: str
    ) -> Step | None:
        """
        Find the number that gives a value when it is multiplied or divided by some of the factors.

        None if there is no such number: nothing is guessed that the arithmetic does not bear out.

        Parameters
        ----------
        symbol : Symbol
            Side of a check.
        number : Number
            Its value.
        factors : mapping
            Of the check, by name.
        check : str
            What the check is called.
        """
        used = {name: factor for name, factor in factors.items() if factor.value != 1.0}
        powers = sorted(
            itertools.product((0, 1, -1), repeat=len(used)), key=lambda chosen: sum(map(abs, chosen))
        )
        for chosen in powers:
            whole = 1.0
            for factor, power in zip(used.values(), chosen, strict=True):
                whole *= factor.after**power
            base = self._base(number.after / whole, symbol.unit, check)
            if base is not None:
                applied = {name: power for name, power in zip(used, chosen, strict=True) if power}
                return self._product(symbol, number.value, base, applied, used)
        return None

    def _base(self, value: float, unit: str, check: str) -> Step | Known | None:
        """The formula or the known number that has a value."""
        for twin in self.twins:
            result = FORMULAS[twin.call.function].result
            if not same(twin.after.value, value) or result.unit != unit:
                continue
            if twin.passes_on and not shared_words(check, result.meaning, telling=True):
                # it only hands on one of its arguments, which serves other checks as well
                continue
            return self.step_of(twin)
        for known in self.known:
            if same(known.after, value) and known.unit in {None, unit} and known.near < 4:
                return known
        return None

    def _product(
        self,
        symbol: Symbol,
        value: float,
        base: Step | Known,
        applied: Mapping[str, int],
        factors: "Mapping[str, Number]",
    ) -> Step:
        """Write the product down."""
        letter, unit = symbol.letter, symbol.unit
        if isinstance(base, Step):
            first = _below(base)
        else:
            name = "S0" if letter != "S0" else "S1"
            first = Term(
                letter=name, meaning=base.words.rsplit(", ", 1)[-1], value=base.value, unit=unit,
                origin=_words(base), mark=base.mark,
            )  # fmt: skip
        if not applied and isinstance(base, Step):
            return base
        terms, top = [first], [first.letter]
        bottom: list[str] = []
        for name, power in applied.items():
            factor = _factor_symbol(name, len(terms))
            terms.append(self.term(factor, factors[name], 1))
            (top if power > 0 else bottom).append(factor.letter)
        text = " ".join(top)
        if bottom:
            text += f" / {bottom[0]}" if len(bottom) == 1 else f" / ({' '.join(bottom)})"
        marks = [term.mark for term in terms]
        source = Source("Product of the factors as listed", "", weakest_mark(marks))
        return Step(
            letter=letter, meaning=symbol.meaning, value=value, unit=unit,
            formula=f"{letter} = {text}", terms=tuple(terms), source=source,
        )  # fmt: skip

    def _origin(
        self, symbol: Symbol, number: "Number", depth: int, above: Twin | None, default: Any
    ) -> tuple[str, Mark, Step | None]:
        """Where a value comes from: the file, an assumption, a formula, a table."""
        if not isinstance(number.value, float):
            return ("as the case is", "derived", None)
        plain = isinstance(default, int | float) and not isinstance(default, bool)
        standing = plain and same(float(default), number.after)
        best = self._best(symbol, number.after)
        spoken = best is not None and shared_words(symbol.meaning, best.words, telling=True) > 0
        if standing and not spoken:
            return STANDING, "derived", None
        written = best is not None and best.mark == "measured" and best.after != best.value
        if best is not None and best.unit is not None and (spoken or written or best.near <= 1):
            return _words(best), best.mark, None
        twin = self._twin(symbol, number.after, above)
        if twin is not None and depth < DEEPEST:
            source = FORMULAS[twin.call.function].source
            return BELOW, source.mark, self.step_of(twin, depth)
        return (UNSEEN, "derived", None) if best is None else (_words(best), best.mark, None)

    def _best(self, symbol: Symbol, value: float) -> Known | None:
        """The likeliest origin of a value, None if equality is all that speaks for any."""
        alike = [
            known
            for known in self.known
            if known.unit in {None, symbol.unit} and same(known.after, value)
            and believed(
                value,
                shared_words(symbol.meaning, known.words, telling=True),
                same_unit=known.unit == symbol.unit,
                at_hand=known.near == 0 and symbol.unit != "-",
            )
        ]  # fmt: skip
        return max(
            alike,
            key=lambda known: (shared_words(symbol.meaning, known.words, telling=False), -known.near),
            default=None,
        )

    def _twin(self, symbol: Symbol, value: float, above: Twin | None) -> Twin | None:
        """The evaluation that gave a value, before the one that uses it."""
        for twin in self.twins:
            if twin is above:
                # what ended later cannot have fed it
                return None
            result = FORMULAS[twin.call.function].result
            shared = shared_words(symbol.meaning, result.meaning, telling=True)
            if same(twin.after.value, value) and result.unit == symbol.unit and believed(value, shared):
                return twin
        return None


def _below(step: Step) -> Term:
    """A symbol whose value comes from a formula of its own."""
    mark: Mark = "derived" if step.source is None else step.source.mark
    return Term(
        letter=step.letter, meaning=step.meaning, value=step.value, unit=step.unit,
        origin=BELOW, mark=mark, step=step,
    )  # fmt: skip


def _factor_symbol(name: str, count: int) -> Symbol:
    letter, meaning = FACTORS.get(name, (f"f{count}", name))
    return Symbol(letter, "-", meaning)


def _words(known: Known) -> str:
    """Origin of a number, with the work that it was taken from; the mark stands beside it."""
    source = known.source
    if source is None:
        return known.words
    return f"{known.words} ({source.work}{', ' if source.where else ''}{source.where})"
