"""Signed sums of the axial stack in SI: their range cold and in service, and what widens it."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias

import numpy as np

from torqcheck.geometry import (
    chance_below,
    chance_of_sum_below,
    deviation_of_sum,
    statistical_tolerance,
    usable_engagement,
    worst_case_tolerance,
)

__all__ = ["BENDER", "Contributor", "Pack", "Range", "Service", "SignedSum", "State", "Term"]

State: TypeAlias = Literal["assembled", "running"]
Service: TypeAlias = Literal["as stated", "least", "most"]
"""Growth as stated, or the end of what is not known of it that makes the sum smallest or largest."""

BENDER = 1.5
ALIKE = 12
"""Tolerances that agree in so many decimals of a metre are one: the last bit of 0.05 mm hangs on its unit."""
NORMAL_DEVIATIONS = 2.0
"""A tolerance counts as two standard deviations throughout."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """
    One distance: middle and half width of its range at assembly, m, and its growth in service.

    `growth` holds the growth as stated, and the least and the most where material or temperature is
    not known. An `even` term is anywhere in its range as likely, others scatter normally.
    """

    name: str
    middle: float
    half: float
    even: bool = False
    growth: tuple[float, float, float] = (0.0, 0.0, 0.0)

    @property
    def deviation(self) -> float:
        """Standard deviation."""
        return self.half / math.sqrt(3.0) if self.even else self.half / NORMAL_DEVIATIONS


@dataclass(frozen=True, slots=True)
class Pack:
    """Shims put in one place: thickness and tolerance, m."""

    thickness: float = 0.0
    tolerance: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Range:
    """
    Where a sum lies in one state, m.

    `chance` is that of falling below zero, each length as it scatters, `normal_chance` the same as
    if the sum were normal.
    """

    state: State
    nominal: float
    least: float
    greatest: float
    statistical: tuple[float, float]
    widened: tuple[float, float]
    chance: float
    normal_chance: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Contributor:
    """What one distance adds to the range of a sum: tolerance and growth, m, and its shares."""

    name: str
    tolerance: float
    share_of_worst: float
    share_of_variance: float
    growth: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SignedSum:
    """
    A sum of distances with signs; of an engagement also what does not bear, and the cut of both parts.

    Parameters
    ----------
    terms : tuple of (float, Term)
        Sign and distance.
    lost : tuple of Term
        Lengths that do not bear.
    cuts : tuple of (float, float)
        Length of full teeth and its tolerance, shaft then hub; infinite where none is stated.
    """

    terms: tuple[tuple[float, Term], ...]
    lost: tuple[Term, ...] = ()
    cuts: tuple[tuple[float, float], tuple[float, float]] = ((math.inf, 0.0), (math.inf, 0.0))

    def sign_of(self, name: str) -> float:
        """Sign with which a distance enters; 0 if it does not."""
        return sum(sign for sign, term in self.terms if term.name == name)

    def middle(self, state: State, service: Service = "as stated") -> float:
        """Middle of the sum before what does not bear is taken off, m."""
        total = sum(sign * term.middle for sign, term in self.terms)
        return total + (self.growth(service) if state == "running" else 0.0)

    def growth(self, service: Service = "as stated") -> float:
        """Growth of the sum from assembly to service, m."""
        if service == "as stated":
            return sum(sign * term.growth[0] for sign, term in self.terms)
        pairs = [(sign * term.growth[1], sign * term.growth[2]) for sign, term in self.terms]
        return sum(min(pair) if service == "least" else max(pair) for pair in pairs)

    def tolerance(self, pack: Pack = Pack(), *, without: Iterable[str] = ()) -> float:
        """Worst-case tolerance, m; some distances may be left out."""
        left = set(without)
        halves = [term.half for term in self._all() if term.name not in left]
        return float(worst_case_tolerance(np.array([*halves, pack.tolerance])))

    def unlimited(self, state: State, service: Service = "as stated") -> float:
        """Least of the sum in the worst case, whatever the cut of the teeth, m."""
        return self.middle(state, service) - self._lost() - self.tolerance()

    def cut(self) -> float:
        """Shortest cut of either part at its least, m; infinite where none is stated."""
        return min(length - tolerance for length, tolerance in self.cuts)

    def least(self, state: State, service: Service = "as stated") -> float:
        """Least of the sum in the worst case, m."""
        return min(self.unlimited(state, service), self.cut())

    def range(self, state: State, pack: Pack = Pack(), sign: float = 0.0) -> Range:
        """
        Where the sum lies in one state.

        Parameters
        ----------
        state : str
            Assembled or running.
        pack : Pack, optional
            Shims that are put in.
        sign : float, optional
            Sign with which they enter.
        """
        middle = self.middle(state) + sign * pack.thickness
        worst = self.tolerance(pack if sign else Pack())
        halves = np.array([*(term.half for term in self._all()), pack.tolerance if sign else 0.0])
        squares, widened = (float(statistical_tolerance(halves, factor)) for factor in (1.0, BENDER))
        low, high = -1.0, 1.0
        return Range(
            state=state,
            nominal=self._usable(middle, 0.0),
            least=self._usable(middle - worst, low),
            greatest=self._usable(middle + worst, high),
            statistical=(self._usable(middle - squares, low), self._usable(middle + squares, high)),
            widened=(self._usable(middle - widened, low), self._usable(middle + widened, high)),
            chance=self._chance(middle, pack if sign else Pack(), exact=True),
            normal_chance=self._chance(middle, pack if sign else Pack(), exact=False),
        )

    def contributors(self) -> tuple[Contributor, ...]:
        """What widens the sum, the widest first; of equal ones that which the sum names first."""
        signed = [*self.terms, *((-1.0, term) for term in self.lost)]
        worst = sum(term.half for _, term in signed)
        variance = sum(term.deviation**2 for _, term in signed)
        found = [
            Contributor(
                name=term.name,
                tolerance=term.half,
                share_of_worst=term.half / worst if worst else 0.0,
                share_of_variance=term.deviation**2 / variance if variance else 0.0,
                growth=sign * term.growth[0],
            )
            for sign, term in signed
        ]
        return tuple(sorted(found, key=lambda one: -round(one.tolerance, ALIKE)))

    def _all(self) -> Sequence[Term]:
        return [*(term for _, term in self.terms), *self.lost]

    def _lost(self) -> float:
        return sum(term.middle for term in self.lost)

    def _usable(self, overlap: float, side: float) -> float:
        """What of an overlap carries; the cuts at their least, nominal or greatest length."""
        external, internal = (length + side * tolerance for length, tolerance in self.cuts)
        return float(usable_engagement(overlap, self._lost(), external, internal))

    def _chance(self, middle: float, pack: Pack, *, exact: bool) -> float:
        """Chance that the sum falls below zero."""
        terms = self._all()
        normal = math.hypot(
            pack.tolerance / NORMAL_DEVIATIONS, *(term.deviation for term in terms if not term.even)
        )
        even = [term.half for term in terms if term.even]
        nominal = middle - self._lost()
        if exact:
            return chance_of_sum_below(0.0, nominal, normal, even)
        return float(chance_below(0.0, nominal, deviation_of_sum(normal, even)))
