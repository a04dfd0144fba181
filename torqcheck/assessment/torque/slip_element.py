"""The wheel on the ground or the clutch that lets go: what it means for a blow."""

from dataclasses import dataclass
from typing import Any

import numpy as np

from torqcheck._types import BoolArray, FloatArray, Numeric
from torqcheck.assessment.torque.path import JointLoad
from torqcheck.elementwise import greatest, number
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.schema import Slip
from torqcheck.shock import peak, slip_onset_torque, torque_share

__all__ = ["SlipElement", "blow_arguments", "peaks_of", "slip_element"]


@dataclass(frozen=True, slots=True)
class SlipElement:
    """Friction torque driving and braking, and the inertia before it; at the reference joint, SI."""

    driving_torque: Numeric
    braking_torque: Numeric
    inertia_before: Numeric


AT_ONSET = 1e-6
LEAST_SHARE = 1e-3
"""Of the driving inertia: with less before it the element follows the torque at once, in ever finer steps."""


def slip_element(
    slip: Slip | None, load: JointLoad, to_last: float, driving_inertia: float, ledger: Ledger
) -> SlipElement | None:
    """
    Refer the slip element to the reference joint; None without one, or where its inertia is not known.

    Parameters
    ----------
    slip : Slip or None
        As the scenario gives it, at the last joint.
    load : JointLoad
        Of the reference joint; holds what the ground lets through there.
    to_last : float
        Speed of the reference joint over that of the last joint.
    driving_inertia : float, kg m^2
        At the reference joint. A thousandth of it is the least that is taken before the element: the
        blow is then a little larger than with less.
    ledger : Ledger
        Is told if less is given.
    """
    if slip is None or slip.inertia_before is None:
        return None
    before, least = slip.inertia_before.value / to_last**2, LEAST_SHARE * driving_inertia
    if np.any(before < least):
        ledger.warn(
            "slip inertia",
            f"driven.slip.inertia_before is below a thousandth of the driving inertia; "
            f"{np.max(least * to_last**2):.3g} kg m^2 is taken. Wheels and the gears before them "
            "are part of it.",
        )
    return SlipElement(load.slip_torque, load.brake_slip_torque, number(greatest(before, least)))


def blow_arguments(
    element: SlipElement | None,
    braking: BoolArray,
    driving_inertia: FloatArray,
    driven_inertia: FloatArray,
    start_torque: FloatArray,
) -> dict[str, Any]:
    """
    Arguments of the shock kernel that depend on the slip element; flat arrays of one length, SI.

    A driven side that is not larger than what lies before the element has none behind it: it is then
    left out. No start is settled under more than the element holds: it is cut down to that.
    """
    if element is None:
        return {"start_torque": start_torque}
    slips = driven_inertia > element.inertia_before
    before = np.where(slips, element.inertia_before, 0.0)
    torque = np.where(braking, element.braking_torque, element.driving_torque)
    # a start lies under the torque of the other direction
    onset = slip_onset_torque(torque, before, driven_inertia)
    most = np.where(slips, onset / torque_share(driving_inertia, driven_inertia), np.inf)
    return {
        "start_torque": np.maximum(start_torque, -most),
        "slip_torque": np.where(slips, torque, np.inf),
        "inertia_before_slip": np.where(slips, before, 1.0),
    }


def peaks_of(arguments: dict[str, Any]) -> FloatArray:
    """
    Peak torque of many blows, each followed with the slip element only where it lets go.

    Parameters
    ----------
    arguments : dict
        Arguments of the shock kernel, without a rest in the rise; they broadcast.
    """
    if "slip_torque" not in arguments:
        return np.asarray(peak(**arguments).peak_torque)
    # most cases never come near the slip, and are followed faster without it
    element = {name: arguments[name] for name in ("slip_torque", "inertia_before_slip")}
    plain = {name: value for name, value in arguments.items() if name not in element}
    firm = peak(**plain)
    result = np.array(firm.peak_torque)
    friction, before = element["slip_torque"], element["inertia_before_slip"]
    onset = slip_onset_torque(friction, np.where(np.isinf(friction), 0.0, before), plain["driven_inertia"])
    # a start may lie at the very onset on the coast flank
    slips = (result > onset * (1.0 - AT_ONSET)) | (-firm.least_torque > onset * (1.0 + AT_ONSET))
    if np.any(slips):
        few = {name: np.broadcast_to(value, result.shape)[slips] for name, value in arguments.items()}
        result[slips] = peak(**few).peak_torque
    return result
