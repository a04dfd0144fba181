"""Whatever a sound file says, `assess` answers in numbers, or in null with a reason in words."""

import json
import math
from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any, cast

import pytest
from builder import EXAMPLES
from hypothesis import given, settings
from hypothesis import strategies as st

from torqcheck.assessment import Assessment, assess
from torqcheck.assessment.assess import assess_without_ranges
from torqcheck.errors import ScenarioError
from torqcheck.scenario import Scenario, load_scenario
from torqcheck.scenario.edits import NumericKey, edited, numeric_keys
from torqcheck.units import Kind, read

HELD = {"driven.held": True, "driven.inertia": None, "driven.moved": None, "driven.slip": None}
STEP = {"motor.torque_rise": "instant", "motor.rise_time": None, "motor.percent_per_10ms": None}
SPECIAL: tuple[Mapping[str, Any], ...] = (
    {},
    {},
    {},
    HELD,
    STEP,
    HELD | STEP,
    {"driven.stiffness": "rigid"},
    *({"driven.damping_ratio": ratio} for ratio in (0.0, 0.999_999, 1.0, 2.0)),
)
MOST_KEYS = 4


@cache
def example(index: int) -> tuple[Scenario, tuple[NumericKey, ...]]:
    """One of the shipped examples, and every number in it."""
    scenario = load_scenario(EXAMPLES[index])
    return scenario, numeric_keys(scenario)


@st.composite
def changes(draw: st.DrawFn, keys: tuple[NumericKey, ...]) -> dict[str, Any]:
    """Several keys at once: near what stands there, decades off, at the end of all that is allowed, 0."""
    chosen = draw(st.lists(st.sampled_from(keys), min_size=1, max_size=MOST_KEYS, unique=True))
    written = {key.key: _written(key, draw(_factors())) for key in chosen}
    return written | draw(st.sampled_from(SPECIAL))


def _factors() -> st.SearchStrategy[float]:
    exponent = st.one_of(st.floats(-0.4, 0.4), st.floats(-3.0, 3.0), st.floats(-9.0, 9.0))
    return st.one_of(exponent.map(lambda power: 10.0**power), st.just(0.0))


def _written(key: NumericKey, factor: float) -> Any:
    value = key.value * factor
    if key.whole:
        return round(min(value, 1e6))
    if key.kind is None:
        return value
    if key.kind == "hardness":
        return f"{value:.4g} {key.unit}"
    kind = cast("Kind", key.kind)
    return f"{value / read(f'1 {key.unit}', kind)[0]:.9g} {key.unit}"


def numbers(data: Any, place: str = "") -> Iterator[tuple[str, float]]:
    """Every number of the JSON with its place."""
    if isinstance(data, Mapping):
        for key, inner in data.items():
            yield from numbers(inner, f"{place}.{key}")
    elif isinstance(data, list | tuple):
        for index, inner in enumerate(data):
            yield from numbers(inner, f"{place}[{index}]")
    elif isinstance(data, float):
        yield place, data


def hold_to_it(result: Assessment) -> None:
    """Fail where a number is none, or an absent one has no reason."""
    data = result.to_dict()
    for place, number in numbers(data):
        assert math.isfinite(number), place
    json.dumps(data, allow_nan=False)
    for joint in data["joints"]:
        for check in joint["checks"]:
            assert check["allowable"] >= 0.0, check["name"]
            # nothing loads the part: the one case in which there is no factor
            assert (check["safety_factor"] is None) == (check["value"] == 0.0), check["name"]
            if check["interval"] is not None:
                assert 0.0 <= check["interval"]["p5"] <= check["interval"]["p95"], check["name"]
                assert 0.0 <= check["chance_below_1"] <= 1.0, check["name"]
        wear = joint["wear"]
        if wear is not None and wear["life_hours"] is None:
            assert wear["reason"], "no life and no reason"
        for fatigue in (joint["fatigue"], *joint["fatigue"]["members"]):
            assert fatigue["life_hours"] is not None or fatigue["reason"], "no fatigue life and no reason"
        if joint["verdict"] == "undecided":
            assert joint["undecided_by"] or joint["doubt"], "undecided by nothing"


@pytest.mark.parametrize("index", range(len(EXAMPLES)), ids=[path.stem for path in EXAMPLES])
def test_every_number_is_finite(index: int) -> None:
    scenario, keys = example(index)

    @given(changes(keys))
    @settings(max_examples=8, deadline=None, derandomize=True, database=None)
    def holds(change: dict[str, Any]) -> None:
        try:
            changed = edited(scenario, change)
        except ScenarioError:
            return
        hold_to_it(assess_without_ranges(changed))

    holds()


@pytest.mark.parametrize("index", range(0, len(EXAMPLES), 4), ids=[path.stem for path in EXAMPLES[::4]])
def test_every_number_is_finite_with_its_range(index: int) -> None:
    scenario, keys = example(index)

    @given(changes(keys))
    @settings(max_examples=3, deadline=None, derandomize=True, database=None)
    def holds(change: dict[str, Any]) -> None:
        try:
            changed = edited(scenario, change)
        except ScenarioError:
            return
        hold_to_it(assess(changed))

    holds()


@pytest.mark.parametrize(
    ("name", "change"),
    [
        # a damping ratio up to 2 may be written; nothing rings from 1 on
        ("cooperage_saw", {"driven.damping_ratio": 1.0}),
        ("works_trolley", {"driven.damping_ratio": 2.0}),
        # a flank of hardened steel softer than its core, and than the guide's lowest band
        ("works_trolley", {"joint[2].external.hardness": "150 HB"}),
        ("brickyard_shunter", {"joint[1].external.hardness": "0 HRC"}),
        # the end over the teeth is thicker than the rest of the sleeve, and the teeth reach beyond that
        (
            "grain_auger",
            {
                "joint[3].size.teeth": 47,
                "joint[3].external.measured": None,
                "joint[3].internal.measured": None,
                "joint[3].internal.outside_diameter": "80 mm",
            },
        ),
        ("works_trolley", {"driven.damping_ratio": 0.0} | HELD | STEP),
        ("works_trolley", {"joint[2].lash": {"clearance": "0 mm"}}),
        ("works_trolley", {"joint[2].external.bore": "34.4 mm"}),
        ("works_trolley", {"joint[1].bore": "37.99 mm"}),
        ("works_trolley", {"joint[2].engagement": "0.1 mm"}),
        ("works_trolley", {"motor.rotor_inertia": "1e-6 kg*m^2"}),
        ("works_trolley", {"motor.rotor_inertia": "1e3 kg*m^2"}),
        ("works_trolley", {"joint[2].seat": "flexible", "joint[2].tilt": {"angle": "0 deg"}}),
        ("works_trolley", {"motor.rise_time": "1000 s"}),
        ("works_trolley", {"motor.regen_torque": "0 N*m"}),
    ],
)
def test_the_particular_corners(name: str, change: dict[str, Any]) -> None:
    (path,) = (path for path in EXAMPLES if path.stem == name)
    hold_to_it(assess(edited(load_scenario(path), change)))
