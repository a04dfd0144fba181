"""The shipped tables as checked text rows, and the source that each row cites."""

import csv
import difflib
import io
import math
import re
from collections.abc import Iterable, Mapping, Sequence
from functools import cache
from types import MappingProxyType

from torqcheck.errors import Fault, TableError
from torqcheck.materials.columns import LAYOUTS, Column, Layout
from torqcheck.provenance import MARKS, Mark, Source
from torqcheck.resources import shipped_folder

__all__ = ["Row", "mark", "number", "optional_number", "parse", "source", "table", "table_error"]

Row = Mapping[str, str]
"""One row: column name to text, stripped; an empty text where the table says nothing."""

_NUMBER = re.compile(r"-?\d+(\.\d*)?([eE][+-]?\d{1,3})?", re.ASCII)
_FAULTS_SHOWN = 40


@cache
def table(name: str) -> tuple[Row, ...]:
    """Return the rows of the shipped table `name`, checked against its layout.

    Raises
    ------
    TableError
        If there is no such table, or it is damaged; names file, line, column and value.
    """
    if name not in LAYOUTS:
        raise TableError(f"there is no table {name!r}; the tables are {', '.join(LAYOUTS)}")
    file = f"{name}.csv"
    try:
        text = shipped_folder("material_tables").joinpath(file).read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as reason:
        raise TableError(f"{file}: cannot be read ({reason}); install torqcheck again") from reason
    rows = parse(text, file, LAYOUTS[name])
    faults = [] if name == "sources" else _unresolved(rows, file, LAYOUTS[name])
    if faults:
        raise table_error(faults)
    return tuple(row for _, row in rows)


def source(row: Row, mark_column: str = "mark") -> Source:
    """
    Return the source that `row` of a shipped table cites, with the mark of one of its columns.

    Parameters
    ----------
    row : Row
        Of a shipped table.
    mark_column : str, optional
        Where a row has several marks, which of them.
    """
    works = _works()
    if row["source"] not in works:
        raise TableError(f"source {row['source']!r} is not in sources.csv")
    return Source(works[row["source"]], row["where"], mark(row[mark_column]))


def mark(text: str) -> Mark:
    """Return `text` as a mark; the layout has checked that it is one."""
    for known in MARKS:
        if text == known:
            return known
    raise TableError(f"{text!r} is no mark; the marks are {', '.join(MARKS)}")


def number(row: Row, column: str, scale: float = 1.0) -> float:
    """Return a number that the table must hold, times `scale`."""
    return float(row[column]) * scale


def optional_number(row: Row, column: str, scale: float = 1.0) -> float | None:
    """Return a number, times `scale`; None where the table says nothing."""
    return float(row[column]) * scale if row[column] else None


def parse(text: str, file: str, layout: Layout) -> tuple[tuple[int, Row], ...]:
    """Return line number and row for each line of a table; TableError with all its faults."""
    try:
        lines = _lines(text)
    except csv.Error as reason:
        raise TableError(f"{file}: is no table of comma-separated values ({reason})") from reason
    if not lines:
        raise TableError(f"{file}: is empty; write a line of column names first")
    header = [name.strip() for name in lines[0][1]]
    faults = _header_faults(header, file, layout)
    if faults:
        raise table_error(faults)
    rows = []
    for line, cells in lines[1:]:
        if len(cells) != len(header):
            problem = f"has {len(cells)} fields where the header has {len(header)}"
            faults.append(Fault(file, f"line {line}", "", problem, "quote a text that holds a comma"))
            continue
        row = {column.name: "" for column in layout.columns} | dict(
            zip(header, map(str.strip, cells), strict=True)
        )
        faults.extend(_row_faults(row, file, line, layout))
        rows.append((line, MappingProxyType(row)))
    faults.extend(_repeated(rows, file, layout))
    if faults:
        raise table_error(faults)
    if not rows:
        raise TableError(f"{file}: holds no rows")
    return tuple(rows)


def table_error(faults: Sequence[Fault]) -> TableError:
    """Return one error with a line for each fault, so many of them as can be read."""
    shown = [str(fault) for fault in faults[:_FAULTS_SHOWN]]
    if len(faults) > _FAULTS_SHOWN:
        shown.append(f"{faults[0].file}: and {len(faults) - _FAULTS_SHOWN} more faults")
    return TableError("\n".join(shown))


def _lines(text: str) -> list[tuple[int, list[str]]]:
    """Line number and fields of every line that is not blank."""
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    return [(reader.line_num, cells) for cells in reader if any(cell.strip() for cell in cells)]


def _header_faults(header: Sequence[str], file: str, layout: Layout) -> list[Fault]:
    """Columns that are missing, unknown or there twice."""
    known = [column.name for column in layout.columns]
    if len(header) == 1 and any(other in header[0] for other in ";\t"):
        return [Fault(file, "line 1", "", "holds one column", "separate the columns by commas")]
    faults = []
    for name in dict.fromkeys(header):
        if header.count(name) > 1:
            faults.append(Fault(file, "line 1", f'"{name}"', "stands twice", "keep one of them"))
        if name not in known:
            near = difflib.get_close_matches(name, known, n=1)
            mend = f'did you mean "{near[0]}"?' if near else f"the columns are {', '.join(known)}"
            faults.append(Fault(file, "line 1", f'"{name[:60]}"', "is no column of this table", mend))
    faults.extend(
        Fault(file, "line 1", f'"{column.name}"', "is missing", "add the column")
        for column in layout.columns
        if column.required and column.name not in header
    )
    return faults


def _row_faults(row: Row, file: str, line: int, layout: Layout) -> list[Fault]:
    """Every cell of one row that is not what its column holds."""
    faults = []
    for column in layout.columns:
        complaint = _complaint(column, row[column.name])
        if complaint:
            written = f'"{row[column.name][:60]}"'
            faults.append(Fault(file, f"line {line}, {column.name}", written, *complaint))
    return faults


def _complaint(column: Column, text: str) -> tuple[str, str] | None:
    """Say what is wrong with one cell and how to mend it; None if nothing is."""
    if not text:
        return ("must not be empty", "fill it in") if column.required else None
    if column.kind == "number":
        return _number_complaint(column, text)
    if column.kind == "word" and text not in column.words:
        return "is none of the words of this column", f"write one of: {'; '.join(column.words)}"
    if column.kind == "mark" and text not in MARKS:
        return "is no mark", f"write one of: {'; '.join(MARKS)}"
    if not text.isprintable():
        return "holds characters that cannot be printed", "write plain text"
    return None


def _number_complaint(column: Column, text: str) -> tuple[str, str] | None:
    """Say what is wrong with a number."""
    if not _NUMBER.fullmatch(text) or not math.isfinite(float(text)):
        comma = ", with a point for the decimals" if "," in text else ""
        return "is no finite number", f"write a plain number{comma}"
    if float(text) < 0.0:
        return "is negative", "write a positive number"
    if not column.least <= float(text) <= column.most:
        limits = f"{column.least:g} to {column.most:g}"
        return f"is outside {limits}", "check the unit, which the column name ends in"
    return None


def _repeated(rows: Iterable[tuple[int, Row]], file: str, layout: Layout) -> list[Fault]:
    """Rows whose key was there before."""
    first: dict[tuple[str, ...], int] = {}
    faults = []
    for line, row in rows:
        key = tuple(row[name] for name in layout.key)
        if key in first:
            place = f"line {line}, {layout.key[0]}"
            problem = f"stands on line {first[key]} already"
            faults.append(Fault(file, place, f'"{", ".join(key)}"', problem, "rename or remove one"))
        first.setdefault(key, line)
    return faults


def _unresolved(rows: Iterable[tuple[int, Row]], file: str, layout: Layout) -> list[Fault]:
    """Cells that cite a source which sources.csv does not hold."""
    columns = [column.name for column in layout.columns if column.kind == "source"]
    return [
        Fault(file, f"line {line}, {name}", f'"{row[name]}"', "is not in sources.csv", "add it there")
        for line, row in rows
        for name in columns
        if row[name] and row[name] not in _works()
    ]


@cache
def _works() -> Mapping[str, str]:
    """Return author, title and year by key."""
    return MappingProxyType({row["key"]: row["work"] for row in table("sources")})
