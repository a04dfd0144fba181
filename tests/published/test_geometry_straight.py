"""Straight-sided splines: the size table of ISO 14, and the torque row of SAE J499."""

import math

import pytest
from published._case import Case

from torqcheck.geometry import straight
from torqcheck.provenance import Mark

INCH, MM = 0.0254, 1e-3
ISO_14 = "ISO 14:1982 (BS 5686:1986)"
SAE = "SAE J499, Parallel side splines for soft broached holes in fittings"

# N x d x D: B in mm (mark: published; 8x56x65 from memory where the copy contradicts itself)
TABLE = """
6x23x26:6 6x26x30:6 6x28x32:7 8x32x36:6 8x36x40:7 8x42x46:8 8x46x50:9 8x52x58:10 8x56x62:10 8x62x68:12
10x72x78:12 10x82x88:12 10x92x98:14 10x102x108:16 10x112x120:18
6x11x14:3 6x13x16:3.5 6x16x20:4 6x18x22:5 6x21x25:5 6x23x28:6 6x26x32:6 6x28x34:7 8x32x38:6 8x36x42:7
8x42x48:8 8x46x54:9 8x52x60:10 8x56x65:10 8x62x72:12 10x72x82:12 10x82x92:12 10x92x102:14 10x102x112:16
10x112x125:18
"""


@pytest.mark.parametrize("row", TABLE.split())
def test_iso_14_size(row: str) -> None:
    designation, printed = row.split(":")
    spline = straight.iso_14(designation)
    mark: Mark = "from memory" if designation == "8x56x65" else "published"
    Case(ISO_14, designation, mark, {}, printed, unit=MM).check(spline.tooth_width)
    teeth, minor, major = designation.split("x")
    assert spline.teeth == int(teeth)
    Case(ISO_14, designation, "published", {}, minor, unit=MM).check(spline.minor_diameter)
    Case(ISO_14, designation, "published", {}, major, unit=MM).check(spline.major_diameter)


def torque_per_inch(spline: straight.StraightSpline) -> float:
    """Torque in in-lb per inch of length at 1000 psi of side pressure, all teeth loaded."""
    return 1000.0 * spline.teeth * 0.5 * spline.mean_diameter / INCH * spline.contact_height / INCH


@pytest.mark.parametrize(
    ("teeth", "inches", "fit", "printed", "mark"),
    [
        (6, 1.0, "A", "143", "published"),
        (6, 1.0, "B", "208", "published"),
        (6, 1.0, "C", "270", "published"),
        (4, 1.0, "A", "139", "from memory"),
        (4, 1.0, "B", "219", "from memory"),
        (10, 1.0, "A", "215", "from memory"),
        (10, 1.0, "B", "326", "from memory"),
        (10, 1.0, "C", "430", "from memory"),
        (16, 2.0, "A", "1375", "from memory"),
        (16, 2.0, "B", "2083", "from memory"),
        (16, 2.0, "C", "2751", "from memory"),
    ],
)
def test_sae_torque_row(teeth: int, inches: float, fit: straight.SaeFit, printed: str, mark: Mark) -> None:
    spline = straight.sae(teeth, inches * INCH, fit)
    case = Case(SAE, f"{teeth} splines, {inches:g} in, fit {fit}", mark, {}, printed)
    case.check(torque_per_inch(spline))


@pytest.mark.parametrize(("fit", "printed"), [("A", "0.900"), ("B", "0.850"), ("C", "0.800")])
def test_sae_minor_diameter_and_width(fit: straight.SaeFit, printed: str) -> None:
    spline = straight.sae(6, INCH, fit)
    Case(SAE, f"1 in, fit {fit}, d", "published", {}, printed, unit=INCH).check(spline.minor_diameter)
    Case(SAE, f"1 in, fit {fit}, W", "published", {}, "0.250", unit=INCH).check(spline.tooth_width)


def test_effective_pressure_angle_of_8x52x60() -> None:
    # derived: sin(phi) = b/(2 r), b 10 mm, r 28 mm
    case = Case(
        "Effective angle of a straight flank, worked out independently", "8x52x60", "derived", {}, "10.29"
    )
    case.check(math.degrees(straight.iso_14("8x52x60").pressure_angle))
