"""Quantities as people write them, and the only place that knows a units library.

The text of a user is read by a small grammar of our own::

    NUMBER [+/- NUMBER] UNIT            22.35 +/- 0.02 mm
    [INT] INT/INT [+/- NUMBER] in       1 1/4 in

pint vouches for the factors and never sees the user's text. The factors stand here as numbers,
so that a command need not build a unit registry; `factor_by_pint` computes the same number with
pint, and a test compares every row.
"""

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache
from typing import Any, Literal

from torqcheck.errors import QuantityError

__all__ = [
    "KINDS",
    "Kind",
    "System",
    "Unit",
    "factor_by_pint",
    "in_unit",
    "plain_spaces",
    "read",
    "unit_of",
    "units_of",
]

Kind = Literal[
    "length", "angle", "torque", "torque rise", "speed", "inertia", "stiffness", "side stiffness", "stress",
    "mass", "force", "time", "temperature", "temperature difference",
]  # fmt: skip
System = Literal["si", "inch"]

LONGEST = 60


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit of a kind: value in SI = factor x number + offset; `pint` is pint's name for it."""

    factor: float
    pint: str
    offset: float = 0.0


_LBF = 4.4482216152605
_FT = 0.3048
_IN = 0.0254
_LB = 0.45359237
_DEG = math.pi / 180.0
_TORQUES: dict[str, tuple[float, str]] = {
    "N*m": (1.0, "newton * meter"),
    "Nm": (1.0, "newton * meter"),
    "kN*m": (1e3, "kilonewton * meter"),
    "kNm": (1e3, "kilonewton * meter"),
    "N*mm": (1e-3, "newton * millimeter"),
    "Nmm": (1e-3, "newton * millimeter"),
    "lbf*ft": (_LBF * _FT, "pound_force * foot"),
    "lb*ft": (_LBF * _FT, "pound_force * foot"),
    "ft*lbf": (_LBF * _FT, "pound_force * foot"),
    "ft*lb": (_LBF * _FT, "pound_force * foot"),
    "lbf*in": (_LBF * _IN, "pound_force * inch"),
    "lb*in": (_LBF * _IN, "pound_force * inch"),
    "in*lbf": (_LBF * _IN, "pound_force * inch"),
    "in*lb": (_LBF * _IN, "pound_force * inch"),
}

_UNITS: dict[str, dict[str, Unit]] = {
    "length": {
        "mm": Unit(1e-3, "millimeter"),
        "in": Unit(_IN, "inch"),
        "inch": Unit(_IN, "inch"),
        '"': Unit(_IN, "inch"),
        "thou": Unit(_IN * 1e-3, "thou"),
        "um": Unit(1e-6, "micrometer"),
        "cm": Unit(1e-2, "centimeter"),
        "m": Unit(1.0, "meter"),
        "ft": Unit(_FT, "foot"),
        "km": Unit(1e3, "kilometer"),
    },
    "angle": {
        "deg": Unit(_DEG, "degree"),
        "°": Unit(_DEG, "degree"),
        "rad": Unit(1.0, "radian"),
        "mrad": Unit(1e-3, "milliradian"),
        "arcmin": Unit(_DEG / 60.0, "arcminute"),
        "mm/m": Unit(1e-3, "millimeter / meter"),
        "in/in": Unit(1.0, "inch / inch"),
    },
    "torque": {name: Unit(factor, pint) for name, (factor, pint) in _TORQUES.items()},
    "torque rise": {
        f"{name}/s": Unit(factor, f"{pint} / second") for name, (factor, pint) in _TORQUES.items()
    }
    | {
        f"{name}/ms": Unit(factor * 1e3, f"{pint} / millisecond") for name, (factor, pint) in _TORQUES.items()
    },
    "speed": {
        "rpm": Unit(math.pi / 30.0, "revolution / minute"),
        "RPM": Unit(math.pi / 30.0, "revolution / minute"),
        "1/min": Unit(math.pi / 30.0, "revolution / minute"),
        "rev/min": Unit(math.pi / 30.0, "revolution / minute"),
        "r/min": Unit(math.pi / 30.0, "revolution / minute"),
        "rev/s": Unit(2.0 * math.pi, "revolution / second"),
        "rad/s": Unit(1.0, "radian / second"),
    },
    "inertia": {
        "kg*m^2": Unit(1.0, "kilogram * meter ** 2"),
        "kg*m2": Unit(1.0, "kilogram * meter ** 2"),
        "kg*cm^2": Unit(1e-4, "kilogram * centimeter ** 2"),
        "kg*cm2": Unit(1e-4, "kilogram * centimeter ** 2"),
        "g*m^2": Unit(1e-3, "gram * meter ** 2"),
        "lb*ft^2": Unit(_LB * _FT**2, "pound * foot ** 2"),
        "lb*ft2": Unit(_LB * _FT**2, "pound * foot ** 2"),
        "lb*in^2": Unit(_LB * _IN**2, "pound * inch ** 2"),
        "lb*in2": Unit(_LB * _IN**2, "pound * inch ** 2"),
        "slug*ft^2": Unit(_LBF * _FT, "slug * foot ** 2"),
        "lbf*in*s^2": Unit(_LBF * _IN, "pound_force * inch * second ** 2"),
    },
    "stiffness": {
        f"{name}/{turn}": Unit(factor / scale, f"{pint} / {word}")
        for name, (factor, pint) in _TORQUES.items()
        for turn, scale, word in (("rad", 1.0, "radian"), ("deg", _DEG, "degree"))
    },
    "side stiffness": {
        "N/mm": Unit(1e3, "newton / millimeter"),
        "kN/mm": Unit(1e6, "kilonewton / millimeter"),
        "N/um": Unit(1e6, "newton / micrometer"),
        "N/m": Unit(1.0, "newton / meter"),
        "lbf/in": Unit(_LBF / _IN, "pound_force / inch"),
        "lb/in": Unit(_LBF / _IN, "pound_force / inch"),
    },
    "stress": {
        "MPa": Unit(1e6, "megapascal"),
        "N/mm^2": Unit(1e6, "newton / millimeter ** 2"),
        "N/mm2": Unit(1e6, "newton / millimeter ** 2"),
        "GPa": Unit(1e9, "gigapascal"),
        "kPa": Unit(1e3, "kilopascal"),
        "Pa": Unit(1.0, "pascal"),
        "psi": Unit(_LBF / _IN**2, "pound_force_per_square_inch"),
        "ksi": Unit(1e3 * _LBF / _IN**2, "kip_per_square_inch"),
        "bar": Unit(1e5, "bar"),
    },
    "mass": {
        "kg": Unit(1.0, "kilogram"),
        "g": Unit(1e-3, "gram"),
        "t": Unit(1e3, "metric_ton"),
        "lb": Unit(_LB, "pound"),
        "lbm": Unit(_LB, "pound"),
    },
    "force": {
        "N": Unit(1.0, "newton"),
        "kN": Unit(1e3, "kilonewton"),
        "lbf": Unit(_LBF, "pound_force"),
        "lb": Unit(_LBF, "pound_force"),
        "kgf": Unit(9.80665, "kilogram_force"),
    },
    "time": {
        "s": Unit(1.0, "second"),
        "ms": Unit(1e-3, "millisecond"),
        "min": Unit(60.0, "minute"),
        "h": Unit(3600.0, "hour"),
        "hr": Unit(3600.0, "hour"),
        "hour": Unit(3600.0, "hour"),
        "hours": Unit(3600.0, "hour"),
    },
    "temperature": {
        "degC": Unit(1.0, "kelvin", 273.15),
        "°C": Unit(1.0, "kelvin", 273.15),
        "degF": Unit(5.0 / 9.0, "delta_degree_Fahrenheit", 459.67 * 5.0 / 9.0),
        "°F": Unit(5.0 / 9.0, "delta_degree_Fahrenheit", 459.67 * 5.0 / 9.0),
        "K": Unit(1.0, "kelvin"),
    },
    "temperature difference": {
        "K": Unit(1.0, "kelvin"),
        "degC": Unit(1.0, "kelvin"),
        "°C": Unit(1.0, "kelvin"),
        "degF": Unit(5.0 / 9.0, "delta_degree_Fahrenheit"),
        "°F": Unit(5.0 / 9.0, "delta_degree_Fahrenheit"),
    },
}

KINDS: tuple[str, ...] = tuple(_UNITS)

EXAMPLES: dict[str, str] = {
    "length": '"1.25 in" or "32 mm"',
    "angle": '"0.08 deg" or "1.4 mrad"',
    "torque": '"240 N*m" or "177 lbf*ft"',
    "torque rise": '"4800 N*m/s" or "3500 lbf*ft/s"',
    "speed": '"1500 rpm"',
    "inertia": '"0.038 kg*m^2" or "130 lb*in^2"',
    "stiffness": '"9000 N*m/rad"',
    "side stiffness": '"15 kN/mm" or "90000 lbf/in"',
    "stress": '"520 MPa" or "75 ksi"',
    "mass": '"1400 kg" or "3100 lb"',
    "force": '"9 kN" or "2000 lbf"',
    "time": '"4000 hour" or "50 ms"',
    "temperature": '"70 degC" or "160 degF"',
    "temperature difference": '"35 K" or "63 degF"',
}

_SHOWN: dict[str, dict[str, tuple[str, str]]] = {
    "length": {"si": ("mm", "mm"), "inch": ("in", "in")},
    "angle": {"si": ("deg", "deg"), "inch": ("deg", "deg")},
    "torque": {"si": ("N*m", "N m"), "inch": ("lbf*ft", "lbf ft")},
    "torque rise": {"si": ("N*m/s", "N m/s"), "inch": ("lbf*ft/s", "lbf ft/s")},
    "speed": {"si": ("rpm", "rpm"), "inch": ("rpm", "rpm")},
    "inertia": {"si": ("kg*m^2", "kg m^2"), "inch": ("lb*in^2", "lb in^2")},
    "stiffness": {"si": ("N*m/rad", "N m/rad"), "inch": ("lbf*in/rad", "lbf in/rad")},
    "side stiffness": {"si": ("N/mm", "N/mm"), "inch": ("lbf/in", "lbf/in")},
    "stress": {"si": ("MPa", "MPa"), "inch": ("psi", "psi")},
    "mass": {"si": ("kg", "kg"), "inch": ("lb", "lb")},
    "force": {"si": ("N", "N"), "inch": ("lbf", "lbf")},
    "time": {"si": ("h", "h"), "inch": ("h", "h")},
    "temperature": {"si": ("degC", "degC"), "inch": ("degF", "degF")},
    "temperature difference": {"si": ("K", "K"), "inch": ("degF", "degF")},
}

_UNSIGNED = r"(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?"
_NUMBER = rf"[+-]?{_UNSIGNED}"
_QUANTITY = re.compile(rf"({_NUMBER})\s*(?:(?:\+/-|±)\s*({_UNSIGNED})\s*)?(.*)", re.ASCII)
_FRACTION = re.compile(
    rf"(?:(\d{{1,4}})[ -]+)?(\d{{1,4}})\s*/\s*(\d{{1,4}})\s*(?:(?:\+/-|±)\s*({_UNSIGNED})\s*)?(in|inch|\")",
    re.ASCII,
)
_JOINERS = re.compile(r"\s*[*·⋅.\-]\s*|\s+")


WHERE_TOLERANCES_STAND = (
    'write it between number and unit, in that unit, above zero and not in percent, as in "22.35 +/- 0.02 mm"'
)


def units_of(kind: str) -> Mapping[str, Unit]:
    """
    Return the unit spellings that a kind of field allows.

    Parameters
    ----------
    kind : str
        Kind of field: length, torque.
    """
    return _UNITS[kind]


def factor_by_pint(unit: Unit) -> float:
    """
    Return the factor of a unit to SI as pint has it; slow, for the test of the table.

    Parameters
    ----------
    unit : Unit
        A row of the table of units.
    """
    return float(_registry().Quantity(1.0, unit.pint).to_base_units().magnitude)


@cache
def _registry() -> Any:
    """Build pint's registry once; imported here because it takes half a second."""
    import pint

    return pint.UnitRegistry()


def read(text: str, kind: Kind) -> tuple[float, float]:
    """
    Read a quantity of one kind.

    Parameters
    ----------
    text : str
        What the user wrote, at most 60 characters.
    kind : str
        One of `KINDS`.

    Returns
    -------
    tuple of float
        Value and tolerance (0 if none is written), both in SI.

    Raises
    ------
    QuantityError
        If the text is no such quantity; says what is wrong and how to mend it.
    """
    example = f"write for example {EXAMPLES[kind]}"
    text = plain_spaces(text)
    if not text:
        raise QuantityError("is empty", example)
    if len(text) > LONGEST:
        raise QuantityError(f"is longer than {LONGEST} characters", example)
    fraction = _FRACTION.fullmatch(text) if kind == "length" else None
    if fraction is not None:
        whole, top, bottom, tolerance, unit = fraction.groups()
        if int(bottom) == 0:
            raise QuantityError("divides by zero", example)
        number = int(whole or 0) + int(top) / int(bottom)
    else:
        match = _QUANTITY.fullmatch(text)
        if match is None:
            raise QuantityError("is not a number with a unit", example)
        number, tolerance, unit = float(match[1]), match[2], match[3].strip()
    if "+/-" in unit or "±" in unit or (tolerance and unit.startswith("%")):
        raise QuantityError("has a tolerance that cannot be read", WHERE_TOLERANCES_STAND)
    known = _unit(unit, kind, example)
    value = number * known.factor + known.offset
    spread = float(tolerance) * known.factor if tolerance else 0.0
    if not (math.isfinite(value) and math.isfinite(spread)):
        raise QuantityError("is not a finite number", example)
    return value, spread


def unit_of(text: str, kind: Kind) -> str:
    """
    Return the unit of a quantity as it is written, in the spelling of the table; empty if it has none.

    Parameters
    ----------
    text : str
        A quantity as it is written.
    kind : str
        Kind of the field.
    """
    text = plain_spaces(text)
    match = _FRACTION.fullmatch(text) if kind == "length" else None
    match = match or _QUANTITY.fullmatch(text)
    written = match[match.re.groups].strip() if match else ""
    spelled = _spelled(written)
    return spelled if spelled in _UNITS[kind] else ""


def plain_spaces(text: str) -> str:
    """
    Return a text in one line: a quantity may hold spaces of every sort, and a report shows it as it was read.

    Parameters
    ----------
    text : str
        A quantity as it is written.
    """
    return " ".join(text.split())


def _spelled(unit: str) -> str:
    """A unit as the table spells it."""
    return _JOINERS.sub("*", unit.replace("²", "^2").replace("**", "^").replace("µ", "u"))


def _one(kind: str) -> str:
    """A kind of quantity with its article."""
    return f"{'an' if kind[0] in 'aeiou' else 'a'} {kind}"


def _unit(unit: str, kind: str, example: str) -> Unit:
    """Look a unit spelling up among those that the kind allows."""
    if not unit:
        raise QuantityError("has no unit", example)
    if unit[0] in ",/":
        raise QuantityError("is not a plain decimal number", f"use a decimal point; {example}")
    spelled = _spelled(unit)
    known = _UNITS[kind].get(spelled)
    if known is not None:
        return known
    other = next((k for k, spellings in _UNITS.items() if spelled in spellings), None)
    if other is not None:
        raise QuantityError(f"is {_one(other)}, not {_one(kind)}", example)
    near = get_close_matches(spelled, _UNITS[kind], n=1, cutoff=0.5)
    hint = f'did you mean "{near[0]}"? ' if near else ""
    allowed = ", ".join(_UNITS[kind])
    if len(allowed) > 90:
        allowed = ", ".join(list(_UNITS[kind])[:8]) + ", ..."
    raise QuantityError(
        f"has a unit that is not known for {_one(kind)}", f"{hint}{example} (known: {allowed})"
    )


def in_unit(value: float, kind: str, system: System) -> tuple[float, str]:
    """
    Return the number and the unit in which a system shows a value of a kind; no rounding.

    Parameters
    ----------
    value : float
        In SI.
    kind : str
        Kind of quantity.
    system : str
        si or inch.
    """
    key, label = _SHOWN[kind][system]
    unit = _UNITS[kind][key]
    return (value - unit.offset) / unit.factor, label
