"""A keyed joint with everything resolved: what of the key is seated, what carries, and what it all bears."""

from dataclasses import dataclass

from torqcheck.assessment.kinds.seat_play import HOW_PLAY, may_be_worn, play_angle
from torqcheck.assessment.members import MemberState, member_state
from torqcheck.capacity import shear_yield_strength
from torqcheck.capacity.joining import (
    SHARE_OF_TWO,
    carrying_keys,
    key_bearing_torque,
    key_hub_seat,
    key_shaft_seat,
    key_shear_torque,
    key_straight_length,
    key_useful_length,
    woodruff_chord,
    woodruff_shaft_seat,
)
from torqcheck.geometry.standards.key_play import KEY_PLAY_SOURCE, key_play
from torqcheck.materials import KeySize, WoodruffKey
from torqcheck.provenance import Mark, Source
from torqcheck.scenario.joint_schema import bore_of
from torqcheck.scenario.kinds.key import ROUND_ENDS, KeyJoint, KeySection, key_section
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.quantity import needed
from torqcheck.scenario.steel_library import Library

__all__ = ["KeyState", "key_state"]

EDGE_LEAST, EDGE_MOST = 0.02, 0.06
"""Of the height of a key: how far its edges are broken, where no table says it; assumed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyState:
    """
    What the checks of a keyed joint work on. SI.

    Parameters
    ----------
    name : str
        Of the joint.
    joint : KeyJoint
        As the file has it.
    diameter, bore : float, m
        Of the shaft.
    section : KeySection
        Size of the key and depths of its keyways.
    over_ends, straight, useful : float, m
        Length of the key over its ends, of its parallel part, and what of that is counted.
    shaft_seat, hub_seat : float, m
        Heights over which it bears.
    chamfer : float, m
        What its edges take from them.
    chamfer_source : Source
        Where that comes from.
    carrying : float
        Keys that are counted.
    shaft, hub, key : MemberState
        Steel of each of the three.
    lash : float, rad
        Rotational play.
    """

    name: str
    joint: KeyJoint
    diameter: float
    bore: float
    section: KeySection
    over_ends: float
    straight: float
    useful: float
    shaft_seat: float
    hub_seat: float
    chamfer: float
    chamfer_source: Source
    carrying: float
    shaft: MemberState
    hub: MemberState
    key: MemberState
    lash: float

    @property
    def lowest_yield(self) -> float:
        """Yield strength of the weakest of the three steels."""
        return min(self.shaft.yield_strength, self.hub.yield_strength, self.key.yield_strength)

    @property
    def torques(self) -> dict[str, float]:
        """Torque at which each place of the key and of its keyways gives way, N m."""
        d, length, carrying = self.diameter, self.useful, self.carrying
        in_hub = min(self.key.yield_strength, self.hub.yield_strength)
        in_shaft = min(self.key.yield_strength, self.shaft.yield_strength)
        shear = shear_yield_strength(self.key.yield_strength)
        return {
            "the key shears": float(key_shear_torque(shear, d, self.section.width, length, carrying)),
            "the side in the hub": float(key_bearing_torque(in_hub, d, self.hub_seat, length, carrying)),
            "the side in the shaft": float(
                key_bearing_torque(in_shaft, d, self.shaft_seat, length, carrying)
            ),
        }


def key_state(joint: KeyJoint, key: str, name: str, library: Library, ledger: Ledger) -> KeyState:
    """Resolve one keyed joint of the file."""
    diameter, section = joint.shaft_diameter.value, key_section(joint)
    outside = joint.hub.outside_diameter
    wall = diameter if outside is None else 0.5 * (outside.value - diameter)
    parts = (("shaft", joint.shaft, diameter), ("hub", joint.hub, wall), ("key", joint.key, section.width))
    shaft, hub, bar = (
        member_state(side, f"{key}.{side}", name, part, thickness, library, ledger)  # type: ignore[arg-type]
        for side, part, thickness in parts
    )
    chamfer, chamfer_source = _chamfer(joint, key, section, ledger)
    over_ends, straight = _lengths(joint, key, section, ledger)
    return KeyState(
        name=name,
        joint=joint,
        diameter=diameter,
        bore=bore_of(joint.shaft),
        section=section,
        over_ends=over_ends,
        straight=straight,
        useful=float(key_useful_length(straight, diameter)),
        shaft_seat=_shaft_seat(section, chamfer),
        hub_seat=float(key_hub_seat(section.height, section.shaft_depth, chamfer)),
        chamfer=chamfer,
        chamfer_source=chamfer_source,
        carrying=float(carrying_keys(joint.keys, SHARE_OF_TWO)),
        shaft=shaft,
        hub=hub,
        key=bar,
        lash=_lash(joint, key, name, section, ledger),
    )


def _chamfer(joint: KeyJoint, key: str, section: KeySection, ledger: Ledger) -> tuple[float, Source]:
    """What the edges take from the seats: as measured, by the table, or a share of the height."""
    if joint.chamfer is not None:
        return joint.chamfer.value, Source("Edges of the key as stated", "", "measured")
    listed = section.listed
    mark: Mark = "assumed"
    if isinstance(listed, KeySize) and listed.chamfer is not None:
        least, most = listed.chamfer
        why, mark = f"edges of a key {listed.size} of its standard", listed.chamfer_mark
    else:
        least, most = EDGE_LEAST * section.height, EDGE_MOST * section.height
        why = "edges of the key broken by 0.02 to 0.06 of its height; no table says"
    taken = ledger.assume(
        f"{key}.chamfer", most, "length", why, band=(least, most), favourable=least, mark=mark
    )
    return taken, Source("Edges of keys as they are usual", "", mark)


def _lengths(joint: KeyJoint, key: str, section: KeySection, ledger: Ledger) -> tuple[float, float]:
    """Length over the ends and of the parallel part; of a Woodruff key its chord at the shaft."""
    if isinstance(section.listed, WoodruffKey):
        chord = float(woodruff_chord(section.listed.disc_diameter, section.shaft_depth))
        return chord, chord
    length, ends = needed(joint.length).value, str(joint.ends or "")
    if not ends:
        why = "not stated; round ends at both sides leave the shortest part to carry"
        ends = ledger.assume_word(f"{key}.ends", "round", why)
    return length, float(key_straight_length(length, section.width, ROUND_ENDS[ends]))


def _shaft_seat(section: KeySection, chamfer: float) -> float:
    if isinstance(section.listed, WoodruffKey):
        return float(woodruff_shaft_seat(section.listed.disc_diameter, section.shaft_depth))
    return float(key_shaft_seat(section.shaft_depth, chamfer))


def _lash(joint: KeyJoint, key: str, name: str, section: KeySection, ledger: Ledger) -> float:
    """Play as measured, or what the fit of a new key can have; an old keyway may have more."""
    loose = joint.fit != "tight" and joint.lash is None
    if loose and may_be_worn(joint.shaft, joint.hub, joint.key):
        ledger.miss(name, "lash", f"one part is not new; {HOW_PLAY}")
    return play_angle(
        joint.lash,
        key,
        joint.shaft_diameter.value,
        key_play(section.width, joint.fit),
        f"the most that a new key of the {joint.fit} fit has in shaft and hub together",
        KEY_PLAY_SOURCE.mark,
        ledger,
    )
