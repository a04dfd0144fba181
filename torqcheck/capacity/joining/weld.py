"""Circular fillet weld under torque and bending: throat, leg, force per length."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._sources import MECHANICS
from torqcheck.capacity._symbols import TORQUE
from torqcheck.domain import require_positive
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source

__all__ = [
    "BASE_METAL_SHARE",
    "BASE_METAL_SOURCE",
    "THROAT",
    "base_metal_shear",
    "combined_weld_stress",
    "fillet_throat",
    "weld_bending_stress",
    "weld_second_moment",
    "weld_torsional_shear",
    "weld_unit_force",
]

THROAT = 0.707
"""Throat over leg of a fillet with equal legs, sqrt(1/2) as the table prints it."""

BASE_METAL_SHARE = 0.40
"""Allowable shear in the metal at the leg over its yield strength."""

_WORK = "Budynas and Nisbett, Mechanical Engineering Design"
BASE_METAL_SOURCE = Source(_WORK, "table 9-4", "from memory")
_TORSION = Source(_WORK, "table 9-1", "published")
_BENDING = Source(_WORK, "table 9-2, row of the circle", "from memory")
_ALLOWED = Source(_WORK, "table 9-6", "published")

_RADIUS = Symbol("r", "m", "outside radius of the tube or bar at the weld")
_THROAT = Symbol("a", "m", "throat of the weld, of both sides together")
_LEG = Symbol("h", "m", "leg of the fillet")


@formula(
    "a = 0.707 h",
    result=_THROAT,
    source=_TORSION,
    leg=_LEG,
)
def fillet_throat(leg: Numeric) -> Numeric:
    """
    Throat of a fillet with equal legs.

    ::

        a = 0.707 h

    Parameters
    ----------
    leg : float or array, m
        h; of unequal legs the shorter.

    Returns
    -------
    float or array, m
        a, of one side; double it where both sides are welded.

    Raises
    ------
    DomainError
        If leg is not above zero anywhere.

    Notes
    -----
    The size on a drawing is the leg or the throat, by country: h is the leg. Depth of penetration beyond
    the root is not counted. NaN gives NaN.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, table 9-1. Mark: published.

    Examples
    --------
    >>> print(f"{fillet_throat(6e-3) * 1e3:.3f} mm")
    4.242 mm
    """
    require_positive(leg=leg)
    return THROAT * np.asarray(leg, dtype=np.float64)[()]


@formula(
    "J = 2 pi r^3 a",
    result=Symbol("J", "m4", "polar second moment of area of the throat"),
    source=_TORSION,
    radius=_RADIUS,
    throat=_THROAT,
)
def weld_second_moment(radius: Numeric, throat: Numeric) -> Numeric:
    """
    Polar second moment of area of the throat of a circular weld.

    ::

        J = 2 pi r^3 a

    Parameters
    ----------
    radius : float or array, m
        r.
    throat : float or array, m
        a, 0.707 h of a fillet, the wall of a tube welded through.

    Returns
    -------
    float or array, m4
        J.

    Raises
    ------
    DomainError
        If a size is not above zero anywhere.

    Notes
    -----
    The weld counts as a line, Ju = 2 pi r^3, times its throat. NaN in any argument gives NaN in the same
    place.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, table 9-1. Mark: published.

    Examples
    --------
    >>> print(f"{weld_second_moment(0.030, fillet_throat(6e-3)) * 1e12:.0f} mm4")
    719638 mm4
    """
    require_positive(radius=radius, throat=throat)
    return 2.0 * np.pi * np.power(radius, 3.0) * throat


@formula(
    "tau = T / (2 pi r^2 a)",
    result=Symbol("tau", "Pa", "shear stress in the throat, along the weld"),
    source=_TORSION,
    torque=TORQUE,
    radius=_RADIUS,
    throat=_THROAT,
)
def weld_torsional_shear(torque: Numeric, radius: Numeric, throat: Numeric) -> Numeric:
    """
    Shear stress in the throat of a circular weld under torque.

    ::

        tau = T / (2 pi r^2 a)

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    radius : float or array, m
        r.
    throat : float or array, m
        a, of both sides together where both are welded.

    Returns
    -------
    float or array, Pa
        tau.

    Raises
    ------
    DomainError
        If a size is not above zero anywhere.

    Notes
    -----
    T r/J with J from ``weld_second_moment``. The load runs along the weld: what building codes allow more
    for welds loaded across does not apply. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, table 9-1. Mark: published.

    Examples
    --------
    >>> print(f"{weld_torsional_shear(3470.0, 0.030, fillet_throat(6e-3)) / 1e6:.1f} MPa")
    144.7 MPa
    """
    require_positive(radius=radius, throat=throat)
    return np.abs(torque) / (2.0 * np.pi * np.square(radius) * throat)


@formula(
    "taub = Mb / (pi r^2 a)",
    result=Symbol("taub", "Pa", "stress in the throat from bending, across the weld"),
    source=_BENDING,
    moment=Symbol("Mb", "N m", "bending moment"),
    radius=_RADIUS,
    throat=_THROAT,
)
def weld_bending_stress(moment: Numeric, radius: Numeric, throat: Numeric) -> Numeric:
    """
    Largest stress in the throat of a circular weld under a bending moment.

    ::

        taub = Mb / (pi r^2 a)

    Parameters
    ----------
    moment : float or array, N m
        Mb. The sign is ignored.
    radius : float or array, m
        r.
    throat : float or array, m
        a, of both sides together where both are welded.

    Returns
    -------
    float or array, Pa
        taub, taken as shear in the throat whatever its direction.

    Raises
    ------
    DomainError
        If a size is not above zero anywhere.

    Notes
    -----
    Mb r/I with Iu = pi r^3. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, table 9-2. Mark: from memory.

    Examples
    --------
    >>> print(f"{weld_bending_stress(200.0, 0.030, fillet_throat(6e-3)) / 1e6:.2f} MPa")
    16.68 MPa
    """
    require_positive(radius=radius, throat=throat)
    return np.abs(moment) / (np.pi * np.square(radius) * throat)


@formula(
    "tauw = sqrt(tau^2 + taub^2)",
    result=Symbol("tauw", "Pa", "stress in the throat"),
    source=MECHANICS,
    torsional_shear=Symbol("tau", "Pa", "shear stress in the throat from the torque"),
    bending_shear=Symbol("taub", "Pa", "stress in the throat from bending"),
)
def combined_weld_stress(torsional_shear: Numeric, bending_shear: Numeric) -> Numeric:
    """
    Stress in the throat from torque and bending together.

    ::

        tauw = sqrt(tau^2 + taub^2)

    Parameters
    ----------
    torsional_shear : float or array, Pa
        tau, along the weld.
    bending_shear : float or array, Pa
        taub, across it.

    Returns
    -------
    float or array, Pa
        tauw.

    Raises
    ------
    DomainError
        Never.

    Notes
    -----
    Both count as shear in the throat and stand at right angles. NaN in any argument gives NaN.

    References
    ----------
    .. [1] Vector sum of two shears. Mark: derived.

    Examples
    --------
    >>> print(f"{combined_weld_stress(30e6, 40e6) / 1e6:.0f} MPa")
    50 MPa
    """
    return np.hypot(torsional_shear, bending_shear)


@formula(
    "tau = T / (2 pi r^2 h)",
    result=Symbol("tau", "Pa", "shear stress in the metal at the leg"),
    source=MECHANICS,
    torque=TORQUE,
    radius=_RADIUS,
    leg=Symbol("h", "m", "leg of the fillet, of both sides together"),
)
def base_metal_shear(torque: Numeric, radius: Numeric, leg: Numeric) -> Numeric:
    """
    Shear stress in the parent metal where the fillet is fused to it.

    ::

        tau = T / (2 pi r^2 h)

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    radius : float or array, m
        r.
    leg : float or array, m
        h, of both sides together where both are welded.

    Returns
    -------
    float or array, Pa
        tau, to be held against 0.40 of the yield strength of the parent metal.

    Raises
    ------
    DomainError
        If a size is not above zero anywhere.

    Notes
    -----
    The same force as in the throat, over the leg. It governs where a strong electrode meets soft steel.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived; the allowable is from R. G. Budynas and J. K. Nisbett, table 9-4 (from memory).

    Examples
    --------
    >>> print(f"{base_metal_shear(3470.0, 0.030, 6e-3) / 1e6:.1f} MPa")
    102.3 MPa
    """
    require_positive(radius=radius, leg=leg)
    return np.abs(torque) / (2.0 * np.pi * np.square(radius) * leg)


@formula(
    "f = 0.707 h ta",
    result=Symbol("f", "N/m", "force that a length of fillet may carry"),
    source=_ALLOWED,
    leg=_LEG,
    allowable_shear=Symbol("ta", "Pa", "allowable shear stress in the throat"),
)
def weld_unit_force(leg: Numeric, allowable_shear: Numeric) -> Numeric:
    """
    Force that a length of fillet may carry.

    ::

        f = 0.707 h ta

    Parameters
    ----------
    leg : float or array, m
        h.
    allowable_shear : float or array, Pa
        ta, from the table of electrodes.

    Returns
    -------
    float or array, N/m
        f.

    Raises
    ------
    DomainError
        If leg or allowable_shear is not above zero anywhere.

    Notes
    -----
    What welding tables list by leg and electrode. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, table 9-6. Mark: published.

    Examples
    --------
    A leg of 3/8 in, electrode E70:

    >>> print(f"{weld_unit_force(0.375 * 0.0254, 144.79e6) / 175126.8:.2f} kip/in")
    5.57 kip/in
    """
    require_positive(leg=leg, allowable_shear=allowable_shear)
    return THROAT * np.multiply(leg, allowable_shear)
