"""Shares of the spread: exact where the answer is known, and what they promise holds."""

import math

import numpy as np
import pytest
from builder import EXAMPLES, edited, loaded

from torqcheck.assessment.ranges.influence import STUDENT, influence, shares_of
from torqcheck.assessment.ranges.influence_result import Influence
from torqcheck.scenario import scenario_from_text
from torqcheck.scenario.usual import TORQUE

SCENARIOS = {path.stem: path for path in EXAMPLES}


def test_a_product_of_lognormals_has_exact_shares() -> None:
    sigmas = np.array([0.3, 0.2, 0.1, 0.0])
    found = shares_of(lambda z: np.exp(sigmas @ z), 4, 256, 1)
    exact = sigmas**2 / np.sum(sigmas**2)
    assert found.total == pytest.approx(exact, abs=0.01)
    assert found.first == pytest.approx(exact, abs=0.01)
    # the truth lies inside what is said of the error
    assert np.all(np.abs(found.total - exact) <= STUDENT * found.error + 1e-9)
    assert found.evaluations == 8 * 256 * 6


def test_the_lower_of_two_lognormals_shares_alike_and_interacts() -> None:
    found = shares_of(lambda z: np.exp(np.minimum(z[0], z[1])), 2, 512, 1)
    assert found.total[0] == pytest.approx(found.total[1], abs=0.03)
    assert np.sum(found.total) > 1.02
    assert np.sum(found.first) < 0.98


def test_nothing_uncertain_has_no_shares() -> None:
    for count in (0, 3):
        found = shares_of(lambda z: np.ones(z.shape[1]), count, 64, 1)
        assert found.total.tolist() == [0.0] * count
        assert found.evaluations == 0


@pytest.fixture(scope="module")
def orchard() -> Influence:
    return influence(SCENARIOS["orchard_tractor"])


def test_what_is_promised_if_a_reading_were_known_comes_true(orchard: Influence) -> None:
    best = orchard.rows[0]
    assert best.uncertain.key == "joint[1].tilt.angle"
    text = edited(("0.08 +/- 0.01 deg", "0.08 +/- 0 deg"), base=SCENARIOS["orchard_tractor"].read_text())
    known = influence(scenario_from_text(text.encode(), SCENARIOS["orchard_tractor"]))
    assert known.interval is not None
    assert known.interval == pytest.approx(best.interval_if_known, rel=4e-3)
    assert best.uncertain.key not in {row.uncertain.key for row in known.rows}
    # and the spread that is left is what its share leaves
    assert orchard.interval is not None
    left = math.log(known.interval[1] / known.interval[0]) / math.log(
        orchard.interval[1] / orchard.interval[0]
    )
    assert left**2 == pytest.approx(1.0 - best.first_order, abs=0.06)


def test_shares_are_ranked_and_add_up(orchard: Influence) -> None:
    shares = [row.share for row in orchard.rows]
    assert shares == sorted(shares, reverse=True)
    assert sum(shares) == pytest.approx(1.0, abs=0.02)
    for row in orchard.rows:
        assert row.share_band[0] <= row.share <= row.share_band[1]


def test_another_seed_gives_the_same_shares_within_what_is_said_of_them(orchard: Influence) -> None:
    other = {row.uncertain.key: row for row in influence(SCENARIOS["orchard_tractor"], seed=7).rows}
    for row in orchard.rows[:3]:
        again = other[row.uncertain.key]
        reach = sum(band[1] - band[0] for band in (row.share_band, again.share_band))
        assert abs(row.share - again.share) <= reach


def test_the_same_twice(orchard: Influence) -> None:
    assert influence(SCENARIOS["orchard_tractor"]).to_dict() == orchard.to_dict()


def test_only_the_torque_moves_a_shaft_of_exact_size() -> None:
    shaft = """\
format = 1
[motor]
peak_torque = "100 N*m"
rise_time = "0.5 s"
max_speed = "3000 rpm"
rotor_inertia = "0.02 +/- 0 kg*m^2"
[driven]
load = "light shock"
inertia = "1.0 +/- 0 kg*m^2"
stiffness = "5000 +/- 0 N*m/rad"
damping_ratio = 0.03
[[joint]]
kind = "shaft"
diameter = "30 +/- 0 mm"
steel = "4140_QT540_2in"
reused = false
"""
    found = influence(scenario_from_text(shaft.encode(), SCENARIOS["works_trolley"]))
    assert found.rows[0].uncertain.key == "motor.peak_torque"
    assert found.rows[0].share == pytest.approx(1.0, abs=0.01)
    assert found.rows[0].uncertain.share == TORQUE
    low, high = found.rows[0].interval_if_known
    assert low == pytest.approx(high, rel=1e-3)
    assert found.wear == ()


def test_wear_has_a_ranking_of_its_own_that_adds_up(orchard: Influence) -> None:
    (wear,) = orchard.wear
    assert sum(share for _, _, share, _ in wear.parts) == pytest.approx(1.0)
    assert wear.parts[0][0] == "wear coefficient of sealed grease"
    assert wear.sigma == pytest.approx(math.sqrt(sum(sigma**2 for _, sigma, _, _ in wear.parts)))
    assert wear.grease


def test_an_unknown_tilt_and_lubricant_weigh_more_in_the_wear_life() -> None:
    (wear,) = influence(
        loaded(('tilt = { angle = "0.08 deg" }\n', ""), ('lubrication = "oil flooded"\n', ""))
    ).wear
    parts = {what: sigma for what, sigma, _, _ in wear.parts}
    assert parts["slip, from the tilt (not measured)"] == 1.0
    assert parts["state of the lubrication"] == 2.3


def test_a_joint_without_a_wear_life_has_no_ranking_of_it() -> None:
    assert influence(loaded(('seat = "flexible"', 'seat = "fixed"'))).wear == ()
