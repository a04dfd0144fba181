"""Elastic stress concentration of keyseats, of retaining-ring grooves, and of holes across a shaft."""

import numpy as np

from torqcheck._types import FloatArray, Numeric
from torqcheck.domain import require_positive
from torqcheck.errors import DomainError
from torqcheck.fatigue._sources import LOADED_KEYSEAT, PETERSON
from torqcheck.fatigue._symbols import BENDING_CONCENTRATION, CONCENTRATION, NOTCH_RADIUS, SECTION
from torqcheck.formulas import formula

__all__ = [
    "KEYSEAT_RANGE",
    "LOADED_KEYSEAT_TORSION",
    "RING_GROOVE_BENDING",
    "RING_GROOVE_RADIUS_OVER_WIDTH",
    "RING_GROOVE_TORSION",
    "SLED_RUNNER_BENDING",
    "keyseat_bending_concentration",
    "keyseat_torsion_concentration",
    "loaded_keyseat_torsion_concentration",
]

KEYSEAT_RANGE = (0.005, 0.07)
"""Corner radius over diameter for which the curves hold."""
LOADED_KEYSEAT_TORSION, _AT = 3.0, 0.02
"""Kts of an end-milled keyseat with its key in place, and the r/d where it stands. Mark: published."""
SLED_RUNNER_BENDING = 1.7
"""Kt of a keyseat cut with a side mill, which runs out gently. Mark: from memory."""
RING_GROOVE_BENDING, RING_GROOVE_TORSION = 5.0, 3.0
"""First estimates for the groove of a retaining ring. Mark: from memory."""
RING_GROOVE_RADIUS_OVER_WIDTH = 0.1
"""Radius at the bottom of such a groove over its width. Mark: published."""


def _inverse_sharpness(fillet_radius: Numeric, diameter: Numeric) -> FloatArray:
    """0.1 d/r, refused outside the range of the curves."""
    require_positive(fillet_radius=fillet_radius, diameter=diameter)
    sharpness = np.asarray(np.divide(fillet_radius, diameter))
    low, high = KEYSEAT_RANGE
    if np.any(np.less(sharpness, low * (1.0 - 1e-9)) | np.greater(sharpness, high * (1.0 + 1e-9))):
        raise DomainError(f"fillet_radius must lie in {low:g} to {high:g} of the diameter")
    return np.asarray(0.1 / sharpness)


@formula(
    "Kt = 1.426 + 0.1643 z - 0.0019 z^2,  z = 0.1 d/r",
    result=BENDING_CONCENTRATION,
    source=PETERSON,
    fillet_radius=NOTCH_RADIUS,
    diameter=SECTION,
)
def keyseat_bending_concentration(fillet_radius: Numeric, diameter: Numeric) -> Numeric:
    """
    Elastic stress concentration at the end of an end-milled keyseat in bending.

    ::

        Kt = 1.426 + 0.1643 z - 0.0019 z^2,  z = 0.1 d/r

    Parameters
    ----------
    fillet_radius : float or array, m
        r, at the bottom corner of the keyseat.
    diameter : float or array, m
        d, of the shaft; the nominal stress stands on the whole section.

    Returns
    -------
    float or array, -
        Kt.

    Raises
    ------
    DomainError
        If fillet_radius lies outside 0.005 to 0.07 of diameter, or a size is not above zero, anywhere.

    Notes
    -----
    For a width of a quarter and a depth of an eighth of the diameter, nothing pressing on the side.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Pilkey, Peterson's Stress Concentration Factors, chart 5.1. Mark: from memory.

    Examples
    --------
    >>> print(f"{keyseat_bending_concentration(0.8e-3, 0.040):.2f}")
    2.20
    """
    z = _inverse_sharpness(fillet_radius, diameter)
    return (1.426 + z * (0.1643 - 0.0019 * z))[()]


@formula(
    "Kts = 1.953 + 0.1434 z - 0.0021 z^2,  z = 0.1 d/r",
    result=CONCENTRATION,
    source=PETERSON,
    fillet_radius=NOTCH_RADIUS,
    diameter=SECTION,
)
def keyseat_torsion_concentration(fillet_radius: Numeric, diameter: Numeric) -> Numeric:
    """
    Elastic stress concentration along the corner of an empty keyseat in torsion.

    ::

        Kts = 1.953 + 0.1434 z - 0.0021 z^2,  z = 0.1 d/r

    Parameters
    ----------
    fillet_radius : float or array, m
        r, at the bottom corner of the keyseat.
    diameter : float or array, m
        d, of the shaft; the nominal stress stands on the whole section.

    Returns
    -------
    float or array, -
        Kts.

    Raises
    ------
    DomainError
        If fillet_radius lies outside 0.005 to 0.07 of diameter, or a size is not above zero, anywhere.

    Notes
    -----
    For a width of a quarter and a depth of an eighth of the diameter, nothing pressing on the side.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Pilkey, Peterson's Stress Concentration Factors, chart 5.2. Mark: from memory.

    Examples
    --------
    >>> print(f"{keyseat_torsion_concentration(0.8e-3, 0.040):.2f}")
    2.62
    """
    z = _inverse_sharpness(fillet_radius, diameter)
    return (1.953 + z * (0.1434 - 0.0021 * z))[()]


@formula(
    "Kts = 3.0 K(r/d)/K(0.02)",
    result=CONCENTRATION,
    source=LOADED_KEYSEAT,
    fillet_radius=NOTCH_RADIUS,
    diameter=SECTION,
)
def loaded_keyseat_torsion_concentration(fillet_radius: Numeric, diameter: Numeric) -> Numeric:
    """
    Elastic stress concentration of a keyseat in torsion when the torque enters through its key.

    ::

        Kts = 3.0 K(r/d)/K(0.02)

    Parameters
    ----------
    fillet_radius : float or array, m
        r, at the bottom corner of the keyseat.
    diameter : float or array, m
        d, of the shaft; the nominal stress stands on the whole section.

    Returns
    -------
    float or array, -
        Kts.

    Raises
    ------
    DomainError
        If fillet_radius lies outside 0.005 to 0.07 of diameter, or a size is not above zero, anywhere.

    Notes
    -----
    K is that of the empty keyseat. Only the value at r/d = 0.02 was read; that the pressure of the key
    raises it by the same share at other radii is our own reading.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Budynas and Nisbett, Mechanical Engineering Design, 9th ed., 2011, p 373, Table 7-1.
       Mark: derived.

    Examples
    --------
    >>> print(f"{loaded_keyseat_torsion_concentration(0.8e-3, 0.040):.2f}")
    3.00
    """
    raised = LOADED_KEYSEAT_TORSION / float(keyseat_torsion_concentration(_AT, 1.0))
    return raised * keyseat_torsion_concentration(fillet_radius, diameter)
