"""Hub and shaft as two discs in plane stress, solved together by a boundary-value solver.

Unknown are displacement u and radial stress s of both, from their own inner to their own outer edge::

    u' = (1 - nu^2) s / E - nu u / r
    s' = E u / r^2 - (1 - nu) s / r - rho w^2 r

with no stress at the free edges, the same radial stress at the seat, and the hub's bore further out than
the shaft by the radial interference.
"""

from dataclasses import dataclass

import numpy as np
import pytest
from scipy.integrate import solve_bvp

from torqcheck.capacity.joining import (
    hub_bore_hoop_stress,
    hub_outside_growth,
    interference_lost_to_speed,
    interference_pressure,
    separation_speed,
    shaft_equivalent_stress,
    zero_pressure_hoop_stress,
)

CLOSE = 1e-6  # relative


@dataclass(frozen=True)
class Part:
    inner: float
    outer: float
    modulus: float
    poisson: float
    density: float

    def slopes(self, r: np.ndarray, u: np.ndarray, s: np.ndarray, speed: float) -> tuple[np.ndarray, ...]:
        stretch = (1.0 - self.poisson**2) / self.modulus * s - self.poisson * u / r
        pull = self.modulus * u / r**2 - (1.0 - self.poisson) * s / r - self.density * speed**2 * r
        return stretch, pull

    def hoop(self, r: float, u: float, s: float) -> float:
        return self.modulus * u / r + self.poisson * s


@dataclass(frozen=True)
class Solved:
    pressure: float
    hub_hoop: float
    shaft_inner_hoop: float
    hub_outer_displacement: float
    hub_bore_displacement: float
    shaft_displacement: float


def solved(hub: Part, shaft: Part, radial: float, speed: float) -> Solved:
    """Both discs on 0 to 1, displacements over `radial` and stresses over a pressure of that size."""
    scale = radial * hub.modulus / hub.inner

    def slopes(x: np.ndarray, y: np.ndarray) -> np.ndarray:
        rows = []
        for part, (u, s) in ((hub, y[:2]), (shaft, y[2:])):
            width = part.outer - part.inner
            r = part.inner + width * x
            stretch, pull = part.slopes(r, u * radial, s * scale, speed)
            rows += [width * stretch / radial, width * pull / scale]
        return np.vstack(rows)

    def edges(a: np.ndarray, b: np.ndarray) -> np.ndarray:
        return np.array([b[1], a[3], a[1] - b[3], a[0] - b[2] - 1.0])

    x = np.linspace(0.0, 1.0, 201)
    result = solve_bvp(slopes, edges, x, np.zeros((4, x.size)), tol=1e-10, max_nodes=200_000)
    assert result.success, result.message
    first, last = result.y[:, 0], result.y[:, -1]
    return Solved(
        pressure=-first[1] * scale,
        hub_hoop=hub.hoop(hub.inner, first[0] * radial, first[1] * scale),
        shaft_inner_hoop=shaft.hoop(shaft.inner, first[2] * radial, first[3] * scale),
        hub_outer_displacement=last[0] * radial,
        hub_bore_displacement=first[0] * radial,
        shaft_displacement=last[2] * radial,
    )


STEEL = {"modulus": 207e9, "poisson": 0.29, "density": 7850.0}
ALUMINIUM = {"modulus": 70e9, "poisson": 0.33, "density": 2700.0}
IRON = {"modulus": 110e9, "poisson": 0.26, "density": 7200.0}

CASES = [
    pytest.param(Part(0.020, 0.040, **STEEL), Part(0.008, 0.020, **STEEL), 30e-6, 0.0, id="steel, at rest"),
    pytest.param(Part(0.020, 0.040, **STEEL), Part(0.008, 0.020, **STEEL), 30e-6, 2500.0, id="steel, fast"),
    pytest.param(Part(0.050, 0.125, **ALUMINIUM), Part(0.025, 0.050, **STEEL), 32.4e-6, 0.0, id="aluminium"),
    pytest.param(Part(0.050, 0.125, **ALUMINIUM), Part(0.025, 0.050, **STEEL), 60e-6, 900.0, id="alu, fast"),
    pytest.param(Part(0.030, 0.036, **IRON), Part(0.024, 0.030, **STEEL), 20e-6, 800.0, id="thin iron, fast"),
    pytest.param(Part(0.030, 0.090, **STEEL), Part(0.010, 0.030, **ALUMINIUM), 25e-6, 1000.0, id="alu shaft"),
]


def elastic(hub: Part, shaft: Part) -> dict[str, float]:
    return {
        "hub_modulus": hub.modulus,
        "hub_poisson_ratio": hub.poisson,
        "shaft_modulus": shaft.modulus,
        "shaft_poisson_ratio": shaft.poisson,
    }


def sizes(hub: Part, shaft: Part) -> dict[str, float]:
    return {"diameter": 2 * hub.inner, "outside_diameter": 2 * hub.outer, "bore": 2 * shaft.inner}


def heavy(hub: Part, shaft: Part) -> dict[str, float]:
    return elastic(hub, shaft) | {"hub_density": hub.density, "shaft_density": shaft.density}


@pytest.mark.parametrize(("hub", "shaft", "radial", "speed"), CASES)
def test_pressure_is_that_of_the_interference_that_is_left(
    hub: Part, shaft: Part, radial: float, speed: float
) -> None:
    exact = solved(hub, shaft, radial, speed)
    lost = interference_lost_to_speed(speed, **sizes(hub, shaft), **heavy(hub, shaft))
    ours = interference_pressure(2.0 * radial - lost, **sizes(hub, shaft), **elastic(hub, shaft))
    assert float(ours) == pytest.approx(exact.pressure, rel=CLOSE)
    assert exact.hub_bore_displacement - exact.shaft_displacement == pytest.approx(radial, rel=1e-9)


@pytest.mark.parametrize(("hub", "shaft", "radial", "speed"), CASES)
def test_hoop_stress_of_the_hub_adds_up(hub: Part, shaft: Part, radial: float, speed: float) -> None:
    exact = solved(hub, shaft, radial, speed)
    bore, outside = 2 * hub.inner, 2 * hub.outer
    ours = hub_bore_hoop_stress(exact.pressure, bore, outside)
    ours = ours + zero_pressure_hoop_stress(speed, bore, outside, hub.density, hub.poisson)
    assert float(ours) == pytest.approx(exact.hub_hoop, rel=CLOSE)


@pytest.mark.parametrize(("hub", "shaft", "radial", "speed"), CASES)
def test_stress_of_a_hollow_shaft_and_what_rotation_relieves(
    hub: Part, shaft: Part, radial: float, speed: float
) -> None:
    exact = solved(hub, shaft, radial, speed)
    outer, inner = 2 * shaft.outer, 2 * shaft.inner
    pressed = shaft_equivalent_stress(exact.pressure, outer, inner)
    turning = zero_pressure_hoop_stress(speed, inner, outer, shaft.density, shaft.poisson)
    assert float(turning - pressed) == pytest.approx(exact.shaft_inner_hoop, rel=CLOSE)


@pytest.mark.parametrize(("hub", "shaft", "radial", "speed"), CASES)
def test_displacements_at_rest(hub: Part, shaft: Part, radial: float, speed: float) -> None:
    exact = solved(hub, shaft, radial, 0.0)
    bore, outside = 2 * hub.inner, 2 * hub.outer
    outside_growth = hub_outside_growth(exact.pressure, bore, outside, hub.modulus)
    assert float(outside_growth) == pytest.approx(2.0 * exact.hub_outer_displacement, rel=CLOSE)
    hoop = float(hub_bore_hoop_stress(exact.pressure, bore, outside))
    bore_growth = hub.inner * (hoop + hub.poisson * exact.pressure) / hub.modulus
    assert bore_growth == pytest.approx(exact.hub_bore_displacement, rel=CLOSE)


@pytest.mark.parametrize(("hub", "shaft", "radial", "speed"), CASES[:4])
def test_no_pressure_is_left_at_the_speed_of_separation(
    hub: Part, shaft: Part, radial: float, speed: float
) -> None:
    limit = float(separation_speed(2.0 * radial, **sizes(hub, shaft), **heavy(hub, shaft)))
    at_rest = solved(hub, shaft, radial, 0.0).pressure
    assert abs(solved(hub, shaft, radial, limit).pressure) < CLOSE * at_rest
    assert solved(hub, shaft, radial, 0.5 * limit).pressure == pytest.approx(0.75 * at_rest, rel=CLOSE)


def test_small_hole_leaves_the_pressure_of_a_solid_shaft() -> None:
    """A hole of a tenth takes 1 % of the section; it doubles the stress, and at its edge alone."""
    hub, shaft = Part(0.020, 0.040, **STEEL), Part(0.002, 0.020, **STEEL)
    exact = solved(hub, shaft, 30e-6, 0.0)
    solid = interference_pressure(60e-6, 0.040, 0.080, **elastic(hub, shaft))
    assert exact.pressure == pytest.approx(float(solid), rel=0.01)
    assert -exact.shaft_inner_hoop / float(shaft_equivalent_stress(solid, 0.040)) == pytest.approx(
        2.0, rel=0.01
    )


def test_cases_turn_at_speeds_that_matter() -> None:
    lost = [
        float(interference_lost_to_speed(speed, **sizes(hub, shaft), **heavy(hub, shaft))) / (2.0 * radial)
        for hub, shaft, radial, speed in (case.values for case in CASES)
    ]
    assert sum(abs(share) > 0.02 for share in lost) >= 3
