"""The DXF file, read back and held against involutes worked out here from the base circle."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path
from typing import Any

import ezdxf
import ezdxf.path
import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from shapely import Polygon

from torqcheck.errors import OutputError
from torqcheck.geometry import ansi_b92_1, din_5480, iso_4156, own_spline, straight
from torqcheck.geometry.drawing.data_block import (
    DataBlock,
    MemberName,
    block_of_involute,
    block_of_serration,
    block_of_straight,
)
from torqcheck.geometry.spline import InvoluteSpline
from torqcheck.geometry.standards import serration
from torqcheck.report.formats.dxf_file import dxf_words, write_dxf

MM = 1e-3
FINE = 1e-6  # m: what a chord may be off
EXACT = 1e-10  # m: what a vertex may be off
BOTH: tuple[MemberName, ...] = ("external", "internal")
A375, A45 = math.radians(37.5), math.radians(45.0)
OWN = own_spline(
    teeth=19, pressure_angle=math.radians(25.0), pitch_diameter=0.040, root_diameter=0.0375,
    internal_major_diameter=0.0423, tooth_thickness=3.1e-3, contact_height=1.8e-3,
)  # fmt: skip
INVOLUTE: dict[str, DataBlock] = {
    "inch": block_of_involute(ansi_b92_1.spline(27, "24/48")),
    "inch, root below the base circle": block_of_involute(ansi_b92_1.spline(6, "2.5/5")),
    "inch, major diameter fit": block_of_involute(ansi_b92_1.spline(20, "10/20"), None, "major diameter fit"),
    "inch serration": block_of_involute(ansi_b92_1.spline(36, "24/48", A45, "fillet")),
    "module": block_of_involute(iso_4156.spline(20, 2e-3), 5, "H/f", 0.03),
    "37.5 deg": block_of_involute(iso_4156.spline(31, 1e-3, A375, "fillet")),
    "reference diameter": block_of_involute(din_5480.spline(0.040, 0.002, 18)),
    "own": DataBlock(spline=OWN),
}
STRAIGHT: dict[str, DataBlock] = {
    "iso 14": block_of_straight(straight.iso_14("8x42x48"), "close"),
    "sae": block_of_straight(straight.sae(6, 0.0254, "B")),
    "own, straight": DataBlock(spline=straight.own(10, 0.032, 0.026, 0.004, 0.0003)),
}
EVERY = {**INVOLUTE, **STRAIGHT, "din 5481": block_of_serration(serration.spline("15x17"))}


@dataclass(frozen=True)
class Read:
    """What stands in a file, m."""

    drawing: Any

    def layer(self, name: str) -> list[Any]:
        return [e for e in self.drawing.modelspace() if e.dxf.layer == name]

    def line(self, name: str) -> tuple[np.ndarray, np.ndarray]:
        """Points and bulges of the only outline of a layer."""
        (line,) = self.layer(name)
        assert line.dxftype() == "LWPOLYLINE"
        assert line.closed
        rows = np.array(line.get_points("xyb"))
        return rows[:, :2] * MM, rows[:, 2]

    def area(self, name: str) -> Polygon:
        """The outline with its arcs resolved to a nanometre."""
        (line,) = self.layer(name)
        points = [(p.x, p.y) for p in ezdxf.path.make_path(line).flattening(1e-4, segments=16)]
        assert math.dist(points[0], points[-1]) < 1e-9  # it comes back to where it began, within rounding
        return Polygon(points[:-1])


def written(block: DataBlock, folder: Path, members: tuple[MemberName, ...] = BOTH) -> Read:
    target = folder / "pair.dxf"
    write_dxf(target, block, members, ("the heading",))
    drawing = ezdxf.readfile(target)
    report = drawing.audit()
    assert report.errors == []
    assert report.fixes == []
    return Read(drawing)


def straight_pieces(points: np.ndarray, bulge: np.ndarray) -> Iterator[tuple[np.ndarray, np.ndarray]]:
    for i in range(len(points)):
        if bulge[i] == 0.0:
            yield points[i], points[(i + 1) % len(points)]


def middle(band: Any, otherwise: float) -> float:
    return otherwise if band is None else 0.5 * (band.minimum + band.maximum)


def width_of(block: DataBlock, member: MemberName) -> float:
    spline = block.spline
    assert isinstance(spline, InvoluteSpline)
    if member == "external":
        return middle(block.thickness, spline.tooth_thickness)
    return middle(block.space, spline.space_width)


def half_angle(block: DataBlock, member: MemberName) -> tuple[float, float, float]:
    """Base radius, half the angle of tooth or space at the base circle, pitch angle."""
    spline = block.spline
    assert isinstance(spline, InvoluteSpline)
    inv = math.tan(spline.pressure_angle) - spline.pressure_angle
    base = 0.5 * spline.module * spline.teeth * math.cos(spline.pressure_angle)
    half = width_of(block, member) / (spline.module * spline.teeth) + inv
    return base, half, 2.0 * math.pi / spline.teeth


def from_involute(block: DataBlock, member: MemberName, point: np.ndarray) -> float:
    """Distance of a point from the nearest flank: involutes of one base circle are parallel curves.

    The involute x = rb (cos t + t sin t), y = rb (sin t - t cos t) has the radius rb sqrt(1 + t^2) and the
    polar angle t - atan(t); turned by d, its distance from itself along every normal is rb d.
    """
    base, half, pitch = half_angle(block, member)
    radius, angle = math.hypot(*point), math.atan2(point[1], point[0])
    roll = math.sqrt(max((radius / base) ** 2 - 1.0, 0.0))
    away = abs(angle - pitch * round(angle / pitch))
    return base * abs(away - (half - (roll - math.atan(roll))))


def check_flanks(block: DataBlock, read: Read, member: MemberName) -> int:
    """Every vertex of the flanks, and points along every chord, of outline and tooth space."""
    base, _, pitch = half_angle(block, member)
    seen = 0
    for name in ("OUTLINE", "TOOTH_SPACE"):
        points, bulge = read.line(f"{member.upper()}_{name}")
        for start, end in straight_pieces(points, bulge):
            inner = min(math.hypot(*start), math.hypot(*end))
            if inner < base * (1.0 - 1e-9):  # below the base circle the flank is a radial line
                angles = [math.atan2(p[1], p[0]) for p in (start, end)]
                assert math.remainder(angles[0] - angles[1], 2.0 * math.pi) == pytest.approx(0.0, abs=1e-12)
                continue
            seen += 1
            for share in (0.0, 1.0):
                assert from_involute(block, member, start + share * (end - start)) < EXACT
            for share in (0.25, 0.5, 0.75):
                assert from_involute(block, member, start + share * (end - start)) < FINE
    assert pitch > 0.0
    return seen


@pytest.mark.parametrize("member", BOTH)
@pytest.mark.parametrize("name", INVOLUTE)
def test_flanks_are_the_true_involute_to_a_micrometre(name: str, member: MemberName, tmp_path: Path) -> None:
    block = INVOLUTE[name]
    seen = check_flanks(block, written(block, tmp_path), member)
    # outline and one space: all flanks, at least three chords on each
    assert seen >= 3 * 2 * (block.spline.teeth + 1)


@pytest.mark.parametrize("member", BOTH)
@pytest.mark.parametrize("name", STRAIGHT)
def test_straight_flanks_are_parallel_at_the_middle_of_their_limits(
    name: str, member: MemberName, tmp_path: Path
) -> None:
    block = STRAIGHT[name]
    points, bulge = written(block, tmp_path).line(f"{member.upper()}_OUTLINE")
    band = block.thickness if member == "external" else block.space
    width = middle(band, block.spline.tooth_width)  # type: ignore[union-attr]  # none of these is a serration
    pitch = 2.0 * math.pi / block.spline.teeth
    pieces = list(straight_pieces(points, bulge))
    assert len(pieces) == 2 * block.spline.teeth
    for start, end in pieces:
        turn = pitch * round(math.atan2(*(0.5 * (start + end))[::-1]) / pitch)
        for point in (start, 0.5 * (start + end), end):
            across = point[1] * math.cos(turn) - point[0] * math.sin(turn)
            assert abs(across) == pytest.approx(0.5 * width, abs=EXACT)


def test_gap_of_a_serration_opens_at_60_degrees(tmp_path: Path) -> None:
    block = EVERY["din 5481"]
    read = written(block, tmp_path)
    points, bulge = read.line("EXTERNAL_TOOTH_SPACE")
    (a, b), (c, d) = straight_pieces(points, bulge)
    one, other = b - a, d - c
    between = math.acos(float(one @ other) / (math.hypot(*one) * math.hypot(*other)))
    assert math.degrees(between) == pytest.approx(120.0, abs=1e-9)  # one runs in, the other out
    # tooth and gap are equal half way: 16 mm, 32 teeth
    area = read.area("EXTERNAL_OUTLINE")
    radii = np.hypot(*points.T)
    assert (radii.min(), radii.max()) == pytest.approx((7.5 * MM, 8.5 * MM))
    angles = np.linspace(0.0, 2.0 * math.pi, 32 * 400, endpoint=False) + 1e-5
    on = sum(area.covers(_point(8.0 * math.cos(t), 8.0 * math.sin(t))) for t in angles[:800])
    assert on / 800 == pytest.approx(0.5, abs=0.005)


def _point(x: float, y: float) -> Any:
    from shapely import Point

    return Point(x, y)


@pytest.mark.parametrize("name", EVERY)
def test_outlines_are_closed_and_do_not_cross_themselves(name: str, tmp_path: Path) -> None:
    block = EVERY[name]
    read = written(block, tmp_path)
    for member in BOTH:
        whole, space = (read.area(f"{member.upper()}_{part}") for part in ("OUTLINE", "TOOTH_SPACE"))
        assert whole.is_valid
        assert whole.is_simple
        assert space.is_valid
        assert whole.area > 0.0
        # the space of a shaft lies outside its section, that of a hub inside its hole
        covered = whole.intersection(space).area / space.area
        assert covered == pytest.approx(0.0 if member == "external" else 1.0, abs=1e-3)
    if name == "sae":
        return  # its shaft has no limits: drawn nominal, it is larger than the hole
    # the shaft at the middle of its limits lies within the hole of the hub
    shaft, hole = read.area("EXTERNAL_OUTLINE"), read.area("INTERNAL_OUTLINE")
    assert shaft.difference(hole).area / shaft.area < 1e-4


@pytest.mark.parametrize("name", EVERY)
def test_units_layers_circles_and_text(name: str, tmp_path: Path) -> None:
    block = EVERY[name]
    read = written(block, tmp_path)
    assert read.drawing.header["$INSUNITS"] == 4
    assert read.drawing.header["$MEASUREMENT"] == 1
    names = {layer.dxf.name for layer in read.drawing.layers} - {"0", "Defpoints"}
    wanted = {
        f"{m}_{p}" for m in ("EXTERNAL", "INTERNAL") for p in ("OUTLINE", "TOOTH_SPACE", "CONSTRUCTION")
    }
    assert wanted <= names
    text = "\n".join(e.dxf.text for e in read.layer("TEXT"))
    assert text.startswith("the heading\n")
    assert block.spline.designation in text
    assert "all dimensions in mm" in text
    assert "nominal" in text
    words = " ".join(dxf_words(block, BOTH, Path("pair.dxf")))
    for layer in names - {"TEXT"}:
        assert layer in words
    for member in BOTH:
        radii = [e.dxf.radius for e in read.layer(f"{member.upper()}_CONSTRUCTION")]
        assert all(e.dxf.center.magnitude == 0.0 for e in read.layer(f"{member.upper()}_CONSTRUCTION"))
        if isinstance(block.spline, InvoluteSpline):
            for size in (block.spline.pitch_diameter, block.spline.base_diameter):
                assert any(math.isclose(radius, 0.5 * size / MM) for radius in radii)


@pytest.mark.parametrize("name", [name for name, block in INVOLUTE.items() if block.external_pins])
def test_pins_touch_both_flanks(name: str, tmp_path: Path) -> None:
    block = INVOLUTE[name]
    read = written(block, tmp_path)
    for member, pins in (("external", block.external_pins), ("internal", block.internal_pins)):
        assert pins is not None
        circles = read.layer(f"{member.upper()}_PINS")
        assert len(circles) == 2
        for circle in circles:
            assert circle.dxf.radius * MM == pytest.approx(0.5 * pins.pin)
            centre = np.array([circle.dxf.center.x, circle.dxf.center.y]) * MM
            assert _pin_gap(block, member, centre) == pytest.approx(0.5 * pins.pin, abs=EXACT)  # type: ignore[arg-type]
        # what a micrometre reads lies in the middle of the limits, to what a line gives for the curve
        apart = math.dist(circles[0].dxf.center.xyz, circles[1].dxf.center.xyz) * MM
        reading = apart + pins.pin if member == "external" else apart - pins.pin
        assert reading == pytest.approx(middle(pins.reading, math.nan), abs=0.5e-6)


def _pin_gap(block: DataBlock, member: MemberName, centre: np.ndarray) -> float:
    """Distance of the centre from both flanks of the space in which it lies; they must be equal."""
    base, half, pitch = half_angle(block, member)
    radius, angle = math.hypot(*centre), math.atan2(centre[1], centre[0])
    roll = math.sqrt((radius / base) ** 2 - 1.0)
    flank = half - (roll - math.atan(roll))
    if member == "external":
        tooth = math.floor(angle / pitch)
        gaps = [base * (angle - tooth * pitch - flank), base * ((tooth + 1) * pitch - flank - angle)]
    else:
        space = round(angle / pitch)
        gaps = [base * (flank - (angle - space * pitch)), base * (flank + (angle - space * pitch))]
    assert gaps[0] == pytest.approx(gaps[1], abs=1e-9)
    return gaps[0]


def test_same_input_gives_the_same_bytes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    one, other = tmp_path / "one.dxf", tmp_path / "other.dxf"
    write_dxf(one, EVERY["inch"], BOTH)
    monkeypatch.setattr("time.time", lambda: 2e9)
    write_dxf(other, EVERY["inch"], BOTH)
    assert one.read_bytes() == other.read_bytes()
    text = one.read_text(encoding="utf-8")
    for header in ("$FINGERPRINTGUID", "$VERSIONGUID"):
        assert f"{header}\n  2\n{{00000000-0000-0000-0000-000000000000}}" in text


def test_one_member_alone_has_no_layers_of_the_other(tmp_path: Path) -> None:
    read = written(EVERY["inch"], tmp_path, ("internal",))
    assert not any(layer.dxf.name.startswith("EXTERNAL") for layer in read.drawing.layers)


@pytest.mark.parametrize(
    "layer", [f"{m.upper()}_{part}" for m in BOTH for part in ("OUTLINE", "TOOTH_SPACE")]
)
def test_bulges_are_arcs_about_the_axis(layer: str, tmp_path: Path) -> None:
    points, bulge = written(EVERY["module"], tmp_path).line(layer)
    radii = np.hypot(*points.T)
    arcs = 0
    for i, (here, there) in enumerate(pairwise([*range(len(points)), 0])):
        if bulge[i] == 0.0:
            continue
        arcs += 1
        assert radii[here] == pytest.approx(radii[there], abs=EXACT)
        turn = math.remainder(
            math.atan2(*points[there][::-1]) - math.atan2(*points[here][::-1]), 2.0 * math.pi
        )
        assert 4.0 * math.atan(bulge[i]) == pytest.approx(turn, abs=1e-9)
    assert arcs == (2 * 20 if layer.endswith("OUTLINE") else 2)


@settings(deadline=None, max_examples=15, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    teeth=st.integers(6, 60),
    size=st.sampled_from(["10/20", "24/48", "0.5", "1.25", "3", "8"]),
    angle=st.sampled_from([30.0, 37.5, 45.0]),
    member=st.sampled_from(BOTH),
)
def test_any_involute_spline_is_drawn_true(
    teeth: int, size: str, angle: float, member: MemberName, tmp_path: Path
) -> None:
    radians, root = math.radians(angle), "flat" if angle == 30.0 else "fillet"
    if "/" in size:
        spline = ansi_b92_1.spline(teeth, size, radians, root)  # type: ignore[arg-type]
    else:
        spline = iso_4156.spline(teeth, float(size) * MM, radians, root)  # type: ignore[arg-type]
    block = block_of_involute(spline)
    read = written(block, tmp_path)
    assert check_flanks(block, read, member) >= 2 * (teeth + 1)
    assert read.area(f"{member.upper()}_OUTLINE").is_valid


def test_missing_folder_and_scenarios_are_refused(tmp_path: Path) -> None:
    with pytest.raises(OutputError, match="does not exist; make it first"):
        write_dxf(tmp_path / "no" / "x.dxf", EVERY["inch"], BOTH)
    kept = tmp_path / "kept.dxf"
    kept.write_text("mine")
    with pytest.raises(OutputError, match="the file that the result is made from"):
        write_dxf(kept, EVERY["inch"], BOTH, keep=(kept,))
    assert kept.read_text() == "mine"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["kept.dxf"]
