"""Stiffness of shafts and mesh, and the shear lag along an engagement."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from published._case import Case
from scipy.integrate import solve_bvp

from torqcheck.capacity import (
    effective_length_same_side,
    lag_parameter,
    opposite_side_factor,
    polar_second_moment,
    reflected_lash,
    reflected_stiffness,
    same_side_factor,
    series_stiffness,
    spline_mesh_stiffness,
    torsional_stiffness,
)
from torqcheck.errors import DomainError

G = 79.3e9

SHAFTS = [
    ("25 x 150", 0.025, 0.150, 0.0, "20274.11"),
    ("30 x 200", 0.030, 0.200, 0.0, "31530.30"),
    ("22 x 300", 0.022, 0.300, 0.0, "6079.15"),
    ("tube 60/54 x 800", 0.060, 0.800, 0.054, "43373.08"),
]


def check(where: str, printed: str, ours: float, unit: float = 1.0) -> None:
    Case("Stiffness, reckoned by hand with G 79.3 GPa", where, "derived", {}, printed, unit).check(ours)


@pytest.mark.parametrize(("name", "outer", "length", "bore", "printed"), SHAFTS)
def test_shafts(name: str, outer: float, length: float, bore: float, printed: str) -> None:
    check(name, printed, float(torsional_stiffness(outer, length, bore)))


def test_spline_hardly_softens_a_shaft() -> None:
    shaft = torsional_stiffness(0.025, 0.150)
    check("25 x 150 with a spline of 5.832e5", "19592.99", float(series_stiffness(shaft, 5.832e5)))


@pytest.mark.parametrize(("teeth", "printed"), [(4, "5.83e5"), (9, "1.312e6"), (18, "2.624e6")])
def test_mesh_by_teeth_in_contact(teeth: int, printed: str) -> None:
    check(f"{teeth} of 18 teeth", printed, float(spline_mesh_stiffness(0.036, 18, 0.030, teeth / 18)))


def test_half_of_the_teeth_is_the_default() -> None:
    assert spline_mesh_stiffness(0.036, 18, 0.030) == spline_mesh_stiffness(0.036, 18, 0.030, 0.5, 15e9)


@given(parts=st.lists(st.floats(1e2, 1e7), min_size=1, max_size=6))
def test_twists_add(parts: list[float]) -> None:
    whole = float(series_stiffness(*parts))
    assert 1.0 / whole == pytest.approx(sum(1.0 / part for part in parts), rel=1e-12)
    assert whole <= min(parts) * (1 + 1e-12)


def test_rigid_parts() -> None:
    assert float(series_stiffness(9000.0, np.inf)) == 9000.0
    assert float(series_stiffness(np.inf, np.inf)) == np.inf
    np.testing.assert_array_equal(series_stiffness(np.array([2.0, np.inf]), 2.0), [1.0, 2.0])
    assert np.isnan(series_stiffness(np.nan, 9000.0))


def test_series_refuses_nothing_and_slack_parts() -> None:
    with pytest.raises(DomainError, match="at least one part"):
        series_stiffness()
    with pytest.raises(DomainError, match="stiffness must be above zero"):
        series_stiffness(9000.0, 0.0)


@given(ratio=st.floats(0.1, 10.0), torque=st.floats(1.0, 100.0))
def test_reflection_keeps_energy_and_angle(ratio: float, torque: float) -> None:
    # torque upstream is 1/i of that downstream; the same strain energy and i times the twist
    stiffness, lash = 9000.0, 0.01
    upstream = float(reflected_stiffness(stiffness, ratio))
    assert (torque / ratio) ** 2 / upstream == pytest.approx(torque**2 / stiffness, rel=1e-12)
    assert torque / ratio / upstream == pytest.approx(
        float(reflected_lash(torque / stiffness, ratio)), rel=1e-12
    )
    assert float(reflected_lash(reflected_lash(lash, ratio), 1 / ratio)) == pytest.approx(lash, rel=1e-12)


class TestShearLag:
    """D 30, root 27.75, hub 32.25/45, 20 teeth, length 40 mm, 10 N/(mm um); by hand."""

    LENGTH = 0.040
    SHAFT = G * polar_second_moment(0.02775)
    HUB = G * polar_second_moment(0.045, 0.03225)
    MESH = spline_mesh_stiffness(0.030, 20, LENGTH, 1.0, 10e9)
    SHARE = SHAFT / (SHAFT + HUB)

    @property
    def lag(self) -> float:
        return float(lag_parameter(self.MESH, self.SHAFT / self.LENGTH, self.HUB / self.LENGTH))

    def test_worked_case(self) -> None:
        check("GJ of the shaft", "4.6166e3", float(self.SHAFT))
        check("GJ of the hub", "2.3503e4", float(self.HUB))
        check("mesh per length", "4.5e7", float(self.MESH / self.LENGTH))
        check("beta", "0.107991e3", self.lag / self.LENGTH)
        check("share", "0.164179", float(self.SHARE))
        check("same side", "4.32116", float(same_side_factor(self.lag)))
        check("opposite side", "3.63060", float(opposite_side_factor(self.lag, self.SHARE)))
        check("effective length", "9.26", float(effective_length_same_side(self.LENGTH, self.lag)), 1e-3)

    @pytest.mark.parametrize(
        ("stiffness", "length", "same", "opposite", "effective"),
        [
            (5e9, 15, "1.403", "1.306", "10.7"),
            (5e9, 30, "2.338", "2.031", "12.8"),
            (5e9, 45, "3.443", "2.914", "13.1"),
            (5e9, 60, "4.583", "3.846", "13.1"),
            (10e9, 15, "1.752", "1.574", "8.6"),
            (10e9, 30, "3.250", "2.758", "9.2"),
            (10e9, 45, "4.860", "4.075", "9.3"),
            (10e9, 60, "6.479", "5.419", "9.3"),
            (20e9, 15, "2.338", "2.031", "6.4"),
            (20e9, 30, "4.583", "3.846", "6.5"),
            (20e9, 45, "6.873", "5.747", "6.5"),
            (20e9, 60, "9.163", "7.659", "6.5"),
        ],
    )
    def test_table(self, stiffness: float, length: int, same: str, opposite: str, effective: str) -> None:
        metres = length * 1e-3
        mesh = spline_mesh_stiffness(0.030, 20, metres, 1.0, stiffness)
        lag = float(lag_parameter(mesh, self.SHAFT / metres, self.HUB / metres))
        check("same side", same, float(same_side_factor(lag)))
        check("opposite side", opposite, float(opposite_side_factor(lag, self.SHARE)))
        check("effective", effective, float(effective_length_same_side(metres, lag)), 1e-3)

    @pytest.mark.filterwarnings("default")
    @pytest.mark.parametrize("through", [False, True])
    @pytest.mark.parametrize("share", [0.164179, 0.5, 0.8])
    def test_against_a_solved_boundary_problem(self, through: bool, share: float) -> None:
        # shaft torque T, hub torque H over a unit length, mesh B^2; T enters at 0 and is gone at 1,
        # H leaves at 0 (same side) or at 1 (through)
        lag = 3.0
        mesh = lag**2 * share * (1 - share)  # with GJs = share, GJh = 1 - share: B^2 = k (1/GJs + 1/GJh)

        def slopes(_: np.ndarray, y: np.ndarray) -> np.ndarray:
            shaft, hub, torque, hub_torque = y
            passed = mesh * (shaft - hub)
            return np.vstack([torque / share, hub_torque / (1 - share), passed, -passed])

        def ends(a: np.ndarray, b: np.ndarray) -> np.ndarray:
            # shaft torque -1 at 0 (entering, twist falls), 0 at 1; hub free at the other end
            hub_end = a[3] if through else b[3]
            return np.array([a[2] + 1.0, b[2], hub_end, a[1]])

        grid = np.linspace(0.0, 1.0, 101)
        solution = solve_bvp(slopes, ends, grid, np.zeros((4, 101)), tol=1e-8)
        assert solution.success
        passed = mesh * (solution.y[0] - solution.y[1])
        factor = opposite_side_factor(lag, share) if through else same_side_factor(lag)
        assert float(factor) == pytest.approx(float(np.max(passed)), rel=1e-5)

    @given(lag=st.floats(0.0, 1000.0), share=st.floats(0.01, 1.0))
    def test_factors_stay_in_bounds(self, lag: float, share: float) -> None:
        same, opposite = float(same_side_factor(lag)), float(opposite_side_factor(lag, share))
        assert 1.0 <= same <= 1.0 + lag
        assert 1.0 - 1e-12 <= opposite <= same * (1 + 1e-12)

    def test_limits(self) -> None:
        assert float(same_side_factor(0.0)) == 1.0
        assert float(opposite_side_factor(0.0, 0.3)) == pytest.approx(1.0, abs=1e-12)
        # both members alike: (B/2) coth(B/2)
        assert float(opposite_side_factor(4.0, 0.5)) == pytest.approx(float(same_side_factor(2.0)), rel=1e-12)
        # a shaft without twist, or a hub without: the way makes no difference
        assert float(opposite_side_factor(4.0, 1.0)) == pytest.approx(float(same_side_factor(4.0)), rel=1e-12)
        assert float(effective_length_same_side(10.0, 1e4)) == pytest.approx(1e-3, rel=1e-12)
