"""One finding that is short of a pass: where, of which kind, how grave, in plain words."""

from dataclasses import dataclass
from typing import Any, Literal

from torqcheck.checks import Verdict

__all__ = ["Reason", "ReasonKind"]

ReasonKind = Literal[
    "check", "first tooth", "mate", "wear", "fatigue", "alignment", "band of the blow", "stack", "reading"
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """
    One finding that is short of a pass.

    Parameters
    ----------
    joint : str
        Name of the joint; empty for the axial stack.
    kind : str
        What sort of finding.
    verdict : str
        What it is by itself.
    text : str
        In words, without the name of the joint.
    check : str
        Name of the check, where it is one.
    method : str
        Its method.
    """

    joint: str
    kind: ReasonKind
    verdict: Verdict
    text: str
    check: str = ""
    method: str = ""

    @property
    def line(self) -> str:
        """The whole finding in one line."""
        return f"{self.joint}: {self.text}" if self.joint else self.text

    @property
    def same(self) -> tuple[str, str, str]:
        """What tells it from the other findings of a joint, whatever its numbers are."""
        return self.kind, self.check, self.method

    def to_dict(self) -> dict[str, Any]:
        """Return it as plain data for JSON."""
        return {
            "joint": self.joint or None,
            "kind": self.kind,
            "check": self.check or None,
            "method": self.method or None,
            "verdict": self.verdict,
            "text": self.text,
        }
