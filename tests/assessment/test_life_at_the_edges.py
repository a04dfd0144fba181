"""Lives at the edges: readings near and against the limits, bedding in, seats that move, short services."""

import pytest
from builder import EXAMPLES, loaded

from torqcheck.assessment import assess
from torqcheck.assessment.lifetime.life import life
from torqcheck.assessment.lifetime.life_result import JointLife
from torqcheck.assessment.ramp.advise import ramp
from torqcheck.checks import Verdict
from torqcheck.scenario import Scenario, scenario_from_text

FIXED = (('seat = "flexible"', 'seat = "fixed"'), ('tilt = { angle = "0.08 deg" }\n', ""))


def reading(hours: float, millimetres: float) -> str:
    return f'[[inspection]]\nhours = "{hours} hour"\nlash = {{ clearance = "{millimetres} mm" }}\n\n'


def read(*readings: tuple[float, float]) -> tuple[str, str]:
    return "[[joint]]", "".join(reading(*one) for one in readings) + "[[joint]]"


def joint(*changes: tuple[str, str]) -> tuple[JointLife, Verdict | None]:
    found = life(loaded(*changes))
    return found.joints[0], found.verdict


@pytest.mark.parametrize("millimetres", [0.30, 0.36, 0.385, 0.395])
def test_a_reading_near_the_limit_leaves_what_is_still_alive(millimetres: float) -> None:
    found, _ = joint(read((500.0, millimetres)))
    assert found.life is not None
    assert found.life[0] > 500.0
    if found.plan is not None:
        assert found.plan.next_at > 500.0
        assert found.plan.stop_reading <= 0.40e-3


def test_bedding_in_that_takes_the_whole_room_is_said() -> None:
    seat = 'seat = "flexible"'
    bed = (seat, seat + '\nrunning_in = { depth = "20 um", revolutions = 1e5 }')
    found, verdict = joint(bed, ('lash_limit = "0.40 mm"', 'lash_limit = "0.09 mm"'))
    assert found.life is None
    assert "bedding in alone" in found.reason
    assert verdict == "fail"


def test_readings_that_contradict_decide_nothing() -> None:
    for readings in (((100.0, 0.30), (200.0, 0.10)), ((0.01, 0.35),)):
        scenario = loaded(read(*readings))
        found, checked = life(scenario), assess(scenario)
        assert found.verdict == "undecided"
        assert checked.joints[0].verdict in {"undecided", "fail"}
        for missing in (found.undecided_by, checked.undecided_by):
            assert any(entry.reading == "lash, once more" for entry in missing)


def tractor(*readings: str) -> Scenario:
    path = next(path for path in EXAMPLES if path.stem == "orchard_tractor")
    return scenario_from_text((path.read_text() + "\n" + "".join(readings)).encode(), path)


@pytest.mark.parametrize(
    "readings", [((100.0, 0.001),), ((250.0, 0.001),), ((1000.0, 0.001),), ((250.0, 0.001), (500.0, 0.0))]
)
def test_play_that_has_shrunk_makes_no_pass(readings: tuple[tuple[float, float], ...]) -> None:
    # flanks lose metal and never gain it (common practice, no source); the first lash is 0.045 mm
    plain, scenario = assess(tractor()), tractor(*(reading(*one) for one in readings))
    found, lasting = assess(scenario), life(scenario)
    assert (plain.verdict, found.verdict, lasting.verdict) == ("marginal", "undecided", "undecided")
    assert ramp(scenario).verdict == "undecided"
    asked = [reason for reason in found.decided_by if "lash, once more" in reason.text]
    assert len(asked) == len(found.decided_by) == len(readings)
    assert lasting.undecided_by == found.undecided_by
    # nothing of it is heeded: neither the wear nor the play of today
    before, after = plain.joints[0].wear, found.joints[0].wear
    assert before is not None
    assert after is not None
    assert after.share_reaching_service_life == before.share_reaching_service_life
    assert found.joints[0].lash == plain.joints[0].lash
    assert found.shock.peak_torque == plain.shock.peak_torque


def test_play_a_little_below_the_first_one_is_heeded() -> None:
    # 0.010 mm less, by gauges of 0.003 and 0.020 mm
    scenario = tractor(reading(250.0, 0.035))
    found = life(scenario)
    assert found.undecided_by == ()
    rate = found.joints[0].rate_over_median
    assert rate is not None
    assert rate[1] < 0.6


def test_the_first_play_counts_as_closely_as_it_was_read() -> None:
    """What has grown is a difference: the error of the first reading is in it as that of the last."""
    path = next(path for path in EXAMPLES if path.stem == "orchard_tractor")
    text, first = path.read_text(), '{ travel = "0.30 +/- 0.02 mm", radius = "110 mm" }'
    assert first in text
    widths = []
    for start in ("0.045 +/- 0.001 mm", "0.045 +/- 0.005 mm", "0.045 +/- 0.03 mm"):
        start = f'{{ clearance = "{start}" }}'
        later = '\n[[inspection]]\nhours = "500 hour"\nlash = { clearance = "0.075 +/- 0.005 mm" }\n'
        found = life(scenario_from_text((text.replace(first, start) + later).encode(), path)).joints[0].life
        assert found is not None
        widths.append(found[2] / found[0])
    assert widths[0] < widths[1] < 0.5 * widths[2]


def test_a_reading_that_shrinks_leaves_the_others_in_use() -> None:
    sound = life(tractor(reading(250.0, 0.06))).joints[0]
    found = life(tractor(reading(250.0, 0.06), reading(500.0, 0.002)))
    assert found.verdict == "undecided"
    assert found.joints[0].life == sound.life
    assert found.joints[0].now == 250.0


@pytest.mark.parametrize("last", [0.047, 0.09, 0.41])
def test_a_later_reading_that_agrees_decides_as_if_the_odd_one_were_not_there(last: float) -> None:
    odd, plain = (tractor(*between, reading(500.0, last)) for between in ((reading(250.0, 0.001),), ()))
    found, sound = assess(odd), assess(plain)
    assert found.verdict == sound.verdict
    assert found.best_verdict == sound.best_verdict
    assert found.undecided_by == sound.undecided_by
    assert life(odd).joints[0].life == life(plain).joints[0].life
    assert found.joints[0].lash == sound.joints[0].lash
    assert any("after 250 h, 0.001 mm, is smaller" in caution.text for caution in found.cautions)


def test_a_play_beyond_its_limit_that_was_then_read_small_is_no_fail_yet() -> None:
    # the limit is 0.40 mm: either the first reading is wrong or the second
    big = ('lash = { clearance = "0.05 mm" }', 'lash = { clearance = "0.5 mm" }')
    assert assess(loaded(big)).joints[0].wear.verdict == "fail"  # type: ignore[union-attr]
    quiet = ('peak_torque = "240 N*m"', 'peak_torque = "60 N*m"'), ('regen_torque = "90 N*m"\n', "")
    found = assess(loaded(big, *quiet, read((100.0, 0.1))))
    assert found.verdict == "undecided"
    assert found.best_verdict in {"pass", "marginal"}


def test_readings_that_grow_leave_nothing_to_ask_in_any_command() -> None:
    grown = tractor(reading(250.0, 0.09), reading(500.0, 0.13))
    found = ramp(grown)
    assert found.undecided_by == ()
    assert found.verdict == assess(grown).verdict == "fail"


def test_play_that_grows_on_a_fixed_seat_refutes_the_seat() -> None:
    still, _ = joint(*FIXED, read((400.0, 0.06)))
    assert "yet the play has grown" not in still.reason
    found, verdict = joint(*FIXED, read((400.0, 0.20)))
    # 0.15 mm in 400 h, 0.20 mm left
    assert "yet the play has grown by 0.150 mm in 400 h" in found.reason
    assert "after 5.3e+02 h more" in found.reason
    assert verdict in {"marginal", "fail"}
    assert assess(loaded(*FIXED, read((400.0, 0.20)))).joints[0].wear.verdict == "marginal"  # type: ignore[union-attr]


def test_a_false_fit_has_no_life() -> None:
    found, verdict = joint(("measured = { teeth = 26 }", "measured = { teeth = 27 }"))
    assert found.mate.verdict == "false fit"
    assert verdict == "fail"


def test_stop_reading_is_never_beyond_what_the_tooth_bears() -> None:
    wide = ('lash_limit = "0.40 mm"', 'lash_limit = "3.9 mm"')
    found, _ = joint(wide, ('peak_torque = "240 N*m"', 'peak_torque = "60 N*m"'))
    assert found.limit.startswith("tooth thickness")
    assert found.plan is not None
    # a tenth of a tooth of 1.995 mm on either member
    assert found.plan.stop_reading < 0.05e-3 + 2 * 0.2e-3


def test_a_short_service_is_an_interval_of_its_own() -> None:
    found, _ = joint(
        ('service_life = "400 hour"', 'service_life = "0.5 hour"'),
        ('peak_torque = "240 N*m"', 'peak_torque = "60 N*m"'),
    )
    assert found.plan is not None
    assert found.plan.interval == 0.5
