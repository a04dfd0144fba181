"""The scenario file that an interview ends in: every key with its meaning, what is not known as comments."""

import datetime
import json
import textwrap
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, get_type_hints

from pydantic import BaseModel

from torqcheck.interview.assumed import Standing, standing_for
from torqcheck.interview.dialogue import Dialogue
from torqcheck.interview.examples import hand_block
from torqcheck.interview.joint_questions import ASKED_KINDS
from torqcheck.interview.question import NOT_KNOWN
from torqcheck.interview.schema_place import Field, blocks_in, steps_of
from torqcheck.report.asking import standing_words
from torqcheck.report.numbers import significant
from torqcheck.scenario.kinds import KINDS
from torqcheck.scenario.marked import EXAMPLE_MARK
from torqcheck.scenario.schema import Scenario
from torqcheck.units import in_unit

__all__ = ["scenario_text", "template_text"]

CHANGE = f"  {EXAMPLE_MARK}"
_WIDTH = 78
_LONE = ("record", "motor", "reduction", "driven", "targets")
_INNER = ("external", "internal")
_FIRST = ("title", "name", "kind", "standard", "size")
_HEAD = (
    "Answers to the questions of `torqcheck new`. A key behind # is not known: what the check takes in its "
    "place stands above it. Take the # away once it is measured. `torqcheck schema` lists every key.",
)
_TEMPLATE_HEAD = (
    "A template for a typical job: an electric motor on an old gearbox, one involute spline.",
    "All numbers are invented. Replace what stands in every line that ends with # change; then check it with "
    "`torqcheck assess`.",
)


def scenario_text(dialogue: Dialogue) -> str:
    """Return the finished interview as the text of a scenario file."""
    return _File(dialogue, "").text(_HEAD)


def template_text(dialogue: Dialogue) -> str:
    """Return the interview of a typical job as a template: each line to replace is marked."""
    return _File(dialogue, CHANGE).text(_TEMPLATE_HEAD)


class _File:
    """One file on its way: the document, and what stands for what is not known."""

    def __init__(self, dialogue: Dialogue, mark: str) -> None:
        self.dialogue = dialogue
        self.document = dialogue.document
        self.mark = mark
        self.hints = get_type_hints(Scenario, include_extras=True)
        self.unknown = {
            place: standing_for(asked, dialogue.answers, dialogue.document)
            for asked in dialogue.answered
            if dialogue.answers[asked.id] == NOT_KNOWN
            for key in (asked.question.key, asked.question.assumed)
            if key
            for place in (steps_of(key, asked.entry),)
        }

    def text(self, head: Sequence[str]) -> str:
        """Put the whole file together."""
        lines = [line for paragraph in head for line in _comment(paragraph)]
        lines += ["format = 1"]
        for name in _LONE:
            if name in self.document or name not in {"reduction"}:
                lines += self._block(f"[{name}]", blocks_in(self.hints[name])[0], (name,))
        lines += self._duty()
        lines += self._joints()
        return "\n".join(lines) + "\n"

    def _duty(self) -> Iterator[str]:
        """The spells, or a word on what stands for them."""
        if ("duty",) in self.unknown:
            yield ""
            words = standing_words(self.unknown[("duty",)])
            yield from _comment(f"Spells of work, each under [[duty]] (not known: {words})")
        model = blocks_in(self.hints["duty"])[0]
        for index in range(len(self.document.get("duty", ()))):
            yield from self._block("[[duty]]", model, ("duty", index))

    def _joints(self) -> Iterator[str]:
        """The joints from the motor to the load, those to be filled in by hand among them."""
        for asked in self.dialogue.answered:
            if asked.question.key != "joint[].kind":
                continue
            kind = self.dialogue.answers[asked.id]
            if kind in ASKED_KINDS:
                yield from self._block("[[joint]]", KINDS[kind], ("joint", asked.entry))
            else:
                yield from _by_hand(kind)

    def _block(self, header: str, model: type[BaseModel], place: tuple[str | int, ...]) -> Iterator[str]:
        """One table: plain keys first, then the two members of a spline."""
        written = self._at(place)
        hints = get_type_hints(model, include_extras=True)
        yield ""
        yield header
        for key in sorted(
            model.model_fields, key=lambda key: _FIRST.index(key) if key in _FIRST else len(_FIRST)
        ):
            if key not in _INNER:
                field = Field(key, model.model_fields[key], hints[key])
                yield from self._key(field, written.get(key), (*place, key))
        for key in _INNER:
            if key in hints and place[0] == "joint":
                yield from self._block(f"[joint.{key}]", hints[key], (*place, key))

    def _at(self, place: tuple[str | int, ...]) -> Mapping[str, Any]:
        here: Any = self.document
        for step in place:
            here = here[step] if isinstance(step, int) else here.get(step, {})
        return here  # type: ignore[no-any-return]

    def _key(self, field: Field, written: Any, place: tuple[str | int, ...]) -> Iterator[str]:
        """One key with its meaning: as it is known, or as a comment with what stands for it."""
        if written is not None:
            yield from _comment(f"{field.meaning}")
            yield f"{field.key} = {_toml(written)}{self.mark if field.key != 'kind' else ''}"
            return
        standing = self.unknown.get(place)
        if standing is None and field.plain_default is None:
            return
        words = standing_words(standing)
        says = f"not known: {words}" if words else "if it is not written"
        yield from _comment(f"{field.meaning} ({says})")
        yield f"# {field.key} = {_stand_in(field, standing)}"


def _stand_in(field: Field, standing: Standing | None) -> str:
    """A value for a commented key: what is assumed, what the schema fills in, or an example."""
    entry = None if standing is None else standing.assumption
    if entry is not None and entry.value is not None:
        if entry.kind is None:
            return significant(entry.value)
        value, unit = in_unit(entry.value, entry.kind, "si")
        return f'"{significant(value)} {unit}"'
    if entry is not None and entry.word in field.words:
        return _toml(entry.word)
    if field.plain_default is not None:
        return _toml(field.plain_default)
    truth = entry.word if entry is not None and entry.word in {"true", "false"} else "..."
    return field.example.partition(" or ")[0] or truth


def _by_hand(kind: str) -> Iterator[str]:
    """A block to fill in, as comments."""
    origin, block = hand_block(kind)
    source = f"the lines below are from {origin}, an invented machine" if origin else "with the keys it needs"
    yield ""
    yield from _comment(
        f"A joint to fill in by hand: {kind}; {source}. Write your own values, then take the # away."
    )
    for line in block:
        yield f"#{line}" if line else "#"


def _comment(text: str) -> list[str]:
    """A sentence as comment lines."""
    return textwrap.wrap(text, _WIDTH, initial_indent="# ", subsequent_indent="# ", break_on_hyphens=False)


def _toml(value: Any) -> str:
    """A value as TOML writes it, tables in one line."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, datetime.date):
        return value.isoformat()
    if isinstance(value, int | float):
        return repr(value)
    if isinstance(value, Mapping):
        inner = ", ".join(f"{key} = {_toml(item)}" for key, item in value.items())
        return f"{{ {inner} }}"
    return json.dumps(str(value), ensure_ascii=False).replace("\x7f", "\\u007f")
