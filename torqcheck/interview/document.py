"""From answers to what the scenario file says."""

import datetime
import re
from collections.abc import Mapping
from typing import Any

from torqcheck.errors import QuantityError
from torqcheck.interview.identified import offered, reading_place, size_of
from torqcheck.interview.joint_questions import ASKED_KINDS
from torqcheck.interview.plan import Asked, spells_of, taken
from torqcheck.interview.question import NOT_KNOWN
from torqcheck.interview.schema_place import field_at, put, steps_of
from torqcheck.interview.settled import DATE
from torqcheck.units import read

__all__ = ["document_of", "field_of", "kind_of", "meanings_of", "place_of"]

_NUMBER = re.compile(r"[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d{1,3})?", re.ASCII)
_DATE = re.compile(r"\d{4}-\d{2}-\d{2}", re.ASCII)
_COUNT = re.compile(r"[+-]?\d{1,9}", re.ASCII)
_PERCENT = re.compile(r"(.*?)\s*(?:%|percent)(?:\s*(?:per|/|in)?\s*10\s*ms)?", re.ASCII)


def document_of(answers: Mapping[str, str]) -> dict[str, Any]:
    """Return what the file says after these answers, as its TOML would read."""
    document: dict[str, Any] = {"format": 1}
    for asked in taken(answers):
        _write(document, asked, answers)
    _last_share(document, spells_of(answers))
    return document


def kind_of(asked: Asked, answers: Mapping[str, str]) -> str:
    """Kind of the joint that a question belongs to; empty for another."""
    return answers.get(asked.other("joint[].kind"), "") if asked.question.key.startswith("joint[]") else ""


def place_of(asked: Asked, answers: Mapping[str, str]) -> str:
    """Where the answer of a plain reading stands in the file."""
    key = asked.question.key
    if ".identify." in key:
        return reading_place(key, answers.get(asked.other("joint[].identify.side"), "external"))
    return key


def field_of(asked: Asked, answers: Mapping[str, str]) -> Any:
    """Field of the schema that the answer fills, where the question is named by its place."""
    return field_at(steps_of(place_of(asked, answers), asked.entry), kind_of(asked, answers))


def _write(document: dict[str, Any], asked: Asked, answers: Mapping[str, str]) -> None:
    """Write what one answer says."""
    question, said = asked.question, answers[asked.id]
    if said == NOT_KNOWN and question.unknown is not None:
        put(document, steps_of(question.key, asked.entry), question.unknown)
    elif said == NOT_KNOWN or said in question.silent:
        return
    elif question.form == "choice":
        chosen = next((choice for choice in question.choices if choice.word == said), None)
        for place, value in chosen.writes if chosen is not None else ():
            put(document, steps_of(place, asked.entry), value)
    elif question.form == "ramp":
        key, value = _ramp_written(said)
        put(document, ("motor", key), value)
    elif question.form == "pick":
        _write_size(document, asked, answers, said)
    elif kind_of(asked, answers) in {"", *ASKED_KINDS}:
        written = said if question.form == "steel" else _as_schema_reads(asked, answers, said)
        put(document, steps_of(place_of(asked, answers), asked.entry), written)


def _as_schema_reads(asked: Asked, answers: Mapping[str, str], said: str) -> Any:
    """Return a number where the schema wants one and the text is one, else the text as it is."""
    if asked.question.key == DATE:
        return _date(said)
    number = field_of(asked, answers).number
    if number is int and _COUNT.fullmatch(said):
        return int(said)
    return _number(said) if number is float else said


def _date(text: str) -> Any:
    """Return a date where the text is one; the schema refuses what is left."""
    try:
        return datetime.date.fromisoformat(text) if _DATE.fullmatch(text) else text
    except ValueError:
        return text


def _number(text: str) -> Any:
    return float(text) if _NUMBER.fullmatch(text) else text


def _ramp_written(said: str) -> tuple[str, Any]:
    """Return key and value of a rise of torque in any of the forms in which a controller states it."""
    share = _PERCENT.fullmatch(said)
    if share is not None:
        return "percent_per_10ms", _number(share[1])
    try:
        read(said, "time")
    except QuantityError:
        return "torque_rise", said
    return "rise_time", said


def _write_size(document: dict[str, Any], asked: Asked, answers: Mapping[str, str], said: str) -> None:
    """Write standard and size of the candidate that was taken; nothing for none of these."""
    for ranked in offered(asked, answers):
        size = size_of(ranked)
        if ranked.candidate.designation == said and size is not None:
            put(document, ("joint", asked.entry, "standard"), size[0])
            put(document, ("joint", asked.entry, "size"), size[1])
            return


def _last_share(document: dict[str, Any], spells: int) -> None:
    """Give the last spell what the others leave of the running time."""
    duty = document.get("duty", [])
    if spells and len(duty) == spells:
        duty[-1]["share"] = round(1.0 - sum(_share(spell) for spell in duty[:-1]), 12)


def _share(spell: Mapping[str, Any]) -> float:
    share = spell.get("share", 0.0)
    return share if isinstance(share, float) else 0.0


def meanings_of(asked: Asked, answers: Mapping[str, str]) -> tuple[str, ...]:
    """Say what the schema means by the keys that a question fills."""
    question, kind = asked.question, kind_of(asked, answers)
    places = [place for choice in question.choices for place, _ in choice.writes]
    if question.form in {"reading", "steel"}:
        places = [place_of(asked, answers)]
    if kind not in {"", *ASKED_KINDS}:
        return ()
    unique = dict.fromkeys(places)
    return tuple(field_at(steps_of(place, asked.entry), kind).meaning for place in unique)
