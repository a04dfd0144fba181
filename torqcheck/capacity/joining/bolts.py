"""Areas of threads and the loads that bolts are made for."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._sources import DERIVED
from torqcheck.capacity.joining._bolt_symbols import (
    BOLT_DIAMETER,
    INCH_THREAD,
    METRIC_THREAD,
    PITCH,
    PRELOAD,
    PROOF,
    SCREW_STRETCH,
    TENSILE_AREA,
)
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.errors import DomainError
from torqcheck.formulas import Symbol, formula

__all__ = [
    "bolt_shank_area",
    "inch_root_area",
    "inch_tensile_area",
    "metric_root_area",
    "metric_tensile_area",
    "proof_load",
    "share_of_proof",
]

METRIC_TENSILE, INCH_TENSILE = 0.938194, 0.9743
METRIC_ROOT, INCH_ROOT = 1.226869, 1.299038
"""What the diameters of these areas are smaller by than the nominal one, in pitches."""

_ROOT = Symbol("Ar", "m2", "area at the root of the thread")


def _area(diameter: Numeric, pitch: Numeric, pitches: float) -> Numeric:
    """Return the area of a circle that is smaller than the thread by so many pitches."""
    require_positive(diameter=diameter, pitch=pitch)
    if np.any(np.less_equal(diameter, 2.0 * np.asarray(pitch))):
        raise DomainError("diameter must be above two pitches; a thread is finer than that")
    return 0.25 * np.pi * (diameter - pitches * pitch) ** 2


@formula(
    "At = (pi / 4) (d - 0.938194 p)^2",
    result=TENSILE_AREA,
    source=METRIC_THREAD,
    diameter=BOLT_DIAMETER,
    pitch=PITCH,
)
def metric_tensile_area(diameter: Numeric, pitch: Numeric) -> Numeric:
    """
    Tensile stress area of a metric thread.

    ::

        At = (pi / 4) (d - 0.938194 p)^2

    Parameters
    ----------
    diameter : float or array, m
        d, nominal.
    pitch : float or array, m
        p.

    Returns
    -------
    float or array, m2
        At.

    Raises
    ------
    DomainError
        If an argument is not above zero, or the diameter is not above two pitches, anywhere.

    Notes
    -----
    The area of a plain rod that breaks under the same load; between root and pitch diameter.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Course notes on fasteners. Mark: published.

    Examples
    --------
    >>> print(f"{metric_tensile_area(0.010, 0.0015) * 1e6:.1f} mm2")
    58.0 mm2
    """
    return _area(diameter, pitch, METRIC_TENSILE)


@formula(
    "At = (pi / 4) (d - 0.9743 p)^2",
    result=TENSILE_AREA,
    source=INCH_THREAD,
    diameter=BOLT_DIAMETER,
    pitch=PITCH,
)
def inch_tensile_area(diameter: Numeric, pitch: Numeric) -> Numeric:
    """
    Tensile stress area of a unified inch thread.

    ::

        At = (pi / 4) (d - 0.9743 p)^2

    Parameters
    ----------
    diameter : float or array, m
        d, nominal.
    pitch : float or array, m
        p, one inch over the threads per inch.

    Returns
    -------
    float or array, m2
        At.

    Raises
    ------
    DomainError
        If an argument is not above zero, or the diameter is not above two pitches, anywhere.

    Notes
    -----
    The inch standard takes a little more off than the metric one, 0.9743 pitches, though the profile is
    the same. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] ASME B1.1. Mark: from memory.

    Examples
    --------
    >>> print(f"{inch_tensile_area(0.0127, 0.0254 / 13) / 0.0254**2:.4f} in2")
    0.1419 in2
    """
    return _area(diameter, pitch, INCH_TENSILE)


@formula(
    "Ar = (pi / 4) (d - 1.226869 p)^2",
    result=_ROOT,
    source=SCREW_STRETCH,
    diameter=BOLT_DIAMETER,
    pitch=PITCH,
)
def metric_root_area(diameter: Numeric, pitch: Numeric) -> Numeric:
    """
    Area at the root of a metric thread, for threads in a shear plane.

    ::

        Ar = (pi / 4) (d - 1.226869 p)^2

    Parameters
    ----------
    diameter : float or array, m
        d, nominal.
    pitch : float or array, m
        p.

    Returns
    -------
    float or array, m2
        Ar.

    Raises
    ------
    DomainError
        If an argument is not above zero, or the diameter is not above two pitches, anywhere.

    Notes
    -----
    Some works take the tensile area here, which is a tenth larger. NaN in any argument gives NaN in the
    same place.

    References
    ----------
    .. [1] Budynas and Nisbett, Mechanical Engineering Design, Table 8-1. Mark: from memory.

    Examples
    --------
    >>> print(f"{metric_root_area(0.010, 0.0015) * 1e6:.1f} mm2")
    52.3 mm2
    """
    return _area(diameter, pitch, METRIC_ROOT)


@formula(
    "Ar = (pi / 4) (d - 1.299038 p)^2",
    result=_ROOT,
    source=SCREW_STRETCH,
    diameter=BOLT_DIAMETER,
    pitch=PITCH,
)
def inch_root_area(diameter: Numeric, pitch: Numeric) -> Numeric:
    """
    Area at the root of a unified inch thread, for threads in a shear plane.

    ::

        Ar = (pi / 4) (d - 1.299038 p)^2

    Parameters
    ----------
    diameter : float or array, m
        d, nominal.
    pitch : float or array, m
        p, one inch over the threads per inch.

    Returns
    -------
    float or array, m2
        Ar.

    Raises
    ------
    DomainError
        If an argument is not above zero, or the diameter is not above two pitches, anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Budynas and Nisbett, Mechanical Engineering Design, Table 8-2. Mark: from memory.

    Examples
    --------
    >>> print(f"{inch_root_area(0.0127, 0.0254 / 13) / 0.0254**2:.4f} in2")
    0.1257 in2
    """
    return _area(diameter, pitch, INCH_ROOT)


@formula(
    "A = (pi / 4) d^2",
    result=Symbol("A", "m2", "section of the plain shank"),
    source=DERIVED,
    diameter=BOLT_DIAMETER,
)
def bolt_shank_area(diameter: Numeric) -> Numeric:
    """
    Section of a plain shank or a dowel.

    ::

        A = (pi / 4) d^2

    Parameters
    ----------
    diameter : float or array, m
        d.

    Returns
    -------
    float or array, m2
        A.

    Raises
    ------
    DomainError
        If diameter is not above zero, anywhere.

    Notes
    -----
    NaN gives NaN in the same place.

    References
    ----------
    .. [1] Area of a circle. Mark: derived.

    Examples
    --------
    >>> print(f"{bolt_shank_area(0.012) * 1e6:.1f} mm2")
    113.1 mm2
    """
    require_positive(diameter=diameter)
    return 0.25 * np.pi * np.square(diameter)


@formula(
    "Fp = At Sp",
    result=Symbol("Fp", "N", "proof load"),
    source=SCREW_STRETCH,
    tensile_area=TENSILE_AREA,
    proof_strength=PROOF,
)
def proof_load(tensile_area: Numeric, proof_strength: Numeric) -> Numeric:
    """
    Load that a bolt must bear without lasting stretch.

    ::

        Fp = At Sp

    Parameters
    ----------
    tensile_area : float or array, m2
        At.
    proof_strength : float or array, Pa
        Sp; with the yield or the tensile strength it is the load at which the bolt stretches or breaks.

    Returns
    -------
    float or array, N
        Fp.

    Raises
    ------
    DomainError
        If an argument is not above zero, anywhere.

    Notes
    -----
    Usual preloads are 0.75 Fp for bolts that are taken out again and 0.90 Fp for those that stay [1]_.
    The torsion of tightening is not in it. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Instructor's solutions to Budynas and Nisbett, Mechanical Engineering Design, 8-29 and 8-37.
       Mark: published. The definition: from memory.

    Examples
    --------
    >>> print(f"{0.90 * proof_load(245e-6, 600e6) / 1e3:.1f} kN")
    132.3 kN
    """
    require_positive(tensile_area=tensile_area, proof_strength=proof_strength)
    return tensile_area * proof_strength


@formula(
    "x = Fi / (At Sp)",
    result=Symbol("x", "-", "share of the proof load"),
    source=SCREW_STRETCH,
    preload=PRELOAD,
    tensile_area=TENSILE_AREA,
    proof_strength=PROOF,
)
def share_of_proof(preload: Numeric, tensile_area: Numeric, proof_strength: Numeric) -> Numeric:
    """
    Preload as a share of the proof load.

    ::

        x = Fi / (At Sp)

    Parameters
    ----------
    preload : float or array, N
        Fi.
    tensile_area : float or array, m2
        At.
    proof_strength : float or array, Pa
        Sp.

    Returns
    -------
    float or array, -
        x; above 1 the bolt may stay stretched.

    Raises
    ------
    DomainError
        If preload is negative, or another argument is not above zero, anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Definition of the proof load. Mark: from memory.

    Examples
    --------
    >>> print(f"{share_of_proof(25.2e3, 58.0e-6, 580e6):.2f}")
    0.75
    """
    require_not_negative(preload=preload)
    return preload / proof_load(tensile_area, proof_strength)
