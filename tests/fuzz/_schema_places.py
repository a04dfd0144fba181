"""Keys that a scenario could have and has not, with values that could stand there."""

import datetime
import random
from collections.abc import Callable, Iterator
from typing import Annotated, Any, Literal, get_args, get_origin, get_type_hints

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from torqcheck.scenario import Scenario
from torqcheck.scenario.edits import Place
from torqcheck.scenario.quantity import Plausible
from torqcheck.units import units_of

__all__ = ["missing_keys"]

Values = Callable[[random.Random], Any]


def missing_keys(scenario: Scenario) -> list[tuple[Place, Values]]:
    """Every key that is not there, in a table that is, and what draws a value for it."""
    return list(_missing(scenario, scenario.document, ()))


def _missing(model: Any, written: Any, place: Place) -> Iterator[tuple[Place, Values]]:
    if isinstance(model, tuple) and isinstance(written, list):
        for index, (inner, item) in enumerate(zip(model, written, strict=False)):
            yield from _missing(inner, item, (*place, index))
    if not isinstance(model, BaseModel) or not isinstance(written, dict):
        return
    hints = get_type_hints(type(model), include_extras=True)
    for name, field in type(model).model_fields.items():
        key = field.alias or name
        if key in written:
            yield from _missing(getattr(model, name), written[key], (*place, key))
        else:
            yield (*place, key), lambda dice, hint=hints[name], field=field: _value(hint, field, dice)


def _value(hint: Any, field: FieldInfo | None, dice: random.Random, depth: int = 0) -> Any:
    """A value of a type, drawn as wide as the type allows."""
    usual = next((extra for extra in getattr(hint, "__metadata__", ()) if isinstance(extra, Plausible)), None)
    if usual is not None:
        return _quantity(usual, dice)
    origin = get_origin(hint)
    if origin is Annotated:
        inner = next((extra for extra in hint.__metadata__ if isinstance(extra, FieldInfo)), field)
        return _value(hint.__origin__, inner, dice, depth)
    if origin is Literal:
        return dice.choice(get_args(hint))
    if origin is tuple:
        return [_value(get_args(hint)[0], None, dice, depth + 1) for _ in range(dice.choice([1, 2]))]
    choices = [choice for choice in get_args(hint) if choice is not type(None)]
    if choices:
        return _value(dice.choice(choices), field, dice, depth)
    return _plain(hint, field, dice, depth)


def _quantity(usual: Plausible, dice: random.Random) -> str:
    """A quantity within its usual range, most often by its order of magnitude."""
    unit, by = dice.choice(list(units_of(usual.kind).items()))
    if usual.low > 0.0:
        value = usual.low * (usual.high / usual.low) ** dice.random()
    else:
        value = dice.choice([usual.low, usual.high]) * 10.0 ** dice.uniform(-4.0, 0.0)
    return f"{(value - by.offset) / by.factor:.5g} {unit}"


def _plain(hint: Any, field: FieldInfo | None, dice: random.Random, depth: int) -> Any:
    """A value without a unit, or a whole table."""
    if isinstance(hint, type) and issubclass(hint, BaseModel):
        hints = get_type_hints(hint, include_extras=True)
        return {
            inner.alias or name: _value(hints[name], inner, dice, depth + 1)
            for name, inner in hint.model_fields.items()
            if inner.is_required() or dice.random() < 0.4
        }
    if hint is bool:
        return dice.random() < 0.5
    if hint is int:
        return dice.choice([1, 2, 3, 8, 18, 26])
    if hint is float:
        limits = {type(limit).__name__: limit for limit in (field.metadata if field is not None else ())}
        highest = getattr(limits.get("Le") or limits.get("Lt"), "le", 1.0)
        return dice.choice([dice.uniform(0.0, 1.0), float(highest), float(highest) * dice.random()])
    if hint is datetime.date:
        return datetime.date(2026, 3, dice.randint(1, 28))
    return dice.choice(["unknown", "a text", "gearbox input", "60 HRC", "300 HB", "4140_QT425"])
