"""Straight-sided splines: torque by flank pressure, axial force, effective pressure angle."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._sources import DERIVED, STRAIGHT
from torqcheck.capacity._symbols import LENGTH, MAJOR, MINOR, SHARE, TEETH, TORQUE
from torqcheck.domain import require_not_negative, require_positive, require_share, require_tube
from torqcheck.errors import DomainError
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source

__all__ = [
    "effective_pressure_angle",
    "shifting_force",
    "straight_flank_pressure",
    "straight_length",
    "straight_torque_capacity",
    "torque_coefficient",
]

_PRESSURE = Symbol("p", "Pa", "allowable pressure on the flanks")
_TEXTBOOK = Source("Textbook extract on the strength of splines (Chinese)", "flank pressure", "published")
_MOTT = Source("R. L. Mott, Machine Elements, as in lecture slides on splines", "formula", "published")


@formula(
    "T = p N L (D^2 - d^2) / 8",
    result=Symbol("T", "N m", "torque that the flanks carry"),
    source=STRAIGHT,
    allowable=_PRESSURE,
    teeth=TEETH,
    length=LENGTH,
    major_diameter=MAJOR,
    minor_diameter=MINOR,
)
def straight_torque_capacity(
    allowable: Numeric, teeth: Numeric, length: Numeric, major_diameter: Numeric, minor_diameter: Numeric
) -> Numeric:
    """
    Torque that the flanks of a straight-sided spline carry at an allowable pressure.

    ::

        T = p N L (D^2 - d^2) / 8          = p N h L r_m, h = (D - d)/2, r_m = (D + d)/4

    Parameters
    ----------
    allowable : float or array, Pa
        p, allowable pressure on the flanks.
    teeth : float or array, -
        N. All of them are counted.
    length : float or array, m
        L.
    major_diameter : float or array, m
        D.
    minor_diameter : float or array, m
        d.

    Returns
    -------
    float or array, N m
        T.

    Raises
    ------
    DomainError
        If teeth or length is not above zero, allowable is negative, or major_diameter is not
        above minor_diameter, anywhere.

    Notes
    -----
    The pressures that textbooks give with this formula (6.5 MPa, or 1000 psi) are for splines that
    slide under load. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Lecture slides on splines after Bhandari, Design of Machine Elements; the same formula in
       lecture slides after Mott, Machine Elements. Mark: published.

    Examples
    --------
    >>> print(f"{straight_torque_capacity(6.5e6, 8, 0.110, 0.060, 0.052):.1f} N m")
    640.6 N m
    """
    require_positive(teeth=teeth, length=length)
    require_not_negative(allowable=allowable)
    require_tube(major_diameter, minor_diameter)
    return allowable * teeth * length * (major_diameter**2 - minor_diameter**2) / 8.0


@formula(
    "L = 8 T / (p N (D^2 - d^2))",
    result=Symbol("L", "m", "length of engagement"),
    source=STRAIGHT,
    torque=TORQUE,
    allowable=_PRESSURE,
    teeth=TEETH,
    major_diameter=MAJOR,
    minor_diameter=MINOR,
)
def straight_length(
    torque: Numeric, allowable: Numeric, teeth: Numeric, major_diameter: Numeric, minor_diameter: Numeric
) -> Numeric:
    """
    Length of a straight-sided spline that a torque needs at an allowable pressure.

    ::

        L = 8 T / (p N (D^2 - d^2))

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    allowable : float or array, Pa
        p, allowable pressure on the flanks.
    teeth : float or array, -
        N. All of them are counted.
    major_diameter : float or array, m
        D.
    minor_diameter : float or array, m
        d.

    Returns
    -------
    float or array, m
        L.

    Raises
    ------
    DomainError
        If allowable or teeth is not above zero, or major_diameter is not above minor_diameter,
        anywhere.

    Notes
    -----
    The inverse of ``straight_torque_capacity``. In the name of a size such as 8 x 52 x 60 the
    last number is the major diameter and not a length. NaN gives NaN in the same place.

    References
    ----------
    .. [1] Lecture slides on splines after Bhandari, Design of Machine Elements. Mark: published.

    Examples
    --------
    >>> print(f"{straight_length(636.62, 6.5e6, 8, 0.060, 0.052) * 1e3:.2f} mm")
    109.31 mm
    """
    require_positive(allowable=allowable, teeth=teeth)
    require_tube(major_diameter, minor_diameter)
    return 8.0 * np.abs(torque) / (allowable * teeth * (major_diameter**2 - minor_diameter**2))


@formula(
    "p = 2 T / (kz N h L dm),  h = (D - d)/2 - 2 c,  dm = (D + d)/2",
    result=Symbol("p", "Pa", "pressure on the flanks"),
    source=_TEXTBOOK,
    torque=TORQUE,
    major_diameter=MAJOR,
    minor_diameter=MINOR,
    teeth=TEETH,
    length=LENGTH,
    loaded_share=SHARE,
    chamfer=Symbol("c", "m", "chamfer at tip and root of the flank, radially"),
)
def straight_flank_pressure(
    torque: Numeric,
    major_diameter: Numeric,
    minor_diameter: Numeric,
    teeth: Numeric,
    length: Numeric,
    loaded_share: Numeric = 1.0,
    *,
    chamfer: Numeric = 0.0,
) -> Numeric:
    """
    Pressure on the flanks of a straight-sided spline.

    ::

        p = 2 T / (kz N h L dm),  h = (D - d)/2 - 2 c,  dm = (D + d)/2

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    major_diameter : float or array, m
        D.
    minor_diameter : float or array, m
        d.
    teeth : float or array, -
        N.
    length : float or array, m
        L.
    loaded_share : float or array, -, optional
        kz; the source takes 0.7 to 0.8, less for more teeth, together with its own allowables.
    chamfer : float or array, m, optional
        c, lost at both ends of the flank.

    Returns
    -------
    float or array, Pa
        p, without other factors.

    Raises
    ------
    DomainError
        If teeth or length is not above zero, loaded_share is not in (0, 1], chamfer is negative
        or leaves no flank, or major_diameter is not above minor_diameter, anywhere.

    Notes
    -----
    With kz = 1 and no chamfer it is ``straight_torque_capacity`` solved for the pressure. A share
    belongs with the allowables of the source that prints it. NaN gives NaN in the same place.

    References
    ----------
    .. [1] Chinese textbook extract and lecture slide on the strength of splines. Mark: published.

    Examples
    --------
    >>> pressure = straight_flank_pressure(636.62, 0.060, 0.052, 8, 0.1093097, loaded_share=0.75)
    >>> print(f"{pressure / 1e6:.3f} MPa")
    8.667 MPa
    """
    require_positive(teeth=teeth, length=length)
    require_share(loaded_share=loaded_share)
    require_not_negative(chamfer=chamfer)
    require_tube(major_diameter, minor_diameter)
    height = 0.5 * (major_diameter - minor_diameter) - 2.0 * chamfer
    if np.any(np.less_equal(height, 0.0)):
        raise DomainError("chamfer must leave a flank: twice the chamfer reaches the height of the teeth")
    mean_diameter = 0.5 * (major_diameter + minor_diameter)
    return 2.0 * np.abs(torque) / (loaded_share * teeth * height * length * mean_diameter)


@formula(
    "c = N (1 - (d/D)^2) / 8",
    result=Symbol("c", "-", "T / (p L D^2)"),
    source=_MOTT,
    teeth=TEETH,
    minor_over_major=Symbol("d/D", "-", "minor over major diameter"),
)
def torque_coefficient(teeth: Numeric, minor_over_major: Numeric) -> Numeric:
    """
    Torque of a straight-sided spline per length, per pressure and per square of its major diameter.

    ::

        c = N (1 - (d/D)^2) / 8          T = c p L D^2

    Parameters
    ----------
    teeth : float or array, -
        N.
    minor_over_major : float or array, -
        d/D, given by the fit of the standard series.

    Returns
    -------
    float or array, -
        c. The tables of the American series print 1000 c: pound-inches per inch at 1000 psi.

    Raises
    ------
    DomainError
        If teeth is not above zero, or minor_over_major is not in (0, 1], anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] R. L. Mott, Machine Elements in Mechanical Design, straight splines. Mark: published for
       the formula; the table of coefficients: from memory.

    Examples
    --------
    >>> print(f"{1000 * torque_coefficient(6, 0.9):.1f}")
    142.5
    """
    require_positive(teeth=teeth)
    require_share(minor_over_major=minor_over_major)
    return teeth * (1.0 - minor_over_major**2) / 8.0


@formula(
    "F = mu T / r_m",
    result=Symbol("F", "N", "axial force"),
    source=STRAIGHT,
    torque=TORQUE,
    mean_radius=Symbol("r_m", "m", "mean radius of the flanks"),
    friction=Symbol("mu", "-", "coefficient of friction"),
)
def shifting_force(torque: Numeric, mean_radius: Numeric, friction: Numeric) -> Numeric:
    """
    Axial force that it takes to slide a straight-sided joint along while it carries torque.

    ::

        F = mu T / r_m

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    mean_radius : float or array, m
        r_m, (D + d)/4.
    friction : float or array, -
        mu.

    Returns
    -------
    float or array, N
        F, also the thrust that the joint can put on a bearing or a seal when a shaft grows.

    Raises
    ------
    DomainError
        If mean_radius is not above zero, or friction is negative, anywhere.

    Notes
    -----
    For involute teeth divide by the cosine of the pressure angle.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Lecture slides on splines after Bhandari, Design of Machine Elements. Mark: published.

    Examples
    --------
    >>> print(f"{shifting_force(636.62, 0.028, 0.06):.1f} N")
    1364.2 N
    """
    require_positive(mean_radius=mean_radius)
    require_not_negative(friction=friction)
    return friction * np.abs(torque) / mean_radius


@formula(
    "sin(al) = b / (2 r_m)",
    result=Symbol("al", "rad", "effective pressure angle"),
    source=DERIVED,
    tooth_width=Symbol("b", "m", "width of the parallel-sided tooth"),
    mean_radius=Symbol("r_m", "m", "mean radius of the flanks"),
)
def effective_pressure_angle(tooth_width: Numeric, mean_radius: Numeric) -> Numeric:
    """
    Angle at which the flanks of parallel-sided teeth push the hub outward.

    ::

        sin(al) = b / (2 r_m)

    Parameters
    ----------
    tooth_width : float or array, m
        b.
    mean_radius : float or array, m
        r_m, mean radius of the flanks.

    Returns
    -------
    float or array, rad
        al, for ``radial_bursting_stress``.

    Raises
    ------
    DomainError
        If a size is not above zero, or tooth_width is not below twice mean_radius, anywhere.

    Notes
    -----
    The flank runs parallel to the radius through the middle of the tooth, half a width beside it.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived; that an effective angle from thickness is the right input for the hoop stress is
       said in Filling some gaps in spline design guidelines, Gear Solutions, 2019. Mark: derived.

    Examples
    --------
    >>> print(f"{np.degrees(effective_pressure_angle(0.010, 0.028)):.2f} deg")
    10.29 deg
    """
    require_positive(tooth_width=tooth_width, mean_radius=mean_radius)
    ratio = 0.5 * tooth_width / mean_radius
    if np.any(np.greater_equal(ratio, 1.0)):
        raise DomainError("tooth_width must be below twice mean_radius")
    return np.arcsin(ratio)
