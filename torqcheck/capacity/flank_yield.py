"""Where the flanks and roots of spline teeth begin to yield, through hard or with a hard layer."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._symbols import HEIGHT
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source

__all__ = [
    "DEPTH_OF_LARGEST_SHEAR",
    "flank_yield_pressure",
    "layered_root_strength",
    "line_contact_yield_pressure",
]

DEPTH_OF_LARGEST_SHEAR = 0.786
"""Depth of the largest shear stress under a line contact, over its half width (Hertz)."""
_TRESCA = 1.67
_JOHNSON = Source("K. L. Johnson, Contact Mechanics, 1985", "first yield in line contact", "from memory")

_STRIP = Source("Shear stress under a strip of even pressure, a hard layer on a core", "", "derived")
_LAYER = Source("Bending of a tooth with a hard layer on a core", "", "derived")
_SURFACE = Symbol("Sys", "Pa", "yield strength of the hard layer, in tension")
_CORE = Symbol("Syc", "Pa", "yield strength of the core, in tension")
_DEPTH = Symbol("x", "m", "effective depth of the hard layer")


@formula(
    "p = min(Sys, Syc (1 + u^2) / (2 u)),  u = max(1, 2 x/h)",
    result=Symbol("p", "Pa", "mean pressure at which the flank begins to yield"),
    source=_STRIP,
    surface_yield=_SURFACE,
    core_yield=_CORE,
    case_depth=_DEPTH,
    height=HEIGHT,
)
def flank_yield_pressure(
    surface_yield: Numeric, core_yield: Numeric, case_depth: Numeric, height: Numeric
) -> Numeric:
    """
    Pressure on a straight flank at which its hard layer or the core under it begins to yield.

    ::

        p = min(Sys, Syc (1 + u^2) / (2 u)),  u = max(1, 2 x/h)

    Parameters
    ----------
    surface_yield : float or array, Pa
        Sys, yield strength of the layer in tension; without a layer that of the steel.
    core_yield : float or array, Pa
        Syc, yield strength of the core in tension.
    case_depth : float or array, m
        x, effective depth of the hard layer; 0 without one.
    height : float or array, m
        h, height of the flank that bears.

    Returns
    -------
    float or array, Pa
        p. Without a layer the yield strength.

    Raises
    ------
    DomainError
        If a strength or case_depth is negative, or height is not above zero, anywhere.

    Notes
    -----
    Tresca's shear stress under a strip of even pressure is p sin(u')/pi, u' the angle that the strip
    subtends; it is largest at a depth of half the strip, and falls beyond. The layer keeps the core
    out of the shallow part. The factor pi/2 by which the half space bears more than p = Sy is not
    used: a tooth is no half space, and its ends are free. NaN in gives NaN out.

    References
    ----------
    .. [1] Derived from the stress under a strip of even pressure. Mark: derived.

    Examples
    --------
    1.5 mm of flank, 0.8 mm case of 1614 MPa on a core of 621 MPa: the core gives way first.

    >>> print(f"{flank_yield_pressure(1614e6, 621e6, 0.8e-3, 1.5e-3) / 1e6:.0f} MPa")
    622 MPa
    """
    require_not_negative(surface_yield=surface_yield, core_yield=core_yield, case_depth=case_depth)
    require_positive(height=height)
    u = np.maximum(2.0 * np.asarray(case_depth) / height, 1.0)
    return np.minimum(surface_yield, core_yield * (1.0 + u**2) / (2.0 * u))[()]


@formula(
    "S = min(Sys, Syc / max(0, 1 - 2 x/s))",
    result=Symbol("S", "Pa", "bending stress at the surface at which the root begins to yield"),
    source=_LAYER,
    surface_yield=_SURFACE,
    core_yield=_CORE,
    case_depth=_DEPTH,
    root_chord=Symbol("s", "m", "thickness of the tooth at its root"),
)
def layered_root_strength(
    surface_yield: Numeric, core_yield: Numeric, case_depth: Numeric, root_chord: Numeric
) -> Numeric:
    """
    Bending stress at the surface of a tooth root at which its layer or its core begins to yield.

    ::

        S = min(Sys, Syc / max(0, 1 - 2 x/s))          Sys where the layers of both sides meet

    Parameters
    ----------
    surface_yield : float or array, Pa
        Sys, yield strength of the layer in tension; without a layer that of the steel.
    core_yield : float or array, Pa
        Syc, yield strength of the core in tension.
    case_depth : float or array, m
        x, effective depth of the hard layer; 0 without one.
    root_chord : float or array, m
        s.

    Returns
    -------
    float or array, Pa
        S.

    Raises
    ------
    DomainError
        If a strength or case_depth is negative, or root_chord is not above zero, anywhere.

    Notes
    -----
    The stress falls in a straight line from the surface to the middle of the tooth; the step in
    strength lies at the effective case depth. The layer must run around the root: induction that
    hardens the flanks only leaves it soft. A brittle layer cracks instead of yielding.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived: bending of a beam in two strengths; as ``core_limited_torque``. Mark: derived.

    Examples
    --------
    >>> print(f"{layered_root_strength(1614e6, 621e6, 0.8e-3, 3.1e-3) / 1e6:.0f} MPa")
    1283 MPa
    """
    require_not_negative(surface_yield=surface_yield, core_yield=core_yield, case_depth=case_depth)
    require_positive(root_chord=root_chord)
    left = 1.0 - 2.0 * np.asarray(case_depth, dtype=np.float64) / root_chord
    soft = left > 0.0
    strength = np.minimum(surface_yield, core_yield / np.where(soft, left, 1.0))
    return np.where(soft | np.isnan(left), strength + 0.0 * left, surface_yield + 0.0 * strength)[()]


@formula(
    "p0 = 1.67 Sy",
    result=Symbol("p0", "Pa", "largest pressure of a line contact at first yield"),
    source=_JOHNSON,
    yield_strength=Symbol("Sy", "Pa", "yield strength in tension"),
)
def line_contact_yield_pressure(yield_strength: Numeric) -> Numeric:
    """
    Largest pressure of a line contact at which the steel under it begins to yield.

    ::

        p0 = 1.67 Sy

    Parameters
    ----------
    yield_strength : float or array, Pa
        Sy, of the steel at the depth of the largest shear stress, 0.786 half widths.

    Returns
    -------
    float or array, Pa
        p0.

    Raises
    ------
    DomainError
        If yield_strength is negative anywhere.

    Notes
    -----
    By Tresca; 1.79 by von Mises. The largest shear stress is 0.300 p0. NaN in gives NaN out.

    References
    ----------
    .. [1] K. L. Johnson, Contact Mechanics, 1985. Mark: from memory.

    Examples
    --------
    >>> print(f"{line_contact_yield_pressure(621e6) / 1e6:.0f} MPa")
    1037 MPa
    """
    require_not_negative(yield_strength=yield_strength)
    return _TRESCA * np.asarray(yield_strength, dtype=np.float64)[()]
