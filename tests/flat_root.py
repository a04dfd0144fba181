"""A spline of flat-root proportions on whatever pitch its major diameter asks for."""

import math

from torqcheck.geometry import InvoluteSpline, own_spline


def of_major(teeth: int, major: float, unit: float = 1.0) -> InvoluteSpline:
    """Make a 30 degree spline from its teeth and its major diameter in a unit, m if none is given."""
    pitch = major / (teeth + 1.0) * unit
    return own_spline(
        teeth=teeth,
        pressure_angle=math.radians(30.0),
        pitch_diameter=teeth * pitch,
        root_diameter=(teeth - 1.35) * pitch,
        internal_major_diameter=(teeth + 1.35) * pitch,
        tooth_thickness=0.5 * math.pi * pitch,
        contact_height=pitch,
    )
