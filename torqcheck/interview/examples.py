"""What is taken from the shipped examples: a copy, or the block of a joint to fill in by hand."""

import re
import tomllib
from collections.abc import Iterator
from typing import Any, get_type_hints

from pydantic import BaseModel

from torqcheck.errors import UsageError
from torqcheck.interview.schema_place import Field
from torqcheck.resources import shipped_folder
from torqcheck.scenario.faults import nearest, printable
from torqcheck.scenario.kinds import KINDS

__all__ = ["copied_example", "example_names", "example_text", "hand_block"]


def example_names() -> tuple[str, ...]:
    """Names of the shipped examples, without their ending."""
    names = (path.name for path in shipped_folder("scenarios").iterdir())
    return tuple(sorted(name.removesuffix(".toml") for name in names if name.endswith(".toml")))


def example_text(name: str) -> str:
    """Text of a shipped example."""
    return shipped_folder("scenarios").joinpath(f"{name}.toml").read_text(encoding="utf-8")


def copied_example(name: str) -> tuple[str, dict[str, bytes]]:
    """
    Return a shipped example as a copy that says so, and the files that it reads, by their names.

    Raises
    ------
    UsageError
        If there is no such example: names the nearest and all.
    """
    wanted = name.removesuffix(".toml")
    known = example_names()
    if wanted not in known:
        near = nearest(wanted, known)
        raise UsageError(
            f'--from: "{printable(name[:80])}" is not an example; {near}known: {", ".join(known)}'
        )
    text = example_text(wanted)
    head = f"# Copied from the shipped example {wanted}.toml.\n"
    document = tomllib.loads(text)
    names = list(document.get("materials", {}).get("tables", []))
    if "duty_file" in document:
        names.append(document["duty_file"]["path"])
    folder = shipped_folder("scenarios")
    return head + text, {entry: folder.joinpath(entry).read_bytes() for entry in names}


def hand_block(kind: str) -> tuple[str, tuple[str, ...]]:
    """
    Return where a block of a kind comes from, and its lines.

    From the first example that has such a joint; where none has, the keys that it needs, by the schema.
    """
    for name in example_names():
        for block in _joint_blocks(example_text(name)):
            if f'kind = "{kind}"' in block:
                return f"{name}.toml", tuple(block)
    return "", ("[[joint]]", f'kind = "{kind}"', *_needed_keys(KINDS[kind]))


def _joint_blocks(text: str) -> Iterator[list[str]]:
    """Cut an example into its joints, each with its inner tables."""
    block: list[str] | None = None
    for line in [*text.splitlines(), "[end]"]:
        header = re.match(r"\[+\s*([A-Za-z_.]+)", line)
        if header is not None and not header[1].startswith("joint."):
            if block is not None:
                yield _without_end(block)
            block = [] if header[1] == "joint" else None
        if block is not None:
            block.append(line)


def _without_end(block: list[str]) -> list[str]:
    """Drop blank lines at the end, and a comment there: it belongs to what follows."""
    while block and (not block[-1].strip() or block[-1].startswith("#")):
        block = block[:-1]
    return block


def _needed_keys(model: type[BaseModel]) -> Iterator[str]:
    """Keys that a block cannot do without, with what they mean in place of their value."""
    hints: dict[str, Any] = get_type_hints(model, include_extras=True)
    for key, info in model.model_fields.items():
        if info.is_required() and key != "kind":
            field = Field(key, info, hints[key])
            words = " | ".join(field.words)
            example = field.example or (f'"{words}"' if words else "...")
            yield f"{info.alias or key} = {example}   # {field.meaning}"
