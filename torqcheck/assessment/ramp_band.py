"""How well inertia, stiffness, damping and lash are known, and evenly spread draws of them."""

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from torqcheck._types import FloatArray
from torqcheck.assessment.blow import Path
from torqcheck.assessment.prepared import Prepared
from torqcheck.assessment.ramp_cases import Sample
from torqcheck.assessment.spline_state import SplineState
from torqcheck.capacity import reflected_lash, reflected_stiffness
from torqcheck.draws import evenly_spread
from torqcheck.scenario.bands import deviations, value_between, value_of_reading, value_of_share
from torqcheck.scenario.joint_schema import Lash
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.quantity import Reading, needed
from torqcheck.scenario.usual import (
    ARM,
    COMPUTED_STIFFNESS,
    DAMPING,
    DIAL,
    DRIVEN,
    LASH_ANGLE,
    OVER_PINS,
    ROTOR,
)

__all__ = ["DRAWS", "SEED", "drawn"]

DRAWS = 512
SEED = 20260

Draw = Callable[[FloatArray], FloatArray]
"""Evenly spread numbers between 0 and 1 -> values."""


@dataclass(frozen=True, slots=True)
class _Lash:
    """Lash of one joint, referred to the reference joint, and how it is drawn."""

    value: float
    draw: Draw


def drawn(prepared: Prepared, count: int = DRAWS, seed: int = SEED) -> Sample:
    """
    Draw the path within what is known of it, the same for the same seed.

    Parameters
    ----------
    prepared : Prepared
        The path; its ledger takes what had to be assumed about the spread.
    count : int, optional
        Number of draws.
    seed : int, optional
        Shifts the evenly spread points.
    """
    path, ledger = prepared.path, prepared.ledger
    lashes = [_lash(prepared, index) for index, joint in enumerate(prepared.joints) if joint.spline]
    points = iter(evenly_spread(count, 4 + len(lashes), seed))
    sample = Sample(
        driving_inertia=_driving(prepared)(next(points)),
        driven_factor=_scaled(1.0, _driven_tolerance(prepared))(next(points)),
        stiffness_factor=_scaled(1.0, _stiffness_tolerance(prepared))(next(points)),
        damping_ratio=_damping(path)(next(points)),
        lash=np.asarray(sum((lash.draw(next(points)) for lash in lashes), np.zeros(count))),
    )
    _say_what_was_taken(prepared, ledger)
    return sample


def _between(value: float, low: float, high: float) -> Draw:
    """An assumed value over its band."""
    return lambda points: value_between(value, low, high, deviations(points))


def _scaled(value: float, tolerance: float) -> Draw:
    """A value with a tolerance that is a share of it."""
    return lambda points: value_of_share(value, tolerance, deviations(points))


def _evenly(low: float, high: float) -> Draw:
    """Anything between two ends."""
    return lambda points: low + (high - low) * points


def _measured(value: float, tolerance: float) -> Draw:
    """A reading with its tolerance."""
    return lambda points: value_of_reading(value, tolerance, deviations(points))


def _driving(prepared: Prepared) -> Draw:
    """Driving inertia: the band of an estimate, or the tolerance of the reading."""
    path = prepared.path
    if path.inertia_band:
        return _between(path.driving_inertia, *path.inertia_band)
    scenario, ratio = prepared.scenario, prepared.loads[path.reference].ratio
    rotor = needed(scenario.motor.rotor_inertia)
    tolerance = _relative(rotor, ROTOR) * rotor.value * ratio**2
    reduction = scenario.reduction
    if reduction is not None and reduction.inertia is not None:
        stage = (ratio / reduction.ratio) ** 2 * reduction.inertia.value
        tolerance = math.hypot(tolerance, _relative(reduction.inertia, ROTOR) * stage)
    return _scaled(path.driving_inertia, tolerance / path.driving_inertia)


def _driven_tolerance(prepared: Prepared) -> float:
    """Relative tolerance of the driven inertia; what is tried in its place has none of its own."""
    driven = prepared.scenario.driven
    if driven.inertia is not None:
        return _relative(driven.inertia, DRIVEN)
    if driven.moved is not None:
        radius = 2.0 * driven.moved.rolling_radius.tolerance / driven.moved.rolling_radius.value
        mass = driven.moved.mass.tolerance / driven.moved.mass.value
        return math.hypot(radius, mass) or DRIVEN
    return 0.0


def _stiffness_tolerance(prepared: Prepared) -> float:
    """Relative tolerance of the stiffness: that of what was given and that of what was computed."""
    path = prepared.path
    given = prepared.scenario.driven.stiffness
    if given is None or not math.isfinite(given.value):
        return COMPUTED_STIFFNESS
    reference = prepared.loads[path.reference].ratio
    behind = float(reflected_stiffness(given.value, prepared.loads[-1].ratio / reference))
    share = path.stiffnesses[0] / behind  # of the whole give of the path
    return math.hypot(share * _relative(given, COMPUTED_STIFFNESS), (1.0 - share) * COMPUTED_STIFFNESS)


def _damping(path: Path) -> Draw:
    """Damping ratio: the band of the assumption, or a share of what is stated."""
    if path.damping_band:
        return _between(path.damping_ratio, *path.damping_band)
    return _scaled(path.damping_ratio, DAMPING) if path.damping_ratio else np.zeros_like


def _relative(reading: Reading, otherwise: float) -> float:
    """Tolerance over value."""
    return reading.tolerance / reading.value if reading.tolerance else otherwise


def _lash(prepared: Prepared, index: int) -> _Lash:
    """The lash of one joint, drawn in its own way."""
    joint, path = prepared.joints[index], prepared.path
    state = joint.spline
    assert state is not None
    scale = float(
        reflected_lash(
            2.0 / state.pitch_diameter, prepared.loads[index].ratio / prepared.loads[path.reference].ratio
        )
    )
    value = state.lash.clearance
    band = prepared.ledger.band(f"{joint.key}.lash")
    if band and (state.lash.new or value <= 0.0):
        return _Lash(scale * value, _evenly(scale * band[0], scale * band[1]))
    if band:
        low, high = min(band[0], value), max(band[1], value)
        return _Lash(scale * value, _between(scale * value, scale * low, scale * high))
    return _Lash(scale * value, _measured(scale * value, scale * _lash_tolerance(state)))


def _lash_tolerance(state: SplineState) -> float:
    """Tolerance of a measured lash along the pitch circle, m."""
    lash = state.joint.lash
    if not isinstance(lash, Lash):
        play = state.joint.radial_play
        return 2.0 * OVER_PINS if play is None else play.tolerance or DIAL
    if lash.clearance is not None:
        return lash.clearance.tolerance or DIAL
    if lash.angle is not None:
        return _relative(lash.angle, LASH_ANGLE) * state.lash.clearance
    travel, radius = needed(lash.travel), needed(lash.radius)
    if travel.value <= 0.0:
        return (travel.tolerance or DIAL) * 0.5 * state.pitch_diameter / radius.value
    share = math.hypot((travel.tolerance or DIAL) / travel.value, (radius.tolerance or ARM) / radius.value)
    return share * state.lash.clearance


def _say_what_was_taken(prepared: Prepared, ledger: Ledger) -> None:
    """Write down the spread that was taken where no tolerance is written."""
    ledger.assume_word(
        "spread of the draws",
        f"where no tolerance is written: rotor {ROTOR:.0%}, driven inertia {DRIVEN:.0%}, stiffness "
        f"{COMPUTED_STIFFNESS:.0%}, damping {DAMPING:.0%}, lash {DIAL * 1e3:g} mm",
        "two standard deviations each; a stiffness good to a fifth is a natural frequency good to a tenth",
    )
