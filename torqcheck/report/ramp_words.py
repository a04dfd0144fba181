"""The answer on the ramp in plain sentences, in the language of the user's controller."""

import math
from collections.abc import Iterator

from torqcheck.assessment.ramp.controller import rounded_down, rounded_up
from torqcheck.assessment.ramp.result import Point, Ramp
from torqcheck.assessment.verdict.beside import factor_beside
from torqcheck.report.numbers import both, significant
from torqcheck.report.words import VERDICT_WORDS
from torqcheck.units import System, in_unit

__all__ = ["SHOWN", "answer", "said"]

SHOWN = 3
"""Digits of a rise in a sentence."""


def said(ramp: Ramp, rise: float, systems: tuple[System, ...]) -> str:
    """A rise in the three forms of a controller, that of the scenario first; rounded to the slower side."""
    if math.isinf(rise):
        return "the whole torque at once"
    slopes = []
    for system in systems:
        value, unit = in_unit(rise, "torque rise", system)
        slopes.append(f"{rounded_down(value, SHOWN):g} {unit}")
    forms = {
        "rise_time": [f"{_time(ramp.said(rise).rise_time)} from zero to full torque"],
        "percent_per_10ms": [
            f"{rounded_down(ramp.said(rise).percent_per_10ms, SHOWN):g} % of peak per 10 ms"
        ],
        "torque_rise": slopes,
    }
    first, *rest = forms.pop(ramp.language)
    return f"{first} ({'; '.join([*rest, *(text for form in forms.values() for text in form)])})"


def _time(time: float) -> str:
    time = rounded_up(time, SHOWN)
    return f"{time:g} s" if time >= 1.0 else f"{1e3 * time:g} ms"


def answer(ramp: Ramp, systems: tuple[System, ...]) -> tuple[str, ...]:
    """The answer in one sentence, then what belongs to it."""
    lines = [_first(ramp, systems), *_regeneration(ramp, systems), *_as_set(ramp, systems)]
    lines += [*_first_teeth(ramp, systems), *_not_mended(ramp)]
    if ramp.undecided_by:
        preliminary = ramp.verdict == "undecided"
        lines.append("Readings to take first:" if preliminary else "Besides, these readings are missing:")
        lines += [f"  {entry.joint}: {entry.reading}; {entry.how}." for entry in ramp.undecided_by]
    return *lines, f"VERDICT: {VERDICT_WORDS[ramp.verdict]}"


def _first(ramp: Ramp, systems: tuple[System, ...]) -> str:
    best, weakest = ramp.recommended, ramp.weakest
    link = f"{weakest.joint}, {weakest.check}"
    factor, target = significant(weakest.safety_factor), f"{weakest.target:.3g}"
    percent = f"{100 * ramp.percentile:.0f}"
    preliminary = "PRELIMINARY, readings are missing: " if ramp.verdict == "undecided" else ""
    if best is None:
        slowest = _time(ramp.said(ramp.slowest.rise).rise_time)
        return (
            f"{preliminary}NO RAMP HOLDS: even {slowest} from zero to full torque leaves {link}, at a safety "
            f"factor of {factor} against {target}."
        )
    if ramp.any_rise:
        return (
            f"{preliminary}ANY RAMP HOLDS, even a torque that is there at once. Fastest usual setting: "
            f"{said(ramp, best.rise, systems)}; the weakest check, {link}, then has a safety factor of "
            f"{factor} against {target}."
        )
    return (
        f"{preliminary}SET {said(ramp, best.rise, systems)}, or slower: the weakest check, {link}, then "
        f"keeps a safety factor of {factor} against {target} in {percent} of 100 draws of what is uncertain "
        f"({significant(best.factor)} with the values as stated)."
    )


def _regeneration(ramp: Ramp, systems: tuple[System, ...]) -> Iterator[str]:
    """What else to set, where the swing into regeneration has a rise of its own that fails."""
    regen = ramp.regeneration
    if regen is None or regen.holds:
        return
    factor, target = significant(regen.as_set.factor_high), f"{regen.as_set.weakest.target:.3g}"
    fails = (
        f"as set the swing from drive into regeneration leaves a safety factor of {factor} against {target}"
    )
    if regen.largest is None:
        yield f"AND SET less regen_torque: {fails}, and not even the slowest regen_rise holds."
    else:
        largest = both(regen.largest, "torque rise", systems)
        yield f"AND SET regen_rise to at most {largest}: {fails}."


def _as_set(ramp: Ramp, systems: tuple[System, ...]) -> Iterator[str]:
    """How the setting of the scenario does, and what to write instead."""
    now, best = ramp.as_set, ramp.recommended
    text = f"As set now, {said(ramp, now.rise, systems)}"
    if now.holds and now.holds_as_stated and (best is None or now.rise <= best.rise):
        yield f"{text}, it holds: safety factor {significant(now.factor_high)}. {_to_change(ramp)}"
    elif best is None:
        yield f"{text}, the safety factor is {significant(now.factor_high)}."
    elif now.holds and now.holds_as_stated:
        yield f"{text}, it holds too, but not every slower ramp does."
    else:
        doubt = _as_stated(now)
        yield (
            f"{text}, it is too steep: safety factor {significant(now.factor_high)} in "
            f"{100 * ramp.percentile:.0f} of 100 draws{doubt}. Write {_written(ramp, best.rise)} under "
            "[motor]."
        )


def _to_change(ramp: Ramp) -> str:
    """What is left to do where the rise that is set holds."""
    if ramp.regeneration is not None and not ramp.regeneration.holds:
        return "Only the regeneration has to be changed."
    if ramp.as_set_verdict in {None, "pass"}:
        return "Nothing has to be changed."
    assert ramp.as_set_verdict is not None
    return (
        "For the checks that a ramp can mend it need not be changed; `torqcheck assess` calls it "
        f"{VERDICT_WORDS[ramp.as_set_verdict]} all the same, and says by what."
    )


def _as_stated(point: Point) -> str:
    """What the values as stated give, where they alone would let it pass."""
    return f"; {significant(point.factor)} as stated, so it may do" if point.holds_as_stated else ""


def _written(ramp: Ramp, rise: float) -> str:
    """The line of the scenario file, in the form that it uses already."""
    value = ramp.said(rise)
    if ramp.language == "rise_time":
        return f'rise_time = "{1e3 * value.rise_time:.6g} ms"'
    if ramp.language == "percent_per_10ms":
        return f"percent_per_10ms = {value.percent_per_10ms:.6g}"
    return f'torque_rise = "{rise:.6g} N*m/s"'


def _first_teeth(ramp: Ramp, systems: tuple[System, ...]) -> Iterator[str]:
    """Checks of the first tooth alone, which the search leaves out and this setting does not hold."""
    for tooth in ramp.first_teeth:
        then, now = (factor_beside(factor, tooth.target) for factor in (tooth.factor, tooth.as_set))
        yield (
            f"NOT HELD BY THIS SETTING: {tooth.joint}, {tooth.check} ({tooth.method}): safety factor {then} "
            f"against {tooth.target:.3g} with the values as stated ({now} as set now)."
        )
    if not ramp.first_teeth:
        return
    left_out = (
        "The search leaves out first yield of one tooth alone, which beds in and makes a joint marginal at "
        "worst."
    )
    slower = ramp.first_teeth[0].slower
    if slower is None:
        yield f"{left_out} No slower ramp holds that check."
    else:
        yield (
            f"{left_out} With the values as stated {said(ramp, slower, systems)}, or slower, holds that "
            "check too."
        )


def _not_mended(ramp: Ramp) -> Iterator[str]:
    """What fails or is in doubt and no ramp touches, each in a sentence of its own."""
    for check in ramp.standing:
        factor = check.safety_factor
        assert factor is not None
        word = "fails" if check.verdict == "fail" else "is below its target"
        yield (
            f"NOT MENDED BY A RAMP: {check.joint}, {check.name} ({check.method}) {word}: safety factor "
            f"{significant(factor)} against {check.target:.3g}, at the steady torque."
        )
    for reason in ramp.decided_by:
        if reason.kind in {"band of the blow", "stack"}:
            yield f"BESIDES: {reason.line}."
    for words in ramp.besides:
        yield f"NOT MENDED BY A RAMP: {words}"
