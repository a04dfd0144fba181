"""Damaged copies of the example scenarios, and what must be said about each of them."""

import copy
import random
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from builder import EXAMPLES
from fuzz._hostile import ANYTHING, UNREADABLE, WORDLESS
from fuzz._schema_places import missing_keys
from fuzz._toml import as_toml

from torqcheck.scenario import Scenario, load_scenario
from torqcheck.scenario.edits import NumericKey, Place, numeric_keys
from torqcheck.scenario.faults import key_text
from torqcheck.units import KINDS, units_of

__all__ = ["Case", "damaged"]

BELOW_ZERO = re.compile(
    r"duty\.torque|joint\.tilt\.(rim|face)\.(top|right|bottom|left)|joint\.tilt\.to_middle"
    r"|joint\.tilt\.feet\.warmer_by|stack\.(distance\.)?(running|assembled)_at"
)
"""What a machine may have less than nothing of; anything else below zero is refused."""

ZERO = re.compile(
    BELOW_ZERO.pattern
    + r"|.*hardness|duty\.(speed|events_per_hour)|.*\.lash\.(clearance|travel|angle)|joint\.tilt\..*"
    r"|joint\.floats\.(angle|offset)|joint\.radial_play|.*\.bore|.*\.inner_diameter|driven\.damping_ratio"
    r"|motor\.(regen_torque|rise_time)|joint\.end_play|.*\.worn_step|stack\.(distance\.length|result\.least"
    r"|result\.less|shim\.target|shims)"
)
"""What may be nothing at all."""


@dataclass(frozen=True, slots=True)
class Case:
    """One damaged scenario.

    Parameters
    ----------
    example : str
        The scenario that it was made from.
    damage : str
        What was done to it.
    content : bytes
        The file.
    refused_at : str or None
        Key that a fault must name; empty if it must be refused somewhere, None if nothing is known.
    """

    example: str
    damage: str
    content: bytes
    refused_at: str | None = None


def damaged(count: int, seed: int) -> Iterator[Case]:
    """So many damaged scenarios, from every example in turn."""
    dice = random.Random(seed)
    examples = [_Example(load_scenario(path), path.read_bytes()) for path in EXAMPLES]
    for number in range(count):
        example = examples[number % len(examples)]
        yield dice.choices(list(DAMAGES), list(DAMAGES.values()))[0](example, dice)


class _Example:
    """A sound scenario, and the places in it."""

    def __init__(self, scenario: Scenario, content: bytes) -> None:
        self.name = scenario.path.stem
        self.scenario = scenario
        self.content = content
        self.numbers = numeric_keys(scenario)
        self.places = tuple(_places(scenario.document, ()))

    def copy(self) -> dict[str, Any]:
        return copy.deepcopy(dict(self.scenario.document))

    def case(self, damage: str, document: dict[str, Any], refused_at: str | None = None) -> Case:
        return Case(self.name, damage, as_toml(document).encode(), refused_at)


def _places(here: Any, place: Place) -> Iterator[Place]:
    """Every place of a document below its top."""
    items = here.items() if isinstance(here, dict) else enumerate(here) if isinstance(here, list) else ()
    for step, inner in items:
        yield (*place, step)
        yield from _places(inner, (*place, step))


def _at(document: Any, place: Place) -> Any:
    for step in place:
        document = document[step]
    return document


def _put(document: Any, place: Place, value: Any) -> None:
    _at(document, place[:-1])[place[-1]] = value


def _written(example: _Example, number: NumericKey, value: str | float, dice: random.Random) -> Any:
    """A number as the file states such a one: with its unit, if it has one."""
    if number.kind is None:
        return float(value) if isinstance(value, str) else value
    space = " " if number.unit else ""
    return f"{value}{space}{number.unit}"


def _plain_key(number: NumericKey) -> str:
    return re.sub(r"\[\d+\]", "", number.key)


def _impossible(example: _Example, dice: random.Random) -> Case:
    """A number that is none, or one that such a part cannot have, at a physical key."""
    number = dice.choice(example.numbers)
    wrong: list[Any] = [_written(example, number, word, dice) for word in WORDLESS]
    if not BELOW_ZERO.fullmatch(_plain_key(number)):
        wrong += [_written(example, number, value, dice) for value in ("-1", "-1e-9", "-1e12")]
    if not ZERO.fullmatch(_plain_key(number)):
        wrong += [_written(example, number, value, dice) for value in ("0", "-0.0", "0e5")]
    return _replaced(example, number, dice.choice(wrong))


def _wrong_unit(example: _Example, dice: random.Random) -> Case:
    """A unit of another kind, or none."""
    number = dice.choice([number for number in example.numbers if number.kind is not None])
    if number.kind == "hardness":
        return _replaced(example, number, dice.choice(["60", "60 mm", "60 MPa", 60, "60 HRX", "HRC"]))
    own = units_of(str(number.kind))
    others = [unit for kind in KINDS for unit in units_of(kind) if unit not in own]
    return _replaced(
        example, number, dice.choice([f"12 {dice.choice(others)}", "12", 12, 12.5, "12 furlong", "12 mm^2"])
    )


def _unreadable(example: _Example, dice: random.Random) -> Case:
    """A text that is no quantity."""
    number = dice.choice(example.numbers)
    text = dice.choice(UNREADABLE).format(unit=number.unit)
    return _replaced(example, number, text)


def _replaced(example: _Example, number: NumericKey, value: Any) -> Case:
    document = example.copy()
    _put(document, number.place, value)
    return example.case(f"{number.key} = {value!r}", document, number.key)


def _anything(example: _Example, dice: random.Random) -> Case:
    """Any value at any place."""
    document = example.copy()
    place, value = dice.choice(example.places), dice.choice(ANYTHING)
    _put(document, place, copy.deepcopy(value))
    return example.case(f"{key_text(place)} = {value!r}", document)


def _scaled(example: _Example, dice: random.Random) -> Case:
    """Some numbers a little or a lot larger or smaller than they were."""
    document = example.copy()
    said = []
    for number in dice.sample(example.numbers, dice.choice([1, 1, 2, 4])):
        factor = 10.0 ** dice.choice([dice.uniform(-0.3, 0.3), dice.uniform(-2, 2), dice.uniform(-12, 12)])
        before = _at(document, number.place)
        if number.whole:
            value: Any = max(0, round(before * factor))
        elif number.kind is None:
            value = before * factor
        else:
            value = re.sub(
                r"\d+(\.\d+)?", lambda match, by=factor: f"{float(match[0]) * by:.6g}", before, count=1
            )
        _put(document, number.place, value)
        said.append(f"{number.key} = {value!r}")
    return example.case("; ".join(said), document)


def _deleted(example: _Example, dice: random.Random) -> Case:
    """One or two keys, tables or entries less."""
    document = example.copy()
    said = []
    for place in dice.sample(example.places, dice.choice([1, 1, 2])):
        try:
            del _at(document, place[:-1])[place[-1]]
            said.append(key_text(place))
        except (KeyError, IndexError):
            continue
    return example.case(f"without {', '.join(said)}", document)


def _doubled(example: _Example, dice: random.Random) -> Case:
    """An entry of a list twice, or a hundred times."""
    document = example.copy()
    place = dice.choice([place for place in example.places if isinstance(place[-1], int)])
    entries = _at(document, place[:-1])
    times = dice.choice([1, 1, 2, 100])
    entries += [copy.deepcopy(entries[place[-1]]) for _ in range(times)]
    return example.case(f"{key_text(place)} {times} times more", document)


def _swapped(example: _Example, dice: random.Random) -> Case:
    """Two values in each other's place."""
    document = example.copy()
    leaves = [place for place in example.places if not isinstance(_at(document, place), dict | list)]
    one, other = dice.sample(leaves, 2)
    first, second = _at(document, one), _at(document, other)
    _put(document, one, second)
    _put(document, other, first)
    return example.case(f"{key_text(one)} and {key_text(other)} swapped", document)


def _added(example: _Example, dice: random.Random) -> Case:
    """Keys that the file does not have, with values that it could take."""
    document = example.copy()
    said = []
    choices = missing_keys(example.scenario)
    for place, values in dice.sample(choices, min(len(choices), dice.choice([1, 1, 2, 3]))):
        value = values(dice)
        _put(document, place, value)
        said.append(f"{key_text(place)} = {value!r}")
    return example.case("; ".join(said), document)


def _bytes(example: _Example, dice: random.Random) -> Case:
    """A damaged file."""
    content = bytearray(example.content)
    lines = example.content.splitlines(keepends=True)
    how = dice.choice(["flip", "cut", "junk", "lines", "line twice", "letters", "nest"])
    if how == "flip":
        for _ in range(dice.choice([1, 3, 20])):
            content[dice.randrange(len(content))] ^= 1 << dice.randrange(8)
    elif how == "cut":
        del content[dice.randrange(len(content)) :]
    elif how == "junk":
        at = dice.randrange(len(content))
        content[at:at] = dice.randbytes(dice.choice([1, 8, 500]))
    elif how == "letters":
        at = dice.randrange(len(content))
        content[at:at] = dice.choice(
            ["\u202e", "\ufeff", "\u2028", "é", "'''", '"""', "#", "=", "\r", "\x0b"]
        ).encode()
    elif how == "nest":
        content = bytearray(b"x = " + b"[" * dice.choice([9, 900, 1990]) + b"\n") + content
    else:
        for _ in range(dice.choice([1, 1, 3])):
            at = dice.randrange(len(lines))
            lines[at : at + 1] = [] if how == "lines" else [lines[at], lines[at]]
        content = bytearray(b"".join(lines))
    return Case(example.name, how, bytes(content))


Damage = Callable[[_Example, random.Random], Case]
DAMAGES: dict[Damage, int] = {
    _impossible: 5,
    _wrong_unit: 2,
    _unreadable: 2,
    _anything: 4,
    _scaled: 4,
    _deleted: 2,
    _doubled: 1,
    _swapped: 2,
    _added: 4,
    _bytes: 4,
}
"""How often each of them is done."""
