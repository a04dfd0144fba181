"""What a dial indicator shows at four places of the clock, turned into offset and tilt along one line."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import require_positive
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source
from torqcheck.wear._symbols import KINEMATICS

__all__ = [
    "closing_error",
    "fixed_part",
    "offset_component",
    "tilt_component",
    "total_indicator_reading",
    "turning_part",
]

_CLOSING = Source("Derived: the rim of a round part, swept once", "", "derived")
_TOP = Symbol("t", "m", "reading of the dial at the top")
_RIGHT = Symbol("r", "m", "reading of the dial at the right")
_BOTTOM = Symbol("b", "m", "reading of the dial at the bottom")
_LEFT = Symbol("l", "m", "reading of the dial at the left")
_READING = Symbol("r1", "m", "reading of the dial at one place, larger as the plunger goes in")
_OPPOSITE = Symbol("r2", "m", "reading of the dial at the opposite place")
_HALF_TURN = Symbol("r'", "m", "the same after the part that is read was turned half a turn")


@formula(
    "TIR = max(t, r, b, l) - min(t, r, b, l)",
    result=Symbol("TIR", "m", "total indicator reading"),
    source=KINEMATICS,
    top=_TOP,
    right=_RIGHT,
    bottom=_BOTTOM,
    left=_LEFT,
)
def total_indicator_reading(top: Numeric, right: Numeric, bottom: Numeric, left: Numeric) -> Numeric:
    """
    Total indicator reading of a sweep that was read at four places.

    ::

        TIR = max(t, r, b, l) - min(t, r, b, l)

    Parameters
    ----------
    top : float or array, m
        t.
    right : float or array, m
        r.
    bottom : float or array, m
        b.
    left : float or array, m
        l.

    Returns
    -------
    float or array, m
        TIR, never negative.

    Raises
    ------
    Nothing
        Every reading is allowed.

    Notes
    -----
    Of a round rim that is off centre by e in a direction between two of the places, the four show
    less than the whole sweep: at 45 degrees only 1.41 e of the 2 e. Offset and tilt are therefore
    taken from the components. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Definition. Mark: derived.

    Examples
    --------
    >>> print(f"{total_indicator_reading(0.0, 0.08e-3, -0.05e-3, 0.08e-3) * 1e3:.2f} mm")
    0.13 mm
    """
    readings = np.stack(np.broadcast_arrays(top, right, bottom, left)).astype(np.float64)
    total: Numeric = np.max(readings, axis=0) - np.min(readings, axis=0)
    return total


@formula(
    "d = t + b - r - l",
    result=Symbol("d", "m", "what the four readings miss closing by"),
    source=_CLOSING,
    top=_TOP,
    right=_RIGHT,
    bottom=_BOTTOM,
    left=_LEFT,
)
def closing_error(top: Numeric, right: Numeric, bottom: Numeric, left: Numeric) -> Numeric:
    """
    What four readings around a round part, or a flat face, miss closing by.

    ::

        d = t + b - r - l

    Parameters
    ----------
    top : float or array, m
        t.
    right : float or array, m
        r.
    bottom : float or array, m
        b.
    left : float or array, m
        l.

    Returns
    -------
    float or array, m
        d; 0 for a sound set.

    Raises
    ------
    Nothing
        Every reading is allowed.

    Notes
    -----
    A rim off centre, and a flat face out of square, change the reading by the cosine of the angle
    around, so that two opposite readings have the same sum wherever they are taken. The sag of a bracket
    adds as much to the left and right together as to top and bottom, and does not show here. What
    shows: a dial that slipped, a rim that is not round, a warped face, play of a bearing. The second
    order of the offset, e^2/R, is far below what a dial reads. NaN gives NaN.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    >>> print(f"{closing_error(0.0, 0.07e-3, 0.10e-3, 0.02e-3) * 1e3:.2f} mm")
    0.01 mm
    """
    return np.add(top, bottom) - right - left


@formula(
    "e = (r1 - r2 - s) / 2",
    result=Symbol("e", "m", "offset of the part that is read, towards the first place"),
    source=KINEMATICS,
    reading=_READING,
    opposite_reading=_OPPOSITE,
    sag=Symbol(
        "s", "m", "sag of the bracket: what it reads less at the bottom than at the top, on a true bar"
    ),
)
def offset_component(reading: Numeric, opposite_reading: Numeric, sag: Numeric = 0.0) -> Numeric:
    """
    Offset of a rim along the line through two opposite places, with the sag of the bracket taken out.

    ::

        e = (r1 - r2 - s) / 2

    Parameters
    ----------
    reading : float or array, m
        r1, at one place. Larger as the plunger goes in.
    opposite_reading : float or array, m
        r2, half a turn of the dial further.
    sag : float or array, m, optional
        s, for top and bottom: zeroed at the top of a true bar, the same bracket reads -s at the bottom.
        0 for left and right, which it changes alike.

    Returns
    -------
    float or array, m
        e: how far the axis of the part that is read lies from the axis that carries the dial, towards
        the first place, in the plane of the dial.

    Raises
    ------
    Nothing
        Every reading is allowed; a bracket that was bent upwards beforehand has a negative sag.

    Notes
    -----
    The dial hangs below where a stiff bracket would hold it: on top it is pressed towards the rim, at the
    bottom away from it. The dial turns with its own shaft, so that this shaft's run-out does not show.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    The bracket sags by 0.04 mm; what looks like 0.05 mm high is 0.03 mm:

    >>> print(f"{offset_component(0.0, -0.10e-3, 0.04e-3) * 1e3:.3f} mm")
    0.030 mm
    """
    return 0.5 * (np.subtract(reading, opposite_reading) - sag)


@formula(
    "ga = atan((r1 - r2) / Df)",
    result=Symbol("ga", "rad", "tilt, positive if the faces are closer at the first place"),
    source=KINEMATICS,
    reading=_READING,
    opposite_reading=_OPPOSITE,
    diameter=Symbol("Df", "m", "diameter of the circle on which the dial runs"),
)
def tilt_component(reading: Numeric, opposite_reading: Numeric, diameter: Numeric) -> Numeric:
    """
    Tilt along the line through two opposite places, from readings on a face.

    ::

        ga = atan((r1 - r2) / Df)

    Parameters
    ----------
    reading : float or array, m
        r1, at one place. Larger as the plunger goes in: the faces are closer there.
    opposite_reading : float or array, m
        r2, half a turn of the dial further.
    diameter : float or array, m
        Df, diameter of the circle on which the dial runs.

    Returns
    -------
    float or array, rad
        ga: slope of the driven axis towards the first place, on the way from the motor to the driven
        machine. The same sign whichever shaft carries the dial, as long as it reads the near face.

    Raises
    ------
    DomainError
        If diameter is not above zero anywhere.

    Notes
    -----
    End float of either shaft adds to single readings; it shows in the closing error. The sag of a bracket
    moves a dial along a face, which changes nothing. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    >>> print(f"{tilt_component(0.06e-3, -0.06e-3, 0.120) * 1e3:.3f} mrad")
    1.000 mrad
    """
    require_positive(diameter=diameter)
    return np.arctan(np.subtract(reading, opposite_reading) / diameter)


@formula(
    "f = (r1 + r') / 2",
    result=Symbol("f", "m", "part of the reading that stands still"),
    source=KINEMATICS,
    reading=_READING,
    half_turn_reading=_HALF_TURN,
)
def fixed_part(reading: Numeric, half_turn_reading: Numeric) -> Numeric:
    """
    Part of a reading that stands still in space when the part that is read is turned.

    ::

        f = (r1 + r') / 2

    Parameters
    ----------
    reading : float or array, m
        r1.
    half_turn_reading : float or array, m
        r', at the same place of the clock after the part that is read was turned half a turn.

    Returns
    -------
    float or array, m
        f: misalignment of the two axes, which makes the flanks slip at every turn.

    Raises
    ------
    Nothing
        Every reading is allowed.

    Notes
    -----
    For a sweep in which only the shaft with the dial was turned. Turned together, the dial stays over
    one spot of the rim and the run-out drops out by itself. NaN in any argument gives NaN.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    >>> print(f"{fixed_part(0.14e-3, 0.06e-3) * 1e3:.2f} mm")
    0.10 mm
    """
    return 0.5 * np.add(reading, half_turn_reading)


@formula(
    "w = (r1 - r') / 2",
    result=Symbol("w", "m", "part of the reading that turns with the part that is read"),
    source=KINEMATICS,
    reading=_READING,
    half_turn_reading=_HALF_TURN,
)
def turning_part(reading: Numeric, half_turn_reading: Numeric) -> Numeric:
    """
    Part of a reading that turns with the part that is read: its run-out.

    ::

        w = (r1 - r') / 2

    Parameters
    ----------
    reading : float or array, m
        r1.
    half_turn_reading : float or array, m
        r', at the same place of the clock after the part that is read was turned half a turn.

    Returns
    -------
    float or array, m
        w: rim out of centre, or face out of square, in its own bearings. It loads the same teeth all
        the time and makes no cyclic slip.

    Raises
    ------
    Nothing
        Every reading is allowed.

    Notes
    -----
    As for ``fixed_part``, of which this is the other half. NaN in any argument gives NaN.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    >>> print(f"{turning_part(0.14e-3, 0.06e-3) * 1e3:.2f} mm")
    0.04 mm
    """
    return 0.5 * np.subtract(reading, half_turn_reading)
