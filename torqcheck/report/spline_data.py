"""The data block of a spline as plain data and as rows; what its members have in common with the sheet."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import torqcheck
from torqcheck.assessment.rounded import band_mm, rounded_mm
from torqcheck.geometry import ansi_b92_1
from torqcheck.geometry.drawing.data_block import DataBlock, MeasuredWidth, MemberName
from torqcheck.geometry.lengths import INCH
from torqcheck.geometry.measuring.pin_choice import PinReading, SpanReading
from torqcheck.geometry.spline import InvoluteSpline
from torqcheck.geometry.standards.limits import Band, ExternalLimits, InternalLimits, WidthLimits
from torqcheck.geometry.standards.serration import SerrationSpline
from torqcheck.provenance import Mark, Source
from torqcheck.units import in_unit

__all__ = [
    "WORDS",
    "Line",
    "Side",
    "block_data",
    "block_rows",
    "degrees",
    "member_lines",
    "member_sides",
    "pitch_designation",
    "remarks_of",
    "sources_of",
]

WORDS: dict[str, dict[MemberName, str]] = {
    "title": {"external": "External member (shaft)", "internal": "Internal member (hub)"},
    "width": {"external": "tooth thickness", "internal": "space width"},
    "key": {"external": "tooth_thickness", "internal": "space_width"},
    "pins": {"external": "over pins", "internal": "between pins"},
    "pins key": {"external": "over_pins", "internal": "between_pins"},
}
_UNREAD = "exact diameters and limits of DIN 5481 could not be read"


@dataclass(frozen=True, slots=True)
class Line:
    """One dimension of a member with its limits."""

    name: str
    band: Band
    mark: Mark


@dataclass(frozen=True, slots=True)
class Side:
    """One member of a block, under names that both members share."""

    name: MemberName
    limits: ExternalLimits | InternalLimits
    width: WidthLimits | None
    pins: PinReading | None
    spans: tuple[SpanReading, ...]


def member_sides(block: DataBlock) -> Iterator[Side]:
    """Both members as far as there are limits."""
    if block.external is not None:
        shaft = block.external
        yield Side("external", shaft, shaft.tooth_thickness, block.external_pins, block.external_spans)
    if block.internal is not None:
        hub = block.internal
        yield Side("internal", hub, hub.space_width, block.internal_pins, block.internal_spans)


def member_lines(side: Side) -> Iterator[Line]:
    """Every dimension of a member that has a limit, in the order of a drawing."""
    return (line for line in _all_lines(side) if (line.band.minimum, line.band.maximum) != (None, None))


def _all_lines(side: Side) -> Iterator[Line]:
    limits = side.limits
    by_diameter, by_width = limits.diameter_source.mark, limits.width_source.mark
    yield Line("major diameter", limits.major_diameter, by_diameter)
    if limits.form_diameter is not None:
        shaft = side.name == "external"
        form = Band(None if shaft else limits.form_diameter, limits.form_diameter if shaft else None)
        yield Line("form diameter", form, limits.form_source.mark)
    yield Line("minor diameter", limits.minor_diameter, by_diameter)
    if side.width is not None:
        word = WORDS["width"][side.name]
        yield Line(f"{word}, actual", side.width.actual, by_width)
        if side.width.effective is not None:
            yield Line(f"{word}, effective", side.width.effective, by_width)
    if side.pins is not None:
        word = WORDS["pins"][side.name]
        yield Line(word, side.pins.reading, by_width)
        if side.pins.effective_reading is not None:
            yield Line(f"{word}, effective", side.pins.effective_reading, by_width)
        yield Line("pins touch at diameter", side.pins.contact_diameter, by_width)
    one, more = ("tooth", "teeth") if side.name == "external" else ("space", "spaces")
    for span in side.spans:
        yield Line(f"span over {span.count} {one if span.count == 1 else more}", span.reading, by_width)


def block_rows(block: DataBlock) -> list[dict[str, Any]]:
    """Return every dimension with limits as one row, mm; an open end is None."""
    rows = [
        {
            "member": side.name,
            "dimension": line.name,
            "minimum_mm": rounded_mm(line.band.minimum),
            "maximum_mm": rounded_mm(line.band.maximum),
            "mark": line.mark,
        }
        for side in member_sides(block)
        for line in member_lines(side)
    ]
    if rows:
        return rows
    shaft = block.diameters("external")
    named = (("minor diameter", shaft.minor_diameter), ("major diameter", shaft.major_diameter))
    return [
        {
            "member": "both",
            "dimension": f"nominal {name}",
            "minimum_mm": rounded_mm(size),
            "maximum_mm": rounded_mm(size),
            "mark": block.spline.sources[0].mark,
        }
        for name, size in named
    ]


def block_data(
    block: DataBlock, readings: dict[MemberName, MeasuredWidth], figure: str | None = None
) -> dict[str, Any]:
    """Return the whole block as plain data, units in the keys; an absent value has its reason in `absent`."""
    spline = block.spline
    involute = spline if isinstance(spline, InvoluteSpline) else None
    limits = block.external
    return {
        "format": 1,
        "torqcheck": torqcheck.__version__,
        "standard": spline.standard,
        "designation": spline.designation,
        "teeth": spline.teeth,
        "module_mm": rounded_mm(involute.module) if involute else None,
        "pitch": pitch_designation(block),
        "pressure_angle_deg": round(degrees(involute.pressure_angle), 9) if involute else None,
        "root": involute.root if involute else None,
        "fit": None if limits is None else limits.fit,
        "fit_class": None if limits is None else limits.fit_class,
        "external": _member_data(block, "external"),
        "internal": _member_data(block, "internal"),
        "new_clearance_mm": {
            "effective": band_mm(block.effective_clearance),
            "actual": band_mm(block.actual_clearance),
        },
        "readings": {name: _measured_data(name, measured) for name, measured in readings.items()},
        "figure": figure,
        "notes": list(remarks_of(block)),
        "sources": [str(source) for source in sources_of(block)],
    }


def degrees(angle: float) -> float:
    """Return an angle in degrees."""
    value, _ = in_unit(angle, "angle", "si")
    return value


def pitch_designation(block: DataBlock) -> str | None:
    """Pitch designation of an inch spline."""
    spline = block.spline
    if not isinstance(spline, InvoluteSpline) or spline.standard != ansi_b92_1.STANDARD:
        return None
    first = round(INCH / spline.module, 6)
    return f"{first:g}/{2.0 * first:g}"


def _member_data(block: DataBlock, name: MemberName) -> dict[str, Any]:
    """Return one member as plain data."""
    spline = block.spline
    side = next((side for side in member_sides(block) if side.name == name), None)
    diameters = block.diameters(name)
    width = None if side is None else side.width
    pins = None if side is None else side.pins
    key, pins_key = WORDS["key"][name], WORDS["pins key"][name]
    involute = spline if isinstance(spline, InvoluteSpline) else None
    data: dict[str, Any] = {
        "pitch_diameter_mm": rounded_mm(involute.pitch_diameter) if involute else None,
        "base_diameter_mm": rounded_mm(involute.base_diameter) if involute else None,
        "major_diameter_mm": rounded_mm(diameters.major_diameter),
        "minor_diameter_mm": rounded_mm(diameters.minor_diameter),
        "form_diameter_mm": rounded_mm(diameters.form_diameter),
        f"{key}_mm": None if width is None else band_mm(width.actual),
        f"effective_{key}_mm": None if width is None else band_mm(width.effective),
        "pin_mm": None if pins is None else rounded_mm(pins.pin),
        f"{pins_key}_mm": None if pins is None else band_mm(pins.reading),
        f"effective_{pins_key}_mm": None if pins is None else band_mm(pins.effective_reading),
        "pin_size": None if pins is None else pins.size,
        "pin_touching_pitch_circle_mm": None if pins is None else rounded_mm(pins.touching),
        "pin_contact_diameter_mm": None if pins is None else band_mm(pins.contact_diameter),
        "pin_doubts": [] if pins is None else list(pins.doubts),
        "spans": [
            {"count": span.count, "span_mm": band_mm(span.reading)} for span in (side.spans if side else ())
        ],
        "major_diameter_limits_mm": None if side is None else band_mm(side.limits.major_diameter),
        "minor_diameter_limits_mm": None if side is None else band_mm(side.limits.minor_diameter),
        "width_mark": None if side is None else side.limits.width_source.mark,
        "diameter_mark": None if side is None else side.limits.diameter_source.mark,
    }
    return {**data, "absent": _absent(block, side, [k for k, value in data.items() if value is None])}


def _absent(block: DataBlock, side: Side | None, keys: list[str]) -> dict[str, str]:
    """Return the reason for each absent value."""
    known = {} if side is None else dict(side.limits.absent)
    if isinstance(block.spline, SerrationSpline):
        general = _UNREAD
    elif isinstance(block.spline, InvoluteSpline):
        general = "the limits of the width, or a pin that rests on the flanks, are missing"
    else:
        general = "straight flanks have no pitch circle and are measured directly, not with pins"
    return {key: next((why for name, why in known.items() if name in key), general) for key in keys}


def _measured_data(name: MemberName, measured: MeasuredWidth) -> dict[str, Any]:
    return {
        f"{WORDS['pins key'][name]}_mm": rounded_mm(measured.reading),
        "pin_mm": rounded_mm(measured.pin),
        f"{WORDS['key'][name]}_mm": rounded_mm(measured.width),
        "tolerance_mm": rounded_mm(measured.tolerance),
        "beyond_new_mm": rounded_mm(measured.beyond_new),
        "impossible": measured.impossible,
    }


def remarks_of(block: DataBlock) -> Iterator[str]:
    """Notes of the spline and of its limits, each once."""
    seen: dict[str, None] = dict.fromkeys(block.spline.notes)
    for side in member_sides(block):
        seen.update(dict.fromkeys(side.limits.notes))
    yield from seen


def sources_of(block: DataBlock) -> tuple[Source, ...]:
    """Every source that the block rests on, each once."""
    found = dict.fromkeys(block.spline.sources)
    for side in member_sides(block):
        found.update(dict.fromkeys((side.limits.width_source, side.limits.diameter_source)))
        found.update(dict.fromkeys([side.pins.source] if side.pins else []))
        found.update(dict.fromkeys(span.source for span in side.spans))
    return tuple(found)
