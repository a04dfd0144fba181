"""Evaluate the printed text of a formula from its printed symbols, by a reading of its own."""

import math
import re
from collections.abc import Callable, Mapping
from typing import Any

from scipy.stats import norm

UNITS = {"mm": 1e-3, "um": 1e-6, "MPa": 1e6, "ksi": 6.894757293168e6, "in": 0.0254}
FUNCTIONS: dict[str, Callable[..., Any]] = {
    "tan": math.tan, "sin": math.sin, "cos": math.cos, "atan": math.atan, "acos": math.acos,
    "sqrt": math.sqrt, "exp": math.exp, "log10": math.log10, "log2": math.log2, "lg": math.log10,
    "ln": math.log, "sinh": math.sinh, "cosh": math.cosh, "coth": lambda x: 1.0 / math.tanh(x),
    "asinh": math.asinh, "max": max, "min": min, "inv": lambda a: math.tan(a) - a,
    "za": lambda r: norm.ppf(r),
}  # fmt: skip
INVERSES = {"cos": math.acos, "tan": math.atan}
TOKEN = re.compile(r"\s*(\d+\.?\d*(?:e-?\d+)?|[A-Za-z][A-Za-z0-9_]*'*|\*\*|[-+*/^()\[\],|])")


class UnreadableError(Exception):
    """A text that says more than arithmetic."""


def evaluated(text: str, symbols: Mapping[str, Any]) -> float:
    """Value of the first equation of a text; the equations behind it define what it uses."""
    values = {**UNITS, "pi": math.pi, **symbols}
    if " up to " in text:
        return _pieces(text, values, symbols)
    if "N" in symbols and "f" not in symbols:
        # pins of an odd count of teeth do not lie opposite each other
        values["f"] = 1.0 if symbols["N"] % 2 == 0 else math.cos(math.pi / (2.0 * symbols["N"]))
    first, *behind = equations(text)
    for left, right in reversed(behind):
        call = re.fullmatch(r"(\w+)\((\w+)\)", left)
        if call is None:
            values.setdefault(left, _Reader(right, values).whole())
        elif call[1] in INVERSES:
            values.setdefault(call[2], INVERSES[call[1]](_Reader(right, values).whole()))
        else:
            raise UnreadableError(left)
    return float(_Reader(first[1], values).whole())


def _pieces(text: str, values: Mapping[str, Any], symbols: Mapping[str, Any]) -> float:
    """A text of the form: y = one up to a limit, other above. It has one symbol."""
    (variable,) = symbols.values()
    low, _, rest = text.partition(" up to ")
    limit, _, high = rest.removesuffix(" above").partition(", ")
    below = variable <= _Reader(limit, values).whole()
    return float(_Reader(low.partition("=")[2] if below else high, values).whole())


def equations(text: str) -> list[tuple[str, str]]:
    """Take a text apart into its equations."""
    parts, depth, start = [], 0, 0
    for place, letter in enumerate(text):
        depth += (letter in "([") - (letter in ")]")
        if letter == "," and depth == 0:
            parts.append(text[start:place])
            start = place + 1
    parts.append(text[start:])
    found = []
    for part in parts:
        left, sign, right = part.partition("=")
        if not sign or "=" in right:
            raise UnreadableError(part)
        found.append((left.strip(), right.strip()))
    return found


class _Reader:
    """Arithmetic as it is written by hand: what stands side by side is multiplied."""

    def __init__(self, text: str, values: Mapping[str, Any]) -> None:
        self.values = values
        self.tokens: list[str] = []
        at = 0
        while at < len(text.rstrip()):
            match = TOKEN.match(text, at)
            if match is None:
                raise UnreadableError(text)
            self.tokens.append(match[1])
            at = match.end()
        self.at = 0

    def peek(self) -> str:
        return self.tokens[self.at] if self.at < len(self.tokens) else ""

    def take(self) -> str:
        self.at += 1
        return self.tokens[self.at - 1]

    def whole(self) -> Any:
        value = self.sum()
        if self.peek():
            raise UnreadableError(" ".join(self.tokens[self.at :]))
        return value

    def sum(self) -> Any:
        sign = -1.0 if self.peek() == "-" else 1.0
        if self.peek() in {"+", "-"}:
            self.take()
        value = sign * self.product()
        while self.peek() in {"+", "-"}:
            value = value + self.product() if self.take() == "+" else value - self.product()
        return value

    def product(self) -> Any:
        value = self.run()
        while self.peek() in {"/", "*"}:
            if self.take() == "*":
                value = value * self.run()
            else:
                below = self.run(one=True)
                value = value / below if below else math.inf
        return value

    def run(self, one: bool = False) -> Any:
        """Factors side by side; behind a stroke only the next one counts, as in 2 x/h."""
        value = self.power()
        while self.peek() and self.peek() not in {"+", "-", "/", "*", ")", "]", ",", "|", "^"} and not one:
            value = value * self.power()
        return value

    def power(self) -> Any:
        base = self.atom()
        if self.peek() != "^":
            return base
        self.take()
        sign = -1.0 if self.peek() == "-" else 1.0
        if self.peek() == "-":
            self.take()
        return base ** (sign * self.atom())

    def atom(self) -> Any:
        token = self.take() if self.peek() else ""
        if token in {"(", "["}:
            value = self.sum()
            self.take()
            return value
        if token == "|":
            value = abs(self.sum())
            self.take()
            return value
        if token and (token[0].isdigit()):
            return float(token)
        if token in FUNCTIONS and self.peek() == "(" and token not in self.values:
            self.take()
            arguments = [self.sum()]
            while self.take() == ",":
                arguments.append(self.sum())
            return FUNCTIONS[token](*arguments)
        if token in self.values:
            return self.values[token]
        raise UnreadableError(token)
