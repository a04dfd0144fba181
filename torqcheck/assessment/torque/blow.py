"""The two-inertia model of the whole path, and the worst blow in it."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from torqcheck._types import FloatArray
from torqcheck.assessment.resolved import Resolved
from torqcheck.assessment.result import ShockResult
from torqcheck.assessment.torque.path import JointLoad
from torqcheck.assessment.torque.slip_element import SlipElement, blow_arguments, slip_element
from torqcheck.assessment.torque.starts import Start, starts_of
from torqcheck.capacity import reflected_lash, reflected_stiffness, series_stiffness, torsional_stiffness
from torqcheck.elementwise import greatest, number
from torqcheck.scenario.bands import value_of_share
from torqcheck.scenario.estimates import (
    damping_ratio,
    driven_inertias,
    rotor_inertia,
)
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.schema import Scenario
from torqcheck.scenario.usual import COMPUTED_STIFFNESS
from torqcheck.shock import Blow, peak

__all__ = [
    "Path",
    "blow_of",
    "path_of",
    "peak_at",
    "peak_through",
    "referred_path",
    "worst_arguments",
    "worst_blow",
]

BEHIND = "path behind the last joint"
UNKNOWN_STIFFNESS_DIAMETERS = 8.0
UNKNOWN_STIFFNESS_FACTORS = (4.0, 1.0, 0.3, 0.1, 0.03, 0.01)
"""Times the stiffness of a stout steel shaft: down to what long shafts and tyres leave of it."""
COMPUTED_STIFFNESS_KEY = "stiffness as computed"
"""By this key the ledger moves the stiffness of teeth and shafts, and of what is tried behind them."""


@dataclass(frozen=True, slots=True)
class Path:
    """Everything referred to the reference joint, the first spline of the path. SI.

    Several driven inertias or stiffnesses stand for one that is not known: the worst is used.
    """

    reference: int
    joint_name: str
    driving_inertia: float
    driven_inertias: tuple[float, ...]
    stiffnesses: tuple[float, ...]
    softest: str
    damping_ratio: float
    damping_band: tuple[float, ...]
    inertia_band: tuple[float, ...]
    lash: float
    compliance: tuple[tuple[str, float], ...] = ()
    slip: SlipElement | None = None


def path_of(
    scenario: Scenario,
    loads: Sequence[JointLoad],
    joints: Sequence[Resolved],
    ledger: Ledger,
) -> Path:
    """Refer inertias, stiffnesses and lashes of the path to its first spline joint."""
    path, parts = referred_path(scenario, loads, joints, ledger)
    softness = {name: 1.0 / value for name, value in parts.items()}
    shares = sorted(((name, part / sum(softness.values())) for name, part in softness.items()), key=_share)
    return replace(path, softest=min(parts, key=lambda name: parts[name]), compliance=tuple(reversed(shares)))


def referred_path(
    scenario: Scenario,
    loads: Sequence[JointLoad],
    joints: Sequence[Resolved],
    ledger: Ledger,
) -> tuple[Path, dict[str, float]]:
    """
    Return the path without the names of its soft parts, and the stiffness of each part.

    The values of the scenario, the loads and the joints may be columns; the path then holds columns.
    """
    reference = next((i for i, joint in enumerate(joints) if joint.spline is not None), 0)
    ratio = loads[reference].ratio
    rotor = rotor_inertia(scenario.motor, ledger)
    stage = 0.0
    if scenario.reduction is not None and scenario.reduction.inertia is not None:
        stage = scenario.reduction.inertia.value * (ratio / scenario.reduction.ratio) ** 2
    driving = rotor * ratio**2 + stage
    to_last = loads[-1].ratio / ratio
    driven = driven_inertias(scenario.driven, driving * to_last**2, ledger)
    known = _known_stiffnesses(joints, loads, reference, ledger)
    behind = _stiffnesses_behind(scenario, joints[-1], not known, ledger)
    paths = [known | {BEHIND: number(reflected_stiffness(value, to_last))} for value in behind] or [known]
    lash = sum(
        number(reflected_lash(joint.lash, load.ratio / ratio))
        for joint, load in zip(joints, loads, strict=True)
    )
    path = Path(
        reference,
        joints[reference].name,
        driving,
        tuple(inertia / to_last**2 for inertia in driven),
        tuple(number(series_stiffness(*parts.values())) for parts in paths),
        "",
        damping_ratio(scenario.driven, ledger),
        ledger.band("driven.damping_ratio"),
        tuple(value * ratio**2 + stage for value in ledger.band("motor.rotor_inertia")),
        lash,
        slip=slip_element(scenario.driven.slip, loads[reference], to_last, driving, ledger),
    )
    return path, paths[0]


def _share(part: tuple[str, float]) -> float:
    return part[1]


def _known_stiffnesses(
    joints: Sequence[Resolved], loads: Sequence[JointLoad], reference: int, ledger: Ledger
) -> dict[str, float]:
    """Stiffness of each joint and shaft of the path, referred to the reference joint."""
    factor = _computed_stiffness_factor(ledger)
    parts: dict[str, float] = {}
    for joint, load in zip(joints, loads, strict=True):
        if joint.stiffness is not None:
            to_here = load.ratio / loads[reference].ratio
            parts[joint.stiffness_name] = factor * number(reflected_stiffness(joint.stiffness, to_here))
    return parts


def _computed_stiffness_factor(ledger: Ledger) -> float:
    """Factor on every stiffness that is computed or tried; 1 unless the ledger moves it."""
    return value_of_share(1.0, COMPUTED_STIFFNESS, ledger.deviations.get(COMPUTED_STIFFNESS_KEY, 0.0))


def _stiffnesses_behind(
    scenario: Scenario, last: Resolved, needed: bool, ledger: Ledger
) -> tuple[float, ...]:
    """Stiffness behind the last joint: as given, none if rigid, or several to try when it is unknown."""
    stated = scenario.driven.stiffness
    if stated is not None and np.all(np.isfinite(stated.value)):
        return (stated.value,)
    if stated is not None and not needed:
        return ()
    stout = float(torsional_stiffness(last.diameter, UNKNOWN_STIFFNESS_DIAMETERS * last.diameter))
    values = tuple(factor * stout for factor in UNKNOWN_STIFFNESS_FACTORS)
    ledger.assume(
        "driven.stiffness",
        stout,
        "stiffness",
        "not given: several are tried and the worst is used, from four times a steel shaft as thick as the "
        "last joint and eight diameters long down to a hundredth of it",
        band=(values[-1], values[0]),
    )
    factor = _computed_stiffness_factor(ledger)
    return tuple(factor * value for value in values)


def worst_blow(scenario: Scenario, path: Path, loads: Sequence[JointLoad], ledger: Ledger) -> ShockResult:
    """Return the largest blow over all starts and all driven inertias that come into question."""
    load = loads[path.reference]
    cases = _cases(scenario, path, loads)
    blow = blow_of(path, cases)
    peaks = np.asarray(blow.peak_torque)
    worst = int(np.argmax(peaks))

    def at_worst(field: str) -> float:
        return float(np.asarray(getattr(blow, field))[worst])

    if not at_worst("settled"):
        ledger.warn(
            "ringing", "Without damping the contact rings for ever; the count of contact losses was cut off."
        )
    start, inertia, stiffness = cases[worst]
    held = blow_of(path, [(start, math.inf, stiffness)])
    firm = blow_of(replace(path, slip=None), [cases[worst]])
    slipped = bool(np.asarray(blow.slipped)[worst])
    return ShockResult(
        joint=path.joint_name,
        start=start.name,
        driven_side="held" if math.isinf(inertia) else "free",
        peak_torque=at_worst("peak_torque"),
        drive_peak_torque=max(p for p, case in zip(peaks, cases, strict=True) if not case[0].braking),
        brake_peak_torque=max(
            (p for p, case in zip(peaks, cases, strict=True) if case[0].braking), default=0.0
        ),
        held_peak_torque=float(np.asarray(held.peak_torque)[0]),
        band_peak_torque=max(float(peaks[worst]), _band_peak(path, cases[worst])),
        least_torque=at_worst("least_torque"),
        steady_torque=at_worst("steady_torque"),
        dynamic_factor=at_worst("dynamic_factor"),
        natural_frequency=at_worst("natural_frequency"),
        closing_time=_finite(at_worst("closing_time")),
        closing_speed=_finite(at_worst("closing_speed")),
        blow_energy=_finite(at_worst("blow_energy")),
        contact_losses=int(at_worst("contact_losses")),
        slipped=slipped or load.slip_governs,
        slip_time=_finite(at_worst("slip_time")),
        firm_peak_torque=float(np.asarray(firm.peak_torque)[0]) if slipped else None,
        torque_rise=_finite(start.torque_rise),
        driving_inertia=path.driving_inertia,
        driven_inertia=_finite(inertia),
        stiffness=stiffness,
        damping_ratio=path.damping_ratio,
        lash=path.lash,
        softest=path.softest,
        compliance=path.compliance,
    )


def _cases(scenario: Scenario, path: Path, loads: Sequence[JointLoad]) -> list[tuple[Start, float, float]]:
    """Start, driven inertia and stiffness of every blow that comes into question."""
    return [
        (start, inertia, stiffness)
        for start in starts_of(scenario, loads[path.reference])
        for inertia in path.driven_inertias
        for stiffness in path.stiffnesses
    ]


def worst_arguments(
    scenario: Scenario, path: Path, loads: Sequence[JointLoad]
) -> tuple[str, dict[str, float]]:
    """Name of the start of the worst blow, and what the kernel is given for it, to follow it in time."""
    cases = _cases(scenario, path, loads)
    peaks = np.asarray(blow_of(path, cases).peak_torque)
    worst = cases[int(np.argmax(peaks))]
    return worst[0].name, {name: float(np.ravel(value)[0]) for name, value in _kernel(path, [worst]).items()}


def _band_peak(path: Path, case: tuple[Start, float, float]) -> float:
    """Largest peak of the worst case over the bands of what was assumed; 0 if nothing was."""
    options = [
        replace(path, driving_inertia=driving, damping_ratio=damping)
        for driving in (path.driving_inertia, *path.inertia_band)
        for damping in (path.damping_ratio, *path.damping_band)
    ]
    return max(float(np.max(blow_of(option, [case]).peak_torque)) for option in options)


def blow_of(path: Path, cases: Sequence[tuple[Start, float, float]], lash: FloatArray | None = None) -> Blow:
    """Compute the blow of several cases: start, driven inertia, stiffness.

    With an array of lashes instead of that of the path, one row for each of them.
    """
    arguments = _kernel(path, cases)
    return peak(**arguments if lash is None else arguments | {"lash": lash[:, None]})


def _kernel(path: Path, cases: Sequence[tuple[Start, float, float]]) -> dict[str, Any]:
    """Arguments of the kernel for several cases."""
    starts = [start for start, _, _ in cases]
    driven = np.array([inertia for _, inertia, _ in cases])
    arguments = blow_arguments(
        path.slip,
        np.array([start.braking for start in starts]),
        np.full(driven.shape, path.driving_inertia),
        driven,
        np.array([start.start_torque for start in starts]),
    )
    return {
        "torque_rise": np.array([start.torque_rise for start in starts]),
        "peak_torque": np.array([start.peak_torque for start in starts]),
        "driving_inertia": path.driving_inertia,
        "driven_inertia": driven,
        "stiffness": np.array([stiffness for _, _, stiffness in cases]),
        "damping_ratio": path.damping_ratio,
        "lash": path.lash,
        **arguments,
    }


def _finite(value: float) -> float | None:
    """None for what has no value (no gap crossed) or no end (held, instant)."""
    return value if math.isfinite(value) else None


def peak_at(index: int, shock: ShockResult, path: Path, loads: Sequence[JointLoad]) -> float:
    """
    Simulated peak torque at one joint: that of the reference joint through the stages between.

    Driving, the losses between take from the torque; braking, they are overcome there as well.
    """
    there = loads[path.reference]
    peak: float = peak_through(loads[index], there, shock.drive_peak_torque, shock.brake_peak_torque)
    return peak


def peak_through(here: JointLoad, there: JointLoad, drive_peak: Any, brake_peak: Any) -> Any:
    """Peak torque at one joint by those driving and braking at another; columns give a column."""
    ratio, losses = here.beyond(there)
    return greatest(drive_peak * ratio * losses, brake_peak * ratio / losses)
