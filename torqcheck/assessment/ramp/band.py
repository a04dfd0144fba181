"""Evenly spread draws of inertia, stiffness, damping and lash for the search of the ramp."""

import numpy as np

from torqcheck._types import FloatArray
from torqcheck.assessment.prepared import Prepared
from torqcheck.assessment.ramp.cases import Sample
from torqcheck.assessment.ranges.responses import Responses, path_responses_of
from torqcheck.assessment.ranges.uncertain import uncertain_of
from torqcheck.draws import evenly_spread
from torqcheck.scenario.bands import deviations
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.usual import COMPUTED_STIFFNESS, DAMPING, DIAL, DRIVEN, ROTOR

__all__ = ["DRAWS", "SEED", "drawn"]

DRAWS = 512
SEED = 20260
LEAST_LASH, NOTHING = 1e-4, 1e-6


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
    responses = path_responses_of(prepared, uncertain_of(prepared))
    reach = _reach(responses)
    z = np.zeros((reach.size, count))
    # what moves the path most takes the coordinates that are spread most evenly
    order = np.argsort(-reach, kind="stable")
    order = order[reach[order] > 0.0]
    if order.size:
        points = evenly_spread(count, order.size, seed)
        z[order] = deviations(points.ravel()).reshape(points.shape)
    _say_what_was_taken(prepared.ledger)
    return _sample(responses, z)


def _sample(responses: Responses, z: FloatArray) -> Sample:
    """The path at some deviations."""
    path, stated, one = responses.path_at(z), responses.path, np.ones(z.shape[1])
    return Sample(
        driving_inertia=path.driving_inertia * one,
        driven_factor=_factor(path.driven_inertia(0), stated.driven_inertia(0)) * one,
        stiffness_factor=_factor(path.stiffness(0), stated.stiffness(0)) * one,
        damping_ratio=path.damping_ratio * one,
        lash=path.lash * one,
    )


def _factor(values: FloatArray, stated: FloatArray) -> FloatArray:
    """Ratio to the value as stated; 1 for a side that is held."""
    return np.ones(values.shape) if np.isinf(stated[0]) else values / stated


def _reach(responses: Responses) -> FloatArray:
    """How far each uncertain value moves inertia, stiffness, damping or lash, roughly, in the logarithm."""
    count = len(responses.each)
    if count == 0:
        return np.zeros(0)
    middle, *ends = (_sample(responses, deviation * np.eye(count)) for deviation in (0.0, 1.0, -1.0))
    found = np.zeros(count)
    for end in ends:
        for column, stated in zip(end.columns, middle.columns, strict=True):
            found = np.maximum(found, np.abs(column - stated) / np.maximum(stated, LEAST_LASH))
    return np.where(found > NOTHING, found, 0.0)


def _say_what_was_taken(ledger: Ledger) -> None:
    """Write down the spread that was taken where no tolerance is written."""
    ledger.assume_word(
        "spread of the draws",
        f"where no tolerance is written: rotor {100 * ROTOR:.0f} %, driven inertia {100 * DRIVEN:.0f} %, "
        f"stiffness {100 * COMPUTED_STIFFNESS:.0f} %, damping {100 * DAMPING:.0f} %, lash {DIAL * 1e3:g} mm",
        "two standard deviations each; a stiffness good to a fifth is a natural frequency good to a tenth",
    )
