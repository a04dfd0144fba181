"""From what is not known exactly to an interval for each safety factor, and the chance of falling below 1."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from torqcheck._types import BoolArray, FloatArray
from torqcheck.assessment.prepared import Prepared
from torqcheck.assessment.ranges.responses import (
    Key,
    Responses,
    along,
    checks_under,
    logarithms,
    responses_of,
)
from torqcheck.assessment.ranges.uncertain import uncertain_of
from torqcheck.assessment.torque.drawn_blows import DrawnTorques, drawn_torques
from torqcheck.scenario.bands import deviations
from torqcheck.scenario.usual import (
    CALIPER,
    COMPUTED_STIFFNESS,
    DAMPING,
    DIAL,
    DRIVEN,
    OVER_PINS,
    ROTOR,
    TORQUE,
)

__all__ = ["HIGH", "LOW", "SEED", "Factors", "Interval", "Spread", "latin_draws", "spread_of"]

SEED = 20_260_704
DRAWS = 4096
BLOWS, BLOWS_WITH_SLIP = 1024, 512
"""So many draws differ in the blow; each is used several times with other draws of the rest."""
LOW, HIGH = 0.05, 0.95
TORQUE_NODES = 8
"""Torques at which the checks of a joint are evaluated, between the smallest and the largest draw."""


@dataclass(frozen=True, slots=True)
class Interval:
    """What the draws say of one safety factor."""

    p5: float
    p95: float
    chance_below_one: float


@dataclass(frozen=True, slots=True)
class Factors:
    """
    Safety factors as a function of the deviations of all uncertain values.

    The blow is followed exactly. Everything else enters by the responses: each is a broken line in
    the logarithm of the safety factor, and they add.
    """

    responses: Responses

    def torques(self, deviations: FloatArray) -> DrawnTorques:
        """Steady and peak torques at the joints: one row for each uncertain value, one column per draw."""
        given = self.responses
        return drawn_torques(given.prepared, given.path_at(deviations))

    def at(self, deviations: FloatArray, blows: int | None = None) -> FloatArray:
        """
        Safety factors of all checks: one row each, in the order of the keys; one column per draw.

        Parameters
        ----------
        deviations : array
            One row for each uncertain value.
        blows : int, optional
            What moves the blow repeats itself after so many draws.
        """
        given = self.responses
        count = deviations.shape[1]
        blows = count if blows is None else blows
        torques = self.torques(deviations[:, :blows])
        under = _under_torques(given, torques)
        result = np.tile(under, (1, count // blows))
        for response, z in zip(given.each, deviations, strict=True):
            touched = np.flatnonzero(np.any(response.checks != 0.0, axis=0))
            if touched.size:
                result[touched] += along(response, response.checks[:, touched], z).T
        return np.asarray(np.exp(result))


def _under_torques(given: Responses, torques: DrawnTorques) -> FloatArray:
    """Logarithm of each safety factor under the torques drawn, all else as stated."""
    rows, place = [], 0
    for index, (steady, peak) in enumerate(zip(torques.steady, torques.peak, strict=True)):
        stated = given.steady[index], given.peaks[index]
        both = np.concatenate((steady, peak, stated))
        nodes = np.unique(np.concatenate((np.geomspace(both.min(), both.max(), TORQUE_NODES), stated)))
        keys = [key for key in given.keys if key[0] == index]
        table = np.array(
            [logarithms(checks_under(given.quiet, index, torque, torque), keys) for torque in nodes.tolist()]
        )
        for column in table.T:
            method = given.keys[place][2]
            factor = given.prepared.application_factor
            torque = _governing(method, factor, steady, peak)
            here = np.interp(np.log(torque), np.log(nodes), column)
            at_stated = np.interp(np.log(_governing(method, factor, *stated)), np.log(nodes), column)
            rows.append(given.stated[place] + here - at_stated)
            place += 1
    return np.array(rows)


def _governing(
    method: str, application_factor: float, steady: FloatArray | float, peak: FloatArray | float
) -> FloatArray:
    """
    Design torque of a check: steady, simulated, or, for the material, the larger of the two.

    For the larger load it is the steady torque that loads the part as much, its factor outside.
    """
    if method == "larger load":
        return np.maximum(steady, np.asarray(peak) / application_factor)
    if method == "guide, tabulated":
        return np.asarray(steady)
    return np.asarray(peak) if method == "guide, simulated" else np.maximum(steady, peak)


@dataclass(frozen=True, slots=True)
class Spread:
    """The draws of all safety factors, and what they say of each."""

    factors: Factors
    intervals: Mapping[Key, Interval]
    deviations: FloatArray
    blows: int
    seed: int

    @property
    def draws(self) -> int:
        """Number of draws."""
        return int(self.deviations.shape[1])


def spread_of(
    prepared: Prepared,
    peaks: tuple[float, ...],
    *,
    usual: bool = True,
    draws: int = DRAWS,
    blows: int | None = None,
    seed: int = SEED,
) -> Spread:
    """
    Draw everything that is not known exactly, and see what becomes of each safety factor.

    Parameters
    ----------
    prepared : Prepared
        The path as stated.
    peaks : tuple of float, N m
        Simulated peak torque at each joint, as stated.
    usual : bool, optional
        Take the usual tolerance of a reading where none is written.
    draws, blows : int, optional
        Number of draws, and how many of them differ in the blow: a part of it without a remainder.
    seed : int, optional
        Of the draws.
    """
    responses = responses_of(prepared, peaks, uncertain_of(prepared, usual=usual))
    factors = Factors(responses)
    if blows is None:
        blows = BLOWS if prepared.path.slip is None else BLOWS_WITH_SLIP
    deviations = _drawn(responses.in_blow, blows, draws // blows, seed)
    found = factors.at(deviations, blows)
    _say_what_was_taken(responses)
    intervals = {
        key: _interval(row)
        for key, row in zip(responses.keys, found, strict=True)
        if not np.any(np.isnan(row))
    }
    return Spread(factors, intervals, deviations, blows, seed)


def _say_what_was_taken(responses: Responses) -> None:
    """Write down the tolerances that were taken where none is written."""
    if all(entry.written or entry.band is not None for entry in responses.uncertain):
        return
    responses.prepared.ledger.assume_word(
        "usual tolerances",
        f"where none is written: torque and its rise {100 * TORQUE:.0f} %, rotor {100 * ROTOR:.0f} %, "
        f"driven inertia {100 * DRIVEN:.0f} %, stiffness {100 * COMPUTED_STIFFNESS:.0f} %, damping "
        f"{100 * DAMPING:.0f} %, caliper {CALIPER * 1e3:g} mm, dial {DIAL * 1e3:g} mm, over pins "
        f"{OVER_PINS * 1e3:g} mm, 1 HRC, and more (`torqcheck influence` lists what counts)",
        "two standard deviations each, for the ranges of the factors; write your own behind the reading, "
        '"+/- 0" if it is exact',
        mark="common practice, no source",
    )


def latin_draws(dimensions: int, count: int, generator: np.random.Generator) -> FloatArray:
    """Standard deviations, each dimension in equal parts of the distribution, the order by chance."""
    parts = deviations((np.arange(count) + 0.5) / count)
    return np.array([generator.permutation(parts) for _ in range(dimensions)]).reshape(dimensions, count)


def _drawn(in_blow: BoolArray, blows: int, times: int, seed: int) -> FloatArray:
    """Draw deviations; what moves the blow repeats itself, what does not is drawn anew each time."""
    generator = np.random.default_rng(seed)
    result = latin_draws(in_blow.size, blows * times, generator)
    result[in_blow] = np.tile(latin_draws(int(in_blow.sum()), blows, generator), (1, times))
    return result


def _interval(row: FloatArray) -> Interval:
    low, high = np.quantile(row, (LOW, HIGH))
    return Interval(float(low), float(high), float(np.mean(row < 1.0)))
