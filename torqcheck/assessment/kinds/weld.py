"""A circular weld: its throat, the metal at its leg, the tube beside it, and its fatigue by class."""

from dataclasses import dataclass

from torqcheck.assessment.fatigue.welds import WeldDetail, weld_fatigue
from torqcheck.assessment.kinds.weld_soundness import beside_weld, warn_of_heat, weigh_soundness
from torqcheck.assessment.members import member_state
from torqcheck.assessment.resolved import Requirement, Resolved
from torqcheck.assessment.torque.design_load import DesignLoad, larger_load
from torqcheck.capacity import SHEAR_TO_TENSILE_YIELD, shear_yield_strength, torsional_shear_stress
from torqcheck.capacity.joining import (
    BASE_METAL_SHARE,
    BASE_METAL_SOURCE,
    base_metal_shear,
    combined_weld_stress,
    fillet_throat,
    weld_bending_stress,
    weld_torsional_shear,
)
from torqcheck.checks import Check
from torqcheck.fatigue import (
    FILLET_BENDING_CLASS,
    FILLET_CLASS,
    FULL_PENETRATION_BENDING_CLASS,
    FULL_PENETRATION_CLASS,
)
from torqcheck.formulas import FORMULAS
from torqcheck.materials import Electrode, Steel, design_yield, electrode
from torqcheck.scenario.kinds.weld import WeldJoint
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.quantity import needed
from torqcheck.scenario.steel_library import Library

__all__ = ["resolve_weld"]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Weld:
    """A resolved weld. SI; throat and leg of both sides together."""

    name: str
    diameter: float
    bore: float
    throat: float
    leg: float | None
    moment: float
    filler: Electrode
    shaft: Steel
    hub: Steel

    @property
    def bending(self) -> float:
        """Stress of the throat from the bending moment."""
        return float(weld_bending_stress(self.moment, 0.5 * self.diameter, self.throat))

    def shear(self, torque: float) -> float:
        """Shear stress of the throat from the torque."""
        return float(weld_torsional_shear(torque, 0.5 * self.diameter, self.throat))

    def checks(self, load: DesignLoad, target: float) -> tuple[Check, ...]:
        """Everything static about it."""
        found = [self._throat_check(load, target), self._beside_check(load, target)]
        if self.leg is not None:
            found.insert(1, self._leg_check(load, self.leg, target))
        return tuple(found)

    def _throat_check(self, load: DesignLoad, target: float) -> Check:
        allowed = self.filler.allowable_shear
        held = SHEAR_TO_TENSILE_YIELD * self.filler.yield_strength / allowed
        return load.check(
            joint=self.name,
            name="throat shear",
            member="weld",
            value=float(combined_weld_stress(self.shear(load.torque), self.bending)),
            allowable=allowed,
            target=_rest_of(target, held),
            factors={"held in the allowable": held},
            sources=(
                FORMULAS[weld_torsional_shear].source,
                *((FORMULAS[weld_bending_stress].source,) if self.moment else ()),
                self.filler.source,
                self.filler.strengths,
            ),
        )

    def _leg_check(self, load: DesignLoad, leg: float, target: float) -> Check:
        softer = min(self.shaft, self.hub, key=design_yield)
        held = SHEAR_TO_TENSILE_YIELD / BASE_METAL_SHARE
        # bending goes through the leg as it does through the throat
        torque, bending = (
            base_metal_shear(load.torque, 0.5 * self.diameter, leg),
            self.bending * self.throat / leg,
        )
        return load.check(
            joint=self.name,
            name="base metal at the leg",
            member="shaft" if softer is self.shaft else "hub",
            value=float(combined_weld_stress(torque, bending)),
            allowable=BASE_METAL_SHARE * design_yield(softer),
            target=_rest_of(target, held),
            factors={"held in the allowable": held},
            sources=(FORMULAS[base_metal_shear].source, BASE_METAL_SOURCE, softer.source),
        )

    def _beside_check(self, load: DesignLoad, target: float) -> Check:
        return load.check(
            joint=self.name,
            name="torsional yield beside the weld",
            member="shaft",
            value=float(torsional_shear_stress(load.torque, self.diameter, self.bore)),
            allowable=float(shear_yield_strength(design_yield(self.shaft))),
            target=target,
            sources=(
                FORMULAS[torsional_shear_stress].source,
                FORMULAS[shear_yield_strength].source,
                self.shaft.source,
            ),
        )


def _rest_of(target: float, held: float) -> float:
    """What an allowable that holds a factor of its own against yield leaves of the target; never below 1."""
    return max(1.0, target / held)


def resolve_weld(joint: WeldJoint, key: str, name: str, library: Library, ledger: Ledger) -> Resolved:
    """Resolve a weld around a tube or bar."""
    diameter = joint.diameter.value
    wall = joint.wall.value if joint.wall is not None else 0.5 * diameter
    thickness = joint.thickness.value if joint.thickness is not None else diameter
    shaft = member_state("shaft", f"{key}.shaft", name, joint.shaft, wall, library, ledger)
    hub = member_state("hub", f"{key}.hub", name, joint.hub, thickness, library, ledger)
    weigh_soundness(joint, key, name, (shaft.steel, hub.steel), thickness, ledger)
    warn_of_heat(joint, key, name, ledger)
    full, sides = joint.penetration == "full", 2.0 if joint.both_sides else 1.0
    leg = None if full else sides * needed(joint.leg).value
    weld = _Weld(
        name=name,
        diameter=diameter,
        bore=diameter - 2.0 * wall,
        throat=wall if leg is None else float(fillet_throat(leg)),
        leg=leg,
        moment=joint.bending_moment.value if joint.bending_moment is not None else 0.0,
        filler=electrode(joint.electrode),
        shaft=beside_weld(shaft.steel, joint, f"{key}.shaft", ledger),
        hub=beside_weld(hub.steel, joint, f"{key}.hub", ledger),
    )

    def check(asked: Requirement) -> tuple[Check, ...]:
        return weld.checks(larger_load(asked.lines), asked.target)

    return Resolved(
        key=key,
        name=name,
        kind=joint.kind,
        description=_described(joint, weld),
        spline=None,
        steel=shaft.steel,
        diameter=diameter,
        check=check,
        fatigue=weld_fatigue(_detail(weld, full)),
    )


def _detail(weld: _Weld, full: bool) -> WeldDetail:
    """What the fatigue of the weld rests on."""
    return WeldDetail(
        name=weld.name,
        place="through the wall, class 100" if full else "throat, class 80",
        shear_per_torque=weld.shear(1.0),
        bending=weld.bending,
        detail_class=FULL_PENETRATION_CLASS if full else FILLET_CLASS,
        bending_class=FULL_PENETRATION_BENDING_CLASS if full else FILLET_BENDING_CLASS,
        electrode=weld.filler,
    )


def _described(joint: WeldJoint, weld: _Weld) -> str:
    """Name the weld in one line."""
    if weld.leg is None:
        size = f"through a wall of {weld.throat * 1e3:.1f} mm"
    else:
        both = " on both sides" if joint.both_sides else ""
        size = f"fillet of {needed(joint.leg).value * 1e3:.1f} mm leg{both}"
    parts = f"{weld.shaft.id} to {weld.hub.id}"
    return f"weld around {weld.diameter * 1e3:.1f} mm, {size}, {weld.filler.name}, {parts}"
