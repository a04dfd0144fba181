"""A shaft with two notches and a side load: its weakest link by bare arithmetic, and what must hold."""

import math
from dataclasses import replace

import pytest
from builder import BASE, assessed, edited, loaded

from torqcheck.assessment import Assessment
from torqcheck.assessment.kinds.shaft_notches import BendingLoads
from torqcheck.assessment.prepared import prepared_of
from torqcheck.assessment.ramp.advise import ramp
from torqcheck.assessment.result import JointResult
from torqcheck.capacity import forced_offset_force, overhung_stiffness
from torqcheck.fatigue import combined_load, de_goodman_factor

SHAFT = """
[[joint]]
name = "stub"
kind = "shaft"
diameter = "30 mm"
length = "120 mm"
steel = "4140_QT540"
reused = false
finish = "machined"
notches = [
  { kind = "keyseat", width = "8 mm", depth = "4 mm", root_radius = "0.6 mm", from_load = "20 mm" },
  { kind = "shoulder fillet", larger_diameter = "36 mm", radius = "1.5 mm" },
]
bending = { side_load = "1.8 kN", overhang = "70 mm" }
"""


def stub(*changes: tuple[str, str], shaft: str = SHAFT) -> JointResult:
    """The shaft of the scenario, edited and assessed."""
    found: Assessment = assessed(*changes, base=BASE + shaft)
    return found.joints[1]


def changed(*changes: tuple[str, str]) -> JointResult:
    return stub(shaft=edited(*changes, base=SHAFT))


def factor(joint: JointResult, name: str) -> float:
    found = next(check for check in joint.checks if check.name == name).safety_factor
    assert found is not None
    return found


@pytest.fixture(scope="module")
def joint() -> JointResult:
    return stub()


def test_weakest_link_by_hand(joint: JointResult) -> None:
    """The keyseat in fatigue, from the printed formulas; strengths as the report states them."""
    weakest = min(joint.checks, key=lambda check: check.margin)
    assert weakest.name == "fatigue, keyseat"
    member = next(m for m in joint.fatigue.members if m.place == "keyseat")
    Sut = member.steps["ultimate_strength_MPa"]
    ksi = Sut / 6.894757293168
    # notch: curves at r/d = 0.6/30, with the key pressing 3.0 exactly
    root_a = 0.246 - 3.08e-3 * ksi + 1.51e-5 * ksi**2 - 2.67e-8 * ksi**3
    root_as = 0.190 - 2.51e-3 * ksi + 1.35e-5 * ksi**2 - 2.67e-8 * ksi**3
    root_r = math.sqrt(0.6 / 25.4)
    z = 0.1 / (0.6 / 30.0)
    Kt = 1.426 + 0.1643 * z - 0.0019 * z**2
    Kf = max(1.0 + (Kt - 1.0) / (1.0 + root_a / root_r), 3.0 * (Sut / 1000.0) ** 0.38)
    by_key = 0.56 * 3.0 * (Sut / 1000.0) ** 0.38 + 0.1
    Kfs = max(1.0 + (3.0 - 1.0) / (1.0 + root_as / root_r), by_key)
    # strength line of the machined part, 99 of 100
    ke = 1.0 - 0.08 * 2.3263478740408408
    Se = 4.51 * Sut**-0.265 * 1.24 * 30.0**-0.107 * ke * 0.5 * Sut
    assert member.steps["Se_MPa"] == pytest.approx(Se, rel=1e-9)
    S3 = member.steps["S3_MPa"]
    f = S3 / Sut
    assert 0.76 < f < 0.9
    a, b = S3**2 / Se, -math.log10(S3 / Se) / 3.0
    # one start: from regeneration to the blow, while 1.8 kN at 20 mm bends the shaft
    start = member.cycles[0]
    Ta, Tm = (0.5 * (start.torque_high + sign * start.torque_low) * 1e3 for sign in (-1.0, 1.0))
    section = math.pi * 30.0**3 / 16.0
    bending = Kf * 2.0 * 1800.0 * 20.0 / section
    sa = math.hypot(bending, math.sqrt(3.0) * Kfs * Ta / section)
    sm = math.sqrt(3.0) * Kfs * Tm / section
    start_reversed = sa / (1.0 - sm / Sut)

    # starts are 20 per hour; turns: 600 and 2000 rpm at the motor over 2.5, a tenth and nine tenths
    def life(amplitude: float) -> float:
        if amplitude < Se:
            return 1e6 * (Se / amplitude) ** (-2.0 / b - 1.0)
        return (amplitude / a) ** (1.0 / b)

    damage = 20.0 / life(start_reversed)
    torque = 240.0 * 2.5 * 0.97
    for rpm, share, part in ((600.0, 0.1, 1.0), (2000.0, 0.9, 0.3)):
        steady = math.sqrt(3.0) * Kfs * part * torque * 1e3 / section
        damage += rpm / 2.5 * 60.0 * share / life(bending / (1.0 - steady / Sut))
    assert Se < start_reversed < S3
    ringing = sum(kind.damage_share for kind in member.cycles if "ringing" in kind.name)
    assert member.damage_per_hour is not None
    assert member.damage_per_hour * (1.0 - ringing) == pytest.approx(damage, rel=1e-6)
    # as a stress once in each of 20 x 400 starts
    count = 20.0 * 400.0
    whole = member.damage_per_hour * 400.0
    borne = a * count**b
    alike = count / whole
    value = a * alike**b if alike <= 1e6 else Se * (1e6 / alike) ** (1.0 / (-2.0 / b - 1.0))
    assert weakest.allowable == pytest.approx(borne * 1e6, rel=1e-9)
    assert weakest.value == pytest.approx(value * 1e6, rel=1e-6)
    assert weakest.target == pytest.approx(borne / (a * (count / 0.3) ** b), rel=1e-9)
    # for information: endless life, the worst kind of cycle
    assert member.de_goodman == pytest.approx(1.0 / (sa / Se + sm / Sut), rel=1e-9)


def test_yield_of_the_keyed_section_by_hand(joint: JointResult) -> None:
    check = next(check for check in joint.checks if check.name == "yield, keyseat")
    e = 1.0 - 0.2 * 8.0 / 30.0 - 1.1 * 4.0 / 30.0
    section = math.pi * 30.0**3 / 16.0
    bending, shear = 2.0 * 1800.0 * 20.0 / section, check.torque * 1e3 / section
    assert check.value == pytest.approx(math.sqrt(bending**2 + 3.0 * shear**2) / e * 1e6, rel=1e-12)
    steady, blow = joint.torque * 1.2, joint.peak_torque
    assert check.torque == pytest.approx(max(steady, blow), rel=1e-12)
    assert check.method == "larger load"


def test_endless_factor_is_that_of_the_shaft_formula(joint: JointResult) -> None:
    for member in joint.fatigue.members:
        steps = member.steps
        loads = [
            (
                combined_load(
                    steps["reversed_moment_Nm"],
                    0.5 * (k.torque_high - k.torque_low),
                    steps["Kf"],
                    steps["Kfs"],
                ),
                combined_load(0.0, 0.5 * (k.torque_high + k.torque_low), steps["Kf"], steps["Kfs"]),
            )
            for k in member.cycles
        ]
        limit, ultimate = steps["Se_MPa"] * 1e6, steps["ultimate_strength_MPa"] * 1e6
        found = min(float(de_goodman_factor(A, B, 0.030, limit, ultimate)) for A, B in loads)
        assert member.de_goodman == pytest.approx(found, rel=1e-9)


@pytest.mark.parametrize("name", ["fatigue, shoulder fillet", "yield, shoulder fillet"])
def test_factor_falls_with_the_side_load(name: str) -> None:
    found = [factor(changed(("1.8 kN", load)), name) for load in ("10 N", "1 kN", "2 kN", "4 kN", "8 kN")]
    assert found == sorted(found, reverse=True)
    assert found[-1] < 0.8 * found[0]
    # no leap where the moment vanishes
    none = changed(
        ('bending = { side_load = "1.8 kN", overhang = "70 mm" }', ""), (', from_load = "20 mm"', "")
    )
    assert factor(none, name) == pytest.approx(found[0], rel=2e-3)


def test_rounder_fillet_and_finer_surface_help() -> None:
    name = "fatigue, shoulder fillet"
    radii = [factor(changed(("1.5 mm", r)), name) for r in ("0.3 mm", "0.8 mm", "2 mm", "3 mm")]
    assert radii == sorted(radii)
    finishes = [
        factor(changed(('"machined"', f'"{finish}"')), name)
        for finish in ("forged", "hot rolled", "machined", "ground")
    ]
    assert finishes == sorted(finishes)


def test_offset_that_stands_still_is_worse_than_one_that_turns() -> None:
    bending = 'bending = { side_load = "1.8 kN", overhang = "70 mm" }'
    offset = 'forced_offset = { offset = "0.1 mm", overhang = "60 mm", bearing_spacing = "150 mm", '
    still = changed((bending, offset + "turns_with_shaft = false }"))
    turns = changed((bending, offset + "turns_with_shaft = true }"))
    name = "fatigue, shoulder fillet"
    assert factor(still, name) < factor(turns, name)
    assert factor(still, "yield, shoulder fillet") == factor(turns, "yield, shoulder fillet")
    # steady bending is a mean stress: it costs, though less than the reversed one
    straight = changed((bending, ""), (', from_load = "20 mm"', ""))
    assert factor(turns, name) < 0.995 * factor(straight, name)
    own = float(overhung_stiffness(0.030, 0.060, 0.150, 205e9))
    worst = next(member for member in still.fatigue.members if member.place == "shoulder fillet")
    # an unknown other side counts as rigid
    force = worst.steps["reversed_moment_Nm"] / 0.060
    assert force == pytest.approx(0.1e-3 * own, rel=0.03)
    soft = changed((bending, offset + 'stiffness_of_other_side = "10 kN/mm" }'))
    worst = next(member for member in soft.fatigue.members if member.place == "shoulder fillet")
    both = float(forced_offset_force(0.1e-3, force / 0.1e-3, 10e6))
    assert worst.steps["reversed_moment_Nm"] == pytest.approx(both * 0.060, rel=1e-9)
    assert any("stands still" in note for note in still.notes)
    assert any("turns with the shaft" in note for note in turns.notes)


def test_moments_at_a_distance_from_the_loads() -> None:
    loads = BendingLoads(1000.0, 0.070, 500.0, 0.060)
    assert loads.moments().still == pytest.approx(100.0)
    assert loads.moments(0.020).still == pytest.approx(30.0)
    assert loads.moments(0.065).still == pytest.approx(65.0 + 30.0)
    turned = replace(loads, turns_with_shaft=True).moments(0.020)
    assert (turned.still, turned.turning) == pytest.approx((20.0, 10.0))


EVERY_NOTCH = """notches = [
  { kind = "keyseat", width = "8 mm", depth = "4 mm", form = "sled-runner", loaded_by_key = false },
  { kind = "keyseat", width = "8 mm", depth = "4 mm", diameter = "32 mm" },
  { kind = "shoulder fillet", larger_diameter = "36 mm" },
  { kind = "cross hole", hole = "6 mm", name = "grease hole" },
  { kind = "spline run-out", larger_diameter = "36 mm", form = "straight" },
  { kind = "ring groove", diameter = "28.6 mm", width = "1.6 mm" },
  { kind = "ring groove", diameter = "28.6 mm" },
  { kind = "press fit edge" },
]
"""


def test_every_kind_of_notch_has_a_yield_and_a_fatigue_check() -> None:
    start, end = SHAFT.index("notches"), SHAFT.index("bending")
    found = assessed(base=BASE + SHAFT[:start] + EVERY_NOTCH + SHAFT[end:])
    joint = found.joints[1]
    names = [check.name for check in joint.checks]
    for place in (
        "keyseat",
        "keyseat 2",
        "shoulder fillet",
        "grease hole",
        "spline run-out",
        "ring groove",
        "ring groove 2",
        "press fit edge",
    ):
        assert names.count(f"yield, {place}") == 1
        assert names.count(f"fatigue, {place}") == 1
    by_place = {member.place: member.steps for member in joint.fatigue.members}
    assert by_place["keyseat"]["Kt"] == 1.7
    assert by_place["keyseat"]["Kfs"] < by_place["keyseat 2"]["Kfs"]
    assert by_place["ring groove"]["radius_mm"] == pytest.approx(0.16)
    assert by_place["press fit edge"]["Kt"] == 1.0 < by_place["press fit edge"]["Kf"]
    hole = by_place["grease hole"]
    y = 6.0 / 30.0
    tension = 4.0 - 6.793 * y + 38.382 * y**2 - 44.576 * y**3
    assert hole["Kts"] == pytest.approx(tension / math.sqrt(3.0), rel=1e-12)
    for steps in by_place.values():
        assert 1.0 <= steps["Kf"] <= max(steps["Kt"], 3.0 * 1.4**0.43)
    assumed = {entry.key for entry in found.assumptions}
    for number, field in (
        (1, "root_radius"),
        (2, "root_radius"),
        (3, "radius"),
        (5, "radius"),
        (7, "radius"),
    ):
        assert f"joint[2].notches[{number}].{field}" in assumed
    assert "joint[2].notches[6].radius" not in assumed
    assert joint.fatigue.to_dict()["de_goodman_factor"] == joint.fatigue.members[0].de_goodman


def test_old_fillet_is_taken_sharper_than_a_new_one() -> None:
    unknown = (', radius = "1.5 mm"', "")
    new = changed(unknown)
    old = changed(unknown, ("reused = false", 'reused = true\nhardness = "54 HRC"'))
    radius = {
        name: next(m for m in joint.fatigue.members if m.place.startswith("shoulder")).steps["radius_mm"]
        for name, joint in (("new", new), ("old", old))
    }
    assert radius == pytest.approx({"new": 0.6, "old": 0.3})


def test_bending_alone_without_notches_is_checked_at_the_plain_section() -> None:
    start, end = SHAFT.index("notches"), SHAFT.index("bending")
    joint = stub(shaft=SHAFT[:start] + SHAFT[end:])
    assert [member.place for member in joint.fatigue.members] == ["plain section"]
    assert joint.fatigue.members[0].steps["Kf"] == 1.0


def test_plain_shaft_keeps_its_checks_and_has_no_fatigue() -> None:
    joint = stub(shaft=SHAFT[: SHAFT.index("finish")])
    assert [check.name for check in joint.checks] == ["torsional shear"] * 2 + ["torsional yield"]
    assert joint.fatigue.verdict is None
    assert "notches" in joint.fatigue.reason
    assert prepared_of(loaded(base=BASE + SHAFT)).joints[1].fatigue is not None


def test_hard_layer_is_looked_at_on_the_surface_and_under_it() -> None:
    joint = changed(("4140_QT540", "8620_carb_63"))
    for member in joint.fatigue.members:
        names = [name for name, _ in member.places]
        assert [name.split(", ")[1] for name in names] == ["surface", "case-core boundary"]


def test_iron_has_no_fatigue_life_and_says_so() -> None:
    found = assessed(base=BASE + SHAFT.replace("4140_QT540", "DI_80_55_06"))
    fatigue = found.joints[1].fatigue
    assert fatigue.verdict is None
    assert "cast iron" in fatigue.reason
    assert any("stub: no fatigue life of the keyseat" in caution.text for caution in found.cautions)
    assert [check.name for check in found.joints[1].checks if check.name.startswith("fatigue")] == []


def test_ramp_search_looks_at_the_notches_too() -> None:
    slender = SHAFT.replace("30 mm", "26 mm").replace("1.8 kN", "4 kN").replace("0.6 mm", "0.3 mm")
    found = ramp(loaded(base=BASE + slender))
    assert any(words.startswith("stub: fatigue life too short") for words in found.besides)


@pytest.mark.parametrize(("radius", "odd"), [("0.3 mm", False), ("0.02 in", False), ("0.06 m", True)])
def test_small_radii_of_notches_are_as_usual_and_large_ones_a_slip(radius: str, odd: bool) -> None:
    """A corner of 0.2 to 0.8 mm is what tools leave; 60 mm is a slip of the unit."""
    shaft = (
        '\n[[joint]]\nkind = "shaft"\nname = "stub"\ndiameter = "100 mm"\nsteel = "1045_CD"\n'
        f'notches = [{{ kind = "shoulder fillet", larger_diameter = "220 mm", radius = "{radius}" }}]\n'
    )
    assessment = assessed(base=BASE + shaft)
    told = any("far outside what is usual" in caution.text for caution in assessment.cautions)
    assert told is odd
