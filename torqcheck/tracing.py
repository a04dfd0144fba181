"""Which filed formulas were computed on the way to a result, with what, and what came out."""

import sys
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import CodeType, FrameType
from typing import Any, TypeVar

from torqcheck.formulas import FORMULAS

__all__ = ["Call", "calls_during"]

Result = TypeVar("Result")


@dataclass(frozen=True, slots=True)
class Call:
    """
    One evaluation of a filed formula with plain numbers. SI.

    Parameters
    ----------
    function : callable
        The formula.
    arguments : mapping
        By name.
    value : float
        The result.
    within : tuple of Call
        Evaluations of other filed formulas that it used.
    """

    function: Callable[..., Any]
    arguments: Mapping[str, Any]
    value: float
    within: tuple["Call", ...] = ()


def calls_during(ask: Callable[[], Result]) -> tuple[Result, tuple[Call, ...]]:
    """
    Run a function, and note every filed formula that it evaluates.

    The formulas themselves are not touched: the interpreter tells of each call. It makes the run a few
    times slower, and nothing that is not traced pays for it. Evaluations of whole arrays are left out.

    Parameters
    ----------
    ask : callable
        Takes no arguments.

    Returns
    -------
    tuple
        What `ask` returned, and the evaluations in the order in which they ended, each once.
    """
    found: dict[tuple[Any, ...], Call] = {}
    known: dict[CodeType, Callable[..., Any]] = {}
    filed = 0
    open_calls: list[tuple[dict[str, Any], list[Call]]] = []

    def look(frame: FrameType, event: str, value: Any) -> None:
        nonlocal filed
        if event not in {"call", "return"}:
            return
        if len(FORMULAS) != filed:
            # modules that are loaded on the way file their formulas
            known.update(
                {function.__code__: function for function in FORMULAS if hasattr(function, "__code__")}
            )
            filed = len(FORMULAS)
        function = known.get(frame.f_code)
        if function is None:
            return
        if event == "call":
            open_calls.append((dict(frame.f_locals), []))
            return
        arguments, inner = open_calls.pop()
        plain = {name: _plain(argument) for name, argument in arguments.items()}
        number = _plain(value)
        if not isinstance(number, float) or None in plain.values():
            return
        call = found.setdefault((function, *plain.items()), Call(function, plain, number, tuple(inner)))
        if open_calls:
            open_calls[-1][1].append(call)

    before = sys.getprofile()
    sys.setprofile(look)
    try:
        result = ask()
    finally:
        sys.setprofile(before)
    return result, tuple(found.values())


def _plain(value: Any) -> Any:
    """A number as a float, a word, or a tuple of them; None for anything else."""
    if isinstance(value, bool | str):
        return value
    if isinstance(value, int | float):
        return float(value)
    if isinstance(value, tuple):
        parts = tuple(_plain(part) for part in value)
        return None if None in parts else parts
    if getattr(value, "ndim", None) == 0 or getattr(value, "size", 0) == 1:
        return float(value.reshape(()))
    return None
