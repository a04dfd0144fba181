"""An identification for people, and as plain data."""

import math
from collections.abc import Mapping
from typing import Any, Literal

import torqcheck
from torqcheck.geometry.identifying.identification import Identification, Neighbour, NextReading, Ranked
from torqcheck.geometry.identifying.near_miss import near_miss
from torqcheck.geometry.identifying.readings import Measured
from torqcheck.geometry.pairs.judgement import COUNT_THE_TEETH
from torqcheck.provenance import weakest_mark
from torqcheck.report.numbers import both, significant
from torqcheck.report.sheet import Column, Note, Sheet, Table
from torqcheck.units import System

__all__ = ["PRACTICE", "identification_data", "identification_rows", "identification_sheet"]

MM = 1e3
HARDLY = 1.0  # a separation within what stays unknown leaves both candidates standing
PRACTICE = (
    "Mark the first tooth with paint and count twice [common practice, no source].",
    COUNT_THE_TEETH,
)
Written = Mapping[str, Literal["in", "mm"]]
"""For each diameter, by name, the unit in which it was read."""


def identification_rows(found: Identification) -> list[dict[str, Any]]:
    """Return the candidates as plain data, units in the keys, the likeliest first."""
    return [_row(ranked) for ranked in found.candidates]


def identification_data(found: Identification, written: Written) -> dict[str, Any]:
    """Return the whole identification as plain data, units in the keys."""
    return {
        "format": 1,
        "torqcheck": torqcheck.__version__,
        "verdict": found.verdict,
        "side": found.side,
        "teeth": found.readings.teeth,
        "reasons": list(found.reasons),
        "readings": _readings(found),
        "candidates": identification_rows(found),
        "compared": found.compared,
        "root_undecided": found.root_undecided,
        "next_reading": None if found.next_reading is None else _next(found.next_reading),
        "own_spline": list(_own_words(found)),
        "indistinguishable": list(found.indistinguishable),
        "pin_doubts": [
            {
                "standard": doubt.standard,
                "designation": doubt.designation,
                "pin_mm": _mm(doubt.pin),
                "reading_mm": _mm(doubt.reading),
                "difference_mm": _mm(doubt.difference),
                "deviation": _rounded(doubt.deviation),
            }
            for doubt in found.pin_doubts
        ],
        "neighbours": [
            {
                "teeth": other.teeth,
                "same_series": other.same_series,
                "tip_difference_mm": _mm(other.tip_difference),
                "pin_difference_mm": _mm(other.pin_difference),
                "fits": other.fits,
                "deviation": _rounded(other.deviation),
            }
            for other in found.neighbours
        ],
        "pseudo_mates": [
            {
                "standard": mate.standard,
                "designation": mate.designation,
                "pitch_difference_percent": _rounded(100.0 * mate.pitch_difference),
                "tip_difference_mm": _mm(mate.tip_difference),
            }
            for mate in found.pseudo_mates
        ],
        "cautions": list(_cautions(found, written)),
        "assumptions": list(found.assumptions),
        "practice": list(PRACTICE),
    }


def _mm(length: float | None) -> float | None:
    return None if length is None else round(length * MM, 5)


def _rounded(value: float | None) -> float | None:
    return None if value is None else round(value, 4)


def _row(ranked: Ranked) -> dict[str, Any]:
    candidate = ranked.candidate
    angle = candidate.pressure_angle
    return {
        "standard": candidate.standard,
        "designation": candidate.designation,
        "teeth": candidate.teeth,
        "module_mm": _mm(candidate.module),
        "pitch": candidate.pitch,
        "pressure_angle_deg": None if angle is None else round(math.degrees(angle), 6),
        "root": candidate.root,
        "deviation": _rounded(ranked.deviation),
        "wear_mm": _mm(ranked.wear),
        "width_mm": _mm(ranked.width),
        "excess_mm": _mm(ranked.excess),
        "likelihood": None if ranked.likelihood is None else float(f"{ranked.likelihood:.4g}"),
        "agrees": ranked.allowed,
        "same_part_as": ranked.same_part_as,
        "flanks": candidate.flanks,
        "listed": candidate.listed,
        "mark": weakest_mark(source.mark for source in candidate.sources),
    }


def _named_readings(found: Identification) -> list[tuple[str, Measured]]:
    """Every reading with its name, in the order in which they are asked for."""
    readings = found.readings
    word = "over pins" if found.side == "external" else "between pins"
    named: list[tuple[str, Measured | None]] = [
        ("major diameter", readings.major_diameter),
        ("minor diameter", readings.minor_diameter),
        ("tooth width" if found.side == "external" else "slot width", readings.width),
    ]
    for pair in readings.pins:
        named += [(word, pair.reading), ("pin", pair.pin)]
    return [(name, measured) for name, measured in named if measured is not None]


def _readings(found: Identification) -> list[dict[str, Any]]:
    return [
        {"reading": name, "value_mm": _mm(measured.value), "tolerance_mm": _mm(measured.spread)}
        for name, measured in _named_readings(found)
    ]


def _next(reading: NextReading) -> dict[str, Any]:
    return {
        "reading": reading.kind,
        "pin_mm": _mm(reading.pin),
        "separation": _rounded(reading.separation),
        "expected": [
            {
                "designation": name,
                "value_mm": None if isinstance(value, str) else _mm(value),
                "words": value if isinstance(value, str) else None,
            }
            for name, value in reading.expected
        ],
        "text": " ".join(_next_words(reading, ("si",))),
    }


def _next_words(reading: NextReading, systems: tuple[System, ...]) -> tuple[str, ...]:
    """Say what to read next and what each rival would show."""
    if reading.kind == "flanks":
        head = "Look at the flanks: parallel, curved, or a straight V."
    elif reading.pin is not None:
        size = both(reading.pin, "length", systems, 4)
        head = f"Read {reading.kind} with a pin of about {size} (any size near it; give its true diameter)."
    else:
        head = f"Read the {reading.kind}."
    if reading.separation is not None:
        apart = f"{significant(reading.separation, 2)} times what stays unknown"
        if reading.separation < HARDLY:
            head += f" It hardly decides; it separates the first two candidates by only {apart}."
        else:
            head += f" It separates the first two candidates by {apart}."
    shown = [
        f"{name}: {value if isinstance(value, str) else both(value, 'length', systems, 5)}"
        for name, value in reading.expected
    ]
    return (head, *(f"Expected on {line}" for line in shown))


def _own_words(found: Identification) -> tuple[str, ...]:
    """What to read on a spline of no standard: candidates that were ruled out have nothing to tell."""
    if found.verdict != "none of these":
        return ()
    shaft = found.side == "external"
    readings = found.readings
    words = []
    if readings.flanks in (None, "curved") and readings.width is None and len(readings.pins) < 2:
        how = "over" if shaft else "between"
        one = ", one besides the pin used" if readings.pins else ""
        words.append(
            f"Read {how} pins of two sizes{one}: together they give the base circle, without pitch or angle."
        )
    if (readings.minor_diameter if shaft else readings.major_diameter) is None:
        words.append(f"Read the root diameter{'' if shaft else ', over the grooves'}.")
    words.append("Take an impression of the profile, or photograph it square on with a scale beside it.")
    return tuple(words)


def _cautions(found: Identification, written: Written) -> tuple[str, ...]:
    """Doubts about the readings, and sizes that are round in the other unit system."""
    cautions = list(found.cautions)
    for name, measured in _named_readings(found)[:2]:
        if name not in written:
            continue
        near = near_miss(measured.value, written[name])
        if near is not None:
            reading = both(measured.value, "length", ("inch", "si"), 4)
            cautions.append(
                f"{name} {reading}: close to {near.words}; do not take it for {near.own} at first sight"
            )
    if found.root_undecided:
        cautions.append(
            "flat and fillet root have the same flanks: look into the root, or read the root diameter"
        )
    return tuple(cautions)


def identification_sheet(found: Identification, written: Written, systems: tuple[System, ...]) -> Sheet:
    """Arrange an identification for people."""
    member = "shaft (external teeth)" if found.side == "external" else "hub (internal teeth)"
    lines = [
        f"{name} {both(measured.value, 'length', systems, 5)} +/- {significant(measured.spread * MM, 2)} mm"
        for name, measured in _named_readings(found)
    ]
    about = (
        f"{member}, {found.readings.teeth} teeth; " + "; ".join(lines),
        "",
        f"VERDICT: {found.verdict.upper()}",
    )
    parts: list[Table | Note] = [_table(found)] if found.candidates else []
    notes = (
        ("Next reading", () if found.next_reading is None else _next_words(found.next_reading, systems)),
        ("To measure it as a spline of its own", _own_words(found)),
        ("Pins in doubt", _doubt_words(found, systems)),
        ("Not to be told apart", found.indistinguishable),
        ("One tooth less or more", tuple(_neighbour_words(other, found) for other in found.neighbours)),
        ("Looks alike, is no mate", _pseudo_words(found)),
        ("Cautions", _cautions(found, written)),
        ("Practice", PRACTICE),
        ("Assumed", found.assumptions),
    )
    parts += [Note(title, tuple(items)) for title, items in notes if items]
    return Sheet(
        "torqcheck: which spline is this?",
        about,
        None,
        tuple(_sentence(reason) for reason in found.reasons),
        tuple(parts),
        ("Estimate, not a certificate: confirm with a known good part or a gauge before metal is cut.",),
    )


def _sentence(text: str) -> str:
    return f"{text[0].upper()}{text[1:]}."


def _table(found: Identification) -> Table:
    """The candidates, one line each."""
    columns = (
        Column("Candidate", width=40),
        Column("Off", "right"),
        Column("Wear mm", "right"),
        Column("Excess mm", "right"),
        Column("Likely", "right"),
    )
    rows = tuple(
        (
            f"{ranked.candidate.standard}: {ranked.candidate.designation}"
            + (" (same flanks and tips)" if ranked.same_part_as else "")
            + ("" if ranked.candidate.listed else " (not listed)"),
            "-" if ranked.deviation is None else f"{ranked.deviation:.2f}",
            _cell(_mm(ranked.wear), 2),
            _cell(_mm(ranked.excess), 2),
            _cell(ranked.likelihood, 2),
        )
        for ranked in found.candidates
    )
    agrees = any(ranked.allowed for ranked in found.candidates)
    title = "Candidates, the likeliest first" if agrees else "Nearest sizes; none of them agrees"
    legend = (
        "Off: worst reading, in its tolerances, after making and wear are allowed for. Excess: width of "
        "tooth or space off the basic one, to the worn side. Wear: what of it lies beyond tolerance class 7. "
        "Likely: relative to the first."
    )
    return Table(title, columns, rows, legend=legend)


def _cell(value: float | None, digits: int) -> str:
    return (
        "-" if value is None else f"{value:.{digits}g}" if value < 0.01 and value else f"{value:.{digits}f}"
    )


def _doubt_words(found: Identification, systems: tuple[System, ...]) -> tuple[str, ...]:
    return tuple(
        f"{doubt.designation} would read {both(doubt.reading, 'length', systems, 5)} with a pin of "
        f"{both(doubt.pin, 'length', systems, 4)}, {abs(doubt.difference) * MM:.2f} mm from what was read: "
        "was the pin measured, or taken from a list?"
        for doubt in found.pin_doubts
    )


def _neighbour_words(other: Neighbour, found: Identification) -> str:
    tip = "outside diameter" if found.side == "external" else "minor diameter"
    text = f"{other.teeth} teeth:"
    if other.same_series and other.tip_difference is not None:
        text += f" {other.same_series} differs by {abs(other.tip_difference) * MM:.2f} mm in {tip}"
        if other.pin_difference is not None:
            text += f" and {abs(other.pin_difference) * MM:.2f} mm with these pins"
        text += ";"
    if other.fits:
        return f"{text} the same readings fit {other.fits}: only the count tells them apart."
    return f"{text} no size agrees with these readings."


def _pseudo_words(found: Identification) -> tuple[str, ...]:
    return tuple(
        f"{mate.standard}: {mate.designation}, pitch {100.0 * mate.pitch_difference:+.1f} %, "
        f"tips {mate.tip_difference * MM:+.2f} mm"
        for mate in found.pseudo_mates
    )
