"""What is followed from segment to segment: the case, the stretch of load, and the state.

Everything is dimensionless: time in 1/w with w = sqrt(k/mu), torque in the steady torque s Tm, twist
in s Tm/k. Of the eight arguments four numbers remain: damping ratio, lash b k/(s Tm), rise
S/(w Tm), start torque T0/Tm.
"""

from typing import NamedTuple

from torqcheck.shock.arithmetic import Number

__all__ = ["COAST", "CUT", "DRIVE", "ENDLESS", "GAP", "LIVE", "NEVER", "SETTLED", "Case", "State", "Stretch"]

DRIVE, GAP, COAST = 1.0, 0.0, -1.0
"""Modes: the sign is the sign of the torque in the path."""
LIVE, SETTLED, CUT = 0.0, 1.0, 2.0
"""Still being followed, contact closed for good, followed to the horizon without an end."""
NEVER = -1.0
"""Time of something that has not happened."""
ENDLESS = 1e100
"""Length of the plateau: no event is that late, and no intermediate result overflows."""


class Case(NamedTuple):
    """What stays the same in one case."""

    zeta: Number
    omega: Number  # sqrt(1 - zeta^2); not used above critical
    lag: Number  # arcsin(zeta); not used above critical
    lash: Number
    slope: Number  # 0 if the torque is there at once
    start: Number
    ramp_end: Number
    locked: Number  # 1 if the lash is nought or already closed: this contact never opens


class Stretch(NamedTuple):
    """A straight piece of the motor torque, signed so that it presses on the flank in question."""

    load: Number
    slope: Number
    length: Number


class State(NamedTuple):
    """Where one case stands, and what has been recorded of it."""

    mode: Number
    time: Number
    place: Number  # in contact the torque on that flank; in the gap the twist from the coast flank
    rate: Number  # its rate of change
    peak: Number
    peak_at: Number
    least: Number
    closed_at: Number  # NEVER until the gap is first crossed
    closing_speed: Number
    first_blow: Number  # NEVER until it has been seen
    losses: Number
    blows: Number  # since the ramp ended
    end: Number
