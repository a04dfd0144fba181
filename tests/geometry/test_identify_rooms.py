"""How far a standard lets its dimensions go, round sizes, and what no standard or no pin can answer."""

import math

import pytest

from torqcheck.errors import DomainError
from torqcheck.geometry._expected import customary_pins, pin_reading
from torqcheck.geometry._series_sizes import SAE_DIAMETERS
from torqcheck.geometry.identify import identify
from torqcheck.geometry.near_miss import near_miss
from torqcheck.geometry.readings import Measured, Readings
from torqcheck.geometry.series import Candidate, candidates

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
