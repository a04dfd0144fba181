"""The block of a parallel or a Woodruff key, the rules that tie its fields together, and impossible sizes."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal

from pydantic import Field

from torqcheck.errors import DomainError
from torqcheck.materials import KeySize, WoodruffKey, key_for_shaft, key_of_size, woodruff_key
from torqcheck.scenario.forms import LASH_FORMS, Rule, below, one_form
from torqcheck.scenario.joint_schema import AnyJoint, Lash, SteelPart, bore_of, no_wall
from torqcheck.scenario.quantity import (
    AnyLength,
    CornerRadius,
    Diameter,
    Length,
    Line,
    SeatLength,
    SmallLength,
    needed,
)

__all__ = [
    "ROUND_ENDS",
    "KeyHub",
    "KeyJoint",
    "KeySection",
    "KeyShaft",
    "key_presence",
    "key_section",
    "key_size_faults",
    "play_at_shaft",
    "shaft_lash_faults",
]

WIDEST, DEEPEST = 0.5, 0.3
"""Of the shaft diameter: what a keyway may take; deeper, the strength that is left is not known."""
SHARPEST, BLUNTEST = 0.005, 0.07
"""Corner of the keyway over the shaft diameter, where the curves of its stress end."""
ROUND_ENDS = {"square": 0, "one round": 1, "round": 2}
_OWN = ("width", "height", "shaft_depth")


class KeyShaft(SteelPart):
    """The shaft with its keyway."""

    bore: AnyLength | None = Field(default=None, description="bore of a hollow shaft")


class KeyHub(SteelPart):
    """The hub with its keyway."""

    outside_diameter: Diameter | None = Field(default=None, description="outside diameter of the hub")
    length: SeatLength | None = Field(default=None, description="length of the hub on the shaft")


class KeyJoint(AnyJoint):
    """A hub on a shaft with one or two keys."""

    kind: Literal["key"] = Field(description="kind of joint")
    standard: Literal["din 6885", "ansi b17.1", "woodruff", "own"] = Field(
        description="where the size of the key comes from"
    )
    size: Line | None = Field(
        default=None,
        max_length=20,
        description='width x height, "8x7" or "1/4x3/16"; of a Woodruff key width x disc, "3/16x3/4"; '
        "left out: that of the table for the shaft",
    )
    section: Literal["square", "flat"] | None = Field(
        default=None, description="ansi b17.1 without a size: which of the two for the shaft"
    )
    width: Length | None = Field(default=None, description="own: width of the key")
    height: Length | None = Field(default=None, description="own: height of the key")
    shaft_depth: Length | None = Field(
        default=None, description="own: depth of the keyway in the shaft, at its side"
    )
    shaft_diameter: Diameter = Field(description="diameter of the shaft in the hub")
    length: SeatLength | None = Field(
        default=None, description="length of a parallel key over its ends, as far as it lies in the hub"
    )
    ends: Literal["square", "one round", "round"] | None = Field(
        default=None, description="ends of a parallel key; round is assumed if not given"
    )
    keys: int = Field(default=1, ge=1, le=2, description="number of keys")
    fit: Literal["tight", "normal", "sliding"] = Field(
        description="width of the keyways: tight (P9, driven in), normal (N9, JS9) or sliding (H9, D10)"
    )
    chamfer: SmallLength | None = Field(
        default=None, description="chamfer of the edges of the key, or radius in the corner of the keyway"
    )
    root_radius: CornerRadius | None = Field(
        default=None, description="radius in the bottom corner of the keyway of the shaft"
    )
    lash: Lash | None = Field(
        default=None, description="rotational play, measured; clearance: along the surface of the shaft"
    )
    shaft: KeyShaft = Field(description="the shaft")
    hub: KeyHub = Field(description="the hub")
    key: SteelPart = Field(description="the key itself")


@dataclass(frozen=True, slots=True)
class KeySection:
    """What the file says of a key, from its table or its own sizes, m."""

    width: float
    height: float
    shaft_depth: float
    hub_depth: float
    listed: KeySize | WoodruffKey | None


def key_section(joint: KeyJoint) -> KeySection:
    """
    Return the size of a key.

    Raises
    ------
    DomainError
        If the table has no such key, or none for the shaft.
    """
    if joint.standard == "own":
        width, height, depth = (needed(getattr(joint, name)).value for name in _OWN)
        return KeySection(width, height, depth, height - depth, None)
    key: KeySize | WoodruffKey
    if joint.standard == "woodruff":
        key = woodruff_key(needed(joint.size))
    elif joint.size is not None:
        key = key_of_size(joint.standard, joint.size)
    else:
        key = key_for_shaft(joint.standard, joint.shaft_diameter.value, joint.section or "square")
    stands_out = key.height - key.shaft_depth
    return KeySection(key.width, key.height, key.shaft_depth, key.hub_depth or stands_out, key)


def key_presence(written: Mapping[str, Any]) -> list[Rule]:
    """Sizes by the standard; a length for what is not a disc; one form of the play."""
    standard = written.get("standard")
    faults: list[Rule] = []
    if standard == "own":
        faults += _missing(written, _OWN, "standard own")
        faults += _alien(written, ("size", "section"), "standard own", "give width, height and shaft_depth")
    elif isinstance(standard, str):
        faults += _alien(written, _OWN, str(standard), 'leave it out, or write standard = "own"')
    if standard == "woodruff":
        faults += _missing(written, ("size",), "woodruff")
        faults += _alien(written, ("length", "ends", "section"), "woodruff", "the disc says it all")
    else:
        faults += _missing(written, ("length",), "a parallel key")
    if "section" in written and "size" in written:
        faults.append(("section", "contradicts size", "the size says whether it is square or flat"))
    elif standard == "din 6885":
        faults += _alien(written, ("section",), "din 6885", "it has one key for each shaft")
    lash = written.get("lash")
    return faults + (below("lash", one_form(lash, LASH_FORMS)) if isinstance(lash, Mapping) else [])


def _missing(written: Mapping[str, Any], keys: tuple[str, ...], of: str) -> list[Rule]:
    return [(key, f"is missing for {of}", f"give {', '.join(keys)}") for key in keys if key not in written]


def _alien(written: Mapping[str, Any], keys: tuple[str, ...], to: str, mend: str) -> list[Rule]:
    return [(key, f"does not belong to {to}", mend) for key in keys if key in written]


def key_size_faults(joint: KeyJoint) -> list[Rule]:
    """A key that the table has, that leaves metal everywhere, and that is no longer than its hub."""
    try:
        section = key_section(joint)
    except DomainError as error:
        key = "size" if joint.size is not None else "shaft_diameter"
        return [(key, f"cannot be used: {error}", 'or write standard = "own" and the measured sizes')]
    return [
        *_shaft_faults(joint, section),
        *_hub_faults(joint, section),
        *_length_faults(joint, section),
        *shaft_lash_faults(joint.lash, joint.shaft_diameter.value, section.width),
    ]


def _shaft_faults(joint: KeyJoint, section: KeySection) -> list[Rule]:
    """The keyway must leave a shaft, and the key must be seated in it and stand out of it."""
    diameter, own = joint.shaft_diameter.value, joint.standard == "own"
    faults: list[Rule] = []
    if section.width > WIDEST * diameter:
        key = "width" if own else "size"
        faults.append((key, "is wider than half the shaft", "check the shaft diameter, the key and the unit"))
    if section.shaft_depth >= section.height:
        faults.append(
            ("shaft_depth", "leaves nothing of the key to stand out", "it must be below the height")
        )
    elif section.shaft_depth > DEEPEST * diameter:
        key = "shaft_depth" if own else "size"
        says = f"cuts {section.shaft_depth * 1e3:.2f} mm deep, more than {DEEPEST:g} of the shaft"
        faults.append((key, says, "such a shaft is to be looked at by other means"))
    if no_wall(bore_of(joint.shaft), diameter - 2.0 * section.shaft_depth):
        faults.append(("shaft.bore", "leaves no wall under the keyway", "check bore and keyway"))
    radius = joint.root_radius
    if radius is not None and not SHARPEST * diameter <= radius.value <= BLUNTEST * diameter:
        mend = "no formula holds there; leave it out to have it assumed"
        faults.append(("root_radius", "is not between 0.005 and 0.07 of the shaft", mend))
    seat = min(section.shaft_depth, section.height - section.shaft_depth)
    if joint.chamfer is not None and seat > 0.0 and joint.chamfer.value > 0.5 * seat:
        limit = f"the lower seat is {seat * 1e3:.2f} mm high"
        faults.append(("chamfer", "leaves next to nothing of the seat", limit))
    return faults


def _hub_faults(joint: KeyJoint, section: KeySection) -> list[Rule]:
    outside, bottom = joint.hub.outside_diameter, joint.shaft_diameter.value + 2.0 * section.hub_depth
    if outside is None or not no_wall(bottom, outside.value):
        return []
    limit = f"the keyway reaches to {bottom * 1e3:.2f} mm"
    return [("hub.outside_diameter", "leaves no wall over the keyway", limit)]


def _length_faults(joint: KeyJoint, section: KeySection) -> list[Rule]:
    """Round ends leave something, and what lies beyond the hub carries nothing."""
    if joint.length is None:
        return []
    length, hub = joint.length.value, joint.hub.length
    faults: list[Rule] = []
    if hub is not None and length > hub.value * (1.0 + 1e-9):
        mend = f"only what lies in the hub carries, at most {hub.value * 1e3:.2f} mm"
        faults.append(("length", "is more than the length of the hub", mend))
    if length <= 0.5 * ROUND_ENDS[joint.ends or "round"] * section.width:
        faults.append(("length", "is no more than the round ends of the key", "measure it over the ends"))
    return faults


def play_at_shaft(lash: Lash, shaft_diameter: float) -> tuple[str, float]:
    """Return the key of a measured play and what it is along the surface of the shaft, m."""
    radius = 0.5 * shaft_diameter
    if lash.clearance is not None:
        return "clearance", lash.clearance.value
    if lash.angle is not None:
        return "angle", lash.angle.value * radius
    return "travel", needed(lash.travel).value / needed(lash.radius).value * radius


def shaft_lash_faults(lash: Lash | None, shaft_diameter: float, width: float) -> list[Rule]:
    """A play as wide as the part that carries is a slip of the unit: nothing would hold."""
    if lash is None:
        return []
    key, play = play_at_shaft(lash, shaft_diameter)
    if play < width:
        return []
    says = f"is {play * 1e3:.3g} mm at the surface of the shaft, {width * 1e3:.3g} mm or more"
    return [(f"lash.{key}", says, "check reading and unit")]
