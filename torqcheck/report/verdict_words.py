"""The verdict of an assessment in sentences: what decides it, the weakest link, what else was found."""

from collections.abc import Iterator

from torqcheck.assessment.result import Assessment, Link
from torqcheck.assessment.verdict.beside import factor_beside
from torqcheck.assessment.verdict.reason import Reason
from torqcheck.assessment.verdict.whole import WholeCheck
from torqcheck.report.numbers import chance_words, significant
from torqcheck.report.stack.words import stack_line
from torqcheck.report.words import VERDICT_WORDS
from torqcheck.units import System

__all__ = ["verdict_words", "whole_words"]

MOST_LINES = 6
"""Findings that are named one by one; the tables below hold them all."""
BELOW_ITS_RANGE = (
    "The factor itself takes what nobody knows exactly at the side that does not flatter; range and chance "
    "spread it over its whole band, and so lie above."
)
ABOVE_ITS_RANGE = (
    "The factor itself rests on the values as stated; range and chance spread them over their bands, and so "
    "lie below."
)


def verdict_words(assessment: Assessment, systems: tuple[System, ...]) -> tuple[str, ...]:
    """
    Say what decides, name the weakest link, and list what is missing.

    Parameters
    ----------
    assessment : Assessment
        The result.
    systems : tuple of str
        Unit systems.
    """
    weakest, decided = assessment.weakest, assessment.decided_by
    alone = len(decided) == 1 and weakest is not None and _is(decided[0], weakest)
    words = [] if alone or assessment.verdict == "undecided" else list(_decided(decided))
    if weakest is not None:
        words.append(_weakest(assessment, weakest, decides=alone))
    besides = [
        f"Besides, {reason.line}."
        for reason in assessment.besides
        if reason.kind not in {"check", "first tooth", "stack"}
    ]
    if assessment.stack is not None:
        besides.append(f"{stack_line(assessment.stack, systems)} See torqcheck stack.")
    readings = _readings(assessment)
    if assessment.verdict == "undecided":
        return (*words, *readings, *besides)
    return (*words, *besides, *readings)


def whole_words(whole: WholeCheck) -> str:
    """
    Say in a line what the whole check says and what decides it, for an answer to a part of it.

    Parameters
    ----------
    whole : WholeCheck
        Verdict and what decides it.
    """
    said = f"THE WHOLE CHECK (`torqcheck assess`) SAYS {VERDICT_WORDS[whole.verdict]}"
    if not whole.decided_by:
        return f"{said}."
    first, *others = whole.decided_by
    return f"{said}: {first.line}{f'; and {len(others)} more' if others else ''}."


def _is(reason: Reason, weakest: Link) -> bool:
    return (reason.joint, reason.check, reason.method) == (weakest.joint, weakest.check, weakest.method)


def _decided(decided: tuple[Reason, ...]) -> Iterator[str]:
    """What makes the verdict what it is; a single finding in one line with the heading."""
    if len(decided) == 1:
        yield f"Decided by {decided[0].line}."
        return
    if decided:
        yield "Decided by:"
    yield from (f"  {reason.line}." for reason in decided[:MOST_LINES])
    if len(decided) > MOST_LINES:
        yield f"  and {len(decided) - MOST_LINES} more, in the tables below."


def _weakest(assessment: Assessment, weakest: Link, *, decides: bool) -> str:
    """The weakest link in a sentence or three."""
    factor = factor_beside(weakest.safety_factor, weakest.target, 1.0)
    words = (
        f"Weakest link: {weakest.joint}, {weakest.check} ({weakest.method}), safety factor "
        f"{factor}{_in_brackets(weakest.interval)} against a target of {weakest.target:.3g}"
        f"{'; this decides' if decides else ''}."
    )
    if weakest.chance_below_one is not None:
        words += (
            f" Chance of a factor below 1: {chance_words(weakest.chance_below_one, assessment.draws.blows)}."
        )
    return f"{words}{_outside(weakest)}"


def _outside(weakest: Link) -> str:
    """Why the factor lies outside its own range, if it does; rounding apart."""
    interval, factor = weakest.interval, significant(weakest.safety_factor)
    if interval is None or factor in {significant(end) for end in interval}:
        return ""
    if weakest.safety_factor < interval[0]:
        return f" {BELOW_ITS_RANGE}"
    return f" {ABOVE_ITS_RANGE}" if weakest.safety_factor > interval[1] else ""


def _in_brackets(interval: tuple[float, float] | None) -> str:
    """Range behind a factor, " (1.31 to 1.70)"; nothing where it is no wider than the rounding."""
    if interval is None:
        return ""
    low, high = (significant(end) for end in interval)
    return "" if low == high else f" ({low} to {high})"


def _readings(assessment: Assessment) -> Iterator[str]:
    """What the missing readings could still turn, and which they are."""
    if assessment.verdict == "undecided" and any(
        check.verdict == "fail" for joint in assessment.joints for check in joint.checks
    ):
        yield "What fails here fails on an assumed value; a reading can still turn it."
    if assessment.verdict == "undecided" and assessment.best_verdict != "pass":
        best = VERDICT_WORDS[assessment.best_verdict]
        yield f"Even if every missing reading turns out well, the result is {best}."
    if assessment.undecided_by:
        undecided = assessment.verdict == "undecided"
        yield "Decided by readings to take:" if undecided else "Besides, these readings are missing:"
        yield from (f"  {entry.joint}: {entry.reading}; {entry.how}." for entry in assessment.undecided_by)
