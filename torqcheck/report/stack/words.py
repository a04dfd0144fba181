"""The axial stack in plain words: what touches, what comes apart, which shim mends it and what it costs."""

from collections.abc import Iterator

from torqcheck.assessment.stack.result import CollarResult, ShimResult, StackCheck, SumResult
from torqcheck.checks import Verdict
from torqcheck.report.numbers import significant
from torqcheck.report.words import VERDICT_WORDS
from torqcheck.units import System, in_unit

__all__ = [
    "chance_text",
    "length_text",
    "number_text",
    "stack_line",
    "stack_words",
    "state_names",
    "state_word",
]

SOFT = ("seal", "lip", "slinger", "boot")
"""What is touched rather than bottomed on."""
DIGITS = {"si": 2, "inch": 4}
LONG = {"si": 1000.0, "inch": 10.0}
"""From here on one digit less says as much."""
LEAST_CHANCE = 1e-6


def number_text(value: float, system: System) -> str:
    """
    A length as a bare number, to a hundredth of a millimetre or a tenth of a thousandth of an inch.

    Examples
    --------
    >>> number_text(0.03315, "si"), number_text(0.03315, "inch"), number_text(1.5, "inch")
    ('33.15', '1.3051', '59.055')
    """
    number, digits = in_unit(value, "length", system)[0], DIGITS[system]
    return f"{number:.{digits - 1 if abs(number) >= LONG[system] else digits}f}"


def length_text(value: float, systems: tuple[System, ...]) -> str:
    """A length to a hundredth of a millimetre, in one or both systems."""
    texts = []
    for system in systems:
        texts.append(f"{number_text(value, system)} {in_unit(value, 'length', system)[1]}")
    return texts[0] if len(texts) == 1 else f"{texts[0]} ({texts[1]})"


def chance_text(chance: float) -> str:
    """
    A chance in percent, with as many digits as it deserves.

    Examples
    --------
    >>> chance_text(0.0), chance_text(3.4e-4), chance_text(0.127), chance_text(1.0)
    ('< 1e-6', '0.03 %', '13 %', '100 %')
    """
    if chance < LEAST_CHANCE:
        return "< 1e-6"
    return f"{100.0 * chance:.0f} %" if chance >= 0.01 else f"{significant(100.0 * chance, 1)} %"


def state_names(check: StackCheck) -> tuple[str, str]:
    """Short names of both states, as assembled and in service."""
    return ("cold", "hot") if check.running_at >= check.assembled_at else ("warm", "cold")


def state_word(one: SumResult, check: StackCheck) -> str:
    """State in which a result is the least."""
    assembled, running = state_names(check)
    return assembled if one.worse.state == "assembled" else f"when {running}"


def stack_line(check: StackCheck, systems: tuple[System, ...]) -> str:
    """The whole stack in one line: its verdict and the result that decides."""
    worst = [sentence for verdict, sentence in _sentences(check, systems) if verdict == check.verdict]
    reason = f" {worst[0]}" if check.verdict != "pass" and worst else ""
    return f"Axial stack: {VERDICT_WORDS[check.verdict]}.{reason}"


def stack_words(check: StackCheck, systems: tuple[System, ...]) -> Iterator[str]:
    """One sentence for each result, the worst first; then the shim."""
    order: tuple[Verdict, ...] = ("fail", "undecided", "marginal", "pass")
    found = list(_sentences(check, systems))
    for verdict in order:
        yield from (sentence for own, sentence in found if own == verdict)
    if check.shim is not None:
        yield _shim(check.shim, check, systems)
    if check.missing:
        yield "Readings to take:"
        yield from (f"  {entry.reading}; {entry.how}." for entry in check.missing)


def _sentences(check: StackCheck, systems: tuple[System, ...]) -> Iterator[tuple[Verdict, str]]:
    for one in check.results:
        yield one.verdict, f"{one.name}: {_result(one, check, systems)}"
    for collar in check.collars:
        yield collar.verdict, f"{collar.name}: {_collar(collar, systems)}"


def _result(one: SumResult, check: StackCheck, systems: tuple[System, ...]) -> str:
    """What was found about one engagement or gap."""
    when = f"{state_word(one, check)} in the worst case"
    doubt = f" {one.doubt[:1].upper()}{one.doubt[1:]}: a reading is missing." if one.doubt else ""
    if one.worst <= 0.0:
        missed = length_text(-one.worst, systems)
        if one.kind == "engagement":
            return f"the teeth come apart {when}, they miss each other by {missed}.{doubt}"
        return f"{_touches(one)} by {missed} {when}.{doubt}"
    left = length_text(one.worst, systems)
    noun = "engagement" if one.kind == "engagement" else "room"
    wanted = "" if one.least is None else f", {length_text(one.least, systems)} wanted"
    if one.least is not None and one.least_assumed:
        wanted += " (assumed)"
    if one.room < -1e-12:
        short = length_text(-one.room, systems)
        return f"{left} of {noun} {when}{wanted}: {short} short.{doubt}"
    if one.kind == "engagement":
        most = length_text(one.greatest, systems)
        return f"{left} to {most} of engagement, cold and in service{wanted}.{doubt}"
    return f"at least {left} of room, {when}{wanted}.{doubt}"


def _touches(one: SumResult) -> str:
    what = one.against or "what lies behind it"
    soft = any(word in what.lower() for word in SOFT)
    return f"{'touches' if soft else 'bottoms on'} {what}"


def _collar(collar: CollarResult, systems: tuple[System, ...]) -> str:
    """Where a stop collar may sit, and how far to move it."""
    if collar.low > collar.high:
        short = length_text(collar.low - collar.high, systems)
        return f"no place will do: {collar.engagement} and {collar.gap} together are {short} short."
    low, high, here = (length_text(value, systems) for value in (collar.low, collar.high, collar.position))
    window = f"may sit from {low} to {high}, sits at {here}"
    if collar.move == 0.0:
        return f"{window}."
    way = "on" if collar.move > 0.0 else "back"
    return f"{window}: move it {way} by {length_text(abs(collar.move), systems)}."


def _shim(shim: ShimResult, check: StackCheck, systems: tuple[System, ...]) -> str:
    """Which pack mends it, and what that costs."""
    goal = length_text(shim.target, systems)
    if shim.pack is None:
        return f"No shim brings {shim.result} to {goal}: {shim.reason}."
    if not shim.pack:
        return f"No shim is needed: {shim.result} has at least {goal} as it is."
    thickness = length_text(sum(shim.pack), systems)
    pieces = " + ".join(length_text(piece, systems[:1]) for piece in shim.pack)
    before = {one.name: one for one in check.results}
    costs = [
        f"{length_text(before[one.name].assembled.nominal - one.assembled.nominal, systems)} of {_noun(one)}"
        for one in shim.after
        if before[one.name].assembled.nominal - one.assembled.nominal > 1e-9
    ]
    target = next(one for one in shim.after if one.name == shim.result)
    cost = f" and costs {', '.join(costs)}" if costs else ""
    bad = [one.name for one in shim.after if one.verdict == "fail"]
    mends = f"leaves {', '.join(bad)} as it is: not enough by itself" if bad else "mends it"
    return (
        f'{thickness} more shim in "{shim.place}" (of the stock: {pieces}) {mends}{cost}; {shim.result} '
        f"then has {length_text(target.worst, systems)} in the worst case."
    )


def _noun(one: SumResult) -> str:
    return "engagement" if one.kind == "engagement" else one.name
