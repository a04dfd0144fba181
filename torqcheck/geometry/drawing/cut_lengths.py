"""Lengths that a drawing needs for the machine: chord error of a flank, run-out of a round cutter."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import refuse
from torqcheck.formulas import Symbol, formula
from torqcheck.geometry._domain import refuse_negative, refuse_unless_positive
from torqcheck.provenance import Source

__all__ = ["cutter_run_out", "involute_chord_error"]

_CHORD = Source("Geometry of the involute", "its tangent turns with the angle of roll", "derived")
_CIRCLE = Source("Geometry of a circle that dips into a shaft", "half the chord", "derived")


@formula(
    "h = rb ((A - t1 - sin(A - t1)) + t1 (1 - cos(A - t1)))",
    result=Symbol("h", "m", "largest distance of the flank from the chord"),
    source=_CHORD,
    base_radius=Symbol("rb", "m", "radius of the base circle"),
    roll_start=Symbol("t1", "rad", "angle of roll at the inner end of a chord of the flank"),
    roll_end=Symbol("t2", "rad", "angle of roll at the outer end of a chord of the flank"),
)
def involute_chord_error(base_radius: Numeric, roll_start: Numeric, roll_end: Numeric) -> Numeric:
    """
    Largest distance between an involute flank and the chord that stands for a piece of it.

    ::

        x(t) = rb (cos t + t sin t), y(t) = rb (sin t - t cos t)
        tan(A) = (y(t2) - y(t1)) / (x(t2) - x(t1))
        h = rb ((A - t1 - sin(A - t1)) + t1 (1 - cos(A - t1)))

    Parameters
    ----------
    base_radius : float or array, m
        rb, radius of the base circle.
    roll_start : float or array, rad
        t1, angle of roll at the inner end: tan of the pressure angle there, 0 at the base circle.
    roll_end : float or array, rad
        t2, angle of roll at the outer end.

    Returns
    -------
    float or array, m
        h, never negative. Shape: the broadcast shape of the arguments.

    Raises
    ------
    DomainError
        If the radius is not above 0, an angle is negative, or the end lies before the start, anywhere.

    Notes
    -----
    Exact: the tangent of an involute at roll t has the direction t, so that the point farthest from a
    chord of direction A is that of roll A. The flank bulges to one side of the chord only. Holds up to
    t = pi, far beyond any spline. NaN in gives NaN out.

    References
    ----------
    .. [1] Geometry of the involute. Mark: derived.

    Examples
    --------
    A chord 0.25 mm long on a flank of 16 mm radius of curvature, about L^2/(8 R):

    >>> error = involute_chord_error(0.0278, 0.571, 0.580)
    >>> print(f"{error * 1e6:.2f} micrometre")
    0.16 micrometre
    """
    refuse_unless_positive(base_radius=base_radius)
    refuse_negative(roll_start=roll_start, roll_end=roll_end)
    refuse(np.less(roll_end, roll_start), "roll_end must not be below roll_start")
    start, end = np.asarray(roll_start, dtype=np.float64), np.asarray(roll_end, dtype=np.float64)
    across = np.cos(end) + end * np.sin(end) - np.cos(start) - start * np.sin(start)
    up = np.sin(end) - end * np.cos(end) - np.sin(start) + start * np.cos(start)
    turned = np.where(np.equal(end, start), 0.0, np.arctan2(up, across) - start)
    height = base_radius * (turned - np.sin(turned) + start * (1.0 - np.cos(turned)))
    return np.maximum(height, 0.0)[()]


@formula(
    "lr = sqrt(h (Dc - h))",
    result=Symbol("lr", "m", "length beyond the full teeth over which a round cutter runs out"),
    source=_CIRCLE,
    tooth_depth=Symbol("h", "m", "depth of the tooth space, along the radius"),
    cutter_diameter=Symbol("Dc", "m", "outside diameter of the hob or milling cutter"),
)
def cutter_run_out(tooth_depth: Numeric, cutter_diameter: Numeric) -> Numeric:
    """
    Length over which a round cutter leaves teeth of less than full depth.

    ::

        lr = sqrt(h (Dc - h))

    Parameters
    ----------
    tooth_depth : float or array, m
        h, depth of the tooth space.
    cutter_diameter : float or array, m
        Dc, outside diameter of the hob or milling cutter.

    Returns
    -------
    float or array, m
        lr. Shape: the broadcast shape of the arguments.

    Raises
    ------
    DomainError
        If an argument is not above 0, or the space is deeper than half the cutter, anywhere.

    Notes
    -----
    The cutter is taken square to the axis; the lead angle of a hob changes it by a few percent. Behind a
    shoulder the whole cutter needs room besides. NaN in gives NaN out.

    References
    ----------
    .. [1] Geometry of the circle. Mark: derived.

    Examples
    --------
    A space 2.2 mm deep, cut with a hob of 63 mm:

    >>> print(f"{cutter_run_out(2.2e-3, 63e-3) * 1e3:.1f} mm")
    11.6 mm
    """
    refuse_unless_positive(tooth_depth=tooth_depth, cutter_diameter=cutter_diameter)
    refuse(
        np.greater(tooth_depth, 0.5 * np.asarray(cutter_diameter)),
        "tooth_depth must not be above half the cutter_diameter",
    )
    return np.sqrt(tooth_depth * (np.asarray(cutter_diameter, dtype=np.float64) - tooth_depth))[()]
