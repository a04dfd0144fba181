"""Drawn outlines against the widths, areas and lengths that they must have."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from torqcheck._types import FloatArray
from torqcheck.errors import DomainError
from torqcheck.geometry import InvoluteSpline, ansi_b92_1, din_5480, iso_4156, own_spline, width_at_radius
from torqcheck.geometry.drawing.profile import external_profile, flank_points, internal_profile

A375, A45 = math.radians(37.5), math.radians(45.0)
OWN = own_spline(
    teeth=19,
    pressure_angle=math.radians(25.0),
    pitch_diameter=0.040,
    root_diameter=0.0375,
    internal_major_diameter=0.0423,
    tooth_thickness=3.1e-3,
    contact_height=1.8e-3,
)
SPLINES = [
    ansi_b92_1.spline(27, "24/48"),
    ansi_b92_1.spline(6, "2.5/5"),  # root below the base circle
    ansi_b92_1.spline(10, "16/32", root="fillet"),
    ansi_b92_1.spline(20, "20/40", A375, "fillet"),
    ansi_b92_1.spline(40, "48/96", A45, "fillet"),
    iso_4156.spline(20, 1.25e-3),
    din_5480.spline(0.050, 0.002, 24),
    OWN,
]
NAMES = [f"{spline.standard} {spline.designation}" for spline in SPLINES]
every_spline = pytest.mark.parametrize("spline", SPLINES, ids=NAMES)


def area(outline: FloatArray) -> float:
    """Enclosed area, positive if counter-clockwise (sum of triangles with the axis)."""
    x, y = outline.T
    return 0.5 * float(np.sum(x * np.roll(y, -1) - y * np.roll(x, -1)))


def swept_area(spline: InvoluteSpline, inner: float, outer: float, width: float) -> float:
    """Area by integrating the width over the radius: the inner disc and N teeth on it."""
    radius = np.linspace(inner, outer, 20001)
    tooth = np.asarray(width_at_radius(radius, spline.pitch_diameter, spline.pressure_angle, width))
    tooth = np.clip(tooth, 0.0, 2.0 * np.pi * radius / spline.teeth)
    return math.pi * inner**2 + spline.teeth * float(np.trapezoid(tooth, radius))


def crossing_width(outline: FloatArray, radius: float, teeth: int) -> float:
    """Arc of a circle that lies inside the outline, for each tooth; chords cut at the circle."""
    distance, angle = np.hypot(*outline.T), np.unwrap(np.arctan2(outline[:, 1], outline[:, 0]))
    low, high = distance, np.roll(distance, -1)
    turn = np.roll(angle, -1)
    turn[-1] += 2.0 * np.pi
    rises, falls = (low < radius) & (high >= radius), (low >= radius) & (high < radius)
    share = (radius - low) / np.where(high == low, 1.0, high - low)
    at = angle + share * (turn - angle)
    assert rises.sum() == falls.sum() == teeth
    return radius * float(np.sum(at[falls]) - np.sum(at[rises])) / teeth % (2.0 * np.pi * radius / teeth)


@every_spline
def test_widths_of_the_drawn_teeth(spline: InvoluteSpline) -> None:
    shaft = external_profile(spline, points_per_flank=2000)
    hub = internal_profile(spline, points_per_flank=2000)
    for outline, member, width in (
        (shaft, spline.external, spline.tooth_thickness),
        (hub, spline.internal, spline.space_width),
    ):
        tip = min(0.5 * member.major_diameter, float(np.hypot(*outline.T).max()))
        for share in (0.1, 0.4, 0.9):
            radius = 0.5 * member.minor_diameter + share * (tip - 0.5 * member.minor_diameter)
            wanted = width_at_radius(radius, spline.pitch_diameter, spline.pressure_angle, width)
            # chords of 2000 points to a flank lie within a nanometre or two of it
            assert crossing_width(outline, radius, spline.teeth) == pytest.approx(float(wanted), abs=4e-9)


@every_spline
@pytest.mark.parametrize("member", ["external", "internal"])
def test_area_is_the_integral_of_the_width(spline: InvoluteSpline, member: str) -> None:
    draw, diameters, width = (
        (external_profile, spline.external, spline.tooth_thickness)
        if member == "external"
        else (internal_profile, spline.internal, spline.space_width)
    )
    wanted = swept_area(spline, 0.5 * diameters.minor_diameter, 0.5 * diameters.major_diameter, width)
    coarse, fine = (abs(area(draw(spline, None, points)) - wanted) for points in (48, 96))
    # chords leave the arc by the square of their length: twice the points, a quarter of the error
    assert fine < 1e-5 * wanted
    assert fine < coarse / 3.0


@every_spline
def test_outline_is_closed_ordered_and_of_plausible_length(spline: InvoluteSpline) -> None:
    for outline, member in (
        (external_profile(spline), spline.external),
        (internal_profile(spline), spline.internal),
    ):
        radius = np.hypot(*outline.T)
        step = np.hypot(*(outline - np.roll(outline, 1, axis=0)).T)
        assert radius.min() == pytest.approx(0.5 * member.minor_diameter, rel=1e-12)
        assert radius.max() <= 0.5 * member.major_diameter * (1.0 + 1e-12)
        assert step.min() > 0.0
        depth = radius.max() - radius.min()
        # no shorter than the inner circle, no longer than the outer one with every flank straight up and down
        shortest = 2.0 * math.pi * radius.min()
        longest = 2.0 * math.pi * radius.max() + 4.0 * spline.teeth * depth
        assert shortest < step.sum() < longest
        # counter-clockwise: the polar angle never goes back by more than a flank leans
        assert np.sum(np.diff(np.unwrap(np.arctan2(outline[:, 1], outline[:, 0])))) == pytest.approx(
            2.0 * np.pi, abs=2.0 * np.pi / spline.teeth
        )


@every_spline
def test_tooth_zero_lies_on_the_x_axis_and_the_rest_around(spline: InvoluteSpline) -> None:
    for outline in (external_profile(spline), internal_profile(spline)):
        place = {tuple(point) for point in np.round(outline * 1e9).astype(int)}
        mirrored = {(x, -y) for x, y in place}
        turn = 2.0 * np.pi / spline.teeth
        c, s = math.cos(turn), math.sin(turn)
        turned = outline @ np.array([[c, s], [-s, c]])
        nearest = [np.hypot(*(outline - point).T).min() for point in turned[:60]]
        assert max(nearest) < 1e-12
        assert len(place & mirrored) > 0.9 * len(place)
        top = outline[np.hypot(*outline.T) > np.hypot(*outline.T).max() * (1.0 - 1e-12)]
        assert np.any(np.abs(np.arctan2(top[:, 1], top[:, 0])) < 0.5 * turn)


@settings(max_examples=40)
@given(st.integers(6, 60), st.floats(0.2, 0.9), st.integers(3, 60))
def test_flank_is_the_involute(teeth: int, share: float, points: int) -> None:
    spline = iso_4156.spline(teeth, 2e-3)
    width = share * spline.circular_pitch
    flank = flank_points(spline, "external", width, points)
    assert flank.shape == (points, 2)
    radius = np.hypot(*flank.T)
    drawn = 2.0 * radius * np.arctan2(flank[:, 1], flank[:, 0])
    wanted = width_at_radius(radius, spline.pitch_diameter, spline.pressure_angle, width)
    assert drawn == pytest.approx(np.asarray(wanted), abs=1e-14)


def test_flank_is_unwound_from_the_base_circle() -> None:
    # fact of the involute: its normal touches the base circle
    spline = ansi_b92_1.spline(27, "24/48")
    flank = flank_points(spline, "external", points=2001)
    middle = 0.5 * (flank[1:] + flank[:-1])
    along = np.diff(flank, axis=0)
    moment = np.sum(middle * along, axis=1) / np.hypot(*along.T)  # distance of the normal from the axis
    above = np.hypot(*flank[:-1].T) > 0.5 * spline.base_diameter
    assert np.abs(moment[above]) == pytest.approx(0.5 * spline.base_diameter, rel=1e-6)


def test_wear_moves_every_flank_point_by_the_same_distance() -> None:
    spline = ansi_b92_1.spline(27, "24/48")
    worn = external_profile(spline, spline.tooth_thickness - 0.2e-3)
    assert area(worn) < area(external_profile(spline))
    lost = area(external_profile(spline)) - area(worn)
    depth = 0.5 * (spline.external.major_diameter - spline.external.minor_diameter)
    # 0.2 mm off the thickness at the pitch circle is 0.2 mm off it almost everywhere
    assert lost == pytest.approx(spline.teeth * depth * 0.2e-3, rel=0.03)
    wide = internal_profile(spline, spline.space_width + 0.2e-3)
    assert area(wide) > area(internal_profile(spline))


def test_thin_tooth_is_drawn_pointed() -> None:
    spline = ansi_b92_1.spline(13, "16/32")
    outline = external_profile(spline, 0.25 * spline.tooth_thickness)
    tip = float(np.hypot(*outline.T).max())
    assert tip < 0.5 * spline.external.major_diameter
    width = width_at_radius(tip, spline.pitch_diameter, spline.pressure_angle, 0.25 * spline.tooth_thickness)
    assert float(width) == pytest.approx(0.0, abs=1e-12)


def test_teeth_that_meet_above_the_root_end_there() -> None:
    spline = ansi_b92_1.spline(40, "48/96", A45, "fillet")
    outline = external_profile(spline, 0.95 * spline.circular_pitch)
    root = float(np.hypot(*outline.T).min())
    assert root > 0.5 * spline.external.minor_diameter
    width = width_at_radius(root, spline.pitch_diameter, spline.pressure_angle, 0.95 * spline.circular_pitch)
    assert float(width) == pytest.approx(2.0 * math.pi * root / 40, rel=1e-9)


@pytest.mark.parametrize("width", [0.0, -1e-3, 0.1, math.inf])
def test_impossible_width_is_refused(width: float) -> None:
    spline = ansi_b92_1.spline(27, "24/48")
    with pytest.raises(DomainError, match="tooth_thickness must lie"):
        external_profile(spline, width)
    with pytest.raises(DomainError, match="space_width must lie"):
        internal_profile(spline, width)


def test_other_impossible_requests_are_refused() -> None:
    spline = ansi_b92_1.spline(27, "24/48")
    with pytest.raises(DomainError, match="3 points"):
        external_profile(spline, points_per_flank=2)
    with pytest.raises(DomainError, match="neither"):
        flank_points(spline, "shaft")  # type: ignore[arg-type]


def test_nan_is_passed_on() -> None:
    assert np.isnan(flank_points(OWN, "external", math.nan)).all()


def test_flank_turns_radial_at_the_base_circle() -> None:
    spline = ansi_b92_1.spline(6, "2.5/5")
    flank = flank_points(spline, "external", points=9)
    radius, angle = np.hypot(*flank.T), np.arctan2(flank[:, 1], flank[:, 0])
    assert radius[0] == pytest.approx(0.5 * spline.external.minor_diameter, rel=1e-12)
    assert radius[1] == pytest.approx(0.5 * spline.base_diameter, rel=1e-12)
    assert angle[0] == pytest.approx(angle[1], rel=1e-12)
    assert np.all(np.diff(angle[1:]) < 0.0)
