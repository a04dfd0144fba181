"""Energy balance with a slip element: motor work = kinetic + strain + damped energy + slip work.

The closed forms give torque and speeds; work is integrated numerically (Gauss and Legendre) over each
segment, with all three inertias in the frame of their common centre. Dimensionless, as the solver is.
"""

import numpy as np
import pytest
from numerics._three_inertias import ThreeInertias
from numerics.test_slip_against_integrator import CASES, COUNT

from torqcheck.shock.arguments import course_of, path_of
from torqcheck.shock.arithmetic import FLOATS
from torqcheck.shock.course import Course, Standing, here, motor
from torqcheck.shock.pieces import along
from torqcheck.shock.run import follow_course
from torqcheck.shock.slide import pressed
from torqcheck.shock.states import GAP

NODES, WEIGHTS = np.polynomial.legendre.leggauss(8)


class Bodies:
    """The three inertias in units of the reduced one."""

    def __init__(self, case: dict[str, float]) -> None:
        model = ThreeInertias(case)
        self.share = model.mu / model.J1
        self.J1 = model.J1 / model.mu
        held = np.isinf(model.J2)
        slips = "slip_torque" in case
        self.Ja = model.Ja / model.mu if slips else 0.0
        self.Jb = (
            (0.0 if held else model.behind / model.mu) if slips else (0.0 if held else model.J2 / model.mu)
        )
        self.held = held
        self.friction = model.Ts / (self.share * model.Tm) if slips else 0.0

    def speeds(self, twist_rate, across):  # type: ignore[no-untyped-def]
        """Speeds of J1, Ja, Jb in the frame of the common centre (of Jb if it is held)."""
        total = self.J1 + self.Ja + self.Jb
        last = 0.0 * across if self.held else -(self.J1 * (twist_rate + across) + self.Ja * across) / total
        return last + across + twist_rate, last + across, last

    def kinetic(self, twist_rate: float, across: float) -> float:
        first, middle, last = self.speeds(twist_rate, across)
        return 0.5 * (self.J1 * first**2 + self.Ja * middle**2 + self.Jb * last**2)


def _flow(course: Course, bodies: Bodies, before: Standing, after: Standing) -> tuple[float, float, float]:
    """Work of the motor, damped energy and slip work along a segment."""
    length = after.time - before.time
    edges = length * np.linspace(0.0, 1.0, 401) ** 3
    half = 0.5 * np.diff(edges)[:, None]
    time = edges[:-1, None] + half * (1.0 + NODES)
    now = here(FLOATS, course, before)
    if before.mode == GAP:
        local = time * now.quicker
        rate = before.speed + now.quicker * local * (now.load + 0.5 * now.slope * local)
        across = before.across - course.grip * now.drift * local if before.sliding else 0.0 * time
        damped = 0.0
    else:
        signed, start = pressed(FLOATS, course, before, now)
        _, speed, across = along(signed, start, now.zeta >= 1.0, time * now.quicker)
        rate = before.mode * now.quicker * speed
        across = across if before.sliding else 0.0 * time
        damped = float(np.sum(half * WEIGHTS * 2.0 * course.zeta * rate**2))
    torque, slope = motor(FLOATS, course, before.stage, before.time)
    driving, _, _ = bodies.speeds(rate, before.sliding * across)
    work = float(np.sum(half * WEIGHTS * (torque + slope * time) / bodies.share * driving))
    return work, damped, float(np.sum(half * WEIGHTS * bodies.friction * across))


def _stored(course: Course, bodies: Bodies, standing: Standing) -> tuple[float, float]:
    """Kinetic and strain energy; in the gap the twist counts as relaxed."""
    side = standing.mode if standing.mode != GAP else 1.0
    kinetic = bodies.kinetic(side * standing.speed, standing.sliding * standing.across)
    return kinetic, 0.0 if standing.mode == GAP else 0.5 * standing.place**2


@pytest.mark.parametrize("first", range(0, COUNT, 50))
def test_energy_is_kept(first: int) -> None:
    for case in CASES[first : first + 50]:
        extras = {"slip_torque": np.inf, "closing_torque": case["peak_torque"]} | case
        path = path_of(**extras)
        assert path.extras is not None
        course, bodies = course_of(path, path.extras), Bodies(case)
        log: list[tuple[Standing, Standing]] = []
        follow_course(course, lambda before, after, log=log: log.append((before, after)))  # type: ignore[misc]
        for before, after in log:
            if after.time - before.time > 1e6:  # creeping towards its end for ever
                continue
            _balance(course, bodies, before, after)


def _balance(course: Course, bodies: Bodies, before: Standing, after: Standing) -> None:
    """Check one segment."""
    work, damped, slipped = _flow(course, bodies, before, after)
    kinetic, strain = np.subtract(_stored(course, bodies, after), _stored(course, bodies, before))
    if before.mode != GAP and after.mode == GAP:  # the twist left at opening relaxes without torque
        strain += 0.5 * (2.0 * course.zeta * after.speed) ** 2
    if before.mode == GAP:  # twist that was not yet gone when the contact closed again
        strain -= _stored(course, bodies, after)[1]
    scale = abs(work) + damped + slipped + sum(_stored(course, bodies, after))
    scale += sum(_stored(course, bodies, before))
    assert work == pytest.approx(kinetic + strain + damped + slipped, abs=1e-9 * scale + 1e-15)
