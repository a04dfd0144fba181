"""Laws that the physics must obey at any size: scale, linearity, and which way each number moves."""

import math
from typing import Any

import numpy as np
import pytest
from builder import EXAMPLES
from hypothesis import given, settings
from hypothesis import strategies as st

from torqcheck.assessment import Assessment
from torqcheck.assessment.assess import assess_without_ranges
from torqcheck.capacity import flank_pressure, pitch_line_shear_stress, root_shear_stress
from torqcheck.geometry import over_pins, thickness_from_pins
from torqcheck.scenario import load_scenario
from torqcheck.scenario.edits import edited
from torqcheck.shock import peak
from torqcheck.wear import depth_per_revolution

repeatable = settings(max_examples=60, deadline=None, derandomize=True, database=None)
scales = st.floats(0.02, 50.0)
shares = st.floats(0.02, 0.98)
BLOW = {
    "torque_rise": 4000.0,
    "peak_torque": 240.0,
    "driving_inertia": 0.05,
    "driven_inertia": 1.2,
    "stiffness": 12000.0,
    "damping_ratio": 0.03,
    "lash": 0.005,
}


# --- scale: lengths x k with torque x k^3 leaves every nominal stress as it is -----------------------


@given(scales, st.floats(1.0, 1e4), shares)
@repeatable
def test_guide_stresses_know_no_size_and_are_linear_in_torque(k: float, torque: float, hole: float) -> None:
    root, pitch, length, thickness, height = 0.030, 0.034, 0.032, 0.0028, 0.0018
    for size, load in ((k, k**3), (1.0, k)):
        stresses = (
            root_shear_stress(torque * load, root * size, hole * root * size),
            pitch_line_shear_stress(torque * load, pitch * size, 18, length * size, thickness * size),
            flank_pressure(torque * load, pitch * size, 18, length * size, height * size),
        )
        stated = (
            root_shear_stress(torque, root, hole * root),
            pitch_line_shear_stress(torque, pitch, 18, length, thickness),
            flank_pressure(torque, pitch, 18, length, height),
        )
        assert np.array(stresses) * size**3 / load == pytest.approx(np.array(stated), rel=1e-12)


@given(scales, scales)
@repeatable
def test_the_blow_scales_by_torque_and_by_time(torque: float, time: float) -> None:
    # torques x a at the same twist: stiffness x a, and inertia x a t^2 for a time t times as long
    case = BLOW | {
        "torque_rise": BLOW["torque_rise"] * torque / time,
        "peak_torque": BLOW["peak_torque"] * torque,
        "driving_inertia": BLOW["driving_inertia"] * torque * time**2,
        "driven_inertia": BLOW["driven_inertia"] * torque * time**2,
        "stiffness": BLOW["stiffness"] * torque,
    }
    stated, scaled = peak(**BLOW), peak(**case)
    assert scaled.peak_torque == pytest.approx(stated.peak_torque * torque, rel=1e-9)
    assert scaled.closing_speed == pytest.approx(stated.closing_speed / time, rel=1e-9)
    assert scaled.blow_energy == pytest.approx(stated.blow_energy * torque, rel=1e-9)
    assert scaled.contact_losses == stated.contact_losses


@given(scales, scales)
@repeatable
def test_a_bare_blow_is_speed_times_root_of_stiffness_and_inertia(stiffness: float, inertia: float) -> None:
    """A torque next to nothing crosses a wide gap: T = w sqrt(k J), J both inertias in series."""
    case = BLOW | {
        "peak_torque": 1e-6,
        "torque_rise": math.inf,
        "lash": 0.5,
        "damping_ratio": 0.0,
        "stiffness": 12000.0 * stiffness,
        "driving_inertia": 0.05 * inertia,
    }
    blow = peak(**case)
    reduced = 1.0 / (1.0 / case["driving_inertia"] + 1.0 / case["driven_inertia"])
    bare = blow.closing_speed * math.sqrt(case["stiffness"] * reduced)
    assert blow.first_blow_torque == pytest.approx(bare, rel=1e-3)


@given(scales, scales)
@repeatable
def test_worn_depth_is_linear_in_torque_and_falls_with_the_square_of_size(torque: float, k: float) -> None:
    stated = {"torque": 300.0, "pitch_radius": 0.017, "length": 0.03, "contact_height": 0.0018}
    rest = {"wear_coefficient": 1e-15, "teeth": 18, "pressure_angle": 0.52, "tilt": 1e-3}
    depth = depth_per_revolution(**stated, **rest)
    other = stated | {name: value * k for name, value in stated.items() if name != "torque"}
    assert depth_per_revolution(**other | {"torque": 300.0 * torque}, **rest) == pytest.approx(
        depth * torque / k**2, rel=1e-12
    )


# --- the way each number moves ---------------------------------------------------------------------


@given(st.floats(1e-5, 0.3), st.floats(1.0, 20.0), st.floats(10.0, 1e6))
@repeatable
def test_more_lash_closes_faster_and_harder(lash: float, more: float, rise: float) -> None:
    """Speed and energy never fall. The peak may: the ramp stands elsewhere when the gap closes."""
    narrow, wide = (peak(**BLOW | {"torque_rise": rise, "lash": each}) for each in (lash, lash * more))
    assert wide.closing_speed >= narrow.closing_speed * (1.0 - 1e-12)
    assert wide.blow_energy >= narrow.blow_energy * (1.0 - 1e-12)


@given(st.floats(1e-5, 0.3), st.floats(1.0, 20.0))
@repeatable
def test_more_lash_never_lowers_the_first_blow_of_a_step(lash: float, more: float) -> None:
    case = BLOW | {"torque_rise": math.inf, "damping_ratio": 0.0}
    narrow, wide = (peak(**case | {"lash": each}) for each in (lash, lash * more))
    assert wide.first_blow_torque >= narrow.first_blow_torque * (1.0 - 1e-12)


@given(st.floats(10.0, 1e6), st.floats(1.0, 30.0))
@repeatable
def test_a_slower_rise_is_below_the_envelope_of_a_faster_one(rise: float, slower: float) -> None:
    """
    Without lash and damping the factor is 1 + s |sin x|/x, x = pi f t: not monotone, for it is 1 at each
    whole period and more between two of them. What falls with every slower rise is 1 + s min(1, 1/x).
    """
    case = BLOW | {"damping_ratio": 0.0, "lash": 0.0}
    fast, slow = (peak(**case | {"torque_rise": each}) for each in (rise, rise / slower))
    x = math.pi * fast.natural_frequency * BLOW["peak_torque"] / rise
    assert slow.dynamic_factor <= 1.0 + min(1.0, 1.0 / x) + 1e-9
    assert fast.dynamic_factor == pytest.approx(1.0 + abs(math.sin(x)) / x, rel=1e-9)


def test_the_factor_between_two_whole_periods_is_above_that_at_the_first() -> None:
    case = BLOW | {"damping_ratio": 0.0, "lash": 0.0}
    period = 1.0 / peak(**case).natural_frequency
    at, between = (peak(**case | {"torque_rise": 240.0 / (n * period)}).dynamic_factor for n in (1.0, 1.5))
    assert at == pytest.approx(1.0, abs=1e-9)
    assert between == pytest.approx(1.0 + 1.0 / (1.5 * math.pi), rel=1e-9)


# Where the blow does not enter ("guide, tabulated"), each change moves each factor one way. Through the
# blow a stiffer or a looser path meets the ramp in another phase, and any of them may turn by percents.
BETTER: tuple[tuple[str, str, tuple[Any, Any]], ...] = (
    ("works_trolley", "motor.peak_torque", ("180 N*m", "150 N*m")),
    ("works_trolley", "motor.boost", (1.3, 1.0)),
    ("works_trolley", "joint[2].engagement", ("38 mm", "45 mm")),
    ("works_trolley", "joint[2].external.bore", ("16 mm", "8 mm")),
    ("works_trolley", "joint[2].external.hardness", ("52 HRC", "60 HRC")),
    ("works_trolley", "joint[2].internal.outside_diameter", ("52 mm", "62 mm")),
    ("works_trolley", "joint[1].bore", ("20 mm", "10 mm")),
    ("works_trolley", "targets.service_life", ("30000 hour", "3000 hour")),
)


def factors(result: Assessment) -> dict[tuple[Any, ...], float]:
    return {
        (index, check.name, check.member): check.safety_factor
        for index, joint in enumerate(result.joints)
        for check in joint.checks
        if check.method == "guide, tabulated" and check.safety_factor is not None
    }


@pytest.mark.parametrize(("name", "key", "values"), BETTER, ids=[entry[1] for entry in BETTER])
def test_a_better_value_lowers_no_tabulated_factor(name: str, key: str, values: tuple[Any, Any]) -> None:
    (path,) = (path for path in EXAMPLES if path.stem == name)
    scenario = load_scenario(path)
    worse, better = (factors(assess_without_ranges(edited(scenario, {key: value}))) for value in values)
    assert worse.keys() == better.keys()
    assert worse
    assert all(better[each] >= worse[each] * (1.0 - 1e-12) for each in worse)
    assert any(better[each] > worse[each] * 1.001 for each in worse)


TORQUES = np.geomspace(0.5, 2.0, 7)


def test_more_torque_under_a_slow_ramp_raises_no_factor_at_all() -> None:
    """The rise time is kept, so that the blow meets the same ramp in the same phase, only larger."""
    (path,) = (path for path in EXAMPLES if path.stem == "works_trolley")
    scenario = load_scenario(path)
    rows = []
    for share in TORQUES.tolist():
        change = {"motor.peak_torque": f"{150 * share} N*m", "motor.rise_time": "4 s"}
        checks = [c for j in assess_without_ranges(edited(scenario, change)).joints for c in j.checks]
        rows.append([check.safety_factor or math.inf for check in checks])
    assert np.all(np.diff(np.array(rows), axis=0) <= 1e-9)


# --- tolerances carried on in the first order ------------------------------------------------------


def test_the_tolerance_of_a_thickness_from_pins_against_draws() -> None:
    """Reading and pin scatter together: the slopes at the middle give the deviation to half a percent."""
    random = np.random.default_rng(7)
    given_pins = over_pins(18, 2e-3, math.radians(30.0), 3.1e-3, 4e-3)
    reading = given_pins + random.normal(0.0, 10e-6, 100_000)
    pin = 4e-3 + random.normal(0.0, 2e-6, 100_000)
    drawn = thickness_from_pins(18, 2e-3, math.radians(30.0), reading, pin)
    step = 1e-7

    def at(across: float, of_pin: float) -> float:
        angle = math.radians(30.0)
        return float(thickness_from_pins(18, 2e-3, angle, given_pins + across, 4e-3 + of_pin))

    by_reading = (at(step, 0.0) - at(-step, 0.0)) / (2.0 * step)
    by_pin = (at(0.0, step) - at(0.0, -step)) / (2.0 * step)
    linear = math.hypot(by_reading * 10e-6, by_pin * 2e-6)
    assert float(np.std(drawn)) == pytest.approx(linear, rel=0.01)
    assert float(np.mean(drawn)) == pytest.approx(3.1e-3, abs=0.05e-6)
