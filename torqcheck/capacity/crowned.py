"""Crowned teeth: pressure and width of the contact (Hertz, along a line)."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._sources import DERIVED, HERTZ
from torqcheck.capacity._symbols import HEIGHT, PITCH, TEETH, TORQUE
from torqcheck.domain import require_poisson_ratio, require_positive
from torqcheck.formulas import Symbol, formula

__all__ = ["ELASTIC_MODULUS", "POISSON_RATIO", "contact_half_width", "crowned_flank_pressure"]

ELASTIC_MODULUS = 206.842719e9
"""Pa; the 30,000,000 psi that the guide's constant 2290 contains."""

POISSON_RATIO = 0.3
"""Poisson's ratio that the guide's constant 2290 contains."""

_RADIUS = Symbol("r2", "m", "radius of curvature of the crowned flank")
_MODULUS = Symbol("E", "Pa", "modulus of elasticity of both members")
_POISSON = Symbol("nu", "-", "Poisson's ratio of both members")


def _reduced_modulus(elastic_modulus: Numeric, poisson_ratio: Numeric) -> Numeric:
    """Contact modulus of two members of one material."""
    require_poisson_ratio(poisson_ratio=poisson_ratio)
    return 0.5 * elastic_modulus / (1.0 - poisson_ratio**2)


def _line_load(torque: Numeric, pitch_diameter: Numeric, teeth: Numeric, height: Numeric) -> Numeric:
    """Load per length of contact line, all teeth sharing; the cosines of load and length cancel."""
    require_positive(pitch_diameter=pitch_diameter, teeth=teeth, height=height)
    return 2.0 * np.abs(torque) / (pitch_diameter * teeth * height)


@formula(
    "p0 = sqrt(w E' / (pi r2)),  w = 2 T / (D N h),  E' = E / (2 (1 - nu^2))",
    result=Symbol("p0", "Pa", "largest pressure on a crowned flank"),
    source=HERTZ,
    torque=TORQUE,
    pitch_diameter=PITCH,
    teeth=TEETH,
    height=HEIGHT,
    crown_radius=_RADIUS,
    elastic_modulus=_MODULUS,
    poisson_ratio=_POISSON,
)
def crowned_flank_pressure(
    torque: Numeric,
    pitch_diameter: Numeric,
    teeth: Numeric,
    height: Numeric,
    crown_radius: Numeric,
    elastic_modulus: Numeric = ELASTIC_MODULUS,
    poisson_ratio: Numeric = POISSON_RATIO,
) -> Numeric:
    """
    Largest pressure on crowned flanks, all teeth sharing, without factors.

    ::

        p0 = sqrt(w E' / (pi r2)),  w = 2 T / (D N h),  E' = E / (2 (1 - nu^2))

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    pitch_diameter : float or array, m
        D.
    teeth : float or array, -
        N. All of them are counted.
    height : float or array, m
        h, radial depth of engagement.
    crown_radius : float or array, m
        r2, radius of curvature of the crowned flank.
    elastic_modulus : float or array, Pa, optional
        E, of both members.
    poisson_ratio : float or array, -, optional
        nu, of both members.

    Returns
    -------
    float or array, Pa
        p0, to be held against the guide's column for crowned teeth.

    Raises
    ------
    DomainError
        If a size or elastic_modulus is not above zero, or poisson_ratio not from 0 to 0.5, anywhere.

    Notes
    -----
    Contact of a cylinder with a plane along a line (Hertz). The guide prints it as
    2290 sqrt(2 T / (D N h r2)) in inches and psi; 30e6 psi and nu = 0.3 give 2290.6. It prints no
    factors with it. The stress grows with the root of the torque, so that load factors belong
    under the root. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Machinery's Handbook, Involute Splines, crowned splines. Mark: from memory; its
       constant: derived.

    Examples
    --------
    >>> print(f"{crowned_flank_pressure(54.0, 0.0142875, 18, 7.14375e-4, 1.819) / 1e6:.1f} MPa")
    108.1 MPa
    """
    require_positive(crown_radius=crown_radius, elastic_modulus=elastic_modulus)
    load = _line_load(torque, pitch_diameter, teeth, height)
    return np.sqrt(load * _reduced_modulus(elastic_modulus, poisson_ratio) / (np.pi * crown_radius))


@formula(
    "b = sqrt(4 w r2 / (pi E'))",
    result=Symbol("b", "m", "half width of the contact along the tooth"),
    source=DERIVED,
    torque=TORQUE,
    pitch_diameter=PITCH,
    teeth=TEETH,
    height=HEIGHT,
    crown_radius=_RADIUS,
    elastic_modulus=_MODULUS,
    poisson_ratio=_POISSON,
)
def contact_half_width(
    torque: Numeric,
    pitch_diameter: Numeric,
    teeth: Numeric,
    height: Numeric,
    crown_radius: Numeric,
    elastic_modulus: Numeric = ELASTIC_MODULUS,
    poisson_ratio: Numeric = POISSON_RATIO,
) -> Numeric:
    """
    Half width, along the tooth, of the contact on a crowned flank.

    ::

        b = sqrt(4 w r2 / (pi E'))          w and E' as in ``crowned_flank_pressure``

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    pitch_diameter : float or array, m
        D.
    teeth : float or array, -
        N. All of them are counted.
    height : float or array, m
        h, radial depth of engagement.
    crown_radius : float or array, m
        r2, radius of curvature of the crowned flank.
    elastic_modulus : float or array, Pa, optional
        E, of both members.
    poisson_ratio : float or array, -, optional
        nu, of both members.

    Returns
    -------
    float or array, m
        b.

    Raises
    ------
    DomainError
        If a size or elastic_modulus is not above zero, or poisson_ratio not from 0 to 0.5, anywhere.

    Notes
    -----
    Hertz: p0 = 2 w / (pi b). NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived from the line contact of Hertz. Mark: derived.

    Examples
    --------
    >>> print(f"{contact_half_width(54.0, 0.0142875, 18, 7.14375e-4, 1.819) * 1e3:.2f} mm")
    3.46 mm
    """
    require_positive(crown_radius=crown_radius, elastic_modulus=elastic_modulus)
    load = _line_load(torque, pitch_diameter, teeth, height)
    return np.sqrt(4.0 * load * crown_radius / (np.pi * _reduced_modulus(elastic_modulus, poisson_ratio)))
