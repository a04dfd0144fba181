"""The fastest rise as `torqcheck ramp` finds it, beside the one that passes everything."""

from collections.abc import Mapping
from typing import Any

from torqcheck.assessment.ramp.advise import ramp
from torqcheck.errors import DomainError, NoSolutionError
from torqcheck.scenario import Scenario

__all__ = ["beside_ramp"]

SAME = 0.01
"""Share by which two rises may differ and be called the same."""


def beside_ramp(scenario: Scenario, fields: Mapping[str, Any]) -> dict[str, Any]:
    """Compare with `torqcheck ramp`, which asks the same of every check that feels the blow, and no more."""
    try:
        found = ramp(scenario)
    except (DomainError, NoSolutionError):
        return {}
    stated, sure, best = found.limit_as_stated, found.limit, found.recommended
    extra = {
        "ramp": {
            "limit_as_stated_Nm_s": _finite(stated),
            "limit_in_95_of_100_Nm_s": _finite(sure),
            "recommended_Nm_s": None if best is None else best.rise,
        }
    }
    words = _words(fields, _finite(stated), None if best is None else best.rise)
    return {"extra": {**fields["extra"], **extra}, "notes": (*fields["notes"], words)}


def _finite(value: float | None) -> float | None:
    return value if value is not None and value < float("inf") else None


def _words(fields: Mapping[str, Any], stated: float | None, recommended: float | None) -> str:
    """Say in words how the two answers go together."""
    exact = fields["exact"]
    advice = (
        f"torqcheck ramp recommends {recommended:.3g} N m/s, which holds in 95 of 100 draws"
        if recommended is not None
        else "torqcheck ramp finds no rise that it would recommend"
    )
    if stated is None or exact is None:
        return (
            f"{advice}. It looks at the checks that feel the blow, of every joint; this command at "
            "everything that assess judges, of what was asked for."
        )
    if abs(exact - stated) <= SAME * stated:
        same = f"with the values as stated it finds the same edge, {stated:.4g} N m/s"
        return f"{advice}; {same}. Set that of ramp."
    other = "less" if exact < stated else "more"
    return (
        f"With the values as stated torqcheck ramp finds {stated:.4g} N m/s, this command {other}: ramp "
        "looks at the checks of all joints that feel the blow and decide; this command at all that assess "
        "judges of what was asked for, first yield of single teeth, wear, fatigue, and the band of damping "
        f"and inertia as well. {advice[0].upper()}{advice[1:]}; set the lower of the two."
    )
