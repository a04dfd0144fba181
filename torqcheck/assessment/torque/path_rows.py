"""The numbers that torques and blow are computed from, lined up in rows: one column for each draw."""

import math
from dataclasses import dataclass

import numpy as np

from torqcheck._types import FloatArray
from torqcheck.assessment.prepared import Prepared
from torqcheck.assessment.torque.blow import Path
from torqcheck.assessment.torque.starts import Start, starts_of

__all__ = ["PathRows", "path_rows"]

FIXED = 5
"""Rows before the driven inertias: driving inertia, damping, slip."""


@dataclass(frozen=True, slots=True)
class PathRows:
    """Values of a path, SI: always the same in the same order for the same scenario, the lash apart."""

    rows: FloatArray
    lash: FloatArray
    inertias: int
    stiffnesses: int
    starts: tuple[Start, ...]

    @property
    def driving_inertia(self) -> FloatArray:
        """Of the motor's side."""
        return np.asarray(self.rows[0])

    @property
    def damping_ratio(self) -> FloatArray:
        """Of the path in contact."""
        return np.asarray(self.rows[1])

    @property
    def slip(self) -> FloatArray:
        """Friction torque driving and braking, and the inertia before it; infinite without a slip element."""
        return np.asarray(self.rows[2:FIXED])

    def driven_inertia(self, index: int) -> FloatArray:
        """One of those that are tried."""
        return np.asarray(self.rows[FIXED + index])

    def stiffness(self, index: int) -> FloatArray:
        """One of those that are tried."""
        return np.asarray(self.rows[FIXED + self.inertias + index])

    def start(self, index: int) -> FloatArray:
        """Peak torque, torque before the rise on the coast flank, rise."""
        first = FIXED + self.inertias + self.stiffnesses + 3 * index
        return np.asarray(self.rows[first : first + 3])

    def load(self, index: int) -> FloatArray:
        """Motor and braking torque at one joint, and what a slip lets through driving and braking."""
        first = FIXED + self.inertias + self.stiffnesses + 3 * len(self.starts) + 4 * index
        return np.asarray(self.rows[first : first + 4])


def path_rows(prepared: Prepared) -> PathRows:
    """Line up the path as it is, in one column."""
    path, loads = prepared.path, prepared.loads
    starts = starts_of(prepared.scenario, loads[path.reference])
    row = [path.driving_inertia, path.damping_ratio, *_slip(path)]
    row += [*path.driven_inertias, *path.stiffnesses]
    for start in starts:
        row += [start.peak_torque, -start.start_torque, start.torque_rise]
    for load in loads:
        row += [load.motor_torque, load.motor_regen_torque, load.slip_torque, load.brake_slip_torque]
    column = np.array(row)[:, None]
    return PathRows(column, np.array([path.lash]), len(path.driven_inertias), len(path.stiffnesses), starts)


def _slip(path: Path) -> tuple[float, float, float]:
    if path.slip is None:
        return math.inf, math.inf, math.inf
    slip = path.slip
    return float(slip.driving_torque), float(slip.braking_torque), float(slip.inertia_before)
