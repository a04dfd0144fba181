"""Sizes of parallel and Woodruff keys by shaft diameter, from the tables. SI."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from typing import Literal, TypeVar

from torqcheck.errors import DomainError
from torqcheck.materials.tables import Row, mark, number, source, table
from torqcheck.provenance import Mark, Source

__all__ = [
    "KEY_STANDARDS",
    "KeyFit",
    "KeySize",
    "KeyStandard",
    "WoodruffKey",
    "key_fit",
    "key_for_shaft",
    "key_of_size",
    "key_sizes",
    "woodruff_key",
    "woodruff_shafts",
]

KeyStandard = Literal["din 6885", "ansi b17.1"]
Section = Literal["square", "flat"]
Key = TypeVar("Key", "KeySize", "WoodruffKey")

KEY_STANDARDS: tuple[KeyStandard, ...] = ("din 6885", "ansi b17.1")
_MILLIMETRE, _INCH = 1e-3, 0.0254
_ROUNDING = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class KeySize:
    """
    One parallel key of a standard, m.

    Parameters
    ----------
    standard : str
        Of which list.
    size : str
        Width by height, as the table names it.
    section : str
        ``square`` or ``flat`` of the inch series; empty in the metric one.
    shaft_over, shaft_to : float
        Shafts that it is meant for, above the first and up to the second.
    width, height : float
        Of its section.
    shaft_depth, hub_depth : float
        Depth of the keyway at its side; the hub has more than its share, so that the key is free on top.
        None where the table does not say.
    chamfer : tuple of float, optional
        Least and greatest chamfer of the edges of the key.
    chamfer_mark : str
        How that is known.
    source : Source
        Where the row stands.
    """

    standard: KeyStandard
    size: str
    section: str
    shaft_over: float
    shaft_to: float
    width: float
    height: float
    shaft_depth: float
    hub_depth: float | None
    chamfer: tuple[float, float] | None
    chamfer_mark: Mark
    source: Source

    def suits(self, shaft_diameter: float) -> bool:
        """Whether the table has this key for the shaft."""
        return self.shaft_over + _ROUNDING < shaft_diameter <= self.shaft_to + _ROUNDING


@dataclass(frozen=True, slots=True, kw_only=True)
class WoodruffKey:
    """One Woodruff key, m: a disc with a flat top in a round seat of the shaft."""

    size: str
    width: float
    disc_diameter: float
    height: float
    shaft_depth: float
    hub_depth: float
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyFit:
    """Width fit of a key: tolerance zones of the keyways in shaft and hub."""

    fit: str
    shaft_seat: str
    hub_seat: str
    note: str
    source: Source


@cache
def key_sizes(standard: KeyStandard) -> tuple[KeySize, ...]:
    """Return the keys of one standard, the smallest first."""
    if standard == "din 6885":
        return tuple(_metric(row) for row in table("keys_din_6885"))
    if standard == "ansi b17.1":
        return tuple(_inch(row) for row in table("keys_ansi_b17_1"))
    raise DomainError(f"{standard!r} is no standard of keys; they are {', '.join(KEY_STANDARDS)}")


def key_for_shaft(standard: KeyStandard, shaft_diameter: float, section: Section = "square") -> KeySize:
    """
    Return the key that a standard has for a shaft.

    Parameters
    ----------
    standard : str
        ``din 6885`` or ``ansi b17.1``.
    shaft_diameter : float, m
        Of the shaft in the hub.
    section : str, optional
        ``square`` or ``flat``, of the inch series.

    Raises
    ------
    DomainError
        If the table has no key for the shaft; says which shafts it has.

    Examples
    --------
    >>> key_for_shaft("din 6885", 0.028).size
    '8x7'
    >>> key_for_shaft("ansi b17.1", 1.125 * 0.0254, "flat").size
    '1/4x3/16'
    """
    sizes = [size for size in key_sizes(standard) if size.section in {"", section}]
    for size in sizes:
        if size.suits(shaft_diameter):
            return size
    unit, name = (_MILLIMETRE, "mm") if standard == "din 6885" else (_INCH, "in")
    ends = f"above {sizes[0].shaft_over / unit:g} and up to {sizes[-1].shaft_to / unit:g} {name}"
    raise DomainError(f"the table of {standard} has keys for shafts {ends}")


def key_of_size(standard: KeyStandard, size: str) -> KeySize:
    """
    Return a key by its size, width by height: "8x7", "1/4 x 3/16".

    Parameters
    ----------
    standard : str
        Of which list.
    size : str
        As one writes it.

    Raises
    ------
    DomainError
        If the table has no such key; names those that it has.
    """
    return _named(key_sizes(standard), size, standard)


def woodruff_key(size: str) -> WoodruffKey:
    """
    Return a Woodruff key by its size, width by diameter of the disc: "3/16x3/4".

    Parameters
    ----------
    size : str
        As one writes it.

    Raises
    ------
    DomainError
        If the table has no such key; names those that it has.
    """
    return _named(_woodruff_keys(), size, "Woodruff keys")


def woodruff_shafts(width: float) -> tuple[float, float] | None:
    """
    Return the least and the largest shaft that a Woodruff key of a width suits, m; None if unknown.

    Parameters
    ----------
    width : float, m
        Of the key.
    """
    for row in table("woodruff_shafts"):
        if abs(number(row, "width_in", _INCH) - width) < _ROUNDING:
            return number(row, "shaft_least_in", _INCH), number(row, "shaft_most_in", _INCH)
    return None


def key_fit(fit: str) -> KeyFit:
    """
    Return a width fit: tight, normal or sliding.

    Parameters
    ----------
    fit : str
        One of the three.

    Raises
    ------
    DomainError
        If the table has no such fit; names those that it has.
    """
    for row in table("key_fits"):
        if row["fit"] == fit:
            return KeyFit(
                fit=fit,
                shaft_seat=row["shaft_seat"],
                hub_seat=row["hub_seat"],
                note=row["note"],
                source=source(row),
            )
    raise DomainError(f"{fit!r} is no fit of a key; they are {_listed(r['fit'] for r in table('key_fits'))}")


def _named(keys: tuple[Key, ...], size: str, what: str) -> Key:
    wanted = _plain(size)
    for key in keys:
        if key.size == wanted:
            return key
    raise DomainError(f"the table of {what} has no {size.strip()!r}; it has {_listed(k.size for k in keys)}")


def _plain(size: str) -> str:
    """A size as the tables write it: no spaces, no unit, x between."""
    return re.sub(r"\s+|mm|in|\"", "", size.lower().replace("\u00d7", "x").replace("*", "x"))


def _listed(words: Iterable[str]) -> str:
    return ", ".join(dict.fromkeys(words))


def _metric(row: Row) -> KeySize:
    return KeySize(
        standard="din 6885",
        size=row["size"],
        section="",
        shaft_over=number(row, "shaft_over_mm", _MILLIMETRE),
        shaft_to=number(row, "shaft_to_mm", _MILLIMETRE),
        width=number(row, "width_mm", _MILLIMETRE),
        height=number(row, "height_mm", _MILLIMETRE),
        shaft_depth=number(row, "shaft_depth_mm", _MILLIMETRE),
        hub_depth=number(row, "hub_depth_mm", _MILLIMETRE),
        chamfer=(
            number(row, "chamfer_least_mm", _MILLIMETRE),
            number(row, "chamfer_most_mm", _MILLIMETRE),
        ),
        chamfer_mark=mark(row["chamfer_mark"]),
        source=source(row),
    )


def _inch(row: Row) -> KeySize:
    return KeySize(
        standard="ansi b17.1",
        size=row["size"],
        section=row["section"],
        shaft_over=number(row, "shaft_over_in", _INCH),
        shaft_to=number(row, "shaft_to_in", _INCH),
        width=number(row, "width_in", _INCH),
        height=number(row, "height_in", _INCH),
        shaft_depth=number(row, "shaft_depth_in", _INCH),
        hub_depth=None,
        chamfer=None,
        chamfer_mark="assumed",
        source=source(row),
    )


@cache
def _woodruff_keys() -> tuple[WoodruffKey, ...]:
    return tuple(
        WoodruffKey(
            size=row["size"],
            width=number(row, "width_in", _INCH),
            disc_diameter=number(row, "disc_diameter_in", _INCH),
            height=number(row, "height_in", _INCH),
            shaft_depth=number(row, "shaft_depth_in", _INCH),
            hub_depth=number(row, "hub_depth_in", _INCH),
            source=source(row),
        )
        for row in table("woodruff_keys")
    )
