"""Slip element and two-stage rise against step-by-step integration of three inertias.

Random cases with a fixed seed over every combination of damping, held or free driven side, lash or
none, rest, regeneration or preload, one or two stages, sticking, sliding for a while and for good.
"""

import math

import numpy as np
import pytest
from numerics._three_inertias import INF, Integrated, ThreeInertias, integrate

from torqcheck.shock import peak, trace

COUNT = 500


def random_case(number: int) -> dict[str, float]:
    """Log-uniform inertias and stiffness; kinds by turns, with periods that have no common factor."""
    random = np.random.default_rng((20261125, number))
    J1 = 10 ** random.uniform(-2, 0)
    J2 = INF if number % 5 == 0 else J1 * 10 ** random.uniform(-0.5, 2)
    k = 10 ** random.uniform(3, 5)
    mu = J1 / (1.0 + J1 / J2)
    share = mu / J1
    period = 2.0 * math.pi * math.sqrt(mu / k)
    Tm = 10 ** random.uniform(1.5, 3)
    start = (0.0, -random.uniform(0.05, 0.6) * Tm, 0.0, 0.1 * Tm)[number % 11 % 4]
    rise_time = period * 10 ** random.uniform(-0.7, 0.7)
    twist = share * Tm / k
    case = {
        "torque_rise": INF if number % 6 == 1 else (Tm - start) / rise_time,
        "peak_torque": Tm,
        "driving_inertia": J1,
        "driven_inertia": J2,
        "stiffness": k,
        "damping_ratio": (0.03, 0.0, random.uniform(0.005, 0.1), 0.3, 0.9, 0.08, 1.4)[number % 7],
        "lash": 0.0 if number % 9 == 4 else twist * 10 ** random.uniform(-1.5, 1.0),
        "start_torque": start,
    }
    if number % 4 != 3:
        before = (J1 if J2 == INF else J2) * random.uniform(0.05, 0.9)
        part = 1.0 if J2 == INF else 1.0 - before / J2
        grip = share * Tm * max(10 ** random.uniform(-0.5, 0.3), 1.02 * abs(start) / Tm)
        case |= {"slip_torque": grip * part, "inertia_before_slip": before}
    if number % 4 in (2, 3):
        rest = random.uniform(0.05, 0.9) * Tm
        if rest > 1.05 * max(start, 0.0):
            case |= {"closing_torque": rest, "closing_time": period * random.uniform(0.1, 3.0)}
    return case


CASES = [random_case(number) for number in range(COUNT)]


def _compare(case: dict[str, float]) -> Integrated:
    ours = peak(**case)
    model = ThreeInertias(case)
    flight = 2.0 * math.sqrt(2.0 * model.J1 * model.b / model.Tm)
    periods = 5.0 + min((2.0 + 2.0 * ours.contact_losses) * flight / model.period, 25.0)
    theirs = integrate(case, periods)
    scale = model.mu / model.J1 * model.Tm
    assert ours.peak_torque == pytest.approx(theirs.peak, rel=1e-7)
    assert ours.least_torque == pytest.approx(theirs.least, rel=1e-7, abs=1e-7 * scale)
    assert ours.closing_time == pytest.approx(theirs.closing_time, rel=1e-8, nan_ok=True)
    times, torques = np.array(theirs.samples).T
    assert trace(**case, times=times).torque == pytest.approx(torques, abs=2e-6 * theirs.peak)
    if theirs.near_slip > 1e-6 * scale:
        assert ours.slip_time == pytest.approx(theirs.slip_time, rel=1e-7, nan_ok=True)
    if ours.settled and theirs.nearest_miss > 1e-5 * scale:
        assert ours.contact_losses == theirs.losses
    return theirs


@pytest.mark.parametrize("first", range(0, COUNT, 20))
def test_integration_finds_the_same(first: int) -> None:
    for number in range(first, first + 20):
        _compare(CASES[number])


def test_the_random_cases_cover_every_kind() -> None:
    def count(condition) -> int:  # type: ignore[no-untyped-def]
        return sum(map(bool, map(condition, CASES)))

    blows = [peak(**case) for case in CASES]
    assert count(lambda case: case["lash"] == 0.0) >= 40
    assert count(lambda case: case["damping_ratio"] == 0.0) >= 60
    assert count(lambda case: case["damping_ratio"] > 1.0) >= 60
    assert count(lambda case: case["driven_inertia"] == INF and "slip_torque" in case) >= 60
    assert count(lambda case: case["start_torque"] < 0.0 < case["lash"]) >= 100
    assert count(lambda case: "closing_torque" in case) >= 150
    assert count(lambda case: "closing_torque" in case and "slip_torque" in case) >= 60
    assert sum(blow.slipped for blow in blows) >= 250
    assert sum(blow.contact_losses > 0 for blow in blows) >= 70


@pytest.mark.parametrize("case", [CASES[number] for number in (0, 2, 3, 8, 13, 49)])
def test_a_batch_gives_what_single_cases_give(case: dict[str, float]) -> None:
    many = {name: np.array([value, value, math.nan]) for name, value in case.items()}
    one, batch = peak(**case), peak(**many)
    assert np.asarray(batch.peak_torque)[:2] == pytest.approx(one.peak_torque, rel=1e-12)
    assert np.isnan(np.asarray(batch.peak_torque)[2])
    assert np.asarray(batch.slipped).tolist() == [one.slipped, one.slipped, False]


def test_mixed_batch_gives_what_single_cases_give() -> None:
    kinds = [case for case in CASES if "slip_torque" in case and "closing_torque" in case]
    plain = [case for case in CASES if "slip_torque" not in case and "closing_torque" not in case]
    cases = [
        case | {"closing_torque": case.get("closing_torque", case["peak_torque"])} for case in kinds + plain
    ]
    fill = {"slip_torque": INF, "inertia_before_slip": 1.0, "closing_time": 0.0}
    cases = [fill | case for case in cases]
    batch = peak(**{name: np.array([case[name] for case in cases]) for name in cases[0]})
    for number, case in enumerate(kinds + plain):
        one = peak(**case)
        assert np.asarray(batch.peak_torque)[number] == pytest.approx(one.peak_torque, rel=1e-11)
        assert np.asarray(batch.contact_losses)[number] == one.contact_losses
