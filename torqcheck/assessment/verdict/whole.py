"""What the whole check says, for answers to a part of it: none of them may sound better than it."""

from dataclasses import dataclass
from typing import Any

from torqcheck.assessment.result import Assessment
from torqcheck.assessment.verdict.reason import Reason
from torqcheck.checks import Verdict, worst_verdict

__all__ = ["WholeCheck"]


@dataclass(frozen=True, slots=True)
class WholeCheck:
    """Verdict of `assess` on the same file, and what decides it."""

    verdict: Verdict
    decided_by: tuple[Reason, ...]

    @classmethod
    def of(cls, assessment: Assessment) -> "WholeCheck":
        """Take from an assessment what a part of the check has to say beside its own answer."""
        return cls(assessment.verdict, assessment.decided_by)

    def worse_than(self, verdict: Verdict | None) -> bool:
        """Whether it says worse than another verdict; no verdict at all counts as a pass."""
        own = verdict or "pass"
        return self.verdict != own and worst_verdict((self.verdict, own)) == self.verdict

    def to_dict(self) -> dict[str, Any]:
        """Return it as plain data for JSON."""
        return {
            "verdict": self.verdict,
            "decided_by": [reason.to_dict() for reason in self.decided_by],
        }
