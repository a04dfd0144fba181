"""Judging mates: limits, sensitivities and pseudo-mates worked out independently; facts of the trade."""

import math

import pytest
from flat_root import of_major
from published._case import Case

from torqcheck.geometry import (
    InvoluteSpline,
    ansi_b92_1,
    centred_assembly,
    din_5480,
    iso_4156,
    over_pins,
    thickness_from_pins,
)
from torqcheck.geometry.pairs.base_circle import base_diameter_from_over_pins, base_pitch_from_spans
from torqcheck.geometry.pairs.bench_readings import PartReadings, PinReading, Reading, width_over_pins
from torqcheck.geometry.pairs.judgement import COUNT_THE_TEETH, PLAY_FELT, PRACTICE, SNUG_FIT, judge
from torqcheck.geometry.pairs.lash_comparison import LashReading, compare_lash, lash_from_dial
from torqcheck.geometry.pairs.pseudo_mates import equal_count_fit, neighbours_with_equal_count
from torqcheck.geometry.pairs.worn_members import Side, new_clearance, width_limits
from torqcheck.geometry.standards.ansi_b92_1 import spline as inch

INCH, MM = 0.0254, 1e-3
A30 = math.radians(30.0)
MEMORY = "ANSI B92.1, tolerance table of class 5 as remembered, worked out independently"
SENSITIVITY = "Thickness error of a pin reading, worked out independently"
PITCHES = "Table of shafts in hubs of equal count and neighbouring pitch, worked out independently"
TWO_PINS = "Two-pin check row, worked out independently"
TRACTOR = "Compact tractor, service manual, clutch section"
PRACTITIONERS = "Practitioners' rule on splines one tooth apart"
BASIC_27 = inch(27, "24/48")
WORN_27 = 0.06245 * INCH

# teeth, pitch, m + lam of class 5, cv max of classes 4 to 7, c max of classes 4 to 7, in; derived from
# tolerances that are from memory; the last cell was first worked out as 0.0123, 4 x 30.55 ten-thousandths are
# 0.01222
CLEARANCES = [
    (13, "16/32", "0.0026", "0.0017 0.0024 0.0033 0.0048", "0.0038 0.0053 0.0074 0.0106"),
    (21, "16/32", "0.0028", "0.0018 0.0025 0.0035 0.0050", "0.0040 0.0056 0.0078 0.0112"),
    (36, "16/32", "0.0031", "0.0019 0.0027 0.0038 0.0054", "0.0044 0.0062 0.0086 0.0123"),
    (27, "24/48", "0.0027", "0.0018 0.0026 0.0036 0.0052", "0.0039 0.0054 0.0076 0.0109"),
    (14, "12/24", "0.0029", "0.0018 0.0025 0.0035 0.0050", "0.0041 0.0058 0.0081 0.0115"),
    (20, "12/24", "0.0030", "0.0018 0.0026 0.0036 0.0052", "0.0043 0.0061 0.0085 0.0122"),
    (13, "8/16", "0.0031", "0.0018 0.0026 0.0036 0.0052", "0.0043 0.0061 0.0086 0.0122"),
]


@pytest.mark.parametrize(("teeth", "pitch", "total", "effective", "actual"), CLEARANCES)
def test_limits_of_the_classes(teeth: int, pitch: str, total: str, effective: str, actual: str) -> None:
    spline = inch(teeth, pitch)
    inputs = {"teeth": teeth}
    for side in ("external", "internal"):
        limits = width_limits(spline, side)  # type: ignore[arg-type]
        where = f"{teeth}T {pitch}, m + lam"
        Case(MEMORY, where, "from memory", inputs, total, unit=INCH).check(
            abs(limits.effective - limits.limit)
        )
    for fit_class, cv, c in zip((4, 5, 6, 7), effective.split(), actual.split(), strict=True):
        new = new_clearance(spline, fit_class)
        where = f"{teeth}T {pitch}, class {fit_class}"
        Case(MEMORY, where, "from memory", inputs, cv, unit=INCH).check(new.maximum)
        assert new.bedded_in is not None
        Case(MEMORY, where, "from memory", inputs, c, unit=INCH).check(new.bedded_in)
        both = [width_limits(spline, side, fit_class) for side in ("external", "internal")]  # type: ignore[arg-type]
        Case(MEMORY, where, "from memory", inputs, c, unit=INCH).check(both[1].limit - both[0].limit)


def test_a_new_pair_and_a_bedded_in_pair() -> None:
    # 0 to about 0.065 mm new, up to about 0.15 mm bedded in; from memory
    new = BASIC_27.new_clearance
    Case(MEMORY, "lash of a new pair, most", "from memory", {}, "0.065", unit=MM).check(new.maximum)
    assert new.bedded_in is not None
    case = Case(MEMORY, "lash of a bedded-in pair, most", "from memory", {}, "0.15", unit=MM, slack=0.01,
                because="said as 'up to about' for all sizes; 27T 24/48 is a close one")  # fmt: skip
    case.check(new.bedded_in)
    for read, standing in ((0.05, "new"), (0.12, "bedded in"), (0.16, "beyond new"), (0.13, "cannot tell")):
        assert compare_lash([LashReading("dial", read * MM, 0.01 * MM)], new).standing == standing


# class 5 limits of the shaft (t min) and the hub (s max) as pin readings, in; from memory
@pytest.mark.parametrize(
    ("teeth", "pitch", "side", "pin", "printed"),
    [
        (27, "24/48", "external", 0.080, "1.2430"),
        (27, "24/48", "internal", 0.072, "1.0242"),
        (13, "16/32", "external", 0.120, "0.9858"),
        (13, "16/32", "internal", 0.108, "0.6532"),
        (21, "16/32", "external", 0.120, "1.4898"),
        (21, "16/32", "internal", 0.108, "1.1575"),
        (14, "12/24", "external", 0.160, "1.4075"),
        (14, "12/24", "internal", 0.144, "0.9608"),
        (36, "16/32", "internal", 0.108, "2.1002"),
    ],
)
def test_limit_as_a_pin_reading(teeth: int, pitch: str, side: Side, pin: float, printed: str) -> None:
    spline = inch(teeth, pitch)
    width = width_over_pins(spline, side, PinReading(float(printed) * INCH, 0.00005 * INCH, pin * INCH))
    # the last printed digit of the reading, carried to the width
    assert width.value == pytest.approx(width_limits(spline, side).limit, abs=1.02 * width.tolerance), (
        f"{MEMORY}, {teeth}T {pitch} {side} (mark: from memory)"
    )


# instrument, u of the reading and of the pin, u of the thickness, in; derived
@pytest.mark.parametrize(
    ("tool", "reading", "pin", "printed"),
    [
        ("micrometer, gauge pins", 0.0001, 0.00005, "0.00011"),
        ("good digital caliper", 0.0005, 0.0001, "0.00036"),
        ("workshop caliper, drill shanks", 0.001, 0.0001, "0.00066"),
    ],
)
def test_thickness_error_of_an_instrument(tool: str, reading: float, pin: float, printed: str) -> None:
    over = float(over_pins(27, BASIC_27.module, A30, WORN_27, 0.080 * INCH))
    width = width_over_pins(BASIC_27, "external", PinReading(over, reading * INCH, 0.080 * INCH, pin * INCH))
    inputs = {"reading": reading * INCH, "pin": pin * INCH}
    Case(SENSITIVITY, f"27T 24/48, {tool}", "derived", inputs, printed, unit=INCH).check(width.tolerance)


@pytest.mark.parametrize(("degrees", "printed"), [(37.5, "0.0612"), (45.0, "0.0579")])
def test_a_wrong_angle_looks_like_wear(degrees: float, printed: str) -> None:
    over = over_pins(27, BASIC_27.module, A30, WORN_27, 0.080 * INCH)
    seen = thickness_from_pins(27, BASIC_27.module, math.radians(degrees), over, 0.080 * INCH)
    where = f"27T 24/48, true thickness 0.06245, read as {degrees} deg"
    Case(SENSITIVITY, where, "derived", {}, printed, unit=INCH).check(float(seen))


def test_base_diameter_from_two_sizes_of_pin() -> None:
    readings = (1.242525, 0.0800, 1.219719, 0.0720)
    base = float(base_diameter_from_over_pins(27, *(value * INCH for value in readings)))
    # half a micro-inch on either reading moves the base diameter by 0.000014 in each
    case = Case(TWO_PINS, "base diameter", "derived", {}, "0.974279", unit=INCH, slack=28e-6,
                because="readings printed to a micro-inch, whose rounding comes back 27 times")  # fmt: skip
    case.check(base)
    for error, printed in ((0.0001, "0.0027"), (0.001, "0.025")):
        moved = (readings[0] + error, *readings[1:])
        other = float(base_diameter_from_over_pins(27, *(value * INCH for value in moved)))
        where = f"error of {error} in on one reading"
        case = Case(TWO_PINS, where, "derived", {}, printed, unit=INCH)
        case.check(abs(other - base))


def test_base_pitch_from_two_spans() -> None:
    # the base pitch of 50 x 2 x 24 by definition: pi m cos(a); the spans follow from the printed one over 4
    Case("DIN 5480 W 50 x 2 x 24", "pi x 2 x cos 30", "derived", {}, "5.4414", unit=MM).check(
        float(base_pitch_from_spans(26.6207 * MM, 5, 21.1793 * MM, 4))
    )


def test_dial_reading_with_its_tolerance() -> None:
    lash = lash_from_dial(Reading(0.50 * MM, 0.02 * MM), Reading(100 * MM, 1.0 * MM), 33.34 * MM)
    Case("Dial reading, worked out independently", "x 0.50, R 100", "derived", {}, "0.083", unit=MM).check(
        lash.clearance
    )
    # u(c)/c = sqrt((0.02/0.5)^2 + (1/100)^2)
    assert lash.tolerance == pytest.approx(lash.clearance * math.hypot(0.04, 0.01), rel=1e-12)


# shaft, hub, overlap diameters, clearance, flank angles (shaft, hub) at hub minor and shaft major; derived.
# Two hub angles were first worked out as 20.3 and 21.2; acos(13 cos 30/12) is 20.2495, the other 21.1494
PSEUDO = [
    ("m 1.25 in 20/40", iso_4156.spline(20, 1.25e-3), inch(20, "20/40"), "24.13 26.25", "0.18 0.28",
     "26.2 24.3 34.4 33.1", "inside the usual 0.3 mm"),
    ("m 2.5 in 10/20", iso_4156.spline(20, 2.5e-3), inch(20, "10/20"), "48.26 52.50", "0.36 0.56",
     "26.2 24.3 34.4 33.1", "looks like a worn pair; bears"),
    ("m 1 in 24/48, 20T", iso_4156.spline(20, 1e-3), inch(20, "24/48"), "20.11 21.00", "0.60 0.74",
     "30.5 24.3 34.4 29.2", "very worn"),
    ("m 1 in 24/48, 24T", iso_4156.spline(24, 1e-3), inch(24, "24/48"), "24.34 25.00", "0.75 0.86",
     "31.4 25.4 33.8 28.4", "very worn"),
    ("m 1.5 in 16/32", iso_4156.spline(13, 1.5e-3), inch(13, "16/32"), "19.05 21.00", "0.48 0.81",
     "27.6 20.2 36.5 31.7", "very worn"),
    ("30x2x14 in 12/24", din_5480.spline(0.030, 0.002, 14), inch(14, "12/24"), "27.52 29.60", "0.84 1.19",
     "28.2 21.1 35.0 29.9", "very worn"),
    ("30 in 37.5 deg", inch(20, "20/40"), inch(20, "20/40", math.radians(37.5), "fillet"), "24.4 26.7",
     "0.32 -0.11", "25.6 34.3 34.4 40.9", "binds at the shaft tips"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("name", "shaft", "hub", "overlap", "clearance", "angles", "looks"),
    PSEUDO,
    ids=[row[0] for row in PSEUDO],
)
def test_equal_count_of_a_neighbouring_pitch(
    name: str,
    shaft: InvoluteSpline,
    hub: InvoluteSpline,
    overlap: str,
    clearance: str,
    angles: str,
    looks: str,
) -> None:
    found = equal_count_fit(shaft, hub)
    assert found.overlap_diameters is not None
    assert found.clearance is not None
    assert found.flank_angles is not None
    ours = [math.degrees(angle) for pair in found.flank_angles for angle in pair]
    rows = [
        *zip(overlap.split(), found.overlap_diameters, [MM] * 2, strict=True),
        *zip(clearance.split(), found.clearance, [MM] * 2, strict=True),
        *zip(angles.split(), ours, [1.0] * 4, strict=True),
    ]
    for printed, value, unit in rows:
        Case(PITCHES, name, "derived", {}, printed, unit=unit).check(value)
    assert looks in found.looks


@pytest.mark.parametrize("spline", [inch(20, "20/40"), iso_4156.spline(24, 1e-3)], ids=["inch", "metric"])
def test_a_part_of_the_stated_size_looks_new(spline: InvoluteSpline) -> None:
    # a shaft in a hub of its own size is the pair itself, without lash at the basic widths; derived
    found = equal_count_fit(spline, spline)
    assert found.lash == pytest.approx(0.0, abs=1e-9)
    assert found.looks == "looks like a new or bedded-in pair"


def test_the_other_way_round_does_not_enter() -> None:
    # loose one way and impossible the other way is a sign of mixed standards; derived
    found = equal_count_fit(inch(13, "16/32"), iso_4156.spline(13, 1.5e-3))
    assert not found.enters
    assert found.looks == "does not enter: tips foul"
    assert equal_count_fit(iso_4156.spline(13, 1.5e-3), inch(13, "16/32")).enters
    assert not equal_count_fit(din_5480.spline(0.020, 1.25e-3, 14), inch(14, "20/40", root="fillet")).enters


# pitches that lie close, with the difference in percent: worked out independently, derived
@pytest.mark.parametrize(
    ("pitch", "module", "least", "most"),
    [
        ("20/40", 1.25, 1.55, 1.65), ("10/20", 2.5, 1.55, 1.65), ("5/10", 5, 1.55, 1.65),
        ("32/64", 0.8, 0.75, 0.85), ("24/48", 1, 5.45, 5.85), ("16/32", 1.5, 5.45, 5.85),
        ("12/24", 2, 5.45, 5.85), ("8/16", 3, 5.45, 5.85), ("6/12", 4, 5.45, 5.85),
    ],
)  # fmt: skip
def test_close_pitches_are_named(pitch: str, module: float, least: float, most: float) -> None:
    near = {
        round(item.spline.module / MM, 6): 100.0 * abs(item.pitch_difference)
        for item in neighbours_with_equal_count(inch(20, pitch))
        if item.spline.standard != ansi_b92_1.STANDARD
    }
    assert least <= near[module] <= most


@pytest.mark.parametrize(
    ("teeth", "pitch", "module"), [(20, "12/24", 2.0), (13, "16/32", 1.5), (20, "8/16", 3.0)]
)
def test_close_din_5480_sizes_are_those_of_its_profile_shifts(teeth: int, pitch: str, module: float) -> None:
    # DIN 5480-1, from memory: reference diameter m (z + 2 x + 1.1), in whole mm; shift x from -0.05 to +0.45
    near = [item.spline for item in neighbours_with_equal_count(inch(teeth, pitch))]
    found = {
        float(spline.designation.split(" x ")[0])
        for spline in near
        if spline.standard == din_5480.STANDARD and math.isclose(spline.module, module * MM)
    }
    least, most = (module * (teeth + 2.0 * shift + 1.1) for shift in (-0.05, 0.45))
    assert found == set(range(math.ceil(least - 1e-9), math.floor(most + 1e-9) + 1))


def test_module_in_a_diametral_pitch_hub_is_no_worn_mate() -> None:
    # 20 teeth of m 1.25 in 20/40: equal counts, 0.18 to 0.28 mm of clearance (derived): never "worn mate"
    hub, shaft = inch(20, "20/40"), iso_4156.spline(20, 1.25e-3)
    pin = 1.92 * hub.module
    over = float(over_pins(20, shaft.module, A30, shaft.tooth_thickness, pin))
    lash = [LashReading("dial", 0.23 * MM, 0.01 * MM)]
    pins = (PinReading(over, 0.005 * MM, pin, 0.0025 * MM),)
    unread = judge(hub, PartReadings(teeth=20, pins=pins), PartReadings(teeth=20, new=True), lash)
    assert unread.verdict == "not measured"
    assert any("outside diameter of the shaft with a caliper" in reading for reading in unread.next_readings)
    tips = Reading(shaft.external.major_diameter, 0.02 * MM)
    read = judge(
        hub, PartReadings(teeth=20, pins=pins, major_diameter=tips), PartReadings(teeth=20, new=True), lash
    )
    assert read.verdict == "false fit"
    assert "ISO 4156 20Z x 1.25m" in read.reasons[0]


def test_one_tooth_apart_on_nearly_one_diameter_is_a_false_fit() -> None:
    # common practice, no source: one tooth apart, outside diameters can differ by 0.010 in only
    shaft = of_major(31, 1.375 * INCH)
    hub = of_major(32, 1.385 * INCH)
    case = Case(PRACTITIONERS, "least difference of outside diameter", "common practice, no source", {},
                "0.010", unit=INCH)  # fmt: skip
    case.check(hub.external.major_diameter - shaft.external.major_diameter)
    tips = PartReadings(teeth=31, major_diameter=Reading(1.375 * INCH, 0.02 * MM))
    found = judge(shaft, tips, PartReadings(teeth=32))
    assert found.verdict == "false fit"
    assert COUNT_THE_TEETH in found.practice
    assert "mm of metal per tooth would have to be gone" in " ".join(found.reasons)
    missing = centred_assembly(shaft, hub).missing
    # the greatest published play at which a pair is replaced is 0.3 mm: ten times that is missing
    assert missing > 3.0 * MM
    assert case.mark in COUNT_THE_TEETH


@pytest.mark.parametrize("pitch", ["8/16", "12/24", "16/32", "20/40", "24/48", "32/64"])
def test_published_limit_of_play_is_beyond_any_new_pair(pitch: str) -> None:
    # clearance between flanks, limit 0.3 mm: published
    case = Case(TRACTOR, "clutch disc hub on gearbox input spline, limit", "published", {}, "0.3", unit=MM)
    read = LashReading("clearance", float(case.printed) * case.unit, 0.02 * MM)
    for teeth in (10, 20, 40):
        assert compare_lash([read], inch(teeth, pitch).new_clearance).standing == "beyond new"


def test_published_play_when_new_is_that_of_a_bedded_in_pair() -> None:
    # the same manual: 0.05 to 0.15 mm new; published
    for teeth, pitch in ((13, "16/32"), (14, "12/24"), (10, "10/20")):
        new = inch(teeth, pitch).new_clearance
        assert new.bedded_in is not None
        Case(TRACTOR, "new, most", "published", {}, "0.15", unit=MM, slack=0.02,
             because="one spline of the manual's own fit, of unknown size").check(new.bedded_in)  # fmt: skip


def test_statements_of_practice_carry_their_mark() -> None:
    assert PRACTICE == (SNUG_FIT, PLAY_FELT, COUNT_THE_TEETH)
    for text in PRACTICE:
        assert text.endswith("[common practice, no source].")
