"""From pydantic's errors to faults in plain words, with the nearest valid key or value."""

from collections.abc import Iterable, Mapping
from difflib import get_close_matches
from typing import Any, get_args

from pydantic import BaseModel
from pydantic.fields import FieldInfo
from pydantic_core import ErrorDetails

from torqcheck.errors import Fault

__all__ = ["fault_from_error", "key_text", "nearest", "printable", "written_text"]

_FORM_TAGS = {"words", "table"}
_KIND_TAGS = {
    "shoulder fillet",
    "keyseat",
    "cross hole",
    "spline run-out",
    "ring groove",
    "press fit edge",
}
"""Words by which a list tells its entries apart; no key of the file is called so."""
_TAGS = _FORM_TAGS | _KIND_TAGS
_WRONG_TYPE = {
    "int_type": ("is not a whole number", "write a count without quotes, for example 26"),
    "int_from_float": ("is not a whole number", "write a count without quotes, for example 26"),
    "float_type": ("is not a number", "write a plain number without quotes, for example 0.97"),
    "bool_type": ("is neither true nor false", "write true or false without quotes"),
    "string_type": ("is not a text", "write it in quotes"),
    "tuple_type": ("is not a list", "write a list in square brackets"),
    "date_type": ("is not a date", "write for example 2026-03-14 without quotes"),
    "finite_number": ("is not a finite number", "write a finite number"),
}
QUOTE, DOUBLE_QUOTE = "'", '"'
_BOUNDS = {
    "greater_than": ("must be above", "gt"),
    "greater_than_equal": ("must be at least", "ge"),
    "less_than": ("must be below", "lt"),
    "less_than_equal": ("must be at most", "le"),
}


def nearest(word: str, known: Iterable[str]) -> str:
    """Return `did you mean "..."? ` when a known word is close, otherwise an empty text."""
    near = get_close_matches(word, list(known), n=1, cutoff=0.6)
    return f'did you mean "{near[0]}"? ' if near else ""


def key_text(location: Iterable[str | int]) -> str:
    """Write a place in the file as people count it: joint[1] is the first joint."""
    text = ""
    for part in location:
        if isinstance(part, int):
            text += f"[{part + 1}]"
        elif part not in _TAGS:
            text += f".{part}" if text else str(part)
    return text


def printable(text: str) -> str:
    """A text without what a terminal could take for a command."""
    return "".join(letter if letter.isprintable() else "?" for letter in text)


def written_text(written: Any) -> str:
    """Show what stands in the file, shortened; nothing for whole tables."""
    if isinstance(written, Mapping | BaseModel | list | tuple):
        return ""
    if isinstance(written, bool):
        return str(written).lower()
    text = f'"{written}"' if isinstance(written, str) else str(written)
    text = printable(text)
    return text if len(text) <= 70 else f"{text[:60]}... ({len(text)} characters)"


def fault_from_error(
    file: str, prefix: tuple[str | int, ...], model: type[BaseModel], error: ErrorDetails
) -> Fault:
    """Turn one error of pydantic into a fault that names the place, the text and the cure."""
    location = (*prefix, *error["loc"])
    kind = error["type"]
    context: Mapping[str, Any] = error.get("ctx", {})
    written = written_text(error["input"])
    if kind == "missing":
        problem, mend = _missing(model, error["loc"])
        written = ""
    elif kind == "extra_forbidden":
        known = _fields_at(model, error["loc"][:-1])
        problem = "is not a known key"
        mend = f"{nearest(str(error['loc'][-1]), known)}known here: {', '.join(known)}"
        written = ""
    elif kind == "literal_error":
        expected = str(context["expected"])
        words = [word.strip().strip("'") for word in expected.replace(" or ", ", ").split(",")]
        problem, mend = (
            "is not one of the words known here",
            f"{nearest(str(error['input']), words)}write {expected.replace(QUOTE, DOUBLE_QUOTE)}",
        )
    elif kind in {"union_tag_invalid", "union_tag_not_found"}:
        location, written, problem, mend = _which_kind(location, error)
    elif kind == "model_type":
        problem, mend = "is not a table", f"write a table of {', '.join(_fields_at(model, error['loc']))}"
    elif kind == "fault":
        problem, mend = str(context["problem"]), str(context["mend"])
    else:
        problem, mend = _plain_words(kind, context, error["msg"])
    return Fault(file, key_text(location), written, problem, mend)


def _which_kind(
    location: tuple[str | int, ...], error: ErrorDetails
) -> tuple[tuple[str | int, ...], str, str, str]:
    """An entry of a list that does not say, or does not say rightly, what it is."""
    context: Mapping[str, Any] = error.get("ctx", {})
    kinds = sorted(_KIND_TAGS)
    known = ", ".join(f'"{word}"' for word in kinds)
    if error["type"] == "union_tag_not_found":
        return (*location, "kind"), "", "is missing", f"write kind = one of {known}"
    tag = str(context["tag"])
    return (*location, "kind"), written_text(tag), "is not known here", f"{nearest(tag, kinds)}known: {known}"


def _plain_words(kind: str, context: Mapping[str, Any], message: str) -> tuple[str, str]:
    """Problem and mend for errors of type, bound and length."""
    if kind in _BOUNDS:
        words, key = _BOUNDS[kind]
        return f"{words} {context[key]:g}", "write a value in that range"
    if kind == "string_too_long":
        return f"is longer than {context['max_length']} characters", "shorten it"
    if kind == "too_long":
        return f"has more than {context['max_length']} entries", "leave some out"
    if kind in {"too_short", "tuple_too_short", "missing_argument"}:
        return "has too few entries", "add at least one"
    if kind in _WRONG_TYPE:
        return _WRONG_TYPE[kind]
    return message[:1].lower() + message[1:], "see `torqcheck schema`"


def _missing(model: type[BaseModel], location: tuple[str | int, ...]) -> tuple[str, str]:
    """Say what a missing key is for."""
    if isinstance(location[-1], int):
        return "is missing", "write [ratio, efficiency], for example [2.5, 0.97]"
    owner = _model_at(model, location[:-1])
    field = _field(owner, str(location[-1])) if owner else None
    meaning = f" ({field.description})" if field is not None and field.description else ""
    return f"is missing{meaning}", f"add {location[-1]} = ..."


def _fields_at(model: type[BaseModel], location: tuple[str | int, ...]) -> list[str]:
    """Return the keys known at a place."""
    owner = _model_at(model, location)
    return [field.alias or key for key, field in owner.model_fields.items()] if owner else []


def _field(owner: type[BaseModel], key: str) -> FieldInfo | None:
    """Return the field that is written under a key: its own name, or its alias."""
    for name, field in owner.model_fields.items():
        if key == (field.alias or name):
            return field
    return None


def _model_at(model: type[BaseModel], location: tuple[str | int, ...]) -> type[BaseModel] | None:
    """Walk down a model along a location, through lists, unions and annotations."""
    here: type[BaseModel] | None = model
    several: list[type[BaseModel]] = []
    for part in location:
        if part in _KIND_TAGS:
            here = next((block for block in several if _is_kind(block, str(part))), here)
        if isinstance(part, int) or part in _TAGS or here is None:
            continue
        field = _field(here, str(part))
        several = _blocks_in(field.annotation) if field is not None else []
        here = several[0] if several else None
    return here


def _is_kind(block: type[BaseModel], kind: str) -> bool:
    """Whether a block is the one that goes by this kind."""
    field = block.model_fields.get("kind")
    return field is not None and kind in get_args(field.annotation)


def _blocks_in(annotation: Any) -> list[type[BaseModel]]:
    """Return the block classes inside an annotation."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return [annotation]
    return [block for argument in get_args(annotation) for block in _blocks_in(argument)]
