"""A check of the first tooth alone that a ramp does not hold: frozen data, and its JSON."""

from dataclasses import dataclass
from typing import Any

__all__ = ["FirstTooth"]


@dataclass(frozen=True, slots=True)
class FirstTooth:
    """
    A check of the first tooth alone that is below its target at a setting, with the values as stated.

    Parameters
    ----------
    joint, check, method : str
        Which.
    target : float
        What it is held against.
    factor : float
        Safety factor at the setting.
    as_set : float
        Safety factor as set now.
    slower : float or None
        Rise, N m/s at the motor shaft, at which this and every other such check holds, as at every
        slower one; None where no ramp does.
    """

    joint: str
    check: str
    method: str
    target: float
    factor: float
    as_set: float
    slower: float | None

    def to_dict(self) -> dict[str, Any]:
        """Return it as plain data for JSON."""
        return {
            "joint": self.joint,
            "check": self.check,
            "method": self.method,
            "target": self.target,
            "safety_factor": self.factor,
            "safety_factor_as_set": self.as_set,
            "holds_from_rise_Nm_s": self.slower,
        }
