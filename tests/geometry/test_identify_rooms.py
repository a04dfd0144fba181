"""How far a standard lets its dimensions go, round sizes, and what no standard or no pin can answer."""

import math
from dataclasses import replace

import pytest
from published._case import Case

from torqcheck.errors import DomainError
from torqcheck.geometry import ansi_b92_1, iso_4156
from torqcheck.geometry.identifying._expected import customary_pins, pin_reading
from torqcheck.geometry.identifying._fit import columns_of, pin_widths
from torqcheck.geometry.identifying._series_sizes import SAE_DIAMETERS
from torqcheck.geometry.identifying.identify import identify
from torqcheck.geometry.identifying.near_miss import near_miss
from torqcheck.geometry.identifying.readings import Measured, PinPair, Readings
from torqcheck.geometry.identifying.series import Candidate, candidates
from torqcheck.geometry.pairs.base_circle import FLANK_FORM
from torqcheck.geometry.pairs.unmasking import separating_reading
from torqcheck.geometry.pairs.worn_members import MICROMETER

MICRON, MM = 1e-6, 1e-3


def candidate(teeth: int, designation: str) -> Candidate:
    """One size by its name."""
    return next(c for c in candidates(teeth) if c.designation == designation)


def test_room_of_a_straight_sided_spline_is_that_of_its_fits() -> None:
    # 6 x 26 x 30, B 6. Standard: shaft D a11, d f7, B d10 at the loosest; hub D H10, d H7, B H11.
    # ISO 286, from memory: above 24 to 30 a 300, f 20, IT7 21, IT10 84, IT11 130; above 3 to 6 d 30,
    # IT10 48, IT11 75
    rooms = candidate(6, "6x26x30").rooms
    shaft, hub = rooms["external"], rooms["internal"]
    made = {
        "D of the shaft": (shaft.major_diameter.made, 300 + 130),
        "d of the shaft": (shaft.minor_diameter.made, 20 + 21),
        "B of the shaft": (shaft.width.made, 30 + 48),
        "D of the hub": (hub.major_diameter.made, 84),
        "d of the hub": (hub.minor_diameter.made, 21),
        "B of the hub": (hub.width.made, 75),
    }
    for name, (ours, microns) in made.items():
        assert ours == pytest.approx(microns * MICRON, rel=1e-9), name


def test_a_serration_is_named_by_rounded_diameters() -> None:
    found = next(c for c in candidates(36) if c.standard == "din 5481")
    minor, major = (float(size) * MM for size in found.designation.split(",")[0].split("x"))
    for member, nominal, sign in (
        (found.rooms["external"].major_diameter, major, -1.0),
        (found.rooms["internal"].minor_diameter, minor, 1.0),
    ):
        # two tenths of rounding to either side of the name
        assert member.basic + sign * 0.5 * member.made == pytest.approx(nominal, rel=1e-12)
    assert math.isnan(found.rooms["external"].width.basic)


@pytest.mark.parametrize("teeth", [3, 27.5, 1001])
def test_counts_that_no_standard_has_are_refused(teeth: float) -> None:
    with pytest.raises(DomainError, match="whole number from 4 to 1000"):
        candidates(teeth)  # type: ignore[arg-type]


def test_pins_between_straight_sided_hub_teeth_say_nothing() -> None:
    straight = candidate(6, "6x26x30")
    assert pin_reading(straight, "internal", 6 * MM, 16 * MM) is None
    # over the shaft: centres half a pin off the flanks, by the triangle from the axis
    centre = 0.5 * (6 * MM + 16 * MM) / math.sin(math.radians(30.0))
    assert pin_reading(straight, "external", 6 * MM, 16 * MM) == pytest.approx(2.0 * centre + 16 * MM)
    # a pin that would lie on the bottom between the teeth cannot be read
    assert pin_reading(straight, "external", 6 * MM, 8 * MM) is None


@pytest.mark.parametrize(
    ("value", "unit", "words", "own"),
    [
        (25.0 * MM, "in", "25 mm", "1 in"),
        (22.225 * MM, "mm", "7/8 in", "22 mm"),
        (25.4 * MM, "mm", "1 in", "25 mm"),
        (38.1 * MM, "mm", "1 1/2 in", "38 mm"),
    ],
)
def test_round_sizes_of_both_systems_are_named(value: float, unit: str, words: str, own: str) -> None:
    near = near_miss(value, unit)  # type: ignore[arg-type]
    assert near is not None
    assert (near.words, near.own) == (words, own)


@pytest.mark.parametrize(("teeth", "listed"), [(24, True), (101, False)])
def test_a_size_outside_the_list_of_its_standard_is_said_to_be(teeth: int, listed: bool) -> None:
    # no list goes beyond 100 teeth
    part = next(c for c in candidates(teeth) if c.standard == "din 5480" and c.listed is listed)
    readings = Readings(
        teeth=teeth,
        module=part.module,
        major_diameter=Measured(part.rooms["external"].major_diameter.basic, 1e-5),
    )
    found = identify("external", readings)
    assert found.candidates[0].candidate.listed is listed
    assert any("outside the list" in caution for caution in found.cautions) is not listed


def test_the_usual_pin_of_a_pitch_comes_first() -> None:
    # 1.92/P over a shaft, 1.728/P between the teeth of a hub
    part = next(c for c in candidates(27) if c.pitch == "24/48")
    assert customary_pins(part, "external")[0] == pytest.approx(1.92 / 24 * 0.0254)
    assert customary_pins(part, "internal")[0] == pytest.approx(1.728 / 24 * 0.0254)
    assert customary_pins(candidate(6, "6x26x30"), "external") == ()


@pytest.mark.parametrize("teeth", SAE_DIAMETERS)
def test_inch_sizes_are_whole_eighths_and_rise(teeth: int) -> None:
    sizes = SAE_DIAMETERS[teeth]
    assert all((8.0 * size).is_integer() for size in map(float, sizes))
    assert list(sizes) == sorted(set(sizes))


def test_room_of_an_involute_spline_is_its_widest_class_and_its_loosest_fit() -> None:
    # 24Z x 2m: fit d thins the tooth by 80 micrometres at 48 mm and takes the tips in by that over
    # tan(30 deg); hub tips in IT12 of 46 mm, 250 micrometres, roots in a tenth of the module more
    rooms = candidate(24, "24Z x 2m x 30 deg flat root").rooms
    shaft, hub = rooms["external"], rooms["internal"]
    lower = 80 * MICRON / math.tan(math.radians(30.0))
    assert shaft.width.made - hub.width.made == pytest.approx(80 * MICRON, rel=1e-9)
    assert hub.minor_diameter.made == pytest.approx(250 * MICRON, rel=1e-9)
    assert shaft.major_diameter.made == pytest.approx(250 * MICRON + lower, rel=1e-9)
    assert hub.major_diameter.made == pytest.approx(450 * MICRON, rel=1e-9)
    assert shaft.minor_diameter.made == pytest.approx(450 * MICRON + lower, rel=1e-9)
    # 27T 24/48: the inch standard has no such fit, and 0.08 modules at the tips of so fine a pitch
    inch = candidate(27, "27T 24/48 30 deg flat root").rooms
    module = 25.4 / 24 * MM
    assert inch["external"].width.made == pytest.approx(inch["internal"].width.made, rel=1e-12)
    assert inch["external"].major_diameter.made == pytest.approx(0.08 * module, rel=1e-9)
    assert inch["external"].minor_diameter.made == pytest.approx(0.18 * module, rel=1e-9)


def test_room_of_a_width_is_the_total_tolerance_of_class_7_in_its_own_standard() -> None:
    # from memory: 27T 24/48 of class 7 has 0.0109 in of play at most, half of it from either part; a module
    # spline of class 7 has 2.5 times the total of class 5, 67.6 micrometres for module 2 and 20 teeth
    inch = candidate(27, "27T 24/48 30 deg flat root").rooms["internal"].width
    Case("ANSI B92.1, class 7", "27T 24/48", "from memory", {}, "0.0109", unit=0.0254).check(2.0 * inch.made)
    metric = candidate(20, "20Z x 2m x 30 deg flat root").rooms["internal"].width
    Case("ISO 4156, class 5", "20Z x 2m", "from memory", {}, "67.6", unit=MICRON).check(metric.made / 2.5)


@pytest.mark.parametrize(("pin", "rests"), [(3.5 * MM, False), (4.1 * MM, True), (6.0 * MM, False)])
def test_pins_over_straight_sided_teeth_touch_below_the_tips_or_not_at_all(pin: float, rests: bool) -> None:
    # D 50.8, d 0.81 D, b 0.098 D: centre on the middle of the gap, contact at the foot of its perpendicular
    part = candidate(16, "16-spline, 2 in, 16C")
    tip, b, half_pitch = 50.8 * MM, 0.098 * 50.8 * MM, math.radians(11.25)
    centre = 0.5 * (b + pin) / math.sin(half_pitch)
    contact = 2.0 * math.hypot(centre * math.cos(half_pitch), 0.5 * b)
    assert rests is (2.0 * centre - pin > 0.81 * tip and contact < tip)
    pair = PinPair(Measured(2.0 * centre + pin, 1e-5), Measured(pin, 1e-6))
    assert bool(pin_widths(columns_of(16, "external", (part,)), pair).possible[0]) is rests


def test_the_simplest_reading_that_separates_two_sizes_does_not_depend_on_their_order() -> None:
    inch, metric = ansi_b92_1.spline(20, "8/16"), iso_4156.spline(20, 3e-3)
    for first, second in ((inch, metric), (metric, inch)):
        # tips of 21 modules: 66.7 and 63 mm
        assert "outside diameter of the shaft with a caliper" in separating_reading(first, second, "external")


@pytest.mark.parametrize(("first", "second"), [("32/64", 0.8), ("24/48", 1.05)])
def test_spans_are_repeated_as_often_as_their_scatter_demands(first: str, second: float) -> None:
    inch = ansi_b92_1.spline(20, first)
    other = replace(inch, module=second * MM, designation="another")
    apart = abs(math.pi * math.cos(math.radians(30.0)) * (inch.module - other.module))
    said = separating_reading(inch, other, "external")
    # micrometre and flank form of each of four faces, three sigma where tolerances are two
    scatter = 1.5 * math.sqrt(2.0) * math.hypot(MICROMETER, math.sqrt(2.0) * FLANK_FORM)
    places = int(said.split("mean of ")[1].split(" places")[0]) if "mean of" in said else 1
    assert scatter / math.sqrt(places) <= apart
    assert places == 1 or scatter / math.sqrt(places - 1) > apart
