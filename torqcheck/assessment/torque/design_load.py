"""The design torques of a joint, and the larger of them for the joints beside the spline."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from torqcheck.checks import Check, Member, Method, Quantity
from torqcheck.provenance import Source

__all__ = ["DesignLoad", "Line", "larger_load"]

_NO_FACTORS: Mapping[str, float] = {}


@dataclass(frozen=True, slots=True)
class Line:
    """One design torque: how it came about, its size, its application factor and its source."""

    method: Method
    torque: float
    application_factor: float
    source: Source


@dataclass(frozen=True, slots=True)
class DesignLoad:
    """
    The larger of the two design torques of a joint.

    Parameters
    ----------
    torque : float, N m
        With the application factor in it where the tabulated line is the larger one.
    factors : mapping
        The application factor, if it is in the torque.
    source : Source
        What the torque rests on.
    """

    torque: float
    factors: Mapping[str, float]
    source: Source

    def check(
        self,
        *,
        joint: str,
        name: str,
        member: Member,
        value: float,
        allowable: float,
        target: float,
        sources: tuple[Source, ...],
        quantity: Quantity = "stress",
        factors: Mapping[str, float] = _NO_FACTORS,
    ) -> Check:
        """Return a check of a value that arises under this torque; `factors` are added to its own."""
        return Check(
            joint=joint,
            name=name,
            method="larger load",
            member=member,
            value=value,
            allowable=allowable,
            target=target,
            torque=self.torque,
            factors={**self.factors, **factors},
            sources=(*sources, self.source),
            quantity=quantity,
        )


def larger_load(lines: Sequence[Line]) -> DesignLoad:
    """Return the larger of the design torques: steady times application factor, or that of the blow."""
    line = max(lines, key=lambda line: line.torque * line.application_factor)
    factor = line.application_factor
    factors = {"Ka": factor} if line.method == "guide, tabulated" else {}
    return DesignLoad(line.torque * factor, factors, line.source)
