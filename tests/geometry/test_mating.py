"""Centred assembly against a search over all settings of the shaft; words; neighbours."""

import dataclasses
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from torqcheck.errors import DomainError
from torqcheck.geometry import (
    InvoluteSpline,
    ansi_b92_1,
    centred_assembly,
    din_5480,
    iso_4156,
    neighbour,
    own_spline,
    width_at_radius,
)

INCH = 0.0254
A30 = math.radians(30.0)
COUNTS = st.integers(6, 40)


def on_pitch_circle(teeth: int, diameter: float, thickness: float) -> InvoluteSpline:
    """A spline of any number of teeth on a given pitch circle, 1 mm deep."""
    return own_spline(
        teeth=teeth,
        pressure_angle=A30,
        pitch_diameter=diameter,
        root_diameter=diameter - 1.4e-3,
        internal_major_diameter=diameter + 1.4e-3,
        tooth_thickness=thickness,
        contact_height=1e-3,
    )


def misfits(teeth: int, spaces: int, turn: np.ndarray) -> np.ndarray:
    """Angle from each tooth to its nearest space, for each setting of the shaft."""
    place = turn[:, None] + 2.0 * np.pi * np.arange(teeth) / teeth
    pitch = 2.0 * np.pi / spaces
    return np.abs((place + 0.5 * pitch) % pitch - 0.5 * pitch)


@given(COUNTS, COUNTS)
def test_needed_clearance_is_the_least_of_any_setting(teeth: int, spaces: int) -> None:
    diameter = 0.030
    shaft = on_pitch_circle(teeth, diameter, 0.3 * math.pi * diameter / teeth)
    hub = on_pitch_circle(spaces, diameter, 0.5 * math.pi * diameter / spaces)
    found = centred_assembly(shaft, hub)
    # the misfits repeat after one step, and are least at one of its two ends or in its middle
    step = 2.0 * np.pi * math.gcd(teeth, spaces) / (teeth * spaces)
    least = misfits(teeth, spaces, np.linspace(0.0, step, 201)).max(axis=1).min()
    assert found.clearance_needed is not None
    for needed, radius in zip(found.clearance_needed, (14.5e-3, 15.5e-3), strict=True):
        assert needed == pytest.approx(2.0 * radius * least, abs=1e-9)


@settings(max_examples=60)
@given(COUNTS, COUNTS, st.floats(0.05, 0.6))
def test_free_teeth_are_the_most_of_any_setting(teeth: int, spaces: int, share: float) -> None:
    diameter = 0.030
    shaft = on_pitch_circle(teeth, diameter, share * math.pi * diameter / max(teeth, spaces))
    hub = on_pitch_circle(spaces, diameter, 0.6 * math.pi * diameter / spaces)
    radius = np.linspace(14.5e-3, 15.5e-3, 61)
    space = np.asarray(width_at_radius(radius, diameter, A30, hub.space_width))
    tooth = np.asarray(width_at_radius(radius, diameter, A30, shaft.tooth_thickness))
    allowed = 0.5 * (space - tooth) / radius
    step = 2.0 * np.pi * math.gcd(teeth, spaces) / (teeth * spaces)
    # a count that hangs on rounding is not worth a verdict
    reach = float(allowed.min()) / step
    if min(abs((reach + half) - round(reach + half)) for half in (0.0, 0.5)) < 1e-6:
        return
    enters = misfits(teeth, spaces, np.linspace(0.0, step, 801)) <= allowed.min()
    assert centred_assembly(shaft, hub).free_teeth == enters.sum(axis=1).max()


def test_same_spline_needs_nothing_and_its_neighbour_is_false() -> None:
    pair = ansi_b92_1.spline(27, "24/48")
    true = centred_assembly(pair, pair)
    assert true.enters
    assert true.clearance_needed == (0.0, 0.0)
    assert "wide enough" in true.words
    false = centred_assembly(pair, neighbour(pair, 28))
    assert not false.enters
    assert false.clearance_needed is not None
    assert 0.1215 <= false.clearance_needed[0] / INCH < false.clearance_needed[1] / INCH <= 0.1262
    assert false.words == (
        "27 teeth in 28 spaces, held on one axis: 2.60 mm of metal per tooth would have to be gone before "
        "all enter; as they are, 5 of 27 teeth enter."
    )


def test_no_worn_limit_explains_a_wrong_count() -> None:
    # 0.012 in (0.3 mm) is the largest published limit of clearance; a false mate needs about ten times that
    pair = ansi_b92_1.spline(27, "24/48")
    assert not centred_assembly(pair, neighbour(pair, 28), 0.012 * INCH).enters
    assert centred_assembly(pair, neighbour(pair, 28), 0.1023 * INCH).enters


def test_larger_neighbour_fouls_with_its_tips() -> None:
    pair = ansi_b92_1.spline(27, "24/48")
    found = centred_assembly(neighbour(pair, 28), pair)
    assert found.tips_foul
    assert found.free_teeth == 0
    assert not centred_assembly(neighbour(pair, 28), pair, 1.0).enters
    assert "into the root" in found.words


def test_tips_of_either_member_may_foul() -> None:
    pair = on_pitch_circle(20, 0.030, 2.3e-3)
    shallow_hub = dataclasses.replace(
        pair, internal=dataclasses.replace(pair.internal, major_diameter=30.6e-3)
    )
    found = centred_assembly(pair, shallow_hub)
    assert found.tip_interference == pytest.approx(0.2e-3)
    assert found.free_teeth == 0
    thick_core = dataclasses.replace(
        pair, external=dataclasses.replace(pair.external, minor_diameter=29.5e-3)
    )
    found = centred_assembly(thick_core, pair)
    assert found.tip_interference == pytest.approx(0.25e-3)
    assert found.tips_foul
    assert not found.enters


def test_two_teeth_fewer_drop_through() -> None:
    pair = ansi_b92_1.spline(26, "24/48")
    found = centred_assembly(pair, neighbour(pair, 28))
    assert found.drops_through
    assert found.clearance is None
    assert found.clearance_needed is None
    assert found.radial_overlap == 0.0
    assert "nothing drives" in found.words


def test_every_second_tooth_is_a_real_mate() -> None:
    diameter = 28 * INCH / 24
    hub = on_pitch_circle(28, diameter, 0.5 * math.pi * diameter / 28)
    shaft = on_pitch_circle(14, diameter, 0.5 * math.pi * diameter / 28)
    found = centred_assembly(shaft, hub)
    assert found.clearance_needed == (0.0, 0.0)
    assert found.free_teeth == 14
    assert found.enters


def test_thick_tooth_of_right_count_is_told_as_missing_metal() -> None:
    hub = on_pitch_circle(20, 0.030, 2.3e-3)
    found = centred_assembly(on_pitch_circle(20, 0.030, 2.4e-3), hub)
    assert found.free_teeth == 0
    assert found.missing == pytest.approx(0.1e-3 * 15.5 / 15.0, rel=1e-6)


def test_more_clearance_never_frees_fewer_teeth() -> None:
    pair = ansi_b92_1.spline(27, "24/48")
    hub = neighbour(pair, 28)
    counts = [centred_assembly(pair, hub, added).free_teeth for added in np.linspace(0.0, 3.3e-3, 60)]
    assert counts == sorted(counts)
    assert counts[-1] == 27


def test_added_clearance_must_be_a_number() -> None:
    pair = ansi_b92_1.spline(27, "24/48")
    with pytest.raises(DomainError, match="added_clearance"):
        centred_assembly(pair, pair, math.nan)


@pytest.mark.parametrize(
    ("spline", "expected"),
    [
        (ansi_b92_1.spline(13, "2.5/5"), ansi_b92_1.spline(14, "2.5/5")),
        (
            ansi_b92_1.spline(40, "128/256", math.radians(45.0), "fillet"),
            ansi_b92_1.spline(41, "128/256", math.radians(45.0), "fillet"),
        ),
        (iso_4156.spline(20, 1.25e-3), iso_4156.spline(21, 1.25e-3)),
    ],
)
def test_neighbour_is_the_standards_own_spline(spline: InvoluteSpline, expected: InvoluteSpline) -> None:
    assert neighbour(spline, expected.teeth) == expected
    assert neighbour(expected, spline.teeth) == spline


def test_neighbour_keeps_the_profile_of_din_and_own() -> None:
    for spline in (din_5480.spline(0.050, 0.002, 24), on_pitch_circle(24, 0.048, 3e-3)):
        other = neighbour(spline, 25)
        assert other.teeth == 25
        assert other.tooth_thickness == pytest.approx(spline.tooth_thickness, rel=1e-12)
        for side in ("external", "internal"):
            for name in ("major_diameter", "minor_diameter"):
                grown = getattr(getattr(other, side), name) - getattr(getattr(spline, side), name)
                assert grown == pytest.approx(0.002, rel=1e-9)


def test_neighbour_of_too_few_teeth_is_refused() -> None:
    for spline in (ansi_b92_1.spline(8, "24/48"), on_pitch_circle(8, 0.048, 3e-3)):
        with pytest.raises(DomainError, match="teeth"):
            neighbour(spline, 3)


def test_result_cannot_be_altered() -> None:
    pair = ansi_b92_1.spline(27, "24/48")
    with pytest.raises(dataclasses.FrozenInstanceError):
        centred_assembly(pair, pair).missing = 1.0  # type: ignore[misc]
