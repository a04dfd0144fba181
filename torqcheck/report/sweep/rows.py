"""Rows of a sweep as bytes: lines of CSV, or a batch of columns for a Parquet file."""

import csv
import io
import os
from pathlib import Path
from typing import Any

import numpy as np

from torqcheck.assessment.sweep.table import Column, Table, Words
from torqcheck.errors import UsageError

__all__ = ["csv_head", "csv_rows", "parquet_batch", "require_parquet", "schema_of", "write_parquet"]

SAMPLE, OFTEN = 5000, 2
"""Where a sample of a column holds each value so often or more, each value is turned into text once."""


def csv_head(names: tuple[str, ...]) -> bytes:
    """Return the first line of a CSV file."""
    stream = io.StringIO()
    csv.writer(stream, lineterminator="\n").writerow(names)
    return stream.getvalue().encode()


def csv_rows(table: Table) -> bytes:
    """
    Return the rows of a table as lines of CSV.

    Numbers have the fewest digits that give the same float again; what is absent is left empty.
    """
    if table.count == 0:
        return b""
    texts = [_texts(column) for column in table.columns.values()]
    return ("\n".join(map(",".join, zip(*texts, strict=True))) + "\n").encode()


def _texts(column: Column) -> list[str]:
    """One column as texts."""
    if isinstance(column, Words):
        return _taken([_quoted(text) for text in column.text], column.code)
    if column.dtype.kind == "i":
        return [str(value) for value in column.tolist()]
    # -0.0 and 0.0 are one value
    values: list[float] = np.where(np.isfinite(column), column + 0.0, np.nan).tolist()
    sample = values[:: len(values) // SAMPLE + 1]
    if OFTEN * len(set(sample)) > len(sample):
        return ["" if value != value else repr(value) for value in values]
    return list(map(_Known().__getitem__, values))


class _Known(dict[float, str]):
    """Texts of numbers, each made once."""

    def __missing__(self, value: float) -> str:
        if value != value:
            return ""
        text = self[value] = repr(value)
        return text


def _taken(texts: list[str], codes: Any) -> list[str]:
    """Texts by number; -1 is the empty one at the end."""
    labels = np.array([*texts, ""], dtype=object)
    taken: list[str] = labels[codes].tolist()
    return taken


def _quoted(text: str) -> str:
    """A text as CSV has it."""
    if not any(sign in text for sign in ',"\n\r'):
        return text
    return '"' + text.replace('"', '""') + '"'


def require_parquet() -> Any:
    """
    Return pyarrow.

    Raises
    ------
    UsageError
        If it is not installed; says how to install it.
    """
    try:
        import pyarrow as pa
    except ImportError:
        raise UsageError(
            "a .parquet file needs pyarrow, which is not installed: pip install 'torqcheck[parquet]'; "
            "or name a .csv file"
        ) from None
    return pa


def schema_of(table: Table) -> Any:
    """Columns and types of a Parquet file."""
    pa = require_parquet()
    return pa.schema([(name, _array(pa, column).type) for name, column in table.columns.items()])


def _array(pa: Any, column: Column) -> Any:
    if isinstance(column, Words):
        words = pa.array(np.array([*column.text, None], dtype=object), pa.string())
        return words.take(pa.array(np.where(column.code < 0, len(column.text), column.code)))
    if column.dtype.kind == "i":
        return pa.array(column)
    return pa.array(column, mask=~np.isfinite(column))


def parquet_batch(table: Table) -> bytes:
    """Return the rows of a table as one batch of Arrow columns, without its schema."""
    pa = require_parquet()
    arrays = [_array(pa, column) for column in table.columns.values()]
    return bytes(pa.record_batch(arrays, schema=schema_of(table)).serialize())


def write_parquet(spool: Path, ends: list[int], schema: Any, out: Path) -> None:
    """
    Join batches, one behind the other in a file, into a Parquet file; each becomes a row group.

    Parameters
    ----------
    spool : Path
        The batches.
    ends : list of int
        Where each of them ends, in bytes.
    schema : Schema
        As `schema_of` gives it.
    out : Path
        The Parquet file.
    """
    pa = require_parquet()
    import pyarrow.parquet as pq

    with spool.open("rb") as source, out.open("wb") as file:
        with pq.ParquetWriter(file, schema, compression="zstd") as writer:
            start = 0
            for end in ends:
                batch = pa.ipc.read_record_batch(pa.py_buffer(source.read(end - start)), schema)
                writer.write_batch(batch)
                start = end
        file.flush()
        os.fsync(file.fileno())
