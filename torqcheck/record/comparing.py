"""What changed between two entries of build records: inputs, results, and the lash over all entries."""

import json
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any, TypeAlias

from torqcheck.record.entry import Entry, sha256_of
from torqcheck.record.folder import RecordError, files_of, read_entry, read_log, shown

__all__ = ["RESULT", "SCENARIO", "Change", "Difference", "FactorChange", "LashReading", "difference"]

SCENARIO, RESULT = "scenario.toml", "result.json"
Plain: TypeAlias = Mapping[str, Any]
LEAST = 1e-9
"""Relative change of a factor below which it counts as unchanged."""


@dataclass(frozen=True, slots=True)
class Change:
    """One value before and after; None where it was not there."""

    key: str
    before: str | None
    after: str | None


@dataclass(frozen=True, slots=True)
class FactorChange:
    """Safety factor of one check before and after; None where the check was not made or nothing loads it."""

    joint: str
    check: str
    method: str
    before: float | None
    after: float | None


@dataclass(frozen=True, slots=True)
class LashReading:
    """The lash of one joint as one entry has it, m along the pitch circle and rad."""

    entry: str
    date: str
    joint: str
    clearance: float | None
    angle: float


@dataclass(frozen=True, slots=True)
class Difference:
    """
    Two entries side by side.

    Parameters
    ----------
    before, after : Entry
        The entries.
    inputs : tuple of Change
        Keys of the scenario file.
    results : tuple of Change
        Verdicts and what else is said in words.
    factors : tuple of FactorChange
        Safety factors that are not what they were, the lowest first.
    lash : tuple of LashReading
        Over all entries of the record of `after`, oldest first.
    """

    before: Entry
    after: Entry
    inputs: tuple[Change, ...]
    results: tuple[Change, ...]
    factors: tuple[FactorChange, ...]
    lash: tuple[LashReading, ...]

    def to_dict(self) -> dict[str, Any]:
        """Return it as plain data."""
        return {
            "format": 1,
            "before": self.before.to_dict() | {"hash": self.before.hash},
            "after": self.after.to_dict() | {"hash": self.after.hash},
            "inputs": [asdict(change) for change in self.inputs],
            "results": [asdict(change) for change in self.results],
            "safety_factors": [asdict(change) for change in self.factors],
            "lash": [
                {
                    "entry": reading.entry,
                    "date": reading.date,
                    "joint": reading.joint,
                    "clearance_mm": None if reading.clearance is None else reading.clearance * 1e3,
                    "angle_rad": reading.angle,
                }
                for reading in self.lash
            ],
        }


def difference(before: Path, after: Path) -> Difference:
    """
    Compare two entries.

    Parameters
    ----------
    before, after : Path
        Entries such as ``record/0001``, of one record or of two; a record stands for its newest entry.

    Raises
    ------
    RecordError
        If one of them is no entry, or its files are not what was recorded.
    """
    first_folder, first = read_entry(before)
    folder, second = read_entry(after)
    old, new = (_result(place, entry) for place, entry in ((first_folder, first), (folder, second)))
    inputs = _changes(_inputs(first_folder, first), _inputs(folder, second))
    return Difference(
        first,
        second,
        inputs,
        _changes(_words(old), _words(new)),
        _factor_changes(_factors(old), _factors(new)),
        tuple(_lash(folder, second)),
    )


def _content(folder: Path, entry: Entry, name: str) -> bytes:
    """Bytes of one file of an entry, if they are what was recorded."""
    place = files_of(folder, entry.folder)
    try:
        content = b"" if place is None else (place / name).read_bytes()
    except OSError:
        content = b""
    if sha256_of(content) != entry.files.get(name):
        where = shown(folder / entry.folder / name)
        raise RecordError(f"{where}: is not what was recorded; run torqcheck record verify")
    return content


def _result(folder: Path, entry: Entry) -> Plain:
    content = _content(folder, entry, RESULT)
    try:
        found = json.loads(content)
    except (ValueError, RecursionError):
        found = None
    return found if isinstance(found, dict) else {}


def _inputs(folder: Path, entry: Entry) -> dict[str, str]:
    """Every value of the scenario file by its key; joints and spells by their names."""
    content = _content(folder, entry, SCENARIO)
    try:
        document = tomllib.loads(content.decode("utf-8-sig"))
    except (ValueError, RecursionError):
        raise RecordError(f"{shown(folder / entry.folder / SCENARIO)}: is no scenario") from None
    values = dict(_flat(document, ""))
    others = sorted(entry.files.keys() - {SCENARIO, RESULT, "sheet.txt", "sheet.html"})
    values |= {f"file {name}": f"sha256 {entry.files[name][:12]}" for name in others}
    values["torqcheck version"] = entry.torqcheck
    values["shipped tables"] = f"sha256 {entry.tables[:12]}"
    return values


def _flat(value: Any, key: str) -> Iterator[tuple[str, str]]:
    """Walk a document; an entry of a list goes by its name where it has one."""
    if isinstance(value, dict):
        for name, inner in value.items():
            yield from _flat(inner, f"{key}.{name}" if key else name)
    elif isinstance(value, list) and any(isinstance(item, dict) for item in value):
        names = [str(item.get("name", "")) if isinstance(item, dict) else "" for item in value]
        for index, (item, name) in enumerate(zip(value, names, strict=True)):
            own = name if name and names.count(name) == 1 else str(index + 1)
            yield from _flat(item, f"{key}[{own}]")
    else:
        yield key, _text(value)


def _text(value: Any) -> str:
    """A value as the file writes it."""
    if isinstance(value, bool):
        return str(value).lower()
    return f'"{value}"' if isinstance(value, str) else str(value)


def _changes(old: Mapping[str, str], new: Mapping[str, str]) -> tuple[Change, ...]:
    """What is not the same, in the order of the newer one; what is gone stands behind."""
    keys = [*new, *(key for key in old if key not in new)]
    return tuple(Change(key, old.get(key), new.get(key)) for key in keys if old.get(key) != new.get(key))


def _words(result: Plain) -> dict[str, str]:
    """What a result says in words."""
    weakest = result.get("weakest") or {}
    found = {"verdict": str(result.get("verdict")), "weakest link": _link(weakest)}
    missing = [f"{entry.get('joint')}: {entry.get('reading')}" for entry in result.get("undecided_by", [])]
    found["readings missing"] = "; ".join(missing) or "none"
    for joint in result.get("joints", []):
        name = joint.get("name")
        found[f"{name}: verdict"] = str(joint.get("verdict"))
        if joint.get("mate"):
            found[f"{name}: mate"] = str(joint["mate"].get("verdict"))
        found[f"{name}: blow"] = _number(joint.get("peak_torque_Nm"), "N m")
        hours = (joint.get("wear") or {}).get("life_hours") or {}
        if hours:
            found[f"{name}: wear life, middle"] = _number(hours.get("p50"), "h")
            found[f"{name}: wear life, 1 in 10"] = _number(hours.get("p10"), "h")
    return found


def _link(weakest: Plain) -> str:
    """The weakest link in words."""
    return f"{weakest['joint']}, {weakest['check']}" if weakest else "none"


def _number(value: Any, unit: str) -> str:
    """Three digits and a unit."""
    return f"{value:.3g} {unit}" if isinstance(value, int | float) else "none"


def _factors(result: Plain) -> dict[tuple[str, str, str], float | None]:
    """Safety factors by joint, check and method; the lowest where a check is made in several members."""
    found: dict[tuple[str, str, str], float | None] = {}
    for joint in result.get("joints", []):
        for check in joint.get("checks", []):
            key = str(joint.get("name")), str(check.get("name")), str(check.get("method"))
            factor, known = check.get("safety_factor"), found.get(key)
            found[key] = factor if known is None or (factor is not None and factor < known) else known
    return found


def _factor_changes(
    old: Mapping[tuple[str, str, str], float | None], new: Mapping[tuple[str, str, str], float | None]
) -> tuple[FactorChange, ...]:
    """Checks whose factor changed, the lowest of today first; before them what came or went."""
    keys = [*new, *(key for key in old if key not in new)]
    changes = [FactorChange(*key, old.get(key), new.get(key)) for key in keys]
    return tuple(sorted((c for c in changes if _step(c) > LEAST), key=_today))


def _today(change: FactorChange) -> float:
    """Factor to sort by."""
    if change.before is None or change.after is None:
        return 0.0
    return change.after


def _step(change: FactorChange) -> float:
    """How much a factor changed, as a share; infinite where there was none or is none any more."""
    if change.before is None or change.after is None:
        return 0.0 if change.before is change.after else float("inf")
    return abs(change.after / change.before - 1.0)


def _lash(folder: Path, last: Entry) -> Iterator[LashReading]:
    """The lash of every joint in every entry up to the last."""
    for entry in read_log(folder):
        if entry.number > last.number:
            return
        try:
            result = _result(folder, entry)
        except RecordError:
            continue
        for joint in result.get("joints", []):
            if joint.get("lash_rad") is None:
                continue
            read = ((joint.get("mate") or {}).get("lash") or {}).get("clearance_mm")
            clearance = None if read is None else read * 1e-3
            date = entry.date or entry.written[:10]
            yield LashReading(entry.folder, date, str(joint["name"]), clearance, joint["lash_rad"])
