"""Sizes and strengths of bolts and screws, and how the torque of a wrench becomes preload: by table."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from typing import Literal

from torqcheck.errors import DomainError
from torqcheck.materials.tables import Row, number, source, table
from torqcheck.provenance import Source

__all__ = [
    "BoltStrength",
    "NutFactor",
    "Scatter",
    "Thread",
    "bolt_strength",
    "bolt_strengths",
    "lubrications",
    "nut_factor",
    "preload_scatter",
    "thread",
    "threads",
    "tightening_methods",
]

INCH = 0.0254
KSI = 6.894757293168361e6
_CLASS = re.compile(r"(?:class|property class|iso)?\s*(\d{1,2}\.\d)")
_GRADE = re.compile(r"(?:grade|sae|sae grade|gr\.?)?\s*(\d)")
_FINE = re.compile(r"m(\d+)x(\d+(?:\.\d+)?)")
FINEST = 0.3
"""A pitch below this share of the coarse one is a slip of the pen."""
_SOCKET = re.compile(r"(?:astm\s*)?a\s*574")


@dataclass(frozen=True, slots=True)
class Thread:
    """
    One size of bolt.

    Parameters
    ----------
    size : str
        As in the table: M10, 3/8-16.
    system : str
        "metric" or "inch": which coefficients its areas have, and which strengths.
    diameter, pitch : float, m
        Nominal diameter, and pitch of the thread.
    source : Source
        Where the row stands.
    """

    size: str
    system: Literal["metric", "inch"]
    diameter: float
    pitch: float
    source: Source


@dataclass(frozen=True, slots=True)
class BoltStrength:
    """Strengths of one class or grade in one range of sizes, Pa."""

    name: str
    proof: float
    yield_strength: float
    tensile: float
    note: str
    source: Source


@dataclass(frozen=True, slots=True)
class NutFactor:
    """
    Nut factor K of T = K F d by the lubrication, and what other works print for it.

    `state` is what the scatter of the preload goes by: dry, cadmium or lubricated.
    """

    lubrication: str
    factor: float
    state: str
    note: str
    source: Source
    others: tuple[tuple[float, Source], ...]


@dataclass(frozen=True, slots=True)
class Scatter:
    """How far the preload may lie from what was meant, either way, as a share of it."""

    method: str
    share: float
    note: str
    source: Source


@cache
def threads() -> tuple[Thread, ...]:
    """Return all sizes, metric ones first."""
    metric = tuple(
        Thread(row["size"], "metric", diameter * 1e-3, pitch * 1e-3, source(row))
        for row, (diameter, pitch) in zip(table("metric_threads"), _coarse(), strict=True)
    )
    inch = tuple(
        Thread(
            row["size"],
            "inch",
            number(row, "diameter_in", INCH),
            INCH / number(row, "threads_per_inch"),
            source(row),
        )
        for row in table("inch_threads")
    )
    return metric + inch


def thread(size: str) -> Thread:
    """
    Return one size of bolt by its name.

    Parameters
    ----------
    size : str
        Metric ("M10", with a fine pitch "M10x1.25") or inch with threads per inch ("3/8-16"); case and
        spaces are free.

    Raises
    ------
    DomainError
        If the tables have no such size.

    Examples
    --------
    >>> print(f"{thread('M10').pitch * 1e3:g} mm")
    1.5 mm
    """
    wanted = _plain(size)
    for entry in threads():
        if _plain(entry.size) == wanted:
            return entry
    if fine := _fine(wanted):
        return fine
    start = wanted.partition("-")[0]
    near = [entry.size for entry in threads() if "-" in entry.size and entry.size.partition("-")[0] == start]
    metric = [entry.size for entry in threads() if entry.system == "metric"]
    known = ", ".join(near) if near else f"{', '.join(metric)}, and inch sizes such as 3/8-16 and 3/8-24"
    raise DomainError(f"{size!r} is no size of the tables of threads; they have {known}")


def _plain(size: str) -> str:
    """A size without what people write in different ways: M10x1.5 is the coarse M10."""
    bare = re.sub(r'[\s"]|in|unc|unf', "", size.strip().lower()).replace("\u00d7", "x")
    coarse = {f"m{diameter:g}x{pitch:g}": f"m{diameter:g}" for diameter, pitch in _coarse()}
    return coarse.get(bare, bare)


def _fine(wanted: str) -> Thread | None:
    """A metric size with a pitch finer than the coarse one, which its name states."""
    written = _FINE.fullmatch(wanted)
    if written is None:
        return None
    diameter, pitch = float(written[1]), float(written[2])
    coarse = dict(_coarse()).get(diameter)
    if coarse is None or not FINEST * coarse <= pitch < coarse:
        return None
    name = f"M{diameter:g}x{pitch:g}"
    return Thread(
        name, "metric", diameter * 1e-3, pitch * 1e-3, Source("Pitch as the size says", "", "measured")
    )


@cache
def _coarse() -> tuple[tuple[float, float], ...]:
    return tuple((number(row, "diameter_mm"), number(row, "pitch_mm")) for row in table("metric_threads"))


def bolt_strengths(system: Literal["metric", "inch"]) -> tuple[str, ...]:
    """
    Return the names of the classes or grades that one system of threads has.

    Parameters
    ----------
    system : str
        metric or inch.
    """
    rows = table("metric_bolt_classes") if system == "metric" else table("inch_bolt_grades")
    return tuple(dict.fromkeys(row["class" if system == "metric" else "grade"] for row in rows))


def bolt_strength(name: str, of: Thread) -> BoltStrength:
    """
    Return the strengths of a class or grade at one size.

    Parameters
    ----------
    name : str
        "8.8", "class 10.9" for metric threads; "grade 5", "a574" for inch threads.
    of : Thread
        The size; strengths differ between sizes.

    Raises
    ------
    DomainError
        If there is no such class or grade, or not in this size, or it goes with the other threads.

    Examples
    --------
    >>> print(f"{bolt_strength('8.8', thread('M20')).proof / 1e6:.0f} MPa")
    600 MPa
    """
    wanted = _strength_name(name)
    known = bolt_strengths(of.system)
    if wanted not in known:
        other: Literal["metric", "inch"] = "inch" if of.system == "metric" else "metric"
        if wanted in bolt_strengths(other):
            kind = "an inch" if other == "inch" else "a metric"
            raise DomainError(f"{name!r} is {kind} strength and {of.size} a thread of the other system")
        raise DomainError(f"{name!r} is no strength of bolts; {of.size} has {', '.join(known)}")
    for row in _strength_rows(wanted, of):
        return row
    raise DomainError(f"no strengths are tabled for {wanted} in the size {of.size}")


def _strength_name(name: str) -> str:
    bare = " ".join(name.strip().lower().split())
    if found := _CLASS.fullmatch(bare):
        return found[1]
    if found := _GRADE.fullmatch(bare):
        return f"grade {found[1]}"
    return "a574" if _SOCKET.fullmatch(bare) else bare


def _strength_rows(name: str, of: Thread) -> Iterable[BoltStrength]:
    """Rows that hold for the size, at most one."""
    near = 1e-9
    if of.system == "metric":
        for row in table("metric_bolt_classes"):
            low, high = number(row, "over_mm", 1e-3), number(row, "to_mm", 1e-3)
            if row["class"] == name and low + near < of.diameter <= high + near:
                yield _strength(row, name, "MPa", 1e6)
    else:
        for row in table("inch_bolt_grades"):
            low, high = number(row, "from_in", INCH), number(row, "to_in", INCH)
            if row["grade"] == name and low - near <= of.diameter <= high + near:
                yield _strength(row, name, "ksi", KSI)


def _strength(row: Row, name: str, unit: str, scale: float) -> BoltStrength:
    proof, yield_strength, tensile = (
        number(row, f"{column}_{unit}", scale) for column in ("proof", "yield", "tensile")
    )
    return BoltStrength(name, proof, yield_strength, tensile, row["note"], source(row))


@cache
def lubrications() -> tuple[str, ...]:
    """Return the lubrications of threads that the table of nut factors knows."""
    return tuple(dict.fromkeys(row["lubrication"] for row in table("nut_factors")))


def nut_factor(lubrication: str) -> NutFactor:
    """
    Return the nut factor of a lubrication, with the other values that works print for it.

    Parameters
    ----------
    lubrication : str
        As in the table: see ``lubrications``.

    Raises
    ------
    DomainError
        If the table has no such lubrication.
    """
    rows = [row for row in table("nut_factors") if row["lubrication"] == lubrication]
    if not rows:
        known = "; ".join(lubrications())
        raise DomainError(f"no nut factor is tabled for threads {lubrication!r}; it has {known}")
    (taken,) = (row for row in rows if row["use"] == "taken")
    return NutFactor(
        lubrication,
        number(taken, "nut_factor"),
        taken["state"],
        taken["note"],
        source(taken),
        tuple((number(row, "nut_factor"), source(row)) for row in rows if row is not taken),
    )


@cache
def tightening_methods() -> tuple[str, ...]:
    """Return the ways of tightening that the table of scatter knows."""
    return tuple(dict.fromkeys(row["method"] for row in table("preload_scatter")))


def preload_scatter(method: str, state: str = "dry") -> Scatter:
    """
    Return how far the preload scatters by the method of tightening.

    Parameters
    ----------
    method : str
        feel, torque wrench, turn of nut ...
    state : str, optional
        Of the threads: dry, cadmium or lubricated; only the torque wrench asks for it.

    Raises
    ------
    DomainError
        If the table has no such method or state.
    """
    rows = [row for row in table("preload_scatter") if row["method"] == method and row["use"] == "taken"]
    for row in rows:
        if row["state"] in {state, "any"}:
            return Scatter(method, number(row, "scatter"), row["note"], source(row))
    known = "; ".join(tightening_methods())
    raise DomainError(f"no scatter is tabled for {method!r} with {state!r} threads; it has {known}")
