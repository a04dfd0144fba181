"""A sweep from its question to its file: chunks answered on all cores, written in order, summed up."""

import pickle
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TypeAlias

import numpy as np

from torqcheck.assessment.sweep.run import Question, answers_to, chunks_of, identity_of
from torqcheck.assessment.sweep.summary import Map, SweepSummary, map_of, summary_of
from torqcheck.assessment.sweep.table import Table
from torqcheck.errors import StoppedError
from torqcheck.report.sweep.file import SweepFile
from torqcheck.report.sweep.rows import csv_head, csv_rows, parquet_batch, require_parquet, schema_of

__all__ = ["Progress", "Swept", "swept_here", "swept_to_file"]

Progress: TypeAlias = Callable[[int], None]
"""Is told how many points are done."""


@dataclass(frozen=True, slots=True)
class Swept:
    """A sweep that is done: its summary, the map of one or two keys, and its rows if they were kept."""

    summary: SweepSummary
    map: Map | None
    rows: tuple[Table, ...] = ()


def swept_here(question: Question, *, workers: int | None = None, progress: Progress) -> Swept:
    """Answer a question that is small enough to be kept in memory."""
    tables: list[Table] = []
    tally: dict[str, int] = {}
    done = 0
    for chunk in chunks_of(question, pickle.dumps, workers=workers):
        tables.append(pickle.loads(chunk.content))
        done += len(chunk.margin)
        for word, number in chunk.tally.items():
            tally[word] = tally.get(word, 0) + number
        progress(done)
    margin = np.concatenate([table.margin for table in tables])
    return Swept(summary_of(question, [margin], tally), map_of(question, [margin]), tuple(tables))


def swept_to_file(
    question: Question,
    out: Path,
    *,
    resume: bool = False,
    force: bool = False,
    workers: int | None = None,
    progress: Progress,
) -> Swept:
    """
    Answer a question chunk by chunk into a file.

    Raises
    ------
    StoppedError
        If the run is interrupted; what is written stays, and says so.
    UsageError, OutputError
        As `SweepFile.begin` and `SweepFile.append`.
    """
    parquet = out.suffix.lower() == ".parquet"
    identity = identity_of(question) | {"form": "csv"}
    if parquet:
        identity["form"] = f"pyarrow {require_parquet().__version__}"
    first = answers_to(question).table(question.design.stretch(0, 0))
    head = b"" if parquet else csv_head(tuple(first.columns))
    with SweepFile(out, identity, head, question.chunks) as file:
        file.begin(resume=resume, force=force)
        try:
            if not file.finished:
                _fill(file, question, parquet_batch if parquet else csv_rows, workers, progress)
                file.finish(schema_of(first) if parquet else None)
        except KeyboardInterrupt:
            raise StoppedError(
                f"stopped after {file.rows} of {question.design.points} points, which are kept beside {out}; "
                "to go on, give the same command with --resume"
            ) from None
        found = summary_of(question, file.read_margins(), file.tally)
        plan = map_of(question, file.read_margins())
        file.clear()
    return Swept(found, plan)


def _fill(
    file: SweepFile,
    question: Question,
    form: Callable[[Table], bytes],
    workers: int | None,
    progress: Progress,
) -> None:
    progress(file.rows)
    for chunk in chunks_of(question, form, first=len(file.ends), workers=workers):
        file.append(chunk)
        progress(file.rows)
