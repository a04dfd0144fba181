"""Alignment: worked examples of readings and of warm feet, and what standards and practice permit."""

import math

import pytest
from published._case import Case

from torqcheck.errors import DomainError
from torqcheck.geometry import thermal_growth
from torqcheck.materials import (
    alignment_limit,
    shaft_runout_limits,
    short_coupling_limit,
    table,
    thermal_expansion,
    tooth_tilt_limit,
)
from torqcheck.wear import (
    SLIP_SPEED_LIMIT,
    closing_error,
    offset_component,
    offset_from_runout,
    peak_slip_speed,
    tilt_at_slip_speed,
    total_indicator_reading,
)

INCH, MM, MRAD, RPM = 0.0254, 1e-3, 1e-3, math.pi / 30.0
FAHRENHEIT = 5.0 / 9.0

HOUSING = "Diesel engine shop manual, flywheel housing face"
BORES = "Diesel engine shop page, alignment of housing bores"
TABLE = "Alignment table for short flexible couplings, acceptable and excellent"
METRIC = "EASA AR100, 2015, Table 2-4"
NEMA = "NEMA MG 1, 2011, 4.9.7"


# warm feet: the growth itself is held in test_axial_stack.py


def test_the_table_has_the_coefficient_of_the_worked_example() -> None:
    # 15 in of cast iron from 70 to 120 F; kelvin in the table, and rounded
    iron = thermal_expansion("cast iron").coefficient
    rise = thermal_growth(iron, 15 * INCH, 50 * FAHRENHEIT)
    assert rise == pytest.approx(0.0044 * INCH, abs=0.05e-3 * INCH)


# readings


def test_total_reading_of_a_housing_face_at_four_places() -> None:
    inputs = {"top": 0.0, "right": 0.08 * MM, "bottom": -0.05 * MM, "left": 0.08 * MM}
    Case(HOUSING, "0.00, +0.08, -0.05, +0.08 mm", "published", inputs, "0.13", MM).check(
        total_indicator_reading(**inputs)
    )
    Case(HOUSING, "the same in inches", "published", inputs, "0.005", INCH).check(
        total_indicator_reading(**inputs)
    )
    # that face is warped, not out of square: the four do not close by far
    assert closing_error(**inputs) == pytest.approx(-0.21 * MM)


def test_offset_of_a_housing_bore_at_three_places() -> None:
    inputs = {"reading": 0.004 * INCH, "opposite_reading": -0.002 * INCH}
    Case(BORES, "A .004, C -.002: horizontal total", "published", inputs, "0.006", INCH).check(
        2.0 * offset_component(**inputs)
    )
    # vertical total B + D: zero at the bottom, B at the top, D by lifting the shaft through its clearance
    lifted = {"reading": 0.003 * INCH + 0.001 * INCH, "opposite_reading": 0.0}
    Case(BORES, "B .003 and a lift D of .001: vertical total", "derived", lifted, "0.004", INCH).check(
        2.0 * offset_component(**lifted)
    )


def test_total_reading_on_a_bore_is_twice_the_offset() -> None:
    case = Case(
        "Motor maker's note on run-out", "TIR = 2 e", "published", {"reading": 0.25 * MM}, "0.125", MM
    )
    case.check(offset_from_runout(0.25 * MM))


# what is permitted


@pytest.mark.parametrize(
    ("rpm", "offset", "gap"),
    [
        (750, ("0.19", "0.09"), ("0.13", "0.09")),
        (1500, ("0.09", "0.06"), ("0.07", "0.05")),
        (3000, ("0.06", "0.03"), ("0.04", "0.03")),
        (6000, ("0.03", "0.02"), ("0.03", "0.02")),
    ],
)
def test_short_couplings_by_speed(rpm: int, offset: tuple[str, str], gap: tuple[str, str]) -> None:
    for quantity, printed, unit in (("offset", offset, MM), ("tilt", gap, 10.0 * MRAD)):
        found = short_coupling_limit(quantity, rpm * RPM)
        where = f"{quantity} at {rpm} rev/min"
        Case(TABLE, f"{where}, acceptable", "published", {}, printed[0], unit).check(found.limit)
        assert found.excellent is not None
        Case(TABLE, f"{where}, excellent", "published", {}, printed[1], unit).check(found.excellent)


def test_between_and_beyond_the_printed_speeds() -> None:
    speeds = [100.0, 750.0, 1000.0, 1500.0, 2000.0, 3000.0, 4500.0, 6000.0, 9000.0]
    for quantity in ("offset", "tilt"):
        found = [short_coupling_limit(quantity, rpm * RPM) for rpm in speeds]
        limits = [row.limit for row in found]
        assert limits == sorted(limits, reverse=True)
        assert limits[0] == limits[1]
        assert limits[-1] == pytest.approx(limits[-2] * 6000 / 9000)
        assert all(row.excellent is not None and row.excellent < row.limit for row in found)
    with pytest.raises(DomainError, match="offset or tilt"):
        short_coupling_limit("run-out", 100.0)
    with pytest.raises(DomainError, match="negative"):
        short_coupling_limit("tilt", math.nan)


@pytest.mark.parametrize(("crowned", "printed"), [(False, "1"), (True, "5")])
def test_tilt_of_straight_and_crowned_teeth(crowned: bool, printed: str) -> None:
    found = tooth_tilt_limit(crowned=crowned)
    case = Case("Machinery's Handbook", "Table 10, text", "published", {}, printed, math.radians(1.0))
    assert found.limit == pytest.approx(float(case.printed) * case.unit, rel=1e-4)
    assert found.hard


def test_slip_speed_and_the_tilt_that_it_allows() -> None:
    found = alignment_limit("slip-speed")
    Case("Alignment service's note", "0.5 in/s", "published", {}, "12", MM).check(found.limit)
    assert found.limit == SLIP_SPEED_LIMIT
    inputs = {"slip_speed": 0.012, "speed": 3000 * RPM, "pitch_radius": 0.020}
    Case(TABLE, "12 mm/s at 3000 rev/min, r 20 mm", "derived", inputs, "1.91", MRAD).check(
        tilt_at_slip_speed(**inputs)
    )
    Case(TABLE, "the same in degrees", "derived", inputs, "0.109", math.radians(1.0)).check(
        tilt_at_slip_speed(**inputs)
    )
    # the table is stricter than the slip speed for a small pitch radius
    slip = peak_slip_speed(0.020, short_coupling_limit("tilt", 3000 * RPM).limit, 3000 * RPM)
    Case(TABLE, "0.4 mrad at 3000 rev/min, r 20 mm", "derived", inputs, "2.5", MM).check(slip)


@pytest.mark.parametrize(
    ("source", "millimetres", "id_start", "printed", "unit"),
    [
        (NEMA, 38.0, "motor-shaft-inch", "0.002", INCH),
        (NEMA, 41.275, "motor-shaft-inch", "0.002", INCH),
        (NEMA, 45.0, "motor-shaft-inch", "0.003", INCH),
        (METRIC, 24.0, "motor-shaft", "0.040", MM),
        (METRIC, 38.0, "motor-shaft", "0.050", MM),
        (METRIC, 55.0, "motor-shaft", "0.060", MM),
    ],
)
def test_run_out_of_a_motor_shaft(
    source: str, millimetres: float, id_start: str, printed: str, unit: float
) -> None:
    rows = shaft_runout_limits(millimetres * MM)
    inch = source == NEMA
    (row,) = (row for row in rows if row.id.startswith("motor-shaft-inch") is inch)
    assert row.id.startswith(id_start)
    Case(source, f"{millimetres:g} mm", "published", {"diameter": millimetres * MM}, printed, unit).check(
        row.limit
    )


def test_small_and_large_shafts_have_the_inch_rule_alone() -> None:
    assert [row.id for row in shaft_runout_limits(12 * MM)] == ["motor-shaft-inch-small"]
    assert [row.id for row in shaft_runout_limits(120 * MM)] == ["motor-shaft-inch-large"]


@pytest.mark.parametrize(
    ("name", "printed", "excellent", "unit"),
    [
        ("pilot-40", "0.08", "0.04", MM),
        ("pilot-100", "0.10", "0.05", MM),
        ("pilot-230", "0.125", "0.063", MM),
        ("pilot-inch", "0.004", "", INCH),
        ("housing-face", "0.30", "0.20", MM),
        ("ball-bearing", "0.003", "0.0005", 1.0),
        ("roller-bearing", "0.0012", "", 1.0),
        ("span-rule", "0.0005", "", 1.0),
        ("gear-coupling", "0.5", "0.25", math.radians(1.0)),
    ],
)
def test_rows_as_printed(name: str, printed: str, excellent: str, unit: float) -> None:
    row = alignment_limit(name)
    Case(row.source.work, name, "published", {}, printed, unit).check(row.limit)
    assert row.source.mark == "published"
    if excellent:
        assert row.excellent is not None
        Case(row.source.work, name, "published", {}, excellent, unit).check(row.excellent)


def test_what_was_not_read_says_so() -> None:
    marks = {row["id"]: row["mark"] for row in table("alignment_limits")}
    assert marks["gear-coupling-static"] == "from memory"
    assert marks["housing-bore"] == marks["two-bearing-tilt"] == "common practice, no source"
    with pytest.raises(DomainError, match="no row 'belt'"):
        alignment_limit("belt")
