"""The whole path that the flanks of a joint slide, from all that makes them slide."""

from torqcheck._types import Numeric
from torqcheck.domain import require_not_negative
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source
from torqcheck.wear._symbols import KINEMATICS, RADIUS, TILT
from torqcheck.wear.slip import offset_slip_path, slip_path_per_revolution

__all__ = ["reversal_slip_path", "sliding_path_per_hour"]

_RECENTRING = Source("Derived: a shaft that centres itself moves by its play at most", "", "derived")
_PLAY = Symbol("c", "m", "play across the axis, stop to stop")


@formula(
    "s = c Nc",
    result=Symbol("s", "m", "upper bound of the slip path of all crossings"),
    source=_RECENTRING,
    radial_play=_PLAY,
    crossings=Symbol("Nc", "-", "times that the lash is crossed and closed under load"),
)
def reversal_slip_path(radial_play: Numeric, crossings: Numeric) -> Numeric:
    """
    Upper bound of the path that the flanks slide when torque crosses the lash.

    ::

        s = c Nc

    Parameters
    ----------
    radial_play : float or array, m
        c, play across the axis, stop to stop.
    crossings : float or array, -
        Nc, times that the lash is crossed and closed under load: one for each start, two for drive,
        braking and drive again. Per hour, the path is per hour too.

    Returns
    -------
    float or array, m
        s, over all crossings.

    Raises
    ------
    DomainError
        If an argument is negative anywhere.

    Notes
    -----
    The lash closes square to the flanks, which slides nothing; what slides is the shaft as it
    centres itself under the load, by its play across the axis at most. The blow itself wears by
    impact, for which no coefficient has been published: it is not in here.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived bound. Mark: derived.

    Examples
    --------
    >>> print(f"{reversal_slip_path(0.05e-3, 40.0) * 1e3:.1f} mm for 40 crossings")
    2.0 mm for 40 crossings
    """
    require_not_negative(radial_play=radial_play, crossings=crossings)
    return radial_play * crossings


@formula(
    "s = n (4 r tan(ga) + 4 e) + c Nc",
    result=Symbol("s", "m/h", "upper bound of the slip path per hour"),
    source=KINEMATICS,
    pitch_radius=RADIUS,
    tilt=TILT,
    revolutions=Symbol("n", "1/h", "revolutions of the joint per hour"),
    offset=Symbol("e", "m", "parallel offset of the two axes in one mesh, fixed in space"),
    radial_play=_PLAY,
    crossings=Symbol("Nc", "1/h", "times per hour that the lash is crossed and closed under load"),
)
def sliding_path_per_hour(
    *,
    pitch_radius: Numeric,
    tilt: Numeric,
    revolutions: Numeric,
    offset: Numeric = 0.0,
    radial_play: Numeric = 0.0,
    crossings: Numeric = 0.0,
) -> Numeric:
    """
    Path that the flanks of a joint slide in an hour: tilt, offset and crossings of the lash.

    ::

        s = n (4 r tan(ga) + 4 e) + c Nc

    Parameters
    ----------
    pitch_radius : float or array, m
        r.
    tilt : float or array, rad
        ga, angle between the two axes, fixed in space. The sign is ignored.
    revolutions : float or array, 1/h
        n, revolutions of the joint per hour.
    offset : float or array, m, optional
        e, parallel offset in one mesh between shafts that are both rigidly borne. The sign is
        ignored. An offset over two meshes is a tilt: see ``tilt_from_offset``.
    radial_play : float or array, m, optional
        c, play across the axis, stop to stop.
    crossings : float or array, 1/h, optional
        Nc, crossings of the lash that close under load, per hour.

    Returns
    -------
    float or array, m/h
        s. With tilt alone it is exact, otherwise an upper bound.

    Raises
    ------
    DomainError
        If pitch_radius, revolutions, radial_play or crossings is negative, or tilt is a right angle
        or more, anywhere.

    Notes
    -----
    Tilt slides the teeth along the axis, offset along their height; each tooth does both at once, and
    its true path lies between the larger of the two and their sum. An error that turns with the joint
    (a bore out of centre or out of square in its own hub) slides nothing and has no place here.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived: see ``slip_path_per_revolution``, ``offset_slip_path`` and
       ``reversal_slip_path``. Mark: derived.

    Examples
    --------
    >>> from math import radians
    >>> joint = {"pitch_radius": 0.020, "tilt": radians(0.1), "revolutions": 3000.0 * 60.0}
    >>> print(f"{sliding_path_per_hour(**joint):.3f} m/h")
    25.133 m/h
    >>> print(f"{sliding_path_per_hour(**joint, radial_play=0.05e-3, crossings=40.0):.3f} m/h")
    25.135 m/h
    """
    require_not_negative(revolutions=revolutions)
    turning = slip_path_per_revolution(pitch_radius, tilt) + offset_slip_path(offset)
    return revolutions * turning + reversal_slip_path(radial_play, crossings)
