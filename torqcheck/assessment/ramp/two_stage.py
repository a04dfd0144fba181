"""A setting in two stages: a small torque closes the lash and lets the hammering die, then the slope.

The closing torque starts from the closed form of the first blow, and every candidate is followed
through its whole course by the kernel. What is asked for is robust in time: the rest may be any
longer and the slope any slower, for nobody knows where in the gap the shaft lies when the torque comes.
"""

import math
from dataclasses import dataclass, replace

import numpy as np

from torqcheck._types import FloatArray
from torqcheck.assessment.ramp.cases import Cases, Sample, TwoStage
from torqcheck.assessment.ramp.controller import Language, rounded_down, rounded_up, settable
from torqcheck.assessment.torque.blow import Path
from torqcheck.shock import closing_torque_from_blow

__all__ = ["LEAST_GAIN", "LEAST_SAVING", "Better", "Search", "find_two_stage"]

LEAST_CLOSING = 0.05
"""Of the peak torque: below, drag and cogging of the motor take the closing torque up."""
MOST_CLOSING = 0.8
LEAST_GAIN, LEAST_SAVING = 0.10, 0.010
"""A setting that saves less than this share of the time to full torque, or fewer seconds, brings nothing."""
GRID, COARSE_GRID = (4, 12, 5), (2, 6, 4)
"""Closing torques, rests and slopes; the coarse grid where many driven sides are tried."""
SHORTEST_REST, LONGEST_REST = 1.3, 14.0
"""Rests tried, in closing times at the closing torque."""
SLOPES = 16
NEARLY = 0.99
COARSE, SAFELY = 72, 0.985
"""Draws in the coarse grid."""
LONGER = tuple(np.geomspace(1.0, 3.5, 8).tolist())
SLOWER = (0.85, 0.7, 0.5, 0.3)
MOST_TRIED, MOST_TRIED_OF_MANY, STEEPER = 6, 2, 1.12


@dataclass(frozen=True, slots=True)
class Better:
    """A setting in two stages: N m, s, N m/s at the motor shaft."""

    closing_torque: float
    closing_time: float
    rise: float

    def time_to_peak(self, peak_torque: float) -> float:
        """From rest to full torque, s."""
        return peak_torque / self.rise + self.closing_time


@dataclass(frozen=True, slots=True)
class Search:
    """What is asked: which cases, with which values, in the language of which controller."""

    cases: Cases
    path: Path
    sample: Sample
    share: float
    peak_torque: float
    language: Language

    def demand(self, draws: int, rises: FloatArray, stage: TwoStage) -> FloatArray:
        """Peak over allowed torque: the larger of as stated and at the percentile of the first draws."""
        sample = self.sample.first(draws).after(self.cases.nominal)
        demand = self.cases.demands(sample, rises, stage)
        return np.maximum(demand[:, 0], np.quantile(demand[:, 1:], self.share, axis=1))

    def rounded(self, setting: Better) -> Better:
        """What can be set: a smaller torque, a longer rest, a slower slope."""
        rise = settable(setting.rise, self.peak_torque, self.language)
        return Better(rounded_down(setting.closing_torque), rounded_up(setting.closing_time), rise)


def find_two_stage(search: Search, one_stage: float, fastest: float) -> tuple[Better | None, str]:
    """
    Find the setting with the shortest time to full torque.

    Parameters
    ----------
    search : Search
        What is asked.
    one_stage, fastest : float, N m/s
        What one stage allows, and the fastest slope that a controller is set to.

    Returns
    -------
    tuple
        The setting, or None, and why there is none.
    """
    peak = search.peak_torque
    now = peak / one_stage
    wanted = min(now * (1.0 - LEAST_GAIN), now - LEAST_SAVING)
    if search.path.lash <= 0.0:
        return None, "there is no lash to close first"
    if wanted <= peak / fastest:
        return None, f"one stage reaches full torque in {1e3 * now:.3g} ms already"
    transfer, gentlest = _closing_from_closed_form(search)
    most = min(gentlest, MOST_CLOSING * peak)
    best_slope = _slope_of_closed_lash(search, most * transfer, one_stage, fastest)
    room = wanted - peak / best_slope
    if room <= SHORTEST_REST * _closing_time(search.path, most * transfer):
        return (
            None,
            "the slope sets the limit, not the lash: even with the lash closed it would hardly be steeper",
        )
    torque_count, rest_count, rise_count = GRID if search.cases.few else COARSE_GRID
    rises = np.geomspace(one_stage, best_slope, rise_count + 1)[1:]
    torques = np.geomspace(min(LEAST_CLOSING * peak, most), most, torque_count).tolist()
    likely = [
        search.rounded(setting)
        for torque in torques
        for setting in _coarse(search, torque, transfer, rises, rest_count, room)
    ]
    likely = [setting for setting in likely if setting.time_to_peak(peak) <= wanted]
    likely.sort(key=lambda setting: setting.time_to_peak(peak))
    for setting in likely[: MOST_TRIED if search.cases.few else MOST_TRIED_OF_MANY]:
        if _holds(search, setting):
            steeper = search.rounded(replace(setting, rise=STEEPER * setting.rise))
            return (steeper if _holds(search, steeper) else setting), ""
    return None, (
        f"until the hammering has died away at a closing torque, one stage is nearly there: nothing that was "
        f"tried saves {100 * LEAST_GAIN:.0f} % of the time to full torque and {LEAST_SAVING * 1e3:.0f} ms"
    )


def _closing_time(path: Path, torque: float) -> float:
    """Time in which a constant torque at the reference joint crosses the lash from rest."""
    return math.sqrt(2.0 * path.driving_inertia * path.lash / torque)


def _slope_of_closed_lash(search: Search, torque: float, slowest: float, fastest: float) -> float:
    """Fastest slope that holds once the lash is closed for good under a torque; no rest does better."""
    members = search.cases.members
    closed = replace(members, start_torque=np.minimum(torque, NEARLY * members.peak_torque))
    cases = replace(search.cases, members=closed)
    rises = np.geomspace(slowest, fastest, SLOPES)
    demand = np.quantile(cases.demands(search.sample.first(COARSE), rises), search.share, axis=1)
    failing = np.flatnonzero(demand > 1.0)
    return float(rises[failing[0]] if failing.size else fastest)


def _coarse(
    search: Search, torque: float, transfer: float, rises: FloatArray, rest_count: int, room: float
) -> list[Better]:
    """For one closing torque: the best slope at each rest."""
    closing = _closing_time(search.path, torque * transfer)
    if SHORTEST_REST * closing > room:
        return []
    rests = np.geomspace(SHORTEST_REST * closing, min(LONGEST_REST * closing, room), rest_count)
    stage = TwoStage(torque, np.repeat(rests, rises.size))
    demand = search.demand(COARSE, np.tile(rises, rest_count), stage).reshape(rest_count, rises.size)
    holds = demand <= SAFELY
    # a slope counts if it and every slower one hold at this rest and at every longer one
    slopes = np.minimum.accumulate(np.logical_and.accumulate(holds, axis=1).sum(axis=1)[::-1])[::-1]
    return [
        Better(torque, float(rest), float(rises[slope - 1]))
        for rest, slope in zip(rests, slopes, strict=True)
        if slope
    ]


def _closing_from_closed_form(search: Search) -> tuple[float, float]:
    """Transfer from motor to reference joint, and the closing torque whose first blow is just allowed."""
    members, path = search.cases.members, search.path
    driving = ~members.braking
    transfer = float(members.transfer[driving].max())
    torque = closing_torque_from_blow(
        search.cases.limits.drive,
        path.driving_inertia,
        members.driven_inertia[driving],
        members.stiffness[driving],
        path.lash,
    )
    return transfer, float(np.min(torque)) / transfer


def _holds(search: Search, setting: Better) -> bool:
    """Whether a setting keeps the targets in all draws, with longer rests and with slower slopes too."""
    rests = setting.closing_time * np.append(LONGER, np.ones(len(SLOWER)))
    rises = setting.rise * np.append(np.ones(len(LONGER)), SLOWER)
    stage = TwoStage(setting.closing_torque, rests)
    # the first draws refuse most of those that do not hold
    return all(np.all(search.demand(draws, rises, stage) <= 1.0) for draws in (COARSE, search.sample.size))
