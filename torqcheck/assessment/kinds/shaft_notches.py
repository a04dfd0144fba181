"""From the notches in the block of a shaft to notches that can be checked, and what bends the shaft there."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from torqcheck.assessment.fatigue.shaft_notches import (
    Moments,
    ShaftNotch,
    cross_hole_notch,
    keyseat_notch,
    plain_section,
    press_fit_notch,
    ring_groove_notch,
    shoulder_notch,
    spline_run_out_notch,
)
from torqcheck.assessment.members import MemberState
from torqcheck.capacity import forced_offset_force, overhung_moment, overhung_stiffness
from torqcheck.fatigue import RING_GROOVE_RADIUS_OVER_WIDTH
from torqcheck.scenario.joint_schema import bore_of
from torqcheck.scenario.kinds.shaft import ShaftJoint
from torqcheck.scenario.kinds.shaft_notches import Finish, ForcedOffset
from torqcheck.scenario.ledger import Ledger

__all__ = [
    "BendingLoads",
    "assumed_finish",
    "assumed_keyseat_radius",
    "bending_loads",
    "edge_of_hub",
    "shaft_notches",
]

NEW_FILLET, OLD_FILLET, ROUNDEST_FILLET = 0.02, 0.01, 0.1
"""Radius of a shoulder fillet over the diameter: sharp as drawn, sharper where it was turned long ago."""
KEYSEAT_CORNER, SHARPEST_CORNER, ROUNDEST_CORNER = 0.0075, 0.005, 0.02
GROOVE_CORNER, SHARPEST_GROOVE, ROUNDEST_GROOVE = 0.2e-3, 0.1e-3, 0.3e-3
"""m; a rounder corner is felt more in fatigue, since the concentration itself is one for all grooves."""


@dataclass(frozen=True, slots=True)
class BendingLoads:
    """
    What bends a shaft across its axis. SI.

    Parameters
    ----------
    side_load, overhang : float, N and m
        A force that stands still, and its distance from where the shaft bends most.
    offset_force, offset_overhang : float, N and m
        The force that a forced offset makes, and its distance from the bearing.
    turns_with_shaft : bool
        Whether the offset turns with the shaft.
    """

    side_load: float = 0.0
    overhang: float = 0.0
    offset_force: float = 0.0
    offset_overhang: float = 0.0
    turns_with_shaft: bool = False

    @property
    def bends(self) -> bool:
        """Whether there is any."""
        return self.side_load > 0.0 or self.offset_force > 0.0

    def moments(self, from_load: float | None = None) -> Moments:
        """Moments at a distance from the load; where the shaft bends most if none is given."""
        arms = [
            arm if from_load is None else min(from_load, arm) for arm in (self.overhang, self.offset_overhang)
        ]
        still = float(overhung_moment(self.side_load, arms[0]))
        by_offset = float(overhung_moment(self.offset_force, arms[1]))
        if self.turns_with_shaft:
            return Moments(still, by_offset)
        return Moments(still + by_offset, 0.0)


def bending_loads(joint: ShaftJoint, key: str, member: MemberState, ledger: Ledger) -> BendingLoads:
    """
    Find what bends the shaft: a force that stands still, and the force of a forced offset.

    Parameters
    ----------
    joint : ShaftJoint
        The block of the file.
    key : str
        Its place there.
    member : MemberState
        Steel of the shaft.
    ledger : Ledger
        Takes what had to be assumed of the other side.
    """
    bending, offset = joint.bending, joint.forced_offset
    side_load, overhang = (0.0, 0.0) if bending is None else (bending.side_load.value, bending.overhang.value)
    if offset is None:
        return BendingLoads(side_load, overhang)
    force = _offset_force(joint, offset, key, member, ledger)
    return BendingLoads(side_load, overhang, force, offset.overhang.value, offset.turns_with_shaft)


def _offset_force(
    joint: ShaftJoint, offset: ForcedOffset, key: str, member: MemberState, ledger: Ledger
) -> float:
    """Force between the two shaft ends; the other side counts as rigid where nobody knows it."""
    own = overhung_stiffness(
        joint.diameter.value,
        offset.overhang.value,
        offset.bearing_spacing.value,
        member.steel.elastic_modulus,
        bore_of(joint),
    )
    if offset.stiffness_of_other_side is not None:
        return float(forced_offset_force(offset.offset.value, own, offset.stiffness_of_other_side.value))
    share = ledger.assume(
        f"{key}.forced_offset.share",
        1.0,
        None,
        "the other side of the forced offset counts as rigid; 0.5 is one as soft as this shaft end",
        band=(0.5, 1.0),
    )
    return float(offset.offset.value * own * share)


def shaft_notches(
    joint: ShaftJoint, key: str, member: MemberState, loads: BendingLoads, ledger: Ledger
) -> tuple[ShaftNotch, ...]:
    """
    Make the notches of a shaft ready to be checked; the plain section where it is bent without any.

    Parameters
    ----------
    joint : ShaftJoint
        The block of the file.
    key : str
        Its place there.
    member : MemberState
        Steel and hardness of the shaft.
    loads : BendingLoads
        What bends it.
    ledger : Ledger
        Takes what had to be assumed: radii, surface.
    """
    if not joint.notches and not loads.bends:
        return ()
    finish, bore = assumed_finish(joint.finish, ledger), bore_of(joint)
    if not joint.notches:
        plain = plain_section(
            "plain section", member, joint.diameter.value, bore=bore, moments=loads.moments(), finish=finish
        )
        return (plain,)
    found = []
    for number, (notch, name) in enumerate(zip(joint.notches, _names(joint), strict=True), start=1):
        place = _Place(joint, notch, f"{key}.notches[{number}]", ledger)
        made = _MAKERS[notch.kind](
            name,
            member,
            place.diameter,
            bore=bore,
            moments=loads.moments(None if notch.from_load is None else notch.from_load.value),
            finish=finish,
            **_SIZES[notch.kind](place),
        )
        found.append(made)
    return tuple(found)


def _names(joint: ShaftJoint) -> list[str]:
    """A name for each notch: its own, or its kind, numbered where there are several alike."""
    names: list[str] = []
    for notch in joint.notches:
        name, number = notch.name or notch.kind, 1
        while name in names:
            number += 1
            name = f"{notch.kind} {number}"
        names.append(name)
    return names


def assumed_finish(finish: Finish | None, ledger: Ledger) -> Finish:
    """Surface at the notches, machined where nobody says; the reliability is written down either way."""
    word = finish or "machined"
    ledger.assume_word(
        "fatigue.surface" if finish is None else f"fatigue.surface, {finish}",
        f"{word}, 99 % of parts",
        "surface and reliability factor of the endurance limit, by the handbook in its 9th edition",
    )
    return word


def edge_of_hub(member: MemberState, diameter: float, bore: float, ledger: Ledger) -> ShaftNotch:
    """Where a hub that grips by friction ends on its shaft: it frets there."""
    finish = assumed_finish(None, ledger)
    return press_fit_notch("edge of the hub", member, diameter, bore=bore, finish=finish)


def assumed_keyseat_radius(key: str, diameter: float, ledger: Ledger) -> float:
    """Radius at the bottom corner of a keyseat that nobody measured, m."""
    return ledger.assume(
        f"{key}.root_radius",
        KEYSEAT_CORNER * diameter,
        "length",
        f"bottom corner of the keyseat, {KEYSEAT_CORNER:g} of the diameter as common standards have it; a "
        "cast would tell",
        band=(SHARPEST_CORNER * diameter, ROUNDEST_CORNER * diameter),
    )


@dataclass(frozen=True, slots=True)
class _Place:
    """One notch of the file, with what its sizes are taken from."""

    joint: ShaftJoint
    notch: Any
    key: str
    ledger: Ledger

    @property
    def diameter(self) -> float:
        """Outside diameter at the notch."""
        return float((self.notch.diameter or self.joint.diameter).value)

    def fillet(self) -> float:
        """Fillet of a shoulder or a run-out, assumed if nobody measured it."""
        if self.notch.radius is not None:
            return float(self.notch.radius.value)
        old = self.joint.reused is not False
        share = OLD_FILLET if old else NEW_FILLET
        why = (
            f"fillet of an old part, {share:g} of the diameter: it may have been cut sharp or cut again"
            if old
            else f"fillet not stated, {share:g} of the diameter: a sharp shoulder"
        )
        return self.ledger.assume(
            f"{self.key}.radius",
            share * self.diameter,
            "length",
            f"{why}; a radius gauge would tell",
            band=(OLD_FILLET * self.diameter, ROUNDEST_FILLET * self.diameter),
        )


def _shoulder_sizes(place: _Place) -> dict[str, Any]:
    return {"larger_diameter": place.notch.larger_diameter.value, "radius": place.fillet()}


def _run_out_sizes(place: _Place) -> dict[str, Any]:
    return {**_shoulder_sizes(place), "form": place.notch.form}


def _keyseat_sizes(place: _Place) -> dict[str, Any]:
    notch = place.notch
    radius = notch.root_radius.value if notch.root_radius is not None else None
    return {
        "width": notch.width.value,
        "depth": notch.depth.value,
        "root_radius": assumed_keyseat_radius(place.key, place.diameter, place.ledger)
        if radius is None
        else radius,
        "form": notch.form,
        "loaded_by_key": notch.loaded_by_key,
    }


def _hole_sizes(place: _Place) -> dict[str, Any]:
    return {"hole": place.notch.hole.value}


def _groove_sizes(place: _Place) -> dict[str, Any]:
    notch = place.notch
    if notch.radius is not None:
        return {"radius": notch.radius.value}
    if notch.width is not None:
        return {"radius": RING_GROOVE_RADIUS_OVER_WIDTH * notch.width.value}
    radius = place.ledger.assume(
        f"{place.key}.radius",
        GROOVE_CORNER,
        "length",
        "bottom corners of the groove; a tenth of its width if that is given",
        band=(SHARPEST_GROOVE, ROUNDEST_GROOVE),
    )
    return {"radius": radius}


def _no_sizes(place: _Place) -> dict[str, Any]:
    return {}


_MAKERS: Mapping[str, Callable[..., ShaftNotch]] = {
    "shoulder fillet": shoulder_notch,
    "keyseat": keyseat_notch,
    "cross hole": cross_hole_notch,
    "spline run-out": spline_run_out_notch,
    "ring groove": ring_groove_notch,
    "press fit edge": press_fit_notch,
}
_SIZES: Mapping[str, Callable[[_Place], dict[str, Any]]] = {
    "shoulder fillet": _shoulder_sizes,
    "keyseat": _keyseat_sizes,
    "cross hole": _hole_sizes,
    "spline run-out": _run_out_sizes,
    "ring groove": _groove_sizes,
    "press fit edge": _no_sizes,
}
