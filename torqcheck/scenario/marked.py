"""Lines of a file that still say that their value is an example, not the user's own."""

import re

from torqcheck.scenario.ledger import WHOLE_FILE, Ledger, MissingReading
from torqcheck.scenario.schema import Scenario

__all__ = ["EXAMPLE_MARK", "marked_lines", "miss_own_values", "own_values"]

EXAMPLE_MARK = "# change"
"""Stands behind each value of a template that is to be replaced."""
_MARKED = re.compile(r"[ \t]*[^#\s].*#[ \t]*change[ \t]*", re.ASCII)


def marked_lines(text: str) -> int:
    r"""
    Count the lines that hold a value and end with the mark of an example; mere comments do not count.

    Examples
    --------
    >>> marked_lines('torque = "150 N*m"  # change\n# speed = "9 rpm"  # change\nnotes = "# change"')
    1
    """
    return sum(_MARKED.fullmatch(line) is not None for line in text.splitlines())


def own_values(scenario: Scenario) -> MissingReading | None:
    """The user's own values, as far as the file still has examples in their place; None where it has none."""
    count = scenario.example_lines
    if not count:
        return None
    lines = "1 line still says" if count == 1 else f"{count} lines still say"
    these = "this value is an example" if count == 1 else "these values are examples"
    return MissingReading(
        WHOLE_FILE,
        f'{lines} "{EXAMPLE_MARK}"',
        f"{these}, not yours; write your own and take the mark away",
    )


def miss_own_values(scenario: Scenario, ledger: Ledger) -> None:
    """Write down that examples stand where the user's own values belong."""
    missing = own_values(scenario)
    if missing is not None:
        ledger.miss(missing.joint, missing.reading, missing.how)
