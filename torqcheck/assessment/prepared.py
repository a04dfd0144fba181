"""A scenario resolved as far as possible before any blow is computed: what every command starts from."""

from dataclasses import dataclass

from torqcheck.assessment.blow import Path, path_of
from torqcheck.assessment.factors import life_factors, tabulated_application_factor
from torqcheck.assessment.joints import Resolved, resolve
from torqcheck.assessment.path import JointLoad, torque_path
from torqcheck.assessment.spline_checks import Line
from torqcheck.assessment.wear_model import lash_limit
from torqcheck.checks import Check
from torqcheck.provenance import Source
from torqcheck.scenario import Scenario
from torqcheck.scenario.estimates import Spell, duty_spells, service_life
from torqcheck.scenario.ledger import Ledger, Outlook
from torqcheck.scenario.plausible import warn_of_odd_magnitudes

__all__ = ["Prepared", "checks_at", "prepared_of"]

BLOW_INPUTS = frozenset(
    {
        "motor.rotor_inertia",
        "driven.inertia",
        "driven.stiffness",
        "driven.damping_ratio",
        "reduction.efficiency",
    }
)
"""Assumptions, by key, that feed the blow."""


@dataclass(frozen=True, slots=True)
class Prepared:
    """The whole torque path in SI, with one outlook on what is not known."""

    scenario: Scenario
    ledger: Ledger
    spells: tuple[Spell, ...]
    loads: tuple[JointLoad, ...]
    joints: tuple[Resolved, ...]
    path: Path
    service_life: float
    lash_limit: float
    application_factor: float
    application_source: Source


def prepared_of(scenario: Scenario, outlook: Outlook = "as stated") -> Prepared:
    """Resolve duty, torques, joints and the two-inertia model of the path."""
    ledger = Ledger(outlook)
    warn_of_odd_magnitudes(scenario, ledger)
    spells = duty_spells(scenario, ledger)
    loads = torque_path(scenario, spells, ledger)
    joints = tuple(resolve(joint, i, scenario.library, ledger) for i, joint in enumerate(scenario.joint))
    life = service_life(scenario, ledger)
    limit = lash_limit(scenario, ledger)
    path = path_of(scenario, loads, [r.spline for r in joints], [r.steel for r in joints], ledger)
    factor, source = tabulated_application_factor(scenario)
    return Prepared(scenario, ledger, spells, loads, joints, path, life, limit, factor, source)


def checks_at(prepared: Prepared, index: int, peak: float) -> tuple[Check, ...]:
    """
    Check one joint under its two design torques.

    Parameters
    ----------
    prepared : Prepared
        The path.
    index : int
        Which joint.
    peak : float, N m
        Simulated peak torque at this joint.
    """
    scenario, load, ledger = prepared.scenario, prepared.loads[index], prepared.ledger
    steady = max(load.torque, load.regen_torque)
    lines = (
        Line("guide, tabulated", steady, prepared.application_factor, prepared.application_source),
        Line("guide, simulated", peak, 1.0, _blow_source(ledger)),
    )
    factors = life_factors(scenario, prepared.spells, load, prepared.service_life, ledger)
    top_speed = load.speed(scenario.motor.max_speed.value)
    target = scenario.targets.safety_factor
    return prepared.joints[index].check(lines, factors, top_speed, target, ledger)


def _blow_source(ledger: Ledger) -> Source:
    """What the simulated torque rests on: the model, and what was assumed to feed it."""
    fed = [
        entry.key for entry in ledger.assumptions if entry.key in BLOW_INPUTS or entry.key.endswith(".lash")
    ]
    if not fed:
        return Source("Exact response of two inertias with lash to the ramp", "", "derived")
    return Source("Response of two inertias with lash, with assumed", ", ".join(fed), "assumed")
