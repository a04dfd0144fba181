"""Limits, pins and spans of every standard: what must hold whatever the numbers are."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from torqcheck.errors import DomainError
from torqcheck.geometry import (
    InvoluteSpline,
    ansi_b92_1,
    between_pins,
    din_5480,
    iso_4156,
    over_pins,
    own_spline,
    space_from_pins,
    straight,
    thickness_from_pins,
)
from torqcheck.geometry.drawing.data_block import (
    DataBlock,
    block_of_involute,
    block_of_straight,
    measured_space,
    measured_thickness,
)
from torqcheck.geometry.drawing.profile import external_profile, internal_profile
from torqcheck.geometry.measuring.pin_choice import (
    external_pins,
    external_spans,
    internal_pins,
    internal_spans,
)
from torqcheck.geometry.standards.iso_286 import grade_tolerance, shaft_deviation
from torqcheck.geometry.standards.iso_4156_tolerances import fundamental_deviation
from torqcheck.geometry.standards.limits import (
    FITS,
    Band,
    involute_limits,
    with_major_diameter_fit,
)
from torqcheck.geometry.standards.straight_limits import ISO_14_FITS, iso_14_limits

FORMS = ((30.0, "flat"), (30.0, "fillet"), (37.5, "fillet"), (45.0, "fillet"))
INCH_PITCHES = tuple(f"{pitch:g}/{2 * pitch:g}" for pitch in ansi_b92_1.PITCHES)


@st.composite
def splines(draw: st.DrawFn) -> InvoluteSpline:
    """Any spline of the three standards within their range of teeth."""
    teeth = draw(st.integers(6, 60))
    degrees, root = draw(st.sampled_from(FORMS))
    kind = draw(st.sampled_from(("inch", "module", "reference diameter")))
    if kind == "inch":
        pitch = draw(st.sampled_from(INCH_PITCHES))
        return ansi_b92_1.spline(teeth, pitch, math.radians(degrees), root)  # type: ignore[arg-type]
    if kind == "module":
        # a pitch diameter up to 250 mm, where the tables of fits end
        module = draw(st.sampled_from([m for m in iso_4156.MODULES if m * teeth <= 250.0]))
        return iso_4156.spline(teeth, module * 1e-3, math.radians(degrees), root)  # type: ignore[arg-type]
    module = draw(st.sampled_from([m for m in din_5480.MODULES if m * teeth <= 200.0]))
    shift = draw(st.floats(-0.05, 0.45))
    return din_5480.spline((teeth + 1.1 + 2.0 * shift) * module * 1e-3, module * 1e-3, teeth)


def _ends(band: Band | None) -> tuple[float, float]:
    assert band is not None
    assert band.minimum is not None
    assert band.maximum is not None
    assert band.minimum < band.maximum
    return band.minimum, band.maximum


def _widths(block: DataBlock) -> tuple[tuple[float, float], ...]:
    """Actual and effective tooth, actual and effective space."""
    assert block.external is not None
    assert block.internal is not None
    tooth, space = block.external.tooth_thickness, block.internal.space_width
    assert tooth is not None
    assert space is not None
    return _ends(tooth.actual), _ends(tooth.effective), _ends(space.actual), _ends(space.effective)


@given(splines(), st.integers(4, 7))
def test_effective_limits_lie_inside_the_actual_clearance(spline: InvoluteSpline, fit_class: int) -> None:
    tooth, effective_tooth, space, effective_space = _widths(block_of_involute(spline, fit_class))
    # errors make a tooth thicker and a space narrower, both ends by the same allowance
    assert tooth[0] < effective_tooth[0]
    assert tooth[1] < effective_tooth[1]
    assert space[0] > effective_space[0]
    assert space[1] > effective_space[1]
    assert effective_tooth[0] - tooth[0] == pytest.approx(effective_tooth[1] - tooth[1], rel=1e-6)
    # so a pair that just assembles has clearance as cut, and none is ever negative
    assert effective_tooth[1] <= effective_space[0] + 1e-15
    assert tooth[1] < space[0]


@given(splines(), st.integers(4, 6))
def test_a_coarser_class_is_wider_and_mates_with_a_finer_one(spline: InvoluteSpline, fit_class: int) -> None:
    fine, coarse = (_widths(block_of_involute(spline, c)) for c in (fit_class, fit_class + 1))
    assert coarse[0][0] < fine[0][0]
    assert coarse[2][1] > fine[2][1]
    assert coarse[0][1] - coarse[0][0] > fine[0][1] - fine[0][0]
    # the GO limits are shared by all classes
    assert coarse[1][1] == fine[1][1]
    assert coarse[3][0] == fine[3][0]


@given(splines(), st.integers(4, 7))
def test_readings_with_pins_follow_the_widths(spline: InvoluteSpline, fit_class: int) -> None:
    block = block_of_involute(spline, fit_class)
    shape = (spline.teeth, spline.module, spline.pressure_angle)
    tooth, effective_tooth, space, effective_space = _widths(block)
    for pins, actual, effective, inverse in (
        (block.external_pins, tooth, effective_tooth, thickness_from_pins),
        (block.internal_pins, space, effective_space, space_from_pins),
    ):
        assert pins is not None
        low, high = _ends(pins.reading)
        assert (inverse(*shape, low, pins.pin), inverse(*shape, high, pins.pin)) == pytest.approx(
            actual, rel=1e-9
        )
        if pins.effective_reading is not None:
            assert inverse(*shape, _ends(pins.effective_reading)[0], pins.pin) == pytest.approx(
                effective[0], rel=1e-9
            )


@given(splines())
def test_diameters_leave_room_for_the_mate(spline: InvoluteSpline) -> None:
    shaft, hub = involute_limits(spline)
    if any("puts the form circle beyond the root" in note for note in (*shaft.notes, *hub.notes)):
        assert spline.standard == "ansi b92.1"
        assert spline.module < 0.0254 / 48
        return
    assert _ends(shaft.major_diameter)[1] < _ends(hub.major_diameter)[0]
    assert _ends(shaft.minor_diameter)[1] < _ends(hub.minor_diameter)[0]
    if shaft.form_diameter is not None and hub.form_diameter is not None:
        # the true flank reaches past the tip of the mate, and the root starts behind it
        assert shaft.form_diameter < _ends(hub.minor_diameter)[0]
        assert hub.form_diameter > _ends(shaft.major_diameter)[1]
        assert _ends(shaft.minor_diameter)[1] <= max(shaft.form_diameter, spline.base_diameter)


@given(splines())
def test_recommended_pins_pass_the_contact_tests(spline: InvoluteSpline) -> None:
    block = block_of_involute(spline)
    for pins in (block.external_pins, block.internal_pins):
        assert pins is not None
        # very fine flat-root hubs of few teeth have no room for any pin without a flat
        assert all("flat" in doubt for doubt in pins.doubts)


def test_only_fine_flat_root_hubs_of_few_teeth_need_a_flat() -> None:
    needed = [
        (teeth, pitch)
        for pitch in INCH_PITCHES
        for teeth in (*range(6, 14), 20, 30, 60)
        for pins in [block_of_involute(ansi_b92_1.spline(teeth, pitch)).internal_pins]
        if pins is None or pins.doubts
    ]
    assert all(teeth <= 12 and pitch in {"64/128", "80/160", "128/256"} for teeth, pitch in needed)


@pytest.mark.parametrize(("teeth", "pitch"), [(27, "24/48"), (36, "16/32"), (13, "8/16")])
def test_a_pin_touches_the_drawn_flank(teeth: int, pitch: str) -> None:
    # independent of the pin formula: least distance from the pin's centre to the drawn outline
    spline = ansi_b92_1.spline(teeth, pitch)
    shaft, hub = involute_limits(spline)
    assert shaft.tooth_thickness is not None
    assert hub.space_width is not None
    thickness, space = _ends(shaft.tooth_thickness.actual)[0], _ends(hub.space_width.actual)[1]
    over, between = external_pins(spline, shaft.tooth_thickness), internal_pins(spline, hub.space_width)
    assert over is not None
    assert between is not None
    fan = math.cos(0.5 * math.pi / teeth) if teeth % 2 else 1.0
    outer, inner = (
        0.5 * (_ends(over.reading)[0] - over.pin) / fan,
        0.5 * (_ends(between.reading)[1] + between.pin) / fan,
    )
    gap = math.pi / teeth
    for outline, centre, pin in (
        (external_profile(spline, thickness, 2000), (outer * math.cos(gap), outer * math.sin(gap)), over.pin),
        (internal_profile(spline, space, 2000), (inner, 0.0), between.pin),
    ):
        distance = np.hypot(*(outline - centre).T).min()
        assert distance == pytest.approx(0.5 * pin, abs=1e-8)


@pytest.mark.parametrize(("teeth", "pitch"), [(27, "24/48"), (36, "16/32"), (13, "8/16")])
def test_a_span_touches_the_drawn_flanks(teeth: int, pitch: str) -> None:
    # independent of the span formula: extent of k drawn teeth across the middle of the span
    spline = ansi_b92_1.spline(teeth, pitch)
    shaft, hub = involute_limits(spline)
    assert shaft.tooth_thickness is not None
    assert hub.space_width is not None
    spans = external_spans(spline, shaft.tooth_thickness)
    assert spans
    assert spline.external.form_diameter is not None
    assert spline.internal.form_diameter is not None
    flanks = {
        "shaft": (0.5 * spline.external.form_diameter, spline.external.major_diameter),
        "hub": (0.5 * spline.internal.minor_diameter * 1.000001, 0.5 * spline.internal.form_diameter),
    }
    for member, found, outline in (
        ("shaft", spans, external_profile(spline, _ends(shaft.tooth_thickness.actual)[0], 2000)),
        ("hub", internal_spans(spline, hub.space_width),
         internal_profile(spline, _ends(hub.space_width.actual)[0], 2000)),
    ):  # fmt: skip
        for span in found:
            turn = -math.pi * (span.count - 1) / teeth
            c, s = math.cos(turn), math.sin(turn)
            x, y = outline[:, 0] * c - outline[:, 1] * s, outline[:, 0] * s + outline[:, 1] * c
            radius = np.hypot(x, y)
            inner, outer = flanks[member]
            flank = (
                (np.abs(np.arctan2(y, x)) <= math.pi * span.count / teeth)
                & (radius > inner)
                & (radius < outer)
            )
            # a face parallel to the middle line rests where the outer flank is farthest from it
            assert 2.0 * np.abs(y[flank]).max() == pytest.approx(_ends(span.reading)[0], abs=1e-8)


@pytest.mark.parametrize(("teeth", "pitch"), [(27, "24/48"), (36, "16/32")])
def test_a_block_holds_the_spans_of_both_members(teeth: int, pitch: str) -> None:
    # base tangent length, from memory: W = cos(a) (m ((k - 1) pi + N inv(a)) + t); in a hub s in place of t
    spline = ansi_b92_1.spline(teeth, pitch)
    block, a = block_of_involute(spline), spline.pressure_angle
    for spans, width in ((block.external_spans, block.thickness), (block.internal_spans, block.space)):
        assert spans
        assert width is not None
        for span in spans:
            arcs = spline.module * ((span.count - 1) * math.pi + teeth * (math.tan(a) - a))
            exact = [math.cos(a) * (arcs + end) for end in _ends(width)]
            assert _ends(span.reading) == pytest.approx(exact, rel=1e-12)


@given(splines(), st.sampled_from("fed"))
def test_a_looser_fit_thins_the_shaft_alone(spline: InvoluteSpline, letter: str) -> None:
    if spline.standard == "ansi b92.1":
        return
    close, loose = (block_of_involute(spline, 6, f"H/{fit}") for fit in ("h", letter))
    thinned = _widths(close)[1][1] - _widths(loose)[1][1]
    assert thinned > 0.0
    assert _widths(close)[2:] == _widths(loose)[2:]
    assert _ends(loose.effective_clearance)[0] == pytest.approx(thinned, rel=1e-9)


def test_longer_splines_leave_more_to_errors_of_lead() -> None:
    spline = iso_4156.spline(20, 2e-3)
    short, long = (involute_limits(spline, 5, "H/h", length)[0] for length in (0.01, 0.1))
    assert short.tooth_thickness is not None
    assert long.tooth_thickness is not None
    assert short.tooth_thickness.actual.minimum == long.tooth_thickness.actual.minimum
    assert _ends(long.tooth_thickness.actual)[1] < _ends(short.tooth_thickness.actual)[1]


def test_fits_of_iso_14_grow_tighter() -> None:
    spline = straight.iso_14("8x36x42")
    clearances = [_ends(block_of_straight(spline, fit).actual_clearance) for fit in ISO_14_FITS]
    least = [clearance[0] for clearance in clearances]
    assert least == sorted(least, reverse=True)
    assert least[-1] == 0.0
    # the module of the standard keeps the same clearance for its own purposes
    for fit, clearance in zip(ISO_14_FITS, clearances, strict=True):
        new = straight.iso_14("8x36x42", fit=fit).new_clearance  # type: ignore[arg-type]
        assert clearance == pytest.approx((new.minimum, new.maximum), abs=1e-12)
    assert (
        _ends(iso_14_limits(spline, hardened=True)[1].space_width.actual)[1]
        > (  # type: ignore[union-attr]
            _ends(iso_14_limits(spline)[1].space_width.actual)[1]  # type: ignore[union-attr]
        )
    )


def test_readings_are_weighed_against_the_new_limits() -> None:
    spline = ansi_b92_1.spline(27, "24/48")
    block = block_of_involute(spline)
    shape = (27, spline.module, spline.pressure_angle)
    tooth, effective_tooth, space, effective_space = _widths(block)
    pin = 2e-3
    worn = measured_thickness(block, float(over_pins(*shape, tooth[0] - 50e-6, pin)), pin, 2e-6, 1e-6)
    assert worn.beyond_new == pytest.approx(50e-6, rel=1e-6)
    # 4.2 of the pin equations: u(t)^2 = (u_M/K)^2 + ((1 + f/sin phi) u_d/K)^2, about K 1.6 and 2.8
    assert worn.tolerance == pytest.approx(math.hypot(2e-6, 2.8e-6) / 1.6, rel=0.03)
    assert not worn.impossible
    new = measured_thickness(block, float(over_pins(*shape, 0.5 * sum(tooth), pin)), pin)
    assert (new.beyond_new, new.impossible) == (0.0, False)
    thick = measured_thickness(block, float(over_pins(*shape, effective_tooth[1] + 5e-6, pin)), pin, 1e-6)
    assert thick.impossible
    wide = measured_space(block, float(between_pins(*shape, space[1] + 40e-6, 1.8e-3)), 1.8e-3)
    assert wide.beyond_new == pytest.approx(40e-6, rel=1e-6)
    narrow = measured_space(
        block, float(between_pins(*shape, effective_space[0] - 5e-6, 1.8e-3)), 1.8e-3, 1e-6
    )
    assert narrow.impossible
    with pytest.raises(DomainError, match="measure straight flanks directly"):
        measured_thickness(block_of_straight(straight.iso_14("8x36x42")), 0.05, 0.002)


def test_what_cannot_be_is_refused() -> None:
    spline = ansi_b92_1.spline(27, "24/48")
    own = own_spline(
        teeth=20, pressure_angle=0.5, pitch_diameter=0.04, root_diameter=0.037, internal_major_diameter=0.043,
        tooth_thickness=0.003, contact_height=0.002,
    )  # fmt: skip
    with pytest.raises(DomainError, match="no limits are known for a spline of standard 'own'"):
        involute_limits(own)
    with pytest.raises(DomainError, match="fit class 3 is not one of 4, 5, 6, 7"):
        involute_limits(spline, 3)
    with pytest.raises(DomainError, match="has no fit 'H/h'; it has side fit, major diameter fit"):
        involute_limits(spline, 5, "H/h")
    with pytest.raises(DomainError, match="has no fit 'H/g'; it has H/h, H/f, H/e, H/d"):
        involute_limits(iso_4156.spline(20, 2e-3), 5, "H/g")
    with pytest.raises(DomainError, match="length must be above 0 and finite"):
        involute_limits(iso_4156.spline(20, 2e-3), length=math.inf)
    with pytest.raises(DomainError, match="with a flat root only"):
        with_major_diameter_fit(ansi_b92_1.spline(27, "24/48", root="fillet"))
    with pytest.raises(DomainError, match="'loose' is not one of sliding, close, fixed"):
        iso_14_limits(straight.iso_14("8x36x42"), "loose")
    with pytest.raises(DomainError, match="up to 500 mm"):
        grade_tolerance(0.6, 7)
    with pytest.raises(DomainError, match="tolerance grade 13 is not one of"):
        grade_tolerance(0.05, 13)
    with pytest.raises(DomainError, match="letter 'z' is not one of"):
        shaft_deviation(0.05, "z")


def test_every_standard_of_the_fits_has_limits() -> None:
    made = {
        "ansi b92.1": ansi_b92_1.spline(20, "10/20"),
        "iso 4156": iso_4156.spline(20, 2e-3),
        "din 5480": din_5480.spline(0.05, 2e-3, 24),
    }
    assert set(FITS) == set(made)
    for standard, fits in FITS.items():
        for fit in fits:
            shaft, hub = involute_limits(made[standard], None, fit)
            assert shaft.fit == hub.fit == fit
            missing = {"tooth_thickness": shaft.tooth_thickness, "form_diameter": shaft.form_diameter}
            for name, value in missing.items():
                assert (value is None) == (name in dict(shaft.absent))


@pytest.mark.parametrize("inches", [0.060, 0.066, 0.070, 0.075, 0.080, 0.086, 0.092, 0.100])
def test_contact_tests_agree_with_the_drawn_profile(inches: float) -> None:
    # independent of the contact formula: the drawn point nearest to the pin's centre is where it touches
    spline, pin = ansi_b92_1.spline(27, "24/48"), inches * 0.0254
    block = block_of_involute(spline, pin=pin, hub_pin=pin)
    tooth, _, space, _ = _widths(block)
    fan, gap = math.cos(0.5 * math.pi / 27), math.pi / 27
    shaft, hub = spline.external, spline.internal
    assert shaft.form_diameter is not None
    assert hub.form_diameter is not None
    for pins, sign, outlines, flank, tip, root in (
        (block.external_pins, 1.0, [external_profile(spline, width, 2000) for width in tooth],
         (shaft.form_diameter, shaft.major_diameter), shaft.major_diameter, shaft.minor_diameter),
        (block.internal_pins, -1.0, [internal_profile(spline, width, 2000) for width in space],
         (hub.minor_diameter, hub.form_diameter), hub.minor_diameter, hub.major_diameter),
    ):  # fmt: skip
        assert pins is not None
        assert pins.size == "as given"
        wrong = set()
        for reading, outline in zip(_ends(pins.reading), outlines, strict=True):
            centre = 0.5 * (reading - sign * pin) / fan
            turn = gap if sign > 0.0 else 0.0
            place = (centre * math.cos(turn), centre * math.sin(turn))
            radius = np.hypot(*outline.T)
            # flanks with their corners, without the arcs at tip and root
            ends = (radius.max() * (1.0 - 1e-9), radius.min() * (1.0 + 1e-9))
            near = outline[(radius < ends[0]) & (radius > ends[1])]
            contact = 2.0 * float(np.hypot(*near[np.hypot(*(near - place).T).argmin()]))
            if contact < flank[0] * 1.0001:
                wrong.add("touches below the true flank" if sign > 0 else "touches the tip edge")
            if contact > flank[1] * 0.9999:
                wrong.add("touches the tip edge" if sign > 0 else "touches beyond the true flank")
            if sign * (2.0 * centre - sign * pin - root) <= 0.0:
                wrong.add("reaches the root: grind a flat on the pin")
            if sign * (2.0 * centre + sign * pin - tip) <= 0.0:
                wrong.add("does not stand proud of the tips")
        assert set(pins.doubts) == wrong


def test_contact_tests_say_no_and_yes() -> None:
    spline = ansi_b92_1.spline(27, "24/48")
    root = ("reaches the root: grind a flat on the pin",)
    for inches, shaft, hub in (
        (0.060, root, root),
        (0.075, (), ()),
        (0.100, (), ("touches the tip edge",)),
        (0.130, ("touches the tip edge",), None),
        (
            0.045,
            ("touches below the true flank", *root, "does not stand proud of the tips"),
            ("touches beyond the true flank", *root, "does not stand proud of the tips"),
        ),
    ):
        block = block_of_involute(
            spline, pin=inches * 0.0254, hub_pin=None if hub is None else inches * 0.0254
        )
        assert block.external_pins is not None
        assert block.internal_pins is not None
        assert block.external_pins.doubts == shaft
        assert hub is None or block.internal_pins.doubts == hub
    with pytest.raises(DomainError, match=r"a pin of 5 mm does not rest on both flanks of the hub"):
        block_of_involute(spline, hub_pin=5e-3)
    with pytest.raises(DomainError, match=r"a pin of 0.1 mm does not rest on both flanks of the shaft"):
        block_of_involute(spline, pin=0.1e-3)


def test_a_fit_moves_the_form_diameter_of_the_shaft_in() -> None:
    # ISO 4156-1 (from memory): DFE = 2 sqrt((DB/2)^2 + (D sin a/2 - (0.6 m + es/(2 tan a))/sin a)^2);
    # here m 2, Z 20, 30 deg, fit f: D 40, es 0.025 mm
    shaft, _ = involute_limits(iso_4156.spline(20, 2e-3), 5, "H/f")
    depth = 1.2 + 0.5 * 0.025 / math.tan(math.pi / 6)
    expected = 2.0 * math.hypot(20.0 * math.cos(math.pi / 6), 10.0 - depth / 0.5)
    assert shaft.form_diameter == pytest.approx(expected * 1e-3, rel=1e-12)


def test_middle_of_a_band_needs_both_ends() -> None:
    assert Band(2e-3, 5e-3).middle == pytest.approx(3.5e-3)
    assert Band(None, 5e-3).middle is None
    assert Band(2e-3, None).middle is None


@pytest.mark.parametrize(
    ("up_to", "d", "e", "f"),
    [
        (3, 20, 14, 6),
        (6, 30, 20, 10),
        (10, 40, 25, 13),
        (18, 50, 32, 16),
        (30, 65, 40, 20),
        (50, 80, 50, 25),
        (80, 100, 60, 30),
        (120, 120, 72, 36),
        (180, 145, 85, 43),
        (250, 170, 100, 50),
    ],
)
def test_thickness_reductions_are_the_deviations_of_iso_286(up_to: int, d: int, e: int, f: int) -> None:
    # the standard of shafts, from memory; each row ends with its largest diameter
    for fit, microns in (("d", d), ("e", e), ("f", f)):
        assert fundamental_deviation(up_to * 1e-3, fit) == pytest.approx(microns * 1e-6, rel=1e-9)
        if fit != "e":  # the table of shafts that is kept for other fits has these two letters
            assert shaft_deviation(up_to * 1e-3, fit) == pytest.approx(microns * 1e-6, rel=1e-9)


@pytest.mark.parametrize(
    ("spline", "fit_class", "length"),
    [
        (iso_4156.spline(10, 0.25e-3), 4, 1.0),
        (din_5480.spline(40e-3, 2e-3, 18), 6, 45.0),
    ],
)
def test_errors_of_lead_never_turn_the_limits_around(
    spline: InvoluteSpline, fit_class: int, length: float
) -> None:
    """Over such a length the allowance is above the total tolerance, so that nothing is left to cut to."""
    with pytest.raises(DomainError, match="errors of lead take the whole tolerance of class"):
        involute_limits(spline, fit_class, length=length)
    shaft, hub = involute_limits(spline, fit_class, length=0.01 * length)
    for width in (shaft.tooth_thickness, hub.space_width):
        assert width is not None
        assert width.actual is not None
        assert width.actual.minimum < width.actual.maximum
