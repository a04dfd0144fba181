"""One number taken apart, for people: the formula, its symbols with values, and where each comes from."""

from collections.abc import Iterator, Sequence
from typing import Any

from torqcheck.assessment.why.names import Named
from torqcheck.assessment.why.result import Explanation, Step, Term
from torqcheck.report.build import CAUTION
from torqcheck.report.numbers import significant
from torqcheck.report.sheet import Column, Note, Sheet, Table
from torqcheck.units import Kind, System, in_unit

__all__ = ["names_sheet", "why_sheet"]

DIGITS = 5
LARGEST_COUNT = 1e6
KINDS: dict[str, Kind] = {
    "m": "length",
    "rad": "angle",
    "N m": "torque",
    "N m/s": "torque rise",
    "rad/s": "speed",
    "kg m^2": "inertia",
    "N m/rad": "stiffness",
    "N/m": "side stiffness",
    "Pa": "stress",
    "kg": "mass",
    "N": "force",
}
SAME = "The same code gave this page and the result: the program was watched while it evaluated its formulas."

APART = (
    "Equal numbers are told apart by a second evaluation, for which every number of the file that its rules "
    "let move was made a hair larger, each by another share."
)

STATED = "[measured] stands at what the scenario states, be it read on the bench or taken from a data sheet."


def why_sheet(found: Explanation, systems: Sequence[System]) -> Sheet:
    """
    Arrange an explanation: the number, then one table for each formula, the last one first.

    Parameters
    ----------
    found : Explanation
        The answer.
    systems : sequence of str
        Unit systems, the leading one first.
    """
    head = found.head["scenario"]
    value = significant(found.value, DIGITS)
    words = [f"{found.name} = {value} {found.unit}".rstrip()]
    if found.step is None:
        words.append(f"No single formula: {found.words}.")
    parts = [] if found.step is None else list(_tables(found.step, systems))
    if parts:
        parts.append(Note("How this was found", (SAME, APART, STATED)))
    return Sheet(
        f"Why {found.name}",
        (f"{head['title']} ({head['file']})",),
        None,
        tuple(words),
        tuple(parts),
        (CAUTION,),
    )


def _tables(step: Step, systems: Sequence[System]) -> Iterator[Table | Note]:
    """One table for each formula, each formula once."""
    seen: set[tuple[str, float]] = set()
    for number, each in enumerate(_distinct(step, seen), start=1):
        rows = tuple(_row(term, systems) for term in each.terms)
        result = f"{each.letter} = {_shown(each.value, each.unit, systems)}"
        title = f"{number}. {each.formula}    ({each.meaning}; {result})"
        source = "" if each.source is None else f"Source of the formula: {each.source}"
        columns = (Column("Symbol"), Column("Value", width=22), Column("Meaning and origin", width=50))
        yield Table(title, columns, rows, (), source)


def _distinct(step: Step, seen: set[tuple[str, float]]) -> Iterator[Step]:
    """Steps in order, those that were shown already left out."""
    for each in step.all_steps():
        key = each.formula, each.value
        if key not in seen:
            seen.add(key)
            yield each


def _row(term: Term, systems: Sequence[System]) -> tuple[str, str, str]:
    origin = f"{term.origin} [{term.mark}]" if term.step is None else f"by {term.step.formula}"
    return term.letter, _shown(term.value, term.unit, systems), f"{term.meaning}: {origin}"


def _shown(value: Any, unit: str, systems: Sequence[System]) -> str:
    """A value in the unit of its symbol as people read it."""
    if isinstance(value, str):
        return value
    if isinstance(value, tuple):
        return ", ".join(_shown(each, unit, systems) for each in value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    kind = KINDS.get(unit)
    if kind is None:
        return f"{_number(value, unit, DIGITS)} {'' if unit == '-' else unit}".rstrip()
    texts = []
    for system in systems:
        number, label = in_unit(value, kind, system)
        texts.append(f"{significant(number, DIGITS)} {label}")
    return texts[0] if len(texts) == 1 or texts[0] == texts[-1] else f"{texts[0]} ({texts[1]})"


def _number(value: float, unit: str, digits: int = 3) -> str:
    """A number with its digits; a count, or a whole ratio, without decimals."""
    if unit in {"", "-"} and float(value).is_integer() and abs(value) < LARGEST_COUNT:
        return f"{value:.0f}"
    return significant(value, digits)


def names_sheet(names: Sequence[Named], title: str) -> Sheet:
    """List the numbers that can be asked for."""
    rows = tuple((name.name, f"{_number(name.value, name.unit)} {name.unit}".rstrip()) for name in names)
    table = Table("Names", (Column("Name", width=58), Column("Value", "right")), rows)
    words = (
        "Write the name, or so many words of it that only one is left; a check alone means its safety factor."
    )
    return Sheet(f"Numbers of {title}", (), None, (words,), (table,))
