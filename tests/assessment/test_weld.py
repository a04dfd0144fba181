"""A circular weld in a whole path: its stresses and cycles by bare arithmetic, and when it is trusted."""

from functools import cache
from math import exp, pi, sqrt
from pathlib import Path

import pytest
from builder import BASE, edited
from hypothesis import given, settings
from hypothesis import strategies as st

from torqcheck.assessment import Assessment, assess
from torqcheck.assessment.prepared import checks_at, prepared_of
from torqcheck.assessment.result import JointResult
from torqcheck.checks import Check
from torqcheck.errors import ScenarioError
from torqcheck.fatigue import BENDING_SLOPE, FILLET_BENDING_CLASS, weld_range
from torqcheck.scenario import Scenario, scenario_from_text

WELD = """
[[joint]]
name = "yoke weld"
kind = "weld"
diameter = "60 mm"
leg = "5 mm"
electrode = "E70"
wall = "6 mm"
shaft = { steel = "1020_HR", reused = false }
hub = { steel = "1018_HR", reused = false }
"""
KSI = 6.894757293168e6


def scenario_of(text: str) -> Scenario:
    return scenario_from_text(text.encode(), Path("test.toml"))


def weld(*changes: tuple[str, str]) -> str:
    return BASE + edited(*changes, base=WELD)


@cache
def assessed(text: str) -> Assessment:
    return assess(scenario_of(text))


def joint_of(text: str) -> JointResult:
    return assessed(text).joints[-1]


def check_of(text: str, name: str) -> Check:
    (found,) = (check for check in joint_of(text).checks if check.name == name)
    return found


def cautions(text: str) -> str:
    return "\n".join(caution.text for caution in prepared_of(scenario_of(text)).ledger.cautions)


def missing(text: str) -> list[str]:
    ledger = prepared_of(scenario_of(text)).ledger
    return [entry.reading for entry in ledger.missing if entry.joint == "yoke weld"]


# static


def test_the_throat_carries_the_torque_along_the_weld() -> None:
    check = check_of(weld(), "throat shear")
    assert (check.method, check.member) == ("larger load", "weld")
    assert check.value == pytest.approx(check.torque / (2 * pi * 0.030**2 * 0.707 * 0.005), rel=1e-9)
    assert check.allowable == pytest.approx(21 * KSI, rel=1e-9)


def test_both_sides_carry_half_each() -> None:
    one, both = (
        check_of(text, "throat shear") for text in (weld(), weld(("leg =", "both_sides = true\nleg =")))
    )
    assert both.value == pytest.approx(0.5 * one.value, rel=1e-9)


def test_a_bending_moment_stands_at_right_angles() -> None:
    check = check_of(weld(("leg =", 'bending_moment = "250 N*m"\nleg =')), "throat shear")
    torsion = check.torque / (2 * pi * 0.030**2 * 0.707 * 0.005)
    bending = 250.0 / (pi * 0.030**2 * 0.707 * 0.005)
    assert check.value == pytest.approx(sqrt(torsion**2 + bending**2), rel=1e-9)
    leg = check_of(weld(("leg =", 'bending_moment = "250 N*m"\nleg =')), "base metal at the leg")
    assert leg.value == pytest.approx(0.707 * check.value, rel=1e-9)


def test_the_leg_is_held_against_the_softer_part() -> None:
    check = check_of(weld(), "base metal at the leg")
    assert check.member == "shaft"
    assert check.value == pytest.approx(check.torque / (2 * pi * 0.030**2 * 0.005), rel=1e-9)
    assert check.allowable == pytest.approx(0.40 * 210e6, rel=1e-9)


def test_a_weld_through_the_wall_carries_by_the_wall_and_has_no_leg() -> None:
    text = weld(('leg = "5 mm"', 'penetration = "full"'))
    check = check_of(text, "throat shear")
    assert check.value == pytest.approx(check.torque / (2 * pi * 0.030**2 * 0.006), rel=1e-9)
    assert [c.name for c in joint_of(text).checks if c.name == "base metal at the leg"] == []


def test_the_tube_beside_the_weld_yields_by_its_wall() -> None:
    check = check_of(weld(), "torsional yield beside the weld")
    assert check.value == pytest.approx(16 * check.torque * 0.060 / (pi * (0.060**4 - 0.048**4)), rel=1e-9)
    assert check.allowable == pytest.approx(0.577 * 210e6, rel=1e-9)
    assert check.target == 1.5


@pytest.mark.parametrize(
    ("wanted", "throat", "leg"),
    # 0.577 x 57/21 = 1.566 and 0.577/0.40 = 1.4425 stand in the allowables already
    [("1.2", 1.0, 1.0), ("1.5", 1.0, 1.5 / 1.4425), ("2.5", 2.5 / (0.577 * 57 / 21), 2.5 / 1.4425)],
)
def test_a_factor_that_the_allowable_holds_is_not_asked_for_twice(
    wanted: str, throat: float, leg: float
) -> None:
    text = weld().replace("safety_factor = 1.5", f"safety_factor = {wanted}")
    assert check_of(text, "throat shear").target == pytest.approx(throat, rel=1e-9)
    assert check_of(text, "base metal at the leg").target == pytest.approx(leg, rel=1e-9)


def test_hardened_and_cold_drawn_steel_is_annealed_beside_the_weld() -> None:
    drawn = weld(('shaft = { steel = "1020_HR"', 'shaft = { steel = "1020_CD"'))
    assert check_of(drawn, "torsional yield beside the weld").allowable < 0.577 * 210e6
    assert "annealed beside the weld" in {entry.word for entry in assessed(drawn).assumptions}
    again = drawn.replace("leg =", 'post_weld = "heat treated"\nleg =')
    assert check_of(again, "torsional yield beside the weld").allowable == pytest.approx(
        0.577 * 352e6, rel=1e-9
    )


@settings(max_examples=25, deadline=None)
@given(st.floats(min_value=1.0, max_value=1e4), st.floats(min_value=1.01, max_value=10.0))
def test_factors_fall_in_proportion_to_the_torque(peak: float, times: float) -> None:
    steady = 240.0 * 2.5 * 0.97 * 1.2
    one, more = (checks_at(PREPARED, 1, factor * (peak + steady)) for factor in (1.0, times))
    for check, harder in zip(one, more, strict=True):
        assert check.safety_factor is not None
        assert harder.safety_factor == pytest.approx(check.safety_factor / times, rel=1e-9)


PREPARED = prepared_of(scenario_of(BASE + WELD))


# fatigue


def test_damage_of_the_torque_cycles_by_class_80() -> None:
    joint = joint_of(weld())
    (member,) = joint.fatigue.members
    per = 1.0 / (2 * pi * 0.030**2 * 0.707 * 0.005)
    damage = sum(
        kind.per_hour * (per * (kind.torque_high - kind.torque_low) / 80e6) ** 5 / 2e6
        for kind in member.cycles
    )
    assert member.damage_per_hour == pytest.approx(damage, rel=1e-9)
    start = next(kind for kind in member.cycles if kind.name == "starting")
    # from full drive with its blow to full regeneration with its own, twenty times an hour in all
    assert start.per_hour == 20.0
    assert start.torque_high >= 240.0 * 2.5 * 0.97 * 2.4 / 2.45
    assert start.torque_low <= -90.0 * 2.5 / 0.97 * 0.9
    assert joint.fatigue.service_damage == pytest.approx(400.0 * damage, rel=1e-9)


def test_ringing_counts_in_full_cycles_by_the_slope_of_the_weld() -> None:
    ringing = [kind for kind in joint_of(weld()).fatigue.members[0].cycles if "ringing" in kind.name]
    decrement = 2 * pi * 0.03 / sqrt(1 - 0.03**2)
    assert ringing
    for kind in ringing:
        starts = 20.0  # both spells: as written, and as assumed
        assert kind.per_hour == pytest.approx(starts / (1 - exp(-5.0 * decrement)), rel=1e-9)


def test_a_weld_through_the_wall_is_class_100() -> None:
    fillet = joint_of(weld()).fatigue.members[0].damage_per_hour
    full = joint_of(weld(('leg = "5 mm"', 'penetration = "full"'))).fatigue.members[0].damage_per_hour
    assert full == pytest.approx(fillet * (0.707 * 5 / 6 * 80 / 100) ** 5, rel=1e-6)


def test_the_check_of_fatigue_is_one_at_damage_one_and_on_target_at_what_passes() -> None:
    joint, check = joint_of(weld()), check_of(weld(), "fatigue, weld")
    assert check.safety_factor == pytest.approx((1.0 / joint.fatigue.service_damage) ** 0.2, rel=1e-9)
    assert check.target == pytest.approx((1.0 / 0.3) ** 0.2, rel=1e-9)


def test_a_small_weld_fails_in_fatigue_before_it_fails_in_strength() -> None:
    text = weld(('"60 mm"', '"44 mm"'), ('leg = "5 mm"', 'leg = "4 mm"'))
    text = text.replace("events_per_hour = 20", "events_per_hour = 6000").replace("400 hour", "4000 hour")
    joint = joint_of(text)
    assert joint.fatigue.verdict == "fail"
    assert joint.verdict == "fail"
    assert (check_of(text, "throat shear").safety_factor or 0.0) > 1.0
    assert joint.fatigue.life is not None
    assert joint.fatigue.life / 3600 * joint.fatigue.members[0].damage_per_hour == pytest.approx(
        1.0, rel=1e-9
    )


def test_bending_adds_a_reversed_cycle_for_every_turn() -> None:
    text = weld(("leg =", 'bending_moment = "250 N*m"\nleg ='))
    turning = [kind for kind in joint_of(text).fatigue.members[0].cycles if "turning" in kind.name]
    assert [kind.name.split(",")[0] for kind in turning] == ["starting", "running"]
    bending = 250.0 / (pi * 0.030**2 * 0.707 * 0.005)
    assert all(kind.amplitude == pytest.approx(bending, rel=1e-9) for kind in turning)
    # 2000 rev/min of the motor, 2.5 to 1, nine tenths of the time
    assert turning[1].per_hour == pytest.approx(2000 / 2.5 * 60 * 0.9, rel=1e-9)
    # across the throat of a fillet: class 36, slope 3 (IIW, from memory)
    assert turning[1].life == pytest.approx(2e6 * (36e6 / (2 * bending)) ** 3, rel=1e-9)


def test_bending_across_a_weld_through_the_wall_has_a_class_of_its_own() -> None:
    through = ('leg = "5 mm"', 'penetration = "full"\nbending_moment = "250 N*m"')
    member = joint_of(weld(through)).fatigue.members[0]
    (running,) = (kind for kind in member.cycles if kind.name.startswith("running"))
    # from its toe: class 71, slope 3 (from memory); beside it class 100, slope 5 for the torque
    assert running.life == pytest.approx(2e6 * (71e6 / (2 * running.amplitude)) ** 3, rel=1e-9)
    torque = next(kind for kind in member.cycles if "turning" not in kind.name)
    assert torque.life == pytest.approx(2e6 * (100e6 / (2 * torque.amplitude)) ** 5, rel=1e-9)


def test_a_weld_that_turns_under_bending_is_not_as_good_as_one_in_torsion() -> None:
    """67 million turns: 39.6 MPa of range in shear, 11.2 MPa across the throat."""
    assert weld_range(6.7e7) == pytest.approx(39.63e6, rel=1e-3)
    borne = weld_range(6.7e7, FILLET_BENDING_CLASS, BENDING_SLOPE)
    assert borne == pytest.approx(36e6 * (2e6 / 6.7e7) ** (1 / 3), rel=1e-12)
    assert borne < 0.3 * weld_range(6.7e7)


def test_beside_it_stands_the_view_by_a_notch_factor() -> None:
    member = joint_of(weld()).fatigue.members[0]
    steps = member.steps
    assert steps["Kfs"] == 2.7
    limit = min(0.5 * 70 * 6.894757, 700) * min(1.0, 272.0 * (70 * 6.894757) ** -0.995) * 0.59
    assert steps["Sse_MPa"] == pytest.approx(limit, rel=1e-6)
    worst = min(
        1.0 / (2.7 * kind.amplitude / 1e6 / limit + 2.7 * abs(kind.mean) / 1e6 / (0.67 * 70 * 6.894757))
        for kind in member.cycles
    )
    assert steps["endless_life_factor_by_Kfs"] == pytest.approx(worst, rel=1e-3)


def test_without_torque_cycles_there_is_no_life_to_state() -> None:
    joint = joint_of(weld().replace("torque = 1.0", "torque = 0.0").replace("torque = 0.3", "torque = 0.0"))
    assert joint.fatigue.verdict is None
    assert joint.fatigue.reason == "the duty list holds no torque cycles"


def test_the_fatigue_of_a_weld_stands_in_table_and_life() -> None:
    from torqcheck.report.fatigue import fatigue_table

    table = fatigue_table(assessed(weld()), ("si",))
    assert table is not None
    assert [row[3] for row in table.rows][-1] == "weld, throat, class 80"
    assert "At a weld both are ranges" in table.legend
    without = fatigue_table(assessed(BASE), ("si",))
    assert without is not None
    assert "At a weld" not in without.legend


# soundness


def steels(shaft: str, *more: str) -> str:
    return weld(('steel = "1020_HR"', f'steel = "{shaft}"'), ("leg =", "\n".join((*more, "leg ="))))


HOT, RELIEVED, TESTED = 'preheat = "260 degC"', 'post_weld = "stress relieved"', "crack_tested = true"


def test_mild_steel_needs_no_statement() -> None:
    assert missing(weld(("leg =", 'thickness = "20 mm"\nleg ='))) == []


def test_thick_mild_steel_wants_to_be_warm() -> None:
    # the diameter counts where no thickness is stated
    assert missing(weld()) == ["soundness of the weld"]
    assert missing(weld(("leg =", 'preheat = "90 degC"\nleg ='))) == []


@pytest.mark.parametrize(
    ("shaft", "statements", "says"),
    [
        ("1045_HR", (), "needs a preheat of 200 to 260 C"),
        ("1045_HR", ('thickness = "20 mm"',), "needs a preheat of 150 to 200 C"),
        ("1045_HR", ('preheat = "120 degC"',), "it was welded at 120 degC"),
        ("1045_HR", (HOT,), ""),
        ("4140_ann", (HOT,), "must be kept warm after welding"),
        ("4140_ann", (HOT, 'post_weld = "slow cooled"'), ""),
        ("4140_QT425", (HOT, 'post_weld = "slow cooled"'), "was hardened before it was welded"),
        (
            "4140_QT425",
            (RELIEVED,),
            "0.78, 60 mm thick (the diameter: no thickness is stated), needs a preheat of 200",
        ),
        ("4140_QT425", (HOT, RELIEVED), ""),
        ("4140_QT425", (HOT, 'post_weld = "heat treated"'), ""),
        ("4140_QT425", (TESTED,), ""),
        ("8620_carb_63", (HOT, RELIEVED), "has a hard layer"),
        ("8620_carb_63", (HOT, 'post_weld = "heat treated"'), ""),
        ("8620_carb_63", (TESTED,), ""),
        ("1144_CD", (HOT, RELIEVED), "the sulphur of 1144_CD makes it crack hot"),
        ("1144_CD", (TESTED,), ""),
        ("17_4PH_H1025", (HOT, RELIEVED), "how readily 17_4PH_H1025 cracks beside a weld is not known"),
        ("17_4PH_H1025", (TESTED,), ""),
        ("DI_80_55_06", (HOT,), "how readily DI_80_55_06 cracks"),
    ],
)
def test_a_weld_that_may_have_cracked_is_not_passed(
    shaft: str, statements: tuple[str, ...], says: str
) -> None:
    # the hub is thick, and warm enough for mild steel in every case that must be clear
    text = steels(shaft, *statements)
    if says:
        assert missing(text) == ["soundness of the weld"]
        assert says in cautions(text)
    else:
        assert missing(text) == []


def test_a_crack_test_clears_but_says_what_it_stands_against() -> None:
    said = cautions(steels("4140_QT425", TESTED))
    assert "was hardened before it was welded" in said
    assert "The crack test that is stated outweighs that." in said


def test_what_is_missing_makes_a_sound_weld_undecided() -> None:
    assert joint_of(steels("4140_QT425", RELIEVED)).verdict == "undecided"
    assert joint_of(steels("4140_QT425", HOT, RELIEVED)).verdict == "pass"


def test_a_weld_that_fails_is_not_made_undecided() -> None:
    text = weld(('"60 mm"', '"30 mm"'), ('"6 mm"', '"3 mm"'), ('leg = "5 mm"', 'leg = "2 mm"'))
    assert joint_of(text).verdict == "fail"


@pytest.mark.parametrize(
    ("distance", "far", "near"), [("70 mm", False, False), ("40 mm", True, False), ("12 mm", True, True)]
)
def test_teeth_within_a_diameter_are_said(distance: str, far: bool, near: bool) -> None:
    said = cautions(weld(("leg =", f'distance_to_teeth = "{distance}"\nleg =')))
    assert (f"the weld is {distance} from the teeth. Keep welds a diameter" in said) is far
    assert ("write welded_near = true" in said) is near


# the block


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ((('leg = "5 mm"\n', ""),), "joint[2].leg: is missing; give the leg of the fillet"),
        (
            (('leg = "5 mm"', 'penetration = "full"'), ('wall = "6 mm"\n', "")),
            "joint[2].wall: is missing beside full penetration",
        ),
        (
            (('leg = "5 mm"', 'penetration = "full"\nboth_sides = true'),),
            "joint[2].both_sides: true contradicts full penetration",
        ),
        ((('wall = "6 mm"', 'wall = "30 mm"'),), 'joint[2].wall: "30 mm" is half the diameter or more'),
        ((('leg = "5 mm"', 'leg = "31 mm"'),), 'joint[2].leg: "31 mm" is above half the diameter'),
        ((('"E70"', '"E75"'),), "joint[2].electrode"),
    ],
)
def test_what_cannot_be_about_a_weld(changes: tuple[tuple[str, str], ...], says: str) -> None:
    with pytest.raises(ScenarioError) as caught:
        scenario_of(weld(*changes))
    assert says in str(caught.value)


def test_a_bar_needs_no_wall() -> None:
    check = check_of(weld(('wall = "6 mm"\n', "")), "torsional yield beside the weld")
    assert check.value == pytest.approx(16 * check.torque / (pi * 0.060**3), rel=1e-9)
