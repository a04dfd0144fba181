"""Looking keys and set screws up: ends of ranges, ways to write a size, what is refused."""

import math

import pytest

from torqcheck.errors import DomainError
from torqcheck.geometry.standards.key_play import key_play
from torqcheck.materials import (
    key_fit,
    key_for_shaft,
    key_of_size,
    key_sizes,
    set_screw,
    set_screw_point,
    woodruff_key,
    woodruff_shafts,
)

INCH = 0.0254


@pytest.mark.parametrize(
    ("diameter", "size"), [(22.0, "6x6"), (22.01, "8x7"), (30.0, "8x7"), (85.0, "22x14"), (6.01, "2x2")]
)
def test_a_limit_belongs_to_the_smaller_key(diameter: float, size: str) -> None:
    assert key_for_shaft("din 6885", diameter * 1e-3).size == size


def test_a_limit_worked_out_from_inches_does_not_slip_over() -> None:
    assert key_for_shaft("ansi b17.1", 1.25 * INCH).size == "1/4x1/4"
    assert key_for_shaft("ansi b17.1", 1.25 * INCH * (1.0 + 1e-15), "flat").size == "1/4x3/16"


@pytest.mark.parametrize("standard", ["din 6885", "ansi b17.1"])
def test_every_key_leaves_a_seat_in_shaft_and_hub(standard) -> None:  # type: ignore[no-untyped-def]
    for key in key_sizes(standard):
        chamfer = key.chamfer[1] if key.chamfer is not None else 0.0
        assert key.shaft_depth > 2.0 * chamfer
        assert key.height - key.shaft_depth > 2.0 * chamfer
        assert 0.19 < key.width / key.shaft_to < 0.35
        if key.hub_depth is not None:
            assert key.height < key.shaft_depth + key.hub_depth


@pytest.mark.parametrize("written", ["8x7", "8 x 7", "8X7", "8 \u00d7 7 mm", "8*7"])
def test_ways_to_write_a_size(written: str) -> None:
    assert key_of_size("din 6885", written).size == "8x7"


def test_inch_sizes_name_their_section() -> None:
    assert key_of_size("ansi b17.1", "1/4 x 3/16 in").section == "flat"
    assert key_of_size("ansi b17.1", '1/4" x 1/4"').section == "square"
    assert woodruff_key("1/4 x 1-1/4").size == "1/4x1-1/4"
    assert set_screw('1/4"').size == set_screw("1/4 in").size == "1/4"


@pytest.mark.parametrize(
    ("ask", "says"),
    [
        (lambda: key_for_shaft("din 6885", 0.090), "above 6 and up to 85 mm"),
        (lambda: key_for_shaft("din 6885", 0.006), "above 6 and up to 85 mm"),
        (lambda: key_for_shaft("ansi b17.1", 0.3 * INCH), r"above 0.3125 and up to 3.25 in"),
        (lambda: key_for_shaft("ansi b17.1", math.nan), "has keys for shafts"),
        (lambda: key_of_size("din 6885", "8x8"), "no '8x8'; it has 2x2, 3x3"),
        (lambda: key_sizes("bs 46"), "is no standard of keys"),
        (lambda: woodruff_key("1/2x1"), "no '1/2x1'; it has 3/16x3/4"),
        (lambda: key_fit("loose"), "tight, normal, sliding"),
        (lambda: set_screw("M6"), "no 'M6'; it has #0"),
        (lambda: set_screw_point("square"), "cup, cone"),
        (lambda: key_play(0.008, "loose"), "no fit of a key"),
    ],
)
def test_what_the_tables_have_not_is_refused(ask, says: str) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(DomainError, match=says):
        ask()


def test_woodruff_shafts_of_an_unknown_width() -> None:
    assert woodruff_shafts(0.5 * INCH) is None


def test_play_of_a_key_8_wide() -> None:
    # IT9 of 6 to 10 mm is 36 um, IT10 58, d 40 (from memory)
    assert key_play(0.008, "tight") == (0.0, 0.0)
    assert key_play(0.008, "normal") == pytest.approx((0.0, 90e-6))
    # H9/h9 leaves up to 72, D10/h9 40 to 134
    assert key_play(0.008, "sliding") == pytest.approx((40e-6, 206e-6))
