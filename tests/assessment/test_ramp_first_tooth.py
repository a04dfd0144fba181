"""The ramp says which checks of the first tooth it leaves out, and never better than `assess` does."""

import pytest
from assessment.test_deciding import SOFT_SAW
from builder import EXAMPLES, assessed, loaded

from torqcheck.assessment.ramp.advise import ramp
from torqcheck.report.ramp_words import answer
from torqcheck.scenario import load_scenario

RISE = 'rise_time = "0.5 s"'


def at_rise(rise: float, *changes: tuple[str, str]) -> tuple[str, float]:
    """Verdict of `assess` at a rise, and its factor of the first tooth."""
    result = assessed(*changes, (RISE, f'torque_rise = "{rise!r} N*m/s"'))
    (check,) = (c for c in result.joints[0].checks if c.name == "flank yield, first tooth")
    assert check.safety_factor is not None
    return result.verdict, check.safety_factor


def test_the_verdict_is_that_of_assess_with_the_setting() -> None:
    found = ramp(loaded(*SOFT_SAW))
    assert found.recommended is not None
    verdict, factor = at_rise(found.recommended.rise, *SOFT_SAW)
    assert (found.verdict, verdict) == ("marginal", "marginal")
    assert [reason.kind for reason in found.decided_by] == ["first tooth"]
    (tooth,) = found.first_teeth
    assert tooth.factor == pytest.approx(factor, rel=1e-9)
    assert tooth.as_set == pytest.approx(at_rise(found.as_set.rise, *SOFT_SAW)[1], rel=1e-9)
    words = " ".join(answer(found, ("si",)))
    assert "NOT HELD BY THIS SETTING: gearbox input, flank yield, first tooth" in words
    assert "VERDICT: MARGINAL" in words
    assert found.to_dict()["first_tooth_not_held"] == [tooth.to_dict()]


def test_a_tooth_that_yields_at_the_steady_torque_is_held_by_no_ramp() -> None:
    found = ramp(loaded(*SOFT_SAW))
    assert found.first_teeth[0].slower is None
    assert at_rise(0.01 * found.as_set.rise, *SOFT_SAW)[1] < 1.0
    words = " ".join(answer(found, ("si",)))
    assert "No slower ramp holds that check." in words
    assert "Nothing has to be changed" not in words
    assert "calls it MARGINAL all the same" in words


def test_a_slower_ramp_that_holds_the_first_tooth_is_named_and_does() -> None:
    light = (*SOFT_SAW, ('peak_torque = "60 N*m"', 'peak_torque = "24 N*m"'), ('"20 N*m"', '"8 N*m"'))
    found = ramp(loaded(*light))
    assert found.recommended is not None
    slower = found.first_teeth[0].slower
    assert slower is not None
    assert slower < found.recommended.rise
    verdict, factor = at_rise(slower, *light)
    assert factor >= 1.0
    assert verdict == "pass"
    assert at_rise(found.recommended.rise, *light)[1] < 1.0


@pytest.mark.parametrize("name", ["works_trolley", "vineyard_carrier"])
def test_where_the_first_tooth_holds_nothing_is_said_of_it(name: str) -> None:
    found = ramp(load_scenario(next(path for path in EXAMPLES if path.stem == name)))
    words = " ".join(answer(found, ("si",)))
    assert not found.first_teeth
    assert "NOT HELD" not in words
    assert ("Nothing has to be changed." in words) is (name == "works_trolley")
