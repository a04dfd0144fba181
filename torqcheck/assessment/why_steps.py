"""From evaluations of formulas to the steps of an explanation, each checked by its own arithmetic."""

import inspect
import itertools
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from torqcheck.assessment.why_belief import believed, same, shared_words
from torqcheck.assessment.why_known import Known
from torqcheck.assessment.why_result import Step, Term
from torqcheck.formulas import FORMULAS, Symbol
from torqcheck.provenance import Mark, Source, weakest_mark
from torqcheck.tracing import Call

__all__ = ["BELOW", "UNSEEN", "Workings"]

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
class Workings:
    """
    What was computed for one joint, and what it can have been computed from.

    Parameters
    ----------
    calls : sequence of Call
        Evaluations of filed formulas.
    known : sequence of Known
        Numbers with their origin, the likeliest origin first.
    """

    calls: Sequence[Call]
    known: Sequence[Known]

    def step_of(self, call: Call, depth: int = 0) -> Step:
        """Return one evaluation with the origin of each of its arguments."""
        formula = FORMULAS[call.function]
        defaults = {
            name: parameter.default
            for name, parameter in inspect.signature(call.function).parameters.items()
            if parameter.default is not inspect.Parameter.empty
        }
        letters = set(_LETTER.findall(formula.text))
        terms = [
            self.term(symbol, call.arguments[name], depth + 1, call, defaults.get(name))
            for name, symbol in formula.symbols.items()
            if name in call.arguments and (symbol.letter in letters or not call.within)
        ]
        shown = {term.letter for term in terms}
        for inner in call.within:
            letter = FORMULAS[inner.function].result.letter
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

    def term(
        self, symbol: Symbol, value: Any, depth: int, above: Call | None = None, default: Any = None
    ) -> Term:
        """Return one symbol with the origin of its value."""
        origin, mark, step = self._origin(symbol, value, depth, above, default)
        return Term(
            letter=symbol.letter,
            meaning=symbol.meaning,
            value=value,
            unit=symbol.unit,
            origin=origin,
            mark=mark,
            step=step,
        )

    def product(
        self, letter: str, meaning: str, value: float, unit: str, factors: Mapping[str, float]
    ) -> Step | None:
        """
        Find the number that gives a value when it is multiplied or divided by some of the factors.

        None if there is no such number: nothing is guessed that the arithmetic does not bear out.
        """
        used = {name: factor for name, factor in factors.items() if factor != 1.0}
        powers = sorted(
            itertools.product((0, 1, -1), repeat=len(used)), key=lambda chosen: sum(map(abs, chosen))
        )
        for chosen in powers:
            whole = 1.0
            for factor, power in zip(used.values(), chosen, strict=True):
                whole *= factor**power
            base = self._base(value / whole, unit)
            if base is not None:
                applied = {name: power for name, power in zip(used, chosen, strict=True) if power}
                return self._product(letter, meaning, value, unit, base, applied, used)
        return None

    def _base(self, value: float, unit: str) -> Step | Known | None:
        """The formula or the known number that has a value."""
        for call in self.calls:
            if same(call.value, value) and FORMULAS[call.function].result.unit == unit:
                return self.step_of(call)
        for known in self.known:
            if same(known.value, value) and known.unit in {None, unit} and known.near < 4:
                return known
        return None

    def _product(
        self,
        letter: str,
        meaning: str,
        value: float,
        unit: str,
        base: Step | Known,
        applied: Mapping[str, int],
        factors: Mapping[str, float],
    ) -> Step:
        """Write the product down."""
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
            symbol = _factor_symbol(name, len(terms))
            terms.append(self.term(symbol, factors[name], 1))
            (top if power > 0 else bottom).append(symbol.letter)
        text = " ".join(top)
        if bottom:
            text += f" / {bottom[0]}" if len(bottom) == 1 else f" / ({' '.join(bottom)})"
        marks = [term.mark for term in terms]
        source = Source("Product of the factors as listed", "", weakest_mark(marks))
        return Step(
            letter=letter, meaning=meaning, value=value, unit=unit,
            formula=f"{letter} = {text}", terms=tuple(terms), source=source,
        )  # fmt: skip

    def _origin(
        self, symbol: Symbol, value: Any, depth: int, above: Call | None, default: Any
    ) -> tuple[str, Mark, Step | None]:
        """Where a value comes from: the file, an assumption, a formula, a table."""
        if not isinstance(value, float):
            return ("as the case is", "derived", None)
        plain = isinstance(default, int | float) and not isinstance(default, bool)
        standing = plain and same(float(default), value)
        best = self._best(symbol, value)
        spoken = best is not None and shared_words(symbol.meaning, best.words, telling=True) > 0
        if standing and not spoken:
            return STANDING, "derived", None
        if best is not None and best.unit is not None and (spoken or best.near <= 1):
            return _words(best), best.mark, None
        call = self._call(symbol, value, above)
        if call is not None and depth < DEEPEST:
            source = FORMULAS[call.function].source
            return BELOW, source.mark, self.step_of(call, depth)
        return (UNSEEN, "derived", None) if best is None else (_words(best), best.mark, None)

    def _best(self, symbol: Symbol, value: float) -> Known | None:
        """The likeliest origin of a value, None if equality is all that speaks for any."""
        alike = [
            known
            for known in self.known
            if known.unit in {None, symbol.unit} and same(known.value, value)
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

    def _call(self, symbol: Symbol, value: float, above: Call | None) -> Call | None:
        """The evaluation that gave a value, before the one that uses it."""
        for call in self.calls:
            if call is above:
                # what ended later cannot have fed it
                return None
            result = FORMULAS[call.function].result
            shared = shared_words(symbol.meaning, result.meaning, telling=True)
            if same(call.value, value) and result.unit == symbol.unit and believed(value, shared):
                return call
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
