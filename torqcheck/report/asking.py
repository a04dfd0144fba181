"""The questions of the interview as lines of a terminal: 80 columns, no colour."""

import datetime
import textwrap
from collections.abc import Sequence

from torqcheck.interview.assumed import Standing
from torqcheck.interview.dialogue import Dialogue, Reply
from torqcheck.interview.document import field_of
from torqcheck.interview.question import NOT_KNOWN
from torqcheck.interview.settled import DATE
from torqcheck.interview.wording import example_of
from torqcheck.report.numbers import band_text, both, significant
from torqcheck.scenario.faults import printable

__all__ = [
    "answers_in_words",
    "opening_lines",
    "question_lines",
    "reply_lines",
    "resumed_lines",
    "spoken_answer",
    "standing_words",
]

WIDTH = 80
_INDENT = "     "


def opening_lines() -> tuple[str, ...]:
    """What somebody reads before the first question."""
    return (
        "Answer with a number and its unit. Enter or ? if you do not know: what stands",
        "for it is shown. back: one question back. help: more words. stop: break off,",
        "and go on another day.",
    )


def resumed_lines(dialogue: Dialogue, width: int = WIDTH) -> tuple[str, ...]:
    """Return what was answered before an interview was broken off: for what, how much, and the last."""
    lines = [*_wrapped(f"{answers_in_words(len(dialogue.given))} taken up again.", "", width)]
    if dialogue.given:
        title = dialogue.answers.get("record.title", NOT_KNOWN)
        if title != NOT_KNOWN:
            lines += _wrapped(f"Machine: {printable(title)}", _INDENT, width)
        last = dialogue.answered[-1]
        said = spoken_answer(dialogue.answers[last.id])
        lines += _wrapped(f"The last one: {last.question.words} {said}", _INDENT, width)
    return tuple(lines)


def answers_in_words(count: int) -> str:
    """How many answers, with the verb."""
    return "1 answer is" if count == 1 else f"{count} answers are"


def question_lines(dialogue: Dialogue, width: int = WIDTH) -> tuple[str, ...]:
    """Return the open question: words, how to find the answer, examples or choices, what stands for it."""
    asked = dialogue.question
    if asked is None:
        return ()
    count = f"[{len(dialogue.given) + 1}]".ljust(len(_INDENT))
    word = "spell" if asked.question.key.startswith("duty") else "joint"
    part = f"{word} {asked.number}: " if asked.number else ""
    lines = ["", *_wrapped(f"{count}{part}{asked.question.words}", _INDENT, width)]
    lines += _wrapped(_INDENT + asked.question.how, _INDENT, width)
    for finding in dialogue.finding:
        lines += _wrapped(f"{_INDENT}{finding}", _INDENT, width)
    lines += _choice_lines(dialogue, width)
    example = "" if dialogue.choices or asked.question.form != "reading" else _example(dialogue)
    if example:
        lines += _wrapped(f"{_INDENT}For example {example}.", _INDENT, width)
    without = _without_answer(dialogue)
    if without:
        lines += _wrapped(f"{_INDENT}{without}", _INDENT, width)
    return tuple(lines)


def _without_answer(dialogue: Dialogue) -> str:
    """Say what Enter and ? mean: the answer before, what stands for none, and what that leads to."""
    asked, before = dialogue.question, dialogue.before
    words = standing_words(dialogue.standing)
    if asked is not None and asked.question.leads_to:
        words = "; ".join(part for part in (words, asked.question.leads_to) if part)
    if before is None:
        return f"Enter or ?: {words}." if words else ""
    kept = f"Enter: as before, {spoken_answer(before)}."
    return f"{kept} ?: {words}." if words else kept


def spoken_answer(said: str) -> str:
    """An answer as it was given, for a person."""
    return "not known" if said == NOT_KNOWN else printable(said)


def reply_lines(reply: Reply, width: int = WIDTH) -> tuple[str, ...]:
    """Return what is to be said about an answer; nothing for one that was taken as it is."""
    mark = "  !  " if reply.kind == "complaint" else _INDENT
    lines: list[str] = []
    for text in (*reply.lines, *((reply.note,) if reply.note else ())):
        lines += _wrapped(mark + printable(text), _INDENT, width)
    lines += _columns([(row.id, row.says) for row in reply.steels], width)
    return tuple(lines)


def standing_words(standing: Standing | None) -> str:
    """Say what stands for an answer that nobody has; empty where nothing is to be said."""
    if standing is None:
        return ""
    if standing.assumption is None:
        return _plain(standing.default) if standing.default is not None else standing.words
    entry = standing.assumption
    text = entry.word
    if entry.value is not None:
        text = significant(entry.value) if entry.kind is None else both(entry.value, entry.kind, ("si",))
        if entry.low is not None and entry.high is not None:
            text += f", band {band_text((entry.low, entry.high), entry.kind, ('si',))}"
    text = {"true": "yes", "false": "no"}.get(text, text)
    return f"{text} [{entry.mark}]: {entry.why}"


def _plain(default: bool | int | float | str) -> str:
    """A default of the schema in words."""
    if isinstance(default, bool):
        return "yes" if default else "no"
    return default if isinstance(default, str) else f"{default:g}"


def _example(dialogue: Dialogue) -> str:
    """Examples for a quantity, as one types them."""
    asked = dialogue.question
    if asked is None:
        return ""
    if asked.question.key == DATE:
        return f"{datetime.date.today().isoformat()} (today)"
    return example_of(asked.question) or field_of(asked, dialogue.answers).example.replace('"', "")


def _choice_lines(dialogue: Dialogue, width: int) -> list[str]:
    choices = dialogue.choices
    digits = len(str(len(choices)))
    rows = [(f"{i:>{digits}} {choice.word}", choice.meaning) for i, choice in enumerate(choices, start=1)]
    counts = all(choice.word == str(i) for i, choice in enumerate(choices, start=1))
    return (
        _wrapped(f"{_INDENT}1 to {len(choices)}", _INDENT, width)
        if rows and counts
        else _columns(rows, width)
    )


def _columns(rows: Sequence[tuple[str, str]], width: int) -> list[str]:
    """Two columns, the second wrapped."""
    widest = max((len(left) for left, _ in rows), default=0) + 2
    lines: list[str] = []
    for left, right in rows:
        lines += _wrapped(f"{_INDENT}{left.ljust(widest)}{right}".rstrip(), _INDENT + " " * widest, width)
    return lines


def _wrapped(text: str, further: str, width: int) -> list[str]:
    return textwrap.wrap(text, width, subsequent_indent=further, break_on_hyphens=False, drop_whitespace=True)
