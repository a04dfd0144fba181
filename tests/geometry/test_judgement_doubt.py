"""What a pair must not be called a mate on: counts and play alone, or readings of another size."""

import dataclasses
import math

import pytest

from torqcheck.errors import DomainError
from torqcheck.geometry import ansi_b92_1, iso_4156, over_pins
from torqcheck.geometry.pairs.bench_readings import PartReadings, PinReading, Reading
from torqcheck.geometry.pairs.judgement import judge
from torqcheck.geometry.pairs.lash_comparison import (
    LashReading,
    compare_lash,
    lash_from_clearance,
    lash_from_dial,
    lash_from_pins,
)
from torqcheck.geometry.pairs.worn_members import new_clearance, width_limits

MM, INCH = 1e-3, 0.0254
PAIR = ansi_b92_1.spline(27, "24/48")
COUNTED = PartReadings(teeth=27)
SNUG = lash_from_clearance(Reading(0.05 * MM, 0.02 * MM))
LOOSE = lash_from_clearance(Reading(0.45 * MM, 0.02 * MM))
SHAFT = dataclasses.replace(COUNTED, major_diameter=Reading(29.6 * MM, 0.05 * MM))
HUB = dataclasses.replace(COUNTED, minor_diameter=Reading(27.6 * MM, 0.05 * MM))


@pytest.mark.parametrize("lash", [SNUG, LOOSE], ids=["snug", "loose"])
@pytest.mark.parametrize(("shaft", "hub", "asked"), [
    (COUNTED, COUNTED, ("outside diameter of the shaft", "minor diameter of the hub")),
    (SHAFT, COUNTED, ("minor diameter of the hub",)),
    (COUNTED, HUB, ("outside diameter of the shaft",)),
    (SHAFT, PartReadings(new=True), ()),
    (SHAFT, HUB, ()),
])  # fmt: skip
def test_each_old_part_must_be_identified_by_more_than_its_count(
    lash: LashReading, shaft: PartReadings, hub: PartReadings, asked: tuple[str, ...]
) -> None:
    # common practice, no source: a snug fit by hand, without load, proves nothing
    found = judge(PAIR, shaft, hub, [lash])
    mate = "true mate" if lash is SNUG else "worn mate"
    assert found.verdict == ("not measured" if asked else mate)
    for reading in asked:
        assert any(said.startswith(reading) for said in found.next_readings)


@pytest.mark.parametrize("diameter", [20.0, 29.0, 76.2])
def test_an_outside_diameter_of_no_such_spline_is_no_mate(diameter: float) -> None:
    # the outside diameter of 27T 24/48 is (N + 1)/P = 28/24 in = 29.63 mm (ANSI B92.1, from memory)
    shaft = dataclasses.replace(COUNTED, major_diameter=Reading(diameter * MM, 0.05 * MM))
    found = judge(PAIR, shaft, HUB, [SNUG])
    assert found.verdict == "not measured"
    assert "29.633 mm" in " ".join(found.reasons) or "miscount by one" in " ".join(found.reasons)


def test_a_hub_bored_below_its_size_is_no_mate() -> None:
    hub = dataclasses.replace(COUNTED, minor_diameter=Reading(27.0 * MM, 0.05 * MM))
    found = judge(PAIR, SHAFT, hub, [SNUG])
    assert found.verdict in {"not measured", "false fit"}
    assert "hub" in found.reasons[0]


def test_the_neighbour_of_equal_count_is_named_from_readings_of_one_part() -> None:
    inch, metric = ansi_b92_1.spline(20, "20/40"), iso_4156.spline(20, 1.25e-3)
    pin = 0.096 * INCH
    thickness = width_limits(metric, "external").limit + 0.01 * MM
    reading = float(over_pins(20, metric.module, metric.pressure_angle, thickness, pin))
    shaft = PartReadings(
        teeth=20,
        pins=(PinReading(reading, 0.005 * MM, pin, 0.0025 * MM),),
        major_diameter=Reading(metric.external.major_diameter - 0.05 * MM, 0.05 * MM),
    )
    found = judge(inch, shaft, PartReadings(teeth=20))
    assert found.verdict == "not measured"
    assert metric.designation in " ".join(found.reasons)
    assert not any("outside diameter of the shaft with a caliper" in said for said in found.next_readings)
    assert any("hub" in said for said in found.next_readings)


def test_play_of_a_whole_pitch_is_refused() -> None:
    pitch = math.pi * INCH / 24.0  # circular pitch, pi/P
    with pytest.raises(DomainError, match=r"below the circular pitch, 3\.325 mm"):
        judge(PAIR, SHAFT, HUB, [lash_from_clearance(Reading(pitch * 1.001, 0.0))])
    assert judge(PAIR, SHAFT, HUB, [lash_from_clearance(Reading(pitch * 0.2, 0.0))]).verdict == "worn mate"


def test_play_past_the_published_replacement_limit_is_said() -> None:
    said = "0.300 mm, at which published practice replaces a pair"
    assert said in " ".join(judge(PAIR, SHAFT, HUB, [LOOSE]).reasons)
    bit = lash_from_clearance(Reading(0.25 * MM, 0.02 * MM))
    assert said not in " ".join(judge(PAIR, SHAFT, HUB, [bit]).reasons)


def test_a_true_mate_says_where_its_pressure_angle_comes_from() -> None:
    said = "pressure angle of 30 deg is taken from the stated size"
    assert said in " ".join(judge(PAIR, SHAFT, HUB, [SNUG]).reasons)
    new = PartReadings(new=True)
    assert said not in " ".join(judge(PAIR, new, new, [SNUG]).reasons)


def test_readings_that_agree_only_with_the_allowance_say_so() -> None:
    new = new_clearance(PAIR)
    pins = lash_from_pins(Reading(1.5 * MM, 0.01 * MM), Reading(1.6 * MM, 0.01 * MM))
    close = lash_from_dial(
        Reading(0.095 * MM, 0.01 * MM), Reading(PAIR.pitch_diameter / 2, 0.0), PAIR.pitch_diameter
    )
    less = dataclasses.replace(close, clearance=0.05 * MM)
    assert compare_lash([close, pins], new).reasons[0].startswith("The readings of the lash agree:")
    assert "once the allowance" in compare_lash([less, pins], new).reasons[0]
