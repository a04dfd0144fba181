"""From the exact edge to a value for the drawing or the controller, always to the safe side."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from torqcheck.assessment.ramp.controller import language_of, settable
from torqcheck.assessment.size.unknown import Unknown
from torqcheck.geometry.lengths import INCH
from torqcheck.materials.stock import next_bar, stock_bars
from torqcheck.scenario.schema import Motor
from torqcheck.units import System

__all__ = ["Rounded", "plain_number", "roundings"]

SLACK = 1e-9
"""Of a step: what lies on one is not carried to the next."""
MM = 1e-3
FT_LBF = 0.3048 * 4.4482216152605
MOST_STEPS = 3


@dataclass(frozen=True, slots=True)
class Rounded:
    """One value for the drawing: in SI, and as one writes it."""

    value: float
    text: str


def roundings(unknown: Unknown, edge: float, system: System, motor: Motor) -> Iterator[Rounded]:
    """
    Yield values on the safe side of an edge, the nearest first: up where the smallest is wanted, else down.

    Lengths go to 0.5 mm or 1/32 in, outside diameters to the next bar, a play to 0.01 mm or half a thou (a
    tenth of that where it is small), a tilt to 0.005 deg, a torque to 1 N m or 1 lbf ft, a rise to two
    digits of what the controller is told.
    """
    if unknown.find == "outside-diameter":
        yield from _bars(edge, "metric" if system == "si" else "inch")
    elif unknown.find == "torque-rise":
        peak = motor.boost * motor.peak_torque.value
        rise = settable(edge, peak, language_of(motor))
        yield Rounded(rise, f"{plain_number(rise)} N m/s")
    else:
        step, unit, size = _step(unknown, edge, system)
        sign = 1 if unknown.wanted == "smallest" else -1
        first = math.ceil(edge / step - SLACK) if sign > 0 else math.floor(edge / step + SLACK)
        for extra in range(MOST_STEPS):
            count = first + sign * extra
            if count >= 0:
                yield Rounded(count * step, _shown(count, step, unit, size))


def plain_number(value: float, digits: int = 4) -> str:
    """
    Write a number with so many significant digits and without an exponent.

    Examples
    --------
    >>> plain_number(60000.0), plain_number(513.8712), plain_number(0.0127004)
    ('60000', '513.9', '0.0127')
    """
    if value == 0.0 or not math.isfinite(value):
        return f"{value:g}"
    return f"{round(value, digits - 1 - math.floor(math.log10(abs(value)))):.10g}"


def _bars(edge: float, system: Literal["metric", "inch"]) -> Iterator[Rounded]:
    bar = next_bar(edge, system)
    if bar is None:
        return
    bars = stock_bars(system)
    for other in bars[bars.index(bar) : bars.index(bar) + MOST_STEPS]:
        yield Rounded(other.diameter, other.size)


def _step(unknown: Unknown, edge: float, system: System) -> tuple[float, str, float]:
    """Step in SI, the unit in which it is written, and that unit in SI."""
    inch = system == "inch"
    if unknown.kind == "torque":
        unit = FT_LBF if inch else 1.0
        return (unit if edge > 20.0 else 0.1 * unit), "lbf ft" if inch else "N m", unit
    if unknown.kind == "angle":
        degree = math.radians(1.0)
        return 0.005 * degree, "deg", degree
    unit = INCH if inch else MM
    if unknown.find == "lash":
        step = 0.0005 * INCH if inch else 0.01 * MM
        return (step if edge > 5.0 * step else 0.1 * step), "in" if inch else "mm", unit
    return (INCH / 32.0 if inch else 0.5 * MM), "in" if inch else "mm", unit


def _shown(count: int, step: float, unit: str, size: float) -> str:
    """A rounded value as one writes it; 32nds of an inch as a fraction."""
    if math.isclose(step, INCH / 32.0):
        whole, rest = divmod(count, 32)
        if not rest:
            return f"{whole} in"
        common = math.gcd(rest, 32)
        fraction = f"{rest // common}/{32 // common}"
        return f"{whole} {fraction} in" if whole else f"{fraction} in"
    return f"{count * step / size:.6g} {unit}"
