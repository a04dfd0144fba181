"""The drawing data of a new part for people, and as plain rows and data."""

from collections.abc import Iterator
from typing import Any

from torqcheck.assessment.order.result import Order, OrderLine, OrderSide, Step
from torqcheck.assessment.rounded import band_mm
from torqcheck.geometry.standards.limits import Band
from torqcheck.report.build import CAUTION, file_line, systems_of
from torqcheck.report.sheet import Column, Note, Sheet, Table
from torqcheck.report.spline_data import WORDS, block_data, block_rows, member_sides, remarks_of, sources_of
from torqcheck.report.spline_sheet import clearance_table, member_part, shared_table
from torqcheck.report.verdict_words import whole_words
from torqcheck.report.words import standard_words
from torqcheck.units import System, in_unit

__all__ = ["order_data", "order_rows", "order_sheet"]

PLACES: dict[System, int] = {"si": 3, "inch": 4}
STATE_WORDS = {
    "ready": "READY TO ORDER, once the data have been checked against the drawing of the mate.",
    "settle first": "SETTLE FIRST what stands below; then order.",
    "do not make": "DO NOT MAKE the part to these data.",
}
CHECK = "Check the drawing and the standard itself before cutting metal: see the marks."


def order_sheet(found: Order, units: str, dxf: tuple[str, ...] = ()) -> Sheet:
    """
    Arrange the order: whether the shop can begin, dimensions, then each part with all that it needs.

    Parameters
    ----------
    found : Order
        The order.
    units : str
        ``si``, ``inch`` or ``both``.
    dxf : tuple of str, optional
        What a DXF file beside it holds, in words.
    """
    systems = systems_of(units)
    spline, wanted = found.block.spline, {side.side for side in found.sides}
    parts: list[Table | Note] = []
    if found.lacking:
        parts.append(Note("Before you order", tuple(entry.text for entry in found.lacking)))
    parts.append(shared_table(found.block, systems))
    parts += [member_part(side, systems) for side in member_sides(found.block) if side.name in wanted]
    if found.block.actual_clearance is not None:
        parts.append(clearance_table(found.block, systems))
    for side in found.sides:
        parts += _side_parts(side, systems)
    parts += [Note("Outline for the machine", dxf)] if dxf else []
    parts += [Note("Remarks", remarks)] if (remarks := tuple(remarks_of(found.block))) else []
    parts.append(Note("Sources", tuple(str(entry) for entry in (*sources_of(found.block), *found.sources))))
    return Sheet(
        title=f"torqcheck {found.version}: order data, {found.title}",
        about=(
            f"{found.joint}: {standard_words(spline.standard)}, {spline.designation}",
            f"Fit: {found.fit_words}",
            STATE_WORDS[found.state],
            *_whole(found),
            "",
            file_line(found),
        ),
        verdict=None,
        words=(),
        parts=tuple(parts),
        closing=(CHECK, CAUTION),
    )


def _whole(found: Order) -> tuple[str, ...]:
    """That the whole check fails as the file stands: the part may be what mends it."""
    if found.whole is None or found.whole.verdict != "fail":
        return ()
    return (f"{whole_words(found.whole)} See whether the new part mends that before you order.",)


def order_data(found: Order, dxf: str | None = None) -> dict[str, Any]:
    """Return everything as plain data, lengths in mm."""
    return {**found.to_dict(), "spline": block_data(found.block, {}), "dxf": dxf}


def order_rows(found: Order) -> list[dict[str, Any]]:
    """Return dimensions, lines and steps as rows of one form, mm."""
    wanted = {side.side for side in found.sides}
    rows = [
        _row(
            row["member"],
            "dimension",
            row["dimension"],
            "",
            [row["minimum_mm"], row["maximum_mm"]],
            row["mark"],
        )
        for row in block_rows(found.block)
        if row["member"] in {*wanted, "both"}
    ]
    for side in found.sides:
        for section, lines in (("material", side.material), ("making", side.making)):
            rows += [_line_row(side.side, section, line) for line in lines]
        rows += [_step_row(side.side, step) for step in side.inspection]
    return rows


def _row(
    member: str, section: str, item: str, words: str, band: list[float | None] | None, mark: str
) -> dict[str, Any]:
    least, most = band or (None, None)
    return {
        "member": member,
        "section": section,
        "item": item,
        "words": words,
        "minimum_mm": least,
        "maximum_mm": most,
        "mark": mark,
    }


def _line_row(member: str, section: str, line: OrderLine) -> dict[str, Any]:
    return _row(member, section, line.name, line.words, band_mm(line.band), line.mark)


def _step_row(member: str, step: Step) -> dict[str, Any]:
    words = "; ".join(text for text in (step.stage, _tool(step, ("si",)), step.accept) if text)
    return _row(member, "inspection", step.what, words, band_mm(step.band), step.mark)


def _side_parts(side: OrderSide, systems: tuple[System, ...]) -> Iterator[Table | Note]:
    """Mate, material, making and inspection of one part."""
    title = WORDS["title"][side.side]
    yield Note(f"{title}: for which mate", side.mate.words)
    if side.material:
        yield _lines(f"{title}: material and heat treatment", side.material, systems)
    yield _lines(f"{title}: making", side.making, systems)
    yield _steps(f"{title}: inspection", side.inspection, systems)


def _lines(title: str, lines: tuple[OrderLine, ...], systems: tuple[System, ...]) -> Table:
    columns = (Column("", width=17), Column("", width=44), Column("Mark", width=14))
    rows = tuple(
        (line.name.capitalize(), _said(line.words, line.band, systems, short=True), line.mark)
        for line in lines
    )
    return Table(title, columns, rows)


def _steps(title: str, steps: tuple[Step, ...], systems: tuple[System, ...]) -> Table:
    columns = (
        Column("When", width=10),
        Column("What", width=23),
        Column("With", width=15),
        Column("Accept", width=24),
    )
    rows = tuple(
        (
            step.stage,
            step.what,
            _tool(step, systems),
            f"{_said(step.accept, step.band, systems)} [{step.mark}]",
        )
        for step in steps
    )
    return Table(title, columns, rows)


def _tool(step: Step, systems: tuple[System, ...]) -> str:
    """What it is measured with, the diameter of the pins behind it."""
    return (
        step.tool if step.pin is None else f"{step.tool} {_limits(Band(step.pin, step.pin), systems, False)}"
    )


def _said(words: str, band: Band | None, systems: tuple[System, ...], *, short: bool = False) -> str:
    """Limits in words, then what is said of them; `short` leaves zeros out that nobody measures."""
    sizes = _limits(band, systems, short)
    return f"{sizes}; {words}" if sizes and words else sizes or words


def _limits(band: Band | None, systems: tuple[System, ...], short: bool) -> str:
    """A band as a drawing writes it, the second system in brackets."""
    if band is None or (band.minimum is None and band.maximum is None):
        return ""
    word = "at most " if band.minimum is None else "at least " if band.maximum is None else ""
    ends = [end for end in dict.fromkeys((band.minimum, band.maximum)) if end is not None]
    texts = []
    for system in systems:
        unit = in_unit(0.0, "length", system)[1]
        numbers = [f"{in_unit(end, 'length', system)[0]:.{PLACES[system]}f}" for end in ends]
        shown = [number.rstrip("0").rstrip(".") for number in numbers] if short else numbers
        texts.append(f"{' to '.join(shown)} {unit}")
    return word + (texts[0] if len(texts) == 1 else f"{texts[0]} ({texts[1]})")
