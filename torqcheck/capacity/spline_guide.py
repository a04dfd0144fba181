"""Bare stresses of an involute spline as the classic spline guide computes them.

None of them holds the application, load-distribution or life factors: the caller multiplies.
Bursting stands in ``bursting``, crowned flanks in ``crowned``, the factors in ``guide_factors``.
"""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._sources import DERIVED, GUIDE, GUIDE_MEMORY
from torqcheck.capacity._symbols import BORE, HEIGHT, LENGTH, PITCH, SHARE, TEETH, TORQUE
from torqcheck.capacity.torsion import torsional_shear_stress
from torqcheck.domain import require_positive, require_share, require_tube
from torqcheck.formulas import Symbol, formula

__all__ = [
    "FIXED_SEAT_DIVISOR",
    "FIXED_SEAT_SOURCE",
    "equal_strength_length",
    "fixed_flank_pressure",
    "flank_pressure",
    "pitch_line_shear_stress",
    "root_shear_stress",
]

FIXED_SEAT_DIVISOR = 9.0
"""Flank pressure of a flexible spline over that which the guide charges to a fixed one."""

FIXED_SEAT_SOURCE = GUIDE_MEMORY
"""Eq 5 against eq 4; a metric reference table has the same 9 as a design factor for sliding under load."""

_ROOT = Symbol("Dre", "m", "root (minor) diameter of the external member")


@formula(
    "Ss = 16 T Dre / (pi (Dre^4 - Dh^4))",
    result=Symbol("Ss", "Pa", "shear stress under the roots of the external teeth"),
    source=GUIDE,
    torque=TORQUE,
    root_diameter=_ROOT,
    bore=Symbol("Dh", "m", "bore of a hollow shaft"),
)
def root_shear_stress(torque: Numeric, root_diameter: Numeric, bore: Numeric = 0.0) -> Numeric:
    """
    Shear stress of the external member under the roots of its teeth, without factors.

    ::

        Ss = 16 T Dre / (pi (Dre^4 - Dh^4))

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    root_diameter : float or array, m
        Dre, root (minor) diameter of the external member.
    bore : float or array, m, optional
        Dh, bore of a hollow shaft; 0 for a solid one.

    Returns
    -------
    float or array, Pa
        Ss. Multiply by the application factor, divide by the fatigue-life factor.

    Raises
    ------
    DomainError
        If root_diameter is not above bore, or bore is negative, anywhere.

    Notes
    -----
    Eqs 1 and 2 of [1]_ without Ka and Kf. A nominal stress: the guide's allowables already hold
    the notch of the root, so that a notch factor must not be multiplied in. The load-distribution
    factor does not belong here. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Machinery's Handbook, Involute Splines, eqs 1 and 2, after D. W. Dudley, When Splines
       Need Stress Control, Product Engineering, 1957. Mark: published.

    Examples
    --------
    >>> print(f"{root_shear_stress(600.0, 0.033) / 1e6:.2f} MPa")
    85.03 MPa
    """
    return torsional_shear_stress(torque, root_diameter, bore)


@formula(
    "Ss = 2 T / (D kz N L t)",
    result=Symbol("Ss", "Pa", "shear stress of the teeth at the pitch line"),
    source=GUIDE,
    torque=TORQUE,
    pitch_diameter=PITCH,
    teeth=TEETH,
    length=LENGTH,
    thickness=Symbol("t", "m", "tooth thickness at the pitch line"),
    loaded_share=SHARE,
)
def pitch_line_shear_stress(
    torque: Numeric,
    pitch_diameter: Numeric,
    teeth: Numeric,
    length: Numeric,
    thickness: Numeric,
    loaded_share: Numeric = 0.5,
) -> Numeric:
    """
    Shear stress of the teeth at the pitch line, without factors.

    ::

        Ss = 2 T / (D kz N L t)          kz = 1/2: 4 T / (D N L t), as the guide prints it

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    pitch_diameter : float or array, m
        D.
    teeth : float or array, -
        N.
    length : float or array, m
        L, effective length of engagement.
    thickness : float or array, m
        t, tooth thickness at the pitch line; pi D/(2 N) less the allowance for standard teeth.
    loaded_share : float or array, -, optional
        kz, share of the teeth that carry load; half by [1]_, a third for poor accuracy (from memory).

    Returns
    -------
    float or array, Pa
        Ss. Multiply by application and load-distribution factors, divide by the fatigue-life factor.

    Raises
    ------
    DomainError
        If a size is not above zero, or loaded_share is not in (0, 1], anywhere.

    Notes
    -----
    Eq 3 of [1]_. The 1957 article prints the thickness as about D/(2 N); a committee answer of
    2018 holds that pi was lost in printing, which [1]_ bears out: pi D/(2 N) is meant.
    The share and the guide's allowables belong together: do not swap one without the other.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Machinery's Handbook, 27th ed., p 2173, eq 3. Mark: published.

    Examples
    --------
    >>> print(f"{pitch_line_shear_stress(600.0, 0.036, 18, 0.030, 3.14159e-3) / 1e6:.3f} MPa")
    39.298 MPa
    """
    require_positive(pitch_diameter=pitch_diameter, teeth=teeth, length=length, thickness=thickness)
    require_share(loaded_share=loaded_share)
    return 2.0 * np.abs(torque) / (pitch_diameter * loaded_share * teeth * length * thickness)


@formula(
    "Sc = 2 T / (D N L h)",
    result=Symbol("Sc", "Pa", "pressure on the flanks, flexible seat"),
    source=GUIDE_MEMORY,
    torque=TORQUE,
    pitch_diameter=PITCH,
    teeth=TEETH,
    length=LENGTH,
    height=HEIGHT,
)
def flank_pressure(
    torque: Numeric, pitch_diameter: Numeric, teeth: Numeric, length: Numeric, height: Numeric
) -> Numeric:
    """
    Pressure on the flanks of a spline, every tooth counted, without factors.

    ::

        Sc = 2 T / (D N L h)

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    pitch_diameter : float or array, m
        D.
    teeth : float or array, -
        N. All of them are counted.
    length : float or array, m
        L, effective length of engagement.
    height : float or array, m
        h, radial depth of engagement; about 0.9 modules with a flat root, 1 with a fillet root.

    Returns
    -------
    float or array, Pa
        Sc. Multiply by application and load-distribution factors, divide by the wear-life factor
        (flexible seat).

    Raises
    ------
    DomainError
        If a size is not above zero anywhere.

    Notes
    -----
    Eq 4 of [1]_, for a seat that can rock. The low allowables make up for uneven sharing.
    It is the mean normal pressure on the sloping flank as well: a pressure p on an involute from
    r1 to r2 has the moment p (r2^2 - r1^2)/2 per length about the axis whatever the pressure
    angle, because the arm of the normal and the length of the flank hold reciprocal cosines.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Machinery's Handbook, Involute Splines, eq 4. Mark: from memory; it reproduces the
       3,983 psi that a forum thread of practitioners prints for a pump spline.

    Examples
    --------
    >>> print(f"{flank_pressure(600.0, 0.036, 18, 0.030, 0.0018) / 1e6:.3f} MPa")
    34.294 MPa
    """
    require_positive(pitch_diameter=pitch_diameter, teeth=teeth, length=length, height=height)
    return 2.0 * np.abs(torque) / (pitch_diameter * teeth * length * height)


@formula(
    "Sc = 2 T / (9 D N L h)",
    result=Symbol("Sc", "Pa", "pressure charged to the flanks, fixed seat"),
    source=GUIDE_MEMORY,
    torque=TORQUE,
    pitch_diameter=PITCH,
    teeth=TEETH,
    length=LENGTH,
    height=HEIGHT,
)
def fixed_flank_pressure(
    torque: Numeric, pitch_diameter: Numeric, teeth: Numeric, length: Numeric, height: Numeric
) -> Numeric:
    """
    Flank pressure that the guide charges to a fixed seat, without factors.

    ::

        Sc = 2 T / (9 D N L h)

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    pitch_diameter : float or array, m
        D.
    teeth : float or array, -
        N. All of them are counted.
    length : float or array, m
        L, effective length of engagement.
    height : float or array, m
        h, radial depth of engagement.

    Returns
    -------
    float or array, Pa
        Sc, to be held against the same allowable as that of ``flank_pressure``. Multiply by
        the application factor, divide by the fatigue-life factor.

    Raises
    ------
    DomainError
        If a size is not above zero anywhere.

    Notes
    -----
    Eq 5 of [1]_. The divisor is no physics of the contact: the pressure that the steel feels is
    that of ``flank_pressure``. The allowables are wear limits of flanks that slide on each other
    at every turn. A seat that is shrunk, clamped or piloted at both ends cannot rock, its flanks
    do not slide, and the guide lets it carry nine times the pressure. So the 9 goes with these
    allowables, with the fatigue-life factor in place of the wear-life factor, and with a
    load-distribution factor of 1. A slip fit that nothing but the spline locates is not fixed.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Machinery's Handbook, Involute Splines, eq 5. Mark: from memory.

    Examples
    --------
    >>> print(f"{fixed_flank_pressure(600.0, 0.036, 18, 0.030, 0.0018) / 1e6:.4f} MPa")
    3.8104 MPa
    """
    return flank_pressure(torque, pitch_diameter, teeth, length, height) / FIXED_SEAT_DIVISOR


@formula(
    "L = (Dre^4 - Dh^4) / (4 kz D^2 Dre)",
    result=Symbol("L", "m", "length of engagement"),
    source=DERIVED,
    root_diameter=_ROOT,
    pitch_diameter=PITCH,
    bore=BORE,
    loaded_share=SHARE,
)
def equal_strength_length(
    root_diameter: Numeric, pitch_diameter: Numeric, bore: Numeric = 0.0, loaded_share: Numeric = 0.5
) -> Numeric:
    """
    Length of engagement at which the teeth shear at the same stress as the shaft under them.

    ::

        L = (Dre^4 - Dh^4) / (4 kz D^2 Dre)

    Parameters
    ----------
    root_diameter : float or array, m
        Dre, root diameter of the external member.
    pitch_diameter : float or array, m
        D.
    bore : float or array, m, optional
        Dh, bore of a hollow shaft; 0 for a solid one.
    loaded_share : float or array, -, optional
        kz, share of the teeth that carry load.

    Returns
    -------
    float or array, m
        L: more length brings no more torque as far as shear is concerned.

    Raises
    ------
    DomainError
        If pitch_diameter is not above zero, root_diameter is not above bore, or loaded_share is
        not in (0, 1], anywhere.

    Notes
    -----
    ``root_shear_stress`` set equal to ``pitch_line_shear_stress`` with t = pi D/(2 N). A quarter of
    the teeth gives the form of textbooks, L = Dre^3/D^2. Flank pressure asks for more, and the
    guide's own rules (D/3 with all teeth, 2 D/3 with half) are longer than this.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived from eqs 1 to 3 of the guide. Mark: derived.

    Examples
    --------
    >>> print(f"{equal_strength_length(0.036, 0.036) * 1e3:.1f} mm")
    18.0 mm
    """
    require_tube(root_diameter, bore)
    require_positive(pitch_diameter=pitch_diameter)
    require_share(loaded_share=loaded_share)
    return (root_diameter**4 - bore**4) / (4.0 * loaded_share * pitch_diameter**2 * root_diameter)
