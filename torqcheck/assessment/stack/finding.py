"""The answer of the command `stack`: the check of the stack, and what heating does to bearings."""

from dataclasses import dataclass
from typing import Any

from torqcheck.assessment.result import assumption_entry, missing_entry
from torqcheck.assessment.stack.result import StackCheck
from torqcheck.assessment.verdict.answered import Answered
from torqcheck.checks import Verdict
from torqcheck.scenario.ledger import Assumption, Caution

__all__ = ["AxialForce", "StackFinding"]


@dataclass(frozen=True, slots=True, kw_only=True)
class AxialForce:
    """Growth in service across a joint, m, and the force that holds it under torque, N.

    `pitch_diameters` is the least engagement over the pitch diameter.
    """

    joint: str
    growth: float
    torque: float
    force: float
    pitch_diameters: float


@dataclass(frozen=True, slots=True, kw_only=True)
class StackFinding(Answered):
    """Everything that `stack` found."""

    check: StackCheck
    forces: tuple[AxialForce, ...]
    assumptions: tuple[Assumption, ...]
    cautions: tuple[Caution, ...]

    @property
    def verdict(self) -> Verdict:
        """Verdict of the stack."""
        return self.check.verdict

    def to_dict(self) -> dict[str, Any]:
        """Return the full result as plain data for JSON, the unit in the key."""
        return {
            **self.head(),
            **self.check.to_dict(),
            "undecided_by": [missing_entry(entry) for entry in self.check.missing],
            "axial_forces": [
                {
                    "joint": one.joint,
                    "growth_mm": 1e3 * one.growth,
                    "torque_Nm": one.torque,
                    "force_N": one.force,
                    "engagement_over_pitch_diameter": one.pitch_diameters,
                }
                for one in self.forces
            ],
            "assumptions": [assumption_entry(entry) for entry in self.assumptions],
            "cautions": [{"key": entry.key, "text": entry.text} for entry in self.cautions],
        }
