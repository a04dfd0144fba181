"""On which line of a scenario file a value stands."""

import re

from torqcheck.scenario.edits import Place

__all__ = ["line_of"]

_HEADER = re.compile(r"\s*(\[\[?)\s*([A-Za-z0-9_.\- ]+?)\s*\]\]?\s*(?:#.*)?")
_KEY = re.compile(r"\s*([A-Za-z0-9_.\-]+)\s*=")


def line_of(text: str, place: Place) -> int | None:
    """
    Return the line, counted from 1, on which the value at a place stands; None if it is not found.

    Tables that are written in one line, such as ``tilt = { angle = "0.1 deg" }``, count as one line.

    Parameters
    ----------
    text : str
        The file.
    place : tuple
        Names, and positions in lists from 0 on.
    """
    counts: dict[tuple[str, ...], int] = {}
    prefix: Place = ()
    best, line_found = 0, None
    for number, line in enumerate(text.splitlines(), start=1):
        header = _HEADER.fullmatch(line)
        if header is not None:
            prefix = _prefix(header[1] == "[[", tuple(header[2].replace(" ", "").split(".")), counts)
            continue
        key = _KEY.match(line)
        if key is None:
            continue
        here = (*prefix, *key[1].split("."))
        if here == place[: len(here)] and len(here) > best:
            best, line_found = len(here), number
    return line_found


def _prefix(listed: bool, names: tuple[str, ...], counts: dict[tuple[str, ...], int]) -> Place:
    """Place of the table that a header opens; lists of tables are counted on the way."""
    if listed:
        counts[names] = counts.get(names, -1) + 1
        for other in [known for known in counts if known[: len(names)] == names and known != names]:
            del counts[other]
    place: list[str | int] = []
    for depth, name in enumerate(names, start=1):
        place.append(name)
        if names[:depth] in counts:
            place.append(counts[names[:depth]])
    return tuple(place)
