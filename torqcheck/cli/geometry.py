"""`torqcheck geometry`: the data block of a spline for the drawing."""

import sys
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
from torqcheck.cli.spline_options import block_from_options
from torqcheck.errors import DomainError, UsageError

if TYPE_CHECKING:
    from torqcheck.geometry.data_block import DataBlock, MeasuredWidth, MemberName
    from torqcheck.units import System

__all__ = ["geometry"]

FIGURE_ENDINGS = (".svg", ".png")
SYSTEMS: "dict[Units, tuple[System, ...]]" = {
    Units.si: ("si",),
    Units.inch: ("inch",),
    Units.both: ("si", "inch"),
}


def _option(name: str, text: str, metavar: str = "Q") -> typer.models.OptionInfo:
    """Make one optional option of the command."""
    option: typer.models.OptionInfo = typer.Option(
        f"--{name}", metavar=metavar, help=text, show_default=False
    )
    return option


def geometry(
    standard: Annotated[
        list[str],
        typer.Argument(
            metavar="STANDARD",
            help="ansi b92.1, iso 4156, din 5480, iso 14, sae j499 or din 5481.",
            show_default=False,
        ),
    ],
    teeth: Annotated[int | None, _option("teeth", "Number of teeth, counted.", "N")] = None,
    pitch: Annotated[str | None, _option("pitch", 'Inch pitch, for example "24/48".', "P/Ps")] = None,
    module: Annotated[str | None, _option("module", 'Module, for example "2 mm".')] = None,
    reference_diameter: Annotated[
        str | None, _option("reference-diameter", "Reference diameter of DIN 5480.")
    ] = None,
    major_diameter: Annotated[str | None, _option("major-diameter", "Large diameter of SAE J499.")] = None,
    designation: Annotated[
        str | None, _option("designation", "8x52x60 (ISO 14), 15x17 (DIN 5481), 50x2x24 (DIN 5480).", "NAME")
    ] = None,
    pressure_angle: Annotated[
        str | None, _option("pressure-angle", "30 deg (if not given), 37.5 deg or 45 deg.")
    ] = None,
    root: Annotated[str | None, _option("root", "flat or fillet.", "WORD")] = None,
    fit: Annotated[
        str | None,
        _option("fit", "side, major diameter; H/h, H/f, H/e, H/d; sliding, close, fixed; A, B, C.", "FIT"),
    ] = None,
    fit_class: Annotated[int | None, _option("fit-class", "Tolerance class, 4 to 7.", "C")] = None,
    length: Annotated[
        str | None, _option("length", "Length of the spline, for the errors of lead (ISO 4156).")
    ] = None,
    over_pins: Annotated[str | None, _option("over-pins", "Reading over two pins, shaft.")] = None,
    pin: Annotated[str | None, _option("pin", "Pin of the shaft; a recommended one if not given.")] = None,
    between_pins: Annotated[str | None, _option("between-pins", "Reading between two pins, hub.")] = None,
    hub_pin: Annotated[
        str | None, _option("hub-pin", "Pin of the hub; a recommended one if not given.")
    ] = None,
    figure: Annotated[Path | None, _option("figure", "Draw the pair to a .svg or .png file.", "FILE")] = None,
    units: UnitsOption = Units.both,
    format: FormatOption = Format.table,
    out: OutOption = None,
    plain: PlainOption = False,
) -> None:
    r"""Print the data block of a spline: dimensions, limits, pins, for the drawing.

    \b
    torqcheck geometry ansi b92.1 --teeth 27 --pitch 24/48
    torqcheck geometry iso 4156 --teeth 20 --module "2 mm" --fit H/f --figure pair.svg
    torqcheck geometry din 5480 --designation 50x2x24
    torqcheck geometry iso 14 --designation 8x52x60 --fit close

    Readings with pins are turned into widths, held against the new limits and drawn dashed.
    Exit codes: 0 done, 2 bad input, 4 could not finish.
    """
    given = {
        "teeth": teeth, "pitch": pitch, "module": module, "reference-diameter": reference_diameter,
        "major-diameter": major_diameter, "designation": designation, "pressure-angle": pressure_angle,
        "root": root, "fit": fit, "fit-class": fit_class, "length": length, "over-pins": over_pins,
        "pin": pin, "between-pins": between_pins, "hub-pin": hub_pin,
    }  # fmt: skip
    if figure is not None and figure.suffix.lower() not in FIGURE_ENDINGS:
        raise UsageError(f"--figure: {str(figure)!r} must end in {' or '.join(FIGURE_ENDINGS)}")
    try:
        block, readings = block_from_options(
            " ".join(standard), {name: value for name, value in given.items() if value is not None}
        )
        words = _draw(figure, block, readings)
    except DomainError as error:
        raise UsageError(str(error)) from error
    if format is Format.json:
        from torqcheck.report.as_json import as_json
        from torqcheck.report.spline_data import block_data

        content = as_json(block_data(block, readings, None if figure is None else str(figure)))
    elif format is Format.csv:
        from torqcheck.report.as_csv import rows_as_csv
        from torqcheck.report.spline_data import block_rows

        content = rows_as_csv(block_rows(block))
    else:
        from torqcheck.report.spline_sheet import block_sheet

        content = terminal(block_sheet(block, readings, SYSTEMS[units], words), format, out=out, plain=plain)
    emit(content, out)
    for written in (figure, out):
        if written is not None:
            print(f"written to {written}", file=sys.stderr)


def _draw(
    figure: Path | None, block: "DataBlock", readings: "dict[MemberName, MeasuredWidth]"
) -> tuple[str, ...]:
    """Write the figure if one is wanted; return what it shows in words."""
    if figure is None:
        return ()
    from torqcheck.report.figures import figure_words, write_figure

    write_figure(figure, block, readings)
    return figure_words(block, readings, figure)
