"""What it takes to slide one spline into another that lies off its axis: the trap of a wrong mate.

Sections of prismatic parts slide together when they do not overlap. So three numbers, the two offsets
and the turn of the shaft, and the clearance c added between the flanks make up the whole problem: the
least c for which some position has no overlap. `least_clearance` carries the derivation.
"""

import math
from dataclasses import dataclass

import numpy as np

from torqcheck._types import FloatArray
from torqcheck.errors import DomainError
from torqcheck.geometry.pairs._off_centre_contacts import Contacts
from torqcheck.geometry.pairs._off_centre_search import best_state
from torqcheck.geometry.pairs.mating import centred_assembly
from torqcheck.geometry.spline import InvoluteSpline

__all__ = ["OffCentreAssembly", "least_clearance"]

_ROUNDING = 1e-8  # m; what the search leaves open
_TOUCHES = 1e-6  # m; a tooth that clears the hub by no more bears
_SHARED = 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class OffCentreAssembly:
    """The position of a shaft in a hub that needs the least clearance between the flanks.

    Clearances are s - t, the space width less the tooth thickness, each along its own pitch circle,
    in m: `nominal_clearance` that of the parts as given, `clearance` the least that lets them slide
    together, `edge_clearance` the one at which the tips of either part are worn to an edge.
    `offset` is the distance of the axes in m, `direction` the angle from the middle of a space of
    the hub to the direction of the offset, `rotation` the turn of the shaft, tooth 0 being centred
    on that same space at 0, both in rad; `bearing_teeth` are the teeth of the shaft that touch there
    (within a thousandth of a millimetre), counted counter-clockwise from tooth 0. `offset_limit` is
    where tips meet roots in the direction of a tooth. Where no position is asked for, or none exists
    as long as both parts have tips, the five are None and `reason` says why.

    `missing` is the metal that would have to be gone from each tooth and space together: the
    clearance beyond the nominal; where that would leave no tips, or tips foul roots, what
    ``centred_assembly`` finds missing.
    """

    external_teeth: int
    internal_teeth: int
    nominal_clearance: float
    edge_clearance: float
    offset_limit: float
    missing: float
    clearance: float | None
    offset: float | None
    direction: float | None
    rotation: float | None
    bearing_teeth: tuple[int, ...] | None
    drops_through: bool
    reason: str

    @property
    def added_clearance(self) -> float | None:
        """Clearance beyond the nominal that is needed; negative where the parts have some to spare."""
        return None if self.clearance is None else self.clearance - self.nominal_clearance

    @property
    def runout(self) -> float | None:
        """Total indicator reading of the shaft turning with the hub: twice the offset."""
        return None if self.offset is None else 2.0 * self.offset

    @property
    def slides_as_given(self) -> bool:
        """Whether the parts slide together, or through each other, without any wear."""
        added = self.added_clearance
        return self.drops_through or (added is not None and added <= _ROUNDING)

    @property
    def words(self) -> str:
        """The finding in a sentence or two."""
        pair = f"{self.external_teeth} teeth in {self.internal_teeth} spaces"
        if self.clearance is None or self.offset is None or self.bearing_teeth is None:
            gone = (
                f" Held on one axis, {self.missing * 1e3:.2f} mm would have to be gone."
                if self.missing
                else ""
            )
            return f"{pair}: {self.reason}.{gone}"
        place = "on one axis" if self.offset <= _TOUCHES else f"{self.offset * 1e3:.2f} mm off centre"
        where = f"{place}, {len(self.bearing_teeth)} teeth bearing, runout {2e3 * self.offset:.2f} mm"
        if self.slides_as_given:
            return f"{pair}: they slide together as they are, {where}."
        return (
            f"{pair}: they slide together by hand once the flanks have {self.clearance * 1e3:.2f} mm of "
            f"clearance, {self.missing * 1e3:.2f} mm more than at basic size, {where}."
        )


def least_clearance(
    shaft: InvoluteSpline, hub: InvoluteSpline, shaft_share: float = _SHARED
) -> OffCentreAssembly:
    """
    Position of a shaft in a hub, on or off its axis, that needs the least clearance of the flanks.

    Parameters
    ----------
    shaft, hub : InvoluteSpline
        The external member is taken from the first, the internal from the second, with their tooth
        thickness and space width; give a worn part its worn width.
    shaft_share : float, -, optional
        Part of the added clearance that is taken from the teeth of the shaft, 0 to 1.

    Returns
    -------
    OffCentreAssembly
        Clearance and position; lengths in m, angles in rad.

    Raises
    ------
    DomainError
        If the share does not lie between 0 and 1.

    Notes
    -----
    Convention: clearance is s - t, and c of it is added evenly to both flanks of every tooth: teeth
    become thinner by w c and spaces wider by (1 - w) c along their pitch circles, w being
    `shaft_share`; each flank of a part of pitch diameter D turns about that part's axis by
    w c/D or (1 - w) c/D and so recedes along its normal by its base radius times that angle.

    Derivation. Let a point have the polar radius r and the angle b from the middle of a space of the
    hub, and let psi(r) = s/D + inv(a) - inv(phi(r)), cos(phi) = rb/r, be half the angle of that
    space. The curve b = psi(r) + q, q constant, is the same involute turned by q, and involutes of
    one base circle are parallel: so the distance from the point to the flank, along the normal, is

        g = rb (psi(r) + (1 - w) c/D - b)

    exactly, without a search for the foot of the normal; the other flank has +b. Likewise a corner
    or point of the hub lies g = rb (b - psi(r) + w c/D) outside the flank of a tooth, r, b and psi
    now being those of the shaft. (Below a base circle flanks are radial and r stands for rb.)
    Points taken are those along each flank, its corner at the tip, and between these on the tip, of
    either part, each held against the space that its tooth points to. A point that lies inside the
    circle of the other part's tips has nothing beside it: it needs either g >= 0 or h >= 0,
    h = hub tip radius - r (shaft: r - tip radius). Tips must clear roots: k >= 0, k = hub root
    radius - r and r - shaft root radius; this limits the offset.

    All these gaps are smooth in the position z = (x, y, turn) and in c. At a position each point
    keeps whichever of g and h is larger, and

        minimise c + 20 v  over dz, dc, v >= 0
        subject to  gap + d(gap)/dz dz + d(gap)/dc dc + v >= 0  for every point, |dz| <= trust

    is a linear program of five unknowns. Its step is taken where the true sum c + 20 v, v the deepest
    true overlap, falls as promised, the region of trust being widened or narrowed after that; the
    program is then linearised anew, until it promises less than 1e-8 modules. Which point may slip
    past which tip makes the whole problem many-valued, so the search starts from the centre, from
    offsets towards a tooth and towards a gap, and from the best of a coarse grid of positions.

    Fillets at the roots and errors of form and spacing are not contained; they need more clearance.

    References
    ----------
    .. [1] Geometry of the involute, parallel curves from one base circle. Mark: derived.

    Examples
    --------
    27 teeth slide into 28 of the same pitch once the flanks have a quarter of a millimetre:

    >>> from torqcheck.geometry import ansi_b92_1
    >>> found = least_clearance(ansi_b92_1.spline(27, "24/48"), ansi_b92_1.spline(28, "24/48"))
    >>> print(f"{found.clearance * 1e3:.3f} mm at {found.offset * 1e3:.2f} mm off centre")
    0.235 mm at 0.69 mm off centre
    """
    if not 0.0 <= shaft_share <= 1.0:
        raise DomainError("shaft_share must lie between 0 and 1")
    contacts = Contacts(shaft, hub, shaft_share)
    scale = contacts.scale
    if contacts.shaft.tip <= contacts.hub.tip + _ROUNDING / scale:
        reason = "the shaft passes through the hub without meeting its teeth; nothing drives"
        return _finding(shaft, hub, contacts, None, reason, drops_through=True)
    if contacts.limit < -_ROUNDING / scale:
        reason = f"tips reach {-contacts.limit * scale * 1e3:.2f} mm into roots, wherever the shaft lies"
        return _finding(shaft, hub, contacts, None, reason)
    state = best_state(contacts)
    if state[3] > contacts.edge():
        reason = (
            f"no position lets them slide together: {contacts.edge() * scale * 1e3:.2f} mm of metal gone "
            "from each tooth and space leaves no tips and is not enough"
        )
        return _finding(shaft, hub, contacts, None, reason)
    return _finding(shaft, hub, contacts, state, "")


def _finding(
    shaft: InvoluteSpline,
    hub: InvoluteSpline,
    contacts: Contacts,
    state: FloatArray | None,
    reason: str,
    drops_through: bool = False,
) -> OffCentreAssembly:
    """Return the result in m, reduced by the symmetry of the parts."""
    nominal, scale = hub.space_width - shaft.tooth_thickness, contacts.scale
    offset = direction = rotation = clearance = bearing = None
    if state is None:
        missing = centred_assembly(shaft, hub).missing
    else:
        offset, direction, rotation = _reduced(contacts, state)
        missing = max(0.0, float(state[3]) * scale)
        clearance = nominal + float(state[3]) * scale
        x, y = offset * math.cos(direction), offset * math.sin(direction)
        same = np.array((x, y, rotation * contacts.pitch_radius, state[3]))
        bearing = tuple(int(tooth) for tooth in contacts.touching(same, _TOUCHES / scale))
        offset *= scale
    return OffCentreAssembly(
        external_teeth=shaft.teeth,
        internal_teeth=hub.teeth,
        nominal_clearance=nominal,
        edge_clearance=nominal + contacts.edge() * scale,
        offset_limit=contacts.limit * scale,
        missing=missing,
        clearance=clearance,
        offset=offset,
        direction=direction,
        rotation=rotation,
        bearing_teeth=bearing,
        drops_through=drops_through,
        reason=reason,
    )


def _reduced(contacts: Contacts, state: FloatArray) -> tuple[float, float, float]:
    """Return offset, direction from 0 to half a pitch of the hub, and turn within half a pitch."""
    offset = math.hypot(state[0], state[1])
    # a shaft on the axis has no direction
    direction = math.atan2(state[1], state[0]) if offset * contacts.scale > _ROUNDING else 0.0
    turn = float(state[2]) / contacts.pitch_radius
    whole = round(direction / contacts.hub.pitch) * contacts.hub.pitch
    direction, turn = direction - whole, turn - whole
    if direction < 0.0:
        direction, turn = -direction, -turn
    return offset, direction, math.remainder(turn, contacts.shaft.pitch)
