"""Factors of the guide that hold for a whole joint: application, fatigue life, wear life."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from torqcheck.assessment.torque.path import JointLoad
from torqcheck.capacity import WEAR_LIFE_TABLE, wear_life_factor
from torqcheck.elementwise import chosen, number
from torqcheck.materials import application_factor, application_factor_source, fatigue_life_factor
from torqcheck.provenance import Source
from torqcheck.scenario.estimates import Spell
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.schema import Scenario

__all__ = ["LifeFactors", "life_factors", "tabulated_application_factor"]


@dataclass(frozen=True, slots=True)
class LifeFactors:
    """What the service life means for the guide's allowables at one joint."""

    torque_cycles: float
    reversed_torque: bool
    fatigue: float
    revolutions: float
    wear: float


def tabulated_application_factor(scenario: Scenario) -> tuple[float, Source]:
    """Application factor by the character of motor and load, and where it stands."""
    words = scenario.motor.character, scenario.driven.load
    return application_factor(*words), application_factor_source(*words)


def life_factors(
    spells: Sequence[Spell], load: JointLoad, service_life: float, ledger: Ledger
) -> LifeFactors:
    """
    Count torque cycles and revolutions in the service life, and look the factors up.

    Columns in the load or in the speeds of the spells give columns of factors.
    """
    hours = service_life / 3600.0
    cycles = hours * sum(spell.events_per_hour for spell in spells)
    turns_both_ways = any(spell.reversals or spell.torque < 0.0 for spell in spells)
    one_way, both_ways = (fatigue_life_factor(cycles, both) for both in (False, True))
    reverses = chosen(load.regen_torque > 0.0, True, turns_both_ways)
    fatigue: float = chosen(reverses, both_ways.value, one_way.value)
    if one_way.extrapolated:
        ledger.warn(
            "fatigue factor",
            f"{cycles:.2g} torque cycles in the service life are beyond the guide's table (1e7); its last "
            "slope is carried on.",
        )
    mean_speed = sum(spell.share * spell.speed for spell in spells)
    revolutions = load.speed(mean_speed) * service_life / math.tau
    if np.any(revolutions > WEAR_LIFE_TABLE[1]):
        ledger.warn(
            "wear factor",
            f"{np.max(revolutions):.2g} revolutions in the service life are beyond the guide's table (1e10).",
        )
    return LifeFactors(cycles, reverses, fatigue, revolutions, number(wear_life_factor(revolutions)))
