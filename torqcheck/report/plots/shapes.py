"""What the figure of a spline shows, as points in mm: outlines in mesh, worn outlines, circles, pins."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from torqcheck._types import FloatArray
from torqcheck.errors import DomainError
from torqcheck.geometry.drawing.data_block import DataBlock, MeasuredWidth, MemberName
from torqcheck.geometry.drawing.profile import external_profile, internal_profile
from torqcheck.geometry.measuring.pin_choice import PinReading
from torqcheck.geometry.measuring.pins import opposition
from torqcheck.geometry.spline import InvoluteSpline, StraightSpline
from torqcheck.geometry.standards.limits import Band
from torqcheck.geometry.standards.serration import SerrationSpline

__all__ = ["MILLIMETRES", "Shape", "middle", "pin_centre", "shape_of"]

MILLIMETRES = 1e3
POINTS_PER_FLANK = 32


@dataclass(frozen=True, slots=True)
class Shape:
    """What is drawn of a block, mm: outlines with a tooth or space at +y, and the circles by name."""

    teeth: int
    shaft: FloatArray
    bore: FloatArray
    worn_shaft: FloatArray | None
    worn_bore: FloatArray | None
    circles: tuple[tuple[str, float, str], ...]  # name, radius, kind

    @property
    def pitch(self) -> float:
        """Angle from tooth to tooth."""
        return 2.0 * math.pi / self.teeth

    def radii(self) -> tuple[float, float]:
        """Least and largest radius that is drawn."""
        return float(np.hypot(*self.shaft.T).min()), float(np.hypot(*self.bore.T).max())


def middle(band: Band | None, otherwise: float) -> float:
    """Middle of the limits; the basic width where there are none."""
    if band is None or band.minimum is None or band.maximum is None:
        return otherwise
    return 0.5 * (band.minimum + band.maximum)


def _upright(outline: FloatArray) -> FloatArray:
    """Turn an outline so that what lay on +x lies on +y, in mm."""
    return np.column_stack((-outline[:, 1], outline[:, 0])) * MILLIMETRES


def shape_of(block: DataBlock, readings: Mapping[MemberName, MeasuredWidth]) -> Shape:
    """Return outlines and circles of a block."""
    spline = block.spline
    if isinstance(spline, SerrationSpline):
        raise DomainError(f"no figure of {spline.standard}: its exact diameters could not be read")
    if isinstance(spline, StraightSpline):
        return _straight_shape(block, spline)
    return _involute_shape(block, spline, readings)


def _involute_shape(
    block: DataBlock, spline: InvoluteSpline, readings: Mapping[MemberName, MeasuredWidth]
) -> Shape:
    shaft, hub = block.diameters("external"), block.diameters("internal")
    drawn = _with_shaft(spline, block)
    worn = {name: measured.width for name, measured in readings.items()}
    circles = [
        ("major, hub", hub.major_diameter, ""),
        ("form, hub", hub.form_diameter, "form"),
        ("major, shaft", shaft.major_diameter, ""),
        ("pitch", spline.pitch_diameter, "pitch"),
        ("minor, hub", hub.minor_diameter, ""),
        ("form, shaft", shaft.form_diameter, "form"),
        ("base", spline.base_diameter, "base"),
        ("minor, shaft", shaft.minor_diameter, ""),
    ]
    thickness, space = (
        middle(block.thickness, spline.tooth_thickness),
        middle(block.space, spline.space_width),
    )
    return Shape(
        teeth=spline.teeth,
        shaft=_upright(external_profile(drawn, thickness, POINTS_PER_FLANK)),
        bore=_upright(internal_profile(spline, space, POINTS_PER_FLANK)),
        worn_shaft=(
            _upright(external_profile(drawn, worn["external"], POINTS_PER_FLANK))
            if "external" in worn
            else None
        ),
        worn_bore=(
            _upright(internal_profile(spline, worn["internal"], POINTS_PER_FLANK))
            if "internal" in worn
            else None
        ),
        circles=tuple(
            (name, 0.5 * size * MILLIMETRES, kind) for name, size, kind in circles if size is not None
        ),
    )


def _with_shaft(spline: InvoluteSpline, block: DataBlock) -> InvoluteSpline:
    """Return the spline with the shaft's diameters as its fit draws them in."""
    return replace(spline, external=block.diameters("external"))


def _straight_shape(block: DataBlock, spline: StraightSpline) -> Shape:
    """Straight flanks, chamfers left out, every dimension at the middle of its limits."""
    sizes = []
    for limits, width in ((block.external, block.thickness), (block.internal, block.space)):
        major = None if limits is None else limits.major_diameter
        minor = None if limits is None else limits.minor_diameter
        sizes.append(
            (
                0.5 * middle(minor, spline.minor_diameter),
                0.5 * middle(major, spline.major_diameter),
                middle(width, spline.tooth_width),
            )
        )
    circles = (("major", spline.major_diameter, ""), ("minor", spline.minor_diameter, ""))
    return Shape(
        teeth=spline.teeth,
        shaft=_upright(_straight_outline(spline.teeth, *sizes[0])),
        bore=_upright(_straight_outline(spline.teeth, *sizes[1])),
        worn_shaft=None,
        worn_bore=None,
        circles=tuple((name, 0.5 * size * MILLIMETRES, kind) for name, size, kind in circles),
    )


def _straight_outline(teeth: int, inner: float, outer: float, width: float) -> FloatArray:
    """Outline of parallel-sided teeth, tooth 0 on +x, counter-clockwise, m."""
    foot, tip = math.asin(0.5 * width / inner), math.asin(0.5 * width / outer)
    pitch = 2.0 * math.pi / teeth
    angle = np.concatenate(([-foot], np.linspace(-tip, tip, 12), np.linspace(foot, pitch - foot, 24)[:-1]))
    radius = np.concatenate(([inner], np.full(12, outer), np.full(23, inner)))
    around = (angle + pitch * np.arange(teeth)[:, None]).ravel()
    closed = np.tile(radius, teeth)
    return np.column_stack((closed * np.cos(around), closed * np.sin(around)))


def pin_centre(block: DataBlock, pins: PinReading, member: MemberName) -> float:
    """Radius of the pin's centre in the middle of its reading, mm."""
    side = 1.0 if member == "external" else -1.0
    reading = middle(pins.reading, math.nan)
    return float(0.5 * (reading - side * pins.pin) / opposition(block.spline.teeth)) * MILLIMETRES
