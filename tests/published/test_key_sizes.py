"""Sizes of keys, row by row as their sources print them.

Read: the tables of a handbook in inch; widths, heights and depths of metric keys in a drawing (up to 22 mm
of shaft), in a textbook question (22 to 38 mm) and in a catalogue (from 38 mm on). The depth in the hub of
the two rows of the question, the chamfers, and the holding power of set screws are remembered.
"""

from fractions import Fraction

import pytest

from torqcheck.materials import (
    key_fit,
    key_for_shaft,
    key_sizes,
    lists_apart,
    set_screw,
    set_screw_point,
    table,
    woodruff_key,
    woodruff_shafts,
)

INCH, POUND = 0.0254, 4.4482216152605

METRIC = """\
6 8 2x2 1.2 1.0
8 10 3x3 1.8 1.4
10 12 4x4 2.5 1.8
12 17 5x5 3.0 2.3
17 22 6x6 3.5 2.8
22 30 8x7 4.0 3.3
30 38 10x8 5.0 3.3
38 44 12x8 5.0 3.3
44 50 14x9 5.5 3.8
50 58 16x10 6.0 4.3
58 65 18x11 7.0 4.4
65 75 20x12 7.5 4.9
75 85 22x14 9.0 5.4
"""
REMEMBERED_HUB = {"8x7", "10x8"}

INCHES = """\
5/16 7/16 square 3/32x3/32 3/64
7/16 9/16 flat 1/8x3/32 3/64
7/16 9/16 square 1/8x1/8 1/16
9/16 7/8 flat 3/16x1/8 1/16
9/16 7/8 square 3/16x3/16 3/32
7/8 5/4 flat 1/4x3/16 3/32
7/8 5/4 square 1/4x1/4 1/8
5/4 11/8 flat 5/16x1/4 1/8
5/4 11/8 square 5/16x5/16 5/32
11/8 7/4 flat 3/8x1/4 1/8
11/8 7/4 square 3/8x3/8 3/16
7/4 9/4 flat 1/2x3/8 3/16
7/4 9/4 square 1/2x1/2 1/4
9/4 11/4 flat 5/8x7/16 7/32
9/4 11/4 square 5/8x5/8 5/16
11/4 13/4 flat 3/4x1/2 1/4
11/4 13/4 square 3/4x3/4 3/8
"""

WOODRUFF = """\
3/16x3/4 .313 .2143 .0997
3/16x7/8 .375 .2763 .0997
3/16x1 .438 .3393 .0997
1/4x7/8 .375 .2450 .1310
1/4x1 .438 .3080 .1310
1/4x1-1/4 .547 .4170 .1310
5/16x1 .438 .2768 .1622
5/16x1-1/4 .547 .3858 .1622
5/16x1-1/2 .641 .4798 .1622
3/8x1-1/4 .547 .3545 .1935
3/8x1-1/2 .641 .4485 .1935
"""


def inches(text: str) -> float:
    """A shop fraction, "1-1/4", in m."""
    return sum(float(Fraction(part)) for part in text.split("-")) * INCH


@pytest.mark.parametrize("line", METRIC.splitlines())
def test_metric_key(line: str) -> None:
    over, to, size, in_shaft, in_hub = line.split()
    width, height = size.split("x")
    key = key_for_shaft("din 6885", float(to) * 1e-3)
    assert key.size == size
    assert key.shaft_over == pytest.approx(float(over) * 1e-3)
    printed = [float(text) * 1e-3 for text in (width, height, in_shaft, in_hub)]
    assert [key.width, key.height, key.shaft_depth, key.hub_depth] == pytest.approx(printed)
    assert key.source.mark == "published"
    assert key.chamfer_mark == "from memory"


def test_metric_rows_say_what_is_remembered() -> None:
    remembered = {row["size"] for row in table("keys_din_6885") if row["hub_depth_mark"] == "from memory"}
    assert remembered == REMEMBERED_HUB
    assert len(key_sizes("din 6885")) == len(METRIC.splitlines())


@pytest.mark.parametrize("line", INCHES.splitlines())
def test_inch_key(line: str) -> None:
    over, to, section, size, depth = line.split()
    width, height = size.split("x")
    key = key_for_shaft("ansi b17.1", inches(to), "flat" if section == "flat" else "square")
    assert key.size == size
    printed = [inches(text) for text in (over, width, height, depth)]
    assert [key.shaft_over, key.width, key.height, key.shaft_depth] == pytest.approx(printed)
    assert key.shaft_depth == pytest.approx(0.5 * key.height)
    assert key.source.mark == "published"


def test_there_are_no_other_inch_keys() -> None:
    assert len(key_sizes("ansi b17.1")) == len(INCHES.splitlines())


@pytest.mark.parametrize("line", WOODRUFF.splitlines())
def test_woodruff_key(line: str) -> None:
    size, height, in_shaft, in_hub = line.split()
    width, disc = size.split("x")
    key = woodruff_key(size)
    printed = [inches(width), inches(disc), *(float(text) * INCH for text in (height, in_shaft, in_hub))]
    ours = [key.width, key.disc_diameter, key.height, key.shaft_depth, key.hub_depth]
    assert ours == pytest.approx(printed)
    # what stands out of the shaft fits the keyway of the hub with next to nothing to spare
    assert 0.0 < key.hub_depth - (key.height - key.shaft_depth) < 0.0015 * INCH
    assert key.source.mark == "published"


@pytest.mark.parametrize(
    ("width", "least", "most"),
    [
        ("1/8", 0.375, 1.5),
        ("5/32", 0.5, 1.625),
        ("3/16", 0.5625, 2.0),
        ("1/4", 0.6875, 2.25),
        ("5/16", 0.75, 2.375),
        ("3/8", 1.0, 2.625),
    ],
)
def test_shafts_of_woodruff_keys(width: str, least: float, most: float) -> None:
    assert woodruff_shafts(inches(width)) == pytest.approx((least * INCH, most * INCH))


@pytest.mark.parametrize(
    ("fit", "shaft", "hub"), [("tight", "P9", "P9"), ("normal", "N9", "JS9"), ("sliding", "H9", "D10")]
)
def test_width_fits(fit: str, shaft: str, hub: str) -> None:
    found = key_fit(fit)
    assert (found.shaft_seat, found.hub_seat, found.source.mark) == (shaft, hub, "published")


@pytest.mark.parametrize(
    ("size", "seating", "holds"),
    [
        ("#0", 1.0, 50),
        ("#1", 1.8, 65),
        ("#2", 1.8, 85),
        ("#4", 5, 160),
        ("#6", 10, 250),
        ("#8", 20, 385),
        ("#10", 36, 540),
        ("1/4", 87, 1000),
        ("5/16", 165, 1500),
        ("3/8", 290, 2000),
        ("7/16", 430, 2500),
        ("1/2", 620, 3000),
        ("9/16", 620, 3500),
        ("5/8", 1325, 4000),
        ("3/4", 2400, 5000),
        ("7/8", 5200, 6000),
        ("1", 7200, 7000),
    ],
)
def test_holding_power_from_memory(size: str, seating: float, holds: float) -> None:
    screw = set_screw(size)
    assert screw.seating_torque == pytest.approx(seating * POUND * INCH)
    assert screw.holding_power == pytest.approx(holds * POUND)
    assert screw.source.mark == "from memory"


def test_lists_of_holding_power_disagree() -> None:
    apart = lists_apart()
    assert (apart.factor, apart.size, apart.source.mark) == (pytest.approx(2.5), "1/4", "published")


@pytest.mark.parametrize(
    ("point", "factor"), [("cup", 1.0), ("cone", 1.07), ("flat", 0.92), ("dog", 0.92), ("oval", 0.90)]
)
def test_points_of_set_screws(point: str, factor: float) -> None:
    found, source = set_screw_point(point)
    assert (found, source.mark) == (factor, "published")
