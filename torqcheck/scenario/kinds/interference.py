"""The block of an interference fit, the rules that tie its fields together, and its impossible sizes."""

from collections.abc import Mapping
from typing import Any, Literal

from pydantic import Field

from torqcheck.errors import DomainError
from torqcheck.geometry.standards.press_fits import press_fit
from torqcheck.scenario.joint_schema import AnyJoint, Block, SteelPart, bore_of, no_wall
from torqcheck.scenario.quantity import (
    AnyLength,
    Diameter,
    Force,
    HardnessField,
    Line,
    SeatLength,
    SmallLength,
    Strength,
    Temperature,
    needed,
)
from torqcheck.scenario.usual import has_tolerance

__all__ = [
    "FitHub",
    "FitShaft",
    "InterferenceFitJoint",
    "interference_presence",
    "interference_sizes",
    "interference_values",
    "measured_interference",
    "steel_of",
]

Rule = tuple[str, str, str]
LARGEST_SHARE = 0.01
"""Interference over diameter that no elastic joint has: a slip of the unit."""
_STEEL_KEYS = ("hardness", "reused", "welded_near")


class FitShaft(SteelPart):
    """The shaft in the seat."""

    bore: AnyLength | None = Field(default=None, description="bore of a hollow shaft")
    measured_diameter: Diameter | None = Field(
        default=None, description="diameter of the seat by micrometer, with its tolerance"
    )
    roughness: SmallLength | None = Field(default=None, description="roughness depth Rz of the seat")
    temperature: Temperature | None = Field(default=None, description="temperature when running")


class FitHub(Block):
    """The hub on the seat, of steel or of another metal."""

    steel: Line | None = Field(
        default=None, max_length=80, description='row of the steel tables, or "unknown"'
    )
    hardness: HardnessField | None = Field(default=None, description="measured hardness, overrides the row")
    reused: bool | None = Field(default=None, description="an old part; counts as reused if not stated")
    welded_near: bool = Field(default=False, description="a weld on the hub")
    material: Literal["aluminium", "cast iron", "bronze"] | None = Field(
        default=None, description="in place of steel"
    )
    strength: Strength | None = Field(
        default=None, description="of the other metal: yield strength, of cast iron the tensile strength"
    )
    outside_diameter: Diameter = Field(description="outside diameter of the hub over the seat")
    weakest_outside: Diameter | None = Field(
        default=None, description="outside diameter at the bottom of a groove or of an outside spline"
    )
    feature_diameter: Diameter | None = Field(
        default=None, description="diameter to the outer corners of a keyway or spline in the bore"
    )
    measured_bore: Diameter | None = Field(default=None, description="bore by bore gauge, with its tolerance")
    roughness: SmallLength | None = Field(default=None, description="roughness depth Rz of the bore")
    temperature: Temperature | None = Field(default=None, description="temperature when running")


class InterferenceFitJoint(AnyJoint):
    """A hub pressed or shrunk on a shaft."""

    kind: Literal["interference fit"] = Field(description="kind of joint")
    diameter: Diameter = Field(description="nominal diameter of the seat")
    length: SeatLength = Field(description="length of the seat that grips, without chamfers")
    interference: SmallLength | None = Field(
        default=None, description="measured on the diameter, with its tolerance: shaft minus bore"
    )
    fit: Line | None = Field(default=None, max_length=20, description='ISO 286 fit, "H7/s6"')
    joining: Literal[
        "pressed oiled", "pressed dry", "shrunk", "shrunk degreased", "hydraulic", "hydraulic degreased"
    ] = Field(description="how hub and shaft were joined")
    friction: float | None = Field(
        default=None, ge=1e-3, le=0.6, description="coefficient of friction, where it was measured"
    )
    axial_force: Force | None = Field(default=None, description="axial force that acts with the torque")
    rejoined: bool = Field(default=False, description="the same seat has been joined before")
    shaft: FitShaft = Field(description="the shaft")
    hub: FitHub = Field(description="the hub")


def steel_of(hub: FitHub) -> SteelPart:
    """Steel, hardness and state of a hub of steel, as of any part of steel."""
    return SteelPart(
        steel=needed(hub.steel), hardness=hub.hardness, reused=hub.reused, welded_near=hub.welded_near
    )


def measured_interference(joint: InterferenceFitJoint) -> tuple[float, float] | None:
    """
    Interference on the diameter and its tolerance, m, as measured; None where a fit is named.

    The tolerances of shaft and bore add: the least interference is that of the smallest shaft in the
    largest bore that the readings allow.
    """
    if joint.interference is not None:
        return joint.interference.value, joint.interference.tolerance
    shaft, bore = joint.shaft.measured_diameter, joint.hub.measured_bore
    if shaft is None or bore is None:
        return None
    return shaft.value - bore.value, shaft.tolerance + bore.tolerance


def interference_presence(written: Mapping[str, Any]) -> list[Rule]:
    """One way to say the interference, one to say what the hub is made of."""
    shaft, hub = (_table(written.get(side)) for side in ("shaft", "hub"))
    faults: list[Rule] = []
    ways = [key for key in ("interference", "fit") if key in written]
    pair = [("shaft", "measured_diameter", shaft), ("hub", "measured_bore", hub)]
    given = [f"{side}.{key}" for side, key, table in pair if key in table]
    ways += given[:1]
    if not ways:
        mend = "give interference, fit, or shaft.measured_diameter and hub.measured_bore"
        faults.append(("interference", "is missing", mend))
    elif len(ways) > 1:
        faults.append((ways[1], f"contradicts {ways[0]}", "keep one way to say the interference"))
    elif len(given) == 1:
        missing = next(f"{side}.{key}" for side, key, table in pair if key not in table)
        faults.append((missing, f"is missing beside {given[0]}", "the interference is their difference"))
    return faults + (_hub_keys(hub) if isinstance(written.get("hub"), Mapping) else [])


def _table(written: Any) -> Mapping[str, Any]:
    return written if isinstance(written, Mapping) else {}


def _hub_keys(hub: Mapping[str, Any]) -> list[Rule]:
    """What a hub is made of: steel with its hardness, or another metal with its strength."""
    if "steel" in hub and "material" in hub:
        return [("hub.material", "contradicts steel", "keep one of them")]
    if "steel" not in hub and "material" not in hub:
        return [("hub.steel", "is missing", 'give steel, or material = "aluminium" for example')]
    if "material" in hub:
        mend = "give strength for another metal"
        return [(f"hub.{key}", "only goes with steel", mend) for key in _STEEL_KEYS if key in hub]
    if "strength" in hub:
        return [("hub.strength", "contradicts steel", "give hardness, or an own table of steels")]
    return []


def interference_values(joint: InterferenceFitJoint) -> list[Rule]:
    """What was measured says how well: the grip counts on the least interference."""
    readings = {
        "interference": joint.interference,
        "shaft.measured_diameter": joint.shaft.measured_diameter,
        "hub.measured_bore": joint.hub.measured_bore,
    }
    return [
        (
            key,
            "has no tolerance, and the grip counts on the least interference",
            'write how well it was measured, for example "0.045 +/- 0.005 mm"; "+/- 0" if it is exact',
        )
        for key, reading in readings.items()
        if reading is not None and not has_tolerance(reading.text)
    ]


def interference_sizes(joint: InterferenceFitJoint) -> list[Rule]:
    """A wall everywhere, and an interference that can be one."""
    diameter, hub = joint.diameter.value, joint.hub
    faults: list[Rule] = []
    if no_wall(bore_of(joint.shaft), diameter):
        faults.append(("shaft.bore", "leaves no wall", "the bore must be below the diameter"))
    inside = hub.feature_diameter.value if hub.feature_diameter is not None else diameter
    outside = hub.weakest_outside.value if hub.weakest_outside is not None else hub.outside_diameter.value
    if inside < diameter:
        mend = f"the seat has {diameter * 1e3:.2f} mm; leave it out for a plain bore"
        faults.append(("hub.feature_diameter", "is below the diameter of the seat", mend))
    if outside > hub.outside_diameter.value:
        faults.append(
            ("hub.weakest_outside", "is above the outside diameter", "give the bottom of the groove")
        )
    if no_wall(max(inside, diameter), outside):
        key = "outside_diameter" if hub.weakest_outside is None else "weakest_outside"
        faults.append((f"hub.{key}", "leaves no wall", f"the hub is hollow to {inside * 1e3:.2f} mm"))
    return faults + _interference_faults(joint)


def _interference_faults(joint: InterferenceFitJoint) -> list[Rule]:
    diameter = joint.diameter.value
    if joint.fit is not None:
        try:
            press_fit(diameter, joint.fit)
        except DomainError as error:
            return [("fit", f"cannot be used: {error}", "give a fit such as H7/s6, or measure both parts")]
        return []
    measured = measured_interference(joint)
    if measured is None:
        return []
    value, _ = measured
    key = "interference" if joint.interference is not None else "shaft.measured_diameter"
    if value <= 0.0:
        return [(key, "leaves no interference", "a shaft that is not above its bore does not grip")]
    if value > LARGEST_SHARE * diameter:
        says = f"means an interference of {value * 1e3:.3g} mm on {diameter * 1e3:.4g} mm"
        return [(key, says, "check reading and unit: fits have about a thousandth of the diameter")]
    for part, reading in (("shaft", joint.shaft.measured_diameter), ("hub", joint.hub.measured_bore)):
        if reading is not None and abs(reading.value - diameter) > LARGEST_SHARE * diameter:
            name = "measured_diameter" if part == "shaft" else "measured_bore"
            return [(f"{part}.{name}", "does not match the diameter of the seat", "check reading and unit")]
    return []
