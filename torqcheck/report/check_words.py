"""What the letters and the columns of the table of checks stand for."""

from collections.abc import Sequence

from torqcheck.checks import Check
from torqcheck.report.fatigue import is_fatigue

__all__ = ["BESIDE", "BY", "legend_of", "order_words"]

BY = {"guide, tabulated": "T", "guide, simulated": "S", "material": "M", "larger load": "L"}
LEGEND = (
    "By: T guide method, steady peak torque x application factor; S guide method, simulated peak "
    "torque of the blow; M material strength, the larger of the two torques. T and S are two views of one "
    "load, the lower factor governs; M rests on a different model. Range: 5th to 95th percentile of "
    "the factor over the tolerances of the readings and the bands of the assumptions. It speaks of the "
    "numbers that were put in, not of the models: the guide's limits, the steel at the low end of its "
    "row and the sizes of a standard spline count as exact. The factor itself takes a hardness at the low "
    "end of its tolerance."
)
FIRST_TOOTH = (
    " Checks of the first tooth alone see first yield of one tooth, with a target of 1. They stand behind "
    "those of the joint, weakest first, unless they fail: where one tooth gives way the others share."
)
LARGER_LOAD = (
    " L strength of a joint beside the spline under the larger load: steady peak torque x application "
    "factor, or the blow; a torque or a force has its unit beside it. What is known no closer than its band, "
    "an interference for instance, counts at the end that hurts, so such a factor may lie below its range."
)
BESIDE = "beside"
NOT_COUNTED = (
    " Beside: a path parallel to the one that the joint is held by. Parallel paths are never added: the "
    "first to give way leaves the other alone. It is shown, and decides nothing."
)
FATIGUE = (
    " Torsional fatigue passes at its factor for a damage of 0.3, about 1.3; its range is that of the life."
)


def order_words(checks: Sequence[Check]) -> str:
    """In which order the table of checks stands, see `torqcheck.checks.weakest_first`."""
    alone = any(check.local for check in checks)
    return "weakest first, first tooth alone last" if alone else "weakest first"


def legend_of(checks: Sequence[Check]) -> str:
    """What the letters and the columns of the table of checks stand for."""
    return (
        LEGEND
        + (LARGER_LOAD if any(check.method == "larger load" for check in checks) else "")
        + (FIRST_TOOTH if any(check.local for check in checks) else "")
        + ("" if all(check.counts for check in checks) else NOT_COUNTED)
        + (FATIGUE if any(is_fatigue(check) for check in checks) else "")
    )
