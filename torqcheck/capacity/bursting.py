"""Bursting of the internal member by the spline guide: three hoop stresses and their sum."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._sources import GUIDE_MEMORY
from torqcheck.capacity._symbols import LENGTH, PITCH, TORQUE
from torqcheck.domain import require_angle, require_not_negative, require_positive, require_tube
from torqcheck.formulas import Symbol, formula

__all__ = [
    "FORM_FACTOR",
    "STEEL_DENSITY",
    "STEEL_POISSON_RATIO",
    "beam_bursting_stress",
    "bursting_stress",
    "centrifugal_bursting_stress",
    "radial_bursting_stress",
]

FORM_FACTOR = 1.5
"""Lewis form factor, in diametral-pitch form, of 30 degree internal teeth (guide, eq 8; from memory)."""

STEEL_DENSITY = 7850.0
"""kg/m3, steel (EN 10083 property cards; published)."""

STEEL_POISSON_RATIO = 0.3
"""Poisson's ratio that the guide's constants contain (derived from eqs 7 and the crowned constant)."""

_GROOVE = Symbol("Dri", "m", "major diameter of the internal member, bottom of its grooves")
_OUTSIDE = Symbol("Doi", "m", "outside diameter of the internal member")
_ANGLE = Symbol("al", "rad", "pressure angle")
_SPEED = Symbol("w", "rad/s", "speed of the joint")
_DENSITY = Symbol("rho", "kg/m3", "density of the internal member")
_POISSON = Symbol("nu", "-", "Poisson's ratio")
_FORM = Symbol("Y", "-", "form factor of the internal teeth")


@formula(
    "S1 = T tan(al) / (pi D tw L),  tw = (Doi - Dri) / 2",
    result=Symbol("S1", "Pa", "hoop stress from the radial part of the tooth load"),
    source=GUIDE_MEMORY,
    torque=TORQUE,
    pitch_diameter=PITCH,
    internal_major_diameter=_GROOVE,
    outside_diameter=_OUTSIDE,
    length=Symbol("L", "m", "full length of engagement"),
    pressure_angle=_ANGLE,
)
def radial_bursting_stress(
    torque: Numeric,
    pitch_diameter: Numeric,
    internal_major_diameter: Numeric,
    outside_diameter: Numeric,
    length: Numeric,
    pressure_angle: Numeric,
) -> Numeric:
    """
    Hoop stress in the wall of the internal member from the radial part of the tooth load.

    ::

        S1 = T tan(al) / (pi D tw L),  tw = (Doi - Dri) / 2

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored: either flank pushes the wall outward.
    pitch_diameter : float or array, m
        D.
    internal_major_diameter : float or array, m
        Dri, at the bottom of the grooves.
    outside_diameter : float or array, m
        Doi.
    length : float or array, m
        L, full length of engagement.
    pressure_angle : float or array, rad
        al; for straight sides the effective angle, see ``straight_guide``.

    Returns
    -------
    float or array, Pa
        S1, without factors.

    Raises
    ------
    DomainError
        If pitch_diameter or length is not above zero, outside_diameter is not above
        internal_major_diameter, or pressure_angle is a right angle or more, anywhere.

    Notes
    -----
    Eq 6 of [1]_; derived again: the radial load 2 T tan(al)/D, spread as a pressure over pi D L,
    in a thin ring. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Machinery's Handbook, Involute Splines, eq 6. Mark: from memory.

    Examples
    --------
    >>> from math import radians
    >>> print(f"{radial_bursting_stress(600.0, 0.036, 0.039, 0.052, 0.030, radians(30)) / 1e6:.2f} MPa")
    15.71 MPa
    """
    require_positive(pitch_diameter=pitch_diameter, length=length)
    require_tube(outside_diameter, internal_major_diameter)
    require_angle(pressure_angle=pressure_angle)
    wall = 0.5 * (outside_diameter - internal_major_diameter)
    return np.abs(torque) * np.tan(np.abs(pressure_angle)) / (np.pi * pitch_diameter * wall * length)


@formula(
    "S2 = (rho w^2 / 16) [(3 + nu) Doi^2 + (1 - nu) Dri^2]",
    result=Symbol("S2", "Pa", "hoop stress from rotation, at the bottom of the grooves"),
    source=GUIDE_MEMORY,
    internal_major_diameter=_GROOVE,
    outside_diameter=_OUTSIDE,
    speed=_SPEED,
    density=_DENSITY,
    poisson_ratio=_POISSON,
)
def centrifugal_bursting_stress(
    internal_major_diameter: Numeric,
    outside_diameter: Numeric,
    speed: Numeric,
    density: Numeric = STEEL_DENSITY,
    poisson_ratio: Numeric = STEEL_POISSON_RATIO,
) -> Numeric:
    """
    Hoop stress at the bottom of the grooves of the internal member from its rotation.

    ::

        S2 = (rho w^2 / 16) [(3 + nu) Doi^2 + (1 - nu) Dri^2]

    Parameters
    ----------
    internal_major_diameter : float or array, m
        Dri, at the bottom of the grooves.
    outside_diameter : float or array, m
        Doi.
    speed : float or array, rad/s
        w. The sign is ignored.
    density : float or array, kg/m3, optional
        rho, of the internal member; steel by default.
    poisson_ratio : float or array, -, optional
        nu; 0.3 by default.

    Returns
    -------
    float or array, Pa
        S2. The load factors do not multiply it.

    Raises
    ------
    DomainError
        If outside_diameter is not above internal_major_diameter, or density is negative, anywhere.

    Notes
    -----
    Bore stress of a rotating disc in plane stress. Eq 7 of [1]_ is this form in inches, psi and
    rev/min: 1.656e-6 n^2 (Doi^2 + 0.212 Dri^2). With nu = 0.3 the 0.212 is 0.7/3.3, and the
    1.656e-6 is met by a weight density of 0.2827 lb/in3; the usual 0.283 gives 1.658e-6.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Machinery's Handbook, Involute Splines, eq 7. Mark: from memory; the physical form: derived.

    Examples
    --------
    >>> print(f"{centrifugal_bursting_stress(0.039, 0.052, 785.4) / 1e6:.2f} MPa")
    3.02 MPa
    """
    require_tube(outside_diameter, internal_major_diameter)
    require_not_negative(density=density)
    squares = (3.0 + poisson_ratio) * outside_diameter**2 + (1.0 - poisson_ratio) * internal_major_diameter**2
    return density * speed**2 / 16.0 * squares


@formula(
    "S3 = 4 T / (D^2 Le Y)",
    result=Symbol("S3", "Pa", "stress in the rim from the bending of the teeth"),
    source=GUIDE_MEMORY,
    torque=TORQUE,
    pitch_diameter=PITCH,
    effective_length=Symbol("Le", "m", "effective length of engagement"),
    form_factor=_FORM,
)
def beam_bursting_stress(
    torque: Numeric, pitch_diameter: Numeric, effective_length: Numeric, form_factor: Numeric = FORM_FACTOR
) -> Numeric:
    """
    Stress in the rim of the internal member from the bending of its teeth.

    ::

        S3 = 4 T / (D^2 Le Y)

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    pitch_diameter : float or array, m
        D.
    effective_length : float or array, m
        Le.
    form_factor : float or array, -, optional
        Y, Lewis form factor in its diametral-pitch form; 1.5 for 30 degree internal teeth.

    Returns
    -------
    float or array, Pa
        S3, without factors.

    Raises
    ------
    DomainError
        If a size or form_factor is not above zero anywhere.

    Notes
    -----
    Eq 8 of [1]_; derived again: the Lewis formula with half of the teeth loaded.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Machinery's Handbook, Involute Splines, eq 8. Mark: from memory.

    Examples
    --------
    >>> print(f"{beam_bursting_stress(600.0, 0.036, 0.030) / 1e6:.2f} MPa")
    41.15 MPa
    """
    require_positive(
        pitch_diameter=pitch_diameter, effective_length=effective_length, form_factor=form_factor
    )
    return 4.0 * np.abs(torque) / (pitch_diameter**2 * effective_length * form_factor)


@formula(
    "St = K (S1 + S3) + S2",
    result=Symbol("St", "Pa", "bursting stress of the internal member"),
    source=GUIDE_MEMORY,
    torque=TORQUE,
    pitch_diameter=PITCH,
    internal_major_diameter=_GROOVE,
    outside_diameter=_OUTSIDE,
    length=Symbol("L", "m", "full length of engagement"),
    effective_length=LENGTH,
    pressure_angle=_ANGLE,
    speed=_SPEED,
    density=_DENSITY,
    poisson_ratio=_POISSON,
    form_factor=_FORM,
    load_factor=Symbol("K", "-", "application times load-distribution factor"),
)
def bursting_stress(
    torque: Numeric,
    pitch_diameter: Numeric,
    internal_major_diameter: Numeric,
    outside_diameter: Numeric,
    length: Numeric,
    effective_length: Numeric,
    *,
    pressure_angle: Numeric,
    speed: Numeric = 0.0,
    density: Numeric = STEEL_DENSITY,
    poisson_ratio: Numeric = STEEL_POISSON_RATIO,
    form_factor: Numeric = FORM_FACTOR,
    load_factor: Numeric = 1.0,
) -> Numeric:
    """
    Bursting stress of the internal member: radial load, tooth bending and rotation together.

    ::

        St = K (S1 + S3) + S2

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    pitch_diameter : float or array, m
        D.
    internal_major_diameter : float or array, m
        Dri, at the bottom of the grooves.
    outside_diameter : float or array, m
        Doi.
    length : float or array, m
        L, full length of engagement, for S1.
    effective_length : float or array, m
        Le, effective length, for S3.
    pressure_angle : float or array, rad
        al.
    speed : float or array, rad/s, optional
        w; 0 at standstill.
    density : float or array, kg/m3, optional
        rho; steel by default.
    poisson_ratio : float or array, -, optional
        nu; 0.3 by default.
    form_factor : float or array, -, optional
        Y; 1.5 for 30 degree internal teeth.
    load_factor : float or array, -, optional
        K = Ka Km, application times load-distribution factor.

    Returns
    -------
    float or array, Pa
        St. Divide by the fatigue-life factor, or multiply the tensile allowable by it.

    Raises
    ------
    DomainError
        As its three parts do.

    Notes
    -----
    S1, S2 and S3 are ``radial_bursting_stress``, ``centrifugal_bursting_stress`` and
    ``beam_bursting_stress``. The load factors multiply what comes from the torque and not what
    comes from the speed. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Machinery's Handbook, Involute Splines, eqs 6 to 8 and their sum. Mark: from memory.

    Examples
    --------
    >>> from math import radians
    >>> stress = bursting_stress(600.0, 0.036, 0.039, 0.052, 0.030, 0.030, pressure_angle=radians(30))
    >>> print(f"{stress / 1e6:.2f} MPa")
    56.86 MPa
    """
    radial = radial_bursting_stress(
        torque, pitch_diameter, internal_major_diameter, outside_diameter, length, pressure_angle
    )
    beam = beam_bursting_stress(torque, pitch_diameter, effective_length, form_factor)
    rotation = centrifugal_bursting_stress(
        internal_major_diameter, outside_diameter, speed, density, poisson_ratio
    )
    return load_factor * (radial + beam) + rotation
