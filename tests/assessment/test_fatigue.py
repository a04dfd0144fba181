"""Torsional fatigue of a joint: by hand against the chain, vectorised, monotone, with its reasons."""

import json
import math
import subprocess
import sys
from dataclasses import replace

import numpy as np
import pytest
from builder import BASE, assessed, loaded
from hypothesis import given
from hypothesis import strategies as st

from torqcheck.assessment import Assessment, assess
from torqcheck.assessment.fatigue.cycles import torque_cycles
from torqcheck.assessment.fatigue.judge import (
    FatigueMember,
    TorqueDuty,
    damage_per_hour,
    damage_verdict,
    fatigue_members,
    fatigue_of,
    steady_share,
)
from torqcheck.assessment.fatigue.result import FatigueResult
from torqcheck.assessment.prepared import prepared_of
from torqcheck.assessment.ramp.advise import ramp
from torqcheck.assessment.ramp.fatigue import fatigue_at_rise
from torqcheck.assessment.ramp.question import question_of
from torqcheck.assessment.verdict.verdict import found_verdict
from torqcheck.capacity import torsional_shear_stress
from torqcheck.errors import DomainError
from torqcheck.fatigue import (
    counted_cycles,
    equivalent_diameter,
    equivalent_full_cycles,
    goodman_amplitude,
    spline_stress_concentration,
)
from torqcheck.geometry import InvoluteSpline
from torqcheck.provenance import Source
from torqcheck.scenario.estimates import torque_rise
from torqcheck.scenario.ledger import Ledger

THROUGH = (  # both members of one steel without a hard layer
    ('steel = "8620_carb_63"\nhardness = "60 HRC +/- 1"', 'steel = "4140_QT425"\nhardness = "38 HRC"'),
    ('steel = "8620_carb_63"', 'steel = "4140_QT425"\nhardness = "38 HRC"'),
)
NO_REGENERATION = (('regen_torque = "90 N*m"\n', ""),)
HEAVY = (("events_per_hour = 20", "events_per_hour = 200"), ('"400 hour"', '"4000 hour"'))
WEAK = (*THROUGH, ('peak_torque = "240 N*m"', 'peak_torque = "400 N*m"'), *HEAVY)
NOBODY = Source("nobody", "", "derived")


def members(*changes: tuple[str, str]) -> dict[str, FatigueMember]:
    state = prepared_of(loaded(*changes)).joints[0].spline
    assert state is not None
    return {member.side: member for member in fatigue_members(state, Ledger())}


def found(result: Assessment) -> FatigueResult:
    return result.joints[0].fatigue


def duty_of(**changes: object) -> TorqueDuty:
    plain = TorqueDuty(
        names=("starts",),
        drive=np.array([600.0]),
        brake=np.array([0.0]),
        per_hour=np.array([20.0]),
        share=1.0,
        full_drive=600.0,
        full_brake=600.0,
        drive_blow=600.0,
        brake_blow=0.0,
        damping_ratio=0.03,
    )
    return replace(plain, **changes)


def test_starts_without_a_blow_are_as_reckoned_by_hand() -> None:
    shaft = members(*THROUGH)["external"]
    (place,) = shaft.places
    duty = duty_of(drive=np.array([1200.0]), full_drive=1200.0)
    nominal = float(torsional_shear_stress(600.0, shaft.diameter, shaft.bore))
    stress = place.notch_factor * nominal
    reversed_amplitude = goodman_amplitude(stress, stress, place.line.ultimate)
    by_hand = 20.0 / (reversed_amplitude / place.line.coefficient) ** (1.0 / place.line.exponent)
    assert 1e3 < 20.0 / by_hand < 1e6  # on the middle piece of the line
    assert damage_per_hour(shaft, duty, 1200.0) == pytest.approx(by_hand, rel=1e-12)


def test_a_blow_is_the_top_of_its_start_and_rings_on() -> None:
    shaft = members(*THROUGH)["external"]
    (place,) = shaft.places
    duty, slope = duty_of(), -1.0 / float(place.line.exponent)
    cycles = torque_cycles(duty, slope, 900.0)
    assert cycles.amplitude[0] == pytest.approx(450.0)
    assert cycles.mean[0] == pytest.approx(450.0)
    assert cycles.mean[1] == pytest.approx(600.0)
    assert cycles.per_hour[1] == pytest.approx(20.0 * equivalent_full_cycles(0.03, slope))
    # the whole ringing written out and counted by rainflow
    halves = np.arange(60)
    decay = np.exp(-np.pi * 0.03 / math.sqrt(1.0 - 0.03**2) * halves)
    series = [0.0, *(600.0 + 300.0 * (-1.0) ** halves * decay), 600.0, 0.0]
    counted = counted_cycles(series)
    S = place.stress_per_torque
    lives = place.line.life(goodman_amplitude(S * counted.amplitude, S * counted.mean, place.line.ultimate))
    written_out = 20.0 * float(np.sum(counted.count / lives))
    ours = float(damage_per_hour(shaft, duty, 900.0))
    # ringing below the limit is counted by the slope above it: a little more
    assert written_out < ours < 1.1 * written_out


def test_a_swing_into_regeneration_is_one_cycle() -> None:
    cycles = torque_cycles(duty_of(brake=np.array([200.0]), full_brake=200.0), 5.0, 600.0, 200.0)
    assert cycles.amplitude[0] == 400.0
    assert cycles.mean[0] == 200.0


def test_part_torque_keeps_the_overshoot_of_a_blow() -> None:
    duty = duty_of(names=("half",), drive=np.array([300.0]), share=0.9)
    cycles = torque_cycles(duty, 5.0, 740.0)
    assert cycles.mean[0] + cycles.amplitude[0] == pytest.approx(0.9 * 300.0 + (740.0 - 0.9 * 600.0))


def test_arrays_of_blows_give_what_single_blows_give() -> None:
    for member in members(*WEAK).values():
        duty = duty_of(brake=np.array([150.0]), full_brake=150.0, brake_blow=200.0)
        blows = np.array([[0.0, 400.0, 700.0], [900.0, 3e4, np.nan]])
        ours = damage_per_hour(member, duty, blows)
        assert np.shape(ours) == (2, 3)
        singly = [[damage_per_hour(member, duty, blow) for blow in row] for row in blows]
        np.testing.assert_allclose(ours, singly, rtol=1e-13)
        assert np.isnan(ours[1, 2])
        assert np.isfinite(ours[1, 1])
        table = damage_per_hour(member, duty, blows[:, :1], np.array([200.0, 300.0, 400.0, 500.0]))
        assert np.shape(table) == (2, 4)
        assert np.all(np.diff(table, axis=1) > 0.0)


def test_a_braking_blow_left_out_goes_with_the_driving_one() -> None:
    shaft = members(*WEAK)["external"]
    duty = duty_of(brake=np.array([150.0]), full_brake=150.0, drive_blow=800.0, brake_blow=200.0)
    assert damage_per_hour(shaft, duty, 1000.0) == damage_per_hour(shaft, duty, 1000.0, 250.0)
    with pytest.raises(DomainError, match="must not be negative"):
        damage_per_hour(shaft, duty, -1.0)
    with pytest.raises(DomainError, match="must not be negative"):
        damage_per_hour(shaft, duty, 1.0, np.array([1.0, -1.0]))


SHAFT = members(*THROUGH)["external"]


@given(
    st.lists(st.floats(0.0, 4000.0), min_size=2, max_size=8),
    st.floats(0.0, 600.0),
    st.floats(0.5, 1.0),
    st.floats(0.01, 0.2),
)
def test_damage_never_falls_with_a_larger_blow(
    blows: list[float], brake: float, share: float, zeta: float
) -> None:
    duty = duty_of(brake=np.array([brake]), full_brake=brake, share=share, damping_ratio=zeta)
    damage = damage_per_hour(SHAFT, duty, np.sort(blows), 0.0)
    assert np.all(np.diff(damage) >= -1e-12 * np.abs(damage[1:]))
    assert np.all(
        damage_per_hour(SHAFT, duty, np.array(blows), 700.0)
        >= damage_per_hour(SHAFT, duty, np.array(blows), 0.0)
    )


def test_the_check_says_the_same_as_the_damage() -> None:
    seen = set()
    cases = [(torque, "4000") for torque in (*np.geomspace(100.0, 1000.0, 20), 2e4)]
    for torque, hours in (*cases, (1e5, "0.001"), (1e5, "0.005"), (1e5, "0.02")):  # breaks in the first cycle
        change = ('peak_torque = "240 N*m"', f'peak_torque = "{torque:.1f} N*m"')
        fatigue = found(assessed(*THROUGH, *HEAVY, change, ('"4000 hour"', f'"{hours} hour"')))
        governing = fatigue.governing
        assert governing is not None
        assert governing.check is not None
        assert fatigue.service_damage is not None
        assert governing.check.verdict == fatigue.verdict == damage_verdict(fatigue.service_damage)
        assert (governing.check.safety_factor or 9.0) >= 1.0 or fatigue.service_damage > 1.0
        seen.add(fatigue.verdict)
    assert seen == {"pass", "marginal", "fail"}


@pytest.mark.parametrize(
    ("damage", "verdict"),
    [(0.0, "pass"), (0.3, "pass"), (0.31, "marginal"), (1.0, "marginal"), (1.1, "fail")],
)
def test_damage_is_judged(damage: float, verdict: str) -> None:
    assert damage_verdict(damage) == verdict


def test_failing_fatigue_fails_the_joint() -> None:
    result = assessed(*WEAK)
    assert found(result).verdict == "fail"
    assert result.joints[0].verdict in {"fail", "undecided"}
    names = [check.name for check in result.joints[0].checks if check.verdict == "fail"]
    assert "torsional fatigue, external member" in names


def test_json_of_a_life() -> None:
    fatigue = assessed(*WEAK).to_dict()["joints"][0]["fatigue"]
    assert fatigue["life_hours"] == pytest.approx(1.0 / fatigue["damage_per_hour"])
    span = fatigue["life_hours_range"]
    assert span == pytest.approx(
        {"low": fatigue["life_hours"] / 3.0, "high": fatigue["life_hours"] * 3.0, "factor": 3.0}
    )
    assert fatigue["service_damage"] == pytest.approx(4000.0 * fatigue["damage_per_hour"])
    assert fatigue["member"] == "external"
    assert fatigue["place"] == "tooth root, surface"
    assert {"Kts", "qs", "Kfs", "Sse_MPa", "Ssu_MPa", "a_MPa", "b"} <= set(fatigue["steps"])
    assert sum(cycle["damage_share"] for cycle in fatigue["cycles"]) == pytest.approx(1.0)
    assert fatigue["din_743"]["safety_factor"] == pytest.approx(
        fatigue["din_743"]["allowable_MPa"] / fatigue["din_743"]["amplitude_MPa"]
    )
    assert fatigue["din_743"]["mark"] == "from memory"
    assert [member["member"] for member in fatigue["members"]] == ["external", "internal"]


def test_endless_life_is_null_with_a_reason() -> None:
    result = assessed(
        *THROUGH, ('peak_torque = "240 N*m"', 'peak_torque = "20 N*m"'), ('"90 N*m"', '"5 N*m"')
    )
    fatigue = json.loads(json.dumps(result.to_dict(), allow_nan=False))["joints"][0]["fatigue"]
    assert fatigue["life_hours"] is None
    assert fatigue["life_hours_range"] is None
    assert "beyond 1e9 torque cycles" in fatigue["reason"]
    assert fatigue["verdict"] == "pass"


def test_no_torque_cycles_is_a_reason() -> None:
    state = prepared_of(loaded(*THROUGH)).joints[0].spline
    assert state is not None
    empty = np.zeros(0)
    duty = duty_of(names=(), drive=empty, brake=empty, per_hour=empty)
    fatigue = fatigue_of(state, duty, 3.6e6, NOBODY, Ledger())
    assert (fatigue.verdict, fatigue.life, fatigue.checks) == (None, None, ())
    assert "no torque cycles" in fatigue.reason
    for member in members(*THROUGH).values():
        assert damage_per_hour(member, duty, np.array([100.0, 200.0])).tolist() == [0.0, 0.0]


def test_a_plain_shaft_has_a_reason() -> None:
    shaft = '[[joint]]\nname = "stub"\nkind = "shaft"\ndiameter = "40 mm"\nsteel = "4140_QT425"\n'
    result = assessed(("[[joint]]", f"{shaft}reused = false\n\n[[joint]]"))
    fatigue = result.to_dict()["joints"][0]["fatigue"]
    assert fatigue["damage_per_hour"] is None
    assert "notches are not in the file" in fatigue["reason"]


def test_cast_iron_has_no_life_and_says_why() -> None:
    iron = ('steel = "8620_carb_63"\nreused = false', 'steel = "DI_80_55_06"\nreused = false')
    hub = members(iron)["internal"]
    assert hub.reason.startswith("cast iron")
    assert [entry.key for entry in assessed(iron).cautions if "fatigue" in entry.key] == [
        "joint[1] fatigue, internal"
    ]
    assert hub.places == ()


def test_the_hub_is_left_out_while_its_outside_is_unknown() -> None:
    assert list(members(('outside_diameter = "52 mm"\n', ""))) == ["external"]


def test_hard_layer_is_looked_at_on_both_sides() -> None:
    shaft = members()["external"]
    surface, boundary = shaft.places
    assert [place.name for place in shaft.places] == ["tooth root, surface", "tooth root, case-core boundary"]
    assert surface.ultimate_strength > boundary.ultimate_strength
    # the stress falls with the radius and with nothing else
    per_notch = [place.stress_per_torque / place.notch_factor for place in shaft.places]
    assert per_notch[1] / per_notch[0] == pytest.approx(1.0 - 2.0 * 0.5e-3 / shaft.diameter, rel=0.02)
    # towards the outside of a hub it rises
    _, hub_surface, hub_boundary = members()["internal"].places
    assert hub_boundary.stress_per_torque / hub_boundary.notch_factor > (
        hub_surface.stress_per_torque / hub_surface.notch_factor
    )


def test_a_soft_core_under_a_thin_hard_layer_governs() -> None:
    soft = (
        'steel = "8620_carb_63"\nhardness = "60 HRC +/- 1"',
        'steel = "1018_carb"\nhardness = "60 HRC +/- 1"',
    )
    governing = found(assessed(soft)).governing
    assert governing is not None
    assert governing.place == "tooth root, case-core boundary"


def test_every_cycle_swings_into_regeneration_and_says_so() -> None:
    with_it, without = assessed(*WEAK), assessed(*WEAK, *NO_REGENERATION)
    assert [entry.word for entry in with_it.assumptions if entry.key == "fatigue.cycles"] == [
        "every torque cycle ends in full regeneration"
    ]
    assert not [entry for entry in without.assumptions if entry.key == "fatigue.cycles"]
    assert (found(with_it).service_damage or 0.0) > (found(without).service_damage or 0.0) > 0.0


def test_reversal_without_regeneration_goes_as_far_back() -> None:
    reverses = ("events_per_hour = 200", "events_per_hour = 200\nreversals = true")
    fatigue = found(assessed(*WEAK, *NO_REGENERATION, reverses))
    assert fatigue.governing is not None
    start = fatigue.governing.cycles[0]
    assert start.mean == pytest.approx(0.0, abs=1e-3)
    assert start.torque_low == pytest.approx(-start.torque_high)


def test_a_spell_that_brakes_counts_its_own_cycles() -> None:
    brake = ('name = "running"\ntorque = 0.3', 'name = "braking"\ntorque = -0.3\nevents_per_hour = 7')
    fatigue = found(assessed(*WEAK, brake))
    assert fatigue.governing is not None
    kinds = {kind.name: kind for kind in fatigue.governing.cycles}
    assert kinds["braking"].per_hour == 7
    assert kinds["braking"].torque_high == pytest.approx(0.0, abs=1e-9)
    assert kinds["braking"].torque_low < 0.0


def test_a_gentler_ramp_does_less_damage() -> None:
    fast = found(assessed(*WEAK, ('"4800 N*m/s"', '"60000 N*m/s"'))).service_damage
    slow = found(assessed(*WEAK, ('"4800 N*m/s"', '"400 N*m/s"'))).service_damage
    assert fast is not None
    assert slow is not None
    assert fast > slow


def test_steady_share() -> None:
    assert steady_share(1.0, None) == steady_share(1.0, math.inf) == 1.0
    assert steady_share(1.0, 3.0) == 0.75


def test_ramp_says_what_life_its_rise_leaves() -> None:
    answer = ramp(loaded(*WEAK, ('"400 N*m"', '"330 N*m"')))
    assert any("torsional fatigue life" in words for words in answer.besides)


def test_assess_imports_no_rainflow() -> None:
    code = (
        "import sys; from torqcheck.assessment import assess; assess(sys.argv[1]);"
        "assert not {'rainflow', 'scipy', 'pandas'} & set(sys.modules)"
    )
    subprocess.run([sys.executable, "-c", code, "scenarios/works_trolley.toml"], check=True)


def test_the_worst_place_of_a_member_counts() -> None:
    for member in members().values():
        assert len(member.places) > 1
        duty, blows = duty_of(), np.array([600.0, 2500.0, 6000.0])
        alone = [damage_per_hour(replace(member, places=(place,)), duty, blows) for place in member.places]
        assert np.array_equal(damage_per_hour(member, duty, blows), np.max(alone, axis=0))
        assert damage_per_hour(replace(member, places=member.places[::-1]), duty, blows).tolist() == (
            np.max(alone, axis=0).tolist()
        )


def test_sections_of_both_members() -> None:
    both = members()
    shaft, hub = both["external"], both["internal"]
    surface = shaft.places[0]
    assert surface.stress_per_torque == pytest.approx(
        surface.notch_factor * torsional_shear_stress(1.0, shaft.diameter, shaft.bore)
    )
    outside, root, _ = hub.places
    assert (outside.name, outside.notch_factor) == ("outside", 1.0)
    assert outside.stress_per_torque == pytest.approx(torsional_shear_stress(1.0, hub.diameter, hub.bore))
    polar = math.pi * (hub.diameter**4 - hub.bore**4) / 32.0
    assert root.stress_per_torque == pytest.approx(root.notch_factor * 0.5 * hub.bore / polar)
    assert root.stress_concentration == surface.stress_concentration


def test_stress_concentration_stands_on_the_root_diameter() -> None:
    state = prepared_of(loaded()).joints[0].spline
    assert state is not None
    assert isinstance(state.spline, InvoluteSpline)
    die, dee = state.root_diameter, state.spline.external.major_diameter
    fillet = 0.2 * state.spline.module
    dh = float(equivalent_diameter(die, dee, 0.15))
    largest = float(spline_stress_concentration(die, dee, fillet, 0.15)) * 16.0 / (math.pi * dh**3)
    place = members()["external"].places[0]
    assert place.stress_concentration * torsional_shear_stress(1.0, die) == pytest.approx(largest)
    rounder = members(('root = "flat"', 'root = "fillet"'))["external"]
    assert rounder.fillet_radius == pytest.approx(2.0 * fillet)


def test_second_method_by_hand() -> None:
    result = assessed(*WEAK, *NO_REGENERATION)
    governing, shaft = found(result).governing, members(*WEAK)["external"]
    assert governing is not None
    assert governing.din_743 is not None
    strength = shaft.strength / 1e6
    notch = 1.0 + 0.75 * (math.exp(4.2e-7 * strength**2) - 1.0)
    size = 1.0 - 0.2 * math.log10(shaft.diameter / 7.5e-3) / math.log10(20.0)
    roughness = 0.575 * (1.0 - 0.22 * (math.log10(strength / 20.0) - 1.0)) + 0.425
    limit = 0.3 * strength / (notch / size + 1.0 / roughness - 1.0)
    psi = limit / (2.0 * strength - limit)
    start = governing.cycles[0]
    nominal = float(torsional_shear_stress(0.5 * start.torque_high, shaft.diameter)) / 1e6
    assert governing.din_743.safety_factor == pytest.approx(limit / (1.0 + psi) / nominal, rel=1e-9)


def test_blows_are_carried_to_other_joints_as_their_peaks_are() -> None:
    behind = """
[[joint]]
name = "behind"
kind = "involute spline"
standard = "ansi b92.1"
size = { teeth = 26, pitch = "20/40", pressure_angle = "30 deg", root = "flat" }
engagement = "1.25 in"
seat = "fixed"
lash = { clearance = "0.05 mm" }
after = [[2.0, 0.9]]
external = { steel = "8620_carb_63", hardness = "60 HRC", reused = true, measured = { teeth = 26 } }
internal = { steel = "8620_carb_63", reused = false, measured = { teeth = 26 } }
"""
    result = assessed(('"4800 N*m/s"', '"60000 N*m/s"'), base=BASE + behind)
    there = result.joints[1].fatigue.governing
    assert there is not None
    start = there.cycles[0]
    shock = result.shock
    assert start.torque_high == pytest.approx(shock.drive_peak_torque * 2.0 * 0.9)
    assert -start.torque_low == pytest.approx(shock.brake_peak_torque * 2.0 / 0.9)


def test_fatigue_enters_the_verdict_by_itself() -> None:
    fatigue = found(assessed(*WEAK))
    assert fatigue.verdict == "fail"
    assert found_verdict((), None, None, fatigue) == "fail"
    assert found_verdict((), None, None, replace(fatigue, verdict=None)) == "pass"


@pytest.mark.parametrize(
    "change", [(), (('regen_torque = "90 N*m"', 'regen_torque = "90 N*m"\nregen_rise = "90000 N*m/s"'),)]
)
def test_ramp_at_the_rise_of_the_file_finds_what_assess_finds(change: tuple[tuple[str, str], ...]) -> None:
    scenario = loaded(*THROUGH, *HEAVY, *change)
    wanted = assess(scenario).joints[0].fatigue.service_damage
    (ours,) = fatigue_at_rise(question_of(scenario), torque_rise(scenario.motor))
    assert ours is not None
    assert wanted is not None
    assert ours.service_damage == pytest.approx(wanted, rel=1e-6)


def test_ramp_takes_the_lightest_of_several_driven_sides() -> None:
    unknown = ('inertia = "2.4 kg*m^2"\n', "")
    scenario = loaded(*THROUGH, *HEAVY, unknown)
    wanted = assess(scenario).joints[0].fatigue.service_damage
    (ours,) = fatigue_at_rise(question_of(scenario), torque_rise(scenario.motor))
    assert ours is not None
    assert wanted is not None
    assert (ours.service_damage or 0.0) > wanted > 0.0
