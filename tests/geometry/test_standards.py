"""Designations, series, limits and notes of the standards' modules, and what holds for every spline."""

import math
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torqcheck.errors import DomainError
from torqcheck.geometry import InvoluteSpline, ansi_b92_1, din_5480, iso_4156, own_spline, straight
from torqcheck.geometry.standards.ansi_b92_1_tolerances import machining_tolerance
from torqcheck.geometry.standards.iso_4156_tolerances import fundamental_deviation, total_tolerance
from torqcheck.provenance import weakest_mark

ANGLES: dict[tuple[float, Any], float] = {
    (math.radians(30.0), "flat"): 0.9,
    (math.radians(30.0), "fillet"): 1.0,
    (math.radians(37.5), "fillet"): 0.9,
    (math.radians(45.0), "fillet"): 0.8,
}
OWN: dict[str, Any] = {
    "teeth": 24,
    "pressure_angle": math.radians(30.0),
    "pitch_diameter": 0.048,
    "root_diameter": 0.0454,
    "internal_major_diameter": 0.0502,
    "tooth_thickness": 3.0e-3,
    "contact_height": 1.8e-3,
}


def assert_sound(spline: InvoluteSpline) -> None:
    """What every pair of side-fit splines obeys."""
    external, internal = spline.external, spline.internal
    assert 0.0 < external.minor_diameter < internal.minor_diameter < external.major_diameter
    assert external.major_diameter < internal.major_diameter
    assert 0.0 < spline.tooth_thickness <= spline.space_width < spline.circular_pitch
    assert spline.base_diameter < spline.pitch_diameter
    assert spline.pitch_diameter == pytest.approx(spline.teeth * spline.module)
    if external.form_diameter is not None and internal.form_diameter is not None:
        assert external.minor_diameter <= external.form_diameter <= internal.minor_diameter
        assert external.major_diameter <= internal.form_diameter <= internal.major_diameter
    clearance = spline.new_clearance
    assert 0.0 <= clearance.minimum < clearance.maximum
    assert clearance.bedded_in is not None
    assert clearance.maximum < clearance.bedded_in < 0.5e-3
    assert clearance.assumes
    assert spline.sources


# pitches as coarse as the forms are tabulated; finer ones have other proportions of clearance
@given(
    st.integers(6, 60),
    st.sampled_from(["2.5/5", "6/12", "12/24", "16/32", "24/48"]),
    st.sampled_from(list(ANGLES)),
)
def test_inch_splines_are_sound(teeth: int, pitch: str, form: tuple[float, Any]) -> None:
    spline = ansi_b92_1.spline(teeth, pitch, *form)
    assert_sound(spline)
    assert spline.contact_height == pytest.approx(ANGLES[form] * spline.module)
    assert spline.new_clearance.source.mark == "from memory"


@given(st.integers(6, 100), st.sampled_from(iso_4156.MODULES[1:]), st.sampled_from(list(ANGLES)))
def test_module_splines_are_sound(teeth: int, module: float, form: tuple[float, Any]) -> None:
    spline = iso_4156.spline(teeth, module * 1e-3, *form)
    assert_sound(spline)
    if form[0] < 0.6:
        assert spline.contact_height == pytest.approx(ANGLES[form] * spline.module)
    else:
        assert spline.contact_height == pytest.approx(spline.radial_overlap)


@given(st.sampled_from(din_5480.MODULES), st.integers(6, 80), st.floats(-0.05, 0.45))
def test_reference_diameter_splines_are_sound(module: float, teeth: int, shift: float) -> None:
    reference = module * (teeth + 1.1 + 2.0 * shift) * 1e-3
    spline = din_5480.spline(reference, module * 1e-3, teeth)
    assert_sound(spline)
    assert spline.radial_overlap == pytest.approx(spline.contact_height)
    assert spline.new_clearance.source.mark == "assumed"
    assert "could not be read" in spline.new_clearance.assumes


@pytest.mark.parametrize(
    "pitch", ["20/41", "7/14", "20", "20/40/60", "", "1e2/2e2", "twenty/forty", "-20/-40"]
)
def test_unknown_pitch_is_refused_with_the_series(pitch: str) -> None:
    with pytest.raises(DomainError, match=r"2\.5/5 3/6 .* 20/40 24/48 .* 128/256"):
        ansi_b92_1.spline(20, pitch)


def test_pitch_may_be_spaced() -> None:
    assert ansi_b92_1.diametral_pitch(" 2.5 / 5 ") == 2.5


@pytest.mark.parametrize("module", [0.0012, 0.0, -0.002, math.nan, 2.0])
def test_unknown_module_is_refused_with_the_series(module: float) -> None:
    with pytest.raises(DomainError, match=r"1 1\.25 1\.5"):
        iso_4156.spline(20, module)
    with pytest.raises(DomainError, match=r"0\.6 0\.75 0\.8"):
        din_5480.spline(0.050, module, 24)


@pytest.mark.parametrize(
    "maker", [lambda n: ansi_b92_1.spline(n, "20/40"), lambda n: iso_4156.spline(n, 1e-3)]
)
@pytest.mark.parametrize("teeth", [3, 0, -5, 20.5])
def test_meaningless_number_of_teeth_is_refused(maker: Callable[[Any], InvoluteSpline], teeth: float) -> None:
    with pytest.raises(DomainError, match="teeth must be a whole number"):
        maker(teeth)


@pytest.mark.parametrize("teeth", [5, 61, 149])
def test_teeth_beyond_the_table_carry_a_note(teeth: int) -> None:
    assert any("outside the standard's 6 to 60" in note for note in ansi_b92_1.spline(teeth, "20/40").notes)
    assert ansi_b92_1.spline(20, "20/40").notes == ()


def test_pitch_beyond_the_form_carries_a_note() -> None:
    assert any("2.5/5 to 32/64" in note for note in ansi_b92_1.spline(20, "48/96").notes)
    assert "carried on" in ansi_b92_1.spline(20, "64/128").new_clearance.assumes


def test_conflicts_of_sources_are_noted() -> None:
    fillet = ansi_b92_1.spline(20, "20/40", root="fillet")
    assert any("source conflict" in note for note in fillet.notes)
    assert fillet.root_diameter == pytest.approx(18 * fillet.module)
    assert not ansi_b92_1.spline(20, "12/24", root="fillet").notes
    serration = ansi_b92_1.spline(20, "20/40", math.radians(45.0), "fillet")
    assert any("source conflict" in note for note in serration.notes)
    assert serration.internal.minor_diameter == pytest.approx(19.4 * serration.module)
    assert any("source conflict" in note for note in straight.iso_14("8x56x65").notes)


def test_remembered_parts_are_marked() -> None:
    for spline in (
        ansi_b92_1.spline(20, "20/40"),
        iso_4156.spline(20, 1e-3),
        din_5480.spline(0.050, 0.002, 24),
    ):
        assert weakest_mark(source.mark for source in spline.sources) == "from memory"


@pytest.mark.parametrize("degrees", [20.0, 29.9, 38.0])
def test_unknown_angle_is_refused(degrees: float) -> None:
    for maker in (lambda a: ansi_b92_1.spline(20, "20/40", a), lambda a: iso_4156.spline(20, 1e-3, a)):
        with pytest.raises(DomainError, match=r"it has 30, 37\.5, 45 deg"):
            maker(math.radians(degrees))


def test_flat_root_exists_at_30_degrees_only() -> None:
    with pytest.raises(DomainError, match=r'37\.5 deg has no root \'flat\'; write root = "fillet"'):
        ansi_b92_1.spline(20, "20/40", math.radians(37.5))
    with pytest.raises(DomainError, match=r"45 deg has no root"):
        iso_4156.spline(20, 1e-3, math.radians(45.0))


def test_form_clearance_keeps_its_limits() -> None:
    inch = 0.0254
    assert ansi_b92_1.form_clearance(1.0 * inch) == pytest.approx(0.002 * inch)
    assert ansi_b92_1.form_clearance(5.0 * inch) == pytest.approx(0.005 * inch)
    assert ansi_b92_1.form_clearance(20.0 * inch) == pytest.approx(0.010 * inch)


def test_reference_diameter_that_does_not_fit_the_teeth() -> None:
    with pytest.raises(DomainError, match="do not belong together; about 24 teeth"):
        din_5480.spline(0.050, 0.002, 40)
    assert any("profile shift" in note for note in din_5480.spline(0.050, 0.002, 22).notes)
    with pytest.raises(DomainError, match="reference_diameter"):
        din_5480.spline(math.inf, 0.002, 23)


def test_closer_class_and_fit_give_less() -> None:
    assert [machining_tolerance(20, 12, c) for c in (4, 5, 6, 7)] == sorted(
        machining_tolerance(20, 12, c) for c in (4, 5, 6, 7)
    )
    assert fundamental_deviation(0.04, "h") == 0.0
    with pytest.raises(DomainError, match="fit class 8"):
        machining_tolerance(20, 12, 8)
    with pytest.raises(DomainError, match="tolerance class 3"):
        total_tolerance(20, 1e-3, 3)
    with pytest.raises(DomainError, match="d, e, f, h"):
        fundamental_deviation(0.04, "g")
    with pytest.raises(DomainError, match="250 mm"):
        fundamental_deviation(0.3, "f")


def test_own_dimensions_are_kept() -> None:
    spline = own_spline(**OWN)
    assert_sound(spline)
    assert spline.root_diameter == OWN["root_diameter"]
    assert spline.radial_overlap == pytest.approx(OWN["contact_height"])
    assert spline.new_clearance.source.mark == "assumed"
    assert any("not given" in note for note in spline.notes)


def test_tips_of_own_dimensions_stay_clear_of_the_roots() -> None:
    spline = own_spline(**{**OWN, "root_diameter": 0.0470, "internal_major_diameter": 0.0510})
    assert spline.internal.minor_diameter >= 0.0470
    assert spline.external.major_diameter <= 0.0510
    assert spline.radial_overlap == pytest.approx(OWN["contact_height"])


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"teeth": 3}, "teeth must be"),
        ({"pressure_angle": 0.0}, "pressure_angle"),
        ({"pitch_diameter": math.inf}, "pitch_diameter must be above 0"),
        ({"root_diameter": 0.049}, "between root_diameter and internal_major_diameter"),
        ({"tooth_thickness": 6.3e-3}, "leaves no space"),
        ({"contact_height": 3e-3}, "contact_height is more than"),
        ({"contact_height": math.nan}, "contact_height must be above 0"),
    ],
)
def test_impossible_own_dimension_is_refused(change: dict[str, float], message: str) -> None:
    with pytest.raises(DomainError, match=message):
        own_spline(**{**OWN, **change})


def test_fits_of_straight_splines() -> None:
    # slot 10 H9 is 0 to +36, tooth d10 is -40 to -98, f9 -13 to -49, h10 0 to -58 micrometre (from memory)
    for fit, least, most in (("sliding", 40e-6, 134e-6), ("close", 13e-6, 85e-6), ("fixed", 0.0, 94e-6)):
        clearance = straight.iso_14("8x52x60", fit=fit).new_clearance  # type: ignore[arg-type]
        assert clearance.minimum == pytest.approx(least)
        assert clearance.maximum == pytest.approx(most)
        assert clearance.source.mark == "from memory"


def test_chamfer_shortens_the_bearing_flank() -> None:
    assert straight.iso_14("8x52x60", 0.0).contact_height == pytest.approx(4.0e-3)
    assert straight.iso_14("8x52x60", 0.3e-3).contact_height == pytest.approx(3.4e-3)
    assert "from memory" in straight.iso_14("8x52x60").notes[0]
    with pytest.raises(DomainError, match="chamfer"):
        straight.iso_14("8x52x60", 2e-3)


@pytest.mark.parametrize("designation", ["8x52x61", "8-52-60", "", "52x60"])
def test_unknown_straight_size_is_refused(designation: str) -> None:
    with pytest.raises(DomainError, match="it has 6x23x26"):
        straight.iso_14(designation)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: straight.iso_14("8x52x60", fit="loose"), "sliding, close, fixed"),
        (lambda: straight.sae(8, 0.0254, "A"), "4, 6, 10, 16 teeth"),
        (lambda: straight.sae(4, 0.0254, "C"), "has fit A, B"),
        (lambda: straight.sae(6, 0.0, "A"), "major_diameter"),
        (lambda: straight.own(1, 0.06, 0.05, 0.01), "teeth"),
        (lambda: straight.own(8, 0.05, 0.06, 0.01), "minor_diameter"),
        (lambda: straight.own(8, 0.06, 0.06, 0.01), "minor_diameter must be above 0 and below"),
        (lambda: straight.own(8, 0.06, 0.052, 0.03), "tooth_width"),
        (lambda: straight.own(8, 0.06, 0.052, 0.01, 2e-3), "chamfer"),
    ],
)
def test_impossible_straight_spline_is_refused(call: Callable[[], Any], message: str) -> None:
    with pytest.raises(DomainError, match=message):
        call()


def test_own_straight_spline() -> None:
    spline = straight.own(8, 0.060, 0.052, 0.010, 0.5e-3)
    assert spline.mean_diameter == pytest.approx(0.056)
    assert spline.contact_height == pytest.approx(3e-3)
    assert math.sin(spline.pressure_angle) == pytest.approx(10.0 / 56.0)
    assert (spline.new_clearance.minimum, spline.new_clearance.maximum) == (0.02e-3, 0.12e-3)
    assert spline.new_clearance.source.mark == "assumed"


@pytest.mark.parametrize("teeth", [23.5, 3, 0, -24])
def test_din_5480_refuses_what_is_no_number_of_teeth(teeth: float) -> None:
    with pytest.raises(DomainError):
        din_5480.spline(0.050, 0.002, teeth)  # type: ignore[arg-type]
