"""What practice and standards permit of tilt, offset and run-out, by table."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache
from types import MappingProxyType

from torqcheck.errors import DomainError
from torqcheck.materials.tables import Row, number, optional_number, source, table
from torqcheck.provenance import Source

__all__ = [
    "AlignmentLimit",
    "alignment_limit",
    "alignment_limits",
    "closest_tilt",
    "shaft_runout_limits",
    "short_coupling_limit",
    "tooth_tilt_limit",
]

_SCALE = {
    "tilt_mrad": ("tilt", 1e-3),
    "offset_mm": ("offset", 1e-3),
    "slip_speed_mm_s": ("slip speed", 1e-3),
    "runout_mm": ("run-out", 1e-3),
    "face_runout_mm": ("face run-out", 1e-3),
}
_RPM = math.pi / 30.0


@dataclass(frozen=True, slots=True, kw_only=True)
class AlignmentLimit:
    """
    One permitted value, SI.

    Parameters
    ----------
    id, item : str
        Row of the table, and what it was printed for.
    hard : bool
        A limit of the kind of joint; otherwise what good practice asks for.
    quantity : str
        tilt, offset, slip speed, run-out or face run-out (total indicator readings).
    limit : float
        rad, m or m/s.
    excellent : float or None
        What the same source calls excellent, or the closer class.
    speed : float or None
        rad/s that it holds for.
    diameters : tuple of float or None
        Range of diameters that it holds for, m.
    source : Source
        Where it stands.
    note : str
        What the table says about it.
    """

    id: str
    item: str
    hard: bool
    quantity: str
    limit: float
    excellent: float | None
    speed: float | None
    diameters: tuple[float, float] | None
    source: Source
    note: str


@cache
def alignment_limits() -> Mapping[str, AlignmentLimit]:
    """Return all rows by id."""
    return MappingProxyType({row["id"]: _limit(row) for row in table("alignment_limits")})


def _limit(row: Row) -> AlignmentLimit:
    quantity, scale = _SCALE[row["quantity"]]
    low, high = optional_number(row, "diameter_from_mm", 1e-3), optional_number(row, "diameter_to_mm", 1e-3)
    return AlignmentLimit(
        id=row["id"],
        item=row["item"],
        hard=row["holds"] == "limit",
        quantity=quantity,
        limit=number(row, "limit", scale),
        excellent=optional_number(row, "excellent", scale),
        speed=optional_number(row, "speed_rpm", _RPM),
        diameters=None if low is None or high is None else (low, high),
        source=source(row),
        note=row["note"],
    )


def alignment_limit(name: str) -> AlignmentLimit:
    """
    Return one row.

    Parameters
    ----------
    name : str
        Id of the row.

    Raises
    ------
    DomainError
        If there is no such row.
    """
    if name not in alignment_limits():
        raise DomainError(f"the table of alignment limits has no row {name!r}")
    return alignment_limits()[name]


def tooth_tilt_limit(*, crowned: bool) -> AlignmentLimit:
    """
    Return the tilt beyond which the teeth of a spline are not meant to run.

    Parameters
    ----------
    crowned : bool
        The teeth are crowned.
    """
    return alignment_limit("crowned-teeth" if crowned else "straight-teeth")


def closest_tilt() -> AlignmentLimit:
    """Return the closest tilt that practice asks of any coupling: what can be set and held at best."""
    tilts = [row for row in alignment_limits().values() if row.quantity == "tilt" and not row.hard]
    return min(tilts, key=lambda row: row.limit if row.excellent is None else row.excellent)


def short_coupling_limit(quantity: str, speed: float) -> AlignmentLimit:
    """
    Offset or tilt that is accepted of short flexible couplings at a speed.

    Parameters
    ----------
    quantity : str
        offset or tilt.
    speed : float, rad/s
        Speed of the joint.

    Returns
    -------
    AlignmentLimit
        At that speed.

    Raises
    ------
    DomainError
        If the quantity is another one, or speed is negative or not a number.

    Notes
    -----
    Straight in log-log between the printed speeds, the first row below them. Above the last, 6000
    rev/min, what is permitted falls with one over the speed, so that the slip speed stays.

    Examples
    --------
    >>> print(f"{short_coupling_limit('offset', 157.0796).limit * 1e3:.2f} mm at 1500 rev/min")
    0.09 mm at 1500 rev/min
    """
    if not speed >= 0.0:
        raise DomainError(f"speed must not be negative, not {speed:g}")
    rows = [
        row
        for row in alignment_limits().values()
        if row.id.startswith("short-coupling") and row.quantity == quantity
    ]
    if not rows:
        raise DomainError(f"quantity must be offset or tilt, not {quantity!r}")
    speeds = [row.speed or 0.0 for row in rows]
    if speed <= speeds[0]:
        return replace(rows[0], speed=speed)
    if speed >= speeds[-1]:
        return _scaled(rows[-1], speed, speeds[-1] / speed, speeds[-1] / speed)
    after = next(index for index, printed in enumerate(speeds) if speed < printed)
    left, right = rows[after - 1], rows[after]
    part = math.log(speed / speeds[after - 1]) / math.log(speeds[after] / speeds[after - 1])
    better = (right.excellent or right.limit) / (left.excellent or left.limit)
    return _scaled(left, speed, (right.limit / left.limit) ** part, better**part)


def _scaled(row: AlignmentLimit, speed: float, limit: float, excellent: float) -> AlignmentLimit:
    """The same at another speed."""
    better = None if row.excellent is None else row.excellent * excellent
    return replace(row, speed=speed, limit=row.limit * limit, excellent=better)


def shaft_runout_limits(diameter: float) -> tuple[AlignmentLimit, ...]:
    """
    Run-out that standards permit at the end of a motor shaft of a diameter.

    Parameters
    ----------
    diameter : float, m
        Of the shaft end.

    Returns
    -------
    tuple of AlignmentLimit
        Total indicator readings; by inch frames and, from 18 to 80 mm, by metric frames.
    """
    return tuple(
        row
        for row in alignment_limits().values()
        if row.id.startswith("motor-shaft")
        and row.diameters is not None
        and row.diameters[0] < diameter <= row.diameters[1]
    )
