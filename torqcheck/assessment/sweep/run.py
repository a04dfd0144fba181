"""Many points of a scenario asked the same: the question, and its answers stretch by stretch on all cores."""

import hashlib
import math
import zlib
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice, product
from typing import Any, Literal, TypeAlias

from torqcheck._types import FloatArray
from torqcheck.assessment.on_cores import cores, on_cores
from torqcheck.assessment.sweep.answers import Answers, GuideAnswers, Method
from torqcheck.assessment.sweep.design import Design
from torqcheck.assessment.sweep.keys import MOST_POINTS, VariedKey, varied_key
from torqcheck.assessment.sweep.rules import refusal
from torqcheck.assessment.sweep.table import Table
from torqcheck.errors import UsageError
from torqcheck.scenario import Scenario
from torqcheck.scenario.load import scenario_from_document

__all__ = ["CHUNKS", "Chunk", "Question", "answers_to", "chunks_of", "identity_of", "question_of"]

CHUNKS = {"guide": 50_000, "all": 8}
"""Points that are answered together, by method: they bound the memory, and what a stop can lose."""
MOST_CORNERS = 64

Form: TypeAlias = Callable[[Table], bytes]


@dataclass(frozen=True, slots=True)
class Question:
    """
    What a sweep asks.

    Parameters
    ----------
    scenario : Scenario
        The base.
    design : Design
        Which points.
    method : str
        ``guide``: torque, blow and the guide's checks. ``all``: the full assessment.
    vary : tuple of str
        The keys as they were written.
    chunk : int
        Points that are answered together.
    """

    scenario: Scenario
    design: Design
    method: Method
    vary: tuple[str, ...]
    chunk: int

    @property
    def chunks(self) -> int:
        """Number of chunks."""
        return -(-self.design.points // self.chunk)

    def rows_of(self, number: int) -> int:
        """Rows of one chunk."""
        return min(self.chunk, self.design.points - number * self.chunk)


@dataclass(frozen=True, slots=True)
class Chunk:
    """One chunk, answered: its rows in the form that was asked for, and what the summary needs of them."""

    number: int
    content: bytes
    checksum: int
    margin: FloatArray
    tally: dict[str, int]


def question_of(
    scenario: Scenario,
    vary: Sequence[str],
    *,
    design: Literal["grid", "latin"] = "grid",
    points: int | None = None,
    seed: int = 0,
    method: Method = "guide",
    chunk: int | None = None,
) -> Question:
    """
    Read what is to be varied, and check it before anything is computed.

    Parameters
    ----------
    scenario : Scenario
        The base.
    vary : sequence of str
        One text for each key, as `varied_key` reads it.
    design : str, optional
        ``grid``, every combination, the last key runs fastest; or ``latin``, a Latin hypercube.
    points, seed : int, optional
        Of the Latin hypercube.
    method : str, optional
        ``guide`` or ``all``.
    chunk : int, optional
        Points that are answered together.

    Raises
    ------
    UsageError
        If a key, a value or the number of points cannot be used.
    """
    if not vary:
        raise UsageError(
            "nothing is varied: add --vary KEY=START:STOP:COUNT, as joint[1].engagement=20:40 mm:21"
        )
    keys = tuple(varied_key(scenario, text) for text in vary)
    twice = [key.key for number, key in enumerate(keys) if key.place in {k.place for k in keys[:number]}]
    if twice:
        raise UsageError(f"--vary: {twice[0]} is varied twice; name each key once")
    if design == "latin":
        if points is None:
            raise UsageError("--design latin needs the number of points: add --points N")
        size = points
    else:
        if points is not None:
            raise UsageError(
                "--points goes with --design latin; the points of a grid are counted by its keys"
            )
        size = math.prod(key.count for key in keys)
    if not 1 <= size <= MOST_POINTS:
        raise UsageError(f"{size} points: a sweep has from 1 to {MOST_POINTS}")
    if not 0 <= seed < 2**63:
        raise UsageError(f"--seed {seed}: write a whole number from 0 to {2**63 - 1}")
    _refuse_ends(scenario, keys)
    return Question(scenario, Design(design, keys, size, seed), method, tuple(vary), chunk or CHUNKS[method])


def _refuse_ends(scenario: Scenario, keys: tuple[VariedKey, ...]) -> None:
    """Both ends of every key must be possible, alone or together with ends of the others."""
    for key in keys:
        for end in (key.lowest, key.highest):
            alone = {key.key: key.written(end)}
            reason = refusal(scenario, alone)
            if not reason:
                continue
            others = [other for other in keys if other is not key]
            corners = product(*((other.lowest, other.highest) for other in others))
            if not any(
                not refusal(
                    scenario,
                    {**alone, **{o.key: o.written(v) for o, v in zip(others, corner, strict=True)}},
                )
                for corner in islice(corners, MOST_CORNERS)
            ):
                raise UsageError(f"--vary {key.key}: {end:g} {key.unit}".rstrip() + f" is refused: {reason}")


def answers_to(question: Question) -> Answers:
    """What answers a question."""
    if question.method == "guide":
        return GuideAnswers(question.scenario, question.design)
    from torqcheck.assessment.sweep.full import FullAnswers

    return FullAnswers(question.scenario, question.design)


def identity_of(question: Question) -> dict[str, Any]:
    """All that the rows depend on, as plain data: two questions that agree in it have the same answers."""
    scenario, design = question.scenario, question.design
    tables = [
        hashlib.sha256((scenario.path.parent / name).read_bytes()).hexdigest()
        for name in scenario.materials.tables
    ]
    record = scenario.duty_file_hash
    return {
        "scenario_sha256": scenario.file_sha256,
        "duty_file_sha256": None if record is None else record.sha256,
        "tables_sha256": tables,
        "vary": list(question.vary),
        "design": design.name,
        "points": design.points,
        "seed": design.seed if design.name == "latin" else None,
        "method": question.method,
        "chunk": question.chunk,
    }


def chunks_of(
    question: Question, form: Form, *, first: int = 0, workers: int | None = None
) -> Iterator[Chunk]:
    """
    Answer a question chunk by chunk, in order.

    Parameters
    ----------
    question : Question
        What is asked.
    form : callable
        Turns the rows of a chunk into bytes; a function of a module, so that another process can find it.
    first : int, optional
        The first chunk that is wanted.
    workers : int, optional
        Processes; as many as there are cores if not given.

    Raises
    ------
    OutputError
        If a process was ended from outside.
    """
    wanted = question.chunks - first
    count = min(cores() if workers is None else workers, wanted)
    if count <= 1:
        answers = answers_to(question)
        for number in range(first, question.chunks):
            yield _chunk(question, answers, form, number)
        return
    base = question.scenario
    file = (dict(base.document), base.path, base.file_sha256, base.example_lines)
    given = (file, question.design, question.method)
    yield from on_cores(
        _chunk_there,
        range(first, question.chunks),
        begin=_begin,
        given=(given, question.vary, question.chunk, form),
        workers=count,
    )


def _chunk(question: Question, answers: Answers, form: Form, number: int) -> Chunk:
    first = number * question.chunk
    table = answers.table(question.design.stretch(first, first + question.rows_of(number)))
    content = form(table)
    return Chunk(number, content, zlib.crc32(content), table.margin, table.tally)


_there: dict[str, Any] = {}
"""What a worker process was given when it began."""


def _begin(given: tuple[Any, ...], vary: tuple[str, ...], chunk: int, form: Form) -> None:
    """Prepare a worker."""
    file, design, method = given
    scenario = scenario_from_document(*file)
    question = Question(scenario, design, method, vary, chunk)
    _there.update(question=question, answers=answers_to(question), form=form)


def _chunk_there(number: int) -> Chunk:
    return _chunk(_there["question"], _there["answers"], _there["form"], number)
