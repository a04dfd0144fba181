"""Rows of the steel tables that hold what somebody types."""

from dataclasses import dataclass

from torqcheck.materials import Steel, steels
from torqcheck.materials.steels import plain_name

__all__ = ["SteelRow", "matching_steels"]


@dataclass(frozen=True, slots=True)
class SteelRow:
    """One steel to choose: its name, its treatment, its hardness."""

    id: str
    says: str


def matching_steels(text: str) -> tuple[SteelRow, ...]:
    """
    Return the steels whose name, grade or treatment holds every word of a text.

    Examples
    --------
    >>> [row.id for row in matching_steels("4140 ind")]
    ['4140_ind']
    """
    words = [plain_name(word) for word in text.split() if plain_name(word)]
    found = [row for row in steels().values() if not row.reference_only and words and _holds(row, words)]
    return tuple(SteelRow(row.id, _says(row)) for row in found)


def _holds(row: Steel, words: list[str]) -> bool:
    everything = plain_name(f"{row.id} {row.grade} {row.condition}")
    return all(word in everything for word in words)


def _says(row: Steel) -> str:
    """Treatment, hardness and section of a row."""
    core = dict.fromkeys((f"{row.core_hardness_min:g}", f"{row.core_hardness_max:g}"))
    says = f"{row.condition}, core {' to '.join(core)} HB"
    if row.surface_hardness_min is not None:
        says += f", surface {row.surface_hardness_min:g} HRC or more"
    if row.section_max is not None:
        says += f", up to {row.section_max * 1e3:g} mm"
    return says
