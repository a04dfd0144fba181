"""The interview as a state machine: an answer in, the next question or a complaint out. No terminal."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any, Literal

from torqcheck.errors import TableError
from torqcheck.interview.assumed import Standing, standing_for
from torqcheck.interview.checking import faults_of
from torqcheck.interview.document import document_of, meanings_of
from torqcheck.interview.identified import found_at, offered
from torqcheck.interview.plan import MOST_JOINTS, Asked, asked_joints, next_asked, taken
from torqcheck.interview.question import NOT_KNOWN, Choice
from torqcheck.interview.settled import plain, settled_as
from torqcheck.interview.size_questions import NONE_OF_THESE
from torqcheck.interview.spoken import concerns, spoken
from torqcheck.interview.steel_search import SteelRow, matching_steels
from torqcheck.interview.wording import help_of
from torqcheck.materials import steel
from torqcheck.scenario.faults import nearest, printable, written_text

__all__ = ["Dialogue", "Reply"]

LONGEST_ANSWER = 200
MOST_STEELS = 12
"""Rows of the tables that are shown at once."""
_NOT_KNOWN_WORDS = {"", "?", "unknown", "don't know", "dont know", "do not know", "not known"}
_BACK, _HELP, _STOP = "back", "help", "stop"


@dataclass(frozen=True, slots=True)
class Reply:
    """
    What became of an answer.

    `dialogue` is the interview after it, the same as before where it was not taken. `lines` says why it
    was not, one fault a line, or what help there is; `note` how it was understood, where it was not
    taken letter by letter. `steels` are the rows among which to choose.
    """

    dialogue: "Dialogue"
    kind: Literal["taken", "complaint", "back", "help", "stop"]
    lines: tuple[str, ...] = ()
    note: str = ""
    steels: tuple[SteelRow, ...] = ()


@dataclass(frozen=True)
class Dialogue:
    """
    The interview at one moment.

    Parameters
    ----------
    given : tuple
        Every answer so far with the name of its question, in order: the file and the next question
        follow from them alone.
    undone : tuple
        Answers from which somebody went back, the same way; offered again where their question comes.
    """

    given: tuple[tuple[str, str], ...] = ()
    undone: tuple[tuple[str, str], ...] = ()
    answers: Mapping[str, str] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "answers", dict(self.given))

    @cached_property
    def question(self) -> Asked | None:
        """The question that is open; None at the end."""
        return next_asked(self.answers)

    @cached_property
    def document(self) -> dict[str, Any]:
        """What the file says so far; not to be changed."""
        return document_of(self.answers)

    @property
    def answered(self) -> tuple[Asked, ...]:
        """The questions that have an answer, in order."""
        return tuple(taken(self.answers))

    @property
    def before(self) -> str | None:
        """What was answered at the open question before somebody went back; None if nothing that holds."""
        asked = self.question
        said = None if asked is None else dict(self.undone).get(asked.id)
        words = {choice.word for choice in self.choices}
        return said if said == NOT_KNOWN or not words or said in words else None

    @property
    def standing(self) -> Standing | None:
        """What no answer to the open question would mean; None where it needs one."""
        asked = self.question
        return None if asked is None else standing_for(asked, self.answers, self.document)

    @property
    def choices(self) -> tuple[Choice, ...]:
        """The answers among which to choose at the open question; none where it is free."""
        asked = self.question
        if asked is None:
            return ()
        if asked.question.form == "pick":
            return (*map(_candidate, offered(asked, self.answers)), Choice(NONE_OF_THESE))
        return asked.question.choices

    @property
    def finding(self) -> tuple[str, ...]:
        """What an identification says beside its candidates, where the open question is for one of them."""
        asked = self.question
        if asked is None or asked.question.form != "pick":
            return ()
        found = found_at(asked, self.answers)
        if isinstance(found, str):
            return (found,)
        return (f"{found.verdict}: {found.reasons[0]}", *found.reasons[1:], *found.cautions)

    def fed(self, text: str) -> Reply:
        """Answer the open question; `back`, `help` and `stop` are understood at every one."""
        asked, text = self.question, _unquoted(" ".join(text.split()))
        word = text.casefold()
        if word == _STOP or asked is None:
            return Reply(self, "stop")
        if word == _BACK:
            return self._back()
        if word == _HELP:
            return Reply(self, "help", self._help(asked))
        if len(text) > LONGEST_ANSWER:
            says = f"this answer is longer than {LONGEST_ANSWER} characters; shorten it"
            return Reply(self, "complaint", (says,))
        if not word and self.before is not None:
            return self._taken(self.before)
        if word in _NOT_KNOWN_WORDS:
            return self._not_known(asked)
        if asked.question.form == "steel":
            return self._steel(text)
        if self.choices:
            return self._choice(text)
        settled = settled_as(asked.question, text)
        return self._taken(settled, "" if settled == plain(text) else f"taken as {settled}")

    def _back(self) -> Reply:
        """One question back; at the first there is nothing behind."""
        if not self.given:
            return Reply(self, "complaint", ("this is the first question",))
        last, others = self.given[-1], [entry for entry in self.undone if entry[0] != self.given[-1][0]]
        return Reply(Dialogue(self.given[:-1], (*others, last)), "back")

    def _help(self, asked: Asked) -> tuple[str, ...]:
        """What its hint does not say: what the answer is for, what words mean, what stands in the file."""
        lines = (help_of(asked.question),)
        meaning = "; ".join(meanings_of(asked, self.answers))
        return (*lines, f"In the file: {meaning}.") if meaning else lines

    def _not_known(self, asked: Asked) -> Reply:
        """Somebody does not know: something stands for it, or it is needed all the same."""
        if asked.question.needed:
            says = f"an answer is needed here, nothing can stand for it. Hint: {asked.question.how}"
            return Reply(self, "complaint", (says,))
        return self._taken(NOT_KNOWN)

    def _choice(self, text: str) -> Reply:
        """Take a choice by its count, its word, or the beginning of one word."""
        choices = self.choices
        if text.isascii() and text.isdigit() and len(text) < 4 and 1 <= int(text) <= len(choices):
            exact = [choice for choice in choices if choice.word == text]
            return self._taken((exact or [choices[int(text) - 1]])[0].word)
        word = text.casefold()
        fits = [choice.word for choice in choices if choice.word.casefold() == word]
        fits = fits or [choice.word for choice in choices if choice.word.casefold().startswith(word)]
        if len(fits) == 1:
            return self._taken(fits[0], f"taken as {fits[0]}" if fits[0].casefold() != word else "")
        words = [choice.word for choice in choices]
        known = f"a number from 1 to {len(words)}, or one of: {', '.join(words)}"
        says = f"{written_text(text)} is none of the answers; {nearest(text, words)}write {known}"
        return Reply(self, "complaint", (says,))

    def _steel(self, text: str) -> Reply:
        """Take a steel by its row; show the rows that hold what was typed."""
        try:
            return self._taken(steel(text).id)
        except TableError as error:
            rows = matching_steels(text)
            if len(rows) == 1:
                return self._taken(rows[0].id, f"taken as {rows[0].id}")
            if rows:
                first = f", the first {MOST_STEELS} are shown" if len(rows) > MOST_STEELS else ""
                says = (
                    f"{written_text(text)} stands in {len(rows)} rows{first}; type more, or one of the names"
                )
                return Reply(self, "complaint", (says,), steels=rows[:MOST_STEELS])
            return Reply(self, "complaint", (f'{printable(str(error))}; or answer "?"',))

    def _taken(self, settled: str, note: str = "") -> Reply:
        """Take an answer if the rules of the file have nothing against it."""
        asked = self.question
        assert asked is not None
        after = Dialogue((*self.given, (asked.id, settled)), self.undone)
        faults = faults_of(after.document, after.answers)
        complaints = spoken(faults, asked, after) or _end_faults(asked, settled, after)
        if faults and not any(concerns(fault.key, asked, after.answers) for fault in faults):
            complaints = (*complaints, "to change an earlier answer, answer back")
        if complaints:
            return Reply(self, "complaint", complaints)
        return Reply(after, "taken", note=note)


def _candidate(ranked: Any) -> Choice:
    """One candidate of an identification as an answer."""
    candidate = ranked.candidate
    says = candidate.standard
    if not ranked.allowed:
        says += ", does not agree with every reading"
    elif ranked.same_part_as is not None:
        says += f", the same teeth as {ranked.same_part_as}"
    elif ranked.likelihood is not None and ranked.likelihood < 1.0:
        says += f", {ranked.likelihood:.2g} times as likely as the first"
    return Choice(candidate.designation, says)


def _end_faults(asked: Asked, settled: str, after: Dialogue) -> tuple[str, ...]:
    """What can only be said when a joint is complete."""
    if asked.question.key != "joint[].more":
        return ()
    if settled == "yes" and asked.number >= MOST_JOINTS:
        return (f"{MOST_JOINTS} joints are the most that are asked for; add others in the file",)
    if settled != "yes" and not asked_joints(after.answers):
        return ('a file needs a joint that is asked for here: a spline or a shaft; answer "yes" or "back"',)
    return ()


def _unquoted(text: str) -> str:
    """Take away the quotes that the file would want around a text."""
    quoted = len(text) > 1 and text[0] == text[-1] and text[0] in "\"'"
    return text[1:-1].strip() if quoted else text
