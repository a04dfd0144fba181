"""Two flanges pressed together by bolts: the torque at which their faces slip."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._sources import DERIVED
from torqcheck.capacity.joining._bolt_symbols import BOLTS, CIRCLE, FACE_SLIP, PRELOAD
from torqcheck.domain import require_not_negative, require_positive, require_tube
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source

__all__ = ["bolt_circle_radius", "face_friction_radius", "face_friction_torque", "hole_spacing"]

_RADIUS = Symbol("Rf", "m", "radius at which the friction counts")
THIN = Source("VDI 2230 practice: a thin flange grips near its bolts", "", "from memory")


@formula(
    "Rf = (Do^3 - Di^3) / (3 (Do^2 - Di^2))",
    result=_RADIUS,
    source=FACE_SLIP,
    outer_diameter=Symbol("Do", "m", "outer diameter of the face"),
    inner_diameter=Symbol("Di", "m", "inner diameter of the face"),
)
def face_friction_radius(outer_diameter: Numeric, inner_diameter: Numeric = 0.0) -> Numeric:
    """
    Radius at which the friction of an annular face counts, under even pressure.

    ::

        Rf = (Do^3 - Di^3) / (3 (Do^2 - Di^2))

    Parameters
    ----------
    outer_diameter : float or array, m
        Do.
    inner_diameter : float or array, m, optional
        Di, of the relief or the bore; 0 for a full face.

    Returns
    -------
    float or array, m
        Rf.

    Raises
    ------
    DomainError
        If outer_diameter is not above inner_diameter, or inner_diameter is negative, anywhere.

    Notes
    -----
    Even pressure needs stiff flanges. Thin ones press near their bolts only, see ``bolt_circle_radius``;
    take the smaller. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Bhandari, Design of Machine Elements, eq. 9.43, there with radii. Mark: published.

    Examples
    --------
    >>> print(f"{face_friction_radius(0.200, 0.150) * 1e3:.1f} mm")
    88.1 mm
    """
    require_tube(outer_diameter, inner_diameter)
    # the factor (Do - Di) is divided out: it would cost digits on a narrow face
    inner, outer = inner_diameter, outer_diameter
    return (outer**2 + outer * inner + inner**2) / (3.0 * (outer + inner))


@formula("Rf = D / 2", result=_RADIUS, source=THIN, circle_diameter=CIRCLE)
def bolt_circle_radius(circle_diameter: Numeric) -> Numeric:
    """
    Radius at which the friction of a thin flange counts: it grips near its bolts.

    ::

        Rf = D / 2

    Parameters
    ----------
    circle_diameter : float or array, m
        D, of the bolt circle.

    Returns
    -------
    float or array, m
        Rf.

    Raises
    ------
    DomainError
        If circle_diameter is not above zero, anywhere.

    Notes
    -----
    NaN gives NaN in the same place.

    References
    ----------
    .. [1] Practice after VDI 2230. Mark: from memory.

    Examples
    --------
    >>> print(f"{bolt_circle_radius(0.100) * 1e3:.0f} mm")
    50 mm
    """
    require_positive(circle_diameter=circle_diameter)
    return 0.5 * circle_diameter


@formula(
    "T = mu n Fi Rf",
    result=Symbol("T", "N m", "torque at which the faces begin to slip"),
    source=FACE_SLIP,
    preload=PRELOAD,
    bolts=BOLTS,
    friction=Symbol("mu", "-", "coefficient of friction of the faces"),
    friction_radius=_RADIUS,
)
def face_friction_torque(
    preload: Numeric, bolts: Numeric, friction: Numeric, friction_radius: Numeric
) -> Numeric:
    """
    Torque that the friction between two flanges holds.

    ::

        T = mu n Fi Rf

    Parameters
    ----------
    preload : float or array, N
        Fi, of one bolt, at its least.
    bolts : float or array, -
        n.
    friction : float or array, -
        mu.
    friction_radius : float or array, m
        Rf.

    Returns
    -------
    float or array, N m
        T.

    Raises
    ------
    DomainError
        If preload or friction is negative, or another argument is not above zero, anywhere.

    Notes
    -----
    Bolts in clearance holes bear only after the faces have slipped, so that their shear is never added to
    it. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Bhandari, Design of Machine Elements, eq. 9.43. Mark: published.

    Examples
    --------
    >>> print(f"{face_friction_torque(25.2e3, 6.0, 0.15, 0.050):.0f} N m")
    1134 N m
    """
    require_not_negative(preload=preload, friction=friction)
    require_positive(bolts=bolts, friction_radius=friction_radius)
    return friction * bolts * preload * friction_radius


@formula(
    "c = D sin(pi / n)",
    result=Symbol("c", "m", "distance between neighbouring holes"),
    source=DERIVED,
    circle_diameter=CIRCLE,
    bolts=BOLTS,
)
def hole_spacing(circle_diameter: Numeric, bolts: Numeric) -> Numeric:
    """
    Distance between the centres of neighbouring holes on a circle.

    ::

        c = D sin(pi / n)

    Parameters
    ----------
    circle_diameter : float or array, m
        D.
    bolts : float or array, -
        n, evenly spaced.

    Returns
    -------
    float or array, m
        c.

    Raises
    ------
    DomainError
        If an argument is not above zero, anywhere.

    Notes
    -----
    Below 2.5 to 3 bolt diameters the metal between the holes is weak and no spanner goes in. NaN in any
    argument gives NaN in the same place.

    References
    ----------
    .. [1] Chord of a circle. Mark: derived.

    Examples
    --------
    >>> print(f"{hole_spacing(0.100, 6.0) * 1e3:.0f} mm")
    50 mm
    """
    require_positive(circle_diameter=circle_diameter, bolts=bolts)
    return circle_diameter * np.sin(np.pi / bolts)
