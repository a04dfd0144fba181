"""Searches without a scenario: one path, its starts and its limit."""

import math
from collections.abc import Sequence

import numpy as np

from torqcheck._types import FloatArray
from torqcheck.assessment.ramp.cases import Cases, Members, Sample
from torqcheck.assessment.ramp.limits import Limits
from torqcheck.checks import Check

NO_CHECK = Check(
    joint="", name="", method="guide, simulated", member="both", value=1.0, allowable=1.0, target=1.0,
    torque=1.0, sources=(),
)  # fmt: skip
PEAK, DRIVING, STIFFNESS = 240.0, 0.05, 12000.0
SLOWEST = PEAK / 20.0


def cases_with(
    factor: float,
    *,
    damping: float = 0.0,
    lash: float = 0.0,
    driven: float = math.inf,
    starts: Sequence[float] = (0.0,),
    peak: float = PEAK,
) -> Cases:
    """A path whose limit is `factor` times the steady torque; the lash in twists under that torque."""
    share = 1.0 / (1.0 + DRIVING / driven)
    count, one = len(starts), np.ones(1)
    members = Members(
        name=np.array(["rest" if start == 0.0 else "regeneration" for start in starts]),
        start_torque=np.array(starts),
        peak_torque=np.full(count, peak),
        rise=np.ones(count),
        transfer=np.ones(count),
        braking=np.zeros(count, bool),
        driven_inertia=np.full(count, driven),
        stiffness=np.full(count, STIFFNESS),
    )
    twist = share * peak / STIFFNESS
    nominal = Sample(DRIVING * one, one, one, damping * one, lash * twist * one)
    return Cases(members, Limits(factor * share * peak, 1e9, NO_CHECK, ()), nominal)


def draws_around(cases: Cases, count: int, spread: float, seed: int) -> Sample:
    """Draws around the values as stated, independent of how the project draws them."""
    rng = np.random.default_rng(seed)

    def some(width: float) -> FloatArray:
        return np.exp(width * rng.normal(size=count))

    nominal = cases.nominal
    return Sample(
        nominal.driving_inertia * some(spread),
        some(spread),
        some(2.0 * spread),
        nominal.damping_ratio * some(3.0 * spread),
        nominal.lash * some(2.0 * spread),
    )
