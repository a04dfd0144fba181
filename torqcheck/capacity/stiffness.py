"""Torsional stiffness of shafts and of the spline mesh, in series, and seen through a ratio."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._sources import DERIVED, LECTURE
from torqcheck.capacity._symbols import BORE, LENGTH, OUTER, PITCH, SHARE, TEETH
from torqcheck.capacity.torsion import polar_second_moment
from torqcheck.domain import require_positive, require_share
from torqcheck.errors import DomainError
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source

__all__ = [
    "LOADED_SHARE",
    "SHEAR_MODULUS",
    "TOOTH_STIFFNESS",
    "TOOTH_STIFFNESS_BAND",
    "TOOTH_STIFFNESS_SOURCE",
    "reflected_lash",
    "reflected_stiffness",
    "series_stiffness",
    "spline_mesh_stiffness",
    "torsional_stiffness",
]

SHEAR_MODULUS = 79.3e9
"""Pa, carbon and alloy steel; Budynas and Nisbett, Mechanical Engineering Design, table A-5, from memory."""

TOOTH_STIFFNESS = 15e9
"""N/m2, that is 15 N per mm of face and um, tangential stiffness of one tooth pair."""

TOOTH_STIFFNESS_BAND = (5e9, 30e9)
"""N/m2, between which the true value is expected."""

TOOTH_STIFFNESS_SOURCE = Source("Middle of estimates from gear teeth and from a cantilever", "", "assumed")

LOADED_SHARE = 0.5
"""Share of the teeth that deflect together; the guide's half, assumed for stiffness."""

_RATIO = Symbol("i", "-", "speed upstream over speed downstream")


@formula(
    "k = G pi (D^4 - d^4) / (32 L)",
    result=Symbol("k", "N m/rad", "torsional stiffness"),
    source=LECTURE,
    outer_diameter=OUTER,
    length=Symbol("L", "m", "length that twists"),
    bore=BORE,
    shear_modulus=Symbol("G", "Pa", "shear modulus"),
)
def torsional_stiffness(
    outer_diameter: Numeric, length: Numeric, bore: Numeric = 0.0, shear_modulus: Numeric = SHEAR_MODULUS
) -> Numeric:
    """
    Torsional stiffness of a round shaft, solid or hollow.

    ::

        k = G pi (D^4 - d^4) / (32 L)

    Parameters
    ----------
    outer_diameter : float or array, m
        D. Over a free spline the root diameter, inside the hub the pitch diameter.
    length : float or array, m
        L, length that twists.
    bore : float or array, m, optional
        d, diameter of a concentric hole; 0 for a solid shaft.
    shear_modulus : float or array, Pa, optional
        G; steel by default.

    Returns
    -------
    float or array, N m/rad
        k.

    Raises
    ------
    DomainError
        If outer_diameter is not above bore, bore is negative, or length or shear_modulus is not
        above zero, anywhere.

    Notes
    -----
    At a step, practice adds about a third of the larger diameter to the length of the thinner part
    (common practice, no source). NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Strength-of-materials lecture, torsion of circular shafts. Mark: published.

    Examples
    --------
    >>> print(f"{torsional_stiffness(0.025, 0.150):.2f} N m/rad")
    20274.11 N m/rad
    """
    require_positive(length=length, shear_modulus=shear_modulus)
    return shear_modulus * polar_second_moment(outer_diameter, bore) / length


@formula(
    "1/k = sum(1/k_i)",
    result=Symbol("k", "N m/rad", "torsional stiffness of the whole path"),
    source=DERIVED,
    stiffnesses=Symbol("k_i", "N m/rad", "torsional stiffness of each part"),
)
def series_stiffness(*stiffnesses: Numeric) -> Numeric:
    """
    Torsional stiffness of parts one behind the other.

    ::

        1/k = sum(1/k_i)

    Parameters
    ----------
    stiffnesses : float or array, N m/rad
        k_i, one argument for each part; infinity for a rigid one.

    Returns
    -------
    float or array, N m/rad
        k, below the softest part; infinity only if every part is rigid.

    Raises
    ------
    DomainError
        If no part is given, or a stiffness is not above zero anywhere.

    Notes
    -----
    All parts must be referred to one shaft first: see ``reflected_stiffness``.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived: one torque, twists add. Mark: derived.

    Examples
    --------
    >>> print(f"{series_stiffness(20274.11, 5.832e5):.2f} N m/rad")
    19592.99 N m/rad
    """
    if not stiffnesses:
        raise DomainError("series_stiffness needs at least one part")
    compliance: Numeric = 0.0
    for stiffness in stiffnesses:
        require_positive(stiffness=stiffness)
        compliance = compliance + 1.0 / np.asarray(stiffness, dtype=np.float64)
    with np.errstate(divide="ignore"):  # 1/0 is the rigid path, infinity by intention
        return np.divide(1.0, compliance)


@formula(
    "k = kz N c L (D/2)^2",
    result=Symbol("k", "N m/rad", "torsional stiffness of the spline mesh"),
    source=DERIVED,
    pitch_diameter=PITCH,
    teeth=TEETH,
    length=LENGTH,
    loaded_share=SHARE,
    tooth_stiffness=Symbol("c", "N/m2", "tangential stiffness of a tooth pair per length"),
)
def spline_mesh_stiffness(
    pitch_diameter: Numeric,
    teeth: Numeric,
    length: Numeric,
    loaded_share: Numeric = LOADED_SHARE,
    tooth_stiffness: Numeric = TOOTH_STIFFNESS,
) -> Numeric:
    """
    Torsional stiffness of the teeth of a spline.

    ::

        k = kz N c L (D/2)^2

    Parameters
    ----------
    pitch_diameter : float or array, m
        D.
    teeth : float or array, -
        N.
    length : float or array, m
        L, effective length: see ``torqcheck.capacity.shear_lag``.
    loaded_share : float or array, -, optional
        kz, share of the teeth that carry load; half assumed.
    tooth_stiffness : float or array, N/m2, optional
        c, tangential stiffness of a tooth pair per length; assumed 15 N/(mm um), band 5 to 30.

    Returns
    -------
    float or array, N m/rad
        k.

    Raises
    ------
    DomainError
        If a size or tooth_stiffness is not above zero, or loaded_share is not in (0, 1], anywhere.

    Notes
    -----
    The stiffness of a real spline grows with torque, as more teeth touch, and falls with tilt. In
    most paths it is far above that of the shafts, so that its wide band hardly matters; in a
    short stub it does. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived: tooth pairs as springs at the pitch radius. Mark: derived; the default values: assumed.

    Examples
    --------
    >>> print(f"{spline_mesh_stiffness(0.036, 18, 0.030):.4g} N m/rad")
    1.312e+06 N m/rad
    """
    require_positive(
        pitch_diameter=pitch_diameter, teeth=teeth, length=length, tooth_stiffness=tooth_stiffness
    )
    require_share(loaded_share=loaded_share)
    return loaded_share * teeth * tooth_stiffness * length * (0.5 * pitch_diameter) ** 2


@formula(
    "k_up = k / i^2",
    result=Symbol("k_up", "N m/rad", "stiffness as felt on the upstream shaft"),
    source=DERIVED,
    stiffness=Symbol("k", "N m/rad", "stiffness on the downstream shaft"),
    ratio=_RATIO,
)
def reflected_stiffness(stiffness: Numeric, ratio: Numeric) -> Numeric:
    """
    Torsional stiffness of a downstream part as felt on the upstream shaft.

    ::

        k_up = k / i^2

    Parameters
    ----------
    stiffness : float or array, N m/rad
        k, on the downstream shaft.
    ratio : float or array, -
        i, speed upstream over speed downstream; above 1 for a reduction.

    Returns
    -------
    float or array, N m/rad
        k_up. To go the other way give 1/i.

    Raises
    ------
    DomainError
        If stiffness or ratio is not above zero anywhere.

    Notes
    -----
    Inertia and damping follow the same square; torque follows 1/i and lash follows i. Efficiency
    acts on steady torque and not on stiffness. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived: equal energy on both sides of the ratio. Mark: derived.

    Examples
    --------
    >>> print(f"{reflected_stiffness(9000.0, 3.0):.1f} N m/rad")
    1000.0 N m/rad
    """
    require_positive(stiffness=stiffness, ratio=ratio)
    return stiffness / ratio**2


@formula(
    "b_up = b i",
    result=Symbol("b_up", "rad", "lash as felt on the upstream shaft"),
    source=DERIVED,
    lash=Symbol("b", "rad", "lash on the downstream shaft"),
    ratio=_RATIO,
)
def reflected_lash(lash: Numeric, ratio: Numeric) -> Numeric:
    """
    Rotational play of a downstream joint as felt on the upstream shaft.

    ::

        b_up = b i

    Parameters
    ----------
    lash : float or array, rad
        b, on the downstream shaft.
    ratio : float or array, -
        i, speed upstream over speed downstream; above 1 for a reduction.

    Returns
    -------
    float or array, rad
        b_up: lash behind a reduction looks larger to the motor. One degree at an axle behind
        12 to 1 is twelve at the motor.

    Raises
    ------
    DomainError
        If ratio is not above zero anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived: angles upstream are i times those downstream. Mark: derived.

    Examples
    --------
    >>> print(f"{np.degrees(reflected_lash(np.radians(1.0), 12.0)):.1f} deg")
    12.0 deg
    """
    require_positive(ratio=ratio)
    return lash * ratio
