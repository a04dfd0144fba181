"""A sleeve in a whole path: its wall at the weaker end by bare arithmetic, its stiffness, what is said."""

from functools import cache
from math import cos, hypot, pi, radians, sqrt, tan
from pathlib import Path

import pytest
from assessment._sleeve_path import path_with
from builder import BASE
from hypothesis import given, settings
from hypothesis import strategies as st

from torqcheck.assessment import Assessment, assess
from torqcheck.assessment.prepared import Prepared, checks_at, prepared_of
from torqcheck.assessment.result import JointResult
from torqcheck.checks import Check
from torqcheck.scenario import Scenario, scenario_from_text

TUBE = """
[[joint]]
name = "tube"
kind = "sleeve"
outside_diameter = "60 mm"
length = "300 mm"
inside_diameter = "54 mm"
steel = "1020_CD"
reused = false
"""
KEYED = """
[[joint]]
name = "keyed"
kind = "sleeve"
outside_diameter = "60 mm"
length = "80 mm"
keyway = { bore = "38 mm", width = "10 mm", depth = "3.3 mm" }
steel = "1020_CD"
reused = false
"""


def scenario_of(text: str) -> Scenario:
    return scenario_from_text(text.encode(), Path("test.toml"))


@cache
def assessed(text: str) -> Assessment:
    return assess(scenario_of(text))


def joint_named(result: Assessment, name: str) -> JointResult:
    (found,) = (joint for joint in result.joints if joint.name == name)
    return found


def check_named(result: Assessment, joint: str, name: str) -> Check:
    (found,) = (check for check in joint_named(result, joint).checks if check.name == name)
    return found


def cautions(text: str) -> str:
    return "\n".join(caution.text for caution in assessed(text).cautions)


def wall_shear(torque: float, outside: float, inside: float) -> float:
    return 16.0 * torque * outside / (pi * (outside**4 - inside**4))


def under(prepared: Prepared, index: int, peak: float) -> dict[str, Check]:
    return {check.name: check for check in checks_at(prepared, index, peak)}


def test_a_tube_stands_once_under_the_larger_load() -> None:
    check = check_named(assessed(BASE + TUBE), "tube", "torsional yield of the wall")
    assert (check.method, check.member) == ("larger load", "sleeve")
    # 240 x 2.5 x 0.97 x Ka 1.2 of a uniform motor and light shock, or the blow
    steady = 240.0 * 2.5 * 0.97 * 1.2
    assert check.torque == pytest.approx(max(steady, joint_named(assessed(BASE + TUBE), "tube").peak_torque))
    assert check.value == pytest.approx(wall_shear(check.torque, 0.060, 0.054), rel=1e-9)
    assert check.allowable == pytest.approx(0.577 * 352e6, rel=1e-3)
    assert check.target == 1.5


def test_rotation_of_a_tube_adds_its_hoop() -> None:
    check = check_named(assessed(BASE + TUBE), "tube", "bursting with torsion")
    speed = 4000 * pi / 30 / 2.5
    hoop = 7850 * speed**2 / 16 * (3.3 * 0.060**2 + 0.7 * 0.054**2)
    assert check.value == pytest.approx(
        sqrt(hoop**2 + 3 * wall_shear(check.torque, 0.060, 0.054) ** 2), rel=1e-3
    )


def test_the_wall_begins_at_the_corner_of_a_keyway() -> None:
    check = check_named(assessed(BASE + KEYED), "keyed", "torsional yield of the wall")
    corner = 2.0 * hypot(5e-3, 19e-3 + 3.3e-3)
    assert check.value == pytest.approx(wall_shear(check.torque, 0.060, corner), rel=1e-9)


def test_the_wall_is_that_of_the_weaker_end() -> None:
    # 26 teeth 20/40: 1.300 in pitch, grooves to 1.3675 in; 18 teeth module 2: 36 mm, grooves to 39 mm
    check = check_named(assessed(path_with()), "sleeve", "torsional yield of the wall")
    assert check.value == pytest.approx(wall_shear(check.torque, 0.058, 0.039), rel=1e-9)


def test_a_smaller_end_takes_over_as_the_weakest() -> None:
    # 58 mm over 39 mm at the one end, 44 mm over 34.7 mm at the other
    result = assessed(path_with(("[joint.internal]\n", '[joint.internal]\noutside_diameter = "44 mm"\n')))
    check = check_named(result, "sleeve", "torsional yield of the wall")
    assert check.value == pytest.approx(wall_shear(check.torque, 0.044, 1.3675 * 0.0254), rel=1e-4)
    assert "Right for a stepped sleeve" in "\n".join(caution.text for caution in result.cautions)


def test_radial_tooth_load_and_rotation_burst_and_torque_twists_together() -> None:
    check = check_named(assessed(path_with()), "sleeve", "bursting with torsion")
    speed, torque = 4000 * pi / 30 / 2.5, check.torque
    sides = []
    for pitch, grooves, length in ((0.036, 0.039, 0.034), (1.3 * 0.0254, 1.3675 * 0.0254, 1.25 * 0.0254)):
        wall = 0.5 * (0.058 - grooves)
        radial = torque * tan(radians(30)) / (pi * pitch * wall * length)
        spin = 7850 * speed**2 / 16 * (3.3 * 0.058**2 + 0.7 * grooves**2)
        sides.append(sqrt((radial + spin) ** 2 + 3 * wall_shear(torque, 0.058, grooves) ** 2))
    assert check.value == pytest.approx(max(sides), rel=1e-3)


def test_a_measured_groove_that_is_deeper_thins_the_wall() -> None:
    text = path_with()
    deeper = text[: text.rindex("measured")] + 'measured = { teeth = 18, major_diameter = "39.6 mm" }\n'
    check = check_named(assessed(deeper), "sleeve", "torsional yield of the wall")
    assert check.value == pytest.approx(wall_shear(check.torque, 0.058, 0.0396), rel=1e-9)


def test_the_sleeve_twists_between_its_meshes_by_its_free_bore() -> None:
    prepared = prepared_of(scenario_of(path_with()))
    stiffness = 80e9 * pi / 32 * (0.058**4 - 0.036**4) / 0.080
    assert prepared.joints[1].stiffness == pytest.approx(stiffness, rel=1e-9)
    assert "sleeve" in dict(prepared.path.compliance)


def test_a_tube_that_does_not_float_twists_over_its_length() -> None:
    prepared = prepared_of(scenario_of(BASE + TUBE))
    assert prepared.joints[1].stiffness == pytest.approx(
        80e9 * pi / 32 * (0.060**4 - 0.054**4) / 0.300, rel=1e-9
    )


@settings(max_examples=25, deadline=None)
@given(st.floats(min_value=10.0, max_value=5000.0), st.floats(min_value=1.01, max_value=5.0))
def test_factors_fall_in_proportion_to_the_torque_where_nothing_turns(peak: float, times: float) -> None:
    prepared = STILL
    steady = 240.0 * 2.5 * 0.97 * 1.2
    one, more = under(prepared, 1, peak + steady), under(prepared, 1, times * (peak + steady))
    for name, check in one.items():
        assert check.safety_factor is not None
        assert more[name].safety_factor == pytest.approx(check.safety_factor / times, rel=1e-9)


STILL = prepared_of(
    scenario_of(
        path_with(
            ('max_speed = "4000 rpm"', 'max_speed = "0.001 rpm"'),
            ('speed = "600 rpm"', 'speed = "0 rpm"'),
            ('speed = "2000 rpm"', 'speed = "0 rpm"'),
        )
    )
)


@pytest.mark.parametrize(
    ("outside", "says"),
    [("50 mm", "is thin: 0.14"), ("56 mm", "is on the thin side: 0.22"), ("59 mm", "")],
)
def test_a_thin_wall_over_the_teeth_is_said(outside: str, says: str) -> None:
    text = cautions(path_with(('"58 mm"', f'"{outside}"')))
    assert (says in text) if says else "the wall over" not in text


def test_a_thin_tube_without_teeth_is_only_a_tube() -> None:
    assert "the wall over" not in cautions(BASE + TUBE)


def test_a_long_tube_whirls() -> None:
    # 1.21e8 sqrt(60^2 + 54^2)/L^2 rev/min against 1600 at the joint: above 0.7 of it beyond 2066 mm
    assert "whirls" not in cautions(BASE + TUBE.replace("300 mm", "2040 mm"))
    said = cautions(BASE + TUBE.replace("300 mm", "2090 mm"))
    assert "tube: it whirls at 22" in said
    assert "the top speed of 1600 rev/min is above 0.7 of that" in said


def test_a_floating_sleeve_hangs_in_its_play_and_pulls() -> None:
    mass = 7850 * pi / 4 * (0.058**2 - 0.036**2) * 0.120
    beside = 0.5 * 0.08e-3 * cos(radians(30))
    said = cautions(path_with(('max_speed = "4000 rpm"', 'max_speed = "20000 rpm"')))
    force = mass * beside * (20000 * pi / 30 / 2.5) ** 2
    assert f"it weighs {mass:.2f} kg" in said
    assert f"hangs {beside * 1e3:.2f} mm beside the axis" in said
    assert f"pulls there with {force:.0f} N, {force / mass / 9.81:.1f} times its weight" in said
    assert "pulls there" not in cautions(path_with(('max_speed = "4000 rpm"', 'max_speed = "3000 rpm"')))


def test_a_sleeve_that_does_not_float_hangs_nowhere() -> None:
    assert "nothing but its teeth carries it" not in cautions(path_with(floats=""))


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (('end_play = "1 mm"\n', ""), "needs a stop at both ends and end play"),
        (('end_play = "1 mm"', 'end_play = "0 mm"'), "without end play the sleeve pushes"),
    ],
)
def test_end_play_is_asked_for(change: tuple[str, str], says: str) -> None:
    assert says in cautions(path_with(change))
    assert "end play" not in cautions(path_with())


def test_two_steels_in_one_piece_are_said() -> None:
    said = cautions(
        path_with(
            ('steel = "4140_QT540"\nreused = false\nfloats', 'steel = "1045_CD"\nreused = false\nfloats')
        )
    )
    assert "it is 1045_CD, the hub of drum 4140_QT540. One piece has one steel" in said
    assert "One piece has one" not in cautions(path_with())


def test_a_reused_sleeve_of_unknown_hardness_gets_no_pass() -> None:
    result = assessed(BASE + TUBE.replace("reused = false", "reused = true"))
    assert any(entry.reading == "hardness of the sleeve" for entry in result.undecided_by)
    assert joint_named(result, "tube").verdict == "undecided"


def test_calipers_over_a_thin_wall_widen_the_range_of_its_factor() -> None:
    def width(inside: str) -> float:
        text = BASE + TUBE.replace('"54 mm"', f'"{inside}"')
        check = check_named(assessed(text), "tube", "torsional yield of the wall")
        assert check.interval is not None
        low, high = check.interval
        assert check.safety_factor is not None
        assert low < check.safety_factor < high
        return (high - low) / check.safety_factor

    # 0.05 mm of two calipers on a wall of 1 mm and of 12 mm; what is left is the tolerance of the torque
    assert width("58 mm") > 1.1 * width("36 mm")


def test_fatigue_of_the_wall_and_of_the_corner_of_a_keyway() -> None:
    tube, keyed = joint_named(assessed(BASE + TUBE), "tube"), joint_named(assessed(BASE + KEYED), "keyed")
    assert [member.place for member in tube.fatigue.members] == ["wall"]
    assert [member.place for member in keyed.fatigue.members] == ["keyway", "wall"]
    corner, wall = keyed.fatigue.members
    assert corner.damage_per_hour is not None
    assert wall.damage_per_hour is not None
    assert corner.damage_per_hour > wall.damage_per_hour
    # 3.0 at r/d 0.02 with the key pressing, and along the curve of the keyseat from there
    (radius,) = (one.value for one in assessed(BASE + KEYED).assumptions if one.key == "joint[2].root_radius")
    assert radius is not None

    def curve(z: float) -> float:
        return 1.953 + 0.1434 * z - 0.0021 * z**2

    assert corner.steps["Kts"] == pytest.approx(3.0 * curve(0.1 * 0.038 / radius) / curve(5.0), rel=1e-9)
    assert wall.steps["Kts"] == 1.0
    start = max(corner.cycles, key=lambda kind: kind.torque_high - kind.torque_low)
    nominal = wall_shear(start.torque_high - start.torque_low, 0.060, 2.0 * hypot(5e-3, 22.3e-3)) / 2.0
    assert start.amplitude >= nominal


def test_fatigue_of_the_teeth_of_a_sleeve_stands_with_its_splines() -> None:
    first, sleeve, second = assessed(path_with()).joints
    assert [member.place for member in sleeve.fatigue.members] == ["wall"]
    for spline in (first, second):
        assert "internal" in {member.side for member in spline.fatigue.members}
