"""What a judgement says and asks beside its verdict: only what the counts and the readings bear out."""

from math import pi, radians

import pytest

from torqcheck.geometry import ansi_b92_1, between_pins, din_5480, iso_4156, over_pins, span_over_teeth
from torqcheck.geometry.pairs.bench_readings import PartReadings, PinReading, Reading, SpanReading
from torqcheck.geometry.pairs.judgement import judge
from torqcheck.geometry.pairs.unmasking import pitch_estimate
from torqcheck.geometry.pairs.worn_members import new_clearance

MM = 1e-3
A30 = radians(30.0)
PAIR = ansi_b92_1.spline(27, "24/48")


@pytest.mark.parametrize(
    ("outer", "inner", "multiple"), [(27, 28, False), (14, 28, True), (28, 14, True), (28, 28 * 2 - 1, False)]
)
def test_only_counts_of_which_one_divides_the_other_are_called_so(
    outer: int, inner: int, multiple: bool
) -> None:
    found = judge(ansi_b92_1.spline(28, "24/48"), PartReadings(teeth=outer), PartReadings(teeth=inner))
    assert found.verdict == "false fit"
    assert any("multiple of the other" in reason for reason in found.reasons) is multiple


def over(pin: float, tolerance: float) -> PinReading:
    """Reading over pins of a basic shaft."""
    value = float(over_pins(27, PAIR.module, A30, PAIR.tooth_thickness, pin * PAIR.module))
    return PinReading(value, tolerance, pin * PAIR.module, 1e-6)


def span(spanned: int, tolerance: float) -> SpanReading:
    """Span of a basic shaft."""
    value = float(span_over_teeth(27, PAIR.module, A30, PAIR.tooth_thickness, spanned))
    return SpanReading(value, tolerance, spanned)


@pytest.mark.parametrize(("by_span", "by_pin", "best"), [(1e-6, 5e-5, "two spans"), (2e-4, 1e-6, "two pin")])
def test_of_two_ways_to_the_pitch_the_finer_one_is_taken(by_span: float, by_pin: float, best: str) -> None:
    part = PartReadings(
        teeth=27,
        spans=(span(6, by_span), span(4, by_span)),
        pins=(over(1.92, by_pin), over(1.6, by_pin)),
    )
    found = pitch_estimate(PAIR, "external", part)
    assert found is not None
    assert best in found.by


INCH_SIZE, METRIC_SIZE = ansi_b92_1.spline(20, "20/40"), iso_4156.spline(20, 1.25e-3)


def test_a_shaft_of_another_size_asks_for_the_hub() -> None:
    # 20Z x 1.25m where 20T 20/40 is stated: 1.6 % finer, and thinner than that standard's teeth
    m, thickness = METRIC_SIZE.module, METRIC_SIZE.tooth_thickness
    pins = tuple(
        PinReading(float(over_pins(20, m, A30, thickness, size * m)), 5e-6, size * m, 2.5e-6)
        for size in (1.92, 1.6)
    )
    shaft = PartReadings(teeth=20, pins=pins, major_diameter=Reading(26.25 * MM, 2e-5))
    found = judge(INCH_SIZE, shaft, PartReadings(teeth=20))
    said = " ".join(found.reasons)
    assert "The readings of the shaft speak against 20T 20/40" in said
    assert "They agree with 20Z x 1.25m" in said
    assert found.next_readings[0].startswith("diameters and pins of the shaft again")
    assert found.next_readings[1].startswith("minor diameter and pins of the hub")
    # a hub of which more is known than its count need not be read again
    bored = PartReadings(teeth=20, minor_diameter=Reading(23.75 * MM, 2e-5))
    assert not any("of that size too" in text for text in judge(INCH_SIZE, shaft, bored).next_readings)


def test_a_hub_of_another_size_asks_for_the_shaft() -> None:
    # 20T 20/40 where 20Z x 1.25m is stated: its spaces are wider than that standard's
    m, space = INCH_SIZE.module, INCH_SIZE.space_width
    pins = tuple(
        PinReading(float(between_pins(20, m, A30, space, size * m)), 1e-6, size * m, 1e-6)
        for size in (1.9, 1.6)
    )
    hub = PartReadings(teeth=20, pins=pins, minor_diameter=Reading(19 * m, 2e-5))
    found = judge(METRIC_SIZE, PartReadings(teeth=20), hub)
    said = " ".join(found.reasons)
    assert "The readings of the hub speak against 20Z x 1.25m" in said
    assert "They agree with 20T 20/40" in said
    assert found.next_readings[0].startswith("diameters and pins of the hub again")
    assert found.next_readings[1].startswith("outside diameter and pins of the shaft")
    turned = PartReadings(teeth=20, major_diameter=Reading(26.25 * MM, 2e-5))
    assert not any("of that size too" in text for text in judge(METRIC_SIZE, turned, hub).next_readings)


def test_only_a_standard_without_tolerances_of_its_own_borrows_those_of_another() -> None:
    borrowed = new_clearance(din_5480.spline(0.050, 0.002, 24), 5)
    own = new_clearance(METRIC_SIZE, 5)
    assert "of ISO 4156, in stead" in borrowed.assumes
    assert "in stead" not in own.assumes


def test_a_shaft_of_no_standard_is_said_to_agree_with_none() -> None:
    # module 1.22 mm: 4 % finer than 20/40 and 2.4 % finer than 1.25 mm, tip as of N + 1 modules
    m = 1.22 * MM
    pins = tuple(
        PinReading(float(over_pins(20, m, A30, 0.5 * pi * m, size * m)), 1e-6, size * m, 1e-6)
        for size in (1.92, 1.6)
    )
    shaft = PartReadings(teeth=20, pins=pins, major_diameter=Reading(21.0 * m, 2e-5))
    found = judge(INCH_SIZE, shaft, PartReadings(teeth=20))
    said = " ".join(found.reasons)
    assert "The readings of the shaft speak against 20T 20/40" in said
    assert "They agree with" not in said
    assert not any("of that size too" in text for text in found.next_readings)
