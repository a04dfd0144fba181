"""Pin, wire, span and chord values: old American table, gear texts, rows worked out independently."""

import math

import pytest
from published._case import Case

from torqcheck.geometry import (
    between_pins,
    chordal_height,
    chordal_thickness,
    over_pins,
    pin_at_pitch_circle_of_gap,
    space_from_pins,
    span_over_teeth,
    thickness_from_pins,
)

INCH, MM = 0.0254, 1e-3
A30, A20 = math.radians(30.0), math.radians(20.0)
OLD_AMERICAN = "Involute splines, old American standard, table of dimensions over pins"
WIRES = "Checking gear size by measurement over wires, handbook table"
METRIC = "Elements of metric gear technology"
TEXTS = "Gear text, remembered examples, each worked out again"
ROWS = "Inverse pin rows, worked out independently"

BASIC = [(6, "1.590770"), (10, "1.315660"), (16, "1.186008"), (24, "1.120219")]
PINS = {6: 0.3660253, 10: 0.2012936, 16: 0.1205850, 24: 0.0786596, 36: 0.051719}


@pytest.mark.parametrize(("teeth", "printed"), BASIC)
def test_old_american_dimension_over_pins(teeth: int, printed: str) -> None:
    inputs = {"teeth": teeth, "module": 1.0 / teeth, "pressure_angle": A30}
    case = Case(OLD_AMERICAN, f"{teeth} teeth", "published", inputs, printed)
    case.check(float(over_pins(**inputs, tooth_thickness=0.5 * math.pi / teeth, pin_diameter=PINS[teeth])))


@pytest.mark.parametrize(
    ("teeth", "printed", "slack"),
    [
        (6, "0.3660253", 0.6),
        (10, "0.2012936", 0.6),
        (16, "0.1205850", 0.0),
        (24, "0.0786596", 0.3),
    ],
)
def test_old_american_pin_touches_at_the_pitch_circle(teeth: int, printed: str, slack: float) -> None:
    case = Case(
        OLD_AMERICAN,
        f"pin for {teeth} teeth",
        "published",
        {"teeth": teeth, "module": 1.0 / teeth, "pressure_angle": A30},
        printed,
        slack=slack * 1e-7,
        because="its seventh digit is one off: cos 30 (tan 45 - tan 30), for 6 teeth, is 0.36602540"
        if slack
        else "",
    )
    case.check(float(pin_at_pitch_circle_of_gap(**case.inputs, tooth_thickness=0.5 * math.pi / teeth)))


# teeth, dimension over pins in the three heights, thickness above pi/(2 N) implied, worked out independently;
# readings are published, thicknesses derived
@pytest.mark.parametrize(
    ("teeth", "reading", "offset"),
    [
        (6, 1.580365, "-0.008459"),
        (6, 1.590770, "0.000000"),
        (6, 1.601561, "0.008849"),
        (10, 1.303923, "-0.008460"),
        (10, 1.315660, "0.000000"),
        (10, 1.327740, "0.008850"),
        (16, 1.173280, "-0.008459"),
        (16, 1.186008, "0.000000"),
        (16, 1.199013, "0.008849"),
        (24, 1.120219, "0.000000"),
        (24, 1.133819, "0.008849"),
        (24, 1.147595, "0.018056"),
        (36, 1.106751, "0.018057"),
        (36, 1.116248, "0.024377"),
    ],
)
def test_old_american_thickness_offset(teeth: int, reading: float, offset: str) -> None:
    case = Case(OLD_AMERICAN, f"{teeth} teeth, reading {reading}", "derived", {}, offset)
    thickness = thickness_from_pins(teeth, 1.0 / teeth, A30, reading, PINS[teeth])
    case.check(float(thickness) - 0.5 * math.pi / teeth)


@pytest.mark.parametrize(("pitch", "printed"), [(1, "34.4130"), (4, "8.6032")])
def test_gear_over_wires(pitch: float, printed: str) -> None:
    inputs = {
        "teeth": 32,
        "module": INCH / pitch,
        "pressure_angle": A20,
        "tooth_thickness": 0.5 * math.pi * INCH / pitch,
        "pin_diameter": 1.728 * INCH / pitch,
    }
    case = Case(WIRES, f"32 teeth, 20 deg, {pitch} P", "published", inputs, printed, unit=INCH)
    case.check(float(over_pins(**inputs)))


def test_chord_of_a_shifted_gear_tooth() -> None:
    where = "Table 10-1, m 10, 20 deg, z 12, x 0.3"
    thickness = (0.5 * math.pi + 0.6 * math.tan(A20)) * 0.010
    Case(METRIC, f"{where}, s", "published", {}, "17.8918", unit=MM).check(thickness)
    half_angle = math.degrees(thickness / 0.120)
    Case(METRIC, f"{where}, half angle", "published", {}, "8.54270").check(half_angle)
    chord = float(chordal_thickness(0.120, thickness))
    Case(METRIC, f"{where}, chord", "published", {}, "17.8256", unit=MM).check(chord)
    height = float(chordal_height(0.120, thickness, 0.120 + 2.0 * 0.013))
    Case(METRIC, f"{where}, height", "published", {}, "13.6657", unit=MM).check(height)


def test_remembered_gear_examples() -> None:
    external = over_pins(20, MM, A20, 0.5 * math.pi * MM, 1.7 * MM)
    Case(TEXTS, "m 1, z 20, pin 1.7", "from memory", {}, "22.2941", unit=MM).check(float(external))
    internal = between_pins(40, MM, A20, 0.5 * math.pi * MM, 1.7 * MM)
    Case(TEXTS, "internal m 1, z 40, pin 1.7", "from memory", {}, "37.5951", unit=MM).check(float(internal))
    thickness = (0.5 * math.pi + 0.8 * math.tan(A20)) * 3 * MM
    span = span_over_teeth(24, 3 * MM, A20, thickness, 4)
    Case(TEXTS, "m 3, z 24, x 0.4, k 4", "from memory", {}, "32.8266", unit=MM).check(float(span))


@pytest.mark.parametrize(
    ("teeth", "pitch", "pin", "reading", "printed"),
    [
        (27, 24, 0.080, 1.2400, "0.06085"),
        (13, 16, 0.120, 0.9800, "0.09160"),
        (21, 16, 0.120, 1.4850, "0.09224"),
    ],
)
def test_thickness_from_a_reading(teeth: int, pitch: float, pin: float, reading: float, printed: str) -> None:
    case = Case(ROWS, f"{teeth}T {pitch}, M {reading}", "derived", {}, printed, unit=INCH)
    case.check(float(thickness_from_pins(teeth, INCH / pitch, A30, reading * INCH, pin * INCH)))


@pytest.mark.parametrize(
    ("teeth", "pitch", "pin", "reading", "printed"),
    [
        (27, 24, 0.072, 1.0250, "0.06860"),
        (13, 16, 0.108, 0.6560, "0.10215"),
        (36, 16, 0.108, 2.1002, "0.10127"),
    ],
)
def test_space_from_a_reading(teeth: int, pitch: float, pin: float, reading: float, printed: str) -> None:
    case = Case(ROWS, f"{teeth}T {pitch}, M {reading}", "derived", {}, printed, unit=INCH)
    case.check(float(space_from_pins(teeth, INCH / pitch, A30, reading * INCH, pin * INCH)))


# two pins on one tooth give the base circle without pitch or angle; readings worked out independently
@pytest.mark.parametrize(("pin", "printed"), [(0.0800, "1.242525"), (0.0720, "1.219719")])
def test_worn_tooth_over_two_pin_sizes(pin: float, printed: str) -> None:
    case = Case(
        "Two-pin check row, worked out independently", f"pin {pin}", "derived", {}, printed, unit=INCH
    )
    case.check(float(over_pins(27, INCH / 24, A30, 0.06245 * INCH, pin * INCH)))


@pytest.mark.parametrize(("angle", "printed"), [(37.5, "0.0612"), (45.0, "0.0579")])
def test_wrong_angle_looks_like_wear(angle: float, printed: str) -> None:
    # a 30 deg tooth of 0.06245 in read as another angle
    reading = over_pins(27, INCH / 24, A30, 0.06245 * INCH, 0.080 * INCH)
    thickness = thickness_from_pins(27, INCH / 24, math.radians(angle), reading, 0.080 * INCH)
    Case(
        "Wrong-angle row, worked out independently", f"{angle:g} deg", "derived", {}, printed, unit=INCH
    ).check(float(thickness))
