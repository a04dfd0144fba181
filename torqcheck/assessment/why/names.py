"""Names of all numbers of a result, and the one that a person means."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from torqcheck.errors import UsageError
from torqcheck.scenario.faults import nearest, printable

__all__ = ["Named", "named_numbers", "number_called", "words_after"]

METHODS = {"guide, tabulated": "T", "guide, simulated": "S", "material": "M", "larger load": "L"}
UNITS: tuple[tuple[str, str, float], ...] = (
    ("_MPa_per_Nm", "MPa/(N m)", 1e6),
    ("_Nm_rad", "N m/rad", 1.0),
    ("_Nm_s", "N m/s", 1.0),
    ("_rad_s", "rad/s", 1.0),
    ("_N_mm", "N/mm", 1e3),
    ("_kgm2", "kg m^2", 1.0),
    ("_MPa", "MPa", 1e6),
    ("_Nm", "N m", 1.0),
    ("_Hz", "Hz", 1.0),
    ("_mm", "mm", 1e-3),
    ("_um", "um", 1e-6),
    ("_rad", "rad", 1.0),
    ("_hours", "h", 3600.0),
    ("_h", "h", 3600.0),
    ("_kN", "kN", 1e3),
    ("_N", "N", 1.0),
    ("_J", "J", 1.0),
    ("_s", "s", 1.0),
)
PRINTED: Mapping[str, str] = {
    "weakest link": "weakest.safety_factor",
    "chance of a factor below 1": "weakest.chance_below_1",
    "peak torque": "shock.peak_torque_Nm",
    "steady, load free to turn": "shock.steady_torque_Nm",
    "peak over steady": "shock.dynamic_factor",
    "peak if load is blocked": "shock.held_peak_torque_Nm",
    "play closes after": "shock.closing_time_s",
    "closing speed": "shock.closing_speed_rad_s",
    "blow energy": "shock.blow_energy_J",
    "contact losses": "shock.contact_losses",
    "slip element lets go": "shock.slip_time_s",
    "peak if nothing slips": "shock.firm_peak_torque_Nm",
    "torque rise": "shock.inputs.torque_rise_Nm_s",
    "driving inertia": "shock.inputs.driving_inertia_kgm2",
    "driven inertia": "shock.inputs.driven_inertia_kgm2",
    "path stiffness": "shock.inputs.stiffness_Nm_rad",
    "natural frequency": "shock.natural_frequency_Hz",
    "damping ratio": "shock.inputs.damping_ratio",
    "total lash": "shock.inputs.lash_rad",
}
"""What the report calls numbers whose names in the JSON are others."""
MOST_SHOWN = 8
LONGEST_NAME = 200


@dataclass(frozen=True, slots=True)
class Named:
    """One number of a result: its name, its path in the JSON, its value, its unit and that unit in SI."""

    name: str
    path: tuple[str | int, ...]
    value: float
    unit: str
    in_si: float


def named_numbers(result: Mapping[str, Any]) -> tuple[Named, ...]:
    """Return every number of the JSON of an assessment with a name that a person can type."""
    return tuple(_numbers(result, "", (), ""))


def number_called(result: Mapping[str, Any], name: str) -> Named:
    """
    Return the number that a name means.

    The name as it is listed, or what the report calls it; or words of the name, if they are in one name
    only. The words of a check without the field mean its safety factor.

    Raises
    ------
    UsageError
        If no number is called so, or several are.
    """
    shown = printable(name[:LONGEST_NAME])
    numbers = named_numbers(result)
    asked = " ".join(name.split()).casefold()
    asked = PRINTED.get(asked, asked)
    exact = [number for number in numbers if number.name.casefold() == asked.casefold()]
    if exact:
        return exact[0]
    wanted = _words(name[:LONGEST_NAME])
    found = [number for number in numbers if wanted and wanted <= _words(number.name)]
    factors = [
        number
        for number in found
        if number.path[2:3] == ("checks",) and number.path[4:] == ("safety_factor",)
    ]
    if len(factors) == 1:
        return factors[0]
    if len(found) == 1:
        return found[0]
    if not found:
        if wanted == {"verdict"}:
            raise UsageError(
                "the verdict is no number, it follows from all of them; ask for the weakest link or a check"
            )
        near = nearest(name, [number.name for number in numbers])
        raise UsageError(
            f'no number of the result is called "{shown}"; {near}run torqcheck why without a name'
        )
    names = [number.name for number in (factors or found)]
    more = f" and {len(names) - MOST_SHOWN} more" if len(names) > MOST_SHOWN else ""
    listed = ", ".join(f'"{each}"' for each in names[:MOST_SHOWN])
    raise UsageError(f'"{shown}" can mean {listed}{more}; write more of the name')


def words_after(result: Mapping[str, Any], typed: str) -> tuple[str, ...]:
    """
    Return the words that lead on to a number, behind those that are typed already.

    Every one of them leaves fewer numbers than there are without it, and at least one; so there is none
    where the typed words mean one number.
    """
    wanted = _words(typed[:LONGEST_NAME])
    left = [words for number in named_numbers(result) if wanted <= (words := _words(number.name))]
    shared = frozenset.intersection(*left) if left else frozenset()
    return tuple(sorted(frozenset().union(*left) - shared - wanted))


def _words(name: str) -> frozenset[str]:
    return frozenset(re.findall(r"[a-z0-9]+", name.casefold().replace("_", " ")))


def _numbers(value: Any, name: str, path: tuple[str | int, ...], unit: str) -> Iterator[Named]:
    """Walk the JSON; `unit` is that of the table around, where the key itself has none."""
    if isinstance(value, Mapping):
        own = value.get("unit") if isinstance(value.get("unit"), str) else ""
        for key, inner in value.items():
            below = str(own) if key in {"value", "allowable"} and own else _unit_of(str(key)) or unit
            yield from _numbers(inner, f"{name}.{key}" if name else str(key), (*path, str(key)), below)
    elif isinstance(value, list):
        for index, (item, label) in enumerate(zip(value, _labels(value), strict=True)):
            yield from _numbers(item, f"{name}[{label}]", (*path, index), unit)
    elif isinstance(value, int | float) and not isinstance(value, bool):
        yield Named(name, path, float(value), unit, _in_si(unit))


def _labels(items: list[Any]) -> list[str]:
    """What entries are called: by name, checks with their method; counted where that is not one."""
    labels = [_label(item) for item in items]
    return [
        label if label and labels.count(label) == 1 else f"{label} {place}".strip()
        for place, label in enumerate(labels, start=1)
    ]


def _label(item: Any) -> str:
    if not isinstance(item, Mapping):
        return ""
    name = str(item.get("name") or item.get("key") or item.get("state") or "")
    method = METHODS.get(str(item.get("method", "")))
    return f"{name}, {method}" if method else name


def _unit_of(key: str) -> str:
    """Unit that a key ends with."""
    return next((unit for ending, unit, _ in UNITS if key.endswith(ending)), "")


def _in_si(unit: str) -> float:
    known = {name: factor for _, name, factor in UNITS}
    return known.get(unit, 1.0)
