"""Hostile texts where a quantity is read: quickly refused in one line, or read as what they say."""

import math
import random
import time

import pytest
from fuzz._asking import cases, stopped_after
from fuzz._hostile import HOSTILE_TEXTS, UNREADABLE, WORDLESS
from pace import seconds_here

from torqcheck.errors import QuantityError
from torqcheck.materials import read_hardness
from torqcheck.units import KINDS, read, units_of

SEED = 20260314
HUGE = {
    "a million letters": "x" * 1_000_000,
    "a million digits": "9" * 1_000_000 + " mm",
    "a million spaces": "1" + " " * 1_000_000 + "mm",
    "a million parentheses": "(" * 1_000_000,
    "a million signs": "+/-" * 333_333,
    "a million stars": "1 " + "*" * 1_000_000 + "mm",
    "a million nulls": "\x00" * 1_000_000,
}


MOST_SECONDS = seconds_here(0.2)
"""Processor time within which a text is read or refused, whatever its length."""


def value_of(text: str, kind: str) -> tuple[float, float]:
    """Value and tolerance of a text."""
    if kind == "hardness":
        found = read_hardness(text)
        return found.value, found.tolerance
    return read(text, kind)  # type: ignore[arg-type]


def refused(text: str, kind: str) -> str:
    """Why a text is no quantity of a kind; empty if it is one."""
    said = ""
    value = tolerance = 0.0
    began = time.process_time()
    with stopped_after(2.0):
        try:
            value, tolerance = value_of(text, kind)
        except QuantityError as error:
            said = str(error)
    assert time.process_time() - began < MOST_SECONDS
    assert math.isfinite(value), text
    assert 0.0 <= tolerance < math.inf, text
    assert len(said.splitlines()) <= 1
    assert len(said) < 400
    return said


@pytest.mark.parametrize("kind", [*KINDS, "hardness"])
def test_hostile_texts(kind: str) -> None:
    unit = "HRC" if kind == "hardness" else next(iter(units_of(kind)))
    for text in UNREADABLE:
        assert refused(text.format(unit=unit), kind), text
    for word in WORDLESS:
        assert refused(f"{word} {unit}", kind), word
    for text in HOSTILE_TEXTS:
        refused(text, kind)


@pytest.mark.parametrize("name", HUGE)
@pytest.mark.parametrize("kind", ["length", "torque", "hardness"])
def test_a_megabyte(name: str, kind: str) -> None:
    text = HUGE[name]
    assert refused(text, kind) or (text.split() == ["1", "mm"] and kind == "length")


def test_damaged_quantities() -> None:
    """Letters left out, doubled, swapped, put in: never anything but a value or a refusal."""
    alphabet = "0123456789.,+-/eE*^ ±°²µ·\"'mNkglbfinrpdeghsHRCV()[]_１²\x00\u202e\n\t"
    units = [(kind, unit) for kind in KINDS for unit in units_of(kind)]
    for number in range(cases(4000)):
        dice = random.Random(SEED + number)
        kind, unit = dice.choice(units)
        text = list(
            f"{dice.choice(['12', '1.25', '1 1/4', '-3', '4e2'])}{dice.choice(['', ' +/- 0.02'])} {unit}"
        )
        for _ in range(dice.choice([1, 2, 4])):
            at = dice.randrange(len(text) + 1)
            text[at : at + dice.choice([0, 0, 1])] = dice.choice(
                ["", dice.choice(alphabet), dice.choice(alphabet)]
            )
        refused("".join(text), kind)
