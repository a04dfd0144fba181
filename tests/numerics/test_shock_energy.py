"""Energy balance of every segment: work of the motor = kinetic + strain + damped energy.

The closed forms give torque and speed; the work is integrated numerically (Gauss and Legendre), so a
wrong solution of the equation of motion, or a state that jumps at a switching event, does not balance.
Energies of the relative motion, in the dimensionless units of the solver.
"""

import numpy as np
import pytest
from numerics.test_shock_against_integrator import CASES

from torqcheck.shock import creep, swing
from torqcheck.shock.arguments import cases_of, path_of
from torqcheck.shock.arithmetic import ARRAYS, FLOATS
from torqcheck.shock.run import follow_one
from torqcheck.shock.segments import stretch_of
from torqcheck.shock.states import GAP, Case, State

NODES, WEIGHTS = np.polynomial.legendre.leggauss(8)


def _segments(case: Case) -> list[tuple[State, State]]:
    log: list[tuple[State, State]] = []
    follow_one(case, lambda before, after: log.append((before, after)))
    return log


def _stored(case: Case, state: State) -> tuple[float, float]:
    """Kinetic and strain energy; in the gap the twist counts as relaxed."""
    if state.mode == GAP:
        return 0.5 * state.rate**2, 0.0
    stretch = stretch_of(case, state, state.mode, state.time < case.ramp_end)
    speed = state.rate - 2.0 * case.zeta * (stretch.load - state.place)
    twist = state.place - 2.0 * case.zeta * speed
    return 0.5 * speed**2, 0.5 * twist**2


def _flow(case: Case, before: State, length: float) -> tuple[float, float]:
    """Work of the motor and damped energy along a segment."""
    # the torque creeps fast at first and slowly later: panels that grow suit both dampings
    edges = length * np.linspace(0.0, 1.0, 401) ** 3
    half = 0.5 * np.diff(edges)[:, None]
    time = edges[:-1, None] + half * (1.0 + NODES)
    side = before.mode if before.mode != GAP else 1.0
    stretch = stretch_of(case, before, side, before.time < case.ramp_end)
    load = stretch.load + stretch.slope * time
    if before.mode == GAP:
        speed = before.rate + time * (stretch.load + 0.5 * stretch.slope * time)
        return float(np.sum(half * WEIGHTS * load * speed)), 0.0
    if case.zeta < 1.0:
        motion = swing.swing(FLOATS, case, stretch, before.place, before.rate)
        torque, rate, _ = swing.torque_at(ARRAYS, motion, time)
    else:
        creeping = creep.creep(FLOATS, case, stretch, before.place, before.rate)
        torque, rate, _ = creep.torque_at(ARRAYS, creeping, time)
    speed = rate - 2.0 * case.zeta * (load - torque)
    work = float(np.sum(half * WEIGHTS * load * speed))
    return work, float(np.sum(half * WEIGHTS * 2.0 * case.zeta * speed**2))


@pytest.mark.parametrize("arguments", CASES, ids=range(len(CASES)))
def test_energy_is_kept(arguments: dict[str, float]) -> None:
    case = cases_of(path_of(**arguments))
    for before, after in _segments(case):
        work, damped = _flow(case, before, after.time - before.time)
        kinetic, strain = np.subtract(_stored(case, after), _stored(case, before))
        if before.mode != GAP and after.mode == GAP:  # the twist left at opening relaxes without torque
            strain += 0.5 * (2.0 * case.zeta * after.rate) ** 2
        if before.mode == GAP:  # twist that was not yet gone when the contact closed again
            strain -= _stored(case, after)[1]
        scale = abs(work) + damped + sum(_stored(case, after)) + sum(_stored(case, before))
        assert work == pytest.approx(kinetic + strain + damped, abs=1e-9 * scale + 1e-15)
