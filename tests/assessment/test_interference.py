"""Interference fits and clamps in a whole path: bare arithmetic beside the checks, and what is said."""

from functools import cache
from math import inf, pi, sqrt

import numpy as np
import pytest
from assessment._last_joint import check_of, factor_of, joint_of
from builder import BASE, assessed, loaded
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from torqcheck.assessment import Assessment, assess
from torqcheck.assessment.prepared import checks_at, prepared_of
from torqcheck.assessment.ramp.limits import limits_of
from torqcheck.checks import Check
from torqcheck.errors import ScenarioError

FIT = """
[[joint]]
name = "coupler hub"
kind = "interference fit"
diameter = "50 mm"
length = "60 mm"
interference = "0.060 +/- 0.010 mm"
joining = "shrunk"
axial_force = "6 kN"
shaft = { steel = "4140_QT540", reused = false, bore = "14 mm", roughness = "4 um" }
hub = { steel = "1045_HR", reused = false, outside_diameter = "85 mm", roughness = "6 um" }
"""

CLAMP = """
[[joint]]
name = "rear clamp"
kind = "clamp"
form = "one slit"
diameter = "50 mm"
length = "60 mm"
screws = 4
screw_preload = "40 kN"
seat = "dry"
shaft = { steel = "4140_QT540", reused = false }
"""

GRIP = 2.0


@cache
def with_joint(text: str, *changes: tuple[str, str]) -> Assessment:
    return assessed(*changes, base=BASE + text)


def strength_of(assessment: Assessment) -> list[Check]:
    """The checks without that of fatigue, whose range is that of the life."""
    return [check for check in joint_of(assessment).checks if not check.name.startswith("fatigue")]


# by hand


def test_grip_by_bare_arithmetic() -> None:
    """Least interference 0.050 mm less 0.8 (4 + 6) um; steel 205/80 GPa; 4000 rpm over 2.5; mu 0.14."""
    assessment = with_joint(FIT)
    check = check_of(assessment, "grip")
    d, D, di, length, mu = 0.050, 0.085, 0.014, 0.060, 0.14
    E, nu, rho = 205e9, 205.0 / 160.0 - 1.0, 7850.0
    left = 0.050e-3 - 0.8 * 10e-6
    w = 4000.0 / 2.5 * pi / 30.0
    hub = rho * w**2 / 16.0 * ((3 + nu) * D**2 + (1 - nu) * d**2)
    shaft = rho * w**2 / 16.0 * ((3 + nu) * di**2 + (1 - nu) * d**2)
    left -= d * (hub - shaft) / E
    p = E * left * (D**2 - d**2) * (d**2 - di**2) / (2 * d**3 * (D**2 - di**2))
    holds = mu * p * pi * d**2 * length / 2.0
    torque = max(joint_of(assessment).torque * 1.2, joint_of(assessment).peak_torque)
    needs = sqrt(torque**2 + (6000.0 * d / 2.0) ** 2)
    assert check.quantity == "torque"
    assert check.target == GRIP
    assert check.allowable == pytest.approx(holds, rel=1e-9)
    assert check.value == pytest.approx(needs, rel=1e-9)
    assert check.torque == pytest.approx(torque)
    assert check.safety_factor == pytest.approx(holds / needs, rel=1e-9)


def test_hub_and_shaft_by_bare_arithmetic() -> None:
    """Greatest interference 0.070 mm less 8 um; the hub is strained most at speed, the shaft at rest."""
    assessment = with_joint(FIT)
    d, D, di, E, nu, rho = 0.050, 0.085, 0.014, 205e9, 205.0 / 160.0 - 1.0, 7850.0
    per_metre = E * (D**2 - d**2) * (d**2 - di**2) / (2 * d**3 * (D**2 - di**2))
    w = 4000.0 / 2.5 * pi / 30.0
    free = rho * w**2 / 16.0 * ((3 + nu) * D**2 + (1 - nu) * d**2)
    shaft_free = rho * w**2 / 16.0 * ((3 + nu) * di**2 + (1 - nu) * d**2)
    at_rest = per_metre * 62e-6
    running = per_metre * (62e-6 - d * (free - shaft_free) / E)
    stresses = []
    for p, turning in ((at_rest, 0.0), (running, free)):
        hoop = p * (D**2 + d**2) / (D**2 - d**2) + turning
        stresses.append(sqrt(hoop**2 + hoop * p + p**2))
    hub, shaft = check_of(assessment, "hub yield"), check_of(assessment, "shaft yield")
    assert stresses[1] > stresses[0]
    assert hub.value == pytest.approx(stresses[1], rel=1e-9)
    assert shaft.value == pytest.approx(2.0 * at_rest * d**2 / (d**2 - di**2), rel=1e-9)
    assert hub.target == shaft.target == 1.5
    assert hub.torque == shaft.torque == 0.0
    assert {check.method for check in strength_of(assessment)} == {"larger load"}


def test_clamp_by_bare_arithmetic() -> None:
    """Four screws of 40 kN less a quarter, dry, mu 0.10: 2 mu n F d; the band would hold pi/2 more."""
    assessment = with_joint(CLAMP)
    check = check_of(assessment, "grip")
    assert check.allowable == pytest.approx(2.0 * 0.10 * 4 * 30e3 * 0.050, rel=1e-12)
    assert check.value == pytest.approx(max(582.0 * 1.2, joint_of(assessment).peak_torque), rel=1e-3)
    assert check.target == GRIP
    notes = " ".join(joint_of(assessment).notes)
    assert "the clamp holds 1200 N m at the least preload" in notes
    assert "like a belt, 1880 N m" in notes
    shaft = check_of(assessment, "shaft yield")
    assert shaft.value == pytest.approx(2 * 4 * 50e3 / (0.050 * 0.060), rel=1e-12)


def test_two_piece_clamp_and_collar() -> None:
    two = with_joint(CLAMP.replace("one slit", "two-piece"))
    assert check_of(two, "grip").allowable == pytest.approx(0.10 * 4 * 30e3 * 0.050, rel=1e-12)
    text = CLAMP.replace("one slit", "locking collar") + 'axial_force = "9 kN"\n'
    text = text.replace("shaft = {", 'axial_force = "9 kN"\nshaft = {').rsplit("axial_force", 1)[0]
    collar = with_joint(text)
    hold = check_of(collar, "axial hold")
    assert hold.quantity == "force"
    assert hold.value == 9000.0
    assert hold.allowable == pytest.approx(2.0 * pi * 0.10 * 4 * 30e3, rel=1e-12)
    assert not any(check.name == "grip" for check in joint_of(collar).checks)
    assert any("must not be counted on for torque" in entry.text for entry in collar.cautions)


# what is measured, what is assumed


def test_named_fit_counts_on_both_of_its_ends() -> None:
    named = with_joint(FIT.replace('interference = "0.060 +/- 0.010 mm"', 'fit = "H7/s6"'))
    measured = with_joint(FIT.replace("0.060 +/- 0.010 mm", "0.0385 +/- 0.0205 mm"))  # 18 to 59 um
    for name in ("grip", "hub yield", "shaft yield"):
        assert check_of(named, name).allowable == pytest.approx(check_of(measured, name).allowable)
        assert check_of(named, name).value == pytest.approx(check_of(measured, name).value)
    assert any(entry.key == "joint[2].interference" for entry in named.assumptions)
    # anything between the ends is as likely as anything else: the middle of the draws is far above the least
    for name in ("grip", "hub yield"):
        low, high = check_of(named, name).interval or (0.0, 0.0)
        assert high > 1.8 * low, name
        assert high > 2.0 * factor_of(named, name), name


def test_two_diameters_are_their_difference() -> None:
    text = FIT.replace('interference = "0.060 +/- 0.010 mm"\n', "")
    text = text.replace("shaft = {", 'shaft = { measured_diameter = "50.058 +/- 0.004 mm",')
    text = text.replace("hub = {", 'hub = { measured_bore = "49.998 +/- 0.006 mm",')
    ours, same = with_joint(text), with_joint(FIT)
    assert factor_of(ours, "grip") == pytest.approx(factor_of(same, "grip"), rel=1e-9)
    assert factor_of(ours, "hub yield") == pytest.approx(factor_of(same, "hub yield"), rel=1e-9)


def test_range_is_that_of_the_interference_not_of_its_ends() -> None:
    """Stated at the least; drawn over the whole: the range lies above, and reaches down about as far."""
    exact = with_joint(FIT.replace("0.060 +/- 0.010 mm", "0.060 +/- 0 mm"))
    wide = with_joint(FIT)
    narrow_low, narrow_high = check_of(exact, "grip").interval or (0.0, 0.0)
    low, high = check_of(wide, "grip").interval or (0.0, 0.0)
    assert low < narrow_low
    assert high > narrow_high
    middle, middle_exact = sqrt(low * high), sqrt(narrow_low * narrow_high)
    assert middle == pytest.approx(middle_exact, rel=0.02)
    assert factor_of(wide, "grip") < factor_of(exact, "grip")


def test_range_of_a_named_fit_is_that_of_direct_draws() -> None:
    """Interference even between its ends, friction and torque lognormal; drawn here by bare arithmetic."""
    named = with_joint(FIT.replace('interference = "0.060 +/- 0.010 mm"', 'fit = "H7/u6"'))
    check = check_of(named, "grip")
    draws = np.random.default_rng(4)
    left = draws.uniform(45e-6 - 8e-6, 86e-6 - 8e-6, 200_000)
    z = draws.standard_normal((2, left.size)).clip(-3.0, 3.0)
    friction = np.where(z[0] < 0.0, (0.10 / 0.14) ** np.abs(z[0] / 2), (0.18 / 0.14) ** np.abs(z[0] / 2))
    torque = 1.05 ** (z[1] / 2)
    factors = factor_of(named, "grip") * left / 37e-6 * friction / torque
    low, high = check.interval or (0.0, 0.0)
    # what speed takes, a tenth of a micrometre, is left out here
    assert low == pytest.approx(float(np.percentile(factors, 5)), rel=0.04)
    assert high == pytest.approx(float(np.percentile(factors, 95)), rel=0.04)


def test_rough_surfaces_that_nobody_measured_take_more_of_the_grip() -> None:
    text = FIT.replace(', roughness = "4 um"', "").replace(', roughness = "6 um"', "")
    unknown, known = with_joint(text), with_joint(FIT)
    assert check_of(unknown, "grip").allowable < check_of(known, "grip").allowable
    assert check_of(unknown, "hub yield").value > check_of(known, "hub yield").value
    keys = {entry.key for entry in unknown.assumptions}
    assert {"joint[2].hub.roughness", "joint[2].shaft.roughness", "joint[2].friction"} <= keys


def test_stated_friction_is_taken() -> None:
    stated = with_joint(FIT.replace('joining = "shrunk"', 'joining = "shrunk"\nfriction = 0.07'))
    assert factor_of(stated, "grip") == pytest.approx(0.5 * factor_of(with_joint(FIT), "grip"))
    assert not any(entry.key == "joint[2].friction" for entry in stated.assumptions)


# warmth, other metals, walls


ALUMINIUM = FIT.replace('steel = "1045_HR", reused = false', 'material = "aluminium", strength = "240 MPa"')


def test_aluminium_hub_loses_what_warmth_takes() -> None:
    text = ALUMINIUM.replace('roughness = "6 um"', 'roughness = "6 um", temperature = "60 degC"')
    cold = ALUMINIUM.replace('roughness = "6 um"', 'roughness = "6 um", temperature = "20 degC"')
    warm, rest = with_joint(text), with_joint(cold)
    lost = 0.050 * (23.0e-6 - 11.3e-6) * 40.0
    # both less what speed takes; in proportion to what is left
    ratio = check_of(warm, "grip").allowable / check_of(rest, "grip").allowable
    assert ratio == pytest.approx(1.0 - lost / 42e-6, abs=0.01)
    assert check_of(warm, "hub yield").value == pytest.approx(check_of(rest, "hub yield").value)
    assert any("grows away from its steel shaft" in entry.text for entry in warm.cautions)
    assert "the fit loses 23.4 um" in " ".join(joint_of(warm).notes)


def test_warm_shaft_in_a_cool_hub_tightens() -> None:
    text = FIT.replace('roughness = "4 um"', 'roughness = "4 um", temperature = "90 degC"')
    text = text.replace('roughness = "6 um"', 'roughness = "6 um", temperature = "40 degC"')
    warm, rest = with_joint(text), with_joint(FIT)
    assert check_of(warm, "grip").allowable == pytest.approx(check_of(rest, "grip").allowable)
    gained = 0.050 * 11.3e-6 * 50.0
    ratio = check_of(warm, "shaft yield").value / check_of(rest, "shaft yield").value
    assert ratio == pytest.approx(1.0 + gained / 62e-6, rel=1e-6)


def test_unlike_metals_without_a_temperature_are_taken_warm() -> None:
    assumed, warm = (
        with_joint(ALUMINIUM),
        with_joint(ALUMINIUM.replace('roughness = "6 um"', 'temperature = "80 degC", roughness = "6 um"')),
    )
    assert any(entry.key == "joint[2].temperature" for entry in assumed.assumptions)
    assert factor_of(assumed, "grip") == pytest.approx(factor_of(warm, "grip"), rel=1e-9)


def test_grip_that_warmth_has_eaten_is_none() -> None:
    hot = ALUMINIUM.replace('roughness = "6 um"', 'roughness = "6 um", temperature = "130 degC"')
    assessment = with_joint(hot)
    assert check_of(assessment, "grip").allowable == 0.0
    assert joint_of(assessment).verdict == "fail"
    assert assessment.verdict == "fail"
    assert assessment.to_dict()["joints"][-1]["checks"]


def test_alloy_that_nobody_knows_is_asked_for() -> None:
    assessment = with_joint(ALUMINIUM.replace(', strength = "240 MPa"', ""))
    assert check_of(assessment, "hub yield").allowable == 110e6
    assert any(entry.reading == "alloy and strength of the hub" for entry in assessment.undecided_by)


def test_hub_of_cast_iron_cracks_at_its_hoop_stress() -> None:
    text = ALUMINIUM.replace('"aluminium", strength = "240 MPa"', '"cast iron", strength = "200 MPa"')
    check = check_of(with_joint(text), "hub cracking")
    assert check.target == GRIP
    d, D, di = 0.050, 0.085, 0.014
    nu = 205.0 / 160.0 - 1.0
    compliance = ((D**2 + d**2) / (D**2 - d**2) + 0.26) / 100e9 + (
        (d**2 + di**2) / (d**2 - di**2) - nu
    ) / 205e9
    p = 62e-6 / d / compliance
    assert check.value == pytest.approx(p * (D**2 + d**2) / (D**2 - d**2), rel=5e-3)
    assert check.value >= p * (D**2 + d**2) / (D**2 - d**2)


def test_keyway_in_the_bore_raises_the_stress_and_takes_from_the_grip() -> None:
    text = FIT.replace(
        'outside_diameter = "85 mm"', 'outside_diameter = "85 mm", feature_diameter = "57.6 mm"'
    )
    slotted, plain = with_joint(text), with_joint(FIT)
    p, hoop = 1.0, 50.0 / 57.6 * (85.0**2 + 57.6**2) / (85.0**2 - 57.6**2)
    whole = (85.0**2 + 50.0**2) / (85.0**2 - 50.0**2)
    ratio = sqrt(hoop**2 + hoop * p + p**2) / sqrt(whole**2 + whole * p + p**2)
    found = check_of(slotted, "hub yield").value / check_of(plain, "hub yield").value
    assert found == pytest.approx(ratio, rel=1e-3)  # what rotation adds is less
    assert found > 1.09
    # only the ring outside of the keyway holds hoop; the shaft is as stiff as before, one modulus
    nu = 205.0 / 160.0 - 1.0
    ring = (85.0**2 + 57.6**2) / (85.0**2 - 57.6**2)
    shaft = (50.0**2 + 14.0**2) / (50.0**2 - 14.0**2) - nu
    weaker = (whole + nu + shaft) / (ring + nu + shaft)
    grips = check_of(slotted, "grip").allowable / check_of(plain, "grip").allowable
    assert grips == pytest.approx(weaker, rel=1e-9)  # 0.86
    assert any("weakest wall" in entry.text for entry in slotted.cautions)


def test_groove_outside_costs_grip_and_strength() -> None:
    text = FIT.replace('outside_diameter = "85 mm"', 'outside_diameter = "85 mm", weakest_outside = "72 mm"')
    grooved, plain = with_joint(text), with_joint(FIT)
    assert check_of(grooved, "hub yield").value > check_of(plain, "hub yield").value
    assert check_of(grooved, "grip").allowable < check_of(plain, "grip").allowable
    assert any("thin hub, outside over bore is 1.44, below 1.5" in entry.text for entry in grooved.cautions)
    assert not any("thin hub" in entry.text for entry in plain.cautions)


def test_fit_that_is_joined_again_needs_its_parts_measured() -> None:
    text = FIT.replace('interference = "0.060 +/- 0.010 mm"', 'fit = "H7/s6"\nrejoined = true')
    assessment = with_joint(text)
    assert any(entry.reading == "interference, measured" for entry in assessment.undecided_by)
    assert any("loses grip each time" in entry.text for entry in assessment.cautions)
    measured = with_joint(FIT.replace("axial_force", "rejoined = true\naxial_force"))
    assert not any(entry.reading == "interference, measured" for entry in measured.undecided_by)


# how to join it


def test_notes_tell_how_hot_and_what_the_micrometer_shows() -> None:
    notes = " ".join(joint_of(with_joint(FIT)).notes)
    # 70 um and 50 um of room on 50 mm at 11.3e-6/K: 212 K
    assert "heat the hub to 232 C over a shaft of 20 C, for 0.05 mm of room" in notes
    assert "the limit is 350 C (mild or cast steel)" in notes
    # shrunk by 8.5e-6 x 98 K x 50 mm = 41.65 um: 78.35 um, 139 K
    assert "159 C with the shaft in dry ice" in notes
    d, D, di, E = 0.050, 0.085, 0.014, 205e9
    least, most = (
        E * u * (D**2 - d**2) * (d**2 - di**2) / (2 * d**3 * (D**2 - di**2)) for u in (42e-6, 62e-6)
    )
    growth = [2 * p * D * d**2 / (E * (D**2 - d**2)) * 1e6 for p in (least, most)]
    assert f"the hub is {growth[0]:.3g} to {growth[1]:.3g} um larger outside" in notes
    assert "A key in the same seat does not add to the grip" in notes


def test_hub_that_would_be_heated_beyond_its_temper_is_cautioned() -> None:
    assessment = with_joint(FIT.replace("1045_HR", "4140_QT205"))
    text = " ".join(entry.text for entry in assessment.cautions)
    assert "above the 205 C that the hub stands (tempered at 205 C)" in text
    assert "never heat a hub above the temperature at which it was tempered" in text


def test_press_shows_what_the_grip_counts_on() -> None:
    pressed = with_joint(FIT.replace('"shrunk"', '"pressed oiled"'))
    notes = " ".join(joint_of(pressed).notes)
    d, D, di, E, length = 0.050, 0.085, 0.014, 205e9, 0.060
    least, most = (
        E * u * (D**2 - d**2) * (d**2 - di**2) / (2 * d**3 * (D**2 - di**2)) for u in (42e-6, 62e-6)
    )
    area = pi * d * length / 1e3
    forces = [f"{mu * p * area:.3g}" for mu, p in ((0.05, least), (0.10, most), (0.07, least))]
    assert f"Pressing on takes {forces[0]} to {forces[1]} kN at full depth" in notes
    assert f"Less than {forces[2]} kN there" in notes


def test_oil_parts_a_hydraulic_joint() -> None:
    notes = " ".join(joint_of(with_joint(FIT.replace('"shrunk"', '"hydraulic"'))).notes)
    assert "The oil between the seats must come to" in notes
    assert "heat the hub" not in notes


# clamps


@pytest.mark.parametrize(
    ("change", "text"),
    [
        ('clearance = "0.08 mm"', "0.08 mm between bore and shaft is more than 0.05 mm and cuts the grip"),
        ("keyed = true", "weakest where its wall is thin over a keyway"),
    ],
)
def test_cautions_of_clamps(change: str, text: str) -> None:
    assessment = with_joint(CLAMP.replace("shaft = {", f"{change}\nshaft = {{"))
    assert any(text in entry.text for entry in assessment.cautions)


def test_closing_force_is_taken_from_the_preload() -> None:
    closing = with_joint(CLAMP.replace("shaft = {", 'closing_force = "5 kN"\nshaft = {'))
    assert check_of(closing, "grip").allowable == pytest.approx(2.0 * 0.10 * 4 * 25e3 * 0.050)


def test_preload_with_its_own_scatter_needs_none_assumed() -> None:
    stated = with_joint(CLAMP.replace('"40 kN"', '"40 +/- 4 kN"'))
    assert check_of(stated, "grip").allowable == pytest.approx(2.0 * 0.10 * 4 * 36e3 * 0.050)
    assert not any(entry.key == "joint[2].preload" for entry in stated.assumptions)
    assert any(entry.key == "joint[2].preload" for entry in with_joint(CLAMP).assumptions)


def test_seat_that_nobody_describes_is_oily() -> None:
    unknown = with_joint(CLAMP.replace('seat = "dry"\n', ""))
    assert check_of(unknown, "grip").allowable == pytest.approx(2.0 * 0.07 * 4 * 30e3 * 0.050)


# the whole


def test_every_check_has_a_range_around_what_can_be() -> None:
    for text in (FIT, CLAMP, FIT.replace('interference = "0.060 +/- 0.010 mm"', 'fit = "H7/u6"')):
        for check in strength_of(with_joint(text)):
            assert check.interval is not None, check.name
            low, high = check.interval
            assert 0.0 < low < high < inf


@settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.floats(20.0, 90.0), st.floats(1.05, 1.6))
def test_more_interference_holds_more_and_strains_more(micron: float, factor: float) -> None:
    joints = []
    for value in (micron, micron * factor):
        text = FIT.replace("0.060 +/- 0.010 mm", f"{value:.6f} +/- 2 um")
        (resolved,) = prepared_joints(text)[1:]
        joints.append({check.name: check for check in resolved})
    less, more = joints
    assert more["grip"].allowable > less["grip"].allowable
    assert more["hub yield"].value > less["hub yield"].value
    assert more["shaft yield"].value > less["shaft yield"].value


def prepared_joints(text: str) -> list[tuple[Check, ...]]:
    """Checks of each joint under their steady torque, without the draws of a whole assessment."""
    prepared = prepared_of(loaded(base=BASE + text))
    return [checks_at(prepared, index, 600.0) for index in range(len(prepared.joints))]


def test_ramp_is_searched_past_what_no_ramp_mends() -> None:
    """The grip is short at the steady torque already; what is left of the joint knows no torque."""
    short = loaded(base=BASE + FIT.replace('"60 mm"', '"15 mm"'))
    alone = limits_of(prepared_of(loaded()))
    limits = limits_of(prepared_of(short))
    assert limits.drive == pytest.approx(alone.drive)
    assert ("coupler hub", "grip") in {(check.joint, check.name) for check in limits.standing}
    held = limits_of(prepared_of(loaded(base=BASE + FIT.replace('"60 mm"', '"36 mm"'))))
    assert held.drive_check.name in {"grip", alone.drive_check.name}


def test_the_same_fit_in_inches() -> None:
    text = FIT.replace('"50 mm"', '"1.968503937 in"').replace('"60 mm"', '"2.362204724 in"')
    text = text.replace("0.060 +/- 0.010 mm", "0.002362204724 +/- 0.000393700787 in")
    text = text.replace('"6 kN"', '"1348.853659 lbf"')
    ours, metric = with_joint(text), with_joint(FIT)
    for name in ("grip", "hub yield", "shaft yield"):
        assert factor_of(ours, name) == pytest.approx(factor_of(metric, name), rel=1e-8)


def test_assess_takes_a_scenario_that_was_loaded() -> None:
    assert assess(loaded(base=BASE + FIT)).joints[-1].name == "coupler hub"


# fatigue at the edge of the hub


def test_the_edge_of_a_shrunk_hub_frets() -> None:
    """DIN 743-2 (from memory): 0.65 x 2.7 (Sut/1 GPa)^0.43 on the shear of the hollow shaft."""
    fatigue = joint_of(with_joint(FIT)).fatigue
    (member,) = fatigue.members
    assert member.side == "shaft"
    assert member.place == "edge of the hub"
    steps = member.steps
    factor = 0.65 * 2.7 * (steps["ultimate_strength_MPa"] / 1000.0) ** 0.43
    assert steps["Kfs"] == pytest.approx(factor, rel=1e-9)
    d, bore = 0.050, 0.014
    assert steps["bore_mm"] == 14.0
    shear = 16.0 * d / (pi * (d**4 - bore**4)) * factor
    assert steps["shear_stress_per_torque_MPa_per_Nm"] == pytest.approx(shear / 1e6, rel=1e-9)


def test_a_clamp_frets_and_a_collar_carries_nothing() -> None:
    clamp = joint_of(with_joint(CLAMP))
    assert [check.name for check in clamp.checks][-1] == "fatigue, edge of the hub"
    form = 'form = "locking collar"\naxial_force = "1 kN"'
    collar = with_joint(CLAMP, ('form = "one slit"', form))
    assert joint_of(collar).fatigue.verdict is None


# a clamp whose screws are tightened by torque

BY_TORQUE = CLAMP.replace(
    'screw_preload = "40 kN"',
    'screw = { size = "M8", strength = "12.9" }\ntightening = { torque = "35 N*m", lubrication = "plain" }',
)


def test_a_torque_at_the_wrench_preloads_the_screws_of_a_clamp() -> None:
    """T = K F d with K 0.20 and +/-35 % for dry threads; the stiff slit 2 mu F d holds least."""
    assessment = with_joint(BY_TORQUE)
    meant = 35.0 / (0.20 * 0.008)  # 21 875 N
    grip = check_of(assessment, "grip")
    mu = grip.factors["friction"]
    assert grip.allowable == pytest.approx(4 * 2.0 * mu * 0.65 * meant * 0.050, rel=1e-9)
    stretch = check_of(assessment, "screw preload")
    area = pi / 4.0 * (8e-3 - 0.938194 * 1.25e-3) ** 2
    assert stretch.value == pytest.approx(1.35 * meant, rel=1e-9)
    assert stretch.allowable == pytest.approx(1100e6 * area, rel=1e-9)  # ISO 898-1, from memory
    assert stretch.target == pytest.approx(1100.0 / 970.0)
    assert stretch.quantity == "force"


def test_a_screw_that_is_pulled_too_far_fails() -> None:
    over = with_joint(BY_TORQUE, ('torque = "35 N*m"', 'torque = "60 N*m"'))
    assert check_of(over, "screw preload").verdict == "fail"
    assert joint_of(over).verdict == "fail"


def test_a_clamp_that_has_to_close_first_is_undecided_without_that_force() -> None:
    loose = CLAMP.replace('seat = "dry"', 'seat = "dry"\nclearance = "0.2 mm"')
    missing = [entry.reading for entry in joint_of(with_joint(loose)).undecided_by]
    assert "force that closes the empty clamp" in missing
    told = loose.replace('seat = "dry"', 'seat = "dry"\nclosing_force = "2 kN"')
    assert not joint_of(with_joint(told)).undecided_by
    assert not joint_of(with_joint(CLAMP)).undecided_by


@pytest.mark.parametrize("written", ["-400 degC", "1e6 degC"])
def test_temperatures_that_no_part_has_are_refused(written: str) -> None:
    hot = FIT.replace('outside_diameter = "85 mm"', f'outside_diameter = "85 mm", temperature = "{written}"')
    with pytest.raises(ScenarioError, match=r"joint\[2\].hub.temperature: .* is beyond anything that"):
        loaded(base=BASE + hot)
