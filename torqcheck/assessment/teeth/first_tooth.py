"""The first tooth of a joint under a blow, by random errors of spacing and an axis off its centre."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from torqcheck._types import FloatArray
from torqcheck.assessment.bench.play_result import FirstTooth, Spread
from torqcheck.assessment.teeth.state import SplineState
from torqcheck.capacity import (
    SIX_SIGMA,
    TOOTH_STIFFNESS,
    TOOTH_STIFFNESS_BAND,
    TOOTH_STIFFNESS_SOURCE,
    drawn_clearances,
    first_tooth_share,
    flank_pressure,
    off_centre_clearance,
    pair_clearance_sigma,
)
from torqcheck.draws import SEED
from torqcheck.geometry import ansi_b92_1, iso_4156
from torqcheck.geometry.standards.iso_4156_tolerances import index_variation
from torqcheck.scenario.ledger import Ledger

__all__ = ["TeethOf", "teeth_of"]

MOST_DRAWS = 2000
MOST_NUMBERS = 120_000
"""Draws times teeth, so that splines of very many teeth take no longer."""
USUAL_CLASS = {ansi_b92_1.STANDARD: 5, iso_4156.STANDARD: 5}
UNKNOWN_CLASS = 6
CLOSEST_CLASS, COARSEST_CLASS = 4, 7
_SHARES = (50.0, 95.0)
_PER_MM_AND_UM = 1e-9


@dataclass(frozen=True, slots=True)
class TeethOf:
    """What the sharing between the teeth of one joint rests on. SI."""

    state: SplineState
    index_sigma: float
    draws: int
    seed: int = SEED

    def first_teeth(self, torques: Sequence[float], offsets: Sequence[float]) -> tuple[FirstTooth, ...]:
        """
        First tooth under each torque, the shaft held off centre by the offset that belongs to it.

        Equal errors and directions are drawn for all, so that what differs comes from the arguments.
        """
        shares = self._shares(np.array(torques)[:, None], self._clearances(offsets), TOOTH_STIFFNESS)
        middle, high = np.percentile(shares, _SHARES, axis=-1)
        return tuple(
            self._first_tooth((float(p50), float(p95)), torque)
            for p50, p95, torque in zip(middle, high, torques, strict=True)
        )

    def median_shares(self, torque: float, offset: float) -> Spread:
        """Median share of the first tooth at the ends of the band of the tooth stiffness."""
        ends = np.array(TOOTH_STIFFNESS_BAND)[:, None]
        shares = self._shares(torque, self._clearances([offset]), ends)
        soft, hard = np.median(shares, axis=-1)
        return float(soft), float(hard)

    def _clearances(self, offsets: Sequence[float]) -> FloatArray:
        state = self.state
        amplitude = off_centre_clearance(np.array(offsets), state.spline.pressure_angle, 0.5 * np.pi)
        return drawn_clearances(
            state.spline.teeth, self.index_sigma, amplitude, draws=self.draws, seed=self.seed
        )

    def _shares(
        self, torque: float | FloatArray, clearances: FloatArray, stiffness: float | FloatArray
    ) -> FloatArray:
        """Share of the first tooth in each draw; the stiffness is that of a tooth pair per length."""
        force = 2.0 * torque / self.state.pitch_diameter
        return np.asarray(first_tooth_share(force, clearances, stiffness * self.state.engagement))

    def _first_tooth(self, share: Spread, torque: float) -> FirstTooth:
        state = self.state
        force = 2.0 * torque / state.pitch_diameter
        pressure = None
        if state.crown_height is None:
            # as if each tooth carried as much as the first, N times the share of all teeth together
            even = flank_pressure(
                torque, state.pitch_diameter, state.spline.teeth, state.engagement, state.contact_height
            )
            pressure = tuple(float(even) * state.spline.teeth * part for part in share)
        return FirstTooth(
            share,
            (force * share[0], force * share[1]),
            None if pressure is None else (pressure[0], pressure[1]),
        )


def teeth_of(state: SplineState, ledger: Ledger) -> TeethOf:
    """
    Assume what the sharing of the load between teeth rests on, and write it down.

    Parameters
    ----------
    state : SplineState
        The joint.
    ledger : Ledger
        Takes the assumptions.
    """
    teeth = state.spline.teeth
    fit_class = USUAL_CLASS.get(state.spline.standard, UNKNOWN_CLASS)
    sigma, low, high = (
        float(pair_clearance_sigma(index_variation(teeth, state.pitch_diameter / teeth, of_class)))
        for of_class in (fit_class, CLOSEST_CLASS, COARSEST_CLASS)
    )
    ledger.assume(
        f"{state.key}.index_error",
        sigma,
        "length",
        "for the first tooth: one standard deviation of the clearance of a tooth pair, from the index "
        f"variation of class {fit_class} of ISO 4156 (band: class {CLOSEST_CLASS} to {COARSEST_CLASS}); "
        "wear evens it out",
        band=(low, high),
        mark=SIX_SIGMA.mark,
    )
    soft, hard = (value * _PER_MM_AND_UM for value in TOOTH_STIFFNESS_BAND)
    ledger.assume_word(
        "tooth stiffness",
        f"{TOOTH_STIFFNESS * _PER_MM_AND_UM:g} N/(mm um), band {soft:g} to {hard:g}",
        "for the first tooth: one tooth pair, per length of engagement, load even along it",
        mark=TOOTH_STIFFNESS_SOURCE.mark,
    )
    return TeethOf(state, sigma, max(1, min(MOST_DRAWS, MOST_NUMBERS // teeth)))
