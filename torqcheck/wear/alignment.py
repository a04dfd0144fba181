"""Tilt and offset from what a dial indicator and a rule show."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.formulas import Symbol, formula
from torqcheck.wear._symbols import KINEMATICS, TILT

__all__ = ["offset_from_runout", "tilt_from_face_reading", "tilt_from_offset"]


@formula(
    "ga = atan(e / Ls)",
    result=TILT,
    source=KINEMATICS,
    offset=Symbol("e", "m", "parallel offset of the two axes"),
    span=Symbol("Ls", "m", "distance between the two meshes"),
)
def tilt_from_offset(offset: Numeric, span: Numeric) -> Numeric:
    """
    Tilt at each mesh of a floating sleeve or adapter whose two shafts are offset.

    ::

        ga = atan(e / Ls)

    Parameters
    ----------
    offset : float or array, m
        e, parallel offset of the two axes. The sign is ignored.
    span : float or array, m
        Ls, distance between the middles of the two meshes.

    Returns
    -------
    float or array, rad
        ga, to be added to the angle between the two shafts on one of the meshes.

    Raises
    ------
    DomainError
        If span is not above zero anywhere.

    Notes
    -----
    Needs two meshes. With one mesh and both shafts rigidly borne the joint has no freedom for an
    offset: see ``offset_slip_path``. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    >>> print(f"{np.degrees(tilt_from_offset(0.1e-3, 60e-3)):.4f} deg")
    0.0955 deg
    """
    require_positive(span=span)
    return np.arctan(np.abs(offset) / span)


@formula(
    "e = TIR / 2",
    result=Symbol("e", "m", "offset of the two axes"),
    source=KINEMATICS,
    reading=Symbol("TIR", "m", "total indicator reading on a rim"),
)
def offset_from_runout(reading: Numeric) -> Numeric:
    """
    Offset of two axes from the total indicator reading on a rim.

    ::

        e = TIR / 2

    Parameters
    ----------
    reading : float or array, m
        TIR, total indicator reading: largest less smallest.

    Returns
    -------
    float or array, m
        e.

    Raises
    ------
    DomainError
        If reading is negative anywhere.

    Notes
    -----
    The dial sees the rim on one side and on the other. What it means depends on what was turned:
    a dial carried round by one shaft and reading the other shaft shows an offset fixed in space;
    a part turned under a fixed dial shows one that turns with it. NaN gives NaN.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    >>> print(f"{offset_from_runout(0.254e-3) * 1e3:.3f} mm")
    0.127 mm
    """
    require_not_negative(reading=reading)
    return 0.5 * np.asarray(reading, dtype=np.float64)[()]


@formula(
    "ga = atan(TIR / Df)",
    result=TILT,
    source=KINEMATICS,
    reading=Symbol("TIR", "m", "total indicator reading on a face"),
    diameter=Symbol("Df", "m", "diameter of the circle on which the dial runs"),
)
def tilt_from_face_reading(reading: Numeric, diameter: Numeric) -> Numeric:
    """
    Tilt of a face from the total indicator reading on it.

    ::

        ga = atan(TIR / Df)

    Parameters
    ----------
    reading : float or array, m
        TIR, total indicator reading: largest less smallest.
    diameter : float or array, m
        Df, diameter of the circle on which the dial runs.

    Returns
    -------
    float or array, rad
        ga.

    Raises
    ------
    DomainError
        If reading is negative, or diameter is not above zero, anywhere.

    Notes
    -----
    Subtract end float before, for instance by readings on opposite sides.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    >>> print(f"{tilt_from_face_reading(0.1e-3, 0.100) * 1e3:.3f} mrad")
    1.000 mrad
    """
    require_not_negative(reading=reading)
    require_positive(diameter=diameter)
    return np.arctan(np.divide(reading, diameter))
