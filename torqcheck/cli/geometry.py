"""`torqcheck geometry`: the data block of a spline for the drawing."""

import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from torqcheck.cli.options import (
    DXF_ENDINGS,
    FIGURE_ENDINGS,
    SYSTEMS,
    DxfOption,
    Format,
    FormatOption,
    OutOption,
    PlainOption,
    Units,
    UnitsOption,
    emit,
    refuse_same_file,
    refuse_wrong_ending,
    terminal,
)
from torqcheck.cli.spline_options import block_from_options
from torqcheck.errors import DomainError, UsageError

if TYPE_CHECKING:
    from torqcheck.geometry.drawing.data_block import DataBlock, MeasuredWidth, MemberName

__all__ = ["geometry"]

# every occurrence is kept, so that an option that is written twice can be refused
Words = list[str] | None
Counts = list[int] | None


def _option(name: str, text: str, metavar: str = "LENGTH") -> typer.models.OptionInfo:
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
    teeth: Annotated[Counts, _option("teeth", "Number of teeth, counted.", "N")] = None,
    pitch: Annotated[Words, _option("pitch", 'Inch pitch, for example "24/48".', "P/Ps")] = None,
    module: Annotated[Words, _option("module", 'Module, for example "2 mm".')] = None,
    reference_diameter: Annotated[
        Words, _option("reference-diameter", "Reference diameter of DIN 5480.")
    ] = None,
    major_diameter: Annotated[Words, _option("major-diameter", "Large diameter of SAE J499.")] = None,
    designation: Annotated[
        Words, _option("designation", "8x52x60 (ISO 14), 15x17 (DIN 5481), 50x2x24 (DIN 5480).", "NAME")
    ] = None,
    pressure_angle: Annotated[
        Words, _option("pressure-angle", "30 deg (if not given), 37.5 deg or 45 deg.", "ANGLE")
    ] = None,
    root: Annotated[Words, _option("root", "flat or fillet.", "WORD")] = None,
    fit: Annotated[
        Words,
        _option("fit", "side, major diameter; H/h, H/f, H/e, H/d; sliding, close, fixed; A, B, C.", "FIT"),
    ] = None,
    fit_class: Annotated[Counts, _option("fit-class", "Tolerance class, 4 to 7.", "C")] = None,
    length: Annotated[
        Words, _option("length", "Length of the spline, for the errors of lead (ISO 4156).")
    ] = None,
    over_pins: Annotated[Words, _option("over-pins", "Reading over two pins, shaft.")] = None,
    pin: Annotated[Words, _option("pin", "Pin of the shaft; a recommended one if not given.")] = None,
    between_pins: Annotated[Words, _option("between-pins", "Reading between two pins, hub.")] = None,
    hub_pin: Annotated[Words, _option("hub-pin", "Pin of the hub; a recommended one if not given.")] = None,
    figure: Annotated[Path | None, _option("figure", "Draw the pair to a .svg or .png file.", "FILE")] = None,
    dxf: DxfOption = None,
    units: UnitsOption = Units.both,
    format: FormatOption = Format.table,
    out: OutOption = None,
    plain: PlainOption = False,
) -> None:
    r"""Print the data block of a spline: dimensions, limits, pins, for the drawing.

    \b
    torqcheck geometry ansi b92.1 --teeth 27 --pitch 24/48
    torqcheck geometry iso 4156 --teeth 20 --module "2 mm" --fit H/f \
      --figure pair.svg
    torqcheck geometry din 5480 --designation 50x2x24
    torqcheck geometry iso 14 --designation 8x52x60 --fit close --dxf pair.dxf

    Readings with pins are turned into widths, held against the new limits and drawn dashed.
    A length is written with its unit, inch or metric.
    Exit codes: 0 done, 2 bad input, 4 could not finish.
    """
    written = {
        "teeth": teeth, "pitch": pitch, "module": module, "reference-diameter": reference_diameter,
        "major-diameter": major_diameter, "designation": designation, "pressure-angle": pressure_angle,
        "root": root, "fit": fit, "fit-class": fit_class, "length": length, "over-pins": over_pins,
        "pin": pin, "between-pins": between_pins, "hub-pin": hub_pin,
    }  # fmt: skip
    given = {name: _once(name, values) for name, values in written.items() if values}
    refuse_wrong_ending("figure", figure, FIGURE_ENDINGS)
    refuse_wrong_ending("dxf", dxf, DXF_ENDINGS)
    refuse_same_file(figure=figure, dxf=dxf, out=out)
    try:
        block, readings = block_from_options(" ".join(standard), given)
        words, cut_words = _draw(figure, block, readings), _cut(dxf, block)
    except DomainError as error:
        raise UsageError(str(error)) from error
    if format is Format.json:
        from torqcheck.report.formats.as_json import as_json
        from torqcheck.report.spline_data import block_data

        content = as_json(
            block_data(block, readings, None if figure is None else str(figure))
            | {"dxf": None if dxf is None else str(dxf)}
        )
    elif format is Format.csv:
        from torqcheck.report.formats.as_csv import rows_as_csv
        from torqcheck.report.spline_data import block_rows

        content = rows_as_csv(block_rows(block))
    else:
        from torqcheck.report.spline_sheet import block_sheet

        sheet = block_sheet(block, readings, SYSTEMS[units], words, cut_words)
        content = terminal(sheet, format, out=out, plain=plain)
    emit(content, out)
    for target in (figure, dxf, out):
        if target is not None:
            print(f"written to {target}", file=sys.stderr)


def _once(name: str, values: Sequence[str | int]) -> str | int:
    """Return the value of an option that may stand only once; the last one must not win unseen."""
    if len(values) > 1:
        shown = " and ".join(repr(value) for value in values[:3])
        raise UsageError(f"--{name} is given {len(values)} times, {shown}; give it once")
    return values[0]


def _draw(
    figure: Path | None, block: "DataBlock", readings: "dict[MemberName, MeasuredWidth]"
) -> tuple[str, ...]:
    """Write the figure if one is wanted; return what it shows in words."""
    if figure is None:
        return ()
    from torqcheck.report.plots.spline_figures import figure_words, write_figure

    write_figure(figure, block, readings)
    return figure_words(block, readings, figure)


def _cut(dxf: Path | None, block: "DataBlock") -> tuple[str, ...]:
    """Write the outlines for the machine if they are wanted; return what the file holds in words."""
    if dxf is None:
        return ()
    from torqcheck.report.formats.dxf_file import dxf_words, write_dxf

    members: tuple[MemberName, ...] = ("external", "internal")
    write_dxf(dxf, block, members)
    return dxf_words(block, members, dxf)
