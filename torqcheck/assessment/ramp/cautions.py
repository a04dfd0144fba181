"""What must be said beside every ramp setting."""

from torqcheck.assessment.ramp.question import LEAST_DAMPING
from torqcheck.assessment.verdict.cautions import warn_of_damping, warn_of_fault_torque
from torqcheck.scenario import Scenario
from torqcheck.scenario.ledger import Ledger

__all__ = ["ramp_cautions"]


def ramp_cautions(scenario: Scenario, ledger: Ledger) -> None:
    """Write down what a ramp cannot do, and what goes with setting it."""
    motor = scenario.motor
    warn_of_fault_torque(ledger)
    ledger.warn(
        "both directions",
        "Set the rise for both directions, torque up and torque down, and in every drive mode: many "
        "controllers keep ramps of their own for reverse, for low speed and for braking.",
    )
    if motor.boost == 1.0:
        ledger.warn(
            "torque limit",
            "The rise goes with the peak torque of the scenario. Raise the current limit, and ask again.",
        )
    warn_of_damping(scenario, ledger)
    if scenario.driven.damping_ratio is not None and scenario.driven.damping_ratio < LEAST_DAMPING:
        ledger.warn(
            "no damping",
            "Without damping the play hammers for ever, which no torque path does; give a damping_ratio of "
            "0.005 or more (the usual value for metal is 0.03).",
        )
    if scenario.driven.slip is not None:
        ledger.warn(
            "grip",
            "The setting counts on what ground or clutch let through by the scenario. On better ground more "
            "comes through: ask again without driven.slip.",
        )
