"""The same question asked of many edited scenarios, on all cores."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Any, TypeAlias, TypeVar

from torqcheck.assessment.on_cores import cores, on_cores
from torqcheck.errors import Fault, ScenarioError
from torqcheck.scenario import Scenario
from torqcheck.scenario.edits import edited
from torqcheck.scenario.load import scenario_from_document

__all__ = ["Changes", "Refused", "each_edited"]

Changes: TypeAlias = Mapping[str, Any]
Answer = TypeVar("Answer")
FEW = 2
"""So few scenarios are not worth the start of another process."""


@dataclass(frozen=True, slots=True)
class Refused:
    """A scenario that the rules of the file do not allow."""

    faults: tuple[Fault, ...]


def each_edited(
    scenario: Scenario,
    changes: Sequence[Changes],
    ask: Callable[[Scenario], Answer],
    *,
    workers: int | None = None,
) -> Iterator[Answer | Refused]:
    """
    Edit a scenario in many ways, and ask each one the same.

    Parameters
    ----------
    scenario : Scenario
        The base.
    changes : sequence of mappings
        Edits by key, as `edited` takes them.
    ask : callable
        A function of a module, so that another process can find it; its answer must be picklable.
    workers : int, optional
        Processes; as many as there are cores if not given.

    Yields
    ------
    Answer or Refused
        In the order of `changes`, each as soon as it and all before it are there.
    """
    workers = min(cores() if workers is None else workers, len(changes))
    if workers <= 1 or len(changes) <= FEW:
        return map(partial(_answer, scenario, ask), changes)
    given = (dict(scenario.document), scenario.path, scenario.file_sha256, scenario.example_lines, ask)
    return on_cores(_answer_there, changes, begin=_begin, given=given, workers=workers)


def _answer(scenario: Scenario, ask: Callable[[Scenario], Answer], changes: Changes) -> Answer | Refused:
    try:
        return ask(edited(scenario, changes))
    except ScenarioError as error:
        return Refused(error.faults)


_there: dict[str, Any] = {}
"""What a worker process was given when it began."""


def _begin(
    document: Mapping[str, Any], path: Path, sha256: str, examples: int, ask: Callable[[Scenario], Any]
) -> None:
    """Read the scenario once in each worker."""
    _there.update(scenario=scenario_from_document(document, path, sha256, examples), ask=ask)


def _answer_there(changes: Changes) -> Any:
    return _answer(_there["scenario"], _there["ask"], changes)
