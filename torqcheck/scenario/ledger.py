"""What had to be assumed, which readings are missing, and what the user must be told."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Literal

from torqcheck.provenance import Mark
from torqcheck.scenario.bands import value_in_band
from torqcheck.units import Kind

__all__ = ["WHOLE_FILE", "Assumption", "Caution", "Ledger", "MissingReading", "Outlook"]

Outlook = Literal["as stated", "favourable"]
"""Which end of an assumed band to use: the assumed value itself, or the end that helps the part."""

WHOLE_FILE = "the whole file"
"""Stands in place of the joint where what is missing concerns every one."""
NOWHERE: Mapping[str, float] = MappingProxyType({})


@dataclass(frozen=True, slots=True, kw_only=True)
class Assumption:
    """A value that the file does not give and the check needs. SI; None where a word stands for it."""

    key: str
    value: float | None
    kind: Kind | None
    word: str = ""
    low: float | None = None
    high: float | None = None
    mark: Mark = "assumed"
    why: str


@dataclass(frozen=True, slots=True)
class MissingReading:
    """A reading without which no pass is given, and how to take it."""

    joint: str
    reading: str
    how: str

    def __str__(self) -> str:
        """One line for the report."""
        return f"{self.joint}: {self.reading} ({self.how})"


@dataclass(frozen=True, slots=True)
class Caution:
    """Something that the user must know beside the numbers."""

    key: str
    text: str


@dataclass(slots=True)
class Ledger:
    """Collects, during one run, what was assumed, what is missing and what to warn about.

    `deviations` moves assumed values: by key, so many standard deviations from the middle of the band.
    """

    outlook: Outlook = "as stated"
    assumptions: list[Assumption] = field(default_factory=list)
    missing: list[MissingReading] = field(default_factory=list)
    cautions: list[Caution] = field(default_factory=list)
    deviations: Mapping[str, float] = field(default_factory=lambda: NOWHERE)

    def assume(
        self,
        key: str,
        value: float,
        kind: Kind | None,
        why: str,
        *,
        band: tuple[float, float] | None = None,
        favourable: float | None = None,
        mark: Mark = "assumed",
    ) -> float:
        """Write an assumption down and return the value to use.

        `favourable` is the end of the band that helps the part; it is returned in that outlook.
        """
        low, high = band if band is not None else (None, None)
        self._add(Assumption(key=key, value=value, kind=kind, low=low, high=high, mark=mark, why=why))
        hoped = self.outlook == "favourable" and favourable is not None
        chosen = favourable if hoped and favourable is not None else value
        if band is None or key not in self.deviations:
            return chosen
        if hoped:
            return value_in_band(chosen, min(chosen, band[0]), max(chosen, band[1]), self.deviations[key])
        return value_in_band(chosen, *band, self.deviations[key])

    def assume_word(self, key: str, word: str, why: str, *, mark: Mark = "assumed") -> str:
        """Write down that a word was assumed, and return it."""
        self._add(Assumption(key=key, value=None, kind=None, word=word, mark=mark, why=why))
        return word

    def band(self, key: str) -> tuple[float, ...]:
        """Ends of the band of an assumed value; nothing if it was not assumed or has no band."""
        for entry in self.assumptions:
            if entry.key == key and entry.low is not None and entry.high is not None:
                return entry.low, entry.high
        return ()

    def miss(self, joint: str, reading: str, how: str) -> None:
        """Write down that a reading is missing, once."""
        entry = MissingReading(joint, reading, how)
        if entry not in self.missing:
            self.missing.append(entry)

    def warn(self, key: str, text: str) -> None:
        """Write a caution down, once."""
        entry = Caution(key, text)
        if entry not in self.cautions:
            self.cautions.append(entry)

    def _add(self, assumption: Assumption) -> None:
        if assumption not in self.assumptions:
            self.assumptions.append(assumption)
