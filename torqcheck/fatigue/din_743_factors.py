"""Factors on the endurance limit in torsion by the outline of DIN 743: size, surface, notch of a spline."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.errors import DomainError
from torqcheck.fatigue._sources import DIN_743
from torqcheck.fatigue._symbols import STRENGTH_SIZE, ULTIMATE
from torqcheck.formulas import Symbol, formula

__all__ = [
    "din_roughness_factor",
    "din_size_factor",
    "din_spline_notch_factor",
    "din_strength_size_factor",
    "din_total_factor",
]

_TORSION_OF_ROUGHNESS, _TORSION_OFFSET = 0.575, 0.425
_INVOLUTE_SHARE = 0.75
_REFERENCE, _SIZE_BEGINS, _SIZE_ENDS = 7.5e-3, 7.5e-3, 150e-3  # m
_STRENGTH_BEGINS, _STRENGTH_ENDS = 16e-3, 300e-3  # m

_DIAMETER = Symbol("d", "m", "diameter of the section")
_SIZE = Symbol("K2", "-", "size factor of the limit")
_NOTCH = Symbol("bt", "-", "fatigue notch factor in torsion")


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
    result=STRENGTH_SIZE,
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
