"""Lives at the edges: readings near and against the limits, bedding in, seats that move, short services."""

import pytest
from builder import loaded

from torqcheck.assessment import assess
from torqcheck.assessment.lifetime.life import life
from torqcheck.assessment.lifetime.life_result import JointLife
from torqcheck.checks import Verdict

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
    wide = ('lash_limit = "0.40 mm"', 'lash_limit = "20 mm"')
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
