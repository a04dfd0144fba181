"""The steel tables that a scenario names besides the shipped one, and the steels that it asks for."""

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from torqcheck.errors import Fault, TableError
from torqcheck.materials import Steel, load_own_table, steel, steels
from torqcheck.scenario.faults import written_text
from torqcheck.scenario.kinds import KINDS
from torqcheck.scenario.schema import Materials

__all__ = ["Library", "own_tables", "steel_faults"]

Library = tuple[Mapping[str, Steel], ...]


def own_tables(materials: Materials, scenario: Path, faults: list[Fault]) -> Library | None:
    """Load the tables that a scenario names; append the faults of those that cannot be used.

    None if any cannot: which steels are known cannot be said then.
    """
    before = len(faults)
    tables: list[Mapping[str, Steel]] = []
    for index, text in enumerate(materials.tables):
        try:
            table = load_own_table(_beside(scenario, text))
            steels([*tables, table])
            tables.append(table)
        except TableError as error:
            key = f"materials.tables[{index + 1}]"
            faults += [
                Fault(scenario.name, key, written_text(text), f"cannot be used: {line}", "")
                for line in str(error).splitlines()
            ]
    return tuple(tables) if len(faults) == before else None


def _beside(scenario: Path, text: str) -> Path:
    """Tables lie beside the scenario; a path that leaves its folder is not followed."""
    path = Path(text)
    if path.is_absolute() or ".." in path.parts or "\0" in text or not text.strip():
        raise TableError("a table lies in the folder of the scenario or below it; name it from there")
    return scenario.parent / path


def steel_faults(joints: Any, tables: Library, name: str) -> list[Fault]:
    """
    Return a fault for every steel that is in no table.

    Works on the joints as written, so that it speaks even where a joint has other faults.
    """
    faults = []
    for index, joint in enumerate(joints if isinstance(joints, list) else []):
        for key, text in _named(joint):
            try:
                if text.strip().lower() != "unknown":
                    steel(text, tables)
            except TableError as error:
                place = f"joint[{index + 1}].{key}"
                faults.append(
                    Fault(name, place, written_text(text), f"cannot be used: {error}", 'or write "unknown"')
                )
    return faults


def _named(joint: Any) -> Iterator[tuple[str, str]]:
    """Yield the key and the text of every steel that a joint of a known kind names."""
    kind = joint.get("kind") if isinstance(joint, Mapping) else None
    if not isinstance(kind, str) or kind not in KINDS:
        return
    parts = [("", joint), *((f"{key}.", part) for key, part in joint.items() if isinstance(part, Mapping))]
    for key, part in parts:
        text = part.get("steel")
        if isinstance(text, str):
            yield f"{key}steel", text
