"""A torque rise as controllers say it, and rounded to what one can set."""

import math
from dataclasses import dataclass
from typing import Literal

from torqcheck.scenario.schema import Motor

__all__ = ["Language", "Rise", "language_of", "rounded_down", "rounded_up", "settable"]

Language = Literal["torque_rise", "rise_time", "percent_per_10ms"]
DIGITS = 2
SLACK = 1e-9
"""Share of a value by which rounding may not be carried over an edge."""
TEN_MILLISECONDS = 0.010


@dataclass(frozen=True, slots=True)
class Rise:
    """One rise of the motor torque in its three forms; `torque_rise` in N m/s may be infinite."""

    torque_rise: float
    peak_torque: float

    @property
    def rise_time(self) -> float:
        """From zero to the peak torque, s."""
        return self.peak_torque / self.torque_rise

    @property
    def percent_per_10ms(self) -> float:
        """Percent of the peak torque in 10 ms."""
        return 100.0 * TEN_MILLISECONDS * self.torque_rise / self.peak_torque


def language_of(motor: Motor) -> Language:
    """The form in which the scenario gives the rise."""
    if motor.rise_time is not None:
        return "rise_time"
    return "torque_rise" if motor.torque_rise is not None else "percent_per_10ms"


def settable(torque_rise: float, peak_torque: float, language: Language) -> float:
    """Largest rise not above this one that has two digits in the form of the controller, N m/s."""
    rise = Rise(torque_rise, peak_torque)
    if language == "rise_time":
        return peak_torque / rounded_up(rise.rise_time)
    if language == "percent_per_10ms":
        return rounded_down(rise.percent_per_10ms) / 100.0 * peak_torque / TEN_MILLISECONDS
    return rounded_down(torque_rise)


def rounded_down(value: float, digits: int = DIGITS) -> float:
    """
    Keep two digits and drop the rest.

    Examples
    --------
    >>> rounded_down(2161.9), rounded_down(0.0439), rounded_down(2200.0)
    (2100.0, 0.043, 2200.0)
    """
    return _rounded(value, -1.0, digits)


def rounded_up(value: float, digits: int = DIGITS) -> float:
    """
    Keep two digits, the last one larger by one if anything is dropped.

    Examples
    --------
    >>> rounded_up(0.0439), rounded_up(0.1), rounded_up(995.0)
    (0.044, 0.1, 1000.0)
    """
    return _rounded(value, 1.0, digits)


def _rounded(value: float, direction: float, digits: int) -> float:
    """Round towards or away from zero, to a decimal that prints as such."""
    power = math.floor(math.log10(value)) - digits + 1
    share = value / 10.0**power
    whole = math.floor(share * (1.0 + SLACK)) if direction < 0.0 else math.ceil(share * (1.0 - SLACK))
    return float(f"{whole}e{power}")
