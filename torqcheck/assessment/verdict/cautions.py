"""Cautions that hold for a whole scenario, shown where they apply."""

from collections.abc import Sequence

from torqcheck.assessment.torque.path import JointLoad
from torqcheck.scenario.estimates import peak_torque, torque_rise
from torqcheck.scenario.joint_schema import SplineJoint
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.schema import Scenario

__all__ = ["standing_cautions", "warn_of_damping", "warn_of_fault_torque"]

MOST_DAMPING = 0.2
MOST_BY_HAND = 20.0
"""kg; common practice, no source: more is not held in place by hand while it is bolted up."""
FAST_RISE = 0.05
"""Seconds to full torque below which a ramp counts as fast."""


def standing_cautions(scenario: Scenario, loads: Sequence[JointLoad], ledger: Ledger) -> None:
    """Write down what follows from the scenario as a whole."""
    motor = scenario.motor
    _warn_of_first_spin(scenario, loads, ledger)
    _warn_of_lifting(scenario, ledger)
    _warn_of_braking(scenario, ledger)
    if motor.peak_torque.value * motor.boost / torque_rise(motor) < FAST_RISE:
        ledger.warn(
            "fast ramp",
            "The motor reaches full torque in less than 50 ms. A slower ramp in the controller costs nothing "
            "and softens the blow.",
        )
    warn_of_damping(scenario, ledger)
    warn_of_fault_torque(ledger)
    ledger.warn(
        "not checked",
        "Not checked in this version: fatigue of the teeth in bending, wear by the blows themselves, balance "
        "and critical speeds, bearings, and the gears behind the joints.",
    )
    if any(isinstance(joint, SplineJoint) and joint.seat == "flexible" for joint in scenario.joint):
        ledger.warn(
            "stress alone",
            "Low stress alone does not save a spline that can rock: alignment and support of the shaft nose "
            "kill more splines than torque. Check for red-brown dust and play at each inspection.",
        )
    if any(isinstance(joint, SplineJoint) and joint.external.reused is not False for joint in scenario.joint):
        ledger.warn(
            "reused shaft",
            "Before reuse, crack-test the root fillets (dye or magnetic particles) and look along the "
            "splines: any twist, pit, weld spatter or blue colour is a reason to reject [common practice, "
            "no source].",
        )


def _warn_of_first_spin(scenario: Scenario, loads: Sequence[JointLoad], ledger: Ledger) -> None:
    """What can kill at the coupler itself: voltage before it turns, the rim when it does."""
    top = scenario.motor.max_speed.value
    rims = [
        0.5 * internal.outside_diameter.value * load.speed(top)
        for joint, load in zip(scenario.joint, loads, strict=True)
        if (internal := getattr(joint, "internal", None)) is not None
        and internal.outside_diameter is not None
    ]
    rim = f" The rim of the coupler runs at {max(rims):.2g} m/s at top speed." if rims else ""
    ledger.warn(
        "first spin",
        "Before hands go near the coupler, isolate the motor from its supply, lock it off and prove it dead; "
        "a permanent-magnet motor that is turned gives voltage by itself. First spin-up in steps, guard "
        f"fitted, nobody in the plane of the coupler.{rim}",
    )


def _warn_of_lifting(scenario: Scenario, ledger: Ledger) -> None:
    """A motor too heavy to be held by hand while it is joined."""
    motor = scenario.motor
    mass, what = motor.motor_mass or motor.rotor_mass, "The motor weighs"
    if motor.motor_mass is None:
        what = "The rotor alone weighs"
    if mass is not None and mass.value > MOST_BY_HAND:
        ledger.warn(
            "lifting",
            f"{what} {mass.value:.0f} kg: sling or support the motor before the last bolt is out, and never "
            "let it hang on the splines; one knock bends a shaft end that no check here sees.",
        )


def _warn_of_braking(scenario: Scenario, ledger: Ledger) -> None:
    """A motor that brakes harder than it drives: most often a slip of the pen or of the controller."""
    motor = scenario.motor
    drives = peak_torque(motor)
    stated = motor.regen_torque.value if motor.regen_torque is not None else 0.0
    brakes = max(stated, *(-spell.torque * drives for spell in scenario.duty), 0.0)
    if brakes > drives * (1.0 + 1e-9):
        ledger.warn(
            "braking torque",
            f"The motor brakes with up to {brakes:.4g} N m and drives with {drives:.4g} N m at most: the "
            "static checks take the larger one. Most motors brake no harder than they drive; check "
            "motor.regen_torque and its limit in the controller.",
        )


def warn_of_fault_torque(ledger: Ledger) -> None:
    """No ramp setting helps against a fault."""
    ledger.warn(
        "fault torque",
        "A controller's ramp is no guard against a fault: the short-circuit torque of a permanent-magnet "
        "motor can exceed its peak torque, in both directions.",
    )


def warn_of_damping(scenario: Scenario, ledger: Ledger) -> None:
    """Damping that no metal path has."""
    damping = scenario.driven.damping_ratio
    if damping is not None and damping > MOST_DAMPING:
        ledger.warn(
            "damping",
            f"A damping ratio of {damping:g} is far above what a metal torque path has (0.01 to 0.08, with "
            "rubber to 0.15); it makes the blow look small.",
        )
