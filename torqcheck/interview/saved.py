"""An interview that was broken off, as a file that can be read, and back."""

import json
import tomllib
from typing import Any

from torqcheck.errors import UsageError
from torqcheck.interview.dialogue import Dialogue
from torqcheck.interview.question import NOT_KNOWN
from torqcheck.scenario.faults import printable

__all__ = ["LARGEST_SAVED", "restored", "saved_text"]

LARGEST_SAVED = 200_000
"""Bytes; an interview has some five thousand."""
LONGEST_LINE = 10_000
"""Bytes; the parser takes quadratic time over a dotted key."""


def saved_text(dialogue: Dialogue, command: str) -> str:
    """Return the answers so far as TOML; `command` is how one goes on."""
    lines = [
        "# Answers of an interview that is not finished. Go on with:",
        f"#   {printable(command)}",
        "format = 1",
    ]
    for name, said in dialogue.given:
        lines += ["", "[[answer]]", f"question = {_quoted(name)}", f"said = {_quoted(said)}"]
    for name, said in dialogue.undone:
        lines += ["", "[[undone]]", f"question = {_quoted(name)}", f"said = {_quoted(said)}"]
    return "\n".join(lines) + "\n"


def restored(content: bytes, name: str) -> tuple[Dialogue, tuple[str, ...]]:
    """
    Return the interview where it was broken off.

    Parameters
    ----------
    content : bytes
        What `saved_text` has written.
    name : str
        Name of the file, for messages.

    Returns
    -------
    tuple
        The interview, and what the rules had against the first answer that they no longer take, if
        there is one: the interview then goes on there.

    Raises
    ------
    UsageError
        If the file holds no answers.
    """
    answers, undone = _entries(content, name)
    dialogue = Dialogue((), undone)
    for entry in answers:
        asked = dialogue.question
        if asked is None or asked.id != entry["question"]:
            return dialogue, (f"{printable(entry['question'][:80])} is not the next question any more",)
        reply = dialogue.fed(entry["said"] or NOT_KNOWN)
        if reply.kind != "taken":
            return dialogue, (f'"{asked.question.words}": the answer is not taken any more', *reply.lines)
        dialogue = reply.dialogue
    return dialogue, ()


def _entries(content: bytes, name: str) -> tuple[list[dict[str, str]], tuple[tuple[str, str], ...]]:
    """Every answer of the file, and those from which somebody went back."""
    cure = "mend it, or remove it and begin again"
    if len(content) > LARGEST_SAVED:
        raise UsageError(f"{name}: is larger than {LARGEST_SAVED} bytes; {cure}")
    if max(map(len, content.splitlines()), default=0) > LONGEST_LINE:
        raise UsageError(f"{name}: has a line of more than {LONGEST_LINE} bytes; {cure}")
    try:
        document: dict[str, Any] = tomllib.loads(content.decode())
    except (ValueError, RecursionError) as error:
        raise UsageError(f"{name}: is not a file of answers: {error}; {cure}") from None
    entries: Any = document.get("answer", [])
    undone: Any = document.get("undone", [])
    if document.get("format") != 1 or not _sound(entries) or not _sound(undone):
        raise UsageError(f"{name}: is not a file of answers; {cure}")
    return (
        [{key: entry[key] for key in ("question", "said")} for entry in entries],
        tuple((entry["question"], entry["said"]) for entry in undone),
    )


def _sound(entries: Any) -> bool:
    """Whether it is a list of questions with what was said."""
    return isinstance(entries, list) and all(
        isinstance(entry, dict) and all(isinstance(entry.get(key), str) for key in ("question", "said"))
        for entry in entries
    )


def _quoted(text: str) -> str:
    """A text as TOML writes it."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")
