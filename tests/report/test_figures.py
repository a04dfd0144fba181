"""The figure of a spline: what is drawn, that it is the real flank, that files are whole."""

import math
import os
import re
import xml.etree.ElementTree as ET
from pathlib import Path

import numpy as np
import pytest

from torqcheck.errors import DomainError, OutputError
from torqcheck.geometry import ansi_b92_1, iso_4156, over_pins, straight, width_at_radius
from torqcheck.geometry.drawing.data_block import (
    DataBlock,
    MeasuredWidth,
    MemberName,
    block_of_involute,
    block_of_serration,
    block_of_straight,
    measured_thickness,
)
from torqcheck.geometry.standards import serration
from torqcheck.report.plots.shapes import pin_centre, shape_of
from torqcheck.report.plots.spline_figures import figure_words, write_figure

BLOCK = block_of_involute(ansi_b92_1.spline(27, "24/48"))
BLOCKS = {
    "inch": BLOCK,
    "six teeth": block_of_involute(iso_4156.spline(6, 2e-3), 6, "H/d"),
    "hundred teeth": block_of_involute(ansi_b92_1.spline(100, "48/96", math.radians(45.0), "fillet")),
    "major diameter fit": block_of_involute(ansi_b92_1.spline(20, "10/20"), 5, "major diameter"),
    "straight": block_of_straight(straight.iso_14("8x52x60")),
    "hole only": block_of_straight(straight.sae(6, 0.0254, "B")),
}


def _worn(block: DataBlock, loss: float) -> dict[MemberName, MeasuredWidth]:
    spline = ansi_b92_1.spline(27, "24/48")
    thickness = block.thickness
    assert thickness is not None
    assert thickness.minimum is not None
    pin = 2.032e-3
    reading = over_pins(27, spline.module, spline.pressure_angle, thickness.minimum - loss, pin)
    return {"external": measured_thickness(block, float(reading), pin)}


def test_drawn_flanks_are_the_involute() -> None:
    shape = shape_of(BLOCK, {})
    spline, thickness = BLOCK.spline, BLOCK.thickness
    assert isinstance(spline, type(ansi_b92_1.spline(27, "24/48")))
    assert thickness is not None
    assert thickness.minimum is not None
    assert thickness.maximum is not None
    middle = 0.5 * (thickness.minimum + thickness.maximum)
    # on the flank of the tooth at the top, every point lies half a width from the middle of the tooth
    radius = np.hypot(*shape.shaft.T) * 1e-3
    angle = np.arctan2(shape.shaft[:, 0], shape.shaft[:, 1])
    tip, root = radius.max(), radius.min()
    flank = (
        (angle > 0.0) & (angle < math.pi / 27) & (radius < tip * (1 - 1e-9)) & (radius > root * (1 + 1e-9))
    )
    assert flank.sum() > 10
    width = width_at_radius(radius[flank], spline.pitch_diameter, spline.pressure_angle, middle)
    np.testing.assert_allclose(2.0 * radius[flank] * angle[flank], width, atol=1e-9)


def test_worn_outline_lies_inside_by_half_the_loss() -> None:
    readings = _worn(BLOCK, 60e-6)
    shape = shape_of(BLOCK, readings)
    assert shape.worn_shaft is not None
    assert shape.worn_bore is None
    pitch_radius = 0.5e3 * 27 * 0.0254 / 24

    def half_width(outline: np.ndarray) -> float:
        angle, radius = np.arctan2(outline[:, 0], outline[:, 1]), np.hypot(*outline.T)
        flank = (angle > 0.0) & (angle < math.pi / 27)
        order = np.argsort(radius[flank])
        return float(np.interp(pitch_radius, radius[flank][order], angle[flank][order]) * pitch_radius)

    thickness = BLOCK.thickness
    assert thickness is not None
    assert thickness.minimum is not None
    assert thickness.maximum is not None
    below_middle = 0.5 * (thickness.maximum - thickness.minimum) + 60e-6
    # the outline is interpolated between drawn points
    assert half_width(shape.shaft) - half_width(shape.worn_shaft) == pytest.approx(
        0.5e3 * below_middle, abs=1e-4
    )


@pytest.mark.parametrize("member", ["external", "internal"])
def test_pins_touch_the_drawn_flanks(member: MemberName) -> None:
    pins = BLOCK.external_pins if member == "external" else BLOCK.internal_pins
    assert pins is not None
    shape = shape_of(BLOCK, {})
    outline = shape.shaft if member == "external" else shape.bore
    centre = pin_centre(BLOCK, pins, member)
    turn = math.pi / 27 if member == "external" else 0.0
    place = (-centre * math.sin(turn), centre * math.cos(turn))
    # chords between drawn points cut corners by less than a micrometre; drawn points may straddle the contact
    assert np.hypot(*(outline - place).T).min() == pytest.approx(0.5e3 * pins.pin, abs=2e-3)


@pytest.mark.parametrize("name", BLOCKS)
@pytest.mark.parametrize("ending", [".svg", ".png"])
def test_every_kind_can_be_drawn(name: str, ending: str, tmp_path: Path) -> None:
    target = tmp_path / f"pair{ending}"
    write_figure(target, BLOCKS[name], {})
    content = target.read_bytes()
    assert content.startswith(b"\x89PNG") if ending == ".png" else ET.fromstring(content) is not None
    assert [path.name for path in tmp_path.iterdir()] == [target.name]
    assert target.stat().st_mode & 0o777 == 0o666 & ~_mask()
    assert all(figure_words(BLOCKS[name], {}, target))


def _mask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def test_svg_carries_its_words_and_is_the_same_twice(tmp_path: Path) -> None:
    readings = _worn(BLOCK, 60e-6)
    for name in ("a.svg", "b.svg"):
        write_figure(tmp_path / name, BLOCK, readings)
    first = (tmp_path / "a.svg").read_text()
    assert first == (tmp_path / "b.svg").read_text()
    for words in (
        "pitch 28.575",
        "base 24.747",
        "form, shaft",
        "form, hub",
        "over pins",
        "between pins",
        "as read",
    ):
        assert words in first
    # a reader without colour: hatching tells the members apart, dashes the worn flank
    assert len(re.findall(r"<pattern ", first)) >= 2
    assert "stroke-dasharray" in first


def test_worn_line_is_drawn_only_with_a_reading(tmp_path: Path) -> None:
    write_figure(tmp_path / "new.svg", BLOCK, {})
    assert "as read" not in (tmp_path / "new.svg").read_text()
    words = figure_words(BLOCK, _worn(BLOCK, 60e-6), Path("x.svg"))
    assert any("less than drawn solid" in text for text in words)


def test_refusals(tmp_path: Path) -> None:
    with pytest.raises(OutputError, match=r"a figure ends in \.svg or \.png"):
        write_figure(tmp_path / "pair.pdf", BLOCK, {})
    with pytest.raises(DomainError, match="no figure of din 5481"):
        write_figure(tmp_path / "pair.svg", block_of_serration(serration.spline("15x17")), {})
    with pytest.raises(OutputError, match="does not exist; make it first"):
        write_figure(tmp_path / "missing" / "pair.png", BLOCK, {})
    (tmp_path / "pair.png").mkdir()
    with pytest.raises(OutputError, match="is a folder"):
        write_figure(tmp_path / "pair.png", BLOCK, {})
    assert [path.name for path in tmp_path.iterdir()] == ["pair.png"]


@pytest.mark.parametrize("name", ["inch", "six teeth", "hundred teeth"])
def test_names_of_circles_stand_in_order_of_their_diameter(name: str, tmp_path: Path) -> None:
    write_figure(tmp_path / "pair.svg", BLOCKS[name], {})
    svg = (tmp_path / "pair.svg").read_text()
    label = r'y="([\d.]+)" transform="[^"]*">(?:major|minor|form|pitch|base)[^<]*? (\d+\.\d{3})'
    placed = sorted((float(y), float(diameter)) for y, diameter in re.findall(label, svg))
    diameters = [diameter for _, diameter in placed]
    assert len(diameters) >= 4
    assert diameters == sorted(diameters, reverse=True)
