"""What a sound file becomes: SI, tolerance, text, mark; frozen; the schema says the same."""

import json
import math
import tomllib
from pathlib import Path

import jsonschema
import pytest
from builder import BASE, EXAMPLES, edited, loaded
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from torqcheck.errors import ScenarioError
from torqcheck.scenario import load_scenario, scenario_from_text
from torqcheck.scenario.estimates import torque_rise
from torqcheck.scenario.joint_schema import InvoluteSplineJoint
from torqcheck.scenario.json_schema import json_schema
from torqcheck.scenario.kinds import KINDS


def test_quantities_keep_tolerance_text_and_mark() -> None:
    joint = loaded(('"1.25 in"', '"31.75 +/- 0.05 mm"')).joint[0]
    assert isinstance(joint, InvoluteSplineJoint)
    reading = joint.engagement
    assert (reading.value, reading.tolerance) == pytest.approx((31.75e-3, 0.05e-3))
    assert reading.text == "31.75 +/- 0.05 mm"
    assert reading.mark == "measured"


def test_a_scenario_is_frozen_and_knows_its_file(tmp_path: Path) -> None:
    scenario = load_scenario(EXAMPLES[0])
    assert scenario.path == EXAMPLES[0]
    assert len(scenario.file_sha256) == 64
    with pytest.raises(ValidationError, match="frozen"):
        scenario.motor = None  # type: ignore[misc, assignment]


@pytest.mark.parametrize(
    ("written", "slope"),
    [
        ('torque_rise = "4800 N*m/s"', 4800.0),
        ('rise_time = "50 ms"', 4800.0),
        ("percent_per_10ms = 20", 4800.0),
        ('torque_rise = "instant"', math.inf),
        ('rise_time = "0 ms"', math.inf),
    ],
)
def test_three_ways_to_say_a_ramp(written: str, slope: float) -> None:
    motor = loaded(('torque_rise = "4800 N*m/s"', written)).motor
    assert torque_rise(motor) == pytest.approx(slope)


def test_boost_raises_the_peak_and_the_ramp_that_is_said_in_time() -> None:
    motor = loaded(('torque_rise = "4800 N*m/s"', 'rise_time = "50 ms"\nboost = 1.5')).motor
    assert torque_rise(motor) == pytest.approx(1.5 * 4800.0)


def test_an_unknown_kind_is_refused_with_the_nearest_and_all_others() -> None:
    with pytest.raises(ScenarioError, match='did you mean "bolted flange"') as caught:
        loaded(('kind = "involute spline"', 'kind = "bolt flange"'))
    for known in KINDS:
        assert f'"{known}"' in str(caught.value)


def test_the_stack_is_checked_for_form() -> None:
    stack = """
[stack]
shims = ["0.1 mm", "0.2 mm"]
assembled_at = "20 degC"
running_at = "70 degC"

[[stack.distance]]
name = "motor face to shaft end"
length = "62 +/- 0.2 mm"

[[stack.distance]]
name = "gearbox face to shaft end"
length = "1 3/4 in"

[[stack.result]]
name = "end gap"
kind = "gap"
plus = ["motor face to shaft end"]
minus = ["gearbox face to shaft end"]
least = "3 mm"
"""
    scenario = loaded(base=BASE + stack)
    assert scenario.stack is not None
    assert scenario.stack.distance[1].length.value == pytest.approx(1.75 * 0.0254)
    with pytest.raises(ScenarioError, match='names an unknown distance "motor face"'):
        loaded(('plus = ["motor face to shaft end"]', 'plus = ["motor face"]'), base=BASE + stack)


def test_two_joints_of_one_name_are_refused() -> None:
    joint = "[[joint]]" + BASE.split("[[joint]]")[1]
    with pytest.raises(ScenarioError, match=r'joint\[2\].name: "gearbox input" is used twice'):
        loaded(base=BASE + "\n" + joint)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_the_printed_schema_accepts_every_example(path: Path) -> None:
    data = json.loads(json.dumps(tomllib.loads(path.read_text()), default=str))
    jsonschema.validate(data, json_schema())


@pytest.mark.parametrize(
    "change",
    [
        ('engagement = "1.25 in"', 'engagement = "1.25"'),
        ('engagement = "1.25 in"', "engagement = 1.25"),
        ('seat = "flexible"', 'seat = "loose"'),
        ("lubrication =", "lubrikation ="),
    ],
)
def test_the_printed_schema_refuses_what_the_loader_refuses(change: tuple[str, str]) -> None:
    data = json.loads(json.dumps(tomllib.loads(edited(change)), default=str))
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(data, json_schema())
    with pytest.raises(ScenarioError):
        loaded(change)


def test_the_printed_schema_takes_one_duty_and_not_two() -> None:
    data = json.loads(json.dumps(tomllib.loads(BASE), default=str))
    data["duty_file"] = {"path": "day.csv", "repeats_every": "8 hour"}
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(data, json_schema())
    del data["duty"]
    jsonschema.validate(data, json_schema())


def test_every_field_of_the_file_is_described() -> None:
    for name, definition in json_schema()["$defs"].items():
        for key, field in definition["properties"].items():
            assert field.get("description"), f"{name}.{key}"


@given(st.binary(max_size=300))
def test_no_bytes_break_the_loader(content: bytes) -> None:
    with pytest.raises(ScenarioError):
        scenario_from_text(content, Path("junk.toml"))


LINES = BASE.splitlines()


@given(st.integers(0, len(LINES) - 1), st.sampled_from(["", "x = 1", "[x]", '"', "= nan", "teeth = -1"]))
def test_no_edited_line_breaks_the_loader(index: int, new: str) -> None:
    lines = [*LINES[:index], new, *LINES[index + 1 :]]
    try:
        scenario_from_text("\n".join(lines).encode(), Path("edited.toml"))
    except ScenarioError as error:
        for line in str(error).splitlines():
            assert line.startswith("edited.toml: ")
