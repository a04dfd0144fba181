"""Where the teeth of a shaft that lies off centre may touch the hub, and by how much they clear it.

All lengths in modules of the shaft. The state of the shaft is (x, y, u, c): its two offsets, its turn
as arc u at its own pitch circle, and the clearance c that has been added to s - t.
"""

import math
from typing import NamedTuple

import numpy as np

from torqcheck._types import FloatArray, IntArray
from torqcheck.geometry.involute import involute
from torqcheck.geometry.spline import InvoluteSpline

__all__ = ["Contacts", "Row", "Teeth"]

_SAMPLES = 7  # points along a flank; between them two flanks part by less than 1e-4 modules
_TIP_PARTS = (0.0, 0.5)  # points of a tip between its corners, in parts of its half-width
_LAND_PARTS = (-1.0, -0.5, 0.0, 0.5, 1.0)
_MARGIN = 0.05  # modules beyond the deepest overlap within which a flank is sampled
_NO_RATE = 1e-9  # modules, and modules for each module of clearance
_ROUNDS = 6  # of the need, which is all but straight in c


class Row(NamedTuple):
    """A gap of each point, negative where the parts overlap, and its gradient in the state."""

    value: FloatArray
    gradient: FloatArray  # a row for each of the four parts of the state


class Teeth:
    """The teeth of the shaft or the spaces of the hub: involutes from one base circle, in modules.

    `added` is the share of the added clearance, in rad for one module of c, by which each flank turns.
    """

    def __init__(
        self, spline: InvoluteSpline, width: float, tip: float, root: float, share: float, scale: float
    ) -> None:
        self.teeth = spline.teeth
        self.pitch = 2.0 * math.pi / spline.teeth
        self.base = 0.5 * spline.base_diameter / scale
        self.tip = 0.5 * tip / scale
        self.root = 0.5 * root / scale
        self.added = share / (spline.pitch_diameter / scale)
        self._at_base = width / spline.pitch_diameter + float(involute(spline.pressure_angle))

    def half_angle(self, radius: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Return the polar half-width of tooth or space, radial below the base circle, and its slope."""
        tangent = np.sqrt(np.maximum((radius / self.base) ** 2 - 1.0, 0.0))
        return self._at_base - tangent + np.arctan(tangent), -tangent / radius

    def flank_gap(
        self, place: "_Place", tooth: FloatArray, side: FloatArray, clearance: float, inside: bool
    ) -> Row:
        """Distance of points along the normal to a flank, counted as clear inside a space or outside a tooth.

        Involutes of one base circle are parallel curves: to turn one by an angle moves it by the
        base radius times that angle along every normal. Below the base circle the flank is radial,
        and the arc is taken.
        """
        sense = 1.0 if inside else -1.0
        half, slope = self.half_angle(place.radius)
        angle = (place.angle - tooth * self.pitch + np.pi) % (2.0 * np.pi) - np.pi
        free = sense * (half - side * angle) + self.added * clearance
        arm = np.minimum(place.radius, self.base)
        gradient = arm * sense * (slope * place.radius_gradient - side * place.angle_gradient)
        gradient += np.where(place.radius < self.base, free, 0.0) * place.radius_gradient
        gradient[3] += arm * self.added
        return Row(arm * free, gradient)


class _Points(NamedTuple):
    """Points of the teeth: radius, part of the half-width, flank that is asked (+1, -1), tooth."""

    radius: FloatArray
    part: FloatArray
    side: FloatArray
    tooth: IntArray


class _Place(NamedTuple):
    """Where points stand seen from the other member's axis, and how that changes with the state."""

    radius: FloatArray
    angle: FloatArray
    radius_gradient: FloatArray
    angle_gradient: FloatArray


def _points(teeth: int, radius: FloatArray, tip: float, tip_parts: tuple[float, ...]) -> _Points:
    """Return the points of both flanks of every tooth, and those of its tip, asked for the nearer flank."""
    one = np.concatenate((radius, np.full(len(tip_parts), tip)))
    part = np.concatenate((np.ones(radius.size), tip_parts))
    both = np.concatenate((part, -part))
    side = np.repeat((1.0, -1.0), one.size)
    return _Points(
        np.tile(one, 2 * teeth),
        np.tile(both, teeth),
        np.tile(side, teeth),
        np.repeat(np.arange(teeth), 2 * one.size),
    )


class Contacts:
    """Every pair of features that may touch, evaluated for a state of the shaft."""

    def __init__(self, shaft: InvoluteSpline, hub: InvoluteSpline, shaft_share: float) -> None:
        scale = shaft.module
        outer, inner = shaft.external, hub.internal
        self.scale = scale
        self.shaft = Teeth(
            shaft, shaft.tooth_thickness, outer.major_diameter, outer.minor_diameter, shaft_share, scale
        )
        self.hub = Teeth(
            hub, hub.space_width, inner.minor_diameter, inner.major_diameter, 1.0 - shaft_share, scale
        )
        self.pitch_radius = 0.5 * shaft.pitch_diameter / scale
        self.limit = min(self.hub.root - self.shaft.tip, self.hub.tip - self.shaft.root)
        reach = max(self.limit, 0.0) + _MARGIN
        low, high = max(self.shaft.root, self.hub.tip - reach), min(self.hub.root, self.shaft.tip + reach)
        on_tooth = np.linspace(min(low, self.shaft.tip), self.shaft.tip, _SAMPLES)
        self._on_shaft = _points(shaft.teeth, on_tooth, self.shaft.tip, _TIP_PARTS)
        # a point of the hub belongs to the space that some tooth of the shaft lies in
        in_space = np.linspace(self.hub.tip, max(high, self.hub.tip), _SAMPLES)
        self._on_hub = _points(shaft.teeth, in_space, self.hub.tip, (0.0,))
        self._tips = np.flatnonzero(self._on_shaft.radius >= self.shaft.tip * (1.0 - 1e-12))

    def edge(self) -> float:
        """Added clearance at which the tips of one member are worn to an edge."""
        shaft = float(self.shaft.half_angle(np.asarray(self.shaft.tip))[0])
        land = 0.5 * self.hub.pitch - float(self.hub.half_angle(np.asarray(self.hub.tip))[0])
        ends = [
            angle / added
            for angle, added in ((shaft, self.shaft.added), (land, self.hub.added))
            if added > 0.0
        ]
        return min(ends)

    def rows(self, state: FloatArray) -> tuple[Row, Row, Row]:
        """
        Gaps of all contacts in one state.

        Returns
        -------
        tuple
            Gaps along the flanks; gaps along the radius of the same points, which need no gap along
            the flank where they have one along the radius; gaps between tips and roots.
        """
        space = self._nearest_space(state)
        on_shaft, tips = self._shaft_points_in_hub(state, space)
        on_hub = self._hub_points_on_shaft(state, space)
        flank = tuple(np.concatenate(parts, axis=-1) for parts in zip(on_shaft[0], on_hub[0], strict=True))
        radial = tuple(np.concatenate(parts, axis=-1) for parts in zip(on_shaft[1], on_hub[1], strict=True))
        lands = self._hub_tips_over_root(state)
        roots = tuple(np.concatenate(parts, axis=-1) for parts in zip(tips, lands, strict=True))
        return Row(*flank), Row(*radial), Row(*roots)

    def need(self, state: FloatArray, rounds: int = _ROUNDS) -> float:
        """
        Added clearance at which the shaft, in this place, just clears the flanks of the hub.

        Infinite where no clearance does it, minus infinite where no flanks face each other. Newton's
        method; one round is good enough to compare places.
        """
        state = np.array(state, dtype=np.float64)
        for _ in range(rounds):
            flank, radial, _ = self.rows(state)
            facing = radial.value < 0.0
            gap, rate = flank.value[facing], flank.gradient[3, facing]
            # worn flanks do not move the middle of a tip
            if np.any((rate <= _NO_RATE) & (gap < -_NO_RATE)):
                return math.inf
            if not np.any(rate > _NO_RATE):
                return -math.inf
            step = float(np.max(-gap[rate > _NO_RATE] / rate[rate > _NO_RATE]))
            state[3] += step
            if abs(step) < 1e-10:
                break
        return float(state[3])

    def touching(self, state: FloatArray, within: float) -> IntArray:
        """Numbers of the shaft's teeth that clear a flank of the hub by no more than `within`."""
        flank, radial, _ = self.rows(state)
        tooth = np.concatenate((self._on_shaft.tooth, self._on_hub.tooth))
        return np.unique(tooth[np.maximum(flank.value, radial.value) <= within])

    def _turn(self, state: FloatArray) -> float:
        return float(state[2]) / self.pitch_radius

    def _nearest_space(self, state: FloatArray) -> FloatArray:
        """Return for each tooth of the shaft the space of the hub that its tip points to."""
        angle = np.arange(self.shaft.teeth) * self.shaft.pitch + self._turn(state)
        x, y = state[0] + self.shaft.tip * np.cos(angle), state[1] + self.shaft.tip * np.sin(angle)
        return np.asarray(np.rint(np.arctan2(y, x) / self.hub.pitch))

    def _shaft_points_in_hub(self, state: FloatArray, space: FloatArray) -> tuple[tuple[Row, Row], Row]:
        points = self._on_shaft
        half, _ = self.shaft.half_angle(points.radius)
        spread = points.part * self.shaft.added
        angle = points.tooth * self.shaft.pitch + self._turn(state) + points.part * half - spread * state[3]
        cosine, sine = points.radius * np.cos(angle), points.radius * np.sin(angle)
        one, none = np.ones_like(angle), np.zeros_like(angle)
        place = _seen(
            (state[0] + cosine, state[1] + sine),
            np.stack((one, none, -sine / self.pitch_radius, sine * spread)),
            np.stack((none, one, cosine / self.pitch_radius, -cosine * spread)),
        )
        flank = self.hub.flank_gap(place, space[points.tooth], points.side, float(state[3]), inside=True)
        radial = Row(self.hub.tip - place.radius, -place.radius_gradient)
        tips = Row(self.hub.root - place.radius[self._tips], -place.radius_gradient[:, self._tips])
        return (flank, radial), tips

    def _hub_points_on_shaft(self, state: FloatArray, space: FloatArray) -> tuple[Row, Row]:
        points = self._on_hub
        half, _ = self.hub.half_angle(points.radius)
        spread = points.part * self.hub.added
        # the middle of a tip lies half a pitch from the middle of the space
        off = np.where(points.part == 0.0, 0.5 * points.side * self.hub.pitch, points.part * half)
        angle = space[points.tooth] * self.hub.pitch + off + spread * state[3]
        place = self._from_shaft(state, points.radius, angle, spread)
        tooth = points.tooth.astype(np.float64)
        flank = self.shaft.flank_gap(place, tooth, points.side, float(state[3]), inside=False)
        return flank, Row(place.radius - self.shaft.tip, place.radius_gradient)

    def _hub_tips_over_root(self, state: FloatArray) -> Row:
        """Return by how much the tips of the hub, corner to corner, clear the shaft's root."""
        part = np.tile(_LAND_PARTS, self.hub.teeth)
        land = 0.5 * self.hub.pitch - float(self.hub.half_angle(np.asarray(self.hub.tip))[0])
        middle = (np.repeat(np.arange(self.hub.teeth), len(_LAND_PARTS)) + 0.5) * self.hub.pitch
        spread = -part * self.hub.added
        angle = middle + part * land + spread * state[3]
        place = self._from_shaft(state, np.full(angle.shape, self.hub.tip), angle, spread)
        return Row(place.radius - self.shaft.root, place.radius_gradient)

    def _from_shaft(
        self, state: FloatArray, radius: FloatArray, angle: FloatArray, spread: FloatArray
    ) -> _Place:
        """Return where points of the hub stand, seen from the shaft and turned with it."""
        cosine, sine = radius * np.cos(angle), radius * np.sin(angle)
        one, none = np.ones_like(angle), np.zeros_like(angle)
        place = _seen(
            (cosine - state[0], sine - state[1]),
            np.stack((-one, none, none, -sine * spread)),
            np.stack((none, -one, none, cosine * spread)),
        )
        place.angle_gradient[2] -= 1.0 / self.pitch_radius
        return place._replace(angle=place.angle - self._turn(state))


def _seen(at: tuple[FloatArray, FloatArray], x_gradient: FloatArray, y_gradient: FloatArray) -> _Place:
    """Return points in polar form, with gradients."""
    x, y = at
    radius = np.hypot(x, y)
    return _Place(
        radius,
        np.arctan2(y, x),
        (x * x_gradient + y * y_gradient) / radius,
        (x * y_gradient - y * x_gradient) / radius**2,
    )
