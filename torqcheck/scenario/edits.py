"""One value of a scenario changed, by the key that a person would change in the file."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Any, TypeAlias

from torqcheck.errors import UsageError
from torqcheck.materials import Hardness
from torqcheck.scenario.faults import key_text, nearest, printable
from torqcheck.scenario.load import scenario_from_document
from torqcheck.scenario.quantity import Reading
from torqcheck.scenario.schema import Scenario
from torqcheck.units import Kind, unit_of

__all__ = ["NumericKey", "Place", "edited", "numeric_key", "numeric_keys", "place_of", "written_at"]

Place: TypeAlias = tuple[str | int, ...]
"""Where a value stands in the file: names of tables and keys, positions in lists from 0 on."""

LONGEST_KEY = 120
_STEP = re.compile(r"\.?([A-Za-z_][A-Za-z_0-9]*)((?:\[[^\[\]]*\])*)")
_PICK = re.compile(r"\[([^\[\]]*)\]")


@dataclass(frozen=True, slots=True)
class NumericKey:
    """
    A number of the file.

    Parameters
    ----------
    key : str
        As people count: joint[1] is the first joint.
    place : tuple
        The same for the program.
    value : float
        In SI; a hardness on its own scale.
    kind : str or None
        Kind of quantity, ``hardness``, or None for a plain number.
    unit : str
        Unit or hardness scale in which the file states it; empty for a plain number.
    whole : bool
        It counts something.
    """

    key: str
    place: Place
    value: float
    kind: Kind | str | None
    unit: str
    whole: bool


def edited(scenario: Scenario, changes: Mapping[str, Any]) -> Scenario:
    """
    Return the scenario that the file would give with some of its values changed.

    Parameters
    ----------
    scenario : Scenario
        One that was read from a file.
    changes : mapping
        By key, what is to stand there, written as in the file; None takes the key out. A key that is
        not in the file yet is written into its table.

    Returns
    -------
    Scenario
        Checked by every rule of the file; it carries the hash of the file that it was made from.

    Raises
    ------
    UsageError
        If a key names no place.
    ScenarioError
        If the changed file would have faults.
    """
    document: dict[str, Any] = dict(scenario.document)
    for key, written in changes.items():
        place = place_of(scenario, key)
        _put(document, place, written, key)
    return scenario_from_document(document, scenario.path, scenario.file_sha256, scenario.example_lines)


def place_of(scenario: Scenario, key: str) -> Place:
    """
    Return the place that a key names, such as ``joint[2].external.bore`` or ``joint[output].engagement``.

    Entries of a list are counted from 1, or called by their name. The last step need not be there yet.

    Raises
    ------
    UsageError
        If the key is not written like one, or a list has no such entry.
    """
    shown = printable(key[:LONGEST_KEY])
    place: list[str | int] = []
    here: Any = scenario.document
    at = 0
    while at < len(key):
        step = _STEP.match(key, at)
        if step is None or (at == 0) == key.startswith(".", at) or len(key) > LONGEST_KEY:
            raise UsageError(f'"{shown}" is not a key; write it like joint[1].external.bore or motor.boost')
        place.append(step[1])
        here = here.get(step[1]) if isinstance(here, Mapping) else None
        for pick in _PICK.findall(step[2]):
            index = _entry(here, pick, f'"{shown}"', key_text(place))
            place.append(index)
            here = here[index]
        at = step.end()
    if not place:
        raise UsageError("an empty text is not a key; write it like joint[1].external.bore")
    return tuple(place)


def written_at(scenario: Scenario, key: str) -> Any:
    """What stands in the file at a key; None where nothing does."""
    here: Any = scenario.document
    for step in place_of(scenario, key):
        here = _below(here, step)
    return here


def numeric_keys(scenario: Scenario) -> tuple[NumericKey, ...]:
    """Return every number that the file states, in its order."""
    return tuple(_numbers(scenario, scenario.document, ()))


def numeric_key(scenario: Scenario, key: str) -> NumericKey:
    """
    Return the number that stands at a key.

    Raises
    ------
    UsageError
        If the file has no number there; names the nearest key that has one.
    """
    place = place_of(scenario, key)
    known = {number.place: number for number in numeric_keys(scenario)}
    if place in known:
        return known[place]
    names = [number.key for number in known.values()]
    plain = key_text(place)
    hint = nearest(plain, names)
    there = "holds no number" if written_at(scenario, key) is not None else "is not in the file"
    raise UsageError(f'"{plain}" {there}; {hint}write it into the scenario, or name a key that is there')


def _entry(items: Any, pick: str, shown: str, name: str) -> int:
    """Position of an entry that is called by its count or its name."""
    if not isinstance(items, list) or not items:
        raise UsageError(f"{shown}: {name} is not a list of the file")
    if pick.isascii() and pick.isdigit() and len(pick) < 6:
        if 1 <= int(pick) <= len(items):
            return int(pick) - 1
        raise UsageError(f"{shown}: {name} has {len(items)} entries, counted from 1")
    names = [str(item.get("name", "")) if isinstance(item, Mapping) else "" for item in items]
    found = [index for index, other in enumerate(names) if other and other.casefold() == pick.casefold()]
    if len(found) == 1:
        return found[0]
    known = ", ".join(f'"{printable(other)}"' for other in names if other)
    called = f"; they are called {known}" if known else ""
    raise UsageError(f'{shown}: no entry of {name} is called "{printable(pick)}"{called}')


def _below(here: Any, step: str | int) -> Any:
    """What stands one step further down; None where nothing does."""
    if isinstance(step, int):
        return here[step]
    return here.get(step) if isinstance(here, Mapping) else None


def _put(document: dict[str, Any], place: Place, written: Any, key: str) -> None:
    """Write one value; what lies above it is copied, so that no other scenario changes with it."""
    here: Any = document
    for depth, (step, following) in enumerate(pairwise(place), start=1):
        inner = _below(here, step)
        if inner is None and isinstance(following, str):
            inner = {}
        if not isinstance(inner, dict | list) or isinstance(inner, dict) != isinstance(following, str):
            raise UsageError(f'"{printable(key)}": {key_text(place[:depth])} is no table')
        here[step] = inner = inner.copy()
        here = inner
    if written is None and isinstance(here, dict):
        here.pop(place[-1], None)
    else:
        here[place[-1]] = written


def _numbers(model: Any, written: Any, place: Place) -> Iterator[NumericKey]:
    """Walk the file and what it means side by side."""
    if isinstance(written, Mapping):
        for key, inner in written.items():
            yield from _numbers(getattr(model, key, None), inner, (*place, key))
    elif isinstance(written, list):
        if isinstance(model, tuple):
            for index, (item, inner) in enumerate(zip(model, written, strict=False)):
                yield from _numbers(item, inner, (*place, index))
    elif isinstance(model, Reading):
        if isinstance(written, str) and (unit := unit_of(written, model.kind)):
            yield NumericKey(key_text(place), place, model.value, model.kind, unit, whole=False)
    elif isinstance(model, Hardness):
        yield NumericKey(key_text(place), place, model.value, "hardness", model.scale, whole=False)
    elif isinstance(model, int | float) and not isinstance(model, bool) and place != ("format",):
        yield NumericKey(key_text(place), place, float(model), None, "", whole=isinstance(model, int))
