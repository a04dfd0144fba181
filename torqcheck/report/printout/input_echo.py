"""The scenario file said back: every value by its key as it is written, and beside it what was assumed."""

import datetime
from collections.abc import Iterator, Mapping
from typing import Any

from torqcheck.report.build import assumption_value
from torqcheck.report.sheet import Column, Table
from torqcheck.scenario import Scenario
from torqcheck.scenario.edits import Place, numeric_keys
from torqcheck.scenario.faults import key_text
from torqcheck.scenario.ledger import Assumption
from torqcheck.units import System

__all__ = ["input_tables"]

MEASURED, WRITTEN = "measured", "as written"
REST = "the whole path"
LEGEND = (
    "Measured: a quantity with its unit, as it is written in the file. As written: a name, a word, a count "
    "or a plain number of the file. Any other mark stands at a value that is not in the file, or behind a "
    "word that had to be taken for something; its reason stands under Assumptions."
)


def input_tables(
    scenario: Scenario, assumptions: tuple[Assumption, ...], systems: tuple[System, ...]
) -> tuple[Table, ...]:
    """
    Return a table for each block of the file, and for each joint its own.

    Parameters
    ----------
    scenario : Scenario
        As it was read.
    assumptions : tuple of Assumption
        What the ledger holds; each stands in the block that its key names.
    systems : tuple of str
        Units of what was assumed.
    """
    numbers = {number.place for number in numeric_keys(scenario) if number.kind is not None}
    blocks: dict[str, list[tuple[str, str, str]]] = {}
    for place, written in _leaves(scenario.document, ()):
        known = any(number[: len(place)] == place for number in numbers)
        row = (key_text(place), _text(written), MEASURED if known else WRITTEN)
        blocks.setdefault(_block(place), []).append(row)
    for entry in assumptions:
        head = next((block for block in blocks if _belongs(entry.key, block)), REST)
        _add(blocks.setdefault(head, []), (entry.key, assumption_value(entry, systems), entry.mark))
    names = {key_text(("joint", i)): getattr(joint, "name", "") for i, joint in enumerate(scenario.joint)}
    columns = (Column("Key"), Column("Value", width=28), Column("How known"))
    tables = [
        Table(f"Input: {block}{f', {names[block]}' if names.get(block) else ''}", columns, tuple(rows))
        for block, rows in blocks.items()
    ]
    last = tables[-1]
    return (*tables[:-1], Table(last.title, last.columns, last.rows, legend=LEGEND))


def _add(rows: list[tuple[str, str, str]], assumed: tuple[str, str, str]) -> None:
    """Add what was assumed; where the file has that key, to its row: it says what the word stands for."""
    key, value, mark = assumed
    for index, (known, written, how) in enumerate(rows):
        if known == key:
            both = value if value.startswith(written) else f"{written}; {value}"
            rows[index] = (key, both, f"{how}, {mark}")
            return
    rows.append(assumed)


def _leaves(written: Any, place: Place) -> Iterator[tuple[Place, Any]]:
    """Every value of the file with its place; a list of plain values is one, an empty table has none."""
    if isinstance(written, Mapping):
        for key, inner in written.items():
            yield from _leaves(inner, (*place, key))
    elif isinstance(written, list) and any(isinstance(item, Mapping) for item in written):
        for index, inner in enumerate(written):
            yield from _leaves(inner, (*place, index))
    else:
        yield place, written


def _block(place: Place) -> str:
    """The block of a value: each joint is one, everything else goes by its first key."""
    if len(place) == 1:
        return "file"
    return key_text(place[:2]) if place[0] == "joint" else str(place[0])


def _belongs(key: str, block: str) -> bool:
    return key == block or key.startswith((f"{block}.", f"{block}["))


def _text(written: Any) -> str:
    """A value on one line, as the file has it."""
    if isinstance(written, bool):
        return "true" if written else "false"
    if isinstance(written, str):
        return (
            "(empty)" if not written else written.replace("\\", "\\\\").replace("\r", "").replace("\n", "\\n")
        )
    if isinstance(written, list):
        return f"[{', '.join(_text(item) for item in written)}]"
    if isinstance(written, datetime.date | datetime.time):
        return written.isoformat()
    return str(written)
