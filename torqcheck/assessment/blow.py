"""The two-inertia model of the whole path, and the worst blow in it."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from torqcheck.assessment.path import JointLoad
from torqcheck.assessment.result import ShockResult
from torqcheck.assessment.spline_state import SplineState
from torqcheck.capacity import (
    reflected_lash,
    reflected_stiffness,
    series_stiffness,
    spline_mesh_stiffness,
    torsional_stiffness,
)
from torqcheck.materials import Steel
from torqcheck.scenario.estimates import (
    damping_ratio,
    driven_inertias,
    regen_rise,
    rotor_inertia,
    torque_rise,
)
from torqcheck.scenario.joint_schema import ShaftJoint
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.schema import Scenario
from torqcheck.scenario.sizes import bore_of
from torqcheck.shock import peak

__all__ = ["Path", "path_of", "peak_at", "worst_blow"]

UNKNOWN_STIFFNESS_DIAMETERS = 8.0
UNKNOWN_STIFFNESS_BAND = 4.0


@dataclass(frozen=True, slots=True)
class Path:
    """Everything referred to the reference joint, the first spline of the path. SI."""

    reference: int
    joint_name: str
    driving_inertia: float
    driven_inertias: tuple[float, ...]
    stiffness: float
    softest: str
    damping_ratio: float
    lash: float


def path_of(
    scenario: Scenario,
    loads: Sequence[JointLoad],
    splines: Sequence[SplineState | None],
    steels: Sequence[Steel],
    ledger: Ledger,
) -> Path:
    """Refer inertias, stiffnesses and lashes of the path to its first spline joint."""
    reference = next((i for i, state in enumerate(splines) if state is not None), 0)
    ratio = loads[reference].ratio
    driving = rotor_inertia(scenario.motor, ledger) * ratio**2
    if scenario.reduction is not None and scenario.reduction.inertia is not None:
        driving += scenario.reduction.inertia.value * (ratio / scenario.reduction.ratio) ** 2
    to_last = loads[-1].ratio / ratio
    driven = driven_inertias(scenario.driven, driving * to_last**2, ledger)
    parts = _stiffnesses(scenario, loads, splines, steels, reference, ledger)
    lash = sum(
        float(reflected_lash(state.lash_angle, load.ratio / ratio))
        for state, load in zip(splines, loads, strict=True)
        if state is not None
    )
    state = splines[reference]
    return Path(
        reference,
        state.name if state is not None else scenario.joint[reference].name or f"joint {reference + 1}",
        driving,
        tuple(inertia / to_last**2 for inertia in driven),
        float(series_stiffness(*parts.values())),
        min(parts, key=lambda name: parts[name]),
        damping_ratio(scenario.driven, ledger),
        lash,
    )


def _stiffnesses(
    scenario: Scenario,
    loads: Sequence[JointLoad],
    splines: Sequence[SplineState | None],
    steels: Sequence[Steel],
    reference: int,
    ledger: Ledger,
) -> dict[str, float]:
    """Stiffness of each part of the path, referred to the reference joint."""
    parts: dict[str, float] = {}
    for index, (joint, load, state) in enumerate(zip(scenario.joint, loads, splines, strict=True)):
        to_here = load.ratio / loads[reference].ratio
        name = joint.name or f"joint {index + 1}"
        if state is not None:
            mesh = spline_mesh_stiffness(state.pitch_diameter, state.spline.teeth, state.engagement)
            parts[f"teeth of {name}"] = float(reflected_stiffness(mesh, to_here))
        elif isinstance(joint, ShaftJoint) and joint.length is not None:
            shaft = torsional_stiffness(
                joint.diameter.value, joint.length.value, bore_of(joint), steels[index].shear_modulus
            )
            parts[name] = float(reflected_stiffness(shaft, to_here))
    behind = _stiffness_behind(scenario, splines, ledger)
    if math.isfinite(behind):
        parts["path behind the last joint"] = float(
            reflected_stiffness(behind, loads[-1].ratio / loads[reference].ratio)
        )
    if not parts:
        parts["path behind the last joint"] = _guessed_stiffness(scenario, splines, ledger)
    return parts


def _stiffness_behind(scenario: Scenario, splines: Sequence[SplineState | None], ledger: Ledger) -> float:
    """Stiffness of the driven side as given, or guessed from the size of the last joint."""
    if scenario.driven.stiffness is not None:
        return scenario.driven.stiffness.value
    return _guessed_stiffness(scenario, splines, ledger)


def _guessed_stiffness(scenario: Scenario, splines: Sequence[SplineState | None], ledger: Ledger) -> float:
    """A steel shaft of the root diameter, eight diameters long."""
    last, joint = splines[-1], scenario.joint[-1]
    if last is not None:
        diameter = last.spline.root_diameter
    else:
        assert isinstance(joint, ShaftJoint)
        diameter = joint.diameter.value
    value = float(torsional_stiffness(diameter, UNKNOWN_STIFFNESS_DIAMETERS * diameter))
    return ledger.assume(
        "driven.stiffness",
        value,
        "stiffness",
        "not given: a steel shaft as thick as the last joint and eight diameters long; a softer path "
        "lowers the blow",
        band=(value / UNKNOWN_STIFFNESS_BAND, value * UNKNOWN_STIFFNESS_BAND),
    )


@dataclass(frozen=True, slots=True)
class _Start:
    """One way in which the torque can rise: what it is called, from where, to where, how fast."""

    name: str
    start_torque: float
    peak_torque: float
    torque_rise: float


def _starts(scenario: Scenario, load: JointLoad) -> tuple[_Start, ...]:
    """Return the starts that come into question; with regeneration the swings both ways."""
    slope = torque_rise(scenario.motor) * load.ratio * load.efficiency
    starts = [_Start("rest", 0.0, load.motor_torque, slope)]
    if load.regen_torque > 0.0:
        back = regen_rise(scenario.motor) * load.ratio / load.efficiency
        starts.append(_Start("regeneration", -load.regen_torque, load.motor_torque, slope))
        starts.append(_Start("drive into regeneration", -load.motor_torque, load.regen_torque, back))
    return tuple(starts)


def worst_blow(scenario: Scenario, path: Path, loads: Sequence[JointLoad], ledger: Ledger) -> ShockResult:
    """Return the largest blow over all starts and all driven inertias that come into question."""
    load = loads[path.reference]
    cases = [(start, inertia) for start in _starts(scenario, load) for inertia in path.driven_inertias]
    blow = peak(
        torque_rise=np.array([start.torque_rise for start, _ in cases]),
        peak_torque=np.array([start.peak_torque for start, _ in cases]),
        driving_inertia=path.driving_inertia,
        driven_inertia=np.array([inertia for _, inertia in cases]),
        stiffness=path.stiffness,
        damping_ratio=path.damping_ratio,
        lash=path.lash,
        start_torque=np.array([start.start_torque for start, _ in cases]),
    )
    worst = int(np.argmax(blow.peak_torque))

    def at_worst(field: str) -> float:
        return float(np.asarray(getattr(blow, field))[worst])

    if not at_worst("settled"):
        ledger.warn(
            "ringing", "Without damping the contact rings for ever; the count of contact losses was cut off."
        )
    start, inertia = cases[worst]
    return ShockResult(
        joint=path.joint_name,
        start=start.name,
        driven_side="held" if math.isinf(inertia) else "free",
        peak_torque=at_worst("peak_torque"),
        least_torque=at_worst("least_torque"),
        steady_torque=at_worst("steady_torque"),
        dynamic_factor=at_worst("dynamic_factor"),
        natural_frequency=at_worst("natural_frequency"),
        closing_time=_finite(at_worst("closing_time")),
        closing_speed=_finite(at_worst("closing_speed")),
        blow_energy=_finite(at_worst("blow_energy")),
        contact_losses=int(at_worst("contact_losses")),
        slipped=load.slip_governs,
        torque_rise=_finite(start.torque_rise),
        driving_inertia=path.driving_inertia,
        driven_inertia=_finite(inertia),
        stiffness=path.stiffness,
        damping_ratio=path.damping_ratio,
        lash=path.lash,
        softest=path.softest,
    )


def _finite(value: float) -> float | None:
    """None for what has no value (no gap crossed) or no end (held, instant)."""
    return value if math.isfinite(value) else None


def peak_at(index: int, shock: ShockResult, path: Path, loads: Sequence[JointLoad]) -> float:
    """Simulated peak torque at one joint: that of the reference joint through the stages between."""
    here, there = loads[index], loads[path.reference]
    return shock.peak_torque * (here.ratio * here.efficiency) / (there.ratio * there.efficiency)
