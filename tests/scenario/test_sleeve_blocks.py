"""What cannot be about a sleeve: its own sizes, the splines that it names, and how it floats."""

from pathlib import Path

import pytest
from assessment._sleeve_path import FLOATS, path_with
from builder import BASE, loaded

from torqcheck.errors import ScenarioError
from torqcheck.scenario import scenario_from_text

SHAFT = '\n[[joint]]\nname = "stub"\nkind = "shaft"\ndiameter = "40 mm"\nsteel = "4340_QT650"\n'
ALONE = """
[[joint]]
name = "tube"
kind = "sleeve"
outside_diameter = "60 mm"
length = "300 mm"
inside_diameter = "52 mm"
steel = "1020_CD"
reused = false
"""


def fault(text: str) -> str:
    with pytest.raises(ScenarioError) as caught:
        loaded(base=text)
    return str(caught.value)


def alone(old: str, new: str) -> str:
    assert old in ALONE
    return BASE + ALONE.replace(old, new)


def test_a_sleeve_alone_and_one_with_two_splines_are_sound() -> None:
    loaded(base=BASE + ALONE)
    loaded(base=path_with())


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('inside_diameter = "52 mm"\n', "", "joint[2].inside_diameter: is missing; give one of holds"),
        ('"52 mm"', '"60 mm"', 'joint[2].inside_diameter: "60 mm" leaves no wall'),
        (
            'inside_diameter = "52 mm"',
            'keyway = { bore = "40 mm", width = "41 mm", depth = "3 mm" }',
            'joint[2].keyway.width: "41 mm" is wider than its bore',
        ),
        (
            'inside_diameter = "52 mm"',
            'keyway = { bore = "50 mm", width = "14 mm", depth = "4.4 mm" }',
            'joint[2].keyway.depth: "4.4 mm" leaves no wall',
        ),
        ('length = "300 mm"\n', "", "joint[2].length: is missing"),
        ('length = "300 mm"', 'lenght = "300 mm"', 'did you mean "length"?'),
    ],
)
def test_sizes_that_cannot_be(old: str, new: str, says: str) -> None:
    assert says in fault(alone(old, new))


def test_a_keyway_whose_corner_just_stays_inside_is_sound() -> None:
    # corner at 2 sqrt(7^2 + 29.0^2) = 59.67 mm, although bore and depth alone make only 58 mm
    loaded(
        base=alone(
            'inside_diameter = "52 mm"', 'keyway = { bore = "50 mm", width = "14 mm", depth = "4 mm" }'
        )
    )


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ((('"gearbox input", "drum"', '"gearbox input", "drumm"'),), 'did you mean "drum"?'),
        ((('"gearbox input", "drum"', '"gearbox input", "sleeve"'),), "is not a splined joint"),
        (
            (('"gearbox input", "drum"', '"gearbox input", "gearbox input"'),),
            'joint[2].holds[2]: "gearbox input" is held twice',
        ),
        ((('"gearbox input", "drum"', '"drum"'),), "does not name two splines beside floats"),
        (
            (('seat = "flexible"', 'seat = "fixed"'),),
            'joint[1].seat: "fixed" contradicts floats of its sleeve',
        ),
        (
            (("nose_supported", 'tilt = { angle = "0.1 deg" }\nnose_supported'),),
            "joint[1].tilt: contradicts floats of its sleeve",
        ),
        ((('span = "80 mm"', 'span = "120 mm"'),), "is not below the length of the sleeve"),
        ((('offset = "0.10 mm", ', ""),), "joint[2].floats.offset: is missing"),
        (
            (('offset = "0.10 mm", ', 'offset = "0.10 mm", runout = "0.2 mm", '),),
            'joint[2].floats.runout: "0.2 mm" contradicts offset',
        ),
        (
            (('span = "80 mm"', 'span = "80 mm", angle = "0.1 deg"'),),
            "floats.read_at: is missing beside angle",
        ),
        (
            (('span = "80 mm"', 'span = "80 mm", angle = "0.1 deg", read_at = "tub"'),),
            'joint[2].floats.read_at: "tub" is none of holds',
        ),
        (
            (('"58 mm"', '"35 mm"'), ('inside_diameter = "36 mm"\n', "")),
            "leaves no wall: the teeth of its sleeve",
        ),
    ],
)
def test_links_that_cannot_be(changes: tuple[tuple[str, str], ...], says: str) -> None:
    assert says in fault(path_with(*changes))


@pytest.mark.parametrize("at", ['name = "sleeve"', 'name = "drum"'])
def test_a_gear_stage_within_the_sleeve_is_refused(at: str) -> None:
    text = path_with((at, f"{at}\nafter = [[2.0, 0.97]]"))
    assert "puts a gear stage into a sleeve" in fault(text)


def test_a_gear_stage_before_and_after_the_sleeve_is_sound() -> None:
    before = ("after = []", "after = [[2.0, 0.97]]")
    loaded(base=path_with(before) + SHAFT.replace("diameter", "after = [[2.0, 0.97]]\ndiameter"))


def test_two_sleeves_cannot_hold_one_spline() -> None:
    second = ALONE.replace('inside_diameter = "52 mm"', 'holds = ["drum"]')
    assert 'joint[4].holds[1]: "drum" is held twice' in fault(path_with() + second)


def test_more_than_two_ends_are_refused() -> None:
    assert "holds" in fault(path_with(('"drum"]', '"drum", "third"]')))


def test_a_joint_without_a_name_is_held_by_its_number() -> None:
    text = path_with(('name = "gearbox input"\n', ""), ('"gearbox input"', '"joint 1"'))
    loaded(base=text)


def test_links_are_looked_at_even_where_another_joint_has_faults() -> None:
    text = path_with(('"34 mm"', '"34"'), ('"gearbox input", "drum"', '"gearbox input", "drumm"'))
    found = fault(text)
    assert "has no unit" in found
    assert 'did you mean "drum"?' in found


def test_a_bore_above_the_sleeve_is_what_is_blamed() -> None:
    wide = 'keyway = { bore = "90 mm", width = "8 mm", depth = "3.3 mm" }'
    text = (Path(__file__).parent.parent.parent / "scenarios" / "grain_auger.toml").read_text("utf-8")
    with pytest.raises(ScenarioError) as caught:
        scenario_from_text(
            text.replace('keyway = { bore = "28 mm", width = "8 mm", depth = "3.3 mm" }', wide).encode(),
            Path("test.toml"),
        )
    assert 'joint[2].keyway.bore: "90 mm" leaves no wall' in str(caught.value)


def test_floats_without_its_splines_speaks_of_them() -> None:
    assert "does not name two splines beside floats" in fault(BASE + ALONE + FLOATS)


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('module = "2 mm", ', "", "size.module: is missing"),
        ('pitch = "16/32"', 'pitch = "0/32"', "size: is not possible: pitch '0/32'"),
    ],
)
def test_a_held_spline_without_a_size_has_that_fault_alone(old: str, new: str, says: str) -> None:
    text = (Path(__file__).parent.parent.parent / "scenarios" / "ferry_capstan.toml").read_text("utf-8")
    assert old in text
    with pytest.raises(ScenarioError) as caught:
        scenario_from_text(text.replace(old, new, 1).encode(), Path("test.toml"))
    assert says in str(caught.value)


def test_shafts_that_no_sleeve_could_join_are_refused() -> None:
    steep = FLOATS.replace('"80 mm"', '"0.2 mm"')
    assert "floats: means 27 deg or more between shaft and hub" in fault(path_with(floats=steep))
