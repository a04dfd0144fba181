"""The alignment for people: how the axes lie, what is permitted, what aligning would gain."""

from collections.abc import Callable
from dataclasses import replace

from torqcheck.assessment.bench.alignment_result import AlignmentResult, AlignmentRow, LimitRow, RowState
from torqcheck.assessment.bench.play_result import Spread
from torqcheck.assessment.result import Assessment, JointResult
from torqcheck.report.numbers import significant
from torqcheck.report.sheet import Column, Table
from torqcheck.scenario.alignment import Across
from torqcheck.units import Kind, System, in_unit

__all__ = ["alignment_tables"]


def alignment_tables(assessment: Assessment, systems: tuple[System, ...]) -> list[Table]:
    """
    Lay out, joint by joint, how the axes lie and what is permitted, then what aligning would gain.

    Parameters
    ----------
    assessment : Assessment
        The result.
    systems : tuple of str
        Unit systems; the first is shown.
    """
    tables: list[Table | None] = []
    for joint in assessment.joints:
        if joint.alignment is not None:
            found = joint.alignment
            tables += [_axes(joint, found, systems[0]), _limits(joint, found, systems[0])]
            tables.append(_gain(joint, found, systems[0]))
    return _each_legend_once([table for table in tables if table is not None])


def _each_legend_once(tables: list[Table]) -> list[Table]:
    """Several joints are held against the same limits; what the first table explains serves them all."""
    seen: set[str] = set()
    result = []
    for table in tables:
        result.append(replace(table, legend="") if table.legend in seen else table)
        seen.add(table.legend)
    return result


def _axes(joint: JointResult, found: AlignmentResult, system: System) -> Table | None:
    """Offset and tilt, upwards and to the right; nothing where there is no more than one number."""
    reading = found.reading
    if not reading.measured or (reading.offset is None and reading.turning_offset is None):
        return None
    lines: list[tuple[str, Across | None, Kind]] = [
        ("offset, as it runs" if reading.cold_offset else "offset", reading.offset, "length"),
        ("offset, as read cold", reading.cold_offset, "length"),
        ("tilt of the axes", reading.tilt, "angle"),
        ("tilt of the mesh", None if reading.span is None else reading.mesh, "angle"),
        ("offset that turns", reading.turning_offset, "length"),
        ("tilt that turns", reading.turning_tilt, "angle"),
    ]
    rows = tuple(_line(name, across, kind, system) for name, across, kind in lines if across is not None)
    columns = tuple(
        Column(title, "right" if title else "left") for title in ("", "up", "right", "total", "+/-", "unit")
    )
    legend = (
        "Driven axis against that of the motor, at the middle of the engagement, seen from the motor; +/- "
        "two standard deviations."
    )
    if reading.span is not None and found.rows:
        length, unit = in_unit(reading.span, "length", system)
        legend += f" The mesh takes up tilt, and offset over {significant(length)} {unit}."
    legend = " ".join((legend, *found.notes))
    return Table(f"Alignment at {joint.name}, by {reading.method}", columns, rows, legend=legend)


def _line(name: str, across: Across, kind: Kind, system: System) -> tuple[str, ...]:
    cells = []
    for value in (across.vertical, across.horizontal, across.total, across.tolerance):
        cells.append("-" if value is None else significant(in_unit(value, kind, system)[0], 2))
    return (name, *cells, in_unit(0.0, kind, system)[1])


def _limits(joint: JointResult, found: AlignmentResult, system: System) -> Table | None:
    """Each reading against what is permitted."""
    if not found.limits:
        return None
    rows = tuple(
        (
            row.what,
            *("-" if part is None else _amount(part, row, system)[0] for part in _parts(row)),
            _amount(row.limit, row, system)[1],
            _word(row),
        )
        for row in found.limits
    )
    columns = (
        Column("Alignment"),
        Column("Read" if found.reading.measured else "Assumed", "right"),
        Column("Limit", "right"),
        Column("Excellent", "right"),
        Column("unit"),
        Column("Verdict"),
    )
    marks = sorted({f"{row.source.work} [{row.source.mark}]" for row in found.limits})
    legend = (
        "Only the limit of the teeth decides: beyond it the joint fails. The others are practice, for other "
        "couplings or at worst; they say where care pays."
        if any(row.hard for row in found.limits)
        else "Practice; none of it decides."
    )
    return Table(
        f"What is permitted at {joint.name}", columns, rows, legend=f"{legend} From: {'; '.join(marks)}."
    )


def _word(row: LimitRow) -> str:
    return "BEYOND" if row.verdict == "beyond" and row.hard else row.verdict


def _parts(row: LimitRow) -> tuple[float | None, ...]:
    return row.value, row.limit, row.excellent


def _amount(value: float, row: LimitRow, system: System, digits: int = 2) -> tuple[str, str]:
    """A value and its unit."""
    per = "/s" if row.kind == "slip speed" else ""
    number, unit = in_unit(value, "length" if row.kind == "slip speed" else row.kind, system)
    return significant(number, digits), unit + per


def _gain(joint: JointResult, found: AlignmentResult, system: System) -> Table | None:
    """The same joint as it is, and with offset or tilt put right."""
    if len(found.rows) < 2 or found.tilt <= 0.0:
        return None
    columns = (Column(""), *(Column(row.state, "right") for row in found.rows))
    rows = tuple((label, *(text(row) for row in found.rows)) for label, text in _lines(found, system))
    return Table(f"What aligning would gain at {joint.name}", columns, rows, legend=_legend(found))


def _lines(found: AlignmentResult, system: System) -> list[tuple[str, Callable[[AlignmentRow], str]]]:
    """Return what each line is called, and its text for a row of the result."""
    angle, length = in_unit(0.0, "angle", system)[1], in_unit(0.0, "length", system)[1]

    def in_length(value: float) -> str:
        return significant(in_unit(value, "length", system)[0])

    lines: list[tuple[str, Callable[[AlignmentRow], str]]] = [
        (f"tilt of the mesh, {angle}", lambda row: significant(in_unit(row.tilt, "angle", system)[0])),
        (f"slip speed, {length}/s", lambda row: in_length(row.slip_speed)),
        (
            f"wear, {length} in 1000 h",
            lambda row: "no law" if row.wear_rate is None else in_length(1e3 * row.wear_rate),
        ),
    ]
    if found.rows[0].load_factor is not None:
        lines.append(("load-distribution factor", lambda row: significant(row.load_factor or 1.0)))
    return [
        *lines,
        ("peak load of the teeth", lambda row: _spread(row.peak)),
        ("first tooth, %", lambda row: _spread((100.0 * row.first[0], 100.0 * row.first[1]))),
    ]


def _spread(values: Spread) -> str:
    return " / ".join(significant(value, 2) for value in values)


def _legend(found: AlignmentResult) -> str:
    """Shares in words, and what the lines mean."""
    named: tuple[tuple[RowState, str], ...] = (
        ("without offset", "without the offset"),
        ("without tilt", "without the tilt"),
        ("aligned", "aligned"),
    )
    words = []
    for state, name in named:
        load, wear = found.load_share(state), found.wear_share(state)
        if load is not None:
            worn = "" if wear is None else f" and {_share(wear)} of the wear"
            words.append(f"{name} {_share(load)} of the peak load{worn}")
    return (
        f"What goes: {'; '.join(words)}. Same blow, same teeth, another tilt; the shares need not add up. "
        f"Slip speed: in the fastest spell, {significant(in_unit(found.speed, 'speed', 'si')[0])} rpm. "
        "Wear: both flanks, median, with the lubricant as it is now; no law: slip too small for it, look for "
        "fretting. Peak load: of any tooth, times the mean load per length; median / 95th percentile."
    )


def _share(share: float) -> str:
    return "nothing" if share < 0.005 else f"{100.0 * share:.0f} %"
