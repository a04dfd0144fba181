"""A scenario resolved as far as possible before any blow is computed: what every command starts from."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from torqcheck.assessment.joints import resolve, with_draws_of
from torqcheck.assessment.lifetime.wear_model import lash_limit
from torqcheck.assessment.resolved import Requirement, Resolved
from torqcheck.assessment.stack.engagement import with_stack_engagement
from torqcheck.assessment.teeth.series import linked_joint
from torqcheck.assessment.teeth.state import SplineState
from torqcheck.assessment.torque.blow import Path, path_of
from torqcheck.assessment.torque.design_load import Line
from torqcheck.assessment.torque.factors import life_factors, tabulated_application_factor
from torqcheck.assessment.torque.path import JointLoad, torque_path
from torqcheck.checks import Check
from torqcheck.provenance import Source
from torqcheck.scenario import Scenario
from torqcheck.scenario.estimates import Spell, duty_spells, service_life
from torqcheck.scenario.inspections import warn_of_inspections, with_newest_lash, with_possible_readings
from torqcheck.scenario.ledger import NOWHERE, Ledger, Outlook
from torqcheck.scenario.marked import miss_own_values
from torqcheck.scenario.plausible import warn_of_odd_magnitudes, warn_of_other_system
from torqcheck.scenario.sleeve_links import tied_joints

__all__ = ["Prepared", "blow_source", "changed", "checks_at", "first_state", "prepared_of"]

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
    """
    The whole torque path in SI, with one outlook on what is not known.

    `scenario` holds the lash that was read last at each joint; `written` has the lash of the file, from
    which the hours of later readings count. Both have the engagements that the axial stack gives, and
    neither has the readings of a play that would have shrunk.
    """

    scenario: Scenario
    written: Scenario
    ledger: Ledger
    spells: tuple[Spell, ...]
    loads: tuple[JointLoad, ...]
    joints: tuple[Resolved, ...]
    path: Path
    service_life: float
    lash_limit: float
    application_factor: float
    application_source: Source


def prepared_of(
    scenario: Scenario, outlook: Outlook = "as stated", deviations: Mapping[str, float] = NOWHERE
) -> Prepared:
    """Resolve duty, torques, joints and the two-inertia model of the path."""
    ledger = Ledger(outlook, deviations=deviations)
    whole = with_stack_engagement(scenario, ledger)
    written = with_possible_readings(whole, outlook)
    scenario = with_newest_lash(written)
    miss_own_values(scenario, ledger)
    warn_of_odd_magnitudes(scenario, ledger)
    warn_of_other_system(scenario.joint, ledger)
    warn_of_inspections(whole, ledger)
    spells = duty_spells(scenario, ledger)
    loads = torque_path(scenario, spells, ledger)
    joints = tuple(_resolved(scenario, index, ledger) for index in range(len(scenario.joint)))
    life = service_life(scenario, ledger)
    limit = lash_limit(scenario, ledger)
    path = path_of(scenario, loads, joints, ledger)
    factor, source = tabulated_application_factor(scenario)
    return Prepared(scenario, written, ledger, spells, loads, joints, path, life, limit, factor, source)


def first_state(prepared: Prepared, index: int) -> SplineState:
    """
    The splined joint as it was when the hours of its inspections began.

    The joint of today where there are none, or where the lash was not measured then.
    """
    state, joint = prepared.joints[index].spline, prepared.written.joint[index]
    assert state is not None
    if joint is prepared.scenario.joint[index]:
        return state
    aside = Ledger(prepared.ledger.outlook, deviations=prepared.ledger.deviations)
    first = _resolved(prepared.written, index, aside).spline
    assert first is not None
    return first if first.lash.measured else state


def changed(
    prepared: Prepared, scenario: Scenario, deviations: Mapping[str, float], joint: int | None
) -> Prepared:
    """
    Resolve again what a changed value can have moved; what is said on the way stays unheard.

    Parameters
    ----------
    prepared : Prepared
        The path as it was.
    scenario : Scenario
        The same with one value changed.
    deviations : mapping
        Where assumed values are to lie, as the ledger takes it.
    joint : int or None
        The only joint that has changed, with what shares its readings; None if it was something else.
    """
    ledger = Ledger(prepared.ledger.outlook, deviations=deviations)
    spells, loads, joints, life = prepared.spells, prepared.loads, prepared.joints, prepared.service_life
    if joint is None:
        spells = duty_spells(scenario, ledger)
        loads = torque_path(scenario, spells, ledger)
        life = service_life(scenario, ledger)
    else:
        tied = tied_joints(scenario.joint, joint)
        joints = tuple(
            with_draws_of(_resolved(scenario, i, ledger), known) if i in tied else known
            for i, known in enumerate(joints)
        )
    path = path_of(scenario, loads, joints, ledger)
    return replace(
        prepared,
        scenario=scenario,
        ledger=ledger,
        spells=spells,
        loads=loads,
        joints=joints,
        path=path,
        service_life=life,
    )


def checks_at(prepared: Prepared, index: int, peak: float, *, no_teeth: bool = False) -> tuple[Check, ...]:
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
    no_teeth : bool, optional
        Leave out what the teeth of a spline can take, where it is not asked for.
    """
    scenario, load, ledger = prepared.scenario, prepared.loads[index], prepared.ledger
    steady = max(load.torque, load.regen_torque)
    lines = (
        Line("guide, tabulated", steady, prepared.application_factor, prepared.application_source),
        Line("guide, simulated", peak, 1.0, blow_source(ledger)),
    )
    factors = life_factors(prepared.spells, load, prepared.service_life, ledger)
    top_speed = load.speed(scenario.motor.max_speed.value)
    asked = Requirement(lines, factors, top_speed, scenario.targets.safety_factor, ledger, no_teeth)
    return prepared.joints[index].check(asked)


def _resolved(scenario: Scenario, index: int, ledger: Ledger) -> Resolved:
    """One joint, with what other joints of the file say of it."""
    return resolve(linked_joint(scenario.joint, index), index, scenario.library, ledger)


def blow_source(ledger: Ledger) -> Source:
    """What the simulated torque rests on: the model, and what was assumed to feed it."""
    fed = [
        entry.key for entry in ledger.assumptions if entry.key in BLOW_INPUTS or entry.key.endswith(".lash")
    ]
    if not fed:
        return Source("Exact response of two inertias with lash to the ramp", "", "derived")
    return Source("Response of two inertias with lash", f"fed with assumed {' and '.join(fed)}", "assumed")
