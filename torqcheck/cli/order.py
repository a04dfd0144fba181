"""`torqcheck order`: the drawing data of a new part, for the shop that makes it."""

import sys
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from torqcheck.cli.completing import joint_names
from torqcheck.cli.options import (
    DXF_ENDINGS,
    DxfOption,
    Format,
    FormatOption,
    OutOption,
    PlainOption,
    ScenarioArgument,
    Units,
    UnitsOption,
    emit,
    refuse_same_file,
    refuse_wrong_ending,
    sources_of,
    terminal,
)

if TYPE_CHECKING:
    from torqcheck.assessment.order.result import Order
    from torqcheck.geometry.drawing.data_block import MemberName

__all__ = ["order"]

EXIT_CODES = {"ready": 0, "settle first": 3, "do not make": 1}


class Side(StrEnum):
    """Which part of the joint is made."""

    external = "external"
    internal = "internal"


def order(
    scenario: ScenarioArgument,
    joint: Annotated[
        str,
        typer.Option(
            "--joint",
            metavar="NAME",
            help="Splined joint, by name or number; the only one if not given.",
            autocompletion=joint_names,
        ),
    ] = "",
    side: Annotated[
        Side | None,
        typer.Option("--side", help="external: shaft, internal: hub; the new parts if not given."),
    ] = None,
    fit: Annotated[
        str | None,
        typer.Option("--fit", metavar="FIT", help="As in geometry; the usual one if not given."),
    ] = None,
    fit_class: Annotated[
        int | None, typer.Option("--fit-class", metavar="C", help="Tolerance class, 4 to 7.")
    ] = None,
    dxf: DxfOption = None,
    units: UnitsOption = Units.both,
    format: FormatOption = Format.table,
    out: OutOption = None,
    plain: PlainOption = False,
) -> None:
    r"""Print what a shop needs to make a new shaft or hub: limits, pins, steel, treatment, inspection.

    \b
    torqcheck order scenarios/works_trolley.toml
    torqcheck order my.toml --joint "gearbox input" --side internal --dxf hub.dxf
    torqcheck order my.toml --fit-class 6 --format markdown --out order.md

    Exit codes: 0 ready to order, 1 a part made to these data would be a false fit, 2 bad input,
    3 something must be settled first (steel, count of the mate, limits), 4 could not finish.
    """
    refuse_wrong_ending("dxf", dxf, DXF_ENDINGS)
    refuse_same_file(dxf=dxf, out=out)
    from torqcheck.assessment.order.write import order as order_of

    found = order_of(scenario, joint, None if side is None else side.value, fit=fit, fit_class=fit_class)
    kept = sources_of(scenario, found)
    words = _cut(dxf, found, kept)
    emit(_content(found, words, units, format, out, plain, dxf), out, made_from=kept)
    for target in (dxf, out):
        if target is not None:
            print(f"{found.state}: written to {target}", file=sys.stderr)
    raise typer.Exit(EXIT_CODES[found.state])


def _content(
    found: "Order",
    words: tuple[str, ...],
    units: Units,
    form: Format,
    out: Path | None,
    plain: bool,
    dxf: Path | None,
) -> str:
    """Render the order."""
    if form is Format.json:
        from torqcheck.report.formats.as_json import as_json
        from torqcheck.report.order import order_data

        return as_json(order_data(found, None if dxf is None else str(dxf)))
    if form is Format.csv:
        from torqcheck.report.formats.as_csv import rows_as_csv
        from torqcheck.report.order import order_rows

        return rows_as_csv(order_rows(found))
    from torqcheck.report.order import order_sheet

    return terminal(order_sheet(found, units.value, words), form, out=out, plain=plain)


def _cut(dxf: Path | None, found: "Order", kept: tuple[Path, ...]) -> tuple[str, ...]:
    """Write the outlines of the new parts if they are wanted; return what the file holds in words."""
    if dxf is None:
        return ()
    from torqcheck.report.formats.dxf_file import dxf_words, write_dxf

    members: tuple[MemberName, ...] = tuple(side.side for side in found.sides)
    heading = (f"{found.title}: {found.joint}", f"file {found.file}, sha256 {found.file_sha256[:12]}")
    write_dxf(dxf, found.block, members, heading, keep=kept)
    return dxf_words(found.block, members, dxf)
