"""What a sweep varies: a key of the scenario with a range or a list of values, read from one text."""

import math
import re
from dataclasses import dataclass
from typing import Any, cast

import numpy as np

from torqcheck._types import FloatArray, IntArray
from torqcheck.errors import QuantityError, UsageError
from torqcheck.scenario import Scenario
from torqcheck.scenario.edits import NumericKey, numeric_key
from torqcheck.scenario.faults import printable
from torqcheck.scenario.usual import has_tolerance
from torqcheck.units import Kind, read, unit_of, units_of

__all__ = ["MOST_POINTS", "VariedKey", "varied_key"]

MOST_POINTS = 1_000_000_000
MOST_LISTED = 1000
LONGEST_TEXT = 4000
EXACT = 22
"""The largest power of ten that a float holds exactly."""
DIGITS = 12
"""Digits to which the steps of an even range are rounded, so that 20.3 is not written 20.300000000000001."""
EXAMPLE = "write for example joint[1].engagement=20:40 mm:21 or motor.boost=1,1.2,1.5"

_PLAIN = re.compile(r"\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)\s*([^\d\s/].*)?", re.ASCII)


@dataclass(frozen=True, slots=True)
class VariedKey:
    """
    One key with the values that it takes.

    Parameters
    ----------
    key : str
        As in `NumericKey`, like the next three.
    place : tuple
        Where it stands.
    kind : str or None
        Kind of quantity, or scale.
    whole : bool
        Only whole numbers.
    unit : str
        Unit or hardness scale of the values; empty for a plain number.
    start, stop : float
        Ends of a range, in that unit.
    count : int
        Values of the range or of the list.
    logarithmic : bool
        Evenly spread in the logarithm.
    listed : tuple of float
        The values of a list; empty for a range.
    """

    key: str
    place: tuple[str | int, ...]
    kind: Kind | str | None
    unit: str
    whole: bool
    start: float
    stop: float
    count: int
    logarithmic: bool = False
    listed: tuple[float, ...] = ()

    @property
    def title(self) -> str:
        """The key with its unit, the head of a column."""
        unit = "in" if self.unit == '"' else self.unit
        return f"{self.key} ({unit})" if unit else self.key

    @property
    def lowest(self) -> float:
        """Smallest value."""
        return min(self.listed or (self.start, self.stop))

    @property
    def highest(self) -> float:
        """Largest value."""
        return max(self.listed or (self.start, self.stop))

    def at_level(self, level: Any) -> FloatArray:
        """Values at levels 0 to count - 1, in the unit of the key."""
        if self.listed:
            return np.asarray(np.asarray(self.listed)[level])
        share = np.asarray(level, dtype=np.float64) / max(self.count - 1, 1)
        value = self._between(share)
        if not self.logarithmic:
            value = self._rounded(value)
        return np.where(share == 0.0, self.start, np.where(share == 1.0, self.stop, value))

    def at_share(self, share: FloatArray) -> FloatArray:
        """Values at shares from 0 to below 1 of the whole range, or of the list."""
        if self.listed:
            return np.asarray(np.asarray(self.listed)[self.level_of_share(share)])
        return np.rint(self._between(share)) if self.whole else self._between(share)

    def level_of_share(self, share: FloatArray) -> Any:
        """Which value of the list a share stands for."""
        return np.minimum((share * self.count).astype(np.int64), self.count - 1)

    def written(self, value: float) -> Any:
        """A value as it would stand in the file."""
        if self.kind is None:
            return round(value) if self.whole else float(value)
        return f"{float(value)!r} {self.unit}"

    def column(self, value: FloatArray) -> FloatArray | IntArray:
        """Values as a column of the results: whole numbers where the key counts something."""
        return value.astype(np.int64) if self.whole else value

    def in_si(self, value: FloatArray) -> FloatArray:
        """Values in SI, to the last digit as the file would give them; a hardness on its own scale."""
        if self.kind is None or self.kind == "hardness":
            return value
        unit = units_of(self.kind)[self.unit]
        return np.asarray(value * unit.factor + unit.offset)

    def _between(self, share: FloatArray) -> FloatArray:
        if self.logarithmic:
            return np.asarray(self.start * np.exp(share * math.log(self.stop / self.start)))
        return self.start + (self.stop - self.start) * share

    def _rounded(self, value: FloatArray) -> FloatArray:
        size = max(abs(self.start), abs(self.stop))
        decimals = DIGITS - 1 - math.floor(math.log10(size)) if size > 0.0 else 0
        if not 0 <= decimals <= EXACT:
            return value
        scale = 10.0**decimals
        return np.asarray(np.rint(value * scale) / scale)


def varied_key(scenario: Scenario, text: str) -> VariedKey:
    """
    Read one key with its values: ``KEY=START:STOP:COUNT``, ``KEY=START:STOP:COUNT:log`` or ``KEY=V1,V2``.

    Parameters
    ----------
    scenario : Scenario
        The scenario in which the key states a number.
    text : str
        The unit may stand on the last value only.

    Raises
    ------
    UsageError
        If the key is no number of the file, or a value, a unit or the count is not usable.
    """
    key, equals, values = text.partition("=")
    if not equals or len(text) > LONGEST_TEXT:
        raise UsageError(f"--vary {_shown(text)}: is not a key with values; {EXAMPLE}")
    number = numeric_key(scenario, key.strip())
    if ":" not in values:
        return _listed(number, text, values.split(","))
    parts = [part.strip() for part in values.split(":")]
    spacing = parts[3] if len(parts) == 4 else "even"
    if len(parts) not in {3, 4} or spacing not in {"log", "even"}:
        raise UsageError(f"--vary {_shown(text)}: is not START:STOP:COUNT or START:STOP:COUNT:log; {EXAMPLE}")
    (start, stop), unit = _values(number, text, parts[:2])
    count = _count(text, parts[2])
    found = _varied(number, unit, start, stop, count, logarithmic=spacing == "log")
    _refuse_range(found, text)
    return found


def _shown(text: str) -> str:
    return f'"{printable(text[:80])}"'


def _varied(
    number: NumericKey,
    unit: str,
    start: float,
    stop: float,
    count: int,
    logarithmic: bool = False,
    listed: tuple[float, ...] = (),
) -> VariedKey:
    return VariedKey(
        number.key, number.place, number.kind, unit, number.whole, start, stop, count, logarithmic, listed
    )


def _listed(number: NumericKey, text: str, parts: list[str]) -> VariedKey:
    """A list of values."""
    values, unit = _values(number, text, parts)
    if len(set(values)) < len(values):
        raise UsageError(f"--vary {_shown(text)}: names a value twice; name each once")
    if len(values) > MOST_LISTED:
        raise UsageError(f"--vary {_shown(text)}: lists more than {MOST_LISTED} values; write a range")
    if number.whole and any(value != round(value) for value in values):
        raise UsageError(f"--vary {_shown(text)}: {number.key} counts something; write whole numbers")
    return _varied(number, unit, values[0], values[-1], len(values), listed=tuple(values))


LONGEST_COUNT = 30


def _count(text: str, written: str) -> int:
    """Number of values of a range."""
    if not (written.isascii() and written.isdigit() and len(written) <= LONGEST_COUNT):
        raise UsageError(
            f"--vary {_shown(text)}: the count {_shown(written)} is not a whole number; {EXAMPLE}"
        )
    count = int(written)
    if not 2 <= count <= MOST_POINTS:
        raise UsageError(
            f"--vary {_shown(text)}: a range has 2 to {MOST_POINTS} values, not {count}; "
            "for a single one write KEY=VALUE"
        )
    return count


def _refuse_range(varied: VariedKey, text: str) -> None:
    """A range has two different ends; a logarithmic one lies above zero; what counts has whole steps."""
    if varied.start == varied.stop:
        raise UsageError(f"--vary {_shown(text)}: starts and stops at the same value; write KEY=VALUE")
    if varied.logarithmic and (min(varied.start, varied.stop) <= 0.0 or varied.whole):
        raise UsageError(
            f"--vary {_shown(text)}: a logarithmic range lies above zero and counts nothing; leave :log out"
        )
    step = (varied.stop - varied.start) / (varied.count - 1)
    if varied.whole and (step != round(step) or varied.start != round(varied.start)):
        raise UsageError(
            f"--vary {_shown(text)}: {varied.key} counts something; choose ends and count with whole steps"
        )


def _values(number: NumericKey, text: str, parts: list[str]) -> tuple[list[float], str]:
    """Values of a range or a list, in the unit of the last one."""
    split = [_split(part, number, text) for part in parts]
    last = split[-1][1]
    if number.kind is None:
        if any(unit for _, unit in split):
            raise UsageError(f"--vary {_shown(text)}: {number.key} is a plain number; leave the unit out")
        return [value for value, _ in split], ""
    if not last:
        example = f"for example {number.unit!r}" if number.unit else "as in the file"
        raise UsageError(f"--vary {_shown(text)}: the last value has no unit; write one, {example}")
    return [_converted(value, unit or last, last, number) for value, unit in split], last


def _split(part: str, number: NumericKey, text: str) -> tuple[float, str]:
    """Number and unit of one value; shop fractions are read as in the file."""
    match = _PLAIN.fullmatch(part)
    if match is None and number.kind == "length":
        try:
            value, tolerance = read(part, "length")
        except QuantityError as error:
            raise UsageError(f"--vary {_shown(text)}: {_shown(part)} {error.problem}; {error.mend}") from None
        unit = unit_of(part, "length")
        if not tolerance and unit:
            return _short(value / units_of("length")[unit].factor), unit
    if match is None or has_tolerance(part):
        raise UsageError(
            f"--vary {_shown(text)}: {_shown(part)} is not a plain number with a unit; {EXAMPLE}"
        )
    value = float(match[1])
    if not math.isfinite(value):
        raise UsageError(f"--vary {_shown(text)}: {_shown(part)} is not a finite number")
    return value, _unit(part, (match[2] or "").strip(), number, text)


def _unit(part: str, written: str, number: NumericKey, text: str) -> str:
    """The unit as the table spells it; empty where none is written."""
    if not written or number.kind is None:
        return written
    kind = number.kind
    if kind == "hardness":
        if written.upper() != number.unit.upper():
            raise UsageError(f"--vary {_shown(text)}: write the hardness in {number.unit}, as in the file")
        return number.unit
    try:
        read(part, cast(Kind, kind))
    except QuantityError as error:
        raise UsageError(f"--vary {_shown(text)}: {_shown(part)} {error.problem}; {error.mend}") from None
    return unit_of(part, cast(Kind, kind))


def _converted(value: float, unit: str, wanted: str, number: NumericKey) -> float:
    """A value in the unit of the last one."""
    if unit == wanted or number.kind is None or number.kind == "hardness":
        return value
    table = units_of(number.kind)
    si = value * table[unit].factor + table[unit].offset
    return _short((si - table[wanted].offset) / table[wanted].factor)


def _short(value: float) -> float:
    """A converted value without the last digits, which are rounding."""
    return float(f"{value:.{DIGITS}g}")
