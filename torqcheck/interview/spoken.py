"""Faults of the file as they are told to a person who was asked in words and has not seen a key."""

import re
from collections.abc import Iterable, Mapping
from typing import Protocol

from torqcheck.errors import Fault
from torqcheck.interview.document import field_of, place_of
from torqcheck.interview.plan import Asked
from torqcheck.interview.schema_place import steps_of
from torqcheck.interview.wording import example_of
from torqcheck.scenario.faults import key_text

__all__ = ["concerns", "spoken"]

_SENTENCE_HEAD = re.compile(r"(is|has|holds|must|leaves|does|contradicts|needs|names|are)\b")


class _Answered(Protocol):
    """As much of an interview as a message needs."""

    @property
    def answers(self) -> Mapping[str, str]:
        """What was said, by the name of the question."""
        ...

    @property
    def answered(self) -> tuple[Asked, ...]:
        """The questions that have an answer, in order."""
        ...


def concerns(key: str, asked: Asked, answers: Mapping[str, str]) -> bool:
    """Whether a fault lies where a question writes, in it or around it."""
    return any(place.startswith(key) or key.startswith(place) for place in _places(asked, answers))


def spoken(faults: Iterable[Fault], asked: Asked, dialogue: _Answered) -> tuple[str, ...]:
    """
    Return faults in words: of the open question without its key, of an earlier one with its question.

    Parameters
    ----------
    faults : iterable of Fault
        As the rules of the file name them.
    asked : Asked
        The open question.
    dialogue : Dialogue
        The interview so far.
    """
    return tuple(dict.fromkeys(_said(fault, asked, dialogue) for fault in faults))


def _said(fault: Fault, asked: Asked, dialogue: _Answered) -> str:
    subject, place = fault.written, ""
    if not concerns(fault.key, asked, dialogue.answers):
        earlier = [one for one in dialogue.answered if concerns(fault.key, one, dialogue.answers)]
        place = f'at "{earlier[-1].question.words}": ' if earlier else f"{fault.key}: "
    if not subject and _SENTENCE_HEAD.match(fault.problem):
        subject = "this"
    mend = f"; {_own_example(fault.mend, asked, dialogue.answers)}" if fault.mend else ""
    text = f"{place}{subject} {fault.problem}{mend}".replace("  ", " ").strip()
    return _in_words(text, dialogue)


def _in_words(text: str, dialogue: _Answered) -> str:
    """Put the question in place of each key that a message names."""
    for one in dialogue.answered:
        key = key_text(steps_of(place_of(one, dialogue.answers), one.entry))
        if "." in key:
            text = re.sub(rf"{re.escape(key)}(?![\w.])", f'the answer to "{one.question.words}"', text)
    return text


def _own_example(mend: str, asked: Asked, answers: Mapping[str, str]) -> str:
    """Put the example of the question in place of that of its kind, whose size may be another."""
    own = example_of(asked.question)
    if not own or asked.question.form != "reading":
        return mend
    general = field_of(asked, answers).example
    return mend.replace(general, " or ".join(f'"{part}"' for part in own.split(" or "))) if general else mend


def _places(asked: Asked, answers: Mapping[str, str]) -> list[str]:
    question = asked.question
    names = [place_of(asked, answers), *(place for choice in question.choices for place, _ in choice.writes)]
    return ["motor." if question.form == "ramp" else key_text(steps_of(name, asked.entry)) for name in names]
