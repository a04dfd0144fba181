"""Where friction or elasticity takes up what would be slip. Nothing of this is credited in a life."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import require_angle, require_not_negative, require_positive
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source
from torqcheck.wear._symbols import ANGLE, LENGTH, TORQUE

__all__ = ["elastic_slip", "friction_lock_tilt", "tilt_friction_moment"]

_FRICTION = Source("Derived: axial friction of all teeth, summed around the joint", "", "derived")
_ELASTIC = Source("Derived: stretch of shaft and hub, the axial force passed on evenly", "", "derived")
_COEFFICIENT = Symbol("mu", "-", "coefficient of friction")


@formula(
    "Mf = (2 / pi) mu T / cos(al)",
    result=Symbol("Mf", "N m", "moment with which friction resists the rocking of a tilted joint"),
    source=_FRICTION,
    torque=TORQUE,
    pressure_angle=ANGLE,
    friction=_COEFFICIENT,
)
def tilt_friction_moment(torque: Numeric, pressure_angle: Numeric, friction: Numeric) -> Numeric:
    """
    Moment with which friction on the flanks resists the rocking of a tilted joint.

    ::

        Mf = (2 / pi) mu T / cos(al)

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    pressure_angle : float or array, rad
        al.
    friction : float or array, -
        mu, coefficient of friction of the flanks.

    Returns
    -------
    float or array, N m
        Mf, bending moment on the shaft once the flanks slip all around.

    Raises
    ------
    DomainError
        If friction is negative, or pressure_angle is a right angle or more, anywhere.

    Notes
    -----
    Load even around the joint: each tooth pushes mu F along the axis at an arm of r times the sine
    of its place, whose mean is 2/pi. It turns once a revolution against the shaft and bends it.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    >>> from math import radians
    >>> print(f"{tilt_friction_moment(200.0, radians(30), 0.12):.1f} N m")
    17.6 N m
    """
    require_not_negative(friction=friction)
    require_angle(pressure_angle=pressure_angle)
    return 2.0 / np.pi * friction * np.abs(torque) / np.cos(pressure_angle)


@formula(
    "gl = (2 / pi) mu T / (kb cos(al))",
    result=Symbol("gl", "rad", "largest tilt that shafts take up by bending instead of slipping"),
    source=_FRICTION,
    torque=TORQUE,
    pressure_angle=ANGLE,
    friction=_COEFFICIENT,
    stiffness=Symbol("kb", "N m/rad", "stiffness of the shafts against tilting at the joint"),
)
def friction_lock_tilt(
    torque: Numeric, pressure_angle: Numeric, friction: Numeric, stiffness: Numeric
) -> Numeric:
    """
    Largest tilt that limber shafts take up by bending while friction holds the flanks.

    ::

        gl = (2 / pi) mu T / (kb cos(al))

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    pressure_angle : float or array, rad
        al.
    friction : float or array, -
        mu, coefficient of friction of the flanks.
    stiffness : float or array, N m/rad
        kb, bending moment at the joint for each radian by which its shafts bend there.

    Returns
    -------
    float or array, rad
        gl. A joint with a smaller tilt does not slip but bends its shafts at every turn; one with a
        larger tilt slips by what is beyond it.

    Raises
    ------
    DomainError
        If friction is negative, stiffness is not above zero, or pressure_angle is a right angle or
        more, anywhere.

    Notes
    -----
    More torque can so mean less wear and more fatigue of the shaft. No life is credited with it: kb
    is hardly ever known, and no torque at which splines stop slipping has been published.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived: ``tilt_friction_moment`` over the stiffness. Mark: derived.

    Examples
    --------
    >>> from math import radians
    >>> print(f"{friction_lock_tilt(200.0, radians(30), 0.12, 20e3) * 1e3:.3f} mrad")
    0.882 mrad
    """
    require_positive(stiffness=stiffness)
    return tilt_friction_moment(torque, pressure_angle, friction) / stiffness


@formula(
    "d = Fa L / (2 E) (1 / As + 1 / Ah)",
    result=Symbol("d", "m", "upper bound of the elastic slip between shaft and hub"),
    source=_ELASTIC,
    axial_force=Symbol("Fa", "N", "axial force that the joint passes on"),
    length=LENGTH,
    shaft_area=Symbol("As", "m2", "cross section of the shaft"),
    hub_area=Symbol("Ah", "m2", "cross section of the hub"),
    elastic_modulus=Symbol("E", "Pa", "modulus of elasticity of both members"),
)
def elastic_slip(
    axial_force: Numeric, length: Numeric, shaft_area: Numeric, hub_area: Numeric, elastic_modulus: Numeric
) -> Numeric:
    """
    Upper bound of the slip that the stretch of shaft and hub makes in a long, aligned joint.

    ::

        d = Fa L / (2 E) (1 / As + 1 / Ah)

    Parameters
    ----------
    axial_force : float or array, N
        Fa, axial force that the joint passes on, change from one state to the other. The sign is
        ignored.
    length : float or array, m
        L, engaged length.
    shaft_area : float or array, m2
        As, cross section of the shaft.
    hub_area : float or array, m2
        Ah, cross section of the hub.
    elastic_modulus : float or array, Pa
        E, of both members.

    Returns
    -------
    float or array, m
        d, one way, at one end of the joint when the other end sticks.

    Raises
    ------
    DomainError
        If length is negative, or a cross section or elastic_modulus is not above zero, anywhere.

    Notes
    -----
    Reached when the force leaves the hub at the end at which it came in along the shaft; when it
    leaves at the far end the stretches partly cancel. The force is passed on evenly along the
    length, as it is where the flanks slip. A result of 50 um or more is no elastic slip: look at
    the inputs. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    5 kN through 40 mm of engagement:

    >>> print(f"{elastic_slip(5e3, 0.040, 700e-6, 1200e-6, 205e9) * 1e6:.2f} um")
    1.10 um
    """
    require_not_negative(length=length)
    require_positive(shaft_area=shaft_area, hub_area=hub_area, elastic_modulus=elastic_modulus)
    return 0.5 * np.abs(axial_force) * length / elastic_modulus * (1.0 / shaft_area + 1.0 / hub_area)
