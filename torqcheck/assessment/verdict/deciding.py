"""What decides a verdict, in plain words: every finding that is as bad as the verdict itself."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Protocol

from torqcheck.assessment.bench.alignment_result import AlignmentResult
from torqcheck.assessment.fatigue.result import FatigueMemberResult, FatigueResult
from torqcheck.assessment.result import JointResult, MateResult, WearResult
from torqcheck.assessment.size.rounding import plain_number
from torqcheck.assessment.stack.result import CollarResult, StackCheck, SumResult
from torqcheck.assessment.verdict.beside import factor_beside, percent_beside
from torqcheck.assessment.verdict.reason import Reason
from torqcheck.checks import Check, Verdict, weakest_first
from torqcheck.scenario.ledger import MissingReading
from torqcheck.units import in_unit

__all__ = ["Deciding", "Wanted", "deciding_of", "reasons_of"]

PART_WORDS = {"external": "shaft", "internal": "hub"}
MATE_VERDICTS: dict[str, Verdict] = {"false fit": "fail", "worn mate": "marginal"}
WATCH_IT = "no wear life is stated; look for red-brown dust and for cracks at the first inspection"
BEDS_IN = "first yield of one tooth alone, which beds in: marginal at worst"


class _Found(Protocol):
    """What was found about a joint."""

    @property
    def checks(self) -> tuple[Check, ...]: ...
    @property
    def doubt(self) -> str: ...
    @property
    def mate(self) -> MateResult | None: ...
    @property
    def wear(self) -> WearResult | None: ...
    @property
    def fatigue(self) -> FatigueResult: ...


@dataclass(frozen=True, slots=True)
class Wanted:
    """Service life, s, and the share of the wear estimates that must reach it."""

    service_life: float
    reliability: float

    @property
    def hours(self) -> str:
        """The service life in words."""
        return f"{_hours(self.service_life)} h"


@dataclass(frozen=True, slots=True)
class Deciding:
    """Findings that make the verdict what it is, the gravest first, and those that are less grave."""

    by: tuple[Reason, ...]
    besides: tuple[Reason, ...]


def deciding_of(
    verdict: Verdict,
    joints: Sequence[JointResult],
    survivors: Sequence[frozenset[tuple[str, str, str]]],
    missing: Sequence[MissingReading],
    stack: StackCheck | None,
    wanted: Wanted,
) -> Deciding:
    """
    Tell the findings that decide from the others.

    Parameters
    ----------
    verdict : str
        Of the whole path.
    joints : sequence of JointResult
        What was found, joint by joint.
    survivors : sequence of frozenset
        For each joint what fails even if every missing reading turns out well.
    missing : sequence of MissingReading
        Readings that are missing.
    stack : StackCheck, optional
        The axial stack.
    wanted : Wanted
        What the lives are held against.

    Notes
    -----
    An undecided verdict is decided by the readings that are missing, a pass by nothing. A fail on an
    assumed value decides nothing while another joint fails for certain. The axial stack comes first, for
    where the teeth come apart no steel mends what else is found. A joint that frets and passes stands
    besides, for nothing says how long, and so does a spline that carries a shaft end.
    """
    found = [(reason, True) for reason in _stack_reasons(stack)]
    found += [
        (reason, joint.verdict == verdict and (verdict != "fail" or not missing or reason.same in firm))
        for joint, firm in zip(joints, survivors, strict=True)
        for reason in reasons_of(joint.name, joint, joint.alignment, wanted)
    ]
    if verdict == "undecided":
        by = tuple(
            Reason(
                joint=entry.joint, kind="reading", verdict="undecided", text=f"{entry.reading}; {entry.how}"
            )
            for entry in missing
        )
    else:
        grave = [(reason, firm) for reason, firm in found if reason.verdict == verdict]
        by = tuple(reason for reason, firm in grave if firm) or tuple(reason for reason, _ in grave)
    besides = [reason for reason, _ in found if reason not in by]
    return Deciding(by, (*besides, *(reason for joint in joints for reason in _unheard(joint))))


def reasons_of(
    name: str, found: _Found, alignment: AlignmentResult | None, wanted: Wanted
) -> tuple[Reason, ...]:
    """Everything about one joint that is short of a pass."""
    return (
        *_mate(name, found.mate),
        *_alignment(name, alignment),
        *_checks(name, found),
        *_fatigue(name, found.fatigue, wanted),
        *_wear(name, found.wear, wanted),
        *_doubt(name, found.doubt),
    )


def _mate(name: str, mate: MateResult | None) -> Iterator[Reason]:
    if mate is not None and mate.verdict in MATE_VERDICTS:
        text = f"{mate.verdict.upper()}. {mate.reasons[0].rstrip('.')}"
        yield Reason(joint=name, kind="mate", verdict=MATE_VERDICTS[mate.verdict], text=text)


def _alignment(name: str, alignment: AlignmentResult | None) -> Iterator[Reason]:
    beyond = None if alignment is None else alignment.beyond
    if beyond is None:
        return
    kind = "length" if beyond.kind == "slip speed" else beyond.kind
    (value, unit), (limit, _) = (in_unit(part, kind, "si") for part in (beyond.value, beyond.limit))
    unit += "/s" if beyond.kind == "slip speed" else ""
    yield Reason(
        joint=name,
        kind="alignment",
        verdict="fail",
        text=f"{beyond.what}: {plain_number(value, 3)} {unit} is beyond the {plain_number(limit, 3)} {unit} "
        "that it is meant for",
    )


def _checks(name: str, found: _Found) -> Iterator[Reason]:
    """Checks short of their target; those of fatigue speak for themselves, in hours."""
    spoken_for = found.fatigue.checks if found.fatigue.verdict in {"fail", "marginal"} else ()
    for check in weakest_first(check for check in found.checks if check.counts):
        factor = check.safety_factor
        if factor is None or check.verdict == "pass" or check in spoken_for:
            continue
        text = (
            f"{check.name} ({check.method}), safety factor "
            f"{factor_beside(factor, check.target, 1.0)} against a target of {check.target:.3g}"
        )
        one_tooth = check.local and not check.decides
        yield Reason(
            joint=name,
            kind="first tooth" if one_tooth else "check",
            verdict=check.verdict,
            text=f"{text}; {BEDS_IN}" if one_tooth else text,
            check=check.name,
            method=check.method,
        )


def _fatigue(name: str, fatigue: FatigueResult, wanted: Wanted) -> Iterator[Reason]:
    governing, verdict = fatigue.governing, fatigue.verdict
    if verdict not in {"fail", "marginal"} or governing is None:
        return
    assert verdict is not None
    how = "life too short" if verdict == "fail" else "life in doubt"
    kind = "torsional fatigue" if governing.de_goodman is None else "fatigue"
    span = fatigue.life_range
    hours = (
        "" if span is None else f": {_hours(span[0])} to {_hours(span[1])} h where {wanted.hours} are wanted"
    )
    text = f"{kind}, {how}{hours}; it begins at the {_place(governing)}"
    yield Reason(joint=name, kind="fatigue", verdict=verdict, text=text)


def _place(member: FatigueMemberResult) -> str:
    return f"{PART_WORDS.get(member.side, member.side)}, {member.place}"


def _wear(name: str, wear: WearResult | None, wanted: Wanted) -> Iterator[Reason]:
    if wear is None or wear.verdict not in {"fail", "marginal"}:
        return
    assert wear.verdict is not None
    share = wear.share_reaching_service_life
    if share is None:
        text = f"{wear.reason.rstrip('.')}; {WATCH_IT}" if wear.frets else wear.reason
    else:
        bar = wanted.reliability if wear.verdict == "marginal" else min(0.5, wanted.reliability)
        text = (
            f"wear life {'too short' if wear.verdict == 'fail' else 'in doubt'}, "
            f"{percent_beside(share, bar)} % of the estimates reach {wanted.hours} "
            f"({plain_number(100.0 * wanted.reliability)} % wanted)"
        )
    yield Reason(joint=name, kind="wear", verdict=wear.verdict, text=text)


def _unheard(joint: JointResult) -> Iterator[Reason]:
    """What kills splines and no verdict counts: a shaft end without a bearing, wear beyond every law."""
    rocking = 0.0 if joint.alignment is None else joint.alignment.reading.rocking
    if rocking > 0.0:
        yield Reason(
            joint=joint.name,
            kind="alignment",
            verdict="pass",
            text="the spline itself carries the shaft end, which rocks by "
            f"{math.degrees(rocking):.2g} deg in its play: give the nose a pilot or spigot bearing",
        )
    wear = joint.wear
    if wear is not None and wear.verdict is None and wear.frets:
        yield Reason(joint=joint.name, kind="wear", verdict="pass", text=f"{wear.reason}; {WATCH_IT}")


def _doubt(name: str, doubt: str) -> Iterator[Reason]:
    if doubt:
        yield Reason(joint=name, kind="band of the blow", verdict="marginal", text=doubt.rstrip("."))


def _stack_reasons(stack: StackCheck | None) -> Iterator[Reason]:
    """Every sum and collar of the stack that is short."""
    if stack is None:
        return
    for one in stack.results:
        if one.verdict != "pass":
            yield Reason(
                joint="", kind="stack", verdict=one.verdict, text=f"axial stack, {one.name}: {_sum(one)}"
            )
    for collar in stack.collars:
        if collar.verdict != "pass":
            text = f"axial stack, {collar.name}: {_collar(collar)}"
            yield Reason(joint="", kind="stack", verdict=collar.verdict, text=text)


def _sum(one: SumResult) -> str:
    if one.worst <= 0.0:
        way = (
            "the teeth come apart"
            if one.kind == "engagement"
            else f"runs into {one.against or 'what lies behind it'}"
        )
        return f"{way} by {-one.worst * 1e3:.2f} mm in the worst case"
    if one.room < 0.0:
        return f"{-one.room * 1e3:.2f} mm short in the worst case"
    return one.doubt or f"{one.worst * 1e3:.2f} mm in the worst case"


def _collar(collar: CollarResult) -> str:
    if collar.low > collar.high:
        return f"no place will do, {(collar.low - collar.high) * 1e3:.2f} mm short"
    return f"sits {abs(collar.move) * 1e3:.2f} mm beyond where it may sit"


def _hours(seconds: float) -> str:
    return plain_number(seconds / 3600.0, 2)
