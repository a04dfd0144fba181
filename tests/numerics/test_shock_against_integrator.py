"""The exact segment solver against step-by-step integration of the equations of motion (scipy, DOP853).

The integrator knows the model only as a differential equation with a contact law; it shares no
formula with the solver. Cases are random with a fixed seed and cover every mode.
"""

import math
from dataclasses import dataclass, field

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from torqcheck.shock import peak, trace

INF = math.inf


@dataclass
class Integrated:
    """What step-by-step integration finds in one case."""

    peak: float = -INF
    time_of_peak: float = 0.0
    least: float = 0.0
    closing_time: float = math.nan
    losses: int = 0
    nearest_miss: float = INF  # smallest torque at which a contact just held
    samples: list[tuple[float, float]] = field(default_factory=list)  # time, torque
    coast_blows: int = 0
    closings_out_of_twist: int = 0


class Model:
    """Relative motion of the two inertias: twist p = th1 - th2, p'' = T/J1 - y/mu."""

    def __init__(self, arguments: dict[str, float]) -> None:
        self.S, self.Tm = arguments["torque_rise"], arguments["peak_torque"]
        self.T0, self.b = arguments["start_torque"], arguments["lash"]
        self.J1, J2, self.k = (arguments[name] for name in ("driving_inertia", "driven_inertia", "stiffness"))
        self.mu = self.J1 if J2 == INF else self.J1 * J2 / (self.J1 + J2)
        self.c = 2.0 * arguments["damping_ratio"] * math.sqrt(self.k * self.mu)
        self.period = 2.0 * math.pi * math.sqrt(self.mu / self.k)
        self.ramp_end = 0.0 if self.S == INF else (self.Tm - self.T0) / self.S
        self.sT = self.mu / self.J1 * self.Tm

    def motor(self, t: float) -> float:
        return self.Tm if t >= self.ramp_end else self.T0 + self.S * t

    def path(self, mode: int, p: float, v: float) -> float:
        if mode == 0:
            return 0.0
        return self.k * (p - self.b if mode > 0 else p) + self.c * v

    def acceleration(self, mode: int, t: float, p: float, v: float) -> float:
        return self.motor(t) / self.J1 - self.path(mode, p, v) / self.mu

    def rate(self, mode: int, t: float, p: float, v: float) -> float:
        return self.k * v + self.c * self.acceleration(mode, t, p, v)

    def events(self, mode: int, linear: bool):  # type: ignore[no-untyped-def]
        lag = self.c / self.k

        def turns(t: float, state: np.ndarray) -> float:
            return self.rate(mode, t, *state)

        def opens(t: float, state: np.ndarray) -> float:
            return mode * self.path(mode, *state)

        def drive(t: float, state: np.ndarray) -> float:
            return state[0] - self.b + lag * min(state[1], 0.0)

        def coast(t: float, state: np.ndarray) -> float:
            return -state[0] - lag * max(state[1], 0.0)

        opens.terminal = drive.terminal = coast.terminal = True
        opens.direction, drive.direction, coast.direction = -1, 1, 1
        if mode == 0:
            return [drive, coast]
        return [turns] if linear else [turns, opens]


def integrate(arguments: dict[str, float], periods: float) -> Integrated:
    """Integrate until so many natural periods after the ramp."""
    model, found = Model(arguments), Integrated()
    linear = model.b == 0.0 or model.T0 > 0.0
    s = model.mu / model.J1
    mode = 1 if linear else (-1 if model.T0 < 0.0 else 0)
    state = [s * model.T0 / model.k + (model.b if mode > 0 else 0.0), 0.0]
    t, stops = 0.0, [model.ramp_end, model.ramp_end + periods * model.period]
    for stop in stops:
        while t < stop:
            here = mode
            solution = solve_ivp(
                lambda t, state: (state[1], model.acceleration(here, t, *state)),  # noqa: B023
                (t, stop),
                state,
                method="DOP853",
                rtol=1e-10,
                atol=[1e-14, 1e-11],
                max_step=model.period / 50.0,
                events=model.events(mode, linear),
            )
            _note(model, found, mode, solution)
            t, state = float(solution.t[-1]), [float(value) for value in solution.y[:, -1]]
            if solution.status == 1:
                mode = _switched(found, mode, solution, t)
                found.closings_out_of_twist += mode > 0 and state[0] > model.b * (1.0 + 1e-6)
    return found


def _note(model: Model, found: Integrated, mode: int, solution) -> None:  # type: ignore[no-untyped-def]
    """Record samples, and peaks at the turning points and at both ends of the segment."""
    inside = slice(1, -1, 5)  # not the ends, where the torque may jump
    for t, state in zip(solution.t[inside], solution.y.T[inside], strict=True):
        found.samples.append((float(t), model.path(mode, *state)))
    if mode == 0:
        return
    points = [(float(solution.t[0]), solution.y[:, 0]), (float(solution.t[-1]), solution.y[:, -1])]
    for t, state in zip(solution.t_events[0], solution.y_events[0], strict=True):
        points.append((float(t), state))
        torque = model.path(mode, *state)
        if solution.t[0] < t < solution.t[-1]:
            found.nearest_miss = min(found.nearest_miss, abs(torque))
    for t, state in points:
        torque = model.path(mode, *state)
        found.least = min(found.least, torque)
        if torque > found.peak * (1.0 + 1e-9 * (found.peak > 0)):
            found.peak, found.time_of_peak = torque, t


def _switched(found: Integrated, mode: int, solution, t: float) -> int:  # type: ignore[no-untyped-def]
    """Mode after a switching event."""
    if mode != 0:
        found.losses += mode > 0
        return 0
    to_drive = len(solution.t_events[0]) > 0
    if to_drive and math.isnan(found.closing_time):
        found.closing_time = t
    found.coast_blows += not to_drive
    return 1 if to_drive else -1


def random_cases() -> list[dict[str, float]]:
    """Log-uniform inertias and stiffness; every combination of the kinds below at least once."""
    random = np.random.default_rng(20260314)
    cases = []
    for number in range(96):
        J1 = 10 ** random.uniform(-2, 0)
        J2 = INF if number % 5 == 0 else J1 * 10 ** random.uniform(-0.7, 2)
        k = 10 ** random.uniform(3, 5)
        mu = J1 / (1.0 + J1 / J2)
        period = 2.0 * math.pi * math.sqrt(mu / k)
        Tm = 10 ** random.uniform(1.5, 3)
        start = (0.0, 0.0, -random.uniform(0.02, 0.8) * Tm, 0.0, 0.1 * Tm)[number % 7 % 5]
        rise_time = period * 10 ** random.uniform(-0.7, 1.0)
        twist = mu / J1 * Tm / k
        cases.append(
            {
                "torque_rise": INF if number % 6 == 1 else (Tm - start) / rise_time,
                "peak_torque": Tm,
                "driving_inertia": J1,
                "driven_inertia": J2,
                "stiffness": k,
                "damping_ratio": (0.03, 0.0, random.uniform(0.005, 0.1), 0.3, 1.0, 0.7, 1.8, 0.01)[
                    number % 8
                ],
                "lash": 0.0 if number % 9 == 4 else twist * 10 ** random.uniform(-1.5, 1.3),
                "start_torque": start,
            }
        )
    return cases


def particular_cases() -> list[dict[str, float]]:
    """What random cases rarely meet."""
    trolley = {
        "torque_rise": INF,
        "peak_torque": 240.0,
        "driving_inertia": 0.05,
        "driven_inertia": 1.2,
        "stiffness": 12000.0,
        "damping_ratio": 0.02,
        "lash": 0.002,
        "start_torque": -200.0,
    }
    return [
        trolley,  # rebounds on to the coast flank, more than once
        trolley | {"torque_rise": 80000.0, "damping_ratio": 0.01},  # the same while the torque still rises
        trolley | {"start_torque": -1500.0, "lash": 0.0005, "damping_ratio": 0.05},
        # contacts that close again before their twist is gone
        trolley | {"start_torque": 0.0, "damping_ratio": 0.3, "lash": 0.13986},
        trolley | {"start_torque": 0.0, "damping_ratio": 0.3, "lash": 0.18, "torque_rise": 20000.0},
        trolley | {"start_torque": 0.0, "damping_ratio": 0.6, "lash": 1.0},
        trolley | {"start_torque": 0.0, "damping_ratio": 1.3, "lash": 20.0},
        # contacts closed for many periods of a slow ramp
        trolley | {"start_torque": 0.0, "damping_ratio": 0.01, "torque_rise": 500.0},
        trolley | {"damping_ratio": 0.0, "torque_rise": 1000.0},
    ]


CASES = random_cases() + particular_cases()


def test_the_random_cases_cover_every_kind() -> None:
    def count(condition) -> int:  # type: ignore[no-untyped-def]
        return sum(map(bool, map(condition, CASES)))

    assert count(lambda case: case["lash"] == 0.0) >= 8
    assert count(lambda case: case["damping_ratio"] == 0.0) >= 8
    assert count(lambda case: case["damping_ratio"] >= 1.0) >= 16
    assert count(lambda case: case["driven_inertia"] == INF) >= 16
    assert count(lambda case: case["torque_rise"] == INF) >= 12
    assert count(lambda case: case["start_torque"] < 0.0 < case["lash"]) >= 10
    assert sum(peak(**case).contact_losses > 1 for case in CASES) >= 10


def test_the_particular_cases_are_what_they_are_meant_to_be() -> None:
    found = [integrate(case, 12.0) for case in particular_cases()]
    assert [blow.coast_blows > 1 for blow in found[:3]] == [True] * 3
    assert [blow.closings_out_of_twist for blow in found[3:7]] == [1] * 4


@pytest.mark.parametrize("case", CASES, ids=range(len(CASES)))
def test_integration_finds_the_same(case: dict[str, float]) -> None:
    ours = peak(**case)
    model = Model(case)
    flight = 2.0 * math.sqrt(2.0 * model.J1 * model.b / model.Tm)
    periods = 6.0 + min((3.0 + 2.0 * ours.contact_losses) * flight / model.period, 40.0)
    theirs = integrate(case, periods)

    assert ours.peak_torque == pytest.approx(theirs.peak, rel=1e-7)
    assert ours.closing_time == pytest.approx(theirs.closing_time, rel=1e-8, nan_ok=True)
    times, torques = np.array(theirs.samples).T
    assert trace(**case, times=times).torque == pytest.approx(torques, abs=1e-6 * theirs.peak)
    assert ours.least_torque == pytest.approx(theirs.least, rel=1e-7, abs=1e-7 * model.sT)
    if ours.settled and theirs.nearest_miss > 1e-5 * model.sT:
        assert ours.contact_losses == theirs.losses


@pytest.mark.parametrize("lash", [0.02, 0.005])
@pytest.mark.parametrize("damping_ratio", [0.0, 0.03, 0.3])
def test_two_free_bodies_without_any_event_search(lash: float, damping_ratio: float) -> None:
    """Both angles integrated in small steps, the contact law written as it reads, nothing reduced."""
    case = {
        "torque_rise": 4000.0,
        "peak_torque": 240.0,
        "driving_inertia": 0.05,
        "driven_inertia": 1.2,
        "stiffness": 12000.0,
        "damping_ratio": damping_ratio,
        "lash": lash,
        "start_torque": 0.0,
    }
    damping = 2.0 * damping_ratio * math.sqrt(12000.0 * 0.05 * 1.2 / 1.25)

    def torque(th1: float, w1: float, th2: float, w2: float) -> float:
        x = th1 - th2 - lash
        return max(12000.0 * x + damping * (w1 - w2), 0.0) if x > 0.0 else 0.0

    def motion(t: float, state: np.ndarray) -> tuple[float, ...]:
        y = torque(*state)
        return state[1], (min(4000.0 * t, 240.0) - y) / 0.05, state[3], y / 1.2

    times = np.linspace(0.0, 0.1, 20001)
    solution = solve_ivp(motion, (0.0, 0.1), [0.0] * 4, "DOP853", times, rtol=1e-9, atol=1e-12, max_step=1e-4)
    theirs = np.array([torque(*state) for state in solution.y.T])
    # where a contact closes or opens the integrator's steps straddle the kink: 3e-5 is its error, not ours
    assert peak(**case).peak_torque == pytest.approx(theirs.max(), rel=3e-5)
    ours = trace(**case, times=times)
    touching = (ours.mode == 1) & (theirs > 0.0)
    assert np.max(np.abs(ours.torque - theirs)[touching]) < 1e-3 * theirs.max()
    assert np.mean((ours.torque > 0.0) == (theirs > 0.0)) > 0.999


HARD = {
    "peak_torque": 240.0,
    "driving_inertia": 0.05,
    "driven_inertia": 1.2,
    "stiffness": 12000.0,
    "start_torque": 0.0,
}
OTHER_WAY = [
    # torque rise, damping, lash, what grows by a fifth, how the peak then moves
    (19959.104, 0.18362963, 4.10039e-3, "lash", -1),
    (19701.630, 0.20147394, 5.4606071e-3, "damping_ratio", 1),
]


@pytest.mark.parametrize(("rise", "damping", "lash", "grown", "way"), OTHER_WAY, ids=lambda value: str(value))
def test_more_lash_may_lower_the_blow_and_more_damping_raise_it(
    rise: float, damping: float, lash: float, grown: str, way: int
) -> None:
    """The gap then closes at another moment of the ramp: no defect of the solver, the motion is so."""
    less = HARD | {"torque_rise": rise, "damping_ratio": damping, "lash": lash}
    more = less | {grown: 1.2 * less[grown]}
    ours, theirs = [
        [peak(**case).peak_torque for case in (less, more)],
        [integrate(case, 8.0).peak for case in (less, more)],
    ]
    assert ours == pytest.approx(theirs, rel=1e-6)
    assert (theirs[1] / theirs[0] - 1.0) * way > 0.01
