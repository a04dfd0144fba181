"""Plain words for verdicts, shared by all renderers."""

from torqcheck.checks import Verdict

__all__ = ["VERDICT_WORDS"]

VERDICT_WORDS: dict[Verdict, str] = {
    "pass": "PASS",
    "marginal": "MARGINAL",
    "undecided": "UNDECIDED",
    "fail": "FAIL",
}
