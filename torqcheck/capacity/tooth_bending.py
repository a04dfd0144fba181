"""Bending of spline teeth at their root, external and internal, slanted or straight-sided."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._sources import DERIVED
from torqcheck.domain import require_angle, require_not_negative, require_positive
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source

__all__ = ["rack_root_chord", "tooth_root_bending_stress"]

_BENDING = Source("Cantilever of rectangular section; the form of GB/T 17855", "", "from memory")
_CHORD = Symbol("s", "m", "thickness of the tooth at its root")


@formula(
    "sigma = 6 H w / s^2",
    result=Symbol("sigma", "Pa", "bending stress at the root of a tooth"),
    source=_BENDING,
    line_load=Symbol("w", "N/m", "tangential load of a tooth per length"),
    lever_arm=Symbol("H", "m", "height of the load above the root of the tooth"),
    root_chord=_CHORD,
)
def tooth_root_bending_stress(line_load: Numeric, lever_arm: Numeric, root_chord: Numeric) -> Numeric:
    """
    Bending stress at the root of a tooth of a spline, without stress concentration.

    ::

        sigma = 6 H w / s^2

    Parameters
    ----------
    line_load : float or array, N/m
        w, tangential load of the tooth per length: F/(N L) if all teeth and lengths share evenly, and
        more by every factor of uneven sharing.
    lever_arm : float or array, m
        H; the whole depth of the tooth is on the safe side, a flank that bears evenly has about half.
    root_chord : float or array, m
        s.

    Returns
    -------
    float or array, Pa
        sigma, nominal.

    Raises
    ------
    DomainError
        If line_load or lever_arm is negative, or root_chord is not above zero, anywhere.

    Notes
    -----
    Of a load that varies along the tooth the neighbourhood carries part of the peak; that is left out.
    Not contained: notch factor of the fillet, which counts for fatigue and for hard teeth, the
    radial part of the load, which relieves the loaded side, and shear. NaN in gives NaN out.

    References
    ----------
    .. [1] Cantilever; the same form in GB/T 17855-1999. Mark: from memory.

    Examples
    --------
    Lewis' tooth of 30 deg, 2 mm module, loaded at the tip:

    >>> print(f"{tooth_root_bending_stress(100e3, 2.7e-3, 4.87e-3) / 1e6:.1f} MPa")
    68.3 MPa
    """
    require_not_negative(line_load=line_load, lever_arm=lever_arm)
    require_positive(root_chord=root_chord)
    return 6.0 * lever_arm * line_load / np.square(root_chord)


@formula(
    "s = t + 2 b tan(a)",
    result=_CHORD,
    source=DERIVED,
    tooth_thickness=Symbol("t", "m", "tooth thickness along the pitch circle"),
    dedendum=Symbol("b", "m", "depth of the root below the pitch circle"),
    pressure_angle=Symbol("a", "rad", "pressure angle at the pitch diameter"),
)
def rack_root_chord(tooth_thickness: Numeric, dedendum: Numeric, pressure_angle: Numeric) -> Numeric:
    """
    Thickness of an involute tooth at its root, its flanks taken as those of a rack.

    ::

        s = t + 2 b tan(a)

    Parameters
    ----------
    tooth_thickness : float or array, m
        t, along the pitch circle.
    dedendum : float or array, m
        b, from the pitch circle to the root; of internal teeth, outwards.
    pressure_angle : float or array, rad
        a, at the pitch diameter.

    Returns
    -------
    float or array, m
        s.

    Raises
    ------
    DomainError
        If tooth_thickness is not above zero, dedendum is negative, or the angle is a right angle or more.

    Notes
    -----
    For many teeth. Of few external teeth the true root, ``width_at_radius``, is narrower, of few
    internal ones wider. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    Flat root of 30 deg, dedendum 0.75 m, in modules:

    >>> print(f"{rack_root_chord(np.pi / 2, 0.75, np.pi / 6):.3f}")
    2.437
    """
    require_positive(tooth_thickness=tooth_thickness)
    require_not_negative(dedendum=dedendum)
    require_angle(pressure_angle=pressure_angle)
    return tooth_thickness + 2.0 * dedendum * np.tan(np.abs(pressure_angle))
