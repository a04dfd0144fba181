"""A pinned joint with everything resolved: what shears and bears, steels, play, and what breaks a fuse."""

from dataclasses import dataclass

from torqcheck.assessment.kinds.seat_play import HOW_PLAY, may_be_worn, play_angle
from torqcheck.assessment.members import MemberState, member_state
from torqcheck.capacity.joining import (
    GROOVED_PRESSURE,
    GROOVED_SHEAR,
    PIN_SCATTER,
    PIN_SHEAR_STRENGTH,
    SHARE_OF_TWO,
    axial_pin_pressure,
    axial_pin_shear_stress,
    carrying_keys,
    pin_breaking_torque,
    pin_hub_pressure,
    pin_shaft_pressure,
    pin_shear_stress,
)
from torqcheck.formulas import FORMULAS
from torqcheck.materials import design_ultimate
from torqcheck.provenance import Source
from torqcheck.scenario.joint_schema import bore_of
from torqcheck.scenario.kinds.pin import PinJoint, hole_diameter, pin_diameter
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.quantity import needed
from torqcheck.scenario.steel_library import Library

__all__ = ["FuseBand", "PinState", "pin_state"]

FUSE_PLAY = (0.02e-3, 0.10e-3)
"""Least and greatest play of a fuse pin in its bushes along the surface of the shaft, m; assumed."""


@dataclass(frozen=True, slots=True)
class FuseBand:
    """Torques between which a fuse pin breaks, N m, and the one that is drawn between them."""

    least: float
    most: float
    drawn: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PinState:
    """What the checks of a pinned joint work on. SI."""

    name: str
    joint: PinJoint
    shaft_diameter: float
    bore: float
    pin_diameter: float
    hole_diameter: float
    carrying: float
    shaft: MemberState
    hub: MemberState
    pin: MemberState
    fuse: FuseBand | None
    lash: float

    @property
    def across(self) -> bool:
        """Whether the pin goes through shaft and hub; else it lies between them."""
        return self.joint.place == "across"

    @property
    def pressure_share(self) -> float:
        """What of the pressure of a plain pin is allowed."""
        return GROOVED_PRESSURE if self.joint.form == "grooved" else 1.0

    @property
    def shear_share(self) -> float:
        """What of the shear stress of a plain pin is allowed."""
        return GROOVED_SHEAR if self.joint.form == "grooved" else 1.0

    @property
    def length(self) -> float:
        """Seated length of a pin along the joint."""
        return needed(self.joint.length).value

    def shear_stress(self, torque: float) -> tuple[float, Source]:
        """Shear stress in the pin, and its formula."""
        d, pin, carrying = self.shaft_diameter, self.pin_diameter, self.carrying
        if self.across:
            return float(pin_shear_stress(torque, d, pin, carrying)), FORMULAS[pin_shear_stress].source
        stress = axial_pin_shear_stress(torque, d, pin, self.length, carrying)
        return float(stress), FORMULAS[axial_pin_shear_stress].source

    def shaft_pressure(self, torque: float) -> tuple[float, Source]:
        """Pressure of the pin in the shaft, and its formula."""
        if not self.across:
            return self._axial_pressure(torque)
        pressure = pin_shaft_pressure(
            torque, self.shaft_diameter, self.hole_diameter, self.bore, self.carrying
        )
        return float(pressure), FORMULAS[pin_shaft_pressure].source

    def hub_pressure(self, torque: float) -> tuple[float, Source]:
        """Pressure of the pin in the hub, and its formula."""
        if not self.across:
            return self._axial_pressure(torque)
        outside = needed(self.joint.hub.outside_diameter).value
        pressure = pin_hub_pressure(torque, self.shaft_diameter, outside, self.hole_diameter, self.carrying)
        return float(pressure), FORMULAS[pin_hub_pressure].source

    def _axial_pressure(self, torque: float) -> tuple[float, Source]:
        pressure = axial_pin_pressure(
            torque, self.shaft_diameter, self.pin_diameter, self.length, self.carrying
        )
        return float(pressure), FORMULAS[axial_pin_pressure].source


def pin_state(joint: PinJoint, key: str, name: str, library: Library, ledger: Ledger) -> PinState:
    """Resolve one pinned joint of the file."""
    diameter, outside = joint.shaft_diameter.value, joint.hub.outside_diameter
    wall = diameter if outside is None else 0.5 * (outside.value - diameter)
    parts = (
        ("shaft", joint.shaft, diameter),
        ("hub", joint.hub, wall),
        ("pin", joint.pin, joint.diameter.value),
    )
    shaft, hub, bar = (
        member_state(side, f"{key}.{side}", name, part, thickness, library, ledger)  # type: ignore[arg-type]
        for side, part, thickness in parts
    )
    carrying = float(carrying_keys(joint.pins, SHARE_OF_TWO))
    return PinState(
        name=name,
        joint=joint,
        shaft_diameter=diameter,
        bore=bore_of(joint.shaft),
        pin_diameter=pin_diameter(joint),
        hole_diameter=hole_diameter(joint),
        carrying=carrying,
        shaft=shaft,
        hub=hub,
        pin=bar,
        fuse=_fuse(joint, key, bar, ledger) if joint.fuse else None,
        lash=_lash(joint, key, name, ledger),
    )


def _fuse(joint: PinJoint, key: str, bar: MemberState, ledger: Ledger) -> FuseBand:
    """Torque that breaks the pin, with the scatter of the prediction."""
    # both planes of both pins must go; how they share before does not matter then
    predicted = float(
        pin_breaking_torque(
            design_ultimate(bar.steel),
            joint.shaft_diameter.value,
            pin_diameter(joint),
            PIN_SHEAR_STRENGTH,
            joint.pins,
        )
    )
    least, most = (1.0 - PIN_SCATTER) * predicted, (1.0 + PIN_SCATTER) * predicted
    drawn = ledger.assume(
        f"{key}.breaking_torque",
        least,
        "torque",
        f"shear strength {PIN_SHEAR_STRENGTH:g} of the tensile strength, {100 * PIN_SCATTER:.0f} % either "
        "way; the strength of the row is a least value, so that a real bar breaks late rather than early",
        band=(least, most),
        favourable=most,
        mark="common practice, no source",
    )
    return FuseBand(least, most, drawn)


def _lash(joint: PinJoint, key: str, name: str, ledger: Ledger) -> float:
    """Play as measured; a pin that is driven in has none, a fuse in its bushes a little."""
    if joint.lash is None and may_be_worn(joint.shaft, joint.hub):
        ledger.miss(name, "lash", f"holes of an old part may be worn; {HOW_PLAY}")
    usual = FUSE_PLAY if joint.fuse else (0.0, 0.0)
    if joint.lash is None and not joint.fuse:
        ledger.assume_word(f"{key}.lash", "none", "the pin is driven into holes that were reamed together")
    why = "a pin that goes in by hand, in bushes"
    return play_angle(joint.lash, key, joint.shaft_diameter.value, usual, why, "assumed", ledger)
