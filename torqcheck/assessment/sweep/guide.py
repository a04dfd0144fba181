"""The guide's checks of many points at once: torque path, blow and stresses on whole columns.

Nothing is computed here by a formula of its own: a scenario with columns in place of some values goes
through the functions that a single scenario goes through.
"""

from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from torqcheck._types import FloatArray, IntArray
from torqcheck.assessment.prepared import Prepared
from torqcheck.assessment.sweep.columns import Columns, joints_with_columns, scenario_with_columns
from torqcheck.assessment.teeth.guide_stresses import (
    GuideLoad,
    GuideStress,
    bursting,
    crown_works,
    crowned_flank,
    distribution_factor,
    pitch_line_shear,
    root_shear,
    straight_flank,
)
from torqcheck.assessment.teeth.state import SplineState
from torqcheck.assessment.torque.blow import Path, peak_through, referred_path
from torqcheck.assessment.torque.factors import life_factors
from torqcheck.assessment.torque.path import JointLoad, torque_path
from torqcheck.assessment.torque.slip_element import blow_arguments, peaks_of
from torqcheck.assessment.torque.starts import Start, starts_of
from torqcheck.elementwise import greatest
from torqcheck.errors import DomainError, NoSolutionError
from torqcheck.scenario.estimates import duty_spells
from torqcheck.scenario.ledger import Ledger

__all__ = ["GuideRows", "guide_rows"]


@dataclass(frozen=True, slots=True)
class GuideRows:
    """
    What the guide says of each point.

    Parameters
    ----------
    columns : dict
        By name, one value for each point; NaN where nothing is loaded.
    factors : tuple of str
        Names of the columns that hold safety factors, in the order in which ties are settled.
    target : array
        Wanted safety factor.
    failed : array of bool
        Points whose blow could not be followed.
    """

    columns: dict[str, FloatArray]
    factors: tuple[str, ...]
    target: FloatArray
    failed: Any


def guide_rows(prepared: Prepared, columns: Columns, alike: IntArray) -> GuideRows:
    """
    Check every point of a set of columns by the guide.

    Parameters
    ----------
    prepared : Prepared
        The path with everything resolved that has no column.
    columns : mapping
        By place, one value for each point, SI.
    alike : array of int
        For each point a number that is the same where nothing differs that moves the blow; the blow is
        followed once for each.
    """
    count = len(alike)
    distinct, first, back = np.unique(alike, return_index=True, return_inverse=True)
    few = {place: column[first] for place, column in columns.items()}
    peaks = _peaks_of_all(prepared, few, len(distinct))
    drive, brake = peaks[0][back], peaks[1][back]
    scenario = scenario_with_columns(prepared.scenario, columns)
    joints, ledger = joints_with_columns(prepared, columns), Ledger()
    spells = duty_spells(scenario, ledger)
    loads = torque_path(scenario, spells, ledger)
    found: dict[str, Any] = {}
    factors: list[str] = []
    for index, (joint, load) in enumerate(zip(joints, loads, strict=True)):
        name = f"joint[{index + 1}]"
        peak = peak_through(load, loads[prepared.path.reference], drive, brake)
        found[f"{name}.torque_Nm"], found[f"{name}.peak_torque_Nm"] = load.torque, peak
        if joint.spline is None:
            continue
        found[f"{name}.lash_rad"] = joint.spline.lash_angle
        life = life_factors(spells, load, prepared.service_life, ledger)
        steady = greatest(load.torque, load.regen_torque)
        lines = ("tabulated", steady, prepared.application_factor), ("simulated", peak, 1.0)
        distribution = distribution_factor(joint.spline)
        top_speed = load.speed(scenario.motor.max_speed.value)
        for method, torque, application in lines:
            guide = GuideLoad(torque, application, distribution, life.fatigue, life.wear, top_speed)
            for check, stress in _stresses(joint.spline, guide).items():
                factors.append(f"{name}.{check}_{method}_safety_factor")
                found[factors[-1]] = _safety_factor(stress)
    whole = {name: np.array(np.broadcast_to(column, count)) for name, column in found.items()}
    target = np.broadcast_to(np.asarray(scenario.targets.safety_factor, dtype=np.float64), count)
    return GuideRows(whole, tuple(factors), target, np.isnan(drive))


def _stresses(state: SplineState, load: GuideLoad) -> dict[str, GuideStress]:
    """Every stress of one spline under one design torque."""
    found = {
        "root_shear": root_shear(state, load),
        "pitch_line_shear": pitch_line_shear(state, load),
        "flank_pressure": _flank(state, load),
    }
    if state.outside_diameter is not None:
        found["bursting"] = bursting(state, load)
    return found


def _flank(state: SplineState, load: GuideLoad) -> GuideStress:
    """Flank pressure, crowned in the points where the crown works."""
    straight = straight_flank(state, load)
    works = np.asarray(crown_works(state, load))
    if not np.any(works):
        return straight
    crowned = crowned_flank(state, load)
    value: Any = np.where(works, crowned.value, straight.value)
    allowable: Any = np.where(works, crowned.allowable, straight.allowable)
    return GuideStress(value, allowable, straight.external)


def _safety_factor(stress: GuideStress) -> FloatArray:
    """Allowable over value; NaN where nothing loads the part."""
    value = np.asarray(stress.value, dtype=np.float64)
    loaded = value != 0.0
    return np.where(loaded, stress.allowable / np.where(loaded, value, 1.0), np.nan)


def _peaks_of_all(prepared: Prepared, columns: Columns, count: int) -> tuple[FloatArray, FloatArray]:
    """Largest peaks driving and braking; NaN in the points, and only there, where they cannot be followed."""
    try:
        return _peaks(prepared, columns, count)
    except (DomainError, NoSolutionError):
        if count == 1:
            return np.array([np.nan]), np.array([np.nan])
    half = count // 2
    parts = [
        _peaks_of_all(prepared, {place: column[part] for place, column in columns.items()}, size)
        for part, size in ((slice(0, half), half), (slice(half, None), count - half))
    ]
    return np.concatenate([part[0] for part in parts]), np.concatenate([part[1] for part in parts])


def _peaks(prepared: Prepared, columns: Columns, count: int) -> tuple[FloatArray, FloatArray]:
    """Largest peak at the reference joint, driving and braking, over all starts and driven sides."""
    scenario, ledger = scenario_with_columns(prepared.scenario, columns), Ledger()
    loads = torque_path(scenario, duty_spells(scenario, ledger), ledger)
    path, _ = referred_path(scenario, loads, joints_with_columns(prepared, columns), ledger)
    load = loads[path.reference]
    members = [
        (start, inertia, stiffness)
        for start in starts_of(scenario, load)
        for inertia in path.driven_inertias
        for stiffness in path.stiffnesses
    ]
    asked = np.array([_applies(start, load, count) for start, _, _ in members])
    arguments = [_arguments(path, *member, count) for member in members]
    flat = {name: np.stack([part[name] for part in arguments])[asked] for name in arguments[0]}
    peaks = np.zeros(asked.shape)
    peaks[asked] = peaks_of(flat)
    braking = np.array([start.braking for start, _, _ in members])
    drive: FloatArray = peaks[~braking].max(axis=0)
    brake: FloatArray = peaks[braking].max(axis=0, initial=0.0)
    return drive, brake


def _applies(start: Start, load: JointLoad, count: int) -> Any:
    """In which points a start comes into question: the swings of regeneration only where there is any."""
    everywhere = np.full(count, True)
    return everywhere if start.name == "rest" else everywhere & (load.motor_regen_torque > 0.0)


def _arguments(path: Path, start: Start, inertia: float, stiffness: float, count: int) -> dict[str, Any]:
    """What the kernel is given for one start and one driven side in every point."""

    def column(value: Any) -> FloatArray:
        return np.broadcast_to(np.asarray(value, dtype=np.float64), count)

    driving, driven = column(path.driving_inertia), column(inertia)
    element = path.slip
    if element is not None:
        element = replace(
            element,
            driving_torque=column(element.driving_torque),
            braking_torque=column(element.braking_torque),
            inertia_before=column(element.inertia_before),
        )
    further = blow_arguments(
        element, np.full(count, start.braking), driving, driven, column(start.start_torque)
    )
    return {
        "torque_rise": column(start.torque_rise),
        "peak_torque": column(start.peak_torque),
        "driving_inertia": driving,
        "driven_inertia": driven,
        "stiffness": column(stiffness),
        "damping_ratio": column(path.damping_ratio),
        "lash": column(path.lash),
        **{name: np.array(value) for name, value in further.items()},
    }
