"""Serrations: the list of sizes of DIN 5481, and involute serrations at 45 deg."""

import math

import pytest
from published._case import Case

from torqcheck.errors import DomainError
from torqcheck.geometry import ansi_b92_1
from torqcheck.geometry.drawing.data_block import block_of_involute
from torqcheck.geometry.standards import serration

SIZES = "DIN 5481, Serrations, list of sizes"
LIST = (
    "7x8 28, 8x10 28, 10x12 30, 12x14 31, 15x17 32, 17x20 33, 21x24 34, 26x30 35, 30x34 36, 36x40 37, "
    "40x44 38, 45x50 39, 50x55 40, 55x60 42"
)


@pytest.mark.parametrize("entry", LIST.split(", "))
def test_sizes_of_din_5481(entry: str) -> None:
    name, teeth = entry.split()
    found = serration.spline(name)
    Case(SIZES, f"{name}, teeth", "from memory", {}, teeth).check(found.teeth)
    small, large = name.split("x")
    Case(SIZES, f"{name}, smaller diameter", "from memory", {}, small, unit=1e-3).check(found.minor_diameter)
    Case(SIZES, f"{name}, larger diameter", "from memory", {}, large, unit=1e-3).check(found.major_diameter)
    Case(SIZES, f"{name}, gap", "from memory", {}, "60", unit=math.radians(1.0)).check(found.gap_angle)
    assert {source.mark for source in found.sources} == {"from memory"}


def test_the_list_is_complete() -> None:
    assert len(serration.SIZES) == len(LIST.split(", "))


def test_gap_and_tooth_differ_by_one_pitch() -> None:
    # plane geometry: flanks of neighbouring teeth are turned by one pitch (derived)
    found = serration.spline("8x10")
    Case("Plane geometry", "60 - 360/28 deg", "derived", {}, "47.143", unit=math.radians(1.0)).check(
        found.tooth_angle
    )


@pytest.mark.parametrize("name", ["9x11", "15 by 17", "", "17x15", "15x17x32", "0x0"])
def test_other_sizes_are_refused_with_the_list(name: str) -> None:
    with pytest.raises(DomainError, match=r"has no size .*; it has 7x8 8x10"):
        serration.spline(name)


@pytest.mark.parametrize("pitch", ["10/20", "24/48", "48/96"])
@pytest.mark.parametrize("teeth", [20, 36, 60])
def test_customary_pins_are_good_for_involute_serrations(pitch: str, teeth: int) -> None:
    # ANSI B92.1 at 45 deg: 1.92/P in shaft and hub (from memory); they must pass every contact test
    block = block_of_involute(ansi_b92_1.spline(teeth, pitch, math.radians(45.0), "fillet"))
    for pins in (block.external_pins, block.internal_pins):
        assert pins is not None
        assert pins.size == "1.92/P"
        assert pins.doubts == ()
