"""The data block of a spline for people: the tables of a drawing, in one unit system or both."""

from torqcheck.geometry.drawing.data_block import DataBlock, MeasuredWidth, MemberName
from torqcheck.geometry.spline import InvoluteSpline
from torqcheck.geometry.standards.serration import SerrationSpline
from torqcheck.report.sheet import Column, Note, Sheet, Table
from torqcheck.report.spline_data import (
    WORDS,
    Side,
    degrees,
    member_lines,
    member_sides,
    pitch_designation,
    remarks_of,
    sources_of,
)
from torqcheck.report.words import standard_words
from torqcheck.units import System, in_unit

__all__ = ["block_sheet", "clearance_table", "member_part", "shared_table"]

MILLIMETRES = 1e3
_PLACES: dict[System, int] = {"si": 3, "inch": 4}


def block_sheet(
    block: DataBlock,
    readings: dict[MemberName, MeasuredWidth],
    systems: tuple[System, ...],
    figure: tuple[str, ...] = (),
    dxf: tuple[str, ...] = (),
) -> Sheet:
    """Arrange the block for a drawing: what both share, each member with limits, pins, remarks, sources."""
    parts: list[Table | Note] = [shared_table(block, systems)]
    parts += [member_part(side, systems) for side in member_sides(block)]
    parts += [clearance_table(block, systems)] if block.actual_clearance is not None else []
    parts += [_readings(readings, systems)] if readings else []
    parts += [Note("Figure", figure)] if figure else []
    parts += [Note("Outline for the machine", dxf)] if dxf else []
    parts += [Note("Remarks", remarks)] if (remarks := tuple(remarks_of(block))) else []
    parts += [Note("Sources", tuple(str(source) for source in sources_of(block)))]
    limits = block.external
    about = [] if limits is None else [f"Fit: {limits.fit}"]
    if limits is not None and limits.fit_class is not None:
        about[0] += f", tolerance class {limits.fit_class}"
    closing = ("Check the drawing and the standard itself before cutting metal: see the marks.",)
    title = f"Spline data: {standard_words(block.spline.standard)}, {block.spline.designation}"
    return Sheet(title, tuple(about), None, (), tuple(parts), closing)


def _unit_columns(systems: tuple[System, ...], ends: tuple[str, ...]) -> tuple[Column, ...]:
    units = [in_unit(0.0, "length", system)[1] for system in systems]
    return tuple(Column(f"{unit} {end}".strip(), "right") for unit in units for end in ends)


def _cells(values: tuple[float | None, ...], systems: tuple[System, ...]) -> tuple[str, ...]:
    """Lengths in each system, with the places of a drawing; an open end is a dash."""
    return tuple(
        "-" if value is None else f"{in_unit(value, 'length', system)[0]:.{_PLACES[system]}f}"
        for system in systems
        for value in values
    )


def _shown(value: float, systems: tuple[System, ...]) -> str:
    texts = [f"{_cells((value,), (system,))[0]} {in_unit(0.0, 'length', system)[1]}" for system in systems]
    return texts[0] if len(texts) == 1 else f"{texts[0]} ({texts[1]})"


def shared_table(block: DataBlock, systems: tuple[System, ...]) -> Table:
    """What both members have in common; sizes as text where they are no lengths."""
    spline = block.spline
    facts = [("Number of teeth", str(spline.teeth))]
    if isinstance(spline, InvoluteSpline):
        pitch = pitch_designation(block)
        facts += [("Pitch", pitch)] if pitch else []
        facts += [
            ("Module", f"{spline.module * MILLIMETRES:.4f} mm"),
            ("Pressure angle", f"{degrees(spline.pressure_angle):g} deg"),
            ("Root", spline.root),
            ("Pitch diameter", _shown(spline.pitch_diameter, systems)),
            ("Base diameter", _shown(spline.base_diameter, systems)),
            ("Circular pitch", _shown(spline.circular_pitch, systems)),
            ("Tooth thickness, basic", _shown(spline.tooth_thickness, systems)),
        ]
    else:
        facts += [
            ("Major diameter, nominal", _shown(spline.major_diameter, systems)),
            ("Minor diameter, nominal", _shown(spline.minor_diameter, systems)),
        ]
        if isinstance(spline, SerrationSpline):
            facts += [
                ("Gap of the shaft, between flanks", f"{degrees(spline.gap_angle):.4g} deg"),
                ("Tooth of the shaft, between flanks", f"{degrees(spline.tooth_angle):.4g} deg"),
            ]
        else:
            facts += [("Tooth width, nominal", _shown(spline.tooth_width, systems))]
            facts += [("Chamfer at tip and root", _shown(spline.chamfer, systems))] if spline.chamfer else []
    return Table("Both members", (Column(""), Column("")), tuple(facts))


def member_part(side: Side, systems: tuple[System, ...]) -> Table | Note:
    """Dimensions of one member with their limits; where there is none, why."""
    title = WORDS["title"][side.name]
    absent = [f"{name.replace('_', ' ').capitalize()}: {why}" for name, why in side.limits.absent]
    columns = (Column("Dimension"), *_unit_columns(systems, ("min", "max")), Column("Mark"))
    rows = tuple(
        (line.name.capitalize(), *_cells((line.band.minimum, line.band.maximum), systems), line.mark)
        for line in member_lines(side)
    )
    legend = []
    if side.pins is not None:
        pins = side.pins
        legend.append(f"Pins {_shown(pins.pin, systems)}, {pins.size}")
        if pins.touching is not None:
            legend[0] += f"; one of {_shown(pins.touching, systems)} would touch at the pitch circle"
        legend[0] += "."
        legend += [f"This pin {doubt}." for doubt in pins.doubts]
    if side.width is not None and side.width.effective is not None:
        judged = "actual min and effective max" if side.name == "external" else "actual max and effective min"
        legend.append(f"The part is judged by {judged}; the other two are for reference.")
    legend += [f"{why}." for why in absent]
    return Table(title, columns, rows, legend=" ".join(legend)) if rows else Note(title, tuple(absent))


def clearance_table(block: DataBlock, systems: tuple[System, ...]) -> Table:
    """Clearance of a new pair, and what it can grow to without wear."""
    pairs = (
        ("new, as it shows", block.effective_clearance),
        ("as cut: shows once bedded in", block.actual_clearance),
    )
    rows = tuple(
        (name.capitalize(), *_cells((band.minimum, band.maximum), systems)) for name, band in pairs if band
    )
    columns = (Column(""), *_unit_columns(systems, ("min", "max")))
    return Table("Clearance between flanks along the pitch circle", columns, rows)


def _readings(readings: dict[MemberName, MeasuredWidth], systems: tuple[System, ...]) -> Note:
    items = []
    for name, measured in readings.items():
        word = WORDS["width"][name]
        taken = f"{WORDS['pins'][name]} {_shown(measured.reading, systems)}"
        text = f"{taken}, pin {_shown(measured.pin, systems)}: {word} {_shown(measured.width, systems)}"
        if measured.tolerance:
            text += f" +/- {_shown(measured.tolerance, systems)}"
        if measured.impossible:
            text += (
                "; beyond the new limits on the side where no wear leads: another spline, or a wrong reading"
            )
        elif measured.beyond_new is not None and measured.beyond_new > measured.tolerance:
            text += f"; worn {_shown(measured.beyond_new, systems)} beyond the new limits"
        elif measured.beyond_new:
            text += "; at the worn end of the new limits, nearer than the tolerance of the reading"
        elif measured.beyond_new is not None:
            text += "; within the new limits"
        items.append(text)
    return Note("Readings", tuple(items))
