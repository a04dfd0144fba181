"""Notches of a shaft, ready to be checked: of a shaft itself, or where a key, a pin or a hub meets it."""

import math
from dataclasses import dataclass
from typing import Literal, TypeAlias

from torqcheck.assessment.fatigue.members import core_strength, surface_strength
from torqcheck.assessment.members import MemberState
from torqcheck.capacity import (
    bending_stress,
    cross_hole_bending_stress,
    cross_hole_shear_stress,
    keyway_strength_factor,
    torsional_shear_stress,
)
from torqcheck.fatigue import (
    DIN_NOTCH_RANGE,
    RING_GROOVE_BENDING,
    RING_GROOVE_TORSION,
    SLED_RUNNER_BENDING,
    cross_hole_bending_concentration,
    cross_hole_torsion_concentration,
    din_keyseat_bending_factor,
    din_keyseat_torsion_factor,
    din_press_fit_bending_factor,
    din_press_fit_torsion_factor,
    din_spline_notch_factor,
    governing_shoulder_formula,
    keyseat_bending_concentration,
    keyseat_torsion_concentration,
    loaded_keyseat_torsion_concentration,
    shoulder_bending_concentration,
    shoulder_torsion_concentration,
)
from torqcheck.formulas import FORMULAS
from torqcheck.provenance import Source

__all__ = [
    "NO_MOMENTS",
    "Moments",
    "ShaftNotch",
    "cross_hole_notch",
    "keyseat_notch",
    "plain_section",
    "press_fit_notch",
    "ring_groove_notch",
    "shoulder_notch",
    "spline_run_out_notch",
]

SplineForm: TypeAlias = Literal["involute", "straight", "serration"]
Finish: TypeAlias = Literal["ground", "machined", "hot rolled", "forged"]

SPLINE_BENDING_SHARE = {"involute": 0.49, "straight": 0.45, "serration": 0.65}
SPLINE_TORSION_SHARE = {"involute": 0.75, "straight": 1.0, "serration": 1.0}
"""DIN 743-2, by the form of the teeth. Mark: from memory."""

_TABLE = Source("Budynas and Nisbett, Mechanical Engineering Design, Table 7-1", "", "from memory")
_HOLE_UNIAXIAL = math.sqrt(3.0)
"""The edge of a hole feels tension in one direction: Kt/sqrt(3) on the shear gives its von Mises stress."""


@dataclass(frozen=True, slots=True)
class Moments:
    """
    Bending moment at a section, N m.

    Parameters
    ----------
    still : float
        Of loads that stand still in space: the turning shaft feels it fully reversed, once a turn.
    turning : float
        Of loads that turn with the shaft: a steady stress in it.
    """

    still: float = 0.0
    turning: float = 0.0


NO_MOMENTS = Moments()


@dataclass(frozen=True, slots=True, kw_only=True)
class ShaftNotch:
    """
    One notch of a shaft. SI.

    Parameters
    ----------
    name : str
        On the report, and in the names of its checks.
    member : MemberState
        Steel and hardness of the shaft.
    diameter, bore : float, m
        Section on which the nominal stresses stand.
    radius : float, m, optional
        Of the notch, for its sensitivity; where None the elastic concentration counts in full.
    bending_concentration, torsion_concentration : float
        Elastic stress concentrations.
    bending_factor, torsion_factor : float
        Ready fatigue notch factors, sensitivity in them; the larger of both ways counts.
    bending_section, torsion_section : float
        Section modulus of the whole weakened section over that of the plain one, for yield.
    moments : Moments
        What bends it.
    finish : str
        Surface at the notch.
    sources : tuple of Source
        Of the factors.
    note : str
        What the report says of it.
    """

    name: str
    member: MemberState
    diameter: float
    bore: float = 0.0
    radius: float | None = None
    bending_concentration: float = 1.0
    torsion_concentration: float = 1.0
    bending_factor: float = 1.0
    torsion_factor: float = 1.0
    bending_section: float = 1.0
    torsion_section: float = 1.0
    moments: Moments = NO_MOMENTS
    finish: Finish = "machined"
    sources: tuple[Source, ...] = ()
    note: str = ""


def plain_section(
    name: str,
    member: MemberState,
    diameter: float,
    *,
    bore: float = 0.0,
    moments: Moments = NO_MOMENTS,
    finish: Finish = "machined",
) -> ShaftNotch:
    """A length without any notch."""
    return ShaftNotch(name=name, member=member, diameter=diameter, bore=bore, moments=moments, finish=finish)


def shoulder_notch(
    name: str,
    member: MemberState,
    diameter: float,
    *,
    larger_diameter: float,
    radius: float,
    bore: float = 0.0,
    moments: Moments = NO_MOMENTS,
    finish: Finish = "machined",
) -> ShaftNotch:
    """The fillet between a thinner and a thicker length; nominal stresses stand on the thinner one."""
    sizes = (larger_diameter, diameter, radius)
    bending, torsion = shoulder_bending_concentration(*sizes), shoulder_torsion_concentration(*sizes)
    return ShaftNotch(
        name=name,
        member=member,
        diameter=diameter,
        bore=bore,
        radius=radius,
        bending_concentration=float(bending),
        torsion_concentration=float(torsion),
        moments=moments,
        finish=finish,
        sources=(FORMULAS[shoulder_bending_concentration].source,),
        note=f"Kt {bending:.2f} in bending by {governing_shoulder_formula('bending', *sizes)}, "
        f"Kts {torsion:.2f} in torsion by {governing_shoulder_formula('torsion', *sizes)}, at a fillet of "
        f"{radius * 1e3:.2g} mm.",
    )


def keyseat_notch(
    name: str,
    member: MemberState,
    diameter: float,
    *,
    width: float,
    depth: float,
    root_radius: float,
    form: Literal["end-milled", "sled-runner"] = "end-milled",
    loaded_by_key: bool = True,
    pressed_by: str = "key",
    bore: float = 0.0,
    moments: Moments = NO_MOMENTS,
    finish: Finish = "machined",
) -> ShaftNotch:
    """The groove of a parallel key or of a pin along it; nominal stresses stand on the whole section."""
    place = (root_radius, diameter)
    bending = float(keyseat_bending_concentration(*place))
    curve = loaded_keyseat_torsion_concentration if loaded_by_key else keyseat_torsion_concentration
    torsion = float(curve(*place))
    sources = (FORMULAS[keyseat_bending_concentration].source, FORMULAS[curve].source)
    if form == "sled-runner":
        bending, sources = min(bending, SLED_RUNNER_BENDING), (_TABLE, *sources[1:])
    strength = _din_strength(member)
    pressed = (
        (float(din_keyseat_bending_factor(strength)), float(din_keyseat_torsion_factor(strength)))
        if loaded_by_key
        else (1.0, 1.0)
    )
    section = float(keyway_strength_factor(diameter, width, depth))
    pressing = f" with the {pressed_by} pressing" if loaded_by_key else ""
    return ShaftNotch(
        name=name,
        member=member,
        diameter=diameter,
        bore=bore,
        radius=root_radius,
        bending_concentration=bending,
        torsion_concentration=torsion,
        bending_factor=pressed[0],
        torsion_factor=pressed[1],
        bending_section=section,
        torsion_section=section,
        moments=moments,
        finish=finish,
        sources=(*sources, FORMULAS[keyway_strength_factor].source),
        note=f"Kt {bending:.2f} in bending, Kts {torsion:.2f} in torsion"
        f"{pressing}, at a corner of {root_radius * 1e3:.2g} mm; "
        f"the whole section keeps {section:.2f} of its strength.",
    )


def cross_hole_notch(
    name: str,
    member: MemberState,
    diameter: float,
    *,
    hole: float,
    bore: float = 0.0,
    moments: Moments = NO_MOMENTS,
    finish: Finish = "machined",
) -> ShaftNotch:
    """A round hole through the shaft, across its axis; nominal stresses stand on the whole section."""
    bending = float(cross_hole_bending_concentration(hole, diameter, bore))
    torsion = float(cross_hole_torsion_concentration(hole, diameter, bore))
    gross_torsion = float(torsional_shear_stress(1.0, diameter, bore))
    gross_bending = float(bending_stress(1.0, diameter, bore))
    left = gross_torsion / float(cross_hole_shear_stress(1.0, diameter, hole, bore))
    return ShaftNotch(
        name=name,
        member=member,
        diameter=diameter,
        bore=bore,
        radius=0.5 * hole,
        bending_concentration=bending,
        torsion_concentration=torsion / _HOLE_UNIAXIAL,
        bending_section=gross_bending / float(cross_hole_bending_stress(1.0, diameter, hole, bore)),
        torsion_section=left,
        moments=moments,
        finish=finish,
        sources=(
            FORMULAS[cross_hole_torsion_concentration].source,
            FORMULAS[cross_hole_shear_stress].source,
        ),
        note=f"Kt {bending:.2f} in bending; in torsion the tension at its edge is {torsion:.2f} times the "
        f"shear; the net section keeps {left:.2f} of its strength in torsion.",
    )


def spline_run_out_notch(
    name: str,
    member: MemberState,
    diameter: float,
    *,
    larger_diameter: float,
    radius: float,
    form: SplineForm = "involute",
    bore: float = 0.0,
    moments: Moments = NO_MOMENTS,
    finish: Finish = "machined",
) -> ShaftNotch:
    """Where tooth roots rise to the full shaft: a shoulder of roots against shaft, or the teeth if worse."""
    sizes = (larger_diameter, diameter, radius)
    strength = _din_strength(member)
    bending, torsion = shoulder_bending_concentration(*sizes), shoulder_torsion_concentration(*sizes)
    return ShaftNotch(
        name=name,
        member=member,
        diameter=diameter,
        bore=bore,
        radius=radius,
        bending_concentration=float(bending),
        torsion_concentration=float(torsion),
        bending_factor=float(din_spline_notch_factor(strength, SPLINE_BENDING_SHARE[form])),
        torsion_factor=float(din_spline_notch_factor(strength, SPLINE_TORSION_SHARE[form])),
        moments=moments,
        finish=finish,
        sources=(
            FORMULAS[shoulder_bending_concentration].source,
            FORMULAS[din_spline_notch_factor].source,
            Source("A run-out taken as a shoulder of tooth roots against full shaft", "", "assumed"),
        ),
        note=f"taken as a shoulder with a fillet of {radius * 1e3:.2g} mm: Kt {bending:.2f} in bending, Kts "
        f"{torsion:.2f} in torsion; the roots of the teeth count where they are worse.",
    )


def ring_groove_notch(
    name: str,
    member: MemberState,
    diameter: float,
    *,
    radius: float,
    bore: float = 0.0,
    moments: Moments = NO_MOMENTS,
    finish: Finish = "machined",
) -> ShaftNotch:
    """The groove of a retaining ring; nominal stresses stand on its bottom."""
    return ShaftNotch(
        name=name,
        member=member,
        diameter=diameter,
        bore=bore,
        radius=radius,
        bending_concentration=RING_GROOVE_BENDING,
        torsion_concentration=RING_GROOVE_TORSION,
        moments=moments,
        finish=finish,
        sources=(_TABLE,),
        note=f"Kt {RING_GROOVE_BENDING:g} in bending, Kts {RING_GROOVE_TORSION:g} in torsion, first "
        f"estimates for such grooves, at a corner of {radius * 1e3:.2g} mm.",
    )


def press_fit_notch(
    name: str,
    member: MemberState,
    diameter: float,
    *,
    bore: float = 0.0,
    moments: Moments = NO_MOMENTS,
    finish: Finish = "machined",
) -> ShaftNotch:
    """The edge of a hub that is pressed on: fretting, without any corner in the shaft."""
    strength = _din_strength(member)
    bending = float(din_press_fit_bending_factor(strength))
    torsion = float(din_press_fit_torsion_factor(strength))
    return ShaftNotch(
        name=name,
        member=member,
        diameter=diameter,
        bore=bore,
        bending_factor=bending,
        torsion_factor=torsion,
        moments=moments,
        finish=finish,
        sources=(FORMULAS[din_press_fit_bending_factor].source,),
        note=f"fretting at the edge: fatigue factor {bending:.2f} in bending, {torsion:.2f} in torsion.",
    )


def _din_strength(member: MemberState) -> float:
    """Ultimate strength at the surface, no farther than the factors of DIN 743-2 go."""
    strength = core_strength(member.steel)
    if member.steel.surface_treatment != "none":
        strength = max(strength, surface_strength(member.vickers))
    return min(max(strength, DIN_NOTCH_RANGE[0]), DIN_NOTCH_RANGE[1])
