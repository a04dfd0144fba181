"""From checks, mate, wear and fatigue to one verdict, with the readings that are missing."""

from collections.abc import Sequence

from torqcheck.assessment.fatigue.result import FatigueResult
from torqcheck.assessment.result import MateResult, WearResult
from torqcheck.checks import Check, Verdict, worst_verdict

__all__ = ["found_verdict", "joint_verdict"]


def found_verdict(
    checks: Sequence[Check],
    mate: MateResult | None,
    wear: WearResult | None,
    fatigue: FatigueResult | None = None,
    alignment: Verdict | None = None,
) -> Verdict:
    """Return the worst of what was found, as if every reading had been taken."""
    verdicts: list[Verdict] = [check.verdict for check in checks if check.counts]
    if mate is not None and mate.verdict == "false fit":
        verdicts.append("fail")
    if mate is not None and mate.verdict == "worn mate":
        # usable at best: it wears on faster, and its blow grows
        verdicts.append("marginal")
    if wear is not None and wear.verdict is not None:
        verdicts.append(wear.verdict)
    if fatigue is not None and fatigue.verdict is not None:
        verdicts.append(fatigue.verdict)
    if alignment is not None:
        verdicts.append(alignment)
    return worst_verdict(tuple(verdicts))


def joint_verdict(
    found: Verdict, favourable: Verdict, *, missing_here: bool, missing_anywhere: bool
) -> Verdict:
    """
    Weigh what was found against what is missing.

    A fail that stays a fail even if every missing reading turns out well is a fail. A fail that a
    reading could still turn, and anything better than that with a reading missing, is undecided.
    """
    if found == "fail":
        return "undecided" if missing_anywhere and favourable != "fail" else "fail"
    return "undecided" if missing_here else found
