"""Every error that torqcheck raises, and the exit code that each one means.

::

    TorqcheckError                 exit  raised by
    +- InputError                    2
    |  +- ScenarioError              2   scenario/    carries every fault of the file
    |  +- TableError                 2   materials/   a shop's own table is not usable
    |  +- QuantityError              2   units        a text is not a quantity of the wanted kind
    |  +- UsageError                 2   cli/         options that contradict each other
    +- OutputError                   4   report/      not writable, disk full
    |  +- PlaceError                 2   report/      folder missing, a folder or a scenario named as the file
    +- StoppedError                130   cli/         a long run was stopped and can be taken up again
    +- NoSolutionError               4   searches     no root in the bracket, with the bracket tried
    +- DomainError (also ValueError) 4   kernels      outside the range of a formula
"""

from collections.abc import Sequence
from dataclasses import dataclass

__all__ = [
    "DomainError",
    "Fault",
    "InputError",
    "NoSolutionError",
    "OutputError",
    "PlaceError",
    "QuantityError",
    "ScenarioError",
    "StoppedError",
    "TableError",
    "TorqcheckError",
    "UsageError",
]


@dataclass(frozen=True, slots=True)
class Fault:
    """One mistake in one place of a file."""

    file: str
    key: str
    written: str
    problem: str
    mend: str

    def __str__(self) -> str:
        """One line: place, what was written, what is wrong, how to mend it.

        What a terminal could take for a command is not passed on, whatever file it came from.
        """
        place = f"{self.file}: {self.key}: " if self.key else f"{self.file}: "
        written = f"{self.written} " if self.written else ""
        mend = f"; {self.mend}" if self.mend else ""
        line = f"{place}{written}{self.problem}{mend}"
        return "".join(letter if letter.isprintable() else "?" for letter in line)


class TorqcheckError(Exception):
    """Base of all errors that torqcheck raises on purpose."""

    exit_code = 4


class InputError(TorqcheckError):
    """Something that the user wrote is not usable."""

    exit_code = 2


class ScenarioError(InputError):
    """A scenario file with at least one fault; carries all of them."""

    def __init__(self, faults: Sequence[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__("\n".join(str(fault) for fault in self.faults))


class TableError(InputError):
    """A table of materials or factors that is not usable, or a name that it does not hold."""


class QuantityError(InputError):
    """A text that is no quantity of the wanted kind; says what is wrong and how to mend it."""

    def __init__(self, problem: str, mend: str) -> None:
        self.problem = problem
        self.mend = mend
        super().__init__(f"{problem}; {mend}")


class UsageError(InputError):
    """Options of a command that contradict each other or are out of range."""


class OutputError(TorqcheckError):
    """The result cannot be written where the user wants it."""


class PlaceError(OutputError):
    """The name of a file to write that no file can have: no such folder, a folder itself, or a scenario."""

    exit_code = 2


class NoSolutionError(TorqcheckError):
    """A search found no solution in the range that it tried."""


class DomainError(TorqcheckError, ValueError):
    """An argument lies outside the range in which a formula holds."""


class StoppedError(TorqcheckError):
    """A long run was stopped from outside; says how to take it up again."""

    exit_code = 130
