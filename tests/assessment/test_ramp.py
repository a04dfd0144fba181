"""The whole answer on the ramp, from scenarios."""

import json
import math
from pathlib import Path

import pytest
from builder import EXAMPLES, assessed, edited, loaded

from torqcheck.assessment import Assessment
from torqcheck.assessment.ramp.advise import ramp
from torqcheck.assessment.ramp.result import Ramp
from torqcheck.scenario import load_scenario, scenario_from_text
from torqcheck.shock import natural_frequency, torque_share

# the base is too strong a motor for its spline; with these it has a limit between ramp and step
TORQUE = ('peak_torque = "240 N*m"', 'peak_torque = "150 N*m"')
REGEN = ('regen_torque = "90 N*m"', 'regen_torque = "60 N*m"')
LASH = ('clearance = "0.05 mm"', 'clearance = "0.25 mm"')
LIMITED = (TORQUE, REGEN)
SCENARIOS = {path.stem: path for path in EXAMPLES}


def ramped(*changes: tuple[str, str]) -> Ramp:
    return ramp(loaded(*LIMITED, *changes))


def at_rise(rise: float, *changes: tuple[str, str]) -> Assessment:
    return assessed(*LIMITED, ('torque_rise = "4800 N*m/s"', f'torque_rise = "{rise!r} N*m/s"'), *changes)


def simulated_margin(assessment: Assessment) -> float:
    """The lowest margin of the checks that feel the blow."""
    checks = [check for joint in assessment.joints for check in joint.checks]
    return min(check.margin for check in checks if check.decides and check.method != "guide, tabulated")


@pytest.mark.parametrize(
    "changes",
    [
        (),
        (LASH,),
        (LASH, ("damping_ratio = 0.03\n", "")),
        (('inertia = "2.4 kg*m^2"', "held = true"),),
        (
            LASH,
            ('lubrication = "oil flooded"\nafter = []', 'lubrication = "oil flooded"\nafter = [[1.6, 0.95]]'),
        ),
        (
            LASH,
            (
                "damping_ratio = 0.03",
                'damping_ratio = 0.03\nslip = { torque = "400 N*m", inertia_before = "0.3 kg*m^2" }',
            ),
        ),
    ],
)
def test_fed_back_into_the_whole_check_the_setting_keeps_every_target(
    changes: tuple[tuple[str, str], ...],
) -> None:
    found = ramped(*changes)
    assert found.recommended is not None
    for slower in (1.0, 0.9, 0.7, 0.5, 0.3, 0.1):
        assert simulated_margin(at_rise(slower * found.recommended.rise, *changes)) >= 1.0
    assert found.limit_as_stated is not None
    assert simulated_margin(at_rise(0.999 * found.limit_as_stated, *changes)) >= 1.0
    assert simulated_margin(at_rise(1.001 * found.limit_as_stated, *changes)) < 1.0
    # a third faster a check breaks, unless the phase happens to be kind, and then that is said
    faster = 1.3 * found.limit_as_stated
    kind = any(window.slow <= faster <= window.fast for window in found.windows)
    assert (simulated_margin(at_rise(faster, *changes)) >= 1.0) is kind


def test_points_as_stated_agree_with_the_whole_check() -> None:
    found = ramped(LASH)
    assert len(found.curve) > 15
    for point in found.curve[::4]:
        whole = at_rise(point.rise, LASH)
        assert point.peak == pytest.approx(whole.shock.peak_torque, rel=1e-9)
        checks = [check for joint in whole.joints for check in joint.checks]
        felt = [c.safety_factor for c in checks if c.method != "guide, tabulated" and not c.local]
        assert point.factor == pytest.approx(min(f for f in felt if f is not None), rel=1e-9)
        assert point.low <= point.middle <= point.high
        assert point.factor_high <= point.factor * 1.2


def test_without_lash_and_damping_the_limit_is_that_of_the_closed_form() -> None:
    """1 + |sin(pi x)|/(pi x), x the rise time in natural periods [derived]; from rest alone."""
    found = ramped(
        ('clearance = "0.05 mm"', 'clearance = "0 mm"'),
        ("damping_ratio = 0.03", "damping_ratio = 0.0"),
        ('regen_torque = "60 N*m"\n', ""),
    )
    driving, driven = 0.05 * 2.5**2 + 0.004, 2.4
    share = float(torque_share(driving, driven))
    assert found.steady == pytest.approx(150.0 * 2.5 * 0.97 * share, rel=1e-9)
    shock = at_rise(1000.0).shock
    frequency = float(natural_frequency(driving, driven, shock.stiffness))
    factor = found.allowed[0] / found.steady
    assert found.limit_as_stated is not None
    x = 150.0 / found.limit_as_stated * frequency
    assert 1.0 + abs(math.sin(math.pi * x)) / (math.pi * x) == pytest.approx(factor, rel=1e-5)
    assert factor > 1.2172  # above the side lobes, so the limit lies before the first whole period
    assert 0.5 < x < 1.0


def test_inch_and_si_give_the_same() -> None:
    inch = (
        ('peak_torque = "150 N*m"', f'peak_torque = "{150.0 / 1.3558179483314004!r} lbf*ft"'),
        ('torque_rise = "4800 N*m/s"', f'torque_rise = "{4800.0 / 1.3558179483314004!r} lbf*ft/s"'),
        ('rotor_inertia = "0.05 kg*m^2"', f'rotor_inertia = "{0.05 / (0.45359237 * 0.0254**2)!r} lb*in^2"'),
        ('stiffness = "9000 N*m/rad"', f'stiffness = "{9000.0 / 1.3558179483314004!r} lbf*ft/rad"'),
        ('clearance = "0.25 mm"', f'clearance = "{0.25 / 25.4!r} in"'),
        ('engagement = "1.25 in"', 'engagement = "31.75 mm"'),
    )
    metric, imperial = ramped(LASH), ramped(LASH, *inch)
    assert metric.recommended is not None
    assert imperial.recommended is not None
    assert imperial.recommended.rise == pytest.approx(metric.recommended.rise, rel=1e-12)
    assert imperial.limit == pytest.approx(metric.limit, rel=1e-6)
    for one, two in zip(metric.curve, imperial.curve, strict=True):
        assert two.high == pytest.approx(one.high, rel=1e-6)


@pytest.mark.parametrize(
    ("written", "printed"),
    [
        ('torque_rise = "4800 N*m/s"', lambda found: found.recommended.rise),
        ('rise_time = "30 ms"', lambda found: found.said(found.recommended.rise).rise_time),
        ("percent_per_10ms = 30", lambda found: found.said(found.recommended.rise).percent_per_10ms),
    ],
)
def test_two_digits_in_the_language_of_the_user(written: str, printed: object) -> None:
    found = ramped(LASH, ('torque_rise = "4800 N*m/s"', written))
    value = printed(found)  # type: ignore[operator]
    assert float(f"{value:.1e}") == pytest.approx(value, rel=1e-9)
    assert found.limit is not None
    assert found.recommended.rise <= found.limit * (1.0 + 1e-9)  # type: ignore[union-attr]


def test_a_rise_of_its_own_for_regeneration_is_judged_and_mended_apart() -> None:
    held = ramped(("max_speed", 'regen_rise = "1000 N*m/s"\nmax_speed'))
    assert held.regeneration is not None
    assert held.regeneration.as_set.holds
    steep = ramped(("max_speed", 'regen_rise = "60000 N*m/s"\nmax_speed'))
    assert steep.regeneration is not None
    assert not steep.regeneration.as_set.holds
    assert steep.recommended == held.recommended  # driving is not touched
    largest = steep.regeneration.largest
    assert largest is not None
    assert 1000.0 < largest < 60000.0
    for rise, holds in ((largest, True), (1.3 * largest, False)):
        changes = ("max_speed", f'regen_rise = "{rise!r} N*m/s"\nmax_speed')
        assert (simulated_margin(at_rise(500.0, changes)) >= 1.0) is holds


def test_without_one_both_directions_rise_alike() -> None:
    """Braking from full drive is the larger swing, so it sets the limit of both."""
    both, driving = ramped(LASH), ramped(LASH, ('regen_torque = "60 N*m"\n', ""))
    assert both.regeneration is None
    assert both.limit_as_stated is not None
    assert driving.limit_as_stated is not None
    assert both.limit_as_stated <= driving.limit_as_stated * (1.0 + 1e-6)


def test_when_the_steady_torque_is_too_much_no_ramp_is_offered_and_the_mends_work() -> None:
    found = ramp(loaded())  # 240 N m
    assert found.recommended is None
    assert found.limit is None
    assert found.verdict == "fail"
    assert "even the slowest ramp" in found.reason
    assert found.failing[0].margin < 1.0
    mends = {mend.key: mend for mend in found.mends}
    torque, length = mends["motor.peak_torque"], mends["joint[1].engagement"]
    assert torque.helps
    assert length.helps

    def slowest_holds(*change: tuple[str, str]) -> bool:
        return (
            simulated_margin(assessed(('torque_rise = "4800 N*m/s"', 'rise_time = "20 s"'), *change)) >= 1.0
        )

    for part, holds in ((1.0, True), (0.7, False)):  # and it is no more than was needed
        less = torque.now + part * (torque.value - torque.now)
        longer = length.now + part * (length.value - length.now)
        assert slowest_holds(('peak_torque = "240 N*m"', f'peak_torque = "{less!r} N*m"')) is holds
        assert slowest_holds(('engagement = "1.25 in"', f'engagement = "{1e3 * longer!r} mm"')) is holds
    assert not mends["driven.damping_ratio"].helps  # it does nothing about a steady torque
    target = mends["targets.safety_factor"]
    assert ramp(loaded(("safety_factor = 1.5", f"safety_factor = {target.value}"))).recommended is not None
    assert ramp(loaded(("safety_factor = 1.5", "safety_factor = 1.3"))).recommended is None


def test_any_ramp_holds_when_the_step_does() -> None:
    found = ramp(load_scenario(SCENARIOS["works_trolley"]))
    assert found.any_rise
    assert found.recommended is not None
    assert found.said(found.recommended.rise).rise_time == pytest.approx(0.010)
    assert found.verdict == "pass"
    assert found.to_dict()["limit_as_stated"]["torque_rise_Nm_s"] is None


def test_a_missing_reading_makes_the_answer_preliminary() -> None:
    found = ramped(('lash = { clearance = "0.05 mm" }', 'lash = "not measured"'))
    assert found.recommended is not None
    assert found.verdict == "undecided"
    assert [entry.reading for entry in found.undecided_by] == ["lash"]


def test_a_fail_that_a_reading_could_turn_is_undecided() -> None:
    hard = (
        (
            'steel = "8620_carb_63"\nhardness = "60 HRC +/- 1"\nreused = true',
            'steel = "unknown"\nreused = true',
        ),
    )
    found = ramped(*hard)
    assert found.recommended is None
    assert found.verdict == "undecided"
    assert any("hardness" in entry.reading for entry in found.undecided_by)


def test_what_no_ramp_mends_is_said_and_the_ramp_is_found_all_the_same() -> None:
    saw = ramp(load_scenario(SCENARIOS["stone_saw"]))
    assert saw.recommended is not None
    assert saw.verdict == "fail"
    assert "FALSE FIT" in saw.besides[0]
    hard = ramped(
        ("safety_factor = 1.5", "safety_factor = 1.8"), ('load = "light shock"', 'load = "heavy shock"')
    )
    assert hard.standing
    assert all(check.method == "guide, tabulated" for check in hard.standing)


def test_an_instant_rise_is_judged_as_set() -> None:
    found = ramped(LASH, ('torque_rise = "4800 N*m/s"', 'torque_rise = "instant"'))
    assert math.isinf(found.as_set.rise)
    assert not found.as_set.holds
    assert found.recommended is not None
    data = json.loads(json.dumps(found.to_dict(), allow_nan=False))
    assert data["as_set"]["torque_rise_Nm_s"] is None
    assert data["as_set"]["rise_time_s"] == 0.0


def test_windows_hold_as_stated_and_are_not_recommended() -> None:
    found = ramped(('clearance = "0.05 mm"', 'clearance = "0.40 mm"'))
    assert found.windows
    assert found.recommended is not None
    for window in found.windows:
        middle = math.sqrt(window.slow * window.fast)
        assert found.recommended.rise < window.slow
        changes = ('clearance = "0.05 mm"', 'clearance = "0.40 mm"')
        assert simulated_margin(at_rise(middle, changes)) >= 1.0
        between = math.sqrt(window.slow * found.limit_as_stated)  # type: ignore[operator]
        assert simulated_margin(at_rise(between, changes)) < 1.0


def test_a_path_of_a_shaft_alone_has_no_lash_to_close() -> None:
    text = edited(TORQUE, ('regen_torque = "90 N*m"\n', ""))
    shaft = '[[joint]]\nkind = "shaft"\ndiameter = "28 mm"\nlength = "300 mm"\nsteel = "1045_CD"\n'
    found = ramp(scenario_from_text((text[: text.index("[[joint]]")] + shaft).encode(), Path("shaft.toml")))
    assert found.two_stage is None
    assert found.recommended is None or found.two_stage_reason


def test_the_example_with_much_play_teaches_what_its_comment_says() -> None:
    found = ramp(load_scenario(SCENARIOS["vineyard_carrier"]))
    assert found.recommended is not None
    assert not found.as_set.holds_as_stated
    assert found.as_set.rise > 1.5 * found.recommended.rise
    assert found.two_stage is not None
    assert 0.4 < found.two_stage.saved < 0.7
    assert found.verdict == "marginal"


def test_the_same_answer_every_time() -> None:
    assert ramped(LASH).to_dict() == ramped(LASH).to_dict()
