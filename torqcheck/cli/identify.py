"""`torqcheck identify`: which standard spline lies on the bench."""

import sys
from enum import StrEnum
from typing import TYPE_CHECKING, Annotated

import typer

from torqcheck.cli.options import (
    SYSTEMS,
    Format,
    FormatOption,
    OutOption,
    PlainOption,
    Units,
    UnitsOption,
    emit,
    terminal,
)
from torqcheck.cli.spline_options import quantity, refuse_bad_count
from torqcheck.errors import DomainError, UsageError

if TYPE_CHECKING:
    from torqcheck.geometry.identifying.identification import Identification
    from torqcheck.geometry.identifying.readings import Measured, PinPair, Readings
    from torqcheck.report.identification import Written

__all__ = ["identify"]

EXIT_CODES = {"identified": 0, "cannot tell": 3, "none of these": 3}


class Side(StrEnum):
    """Member on the bench."""

    external = "external"
    internal = "internal"


class Flanks(StrEnum):
    """What the eye sees."""

    curved = "curved"
    parallel = "parallel"
    vee = "vee"


def _length(text: str, metavar: str = "LENGTH") -> typer.models.OptionInfo:
    """Make an option that takes a length with a unit."""
    option: typer.models.OptionInfo = typer.Option(metavar=metavar, help=text, show_default=False)
    return option


def identify(
    side: Annotated[Side, typer.Option(help="Shaft (external) or hub (internal).", show_default=False)],
    teeth: Annotated[int, typer.Option(metavar="N", help="Teeth, counted twice.", show_default=False)],
    major_diameter: Annotated[str, _length("Outside diameter; of a hub, over the grooves.")] = "",
    minor_diameter: Annotated[str, _length("Root diameter; of a hub, between the tips.")] = "",
    over_pins: Annotated[list[str] | None, _length("Shaft, over two pins; repeat for a second size.")] = None,
    between_pins: Annotated[
        list[str] | None, _length("Hub, between two pins; repeat for a second size.")
    ] = None,
    pin: Annotated[list[str] | None, _length("Diameter of the pins, one for each reading.")] = None,
    tooth_width: Annotated[str, _length("Width of a parallel-sided tooth, or of the hub's slot.")] = "",
    flanks: Annotated[
        Flanks | None, typer.Option(help="What the eye sees, if it is clear.", show_default=False)
    ] = None,
    pitch: Annotated[str, _length("Only this inch pitch, if it is known.", "P/Ps")] = "",
    module: Annotated[str, _length("Only this module, if it is known.")] = "",
    units: UnitsOption = Units.both,
    format: FormatOption = Format.table,
    out: OutOption = None,
    plain: PlainOption = False,
) -> None:
    r"""Find the standard splines that agree with readings, and the reading that would decide.

    \b
    torqcheck identify --side external --teeth 27 --major-diameter "1.166 in" \
      --over-pins "1.2465 +/- 0.0005 in" --pin "0.0800 +/- 0.0001 in"
    torqcheck identify --side internal --teeth 12 --pitch 5/10 \
      --between-pins "1.885 in" --pin "0.3745 +/- 0.0005 in"

    Every length takes a unit and, better, a tolerance (two standard deviations).
    Without one, 0.05 mm (caliper, over pins too) and 0.02 mm (pins) are assumed.

    Exit codes: 0 identified, 2 bad input, 3 cannot tell or none of these, 4 could not finish.
    """
    from torqcheck.geometry.identifying.identify import identify as find

    refuse_bad_count("teeth", teeth)
    texts = {"major diameter": major_diameter, "minor diameter": minor_diameter}
    readings = _readings(
        teeth,
        texts,
        _pins(side, over_pins or [], between_pins or [], pin or []),
        tooth_width,
        flanks,
        _module(pitch, module),
    )
    try:
        found = find(side.value, readings)
    except DomainError as error:
        raise UsageError(str(error)) from error
    written: Written = {
        name: "mm" if text.rstrip().endswith("mm") else "in" for name, text in texts.items() if text
    }
    emit(_content(found, written, units, format, out is not None, plain), out)
    if out is not None:
        print(f"{found.verdict}: written to {out}", file=sys.stderr)
    raise typer.Exit(EXIT_CODES[found.verdict])


def _content(
    found: "Identification", written: "Written", units: Units, form: Format, to_file: bool, plain: bool
) -> str:
    """Render the identification in the form that is wanted."""
    from torqcheck.report import identification as report

    if form is Format.json:
        from torqcheck.report.formats.as_json import as_json

        return as_json(report.identification_data(found, written))
    if form is Format.csv:
        from torqcheck.report.formats.as_csv import rows_as_csv

        rows = report.identification_rows(found)
        return rows_as_csv(rows) if rows else "standard,designation\n"
    sheet = report.identification_sheet(found, written, SYSTEMS[units])
    return terminal(sheet, form, out=None, plain=plain or to_file)


def _measured(option: str, text: str) -> "Measured":
    """Read one length with its tolerance."""
    from torqcheck.geometry.identifying.readings import Measured

    value, tolerance = quantity({option: text}, option)
    return Measured(value, tolerance or None)


def _maybe(option: str, text: str) -> "Measured | None":
    return _measured(option, text) if text else None


def _pins(side: Side, over: list[str], between: list[str], sizes: list[str]) -> "tuple[PinPair, ...]":
    """Pair readings with the pins that they were taken with."""
    from torqcheck.geometry.identifying.readings import PinPair

    if (side is Side.external and between) or (side is Side.internal and over):
        right, wrong = ("over", "between") if side is Side.external else ("between", "over")
        raise UsageError(f"--{wrong}-pins does not belong to --side {side.value}; write --{right}-pins")
    name = "over-pins" if side is Side.external else "between-pins"
    texts = over or between
    if len(texts) != len(sizes):
        raise UsageError(
            f"{len(texts)} readings --{name} and {len(sizes)} diameters --pin: give one --pin for each "
            f'reading, for example --{name} "31.66 mm" --pin "2.03 mm"'
        )
    return tuple(
        PinPair(_measured(name, text), _measured("pin", size))
        for text, size in zip(texts, sizes, strict=True)
    )


def _module(pitch: str, module: str) -> float | None:
    """Module that is known from elsewhere, m."""
    from torqcheck.geometry import ansi_b92_1
    from torqcheck.geometry.lengths import INCH

    if pitch and module:
        raise UsageError("give --pitch or --module, not both")
    if module:
        return _measured("module", module).value
    if not pitch:
        return None
    try:
        return INCH / ansi_b92_1.diametral_pitch(pitch)
    except DomainError as error:
        raise UsageError(f"--pitch: {error}") from error


def _readings(
    teeth: int,
    diameters: dict[str, str],
    pins: "tuple[PinPair, ...]",
    tooth_width: str,
    flanks: Flanks | None,
    module: float | None,
) -> "Readings":
    """Gather everything that was read."""
    from torqcheck.geometry.identifying.readings import Readings

    return Readings(
        teeth=teeth,
        major_diameter=_maybe("major-diameter", diameters["major diameter"]),
        minor_diameter=_maybe("minor-diameter", diameters["minor diameter"]),
        pins=pins,
        width=_maybe("tooth-width", tooth_width),
        flanks=None if flanks is None else flanks.value,
        module=module,
    )
