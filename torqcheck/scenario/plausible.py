"""Magnitudes that look like a slip of the pen: warned about, never refused."""

from collections.abc import Iterator
from typing import get_type_hints

from pydantic import BaseModel

from torqcheck.scenario.faults import key_text
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.quantity import Plausible, Reading

__all__ = ["warn_of_odd_magnitudes"]


def warn_of_odd_magnitudes(model: BaseModel, ledger: Ledger) -> None:
    """Write a caution for every quantity outside the range in which such parts are met."""
    for key, reading, usual in _readings(model, ()):
        if not (usual.low <= reading.value <= usual.high or reading.text in {"instant", "rigid"}):
            ledger.warn(
                f"magnitude {key}",
                f'{key} = "{reading.text}" is far outside what is usual for a {usual.kind} here; '
                "check the number and the unit.",
            )


def _readings(model: BaseModel, place: tuple[str | int, ...]) -> Iterator[tuple[str, Reading, Plausible]]:
    """Walk a model and yield each quantity with its key and its usual range."""
    hints = get_type_hints(type(model), include_extras=True)
    for name in type(model).model_fields:
        value = getattr(model, name)
        items = list(enumerate(value)) if isinstance(value, tuple) else [(None, value)]
        for index, item in items:
            here = (*place, name) if index is None else (*place, name, index)
            if isinstance(item, BaseModel):
                yield from _readings(item, here)
            elif isinstance(item, Reading):
                usual = _usual(hints[name])
                if usual is not None:
                    yield key_text(here), item, usual


def _usual(annotation: object) -> Plausible | None:
    """Find the usual range in an annotation, also inside a union or a list."""
    for extra in getattr(annotation, "__metadata__", ()):
        if isinstance(extra, Plausible):
            return extra
    for argument in getattr(annotation, "__args__", ()):
        found = _usual(argument)
        if found is not None:
            return found
    origin = getattr(annotation, "__origin__", None)
    return (
        _usual(origin)
        if origin is not None and origin is not annotation and hasattr(origin, "__args__")
        else None
    )
