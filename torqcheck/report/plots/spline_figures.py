"""The figure of a spline: the pair in mesh, shaft and hub with their pins, the worn flanks dashed.

Drawn from the true flanks. What colour says, hatching and line style say as well.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import numpy as np

from torqcheck._types import FloatArray
from torqcheck.geometry.drawing.data_block import DataBlock, MeasuredWidth, MemberName
from torqcheck.geometry.standards.limits import Band
from torqcheck.report.formats.figure_file import FIGURE_FORMS, write_drawing
from torqcheck.report.plots.shapes import MILLIMETRES, Shape, middle, pin_centre, shape_of

__all__ = ["FIGURE_FORMS", "figure_words", "write_figure"]

_WIDEST = math.radians(50.0)  # half of the angle that a panel shows, at most
_SHAFT = {"facecolor": "#9db8d2", "edgecolor": "#1c3f60", "hatch": "\\\\\\\\"}
_HUB = {"facecolor": "#ece3d0", "edgecolor": "#6b5a33", "hatch": "...."}
_WORN = {"color": "black", "linewidth": 1.3, "linestyle": (0, (4, 2))}
_KIND_WORDS = {"pitch": " (dash-dot)", "base": " (dotted)", "form": " (dashes)", "": ""}
# the page, in inches
_PAGE_WIDE, _PAIR_WIDE, _EDGE, _HEADING, _TITLE = 8.2, 6.0, 0.15, 0.65, 0.55
_PIN_WIDE = (_PAGE_WIDE - 3.0 * _EDGE) / 2.0
_CIRCLES: dict[str, Any] = {"pitch": "dashdot", "base": "dotted", "form": (0, (8, 3))}


def write_figure(path: Path, block: DataBlock, readings: Mapping[MemberName, MeasuredWidth]) -> None:
    """
    Draw a block and write the figure whole: beside the file first, then in its place.

    Parameters
    ----------
    path : Path
        Ends in one of `FIGURE_FORMS`.
    block : DataBlock
        What is drawn.
    readings : mapping
        Widths as measured, drawn dashed.

    Raises
    ------
    OutputError
        If the folder is missing or not writable, or the name has another ending.
    DomainError
        If the block has no figure: serrations, whose diameters are not known.
    """
    shape = shape_of(block, readings)
    title = f"torqcheck geometry, {block.spline.designation}"
    write_drawing(path, lambda figure: _draw(figure, shape, block), title)


def _draw(figure: Any, shape: Shape, block: DataBlock) -> None:
    """Place the panels, each to the same scale in both directions, and draw them; lengths in inches."""
    members: tuple[MemberName, ...] = ("external", "internal")
    pinned = block.external_pins is not None or block.internal_pins is not None
    pair = _pair_window(shape)
    windows = _level([_pin_window(shape, block, member) for member in members] if pinned else [])
    tall = _PAIR_WIDE * pair.height / pair.width
    low = max((_PIN_WIDE * window.height / window.width for window in windows), default=0.0)
    total = _EDGE + low + (_TITLE if pinned else 0.0) + tall + _HEADING
    figure.set_size_inches(_PAGE_WIDE, total)

    def axes(left: float, bottom: float, wide: float, window: _Window) -> Any:
        high = wide * window.height / window.width
        place = figure.add_axes((left / _PAGE_WIDE, bottom / total, wide / _PAGE_WIDE, high / total))
        place.set(
            xlim=(-window.half_width, window.half_width),
            ylim=(window.bottom, window.top),
            xticks=[],
            yticks=[],
        )
        return place

    title = f"{block.spline.standard}, {block.spline.designation} (mm)"
    figure.text(_EDGE / _PAGE_WIDE, 1.0 - 0.28 / total, title, fontsize=11, fontweight="bold")
    _pair_panel(axes(_EDGE, total - _HEADING - tall, _PAIR_WIDE, pair), shape, pair)
    for number, (member, window) in enumerate(zip(members, windows, strict=False)):
        left = _EDGE + number * (_PIN_WIDE + _EDGE)
        high = _PIN_WIDE * window.height / window.width
        _pin_panel(axes(left, _EDGE + low - high, _PIN_WIDE, window), shape, block, member)


def _piece(outline: FloatArray, half_angle: float) -> FloatArray:
    """Part of an outline around +y, closed through the centre; the whole of it if that is asked for."""
    around = np.arctan2(outline[:, 0], outline[:, 1])  # clockwise from +y
    near = np.abs(around) <= half_angle
    if near.all():
        return outline
    # begin where the outline is farthest away, so that what is kept is one run
    start = int(np.argmax(np.abs(around)))
    kept = np.roll(outline, -start, axis=0)[np.roll(near, -start)]
    return np.vstack((kept, (0.0, 0.0)))


def _turned(outline: FloatArray, angle: float) -> FloatArray:
    """Outline turned counter-clockwise."""
    c, s = math.cos(angle), math.sin(angle)
    return np.asarray(outline @ np.array(((c, s), (-s, c))), dtype=np.float64)


@dataclass(frozen=True, slots=True)
class _Window:
    """What a panel shows, mm: centred on x = 0, around +y."""

    half_width: float
    bottom: float
    top: float

    @property
    def width(self) -> float:
        """From edge to edge."""
        return 2.0 * self.half_width

    @property
    def height(self) -> float:
        """From bottom to top."""
        return self.top - self.bottom


def _pair_window(shape: Shape) -> _Window:
    """A few teeth, with some metal above and below at the edges."""
    least, most = shape.radii()
    half_width = most * math.sin(_half_angle(shape, 1.75))
    bottom = math.sqrt(max(least**2 - half_width**2, (0.3 * least) ** 2))
    return _Window(half_width, bottom - 0.4 * (most - least), most + 0.4 * (most - least))


def _pin_window(shape: Shape, block: DataBlock, member: MemberName) -> _Window:
    """One gap or space with the pin in it whole."""
    least, most = shape.radii()
    half_width = most * math.sin(_half_angle(shape, 0.85))
    bottom, top = least - 0.4 * (most - least), most + 0.4 * (most - least)
    pins = block.external_pins if member == "external" else block.internal_pins
    if pins is not None:
        centre, reach = pin_centre(block, pins, member), 0.55 * pins.pin * MILLIMETRES
        bottom, top = min(bottom, centre - reach), max(top, centre + reach)
    return _Window(half_width, bottom, top)


def _level(windows: list[_Window]) -> list[_Window]:
    """Give both pin panels one height: more metal below the shaft, more above the hub."""
    tallest = max((window.height for window in windows), default=0.0)
    shaft, hub = windows[:1], windows[1:]
    return [
        *(replace(window, bottom=window.top - tallest) for window in shaft),
        *(replace(window, top=window.bottom + tallest) for window in hub),
    ]


def _half_angle(shape: Shape, pitches: float) -> float:
    return min(pitches * shape.pitch, _WIDEST)


def _fill(axes: Any, outline: FloatArray, style: Mapping[str, str], order: int) -> None:
    from matplotlib.patches import Polygon

    axes.add_patch(Polygon(outline, closed=True, linewidth=1.0, zorder=order, **style))


def _hub_around(axes: Any, shape: Shape, bore: FloatArray, half_angle: float) -> None:
    """Fill the hub: a sector of metal, and the bore cut out of it in white."""
    _, most = shape.radii()
    angle = np.linspace(-half_angle, half_angle, 60)
    rim = 3.0 * most
    sector = np.vstack((np.column_stack((rim * np.sin(-angle), rim * np.cos(-angle))), (0.0, 0.0)))
    _fill(axes, sector, _HUB, 1)
    piece = _piece(bore, half_angle)
    _fill(axes, piece, {"facecolor": "white", "edgecolor": _HUB["edgecolor"]}, 2)


def _dashed(axes: Any, outline: FloatArray | None, half_angle: float) -> None:
    if outline is None:
        return
    piece = _piece(outline, half_angle)
    piece = piece[:-1] if len(piece) < len(outline) else np.vstack((piece, piece[:1]))
    axes.plot(*piece.T, zorder=6, **_WORN)


def _pair_panel(axes: Any, shape: Shape, window: _Window) -> None:
    """Shaft and hub in mesh with their circles, named at the right edge."""
    wide = _half_angle(shape, 1.75) + shape.pitch
    _hub_around(axes, shape, shape.bore, wide)
    _fill(axes, _piece(shape.shaft, wide), _SHAFT, 3)
    _dashed(axes, shape.worn_shaft, wide)
    _dashed(axes, shape.worn_bore, wide)
    angle = np.linspace(-wide, wide, 200)
    for _, radius, kind in shape.circles:
        if kind:
            axes.plot(
                radius * np.sin(angle), radius * np.cos(angle), color="black", linewidth=0.9,
                linestyle=_CIRCLES[kind], zorder=5,
            )  # fmt: skip
    _circle_names(axes, shape, window)
    worn = shape.worn_shaft is not None or shape.worn_bore is not None
    words = "In mesh, middle of the limits: hub (dots) above, shaft (strokes) below"
    axes.set_title(words + ("; broken line: as read with pins" if worn else ""), fontsize=9, loc="left")


def _circle_names(axes: Any, shape: Shape, window: _Window) -> None:
    """Name every circle beside the panel, spread so that no two names touch."""
    half_width, low = window.half_width, window.bottom
    gap = 0.16 * window.width / _PAIR_WIDE
    levels = [math.sqrt(max(radius**2 - half_width**2, 0.0)) for _, radius, _ in shape.circles]
    places, below = {}, low - gap
    for i in sorted(range(len(levels)), key=lambda i: shape.circles[i][1]):
        places[i] = below = max(levels[i], below + gap)
    for i, (name, radius, kind) in enumerate(shape.circles):
        text, place = f"{name} {2.0 * radius:.3f}{_KIND_WORDS[kind]}", places[i]
        axes.text(1.08 * half_width, place, text, va="center", fontsize=8)
        if levels[i] > low:
            edges = (half_width, 1.07 * half_width)
            axes.plot(edges, (levels[i], place), color="black", linewidth=0.5, clip_on=False)


def _pin_panel(axes: Any, shape: Shape, block: DataBlock, member: MemberName) -> None:
    """One member by itself with a pin in the gap or space at the top."""
    from matplotlib.patches import Circle

    shaft = member == "external"
    pins, width = (block.external_pins, block.thickness) if shaft else (block.internal_pins, block.space)
    wide = _half_angle(shape, 0.85) + shape.pitch
    turn = 0.5 * shape.pitch if shaft else 0.0
    if shaft:
        _fill(axes, _piece(_turned(shape.shaft, turn), wide), _SHAFT, 3)
        worn = shape.worn_shaft
    else:
        _hub_around(axes, shape, shape.bore, wide)
        worn = shape.worn_bore
    _dashed(axes, None if worn is None else _turned(worn, turn), wide)
    name = "Shaft" if shaft else "Hub"
    if pins is None:
        axes.set_title(f"{name}: no reading with pins", fontsize=9)
        return
    centre = pin_centre(block, pins, member)
    axes.add_patch(
        Circle((0.0, centre), 0.5 * pins.pin * MILLIMETRES, facecolor="white", edgecolor="black", zorder=4)
    )
    axes.plot([0.0], [centre], marker="+", color="black", zorder=5)
    word = "over" if shaft else "between"
    axes.set_title(
        f"{name}: {word} pins {_limits_mm(pins.reading)}\npin {pins.pin * MILLIMETRES:.3f}, "
        f"{'tooth' if shaft else 'space'} {_limits_mm(width)}",
        fontsize=9,
    )


def _limits_mm(band: Band | None) -> str:
    if band is None or band.minimum is None or band.maximum is None:
        return "not known"
    return f"{band.minimum * MILLIMETRES:.3f} to {band.maximum * MILLIMETRES:.3f}"


def figure_words(
    block: DataBlock, readings: Mapping[MemberName, MeasuredWidth], path: Path
) -> tuple[str, ...]:
    """Say in words what the figure shows."""
    shape = shape_of(block, readings)
    circles = ", ".join(f"{name.replace(',', ' of')} {2.0 * radius:.3f}" for name, radius, _ in shape.circles)
    words = [
        f"{path}: shaft and hub in mesh, at the middle of the limits; fillets and chamfers are not drawn",
        f"diameters in mm: {circles}",
    ]
    for name, pins in (
        ("shaft, pin in a gap", block.external_pins),
        ("hub, pin in a space", block.internal_pins),
    ):
        if pins is not None:
            words.append(
                f"{name}: pin {pins.pin * MILLIMETRES:.3f} mm, reading {_limits_mm(pins.reading)} mm"
            )
    for member, measured in readings.items():
        drawn = block.thickness if member == "external" else block.space
        word = "tooth" if member == "external" else "space"
        change = (measured.width - middle(drawn, math.nan)) * MILLIMETRES
        words.append(
            f"dashed: {word} {measured.width * MILLIMETRES:.3f} mm as read with pins, {abs(change):.3f} mm "
            f"{'less' if change < 0.0 else 'more'} than drawn solid"
        )
    return tuple(words)
