"""No answer to a part of the check sounds better than the check as a whole."""

from itertools import product

import pytest
from builder import EXAMPLES, loaded

from torqcheck.assessment import assess
from torqcheck.assessment.lifetime.life import life
from torqcheck.assessment.order.write import order
from torqcheck.assessment.verdict.whole import WholeCheck
from torqcheck.checks import VERDICTS
from torqcheck.scenario import load_scenario


def test_worse_is_what_stands_later_in_the_order_of_verdicts() -> None:
    for own, whole in product(VERDICTS, VERDICTS):
        worse = VERDICTS.index(whole) > VERDICTS.index(own)
        assert WholeCheck(whole, ()).worse_than(own) is worse
    assert not WholeCheck("pass", ()).worse_than(None)
    assert WholeCheck("marginal", ()).worse_than(None)


@pytest.mark.parametrize("stem", ["quarry_tipper", "glasshouse_tug", "stone_saw", "narrow_gauge_loco"])
def test_a_life_never_ends_better_than_the_whole_check(stem: str) -> None:
    path = next(path for path in EXAMPLES if path.stem == stem)
    found, whole = life(path), assess(path)
    assert found.whole == WholeCheck.of(whole)
    assert found.worse is not None
    assert VERDICTS.index(found.worse) >= VERDICTS.index(whole.verdict)


def test_an_assessment_that_is_there_is_not_made_again() -> None:
    scenario = load_scenario(next(path for path in EXAMPLES if path.stem == "quarry_tipper"))
    whole = assess(scenario)
    assert life(scenario, assessment=whole) == life(scenario)


def test_what_is_ordered_says_that_the_check_fails_and_can_be_ordered() -> None:
    # the motor of the base is too strong for its joint; a quarter of it is not
    quiet = ('peak_torque = "240 N*m"', 'peak_torque = "60 N*m"'), ('regen_torque = "90 N*m"\n', "")
    failing, sound = order(loaded()), order(loaded(*quiet))
    assert failing.state == sound.state
    assert failing.whole is not None
    assert sound.whole is not None
    assert failing.whole.verdict == assess(loaded()).verdict == "fail"
    assert sound.whole.verdict == assess(loaded(*quiet)).verdict != "fail"
    assert failing.to_dict()["whole_check"]["decided_by"][0]["joint"] == "gearbox input"
