"""Step-by-step integration (scipy, DOP853) of three inertias with lash and a slip element.

It knows the model only as differential equations with a contact law and a friction law; it shares no
formula with the solver. State: twist p = th1 - tha, its rate v, speed r of Ja against Jb.
"""

import math
from dataclasses import dataclass, field

import numpy as np
from scipy.integrate import solve_ivp

INF = math.inf


@dataclass
class Integrated:
    """What step-by-step integration finds in one case."""

    peak: float = -INF
    least: float = 0.0
    closing_time: float = math.nan
    slip_time: float = math.nan
    losses: int = 0
    grips: int = 0
    slides: int = 0
    back_slides: int = 0
    nearest_miss: float = INF  # smallest torque at which a contact just held
    near_slip: float = INF  # closest that a maximum came to the grip
    samples: list[tuple[float, float]] = field(default_factory=list)
    end: float = 0.0


class ThreeInertias:
    """J1 - lash, spring, damper - Ja - friction - Jb."""

    def __init__(self, arguments: dict[str, float]) -> None:
        self.S, self.Tm = arguments["torque_rise"], arguments["peak_torque"]
        self.T0, self.b = arguments["start_torque"], arguments["lash"]
        self.J1, J2, self.k = (arguments[name] for name in ("driving_inertia", "driven_inertia", "stiffness"))
        self.Ts = arguments.get("slip_torque", INF)
        self.Ja = arguments.get("inertia_before_slip") or J2
        self.behind = INF if J2 == INF else J2 - self.Ja
        self.part = 1.0 if J2 == INF else self.behind / J2  # of the path torque that the element carries
        self.mu = self.J1 if J2 == INF else self.J1 * J2 / (self.J1 + J2)
        self.J2 = J2
        self.c = 2.0 * arguments["damping_ratio"] * math.sqrt(self.k * self.mu)
        self.period = 2.0 * math.pi * math.sqrt(self.mu / self.k)
        rest = arguments.get("closing_torque") or self.Tm
        self.rest = rest
        first = 0.0 if self.S == INF else (rest - self.T0) / self.S
        second = first + (arguments.get("closing_time", 0.0) if rest < self.Tm else 0.0)
        third = second + (0.0 if self.S == INF else (self.Tm - rest) / self.S)
        self.stops = (first, second, third)

    def motor(self, stage: int, t: float) -> float:
        if stage == 0:
            return self.T0 + self.S * t
        if stage == 1:
            return self.rest
        return self.Tm if stage == 3 else self.rest + self.S * (t - self.stops[1])

    def path(self, mode: int, p: float, v: float) -> float:
        if mode == 0:
            return 0.0
        return self.k * (p - self.b if mode > 0 else p) + self.c * v

    def motion(self, mode: int, slide: int, torque: float, p: float, v: float) -> tuple[float, float]:
        """Rates of v and r."""
        y = self.path(mode, p, v)
        if slide == 0:
            return torque / self.J1 - y / self.mu, 0.0
        friction = slide * self.Ts
        before = (y - friction) / self.Ja
        return (torque - y) / self.J1 - before, before - friction / self.behind


def integrate(arguments: dict[str, float], periods: float) -> Integrated:
    """Integrate until so many natural periods after the rise."""
    model, found = ThreeInertias(arguments), Integrated()
    linear = model.b == 0.0 or model.T0 > 0.0
    share = model.mu / model.J1
    mode = 1 if linear else (-1 if model.T0 < 0.0 else 0)
    state = [share * model.T0 / model.k + (model.b if mode > 0 else 0.0), 0.0, 0.0]
    t, slide = 0.0, 0
    for stage, stop in enumerate((*model.stops, model.stops[2] + periods * model.period)):
        while t < stop * (1.0 - 1e-15):
            mode, slide = _let_go(model, found, mode, slide, t, state)
            steps = 30.0
            solution = _segment(model, mode, slide, stage, (t, stop), state, linear, steps)
            while not linear and _overlooked(model, mode, solution):
                steps *= 6.0
                solution = _segment(model, mode, slide, stage, (t, stop), state, linear, steps)
            _note(model, found, mode, solution)
            t, state = float(solution.t[-1]), [float(value) for value in solution.y[:, -1]]
            if solution.status == 1:
                mode, slide = _switched(model, found, mode, slide, t, state, solution)
        t = max(t, stop)
    found.end = t
    return found


def _let_go(
    model: ThreeInertias, found: Integrated, mode: int, slide: int, t: float, state: list[float]
) -> tuple[int, int]:
    """Start to slide if the element cannot hold what acts on it now."""
    y = model.path(mode, state[0], state[1])
    if slide == 0 and abs(y) * model.part >= model.Ts * (1.0 - 1e-12):
        slide = 1 if y > 0.0 else -1
        state[2] = (
            slide * 1e-9 * model.Ts / model.Ja * model.period
        )  # so that rounding does not stop it at once
        found.slides += 1
        found.back_slides += slide < 0
        if math.isnan(found.slip_time):
            found.slip_time = t
    return mode, slide


def _overlooked(model, mode, solution) -> bool:  # type: ignore[no-untyped-def]
    """Whether the torque dipped below nought and came back within one step of the integrator."""
    turning = solution.y_events[0] if mode else []
    times = solution.t_events[0] if mode else []
    return any(
        mode * model.path(mode, state[0], state[1]) < 0.0 and t < solution.t[-1]
        for t, state in zip(times, turning, strict=True)
    )


def _contact_events(model, mode, slide, stage, linear):  # type: ignore[no-untyped-def]
    """Extremes of the torque, and where the flanks part."""

    def turns(t: float, state: np.ndarray) -> float:
        dv, _ = model.motion(mode, slide, model.motor(stage, t), state[0], state[1])
        return model.k * state[1] + model.c * dv

    def opens(t: float, state: np.ndarray) -> float:
        return mode * model.path(mode, state[0], state[1])

    opens.terminal, opens.direction = True, -1
    return [turns] if linear else [turns, opens]


def _gap_events(model):  # type: ignore[no-untyped-def]
    """Meeting of either flank, or of the torque of a twist that was not yet gone."""
    lag = model.c / model.k

    def drive(t: float, state: np.ndarray) -> float:
        return state[0] - model.b + lag * min(state[1], 0.0)

    def coast(t: float, state: np.ndarray) -> float:
        return -state[0] - lag * max(state[1], 0.0)

    drive.terminal = coast.terminal = True
    drive.direction = coast.direction = 1
    return [drive, coast]


def _element_events(model, mode, slide):  # type: ignore[no-untyped-def]
    """Where the slip element lets go, or grips again."""

    def forward(t: float, state: np.ndarray) -> float:
        return model.path(mode, state[0], state[1]) * model.part - model.Ts

    def backward(t: float, state: np.ndarray) -> float:
        return model.path(mode, state[0], state[1]) * model.part + model.Ts

    def grips(t: float, state: np.ndarray) -> float:
        return slide * state[2]

    forward.terminal = backward.terminal = grips.terminal = True
    forward.direction, backward.direction, grips.direction = 1, -1, -1
    if slide:
        return [grips]
    return [forward, backward] if mode and model.Ts < INF else []


def _segment(model, mode, slide, stage, span, state, linear, steps):  # type: ignore[no-untyped-def]
    """Integrate to the next event."""

    def motion(t: float, state: np.ndarray) -> tuple[float, ...]:
        dv, dr = model.motion(mode, slide, model.motor(stage, t), state[0], state[1])
        return state[1], dv, dr

    events = _contact_events(model, mode, slide, stage, linear) if mode else _gap_events(model)
    events += _element_events(model, mode, slide)
    solution = solve_ivp(
        motion,
        span,
        state,
        method="DOP853",
        rtol=1e-10,
        atol=[1e-14, 1e-11, 1e-11],
        max_step=model.period / steps,
        events=events,
    )
    solution.names = [event.__name__ for event in events]
    return solution


def _note(model, found, mode, solution) -> None:  # type: ignore[no-untyped-def]
    """Record samples, and peaks at the turning points and at both ends of the segment."""
    for t, state in zip(solution.t[1:-1:6], solution.y.T[1:-1:6], strict=True):
        found.samples.append((float(t), model.path(mode, state[0], state[1])))
    if mode == 0:
        return
    points = [(solution.t[0], solution.y[:, 0]), (solution.t[-1], solution.y[:, -1])]
    points += list(zip(solution.t_events[0], solution.y_events[0], strict=True))
    for t, state in points:
        torque = model.path(mode, state[0], state[1])
        if solution.t[0] < t < solution.t[-1]:
            found.nearest_miss = min(found.nearest_miss, abs(torque))
            found.near_slip = min(found.near_slip, abs(abs(torque) * model.part - model.Ts))
        found.least = min(found.least, torque)
        found.peak = max(found.peak, torque)


def _switched(model, found, mode, slide, t, state, solution):  # type: ignore[no-untyped-def]
    """Modes after a switching event."""
    happened = [
        name
        for name, times in zip(solution.names, solution.t_events, strict=True)
        if len(times) and times[-1] == t
    ]
    if "grips" in happened:
        found.grips += 1
        state[2] = 0.0
        slide = 0
    if "opens" in happened:
        found.losses += mode > 0
        return 0, slide
    if "drive" in happened:
        if math.isnan(found.closing_time):
            found.closing_time = t
        return 1, slide
    return (-1 if "coast" in happened else mode), slide
