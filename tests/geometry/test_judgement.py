"""Judging pairs: shop cases, tolerances against Monte Carlo, and what must hold for every pair."""

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
    between_pins,
    din_5480,
    iso_4156,
    over_pins,
    space_from_pins,
    span_over_teeth,
    thickness_from_pins,
)
from torqcheck.geometry.pairs.base_circle import (
    FLANK_FORM,
    base_diameter_from_between_pins,
    base_diameter_from_over_pins,
    base_diameter_of_pins,
    base_pitch_from_spans,
    base_pitch_of_spans,
)
from torqcheck.geometry.pairs.bench_readings import (
    PartReadings,
    PinReading,
    Reading,
    Side,
    SpanReading,
    millimetres,
    thickness_over_span,
    width_over_pins,
)
from torqcheck.geometry.pairs.judgement import COUNT_THE_TEETH, PLAY_FELT, SNUG_FIT, Judgement, judge
from torqcheck.geometry.pairs.lash_comparison import (
    LashReading,
    compare_lash,
    lash_from_angle,
    lash_from_clearance,
    lash_from_dial,
    lash_from_pins,
    lash_from_radial_play,
)
from torqcheck.geometry.pairs.pseudo_mates import equal_count_fit, neighbours_with_equal_count
from torqcheck.geometry.pairs.unmasking import pitch_estimate, unmask
from torqcheck.geometry.pairs.worn_members import new_clearance, width_limits, worn_external, worn_internal

INCH, MM = 0.0254, 1e-3
A30 = math.radians(30.0)
PAIR = ansi_b92_1.spline(27, "24/48")
SPLINES = (
    PAIR,
    ansi_b92_1.spline(13, "16/32"),
    ansi_b92_1.spline(14, "12/24"),
    ansi_b92_1.spline(20, "20/40"),
    ansi_b92_1.spline(36, "16/32", root="fillet"),
    iso_4156.spline(20, 1.25e-3),
    iso_4156.spline(24, 2e-3),
    din_5480.spline(0.050, 0.002, 24),
)
ANY = st.sampled_from(SPLINES)
SIDES: tuple[Side, Side] = ("external", "internal")
FINE, GAUGE = 0.005 * MM, 0.0025 * MM  # micrometer and gauge pin
COARSE, SHANK = 0.02 * MM, 0.005 * MM  # caliper and drill shank


def pins(
    spline: InvoluteSpline,
    side: Side,
    width: float,
    tolerance: float = FINE,
    pin_tolerance: float = GAUGE,
    pin: float | None = None,
) -> PinReading:
    """The reading that a part of this width gives without error."""
    size = pin if pin is not None else (1.92 if side == "external" else 1.728) * spline.module
    function = over_pins if side == "external" else between_pins
    reading = float(function(spline.teeth, spline.module, spline.pressure_angle, width, size))
    return PinReading(reading, tolerance, size, pin_tolerance)


def shaft_of(spline: InvoluteSpline, thickness: float, *more: float) -> PartReadings:
    """A counted shaft read over pins; more: tolerances of reading and pin."""
    return PartReadings(teeth=spline.teeth, pins=(pins(spline, "external", thickness, *more),))


def hub_of(spline: InvoluteSpline, space: float, *more: float) -> PartReadings:
    """A counted hub read between pins."""
    return PartReadings(teeth=spline.teeth, pins=(pins(spline, "internal", space, *more),))


def middle(spline: InvoluteSpline, side: Side) -> float:
    """Width in the middle between the limits of a new part."""
    limits = width_limits(spline, side)
    return 0.5 * (limits.effective + limits.limit)


# --- three cases of the shop ---


def test_twenty_seven_into_twenty_eight() -> None:
    other = ansi_b92_1.spline(28, "24/48")
    shaft = shaft_of(PAIR, PAIR.tooth_thickness - 0.12 * MM)
    found = judge(PAIR, shaft, hub_of(other, other.space_width + 0.05 * MM), [LashReading("dial", 0.0, 1e-5)])
    assert found.verdict == "false fit"
    assert found.assembly is not None
    assert found.assembly.missing == pytest.approx(2.60 * MM, abs=0.005 * MM)
    assert found.assembly.free_teeth == 5
    assert "27 teeth and the hub 28" in found.reasons[0]
    assert "2.60 mm of metal per tooth" in found.reasons[1]
    assert found.practice == (SNUG_FIT, COUNT_THE_TEETH)


def worn_pair(wear: float, dial: float | None = None) -> Judgement:
    """27T 24/48: shaft worn past its limit, hub in the middle of new; lash by dial less the allowances."""
    limits = width_limits(PAIR, "external")
    space = middle(PAIR, "internal")
    lash = [LashReading("dial", dial, 0.01 * MM)] if dial is not None else []
    return judge(PAIR, shaft_of(PAIR, limits.limit - wear), hub_of(PAIR, space), lash)


def test_worn_mate_by_pins_and_dial() -> None:
    found = worn_pair(0.12 * MM, dial=0.20 * MM)
    assert found.verdict == "worn mate"
    assert found.external is not None
    assert found.internal is not None
    assert found.lash is not None
    assert found.external.judged == "worn"
    assert found.external.wear == pytest.approx(0.12 * MM, abs=1e-9)
    assert found.internal.judged == "within limits"
    assert found.internal.wear == 0.0
    assert found.lash.agree
    assert found.lash.by == "dial"
    assert found.lash.standing == "beyond new"
    assert "0.120 mm too thin against the least of class 5" in found.reasons[0]
    assert any("renew both" in reason for reason in found.reasons)
    assert PLAY_FELT in found.practice


def test_caliper_cannot_tell_what_a_micrometer_decides() -> None:
    thickness = width_limits(PAIR, "external").limit - 0.010 * MM
    space = middle(PAIR, "internal")
    coarse = judge(PAIR, shaft_of(PAIR, thickness, COARSE, SHANK), hub_of(PAIR, space, COARSE, SHANK))
    assert coarse.verdict == "not measured"
    assert coarse.external is not None
    assert coarse.external.judged == "cannot tell"
    assert coarse.external.tolerance == pytest.approx(0.0155 * MM, abs=0.0001 * MM)
    assert coarse.external.tolerance_needed is not None
    assert FINE < coarse.external.tolerance_needed < COARSE
    assert "Cannot tell with this reading" in coarse.reasons[0]
    assert any("micrometer" in reading for reading in coarse.next_readings)
    fine = judge(PAIR, shaft_of(PAIR, thickness), hub_of(PAIR, space))
    assert fine.verdict == "worn mate"
    assert fine.external is not None
    assert fine.external.wear == pytest.approx(0.010 * MM, abs=1e-9)


def test_caliper_on_the_tips_says_nothing_but_pins_do() -> None:
    shaft = PartReadings(teeth=27, major_diameter=Reading(29.58 * MM, COARSE))
    hub = PartReadings(teeth=27, minor_diameter=Reading(27.56 * MM, COARSE))
    found = judge(PAIR, shaft, hub)
    assert found.verdict == "not measured"
    assert any("a caliper on the tips says nothing" in reason for reason in found.reasons)
    assert any("over pins" in reading for reading in found.next_readings)
    read = (
        dataclasses.replace(shaft, pins=(pins(PAIR, "external", middle(PAIR, "external")),)),
        dataclasses.replace(hub, pins=(pins(PAIR, "internal", middle(PAIR, "internal")),)),
    )
    assert judge(PAIR, *read).verdict == "true mate"


@pytest.mark.parametrize("side", SIDES)
@pytest.mark.parametrize(
    ("share", "judged"), [(-1.1, "within limits"), (-0.9, "cannot tell"), (0.9, "cannot tell"), (1.1, "worn")]
)
def test_a_limit_inside_the_tolerance_leaves_it_open(side: Side, share: float, judged: str) -> None:
    limit = width_limits(PAIR, side).limit
    spread = width_over_pins(PAIR, side, pins(PAIR, side, limit, COARSE, SHANK)).tolerance
    width = limit + (-1.0 if side == "external" else 1.0) * share * spread
    function = worn_external if side == "external" else worn_internal
    assert function(PAIR, pins(PAIR, side, width, COARSE, SHANK)).judged == judged


def test_needed_tolerance_is_just_enough() -> None:
    # a reading of the stated tolerance leaves the limit outside by a hair; 1 percent more does not
    width = width_limits(PAIR, "external").limit - 0.010 * MM
    member = worn_external(PAIR, pins(PAIR, "external", width, COARSE, GAUGE))
    assert member.tolerance_needed is not None
    for share, judged in ((0.999, "worn"), (1.001, "cannot tell")):
        again = worn_external(PAIR, pins(PAIR, "external", width, share * member.tolerance_needed, GAUGE))
        assert again.judged == judged


# --- tolerances against Monte Carlo ---


@pytest.mark.parametrize("spline", SPLINES, ids=lambda s: s.designation)
@pytest.mark.parametrize("side", SIDES)
def test_tolerance_of_a_width_by_monte_carlo(spline: InvoluteSpline, side: Side) -> None:
    random = np.random.default_rng(20)
    exact = pins(spline, side, middle(spline, side), COARSE, SHANK)
    reading = exact.reading + 0.5 * COARSE * random.standard_normal(400_000)
    pin = exact.pin + 0.5 * SHANK * random.standard_normal(400_000)
    function = thickness_from_pins if side == "external" else space_from_pins
    drawn = np.asarray(function(spline.teeth, spline.module, spline.pressure_angle, reading, pin))
    # 400 000 draws give the deviation to 0.11 percent (one sigma)
    assert width_over_pins(spline, side, exact).tolerance == pytest.approx(2.0 * drawn.std(), rel=0.006)


@pytest.mark.parametrize("side", SIDES)
def test_tolerance_of_a_base_diameter_by_monte_carlo(side: Side) -> None:
    random = np.random.default_rng(21)
    sizes = (2.05 * MM, 1.80 * MM) if side == "external" else (1.95 * MM, 1.60 * MM)
    width = middle(PAIR, side)
    exact = [pins(PAIR, side, width, FINE, GAUGE, size) for size in sizes]
    function = base_diameter_from_over_pins if side == "external" else base_diameter_from_between_pins
    sign = -1.0 if side == "external" else 1.0
    arguments = []
    for pin in exact:
        phi = math.acos(
            math.cos(math.pi / 54.0) * PAIR.base_diameter / (pin.reading + sign * pin.pin)
        )  # 27 teeth
        form = FLANK_FORM * math.cos(math.pi / 54.0) / math.sin(phi)  # one sigma: half of 2 FLANK_FORM
        spread = math.hypot(0.5 * FINE, form)
        arguments.append(pin.reading + spread * random.standard_normal(200_000))
        arguments.append(pin.pin + 0.5 * GAUGE * random.standard_normal(200_000))
    drawn = np.asarray(function(27, *arguments))
    ours = base_diameter_of_pins(side, 27, tuple(exact))
    assert ours is not None
    assert ours.value == pytest.approx(PAIR.base_diameter, rel=1e-10)
    assert ours.tolerance == pytest.approx(2.0 * drawn.std(), rel=0.02)


@given(ANY, st.floats(-0.1, 0.3), st.floats(0.02, 0.12))
def test_base_diameter_comes_back(spline: InvoluteSpline, wear: float, apart: float) -> None:
    lost = wear * 0.2 * spline.module
    m = spline.module
    for side, size in (("external", 1.8), ("internal", 1.65)):
        sign = -1.0 if side == "external" else 1.0
        width = (spline.tooth_thickness if side == "external" else spline.space_width) + sign * lost
        read = tuple(pins(spline, side, width, 0.0, 0.0, k * m) for k in (size, size + apart))  # type: ignore[arg-type]
        found = base_diameter_of_pins(side, spline.teeth, read)  # type: ignore[arg-type]
        assert found is not None
        # the readings' own rounding comes back divided by the small angle between the two pins
        assert found.value == pytest.approx(spline.base_diameter, rel=1e-9)


@given(ANY, st.floats(0.0, 0.2))
def test_base_pitch_comes_back(spline: InvoluteSpline, wear: float) -> None:
    thickness = spline.tooth_thickness - wear * spline.module
    arguments = (spline.teeth, spline.module, spline.pressure_angle, thickness)
    spans = tuple(SpanReading(float(span_over_teeth(*arguments, k)), FINE, k) for k in (2, 4, 3))
    found = base_pitch_of_spans(spans)
    assert found is not None
    assert found.value == pytest.approx(math.pi * spline.module * math.cos(spline.pressure_angle), rel=1e-12)
    assert found.tolerance == pytest.approx(0.5 * math.hypot(FINE, FINE, 2 * FLANK_FORM), rel=1e-12)


# --- what must hold for every pair ---


@settings(max_examples=60, deadline=None)
@given(ANY, st.floats(0.0, 0.3), st.floats(0.0, 0.3), st.floats(0.0, 0.3), st.floats(0.002, 0.03))
def test_more_wear_never_makes_a_worn_mate_true(
    spline: InvoluteSpline, shaft: float, hub: float, more: float, tolerance: float
) -> None:
    def pair(outer: float, inner: float) -> Judgement:
        t = middle(spline, "external") - outer * MM
        s = middle(spline, "internal") + inner * MM
        fine = tolerance * MM
        return judge(spline, shaft_of(spline, t, fine), hub_of(spline, s, fine))

    before = pair(shaft, hub)
    if before.verdict != "true mate":
        assert pair(shaft + more, hub).verdict != "true mate"
        assert pair(shaft, hub + more).verdict != "true mate"
    assert before.verdict != "false fit"


@settings(max_examples=60, deadline=None)
@given(ANY, st.sampled_from(SIDES), st.floats(1.01, 20.0), st.floats(0.002, 0.03))
def test_the_wrong_direction_is_impossible(
    spline: InvoluteSpline, side: Side, beyond: float, tolerance: float
) -> None:
    limits = width_limits(spline, side)
    spread = width_over_pins(spline, side, pins(spline, side, limits.effective, tolerance * MM)).tolerance
    sign = 1.0 if side == "external" else -1.0
    width = limits.effective + sign * min(beyond * spread, 0.1 * spline.module + 1.1 * spread)
    read = pins(spline, side, width, tolerance * MM)
    # the tolerance itself changes a little with the width
    if sign * (width - limits.effective) <= width_over_pins(spline, side, read).tolerance:
        return
    member = (worn_external if side == "external" else worn_internal)(spline, read)
    assert member.judged == "impossible"
    assert member.wear == 0.0
    assert member.next_reading is not None
    part = PartReadings(teeth=spline.teeth, pins=(read,))
    new = PartReadings(new=True)
    pair = (part, new) if side == "external" else (new, part)
    assert judge(spline, *pair).verdict not in {"true mate", "worn mate"}


@settings(max_examples=60, deadline=None)
@given(ANY, st.integers(-6, 6).filter(bool), st.floats(0.0, 1.0), st.booleans())
def test_different_counts_are_a_false_fit_whatever_else(
    spline: InvoluteSpline, more: int, lash: float, new: bool
) -> None:
    shaft = shaft_of(spline, middle(spline, "external"))
    hub = PartReadings(teeth=spline.teeth + more, new=new)
    found = judge(spline, shaft, hub, [LashReading("dial", lash * MM, 0.01 * MM)])
    assert found.verdict == "false fit"
    assert found.assembly is not None


@given(ANY, st.sampled_from(SIDES), st.floats(-0.2, 0.3), st.floats(0.001, 0.02), st.floats(1.0, 5.0))
def test_a_coarser_instrument_never_decides_what_a_finer_left_open(
    spline: InvoluteSpline, side: Side, wear: float, fine: float, factor: float
) -> None:
    sign = -1.0 if side == "external" else 1.0
    width = width_limits(spline, side).limit + sign * wear * 0.3 * MM
    function = worn_external if side == "external" else worn_internal
    first = function(spline, pins(spline, side, width, fine * MM))
    second = function(spline, pins(spline, side, width, factor * fine * MM))
    if first.judged == "cannot tell":
        assert second.judged == "cannot tell"
    if {first.judged, second.judged} <= {"worn", "within limits"}:
        assert first.judged == second.judged


@settings(max_examples=40, deadline=None)
@given(ANY, st.floats(0.0, 0.2), st.integers(0, 10**6))
def test_a_true_pair_is_never_called_false(spline: InvoluteSpline, wear: float, seed: int) -> None:
    # errors of reading up to two sigma, tips anywhere in their band
    random = np.random.default_rng(seed)

    def off(tolerance: float) -> float:
        return float(np.clip(0.5 * tolerance * random.standard_normal(), -tolerance, tolerance))

    def read(side: Side, width: float) -> tuple[PinReading, ...]:
        sizes = (1.92, 1.80) if side == "external" else (1.728, 1.65)
        exact = [pins(spline, side, width, FINE, GAUGE, size * spline.module) for size in sizes]
        return tuple(dataclasses.replace(pin, reading=pin.reading + off(FINE)) for pin in exact)

    t = middle(spline, "external") - wear * MM
    s = middle(spline, "internal") + 0.5 * wear * MM
    band = random.uniform(0.0, 0.25 * MM, 2)
    shaft = PartReadings(
        teeth=spline.teeth,
        pins=read("external", t),
        major_diameter=Reading(spline.external.major_diameter - band[0] + off(COARSE), COARSE),
    )
    hub = PartReadings(
        teeth=spline.teeth,
        pins=read("internal", s),
        minor_diameter=Reading(spline.internal.minor_diameter + band[1] + off(COARSE), COARSE),
    )
    assert judge(spline, shaft, hub).verdict != "false fit"


def entering_pseudo_mates() -> list[tuple[InvoluteSpline, InvoluteSpline]]:
    """Shaft and hub of different splines of equal count that slide together."""
    pairs = []
    for spline in SPLINES:
        for item in neighbours_with_equal_count(spline):
            if item.as_shaft.enters and item.as_shaft.lash is not None:
                pairs.append((item.spline, spline))
            if item.as_hub.enters and item.as_hub.lash is not None:
                pairs.append((spline, item.spline))
    return pairs


@pytest.mark.parametrize(("shaft", "hub"), entering_pseudo_mates(), ids=lambda s: s.designation)
@pytest.mark.parametrize("stated", ["shaft", "hub"])
def test_no_pseudo_mate_passes_once_tips_and_pins_are_read(
    shaft: InvoluteSpline, hub: InvoluteSpline, stated: str
) -> None:
    spline = shaft if stated == "shaft" else hub
    outer = PartReadings(
        teeth=shaft.teeth,
        pins=(pins(shaft, "external", middle(shaft, "external"), pin=1.92 * spline.module),),
        major_diameter=Reading(shaft.external.major_diameter - 0.08 * MM, COARSE),
    )
    inner = PartReadings(
        teeth=hub.teeth,
        pins=(pins(hub, "internal", middle(hub, "internal"), pin=1.728 * spline.module),),
        minor_diameter=Reading(hub.internal.minor_diameter + 0.08 * MM, COARSE),
    )
    fit = equal_count_fit(shaft, hub)
    assert fit.lash is not None
    found = judge(spline, outer, inner, [LashReading("dial", fit.lash + 0.05 * MM, 0.05 * MM)])
    assert found.verdict in {"false fit", "not measured"}


# --- lash ---

NEW = PAIR.new_clearance


def lashes(**millimetre: float) -> list[LashReading]:
    """Readings by way, mm, each with 0.01 mm of tolerance."""
    return [LashReading(way.replace("_", " "), value * MM, 0.01 * MM) for way, value in millimetre.items()]  # type: ignore[arg-type]


def test_readings_that_agree() -> None:
    found = compare_lash(lashes(pins=0.25, dial=0.20, clearance=0.21), NEW)
    assert found.agree
    assert found.doubtful == ()
    assert found.by == "clearance"
    assert found.standing == "beyond new"
    assert "agree" in found.reasons[0]


def test_one_against_two_is_the_doubtful_one() -> None:
    found = compare_lash(lashes(pins=0.25, dial=0.40, clearance=0.21), NEW)
    assert found.agree is False
    assert found.doubtful == ("dial",)
    assert found.clearance == pytest.approx(0.21 * MM)
    assert any("bearings, keys or gear train moved" in reason for reason in found.reasons)
    (again,) = found.next_readings
    assert again.startswith("repeat the dial reading: lock one part at the spline itself")


def test_two_that_disagree_are_both_doubtful() -> None:
    found = compare_lash(lashes(pins=0.10, dial=0.30), NEW)
    assert set(found.doubtful) == {"pins", "dial"}
    assert found.clearance is None
    assert found.standing == "cannot tell"
    assert "rode on unworn ends" in found.reasons[0]
    low = compare_lash(lashes(pins=0.40, dial=0.10), NEW)
    assert "errors that have not bedded in" in low.reasons[0]


def test_pins_may_exceed_the_dial_by_the_allowances_only() -> None:
    # lam of both members: bedded in less new
    assert NEW.bedded_in is not None
    lam = NEW.bedded_in - NEW.maximum
    together = math.hypot(0.01 * MM, 0.01 * MM)
    for excess, agree in ((lam + 0.99 * together, True), (lam + 1.01 * together, False)):
        pair = [LashReading("pins", 0.1 * MM + excess, 0.01 * MM), LashReading("dial", 0.1 * MM, 0.01 * MM)]
        assert compare_lash(pair, NEW).agree is agree
    for short, agree in ((0.99 * together, True), (1.01 * together, False)):
        pair = [LashReading("pins", 0.1 * MM - short, 0.01 * MM), LashReading("dial", 0.1 * MM, 0.01 * MM)]
        assert compare_lash(pair, NEW).agree is agree


def test_radial_play_stopped_by_a_pilot() -> None:
    found = compare_lash(lashes(radial_play=0.05, dial=0.20, pins=0.24), NEW)
    assert found.doubtful == ("radial play",)
    assert any("pilot" in reason for reason in found.reasons)


@given(st.permutations(lashes(pins=0.25, dial=0.20, clearance=0.50, radial_play=0.19)))
def test_order_of_the_readings_does_not_matter(readings: list[LashReading]) -> None:
    found = compare_lash(readings, NEW)
    assert found == compare_lash(readings[::-1], NEW)
    assert found.doubtful == ("clearance",)
    assert found.by == "dial"


def test_dial_that_moves_the_gear_train_leaves_the_pair_unjudged() -> None:
    found = worn_pair(-0.02 * MM, dial=0.40 * MM)
    assert found.verdict == "not measured"
    assert any("lock one part at the spline" in reading for reading in found.next_readings)


def test_ways_of_reading_the_lash() -> None:
    tooth, space = Reading(1.60 * MM, 0.003 * MM), Reading(1.72 * MM, 0.004 * MM)
    by_pins = lash_from_pins(tooth, space)
    assert by_pins.clearance == pytest.approx(0.12 * MM)
    assert by_pins.tolerance == pytest.approx(0.005 * MM)
    # 1 degree on a 36 mm circle is pi/10 mm
    angle = lash_from_angle(Reading(math.radians(1.0), math.radians(0.1)), 36.0 * MM)
    assert (angle.clearance, angle.tolerance) == pytest.approx((math.pi / 10 * MM, math.pi / 100 * MM))
    play = lash_from_radial_play(Reading(0.1 * MM, 0.02 * MM), A30, 200)
    assert play.clearance == pytest.approx(0.1 * MM / math.cos(A30), rel=1e-4)
    assert play.tolerance == pytest.approx(0.2 * play.clearance)
    # a travel of nothing is a reading too
    still = lash_from_dial(Reading(0.0, 0.01 * MM), Reading(100 * MM, 1 * MM), 30 * MM)
    assert (still.clearance, still.tolerance) == pytest.approx((0.0, 0.0015 * MM))
    with pytest.raises(DomainError, match="clearance must be 0 or more"):
        lash_from_clearance(Reading(-0.1 * MM))
    with pytest.raises(DomainError, match="radial_play must be 0 or more"):
        lash_from_radial_play(Reading(-0.1 * MM), A30, 20)
    with pytest.raises(DomainError, match="each way"):
        compare_lash([*lashes(dial=0.1), *lashes(dial=0.2)], NEW)


# --- counts, missing readings, other obstacles ---


def test_uncounted_and_other_counts() -> None:
    found = judge(PAIR, PartReadings(), PartReadings(teeth=27))
    assert found.verdict == "not measured"
    assert found.next_readings == ("teeth of the shaft: mark the first tooth with paint and count twice",)
    assert found.external is None
    found = judge(PAIR, PartReadings(teeth=28), PartReadings(teeth=28))
    assert found.verdict == "not measured"
    assert "Both parts have 28 teeth, the stated size has 27" in found.reasons[0]
    found = judge(ansi_b92_1.spline(28, "24/48"), PartReadings(teeth=14), PartReadings(new=True))
    assert found.verdict == "false fit"
    assert any("multiple" in reason for reason in found.reasons)


def test_new_parts_need_no_reading() -> None:
    assert judge(PAIR, PartReadings(new=True), PartReadings(new=True)).verdict == "true mate"


def test_lash_alone_where_another_pitch_could_play_as_much() -> None:
    spline = ansi_b92_1.spline(20, "20/40")
    counted = PartReadings(teeth=20)
    lash = [LashReading("dial", 0.25 * MM, 0.01 * MM)]
    found = judge(spline, counted, counted, lash)
    assert found.verdict == "not measured"
    assert any("outside diameter of the shaft with a caliper" in text for text in found.next_readings)
    # a module 1.25 shaft of 37.5 deg has next to no lash in this hub
    small = judge(spline, counted, counted, [LashReading("dial", 0.05 * MM, 0.01 * MM)])
    assert small.verdict == "not measured"
    assert "which has no more lash" in small.reasons[-1]
    tips = (
        PartReadings(teeth=20, major_diameter=Reading(26.6 * MM, COARSE)),
        PartReadings(teeth=20, minor_diameter=Reading(24.2 * MM, COARSE)),
    )
    assert judge(spline, *tips, lash).verdict == "worn mate"
    assert judge(spline, *tips, [LashReading("dial", 0.05 * MM, 0.01 * MM)]).verdict == "true mate"
    assert judge(spline, *tips, [LashReading("dial", 0.14 * MM, 0.01 * MM)]).verdict == "not measured"


def test_shallow_overlap_is_not_passed() -> None:
    # half the usual depth: a miscount by one
    shaft = PartReadings(
        teeth=27, major_diameter=Reading(28.0 * MM, COARSE), pins=shaft_of(PAIR, 1.63 * MM).pins
    )
    hub = PartReadings(teeth=27, minor_diameter=Reading(27.0 * MM, COARSE), pins=hub_of(PAIR, 1.70 * MM).pins)
    found = judge(PAIR, shaft, hub)
    assert found.verdict in {"not measured", "false fit"}
    turned = dataclasses.replace(shaft, major_diameter=Reading(29.0 * MM, COARSE))
    found = judge(PAIR, turned, dataclasses.replace(hub, minor_diameter=Reading(27.54 * MM, COARSE)))
    assert found.verdict == "not measured"
    assert any("miscount by one" in reason for reason in found.reasons)


def test_worn_step() -> None:
    limits = width_limits(PAIR, "external")
    deep = worn_external(PAIR, None, Reading(0.15 * MM, 0.02 * MM))
    assert deep.judged == "worn"
    assert deep.width == pytest.approx(middle(PAIR, "external") - 0.15 * MM / math.cos(A30))
    shallow = worn_internal(PAIR, None, Reading(0.03 * MM, 0.02 * MM))
    assert shallow.judged == "cannot tell"
    assert shallow.next_reading is not None
    # pins that show a new tooth beside a step of 0.15 mm cannot have touched the worn band
    bridged = worn_external(PAIR, pins(PAIR, "external", limits.limit + 0.02 * MM), Reading(0.15 * MM))
    assert bridged.judged == "worn"
    assert bridged.width == pytest.approx(limits.limit + 0.02 * MM - 0.15 * MM / math.cos(A30))
    assert "rode on unworn ends" in bridged.reason
    # a hub that pins find tight widens by the step, along the pitch circle
    space = width_limits(PAIR, "internal").limit - 0.02 * MM
    bridged = worn_internal(PAIR, pins(PAIR, "internal", space), Reading(0.15 * MM))
    assert bridged.width == pytest.approx(space + 0.15 * MM / math.cos(A30))
    # pins that do show the loss already contain it
    felt = worn_external(PAIR, pins(PAIR, "external", limits.limit - 0.12 * MM), Reading(0.15 * MM))
    assert felt.wear == pytest.approx(0.12 * MM)


def test_reading_that_no_such_part_gives() -> None:
    wrong = PinReading(20.0 * MM, FINE, 2.0 * MM, GAUGE)
    member = worn_external(PAIR, wrong)
    assert member.judged == "impossible"
    assert member.width is None
    assert "impossible for 27T 24/48" in member.reason
    found = judge(PAIR, PartReadings(teeth=27, pins=(wrong,)), PartReadings(new=True))
    assert found.verdict in {"not measured", "false fit"}


def test_pins_that_touch_past_the_flank() -> None:
    member = worn_external(PAIR, pins(PAIR, "external", PAIR.tooth_thickness - 0.05 * MM, pin=3.2 * MM))
    assert member.judged == "cannot tell"
    assert "outside the true flank" in member.reason
    assert member.next_reading == "read with pins of about 2.032 mm"
    # in a hub small pins lie below the form circle: centre and contact from the equations of the involute
    member = worn_internal(PAIR, pins(PAIR, "internal", PAIR.space_width + 0.05 * MM, pin=1.15 * MM))
    assert member.judged == "cannot tell"
    assert "outside the true flank" in member.reason
    usual = worn_internal(PAIR, pins(PAIR, "internal", PAIR.space_width + 0.05 * MM))
    assert "outside the true flank" not in usual.reason


@pytest.mark.parametrize("order", [1, -1])
def test_of_two_undecided_readings_the_one_that_shows_a_width_counts(order: int) -> None:
    width = width_limits(PAIR, "external").limit - 0.002 * MM
    astray = pins(PAIR, "external", PAIR.tooth_thickness - 0.05 * MM, pin=3.2 * MM)
    both = (pins(PAIR, "external", width), astray)
    found = judge(PAIR, PartReadings(teeth=27, pins=both[::order]), PartReadings(new=True)).external
    assert found is not None
    assert found.judged == "cannot tell"
    assert found.width == pytest.approx(width, rel=1e-9)
    assert found.wear == pytest.approx(0.002 * MM, rel=1e-6)


def test_classes_and_stand_ins() -> None:
    # 0.03 mm past class 5 is inside class 7
    thickness = width_limits(PAIR, "external").limit - 0.03 * MM
    usual = worn_external(PAIR, pins(PAIR, "external", thickness))
    assert usual.judged == "worn"
    assert "class 7 may be that thin" in usual.reason
    assert worn_external(PAIR, pins(PAIR, "external", thickness), fit_class=7).judged == "within limits"
    assert new_clearance(PAIR, 5).maximum == NEW.maximum
    assert new_clearance(PAIR) is NEW
    iso = iso_4156.spline(24, 2e-3)
    assert new_clearance(iso, 5).bedded_in == iso.new_clearance.bedded_in
    assert "stand-in" in width_limits(din_5480.spline(0.050, 0.002, 24), "external").words
    with pytest.raises(DomainError, match="class"):
        width_limits(PAIR, "external", 9)


# --- each part by itself ---


def spans(spline: InvoluteSpline, thickness: float, *counts: int) -> tuple[SpanReading, ...]:
    arguments = (spline.teeth, spline.module, spline.pressure_angle, thickness)
    return tuple(SpanReading(float(span_over_teeth(*arguments, k)), FINE, k) for k in counts)


def test_spans_against_two_pins_tell_two_pitches_apart() -> None:
    metric = iso_4156.spline(27, 1e-3)
    shaft = PartReadings(teeth=27, spans=spans(metric, metric.tooth_thickness - 0.05 * MM, 4, 5, 6))
    sizes = (1.85 * MM, 1.70 * MM)
    hub = PartReadings(
        teeth=27, pins=tuple(pins(PAIR, "internal", 1.70 * MM, FINE, GAUGE, size) for size in sizes)
    )
    found = unmask(PAIR, shaft, hub)
    assert found.verdict == "different pitch"
    assert found.external is not None
    assert found.external.by == "two spans"
    assert found.external.module.value == pytest.approx(1.0 * MM, rel=1e-9)
    assert found.internal is not None
    assert found.internal.by == "two pin sizes"
    assert found.internal.base_diameter.value == pytest.approx(PAIR.base_diameter, rel=1e-9)
    assert judge(PAIR, shaft, hub).verdict == "false fit"


def test_a_pitch_of_no_standard_is_told_from_its_mate() -> None:
    # no standard has module 1.12: the base circles of the two parts decide
    odd = dataclasses.replace(iso_4156.spline(27, 1e-3), module=1.12 * MM, tooth_thickness=1.75 * MM)
    shaft = PartReadings(teeth=27, spans=spans(odd, 1.7 * MM, 4, 5, 6))
    sizes = (1.95 * MM, 1.60 * MM)
    hub = PartReadings(
        teeth=27, pins=tuple(pins(PAIR, "internal", 1.70 * MM, FINE, GAUGE, size) for size in sizes)
    )
    found = unmask(PAIR, shaft, hub)
    assert found.external_fits == ()
    assert found.verdict == "different pitch"
    assert "base pitch of the shaft" in found.reason


def test_same_pitch_once_every_neighbour_is_excluded() -> None:
    shaft = PartReadings(
        teeth=27,
        spans=spans(PAIR, middle(PAIR, "external"), 4, 5, 6),
        major_diameter=Reading(29.58 * MM, COARSE),
    )
    hub = PartReadings(
        teeth=27,
        pins=(pins(PAIR, "internal", middle(PAIR, "internal")),),
        minor_diameter=Reading(27.56 * MM, COARSE),
    )
    found = unmask(PAIR, shaft, hub)
    assert found.verdict == "same pitch"
    assert found.external_fits == found.internal_fits == (PAIR.designation,)


def test_nothing_read_leaves_everything_open() -> None:
    found = unmask(PAIR, PartReadings(), PartReadings())
    assert found.verdict == "cannot tell"
    assert found.external is None
    assert len(found.next_readings) == 2
    assert pitch_estimate(PAIR, "external", PartReadings()) is None


def test_parts_of_one_other_spline_are_told_as_a_wrong_size() -> None:
    stated, real = ansi_b92_1.spline(20, "20/40"), iso_4156.spline(20, 1.25e-3)
    shaft = PartReadings(teeth=20, major_diameter=Reading(26.15 * MM, COARSE))
    hub = PartReadings(teeth=20, minor_diameter=Reading(real.internal.minor_diameter + 0.05 * MM, COARSE))
    hub = dataclasses.replace(hub, pins=(pins(real, "internal", middle(real, "internal")),))
    found = unmask(stated, shaft, hub)
    assert found.verdict == "cannot tell"
    assert "the stated size is wrong" in found.reason
    assert judge(stated, shaft, hub).verdict == "not measured"


def test_estimate_from_tips_holds_the_nominal_size() -> None:
    # tips are made up to 0.010 in below nominal, so both ends of the band lie at the end of the tolerance
    for below in (0.0, 0.254 * MM):
        part = PartReadings(major_diameter=Reading(PAIR.external.major_diameter - below))
        found = pitch_estimate(PAIR, "external", part)
        assert found is not None
        assert not found.angle_free
        assert abs(found.module.value - PAIR.module) == pytest.approx(found.module.tolerance, rel=1e-9)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: PinReading(30 * MM, -1e-6, 2 * MM), "tolerance must be 0 or more"),
        (lambda: PinReading(0.0, 1e-6, 2 * MM), "reading must be above 0"),
        (lambda: Reading(math.nan), "reading must be finite"),
        (lambda: SpanReading(8 * MM, math.inf, 3), "tolerance must be 0 or more"),
        (lambda: neighbours_with_equal_count(PAIR, 0.0), "within must lie"),
        (lambda: equal_count_fit(PAIR, SPLINES[1]), "numbers of teeth differ"),
        (
            lambda: base_diameter_from_over_pins(27, 31e-3, 2e-3, 30e-3, 2e-3),
            "second_pin_diameter must be below",
        ),
        (lambda: base_diameter_from_over_pins(27, 31e-3, 2e-3, 30.9e-3, 1.8e-3), "no involute gives"),
        (lambda: base_diameter_from_over_pins(27, 60e-3, 2e-3, 30.9e-3, 1.8e-3), "no involute gives"),
        (lambda: base_diameter_from_over_pins(27.5, 31e-3, 2e-3, 30e-3, 1.8e-3), "whole number"),
        (lambda: base_pitch_from_spans(8e-3, 3, 5e-3, 3), "second_spanned_teeth"),
        (lambda: base_pitch_from_spans(5e-3, 3, 8e-3, 2), "span must be longer"),
    ],
)
def test_impossible_readings_are_refused(call, message: str) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(DomainError, match=message):
        call()


def test_kernels_take_arrays_and_pass_nan_through() -> None:
    over = [float(over_pins(27, PAIR.module, A30, 1.6 * MM, size)) for size in (2.0 * MM, 1.8 * MM)]
    found = np.asarray(
        base_diameter_from_over_pins(27, np.array([over[0], math.nan]), 2.0 * MM, over[1], 1.8 * MM)
    )
    assert found[0] == pytest.approx(PAIR.base_diameter, rel=1e-9)
    assert math.isnan(found[1])
    assert math.isnan(float(base_pitch_from_spans(math.nan, 3, 5e-3, 2)))


def test_lengths_in_sentences() -> None:
    assert millimetres(1.2345e-3) == "1.234 mm"
    assert millimetres(-1e-9) == "0.000 mm"


@pytest.mark.parametrize("angle", [30.0, 37.5, 45.0])
def test_the_tolerance_of_a_span_is_that_of_the_thickness_which_moves_it(angle: float) -> None:
    """By central differences of the exact span, not by the cosine."""
    spline = ansi_b92_1.spline(26, "20/40", math.radians(angle), "fillet")
    thickness = 0.5 * math.pi * spline.module
    step = 1e-6

    def read(t: float) -> float:
        return float(span_over_teeth(spline.teeth, spline.module, spline.pressure_angle, t, 5))

    slope = (read(thickness + step) - read(thickness - step)) / (2.0 * step)
    reading = thickness_over_span(spline, SpanReading(read(thickness), 20e-6, 5))
    assert reading.value == pytest.approx(thickness, rel=1e-9)
    assert reading.tolerance == pytest.approx(20e-6 / slope, rel=1e-6)
