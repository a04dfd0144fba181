"""A machine twice as large, of the same steels under the same stresses: which factors stay as they are.

Lengths times L, forces times L^2, torques and stiffnesses times L^3, inertias times L^5, times times L.
Statics, elasticity and the blow know no length of their own, so that with them every factor stays. Where a
check knows one, its row names it: grown with the machine it gives the factor back, alone kept it does not.
"""

import ast
import importlib
import math
import re
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any, cast

import pytest
from numerics._machines import MACHINES, machine

import torqcheck.assessment as package
from torqcheck.assessment import Assessment
from torqcheck.assessment.assess import assess_without_ranges
from torqcheck.checks import Check
from torqcheck.scenario import Scenario
from torqcheck.scenario.edits import edited, numeric_keys, written_at
from torqcheck.scenario.kinds import KINDS
from torqcheck.units import Kind, read, units_of

L = 2.0
RTOL = 1e-9
POWERS: dict[str, int] = {
    "length": 1,
    "angle": 0,
    "torque": 3,
    "torque rise": 2,
    "speed": -1,
    "inertia": 5,
    "stiffness": 3,
    "side stiffness": 1,
    "stress": 0,
    "mass": 3,
    "force": 2,
    "time": 1,
    "temperature": 0,
    "temperature difference": 0,
}
PER_TIME = ("percent_per_10ms", "events_per_hour")
# the size that is twice as large stands in a list, if it does
TWICE = {"M8": "M16", "M10": "M20", "M12": "M24", "3/8": "3/4", "8 mm": "16 mm"}
WITHOUT = {
    "brickyard_shunter": "its torques stand in a file of their own",
    "timber_winch": "no straight spline of the list is twice another",
}
SCALED = tuple(name for name in MACHINES if name not in WITHOUT)

# --- the lengths that do not grow with the machine -------------------------------------------------

Patch = Callable[[Callable[..., Any]], Callable[..., Any]]


def _deeper(function: Callable[..., Any]) -> Callable[..., Any]:
    """A steel whose hard layer is L times as deep."""

    def found(*arguments: Any) -> Any:
        steel = function(*arguments)
        depths = {
            key: getattr(steel, key) * L
            for key in ("case_depth_min", "case_depth_max")
            if getattr(steel, key) is not None
        }
        return replace(steel, **depths)

    return found


HELD: dict[str, tuple[tuple[str, str, Patch], ...]] = {
    # what it is: where it stands, and how it would grow with the machine
    "spacing errors": (
        ("teeth.first_tooth", "index_variation", lambda f: lambda z, m, grade: L * f(z, m / L, grade)),
    ),
    "end gap": (
        (
            "teeth.guide_stresses",
            "load_distribution_factor",
            lambda f: lambda tilt, length: f(tilt, length / L),
        ),
    ),
    "size in fatigue": tuple(
        (module, "size_factor", lambda f: lambda diameter: f(diameter / L))
        for module in ("fatigue.members", "fatigue.notch_places")
    ),
    "notch constant": tuple(
        (module, "notch_sensitivity", lambda f: lambda radius, constant: f(radius / L, constant))
        for module in ("fatigue.members", "fatigue.notch_places")
    ),
    "case depth": (("members", "steel", _deeper), ("members", "unknown_steel", _deeper)),
}
LISTS = {
    "roots by pitch": "the inch standard states the fillet root otherwise from 16/32 on than below it",
    "threads": "the pitch of a thread grows less than its diameter",
    "dowels": "the breaking loads of dowels are a list",
    "keys": "the sections of keys and the seats for them are a list",
    "set screws": "the holding powers of set screws are a list",
}

NO_LENGTH: frozenset[str] = frozenset()
SPACED = frozenset({"spacing errors", "case depth", "roots by pitch"})
NOTCHED = frozenset({"size in fatigue", "notch constant"})


def rows(kinds: str, names: str, *lengths: str) -> tuple[str, str, frozenset[str]]:
    return kinds, names, frozenset(lengths)


NOTCHES = "keyseat|shoulder fillet|spline run-out|cross hole|ring groove|press fit edge"
SPLINE, SEATS = "(involute|straight) spline", "interference fit|clamp"
ROWS: tuple[tuple[str, str, frozenset[str]], ...] = (
    rows(SPLINE, "root shear, external member", "roots by pitch"),
    rows(SPLINE, "pitch-line tooth shear|flank pressure|bursting, internal member", "end gap"),
    rows(SPLINE, "torsional yield, external member", "roots by pitch"),
    rows(SPLINE, "torsional yield, internal member"),
    rows(SPLINE, "flank yield, all teeth", "case depth"),
    rows(SPLINE, "flank yield, first tooth", *SPACED),
    rows(SPLINE, "tooth root bending, first tooth, (external|internal) member", *SPACED),
    rows(
        SPLINE,
        "torsional fatigue, (external|internal) member",
        *NOTCHED,
        "case depth",
        "roots by pitch",
    ),
    rows("shaft", f"torsional shear|torsional yield|yield, ({NOTCHES})"),
    rows("shaft", f"fatigue, ({NOTCHES})", *NOTCHED),
    rows("key", "key shear|side bearing, (shaft|hub|key)|yield, keyseat", "keys"),
    rows("key", "fatigue, keyseat", *NOTCHED),
    rows("pin", "pin shear|pin bearing, (shaft|hub|pin)|fuse pin holds|yield, pin (hole|groove)"),
    rows("pin", "fatigue, pin (hole|groove)", *NOTCHED),
    rows("set screws", "holding power", "set screws"),
    rows(SEATS, "(hub|shaft) (yield|cracking)|axial hold"),
    rows("interference fit", "grip"),
    rows("clamp", "grip"),
    rows("clamp", "screw preload", "threads"),
    rows(SEATS, "fatigue, edge of the hub", "size in fatigue"),
    rows("bolted flange", "grip|bolt shear|bolt preload", "threads"),
    rows("bolted flange", "bolt bearing|dowel bearing"),
    rows("bolted flange", "dowel shear", "dowels"),
    rows("weld", "throat shear|base metal at the leg|torsional yield beside the weld|fatigue, weld"),
    rows("sleeve", "torsional yield of the wall|bursting with torsion"),
    rows("sleeve", "fatigue, keyway", *NOTCHED),
    rows("sleeve", "fatigue, wall", "size in fatigue"),
)


def row_of(kind: str, name: str) -> list[tuple[str, str, frozenset[str]]]:
    return [row for row in ROWS if re.fullmatch(row[0], kind) and re.fullmatch(row[1], name)]


# --- the same machine, L times as large -----------------------------------------------------------


def times(written: str, kind: Kind, unit: str) -> str:
    """A quantity of the larger machine, in the unit in which it stood."""
    value, tolerance = read(written, kind)
    factor = L ** POWERS[kind] / units_of(kind)[unit].factor
    stated = f" +/- {tolerance * factor!r}" if "+/-" in written else ""
    return f"{value * factor!r}{stated} {unit}"


def enlarged(scenario: Scenario) -> Scenario:
    """The scenario of the machine that is L times as large."""
    changes: dict[str, Any] = {}
    for key in numeric_keys(scenario):
        written = written_at(scenario, key.key)
        if key.kind is not None and POWERS.get(key.kind):
            changes[key.key] = times(written, cast("Kind", key.kind), key.unit)
        elif key.key.endswith(PER_TIME):
            changes[key.key] = written / L
    for index, joint in enumerate(scenario.document["joint"], start=1):
        for place in ("size", "bolts.size", "dowels.size", "screw.size", "size.pitch"):
            written = joint
            for step in place.split("."):
                written = written.get(step) if isinstance(written, dict) else None
            if place == "size.pitch" and written is not None:
                pitches = [f"{int(pitch) / L:g}" for pitch in written.split("/")]
                changes[f"joint[{index}].{place}"] = "/".join(pitches)
            elif isinstance(written, str) and place != "size.pitch":
                changes[f"joint[{index}].{place}"] = TWICE[written]
    return edited(scenario, changes)


@cache
def assessed(name: str) -> Assessment:
    return assess_without_ranges(machine(name))


@cache
def larger(name: str, held: frozenset[str]) -> Assessment:
    """The larger machine, with all lengths of `HELD` grown but those that are named."""
    with ExitStack() as stack:
        for what, places in HELD.items():
            for module, function, patch in () if what in held else places:
                where = f"torqcheck.assessment.{module}"
                context = pytest.MonkeyPatch.context()
                monkey = stack.enter_context(context)
                original = getattr(importlib.import_module(where), function)
                monkey.setattr(f"{where}.{function}", patch(original))
        return assess_without_ranges(enlarged(machine(name)))


@pytest.fixture(autouse=True)
def _drawn_torques(monkeypatch: pytest.MonkeyPatch) -> None:
    """Teeth are drawn at torques a cube root of 2 apart, so that those of both machines meet."""
    monkeypatch.setattr("torqcheck.assessment.teeth.under_load.STEP", L ** (1.0 / 3.0))


@dataclass(frozen=True)
class Pair:
    """One check in both machines."""

    machine: str
    kind: str
    inch: bool
    small: Check
    large: Check

    @property
    def factor(self) -> float:
        """Safety factor of the larger machine over that of the smaller."""
        assert self.small.safety_factor
        assert self.large.safety_factor
        return self.large.safety_factor / self.small.safety_factor

    @property
    def lengths(self) -> frozenset[str]:
        """What knows a length in it."""
        ((_, _, lengths),) = row_of(self.kind, self.small.name)
        return lengths if self.inch else lengths - {"roots by pitch"}


def pairs(held: frozenset[str]) -> Iterator[Pair]:
    """Every check that something loads, under a torque that has grown with the machine."""
    for name in SCALED:
        written = machine(name).document["joint"]
        for joint, small, large in zip(
            written, assessed(name).joints, larger(name, held).joints, strict=True
        ):
            both = {(check.name, check.method, check.member): check for check in large.checks}
            for check in small.checks:
                other = both.get((check.name, check.method, check.member))
                if other is None:
                    # a part of more than 254 mm has no size factor, and no fatigue is stated of it
                    assert ("fatigue" in check.name, *held) == (True, "size in fatigue")
                elif check.safety_factor and math.isclose(other.torque, check.torque * L**3, rel_tol=RTOL):
                    inch = joint.get("standard") == "ansi b92.1"
                    yield Pair(name, small.kind, inch, check, other)


def test_no_factor_changes_whose_lengths_have_all_grown() -> None:
    wrong = [
        (pair.machine, pair.small.name, pair.small.method, pair.factor)
        for pair in pairs(NO_LENGTH)
        if not pair.lengths & LISTS.keys() and not math.isclose(pair.factor, 1.0, rel_tol=RTOL)
    ]
    assert wrong == []


@pytest.mark.parametrize("what", [*HELD, *LISTS])
def test_a_length_that_does_not_grow_changes_the_factors_that_know_it_and_no_others(what: str) -> None:
    found = list(pairs(frozenset({what} - LISTS.keys())))
    knowing = {row: False for row in ROWS if what in row[2]}
    for pair in found:
        (row,) = row_of(pair.kind, pair.small.name)
        changed = not math.isclose(pair.factor, 1.0, rel_tol=1e-6)
        if row in knowing:
            knowing[row] |= changed
        elif not pair.lengths & LISTS.keys():
            assert not changed, (pair.machine, pair.small.name, pair.factor)
    assert knowing
    assert all(knowing.values()), [row for row, changed in knowing.items() if not changed]


def test_every_check_has_one_row_and_every_row_a_check() -> None:
    seen = {
        (joint.kind, check.name)
        for name in MACHINES
        for joint in assessed(name).joints
        for check in joint.checks
    }
    assert {each for each in seen if len(row_of(*each)) != 1} == set()
    assert [row for row in ROWS if not any(row in row_of(*each) for each in seen)] == []
    assert {kind for kind, _ in seen} == KINDS.keys()


def _names_in_the_code() -> Iterator[str]:
    """What is written as the name of a check, as a pattern: a part that is filled in may be anything."""
    for path in sorted(Path(package.__file__).parent.rglob("*.py")):
        for call in (node for node in ast.walk(ast.parse(path.read_text())) if isinstance(node, ast.Call)):
            called = call.func.attr if isinstance(call.func, ast.Attribute) else getattr(call.func, "id", "")
            if called not in {"Check", "check", "against"}:
                continue
            names = [word.value for word in call.keywords if word.arg == "name"] or call.args[:1]
            for name in names:
                if isinstance(name, ast.JoinedStr):
                    parts = (
                        re.escape(part.value) if isinstance(part, ast.Constant) else ".+"
                        for part in name.values
                    )
                    yield "".join(parts)
                elif isinstance(name, ast.Constant) and isinstance(name.value, str):
                    yield re.escape(name.value)


def test_every_name_of_a_check_in_the_code_is_met_by_a_machine() -> None:
    seen = {check.name for name in MACHINES for joint in assessed(name).joints for check in joint.checks}
    names = set(_names_in_the_code())
    assert len(names) >= 25
    assert {name for name in names if not any(re.fullmatch(name, each) for each in seen)} == set()


@pytest.mark.parametrize("name", SCALED)
def test_the_blow_grows_with_the_machine(name: str) -> None:
    """Where every play is read: that which a fit has when new grows less than its diameter."""
    small, large = assessed(name).shock, larger(name, NO_LENGTH).shock
    assert large.peak_torque == pytest.approx(small.peak_torque * L**3, rel=RTOL)
    assert large.natural_frequency == pytest.approx(small.natural_frequency / L, rel=RTOL)
    assert large.closing_speed == pytest.approx(small.closing_speed / L, rel=RTOL)


def test_the_hours_of_wear_grow_with_the_machine() -> None:
    """
    A turn wears L times as deep and takes L times as long, so that L times the hours make L times the lash.

    A grease works for its hours in any machine, and a lash limit that nobody states is a fixed length.
    """
    found = []
    for name in SCALED:
        scenario = machine(name)
        for joint, one, other in zip(
            scenario.document["joint"], assessed(name).joints, larger(name, NO_LENGTH).joints, strict=True
        ):
            limit = scenario.targets.lash_limit
            if one.wear and one.wear.life and joint.get("lubrication") != "sealed grease" and limit:
                assert other.wear
                assert other.wear.life == pytest.approx([hours * L for hours in one.wear.life], rel=1e-6)
                found.append(name)
    assert len(found) >= 4
