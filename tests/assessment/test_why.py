"""Numbers taken apart: each printed formula, evaluated from its printed symbols, gives the printed result."""

import math
import re
from functools import cache
from pathlib import Path

import pytest
from builder import EXAMPLES, loaded
from formula_text import evaluated
from hypothesis import given
from hypothesis import strategies as st

from torqcheck.assessment import assess
from torqcheck.assessment.why.explain import Reasons, why
from torqcheck.assessment.why.names import number_called
from torqcheck.assessment.why.result import Explanation, Step
from torqcheck.assessment.why.steps import UNSEEN
from torqcheck.capacity import flank_pressure, torsional_shear_stress
from torqcheck.errors import ScenarioError, UsageError
from torqcheck.scenario import load_scenario
from torqcheck.scenario.edits import edited, numeric_keys, written_at
from torqcheck.scenario.lines import line_of
from torqcheck.tracing import calls_during

FACTOR = re.compile(r"joints\[.*\]\.checks\[.*\]\.safety_factor")


@cache
def reasons(path: Path) -> Reasons:
    scenario = load_scenario(path)
    return Reasons(scenario, assess(scenario))


def example_called(name: str) -> Path:
    return next(path for path in EXAMPLES if path.stem == name)


@cache
def bench() -> Reasons:
    scenario = loaded()
    return Reasons(scenario, assess(scenario))


def step_of(explanation: Explanation) -> Step:
    assert explanation.step is not None
    return explanation.step


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_every_check_recomputes_from_its_printed_symbols(example: Path) -> None:
    """The reading of the texts is this test's own: a symbol that is missing or wrong does not evaluate."""
    found = reasons(example)
    factors = [number for number in found.names() if FACTOR.fullmatch(number.name)]
    assert factors
    for number in factors:
        explanation = found.why(number.name)
        assert explanation.value == number.value
        step = step_of(explanation)
        assert math.isclose(step.value, number.value, rel_tol=1e-12)
        limit, value = step.terms
        assert limit.step is not None, number.name
        assert value.step is not None, number.name
        for each in step.all_steps():
            symbols = {term.letter: term.value for term in each.terms}
            assert evaluated(each.formula, symbols) == pytest.approx(each.value, rel=1e-9), each.formula
            for term in each.terms:
                assert term.step is None or term.step.value == pytest.approx(term.value, rel=1e-12)


def test_most_symbols_know_where_they_come_from() -> None:
    """94 of 100 by the file, an assumption, a table or a formula; the rest says that nothing is filed."""
    terms = [
        term
        for example in EXAMPLES
        for number in reasons(example).names()
        if FACTOR.fullmatch(number.name)
        for step in step_of(reasons(example).why(number.name)).all_steps()
        for term in step.terms
    ]
    unseen = sum(term.origin == UNSEEN for term in terms)
    assert unseen / len(terms) < 0.06


def test_flank_pressure_by_hand() -> None:
    """26 teeth of 20/40, 1.25 in engaged: Sc = 2 T/(D N L h) times Km, allowable times its life factor."""
    step = step_of(bench().why("flank pressure S"))
    limit, value = step.terms
    assert value.step is not None
    assert limit.step is not None
    inner = next(each for each in step.all_steps() if each.formula == "Sc = 2 T / (D N L h)")
    symbols = {term.letter: term for term in inner.terms}
    assert symbols["D"].value == pytest.approx(1.3 * 0.0254)
    assert symbols["N"].value == 26.0
    assert "joint[1].size.teeth = 26" in symbols["N"].origin
    assert symbols["L"].value == pytest.approx(1.25 * 0.0254)
    assert 'joint[1].engagement = "1.25 in"' in symbols["L"].origin
    assert symbols["L"].mark == "measured"
    assert symbols["T"].value == bench().assessment.joints[0].peak_torque
    by_hand = 2.0 * symbols["T"].value / (1.3 * 0.0254 * 26 * 1.25 * 0.0254 * symbols["h"].value)
    assert inner.value == pytest.approx(by_hand, rel=1e-12)


def test_it_is_the_same_evaluation_as_that_of_the_result() -> None:
    """Break a kernel while nobody looks at the text: the explanation no longer bears the result out."""
    result, calls = calls_during(lambda: flank_pressure(600.0, 0.033, 26, 0.032, 0.001))
    (call,) = calls
    assert call.function is flank_pressure
    assert call.value == result
    assert dict(call.arguments) == {
        "torque": 600.0, "pitch_diameter": 0.033, "teeth": 26.0, "length": 0.032, "height": 0.001,
    }  # fmt: skip


def test_formulas_within_formulas_and_arrays() -> None:
    import numpy as np

    from torqcheck.capacity import bursting_stress

    _, calls = calls_during(
        lambda: bursting_stress(600.0, 0.033, 0.035, 0.052, 0.03, 0.03, pressure_angle=0.5, speed=100.0)
    )
    outer = next(call for call in calls if call.function is bursting_stress)
    assert len(outer.within) == 3
    _, calls = calls_during(lambda: torsional_shear_stress(np.array([1.0, 2.0]), 0.03))
    assert not calls
    with pytest.raises(ZeroDivisionError):
        calls_during(lambda: 1 / 0)
    import sys

    assert sys.getprofile() is None


def test_the_least_preload_of_a_flange_is_one_formula() -> None:
    """Scatter and settling in one line: 45 N m over 0.18 and 10 mm, a quarter less, less the loss."""
    found = reasons(example_called("quarry_tipper"))
    steps = [
        each
        for each in step_of(found.why("joints[motor flange].checks[grip, L].allowable")).all_steps()
        if each.formula == "Fi_min = Fi (1 - s) - Fz"
    ]
    assert len({each.value for each in steps}) == 1
    values = {term.letter: term.value for term in steps[0].terms}
    assert values["Fi"] == pytest.approx(45.0 / (0.18 * 0.010), rel=1e-12)
    assert values["s"] == pytest.approx(0.25, rel=1e-12)
    assert values["Fz"] > 0.0
    assert steps[0].value == pytest.approx(0.75 * values["Fi"] - values["Fz"], rel=1e-12)


@pytest.mark.parametrize(
    "example", [path for path in EXAMPLES if path.stem in {"grain_auger", "cider_press"}]
)
def test_every_number_of_the_result_has_an_answer(example: Path) -> None:
    found = reasons(example)
    names = found.names()
    assert len({number.name for number in names}) == len(names) > 200
    for number in names:
        explanation = found.why(number.name)
        assert explanation.step is not None or explanation.words
        data = explanation.to_dict()
        assert data["value"] == number.value
        assert set(data) >= {"name", "formula", "symbols", "value", "unit", "source"}


def test_words_that_mean_one_number_are_enough() -> None:
    result = bench().result
    assert number_called(result, "flank pressure T").name.endswith("checks[flank pressure, T].safety_factor")
    assert number_called(result, "SHOCK.PEAK_TORQUE_NM").path == ("shock", "peak_torque_Nm")
    assert number_called(result, "natural frequency").unit == "Hz"
    joint = number_called(result, "joints[gearbox input].peak_torque_Nm")
    assert joint.value == bench().assessment.joints[0].peak_torque


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("", "no number of the result is called"),
        ("flank presure T", "no number of the result is called"),
        ("flank pressure", "can mean"),
        ("\x1b[31m" * 100, "no number of the result is called"),
    ],
)
def test_other_words_are_refused_in_one_line(name: str, said: str) -> None:
    with pytest.raises(UsageError) as caught:
        bench().why(name)
    assert said in str(caught.value)
    assert str(caught.value).isprintable()


def test_why_takes_a_file_as_well() -> None:
    (path,) = (path for path in EXAMPLES if path.stem == "works_trolley")
    explanation = why(path, "bursting T")
    assert explanation.to_dict()["formula"] == "n = A / S"


# lines of the file


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_every_number_of_the_file_is_found_on_its_line(example: Path) -> None:
    scenario = load_scenario(example)
    text = example.read_text("utf-8")
    lines = text.splitlines()
    for number in numeric_keys(scenario):
        line = line_of(text, number.place)
        assert line is not None, number.key
        last = next(step for step in reversed(number.place) if isinstance(step, str))
        assert last in lines[line - 1], (number.key, lines[line - 1])
        if number.kind not in {None, "hardness"} or not number.whole:
            continue
        assert f"{number.value:g}" in lines[line - 1]


@given(st.text(max_size=300))
def test_no_text_breaks_the_search_for_a_line(text: str) -> None:
    line_of(text, ("joint", 0, "tilt", "angle"))


@pytest.mark.parametrize("name", ["grain_auger", "works_trolley"])
def test_a_round_number_is_not_explained_by_another_that_happens_to_be_equal(name: str) -> None:
    """Both files ask for a safety factor of 1.5, the value of an application or form factor as well."""
    asked = reasons(example_called(name))
    terms = [
        term
        for number in asked.names()
        if FACTOR.fullmatch(number.name)
        for step in step_of(asked.why(number.name)).all_steps()
        for term in step.terms
    ]
    origins = {term.letter: term.origin for term in terms if term.value == 1.5}
    assert "Y" in origins
    assert not any("targets." in term.origin for term in terms)
    assert not any("lead days" in term.origin or "duty[" in term.origin for term in terms)
    if name == "grain_auger":
        assert "application factors" in origins["Ka"]


def test_a_count_is_not_explained_by_a_formula_that_gives_the_same() -> None:
    losses = reasons(example_called("orchard_tractor")).why("shock.contact_losses")
    assert losses.value == 1.0
    assert losses.step is None
    assert "two inertias" in losses.words


def test_half_a_length_is_only_that_of_a_diameter() -> None:
    asked = reasons(example_called("grain_auger"))
    origins = [known.words for known in asked._workings(0).known if known.words.startswith("half of")]
    assert origins
    assert all("diameter" in words or "bore" in words for words in origins)


NAMED = re.compile(r"\.toml, line \d+: ([^ ]+) = ")


def named_terms(asked: Reasons, check: str) -> dict[tuple[int, str], tuple[str, float]]:
    """Key of the file and value, by step and letter, of every symbol of a check that a key is named for."""
    steps = step_of(asked.why(check)).all_steps()
    return {
        (place, term.letter): (found[1], term.value)
        for place, step in enumerate(steps)
        for term in step.terms
        if isinstance(term.value, float) and (found := NAMED.search(term.origin))
    }


@pytest.mark.parametrize("name", ["grain_auger", "hop_elevator"])
def test_a_symbol_moves_when_the_key_that_is_named_for_it_moves_alone(name: str) -> None:
    """Each key is changed by itself in the file and everything computed anew."""
    asked = reasons(example_called(name))
    checks = [number.name for number in asked.names() if FACTOR.fullmatch(number.name)]
    told = {check: named_terms(asked, check) for check in checks}
    numbers = {number.key: number for number in numeric_keys(asked.scenario)}
    keys = {key for terms in told.values() for key, _ in terms.values()}
    still = {(check, place) for check, terms in told.items() for place in terms}
    for key in sorted(keys):
        if numbers[key].whole:
            still -= {(c, p) for c, terms in told.items() for p, (named, _) in terms.items() if named == key}
            continue
        for factor in (1.0001, 0.9999):  # of two that are equal the smaller may count
            try:
                scenario = edited(asked.scenario, {key: grown(written_at(asked.scenario, key), factor)})
            except ScenarioError:
                still -= {
                    (c, p) for c, terms in told.items() for p, (named, _) in terms.items() if named == key
                }
                break  # a rule of the file holds it, a standard pitch for example
            again = Reasons(scenario, assess(scenario))
            for check, terms in told.items():
                mine = {place: value for place, (named, value) in terms.items() if named == key}
                if not mine:
                    continue
                after = {
                    (place, term.letter): term.value
                    for place, step in enumerate(step_of(again.why(check)).all_steps())
                    for term in step.terms
                }
                for place, value in mine.items():
                    # a place that is gone shows that something else governs now
                    if after.get(place) != value:
                        still.discard((check, place))
    assert sum(map(len, told.values())) >= 20
    assert still == set()


def grown(written: str | float, factor: float) -> str | float:
    """The same with its first number a little larger or smaller."""
    if isinstance(written, str):
        return re.sub(r"[0-9.]+", lambda found: repr(float(found[0]) * factor), written, count=1)
    return written * factor


def test_equal_numbers_of_two_parts_are_told_apart() -> None:
    """The key is as wide as the keyway of the sleeve beside it, and has its width from the standard."""
    asked = reasons(example_called("grain_auger"))
    step = step_of(asked.why("joints[motor key].checks[yield, keyseat, L].factors.section"))
    (width,) = (term for term in step.terms if term.letter == "w")
    assert width.value == pytest.approx(8e-3)
    assert "joint[2]" not in width.origin
    assert width.origin.startswith("motor key")
