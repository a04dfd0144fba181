"""`torqcheck mate`: true mate, worn mate, or false fit."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

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
from torqcheck.cli.spline_options import Given, involute_from_options, quantity
from torqcheck.errors import DomainError, UsageError

if TYPE_CHECKING:
    from torqcheck.assessment.mating import Mating
    from torqcheck.geometry.bench_readings import PartReadings, PinReading, Reading
    from torqcheck.geometry.lash_comparison import LashReading

__all__ = ["mate"]

EXIT_CODES = {"true mate": 0, "worn mate": 0, "false fit": 1, "not measured": 3}


def _quantity_option(name: str, text: str) -> typer.models.OptionInfo:
    option: typer.models.OptionInfo = typer.Option(f"--{name}", metavar="Q", help=text, show_default=False)
    return option


def mate(
    scenario: Annotated[
        Path | None,
        typer.Argument(
            metavar="[SCENARIO]", help="A scenario file; or give the options.", show_default=False
        ),
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
    pressure_angle: Annotated[str, _quantity_option("pressure-angle", "30 deg if not given.")] = "",
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

    Exit codes: 0 true or worn mate, 1 false fit, 2 bad input, 3 not measured, 4 could not finish.
    """
    given = {
        key: value
        for key, value in (
            ("pitch", pitch),
            ("module", module),
            ("reference-diameter", reference_diameter),
            ("pressure-angle", pressure_angle),
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
    mating = _mating(scenario, counts, given)
    emit(_content(mating, units, format, out, plain), out, made_from=scenario)
    raise typer.Exit(EXIT_CODES[mating.worst.mate.verdict])


def _content(mating: "Mating", units: Units, form: Format, out: Path | None, plain: bool) -> str:
    """Render the finding."""
    if form is Format.json:
        from torqcheck.report.as_json import as_json

        return as_json(mating.to_dict())
    if form is Format.csv:
        from torqcheck.report.as_csv import rows_as_csv

        return rows_as_csv(
            [
                {"joint": pair.name, "spline": pair.spline, "verdict": pair.mate.verdict, "reason": reason}
                for pair in mating.pairs
                for reason in pair.mate.reasons
            ]
        )
    from torqcheck.report.mating import mating_sheet

    return terminal(mating_sheet(mating, units.value), form, out=out, plain=plain)


def _mating(scenario: Path | None, counts: tuple[int | None, int | None], given: Given) -> "Mating":
    """From the scenario, or from the options; not from both."""
    from torqcheck.assessment.mating import mates_of_scenario, pair_of_readings

    if scenario is not None:
        if given or counts != (None, None):
            raise UsageError("give a scenario or the readings as options, not both")
        return mates_of_scenario(scenario)
    outer, inner = counts
    if outer is None or inner is None:
        raise UsageError("give a scenario, or at least --external-teeth, --internal-teeth and the pitch")
    # the hub tells what spline it is meant to be; the shaft is what is offered to it
    spline = involute_from_options(given, inner)
    try:
        return pair_of_readings(spline, *_parts(outer, inner, given), _lash(given))
    except DomainError as error:
        raise UsageError(str(error)) from error


def _parts(outer: int, inner: int, given: Given) -> "tuple[PartReadings, PartReadings]":
    from torqcheck.geometry.bench_readings import PartReadings

    return (
        PartReadings(
            teeth=outer,
            pins=_pins(given, "over-pins", "pin"),
            major_diameter=_reading(given, "major-diameter", 0.05e-3),
        ),
        PartReadings(
            teeth=inner,
            pins=_pins(given, "between-pins", "hub-pin"),
            minor_diameter=_reading(given, "minor-diameter", 0.05e-3),
        ),
    )


def _pins(given: Given, key: str, pin: str) -> "tuple[PinReading, ...]":
    from torqcheck.geometry.bench_readings import PinReading

    if key not in given:
        return ()
    if pin not in given:
        raise UsageError(f"--{key} needs --{pin}, the diameter of the pins")
    (value, tolerance), (size, size_tolerance) = quantity(given, key), quantity(given, pin)
    return (PinReading(value, tolerance or 0.02e-3, size, size_tolerance or 0.005e-3),)


def _reading(given: Given, key: str, usual: float) -> "Reading | None":
    from torqcheck.geometry.bench_readings import Reading

    if key not in given:
        return None
    value, tolerance = quantity(given, key)
    return Reading(value, tolerance or usual)


def _lash(given: Given) -> "tuple[LashReading, ...]":
    from torqcheck.geometry.lash_comparison import lash_from_clearance

    reading = _reading(given, "clearance", 0.02e-3)
    return () if reading is None else (lash_from_clearance(reading),)
