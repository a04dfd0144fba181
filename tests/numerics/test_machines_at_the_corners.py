"""
Whole machines where something is nought: no lash, no tilt, a side that cannot turn, one tooth that carries.

Finite numbers are not enough there: each corner has a value of its own, known without the code, and the
numbers beside it must run into it.
"""

import math
from functools import cache
from typing import Any

import pytest
from builder import EXAMPLES
from scipy.integrate import solve_ivp

from torqcheck.assessment import assess
from torqcheck.assessment.assess import assess_without_ranges
from torqcheck.scenario import Scenario, load_scenario
from torqcheck.scenario.edits import edited

TORQUE, INERTIA, DRIVEN_INERTIA = 40.0, 0.012, 0.4
"""Those of the cider press, N m and kg m2."""
TEETH, RADIUS = 27, 0.5 * 27 / 24 * 25.4e-3
"""27 teeth of 24 to the inch: pitch diameter 27/24 in."""
NO_LASH: dict[str, Any] = {"joint[1].lash": {"clearance": "0 mm"}}
UNDAMPED: dict[str, Any] = {"driven.damping_ratio": 0.0}
HELD: dict[str, Any] = {"driven.held": True, "driven.inertia": None}


@cache
def example(stem: str) -> Scenario:
    """One of the shipped examples."""
    (path,) = (path for path in EXAMPLES if path.stem == stem)
    return load_scenario(path)


def answer(change: dict[str, Any], stem: str = "cider_press") -> dict[str, Any]:
    """The JSON of an example that was changed."""
    return assess_without_ranges(edited(example(stem), change)).to_dict()


def rise_of(seconds: float) -> dict[str, Any]:
    return {"motor.rise_time": f"{seconds!r} s"}


@pytest.mark.parametrize("rise_time", [1e-4, 2.7e-3, 5.3e-3, 0.0117])
@pytest.mark.parametrize("held", [False, True])
def test_without_lash_the_peak_is_that_of_a_ramp_on_one_spring(rise_time: float, held: bool) -> None:
    """
    Two steps of slope, one rise time apart, add up to T (1 + |sin x| / x) with x = w t / 2.

    Derived: the spring sees w^2 = k (1/J1 + 1/J2) and the share J2 / (J1 + J2) of the torque; beside a held
    side k / J1 and all of it.
    """
    shock = answer(NO_LASH | UNDAMPED | rise_of(rise_time) | (HELD if held else {}))["shock"]
    share = 1.0 if held else DRIVEN_INERTIA / (INERTIA + DRIVEN_INERTIA)
    pulsation = math.sqrt(shock["inputs"]["stiffness_Nm_rad"] / (INERTIA * share))
    half = 0.5 * pulsation * rise_time
    wanted = TORQUE * share * (1.0 + abs(math.sin(half)) / half)
    assert shock["peak_torque_Nm"] == pytest.approx(wanted, rel=1e-9)
    assert shock["closing_speed_rad_s"] in (None, 0.0)
    assert not shock["blow_energy_J"]


@pytest.mark.parametrize("held", [False, True])
def test_without_lash_and_with_damping_an_integrator_finds_the_peak(held: bool) -> None:
    """Against DOP853 of scipy: 2 zeta w of damping beside w^2 of spring, both bodies free or one held."""
    rise_time = 0.004
    shock = answer(NO_LASH | rise_of(rise_time) | (HELD if held else {}))["shock"]
    share = 1.0 if held else DRIVEN_INERTIA / (INERTIA + DRIVEN_INERTIA)
    square = shock["inputs"]["stiffness_Nm_rad"] / (INERTIA * share)
    damping = 2.0 * 0.03 * math.sqrt(square)

    def change(t: float, y: Any) -> list[float]:
        driving = TORQUE * min(t / rise_time, 1.0) / INERTIA
        return [y[1], driving - damping * y[1] - square * y[0]]

    found = solve_ivp(change, (0.0, 0.03), [0.0, 0.0], method="DOP853", rtol=1e-11, atol=1e-14, max_step=2e-5)
    through = INERTIA * share * (damping * found.y[1] + square * found.y[0])
    assert shock["peak_torque_Nm"] == pytest.approx(through.max(), rel=2e-5)


@pytest.mark.parametrize("stem", ["cider_press", "works_trolley", "vineyard_carrier"])
def test_the_least_lash_runs_into_none(stem: str) -> None:
    """A gap of a millionth of a millimetre is none: every check has the factor that it has without."""
    spline = 1 + next(index for index, joint in enumerate(example(stem).joint) if "spline" in joint.kind)
    without, with_it = (
        answer({f"joint[{spline}].lash": {"clearance": clearance}}, stem) for clearance in ("0 mm", "1e-6 mm")
    )
    assert with_it["shock"]["peak_torque_Nm"] == pytest.approx(without["shock"]["peak_torque_Nm"], rel=1e-4)
    for bare, gap in zip(without["joints"], with_it["joints"], strict=True):
        assert len(bare["checks"]) == len(gap["checks"])
        for one, other in zip(bare["checks"], gap["checks"], strict=True):
            assert one["name"] == other["name"]
            assert other["safety_factor"] == pytest.approx(one["safety_factor"], rel=1e-4), one["name"]


def test_the_heaviest_driven_side_runs_into_the_one_that_is_held() -> None:
    """J2 / (J1 + J2) and w differ from those of a held side by J1 / J2, here 1e-8."""
    for change in (rise_of(0.8), rise_of(0.004), NO_LASH | rise_of(0.004)):
        heavy = answer(change | {"driven.inertia": "1.2e6 kg*m^2"})["shock"]
        held = answer(change | HELD)["shock"]
        assert heavy["driven_side"] == "free"
        assert held["driven_side"] != "free"
        assert heavy["peak_torque_Nm"] == pytest.approx(held["peak_torque_Nm"], rel=1e-6)
        assert heavy["held_peak_torque_Nm"] == pytest.approx(held["peak_torque_Nm"], rel=1e-9)


def test_the_least_tilt_runs_into_none() -> None:
    """A hundred millionth of a degree is none, in stress, in sharing and in hours."""
    none, least = (
        answer({"joint[1].tilt": {"angle": angle}}, "brickyard_shunter")["joints"][0]
        for angle in ("0 deg", "1e-8 deg")
    )
    assert none["tilt_rad"] == 0.0
    for one, other in zip(none["checks"], least["checks"], strict=True):
        assert other["safety_factor"] == pytest.approx(one["safety_factor"], rel=1e-5), one["name"]
    shared = [joint["load_distribution"] for joint in (none, least)]
    assert shared[1]["peak_line_load_N_mm"]["p50"] == pytest.approx(
        shared[0]["peak_line_load_N_mm"]["p50"], rel=1e-5
    )
    assert shared[0]["tilt_factor"] == 1.0


def test_next_to_no_torque_is_carried_by_one_tooth() -> None:
    """Teeth that hardly give leave the errors of spacing open: the first carries all of it, F = T / r."""
    joint = assess(edited(example("cider_press"), {"motor.peak_torque": "0.001 N*m"})).to_dict()["joints"][0]
    shares = joint["load_distribution"]["first_tooth_share"]
    assert (shares["p50"], shares["p95"]) == (pytest.approx(1.0, rel=1e-9), pytest.approx(1.0, rel=1e-9))
    for row in joint["play"]["rows"]:
        for held in (row, row["centred"]):
            assert held["first_tooth_share"]["p50"] == pytest.approx(1.0, rel=1e-9)
            assert held["first_tooth_N"]["p50"] == pytest.approx(row["blow_torque_Nm"] / RADIUS, rel=1e-9)


def test_all_teeth_carry_alike_where_the_load_is_far_above_what_the_errors_take() -> None:
    """At 1e6 N m the errors of some um are nothing beside the give: each of N teeth carries T / N."""
    joint = answer({"motor.peak_torque": "1e6 N*m"})["joints"][0]
    assert joint["load_distribution"]["even_share"] == pytest.approx(1.0 / TEETH, rel=1e-12)
    assert joint["load_distribution"]["first_tooth_share"]["p50"] == pytest.approx(1.0 / TEETH, rel=1e-2)
