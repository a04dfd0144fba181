"""The answer for one unknown of a joint, for people."""

from collections.abc import Iterator, Sequence
from typing import Any

from torqcheck.assessment.size.result import Point, Size
from torqcheck.assessment.size.words import demand_words
from torqcheck.report.build import CAUTION, file_line, systems_of
from torqcheck.report.numbers import both, or_dash, significant
from torqcheck.report.sheet import Column, Note, Sheet, Table
from torqcheck.report.words import VERDICT_WORDS
from torqcheck.units import System, in_unit

__all__ = ["curve_rows", "size_sheet"]

AROUND = 4
"""Rows of the curve on either side of the answer."""
SHORT = {
    "engagement": "Engagement",
    "teeth": "Size",
    "pitch": "Size",
    "bore": "Bore",
    "outside-diameter": "Diameter",
    "lash": "Lash",
    "tilt": "Tilt",
    "torque-rise": "Rise",
    "motor-torque": "Torque",
}
SUPERLATIVE = {"smallest": "Smallest", "largest": "Largest", "best": "Best", "softest": "Softest"}


def size_sheet(found: Size, units: str, plots: tuple[Table, ...] = ()) -> Sheet:
    """
    Arrange the answer: one sentence, why, the curve around it, and what to do next.

    Parameters
    ----------
    found : Size
        The result.
    units : str
        ``si``, ``inch`` or ``both``; the table shows one system, the answer both.
    plots : tuple of Table
        Plots that are already drawn, put behind the table.
    """
    systems = systems_of(units)
    parts = [
        Note.of("Why no value helps, and what would", _remedies(found)),
        _bands(found) if found.find == "hardness" else _curve(found, systems[0]),
        *plots,
        Note.of("Gaps", _gaps(found, systems)),
        Note.of("Where more no longer helps", [found.no_more] if found.no_more else []),
        Note.of("What was searched", _searched(found, systems)),
        Note.of("What to do next", _next(found)),
    ]
    return Sheet(
        title=f"torqcheck {found.version}: size, {found.title}",
        about=(*_answer(found, systems), "", file_line(found)),
        verdict=None,
        words=(),
        parts=tuple(part for part in parts if part is not None),
        closing=(CAUTION,),
    )


def _answer(found: Size, systems: tuple[System, ...]) -> Iterator[str]:
    """The answer in a sentence, and why it is so."""
    of = f"{found.joint}: "
    superlative = SUPERLATIVE[found.wanted]
    if found.idle:
        yield f"{of}NOTHING that is judged depends on the {found.meaning}."
    elif found.value is None:
        yield f"{of}NO {found.meaning} holds."
    else:
        exact = ""
        if found.exact is not None and found.kind is not None:
            edge = "the range ends at" if found.beyond is None else "exact edge"
            exact = f"; {edge} {both(found.exact, found.kind, systems, 4)}"
            side = "below" if found.wanted == "largest" else "above"
            exact += f", {side} which the wear law does not hold" if found.edge_of_law else ""
        if not found.passes:
            what = "THE PATH" if found.whole_path else "THE JOINT"
            yield f"{of}{what} DOES NOT PASS, even with this answer; it is for all that depends on it."
            of = ""
        yield f"{of}{superlative} {found.meaning} that holds: {_rounded(found, systems)}{exact}."
    yield found.reason
    if found.idle and found.passes:
        yield f"The {'path' if found.whole_path else 'joint'} passes at every one."


def _rounded(found: Size, systems: tuple[System, ...]) -> str:
    """The value for the drawing, in the systems that are wanted."""
    assert found.value is not None
    texts = {"si": found.value.text, "inch": found.value_inch.text if found.value_inch else found.value.text}
    wanted = [texts[system] for system in systems]
    if len(set(wanted)) == 1:
        return wanted[0]
    return f"{wanted[0]} (or {wanted[1]})"


# the curve


def _curve(found: Size, system: System) -> Table | None:
    """Values around the answer; of a list all that could be, shortened."""
    points = _around(found)
    if not points:
        return None
    unit = in_unit(0.0, found.kind, system)[1] if found.kind is not None else ""
    title = f"{SHORT[found.find]}, {unit}" if unit else SHORT[found.find]
    rows: list[tuple[str, ...]] = []
    verdicts = []
    for point in points:
        rows.append(
            (
                _label(found, point, system),
                or_dash(point.safety_factor),
                point.governing,
                "cannot be" if point.refused else "met" if point.holds else "missed",
                "-" if point.refused else VERDICT_WORDS[point.verdict].lower(),
                point.note,
            )
        )
        verdicts.append(point.verdict)
    columns: tuple[Column, ...] = (
        Column(title, "right"),
        Column("Factor", "right"),
        Column("Governing", width=28),
        Column("Targets", width=7),
        Column("Verdict", width=10),
        Column("", width=11),
    )
    if not any(point.note for point in points):
        columns, rows = columns[:-1], [row[:-1] for row in rows]
    legend = (
        "Factor: lowest safety factor of what depends on the unknown. Targets: met where all of that holds. "
        "Verdict: of torqcheck assess, of the joint or, with --path, of the whole path."
    )
    if any(point.note == "for the rest" for point in points):
        legend += " For the rest: all else is met there."
    return Table("Around the answer", columns, tuple(rows), tuple(verdicts), legend)


def _label(found: Size, point: Point, system: System) -> str:
    if found.kind is None:
        return point.label
    return significant(in_unit(point.value, found.kind, system)[0], 4)


def _around(found: Size) -> list[Point]:
    """Points near the answer, or near the best where there is none; what cannot be only next to it."""
    points = list(found.curve)
    if not points:
        return []
    if found.find == "pitch":
        return points
    middle = found.at or found.best
    if middle is None:
        return points[: 2 * AROUND + 1]
    place = min(range(len(points)), key=lambda i: abs(points[i].value - middle.value))
    named = {i for i, point in enumerate(points) if point.note}
    near = set(range(max(0, place - AROUND), min(len(points), place + AROUND + 1)))
    if found.kind is None:
        return [points[i] for i in sorted(near)]
    return [points[i] for i in sorted(near | named)]


def _bands(found: Size) -> Table | None:
    """Hardness bands: how many rows hold, the cheapest of them."""
    bands: Sequence[dict[str, Any]] = found.extra.get("bands", ())
    rows = []
    for band in bands:
        rows.append(
            (
                band["words"],
                f"{band['hold']} of {band['rows']}",
                band["steel"],
                "-" if band["cost_index"] is None else f"{band['cost_index']:.1f}",
                or_dash(band["safety_factor"]),
                band["governing"],
            )
        )
    columns = (
        Column("Hardness band", width=16),
        Column("Hold", "right"),
        Column("Cheapest that holds", width=16),
        Column("Cost", "right"),
        Column("Factor", "right"),
        Column("Governing", width=20),
    )
    legend = (
        "Hold: rows of the steel tables in this band with which all targets hold. Where none does, the "
        "nearest is shown. Cost: per kilogram, cold drawn 1018 as 1; common practice, no source."
    )
    return Table("Bands, the softest first", columns, tuple(rows), (), legend) if rows else None


def curve_rows(found: Size) -> list[dict[str, Any]]:
    """The curve as plain rows for CSV, SI."""
    unit = found.unit.replace(" ", "").replace("/", "_")
    name = "value" if found.kind is None else f"value_{unit}"
    return [
        {
            name: point.label if found.kind is None else f"{in_unit(point.value, found.kind, 'si')[0]:.6g}",
            "safety_factor": "" if point.safety_factor is None else f"{point.safety_factor:.6g}",
            "governing": point.governing,
            "verdict": point.verdict,
            "holds": str(point.holds).lower(),
            "note": point.note,
        }
        for point in found.curve
    ]


# what stands around it


def _remedies(found: Size) -> Iterator[str]:
    if found.value is not None:
        return
    for remedy in found.remedies:
        does = "mends it" if remedy.mends else "helps, but is not enough"
        does = "takes the wear out of judgement, which is no mend" if remedy.unjudged else does
        words = f": {remedy.words[:1].lower()}{remedy.words[1:].rstrip('.')}" if remedy.words else ""
        yield f"{remedy.what[:1].upper()}{remedy.what[1:]} {does}{words} ({remedy.command})."
    if found.best is not None and not found.remedies:
        yield "Nothing else of this joint or of the motor that was tried mends it."


def _gaps(found: Size, systems: tuple[System, ...]) -> Iterator[str]:
    for gap in found.gaps:
        if found.kind is None:
            yield f"Does not hold: {gap.because}."
            continue
        low, high = (both(value, found.kind, systems, 4) for value in (gap.low, gap.high))
        yield f"{low} to {high} does not hold: {gap.because}."


def _searched(found: Size, systems: tuple[System, ...]) -> Iterator[str]:
    """The range, what was changed beside the unknown, and how often assess was asked."""
    of = "the whole path" if found.whole_path else f'the joint "{found.joint}"'
    if found.kind is not None and found.range_low is not None and found.range_high is not None:
        low, high = (both(value, found.kind, systems) for value in (found.range_low, found.range_high))
        yield f"{low} to {high} ({found.range_words}); {found.trials} scenarios tried, of {of}."
    else:
        yield f"{found.range_words}; {found.trials} scenarios tried, of {of}."
    if isinstance(found.now, float) and found.kind is not None:
        yield f"In the file: {both(found.now, found.kind, systems)}."
    elif isinstance(found.now, str):
        yield f"In the file: {found.now}."
    yield from found.notes


def _next(found: Size) -> Iterator[str]:
    if found.changes:
        new = {key: value for key, value in found.changes.items() if value is not None}
        gone = [key for key, value in found.changes.items() if value is None]
        written = ", ".join(f"{key} = {_toml(value)}" for key, value in new.items())
        first = "To repeat it, write" if "stack" in found.extra else "Write"
        yield f"{first} {written}{'; take out ' if gone else ''}{', '.join(gone)}; then torqcheck assess."
    for demand in found.stopped_by:
        yield f"Settle first: {demand_words(demand)}."


def _toml(value: Any) -> str:
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{key} = {_toml(inner)}" for key, inner in value.items()) + " }"
    if isinstance(value, bool):
        return str(value).lower()
    return f'"{value}"' if isinstance(value, str) else str(value)
