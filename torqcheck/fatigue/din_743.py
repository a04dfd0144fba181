"""Endurance in torsion by the outline of DIN 743: a second method, shown beside, never blended."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.errors import DomainError
from torqcheck.fatigue._sources import DIN_743
from torqcheck.fatigue._symbols import ULTIMATE
from torqcheck.formulas import Symbol, formula

__all__ = [
    "DIN_743_LEAST_SAFETY",
    "din_allowable_amplitude",
    "din_endurance_limit",
    "din_mean_sensitivity",
    "din_roughness_factor",
    "din_size_factor",
    "din_spline_notch_factor",
    "din_strength_size_factor",
    "din_total_factor",
]

DIN_743_LEAST_SAFETY = 1.2
"""Least safety factor that the standard asks for. Mark: from memory."""

_LIMIT_SHARE = 0.3
_TORSION_OF_ROUGHNESS, _TORSION_OFFSET = 0.575, 0.425
_INVOLUTE_SHARE = 0.75
_REFERENCE, _SIZE_BEGINS, _SIZE_ENDS = 7.5e-3, 7.5e-3, 150e-3  # m
_STRENGTH_BEGINS, _STRENGTH_ENDS = 16e-3, 300e-3  # m

_DIAMETER = Symbol("d", "m", "diameter of the section")
_SIZE = Symbol("K2", "-", "size factor of the limit")
_NOTCH = Symbol("bt", "-", "fatigue notch factor in torsion")
_STRENGTH_SIZE = Symbol("K1", "-", "size factor of the strength, heat treatment of thick sections")
_LIMIT = Symbol("tWK", "Pa", "endurance limit of the notched part in reversed torsion")


@formula(
    "K2 = 1 - 0.2 lg(d/7.5 mm)/lg 20",
    result=_SIZE,
    source=DIN_743,
    diameter=_DIAMETER,
)
def din_size_factor(diameter: Numeric) -> Numeric:
    """
    Size factor of the endurance limit in bending and torsion.

    ::

        K2 = 1 - 0.2 lg(d/7.5 mm)/lg 20

    Parameters
    ----------
    diameter : float or array, m
        d.

    Returns
    -------
    float or array, -
        K2; held at 1 below 7.5 mm and at 0.8 above 150 mm.

    Raises
    ------
    DomainError
        If diameter is not above zero anywhere.

    Notes
    -----
    NaN gives NaN.

    References
    ----------
    .. [1] DIN 743, outline. Mark: from memory.

    Examples
    --------
    >>> print(f"{din_size_factor(0.030):.6f}")
    0.907449
    """
    require_positive(diameter=diameter)
    d = np.clip(diameter, _SIZE_BEGINS, _SIZE_ENDS)
    factor: Numeric = 1.0 - 0.2 * np.log10(d / _REFERENCE) / np.log10(20.0)
    return factor


@formula(
    "KFt = 0.575 KFs + 0.425,  KFs = 1 - 0.22 lg(Rz/um) (lg(Sut/20 MPa) - 1)",
    result=Symbol("KFt", "-", "roughness factor in torsion"),
    source=DIN_743,
    ultimate_strength=ULTIMATE,
    roughness=Symbol("Rz", "m", "mean roughness depth of the surface"),
)
def din_roughness_factor(ultimate_strength: Numeric, roughness: Numeric) -> Numeric:
    """
    Roughness factor of the endurance limit in torsion.

    ::

        KFt = 0.575 KFs + 0.425,  KFs = 1 - 0.22 lg(Rz/um) (lg(Sut/20 MPa) - 1)

    Parameters
    ----------
    ultimate_strength : float or array, Pa
        Sut.
    roughness : float or array, m
        Rz; below 1 um it counts as 1 um.

    Returns
    -------
    float or array, -
        KFt.

    Raises
    ------
    DomainError
        If either is not above zero anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] DIN 743, outline. Mark: from memory.

    Examples
    --------
    >>> print(f"{din_roughness_factor(1000e6, 10e-6):.6f}")
    0.911580
    """
    require_positive(ultimate_strength=ultimate_strength, roughness=roughness)
    depth = np.log10(np.maximum(np.multiply(roughness, 1e6), 1.0))
    bending = 1.0 - 0.22 * depth * (np.log10(np.divide(ultimate_strength, 20e6)) - 1.0)
    return _TORSION_OF_ROUGHNESS * bending + _TORSION_OFFSET


@formula(
    "K1 = 1 - 0.26 lg(d/16 mm)",
    result=_STRENGTH_SIZE,
    source=DIN_743,
    diameter=_DIAMETER,
)
def din_strength_size_factor(diameter: Numeric) -> Numeric:
    """
    Ultimate strength of a thick quenched and tempered bar over that of the tabulated one.

    ::

        K1 = 1 - 0.26 lg(d/16 mm)

    Parameters
    ----------
    diameter : float or array, m
        d, of the bar when it was heat treated.

    Returns
    -------
    float or array, -
        K1; 1 up to 16 mm. Also 1 where the strength in hand is that of the section itself.

    Raises
    ------
    DomainError
        If diameter is not above zero or exceeds 300 mm anywhere.

    Notes
    -----
    NaN gives NaN.

    References
    ----------
    .. [1] DIN 743, outline. Mark: from memory.

    Examples
    --------
    >>> print(f"{din_strength_size_factor(0.030):.3f}")
    0.929
    """
    require_positive(diameter=diameter)
    if np.any(np.greater(diameter, _STRENGTH_ENDS)):
        raise DomainError("diameter must be at most 300 mm (and is taken in m)")
    return (1.0 - 0.26 * np.log10(np.maximum(diameter, _STRENGTH_BEGINS) / _STRENGTH_BEGINS))[()]


@formula(
    "bt = 1 + c (exp(4.2e-7 (Sut/MPa)^2) - 1)",
    result=_NOTCH,
    source=DIN_743,
    ultimate_strength=ULTIMATE,
    form_share=Symbol("c", "-", "share by the form of the spline: 1 straight or serration, 0.75 involute"),
)
def din_spline_notch_factor(ultimate_strength: Numeric, form_share: Numeric = _INVOLUTE_SHARE) -> Numeric:
    """
    Fatigue notch factor of a splined shaft in torsion.

    ::

        bt = 1 + c (exp(4.2e-7 (Sut/MPa)^2) - 1)

    Parameters
    ----------
    ultimate_strength : float or array, Pa
        Sut.
    form_share : float or array, -, optional
        c; 0.75 for an involute spline, 1 for a straight-sided one or a serration.

    Returns
    -------
    float or array, -
        bt, on a diameter of 29 mm; its small dependence on size is left out.

    Raises
    ------
    DomainError
        If ultimate_strength lies outside 0 to 1400 MPa, or form_share is negative, anywhere.

    Notes
    -----
    A fatigue factor, notch sensitivity included: not comparable with an elastic stress
    concentration. The end of its range is that of the strengths usual in it (assumed).
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] DIN 743-2. Mark: from memory.

    Examples
    --------
    >>> print(f"{din_spline_notch_factor(1000e6):.3f}")
    1.391
    """
    require_positive(ultimate_strength=ultimate_strength)
    require_not_negative(form_share=form_share)
    if np.any(np.greater(ultimate_strength, 1400e6)):
        raise DomainError("ultimate_strength must be at most 1400 MPa")
    return 1.0 + form_share * np.expm1(4.2e-7 * np.square(np.divide(ultimate_strength, 1e6)))


@formula(
    "Kt = (bt/K2 + 1/KFt - 1)/KV",
    result=Symbol("Kt", "-", "total factor on the endurance limit"),
    source=DIN_743,
    notch_factor=_NOTCH,
    size_factor=_SIZE,
    roughness_factor=Symbol("KFt", "-", "roughness factor in torsion"),
    hardening=Symbol("KV", "-", "factor of a hardened surface, 1 or more"),
)
def din_total_factor(
    notch_factor: Numeric, size_factor: Numeric, roughness_factor: Numeric, hardening: Numeric = 1.0
) -> Numeric:
    """
    Factor by which notch, size and surface lower the endurance limit.

    ::

        Kt = (bt/K2 + 1/KFt - 1)/KV

    Parameters
    ----------
    notch_factor : float or array, -
        bt.
    size_factor : float or array, -
        K2.
    roughness_factor : float or array, -
        KFt.
    hardening : float or array, -, optional
        KV; 1 takes no credit for a hard layer.

    Returns
    -------
    float or array, -
        Kt.

    Raises
    ------
    DomainError
        If anything is not above zero anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] DIN 743, outline. Mark: from memory.

    Examples
    --------
    >>> print(f"{din_total_factor(1.39, 0.907449, 0.911580):.6f}")
    1.628763
    """
    require_positive(
        notch_factor=notch_factor,
        size_factor=size_factor,
        roughness_factor=roughness_factor,
        hardening=hardening,
    )
    return (np.divide(notch_factor, size_factor) + np.divide(1.0, roughness_factor) - 1.0) / hardening


@formula(
    "tWK = 0.3 Sut K1/Kt",
    result=_LIMIT,
    source=DIN_743,
    ultimate_strength=ULTIMATE,
    total_factor=Symbol("Kt", "-", "total factor on the endurance limit"),
    strength_size=_STRENGTH_SIZE,
)
def din_endurance_limit(
    ultimate_strength: Numeric, total_factor: Numeric, strength_size: Numeric = 1.0
) -> Numeric:
    """
    Endurance limit of the notched part in reversed torsion, as a nominal stress.

    ::

        tWK = 0.3 Sut K1/Kt

    Parameters
    ----------
    ultimate_strength : float or array, Pa
        Sut, of the reference bar; of the section with K1 = 1.
    total_factor : float or array, -
        Kt.
    strength_size : float or array, -, optional
        K1.

    Returns
    -------
    float or array, Pa
        tWK.

    Raises
    ------
    DomainError
        If anything is not above zero anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] DIN 743, outline. Mark: from memory.

    Examples
    --------
    >>> print(f"{din_endurance_limit(1000e6, 1.628763, 0.95) / 1e6:.3f} MPa")
    174.979 MPa
    """
    require_positive(
        ultimate_strength=ultimate_strength, total_factor=total_factor, strength_size=strength_size
    )
    return _LIMIT_SHARE * ultimate_strength * strength_size / total_factor


@formula(
    "psi = tWK / (2 K1 Sut - tWK)",
    result=Symbol("psi", "-", "sensitivity to mean stress"),
    source=DIN_743,
    notched_limit=_LIMIT,
    ultimate_strength=ULTIMATE,
    strength_size=_STRENGTH_SIZE,
)
def din_mean_sensitivity(
    notched_limit: Numeric, ultimate_strength: Numeric, strength_size: Numeric = 1.0
) -> Numeric:
    """
    Sensitivity of the endurance limit in torsion to the mean stress.

    ::

        psi = tWK / (2 K1 Sut - tWK)

    Parameters
    ----------
    notched_limit : float or array, Pa
        tWK.
    ultimate_strength : float or array, Pa
        Sut.
    strength_size : float or array, -, optional
        K1.

    Returns
    -------
    float or array, -
        psi.

    Raises
    ------
    DomainError
        If anything is not above zero, or tWK is not below 2 K1 Sut, anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] DIN 743, outline. Mark: from memory.

    Examples
    --------
    >>> print(f"{din_mean_sensitivity(174.979e6, 1000e6, 0.95):.6f}")
    0.101436
    """
    require_positive(
        notched_limit=notched_limit, ultimate_strength=ultimate_strength, strength_size=strength_size
    )
    left = 2.0 * np.multiply(strength_size, ultimate_strength) - notched_limit
    if np.any(np.less_equal(left, 0.0)):
        raise DomainError("notched_limit must be below twice the ultimate strength")
    return notched_limit / left


@formula(
    "tA = tWK / (1 + psi |tm|/ta)",
    result=Symbol("tA", "Pa", "amplitude that is borne for ever, at the same ratio of mean to amplitude"),
    source=DIN_743,
    notched_limit=_LIMIT,
    mean_sensitivity=Symbol("psi", "-", "sensitivity to mean stress"),
    mean_over_amplitude=Symbol("tm/ta", "-", "mean over amplitude of the nominal stress"),
)
def din_allowable_amplitude(
    notched_limit: Numeric, mean_sensitivity: Numeric, mean_over_amplitude: Numeric
) -> Numeric:
    """
    Amplitude in torsion that is borne for ever, amplitude and mean growing together.

    ::

        tA = tWK / (1 + psi |tm|/ta)

    Parameters
    ----------
    notched_limit : float or array, Pa
        tWK.
    mean_sensitivity : float or array, -
        psi.
    mean_over_amplitude : float or array, -
        tm/ta; its sign is ignored.

    Returns
    -------
    float or array, Pa
        tA, a nominal stress; over the amplitude it is the safety factor, 1.2 or more wanted.

    Raises
    ------
    DomainError
        If notched_limit is not above zero, or mean_sensitivity is negative, anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] DIN 743, outline. Mark: from memory.

    Examples
    --------
    >>> print(f"{din_allowable_amplitude(174.979e6, 0.101436, 1.0) / 1e6:.3f} MPa")
    158.864 MPa
    """
    require_positive(notched_limit=notched_limit)
    require_not_negative(mean_sensitivity=mean_sensitivity)
    return notched_limit / (1.0 + mean_sensitivity * np.abs(mean_over_amplitude))
