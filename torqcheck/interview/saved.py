"""An interview that was broken off, as a file that can be read, and back."""

import json
import tomllib
from typing import Any

from torqcheck.errors import UsageError
from torqcheck.interview.dialogue import Dialogue
from torqcheck.scenario.faults import printable

__all__ = ["LARGEST_SAVED", "restored", "saved_text"]

LARGEST_SAVED = 200_000
"""Bytes; an interview has some five thousand."""


def saved_text(dialogue: Dialogue, command: str) -> str:
    """Return the answers so far as TOML; `command` is how one goes on."""
    lines = [
        "# Answers of an interview that is not finished. Go on with:",
        f"#   {printable(command)}",
        "format = 1",
    ]
    for name, said in dialogue.given:
        lines += ["", "[[answer]]", f"question = {_quoted(name)}", f"said = {_quoted(said)}"]
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
    dialogue = Dialogue()
    for entry in _entries(content, name):
        asked = dialogue.question
        if asked is None or asked.id != entry["question"]:
            return dialogue, (f"{printable(entry['question'][:80])} is not the next question any more",)
        reply = dialogue.fed(entry["said"])
        if reply.kind != "taken":
            return dialogue, (f"{asked.id}: the answer is not taken any more", *reply.lines)
        dialogue = reply.dialogue
    return dialogue, ()


def _entries(content: bytes, name: str) -> list[dict[str, str]]:
    """Every answer of the file."""
    cure = "mend it, or remove it and begin again"
    if len(content) > LARGEST_SAVED:
        raise UsageError(f"{name}: is larger than {LARGEST_SAVED} bytes; {cure}")
    try:
        document: dict[str, Any] = tomllib.loads(content.decode())
    except (ValueError, RecursionError) as error:
        raise UsageError(f"{name}: is not a file of answers: {error}; {cure}") from None
    entries: Any = document.get("answer", [])
    sound = isinstance(entries, list) and all(
        isinstance(entry, dict) and all(isinstance(entry.get(key), str) for key in ("question", "said"))
        for entry in entries
    )
    if document.get("format") != 1 or not sound:
        raise UsageError(f"{name}: is not a file of answers; {cure}")
    return [{key: entry[key] for key in ("question", "said")} for entry in entries]


def _quoted(text: str) -> str:
    """A text as TOML writes it."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")
