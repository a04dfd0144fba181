"""What is found out about a pair: the judgement, the evidence behind it, and statements of practice."""

from dataclasses import dataclass
from typing import Literal

from torqcheck.geometry.pairs.bench_readings import PartReadings, Side
from torqcheck.geometry.pairs.lash_comparison import LashComparison
from torqcheck.geometry.pairs.mating import CentredAssembly
from torqcheck.geometry.pairs.unmasking import Unmasking
from torqcheck.geometry.pairs.worn_members import (
    WornMember,
)
from torqcheck.geometry.spline import InvoluteSpline

__all__ = [
    "COUNT",
    "COUNT_IS_NOT_ENOUGH",
    "COUNT_THE_TEETH",
    "PLAY_FELT",
    "PRACTICE",
    "RENEW_BOTH",
    "SNUG_FIT",
    "Found",
    "Judgement",
    "MateVerdict",
]

MateVerdict = Literal["true mate", "worn mate", "false fit", "not measured"]

NO_SOURCE = "[common practice, no source]"
SNUG_FIT = f"A snug fit by hand, without load, proves nothing {NO_SOURCE}."
PLAY_FELT = f"Play that can be felt or heard is a reason not to reuse {NO_SOURCE}."
COUNT_THE_TEETH = (
    "Two splines one tooth apart can differ by as little as 0.010 in (0.25 mm) of outside diameter, less "
    f"than wear can hide, so count the teeth {NO_SOURCE}."
)
COUNT_IS_NOT_ENOUGH = "Equal counts and the play alone do not show that both parts are of the stated size."
PRACTICE = (SNUG_FIT, PLAY_FELT, COUNT_THE_TEETH)
"""Statements of practice; each carries its mark in its text."""

# ASM failure analysis, "Gears and gearing", abstract of a case: a new coupling on a worn gear spline
RENEW_BOTH = "A new part on a worn one wears out fast: renew both [published]."
COUNT = "mark the first tooth with paint and count twice"


@dataclass(frozen=True, slots=True, kw_only=True)
class Judgement:
    """Verdict on a pair, with its reasons in plain sentences and the readings still to take.

    `assembly` says what it would take to put the parts together; only where the counts differ.
    `external` and `internal` are None until the counts have been found equal. `imitated` are the parts
    whose wear cannot be told from another spline with less of it.
    """

    verdict: MateVerdict
    reasons: tuple[str, ...]
    next_readings: tuple[str, ...]
    external: WornMember | None = None
    internal: WornMember | None = None
    lash: LashComparison | None = None
    unmasking: Unmasking | None = None
    assembly: CentredAssembly | None = None
    practice: tuple[str, ...] = (SNUG_FIT,)
    imitated: tuple[Side, ...] = ()


@dataclass(frozen=True, slots=True)
class Found:
    """Everything that was worked out from the readings of a pair of equal count."""

    spline: InvoluteSpline
    parts: tuple[PartReadings, PartReadings]
    members: tuple[WornMember, WornMember]
    lash: LashComparison
    unmasking: Unmasking
