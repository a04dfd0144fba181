"""Slip of the flanks on each other: how far, how fast, and of which kind."""

from typing import Literal

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import require_angle, require_not_negative
from torqcheck.errors import DomainError
from torqcheck.formulas import Symbol, formula
from torqcheck.wear._symbols import KINEMATICS, RADIUS, TILT

__all__ = [
    "GROSS_SLIP_LIMIT",
    "SLIDING_LIMIT",
    "SLIP_SPEED_LIMIT",
    "SlipRegime",
    "offset_slip_path",
    "peak_slip_speed",
    "slip_amplitude",
    "slip_path_per_revolution",
    "slip_regime",
]

SlipRegime = Literal["partial slip", "gross slip", "sliding"]

GROSS_SLIP_LIMIT = 20e-6
"""
m; slip amplitude below which a contact only slips in part: little wear, cracks instead. This and the next
from O. Vingsbo and S. Soderberg, Wear 126, 1988, as reviewed in a later abstract, published.
"""

SLIDING_LIMIT = 300e-6
"""m; slip amplitude above which the wear coefficient is that of plain reciprocating sliding."""

SLIP_SPEED_LIMIT = 0.012
"""
m/s; peak slip speed of lubricated steel that alignment practice holds to be acceptable (0.5 in/s); an
alignment service's note on acceptable misalignment, published.
"""


@formula(
    "a = r tan(ga)",
    result=Symbol("a", "m", "slip amplitude, half of the stroke"),
    source=KINEMATICS,
    pitch_radius=RADIUS,
    tilt=TILT,
)
def slip_amplitude(pitch_radius: Numeric, tilt: Numeric) -> Numeric:
    """
    Amplitude of the axial slip of a tooth in a tilted joint.

    ::

        a = r tan(ga)

    Parameters
    ----------
    pitch_radius : float or array, m
        r.
    tilt : float or array, rad
        ga, angle between the two axes, fixed in space. The sign is ignored.

    Returns
    -------
    float or array, m
        a, half of the stroke: a tooth moves from -a to +a and back at each revolution.

    Raises
    ------
    DomainError
        If pitch_radius is negative, or tilt is a right angle or more, anywhere.

    Notes
    -----
    For tilt that stands still while the joint turns. Tilt that turns with the shaft (a bore out of
    square in its own hub) gives no cyclic slip. Rigid parts: friction that bends a limber shaft
    instead of slipping is not counted. Papers mean a or 2 a by "slip amplitude".
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived: z = r tan(ga) cos(angle). Mark: derived. One rocking per revolution is said in
       words in Machinery's Handbook, Involute Splines, at Table 10.

    Examples
    --------
    >>> from math import radians
    >>> print(f"{slip_amplitude(0.020, radians(0.1)) * 1e6:.2f} um")
    34.91 um
    """
    require_not_negative(pitch_radius=pitch_radius)
    require_angle(tilt=tilt)
    return pitch_radius * np.tan(np.abs(tilt))


@formula(
    "s1 = 4 r tan(ga)",
    result=Symbol("s1", "m", "slip path of a tooth per revolution"),
    source=KINEMATICS,
    pitch_radius=RADIUS,
    tilt=TILT,
)
def slip_path_per_revolution(pitch_radius: Numeric, tilt: Numeric) -> Numeric:
    """
    Path that a tooth slips along its mate in one revolution of a tilted joint.

    ::

        s1 = 4 r tan(ga)

    Parameters
    ----------
    pitch_radius : float or array, m
        r.
    tilt : float or array, rad
        ga, angle between the two axes, fixed in space. The sign is ignored.

    Returns
    -------
    float or array, m
        s1, there and back: four amplitudes.

    Raises
    ------
    DomainError
        If pitch_radius is negative, or tilt is a right angle or more, anywhere.

    Notes
    -----
    Axial slip alone; along the profile it is of second order, r ga^2/2.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived: see ``slip_amplitude``. Mark: derived.

    Examples
    --------
    >>> from math import radians
    >>> path = slip_path_per_revolution(0.020, radians(0.1))
    >>> print(f"{path * 1e6:.2f} um, {path * 3000 * 60:.2f} m/h at 3000 rev/min")
    139.63 um, 25.13 m/h at 3000 rev/min
    """
    return 4.0 * slip_amplitude(pitch_radius, tilt)


@formula(
    "vp = w r tan(ga)",
    result=Symbol("vp", "m/s", "largest slip speed"),
    source=KINEMATICS,
    pitch_radius=RADIUS,
    tilt=TILT,
    speed=Symbol("w", "rad/s", "speed of the joint"),
)
def peak_slip_speed(pitch_radius: Numeric, tilt: Numeric, speed: Numeric) -> Numeric:
    """
    Largest speed at which a tooth slips along its mate in a tilted joint.

    ::

        vp = w r tan(ga)

    Parameters
    ----------
    pitch_radius : float or array, m
        r.
    tilt : float or array, rad
        ga, angle between the two axes, fixed in space. The sign is ignored.
    speed : float or array, rad/s
        w, speed of the joint. The sign is ignored.

    Returns
    -------
    float or array, m/s
        vp; to be seen beside ``SLIP_SPEED_LIMIT``.

    Raises
    ------
    DomainError
        If pitch_radius is negative, or tilt is a right angle or more, anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived: see ``slip_amplitude``. Mark: derived.

    Examples
    --------
    >>> print(f"{peak_slip_speed(0.020, 1.91e-3, 314.16) * 1e3:.1f} mm/s")
    12.0 mm/s
    """
    return np.abs(speed) * slip_amplitude(pitch_radius, tilt)


@formula(
    "s1 = 4 e",
    result=Symbol("s1", "m", "upper bound of the slip path per revolution"),
    source=KINEMATICS,
    offset=Symbol("e", "m", "parallel offset of the two axes, fixed in space"),
)
def offset_slip_path(offset: Numeric) -> Numeric:
    """
    Upper bound of the path that a tooth slips up and down its mate in an offset joint.

    ::

        s1 = 4 e

    Parameters
    ----------
    offset : float or array, m
        e, parallel offset of the two axes, fixed in space. The sign is ignored.

    Returns
    -------
    float or array, m
        s1, per revolution, along the height of the teeth.

    Raises
    ------
    DomainError
        Never.

    Notes
    -----
    For one mesh between shafts that are both rigidly borne. Reached only if the lash lets the
    teeth move so far; what it does not let through bends the shafts and loads the teeth
    unevenly. NaN gives NaN.

    References
    ----------
    .. [1] Derived: the part of a circle of radius e that lies along the profile. Mark: derived.

    Examples
    --------
    >>> print(f"{offset_slip_path(0.0508e-3) * 3000 / 0.0254:.1f} in/min at 3000 rev/min")
    24.0 in/min at 3000 rev/min
    """
    return 4.0 * np.abs(offset)


def slip_regime(amplitude: float) -> SlipRegime:
    """
    Name the regime that a slip amplitude belongs to.

    Parameters
    ----------
    amplitude : float, m
        From ``slip_amplitude``; without what the parts take up elastically.

    Returns
    -------
    str
        "partial slip" below 20 um: no wear life can be given, cracks by fretting fatigue are the
        danger. "gross slip" up to 300 um: fretting wear. "sliding" above.

    Raises
    ------
    DomainError
        If amplitude is negative or not a number.

    Notes
    -----
    Both limits are published. Sources disagree on whether the wear coefficient rises by 10 to 100
    times across the gross-slip range or stays as it is once the true slip is used.
    """
    if not amplitude >= 0.0:
        raise DomainError("amplitude must be a number and not negative")
    if amplitude < GROSS_SLIP_LIMIT:
        return "partial slip"
    return "gross slip" if amplitude <= SLIDING_LIMIT else "sliding"
