"""How the flanks of one joint wear down: depth against exposure, with what wear does to itself.

A course holds the medians. Every draw runs through the same course, only faster or slower, because
lubricant, slip and load act on both members and in every state of wear alike; so the course is
computed once, and thousands of draws read it.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from torqcheck._types import FloatArray, Numeric
from torqcheck.checks import Member
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.errors import DomainError

__all__ = ["CELLS", "Course", "DepthRates", "HardLayer", "wear_course"]

CELLS = 60
"""Steps of a course."""
GAUSS_NODES = np.array([0.5 - 0.15**0.5, 0.5, 0.5 + 0.15**0.5])
GAUSS_WEIGHTS = np.array([5.0, 8.0, 5.0]) / 18.0


@dataclass(frozen=True, slots=True, kw_only=True)
class DepthRates:
    """Median depth worn per hour from the flanks of each member, m/h."""

    external: float
    internal: float

    def of(self, member: Member) -> float:
        """Rate of one member, or of both together."""
        if member == "both":
            return self.external + self.internal
        return self.external if member == "external" else self.internal


@dataclass(frozen=True, slots=True, kw_only=True)
class HardLayer:
    """A hard layer on one member: its depth, m, and how much faster the core under it wears."""

    depth: float
    core_over_layer: float


@dataclass(frozen=True, slots=True)
class Course:
    """Worn depths, m, against exposure, h at median rates with the lubricant working."""

    exposure: FloatArray
    external: FloatArray
    internal: FloatArray

    @property
    def total(self) -> FloatArray:
        """Depths of both members together, m."""
        return self.external + self.internal

    def of(self, member: Member) -> FloatArray:
        """Depth of one member, or of both together."""
        if member == "both":
            return self.total
        return self.external if member == "external" else self.internal

    def exposure_at(self, member: Member, depth: Numeric) -> FloatArray:
        """
        Exposure at which a depth is reached, h; inf for a member that does not wear, or not so far.

        Parameters
        ----------
        member : str
            "external", "internal", or "both" for the sum of their depths.
        depth : float or array, m
            Worn from the flanks.
        """
        depths = self.of(member)
        if depths[-1] <= 0.0:
            return np.full(np.shape(depth), np.inf)
        found = np.interp(depth, depths, self.exposure)
        return np.asarray(np.where(np.greater(depth, depths[-1] * (1.0 + 1e-12)), np.inf, found))

    def total_at(self, exposure: Numeric) -> FloatArray:
        """
        Sum of the depths of both members, m; beyond the end of the course the last one.

        Parameters
        ----------
        exposure : float or array, h
            At median rates with the lubricant working.
        """
        return np.asarray(np.interp(exposure, self.exposure, self.total))


def wear_course(
    *,
    rates: DepthRates,
    deepest: float,
    contact_height: float = np.inf,
    layers: Mapping[Member, HardLayer] | None = None,
    growths: Sequence[float] = (),
    cells: int = CELLS,
) -> Course:
    """
    Follow the flanks of both members down to a depth.

    Parameters
    ----------
    rates : DepthRates
        Median depth per hour of each member in its present state, m/h.
    deepest : float, m
        Sum of both depths at which the course ends.
    contact_height : float, m, optional
        Radial depth of engagement now. The edge of a worn band gives way by about its depth on
        each member, so that the pressure rises as the height falls; inf leaves that out.
    layers : mapping of str to HardLayer, optional
        Hard layers; below one, the member wears as fast as its core.
    growths : sequence of float, 1/m, optional
        Each a share by which the rate rises for each metre of the sum of depths: a shaft end that
        tilts the more the more play it has; blows that wear, as a what-if.
    cells : int, optional
        Steps of equal depth; a layer's end makes one more.

    Returns
    -------
    Course
        Its arrays are read-only.

    Raises
    ------
    DomainError
        If nothing wears, the course would use up the contact height, or a number is out of its range.

    Notes
    -----
    ::

        dX = dH (1 - H/h) / [(v_ext + v_int) (1 + g1 H) (1 + g2 H) ...]

    X exposure, H sum of depths, h contact height, v rates of the present layers, g growths. Each
    step is integrated by three Gauss points, exactly where there is no growth.

    Examples
    --------
    >>> course = wear_course(rates=DepthRates(external=1e-6, internal=1e-6), deepest=1e-4)
    >>> print(f"{course.exposure[-1]:.1f} h")
    50.0 h
    """
    require_positive(deepest=deepest, contact_height=contact_height, cells=cells)
    require_not_negative(external=rates.external, internal=rates.internal, growths=np.array(growths))
    if deepest >= contact_height:
        raise DomainError("the course must end before the contact height is used up")
    if not rates.of("both") > 0.0:
        raise DomainError("nothing wears")
    rows = [(0.0, 0.0, 0.0)]
    for depths, step, speeds in _steps(rates, deepest, layers or {}, cells):
        height = step[0] + step[1]
        middle = sum(depths) + GAUSS_NODES * height
        slowness = 1.0 - middle / contact_height
        for growth in growths:
            slowness = slowness / (1.0 + growth * middle)
        spent = float(np.sum(GAUSS_WEIGHTS * slowness)) * height / (speeds[0] + speeds[1])
        rows.append((rows[-1][0] + spent, depths[0] + step[0], depths[1] + step[1]))
    columns = [np.array(column) for column in zip(*rows, strict=True)]
    for column in columns:
        column.setflags(write=False)
    return Course(*columns)


_Pair = tuple[float, float]


def _steps(
    rates: DepthRates, deepest: float, layers: Mapping[Member, HardLayer], cells: int
) -> Iterator[tuple[_Pair, _Pair, _Pair]]:
    """Depths at the start of each step, the step, and the rates in it, external member first."""
    depths = (0.0, 0.0)
    ends = (_end(layers.get("external")), _end(layers.get("internal")))
    for level in np.linspace(0.0, deepest, cells + 1)[1:].tolist():
        while (left := level - sum(depths)) > 1e-12 * deepest:
            speeds = _speeds(rates, depths, layers)
            total = speeds[0] + speeds[1]
            # a step ends where a layer does
            reach = min(
                [left]
                + [
                    (end - depth) * total / speed
                    for depth, end, speed in zip(depths, ends, speeds, strict=True)
                    if depth < end * (1.0 - 1e-12) and speed > 0.0
                ]
            )
            step = (reach * speeds[0] / total, reach * speeds[1] / total)
            yield depths, step, speeds
            depths = (depths[0] + step[0], depths[1] + step[1])


def _end(layer: HardLayer | None) -> float:
    return np.inf if layer is None else layer.depth


def _speeds(rates: DepthRates, depths: _Pair, layers: Mapping[Member, HardLayer]) -> _Pair:
    """Rates of the layers in which the flanks run now."""
    speeds = []
    for member, rate, depth in (
        ("external", rates.external, depths[0]),
        ("internal", rates.internal, depths[1]),
    ):
        layer = layers.get(member)  # type: ignore[call-overload]
        through = layer is not None and depth >= layer.depth * (1.0 - 1e-12)
        speeds.append(rate * (layer.core_over_layer if through else 1.0))
    return speeds[0], speeds[1]
