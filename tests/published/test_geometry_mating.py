"""False mates worked out independently of the project: other tooth counts, and neighbouring pitches."""

import math
from dataclasses import dataclass
from functools import partial

import pytest
from flat_root import of_major as flat_root
from published._case import Case

from torqcheck.geometry import (
    InvoluteSpline,
    ansi_b92_1,
    centred_assembly,
    clearance_from_travel,
    din_5480,
    iso_4156,
)
from torqcheck.geometry.standards.ansi_b92_1 import spline as inch

INCH, MM = 0.0254, 1e-3
of_major = partial(flat_root, unit=INCH)
COUNTS = (
    "Table of shafts in hubs of another tooth count, 30 deg flat root, basic widths, worked out independently"
)
PITCHES = "Table of shafts in hubs of equal count and neighbouring pitch, worked out independently"


@dataclass(frozen=True, slots=True)
class Row:
    name: str
    shaft: InvoluteSpline
    hub: InvoluteSpline
    overlap: str | None
    clearance: tuple[str, str]
    needed: tuple[str, str]
    missing: str
    free: tuple[int, int, int]  # as new, and with 0.0055 and 0.012 in more clearance
    foul: str | None = None  # tips into roots, on the diameter

    def __str__(self) -> str:
        return self.name


# missing metal: the worst radius of the difference; the worst of each taken at different radii would make
# the seventh and eighth row 0.128 and 0.130
ROWS = [
    Row("27 in 28", inch(27, "24/48"), inch(28, "24/48"), "0.0208", ("0.0195", "0.0238"),
        ("0.1215", "0.1261"), "0.102", (5, 6, 7)),
    Row("26 in 27", inch(26, "24/48"), inch(27, "24/48"), "0.0208", ("0.0193", "0.0238"),
        ("0.1212", "0.1259"), "0.102", (4, 6, 7)),
    Row("20 in 21", inch(20, "12/24"), inch(21, "12/24"), "0.0417", ("0.0360", "0.0474"),
        ("0.2369", "0.2487"), "0.201", (3, 4, 4)),
    Row("13 in 14", inch(13, "16/32"), inch(14, "16/32"), "0.0312", ("0.0223", "0.0352"),
        ("0.1683", "0.1812"), "0.146", (2, 2, 3)),
    Row("10 in 11", inch(10, "16/32"), inch(11, "16/32"), "0.0312", ("0.0183", "0.0349"),
        ("0.1606", "0.1767"), "0.142", (2, 2, 2)),
    Row("28 in 27", inch(28, "24/48"), inch(27, "24/48"), None, ("-0.025", "-0.015"),
        ("0.1215", "0.1325"), "0.158", (0, 0, 0), "0.0271"),
    Row("27 in 28 of one major", inch(27, "24/48"), of_major(28, 28 / 24), "0.0402", ("-0.0016", "-0.0014"),
        ("0.1174", "0.1261"), "0.127", (0, 1, 3)),
    Row("28 in 27 of one major", of_major(28, 28 / 24), inch(27, "24/48"), "0.0417", ("0.0014", "0.0016"),
        ("0.1215", "0.1309"), "0.129", (1, 2, 3)),
    Row("21 in 20 of one major", inch(21, "16/32"), of_major(20, 1.375), "0.0655", ("0.0030", "0.0034"),
        ("0.1861", "0.2057"), "0.203", (1, 1, 2)),
]  # fmt: skip


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_other_tooth_count(row: Row) -> None:
    found = centred_assembly(row.shaft, row.hub)
    assert found.clearance is not None
    assert found.clearance_needed is not None
    pairs = [
        ("missing", row.missing, found.missing),
        *zip(("clearance", "clearance"), row.clearance, found.clearance, strict=True),
        *zip(("needed", "needed"), row.needed, found.clearance_needed, strict=True),
    ]
    if row.overlap is not None:
        pairs.append(("overlap", row.overlap, found.radial_overlap))
    if row.foul is not None:
        pairs.append(("tips into roots", row.foul, 2.0 * found.tip_interference))
    for quantity, printed, ours in pairs:
        Case(COUNTS, f"{row.name}, {quantity}", "derived", {}, printed, unit=INCH).check(ours)
    assert found.tips_foul == (row.foul is not None)
    assert not found.enters


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_teeth_that_enter_freely(row: Row) -> None:
    # mark: derived; the second and third counts are with the worst new and the worst published worn clearance
    more = (0.0, 0.0055 * INCH, 0.012 * INCH)
    ours = tuple(centred_assembly(row.shaft, row.hub, added).free_teeth for added in more)
    assert ours == row.free, f"{COUNTS}, {row.name}"


# shaft, hub, least and most clearance, mm (mark: derived)
NEIGHBOURS = [
    ("20T m 1.25 in 20/40", iso_4156.spline(20, 1.25e-3), inch(20, "20/40"), "0.18", "0.28"),
    ("20T m 2.5 in 10/20", iso_4156.spline(20, 2.5e-3), inch(20, "10/20"), "0.36", "0.56"),
    ("20T m 1 in 24/48", iso_4156.spline(20, 1e-3), inch(20, "24/48"), "0.60", "0.74"),
    ("24T m 1 in 24/48", iso_4156.spline(24, 1e-3), inch(24, "24/48"), "0.75", "0.86"),
    ("13T m 1.5 in 16/32", iso_4156.spline(13, 1.5e-3), inch(13, "16/32"), "0.48", "0.81"),
    ("DIN 30x2x14 in 12/24", din_5480.spline(0.030, 0.002, 14), inch(14, "12/24"), "0.84", "1.19"),
]


@pytest.mark.parametrize(
    ("name", "shaft", "hub", "least", "most"), NEIGHBOURS, ids=[row[0] for row in NEIGHBOURS]
)
def test_neighbouring_pitch_slides_in_loosely(
    name: str, shaft: InvoluteSpline, hub: InvoluteSpline, least: str, most: str
) -> None:
    found = centred_assembly(shaft, hub)
    assert found.clearance is not None
    Case(PITCHES, f"{name}, least", "derived", {}, least, unit=MM).check(found.clearance[0])
    Case(PITCHES, f"{name}, most", "derived", {}, most, unit=MM).check(found.clearance[1])
    assert found.enters
    assert found.free_teeth == shaft.teeth


@pytest.mark.parametrize(
    ("name", "shaft", "hub", "least", "most"),
    [
        # at the hub's own minor diameter, 18.27 mm; on m (Z - 1) = 18 mm it would be -0.27
        ("16/32 in m 1.5", inch(13, "16/32"), iso_4156.spline(13, 1.5e-3), "-0.93", "-0.33"),
        (
            "30 deg in 37.5 deg",
            inch(20, "20/40"),
            ansi_b92_1.spline(20, "20/40", math.radians(37.5), "fillet"),
            "-0.11",
            "0.32",
        ),
    ],
)
def test_neighbouring_pitch_refuses(
    name: str, shaft: InvoluteSpline, hub: InvoluteSpline, least: str, most: str
) -> None:
    found = centred_assembly(shaft, hub)
    assert found.clearance is not None
    Case(PITCHES, f"{name}, least", "derived", {}, least, unit=MM).check(found.clearance[0])
    Case(PITCHES, f"{name}, most", "derived", {}, most, unit=MM).check(found.clearance[1])
    assert not found.enters


def test_din_shaft_in_inch_fillet_hub_refuses() -> None:
    found = centred_assembly(din_5480.spline(0.020, 1.25e-3, 14), inch(14, "20/40", root="fillet"))
    assert found.clearance is not None
    Case(PITCHES, "DIN 20x1.25x14 in 20/40", "derived", {}, "-0.51", unit=MM).check(found.clearance[0])


def test_true_pair_needs_nothing() -> None:
    # mark: derived
    pair = inch(27, "24/48")
    found = centred_assembly(pair, pair)
    assert found.clearance_needed == (0.0, 0.0)
    assert found.missing == pytest.approx(0.0, abs=1e-12)
    assert found.free_teeth == 27
    assert found.enters


def test_dial_reading_as_clearance() -> None:
    inputs = {"travel": 0.50 * MM, "radius": 0.100, "pitch_diameter": 33.3375 * MM}
    case = Case(
        "Dial travel as circumferential clearance, worked out independently",
        "0.50 mm at 100 mm on 33.3375 mm",
        "derived",
        inputs,
        "0.0833",
        unit=MM,
    )
    case.check(float(clearance_from_travel(**inputs)))
