import numpy as np
import pytest
from builder import loaded

from torqcheck.assessment.sweep.keys import varied_key
from torqcheck.assessment.sweep.run import question_of
from torqcheck.errors import UsageError
from torqcheck.scenario.edits import edited, numeric_key


def values(text: str, *edits: tuple[str, str]) -> list[float]:
    key = varied_key(loaded(*edits), text)
    return [float(value) for value in key.at_level(np.arange(key.count))]


def test_a_range_has_its_unit_from_its_last_value() -> None:
    key = varied_key(loaded(), "joint[1].engagement=20:40 mm:21")
    assert (key.unit, key.count, key.title) == ("mm", 21, "joint[1].engagement (mm)")
    assert values("joint[1].engagement=20:40 mm:21") == [float(n) for n in range(20, 41)]


def test_the_unit_need_not_be_that_of_the_file() -> None:
    assert values("joint[gearbox input].engagement=3/4 in:1 1/2 in:4") == [0.75, 1.0, 1.25, 1.5]
    assert values("joint[1].engagement=1 in:50.8 mm:2") == [25.4, 50.8]


def test_steps_are_round_numbers() -> None:
    assert values("motor.peak_torque=0.1:0.7 N*m:7") == [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7]


def test_a_range_may_fall() -> None:
    assert values("motor.peak_torque=300:100 N*m:3") == [300.0, 200.0, 100.0]


def test_a_logarithmic_range_has_even_ratios_and_its_very_ends() -> None:
    found = values("motor.torque_rise=1e3:1e5 N*m/s:5:log")
    assert found[0] == 1e3
    assert found[-1] == 1e5
    assert np.allclose(np.diff(np.log(found)), np.log(100.0) / 4.0, rtol=1e-12)


def test_a_list_keeps_its_order() -> None:
    assert values("targets.safety_factor=2,1.5,3") == [2.0, 1.5, 3.0]
    assert values("joint[1].engagement=20,30 mm") == [20.0, 30.0]


def test_a_hardness_stays_on_its_scale() -> None:
    assert varied_key(loaded(), "joint[1].external.hardness=56:62 HRC:4").unit == "HRC"


def test_what_counts_something_stays_whole() -> None:
    key = varied_key(loaded(), "joint[1].size.teeth=24,26")
    assert [key.written(float(v)) for v in key.at_level(np.arange(2))] == [24, 26]
    assert key.column(np.array([24.0])).dtype.kind == "i"


@pytest.mark.parametrize(
    "text",
    ["joint[1].engagement=17:43 mm:5", "motor.max_speed=2100:4000 rpm:7", "joint[1].tilt.angle=1:9 arcmin:3"],
)
def test_a_column_in_si_is_what_the_file_would_give_to_the_last_digit(text: str) -> None:
    scenario = loaded()
    key = varied_key(scenario, text)
    found = key.at_level(np.arange(key.count))
    for value, si in zip(found, key.in_si(found), strict=True):
        changed = edited(scenario, {key.key: key.written(float(value))})
        assert numeric_key(changed, key.key).value == si


@pytest.mark.parametrize(
    ("vary", "says"),
    [
        ("joint[1].engagement", "is not a key with values"),
        ("joint[1].engagment=20:40 mm:21", 'did you mean "joint\\[1\\].engagement"'),
        ("joint[1].kind=1:2:3", "holds no number"),
        ("joint[1].engagement=20:40:21", "the last value has no unit"),
        ("joint[1].engagement=20:40 kg:21", "mass, not a length"),
        ("joint[1].engagement=20:40 mm", "is not START:STOP:COUNT"),
        ("joint[1].engagement=20:40 mm:1", "2 to 1000000000 values"),
        ("joint[1].engagement=20:40 mm:2000000000", "2 to 1000000000 values"),
        ("joint[1].engagement=20:40 mm:-3", "is not a whole number"),
        ("joint[1].engagement=20:40 mm:1000000000000", "a range has 2 to 1000000000 values"),
        ("joint[1].engagement=20:40 mm:3:exp", "is not START:STOP:COUNT"),
        ("joint[1].engagement=20:20 mm:3", "starts and stops at the same value"),
        ("joint[1].engagement=20,20 mm", "names a value twice"),
        ("joint[1].engagement=20 +/- 1 mm:40 mm:3", "is not a plain number|tolerance"),
        ("joint[1].engagement=nan:40 mm:3", "is not a"),
        ("joint[1].engagement=1e999:40 mm:3", "not a finite number"),
        ("joint[1].engagement=-20:40 mm:3", "is refused: joint\\[1\\].engagement: must be above zero"),
        ("joint[1].external.bore=0:60 mm:3", "is refused: joint\\[1\\].external.bore: leaves no wall"),
        ("motor.peak_torque=0:100 N*m:3:log", "lies above zero"),
        ("targets.safety_factor=1:2 mm:3", "plain number"),
        ("joint[1].size.teeth=20:25:3", "counts something"),
        ("joint[1].external.hardness=200:300 HB:3", "write the hardness in HRC"),
        ("driven.damping_ratio=0:3:4", "is refused"),
    ],
)
def test_what_cannot_be_varied_is_said_in_one_line(vary: str, says: str) -> None:
    scenario = loaded(("[joint.external]", '[joint.external]\nbore = "5 mm"'))
    with pytest.raises(UsageError, match=says) as caught:
        question_of(scenario, [vary])
    assert "\n" not in str(caught.value)


def test_a_key_is_varied_once() -> None:
    both = ["joint[1].engagement=20:40 mm:3", "joint[gearbox input].engagement=1:2 in:3"]
    with pytest.raises(UsageError, match="is varied twice"):
        question_of(loaded(), both)


def test_too_many_points_are_refused() -> None:
    both = ["joint[1].engagement=20:40 mm:100000", "motor.peak_torque=100:200 N*m:100000"]
    with pytest.raises(UsageError, match="10000000000 points: a sweep has from 1 to 1000000000"):
        question_of(loaded(), both)


def test_points_and_seed_belong_to_the_hypercube() -> None:
    one = ["joint[1].engagement=20:40 mm:3"]
    with pytest.raises(UsageError, match="add --points N"):
        question_of(loaded(), one, design="latin")
    with pytest.raises(UsageError, match="goes with --design latin"):
        question_of(loaded(), one, points=5)
    with pytest.raises(UsageError, match="--seed -1"):
        question_of(loaded(), one, design="latin", points=5, seed=-1)


def test_an_end_that_only_other_ends_make_possible_is_allowed() -> None:
    # no spell may turn faster than the motor: its lowest speed needs slower spells
    both = ["motor.max_speed=1000:4000 rpm:4", "duty[2].speed=500:2000 rpm:2", "duty[1].speed=300:600 rpm:2"]
    assert question_of(loaded(), both).design.points == 16
