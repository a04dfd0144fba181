"""No pass without the readings that could overturn it; no fail that a reading could still turn."""

from pathlib import Path

import pytest
from builder import BASE, assessed

from torqcheck.assessment import assess
from torqcheck.assessment.verdict.verdict import joint_verdict

SCENARIOS = Path(__file__).parents[2] / "scenarios"

SOUND = (
    ('peak_torque = "240 N*m"', 'peak_torque = "60 N*m"'),
    ('torque_rise = "4800 N*m/s"', 'rise_time = "0.5 s"'),
    ('tilt = { angle = "0.08 deg" }', 'tilt = { angle = "0.05 deg" }'),
)
NEW_HUB = 'steel = "8620_carb_63"\nreused = false'
UNMEASURED = {
    "tilt": (('tilt = { angle = "0.05 deg" }', 'tilt = "not measured"'), "tilt or runout"),
    "tilt left out": (('tilt = { angle = "0.05 deg" }\n', ""), "tilt or runout"),
    "nose": (("nose_supported = true\n", ""), "support of the shaft nose"),
    "lash": (('lash = { clearance = "0.05 mm" }', 'lash = "not measured"'), "lash"),
    "hardness of a reused part": (('hardness = "60 HRC +/- 1"\n', ""), "hardness of the external member"),
    "count of the shaft": (("{ teeth = 26, major", "{ major"), "tooth count of the external member"),
    "hub diameter": (('outside_diameter = "52 mm"\n', ""), "outside diameter of the internal member"),
    "as new beside an old part": (('lash = { clearance = "0.05 mm" }', 'lash = "as new"'), "lash"),
    "unknown steel": (
        (NEW_HUB, 'steel = "unknown"\nreused = false'),
        "steel or hardness of the internal member",
    ),
}


def test_with_every_reading_taken_it_is_a_pass() -> None:
    result = assessed(*SOUND)
    assert result.verdict == "pass"
    assert result.undecided_by == ()


@pytest.mark.parametrize("name", UNMEASURED)
def test_one_reading_missing_is_undecided_and_named(name: str) -> None:
    change, reading = UNMEASURED[name]
    result = assessed(*SOUND, change)
    assert result.verdict == "undecided"
    assert [entry.reading for entry in result.undecided_by] == [reading]
    assert result.undecided_by[0].how


def test_a_hub_not_said_to_be_new_is_judged_as_an_old_one() -> None:
    result = assessed(*SOUND, ("reused = false\n", ""))
    assert result.verdict == "undecided"
    asked = {entry.reading: entry.how for entry in result.undecided_by}
    assert set(asked) == {"hardness of the internal member", "whether the two parts are mates"}
    assert "minor diameter of the hub" in asked["whether the two parts are mates"]


def test_widths_that_the_reading_cannot_judge_are_no_pass() -> None:
    result = assess(SCENARIOS / "cider_press.toml")
    assert result.joints[0].mate is not None
    assert result.joints[0].mate.verdict == "not measured"
    assert result.verdict == "undecided"
    assert [entry.reading for entry in result.undecided_by] == ["whether the two parts are mates"]
    assert "micrometer" in result.undecided_by[0].how


def test_a_new_part_need_not_be_counted_or_tested() -> None:
    assert assessed(*SOUND, ("measured = { teeth = 26 }\n", "")).verdict == "pass"


def test_radial_play_stands_in_for_the_lash_and_says_so() -> None:
    result = assessed(*SOUND, ('lash = { clearance = "0.05 mm" }', 'radial_play = "0.04 mm"'))
    # a pilot can stop the radial play before the flanks do, so the lash itself is still wanted
    assert result.verdict == "undecided"
    assert [entry.reading for entry in result.undecided_by] == ["lash"]
    entry = next(e for e in result.assumptions if e.key == "joint[1].lash")
    assert entry.mark == "derived"
    assert "inferred" in entry.why
    # many-tooth limit: radial play = clearance x cos(pressure angle)
    assert entry.value == pytest.approx(0.04e-3 / 0.8660254, rel=0.02)


def test_a_fail_that_a_reading_could_turn_is_undecided() -> None:
    soft = assessed(
        *SOUND[1:],
        ('peak_torque = "240 N*m"', 'peak_torque = "100 N*m"'),
        ('steel = "8620_carb_63"\nreused = false', 'steel = "unknown"\nreused = true'),
    )
    assert any(check.verdict == "fail" for check in soft.joints[0].checks)
    assert soft.verdict == "undecided"


def test_a_fail_that_no_reading_can_turn_is_a_fail() -> None:
    result = assessed(
        ('peak_torque = "240 N*m"', 'peak_torque = "2400 N*m"'),
        ('steel = "8620_carb_63"\nreused = false', 'steel = "unknown"\nreused = true'),
    )
    assert result.verdict == "fail"


def test_different_counts_are_a_false_fit_whatever_the_stresses() -> None:
    result = assessed(*SOUND, ("measured = { teeth = 26 }", "measured = { teeth = 27 }"))
    assert result.verdict == "fail"
    mate = result.joints[0].mate
    assert mate is not None
    assert mate.verdict == "false fit"
    assert all(check.verdict == "pass" for check in result.joints[0].checks)
    # 26 into 27 at 24/48 lacks 0.102 in of metal; the same proportion of the pitch at 20/40 [derived]
    assert mate.missing == pytest.approx(0.102 * 0.0254 * 24 / 20, rel=0.01)


@pytest.mark.parametrize(("clearance", "verdict"), [("0.05 mm", "true mate"), ("0.25 mm", "worn mate")])
def test_equal_counts_are_judged_by_the_play(clearance: str, verdict: str) -> None:
    result = assessed(*SOUND, ('clearance = "0.05 mm"', f'clearance = "{clearance}"'))
    mate = result.joints[0].mate
    assert mate is not None
    assert mate.verdict == verdict


def test_weld_beside_the_teeth_counts_as_annealed() -> None:
    welded = assessed(*SOUND, ("reused = false", "reused = false\nwelded_near = true"))
    check = next(c for c in welded.joints[0].checks if c.name == "flank pressure")
    assert check.member == "internal"
    assert check.allowable == pytest.approx(1500 * 6894.757 * check.factors["life"], rel=1e-6)
    assert any("weld" in caution.key for caution in welded.cautions)


def test_unsupported_nose_adds_tilt_and_warns() -> None:
    sound = assessed(*SOUND)
    rocking = assessed(*SOUND, ("nose_supported = true", "nose_supported = false"))
    assert sound.joints[0].tilt is not None
    assert rocking.joints[0].tilt is not None
    assert rocking.joints[0].tilt > sound.joints[0].tilt
    assert any("carries the shaft end" in caution.text for caution in rocking.cautions)


def test_lash_beyond_its_limit_is_a_fail_of_wear() -> None:
    worn = assessed(*SOUND, ('clearance = "0.05 mm"', 'clearance = "0.45 mm"'))
    assert worn.verdict == "fail"
    wear = worn.joints[0].wear
    assert wear is not None
    assert "at or beyond its limit now" in wear.reason


@pytest.mark.parametrize(
    ("found", "favourable", "here", "anywhere", "verdict"),
    [
        ("pass", "pass", False, False, "pass"),
        ("pass", "pass", True, True, "undecided"),
        ("marginal", "pass", True, True, "undecided"),
        ("fail", "pass", True, True, "undecided"),
        ("fail", "fail", True, True, "fail"),
        ("fail", "marginal", False, True, "undecided"),
        ("pass", "pass", False, True, "pass"),
        ("fail", "fail", False, False, "fail"),
    ],
)
def test_what_is_missing_weighs(found, favourable, here, anywhere, verdict) -> None:  # type: ignore[no-untyped-def]
    assert joint_verdict(found, favourable, missing_here=here, missing_anywhere=anywhere) == verdict


def test_lash_missing_at_one_joint_leaves_the_others_undecided_too() -> None:
    second = "[[joint]]" + BASE.split("[[joint]]")[1]
    second = second.replace('"gearbox input"', '"second"').replace('lash = { clearance = "0.05 mm" }\n', "")
    result = assessed(*SOUND, base=BASE + "\n" + second)
    assert [joint.verdict for joint in result.joints] == ["undecided", "undecided"]


def test_a_rocking_nose_slips_even_if_the_measured_error_turns_with_the_shaft() -> None:
    turning = ('tilt = { angle = "0.05 deg" }', 'tilt = { angle = "0.05 deg", turns_with_shaft = true }')
    loose = ('clearance = "0.05 mm"', 'clearance = "0.10 mm"')
    result = assessed(*SOUND, turning, loose, ("nose_supported = true", "nose_supported = false"))
    wear = result.joints[0].wear
    assert wear is not None
    assert wear.life is not None


@pytest.mark.parametrize("crown", ["0.001 mm", "0.005 mm"])
def test_a_token_crown_is_no_better_than_a_straight_tooth(crown: str) -> None:
    tilted = ('tilt = { angle = "0.05 deg" }', 'tilt = { angle = "0.3 deg" }')
    straight = assessed(*SOUND, tilted)
    crowned = assessed(*SOUND, tilted, ("nose_supported", f'crown_height = "{crown}"\nnose_supported'))
    factors = [
        min(c.safety_factor or 0.0 for c in result.joints[0].checks if c.name == "flank pressure")
        for result in (straight, crowned)
    ]
    assert factors[1] == factors[0]
    assert any("crowned flank reaches the end" in caution.text for caution in crowned.cautions)


@pytest.mark.parametrize(
    ("measured", "mate"),
    [("{ teeth = 8 }", "not measured"), ('{ teeth = 8, major_diameter = "37.8 mm" }', "true mate")],
)
def test_straight_sides_of_one_count_need_a_diameter_too(measured: str, mate: str) -> None:
    # ISO 14: 8x32x36 (light) and 8x32x38 (medium) have the same count, bore and tooth width
    result = assessed(
        ('kind = "involute spline"', 'kind = "straight spline"'),
        ('"ansi b92.1"', '"iso 14"'),
        ('{ teeth = 26, pitch = "20/40", pressure_angle = "30 deg", root = "flat" }',
         '{ designation = "8x32x38", chamfer = "0.4 mm" }'),
        ('{ teeth = 26, major_diameter = "1.345 in" }', measured),
        ("measured = { teeth = 26 }", "measured = { teeth = 8 }"),
    )  # fmt: skip
    found = result.joints[0].mate
    assert found is not None
    assert found.verdict == mate
    asked = "whether the two parts are mates" in [entry.reading for entry in result.undecided_by]
    assert asked == (mate == "not measured")


SAW = (
    ('teeth = 26, pitch = "20/40", pressure_angle = "30 deg", root = "flat"',
     'teeth = 24, pitch = "24/48", pressure_angle = "45 deg", root = "fillet"'),
    ('measured = { teeth = 26, major_diameter = "1.345 in" }',
     'measured = { teeth = 24, major_diameter = "26.4 mm", over_pins = "28.6 mm", pin = "2.032 mm" }'),
    ("measured = { teeth = 26 }", "measured = { teeth = 24 }"),
)  # fmt: skip
WIDE_AND_SLOW = ('outside_diameter = "52 mm"', 'outside_diameter = "60 mm"')


def test_wear_that_another_spline_would_imitate_is_no_fail_before_the_reading_that_tells_them_apart() -> None:
    result = assessed(*SOUND, *SAW, WIDE_AND_SLOW)
    mate, wear = result.joints[0].mate, result.joints[0].wear
    assert mate is not None
    assert wear is not None
    assert mate.verdict == "not measured"
    assert any("would read the same" in reason for reason in mate.reasons)
    assert wear.verdict == "fail"
    assert result.verdict == "undecided"
    assert "whether the two parts are mates" in [entry.reading for entry in result.undecided_by]


def test_wear_that_nothing_imitates_stays_a_fail() -> None:
    # tips and pins of this one leave no other spline of 26 teeth
    thin = ('major_diameter = "1.345 in" }', 'major_diameter = "1.345 in", over_pins = "1.404 in", '
            'pin = "0.096 in" }')  # fmt: skip
    result = assessed(*SOUND, thin)
    assert result.verdict == "fail"


def test_the_loss_of_a_tooth_is_said_with_what_it_is_counted_from() -> None:
    result = assessed(*SOUND, *SAW, WIDE_AND_SLOW)
    wear = result.joints[0].wear
    assert wear is not None
    # width of the stated tooth as if unworn 1.874 mm; 1.644 mm follow from 28.6 mm over pins of 2.032 mm
    assert "1.644 mm thick, new at most 1.874 mm: 0.230 mm or 12.3 % are gone, 10 % may be" in wear.reason
    assert pytest.approx(0.123, abs=5e-4) == 1.0 - 1.644 / 1.874
