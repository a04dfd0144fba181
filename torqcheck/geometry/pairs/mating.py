"""What it takes to put one spline into another that is not its mate: centred assembly."""

import dataclasses
import math
from dataclasses import dataclass

import numpy as np

from torqcheck._types import FloatArray
from torqcheck.errors import DomainError
from torqcheck.geometry._domain import LEAST_TEETH
from torqcheck.geometry.involute import width_at_radius
from torqcheck.geometry.lengths import INCH
from torqcheck.geometry.spline import InvoluteSpline, Member
from torqcheck.geometry.standards import ansi_b92_1, din_5480, iso_4156

__all__ = ["CentredAssembly", "centred_assembly", "neighbour"]

_RADII = 401  # over the overlap; the clearance is smooth and near straight there
_ROUNDING = 1e-10  # m; a true pair of basic widths has a clearance of exactly 0


@dataclass(frozen=True, slots=True, kw_only=True)
class CentredAssembly:
    """What stands in the way of a shaft that enters a hub on the hub's own axis. Lengths in m.

    `missing` is the metal per tooth-and-space pair, along the arc, that would have to be gone from
    the flanks before every tooth enters; `free_teeth` enter as they are, in the best setting.
    `radial_overlap` is the depth on which the teeth face each other. `clearance` and
    `clearance_needed` are the least and the most over that depth, along the arc; None if there is
    no such depth. `tip_interference` is by how far, along the radius, tips reach into the root of
    the other member.
    """

    external_teeth: int
    internal_teeth: int
    missing: float
    free_teeth: int
    radial_overlap: float
    clearance: tuple[float, float] | None
    clearance_needed: tuple[float, float] | None
    tip_interference: float
    drops_through: bool

    @property
    def tips_foul(self) -> bool:
        """Whether tips meet the root of the other member before the flanks matter."""
        return self.tip_interference > _ROUNDING

    @property
    def enters(self) -> bool:
        """Whether the shaft enters the hub, driving or not."""
        return not self.tips_foul and self.missing <= _ROUNDING

    @property
    def words(self) -> str:
        """The finding in a sentence or two."""
        pair = f"{self.external_teeth} teeth in {self.internal_teeth} spaces"
        if self.drops_through:
            return f"{pair}: the shaft passes through the hub without meeting its teeth; nothing drives."
        tips = (
            f" The tips reach {self.tip_interference * 1e3:.2f} mm into the root of the other part."
            if self.tips_foul
            else ""
        )
        if self.missing <= _ROUNDING:
            return f"{pair}: every tooth finds a space that is wide enough.{tips}"
        return (
            f"{pair}, held on one axis: {self.missing * 1e3:.2f} mm of metal per tooth would have to be gone "
            f"before all enter; as they are, {self.free_teeth} of {self.external_teeth} teeth enter.{tips}"
        )


def centred_assembly(
    shaft: InvoluteSpline, hub: InvoluteSpline, added_clearance: float = 0.0
) -> CentredAssembly:
    """
    Say what it takes to put the external member of one spline into the internal member of another.

    Both are held on one axis, and the shaft is turned to where most of its teeth can enter. Teeth
    of equal count all line up. With N teeth in M spaces the misfits take N/g values, g being the
    greatest common divisor, in steps of eps = 2 pi r g/(N M), spread evenly about zero; a tooth
    enters when its misfit is no more than half the clearance. So all enter when the clearance is
    at least (2 pi r/M) (1 - g/N) at every radius of the overlap. Mark: derived.

    Parameters
    ----------
    shaft, hub : InvoluteSpline
        The external member is taken from the first, the internal from the second.
    added_clearance : float, m, optional
        Worn or tolerated circumferential clearance beyond the basic widths, both members together.

    Returns
    -------
    CentredAssembly
        Lengths in m.

    Raises
    ------
    DomainError
        If the added clearance is not finite.
    """
    if not math.isfinite(added_clearance):
        raise DomainError("added_clearance must be finite")
    tip = 0.5 * shaft.external.major_diameter
    hub_tip = 0.5 * hub.internal.minor_diameter
    tip_interference = max(
        0.0, tip - 0.5 * hub.internal.major_diameter, 0.5 * shaft.external.minor_diameter - hub_tip
    )
    top = min(tip, 0.5 * hub.internal.major_diameter)
    if tip <= hub_tip + _ROUNDING:
        return CentredAssembly(
            external_teeth=shaft.teeth,
            internal_teeth=hub.teeth,
            missing=0.0,
            free_teeth=shaft.teeth,
            radial_overlap=0.0,
            clearance=None,
            clearance_needed=None,
            tip_interference=tip_interference,
            drops_through=True,
        )
    radius = np.linspace(hub_tip, top, _RADII)
    clearance = _clearance(shaft, hub, radius) + added_clearance
    common = math.gcd(shaft.teeth, hub.teeth)
    needed = 2.0 * np.pi * radius / hub.teeth * (1.0 - common / shaft.teeth)
    step = 2.0 * np.pi * radius * common / (shaft.teeth * hub.teeth)
    blocked = tip_interference > _ROUNDING
    return CentredAssembly(
        external_teeth=shaft.teeth,
        internal_teeth=hub.teeth,
        missing=max(0.0, float(np.max(needed - clearance))),
        free_teeth=0 if blocked else _free_teeth(clearance, step, shaft.teeth, common),
        radial_overlap=top - hub_tip,
        clearance=(float(np.min(clearance)), float(np.max(clearance))),
        clearance_needed=(float(np.min(needed)), float(np.max(needed))),
        tip_interference=tip_interference,
        drops_through=False,
    )


def _clearance(shaft: InvoluteSpline, hub: InvoluteSpline, radius: FloatArray) -> FloatArray:
    """Space of the hub less tooth of the shaft, along the arc, at each radius."""
    space = width_at_radius(radius, hub.pitch_diameter, hub.pressure_angle, hub.space_width)
    tooth = width_at_radius(radius, shaft.pitch_diameter, shaft.pressure_angle, shaft.tooth_thickness)
    return np.asarray(space - tooth, dtype=np.float64)


def _free_teeth(clearance: FloatArray, step: FloatArray, teeth: int, common: int) -> int:
    """Teeth that enter, at the worst radius of each of the two settings, in the better setting."""
    if np.min(clearance) < -_ROUNDING:
        return 0
    reach = 0.5 * (np.maximum(clearance, 0.0) + _ROUNDING) / step
    tooth_centred = np.min(2 * np.floor(reach) + 1)
    gap_centred = np.min(2 * np.floor(reach + 0.5))
    return int(min(common * max(tooth_centred, gap_centred), teeth))


def neighbour(spline: InvoluteSpline, teeth: int) -> InvoluteSpline:
    """
    Spline of the same standard, pitch, angle and root with another number of teeth.

    Parameters
    ----------
    spline : InvoluteSpline
        Where to start.
    teeth : int, -
        The other number of teeth, 4 or more.

    Returns
    -------
    InvoluteSpline
        For DIN 5480 and own dimensions the profile is kept, so that every diameter changes by a
        module for each tooth.

    Raises
    ------
    DomainError
        If the teeth are fewer than 4, or so few that no shaft is left.
    """
    if spline.standard == ansi_b92_1.STANDARD:
        P = INCH / spline.module
        return ansi_b92_1.spline(teeth, f"{P:.4g}/{2.0 * P:.4g}", spline.pressure_angle, spline.root)
    if spline.standard == iso_4156.STANDARD:
        return iso_4156.spline(teeth, spline.module, spline.pressure_angle, spline.root)
    more = (teeth - spline.teeth) * spline.module
    if spline.standard == din_5480.STANDARD:
        reference = spline.external.major_diameter + 0.2 * spline.module + more
        return din_5480.spline(reference, spline.module, teeth)
    return _shifted(spline, teeth, more)


def _shifted(spline: InvoluteSpline, teeth: int, more: float) -> InvoluteSpline:
    """Return the same profile on another pitch circle: every diameter grows alike."""
    if teeth != int(teeth) or teeth < LEAST_TEETH or spline.root_diameter + more <= 0.0:
        raise DomainError(f"teeth must be a whole number, {LEAST_TEETH} or more, and leave a shaft")

    def grown(member: Member) -> Member:
        return Member(
            major_diameter=member.major_diameter + more,
            minor_diameter=member.minor_diameter + more,
            form_diameter=None if member.form_diameter is None else member.form_diameter + more,
        )

    return dataclasses.replace(
        spline,
        designation=f"{teeth}T, else as {spline.designation}",
        teeth=teeth,
        external=grown(spline.external),
        internal=grown(spline.internal),
    )
