"""Every number that a check can have been fed with, and where it comes from."""

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass, fields, is_dataclass
from types import FunctionType
from typing import Any

from torqcheck.assessment.fatigue.members import RELIABILITY, fatigue_members
from torqcheck.assessment.prepared import Prepared
from torqcheck.assessment.result import ShockResult
from torqcheck.assessment.torque.blow import peak_at
from torqcheck.assessment.torque.factors import LifeFactors
from torqcheck.assessment.torque.path import JointLoad
from torqcheck.capacity.spline_guide import FIXED_SEAT_DIVISOR, FIXED_SEAT_SOURCE
from torqcheck.fatigue import SURFACE_FINISHES, TORSION_LOAD_FACTOR
from torqcheck.provenance import Mark, Source
from torqcheck.scenario import Scenario
from torqcheck.scenario.edits import numeric_keys, written_at
from torqcheck.scenario.faults import written_text
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.lines import line_of

__all__ = ["Known", "known_values"]

DEEPEST = 7
SI_UNITS = {
    "length": "m",
    "angle": "rad",
    "torque": "N m",
    "torque rise": "N m/s",
    "speed": "rad/s",
    "inertia": "kg m^2",
    "stiffness": "N m/rad",
    "side stiffness": "N/m",
    "stress": "Pa",
    "mass": "kg",
    "force": "N",
    "time": "s",
    "temperature": "K",
    "temperature difference": "K",
    "hardness": "",
}
"""Unit of each kind as the formulas write it."""


@dataclass(frozen=True, slots=True)
class Known:
    """A number, its unit if it is known, and where it comes from; `near` ones are looked at first."""

    value: float
    unit: str | None
    words: str
    mark: Mark
    near: int
    source: Source | None = None
    moved: float | None = None
    """Its value when every number of the file has moved; None if that was not looked at."""

    @property
    def after(self) -> float:
        """The value by which it is told from its equals."""
        return self.value if self.moved is None else self.moved


def known_values(
    scenario: Scenario,
    text: str,
    prepared: Prepared,
    shock: ShockResult,
    index: int,
    life: LifeFactors,
) -> tuple[Known, ...]:
    """
    List what is known about one joint, in the order in which it is believed to be the origin of a number.

    Parameters
    ----------
    scenario : Scenario
        As it was read.
    text : str
        The file, for the numbers of its lines.
    prepared : Prepared
        The path.
    shock : ShockResult
        The blow.
    index : int
        Which joint.
    life : LifeFactors
        Life factors of the guide at that joint.
    """
    found = [
        *_of_the_file(scenario, text, index),
        *_assumed(prepared),
        *_of_the_path(prepared, shock, index),
        *_of_fatigue(prepared, index),
        Known(
            FIXED_SEAT_DIVISOR,
            "-",
            "constant of the guide for the pressure in a fixed seat",
            FIXED_SEAT_SOURCE.mark,
            2,
            FIXED_SEAT_SOURCE,
        ),
        *_walk(life, "guide's life factors", 2, set(), 0, None),
        *_walk(prepared.joints[index], prepared.joints[index].name, 3, set(), 0, None),
    ]
    return tuple(sorted(found, key=lambda known: known.near))


def _of_the_file(scenario: Scenario, text: str, index: int) -> Iterator[Known]:
    """Numbers as the user wrote them; those of the joint itself first."""
    for number in numeric_keys(scenario):
        own = number.place[:2] == ("joint", index)
        other = number.place[0] == "joint" and not own
        line = line_of(text, number.place)
        written = written_text(written_at(scenario, number.key))
        where = f"{scenario.path.name}, line {line}: " if line else f"{scenario.path.name}: "
        unit = "-" if number.kind is None else SI_UNITS[str(number.kind)]
        words = f"{where}{number.key} = {written}"
        yield Known(number.value, unit, words, "measured", 0 if own else 4 if other else 1)
        if number.unit and number.kind == "length" and re.search(r"(diameter|bore)$", number.key):
            yield Known(0.5 * number.value, unit, f"half of {words}", "measured", 3)


def _assumed(prepared: Prepared) -> Iterator[Known]:
    """What the file does not give."""
    for entry in prepared.ledger.assumptions:
        if entry.value is not None:
            unit = "-" if entry.kind is None else SI_UNITS[str(entry.kind)]
            yield Known(entry.value, unit, f"{entry.key}: {entry.why}", entry.mark, 1)


def _of_the_path(prepared: Prepared, shock: ShockResult, index: int) -> Iterator[Known]:
    """Torques and speeds at the joint."""
    load: JointLoad = prepared.loads[index]
    steady = max(load.torque, load.regen_torque)
    what = "steady torque at the joint: motor torque x boost x ratios x efficiencies"
    yield Known(steady, "N m", what + (", limited by the slip" if load.slip_governs else ""), "derived", 1)
    peak = peak_at(index, shock, prepared.path, prepared.loads)
    blow = "simulated peak torque of the blow at the joint (torqcheck why ... shock.peak_torque_Nm)"
    yield Known(peak, "N m", blow, "derived", 1)
    factor = prepared.application_factor
    yield Known(
        factor,
        "-",
        "table of application factors",
        prepared.application_source.mark,
        1,
        prepared.application_source,
    )
    larger = max(steady * factor, peak)
    yield Known(larger, "N m", "larger of steady torque x application factor and blow", "derived", 1)
    top = load.speed(prepared.scenario.motor.max_speed.value)
    yield Known(top, "rad/s", "highest motor speed over the ratios up to the joint", "derived", 1)
    yield Known(load.ratio, "-", "ratios up to the joint", "derived", 4)


def _of_fatigue(prepared: Prepared, index: int) -> Iterator[Known]:
    """Constants of the strength line, and the places of a spline where a crack can begin."""
    reliability = (
        "share of the parts that bear the limit, for the reliability factor: 0.99 is this tool's choice"
    )
    yield Known(RELIABILITY, "-", reliability, "assumed", 2)
    yield Known(TORSION_LOAD_FACTOR, "-", "load factor of torsion (textbooks on fatigue)", "from memory", 2)
    none = "effective depth of the hard layer: none, the steel is not harder outside than inside"
    yield Known(0.0, "m", none, "derived", 2)
    for (finish, edition), surface in SURFACE_FINISHES.items():
        words = f"of the finish in the surface factor, {finish} surface, handbook of the {edition} edition"
        mark = surface.source.mark
        yield Known(surface.coefficient, "-", f"coefficient A {words}", mark, 2, surface.source)
        yield Known(surface.exponent, "-", f"exponent B {words}", mark, 2, surface.source)
    state = prepared.joints[index].spline
    if state is not None:
        members = fatigue_members(state, Ledger())
        yield from _walk(members, f"{state.name}, fatigue", 3, set(), 0, None)


def _walk(
    thing: Any, words: str, near: int, seen: set[int], depth: int, source: Source | None
) -> Iterator[Known]:
    """Every number within a resolved part, called by the names that the code gives it."""
    if isinstance(thing, bool | str) or thing is None or depth > DEEPEST:
        return
    if isinstance(thing, int | float):
        if math.isfinite(thing):
            mark: Mark = "derived" if source is None else source.mark
            yield Known(float(thing), None, words, mark, near, source)
        return
    if id(thing) in seen:
        return
    seen.add(id(thing))
    own = getattr(thing, "source", None)
    source = own if isinstance(own, Source) else source
    for name, inner in _parts(thing):
        said_already = not name or words.rpartition(", ")[2] == name
        yield from _walk(inner, words if said_already else f"{words}, {name}", near, seen, depth + 1, source)


def _parts(thing: Any) -> Iterator[tuple[str, Any]]:
    """Named parts of a dataclass, a list, or of what a function keeps for later."""
    if is_dataclass(thing) and not isinstance(thing, type):
        names = [field.name for field in fields(thing)]
        names += [name for name in dir(type(thing)) if isinstance(getattr(type(thing), name, None), property)]
        for name in names:
            try:
                yield name.replace("_", " "), getattr(thing, name)
            except (AssertionError, ArithmeticError, ValueError):
                continue
    elif isinstance(thing, tuple | list):
        yield from ((str(place + 1), item) for place, item in enumerate(thing))
    elif isinstance(thing, FunctionType) and thing.__closure__ is not None:
        for name, cell in zip(thing.__code__.co_freevars, thing.__closure__, strict=True):
            yield name.replace("_", " "), cell.cell_contents
