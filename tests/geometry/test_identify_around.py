"""What stands around a candidate: readings of a miscounted part and of a pseudo-mate, by root finding."""

from math import cos, pi, radians, tan

import pytest
from scipy.optimize import brentq

from torqcheck.geometry import ansi_b92_1
from torqcheck.geometry.identifying.identify import identify
from torqcheck.geometry.identifying.readings import Measured, PinPair, Readings
from torqcheck.geometry.identifying.series import Side

MODULE = 0.0254 / 24  # 24/48
A30 = radians(30.0)


def over_or_between(teeth: int, side: Side, pin: float) -> float:
    """Pin reading of basic 24/48: tooth and space of half a pitch, the contact found by bisection."""
    diameter = MODULE * teeth
    sign = 1.0 if side == "external" else -1.0
    share = pi / (2 * teeth) - pi / teeth if side == "external" else pi / (2 * teeth)

    def mismatch(phi: float) -> float:
        wanted = share + tan(A30) - A30 + sign * pin / (diameter * cos(A30))
        return tan(phi) - phi - wanted

    phi = brentq(mismatch, 1e-6, 1.2, xtol=1e-15)
    centres = diameter * cos(A30) / cos(phi) * (cos(pi / (2 * teeth)) if teeth % 2 else 1.0)
    return centres + sign * pin


def read(side: Side, pin: float) -> Readings:
    """Readings of a new 27T 24/48, without error."""
    spline = ansi_b92_1.spline(27, "24/48")
    tip = spline.external.major_diameter if side == "external" else spline.internal.minor_diameter
    return Readings(
        teeth=27,
        **{"major_diameter" if side == "external" else "minor_diameter": Measured(tip, 1e-5)},
        pins=(PinPair(Measured(over_or_between(27, side, pin), 1e-5), Measured(pin, 4e-6)),),
    )


@pytest.mark.parametrize(("side", "share"), [("external", 1.92), ("internal", 1.68)])
def test_miscounted_teeth_are_told_by_the_pins_as_well(side: Side, share: float) -> None:
    pin = share * MODULE
    found = identify(side, read(side, pin))
    assert found.candidates[0].candidate.designation.startswith("27T 24/48")
    here = over_or_between(27, side, pin)
    for miscounted in found.neighbours:
        there = over_or_between(miscounted.teeth, side, pin)
        assert miscounted.pin_difference == pytest.approx(there - here, abs=1e-9)


def test_a_pseudo_mate_differs_by_its_printed_tips() -> None:
    # 30 deg flat root, fit to the sides: shafts of N + 1 modules over the tips in both standards
    found = identify("external", read("external", 1.92 * MODULE))
    near = {mate.standard: mate for mate in found.pseudo_mates}
    assert near["iso 4156"].tip_difference == pytest.approx(28e-3 - 28 * MODULE, rel=1e-9)
    # the nearest first
    gaps = [abs(mate.tip_difference) for mate in found.pseudo_mates]
    assert gaps == sorted(gaps)
    assert len(gaps) > 1
