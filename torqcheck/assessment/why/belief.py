"""Whether two equal numbers can be believed to be one number that was carried on."""

import re

__all__ = ["believed", "same", "shared_words"]

SAME = 1e-12
"""Relative difference up to which two numbers are one that was carried on."""
TELLING_DIGITS = 6
_WORD = re.compile(r"[a-z]{3,}")
_JOINING = frozenset({"the", "and", "that", "joint", "with", "for", "from", "toml", "line", "member", "part"})
_SAYS_LITTLE = frozenset(
    {
        *("per", "all", "here", "many", "more", "out", "half", "kind", "places", "notes", "parts"),
        *("factor", "factors", "number", "check", "value", "spline", "shaft", "external", "internal"),
    }
)
"""Words that name so many numbers that sharing one shows nothing; between two origins they may decide."""


def same(one: float, other: float) -> bool:
    """
    Return whether two numbers are equal but for rounding.

    Examples
    --------
    >>> same(0.1 + 0.2, 0.3)
    True
    """
    return abs(one - other) <= SAME * max(abs(one), abs(other))


def shared_words(one: str, other: str, *, telling: bool) -> int:
    """
    Return how many words two phrases share.

    Parameters
    ----------
    one, other : str
        The phrases.
    telling : bool
        Only words that few numbers are called by.

    Examples
    --------
    >>> shared_words("form factor of the internal teeth", "targets.safety_factor = 1.5", telling=True)
    0
    >>> shared_words("number of teeth", "joint[2].size.teeth = 18", telling=True)
    1
    """
    said, heard = (set(_WORD.findall(text.casefold().replace("_", " "))) for text in (one, other))
    return len((said & heard) - (_JOINING | _SAYS_LITTLE if telling else _JOINING))


def believed(value: float, shared: int, *, same_unit: bool = False, at_hand: bool = False) -> bool:
    """
    Return whether a number that equals another is the same one.

    Many digits do not agree by chance. A round number such as 1.5 does: its words have to say the
    same, or the joint itself states a quantity of that unit. Nothing is as common as 0 and 1: there the
    unit has to be known as well, or two words be shared.

    Parameters
    ----------
    value : float
        What both come to.
    shared : int
        Telling words that their meanings share.
    same_unit : bool
        Both units are known and equal.
    at_hand : bool
        The joint that is looked at states it, with a unit.

    Examples
    --------
    >>> believed(1.5, 0)
    False
    >>> believed(149.1914399669205, 0)
    True
    """
    if value in {0.0, 1.0}:
        return shared > (0 if same_unit else 1)
    return shared > 0 or (at_hand and same_unit) or float(f"{value:.{TELLING_DIGITS}g}") != value
