"""Ranges of the safety factors: exact where the answer is known, and as the long way finds them."""

import math
from dataclasses import replace
from statistics import NormalDist

import numpy as np
import pytest
from assessment._every_draw_again import factors_again, stated
from builder import EXAMPLES, assessed, loaded

from torqcheck.assessment import assess
from torqcheck.assessment.prepared import prepared_of
from torqcheck.assessment.ranges.responses import END, logarithms, path_responses_of
from torqcheck.assessment.ranges.spread import Spread, latin_draws, spread_of
from torqcheck.assessment.ranges.uncertain import Uncertain, uncertain_of, value_at
from torqcheck.scenario import Scenario, load_scenario
from torqcheck.scenario.bands import FARTHEST, value_in_band
from torqcheck.scenario.edits import edited
from torqcheck.scenario.ledger import Ledger

NORMAL = NormalDist()
EDGE = NORMAL.cdf(-FARTHEST)
SCENARIOS = {path.stem: path for path in EXAMPLES}
EXACT_HARDNESS = ('hardness = "60 HRC +/- 1"', 'hardness = "60 HRC"')
LASH = 'lash = { clearance = "0.05 mm" }'
SHEAR = (0, "root shear, external member", "guide, tabulated", "external")
FLANK = (0, "flank pressure", "guide, tabulated", "external")


def deviation_at(share: float) -> float:
    """Quantile of a normal distribution that is cut off on both sides."""
    return NORMAL.inv_cdf(EDGE + (1.0 - 2.0 * EDGE) * share)


def spread(scenario: Scenario, **options: bool) -> Spread:
    prepared, _, peaks = stated(scenario)
    return spread_of(prepared, peaks, **options)


def only(*changes: tuple[str, str]) -> Spread:
    """Spread of the base in which nothing is uncertain but what the changes say."""
    return spread(loaded(EXACT_HARDNESS, *changes), usual=False)


def is_local(key: tuple[int, str, str, str]) -> bool:
    """First contact of one tooth: its errors are drawn, and its place off centre is an assumption."""
    return "first tooth" in key[1]


def apart_from_first_teeth(found: Spread) -> list[Uncertain]:
    """What is uncertain, without the assumption that moves the first tooth alone."""
    return [entry for entry in found.factors.responses.uncertain if not entry.key.endswith("off_centre")]


def factors(scenario: Scenario) -> dict[tuple[int, str, str, str], float]:
    return {
        (index, check.name, check.method, check.member): check.safety_factor
        for index, joint in enumerate(assess(scenario).joints)
        for check in joint.checks
        if check.safety_factor is not None and "fatigue" not in check.name  # has a range of its life
    }


def test_one_torque_with_a_tolerance_gives_the_exact_lognormal_range() -> None:
    change = ('peak_torque = "240 N*m"', 'peak_torque = "240 +/- 24 N*m"')
    found, sigma = only(change), 0.5 * math.log(1.1)
    for key, factor in factors(loaded(EXACT_HARDNESS)).items():
        if key[2] != "guide, tabulated" or "bursting" in key[1]:
            continue  # the rim also bursts from its own speed
        interval = found.intervals[key]
        assert interval.p5 == pytest.approx(factor * math.exp(sigma * deviation_at(0.05)), rel=3e-4)
        assert interval.p95 == pytest.approx(factor * math.exp(sigma * deviation_at(0.95)), rel=3e-4)


def test_the_chance_is_that_of_the_lognormal_distribution() -> None:
    factor = factors(loaded(EXACT_HARDNESS))[FLANK]
    torque = 240.0 * factor / 1.04  # brings the factor to 1.04
    changes = ('peak_torque = "240 N*m"', f'peak_torque = "{torque:.6f} +/- {0.1 * torque:.6f} N*m"')
    regen = ('regen_torque = "90 N*m"\n', "")
    scenario = loaded(EXACT_HARDNESS, changes, regen)
    here = factors(scenario)[FLANK]
    sigma = 0.5 * math.log(1.1)
    exact = (NORMAL.cdf(-math.log(here) / sigma) - EDGE) / (1.0 - 2.0 * EDGE)
    assert 0.05 < exact < 0.95
    assert spread(scenario, usual=False).intervals[FLANK].chance_below_one == pytest.approx(exact, abs=2e-3)


def test_without_tolerances_and_bands_every_range_is_a_point() -> None:
    found = only()
    assert apart_from_first_teeth(found) == []
    for key, factor in factors(loaded(EXACT_HARDNESS)).items():
        if is_local(key):
            continue
        interval = found.intervals[key]
        assert (interval.p5, interval.p95) == pytest.approx((factor, factor), rel=1e-12)
        assert interval.chance_below_one == (1.0 if factor < 1.0 else 0.0)


TOLERANCES = {
    'peak_torque = "240 N*m"': 'peak_torque = "240 +/- {:g} N*m"',
    'torque_rise = "4800 N*m/s"': 'torque_rise = "4800 +/- {:g} N*m/s"',
    'rotor_inertia = "0.05 kg*m^2"': 'rotor_inertia = "0.05 +/- {:g} kg*m^2"',
    'stiffness = "9000 N*m/rad"': 'stiffness = "9000 +/- {:g} N*m/rad"',
    'outside_diameter = "52 mm"': 'outside_diameter = "52 +/- {:g} mm"',
}
SIZES = (6.0, 100.0, 0.001, 300.0, 0.2)


def test_half_the_tolerances_give_half_the_range_in_the_logarithm() -> None:
    whole, half = (
        only(
            *(
                (old, new.format(part * size))
                for (old, new), size in zip(TOLERANCES.items(), SIZES, strict=True)
            )
        )
        for part in (1.0, 0.5)
    )
    assert len(apart_from_first_teeth(whole)) == len(TOLERANCES)
    for key, interval in whole.intervals.items():
        if is_local(key):
            continue
        wide = math.log(interval.p95 / interval.p5)
        narrow = math.log(half.intervals[key].p95 / half.intervals[key].p5)
        assert narrow == pytest.approx(0.5 * wide, rel=0.03)


def test_plus_minus_nothing_is_exact_and_no_tolerance_is_the_usual_one() -> None:
    keys = {entry.key: entry for entry in uncertain_of(prepared_of(loaded()))}
    assert keys["motor.peak_torque"].share == 0.05
    assert not keys["motor.peak_torque"].written
    exact = loaded(('peak_torque = "240 N*m"', 'peak_torque = "240 +/- 0 N*m"'))
    assert "motor.peak_torque" not in {entry.key for entry in uncertain_of(prepared_of(exact))}


@pytest.mark.parametrize(
    ("change", "key", "ends"),
    [
        (('"0.08 deg"', '"0.08 +/- 0.02 deg"'), "joint[1].tilt.angle", (0.06, 0.10)),
        (('"0.08 deg"', '"0.08 deg"'), "joint[1].tilt.angle", (0.07026, 0.08974)),
        (('"0.05 mm"', '"0.05 +/- 0.01 mm"'), "joint[1].lash.clearance", (0.04e-3, 0.06e-3)),
        (('"0.05 mm"', '"0.01 mm"'), "joint[1].lash.clearance", (0.0, 0.03e-3)),
        (('"52 mm"', '"52 mm"'), "joint[1].internal.outside_diameter", (51.95e-3, 52.05e-3)),
        (('"60 HRC +/- 1"', '"60 HRC"'), "joint[1].external.hardness", (59.0, 61.0)),
        (('"60 HRC +/- 1"', '"60 HRC +/- 3"'), "joint[1].external.hardness", (57.0, 63.0)),
        (('"2.4 kg*m^2"', '"2.4 kg*m^2"'), "driven.inertia", (2.4 / 1.1, 2.4 * 1.1)),
        (("0.03", "0.05"), "driven.damping_ratio", (0.05 / 1.3, 0.05 * 1.3)),
    ],
)
def test_a_tolerance_is_two_standard_deviations(
    change: tuple[str, str], key: str, ends: tuple[float, float]
) -> None:
    (entry,) = [entry for entry in uncertain_of(prepared_of(loaded(change))) if entry.key == key]
    degrees = math.radians(1.0) if entry.kind == "angle" else 1.0
    assert entry.ends == pytest.approx([end * degrees for end in ends], rel=1e-6 if degrees == 1.0 else 1e-3)


def test_new_lash_is_drawn_evenly_between_its_limits() -> None:
    prepared = prepared_of(loaded((LASH, 'lash = "as new"')))
    responses = path_responses_of(prepared, uncertain_of(prepared, usual=False))
    row = [entry.key for entry in responses.uncertain].index("joint[1].lash")
    z = np.zeros((len(responses.uncertain), 4000))
    z[row] = latin_draws(1, 4000, np.random.default_rng(1))[0]
    low, high = (end / (0.65 * 0.0254) for end in prepared.ledger.band("joint[1].lash"))
    found = np.quantile(responses.path_at(z).lash, (0.0, 0.25, 0.5, 1.0))
    assert found == pytest.approx(low + np.array((0.0, 0.25, 0.5, 1.0)) * (high - low), abs=1e-6)


def test_wishes_settings_and_standard_sizes_are_exact() -> None:
    keys = {entry.key for entry in uncertain_of(prepared_of(loaded()))}
    assert not {key for key in keys if key.startswith(("targets.", "duty", "joint[1].size"))}
    assert "motor.max_speed" not in keys
    assert {"joint[1].engagement", "joint[1].external.hardness", "driven.damping_ratio"} <= keys


def test_an_assumed_value_is_moved_within_its_band_through_the_same_code() -> None:
    scenario = loaded(('rotor_inertia = "0.05 kg*m^2"\n', ""))
    as_stated, above = (
        prepared_of(scenario, deviations=moved) for moved in ({}, {"motor.rotor_inertia": 2.0})
    )
    stage = 0.004
    assert above.path.driving_inertia - stage == pytest.approx(2.0 * (as_stated.path.driving_inertia - stage))
    # what is written down stays what was assumed
    assert above.ledger.assumptions == as_stated.ledger.assumptions


def test_a_key_without_a_band_is_not_moved() -> None:
    ledger = Ledger(deviations={"a": 1.0, "b": 1.0})
    assert ledger.assume("a", 3.0, None, "no band") == 3.0
    assert ledger.assume("b", 3.0, None, "band", band=(1.0, 9.0)) == pytest.approx(3.0 * math.sqrt(3.0))


def test_a_value_at_the_end_of_its_band_lies_anywhere_in_it() -> None:
    z = latin_draws(1, 4000, np.random.default_rng(1))[0]
    values = value_in_band(3.0, 1.0, 3.0, z)
    assert np.quantile(values, (0.0, 0.25, 0.5, 1.0)) == pytest.approx((1.0, 1.5, 2.0, 3.0), abs=2e-3)


STEPPED = (
    (EXACT_HARDNESS[0], 'hardness = "33 HRC +/- 2"'),
    ('[joint.external]\nsteel = "8620_carb_63"', '[joint.external]\nsteel = "4140_QT540"'),
)


def test_a_hardness_that_may_fall_into_the_next_class_is_a_step() -> None:
    scenario = loaded(*STEPPED)
    found = spread(scenario, usual=False)
    (entry,) = apart_from_first_teeth(found)
    assert entry.key == "joint[1].external.hardness"
    every = found.factors.responses.uncertain
    z = np.zeros((len(every), 233))
    z[every.index(entry)] = np.linspace(-2.9, 2.9, 233)
    again = factors_again(scenario, stated(scenario)[1], every, z)
    row = found.factors.responses.keys.index(SHEAR)
    levels = np.unique(np.round(again[row], 6))
    assert levels.size == 2  # two classes of the guide
    ours = found.factors.at(z)
    # a step is found to a thirtieth of the distance between two trials
    wrong = np.abs(np.log(ours[row] / again[row])) > 1e-6
    assert np.mean(wrong) < 0.03
    share = float(np.mean(found.factors.at(found.deviations)[row] < math.sqrt(levels[0] * levels[1])))
    upper = z[every.index(entry)][np.argmax(again[row] > math.sqrt(levels[0] * levels[1]))]
    assert share == pytest.approx(NORMAL.cdf(upper), abs=0.03)


@pytest.mark.parametrize("name", ["works_trolley", "narrow_gauge_loco", "timber_winch", "vineyard_carrier"])
def test_one_value_at_a_time_is_exact_where_it_was_tried(name: str) -> None:
    scenario = load_scenario(SCENARIOS[name])
    prepared, shock, peaks = stated(scenario)
    given = spread_of(prepared, peaks).factors
    count = len(given.responses.uncertain)
    stepped = np.array([bool(entry.scale) for entry in given.responses.uncertain])
    z = np.concatenate((END * np.eye(count)[~stepped], -END * np.eye(count)[~stepped])).T
    # a hardness is stated at its low end, so that its middle is something else than the value as stated
    again = factors_again(scenario, shock, given.responses.uncertain, z)
    ours = given.at(z)
    for entry, deviations in zip(given.responses.uncertain, z, strict=True):
        assert np.all(np.isfinite(value_at(entry, deviations)))
    local = np.array([is_local(key) for key in given.responses.keys])
    np.testing.assert_allclose(ours[~local], again[~local], rtol=2e-3)
    # the place off centre, stated at the end of its band, stands at its middle here: what it does to the
    # first tooth adds to what tilt and length do only roughly
    np.testing.assert_allclose(ours[local], again[local], rtol=0.05)


def test_the_long_way_finds_the_same_ranges_and_chances() -> None:
    # all values at once; the larger comparison is in tests/benchmarks
    compare(load_scenario(SCENARIOS["harbour_launch"]), 400, of_width=0.06, chance=0.02)


UNREAD = (
    ('rotor_inertia = "0.05 kg*m^2"\n', 'rotor_mass = "20 kg"\nrotor_diameter = "160 mm"\n'),
    ("damping_ratio = 0.03\n", ""),
    ('tilt = { angle = "0.08 deg" }\n', ""),
)


@pytest.mark.parametrize("lash", ['lash = "as new"', 'lash = "not measured"', 'radial_play = "0.06 mm"'])
def test_the_long_way_finds_the_same_where_next_to_nothing_was_read(lash: str) -> None:
    compare(loaded(*UNREAD, (LASH, lash)), 250, of_width=0.06, chance=0.03)


def compare(scenario: Scenario, draws: int, *, of_width: float, chance: float) -> tuple[float, float]:
    """Hold ranges and chances against the long way on the same draws; return the largest differences."""
    prepared, shock, peaks = stated(scenario)
    given = spread_of(prepared, peaks).factors
    every = uncertain_of(prepared)
    z = latin_draws(len(every), draws, np.random.default_rng(11))
    moving = [every.index(entry) for entry in given.responses.uncertain]
    again, ours = factors_again(scenario, shock, every, z), given.at(z[moving])
    ends, our_ends = (np.quantile(values, (0.05, 0.95), axis=1) for values in (again, ours))
    width = np.log(ends[1] / ends[0])
    whole = np.array([not is_local(key) for key in given.responses.keys])
    difference = float(np.max((np.abs(np.log(our_ends / ends)) / width)[:, whole]))
    below = float(np.max(np.abs(np.mean(ours < 1.0, axis=1) - np.mean(again < 1.0, axis=1))[whole]))
    assert difference < of_width
    assert below < chance
    return difference, below


def test_a_check_is_found_again_by_name_whichever_member_governs_it() -> None:
    checks = assessed().joints[0].checks
    keys = [(0, check.name, check.method, check.member) for check in checks]
    turned = [replace(check, member="both") for check in reversed(checks)][:-1]
    found = logarithms(turned, keys)
    assert math.isnan(found[0])  # not made any more
    assert np.exp(found[1:]) == pytest.approx([check.safety_factor for check in checks[1:]])


def test_every_loaded_check_of_every_example_has_its_range_and_the_same_again() -> None:
    result = assess(SCENARIOS["timber_winch"])
    again = assess(SCENARIOS["timber_winch"])
    for joint, other in zip(result.joints, again.joints, strict=True):
        for check, same in zip(joint.checks, other.checks, strict=True):
            if "fatigue" in check.name:
                continue
            assert check.interval is not None
            assert check.interval[0] < check.interval[1]
            assert 0.0 <= (check.chance_below_one or 0.0) <= 1.0
            assert check == same


def test_the_result_carries_range_and_chance() -> None:
    result = assessed().to_dict()
    check = result["joints"][0]["checks"][0]
    assert check["interval"]["p5"] < check["safety_factor"] < check["interval"]["p95"]
    assert check["chance_below_1"] == 0.0
    assert result["weakest"]["interval"]["p5"] < result["weakest"]["interval"]["p95"]
    assert result["draws"]["count"] == 4096


def test_a_better_reading_makes_the_range_narrower() -> None:
    loose, tight = (
        spread(loaded(('angle = "0.08 deg"', f'angle = "0.08 +/- {tolerance} deg"'))).intervals[FLANK]
        for tolerance in (0.04, 0.01)
    )
    assert math.log(tight.p95 / tight.p5) < 0.7 * math.log(loose.p95 / loose.p5)


def test_an_end_that_had_to_come_nearer_stands_at_no_node_twice() -> None:
    """At 1.6 deviations of so rough a reading no tooth is left; half of that is a node of its own."""
    rough = edited(
        load_scenario(SCENARIOS["quarry_tipper"]),
        {"joint[2].external.measured.major_diameter": "38.05 +/- 6.1 mm"},
    )
    intervals = [check.interval for joint in assess(rough).joints for check in joint.checks]
    assert all(math.isfinite(end) for interval in intervals if interval for end in interval)
