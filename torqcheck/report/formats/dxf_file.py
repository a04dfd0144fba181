"""The outline of a spline as a DXF file in mm, on named layers; the same input gives the same bytes."""

import io
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from torqcheck.geometry.drawing.cut_outline import CutOutline, Polyline, cut_outline
from torqcheck.geometry.drawing.data_block import DataBlock, MemberName
from torqcheck.report.formats.files import write_whole

if TYPE_CHECKING:
    from ezdxf.document import Drawing

__all__ = ["dxf_words", "write_dxf"]

MILLIMETRES = 1e3
MILLIMETRE_UNITS = 4  # of $INSUNITS
RELEASE = "R2010"
TEXT_LAYER = "TEXT"
# layer of a member: colour number and line type
LAYERS: dict[str, tuple[int, str]] = {
    "OUTLINE": (7, "CONTINUOUS"),
    "TOOTH_SPACE": (1, "CONTINUOUS"),
    "CONSTRUCTION": (8, "DASHDOT"),
    "PINS": (3, "CONTINUOUS"),
}
_TEXT_SHARE = 0.025
"""Height of the letters over the largest diameter."""


def write_dxf(
    path: Path,
    block: DataBlock,
    members: Sequence[MemberName],
    heading: Sequence[str] = (),
    *,
    keep: Sequence[Path] = (),
) -> None:
    """
    Write the outlines of the members, their tooth space, circles and pins, whole or not at all.

    Parameters
    ----------
    path : Path
        The file.
    block : DataBlock
        What is drawn.
    members : sequence of str
        "external", "internal" or both, in mesh about one axis.
    heading : sequence of str, optional
        Lines above the designation in the block of text.
    keep : sequence of Path, optional
        Files that are never written over.

    Raises
    ------
    OutputError
        If the folder is missing or not writable.
    DomainError
        If the dimensions leave no flank.
    """
    outlines = [cut_outline(block, member) for member in members]
    write_whole(path, _content(block, outlines, heading), keep=keep)


def dxf_words(block: DataBlock, members: Sequence[MemberName], path: Path) -> tuple[str, ...]:
    """Say what the file holds: layers, dimensions, how fine the flanks are."""
    words = [f"{path}: DXF in mm, axis at the origin."]
    for member in members:
        drawn = cut_outline(block, member)
        layers = ", ".join(_layer(member, name) for name in LAYERS if name != "PINS" or drawn.pins)
        words.append(f"Layers {layers}.")
        words.append(f"The {member} member: {'; '.join(drawn.words)}.")
    return tuple(words)


def _layer(member: MemberName, name: str) -> str:
    return f"{member.upper()}_{name}"


def _content(block: DataBlock, outlines: Sequence[CutOutline], heading: Sequence[str]) -> str:
    """Text of the file, without dates and random numbers."""
    import ezdxf

    fixed = ezdxf.options.write_fixed_meta_data_for_testing
    ezdxf.options.write_fixed_meta_data_for_testing = True
    try:
        drawing = ezdxf.new(RELEASE, setup=["linetypes"], units=MILLIMETRE_UNITS)
        drawing.header["$MEASUREMENT"] = 1
        for outline in outlines:
            _draw(drawing, outline)
        _write_text(drawing, block, outlines, heading)
        # the library walks through a set here: named in order beforehand, the classes keep that order
        for name in sorted(drawing.entitydb.dxf_types_in_use()):
            drawing.classes.add_class(name)
        stream = io.StringIO()
        drawing.write(stream)
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = fixed
    return stream.getvalue()


def _draw(drawing: "Drawing", outline: CutOutline) -> None:
    """Place one member on its layers."""
    space = drawing.modelspace()
    for name, (colour, line) in LAYERS.items():
        if name != "PINS" or outline.pins:
            drawing.layers.add(_layer(outline.member, name), color=colour, linetype=line)
    for name, line_of in (("OUTLINE", outline.whole), ("TOOTH_SPACE", outline.space)):
        space.add_lwpolyline(
            _vertices(line_of),
            format="xyb",
            close=True,
            dxfattribs={"layer": _layer(outline.member, name)},
        )
    for _, diameter in outline.circles:
        space.add_circle(
            (0.0, 0.0),
            0.5 * diameter * MILLIMETRES,
            dxfattribs={"layer": _layer(outline.member, "CONSTRUCTION")},
        )
    for x, y, diameter in outline.pins:
        space.add_circle(
            (x * MILLIMETRES, y * MILLIMETRES),
            0.5 * diameter * MILLIMETRES,
            dxfattribs={"layer": _layer(outline.member, "PINS")},
        )


def _vertices(line: Polyline) -> list[tuple[float, float, float]]:
    return [
        (float(x) * MILLIMETRES, float(y) * MILLIMETRES, float(bulge))
        for (x, y), bulge in zip(line.points, line.bulge, strict=True)
    ]


def _write_text(
    drawing: "Drawing", block: DataBlock, outlines: Sequence[CutOutline], heading: Sequence[str]
) -> None:
    """Place the block of text to the right of the drawing, one line below the other."""
    space = drawing.modelspace()
    drawing.layers.add(TEXT_LAYER, color=7)
    largest = max(size for outline in outlines for _, size in outline.circles) * MILLIMETRES
    height = _TEXT_SHARE * largest
    for number, line in enumerate(_lines(block, outlines, heading)):
        space.add_text(
            line.replace("%%", "% %"),
            height=height,
            dxfattribs={
                "layer": TEXT_LAYER,
                "insert": (0.6 * largest, 0.5 * largest - 1.6 * height * number),
            },
        )


def _lines(block: DataBlock, outlines: Sequence[CutOutline], heading: Sequence[str]) -> Iterator[str]:
    """Lines of the block of text."""
    spline = block.spline
    yield from heading
    yield f"{spline.standard}, {spline.designation}, {spline.teeth} teeth"
    limits = block.external
    if limits is not None:
        fit_class = "" if limits.fit_class is None else f", tolerance class {limits.fit_class}"
        yield f"fit {limits.fit}{fit_class}"
    yield "all dimensions in mm, axis at the origin"
    for outline in outlines:
        sizes = ", ".join(f"{name} {size * MILLIMETRES:.4f}" for name, size in outline.dimensions)
        yield f"{outline.member} member as drawn: {sizes}"
        yield f"circles: {', '.join(f'{name} {size * MILLIMETRES:.4f}' for name, size in outline.circles)}"
        if outline.pins:
            yield f"pins: diameter {outline.pins[0][2] * MILLIMETRES:.4f}"
        yield from outline.words
    yield "estimate of torqcheck: check drawing and standard before cutting metal"
