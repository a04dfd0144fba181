"""What the schema of the scenario file says of a place: how an answer is read, and what it means."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import Any, Literal, get_args, get_origin, get_type_hints

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from torqcheck.materials import Hardness
from torqcheck.scenario.joint_schema import AnyJoint
from torqcheck.scenario.kinds import KINDS
from torqcheck.scenario.quantity import Plausible
from torqcheck.scenario.schema import Scenario
from torqcheck.units import EXAMPLES

__all__ = ["Field", "blocks_in", "field_at", "put", "steps_of"]

Steps = tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class Field:
    """One key of the file: its description, its default, and what stands in it."""

    key: str
    info: FieldInfo
    annotation: Any

    @property
    def meaning(self) -> str:
        """What the schema says of it."""
        return self.info.description or ""

    @property
    def plain_default(self) -> bool | int | float | str | None:
        """A word, number or yes-or-no that the schema fills in; None where it fills in none."""
        default = self.info.default
        return default if isinstance(default, bool | int | float | str) and default != "" else None

    @property
    def usual(self) -> Plausible | None:
        """Kind of quantity and the range in which it is met; None for what is no quantity."""
        return next((part for part in _parts(self.annotation) if isinstance(part, Plausible)), None)

    @property
    def example(self) -> str:
        """Examples of how it is written, with units; empty for a plain number or text."""
        if self.usual is not None:
            return EXAMPLES[self.usual.kind]
        return '"32 HRC" or "300 HB"' if Hardness in _parts(self.annotation) else ""

    @property
    def number(self) -> type | None:
        """Int or float where it is a plain number."""
        found = [part for part in _parts(self.annotation) if part in {int, float}]
        return found[0] if found and not self.example else None

    @property
    def words(self) -> tuple[str, ...]:
        """Words among which it chooses."""
        literals = [part for part in _parts(self.annotation) if get_origin(part) is Literal]
        return tuple(str(word) for literal in literals for word in get_args(literal))


def _parts(annotation: Any) -> Iterator[Any]:
    """Everything inside an annotation: types, literals and what is said beside them."""
    yield annotation
    for part in getattr(annotation, "__metadata__", ()):
        yield part
    if get_origin(annotation) is not Literal:
        for part in get_args(annotation):
            if not isinstance(part, str):
                yield from _parts(part)


def blocks_in(annotation: Any) -> list[type[BaseModel]]:
    """Return the blocks that may stand in a field."""
    found = [part for part in _parts(annotation) if isinstance(part, type) and issubclass(part, BaseModel)]
    return list(dict.fromkeys(found))


@lru_cache(maxsize=1024)
def field_at(steps: Steps, kind: str = "") -> Field:
    """
    Return the field at a place of the file.

    Parameters
    ----------
    steps : tuple
        Names, and positions in lists, as `steps_of` gives them.
    kind : str, optional
        Kind of the joint that the place belongs to.
    """
    names = [step for step in steps if isinstance(step, str)]
    model: type[BaseModel] = Scenario
    if names[0] == "joint":
        # the kind itself is asked for before there is one
        model, names = KINDS.get(kind, AnyJoint), names[1:]
    for name in names[:-1]:
        model = blocks_in(get_type_hints(model, include_extras=True)[name])[0]
    annotation = get_type_hints(model, include_extras=True)[names[-1]]
    return Field(names[-1], model.model_fields[names[-1]], annotation)


def steps_of(place: str, entry: int) -> Steps:
    """Split a place such as joint[].lash.travel; `entry` is the position in the list, from 0 on."""
    steps: list[str | int] = []
    for word in place.split("."):
        steps.append(word.removesuffix("[]"))
        if word.endswith("[]"):
            steps.append(entry)
    return tuple(steps)


def put(document: dict[str, Any], steps: Steps, written: Any) -> None:
    """Write a value at a place; tables and lists on the way are made."""
    here: Any = document
    for step, following in pairwise(steps):
        fresh: Any = [] if isinstance(following, int) else {}
        if isinstance(step, int):
            while len(here) <= step:
                here.append({})
            here = here[step]
        else:
            here = here.setdefault(step, fresh)
    here[steps[-1]] = written
