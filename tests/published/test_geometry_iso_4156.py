"""Metric module splines: printed tolerance components and fits, and rows worked out from them."""

import math

import pytest
from published._case import Case

from torqcheck.geometry import iso_4156
from torqcheck.geometry.spline import Root
from torqcheck.geometry.standards.iso_4156_tolerances import (
    fundamental_deviation,
    index_variation,
    lead_variation,
    profile_variation,
    total_tolerance,
    variation_allowance,
)
from torqcheck.provenance import Mark

MM, MICROMETRE = 1e-3, 1e-6
HANDBOOK = "Machinery's Handbook, 31st edition, 2020"
ROWS = "Rows worked out from the formulas of Table 16, Machinery's Handbook, 31st edition"
DIMENSIONS = "Row worked out from the remembered formulas of ISO 4156-1"


# m, Z, class, length; total, Fp, ff, Fb, lam, T in micrometre; total and what follows from it rest on memory
@pytest.mark.parametrize(
    ("module", "teeth", "fit_class", "length", "printed"),
    [
        (1.0, 24, 5, 25, "54.7 30.8 19.3 10.0 22.6 32.1"),
        (2.0, 20, 5, 30, "67.6 37.1 22.3 10.5 26.7 40.9"),
        (2.5, 24, 5, 25, "74.8 43.5 24.1 10.0 30.4 44.4"),
        # the source row has 13.2 for the lead; 1.25 sqrt(30) + 6.3 is 13.146, so 13.1 stands here
        (1.5, 20, 6, 30, "95.8 46.8 32.5 13.1 35.1 60.7"),
    ],
)
def test_tolerance_components(module: float, teeth: int, fit_class: int, length: float, printed: str) -> None:
    m, g = module * MM, length * MM
    total = total_tolerance(teeth, m, fit_class)
    variation = variation_allowance(teeth, m, g, fit_class)
    ours = (
        total,
        index_variation(teeth, m, fit_class),
        profile_variation(teeth, m, fit_class),
        lead_variation(g, fit_class),
        variation,
        total - variation,
    )
    marks: tuple[Mark, ...] = ("from memory", "derived", "derived", "derived", "from memory", "from memory")
    for value, text, mark in zip(ours, printed.split(), marks, strict=True):
        where = f"m {module:g}, Z {teeth}, class {fit_class}"
        Case(ROWS, where, mark, {}, text, unit=MICROMETRE).check(value)


# by hand: half the pitch circle 100 mm, so Fp = slope x 10 + constant; m 2, Z 80, so ff = slope x 4 +
# constant; length 25 mm, so Fb = slope x 5 + constant; micrometre
@pytest.mark.parametrize(
    ("fit_class", "index", "profile", "lead"),
    [
        (4, "31.3", "16.4", "8.0"),
        (5, "44.5", "26.0", "10.0"),
        (6, "62.5", "41.0", "12.55"),
        (7, "89.0", "65.2", "20.0"),
    ],
)
def test_table_16(fit_class: int, index: str, profile: str, lead: str) -> None:
    where = f"page 2356, Table 16, class {fit_class}"
    half_circle = index_variation(20, 0.1 / (10.0 * math.pi), fit_class)
    Case(HANDBOOK, where, "derived", {}, index, unit=MICROMETRE).check(half_circle)
    Case(HANDBOOK, where, "derived", {}, profile, unit=MICROMETRE).check(
        profile_variation(80, 2 * MM, fit_class)
    )
    Case(HANDBOOK, where, "derived", {}, lead, unit=MICROMETRE).check(lead_variation(25 * MM, fit_class))


# diameters less the pitch diameter, in modules: DEI, DFI, DEE, DIE; and hs (from memory of ISO 4156-1)
@pytest.mark.parametrize(
    ("degrees", "root", "printed", "depth"),
    [
        (30.0, "flat", "1.500 1.200 1.000 -1.500", 0.6),
        (30.0, "fillet", "1.800 1.200 1.000 -1.800", 0.6),
        (37.5, "fillet", "1.400 1.100 0.900 -1.400", 0.55),
        (45.0, "fillet", "1.200 1.000 0.800 -1.200", 0.5),
    ],
)
def test_basic_dimensions(degrees: float, root: Root, printed: str, depth: float) -> None:
    a, m, teeth = math.radians(degrees), 2.5 * MM, 24
    spline = iso_4156.spline(teeth, m, a, root)
    assert spline.internal.form_diameter is not None
    ours = (
        spline.internal.major_diameter,
        spline.internal.form_diameter,
        spline.external.major_diameter,
        spline.external.minor_diameter,
    )
    for value, text in zip(ours, printed.split(), strict=True):
        Case(DIMENSIONS, f"{degrees:g} deg {root}", "from memory", {}, text).check(
            (value - spline.pitch_diameter) / m
        )
    # the rack line at the form depth meets the base tangent where the flank of the shaft must be true
    along = 0.5 * teeth * m * math.sin(a) - depth * m / math.sin(a)
    expected = 2.0 * math.sqrt((0.5 * teeth * m * math.cos(a)) ** 2 + along**2)
    assert spline.external.form_diameter == pytest.approx(expected, rel=1e-12)
    assert spline.internal.minor_diameter == pytest.approx(expected + 0.2 * m, rel=1e-12)


# largest D of the range; es/tan(a) for d, e, f at 30, 37.5 and 45 deg, mm (mark: published)
FITS = """
3 | 0.035 0.026 0.020 | 0.024 0.018 0.014 | 0.010 0.008 0.006
6 | 0.052 0.039 0.030 | 0.035 0.026 0.020 | 0.017 0.013 0.010
10 | 0.069 0.052 0.040 | 0.043 0.033 0.025 | 0.023 0.017 0.013
18 | 0.087 0.065 0.050 | 0.055 0.042 0.032 | 0.028 0.021 0.016
30 | 0.113 0.085 0.065 | 0.069 0.052 0.040 | 0.035 0.026 0.020
50 | 0.139 0.104 0.080 | 0.087 0.065 0.050 | 0.043 0.033 0.025
80 | 0.173 0.130 0.100 | 0.104 0.078 0.060 | 0.052 0.039 0.030
120 | 0.208 0.156 0.120 | 0.125 0.094 0.072 | 0.062 0.047 0.036
180 | 0.251 0.189 0.145 | 0.147 0.111 0.085 | 0.074 0.056 0.043
250 | 0.294 0.222 0.170 | 0.173 0.130 0.100 | 0.087 0.065 0.050
""".strip().splitlines()


@pytest.mark.parametrize("line", FITS, ids=lambda line: f"up to {line.split(' |')[0]} mm")
def test_fundamental_deviations(line: str) -> None:
    largest, *groups = line.split(" | ")
    for fit, group in zip("def", groups, strict=True):
        reduction = fundamental_deviation(float(largest) * MM, fit)
        for degrees, printed in zip((30.0, 37.5, 45.0), group.split(), strict=True):
            where = f"page 2356, Table 17, {fit}, {degrees:g} deg, up to {largest} mm"
            Case(HANDBOOK, where, "published", {}, printed, unit=MM).check(
                reduction / math.tan(math.radians(degrees))
            )


def test_fit_f_on_40_millimetre() -> None:
    case = Case(HANDBOOK, "page 2356, Table 17, D 40, f, 30 deg", "published", {}, "0.043", unit=MM)
    case.check(fundamental_deviation(0.040, "f") / math.tan(math.radians(30.0)))


def test_form_diameter_of_the_shaft() -> None:
    spline = iso_4156.spline(20, 0.002)
    assert spline.external.form_diameter is not None
    Case(DIMENSIONS, "m 2, Z 20, 30 deg", "derived", {}, "37.829", unit=MM).check(
        spline.external.form_diameter
    )
