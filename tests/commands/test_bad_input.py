"""Every kind of bad input gives one clear line, exit code 2, and never a traceback."""

from pathlib import Path

import pytest
from builder import edited
from commands._run import torqcheck

STEPPED = """measured = {{ teeth = 26 }}

[[joint]]
name = "stub"
kind = "shaft"
diameter = "40 mm"
length = "100 mm"
steps = [{{ diameter = "{diameter}", bore = "{bore}", length = "50 mm" }}]
steel = "4340_QT650"
"""

NOTCHED = """measured = {{ teeth = 26 }}

[[joint]]
name = "stub"
kind = "shaft"
diameter = "40 mm"
notches = [{notch}]
steel = "4340_QT650"
"""


def notched(notch: str) -> tuple[str, str]:
    return "measured = { teeth = 26 }\n", NOTCHED.format(notch=notch)


CASES: dict[str, tuple[tuple[str, str], str]] = {
    "no unit": (
        ('engagement = "1.25 in"', 'engagement = "1.25"'),
        'joint[1].engagement: "1.25" has no unit; write for example "1.25 in" or "32 mm"',
    ),
    "bare number": (('engagement = "1.25 in"', "engagement = 1.25"), "1.25 is a number without a unit"),
    "wrong type": (("ratio = 2.5", 'ratio = "2.5"'), 'reduction.ratio: "2.5" is not a number'),
    "wrong dimension": (('engagement = "1.25 in"', 'engagement = "3 kg"'), '"3 kg" is a mass, not a length'),
    "negative": (('engagement = "1.25 in"', 'engagement = "-3 mm"'), '"-3 mm" must be above zero'),
    "zero": (('engagement = "1.25 in"', 'engagement = "0 mm"'), '"0 mm" must be above zero'),
    "nan": (("ratio = 2.5", "ratio = nan"), "reduction.ratio: nan is not a finite number"),
    "infinity": (("ratio = 2.5", "ratio = inf"), "reduction.ratio: inf is not a finite number"),
    "overflow": (('"240 N*m"', '"1e400 N*m"'), 'motor.peak_torque: "1e400 N*m" is not a finite number'),
    "hostile number": (('"240 N*m"', '"9**9**9 N*m"'), "motor.peak_torque"),
    "unknown key": (
        ("engagement =", "engagment ="),
        'joint[1].engagment: is not a known key; did you mean "engagement"?',
    ),
    "unknown block": (("[driven]", "[drivn]"), 'drivn: is not a known block; did you mean "driven"?'),
    "missing block": (("[motor]\n", "[record.motor]\n"), "motor: is missing"),
    "unknown steel": (
        ('steel = "8620_carb_63"', 'steel = "8620 carb 36"'),
        'joint[1].external.steel: "8620 carb 36" cannot be used: there is no steel "8620 carb 36" in the '
        "tables; the nearest names are 8620_carb_63, 8620_carb_30",
    ),
    "two ramps": (
        ('torque_rise = "4800 N*m/s"', 'torque_rise = "4800 N*m/s"\nrise_time = "50 ms"'),
        'motor.rise_time: "50 ms" contradicts torque_rise; keep one of torque_rise, rise_time, '
        "percent_per_10ms",
    ),
    "no ramp": (('torque_rise = "4800 N*m/s"', ""), "motor.torque_rise: is missing; give one of"),
    "fixed seat that carries the nose": (
        (
            'seat = "flexible"\ntilt = { angle = "0.08 deg" }\nnose_supported = true',
            'seat = "fixed"\nnose_supported = false',
        ),
        "joint[1].nose_supported: false contradicts seat",
    ),
    "notch that is none": (
        notched('{ kind = "keyset", width = "12 mm", depth = "5 mm" }'),
        'joint[2].notches[1].kind: "keyset" is not known here; did you mean "keyseat"? known: "cross hole"',
    ),
    "notch without a kind": (
        notched('{ width = "12 mm" }'),
        'joint[2].notches[1].kind: is missing; write kind = one of "cross hole"',
    ),
    "unknown key of a notch": (
        notched('{ kind = "keyseat", width = "12 mm", depth = "5 mm", root_radus = "1 mm" }'),
        'joint[2].notches[1].root_radus: is not a known key; did you mean "root_radius"?',
    ),
    "shoulder that goes down": (
        notched('{ kind = "shoulder fillet", larger_diameter = "38 mm" }'),
        'joint[2].notches[1].larger_diameter: "38 mm" is not above the diameter',
    ),
    "knife edge for a fillet": (
        notched('{ kind = "shoulder fillet", larger_diameter = "48 mm", radius = "0.05 mm" }'),
        'joint[2].notches[1].radius: "0.05 mm" is not between 0.002 of the diameter and the diameter',
    ),
    "pin as thick as the shaft": (
        notched('{ kind = "cross hole", hole = "20 mm" }'),
        'joint[2].notches[1].hole: "20 mm" is above 0.4 of the diameter',
    ),
    "keyseat too deep": (
        notched('{ kind = "keyseat", width = "12 mm", depth = "13 mm" }'),
        'joint[2].notches[1].depth: "13 mm" is above 0.3 of the diameter',
    ),
    "notch away from no load": (
        notched('{ kind = "press fit edge", from_load = "20 mm" }'),
        'joint[2].notches[1].from_load: "20 mm" has no load to be away from',
    ),
    "pitch out of the series": (('"20/40"', '"21/42"'), "pitch '21/42' is not of the published series"),
    "teeth and diameter": (
        ('major_diameter = "1.345 in"', 'major_diameter = "2.345 in"'),
        'major_diameter: "2.345 in" does not match 26 teeth of this size, which have about 34.29 mm',
    ),
    "shares": (("share = 0.9", "share = 0.5"), "duty: has shares that add to 0.6, not 1"),
    "kind that is a table": (
        ('kind = "involute spline"', "kind = {}"),
        "joint[1].kind: ",
    ),
    "radial play of a whole pitch": (
        ("seat = ", 'radial_play = "9 mm"\nseat = '),
        'joint[1].radial_play: "9 mm" means ',
    ),
    "angle at which nothing goes together": (
        ('tilt = { angle = "0.08 deg" }', 'tilt = { offset = "0.4 m", span = "60 mm" }'),
        "joint[1].tilt: means ",
    ),
    "word in place of a table": (
        ('kind = "involute spline"', 'kind = "involute spline"\nrunning_in = "loose"'),
        'joint[1].running_in: "loose" is not a table; write a table of depth, revolutions',
    ),
    "kind with the keys of another": (
        ('kind = "involute spline"', 'kind = "bolted flange"'),
        "joint[1].bolts: is missing (the bolts); add bolts = ...",
    ),
    "kind that does not exist": (
        ('kind = "involute spline"', 'kind = "involut spline"'),
        'is not a kind of joint; did you mean "involute spline"?',
    ),
    "half a reading": (
        ('lash = { clearance = "0.05 mm" }', 'lash = { travel = "0.3 mm" }'),
        "lash.radius: is missing beside travel",
    ),
    "two readings": (
        ('tilt = { angle = "0.08 deg" }', 'tilt = { angle = "0.08 deg", runout = "0.1 mm" }'),
        'tilt.runout: "0.1 mm" contradicts angle',
    ),
    "angle without unit": (
        ('angle = "0.08 deg"', 'angle = "0.08"'),
        'joint[1].tilt.angle: "0.08" has no unit',
    ),
    "hardness without scale": (('"60 HRC +/- 1"', '"60"'), 'joint[1].external.hardness: "60" has no scale'),
    "more inertia before the slip than there is": (
        (
            "damping_ratio = 0.03",
            'damping_ratio = 0.03\nslip = { torque = "300 N*m", inertia_before = "2.4 kg*m^2" }',
        ),
        'driven.slip.inertia_before: "2.4 kg*m^2" is not below driven.inertia',
    ),
    "play of a whole pitch": (
        ('lash = { clearance = "0.05 mm" }', 'lash = { clearance = "50 mm" }'),
        'joint[1].lash.clearance: "50 mm" is 50 mm along the pitch circle, a whole pitch (3.99 mm) or more',
    ),
    "play as an angle of a whole pitch": (
        ('lash = { clearance = "0.05 mm" }', 'lash = { angle = "20 deg" }'),
        "joint[1].lash.angle:",
    ),
    "limit of a whole pitch": (
        ('lash_limit = "0.40 mm"', 'lash_limit = "4 mm"'),
        'targets.lash_limit: "4 mm" is a whole pitch of gearbox input (3.99 mm) or more; the teeth',
    ),
    "limit of no play at all": (
        ('lash_limit = "0.40 mm"', 'lash_limit = "0 mm"'),
        'targets.lash_limit: "0 mm" must be above zero; teeth that slide together have some play',
    ),
    "absurd ratio": (
        (
            "damping_ratio = 0.03",
            'damping_ratio = 0.03\nslip = { coefficient = 0.7, normal_force = "9 kN", '
            'rolling_radius = "0.3 m", ratio = 1e300 }',
        ),
        "driven.slip.ratio",
    ),
    "weaker step": (
        ("measured = { teeth = 26 }\n", STEPPED.format(diameter="30 mm", bore="0 mm")),
        'joint[2].steps[1].diameter: "30 mm" is a weaker section than diameter and bore of the shaft',
    ),
    "step without a wall": (
        ("measured = { teeth = 26 }\n", STEPPED.format(diameter="50 mm", bore="50 mm")),
        'joint[2].steps[1].bore: "50 mm" leaves no wall',
    ),
    "bore through the shaft": (
        ('hardness = "60', 'bore = "40 mm"\nhardness = "60'),
        '"40 mm" leaves no wall; the root diameter is 31.31 mm',
    ),
    "hub without wall": (
        ('outside_diameter = "52 mm"', 'outside_diameter = "30 mm"'),
        '"30 mm" leaves no wall',
    ),
    "pins that cannot be": (
        ('major_diameter = "1.345 in" }', 'over_pins = "1.4 in", pin = "3 in" }'),
        'joint[1].external.measured.over_pins: "1.4 in" cannot be',
    ),
    "count of the wrong type": (
        ("size = { teeth = 26,", "size = { teeth = 26.5,"),
        "joint[1].size.teeth: 26.5 is not a whole number",
    ),
    "size of another standard": (
        ('root = "flat" }', 'root = "flat", module = "2 mm" }'),
        'size.module: "2 mm" does not belong to ansi b92.1',
    ),
    "format of the future": (
        ("format = 1", "format = 2"),
        "format: 2 is not a format that this version reads; write format = 1",
    ),
    "control characters": (('title = "Test bench"', 'title = "\\u001b[31mred"'), "record.title"),
    "table outside": (
        ("[motor]\n", '[materials]\ntables = ["../other.csv"]\n[motor]\n'),
        "a table lies in the folder of the scenario",
    ),
    "table missing": (("[motor]\n", '[materials]\ntables = ["other.csv"]\n[motor]\n'), "other.csv"),
    "not TOML": (("[motor]", "[motor"), "is not TOML"),
    "duty above the peak": (("torque = 1.0", "torque = 1.4"), "duty[1].torque: 1.4 must be at most 1"),
    "duty faster than the motor": (
        ('speed = "2000 rpm"', 'speed = "9000 rpm"'),
        'duty[2].speed: "9000 rpm" is above motor.max_speed',
    ),
    "motor that flies apart": (
        ('max_speed = "4000 rpm"', 'max_speed = "1e9 rpm"'),
        'motor.max_speed: "1e9 rpm" is beyond anything that can be built; check the number and the unit',
    ),
    "spell that flies apart": (
        ('speed = "2000 rpm"', 'speed = "400000 rpm"'),
        'duty[2].speed: "400000 rpm" is beyond anything that can be built',
    ),
    "beyond reason": (('"240 N*m"', '"1e300 N*m"'), "is beyond anything that can be built"),
    "tolerance below zero": (('"1.25 in"', '"1.25 +/- -0.1 in"'), "joint[1].engagement"),
    "hardness known to nothing": (('"60 HRC +/- 1"', '"60 HRC +/- 30"'), "too wide to mean anything"),
    "no overlap left": (('"1.345 in"', '"1.265 in"'), "joint[1]: has next to no contact left"),
    "renewal without grease": (
        ('lubrication = "oil flooded"', 'grease_renewal = "400 hour"'),
        'joint[1].grease_renewal: "400 hour" only goes with sealed grease',
    ),
    "one table for a list": (
        ('[[duty]]\nname = "starting"', "[[duty]]\nname = 3"),
        "duty[1].name: 3 is not a text",
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_bad_scenario(name: str, tmp_path: Path) -> None:
    change, said = CASES[name]
    file = tmp_path / "job.toml"
    file.write_text(edited(change), encoding="utf-8")
    run = torqcheck("assess", file)
    assert run.returncode == 2, run.stderr
    assert said in run.stderr
    assert run.stdout == ""
    assert "Traceback" not in run.stderr
    assert all(line.startswith("job.toml: ") for line in run.stderr.splitlines())


def test_all_faults_are_listed_at_once(tmp_path: Path) -> None:
    names = ["no unit", "nan", "two ramps", "unknown steel", "shares", "half a reading"]
    changes = [CASES[name][0] for name in names]
    file = tmp_path / "job.toml"
    file.write_text(edited(*changes), encoding="utf-8")
    run = torqcheck("assess", file)
    assert run.returncode == 2
    for name in names:
        assert CASES[name][1] in run.stderr, name


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"\x00\xff\xfe\x80binary", "is not a text file"),
        (b"\x7fELF" + bytes(range(256)), "is not a text file"),
        (b"a = " + b"[\n" * 5000, "is nested too deeply"),
        (b"a." * 20000 + b"b = 1", "keep lines below 2000"),
        (b"format = " + b"1" * 1900, "is not a format that this version reads"),
        (b"format = 1" + b"0" * 10000, "keep lines below 2000"),
        (b"format = true", "format: true is not a format that this version reads; write format = 1"),
        (b"# \n" * 100_001, "is larger than 200000 bytes"),
        (b"", "format: is missing"),
        (b"format = 1\njoint = 3\n", "joint: is not a list of joints"),
        (b"format = 1\n[[joint]]\nname = 3\n", "joint[1].kind: is missing"),
    ],
    ids=[
        "binary",
        "executable",
        "deep",
        "dotted",
        "long number",
        "huge number",
        "true is not 1",
        "large",
        "empty",
        "joint is a number",
        "joint without kind",
    ],
)
def test_junk_files(content: bytes, said: str, tmp_path: Path) -> None:
    file = tmp_path / "job.toml"
    file.write_bytes(content)
    run = torqcheck("assess", file)
    assert run.returncode == 2, run.stderr[:500]
    assert said in run.stderr
    assert "Traceback" not in run.stderr


def test_a_bad_torque_record_is_told_by_file_and_line(tmp_path: Path) -> None:
    file = tmp_path / "job.toml"
    text = edited()
    duty = text[text.index("[[duty]]") : text.index("[[joint]]")]
    entry = '[duty_file]\npath = "day.csv"\nrepeats_every = "8 hour"\n\n'
    file.write_text(text.replace(duty, entry), encoding="utf-8")
    for content, said in (
        (None, 'job.toml: duty_file.path: "day.csv" does not exist; name a CSV file beside the scenario'),
        ("time_s,torque_Nm\n0,0\n1,nan\n", 'day.csv: line 3, torque_Nm: "nan" is not a finite number'),
        ("time_s,torque_Nm\n0,0\n1,999\n", "day.csv: line 3, torque_Nm: 999 is beyond 240 N m"),
    ):
        if content is not None:
            (tmp_path / "day.csv").write_text(content)
        for command in ("assess", "ramp"):
            run = torqcheck(command, file)
            assert run.returncode == 2, run.stderr
            assert said in run.stderr
            assert run.stdout == ""


def test_missing_file_and_folder(tmp_path: Path) -> None:
    (tmp_path / "winch.toml").write_text("")
    run = torqcheck("assess", tmp_path / "wnch.toml")
    assert run.returncode == 2
    assert 'does not exist; did you mean "winch.toml"?' in run.stderr
    run = torqcheck("assess", tmp_path)
    assert run.returncode == 2
    assert "is a folder" in run.stderr


@pytest.mark.parametrize(
    "arguments", [["asess"], ["assess"], ["assess", "--units", "furlong", "x"], ["--nonsense"]]
)
def test_usage_errors_end_with_2(arguments: list[str]) -> None:
    run = torqcheck(*arguments)
    assert run.returncode == 2
    assert "Traceback" not in run.stderr
    assert run.stderr


def test_absurd_magnitudes_are_warned_about(tmp_path: Path) -> None:
    file = tmp_path / "job.toml"
    file.write_text(edited(('engagement = "1.25 in"', 'engagement = "600 mm"')), encoding="utf-8")
    run = torqcheck("assess", file, "--format", "text")
    assert run.returncode in {0, 1, 3}
    assert 'joint[1].engagement = "600 mm" is far outside what is usual' in " ".join(run.stdout.split())
