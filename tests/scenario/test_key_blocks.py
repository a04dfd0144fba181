"""Blocks of keys, pins and set screws: what is read, and what is refused with which words."""

from pathlib import Path

import pytest
from builder import BASE, edited, refusal

from torqcheck.scenario import Scenario, scenario_from_text
from torqcheck.scenario.kinds.key import key_section
from torqcheck.scenario.kinds.pin import hole_diameter, pin_diameter

KEY = """
[[joint]]
name = "motor key"
kind = "key"
standard = "din 6885"
shaft_diameter = "28 mm"
length = "40 mm"
ends = "round"
fit = "normal"
shaft = { steel = "1045_CD", reused = false }
hub = { steel = "4140_PH28_32", reused = false, outside_diameter = "50 mm", length = "45 mm" }
key = { steel = "1018_CD", reused = false }
"""
WOODRUFF = """
[[joint]]
name = "motor key"
kind = "key"
standard = "woodruff"
size = "1/4 x 1"
shaft_diameter = "1.25 in"
fit = "tight"
shaft = { steel = "1045_CD", reused = false }
hub = { steel = "4140_PH28_32", reused = false }
key = { steel = "1018_CD", reused = false }
"""
OWN = """
[[joint]]
name = "motor key"
kind = "key"
standard = "own"
width = "8 mm"
height = "10 mm"
shaft_depth = "4 mm"
shaft_diameter = "28 mm"
length = "40 mm"
fit = "tight"
shaft = { steel = "1045_CD", reused = false }
hub = { steel = "4140_PH28_32", reused = false }
key = { steel = "1018_CD", reused = false }
"""
PIN = """
[[joint]]
name = "cross pin"
kind = "pin"
place = "across"
form = "plain"
shaft_diameter = "25 mm"
diameter = "6 mm"
shaft = { steel = "1045_CD", reused = false }
hub = { steel = "1045_HR", reused = false, outside_diameter = "45 mm" }
pin = { steel = "1018_CD", reused = false }
"""
SCREWS = """
[[joint]]
name = "screws"
kind = "set screws"
shaft_diameter = "25 mm"
size = "1/2"
shaft = { steel = "1045_CD", reused = false }
"""


def read(text: str, *changes: tuple[str, str]) -> Scenario:
    return scenario_from_text((BASE + edited(*changes, base=text)).encode(), Path("test.toml"))


@pytest.mark.parametrize("text", [KEY, WOODRUFF, OWN, PIN, SCREWS])
def test_sound_block_is_read(text: str) -> None:
    assert len(read(text).joint) == 2


def test_size_is_that_of_the_table_for_the_shaft_unless_it_is_named() -> None:
    by_shaft = key_section(read(KEY).joint[1])  # type: ignore[arg-type]
    assert (by_shaft.width, by_shaft.height, by_shaft.shaft_depth) == pytest.approx((8e-3, 7e-3, 4e-3))
    assert by_shaft.hub_depth == pytest.approx(3.3e-3)
    named = key_section(read(KEY, ('"din 6885"', '"din 6885"\nsize = "10x8"')).joint[1])  # type: ignore[arg-type]
    assert named.width == pytest.approx(10e-3)
    flat = read(KEY, ('"din 6885"', '"ansi b17.1"\nsection = "flat"'), ('"28 mm"', '"1.125 in"'))
    section = key_section(flat.joint[1])  # type: ignore[arg-type]
    assert (section.width, section.height) == pytest.approx((0.25 * 0.0254, 0.1875 * 0.0254))
    own = key_section(read(OWN).joint[1])  # type: ignore[arg-type]
    assert own.hub_depth == pytest.approx(6e-3)


LASH = 'fit = "normal"\nlash = '


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('length = "40 mm"\n', "", "joint[2].length: is missing for a parallel key; give length"),
        ('length = "40 mm"', 'length = "48 mm"', 'length: "48 mm" is more than the length of the hub; only'),
        ('length = "40 mm"', 'length = "8 mm"', 'length: "8 mm" is no more than the round ends of the key'),
        (
            '"28 mm"',
            '"120 mm"',
            'shaft_diameter: "120 mm" cannot be used: the table of din 6885 has keys for',
        ),
        (
            '"din 6885"',
            '"din 6885"\nsize = "8x8"',
            'size: "8x8" cannot be used: the table of din 6885 has no',
        ),
        ('"din 6885"', '"din 6885"\nsize = "18x11"', 'size: "18x11" is wider than half the shaft'),
        ('"din 6885"', '"din 6885"\nsize = "14x9"\nkeys = 3', "keys: 3 must be at most 2"),
        (
            '"din 6885"',
            '"din 6885"\nwidth = "8 mm"',
            'width: "8 mm" does not belong to din 6885; leave it out',
        ),
        ('"din 6885"', '"din 6885"\nsection = "flat"', 'section: "flat" does not belong to din 6885'),
        (
            '"din 6885"',
            '"ansi b17.1"\nsize = "1/4x1/4"\nsection = "flat"',
            'section: "flat" contradicts size',
        ),
        ('"din 6885"', '"din 6884"', 'standard: "din 6884" is not one of the words known here'),
        ('"normal"', '"loose"', "is not one of the words known here"),
        (
            '"50 mm"',
            '"34 mm"',
            'hub.outside_diameter: "34 mm" leaves no wall over the keyway; the keyway reac',
        ),
        ('"1045_CD"', '"1045_CD", bore = "20 mm"', 'shaft.bore: "20 mm" leaves no wall under the keyway'),
        ('ends = "round"', 'chamfer = "1.6 mm"', 'chamfer: "1.6 mm" leaves next to nothing of the seat'),
        ('ends = "round"', 'root_radius = "3 mm"', 'root_radius: "3 mm" is not between 0.005 and 0.07 of'),
        ('fit = "normal"', LASH + '{ travel = "0.1 mm" }', "lash.radius: is missing beside travel"),
        ('fit = "normal"', LASH + '{ clearance = "9 mm" }', 'lash.clearance: "9 mm" is 9 mm at the surface'),
        ('fit = "normal"', LASH + '{ angle = "40 deg" }', 'lash.angle: "40 deg" is 9.77 mm at the surface'),
        (
            'fit = "normal"',
            LASH + '{ travel = "9 mm", radius = "10 mm" }',
            'lash.travel: "9 mm" is 12.6 mm at the surface',
        ),
        ('"1018_CD"', '"1018_XX"', 'joint[2].key.steel: "1018_XX" cannot be used'),
    ],
)
def test_key_that_cannot_be_is_refused(old: str, new: str, says: str) -> None:
    assert says in refusal(KEY, (old, new))


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('size = "1/4 x 1"\n', "", "joint[2].size: is missing for woodruff"),
        ('"1/4 x 1"', '"1/4 x 2"', 'size: "1/4 x 2" cannot be used: the table of Woodruff keys has no'),
        ('fit = "tight"', 'fit = "tight"\nlength = "20 mm"', 'length: "20 mm" does not belong to woodruff'),
        ('"1.25 in"', '"0.9 in"', 'size: "1/4 x 1" cuts 7.82 mm deep, more than 0.3 of the shaft'),
    ],
)
def test_woodruff_key_that_cannot_be_is_refused(old: str, new: str, says: str) -> None:
    assert says in refusal(WOODRUFF, (old, new))


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('width = "8 mm"\n', "", "joint[2].width: is missing for standard own; give width, height, shaft_de"),
        ('"8 mm"', '"15 mm"', 'width: "15 mm" is wider than half the shaft'),
        ('"4 mm"', '"10 mm"', 'shaft_depth: "10 mm" leaves nothing of the key to stand out'),
        ('"4 mm"', '"8.5 mm"', 'shaft_depth: "8.5 mm" cuts 8.50 mm deep, more than 0.3 of the shaft'),
        ('width = "8 mm"', 'width = "8 mm"\nsize = "8x7"', 'size: "8x7" does not belong to standard own'),
    ],
)
def test_own_key_that_cannot_be_is_refused(old: str, new: str, says: str) -> None:
    assert says in refusal(OWN, (old, new))


def test_all_faults_of_a_key_stand_together() -> None:
    text = refusal(KEY, ('length = "40 mm"', 'length = "48 mm"'), ('"50 mm"', '"34 mm"'))
    assert "more than the length of the hub" in text
    assert "leaves no wall over the keyway" in text


ALONG = ('place = "across"', 'place = "along"\nlength = "20 mm"')


def test_diameters_of_pins() -> None:
    taper = read(PIN, ('form = "plain"', 'form = "taper"\ntaper = "metric"')).joint[1]
    assert pin_diameter(taper) == pytest.approx(6.45e-3)  # type: ignore[arg-type]
    assert hole_diameter(taper) == pytest.approx(6.45e-3)  # type: ignore[arg-type]
    necked = read(PIN, ('"6 mm"', '"6 mm"\nfuse = true\nhole_diameter = "8 mm"')).joint[1]
    assert pin_diameter(necked) == pytest.approx(6e-3)  # type: ignore[arg-type]
    assert hole_diameter(necked) == pytest.approx(8e-3)  # type: ignore[arg-type]
    assert len(read(PIN, ALONG).joint) == 2


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        (
            [(', outside_diameter = "45 mm"', "")],
            "hub.outside_diameter: is missing for a pin across the shaft",
        ),
        ([('"6 mm"', '"6 mm"\nlength = "20 mm"')], 'length: "20 mm" does not belong to a pin across'),
        ([('"across"', '"along"')], "length: is missing for a pin along the shaft"),
        ([('"plain"', '"taper"')], "taper: is missing for a taper pin"),
        ([('"plain"', '"plain"\ntaper = "inch"')], 'taper: "inch" only goes with a taper pin'),
        ([('"plain"', '"grooved"\nfuse = true')], 'form: "grooved" is no form for a fuse'),
        ([('"6 mm"', '"6 mm"\nhole_diameter = "5 mm"')], 'hole_diameter: "5 mm" is below the diameter of'),
        ([('"6 mm"', '"11 mm"')], 'diameter: "11 mm" is bigger than the shaft can bear; at most 10.00 mm'),
        ([('"6 mm"', '"6 mm"\nhole_diameter = "11 mm"')], 'hole_diameter: "11 mm" is bigger than the shaft'),
        ([('"45 mm"', '"26 mm"')], 'hub.outside_diameter: "26 mm" leaves no wall; the bore is 25.00 mm'),
        ([('"1045_CD"', '"1045_CD", bore = "25 mm"')], 'shaft.bore: "25 mm" leaves no wall'),
        (
            [ALONG, ('"plain"', '"taper"\ntaper = "inch"')],
            'form: "taper" is no form of a pin along the shaft',
        ),
        ([ALONG, ('"plain"', '"plain"\nfuse = true')], "fuse: true only goes with a pin across the shaft"),
        ([ALONG, ('"1045_CD"', '"1045_CD", bore = "20 mm"')], 'diameter: "6 mm" breaks into the bore'),
        ([ALONG, ('"45 mm"', '"30 mm"')], 'diameter: "6 mm" breaks through the hub'),
        ([ALONG, ('"6 mm"', '"6 mm"\nhole_diameter = "8 mm"')], "only goes with a necked pin across"),
        ([('"6 mm"', '"6 mm"\nlash = { clearance = "7 mm" }')], 'lash.clearance: "7 mm" is 7 mm at the'),
        ([('"6 mm"', '"6 mm"\npins = 3')], "pins: 3 must be at most 2"),
    ],
)
def test_pin_that_cannot_be_is_refused(changes: list[tuple[str, str]], says: str) -> None:
    assert says in refusal(PIN, *changes)


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('size = "1/2"\n', "", "joint[2].size: is missing; give size, or holding_power and screw_diameter"),
        ('"1/2"', '"M12"', 'size: "M12" cannot be used: the table of set screws has no'),
        ('"1/2"', '"1/2"\nholding_power = "5 kN"', 'holding_power: "5 kN" contradicts size'),
        ('"1/2"', '"1/2"\nscrew_diameter = "12 mm"', 'screw_diameter: "12 mm" contradicts size'),
        ('"1/2"', '"7/8"', 'size: "7/8" is bigger than its shaft can take'),
        (
            'size = "1/2"',
            'holding_power = "5 kN"\nscrew_diameter = "22 mm"',
            'screw_diameter: "22 mm" is bigger than its shaft',
        ),
        ('"1045_CD"', '"1045_CD", bore = "25 mm"', 'shaft.bore: "25 mm" leaves no wall'),
        ('"1/2"', '"1/2"\npoint = "square"', "is not one of the words known here"),
        ('"1/2"', '"1/2"\nscrews = 0', "screws: 0 must be at least 1"),
    ],
)
def test_set_screws_that_cannot_be_are_refused(old: str, new: str, says: str) -> None:
    assert says in refusal(SCREWS, (old, new))
