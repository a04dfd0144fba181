"""Formulas filed as data, so that the code, its documentation and the reports say the same."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, TypeVar

from torqcheck.provenance import Source

__all__ = ["FORMULAS", "Formula", "Symbol", "formula"]

AnyFunction = TypeVar("AnyFunction", bound=Callable[..., Any])


@dataclass(frozen=True, slots=True)
class Symbol:
    """One letter of a formula: what it stands for and in which SI unit ("-" if it has none)."""

    letter: str
    unit: str
    meaning: str


@dataclass(frozen=True, slots=True)
class Formula:
    """The text of a formula, its result, its symbols by argument name, and its source."""

    text: str
    result: Symbol
    symbols: Mapping[str, Symbol]
    source: Source


FORMULAS: dict[Callable[..., Any], Formula] = {}
"""Every filed formula, by the function that computes it."""


def formula(
    text: str, *, result: Symbol, source: Source, **symbols: Symbol
) -> Callable[[AnyFunction], AnyFunction]:
    """File a formula under the function that it decorates; the function itself stays as it is.

    Parameters
    ----------
    text : str
        The formula in plain ASCII; must stand in the docstring of the function, letter for letter.
    result : Symbol
        What the function returns.
    source : Source
        Where the formula was taken from.
    **symbols : Symbol
        One for each argument of the function, in its order.
    """

    def file(function: AnyFunction) -> AnyFunction:
        FORMULAS[function] = Formula(text, result, MappingProxyType(symbols), source)
        return function

    return file
