"""Faults that damaged scenarios have shown, each by itself."""

import re
from pathlib import Path

import pytest
from builder import EXAMPLES, edited
from fuzz._asking import Answer, ask

INSPECTED = '\n[[inspection]]\nhours = "100 hour"\nlash = { clearance = "0.08 mm" }\n'


def changed(stem: str, changes: dict[str, str]) -> str:
    """The text of an example with pieces replaced, each of which stands there once."""
    text = next(file for file in EXAMPLES if file.stem == stem).read_text("utf-8")
    for old, new in changes.items():
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return text


def answer_to(tmp_path: Path, text: str, *arguments: str) -> Answer:
    file = tmp_path / "job.toml"
    file.write_text(text, encoding="utf-8")
    return ask("assess", file, *arguments, seconds=10.0)


@pytest.mark.parametrize("letter", ["\\u001b", "\\u202e", "\\n", "\\uFEFF", "\\u2028"])
def test_a_name_in_a_message_commands_no_terminal(letter: str, tmp_path: Path) -> None:
    answer = answer_to(tmp_path, edited(('steel = "8620_carb_63"', f'steel = "{letter}[31mred"')))
    assert answer.code == 2
    assert all(line.isprintable() for line in answer.err.splitlines())
    assert all(line.startswith("job.toml: joint[1].external.steel: ") for line in answer.err.splitlines())


@pytest.mark.parametrize("reading", ["0 HRC", "100 HB", "90 HV", "80 HB"])
def test_a_case_that_is_softer_than_any_band_is_scaled_by_its_own_hardness(
    reading: str, tmp_path: Path
) -> None:
    change = ('hardness = "60 HRC +/- 1"', f'hardness = "{reading}"')
    answer = answer_to(tmp_path, edited(change), "--format", "json")
    assert answer.code in {0, 1, 3}, answer.err
    checks = answer.result["joints"][0]["checks"]
    shear = next(check for check in checks if check["name"] == "root shear, external member")
    assert shear["allowable"] < 138.0  # MPa, the lowest band of the guide, for 160 HB


@pytest.mark.parametrize(
    ("size", "said"),
    [
        ('pitch = "20/40", pressure_angle = "50 deg"', "joint[1].size: is not possible"),
        ('pressure_angle = "30 deg"', "joint[1].size.pitch: is missing"),
    ],
)
def test_an_inspection_of_a_joint_without_a_size_is_left_alone(size: str, said: str, tmp_path: Path) -> None:
    sound = 'pitch = "20/40", pressure_angle = "30 deg"'
    answer = answer_to(tmp_path, edited((sound, size)) + INSPECTED)
    assert answer.code == 2
    assert said in answer.err


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (('tilt = { angle = "0.08 deg"', 'tilt = { angle = "0.08 deg", face = "0.03 mm"'), "tilt.face: "),
        (
            ('tilt = { angle = "0.08 deg"', 'tilt = { angle = "0.08 deg", diameter = "90 mm"'),
            "tilt.diameter: ",
        ),
        (('clearance = "0.05 mm"', 'clearance = "0.05 mm", radius = "120 mm"'), "lash.radius: "),
    ],
)
def test_half_of_another_reading_is_not_passed_over(
    change: tuple[str, str], said: str, tmp_path: Path
) -> None:
    answer = answer_to(tmp_path, edited(change))
    assert answer.code == 2
    assert f"job.toml: joint[1].{said}" in answer.err
    assert "only goes with" in answer.err


@pytest.mark.parametrize("space", ["\\n", "\\t", "\\u2028", "\\r\\n  "])
def test_a_quantity_over_two_lines_is_shown_in_one(space: str, tmp_path: Path) -> None:
    changes = (("60 HRC", f"60{space}HRC"), ('"1.25 in"', f'"{space}600{space}mm{space}"'))
    answer = answer_to(tmp_path, edited(*changes), "--format", "json")
    said = [caution["text"] for caution in answer.result["cautions"]]
    assert any('joint[1].engagement = "600 mm" is far outside' in text for text in said)
    assert all(text.isprintable() for text in said)


@pytest.mark.parametrize(
    ("change", "key"),
    [
        (('max_speed = "4000 rpm"', 'max_speed = "0 rpm"'), "motor.max_speed"),
        (("ratio = 2.5", "ratio = 1e-320"), "reduction.ratio"),
        (("efficiency = 0.97", "efficiency = 1e-300"), "reduction.efficiency"),
        (("after = []", "after = [[1e-320, 0.97]]"), "joint[1].after[1][1]"),
        (("share = 0.1", "share = 1e-320"), "duty[1].share"),
        (("safety_factor = 1.5", "safety_factor = 1e300"), "targets.safety_factor"),
    ],
)
def test_next_to_nothing_is_refused_where_it_stands(
    change: tuple[str, str], key: str, tmp_path: Path
) -> None:
    answer = answer_to(tmp_path, edited(change))
    assert answer.code == 2, answer.err
    assert f"job.toml: {key}: " in answer.err


def test_a_name_of_a_distance_is_shown_shortened(tmp_path: Path) -> None:
    distance = 'distance = [{ name = "a", length = "3 mm" }]'
    result = 'result = [{ name = "gap", kind = "gap", plus = ["%s"] }]' % ("[" * 900)
    stack = f"\n[stack]\n{distance}\n{result}\n"
    answer = answer_to(tmp_path, edited() + stack)
    assert answer.code == 2
    assert "names an unknown distance" in answer.err
    assert max(map(len, answer.err.splitlines())) < 300


@pytest.mark.parametrize("kind", ["{ teeth = 26 }", "[]", "3"])
def test_a_kind_of_a_result_that_is_no_word(kind: str, tmp_path: Path) -> None:
    distance = 'distance = [{ name = "a", length = "3 mm" }]'
    result = f'result = [{{ name = "gap", kind = {kind}, plus = ["a"], joint = "x" }}]'
    answer = answer_to(tmp_path, edited() + f"\n[stack]\n{distance}\n{result}\n")
    assert answer.code == 2
    assert "job.toml: stack.result[1].kind: " in answer.err


def test_a_sleeve_that_floats_across_its_shaft_is_refused(tmp_path: Path) -> None:
    (capstan,) = (path for path in EXAMPLES if path.stem == "ferry_capstan")
    text, changed = re.subn(r'span = "[^"]*"', 'span = "0.05 mm"', capstan.read_text("utf-8"))
    assert changed
    answer = answer_to(tmp_path, text)
    assert answer.code == 2, answer.err
    assert "].floats: means " in answer.err


@pytest.mark.parametrize(
    ("stages", "said"),
    [
        (f"[{', '.join(['[1.5, 0.99]'] * 13)}]", "has more than 12 entries"),
        (
            "[[500.0, 0.9], [500.0, 0.9]]",
            "brings the ratio of all stages up to here to 6.25e+05; 0.000010 to 100000",
        ),
        (
            "[[0.002, 1.0], [0.002, 1.0], [0.4, 1.0]]",
            "brings the ratio of all stages up to here to 4e-06; 0.000010 to 100000",
        ),
        (
            "[[2.0, 0.02], [2.0, 0.02]]",
            "leaves 0.0004 of the power after all stages up to here; at least 0.001",
        ),
    ],
)
def test_stages_that_multiply_to_no_machine_are_refused(stages: str, said: str, tmp_path: Path) -> None:
    answer = answer_to(tmp_path, edited(("after = []", f"after = {stages}")))
    assert answer.code == 2
    assert f"joint[1].after: {said}" in answer.err


def test_next_to_no_damping_and_next_to_no_rotor_end_in_time(tmp_path: Path) -> None:
    text = next(file for file in EXAMPLES if file.stem == "grain_auger").read_text("utf-8")
    for old, new in (("damping_ratio = 0.03", "damping_ratio = 0.0"), ("0.028 kg*m^2", "1e-5 kg*m^2")):
        assert old in text
        text = text.replace(old, new)
    (tmp_path / "job.toml").write_text(text.replace("2400 N*m/s", "1 N*m/s"), "utf-8")
    answer = ask("assess", tmp_path / "job.toml", seconds=10.0)
    assert answer.code == 4
    assert "give a damping_ratio of 0.001 or more, or a steeper torque_rise" in answer.err


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        (
            {'worn_step = "0.15 mm" }': 'major_diameter = "103 mm" }'},
            'internal.measured.major_diameter: "103 mm" does not match 8 teeth of this size',
        ),
        (
            {'worn_step = "0.15 mm" }': 'minor_diameter = "48 mm" }'},
            'internal.measured.minor_diameter: "48 mm" does not match 8 teeth of this size',
        ),
        (
            {'worn_step = "0.15 mm" }': 'major_diameter = "50 mm" }', '"75 mm"': '"49 mm"'},
            'internal.outside_diameter: "49 mm" leaves no wall; '
            "the teeth of the hub reach to 50.00 mm, as measured",
        ),
        (
            {"measured = { teeth = 8 }": 'bore = "40 mm"\nmeasured = { minor_diameter = "39.5 mm" }'},
            'external.bore: "40 mm" leaves no wall; the root diameter is 39.50 mm, as measured',
        ),
    ],
    ids=[
        "grooves beyond the hub",
        "tips at the bottom",
        "no wall over worn grooves",
        "no wall under worn roots",
    ],
)
def test_readings_of_straight_teeth_are_held_against_size_and_walls(
    changes: dict[str, str], said: str, tmp_path: Path
) -> None:
    answer = answer_to(tmp_path, changed("timber_winch", changes))
    assert answer.code == 2
    assert f"joint[1].{said}" in answer.err


def test_a_straight_part_with_another_count_is_not_held_to_the_size(tmp_path: Path) -> None:
    """Its diameters are those of another spline: that is what the judgement of the pair is about."""
    other = {'teeth = 8, worn_step = "0.15 mm"': 'teeth = 10, major_diameter = "60 mm"'}
    answer = answer_to(tmp_path, changed("timber_winch", other))
    assert answer.code == 1
    assert "FALSE FIT" in answer.out


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('"45 mm"', '"45 m"', 'joint[2].engagement: "45 m" is no length of a joint that a machine has; '),
        ('"45 mm"', '"45 km"', 'joint[2].engagement: "45 km" is no length of a joint that a machine has; '),
        ('"45 mm"', '"0.05 mm"', "write a value between 0.1 mm and 1 m"),
        (
            '"45 mm"',
            '"750 mm"',
            'joint[2].engagement: "750 mm" is more than 20 times the pitch diameter of the teeth; '
            "at most 720 mm is taken",
        ),
        (
            '"38 mm"',
            '"0.0001 mm"',
            'joint[1].diameter: "0.0001 mm" is no diameter of a joint that a machine has',
        ),
        ('"38 mm"', '"0.8 mm"', 'joint[1].diameter: "0.8 mm" is no diameter of a joint that a machine has'),
        ('"120 mm"', '"120 m"', 'joint[1].length: "120 m" is beyond anything that can be built'),
        ('"62 mm"', '"62 m"', 'joint[2].internal.outside_diameter: "62 m" is beyond anything'),
        ('"62 mm"', '"6.2 m"', 'outside_diameter: "6.2 m" is no diameter of a joint that a machine has'),
    ],
)
def test_lengths_that_no_joint_has_are_refused(old: str, new: str, said: str, tmp_path: Path) -> None:
    """Longer than 1 m, thinner than 1 mm, above 20 pitch diameters: common practice, no source."""
    answer = answer_to(tmp_path, changed("works_trolley", {old: new}))
    assert answer.code == 2
    assert said in answer.err


@pytest.mark.parametrize(
    ("old", "new"), [('"45 mm"', '"720 mm"'), ('"38 mm"', '"1 mm"'), ('"120 mm"', '"24 m"')]
)
def test_odd_lengths_up_to_the_bounds_are_answered(old: str, new: str, tmp_path: Path) -> None:
    answer = answer_to(tmp_path, changed("works_trolley", {old: new}), "--format", "json")
    assert answer.code in {0, 1, 3}, answer.err
    assert any("far outside" in one["text"] for one in answer.result["cautions"]) or new == '"1 mm"'


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('"62 mm"', '"40.2 mm"', 'outside_diameter: "40.2 mm" leaves no wall; the teeth of the hub reach to'),
        (
            "reused = true",
            'reused = true\nbore = "35.3999999999 mm"',
            'bore: "35.3999999999 mm" leaves no wall; the root',
        ),
    ],
)
def test_a_wall_of_rounding_alone_is_none(old: str, new: str, said: str, tmp_path: Path) -> None:
    """The grooves of this hub end at 40.2 mm, the roots of its shaft at 35.4 mm, but for rounding."""
    answer = answer_to(tmp_path, changed("works_trolley", {old: new}))
    assert answer.code == 2
    assert said in answer.err


@pytest.mark.parametrize(
    ("stem", "old", "new", "said"),
    [
        (
            "quarry_tipper",
            'circle_diameter = "100 mm"',
            'circle_diameter = "200 mm"',
            '.bolts.circle_diameter: "200 mm" puts its holes over the edge of face.outer_diameter = "145 mm"',
        ),
        (
            "quarry_tipper",
            'inner_diameter = "55 mm"',
            'inner_diameter = "99 mm"',
            '.face.inner_diameter: "99 mm" reaches into the holes of bolts.circle_diameter = "100 mm"',
        ),
        (
            "grain_auger",
            'bore = "28 mm"',
            'bore = "35 mm"',
            '.keyway.bore: "35 mm" contradicts joint[1].shaft_diameter = "28 mm"',
        ),
    ],
)
def test_sizes_that_contradict_each_other_are_both_named(
    stem: str, old: str, new: str, said: str, tmp_path: Path
) -> None:
    answer = answer_to(tmp_path, changed(stem, {old: new}))
    assert answer.code == 2
    assert said in answer.err


@pytest.mark.parametrize(
    ("entry", "most"),
    [
        ('\n[[joint]]\nkind = "shaft"\ndiameter = "40 mm"\nsteel = "4340_QT650"\nname = "s{number}"\n', 40),
        ('\n[[inspection]]\nhours = "{number} hour"\nlash = {{ clearance = "0.08 mm" }}\n', 200),
        ('\n[[duty]]\ntorque = 0.3\nspeed = "2000 rpm"\nshare = 0.001\n', 200),
    ],
    ids=["joint", "inspection", "duty"],
)
def test_more_entries_than_a_machine_has_are_refused_at_once(entry: str, most: int, tmp_path: Path) -> None:
    text = edited() + "".join(entry.format(number=number) for number in range(1, most + 2))
    answer = answer_to(tmp_path, text)
    assert answer.code == 2
    key = re.search(r"\[\[(\w+)\]\]", entry)
    assert key is not None
    assert f"job.toml: {key[1]}: has more than {most} entries; leave some out" in answer.err
