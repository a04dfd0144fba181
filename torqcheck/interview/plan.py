"""Which questions apply, in their order, given the answers so far."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from torqcheck.interview.joint_questions import ASKED_KINDS, JOINT_QUESTIONS, MORE
from torqcheck.interview.machine_questions import DUTY_QUESTIONS, MACHINE_QUESTIONS, RECORD_QUESTIONS
from torqcheck.interview.question import NOT_KNOWN, Question, When

__all__ = ["MOST_JOINTS", "Asked", "asked_joints", "next_asked", "spells_of", "taken"]

MOST_JOINTS = 30


@dataclass(frozen=True, slots=True)
class Asked:
    """A question as it is put: for which spell or joint, counted from 1; 0 where there is but one.

    `entry` is the place in the list of the file, from 0 on: joints that are filled in by hand do not count.
    """

    question: Question
    number: int = 0
    entry: int = 0

    @property
    def id(self) -> str:
        """Name of the question with the count of its spell or joint."""
        return _id(self.question.key, self.number)

    def other(self, key: str) -> str:
        """Name of another question of the same spell or joint."""
        return _id(key, self.number)


def _id(key: str, number: int) -> str:
    return key.replace("[]", f"[{number}]") if number else key


def spells_of(answers: Mapping[str, str]) -> int:
    """How many spells of work are described."""
    said = answers.get("duty.count", NOT_KNOWN)
    return 0 if said == NOT_KNOWN else int(said)


def asked_joints(answers: Mapping[str, str]) -> int:
    """How many joints of a kind that is asked have been begun."""
    return sum(answers.get(f"joint[{number}].kind") in ASKED_KINDS for number in range(1, MOST_JOINTS + 1))


def next_asked(answers: Mapping[str, str]) -> Asked | None:
    """Return the first question that applies and has no answer; None when all have one."""
    return next((asked for asked in _plan(answers) if asked.id not in answers), None)


def taken(answers: Mapping[str, str]) -> Iterator[Asked]:
    """Yield the questions that have been answered, in their order."""
    for asked in _plan(answers):
        if asked.id not in answers:
            return
        yield asked


def _plan(answers: Mapping[str, str]) -> Iterator[Asked]:
    """Every question that applies; beyond the first without an answer it is not to be relied upon."""
    yield from _applying(MACHINE_QUESTIONS, 0, 0, answers)
    spells = spells_of(answers)
    for spell in range(1, spells + 1):
        for asked in _applying(DUTY_QUESTIONS, spell, spell - 1, answers):
            if asked.question.key != "duty[].share" or spell < spells:
                yield asked
    entry = 0
    for joint in range(1, MOST_JOINTS + 1):
        yield from _applying(JOINT_QUESTIONS, joint, entry, answers)
        entry += answers.get(_id("joint[].kind", joint)) in ASKED_KINDS
        if answers.get(_id(MORE, joint)) != "yes":
            break
    yield from _applying(RECORD_QUESTIONS, 0, 0, answers)


def _applying(
    questions: tuple[Question, ...], number: int, entry: int, answers: Mapping[str, str]
) -> Iterator[Asked]:
    for question in questions:
        if all(_holds(when, number, answers) for when in question.when):
            yield Asked(question, number, entry)


def _holds(when: When, number: int, answers: Mapping[str, str]) -> bool:
    """Whether a condition is met."""
    said = [answers.get(_id(key, number)) for key in (when.key, when.or_key) if key]
    known = [word for word in said if word is not None]
    if not known:
        return when.or_unasked
    return any(word not in when.none_of and (not when.any_of or word in when.any_of) for word in known)
