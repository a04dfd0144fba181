"""An engagement that the axial stack gives: what the stack gives today, and how much longer parts must be."""

from collections.abc import Mapping
from typing import Any

from torqcheck.assessment.size.result import Value
from torqcheck.assessment.size.unknown import stack_result_of
from torqcheck.scenario import Scenario

__all__ = ["beside_stack"]

MOST_PARTS = 4


def beside_stack(scenario: Scenario, index: int, fields: Mapping[str, Any]) -> dict[str, Any]:
    """Compare the engagement that is needed with what the stack leaves in the worst case."""
    result, value, now = stack_result_of(scenario, index), fields["value"], fields["now"]
    if result is None or not isinstance(now, float):
        return {}
    if not isinstance(value, Value) or isinstance(value.si, str):
        extra = {"stack": {"result": result.name, "least_mm": now * 1e3, "longer_by_mm": None}}
        return {"extra": {**fields["extra"], **extra}}
    longer = value.si - now
    least = None if result.least is None else result.least.value
    extra = {"stack": {"result": result.name, "least_mm": now * 1e3, "longer_by_mm": max(0.0, longer) * 1e3}}
    words = _words(result, now, value, longer)
    if least is not None and value.si < least:
        words += (
            f" But the stack wants at least {least * 1e3:.4g} mm, more than the strength needs: with "
            f"{value.text} torqcheck assess fails by the stack unless that wish is changed too."
        )
    return {"extra": {**fields["extra"], **extra}, "notes": (*fields["notes"], words)}


def _words(result: Any, now: float, value: Value, longer: float) -> str:
    gives = f'The stack ("{result.name}") leaves {now * 1e3:.4g} mm in the worst case'
    if longer <= 0.0:
        return (
            f"{gives}, {-longer * 1e3:.3g} mm more than is needed. torqcheck stack shows where it comes from."
        )
    parts = ", ".join(f'"{name}"' for name in result.plus[:MOST_PARTS])
    words = (
        f"{gives}: {longer * 1e3:.3g} mm too little for {value.text}. Lengthen one of {parts} by as much, or "
        "let the parts meet as much deeper, and ask torqcheck stack again."
    )
    cuts = [
        f"full teeth on the {side} are {cut.value * 1e3:.4g} mm long"
        for side, cut in (("shaft", result.external_cut), ("hub", result.internal_cut))
        if cut is not None and cut.value < value.si
    ]
    return words + (f" The {' and the '.join(cuts)}: cut them longer too." if cuts else "")
