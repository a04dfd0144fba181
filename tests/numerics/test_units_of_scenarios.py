"""A scenario written in other units says the same: every factor, verdict, range and word of it."""

import math
import re
from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any, cast

import pytest
from numerics._machines import MACHINES, machine

from torqcheck import units
from torqcheck.assessment import assess
from torqcheck.scenario import Scenario
from torqcheck.scenario.edits import NumericKey, edited, numeric_keys, written_at
from torqcheck.units import KINDS, Kind, Unit, read, unit_of, units_of

RTOL = 1e-9
SPELLINGS = 2
"""How often each machine is written anew, each time in units of another choice."""


@cache
def said(name: str) -> dict[str, Any]:
    """What is said of a machine as it is written."""
    return assess(machine(name)).to_dict()


def quantities(scenario: Scenario) -> list[NumericKey]:
    """Every number of the file that carries a unit; a hardness has a scale instead."""
    return [key for key in numeric_keys(scenario) if key.kind not in {None, "hardness"}]


def others(key: NumericKey) -> list[str]:
    """Units in which the quantity has another number."""
    known = units_of(cast("Kind", key.kind))
    own = known[key.unit]
    return [unit for unit, other in known.items() if (other.factor, other.offset) != (own.factor, own.offset)]


def rewritten(text: str, kind: Kind, unit: str) -> str:
    """The same quantity in another unit, every digit kept; that it has no tolerance is a statement too."""
    value, tolerance = read(text, kind)
    other = units_of(kind)[unit]
    number = repr((value - other.offset) / other.factor)
    stated = "±" in text or "+/-" in text
    return f"{number} +/- {tolerance / other.factor!r} {unit}" if stated else f"{number} {unit}"


def in_other_units(scenario: Scenario, turn: int) -> dict[str, str]:
    """Every quantity of the file in a unit in which it does not stand; neighbours in different ones."""
    changes = {}
    for place, key in enumerate(quantities(scenario)):
        choice = others(key)
        unit = choice[(place + turn * max(len(choice) // SPELLINGS, 1)) % len(choice)]
        changes[key.key] = rewritten(written_at(scenario, key.key), cast("Kind", key.kind), unit)
    return changes


def differences(scenario: Scenario, stated: Mapping[str, Any], changes: Mapping[str, str]) -> list[str]:
    """Where the assessment of a scenario with its quantities written otherwise says something else."""
    backward = {after: written_at(scenario, key) for key, after in changes.items()}
    return list(_apart(stated, assess(edited(scenario, changes)).to_dict(), backward, ""))


def _apart(ours: Any, theirs: Any, backward: Mapping[str, str], place: str) -> Iterator[str]:
    """Places that differ; a quantity that is said back as it was written reads as it was written first."""
    if isinstance(ours, Mapping) and isinstance(theirs, Mapping):
        if ours.keys() != theirs.keys():
            yield f"{place}: keys"
        for key in ours.keys() & theirs.keys():
            yield from _apart(ours[key], theirs[key], backward, f"{place}.{key}")
    elif isinstance(ours, list | tuple) and isinstance(theirs, list | tuple):
        if len(ours) != len(theirs):
            yield f"{place}: length"
        for index, (one, other) in enumerate(zip(ours, theirs, strict=False)):
            yield from _apart(one, other, backward, f"{place}[{index}]")
    elif isinstance(ours, float) and isinstance(theirs, float):
        if not math.isclose(ours, theirs, rel_tol=RTOL, abs_tol=1e-15):
            yield f"{place}: {ours!r} and {theirs!r}"
    elif ours != (_reworded(theirs, backward) if isinstance(theirs, str) else theirs):
        yield f"{place}: {ours!r} and {theirs!r}"


def _reworded(text: str, backward: Mapping[str, str]) -> str:
    """A text with every quantity in it as it was written first."""
    for after, before in backward.items():
        text = re.sub(rf"(?<![\w.]){re.escape(after)}(?!\w)", before, text)
    return text


@pytest.mark.parametrize("turn", range(SPELLINGS))
@pytest.mark.parametrize("name", MACHINES)
def test_other_units_say_the_same(name: str, turn: int) -> None:
    scenario = machine(name)
    assert differences(scenario, said(name), in_other_units(scenario, turn)) == []


# a machine that states such a quantity, and a unit in which it does not
WRONG = {
    "length": ("works_trolley", "thou"),
    "angle": ("hop_elevator", "mrad"),
    "torque": ("works_trolley", "lbf*in"),
    "torque rise": ("stone_saw", "lbf*ft/s"),
    "speed": ("works_trolley", "rad/s"),
    "inertia": ("works_trolley", "lb*in^2"),
    "stiffness": ("works_trolley", "lbf*in/deg"),
    "side stiffness": ("sleeved", "lbf/in"),
    "stress": ("pressed", "psi"),
    "mass": ("works_trolley", "lb"),
    "force": ("flanged", "kgf"),
    "time": ("works_trolley", "min"),
    "temperature": ("glasshouse_tug", "degF"),
    "temperature difference": ("cooperage_saw", "degF"),
}


@pytest.mark.parametrize("kind", KINDS)
def test_a_factor_that_is_wrong_in_the_sixth_place_is_seen(
    kind: Kind, monkeypatch: pytest.MonkeyPatch
) -> None:
    name, unit = WRONG[kind]
    scenario = machine(name)
    # a size has to be one of its standard, to more than six places
    keys = [key.key for key in quantities(scenario) if key.kind == kind and ".size." not in key.key]
    changes = {key: rewritten(written_at(scenario, key), kind, unit) for key in keys}
    assert changes
    assert differences(scenario, said(name), changes) == []
    right = units_of(kind)[unit]
    wrong = Unit(right.factor * (1.0 + 1e-6), right.pint, right.offset)
    monkeypatch.setitem(units._UNITS[kind], unit, wrong)
    assert differences(scenario, said(name), changes)


def test_every_kind_is_tried_and_every_unit_of_a_length() -> None:
    tried: dict[str, set[str]] = {}
    for name in MACHINES:
        scenario = machine(name)
        kinds = {key.key: cast("Kind", key.kind) for key in quantities(scenario)}
        for turn in range(SPELLINGS):
            for key, text in in_other_units(scenario, turn).items():
                tried.setdefault(kinds[key], set()).add(unit_of(text, kinds[key]))
    assert tried.keys() == set(KINDS)
    for kind in ("length", "mass"):
        assert tried[kind] == units_of(kind).keys()
