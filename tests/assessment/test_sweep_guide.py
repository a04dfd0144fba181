"""The columns of a sweep against the single check: the same to the last digit."""

import numpy as np
import pytest
from builder import BASE, EXAMPLES, loaded
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from torqcheck.assessment.prepared import checks_at, prepared_of
from torqcheck.assessment.sweep import guide as sweep_guide
from torqcheck.assessment.sweep.answers import GuideAnswers
from torqcheck.assessment.sweep.columns import takes_column
from torqcheck.assessment.sweep.keys import varied_key
from torqcheck.assessment.sweep.run import Question, answers_to, question_of
from torqcheck.assessment.sweep.table import Table, Words
from torqcheck.assessment.torque.blow import peak_at, worst_blow
from torqcheck.assessment.torque.slip_element import peaks_of
from torqcheck.errors import NoSolutionError, ScenarioError, UsageError
from torqcheck.scenario import Scenario, load_scenario
from torqcheck.scenario.edits import edited, numeric_keys

NAMES = {
    "root shear, external member": "root_shear",
    "pitch-line tooth shear": "pitch_line_shear",
    "flank pressure": "flank_pressure",
    "bursting, internal member": "bursting",
}
FAST = {
    "motor.peak_torque", "motor.torque_rise", "motor.rise_time", "motor.percent_per_10ms", "motor.boost",
    "motor.regen_torque", "motor.regen_rise", "motor.rotor_inertia", "motor.max_speed", "reduction.ratio",
    "reduction.efficiency", "reduction.inertia", "driven.inertia", "driven.stiffness", "driven.damping_ratio",
    "targets.safety_factor", "joint[1].engagement", "joint[1].tilt.angle", "joint[1].lash.clearance",
    "joint[1].lash.angle", "joint[1].external.bore", "joint[1].internal.outside_diameter",
}  # fmt: skip
EVERYTHING = (
    ('peak_torque = "240 N*m"', 'peak_torque = "240 N*m"\nboost = 1.1\nregen_rise = "3000 N*m/s"'),
    ("[joint.external]", '[joint.external]\nbore = "6 mm"'),
)
SOFT = ('torque_rise = "4800 N*m/s"', 'rise_time = "50 ms"')
PERCENT = ('torque_rise = "4800 N*m/s"', "percent_per_10ms = 20")
TURNED = ('lash = { clearance = "0.05 mm" }', 'lash = { angle = "0.2 deg" }')
SLIP = (
    "damping_ratio = 0.03",
    'damping_ratio = 0.03\nslip = { torque = "700 N*m", inertia_before = "0.3 kg*m^2" }',
)
CROWNED = ('engagement = "1.25 in"', 'engagement = "1.25 in"\ncrown_height = "0.02 mm"')
UNKNOWN = ('inertia = "2.4 kg*m^2"\nstiffness = "9000 N*m/rad"\n', "")
NO_ROTOR = ('rotor_inertia = "0.05 kg*m^2"', "")
NO_DUTY = BASE[BASE.index("[[duty]]") : BASE.index("[[joint]]")], ""
BRAKING = ("torque = 0.3", "torque = -0.6")


def single(scenario: Scenario) -> dict[str, float]:
    """What the single check says, by the names of the columns; and the lowest factor over target."""
    prepared = prepared_of(scenario)
    shock = worst_blow(prepared.scenario, prepared.path, prepared.loads, prepared.ledger)
    found: dict[str, float] = {}
    lowest = np.inf
    for index, load in enumerate(prepared.loads):
        name, peak = f"joint[{index + 1}]", peak_at(index, shock, prepared.path, prepared.loads)
        found |= {f"{name}.torque_Nm": load.torque, f"{name}.peak_torque_Nm": peak}
        state = prepared.joints[index].spline
        if state is None:
            continue
        found[f"{name}.lash_rad"] = state.lash_angle
        for check in checks_at(prepared, index, peak):
            if check.method.startswith("guide"):
                column = f"{name}.{NAMES[check.name]}_{check.method.split()[-1]}_safety_factor"
                found[column] = np.nan if check.safety_factor is None else check.safety_factor
                lowest = min(lowest, check.margin)
    return found | {"safety_factor_over_target": lowest if np.isfinite(lowest) else np.nan}


def compare(question: Question) -> int:
    """Every row against the single check of its scenario; how many rows the rules allow."""
    table = answers_to(question).table(question.design.stretch(0, question.design.points))
    allowed = 0
    for row in range(table.count):
        changes = {
            key.key: key.written(float(np.asarray(table.columns[key.title])[row]))
            for key in question.design.keys
        }
        try:
            scenario = edited(question.scenario, changes)
        except ScenarioError:
            assert np.isnan(table.margin[row])
            assert text(table, "refused", row)
            continue
        allowed += 1
        assert text(table, "refused", row) == ""
        for name, value in single(scenario).items():
            column = table.columns[name]
            assert not isinstance(column, Words)
            assert column[row] == pytest.approx(value, rel=1e-15, abs=0.0, nan_ok=True), (changes, name)
    return allowed


def text(table: Table, name: str, row: int) -> str:
    words = table.columns[name]
    assert isinstance(words, Words)
    return words.text[words.code[row]] if words.code[row] >= 0 else ""


def range_around(scenario: Scenario, key: str, low: float, high: float, count: int) -> str:
    """A range of a key from so many to so many times what stands there."""
    number = next(number for number in numeric_keys(scenario) if number.key == key)
    zero, unit = varied_key(scenario, f"{key}=1 {number.unit}").in_si(np.array([0.0, 1.0]))
    value = float((number.value - zero) / (unit - zero))
    return f"{key}={low * value!r}:{high * value!r} {number.unit}:{count}"


def fast_keys(scenario: Scenario) -> list[str]:
    return [number.key for number in numeric_keys(scenario) if takes_column(scenario, number.place)]


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_each_column_of_each_example_is_what_the_single_check_says(path: object) -> None:
    scenario = load_scenario(str(path))
    keys = fast_keys(scenario)
    assert len(keys) >= 8
    allowed = 0
    for key in keys:
        low = 0.0 if key in {"motor.regen_torque", "joint[1].tilt.angle"} else 0.93
        high = 1.0 if key.endswith(("efficiency", "damping_ratio")) else 1.09
        try:
            question = question_of(scenario, [range_around(scenario, key, low, high, 3)])
        except UsageError:
            continue
        allowed += compare(question)
    assert allowed >= 18


def test_every_key_that_is_said_to_be_fast_is() -> None:
    found = {
        key
        for edits in ((), (SOFT,), (PERCENT,), (TURNED,))
        for key in fast_keys(loaded(*EVERYTHING, *edits))
    }
    assert found == FAST


@pytest.mark.parametrize(
    ("edits", "slow"),
    [
        (
            (("nose_supported = true", "nose_supported = false"),),
            {"engagement", "tilt.angle", "lash.clearance"},
        ),
        (
            (
                (
                    'tilt = { angle = "0.08 deg" }',
                    'tilt = { rim = "0.05 mm", face = "0.04 mm", diameter = "80 mm" }',
                ),
            ),
            {"engagement"},
        ),
        ((('seat = "flexible"', 'seat = "fixed"'),), {"tilt.angle"}),
    ],
)
def test_a_key_on_which_another_reading_hangs_is_resolved_again(
    edits: tuple[tuple[str, str], ...], slow: set[str]
) -> None:
    scenario = loaded(*edits)
    for name in slow:
        key = f"joint[1].{name}"
        if key not in {number.key for number in numeric_keys(scenario)}:
            continue
        assert key not in fast_keys(scenario)
        assert compare(question_of(scenario, [range_around(scenario, key, 0.8, 1.2, 4)])) == 4


CASES = [
    (),
    (SOFT,),
    (PERCENT,),
    (TURNED,),
    (SLIP,),
    (CROWNED,),
    (UNKNOWN,),
    (NO_ROTOR,),
    (NO_DUTY,),
    (BRAKING,),
]


@pytest.mark.parametrize("case", range(len(CASES)))
@settings(
    max_examples=6, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.differing_executors]
)
@given(data=st.data())
def test_any_keys_together_are_what_the_single_check_says(case: int, data: st.DataObject) -> None:
    scenario = loaded(*EVERYTHING, *CASES[case])
    every = [number.key for number in numeric_keys(scenario)]
    some = [*fast_keys(scenario), *(key for key in every if key.startswith(("joint", "driven", "targets")))]
    keys = data.draw(st.lists(st.sampled_from(some), min_size=1, max_size=4, unique=True))
    numbers = {number.key: number for number in numeric_keys(scenario)}
    keys = [key for key in keys if not numbers[key].whole and key != "targets.reliability"]
    vary = []
    for key in keys:
        low = data.draw(st.floats(0.6, 0.99))
        vary.append(range_around(scenario, key, low, low + 0.3, 2))
    if not vary:
        return
    try:
        question = question_of(scenario, vary)
    except UsageError:  # an end that the rules refuse
        return
    compare(question)


def test_braking_from_none_to_more_than_driving() -> None:
    vary = [
        "motor.regen_torque=0,90,400 N*m",
        "motor.peak_torque=200:400 N*m:3",
        "reduction.efficiency=0.8,1",
    ]
    assert compare(question_of(loaded(), vary)) == 18


def test_points_that_the_rules_refuse_stay_as_rows_with_the_reason() -> None:
    scenario = loaded(("[joint.external]", '[joint.external]\nbore = "5 mm"'))
    vary = [
        "joint[1].external.bore=0:29 mm:30",
        "joint[1].size.teeth=20,26",
        "motor.peak_torque=100:200 N*m:2",
    ]
    question = question_of(scenario, vary)
    allowed = compare(question)
    assert 60 < allowed < 120
    table = answers_to(question).table(question.design.stretch(0, 120))
    assert table.tally == {"refused": 120 - allowed}
    assert reasons(table) == {"joint[1].external.bore: leaves no wall"}


def reasons(table: Table) -> set[str]:
    return {text(table, "refused", row) for row in range(table.count)} - {""}


@pytest.mark.parametrize("design", ["grid", "latin"])
def test_limits_are_found_from_both_sides(design: str) -> None:
    scenario = loaded()
    vary = ["joint[1].internal.outside_diameter=30:60 mm:40", "joint[1].size.teeth=20,26"]
    points = 60 if design == "latin" else None
    question = question_of(scenario, vary, design=design, points=points)  # type: ignore[arg-type]
    allowed = compare(question)
    assert 10 < allowed < question.design.points
    table = answers_to(question).table(question.design.stretch(0, question.design.points))
    assert reasons(table) == {"joint[1].internal.outside_diameter: leaves no wall"}


def test_a_blow_that_cannot_be_followed_costs_its_own_point_only(monkeypatch: pytest.MonkeyPatch) -> None:
    def endless(arguments: dict[str, np.ndarray]) -> np.ndarray:
        if np.any(arguments["damping_ratio"] == 0.0):
            raise NoSolutionError("hammers without end")
        return peaks_of(arguments)

    question = question_of(
        loaded(), ["driven.damping_ratio=0.01,0,0.03,0.05,0.06", "motor.max_speed=3000,4000 rpm"]
    )
    answers = answers_to(question)
    monkeypatch.setattr(sweep_guide, "peaks_of", endless)
    table = answers.table(question.design.stretch(0, 10))
    assert [row for row in range(10) if text(table, "refused", row)] == [2, 3]
    assert text(table, "refused", 2).startswith("the blow cannot be followed")
    assert list(np.flatnonzero(np.isnan(table.margin))) == [2, 3]


def test_rows_do_not_depend_on_where_a_stretch_begins() -> None:
    vary = [
        "joint[1].engagement=20:40 mm:11",
        "joint[1].size.teeth=24:28:3",
        "motor.peak_torque=100:300 N*m:7",
    ]
    question = question_of(loaded(), vary)
    whole = answers_to(question).table(question.design.stretch(0, question.design.points))
    parts = [
        answers_to(question).table(question.design.stretch(f, min(f + 50, 231))) for f in range(0, 231, 50)
    ]
    assert np.array_equal(whole.margin, np.concatenate([part.margin for part in parts]))


def test_nothing_loaded_has_no_factor() -> None:
    scenario = loaded()
    answers = answers_to(question_of(scenario, ["joint[1].engagement=20,30 mm"]))
    assert isinstance(answers, GuideAnswers)
    assert np.isfinite(answers.table(answers.design.stretch(0, 2)).margin).all()
