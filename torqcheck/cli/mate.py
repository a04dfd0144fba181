"""`torqcheck mate`: true mate, worn mate, or false fit."""

import math
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

import torqcheck
from torqcheck.cli.options import (
    Format,
    FormatOption,
    OutOption,
    PlainOption,
    Units,
    UnitsOption,
    emit,
    terminal,
)
from torqcheck.cli.spline_options import Given, involute_from_options, quantity, refuse_bad_count
from torqcheck.errors import DomainError, UsageError

if TYPE_CHECKING:
    from torqcheck.assessment.bench.mating import Mating
    from torqcheck.geometry.pairs.bench_readings import PartReadings, PinReading, Reading
    from torqcheck.geometry.pairs.lash_comparison import LashReading
    from torqcheck.geometry.spline import InvoluteSpline

__all__ = ["mate"]

_READINGS = ("over-pins", "between-pins", "major-diameter", "minor-diameter", "clearance")
EXIT_CODES = {"true mate": 0, "worn mate": 0, "false fit": 1, "not measured": 3}


def _quantity_option(name: str, text: str, metavar: str = "LENGTH") -> typer.models.OptionInfo:
    option: typer.models.OptionInfo = typer.Option(
        f"--{name}", metavar=metavar, help=text, show_default=False
    )
    return option


def mate(
    scenario: Annotated[
        Path | None,
        typer.Argument(metavar="SCENARIO", help="A scenario file; or give the options.", show_default=False),
    ] = None,
    external_teeth: Annotated[
        int | None, typer.Option("--external-teeth", metavar="N", help="Teeth of the shaft, counted.")
    ] = None,
    internal_teeth: Annotated[
        int | None, typer.Option("--internal-teeth", metavar="M", help="Teeth of the hub, counted.")
    ] = None,
    pitch: Annotated[str, typer.Option("--pitch", metavar="P/Ps", help='Inch pitch, "24/48".')] = "",
    module: Annotated[str, _quantity_option("module", 'Module, "2 mm" (ISO 4156, DIN 5480).')] = "",
    reference_diameter: Annotated[
        str, _quantity_option("reference-diameter", "Reference diameter of the hub's size (DIN 5480).")
    ] = "",
    pressure_angle: Annotated[str, _quantity_option("pressure-angle", "30 deg if not given.", "ANGLE")] = "",
    root: Annotated[str, typer.Option("--root", metavar="WORD", help="flat or fillet.")] = "",
    fit_class: Annotated[
        int | None,
        typer.Option(
            "--fit-class", metavar="C", help="Tolerance class of new parts, 4 to 7; 5 if not given."
        ),
    ] = None,
    over_pins: Annotated[str, _quantity_option("over-pins", "Shaft: reading over two pins.")] = "",
    pin: Annotated[str, _quantity_option("pin", "Shaft: diameter of these pins.")] = "",
    between_pins: Annotated[str, _quantity_option("between-pins", "Hub: reading between two pins.")] = "",
    hub_pin: Annotated[str, _quantity_option("hub-pin", "Hub: diameter of these pins.")] = "",
    major_diameter: Annotated[str, _quantity_option("major-diameter", "Shaft: outside diameter.")] = "",
    minor_diameter: Annotated[str, _quantity_option("minor-diameter", "Hub: inside diameter.")] = "",
    clearance: Annotated[str, _quantity_option("clearance", "Play of the pair along the pitch circle.")] = "",
    units: UnitsOption = Units.both,
    format: FormatOption = Format.table,
    out: OutOption = None,
    plain: PlainOption = False,
) -> None:
    r"""Say whether two parts truly mate, or only seem to.

    \b
    torqcheck mate scenarios/stone_saw.toml
    torqcheck mate --external-teeth 27 --internal-teeth 28 --pitch 24/48
    torqcheck mate --external-teeth 27 --internal-teeth 27 --pitch 24/48 \
        --over-pins "1.2400 in" --pin "0.080 in" --clearance "0.2 mm"

    A length is written with its unit, inch or metric.

    Exit codes: 0 true or worn mate, 1 false fit, 2 bad input, 3 not measured, 4 could not finish.
    """
    given = {
        key: value
        for key, value in (
            ("pitch", pitch),
            ("module", module),
            ("reference-diameter", reference_diameter),
            ("pressure-angle", pressure_angle),
            ("root", root),
            ("over-pins", over_pins),
            ("pin", pin),
            ("between-pins", between_pins),
            ("hub-pin", hub_pin),
            ("major-diameter", major_diameter),
            ("minor-diameter", minor_diameter),
            ("clearance", clearance),
        )
        if value
    }
    counts = (external_teeth, internal_teeth)
    mating = _mating(scenario, counts, given, fit_class)
    emit(_content(mating, units, format, out, plain), out, made_from=() if scenario is None else (scenario,))
    raise typer.Exit(EXIT_CODES[mating.worst.mate.verdict])


def _content(mating: "Mating", units: Units, form: Format, out: Path | None, plain: bool) -> str:
    """Render the finding."""
    if form is Format.json:
        from torqcheck.report.formats.as_json import as_json

        return as_json({"format": 1, "torqcheck": torqcheck.__version__, **mating.to_dict()})
    if form is Format.csv:
        from torqcheck.report.formats.as_csv import rows_as_csv

        return rows_as_csv(
            [
                {"joint": pair.name, "spline": pair.spline, "verdict": pair.mate.verdict, "reason": reason}
                for pair in mating.pairs
                for reason in pair.mate.reasons
            ]
        )
    from torqcheck.report.mating import mating_sheet

    return terminal(mating_sheet(mating, units.value), form, out=out, plain=plain)


def _mating(
    scenario: Path | None, counts: tuple[int | None, int | None], given: Given, fit_class: int | None
) -> "Mating":
    """From the scenario, or from the options; not from both."""
    from torqcheck.assessment.bench.mating import mates_of_scenario, pair_of_readings

    if scenario is not None:
        if given or fit_class is not None or counts != (None, None):
            raise UsageError("give a scenario or the readings as options, not both")
        return mates_of_scenario(scenario)
    outer, inner = counts
    if outer is None or inner is None:
        raise UsageError("give a scenario, or at least --external-teeth, --internal-teeth and the pitch")
    refuse_bad_count("external-teeth", outer)
    refuse_bad_count("internal-teeth", inner)
    if fit_class is not None and not 4 <= fit_class <= 7:
        raise UsageError(f"--fit-class {fit_class} is not a tolerance class; write 4, 5, 6 or 7")
    # the hub tells what spline it is meant to be; the shaft is what is offered to it
    spline = involute_from_options(given, inner)
    try:
        parts = _parts(outer, inner, given)
        mating = pair_of_readings(spline, *parts, _lash(given), fit_class)
    except DomainError as error:
        raise UsageError(str(error)) from error
    (pair,) = mating.pairs
    if outer == inner:
        reasons = _in_plain_words(pair.mate.reasons, spline, parts, given)
    else:
        reasons = (*pair.mate.reasons, *_not_needed(given))
    return replace(mating, pairs=(replace(pair, mate=replace(pair.mate, reasons=reasons)),))


def _not_needed(given: Given) -> Iterator[str]:
    """Say which readings were not looked at, because the counts had settled the matter."""
    unused = [f"--{key}" for key in _READINGS if key in given]
    if unused:
        yield f"Not needed, because the counts differ: {', '.join(unused)}."


def _in_plain_words(
    reasons: tuple[str, ...],
    spline: "InvoluteSpline",
    parts: "tuple[PartReadings, PartReadings]",
    given: Given,
) -> tuple[str, ...]:
    """Put what the user wrote, and what it could be, in place of the kernel's words on a bad reading."""
    from torqcheck.geometry.pairs.bench_readings import width_over_pins

    outer, inner = parts
    for side, part, key, pin in (
        ("external", outer, "over-pins", "pin"),
        ("internal", inner, "between-pins", "hub-pin"),
    ):
        for pins in part.pins:
            try:
                width_over_pins(spline, "external" if side == "external" else "internal", pins)
            except DomainError as error:
                written = f"--{key} {given[key]!r} with --{pin} {given[pin]!r}"
                plain = f"{written}, but {_possible(spline, side, pins)}"
                start = f"The reading {key.replace('-', ' ')}"
                reasons = tuple(
                    reason.replace(str(error), plain) if reason.startswith(start) else reason
                    for reason in reasons
                )
    return reasons


def _possible(spline: "InvoluteSpline", side: str, pins: "PinReading") -> str:
    """Say what these pins can read on the spline at all, from hardly any tooth to hardly any space."""
    from torqcheck.geometry.measuring.pins import between_pins, over_pins

    kernel = over_pins if side == "external" else between_pins
    pitch = math.pi * spline.module
    readings = []
    for step in range(1, 500):
        try:
            found = kernel(spline.teeth, spline.module, spline.pressure_angle, step / 500 * pitch, pins.pin)
        except DomainError:
            continue  # a pin of this size finds no place in such a space
        readings.append(float(found))
    if not readings:
        return "pins of this size find no place there; check the pin, its unit and the pitch"
    least, most = min(readings) * 1e3, max(readings) * 1e3
    return (
        f"such pins read {least:.2f} to {most:.2f} mm ({least / 25.4:.4f} to "
        f"{most / 25.4:.4f} in) there, from no tooth left to no space left; check reading, pin, units, pitch"
    )


def _parts(outer: int, inner: int, given: Given) -> "tuple[PartReadings, PartReadings]":
    from torqcheck.geometry.identifying.readings import CALIPER
    from torqcheck.geometry.pairs.bench_readings import PartReadings

    return (
        PartReadings(
            teeth=outer,
            pins=_pins(given, "over-pins", "pin"),
            major_diameter=_reading(given, "major-diameter", CALIPER),
        ),
        PartReadings(
            teeth=inner,
            pins=_pins(given, "between-pins", "hub-pin"),
            minor_diameter=_reading(given, "minor-diameter", CALIPER),
        ),
    )


def _pins(given: Given, key: str, pin: str) -> "tuple[PinReading, ...]":
    from torqcheck.geometry.identifying.readings import OVER_PINS, PIN
    from torqcheck.geometry.pairs.bench_readings import PinReading

    if key not in given:
        if pin in given:
            raise UsageError(
                f"--{pin} {given[pin]!r} is the diameter of the pins of --{key}, which is not given; give "
                f"--{key} too, or leave --{pin} out"
            )
        return ()
    if pin not in given:
        raise UsageError(f"--{key} needs --{pin}, the diameter of the pins")
    (value, tolerance), (size, size_tolerance) = quantity(given, key), quantity(given, pin)
    return (PinReading(value, tolerance or OVER_PINS, size, size_tolerance or PIN),)


def _reading(given: Given, key: str, usual: float, *, zero_allowed: bool = False) -> "Reading | None":
    from torqcheck.geometry.pairs.bench_readings import Reading

    if key not in given:
        return None
    value, tolerance = quantity(given, key, zero_allowed=zero_allowed)
    return Reading(value, tolerance or usual)


def _lash(given: Given) -> "tuple[LashReading, ...]":
    from torqcheck.geometry.pairs.lash_comparison import lash_from_clearance

    # a pair without play is a reading like any other
    reading = _reading(given, "clearance", 0.02e-3, zero_allowed=True)
    return () if reading is None else (lash_from_clearance(reading),)
