"""The largest peak torque at which every check of every joint is at its target, found on the checks."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from torqcheck.assessment.prepared import Prepared, checks_at
from torqcheck.assessment.torque.blow import peak_through
from torqcheck.checks import Check
from torqcheck.errors import NoSolutionError
from torqcheck.scenario.ledger import Ledger

__all__ = ["Limits", "joint_peaks", "limits_of", "quiet"]

FIRST_STEP, STEP = 0.01, 1.25
"""The search goes up from this share of the steady torque, by this factor."""
MOST_STEPS, HALVINGS = 120, 44


@dataclass(frozen=True, slots=True)
class Limits:
    """Peak torque allowed at the reference joint, N m, driving and braking; which check sets the first.

    `standing` are the checks below their target already without any blow: no ramp mends them.
    """

    drive: float
    brake: float
    drive_check: Check
    standing: tuple[Check, ...]


def quiet(prepared: Prepared) -> Prepared:
    """A copy whose ledger takes whatever the checks say under torques that never occur."""
    ledger = prepared.ledger
    copy = Ledger(ledger.outlook, list(ledger.assumptions), list(ledger.missing), list(ledger.cautions))
    return replace(prepared, ledger=copy)


def limits_of(prepared: Prepared) -> Limits:
    """Find, joint by joint, the peak torque that brings the first check down to its target."""
    prepared = quiet(prepared)
    reference = prepared.loads[prepared.path.reference]
    drive: list[tuple[float, Check]] = []
    brake: list[float] = []
    standing: list[Check] = []
    for index, load in enumerate(prepared.loads):
        failing = _below_target(checks_at(prepared, index, 0.0))
        standing += failing
        skip = frozenset(_name(check) for check in failing)
        found = _largest_peak(prepared, index, skip)
        if found is None:
            continue
        peak, check = found
        ratio, losses = load.beyond(reference)
        drive.append((peak / (ratio * losses), check))
        brake.append(peak * losses / ratio)
    if not drive:
        raise NoSolutionError("no peak torque, however large, brings a check of any joint to its target")
    least, check = min(drive, key=lambda entry: entry[0])
    return Limits(least, min(brake), check, tuple(standing))


def joint_peaks(prepared: Prepared, drive: float, brake: float) -> tuple[float, ...]:
    """Peak torque at every joint from the peaks at the reference joint, as `peak_at` transfers them."""
    there = prepared.loads[prepared.path.reference]
    return tuple(peak_through(load, there, drive, brake) for load in prepared.loads)


def _name(check: Check) -> tuple[str, str]:
    return check.name, check.method


def _below_target(checks: Sequence[Check], skip: frozenset[tuple[str, str]] = frozenset()) -> list[Check]:
    """Checks below their target; not those of a tooth that beds in once, which no ramp has to spare."""
    return [check for check in checks if check.decides and check.margin < 1.0 and _name(check) not in skip]


def _largest_peak(
    prepared: Prepared, index: int, skip: frozenset[tuple[str, str]]
) -> tuple[float, Check] | None:
    """
    Go up from next to nothing until a check falls below its target, then halve the last step.

    None where no torque brings one there: what is left of the joint does not depend on it, as the
    stress of a shrunk hub.
    """
    load = prepared.loads[index]
    low = 0.0
    high = FIRST_STEP * max(load.torque, load.regen_torque)
    for _ in range(MOST_STEPS):
        failing = _below_target(checks_at(prepared, index, high), skip)
        if failing:
            break
        low, high = high, STEP * high
    else:
        return None
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        found = _below_target(checks_at(prepared, index, middle), skip)
        if found:
            high, failing = middle, found
        else:
            low = middle
    return low, min(failing, key=lambda check: check.margin)
