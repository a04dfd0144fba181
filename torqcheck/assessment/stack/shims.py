"""Which shims of the stock bring a result of the stack to its target, and what that costs elsewhere."""

import math
from collections.abc import Callable, Mapping, Sequence

from torqcheck.assessment.stack.result import ShimResult, SumResult
from torqcheck.assessment.stack.sums import Pack, SignedSum, State
from torqcheck.assessment.stack.terms import tolerance_of
from torqcheck.geometry import fewest_shims
from torqcheck.scenario.quantity import needed
from torqcheck.scenario.stack_schema import Stack

__all__ = ["shim_result"]

STATES: tuple[State, ...] = ("assembled", "running")
TOUCHING = 1e-6
"""m; a result that must only stay above zero keeps this much."""


def shim_result(
    block: Stack,
    sums: Mapping[str, SignedSum],
    results: Sequence[SumResult],
    with_pack: Callable[[Pack, str], tuple[SumResult, ...]],
) -> ShimResult:
    """
    Search the pack of fewest pieces that brings the named result to its target, cold and in service.

    Parameters
    ----------
    block : Stack
        The stack as written; it names a shim.
    sums : mapping
        Every sum by the name of its result.
    results : sequence of SumResult
        Every engagement and gap as it is.
    with_pack : callable
        Evaluates them again with a pack at a distance.
    """
    shim = needed(block.shim)
    place, name = shim.in_, shim.result
    (target,) = (one for one in results if one.name == name)
    goal = shim.target.value if shim.target is not None else (target.least or TOUCHING)
    stock = sorted({reading.value: reading for reading in shim.stock or block.shims}.items())
    thicknesses = [value for value, _ in stock]
    tolerances = [tolerance_of(reading, ("stack", "shims")) for _, reading in stock]
    slack = _least(sums[name]) - goal
    wanted = 0.0 if slack >= -1e-12 else -slack
    least, most, reason = _limits(place, name, goal, sums, results, thicknesses)
    found = None if reason else fewest_shims(thicknesses, tolerances, least, most, pieces=shim.pieces)
    if found is None:
        reason = reason or _no_pack(least, most, shim.pieces)
        return ShimResult(
            place=place, result=name, target=goal, pack=None, wanted=wanted, reason=reason, after=()
        )
    pack = tuple(thicknesses[index] for index in found)
    put_in = Pack(sum(pack), sum(tolerances[index] for index in found))
    after = with_pack(put_in, place) if pack else ()
    return ShimResult(place=place, result=name, target=goal, pack=pack, wanted=wanted, reason="", after=after)


def _least(signed: SignedSum) -> float:
    return min(signed.unlimited(state) for state in STATES)


def _limits(
    place: str,
    name: str,
    goal: float,
    sums: Mapping[str, SignedSum],
    results: Sequence[SumResult],
    thicknesses: Sequence[float],
) -> tuple[float, float, str]:
    """Least and most that the pack may be, m; a reason where none can do it."""
    sign, slack = sums[name].sign_of(place), _least(sums[name]) - goal
    if goal > sums[name].cut() + 1e-12:
        return 0.0, 0.0, f"the teeth are cut over {1e3 * sums[name].cut():.2f} mm only"
    least, most = 0.0, math.inf
    if sign > 0.0:
        least = max(0.0, -slack)
    elif slack < 0.0:
        return 0.0, 0.0, f"a pack at {place} makes {name} smaller, and it is too small already"
    else:
        # shims take up what is too much: to within the thinnest of the target
        least, most = max(0.0, slack - min(thicknesses)), slack
    for other in results:
        if other.name == name or sums[other.name].sign_of(place) >= 0.0:
            continue
        kept = TOUCHING if other.least is None or other.least_assumed else max(other.least, TOUCHING)
        most = min(most, _least(sums[other.name]) - kept)
    if most < least:
        return least, most, _between(least, most, results, sums, place)
    return least, most, ""


def _between(
    least: float, most: float, results: Sequence[SumResult], sums: Mapping[str, SignedSum], place: str
) -> str:
    """Say that what one result needs, another cannot give."""
    hurt = [one.name for one in results if sums[one.name].sign_of(place) < 0.0]
    return (
        f"it takes {1e3 * least:.2f} mm, but {', '.join(hurt)} {'allow' if len(hurt) > 1 else 'allows'} only "
        f"{max(0.0, 1e3 * most):.2f} mm"
    )


def _no_pack(least: float, most: float, pieces: int) -> str:
    upto = "" if math.isinf(most) else f" and at most {1e3 * most:.2f} mm"
    return f"no pack of up to {pieces} shims of the stock is at least {1e3 * least:.2f} mm{upto}"
