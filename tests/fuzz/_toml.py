"""Write a scenario document, sound or not, back as TOML."""

import datetime
import json
import math
from collections.abc import Mapping
from typing import Any

__all__ = ["as_toml"]


def as_toml(document: Mapping[str, Any]) -> str:
    """Every top-level table under its own header, everything below it as keys and inline values."""
    plain = [f"{_key(key)} = {_value(value)}" for key, value in document.items() if not _is_block(value)]
    blocks = [
        line
        for key, value in document.items()
        if _is_block(value)
        for header, table in _tables(_key(key), value)
        for line in (header, *(f"{_key(name)} = {_value(inner)}" for name, inner in table.items()), "")
    ]
    return "\n".join([*plain, "", *blocks]) + "\n"


def _is_block(value: Any) -> bool:
    listed = isinstance(value, list) and bool(value) and all(isinstance(item, Mapping) for item in value)
    return isinstance(value, Mapping) or listed


def _tables(key: str, value: Any) -> list[tuple[str, Mapping[str, Any]]]:
    if isinstance(value, Mapping):
        return [(f"[{key}]", value)]
    return [(f"[[{key}]]", item) for item in value]


def _key(key: str) -> str:
    return key if key.isascii() and key.replace("_", "x").isalnum() else _text(key)


def _text(text: str) -> str:
    """A basic string; what stands for half a letter in a damaged text is left out."""
    written = json.dumps(text.encode("utf-8", "ignore").decode(), ensure_ascii=False)
    return "".join(letter if letter.isprintable() else _escaped(letter) for letter in written)


def _escaped(letter: str) -> str:
    return f"\\U{ord(letter):08X}"


def _number(value: float) -> str:
    if math.isnan(value):
        return "nan"
    return ("inf" if value > 0 else "-inf") if math.isinf(value) else repr(value)


def _value(value: Any) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return _text(value)
    if isinstance(value, int):
        return str(value)
    if isinstance(value, float):
        return _number(value)
    if isinstance(value, datetime.date | datetime.time):
        return value.isoformat()
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{_key(key)} = {_value(inner)}" for key, inner in value.items()) + "}"
    return "[" + ", ".join(map(_value, value)) + "]"
