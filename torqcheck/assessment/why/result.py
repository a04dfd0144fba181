"""One number taken apart: its formula, what stands in it, and where each of that comes from."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from torqcheck.provenance import Mark, Source

__all__ = ["Explanation", "Step", "Term"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """
    One symbol of a formula with its value. SI.

    Parameters
    ----------
    letter, meaning, unit : str
        As in the formula.
    value : float, str or tuple
        A number; for some formulas a word, or several numbers.
    origin : str
        Where the value comes from, in words.
    mark : str
        How it is known.
    step : Step or None
        The formula that gave it, if one did.
    """

    letter: str
    meaning: str
    value: Any
    unit: str
    origin: str
    mark: Mark
    step: "Step | None" = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """
    One formula evaluated.

    Parameters
    ----------
    letter, meaning, unit : str
        Of the result.
    value : float
        In SI.
    formula : str
        In plain ASCII; empty for a number that no formula gives.
    terms : tuple of Term
        In the order of the formula.
    source : Source or None
        Of the formula.
    """

    letter: str
    meaning: str
    value: float
    unit: str
    formula: str
    terms: tuple[Term, ...] = ()
    source: Source | None = None

    def all_steps(self) -> Iterator["Step"]:
        """Yield this step and every one below it, each before those that it rests on."""
        yield self
        for term in self.terms:
            if term.step is not None:
                yield from term.step.all_steps()

    def to_dict(self) -> dict[str, Any]:
        """Return it as plain data."""
        return {
            "result": self.letter,
            "meaning": self.meaning,
            "value": self.value,
            "unit": self.unit,
            "formula": self.formula,
            "symbols": [_term(term) for term in self.terms],
            "source": None if self.source is None else str(self.source),
        }


def _term(term: Term) -> dict[str, Any]:
    value = list(term.value) if isinstance(term.value, tuple) else term.value
    return {
        "symbol": term.letter,
        "meaning": term.meaning,
        "value": value,
        "unit": term.unit,
        "from": term.origin,
        "mark": term.mark,
        "step": None if term.step is None else term.step.to_dict(),
    }


@dataclass(frozen=True, slots=True, kw_only=True)
class Explanation:
    """
    The answer to why a number of the result is what it is.

    Parameters
    ----------
    name : str
        Of the number in the result.
    value : float
        As the result states it, in its unit.
    unit : str
        That unit.
    words : str
        What the number is, where no formula says it.
    step : Step or None
        The formula that gave it, in SI.
    head : dict
        Which version answered for which file.
    """

    name: str
    value: float
    unit: str
    words: str
    step: Step | None
    head: dict[str, Any]

    def to_dict(self) -> dict[str, Any]:
        """Return it as plain data."""
        step = {} if self.step is None else self.step.to_dict()
        return self.head | {
            "name": self.name,
            "formula": step.get("formula", ""),
            "symbols": step.get("symbols", []),
            "value": self.value,
            "unit": self.unit,
            "source": step.get("source"),
            "words": self.words,
            "in_si": None if self.step is None else {"value": self.step.value, "unit": self.step.unit},
        }
