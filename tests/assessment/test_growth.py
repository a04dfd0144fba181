"""The growth loop: play feeds the blow, strength falls, limits in turn, and what leaves it at rest."""

import math
import re

import numpy as np
import pytest
from builder import BASE, loaded
from scipy.integrate import quad

from torqcheck.assessment.lifetime.growth import JointGrowth, NoLife, growth_of
from torqcheck.assessment.lifetime.strength_course import NODES, strength_course
from torqcheck.assessment.prepared import Prepared, checks_at, prepared_of
from torqcheck.assessment.teeth.state import worn_state
from torqcheck.shock import peak
from torqcheck.wear import percentiles

QUIET = (
    ('peak_torque = "240 N*m"', 'peak_torque = "60 N*m"'),
    ('regen_torque = "90 N*m"\n', ""),
)


def prepared(*changes: tuple[str, str]) -> Prepared:
    return prepared_of(loaded(*changes))


def read_at(hours: float, clearance: float) -> tuple[str, str]:
    """A later reading, in the text of the scenario."""
    entry = f'[[inspection]]\nhours = "{hours} hour"\nlash = {{ clearance = "{1e3 * clearance} mm" }}\n\n'
    return "[[joint]]", entry + "[[joint]]"


def grown(*changes: tuple[str, str], **options: object) -> JointGrowth:
    found = growth_of(prepared(*changes), **options)[0]  # type: ignore[arg-type]
    assert isinstance(found, JointGrowth)
    return found


def test_blow_along_the_course_is_that_of_the_kernel() -> None:
    growth, path = grown(*QUIET), prepared(*QUIET)
    pitch = path.joints[0].spline.pitch_diameter  # type: ignore[union-attr]
    for node in (0, NODES // 2, NODES - 1):
        own = peak(
            torque_rise=4800.0 * 2.5 * 0.97,
            peak_torque=60.0 * 2.5 * 0.97,
            driving_inertia=path.path.driving_inertia,
            driven_inertia=2.4,
            stiffness=path.path.stiffnesses[0],
            damping_ratio=0.03,
            lash=2.0 * growth.strength.clearance[node] / pitch,
        )
        assert growth.strength.blow[node] == pytest.approx(float(own.peak_torque), rel=1e-9)


def test_checks_along_the_course_are_those_of_a_joint_so_worn() -> None:
    path = prepared()
    growth = growth_of(path)[0]
    assert isinstance(growth, JointGrowth)
    strength = growth.strength
    spline = path.joints[0].spline
    assert spline is not None
    node = NODES // 2
    external = float(np.interp(strength.depth[node], growth.model.course.total, growth.model.course.external))
    worn = worn_state(spline, external, float(strength.depth[node]) - external)
    slant = math.cos(spline.spline.pressure_angle)
    assert worn.worn.external == pytest.approx(spline.worn.external - external / slant)
    assert worn.contact_height == pytest.approx(spline.contact_height - strength.depth[node])
    assert worn.lash.clearance == pytest.approx(strength.clearance[node])
    # pitch-line shear by hand: 4 T / (D N L t) with the worn tooth
    name, blow = "pitch-line tooth shear", float(strength.blow[node])
    fresh = next(c for c in checks_at(path, 0, blow) if c.name == name and c.method == "guide, simulated")
    assert fresh.safety_factor is not None
    expected = fresh.safety_factor * min(
        worn.worn.external / spline.worn.external, worn.worn.internal / spline.worn.internal
    )
    factors = [strength.factor[node]] if strength.check[node] == name else []
    for factor in factors:
        assert factor == pytest.approx(expected, rel=1e-9)


def test_interpolated_factor_against_every_state_computed() -> None:
    path = prepared()
    growth = growth_of(path)[0]
    assert isinstance(growth, JointGrowth)
    fine = strength_course(path, 0, growth.model.state, growth.model.course, nodes=8 * (NODES - 1) + 1)
    ours = np.interp(fine.depth, growth.strength.depth, growth.strength.factor)
    # between two states the blow bends with the phase of the ramp
    assert float(np.max(np.abs(ours / fine.factor - 1.0))) < 0.01


def test_strength_at_its_end_ends_the_life_and_is_named() -> None:
    # so soft and so loaded that the opened play brings shear down to 1 before the lash limit
    soft = (
        ('steel = "8620_carb_63"\nhardness = "60 HRC +/- 1"', 'steel = "1045_norm"'),
        ('lash_limit = "0.40 mm"', 'lash_limit = "1.2 mm"'),
        ('peak_torque = "240 N*m"', 'peak_torque = "360 N*m"'),
        ("0.08 deg", "0.3 deg"),
    )
    growth = grown(*soft)
    strength = growth.strength
    assert strength.factor[0] > 1.0 > strength.factor.min()
    name = growth.limits[-1].name
    below = int(np.argmax(strength.factor <= 1.0))
    assert name == f"safety factor 1, {strength.check[below]}"
    share = dict(zip(growth.draws.names, growth.draws.shares, strict=True))[name]
    assert share > 0.5
    # at the hours of such a draw the factor is 1
    draw = int(np.flatnonzero(growth.draws.limit == growth.draws.names.index(name))[0])
    depth = growth.model.course.total_at(growth.runs.exposure(growth.draws.hours[draw]))[draw]
    assert np.interp(depth, strength.depth, strength.factor) == pytest.approx(1.0, rel=1e-3)


def test_no_tilt_gives_no_tilt_wear() -> None:
    aligned = growth_of(prepared(('tilt = { angle = "0.08 deg" }', 'tilt = { angle = "0 deg" }')))[0]
    assert isinstance(aligned, NoLife)
    assert "nothing slides" in aligned.reason
    assert "fretting" not in aligned.reason
    assert not aligned.frets


def test_feedback_off_is_the_closed_form_and_on_is_shorter() -> None:
    plain, fed = grown(*QUIET), grown(*QUIET, slap_share=1.0)
    course = plain.model.course
    height = plain.model.state.contact_height
    exact = (course.total - course.total**2 / (2 * height)) / plain.model.rates.of("both")
    np.testing.assert_allclose(course.exposure, exact, rtol=1e-9)
    # twice as fast at the lash limit, in proportion before: the depth over the integral of 1/(1 + x)
    ratio = float(percentiles(fed.draws.hours).p50 / percentiles(plain.draws.hours).p50)
    assert math.log(2.0) * 0.97 < ratio < 1.0


def test_twice_the_coefficient_is_half_the_life() -> None:
    # hardness 697 HV and above wear alike; half of it wears twice as fast
    hard = grown(*QUIET)
    assert hard.model.rates.of("both") > 0.0
    doubled = grown(*QUIET, ('peak_torque = "60 N*m"', 'peak_torque = "120 N*m"'))
    one, two = (float(percentiles(g.draws.hours).p50) for g in (hard, doubled))
    assert one / two == pytest.approx(2.0, rel=1e-3)


def test_a_free_shaft_end_tilts_the_more_the_more_it_is_worn() -> None:
    free = ("nose_supported = true", "nose_supported = false")
    growth = grown(*QUIET, free)
    course, state = growth.model.course, growth.model.state
    grows = 1.0 / (state.engagement * state.tilt.angle)

    def slowness(depth: float) -> float:
        return (1.0 - depth / state.contact_height) / (1.0 + grows * depth)

    for node in (7, 30, 60):
        whole = quad(slowness, 0.0, course.total[node])[0] / growth.model.rates.of("both")
        assert course.exposure[node] == pytest.approx(whole, rel=1e-6)
    worn = worn_state(state, 1e-5, 1e-5)
    assert worn.tilt.angle == pytest.approx(state.tilt.angle + 2e-5 / state.engagement)


def test_two_seeds_agree_within_the_error_that_is_stated() -> None:
    one, two = (percentiles(grown(*QUIET, seed=seed).draws.hours) for seed in (1, 2))
    for name in ("p10", "p50", "p90"):
        assert getattr(one, name) == pytest.approx(getattr(two, name), rel=0.01)


def test_the_play_of_all_joints_adds_up_in_the_blow() -> None:
    joint = BASE[BASE.index("[[joint]]") :]
    second = joint.replace('name = "gearbox input"', 'name = "output"')
    path = prepared_of(loaded(*QUIET, base=BASE + "\n" + second))
    alone, both = growth_of(prepared(*QUIET))[0], growth_of(path)[0]
    assert isinstance(alone, JointGrowth)
    assert isinstance(both, JointGrowth)
    gained = both.strength.clearance[-1] - both.strength.clearance[0]
    pitch = both.model.state.pitch_diameter
    own = peak(
        torque_rise=4800.0 * 2.5 * 0.97,
        peak_torque=60.0 * 2.5 * 0.97,
        driving_inertia=path.path.driving_inertia,
        driven_inertia=2.4,
        stiffness=path.path.stiffnesses[0],
        damping_ratio=0.03,
        lash=path.path.lash + 2.0 * (2.0 * gained / pitch),  # alike joints wear alike
    )
    assert both.strength.blow[-1] == pytest.approx(float(own.peak_torque), rel=1e-3)


def test_readings_are_heeded() -> None:
    plain = grown(*QUIET)
    expected = float(np.median(plain.clearance_at(60_000.0)))
    found = grown(*QUIET, read_at(60_000.0, expected))
    spread = [np.log(g.runs.speed).std() for g in (plain, found)]
    assert spread[1] < 0.35 * spread[0]
    assert float(percentiles(found.draws.hours).p50) == pytest.approx(
        float(percentiles(plain.draws.hours).p50), rel=0.1
    )
    assert found.draws.hours.min() > 60_000.0
    assert float(np.median(found.clearance_at(60_000.0))) == pytest.approx(expected, abs=5e-6)
    faster = grown(*QUIET, read_at(60_000.0, 1.5 * expected))
    assert percentiles(faster.draws.hours).p50 < percentiles(found.draws.hours).p50


def test_a_reading_beyond_the_limit_ends_it() -> None:
    found = growth_of(prepared(*QUIET, read_at(100.0, 0.41e-3)))[0]
    assert isinstance(found, NoLife)
    assert found.verdict == "fail"
    assert re.search("at or beyond its limit", found.reason)


def test_a_reading_that_nothing_explains_is_said_to() -> None:
    # 0.3 mm more within an hour of running
    found = growth_of(prepared(*QUIET, read_at(0.01, 0.35e-3)))[0]
    assert isinstance(found, NoLife)
    assert "contradict" in found.reason


def test_bedding_in_comes_on_top_and_shortens_the_life() -> None:
    bed = (
        'lash = { clearance = "0.05 mm" }',
        'lash = { clearance = "0.05 mm" }\nrunning_in = { depth = "6 um", revolutions = 1e5 }',
    )
    plain, bedded = grown(*QUIET), grown(*QUIET, bed)
    # 600 rpm and 2000 rpm at the motor, a tenth and nine tenths of the time, reduced by 2.5
    hours = 1e5 / ((0.1 * 600 + 0.9 * 2000) / 2.5 * 60)
    each = 6e-6 / math.cos(math.radians(30))
    for spent in (0.0, hours, 50 * hours):
        more = np.median(bedded.clearance_at(spent)) - np.median(plain.clearance_at(spent))
        assert more == pytest.approx(2 * each * (1 - math.exp(-spent / hours)), abs=2e-8)
    one, other = (float(percentiles(g.draws.hours).p50) for g in (plain, bedded))
    assert other < one
    assert bedded.strength.clearance[0] == pytest.approx(0.05e-3 + 2 * each)


def test_the_lash_of_today_feeds_the_blow_and_the_first_one_the_growth() -> None:
    path = prepared(*QUIET, read_at(60_000.0, 0.2e-3))
    pitch = path.joints[0].spline.pitch_diameter  # type: ignore[union-attr]
    assert path.path.lash == pytest.approx(2 * 0.2e-3 / pitch)
    growth = growth_of(path)[0]
    assert isinstance(growth, JointGrowth)
    assert growth.model.state.lash.clearance == pytest.approx(0.05e-3)
    assert growth.strength.clearance[0] == pytest.approx(0.05e-3)
    plain = grown(*QUIET)
    np.testing.assert_allclose(growth.strength.blow, plain.strength.blow, rtol=1e-9)


def test_a_reading_without_a_first_one_is_where_the_hours_begin() -> None:
    unread = ('lash = { clearance = "0.05 mm" }', 'lash = "not measured"')
    path = prepared(*QUIET, unread, read_at(500.0, 0.2e-3))
    growth = growth_of(path)[0]
    assert isinstance(growth, JointGrowth)
    assert growth.observations == ()
    assert growth.model.state.lash.clearance == pytest.approx(0.2e-3)
    assert not any(entry.reading == "lash" for entry in path.ledger.missing)
