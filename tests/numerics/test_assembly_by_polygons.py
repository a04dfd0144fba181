"""Off-centre assembly against brute force: the overlap of the drawn sections, for all positions.

Nothing of the contact model is used: both sections are drawn as polygons, the area of metal in metal
is made as small as a grid of positions and a downhill search can make it, and the least clearance is
found by halving a range. What may differ, in modules: 0.0016 left by the halving; a corner that digs
in by d overlaps by about d squared, so that an area of 1e-8 that counts as none hides a depth of 1e-4
and a clearance of 4e-4; chords of 14 points to a flank leave it by less than 1e-3 at 6 teeth, far less
above. Together 0.003, a hundredth of what a false fit needs.
"""

import dataclasses
import math

import numpy as np
import pytest
import shapely
from flat_root import of_major
from scipy.optimize import minimize

from torqcheck._types import FloatArray
from torqcheck.geometry import InvoluteSpline, din_5480, iso_4156
from torqcheck.geometry.drawing.profile import external_profile, internal_profile
from torqcheck.geometry.lengths import INCH
from torqcheck.geometry.pairs.off_centre import least_clearance
from torqcheck.geometry.standards.ansi_b92_1 import spline as inch

AGREEMENT = 0.003  # modules
NO_AREA = 1e-8  # square modules
HALVINGS = 7
BELOW, ABOVE = 0.12, 0.083  # modules about the value to be tested; not its middle
A30, A375, A45 = math.radians(30.0), math.radians(37.5), math.radians(45.0)


def every_second_tooth(teeth: int) -> tuple[InvoluteSpline, InvoluteSpline]:
    """A hub, and a shaft with half of its mate's teeth."""
    hub = iso_4156.spline(2 * teeth, 1e-3)
    return dataclasses.replace(hub, teeth=teeth, module=2e-3), hub


def shallow_roots() -> tuple[InvoluteSpline, InvoluteSpline]:
    """13 teeth in 14 spaces so shallow that tips meet roots at an offset of 0.60 modules."""
    hub = inch(14, "16/32")
    shallow = dataclasses.replace(hub.internal, major_diameter=15.2 * hub.module)
    return inch(13, "16/32"), dataclasses.replace(hub, internal=shallow)


def thick_core() -> tuple[InvoluteSpline, InvoluteSpline]:
    """13 teeth on a core so thick that the tips of the hub meet it at an offset of 0.60 modules."""
    shaft = inch(13, "16/32")
    thick = dataclasses.replace(shaft.external, minor_diameter=11.8 * shaft.module)
    return dataclasses.replace(shaft, external=thick), inch(14, "16/32")


class Drawn:
    """Both sections as polygons, at a clearance shared by shaft and hub; lengths in modules of the shaft."""

    def __init__(self, shaft: InvoluteSpline, hub: InvoluteSpline, added: float) -> None:
        half = 0.5 * added * shaft.module
        self.shaft, self.hub = shaft, hub
        self.section = external_profile(shaft, shaft.tooth_thickness - half, 14) / shaft.module
        bore = internal_profile(hub, hub.space_width + half, 14) / shaft.module
        rim = shapely.Point(0.0, 0.0).buffer(np.hypot(*bore.T).max() + 1.5)
        self.metal = shapely.Polygon(rim.exterior, [bore])

    def overlap(self, position: FloatArray) -> float:
        x, y, arc = position
        turn = arc / (0.5 * self.shaft.teeth)
        c, s = math.cos(turn), math.sin(turn)
        placed = self.section @ np.array([[c, s], [-s, c]]) + (x, y)
        return float(shapely.intersection(shapely.polygons(placed), self.metal).area)

    def positions(self) -> list[FloatArray]:
        """A grid over offset, direction and turn, the least overlap first."""
        outer, inner = self.shaft.external, self.hub.internal
        limit = 0.5 * min(
            inner.major_diameter - outer.major_diameter, inner.minor_diameter - outer.minor_diameter
        )
        grid = [
            np.array((e * math.cos(b), e * math.sin(b), turn * 0.5 * self.shaft.teeth))
            for e in np.linspace(0.0, max(limit / self.shaft.module, 0.02), 10)
            for b in np.linspace(0.0, math.pi / self.hub.teeth, 3)
            for turn in np.arange(6) * 2.0 * math.pi / self.shaft.teeth / 6
        ]
        return sorted(grid, key=self.overlap)

    def least_overlap(self, starts: list[FloatArray]) -> tuple[float, FloatArray]:
        least, where = math.inf, starts[0]
        for start in starts:
            simplex = start + np.vstack((np.zeros(3), 0.04 * np.eye(3)))
            options = {"initial_simplex": simplex, "xatol": 1e-6, "fatol": 1e-11, "maxfev": 300}
            found = minimize(self.overlap, start, method="Nelder-Mead", options=options)
            if found.fun < least:
                least, where = float(found.fun), found.x
            if least < NO_AREA:
                break
        return least, where


def least_by_halving(
    shaft: InvoluteSpline, hub: InvoluteSpline, low: float, high: float
) -> tuple[float, FloatArray]:
    """Least added clearance at which the drawn sections have a position without overlap."""
    widest = Drawn(shaft, hub, high)
    area, where = widest.least_overlap(widest.positions()[:6])
    assert area < NO_AREA, "the range does not reach a clearance that admits the pair"
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        drawn = Drawn(shaft, hub, middle)
        area, place = drawn.least_overlap([where, *drawn.positions()[:3]])
        if area < NO_AREA:
            high, where = middle, place
        else:
            low = middle
    return high, where


PAIRS = {
    "27 in 28, 24/48": (inch(27, "24/48"), inch(28, "24/48")),
    "26 in 27, 24/48": (inch(26, "24/48"), inch(27, "24/48")),
    "21 in 22, 16/32": (inch(21, "16/32"), inch(22, "16/32")),
    "20 in 21, 12/24": (inch(20, "12/24"), inch(21, "12/24")),
    "13 in 14, 16/32": (inch(13, "16/32"), inch(14, "16/32")),
    "10 in 11, 16/32": (inch(10, "16/32"), inch(11, "16/32")),
    "6 in 7, 8/16": (inch(6, "8/16"), inch(7, "8/16")),
    "14 in 15, fillet root": (inch(14, "16/32", root="fillet"), inch(15, "16/32", root="fillet")),
    "16 in 17, 37.5 deg": (inch(16, "20/40", A375, "fillet"), inch(17, "20/40", A375, "fillet")),
    "20 in 21, 45 deg": (inch(20, "20/40", A45, "fillet"), inch(21, "20/40", A45, "fillet")),
    "m 1.25 in 20/40": (iso_4156.spline(20, 1.25e-3), inch(20, "20/40")),
    "20/40 in m 1.25": (inch(14, "20/40"), iso_4156.spline(14, 1.25e-3)),
    "20 of m 1.25 in 21 of 20/40": (iso_4156.spline(20, 1.25e-3), inch(21, "20/40")),
    "13 of m 1.5 in 14 of 16/32": (iso_4156.spline(13, 1.5e-3), inch(14, "16/32")),
    "12 of 20/40 in 13 of m 1.25": (inch(12, "20/40"), iso_4156.spline(13, 1.25e-3)),
    "30 deg in 37.5 deg": (inch(20, "20/40"), inch(20, "20/40", A375, "fillet")),
    "37.5 deg in 30 deg": (inch(20, "20/40", A375, "fillet"), inch(20, "20/40")),
    "24 in 25, m 2": (iso_4156.spline(24, 2e-3), iso_4156.spline(25, 2e-3)),
    "DIN 30x2x14 in 12/24": (din_5480.spline(0.030, 0.002, 14), inch(14, "12/24")),
    "DIN 30x2x14 in 15 of m 2": (din_5480.spline(0.030, 0.002, 14), iso_4156.spline(15, 2e-3)),
    "DIN 30x2x14 in DIN 32x2x15": (din_5480.spline(0.030, 0.002, 14), din_5480.spline(0.032, 0.002, 15)),
    "every second tooth": every_second_tooth(9),
}
# tips bear in roots: two arcs that all but fit each other, where the chords of the drawing foul at the limit
AT_THE_LIMIT = {"13 in 14, shallow roots": shallow_roots(), "13 in 14, thick core": thick_core()}


@pytest.mark.parametrize(("shaft", "hub"), (PAIRS | AT_THE_LIMIT).values(), ids=[*PAIRS, *AT_THE_LIMIT])
def test_least_clearance_is_that_of_the_drawn_sections(shaft: InvoluteSpline, hub: InvoluteSpline) -> None:
    found = least_clearance(shaft, hub)
    assert found.added_clearance is not None
    ours = found.added_clearance / shaft.module
    drawn, _ = least_by_halving(shaft, hub, ours - BELOW, ours + ABOVE)
    assert drawn == pytest.approx(ours, abs=AGREEMENT)


@pytest.mark.parametrize(("shaft", "hub"), PAIRS.values(), ids=PAIRS)
def test_drawn_at_the_position_found_the_sections_just_clear(
    shaft: InvoluteSpline, hub: InvoluteSpline
) -> None:
    found = least_clearance(shaft, hub)
    assert None not in (found.added_clearance, found.offset, found.direction, found.rotation)
    m = shaft.module
    x, y = found.offset * math.cos(found.direction) / m, found.offset * math.sin(found.direction) / m
    position = np.array((x, y, 0.5 * shaft.teeth * found.rotation))
    assert Drawn(shaft, hub, found.added_clearance / m + AGREEMENT).overlap(position) < NO_AREA
    assert Drawn(shaft, hub, found.added_clearance / m - 0.02).overlap(position) > NO_AREA


NEVER = {
    "31 in 32, outside diameters 0.010 in apart": (
        inch(31, "24/48"),
        of_major(32, (32.0 / 24.0 + 0.010) * INCH),
    ),
    "27 in 28 of one major diameter": (inch(27, "24/48"), of_major(28, 28.0 / 24.0 * INCH)),
    "13 in 14 of one major diameter": (inch(13, "16/32"), of_major(14, 14.0 / 16.0 * INCH)),
    "28 in 27 of one major diameter": (of_major(28, 28.0 / 24.0 * INCH), inch(27, "24/48")),
}


@pytest.mark.parametrize(("shaft", "hub"), NEVER.values(), ids=NEVER)
def test_no_clearance_that_leaves_tips_admits_the_drawn_sections(
    shaft: InvoluteSpline, hub: InvoluteSpline
) -> None:
    found = least_clearance(shaft, hub)
    assert found.clearance is None
    edge = (found.edge_clearance - found.nominal_clearance) / shaft.module
    drawn = Drawn(shaft, hub, edge)
    area, _ = drawn.least_overlap(drawn.positions()[:8])
    assert area > 1e-3
