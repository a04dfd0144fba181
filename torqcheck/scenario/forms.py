"""Rules on which keys go together: the small change of every block of a scenario file."""

from collections.abc import Mapping, Sequence
from typing import Any, TypeAlias

__all__ = ["LASH_FORMS", "Rule", "below", "one_form", "together"]

Rule: TypeAlias = tuple[str, str, str]
"""Key relative to the block, problem, mend."""

LASH_FORMS = (("clearance",), ("travel", "radius"), ("angle",))


def below(place: str, rules: list[Rule]) -> list[Rule]:
    """Rules of an inner table, with their keys as seen from the block."""
    return [(f"{place}.{key}", problem, mend) for key, problem, mend in rules]


def together(written: Mapping[str, Any], keys: Sequence[str]) -> list[Rule]:
    """Keys that only make sense together."""
    present = [key for key in keys if key in written]
    absent = [key for key in keys if key not in written]
    if present and absent:
        return [(absent[0], f"is missing beside {present[0]}", f"give {' and '.join(keys)} together")]
    return []


def one_form(
    written: Mapping[str, Any],
    forms: Sequence[tuple[str, ...]],
    shown: Sequence[tuple[str, ...]] = (),
    shared: Sequence[str] = (),
) -> list[Rule]:
    """One of several ways to give a reading, complete, and nothing of another.

    `shown` are those to name, where they are more; `shared` are keys that mean something beside each.
    """
    choices = " | ".join(" + ".join(form) for form in shown or forms)
    used = [form for form in forms if form[0] in written]
    if not used:
        started = [form for form in forms if any(key in written for key in form)]
        key = started[0][0] if started else forms[0][0]
        return [(key, "is missing", f"give one of: {choices}")]
    if len(used) > 1:
        return [(used[1][0], f"contradicts {used[0][0]}", f"give one of: {choices}")]
    strays = [
        (key, f"only goes with {form[0]}", f"leave it out; give one of: {choices}")
        for form in forms
        for key in form
        if key in written and key not in used[0] and key not in shared
    ]
    return together(written, used[0]) + strays
