"""Settings in two stages: what is found holds when it is followed afresh, and brings what it says."""

import math
from dataclasses import replace

import numpy as np
import pytest
from assessment._ramp_cases import DRIVING, PEAK, SLOWEST, STIFFNESS, cases_with, draws_around

from torqcheck.assessment.ramp.cases import Cases, Sample
from torqcheck.assessment.ramp.controller import settable
from torqcheck.assessment.ramp.search import find_fastest, find_fastest_percentile
from torqcheck.assessment.ramp.two_stage import LEAST_GAIN, LEAST_SAVING, Better, Search, find_two_stage
from torqcheck.assessment.torque.blow import Path
from torqcheck.shock import closing_torque_from_blow, peak

FASTEST = PEAK / 0.010


def search_of(cases: Cases, draws: Sample) -> tuple[Search, float]:
    """The search, and what one stage allows."""
    nominal = cases.nominal
    path = Path(
        0, "joint", DRIVING, (float(cases.members.driven_inertia[0]),), (STIFFNESS,), "",
        float(nominal.damping_ratio[0]), (), (), float(nominal.lash[0]),
    )  # fmt: skip
    limit = find_fastest(cases, SLOWEST).rise
    assert limit is not None
    drawn = find_fastest_percentile(cases, draws, 0.95, SLOWEST, min(limit, FASTEST)).rise
    assert drawn is not None
    search = Search(cases, path, draws, 0.95, PEAK, "torque_rise")
    return search, settable(min(limit, drawn), PEAK, "torque_rise")


def much_play(seed: int = 0) -> tuple[Cases, Search, float, Better]:
    """Much lash and a rubber coupling: the case for two stages."""
    cases = cases_with(1.2, damping=0.1, lash=8.0, driven=1.2)
    search, one_stage = search_of(cases, draws_around(cases, 256, 0.03, seed))
    found, reason = find_two_stage(search, one_stage, FASTEST)
    assert found is not None, reason
    return cases, search, one_stage, found


def test_much_play_gains_much() -> None:
    _, _, one_stage, found = much_play()
    assert found.time_to_peak(PEAK) < 0.7 * PEAK / one_stage
    assert found.time_to_peak(PEAK) == pytest.approx(PEAK / found.rise + found.closing_time)


def test_what_is_found_holds_when_followed_afresh() -> None:
    """Straight through the kernel, with other draws, with every longer rest and with slower slopes."""
    cases, _, _, found = much_play()
    fresh = draws_around(cases, 400, 0.03, seed=99)
    share = 1.0 / (1.0 + DRIVING / (1.2 * fresh.driven_factor))
    allowed = cases.limits.drive
    assert np.median(share) == pytest.approx(0.96, abs=0.002)
    for longer in np.linspace(1.0, 3.0, 12):
        for slower in (1.0, 0.8, 0.4):
            blow = peak(
                torque_rise=slower * found.rise, peak_torque=PEAK, driving_inertia=fresh.driving_inertia,
                driven_inertia=1.2 * fresh.driven_factor, stiffness=STIFFNESS * fresh.stiffness_factor,
                damping_ratio=fresh.damping_ratio, lash=fresh.lash, closing_torque=found.closing_torque,
                closing_time=longer * found.closing_time,
            )  # fmt: skip
            # 5 percent of the draws may fail; of 400 others three standard errors more
            assert np.mean(blow.peak_torque > allowed) <= 0.05 + 3.0 * math.sqrt(0.05 * 0.95 / 400)


def test_closing_torque_is_not_above_the_closed_form() -> None:
    cases, search, _, found = much_play()
    gentlest = closing_torque_from_blow(cases.limits.drive, DRIVING, 1.2, STIFFNESS, search.path.lash)
    assert 0.049 * PEAK <= found.closing_torque <= gentlest


def test_a_gain_below_the_threshold_is_no_setting() -> None:
    _, search, _, found = much_play()
    # as if one stage were only a little slower than the two
    fast = PEAK / (found.time_to_peak(PEAK) * (1.0 + 0.5 * LEAST_GAIN))
    setting, reason = find_two_stage(search, fast, FASTEST)
    assert setting is None or setting.time_to_peak(PEAK) <= PEAK / fast * (1.0 - LEAST_GAIN)
    assert setting is not None or reason


@pytest.mark.parametrize(
    ("factor", "damping", "lash", "said"),
    [
        (1.3, 0.03, 0.0, "no lash"),
        (3.5, 0.03, 0.05, "already"),
        (1.03, 0.03, 0.001, "the slope sets the limit"),
    ],
)
def test_nothing_to_gain_is_said_with_its_reason(
    factor: float, damping: float, lash: float, said: str
) -> None:
    cases = cases_with(factor, damping=damping, lash=lash, driven=1.2)
    search, one_stage = search_of(cases, draws_around(cases, 128, 0.02, 3))
    setting, reason = find_two_stage(search, one_stage, FASTEST)
    assert setting is None
    assert said in reason
    assert LEAST_SAVING == 0.010


def test_the_language_of_the_controller_is_kept() -> None:
    _, search, one_stage, _ = much_play()
    found, _ = find_two_stage(replace(search, language="rise_time"), one_stage, FASTEST)
    assert found is not None
    assert float(f"{PEAK / found.rise:.1e}") == pytest.approx(PEAK / found.rise, rel=1e-9)
