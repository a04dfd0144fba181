"""Identification: which spline it is, when it must not say, and how often it is right."""

import math
from dataclasses import replace
from itertools import islice

import numpy as np
import pytest
from geometry._unknown_parts import parts, rates, readings_of
from hypothesis import given, settings
from hypothesis import strategies as st
from pace import least_seconds, seconds_here

from torqcheck.errors import DomainError
from torqcheck.geometry import ansi_b92_1, between_pins, over_pins, space_from_pins, thickness_from_pins
from torqcheck.geometry.identifying._fit import columns_of, fit, pin_widths
from torqcheck.geometry.identifying._room import MOST_WEAR
from torqcheck.geometry.identifying.identify import identify
from torqcheck.geometry.identifying.near_miss import near_miss
from torqcheck.geometry.identifying.readings import CALIPER, PIN, Measured, PinPair, Readings
from torqcheck.geometry.identifying.series import Side, candidates, listed_sizes

INCH, MM = 0.0254, 1e-3
A30 = math.radians(30.0)
FINE, FINE_PIN = 0.01 * MM, 0.004 * MM
SIDES: tuple[Side, ...] = ("external", "internal")


def shaft(teeth: int, pitch: str, *, lost: float = 0.0, tip_lost: float = 0.0) -> Readings:
    """Readings without error on a B92.1 shaft of 30 deg, `lost` from its teeth."""
    spline = ansi_b92_1.spline(teeth, pitch)
    pin = 1.92 * spline.module
    reading = over_pins(teeth, spline.module, A30, spline.tooth_thickness - lost, pin)
    return Readings(
        teeth=teeth,
        major_diameter=Measured(spline.external.major_diameter - tip_lost, FINE),
        pins=(PinPair(Measured(float(reading), FINE), Measured(pin, FINE_PIN)),),
    )


# Measured once over all 10 231 sizes; here on a sample. The bounds lie about three standard deviations of the
# sample below what the whole gives, so that they fail when the ranking gets worse and not by chance.
@pytest.mark.parametrize(
    ("side", "state", "instrument", "least"),
    [
        ("external", "basic", "micrometer", 0.96),
        ("internal", "basic", "micrometer", 0.96),
        ("external", "worn", "micrometer", 0.90),
        ("internal", "worn", "micrometer", 0.90),
        ("external", "basic", "caliper", 0.90),
        ("internal", "basic", "caliper", 0.90),
    ],
)
def test_the_true_spline_comes_first(side: Side, state: str, instrument: str, least: float) -> None:
    found = rates(side, state, instrument, stride=131)  # type: ignore[arg-type]
    assert found.parts > 100
    assert found.first >= least
    assert found.wrong <= 0.02
    assert found.listed >= 0.98


def test_every_standard_has_its_sizes_on_the_list() -> None:
    counts: dict[str, int] = {}
    for part in listed_sizes():
        counts[part.standard] = counts.get(part.standard, 0) + 1
    assert set(counts) == {"ansi b92.1", "iso 4156", "din 5480", "iso 14", "sae j499", "din 5481"}
    # 55 teeth x (12 flat + 14 fillet + 14 of 37.5 deg) + 95 x 11 of 45 deg; 95 x 15 modules x 4 forms
    assert counts["ansi b92.1"] == 55 * (12 + 14 + 14) + 95 * 11
    assert counts["iso 4156"] == 95 * 15 * 4
    assert counts["iso 14"] == 35
    assert counts["din 5481"] == 14


def test_listed_sizes_are_those_without_a_note_of_the_standard() -> None:
    for teeth in (4, 6, 27, 60, 61, 100):
        for part in candidates(teeth):
            if part.standard in ("ansi b92.1", "iso 4156") and part.spline is not None:
                assert part.listed == (not any("outside" in note for note in part.spline.notes))


@pytest.mark.parametrize("side", SIDES)
def test_widths_agree_with_the_plain_kernels(side: Side) -> None:
    part = next(p for p in candidates(27) if p.designation == "27T 24/48 37.5 deg fillet root")
    chosen = (part, next(p for p in candidates(27) if p.designation == "27Z x 1m x 30 deg flat root"))
    pin, reading = (2.0 * MM, 31.3 * MM) if side == "external" else (1.8 * MM, 26.0 * MM)
    pair = PinPair(Measured(reading, FINE), Measured(pin, FINE_PIN))
    widths = pin_widths(columns_of(27, side, chosen), pair)
    kernel = thickness_from_pins if side == "external" else space_from_pins
    for one, width in zip(chosen, widths.width, strict=True):
        assert width == pytest.approx(
            float(kernel(27, one.module or 0.0, one.pressure_angle or 0.0, reading, pin)), rel=1e-12
        )


@pytest.mark.parametrize("side", SIDES)
def test_tolerance_of_the_width_is_that_of_a_finite_difference(side: Side) -> None:
    (part,) = (p for p in candidates(20) if p.designation == "20Z x 2m x 30 deg flat root")
    pin = 3.8 * MM if side == "external" else 3.4 * MM
    forward = over_pins if side == "external" else between_pins
    inverse = thickness_from_pins if side == "external" else space_from_pins
    reading = float(forward(20, 2 * MM, A30, 3.1 * MM, pin))

    def width(reading: float, pin: float) -> float:
        return float(inverse(20, 2 * MM, A30, reading, pin))

    step = 1e-7
    by_reading = (width(reading + step, pin) - width(reading - step, pin)) / (2 * step)
    by_pin = (width(reading, pin + step) - width(reading, pin - step)) / (2 * step)
    pair = PinPair(Measured(reading, FINE), Measured(pin, FINE_PIN))
    found = pin_widths(columns_of(20, side, (part,)), pair)
    assert found.tolerance[0] == pytest.approx(math.hypot(by_reading * FINE, by_pin * FINE_PIN), rel=1e-6)


def test_pins_between_parallel_teeth_are_laid_out_right() -> None:
    # drawn independently: centre of the pin from the flank line y = b/2 of the tooth on the x axis
    (part,) = (p for p in candidates(16) if p.designation == "16-spline, 2 in, 16C")
    b, pin, gap = 5.0 * MM, 4.1 * MM, math.pi / 16.0
    radii = np.arange(20 * MM, 30 * MM, 1e-8)
    outside = radii * math.sin(gap) - 0.5 * b >= 0.5 * pin  # distance of the centre from the flank
    radius = float(radii[np.argmax(outside)])
    pair = PinPair(Measured(2.0 * radius + pin, FINE), Measured(pin, FINE_PIN))
    widths = pin_widths(columns_of(16, "external", (part,)), pair)
    assert widths.width[0] == pytest.approx(b, abs=2e-8)


@settings(max_examples=40, deadline=None)
@given(
    teeth=st.integers(8, 60),
    pitch=st.sampled_from(["8/16", "12/24", "16/32", "20/40", "24/48"]),
    gained=st.floats(0.12, 0.4),
)
def test_metal_that_grew_is_never_wear(teeth: int, pitch: str, gained: float) -> None:
    found = identify("external", shaft(teeth, pitch, lost=-gained * MM))
    own = f"{teeth}T {pitch} 30 deg flat root"
    assert all(r.candidate.designation != own for r in found.candidates if r.allowed)
    for ranked in found.candidates:
        if ranked.allowed and ranked.wear:
            assert ranked.excess is not None
            assert ranked.excess > 0.0


@pytest.mark.parametrize("side", SIDES)
@pytest.mark.parametrize("off", [-0.1, 0.1])
def test_the_impossible_side_is_not_allowed_though_nothing_else_is_offered(side: Side, off: float) -> None:
    (part,) = (p for p in candidates(20) if p.designation == "20Z x 2m x 30 deg flat root")
    kernel, pin = (over_pins, 3.8 * MM) if side == "external" else (between_pins, 3.4 * MM)
    reading = float(kernel(20, 2 * MM, A30, math.pi * MM + off * MM, pin))
    readings = Readings(teeth=20, pins=(PinPair(Measured(reading, FINE), Measured(pin, FINE_PIN)),))
    found = fit(columns_of(20, side, (part,)), readings)
    worn_side = (off < 0.0) == (side == "external")
    assert bool(found.allowed[0]) == worn_side
    assert math.isfinite(found.likelihood[0]) == worn_side


def test_a_hub_never_wears_narrower() -> None:
    spline = ansi_b92_1.spline(27, "24/48")
    pin = 1.728 * spline.module
    narrow = float(between_pins(27, spline.module, A30, spline.space_width - 0.15 * MM, pin))
    readings = Readings(
        teeth=27,
        minor_diameter=Measured(spline.internal.minor_diameter, FINE),
        pins=(PinPair(Measured(narrow, FINE), Measured(pin, FINE_PIN)),),
    )
    found = identify("internal", readings)
    assert all("27T 24/48 30 deg" not in r.candidate.designation for r in found.candidates if r.allowed)


@pytest.mark.parametrize(("lost", "allowed"), [(0.05, True), (0.35, True), (0.70, False)])
def test_wear_is_credited_only_up_to_its_limit(lost: float, allowed: bool) -> None:
    found = identify("external", shaft(13, "8/16", lost=lost * MM))
    mine = [r for r in found.candidates if r.candidate.designation == "13T 8/16 30 deg flat root"]
    assert any(r.allowed for r in mine) == allowed
    if allowed:
        assert mine[0].excess == pytest.approx(lost * MM, abs=1e-9)
        assert (mine[0].wear or 0.0) <= MOST_WEAR


def test_wear_costs_likelihood() -> None:
    # a part of 37.5 deg that is new beats the 45 deg one that would have to be worn for the same reading
    found = identify("external", replace(shaft(27, "24/48"), flanks="curved"))
    worn = [r for r in found.candidates if r.wear]
    new = [r for r in found.candidates if r.wear == 0.0]
    assert worn
    assert max(r.likelihood or 0.0 for r in worn) < min(r.likelihood or 0.0 for r in new)


@settings(max_examples=12, deadline=None)
@given(teeth=st.integers(10, 60), pitch=st.sampled_from(["10/20", "16/32", "24/48"]))
def test_readings_in_any_order_and_again_give_the_same(teeth: int, pitch: str) -> None:
    spline = ansi_b92_1.spline(teeth, pitch)
    pairs = []
    for k in (1.92, 1.7):
        reading = over_pins(teeth, spline.module, A30, spline.tooth_thickness, k * spline.module)
        pairs.append(PinPair(Measured(float(reading), FINE), Measured(k * spline.module, FINE_PIN)))
    one = identify("external", Readings(teeth=teeth, pins=tuple(pairs)))
    other = identify("external", Readings(teeth=teeth, pins=tuple(reversed(pairs))))
    assert [r.candidate.designation for r in one.candidates] == [
        r.candidate.designation for r in other.candidates
    ]


@settings(max_examples=12, deadline=None)
@given(teeth=st.integers(10, 60), pitch=st.sampled_from(["10/20", "16/32", "24/48"]))
def test_right_readings_more_never_push_the_true_one_back(teeth: int, pitch: str) -> None:
    spline = ansi_b92_1.spline(teeth, pitch)
    full = shaft(teeth, pitch)
    more = replace(full, minor_diameter=Measured(spline.external.minor_diameter, FINE))
    own = f"{teeth}T {pitch} 30 deg flat root"
    ranks = [
        [r.candidate.designation for r in identify("external", readings).candidates].index(own)
        for readings in (replace(full, pins=()), full, more)
    ]
    assert ranks == sorted(ranks, reverse=True)
    assert ranks[-1] == 0


def test_a_tenfold_part_is_the_same_question() -> None:
    """Module 1 and module 10 at ten times every length and tolerance: the same first candidate, scaled."""
    names = []
    for scale in (1.0, 10.0):
        reading = over_pins(30, scale * MM, A30, 0.5 * math.pi * scale * MM, 2.0 * scale * MM)
        readings = Readings(
            teeth=30,
            major_diameter=Measured(31.0 * scale * MM, 0.01 * scale * MM),
            pins=(
                PinPair(
                    Measured(float(reading), 0.01 * scale * MM), Measured(2 * scale * MM, 0.004 * scale * MM)
                ),
            ),
        )
        best = identify("external", readings).best
        assert best is not None
        names.append(best.candidate.designation)
    assert names == ["30Z x 1m x 30 deg flat root", "30Z x 10m x 30 deg flat root"]


def test_a_finer_instrument_makes_surer() -> None:
    ratios = []
    for tolerance in (0.05, 0.02, 0.005):
        full = shaft(20, "20/40")
        pair = full.pins[0]
        pins = (PinPair(Measured(pair.reading.value, tolerance * MM), Measured(pair.pin.value, 0.002 * MM)),)
        found = identify("external", replace(full, pins=pins))
        rival = next(r for r in found.candidates if r.same_part_as is None and r is not found.candidates[0])
        ratios.append(1.0 / (rival.likelihood or 1.0))
    assert ratios == sorted(ratios)


def test_a_makers_own_series_is_none_of_these() -> None:
    # module 1.13 mm, 25 teeth: between 24/48 and module 1.25
    m = 1.13 * MM
    reading = float(over_pins(25, m, A30, 0.5 * math.pi * m, 2.2 * MM))
    readings = Readings(
        teeth=25,
        major_diameter=Measured(26 * m, FINE),
        pins=(PinPair(Measured(reading, FINE), Measured(2.2 * MM, FINE_PIN)),),
    )
    found = identify("external", readings)
    assert found.verdict == "none of these"
    assert any("own" in reason for reason in found.reasons)
    assert all(not r.allowed and r.likelihood is None for r in found.candidates)


def test_too_much_lost_in_two_places_speaks_for_a_makers_own_series() -> None:
    # still inside the limits of wear and of turned tips, yet less likely than a spline of no standard
    found = identify("external", shaft(20, "20/40", lost=0.45 * MM, tip_lost=0.3 * MM))
    assert found.verdict == "none of these"
    assert found.best is not None
    assert "a spline of no standard is" in found.reasons[0]


@pytest.mark.parametrize("tip_lost", [0.1 * MM, 0.25 * MM])
def test_what_a_spline_of_no_standard_explains_nearly_as_well_is_left_open(tip_lost: float) -> None:
    # less lost at the tips than above, no other size near: only the spline of no standard stands against it
    full = shaft(20, "20/40", lost=0.45 * MM)
    assert identify("external", full).verdict == "identified"
    found = identify("external", shaft(20, "20/40", lost=0.45 * MM, tip_lost=tip_lost))
    assert found.verdict == "cannot tell"
    (reason,) = found.reasons
    assert reason.endswith("times as likely as a spline of no standard")


def test_one_length_never_identifies() -> None:
    for part in islice(parts(397), 40):
        readings = readings_of(part, "external", "basic", "micrometer", np.random.default_rng(1))
        if readings is None:
            continue
        alone = replace(readings, pins=(), minor_diameter=None, width=None)
        assert identify("external", alone).verdict == "cannot tell"


def test_flat_and_fillet_root_are_one_part_until_the_root_is_read() -> None:
    full = shaft(20, "16/32")
    found = identify("external", full)
    assert found.root_undecided
    assert found.candidates[1].same_part_as == found.candidates[0].candidate.designation
    fillet = ansi_b92_1.spline(20, "16/32", root="fillet").external.minor_diameter
    read = identify("external", replace(full, minor_diameter=Measured(fillet, FINE)))
    assert read.best is not None
    assert read.best.candidate.root == "fillet"
    assert not read.root_undecided


def test_the_next_reading_decides() -> None:
    """Taken as the answer says, on the true part, the next reading makes the ratio to the rival larger."""
    full = shaft(20, "16/32")
    before = identify("external", replace(full, pins=()))
    reading = before.next_reading
    assert reading is not None
    assert reading.kind == "over pins"
    assert reading.pin is not None
    spline = ansi_b92_1.spline(20, "16/32")
    true = float(over_pins(20, spline.module, A30, spline.tooth_thickness, reading.pin))
    assert dict(reading.expected)["20T 16/32 30 deg flat root"] == pytest.approx(true, abs=0.15 * MM)
    pins = (PinPair(Measured(true, FINE), Measured(reading.pin, FINE_PIN)),)
    after = identify("external", replace(full, pins=pins))
    assert before.verdict == "cannot tell"
    assert after.verdict == "identified"
    assert after.next_reading is None


def test_eyes_come_before_instruments() -> None:
    alone = Readings(teeth=6, major_diameter=Measured(0.875 * INCH, CALIPER))
    found = identify("external", alone)
    assert {r.candidate.flanks for r in found.candidates if r.allowed} == {"curved", "parallel"}
    assert found.next_reading is not None
    assert found.next_reading.kind == "flanks"
    seen = identify("external", replace(alone, flanks="parallel"))
    assert {r.candidate.flanks for r in seen.candidates} == {"parallel"}


def test_neighbours_say_what_a_miscount_hides() -> None:
    found = identify("external", shaft(27, "24/48"))
    less, more = found.neighbours
    assert (less.teeth, more.teeth) == (26, 28)
    # one tooth is one module of diameter
    assert more.tip_difference == pytest.approx(INCH / 24, rel=1e-9)
    assert less.tip_difference == pytest.approx(-INCH / 24, rel=1e-9)
    assert more.fits == "din 5480 30 x 1 x 28"


def test_pseudo_mates_are_named() -> None:
    found = identify("external", shaft(20, "20/40"))
    near = {m.designation: m.pitch_difference for m in found.pseudo_mates}
    assert near["20Z x 1.25m x 30 deg flat root"] == pytest.approx(1.25 / 1.27 - 1.0)


def test_tolerances_that_are_not_written_are_assumed_and_said() -> None:
    readings = shaft(27, "24/48")
    bare = replace(
        readings,
        major_diameter=Measured(readings.major_diameter.value if readings.major_diameter else 0.0),
        pins=(PinPair(Measured(readings.pins[0].reading.value), Measured(readings.pins[0].pin.value)),),
    )
    found = identify("external", bare)
    assert found.readings.major_diameter is not None
    assert found.readings.major_diameter.tolerance == CALIPER
    assert found.readings.pins[0].pin.tolerance == PIN
    assert "major diameter, pin reading, pin diameter: assumed 0.05 mm" in found.assumptions[0]
    assert "no tolerance written" not in " ".join(identify("external", readings).assumptions)


@pytest.mark.parametrize(("teeth", "warned"), [(13, True), (14, False), (61, False)])
def test_odd_teeth_are_warned_of(teeth: int, warned: bool) -> None:
    found = identify("external", shaft(teeth, "16/32"))
    assert any("odd" in caution for caution in found.cautions) == warned


def test_odd_teeth_measured_across_tip_and_gap_are_not_ruled_out() -> None:
    # 9 teeth: the caliper may read up to 3 % low
    found = identify("external", shaft(9, "16/32", tip_lost=0.015 * 0.625 * INCH))
    allowed = [r.candidate.designation for r in found.candidates if r.allowed]
    assert "9T 16/32 30 deg flat root" in allowed[:2]
    assert found.verdict == "cannot tell"


def test_an_answer_takes_less_than_a_tenth_of_a_second() -> None:
    # the first one builds the candidates and is not counted
    assert least_seconds(lambda: identify("external", shaft(27, "24/48"))) < seconds_here(0.1)


@pytest.mark.parametrize(
    ("readings", "message"),
    [
        (Readings(teeth=3, major_diameter=Measured(0.02)), "teeth must be a whole number"),
        (Readings(teeth=20), "no length was read"),
        (Readings(teeth=20, major_diameter=Measured(-0.02)), "^major_diameter must be above 0"),
        (Readings(teeth=20, major_diameter=Measured(math.nan)), "^major_diameter must be above 0"),
        (Readings(teeth=20, major_diameter=Measured(math.inf)), "^major_diameter must be above 0 and finite"),
        (Readings(teeth=20, major_diameter=Measured(0.02, 0.0)), "tolerance of major_diameter"),
        (Readings(teeth=20, major_diameter=Measured(0.02, 0.03)), "tolerance of major_diameter"),
        (
            Readings(teeth=20, major_diameter=Measured(0.02), minor_diameter=Measured(0.03)),
            "minor_diameter must be below",
        ),
        (
            Readings(teeth=20, pins=(PinPair(Measured(0.02), Measured(0.011)),)),
            "more than two pin diameters",
        ),
        (Readings(teeth=20, width=Measured(0.004), flanks="curved"), "parallel flanks"),
        (Readings(teeth=20, major_diameter=Measured(0.02), module=0.0), "module must be above 0"),
    ],
)
def test_impossible_readings_are_refused(readings: Readings, message: str) -> None:
    with pytest.raises(DomainError, match=message):
        identify("external", readings)


@pytest.mark.parametrize(
    ("value", "unit", "words"),
    [
        (0.982 * INCH, "in", "25 mm"),
        (1.0 * INCH, "in", None),
        (38.1 * MM, "mm", "1 1/2 in"),
        (38 * MM, "mm", None),
    ],
)
def test_round_size_of_the_other_system(value: float, unit: str, words: str | None) -> None:
    near = near_miss(value, unit)  # type: ignore[arg-type]
    assert (near.words if near else None) == words
