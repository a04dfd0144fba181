"""DIN 5480: one size with printed inspection values, and rows worked out from the remembered formulas."""

import math

import pytest
from published._case import Case

from torqcheck.geometry import (
    between_pins,
    between_pins_per_space,
    din_5480,
    over_pins,
    over_pins_per_thickness,
    span_over_teeth,
)
from torqcheck.geometry.standards.din_5480 import profile_shift

MM = 1e-3
TUTORIAL = "DIN 5480-2, inspection dimensions of W 50 x 2 x 24 x 8h, as quoted in a tutorial"
ROWS = "Rows of DIN 5480 sizes, worked out independently from the basic formulas"


@pytest.fixture
def shaft() -> tuple[float, float, float, float]:
    spline = din_5480.spline(0.050, 0.002, 24)
    return spline.teeth, spline.module, spline.pressure_angle, spline.tooth_thickness


def test_dimension_over_pins(shaft: tuple[float, float, float, float]) -> None:
    case = Case(TUTORIAL, "M1 over pins of 4 mm", "published", {"pin_diameter": 0.004}, "54.218", unit=MM)
    case.check(float(over_pins(*shaft, **case.inputs)))


def test_span_over_four_teeth(shaft: tuple[float, float, float, float]) -> None:
    case = Case(TUTORIAL, "Wk over 4 teeth", "published", {"spanned_teeth": 4}, "21.179", unit=MM)
    case.check(float(span_over_teeth(*shaft, **case.inputs)))


# dB x m x z, x1 m, db, s1 = e2, da1, df1, da2, df2, pin W, M1, K1, k, Wk, pin N, M2, K2; mm (mark: derived)
# K1 of 55x2x26 and K2 of 80x3x25 as two-sided differences of M give them, 1.5025 and 1.7758
TABLE = """
20x1.25x14 | 0.5625 15.1554 2.6130 19.75 17.125 17.50 20.125 2.5 22.347 1.341 3 9.879 2.1875 15.462 1.690
25x1.25x18 | 0.5625 19.4856 2.6130 24.75 22.125 22.50 25.125 2.5 27.404 1.391 4 13.513 2.1875 20.462 1.699
30x1.25x22 | 0.5625 23.8157 2.6130 29.75 27.125 27.50 30.125 2.5 32.445 1.429 4 13.746 2.1875 25.462 1.705
30x2x14 | -0.1000 24.2487 3.0261 29.60 25.400 26.00 30.200 4 34.144 1.458 3 14.807 3.5 22.484 2.410
32x2x14 | 0.9000 24.2487 4.1808 31.60 27.400 28.00 32.200 4 35.754 1.341 3 15.807 3.5 24.738 1.690
35x2x16 | 0.4000 27.7128 3.6035 34.60 30.400 31.00 35.200 4 39.000 1.418 3 15.493 3.5 27.711 1.883
40x2x18 | 0.9000 31.1769 4.1808 39.60 35.400 36.00 40.200 4 43.846 1.391 4 21.621 3.5 32.739 1.699
45x2x21 | 0.4000 36.3731 3.6035 44.60 40.400 41.00 45.200 4 48.938 1.463 4 21.400 3.5 37.603 1.836
50x2x24 | -0.1000 41.5692 3.0261 49.60 45.400 46.00 50.200 4 54.218 1.544 4 21.179 3.5 42.621 1.999
55x2x26 | 0.4000 45.0333 3.6035 54.60 50.400 51.00 55.200 4 59.109 1.502 5 27.307 3.5 47.723 1.817
60x2x28 | 0.9000 48.4974 4.1808 59.60 55.400 56.00 60.200 4 63.984 1.472 5 27.993 3.5 52.740 1.710
65x2x31 | 0.4000 53.6936 3.6035 64.60 60.400 61.00 65.200 4 69.058 1.528 6 33.214 3.5 57.648 1.800
70x3x22 | 0.3500 57.1577 5.1165 69.40 63.100 64.00 70.300 6 76.183 1.492 4 31.990 5.25 59.042 1.892
80x3x25 | 0.8500 64.9519 5.6939 79.40 73.100 74.00 80.300 6 85.923 1.478 5 41.071 5.25 68.957 1.776
100x3x32 | 0.3500 83.1384 5.1165 99.40 93.100 94.00 100.300 6 106.275 1.549 6 49.710 5.25 89.066 1.834
""".strip().splitlines()
COLUMNS = ("xm", "db", "s", "da1", "df1", "da2", "df2", "M1", "K1", "Wk", "M2", "K2")
GIVEN = (7, 10, 12)  # columns that state what the readings were taken with


@pytest.mark.parametrize("line", TABLE, ids=lambda line: line.split(" |")[0])
def test_row(line: str) -> None:
    name, text = line.split(" | ")
    reference, module, teeth = (float(part) for part in name.split("x"))
    spline = din_5480.spline(reference * MM, module * MM, int(teeth))
    cells = text.split()
    external_pin, spanned, internal_pin = (float(cells[index]) for index in GIVEN)
    common = (spline.teeth, spline.module, spline.pressure_angle)
    shaft = (*common, spline.tooth_thickness)
    hub = (*common, spline.space_width)
    ours = {
        "xm": profile_shift(reference * MM, module * MM, int(teeth)) * module * MM,
        "db": spline.base_diameter,
        "s": spline.tooth_thickness,
        "da1": spline.external.major_diameter,
        "df1": spline.external.minor_diameter,
        "da2": spline.internal.minor_diameter,
        "df2": spline.internal.major_diameter,
        "M1": float(over_pins(*shaft, external_pin * MM)),
        "K1": float(over_pins_per_thickness(*shaft, external_pin * MM)),
        "Wk": float(span_over_teeth(*shaft, spanned)),
        "M2": float(between_pins(*hub, internal_pin * MM)),
        "K2": float(between_pins_per_space(*hub, internal_pin * MM)),
    }
    printed = [cell for index, cell in enumerate(cells) if index not in GIVEN]
    for column, cell in zip(COLUMNS, printed, strict=True):
        unit = 1.0 if column in {"K1", "K2"} else MM
        Case(ROWS, f"{name}, {column}", "derived", {}, cell, unit=unit).check(ours[column])


@pytest.mark.parametrize(("reference", "module", "teeth"), [(20, 1.25, 14), (30, 2, 14)])
def test_catalogue_sizes_exist(reference: float, module: float, teeth: int) -> None:
    # both are offered in a catalogue of splined hubs (mark: published), so neither may draw a warning
    spline = din_5480.spline(reference * MM, module * MM, teeth)
    assert not any("profile shift" in note for note in spline.notes)
    assert math.isclose(spline.pressure_angle, math.pi / 6.0)
