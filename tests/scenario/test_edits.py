"""Values of a scenario changed by key: the same as the file written by hand with that value."""

import math
from pathlib import Path

import pytest
from builder import BASE, EXAMPLES, loaded
from hypothesis import given, settings
from hypothesis import strategies as st

from torqcheck.errors import ScenarioError, UsageError
from torqcheck.scenario import Scenario, load_scenario
from torqcheck.scenario.edits import edited, numeric_key, numeric_keys, place_of, written_at
from torqcheck.scenario.faults import key_text
from torqcheck.units import KINDS, unit_of, units_of

UNMEASURED = tuple((line, "") for line in BASE.splitlines(keepends=True) if line.startswith("measured"))


@pytest.mark.parametrize(
    ("key", "value", "old", "new"),
    [
        ("motor.peak_torque", "200 N*m", 'peak_torque = "240 N*m"', 'peak_torque = "200 N*m"'),
        ("joint[1].engagement", "40 mm", 'engagement = "1.25 in"', 'engagement = "40 mm"'),
        ("joint[gearbox input].engagement", "40 mm", 'engagement = "1.25 in"', 'engagement = "40 mm"'),
        ("joint[1].tilt.angle", "0.1 deg", 'angle = "0.08 deg"', 'angle = "0.1 deg"'),
        ("joint[1].size.teeth", 27, "teeth = 26, pitch", "teeth = 27, pitch"),
        ("duty[Running].speed", "1500 rpm", 'speed = "2000 rpm"', 'speed = "1500 rpm"'),
        ("motor.boost", 1.1, "regen_torque", "boost = 1.1\nregen_torque"),
        (
            "driven.slip",
            {"torque": "900 N*m"},
            "damping_ratio = 0.03",
            'damping_ratio = 0.03\nslip = { torque = "900 N*m" }',
        ),
        ("motor.regen_torque", None, 'regen_torque = "90 N*m"\n', ""),
    ],
)
def test_an_edit_is_the_file_written_so(key: str, value: object, old: str, new: str) -> None:
    made = edited(loaded(*UNMEASURED), {key: value})
    there = loaded(*UNMEASURED, (old, new))
    assert fields_of(made) == fields_of(there)
    assert made.document == there.document


def fields_of(scenario: Scenario) -> dict[str, object]:
    return {name: getattr(scenario, name) for name in type(scenario).model_fields}


def test_the_scenario_it_was_made_from_stays_as_it_was() -> None:
    base = loaded()
    before = repr(base.document)
    edited(base, {"joint[1].external.steel": "1045_HR", "motor.rotor_inertia": "0.07 kg*m^2"})
    assert repr(base.document) == before


def test_the_rules_of_the_file_hold_for_what_is_changed() -> None:
    with pytest.raises(ScenarioError, match=r'joint\[1\]\.engagement: "32" has no unit'):
        edited(loaded(), {"joint[1].engagement": "32"})
    with pytest.raises(ScenarioError, match=r"joint\[1\]\.engagment: is not a known key; did you mean"):
        edited(loaded(), {"joint[1].engagment": "32 mm"})
    with pytest.raises(ScenarioError, match=r'there is no steel "4141"'):
        edited(loaded(), {"joint[1].external.steel": "4141"})


@pytest.mark.parametrize(
    ("key", "said"),
    [
        ("", "an empty text is not a key"),
        ("joint[3].engagement", "joint has 1 entries, counted from 1"),
        ("joint[0].engagement", "joint has 1 entries, counted from 1"),
        ("joint[output].engagement", 'no entry of joint is called "output"; they are called "gearbox input"'),
        ("motor[1].boost", "motor is not a list"),
        ("inspection[1].hours", "inspection is not a list of the file"),
        (".motor", "is not a key"),
        ("motor..boost", "is not a key"),
        ("motor.boost ", "is not a key"),
        ("motor.\x1b[31m", "is not a key"),
        ("a" * 500, "is not a key"),
        ("joint[²].engagement", 'no entry of joint is called "²"'),
    ],
)
def test_what_is_no_key_is_refused_in_one_line(key: str, said: str) -> None:
    with pytest.raises(UsageError) as caught:
        place_of(loaded(), key)
    assert said in str(caught.value)
    assert "\n" not in str(caught.value)
    assert str(caught.value).isprintable()


@pytest.mark.parametrize("key", ["motor.peak_torque.value", "joint[1].name.first", "joint.engagement"])
def test_nothing_is_written_below_a_value(key: str) -> None:
    with pytest.raises(UsageError, match="is no table"):
        edited(loaded(), {key: 1})


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_every_number_of_every_example_is_found_and_goes_back_as_it_was(example: Path) -> None:
    scenario = load_scenario(example)
    numbers = numeric_keys(scenario)
    assert len({number.key for number in numbers}) == len(numbers) > 10
    same = edited(scenario, {number.key: written_at(scenario, number.key) for number in numbers})
    assert fields_of(same) == fields_of(scenario)
    for number in numbers:
        assert place_of(scenario, number.key) == number.place
        assert key_text(number.place) == number.key
        assert numeric_key(scenario, number.key) == number
        assert math.isfinite(number.value) or number.kind == "stiffness"


def test_numbers_know_their_kind_and_unit() -> None:
    scenario = loaded()
    engagement = numeric_key(scenario, "joint[gearbox input].engagement")
    assert (engagement.kind, engagement.unit, engagement.value) == ("length", "in", 1.25 * 0.0254)
    hardness = numeric_key(scenario, "joint[1].external.hardness")
    assert (hardness.kind, hardness.unit) == ("hardness", "HRC")
    teeth = numeric_key(scenario, "joint[1].size.teeth")
    assert (teeth.kind, teeth.unit, teeth.whole, teeth.value) == (None, "", True, 26.0)
    assert not numeric_key(scenario, "reduction.ratio").whole


@pytest.mark.parametrize(
    ("key", "said"),
    [
        (
            "joint[1].engagment",
            '"joint[1].engagment" is not in the file; did you mean "joint[1].engagement"?',
        ),
        ("joint[1].seat", '"joint[1].seat" holds no number'),
        ("motor.boost", '"motor.boost" is not in the file'),
        ("format", '"format" holds no number'),
    ],
)
def test_a_key_without_a_number_is_refused(key: str, said: str) -> None:
    with pytest.raises(UsageError) as caught:
        numeric_key(loaded(), key)
    assert said in str(caught.value)


@settings(max_examples=200)
@given(
    kind=st.sampled_from(KINDS),
    number=st.floats(0.001, 1e6),
    space=st.sampled_from(["", " ", "  "]),
    tolerance=st.sampled_from(["", "+/- 0.5 ", "± 1e-3 "]),
    data=st.data(),
)
def test_the_unit_of_a_quantity_is_found(
    kind: str, number: float, space: str, tolerance: str, data: st.DataObject
) -> None:
    unit = data.draw(st.sampled_from(sorted(units_of(kind))))
    apart = " " if unit[0].isdigit() else space  # 1/min needs a blank before it
    assert unit_of(f"{number!r}{apart}{tolerance}{unit}", kind) == unit  # type: ignore[arg-type]


def test_unit_of_fractions_spellings_and_strangers() -> None:
    assert unit_of("1 1/4 in", "length") == "in"
    assert unit_of("1 1/4 +/- 0.01 in", "length") == "in"
    assert unit_of("240 N m", "torque") == "N*m"
    assert unit_of("240 N·m", "torque") == "N*m"
    assert unit_of("240 kg", "torque") == ""
    assert unit_of("rigid", "stiffness") == ""
