"""When a joint ends, and when to open it: the plan against its own promise, rows, exits."""

import itertools
import math

import numpy as np
import pytest
from builder import BASE, loaded

from torqcheck.assessment.lifetime.growth import JointGrowth, growth_of
from torqcheck.assessment.lifetime.inspection_plan import InspectionPlan, inspection_plan
from torqcheck.assessment.lifetime.life import life
from torqcheck.assessment.lifetime.life_result import JointLife
from torqcheck.assessment.prepared import prepared_of

GREASED = ('lubrication = "oil flooded"', 'lubrication = "sealed grease"')
QUIET = (
    ('peak_torque = "240 N*m"', 'peak_torque = "60 N*m"'),
    ('regen_torque = "90 N*m"\n', ""),
)


def joint(*changes: tuple[str, str], **options: float) -> JointLife:
    return life(loaded(*changes), **options).joints[0]


def growth(*changes: tuple[str, str], seed: int = 1) -> JointGrowth:
    found = growth_of(prepared_of(loaded(*changes)), seed=seed)[0]
    assert isinstance(found, JointGrowth)
    return found


def planned(found: JointGrowth, limit: float, gauge: float, **options: float) -> InspectionPlan | None:
    return inspection_plan(found, found.draws.hours, limit, gauge, **options)  # type: ignore[arg-type]


@pytest.mark.parametrize("changes", [(), (GREASED,), (GREASED, ("0.08 deg", "0.3 deg"))])
def test_plan_keeps_its_promise_on_other_draws(changes: tuple[tuple[str, str], ...]) -> None:
    gauge, limit = 0.01e-3, 0.40e-3
    plan = planned(growth(*changes), limit, gauge, seed=5)
    assert plan is not None
    other = growth(*changes, seed=99)
    lives, generator = other.draws.hours, np.random.default_rng(7)
    in_use = np.ones(lives.size, bool)
    for n in range(15):
        at = n * plan.interval
        if n:
            reading = other.clearance_at(at) + gauge * generator.standard_normal(lives.size)
            in_use &= (lives > at) & (reading < plan.stop_reading)
        if in_use.sum() < 200:
            break
        passed = float(np.mean(lives[in_use] <= at + plan.interval))
        # four standard errors above what was promised
        assert passed < 0.05 + 4 * math.sqrt(0.05 * 0.95 / in_use.sum())
    assert plan.stop_reading <= limit
    assert plan.chance <= 0.05


def test_a_longer_interval_or_a_higher_stop_breaks_the_promise() -> None:
    found = growth(GREASED)
    plan = planned(found, 0.40e-3, 0.01e-3, seed=5)
    assert plan is not None
    # the promise binds somewhere: at the interval or at the reading
    late = float(np.mean(found.draws.hours <= 1.3 * plan.interval))
    assert late > 0.05 or plan.stop_reading < 0.40e-3


def test_interval_is_never_longer_than_asked() -> None:
    plan = planned(growth(*QUIET), 0.40e-3, 0.01e-3, longest=123.4, seed=5)
    assert plan is not None
    assert plan.interval == 120.0


def test_after_a_reading_the_plan_counts_from_there() -> None:
    plain = growth()
    hours = round(float(np.median(plain.draws.hours)) / 2.0)
    lash = float(np.median(plain.clearance_at(hours)))
    entry = f'[[inspection]]\nhours = "{hours} hour"\nlash = {{ clearance = "{1e3 * lash} mm" }}\n\n'
    found = growth(("[[joint]]", entry + "[[joint]]"))
    plan = planned(found, 0.40e-3, 0.01e-3, now=hours, seed=5)
    assert plan is not None
    assert plan.next_at == pytest.approx(hours + plan.interval)
    # what was read narrows the range, so that the interval can be longer
    before = planned(plain, 0.40e-3, 0.01e-3, seed=5)
    assert before is not None
    assert plan.interval > before.interval


def test_life_is_that_of_the_growth_and_of_assess() -> None:
    from torqcheck.assessment import assess

    # of a joint that fatigue does not end before
    found, checked = joint(*QUIET), assess(loaded(*QUIET)).joints[0].wear
    assert found.life is not None
    assert checked is not None
    assert checked.life is not None
    assert found.life == pytest.approx([value / 3600.0 for value in checked.life])
    assert found.share_reaching == checked.share_reaching_service_life
    assert found.limit == checked.limit


def test_fatigue_is_one_of_the_limits() -> None:
    found = joint()
    assert found.life is not None
    fatigue = next(limit for limit in found.limits if limit.name.startswith("torsional fatigue"))
    assert fatigue.share > 0.2
    assert fatigue.hours[1] is not None
    assert found.life[1] < fatigue.hours[1]
    damages = [point.damage for point in found.growth]
    assert damages[0] == 0.0
    assert all(b > a for a, b in itertools.pairwise(damages))  # type: ignore[operator]


def test_table_begins_now_and_the_lash_only_grows() -> None:
    found = joint(GREASED)
    assert found.growth[0].hours == 0.0
    assert found.growth[0].lash == pytest.approx((0.05e-3,) * 3)
    middle = [point.lash[1] for point in found.growth]
    assert all(a is not None and b is not None and a < b for a, b in itertools.pairwise(middle))
    for point in found.growth[1:]:
        low, median, high = point.lash
        assert low is not None
        assert median is not None
        assert low <= median <= (high or math.inf)
    assert 5 <= len(found.growth) <= 14
    assert sum(limit.share for limit in found.limits) == pytest.approx(1.0)


def test_blows_that_wear_shorten_the_life_and_the_plain_one_stands_beside() -> None:
    plain, fed = joint(), joint(blow_wear=1.0)
    assert plain.life is not None
    assert fed.life is not None
    assert fed.life[1] < plain.life[1]
    assert fed.plain_median == pytest.approx(plain.life[1])
    assert plain.plain_median is None


def test_no_life_where_nothing_rocks() -> None:
    fixed = BASE.replace('seat = "flexible"', 'seat = "fixed"').replace('tilt = { angle = "0.08 deg" }\n', "")
    found = life(loaded(base=fixed))
    assert found.joints[0].life is None
    assert "fixed seat" in found.joints[0].reason
    assert found.verdict == found.joints[0].fatigue.verdict
    assert found.to_dict()["joints"][0]["life_hours"] is None


def test_missing_alignment_leaves_it_undecided() -> None:
    found = life(loaded(('tilt = { angle = "0.08 deg" }\n', "")))
    assert found.verdict in {"undecided", "fail"}
    assert any(entry.reading == "tilt or runout" for entry in found.undecided_by)
