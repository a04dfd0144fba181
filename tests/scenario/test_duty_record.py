"""A torque record beside the scenario: what is read, what is refused, and that nothing breaks it."""

import hashlib
import os
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
import pytest
from builder import BASE, edited
from hypothesis import given, settings
from hypothesis import strategies as st

from torqcheck.errors import ScenarioError
from torqcheck.scenario import Scenario, duty_record, load_scenario
from torqcheck.scenario.duty_record import DutyRecord, read_record

HEAD, TAIL = BASE.split("[[duty]]")[0], "[[joint]]" + BASE.split("[[joint]]")[1]
ENTRY = '[duty_file]\npath = "day.csv"\nrepeats_every = "8 hour"\n\n'
ROUND = "time_s,torque_Nm,speed_rpm\n0,0,0\n10,120.5,600\n20,-40,1200\n30,0,0\n"


def file_in(folder: Path, content: str | bytes = ROUND, entry: str = ENTRY, name: str = "day.csv") -> Path:
    (folder / name).write_bytes(content.encode() if isinstance(content, str) else content)
    scenario = folder / "job.toml"
    scenario.write_text(HEAD + entry + TAIL)
    return scenario


def record_in(folder: Path, content: str | bytes = ROUND) -> DutyRecord:
    record = load_scenario(file_in(folder, content)).duty_record
    assert record is not None
    return record


def faults_in(folder: Path, content: str | bytes = ROUND, entry: str = ENTRY) -> str:
    with pytest.raises(ScenarioError) as caught:
        load_scenario(file_in(folder, content, entry))
    return str(caught.value)


def test_a_record_is_in_si_frozen_and_known_by_its_hash(tmp_path: Path) -> None:
    record = record_in(tmp_path)
    np.testing.assert_array_equal(record.time, [0.0, 10.0, 20.0, 30.0])
    np.testing.assert_array_equal(record.torque, [0.0, 120.5, -40.0, 0.0])
    assert record.speed is not None
    np.testing.assert_allclose(record.speed, np.array([0.0, 600.0, 1200.0, 0.0]) * np.pi / 30.0)
    assert record.repeats_every == pytest.approx(8 * 3600.0)
    assert record.duration == 30.0
    assert record.file_hash == ("day.csv", hashlib.sha256(ROUND.encode()).hexdigest())
    with pytest.raises(ValueError, match="read-only"):
        record.torque[0] = 1.0
    with pytest.raises(AttributeError):
        record.file = "other.csv"  # type: ignore[misc]


def test_without_a_duty_file_there_is_no_record(tmp_path: Path) -> None:
    scenario = tmp_path / "job.toml"
    scenario.write_text(BASE)
    assert load_scenario(scenario).duty_record is None


@pytest.mark.parametrize(
    "content",
    [
        "\ufefftime_s,torque_Nm\n0,0\n10,5\n",  # as a spreadsheet saves it
        "time_s,torque_Nm\r\n0,0\r\n10,5\r\n",
        "time_s, torque_Nm\n\n0 , 0\n\n10,5\n\n",
        '"time_s","torque_Nm"\n"0","0"\n"10","5"\n',
        "torque_Nm,time_s\n0,0\n5,10\n",
        "time_s,torque_Nm\n0,0\n1e1,.5e1",
    ],
)
def test_ways_to_write_the_same_record(tmp_path: Path, content: str) -> None:
    record = record_in(tmp_path, content)
    assert (list(record.time), list(record.torque), record.speed) == ([0.0, 10.0], [0.0, 5.0], None)


HEADER = "time_s,torque_Nm\n"
BAD_LINES = {
    "nan": (HEADER + "0,0\n1,nan\n", 'day.csv: line 3, torque_Nm: "nan" is not a finite number'),
    "infinity": (HEADER + "0,0\n1,inf\n", 'line 3, torque_Nm: "inf" is not a finite number'),
    "overflow": (HEADER + "0,0\n1,1e400\n", "is not a finite number"),
    "too large": (HEADER + "0,0\n1,1e300\n", "is beyond anything that can be recorded"),
    "word": (HEADER + "0,0\n1,twelve\n", 'line 3, torque_Nm: "twelve" is not a number'),
    "empty cell": (HEADER + "0,0\n1,\n2,3\n", 'line 3, torque_Nm: "" is not a number'),
    "underscore": (HEADER + "0,0\n1,1_0\n", 'line 3, torque_Nm: "1_0" is not a number'),
    "digits of another script": (HEADER + "0,0\n1,\u0663\n", "is not a number"),
    "line after blank lines": (HEADER + "\n\n0,0\n1,x\n", "line 5, torque_Nm"),
    "decimal comma": (HEADER + "0,0\n1,5,3\n", "line 3: has 3 cells where the header has 2"),
    "one cell": (HEADER + "0,0\n1\n", "line 3: has 1 cell where the header has 2"),
    "time that stands": (HEADER + "0,0\n5,1\n5,2\n", "line 4, time_s: 5 does not rise above 5"),
    "time that goes back": (HEADER + "0,0\n5,1\n4,2\n", "line 4, time_s: 4 does not rise above 5"),
    "one row": (HEADER + "0,0\n", "day.csv: has fewer than two rows"),
    "header alone": (HEADER, "has fewer than two rows"),
    "nothing": ("", "day.csv: is empty; write the header time_s,torque_Nm"),
    "blank lines": ("\n \n", "day.csv: is empty"),
    "no torque": (HEADER + "0,0\n10,0\n", "holds no torque at all"),
    "semicolons": ("time_s;torque_Nm\n0;0\n", "commas, no semicolons"),
    "other names": ("time_s,torque_nm\n0,0\n1,1\n", 'did you mean "torque_Nm"?'),
    "no header": ("0,0\n1,1\n", 'line 1: "0" is not a column known here'),
    "a column twice": ("time_s,torque_Nm,time_s\n0,0,0\n", 'line 1: "time_s" stands twice'),
    "no time": ("torque_Nm,speed_rpm\n0,0\n", "line 1: has no column time_s"),
    "open quote": (HEADER + '0,"0\n1,1\n', "is not CSV"),
    "binary": (b"time_s,torque_Nm\n0,\xff\xfe\n", "day.csv: line 2: is not UTF-8 text"),
    "nul": (b"time_s,torque_Nm\n0,0\n1,\x001\n", "day.csv: line 3"),
    "longer than it repeats": (
        HEADER + "0,0\n30000,1\n",
        "lasts 30000 s, longer than duty_file.repeats_every",
    ),
    "beyond the motor": (
        HEADER + "0,0\n1,244\n2,245\n",
        "day.csv: line 4, torque_Nm: 245 is beyond 240 N m (motor.peak_torque x boost); raise motor.boost",
    ),
    "beyond the motor, braking": (
        HEADER + "0,0\n1,100\n2,-490\n",
        "line 4, torque_Nm: -490 is beyond 480 N m (motor.peak_torque x boost, twice, for braking)",
    ),
    "beyond the highest speed": (
        "time_s,torque_Nm,speed_rpm\n0,0,0\n1,100,-4100\n",
        "line 3, speed_rpm: 4100 is above motor.max_speed (4000 rpm)",
    ),
}


@pytest.mark.parametrize(("content", "message"), BAD_LINES.values(), ids=BAD_LINES)
def test_bad_records_are_refused_by_line(tmp_path: Path, content: str | bytes, message: str) -> None:
    said = faults_in(tmp_path, content)
    assert message in said
    assert len(said.splitlines()) <= 12


def test_what_a_sensor_adds_is_let_through(tmp_path: Path) -> None:
    assert record_in(tmp_path, HEADER + "0,0\n1,244\n2,0\n").torque.max() == 244.0


def test_boost_raises_the_limit(tmp_path: Path) -> None:
    scenario = file_in(tmp_path, HEADER + "0,0\n1,300\n2,0\n")
    scenario.write_text(scenario.read_text().replace('"240 N*m"', '"240 N*m"\nboost = 1.3'))
    assert load_scenario(scenario).duty_record is not None


def test_many_faults_are_counted_and_the_first_are_listed(tmp_path: Path) -> None:
    said = faults_in(tmp_path, HEADER + "x,y\n" * 500).splitlines()
    assert len(said) == 11
    assert said[0].startswith("day.csv: line 2, time_s")
    assert said[-1] == "day.csv: has 990 more faults in its lines; mend these first"


@pytest.mark.parametrize(
    ("path", "message"),
    [
        ("/etc/passwd", '" leaves the folder of the scenario'),
        ("../day.csv", '" leaves the folder of the scenario'),
        ("a/../../day.csv", '" leaves the folder of the scenario'),
        ("", '" leaves the folder of the scenario'),
        ("sub/../day.csv", '" leaves the folder of the scenario'),
        ("link.csv", "is a link that leaves the folder of the scenario"),
        ("out/day.csv", "is a link that leaves the folder of the scenario"),
        ("loop.csv", "duty_file.path"),
        ("pipe.csv", "does not exist"),
        ("sub", "is a folder"),
        ("dai.csv", 'does not exist; did you mean "day.csv"?'),
        ("x" * 190 + ".csv/" + "y" * 5, "duty_file.path"),
        ("x" * 300, "is longer than 200 characters"),
        ("a\\u0000b.csv", "holds control characters"),
    ],
)
def test_paths_that_are_not_followed(tmp_path: Path, path: str, message: str) -> None:
    folder = tmp_path / "job"
    (folder / "sub").mkdir(parents=True)
    (tmp_path / "day.csv").write_text(ROUND)
    (folder / "link.csv").symlink_to(tmp_path / "day.csv")
    (folder / "out").symlink_to(tmp_path)
    (folder / "loop.csv").symlink_to(folder / "loop.csv")
    os.mkfifo(folder / "pipe.csv")
    assert message in faults_in(folder, entry=ENTRY.replace("day.csv", path))


def test_a_record_below_the_folder_and_a_link_within_it_are_read(tmp_path: Path) -> None:
    (tmp_path / "logs").mkdir()
    (tmp_path / "logs" / "day.csv").write_text(ROUND)
    (tmp_path / "near.csv").symlink_to(tmp_path / "logs" / "day.csv")
    for path in ("logs/day.csv", "near.csv"):
        scenario = file_in(tmp_path, entry=ENTRY.replace("day.csv", path))
        record = load_scenario(scenario).duty_record
        assert record is not None
        assert record.file == path


def test_size_and_rows_have_limits(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(duty_record, "MOST_ROWS", 3)
    assert "has more than 3 rows" in faults_in(tmp_path)
    monkeypatch.setattr(duty_record, "MOST_ROWS", 4)
    assert record_in(tmp_path).time.size == 4
    monkeypatch.setattr(duty_record, "LARGEST_RECORD", len(ROUND) - 1)
    assert "is larger than" in faults_in(tmp_path)
    monkeypatch.setattr(duty_record, "LARGEST_RECORD", len(ROUND))
    assert record_in(tmp_path).time.size == 4


@pytest.mark.parametrize(
    ("entry", "message"),
    [
        (ENTRY + '[[duty]]\ntorque = 1.0\nspeed = "600 rpm"\nshare = 1.0\n', "duty_file: contradicts duty"),
        ('[duty_file]\npath = "day.csv"\n', "duty_file.repeats_every: is missing"),
        ('[duty_file]\nrepeats_every = "8 hour"\n', "duty_file.path: is missing"),
        (ENTRY.replace('"8 hour"', '"0 hour"'), 'duty_file.repeats_every: "0 hour" must be above zero'),
        (ENTRY.replace('"8 hour"', "8"), "duty_file.repeats_every: 8 is a number without a unit"),
        (ENTRY.replace('"day.csv"', "3"), "duty_file.path: 3 is not a text"),
        ('[[duty_file]]\npath = "day.csv"\n', "duty_file: is not a table"),
        (ENTRY.replace("path", "pth"), 'duty_file.pth: is not a known key; did you mean "path"?'),
    ],
)
def test_faults_of_the_block(tmp_path: Path, entry: str, message: str) -> None:
    assert message in faults_in(tmp_path, entry=entry)


def test_faults_of_scenario_and_record_come_together(tmp_path: Path) -> None:
    scenario = file_in(tmp_path, HEADER + "0,0\n1,x\n")
    scenario.write_text(scenario.read_text().replace('seat = "flexible"', 'seat = "loose"'))
    with pytest.raises(ScenarioError) as caught:
        load_scenario(scenario)
    assert 'job.toml: joint[1].seat: "loose"' in str(caught.value)
    assert "day.csv: line 3, torque_Nm" in str(caught.value)


def test_the_base_has_no_duty_file() -> None:
    assert "[[duty]]" in edited()
    assert Scenario.model_fields["duty_file"].default is None


def read(content: bytes) -> DutyRecord | ScenarioError:
    with TemporaryDirectory() as folder:
        (Path(folder) / "day.csv").write_bytes(content)
        try:
            return read_record(Path(folder) / "job.toml", "day.csv", 3600.0)
        except ScenarioError as error:
            return error


def sound_or_said(outcome: DutyRecord | ScenarioError) -> None:
    if isinstance(outcome, ScenarioError):
        assert all(line.startswith("day.csv: ") for line in str(outcome).splitlines())
    else:
        assert np.all(np.isfinite(outcome.time) & np.isfinite(outcome.torque))
        assert np.all(np.diff(outcome.time) > 0.0)


@settings(deadline=None)
@given(st.binary(max_size=300))
def test_no_bytes_break_the_reader(content: bytes) -> None:
    sound_or_said(read(content))


@settings(deadline=None)
@given(st.binary(max_size=200))
def test_no_bytes_under_a_sound_header_break_the_reader(content: bytes) -> None:
    sound_or_said(read(HEADER.encode() + content))


CELL = st.one_of(
    st.floats(allow_nan=True, allow_infinity=True).map(repr),
    st.integers(-100, 100).map(str),
    st.text(alphabet='0123456789.,;eE+-_ "\t\rnaif', max_size=8),
)


@settings(deadline=None)
@given(st.lists(st.lists(CELL, min_size=1, max_size=4), max_size=8))
def test_no_cells_break_the_reader(rows: list[list[str]]) -> None:
    sound_or_said(read((HEADER + "\n".join(",".join(row) for row in rows)).encode()))


@settings(deadline=None)
@given(
    steps=st.lists(st.floats(1e-3, 50.0), min_size=1, max_size=20),
    torques=st.lists(st.floats(-1e3, 1e3), min_size=21, max_size=21),
)
def test_sound_numbers_come_back_as_they_were(steps: list[float], torques: list[float]) -> None:
    times = [0.0, *np.cumsum(steps).tolist()]
    rows = list(zip(times, torques, strict=False))
    outcome = read((HEADER + "".join(f"{t!r},{torque!r}\n" for t, torque in rows)).encode())
    if isinstance(outcome, ScenarioError):
        assert not any(torque for _, torque in rows)
    else:
        assert list(outcome.time) == [t for t, _ in rows]
        assert list(outcome.torque) == [torque for _, torque in rows]
