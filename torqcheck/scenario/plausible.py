"""Magnitudes that look like a slip of the pen, or of the ruler: warned about, never refused."""

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import get_type_hints

from pydantic import BaseModel

from torqcheck.scenario.faults import key_text
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.quantity import Plausible, Reading
from torqcheck.units import unit_of

__all__ = ["warn_of_odd_magnitudes", "warn_of_other_system"]

MILLIMETRE, SIXTEENTH, THIRTY_SECOND = 1e-3, 0.0254 / 16, 0.0254 / 32
READ_IN_INCHES = re.compile(r"\d*(\.\d{0,4})?\s*([a-z\"+±].*)?")
"""No fraction, which is a size of its own, and not more digits than an instrument shows, as after a sum."""
LIKE_METRIC, UNLIKE_INCH = 0.08e-3, 0.12e-3
"""m; a shaft this near to a whole millimetre and this far from a thirty-second is metric; assumed."""


def warn_of_odd_magnitudes(model: BaseModel, ledger: Ledger) -> None:
    """Write a caution for every quantity outside the range in which such parts are met."""
    for key, reading, usual in _readings(model, ()):
        if not (usual.low <= reading.value <= usual.high or reading.text in {"instant", "rigid"}):
            ledger.warn(
                f"magnitude {key}",
                f'{key} = "{reading.text}" is far outside what is usual for a {usual.kind} here; '
                "check the number and the unit.",
            )


def warn_of_other_system(joints: Sequence[BaseModel], ledger: Ledger) -> None:
    """Write a caution for a shaft read in inches that is a metric one: its hub is soon bored too large."""
    for index, joint in enumerate(joints):
        for name in ("shaft_diameter", "diameter"):
            reading = getattr(joint, name, None)
            if not isinstance(reading, Reading) or not unit_of(reading.text, "length").startswith(
                ("in", '"')
            ):
                continue
            if not READ_IN_INCHES.fullmatch(reading.text):
                continue
            metric, near = (_nearest(reading, step) for step in (MILLIMETRE, THIRTY_SECOND))
            if abs(reading.value - metric) <= LIKE_METRIC and abs(reading.value - near) >= UNLIKE_INCH:
                inch = _nearest(reading, SIXTEENTH)
                _warn_of_metric_shaft(key_text(("joint", index, name)), reading, metric, inch, ledger)


def _nearest(reading: Reading, step: float) -> float:
    return step * round(reading.value / step)


def _warn_of_metric_shaft(key: str, reading: Reading, metric: float, inch: float, ledger: Ledger) -> None:
    """Say which metric shaft it is, and by how much the inch size beside it misses."""
    apart = abs(reading.value - inch)
    ledger.warn(
        f"metric shaft {key}",
        f'{key} = "{reading.text}" is {reading.value * 1e3:.2f} mm: a shaft of {metric * 1e3:.0f} mm rather '
        f"than an inch size; the next of those, {_fraction(inch)} in, is {apart * 1e3:.2f} mm off, and a "
        "hub bored to it wobbles or will not go on. Measure shaft and bore with a micrometer.",
    )


def _fraction(inch: float) -> str:
    """Sixteenths as workshops write them."""
    whole, sixteenths = divmod(round(inch / SIXTEENTH), 16)
    part = str(Fraction(sixteenths, 16)) if sixteenths else ""
    return f"{whole or ''} {part}".strip() or "0"


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
