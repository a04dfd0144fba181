"""What the check would assume for a question that nobody answers, heard from the check itself."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from torqcheck.assessment.prepared import prepared_of
from torqcheck.errors import TorqcheckError
from torqcheck.interview.checking import probe
from torqcheck.interview.document import field_of
from torqcheck.interview.plan import Asked
from torqcheck.interview.schema_place import steps_of
from torqcheck.scenario.faults import key_text
from torqcheck.scenario.ledger import Assumption

__all__ = ["Standing", "standing_for"]


@dataclass(frozen=True, slots=True)
class Standing:
    """What stands for an answer: an assumption of the check, a default of the schema, or words."""

    assumption: Assumption | None = None
    default: bool | int | float | str | None = None
    words: str = ""


def standing_for(asked: Asked, answers: Mapping[str, str], document: Mapping[str, Any]) -> Standing | None:
    """
    Return what no answer to a question would mean.

    Parameters
    ----------
    asked : Asked
        The question.
    answers : mapping
        Those given so far.
    document : mapping
        What the file says after them.
    """
    question = asked.question
    if question.needed:
        return None
    found = _from_ledger(asked, document)
    if found is not None:
        return Standing(assumption=found)
    if question.nothing or not _has_field(asked):
        return Standing(words=question.nothing)
    return Standing(default=field_of(asked, answers).plain_default)


def _has_field(asked: Asked) -> bool:
    """Whether the question is named by a place in the file."""
    question = asked.question
    places = {place for choice in question.choices for place, _ in choice.writes}
    return question.form == "reading" or question.key in places


def _from_ledger(asked: Asked, document: Mapping[str, Any]) -> Assumption | None:
    """What the check writes down when it prepares what is known so far."""
    scenario = probe(document)
    if scenario is None:
        return None
    key = key_text(steps_of(asked.question.assumed or asked.question.key, asked.entry))
    try:
        ledger = prepared_of(scenario).ledger
    except (TorqcheckError, ArithmeticError):
        return None
    return next((entry for entry in ledger.assumptions if entry.key == key), None)
