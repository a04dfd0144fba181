"""Stiffness of an overhung shaft, and the force of a forced offset, against the beam equation solved."""

import numpy as np
import pytest
from scipy.integrate import solve_bvp

from torqcheck.capacity import forced_offset_force, overhung_moment, overhung_stiffness


def tip_deflection(bending_stiffness: float, overhang: float, spacing: float, force: float) -> float:
    """Deflection at the tip of a beam on two supports: both spans at once, joined at the support.

    EI w'''' = 0 in each span; unknowns w, w', w'', w''' of both, lengths scaled by their own span.
    """

    def slopes(_, y):  # type: ignore[no-untyped-def]
        zero = np.zeros_like(y[0])
        back = np.array([y[1], y[2], y[3], zero]) * spacing
        front = np.array([y[5], y[6], y[7], zero]) * overhang
        return np.vstack((back, front))

    def ends(left, right):  # type: ignore[no-untyped-def]
        return np.array(
            [
                left[0],  # far bearing: no deflection, no moment
                left[2],
                right[0],  # near bearing, seen from both spans: no deflection, slope and moment go on
                left[4],
                right[1] - left[5],
                right[2] - left[6],
                right[6],  # tip: no moment, the force in the shear
                bending_stiffness * right[7] + force,
            ]
        )

    x = np.linspace(0.0, 1.0, 11)
    solved = solve_bvp(slopes, ends, x, np.zeros((8, x.size)), tol=1e-10)
    assert solved.success
    return float(solved.y[4, -1])


@pytest.mark.parametrize(
    ("diameter", "bore", "overhang", "spacing"),
    [(0.025, 0.0, 0.060, 0.150), (0.040, 0.020, 0.120, 0.080), (0.032, 0.0, 0.020, 0.300)],
)
def test_stiffness_is_that_of_the_beam(diameter: float, bore: float, overhang: float, spacing: float) -> None:
    E, force = 207e9, 900.0
    EI = E * np.pi * (diameter**4 - bore**4) / 64.0
    deflection = abs(tip_deflection(EI, overhang, spacing, force))
    assert overhung_stiffness(diameter, overhang, spacing, E, bore) == pytest.approx(
        force / deflection, rel=1e-6
    )


def test_forced_offset_shares_itself_between_two_beams() -> None:
    E, offset = 207e9, 0.15e-3
    sides = ((0.025, 0.060, 0.150), (0.038, 0.090, 0.110))
    stiffness = [overhung_stiffness(d, a, b, E) for d, a, b in sides]
    force = float(forced_offset_force(offset, *stiffness))
    given = [abs(tip_deflection(E * np.pi * d**4 / 64.0, a, b, force)) for d, a, b in sides]
    assert sum(given) == pytest.approx(offset, rel=1e-6)
    # the moment at the near bearing is what bends the shaft most
    assert overhung_moment(force, 0.060) == pytest.approx(force * 0.060)
