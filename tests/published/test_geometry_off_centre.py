"""False mates off centre: a table worked out from drawn profiles, and a fact of the trade.

The table searched two settings of the shaft, a tooth or a gap towards the offset, in steps of 0.02/P
of offset, so that its clearances are bounds from above. Four of its seven rows hold to the digit; of
the other three the least clearance and its place are somewhat less (tests/numerics holds ours against
drawn profiles in all positions):

=====================  =======================  =======================
pair                   table                    least of all positions
=====================  =======================  =======================
27 in 28, 24/48        0.010 in at 0.66/P       0.0092 in at 0.649/P
26 in 27, 24/48        0.0106 in at 0.66/P      0.0102 in at 0.662/P
21 in 22, 16/32        0.015 in at 0.66/P       0.0140 in at 0.650/P
=====================  =======================  =======================
"""

import math
from functools import partial

import pytest
from flat_root import of_major as flat_root
from published._case import Case

from torqcheck.geometry import (
    InvoluteSpline,
    ansi_b92_1,
    centred_assembly,
    din_5480,
    iso_4156,
)
from torqcheck.geometry.pairs.off_centre import OffCentreAssembly, least_clearance
from torqcheck.geometry.standards.ansi_b92_1 import spline as inch

INCH, MM = 0.0254, 1e-3
of_major = partial(flat_root, unit=INCH)
TABLE = (
    "Table of one-tooth mismatches off centre, from the overlap of drawn profiles, worked out independently"
)
TRADE = "Splines that are one tooth apart, threads of practitioners"


def found(teeth: int, pitch: str) -> OffCentreAssembly:
    return least_clearance(inch(teeth, pitch), inch(teeth + 1, pitch))


# teeth, pitch, s - t in inches, offset in 1/P (mark: derived)
HOLD = [
    (35, "24/48", "0.010", "0.66"),
    (20, "12/24", "0.017", "0.64"),
    (13, "16/32", "0.013", "0.64"),
    (10, "16/32", "0.011", "0.62"),
]
CORRECTED = [(27, "24/48", "0.010", "0.66"), (26, "24/48", "0.0106", "0.66"), (21, "16/32", "0.015", "0.66")]


@pytest.mark.parametrize(("teeth", "pitch", "clearance", "offset"), HOLD)
def test_rows_that_hold(teeth: int, pitch: str, clearance: str, offset: str) -> None:
    ours = found(teeth, pitch)
    assert ours.clearance is not None
    assert ours.offset is not None
    where = f"{teeth} in {teeth + 1}, {pitch}"
    Case(TABLE, f"{where}, s - t", "derived", {}, clearance, unit=INCH).check(ours.clearance)
    Case(TABLE, f"{where}, offset", "derived", {}, offset, unit=inch(teeth, pitch).module).check(ours.offset)


@pytest.mark.parametrize(("teeth", "pitch", "clearance", "offset"), CORRECTED)
def test_rows_that_are_bounds_from_above(teeth: int, pitch: str, clearance: str, offset: str) -> None:
    ours = found(teeth, pitch)
    assert ours.clearance is not None
    assert ours.offset is not None
    # a step of 0.02/P in the table's offset costs up to half of it in clearance
    step = 0.02 * inch(teeth, pitch).module
    assert float(clearance) * INCH - 1.5 * step < ours.clearance < float(clearance) * INCH
    where = f"{teeth} in {teeth + 1}, {pitch}, offset"
    case = Case(
        TABLE, where, "derived", {}, offset, inch(teeth, pitch).module, 0.01, "the table's grid of 0.02/P"
    )
    case.check(ours.offset)


def test_offset_is_limited_by_tips_in_roots() -> None:
    # mark: derived; (1 + 0.35)/(2 P)
    unit = inch(27, "24/48").module
    Case(TABLE, "limit of the offset", "derived", {}, "0.675", unit=unit).check(
        found(27, "24/48").offset_limit
    )
    same = least_clearance(inch(27, "24/48"), of_major(28, 28 / 24))
    case = Case(TABLE, "27 in 28 of one major diameter, free offset", "derived", {}, "0.007", unit=INCH)
    case.check(same.offset_limit)


@pytest.mark.parametrize(
    ("shaft", "hub"),
    [
        (inch(27, "24/48"), of_major(28, 28 / 24)),
        (of_major(28, 28 / 24), inch(27, "24/48")),
        (inch(21, "16/32"), of_major(20, 1.375)),
    ],
)
def test_one_major_diameter_is_never_admitted(shaft: InvoluteSpline, hub: InvoluteSpline) -> None:
    # mark: derived; the table tried clearances up to 0.6 of the pitch
    ours = least_clearance(shaft, hub)
    assert ours.clearance is None
    assert ours.edge_clearance - ours.nominal_clearance > 0.6 * shaft.circular_pitch


def test_larger_neighbour_fouls_wherever_it_lies() -> None:
    ours = least_clearance(inch(28, "24/48"), inch(27, "24/48"))
    assert ours.clearance is None
    # mark: derived; 0.0271 in on the diameter
    case = Case(TABLE, "28 in 27, tips into roots, on the diameter", "derived", {}, "0.0271", unit=INCH)
    case.check(-2.0 * ours.offset_limit)


def test_a_new_pair_refuses_and_worn_flanks_admit_it() -> None:
    # mark: from memory (class 5 tolerances of the standard), then derived
    pair = inch(27, "24/48"), inch(28, "24/48")
    needed = least_clearance(*pair).added_clearance
    assert needed is not None
    assert 0.0055 * INCH < needed < 0.0055 * INCH + 0.005 * INCH


def test_runout_betrays_the_pair() -> None:
    # mark: derived; 1.2 to 1.3/P indicator reading (their own rows reach 2 x 0.66/P)
    for teeth, pitch, *_ in HOLD + CORRECTED:
        ours = found(teeth, pitch)
        assert ours.runout is not None
        assert 1.2 < ours.runout / inch(teeth, pitch).module < 1.33


# mark: derived; equal counts line up, so nothing is gained by going off centre
SLIDE_IN = [
    (iso_4156.spline(20, 1.25e-3), inch(20, "20/40")),
    (iso_4156.spline(20, 2.5e-3), inch(20, "10/20")),
    (iso_4156.spline(20, 1e-3), inch(20, "24/48")),
    (iso_4156.spline(24, 1e-3), inch(24, "24/48")),
    (iso_4156.spline(13, 1.5e-3), inch(13, "16/32")),
    (din_5480.spline(0.030, 0.002, 14), inch(14, "12/24")),
]


@pytest.mark.parametrize(("shaft", "hub"), SLIDE_IN)
def test_equal_counts_of_neighbouring_pitch_slide_in_on_centre(
    shaft: InvoluteSpline, hub: InvoluteSpline
) -> None:
    ours = least_clearance(shaft, hub)
    assert ours.slides_as_given
    assert ours.offset == pytest.approx(0.0, abs=1e-6)
    centred = centred_assembly(shaft, hub)
    assert centred.clearance is not None
    assert ours.added_clearance is not None
    # to spare at the tightest radius; an arc there is as much longer or shorter as its radius
    assert -ours.added_clearance == pytest.approx(centred.clearance[0], rel=0.06)


@pytest.mark.parametrize(
    ("shaft", "hub"),
    [
        (inch(13, "16/32"), iso_4156.spline(13, 1.5e-3)),
        (din_5480.spline(0.020, 1.25e-3, 14), inch(14, "20/40", root="fillet")),
        (inch(20, "20/40"), ansi_b92_1.spline(20, "20/40", math.radians(37.5), "fillet")),
    ],
)
def test_equal_counts_that_refuse(shaft: InvoluteSpline, hub: InvoluteSpline) -> None:
    assert not least_clearance(shaft, hub).slides_as_given


@pytest.mark.parametrize("pitch", [12, 16, 20, 24, 32])
def test_31_teeth_offered_to_32_with_outside_diameters_ten_thousandths_apart(pitch: int) -> None:
    # mark: common practice, no source: two splines a tooth apart may differ by 0.010 in outside
    shaft = inch(31, f"{pitch}/{2 * pitch}")
    outside = shaft.external.major_diameter / INCH
    for other in (outside + 0.010, outside - 0.010):
        hub = of_major(32, other)
        apart = Case(TRADE, "31 and 32 teeth", "common practice, no source", {}, "0.010", unit=INCH)
        apart.check(abs(hub.external.major_diameter - shaft.external.major_diameter))
        ours = least_clearance(shaft, hub)
        assert ours.clearance is None
        assert not ours.slides_as_given
        # nearly a pitch of metal for each tooth, and eight times the largest published worn clearance
        assert 0.85 < ours.missing / shaft.circular_pitch < 1.1
        assert ours.missing > 7.0 * 0.012 * INCH
        assert f"{ours.missing * 1e3:.2f} mm would have to be gone" in ours.words
