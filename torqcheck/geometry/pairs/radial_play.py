"""Play across the axis of a side-fit pair, and the circumferential clearance that it tells of."""

import numpy as np

from torqcheck._types import FloatArray, Numeric
from torqcheck.formulas import Symbol, formula
from torqcheck.geometry._domain import refuse_bad_angle, refuse_bad_count, refuse_negative
from torqcheck.geometry.involute import involute
from torqcheck.geometry.measuring.pins import PRESSURE_ANGLE, TEETH
from torqcheck.geometry.pairs.lash import CLEARANCE
from torqcheck.provenance import Source

__all__ = ["clearance_from_radial_play", "radial_play_from_clearance"]

FLANKS = Source(
    "Geometry of a displaced involute pair", "first flank to touch, mean over all directions", "derived"
)
RADIAL_PLAY = Symbol("e", "m", "play across the axis, stop to stop")

_HALF_DEPTH = 0.4  # modules on either side of the pitch circle; the least of the standards together


def _play_ratio(pressure_angle: Numeric, teeth: Numeric) -> FloatArray:
    """Return the mean over all directions of play over c cos(a); 1 for very many teeth.

    Shaft and hub flank are involutes of one base circle, so the gap along every flank normal is
    c cos(a)/2. A movement along a normal closes its gap at once; one that lies within a gap
    between normals goes 1/cos(angle to the nearest) as far, whose integral over a gap of width g is
    2 asinh(tan(g/2)). The normals of one flank sweep from tan(phi1) to tan(phi2); the two flanks of
    a tooth lie mirrored, which leaves two gaps for each pitch.
    """
    N, a = np.asarray(teeth, dtype=np.float64), np.asarray(pressure_angle, dtype=np.float64)
    refuse_bad_count(N)
    refuse_bad_angle(a)
    pitch = 2.0 * np.pi / N
    low, high = (
        np.tan(np.arccos(np.minimum(N * np.cos(a) / (N + side * 2.0 * _HALF_DEPTH), 1.0))) for side in (-1, 1)
    )
    # tooth of half a pitch; its flanks start at +-(pi/(2 N) + inv(a)) and their normals lie 90 deg ahead
    between = np.mod(np.pi / N + 2.0 * involute(a) + np.pi - low - high, pitch)
    gaps = (np.maximum(between - (high - low), 0.0), np.maximum(pitch - between - (high - low), 0.0))
    return np.asarray(1.0 + sum(np.arcsinh(np.tan(0.5 * gap)) - 0.5 * gap for gap in gaps) * N / np.pi)


@formula(
    "c = e / (k cos(a)), k = 1 + (N/pi) (asinh(tan(g1/2)) - g1/2 + asinh(tan(g2/2)) - g2/2)",
    result=CLEARANCE,
    source=FLANKS,
    radial_play=RADIAL_PLAY,
    pressure_angle=PRESSURE_ANGLE,
    teeth=TEETH,
)
def clearance_from_radial_play(radial_play: Numeric, pressure_angle: Numeric, teeth: Numeric) -> Numeric:
    """
    Circumferential clearance inferred from the play across the axis.

    ::

        c = e / (k cos(a)), k = 1 + (N/pi) (asinh(tan(g1/2)) - g1/2 + asinh(tan(g2/2)) - g2/2)
        u = (pi/N + 2 inv(a) + pi - tan(phi1) - tan(phi2)) mod (2 pi/N)
        w = tan(phi2) - tan(phi1), cos(phi1) = N cos(a)/(N - 0.8), cos(phi2) = N cos(a)/(N + 0.8)
        g1 = max(u - w, 0), g2 = max(2 pi/N - u - w, 0)

    Parameters
    ----------
    radial_play : float or array, m
        e, whole movement from stop to stop, shaft not turned.
    pressure_angle : float or array, rad
        a, at the pitch diameter.
    teeth : int or array, -
        N, 4 or more.

    Returns
    -------
    float or array, m
        c, at the pitch circle.

    Raises
    ------
    DomainError
        If the play is negative, the teeth are not a whole number of 4 or more, or the angle is not
        between 0 and pi/2.

    Notes
    -----
    A side-fit pair moved across its axis stops when the flank whose normal lies nearest to the
    movement touches. k is the mean over all directions, g1 and g2 are the gaps between the sheaves
    of flank normals, flanks facing each other over 0.8 modules (the least of the standards) and
    teeth half a pitch thick. The normals of one flank turn so far from root to tip that k stays
    within 0.5 percent of 1 from 6 teeth up: the many-tooth limit e = c cos(a) holds for all splines.
    A pilot, or contact at the tips, may stop the shaft before the flanks do:
    then the true clearance is larger than the one inferred. NaN in gives NaN out.

    References
    ----------
    .. [1] Geometry of a displaced involute pair, mean over all directions. Mark: derived.

    Examples
    --------
    0.03 mm of radial play on 26 teeth of 30 deg:

    >>> print(f"{clearance_from_radial_play(0.03e-3, np.radians(30.0), 26) * 1e3:.4f} mm")
    0.0346 mm
    """
    refuse_negative(radial_play=radial_play)
    ratio = _play_ratio(pressure_angle, teeth)
    return np.asarray(radial_play / (ratio * np.cos(pressure_angle)), dtype=np.float64)[()]


@formula(
    "e = c k cos(a), k = 1 + (N/pi) (asinh(tan(g1/2)) - g1/2 + asinh(tan(g2/2)) - g2/2)",
    result=RADIAL_PLAY,
    source=FLANKS,
    clearance=CLEARANCE,
    pressure_angle=PRESSURE_ANGLE,
    teeth=TEETH,
)
def radial_play_from_clearance(clearance: Numeric, pressure_angle: Numeric, teeth: Numeric) -> Numeric:
    """
    Play across the axis that a circumferential clearance allows.

    ::

        e = c k cos(a), k = 1 + (N/pi) (asinh(tan(g1/2)) - g1/2 + asinh(tan(g2/2)) - g2/2)
        u = (pi/N + 2 inv(a) + pi - tan(phi1) - tan(phi2)) mod (2 pi/N)
        w = tan(phi2) - tan(phi1), cos(phi1) = N cos(a)/(N - 0.8), cos(phi2) = N cos(a)/(N + 0.8)
        g1 = max(u - w, 0), g2 = max(2 pi/N - u - w, 0)

    Parameters
    ----------
    clearance : float or array, m
        c, at the pitch circle.
    pressure_angle : float or array, rad
        a, at the pitch diameter.
    teeth : int or array, -
        N, 4 or more.

    Returns
    -------
    float or array, m
        e, whole movement from stop to stop, mean over all directions.

    Raises
    ------
    DomainError
        If the clearance is negative, the teeth are not a whole number of 4 or more, or the angle is
        not between 0 and pi/2.

    Notes
    -----
    See ``clearance_from_radial_play``, whose inverse this is. NaN in gives NaN out.

    References
    ----------
    .. [1] Geometry of a displaced involute pair, mean over all directions. Mark: derived.

    Examples
    --------
    0.10 mm of clearance on 26 teeth of 30 deg:

    >>> print(f"{radial_play_from_clearance(0.10e-3, np.radians(30.0), 26) * 1e3:.4f} mm")
    0.0866 mm
    """
    refuse_negative(clearance=clearance)
    ratio = _play_ratio(pressure_angle, teeth)
    return np.asarray(clearance * ratio * np.cos(pressure_angle), dtype=np.float64)[()]
