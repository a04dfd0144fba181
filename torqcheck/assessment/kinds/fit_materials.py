"""What hub and shaft of an interference fit are made of: elastic constants, strength, expansion."""

from dataclasses import dataclass

from torqcheck.assessment.members import MemberState, member_state
from torqcheck.materials import (
    HeatingLimit,
    HubMaterial,
    Steel,
    heating_limit,
    heating_limit_of,
    hub_material,
    thermal_expansion,
)
from torqcheck.provenance import Source
from torqcheck.scenario.kinds.interference import FitHub, InterferenceFitJoint, steel_of
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.steel_library import Library

__all__ = ["FitMaterial", "hub_of", "shaft_of"]

_HOW_ALLOY = "find the alloy and its temper, or the class of the iron; a hardness test narrows it"


@dataclass(frozen=True, slots=True, kw_only=True)
class FitMaterial:
    """
    One part of a fit: Pa, kg/m3, 1/K.

    `strength` is the yield strength; the tensile strength of a metal that `cracks`.
    """

    name: str
    family: str
    elastic_modulus: float
    poisson_ratio: float
    density: float
    expansion: float
    strength: float
    cracks: bool
    source: Source
    heating: HeatingLimit


def shaft_of(
    joint: InterferenceFitJoint, key: str, name: str, library: Library, ledger: Ledger
) -> tuple[MemberState, FitMaterial]:
    """Resolve the shaft; its state holds the steel for the rest of the path."""
    state = member_state("shaft", f"{key}.shaft", name, joint.shaft, joint.diameter.value, library, ledger)
    return state, _of_steel(state)


def hub_of(joint: InterferenceFitJoint, key: str, name: str, library: Library, ledger: Ledger) -> FitMaterial:
    """Resolve the hub, of steel or of another metal."""
    hub = joint.hub
    if hub.material is not None:
        return _of_other_metal(hub, hub_material(hub.material), key, name, ledger)
    wall = 0.5 * (hub.outside_diameter.value - joint.diameter.value)
    return _of_steel(member_state("hub", f"{key}.hub", name, steel_of(hub), wall, library, ledger))


def _of_steel(state: MemberState) -> FitMaterial:
    steel: Steel = state.steel
    expansion = thermal_expansion("cast iron" if steel.is_iron else "steel")
    return FitMaterial(
        name=steel.id,
        family="cast iron" if steel.is_iron else "steel",
        elastic_modulus=steel.elastic_modulus,
        poisson_ratio=steel.elastic_modulus / (2.0 * steel.shear_modulus) - 1.0,
        density=steel.density,
        expansion=expansion.coefficient,
        strength=state.yield_strength,
        cracks=False,
        source=steel.source,
        heating=heating_limit_of(steel),
    )


def _of_other_metal(hub: FitHub, metal: HubMaterial, key: str, name: str, ledger: Ledger) -> FitMaterial:
    """Take the strength as given, or that of a soft alloy, which the report then asks for."""
    if hub.strength is not None:
        strength, source = (
            hub.strength.value,
            Source(f"Strength of the hub: {hub.strength.text}", "", "measured"),
        )
    else:
        band = (metal.strength_least, metal.strength_most)
        strength = ledger.assume(
            f"{key}.hub.strength",
            metal.strength,
            "stress",
            f"{metal.material}, alloy not known: {metal.note}",
            band=band,
            favourable=metal.strength_most,
            mark=metal.source.mark,
        )
        ledger.miss(name, "alloy and strength of the hub", _HOW_ALLOY)
        source = metal.source
    expansion = thermal_expansion(metal.material)
    return FitMaterial(
        name=metal.material,
        family=metal.material,
        elastic_modulus=metal.elastic_modulus,
        poisson_ratio=metal.poisson_ratio,
        density=metal.density,
        expansion=expansion.coefficient,
        strength=strength,
        cracks=metal.cracks,
        source=source,
        heating=heating_limit(metal.material),
    )
