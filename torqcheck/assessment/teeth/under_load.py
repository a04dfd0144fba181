"""How unevenly the teeth of one joint carry its torque: spacing, offset, tilt and twist at once."""

import math
from dataclasses import dataclass, field, replace
from typing import NamedTuple

import numpy as np

from torqcheck.assessment.bench.play_notes import allowed_play
from torqcheck.assessment.teeth.first_tooth import teeth_of
from torqcheck.assessment.teeth.load_distribution import LoadDistribution
from torqcheck.assessment.teeth.state import SplineState
from torqcheck.capacity import (
    TOOTH_STIFFNESS,
    drawn_clearances,
    lag_parameter,
    off_centre_clearance,
    opposite_side_factor,
    same_side_factor,
    shared_load,
    spline_mesh_stiffness,
    tilt_load_factor,
    tilt_parameter,
    torsional_stiffness,
)
from torqcheck.draws import SEED
from torqcheck.scenario.ledger import Ledger

__all__ = ["TeethUnderLoad", "teeth_under_load"]

LEAST_DRAWS, MOST_DRAWS, MOST_NUMBERS = 30, 200, 6000
"""Draws, and draws times teeth. 200 draws know their 95th percentile to about 3 percent."""
SHARES = (50.0, 95.0)
STEP = 1.25
"""Torques of which the teeth are drawn stand apart by this factor; between them one goes straight, 1.2
percent off at most."""
USUAL_HUB = 1.5
"""Outside over inside diameter of a hub whose outside was not read."""


class _Node(NamedTuple):
    """Logarithm of the largest load per length, first tooth (median, 95th percentile), contact (median)."""

    line_load: tuple[float, float]
    first: tuple[float, float]
    contact: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TeethUnderLoad:
    """What the uneven load of one joint rests on. SI. Torques that were drawn once are kept.

    `off_centre` is the distance of the axes, `lag` that of all teeth, `shaft_share` that of the shaft
    in the rigidity of both.
    """

    state: SplineState
    index_sigma: float
    off_centre: float
    lag: float
    shaft_share: float
    take_off: str
    draws: int
    crowned: bool = False
    _known: dict[int, _Node] = field(default_factory=dict, repr=False, compare=False)

    def known_from(self, other: "TeethUnderLoad") -> "TeethUnderLoad":
        """The same teeth, with what was drawn for others where those share their load alike."""
        alike = self._sharing() == other._sharing()
        return replace(self, _known=other._known) if alike else self

    def _sharing(self) -> tuple[object, ...]:
        """Everything that the draws depend on."""
        state = self.state
        sizes = state.pitch_diameter, state.spline.teeth, state.engagement, state.spline.pressure_angle
        lag = self.lag, self.shaft_share, self.take_off
        errors = self.index_sigma, self.off_centre, state.tilt.angle, self.crowned, self.draws
        return *sizes, *lag, *errors

    def at(self, torque: float) -> LoadDistribution:
        """Distribution of a torque above zero."""
        state, position = self.state, math.log(torque) / math.log(STEP)
        below = math.floor(position)
        part = position - below
        low, high = self._nodes(below)
        loads = [math.exp(a + part * (b - a)) for a, b in zip(low.line_load, high.line_load, strict=True)]
        first = [a + part * (b - a) for a, b in zip(low.first, high.first, strict=True)]
        mean = self._mean_line_load(torque)
        eta = tilt_parameter(
            state.tilt.angle, state.engagement, mean, TOOTH_STIFFNESS, state.spline.pressure_angle
        )
        through = self.take_off == "opposite side"
        return LoadDistribution(
            torque=torque,
            teeth=state.spline.teeth,
            line_load=(loads[0], loads[1]),
            first=(first[0], first[1]),
            peak=(loads[0] / mean, loads[1] / mean),
            contact=low.contact + part * (high.contact - low.contact),
            axial=float(
                opposite_side_factor(self.lag, self.shaft_share) if through else same_side_factor(self.lag)
            ),
            tilt=float(tilt_load_factor(eta)),
            take_off=self.take_off,
            length=state.engagement,
            off_centre=self.off_centre,
            index_sigma=self.index_sigma,
            draws=self.draws,
            seed=SEED,
        )

    def _mean_line_load(self, torque: float) -> float:
        """Load per length if all teeth shared evenly."""
        state = self.state
        return 2.0 * torque / (state.pitch_diameter * state.spline.teeth * state.engagement)

    def _nodes(self, below: int) -> tuple[_Node, _Node]:
        """The drawn torques on either side."""
        wanted = [node for node in (below, below + 1) if node not in self._known]
        if wanted:
            self._known.update(zip(wanted, self._drawn([STEP**node for node in wanted]), strict=True))
        return self._known[below], self._known[below + 1]

    def _drawn(self, torques: list[float]) -> list[_Node]:
        """Draw errors and directions, the same for all torques, and balance the teeth."""
        state = self.state
        teeth, slant = state.spline.teeth, state.spline.pressure_angle
        amplitude = off_centre_clearance(self.off_centre, slant, 0.5 * np.pi)
        clearances = drawn_clearances(teeth, self.index_sigma, amplitude, draws=self.draws, seed=SEED)
        start = np.random.default_rng(SEED + 1).uniform(0.0, 2.0 * np.pi, (self.draws, 1))
        around = np.sin(start + 2.0 * np.pi / teeth * np.arange(teeth))
        gap = off_centre_clearance(0.5 * state.engagement * math.tan(state.tilt.angle), slant, 0.5 * np.pi)
        mean = np.array([self._mean_line_load(torque) for torque in torques])
        # a crown bears at one place: neither tilt nor twist makes its load uneven along the tooth
        load = shared_load(
            mean[:, np.newaxis] / TOOTH_STIFFNESS,
            clearances,
            (0.0 if self.crowned else gap) * around,
            0.0 if self.crowned else self.lag,
            self.shaft_share if self.take_off == "opposite side" else 0.0,
        )
        lines, shares = (
            np.percentile(field, SHARES, axis=-1).T
            for field in (np.log(mean[:, np.newaxis] * load.peak), load.first)
        )
        return [
            _Node((float(line[0]), float(line[1])), (float(share[0]), float(share[1])), float(touching))
            for line, share, touching in zip(lines, shares, np.median(load.contact, axis=-1), strict=True)
        ]


def teeth_under_load(state: SplineState, ledger: Ledger) -> TeethUnderLoad:
    """
    Assume what the uneven load of the teeth rests on, and write it down; nothing is drawn yet.

    Parameters
    ----------
    state : SplineState
        The joint.
    ledger : Ledger
        Takes the assumptions.
    """
    size = state.pitch_diameter, state.spline.teeth, state.engagement
    shaft = float(torsional_stiffness(state.root_diameter, state.engagement, state.bore))
    hub = float(
        torsional_stiffness(_hub_outside(state, ledger), state.engagement, state.internal_major_diameter)
    )
    lag = float(lag_parameter(spline_mesh_stiffness(*size, 1.0), shaft, hub))
    return TeethUnderLoad(
        state=state,
        index_sigma=teeth_of(state, ledger).index_sigma,
        off_centre=_off_centre(state, ledger),
        lag=lag,
        shaft_share=shaft / (shaft + hub),
        take_off=_take_off(state, ledger),
        draws=max(LEAST_DRAWS, min(MOST_DRAWS, MOST_NUMBERS // state.spline.teeth)),
    )


def _hub_outside(state: SplineState, ledger: Ledger) -> float:
    """Outside diameter of the hub; that of a usual one where it was not read."""
    inside = state.internal_major_diameter
    if state.outside_diameter is not None:
        return max(state.outside_diameter, 1.01 * inside)
    return ledger.assume(
        f"{state.key}.internal.outside_diameter (stiffness)",
        USUAL_HUB * inside,
        "length",
        "not read: for the load along the teeth a hub of 1.5 times its inside diameter",
    )


def _off_centre(state: SplineState, ledger: Ledger) -> float:
    """Distance of the axes under load: half the radial play, if something holds the shaft there."""
    joint = state.joint
    if joint.nose_supported is False and joint.seat == "flexible":
        return 0.0  # the play is taken up by the rocking, which stands in the tilt
    if joint.seat == "fixed":
        return 0.0 if joint.radial_play is None else 0.5 * joint.radial_play.value
    play = allowed_play(state, state.lash.clearance) if joint.radial_play is None else joint.radial_play.value
    return ledger.assume(
        f"{state.key}.off_centre",
        0.5 * play,
        "length",
        "for the first tooth: the shaft is held off centre by half its radial play, by bearings or a pilot; "
        "free to move, it centres itself under load",
        band=(0.0, 0.5 * play),
        favourable=0.0,
    )


def _take_off(state: SplineState, ledger: Ledger) -> str:
    """End of the hub at which its torque leaves; the harder case where it is not known."""
    if state.joint.take_off is not None:
        return state.joint.take_off
    word = ledger.assume_word(
        f"{state.key}.take_off",
        "same side",
        "not stated; the harder case: the torque leaves the hub at the end where the shaft enters. Through a "
        "sleeve it leaves at the other end, and the load along the teeth is more even",
    )
    return "opposite side" if ledger.outlook == "favourable" else word
