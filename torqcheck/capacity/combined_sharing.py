"""Load of every tooth along its length: spacing errors, an axis off its centre, tilt and twist at once.

One balance instead of a product of factors: where few teeth carry, the shafts have more length to
twist over, and a tooth that stands proud does not also carry the largest load along its length.
"""

import math
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from torqcheck._types import FloatArray, Numeric
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.errors import DomainError
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source

__all__ = ["SharedLoad", "shared_load"]

BALANCE = Source("Teeth as springs with clearances between two members that twist", "", "derived")
LEAST_PLACES, MOST_PLACES = 9, 33
"""Places along the length at which the approach is solved: more where it bends more, over long teeth."""
LEAST_LAG = 0.01
"""Below it the twist changes the load by less than 4e-5, and above it the balance keeps its digits."""
MOST_STEPS, CLOSE = 60, 1e-7
LEAST_BEND, STRAIGHT = 1e-9, 1e-3
"""Half the bend over a part: the least that is divided by, and that up to which a part counts as straight."""


@dataclass(frozen=True, slots=True)
class SharedLoad:
    """How the teeth of a joint share its load. Arrays of the shape of the cases.

    `peak` is the largest load per length anywhere over the mean of all teeth and lengths; `first` the
    share of the whole load that the most loaded tooth carries; `contact` the share of the flanks that
    carries anything.
    """

    peak: FloatArray
    first: FloatArray
    contact: FloatArray


@formula(
    "w_i = c max(0, d - c_i + e_i x),  d'' = (B/L)^2 mean(w_i)/c",
    result=Symbol("w_i", "N/m", "load per length of each tooth along it"),
    source=BALANCE,
    deflection=Symbol("q", "m", "deflection of teeth that share evenly, F/(N c L)"),
    clearances=Symbol("c_i", "m", "clearance of each tooth pair along the pitch circle"),
    end_gaps=Symbol("e_i", "m", "what the tilt takes from the clearance of each pair at one end"),
    lag=Symbol("B", "-", "lag parameter of all teeth"),
    leaving_share=Symbol("a", "-", "GJs / (GJs + GJh) if the torque passes through, 0 if it turns back"),
)
def shared_load(
    deflection: Numeric,
    clearances: FloatArray,
    end_gaps: FloatArray,
    lag: float,
    leaving_share: float = 0.0,
) -> SharedLoad:
    """
    Largest load per length, first tooth and contact of a spline, everything uneven at once.

    ::

        w_i = c max(0, d - c_i + e_i x),  d'' = (B/L)^2 mean(w_i)/c          x from -1 to 1 along L

    Parameters
    ----------
    deflection : float or array, m
        q, deflection of the teeth if they shared evenly; broadcasts against the leading axes of the
        clearances.
    clearances : array, m
        c_i, one for each tooth pair along the last axis; errors of spacing and an offset together.
    end_gaps : array, m
        e_i, of the same shape: what the tilt takes from the clearance at one end and adds at the other.
    lag : float, -
        B, from ``lag_parameter`` with all teeth.
    leaving_share : float, -, optional
        a where the torque leaves the hub at the far end; 0 where it leaves at the end where it enters.

    Returns
    -------
    SharedLoad
        Its arrays have the shape of the leading axes.

    Raises
    ------
    DomainError
        If deflection is not above zero, lag is negative, leaving_share is not between 0 and 1, or the
        clearances are not finite or have no axis of teeth.

    Notes
    -----
    The approach d of the two members varies along the engagement by the twist of shaft and hub, which
    the load itself decides: d' = -(B/L)^2 (1 - a) L q where the torque enters and (B/L)^2 a L q at the
    far end. That is the weighting along the length; with even teeth it gives ``same_side_factor`` and
    ``opposite_side_factor``, without twist and errors ``tilt_load_factor``, without twist and tilt
    ``first_tooth_share``. Solved at 9 places or more along the length by Newton's method; between them the
    place where a tooth parts and the bend of the approach are taken in closed form, so that the largest load
    is within 0.05 % up to B = 20. It lies at an end: no load is larger between two places than at both. At
    one tilt a longer engagement may raise it: the contact stays at the end, and there the tilt holds more of
    the other teeth off.
    Not contained: yield, friction, and a shaft that centres itself under load.

    References
    ----------
    .. [1] Derived: equilibrium of two twisting rods with a bed of springs that have clearances.
       Mark: derived.

    Examples
    --------
    Three teeth, 10 and 30 um behind the first, rigid members, no tilt:

    >>> load = shared_load(7.4e-6, np.array([0.0, 10e-6, 30e-6]), np.zeros(3), 0.0)
    >>> print(f"{load.first:.4f}, {load.peak:.4f}")
    0.7252, 2.1757
    """
    require_positive(deflection=deflection)
    require_not_negative(lag=lag, leaving_share=leaving_share)
    if leaving_share > 1.0:
        raise DomainError("leaving_share must be at most 1")
    c = np.asarray(clearances, dtype=np.float64)
    if c.ndim == 0 or c.shape[-1] == 0 or not np.all(np.isfinite(c)):
        raise DomainError("clearances must be finite, one for each tooth pair along the last axis")
    q = np.asarray(deflection, dtype=np.float64)[..., np.newaxis]
    c = c - np.min(c, axis=-1, keepdims=True)  # only differences count
    c, e, _ = np.broadcast_arrays(c / q, np.asarray(end_gaps) / q, q)
    cases = c.shape[:-1]
    teeth = c.shape[-1]
    places = _places(lag)
    gaps = c.reshape(-1, teeth) - e.reshape(-1, teeth) * places[:, np.newaxis, np.newaxis]
    if lag <= LEAST_LAG and not np.any(e):
        # neither twist nor tilt: every place along the length is like the middle
        parts = _Parts(_even_approach(gaps)[..., np.newaxis] - gaps, places, 0.0)
    else:
        parts = _balanced(gaps, places, max(lag, LEAST_LAG) ** 2, leaving_share)
    return SharedLoad(
        peak=parts.forces[[0, -1]].max(axis=(0, 2)).reshape(cases)[()],
        first=(parts.of_each_tooth().max(axis=-1) / teeth).reshape(cases)[()],
        contact=np.sum(parts.span * parts.touching, axis=0).reshape(cases)[()],
    )


def _places(lag: float) -> FloatArray:
    """Places along the length, from -1 to 1, closer together towards the ends: there the load is largest."""
    count = 1 + 2 * math.ceil(min(lag, MOST_PLACES) / 1.5)
    even = np.linspace(-1.0, 1.0, max(LEAST_PLACES, min(count, MOST_PLACES)))
    return 0.5 * (even + np.sin(0.5 * np.pi * even))


class _Parts:
    """
    What the teeth carry over each part of the length between two places, by hat functions.

    A tooth that is pressed at one end of a part and free at the other touches over a part of it that is
    known exactly. The approach itself bends within a part by the load that it carries; for teeth that touch
    all along it is a sum of two exponentials, which ``even`` and ``odd`` account for.

    Parameters
    ----------
    pressed : array
        Approach less gap: places, cases, teeth.
    places : array
        From -1 to 1 along the length.
    twist : float
        Square of the lag parameter.
    """

    def __init__(self, pressed: FloatArray, places: FloatArray, twist: float) -> None:
        self.span = 0.5 * np.diff(places)[:, np.newaxis]
        self.pressed, self.forces = pressed, np.maximum(pressed, 0.0)
        touch = pressed > 0.0
        # where along the flattened parts a tooth lifts off, and on which side it is pressed
        self.at = np.flatnonzero(touch[1:] ^ touch[:-1])
        left, right = pressed[:-1].reshape(-1)[self.at], pressed[1:].reshape(-1)[self.at]
        self.near = left > 0.0
        self.height = np.where(self.near, left, right)
        self.part = self.height / np.abs(left - right)
        self.cell = self.at // pressed.shape[-1]
        count = self._mean(touch)
        self.whole = 0.5 * (count[:-1] + count[1:] - self._gathered(np.ones_like(self.part)))
        self.touching = self.whole + self._gathered(self.part)
        bend = np.sqrt(twist * self.touching) * self.span
        half = np.maximum(0.5 * bend, LEAST_BEND)
        self.even = np.tanh(half) / half
        # where next to nothing bends, the digits of a difference run out
        self.odd = np.where(half < STRAIGHT, 1.0, 3.0 * (1.0 / self.even - 1.0) / half**2)

    def _mean(self, values: npt.NDArray[Any]) -> FloatArray:
        """Mean over the teeth; np.mean is slow over so short an axis."""
        return np.asarray(np.einsum("pct->pc", values.astype(np.float64, copy=False)) / values.shape[-1])

    def _gathered(self, values: FloatArray) -> FloatArray:
        """Sum of what was found where teeth lift off over the teeth of each part, as a mean of all teeth."""
        parts, cases, teeth = len(self.pressed) - 1, self.pressed.shape[1], self.pressed.shape[2]
        found = np.bincount(self.cell, values, minlength=parts * cases) / teeth
        return np.asarray(found.reshape(parts, cases))

    def _sides(self, pressed: FloatArray, free: FloatArray) -> tuple[FloatArray, FloatArray]:
        """The same on the left and on the right, from what it is on the pressed and on the free side."""
        both = self._gathered(pressed + free)
        left = self._gathered(np.where(self.near, pressed, free))
        return left, both - left

    def load(self) -> tuple[FloatArray, FloatArray]:
        """Mean load of the teeth over each part, as its two ends feel it."""
        t, mean = self.part, self._mean(self.forces)
        left, right = self._sides(
            self.height * (t / 2.0 - t**2 / 6.0 - 1.0 / 3.0), self.height * (t**2 / 6.0 - 1.0 / 6.0)
        )
        left = left + (2.0 * mean[:-1] + mean[1:]) / 6.0
        right = right + (mean[:-1] + 2.0 * mean[1:]) / 6.0
        return self._bent(left, right)

    def stiffness(self) -> tuple[FloatArray, FloatArray, FloatArray]:
        """How that load grows with the approach: left by left, right by right, one by the other."""
        t = self.part
        left, right = self._sides((1.0 - (1.0 - t) ** 3) / 3.0, t**3 / 3.0)
        left, right = left + self.whole / 3.0, right + self.whole / 3.0
        other = self._gathered(t**2 / 2.0 - t**3 / 3.0) + self.whole / 6.0
        mean = 0.5 * (left + right)
        own, cross = self._bent(mean, other)
        return left - mean + own, right - mean + own, cross

    def _bent(self, left: FloatArray, right: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Two ends of a part where the approach bends within it."""
        even, odd = 0.5 * self.even * (left + right), 0.5 * self.odd * (left - right)
        return even + odd, even - odd

    def of_each_tooth(self) -> FloatArray:
        """Load of each tooth over the whole length: cases, teeth."""
        carried = 0.5 * (self.forces[:-1] + self.forces[1:])
        touched = np.where(np.minimum(self.forces[:-1], self.forces[1:]) > 0.0, 1.0, 0.0)
        carried.reshape(-1)[self.at] *= self.part
        touched.reshape(-1)[self.at] = self.part
        # what the bend takes is the same for all that touch
        taken = (1.0 - self.even) * self._mean(carried) / np.maximum(self.touching, 1e-300)
        left = np.maximum(carried - taken[..., np.newaxis] * touched, 0.0)
        return np.asarray(np.sum(self.span[..., np.newaxis] * left, axis=0))


def _balanced(gaps: FloatArray, places: FloatArray, twist: float, leaving_share: float) -> _Parts:
    """Balance the members at each place (places, cases), all lengths in even deflections."""
    approach = _even_approach(gaps)
    span = 0.5 * np.diff(places)[:, np.newaxis]
    bond = 1.0 / span  # twist between neighbours, per difference of approach
    entering = np.zeros_like(approach)
    entering[0], entering[-1] = twist * (1.0 - leaving_share), twist * leaving_share
    size = 1.0 + np.max(np.abs(gaps))
    for _ in range(MOST_STEPS):
        parts = _Parts(approach[..., np.newaxis] - gaps, places, twist)
        load_left, load_right = parts.load()
        left, right, cross = parts.stiffness()
        pull = bond * np.diff(approach, axis=0)
        missing = entering.copy()
        missing[:-1] += pull - twist * span * load_left
        missing[1:] -= pull + twist * span * load_right
        own = np.zeros_like(approach)
        own[:-1] += bond + twist * span * left
        own[1:] += bond + twist * span * right
        step = _solved_chain(own, bond - twist * span * cross, missing)
        approach = approach + step
        if np.max(np.abs(step)) <= CLOSE * size:
            break
    return _Parts(approach[..., np.newaxis] - gaps, places, twist)


def _even_approach(gaps: FloatArray) -> FloatArray:
    """Approach at every place without twist and tilt, as in the middle: pairs touch one after the other."""
    c = np.sort(gaps[len(gaps) // 2], axis=-1)
    before = np.arange(1.0, c.shape[-1] + 1.0)
    # each number of pairs in turn; the least approach is the true one
    middle = np.min((c.shape[-1] + np.cumsum(c, axis=-1)) / before, axis=-1)
    return np.broadcast_to(middle, gaps.shape[:2])


def _solved_chain(own: FloatArray, bond: FloatArray, right: FloatArray) -> FloatArray:
    """Solve a chain of places, each bound to its neighbours, for all cases at once."""
    pivot, answer = np.empty_like(own), np.empty_like(right)
    pivot[0], answer[0] = own[0], right[0]
    for i in range(1, len(own)):
        factor = bond[i - 1] / pivot[i - 1]
        pivot[i] = own[i] - factor * bond[i - 1]
        answer[i] = right[i] + factor * answer[i - 1]
    answer[-1] /= pivot[-1]
    for i in range(len(own) - 2, -1, -1):
        answer[i] = (answer[i] + bond[i] * answer[i + 1]) / pivot[i]
    return answer
