"""The axial stack: what overlaps, what stays free, cold and in service; the worst case decides."""

from collections.abc import Mapping
from pathlib import Path

from torqcheck.assessment.prepared import prepared_of
from torqcheck.assessment.stack.finding import AxialForce, StackFinding
from torqcheck.assessment.stack.result import CollarResult, PartPlace, StackCheck, SumResult
from torqcheck.assessment.stack.shims import shim_result
from torqcheck.assessment.stack.sums import Pack, Service, SignedSum, State
from torqcheck.assessment.stack.terms import Terms, sum_of, terms_of
from torqcheck.assessment.verdict.answered import answered_for
from torqcheck.checks import VERDICTS, Verdict, worst_verdict
from torqcheck.errors import Fault, ScenarioError
from torqcheck.geometry import axial_holding_force
from torqcheck.scenario import Scenario, load_scenario
from torqcheck.scenario.ledger import Ledger, MissingReading
from torqcheck.scenario.marked import own_values
from torqcheck.scenario.stack_schema import Stack, StackResult

__all__ = ["LEAST_GAP", "stack", "stack_check"]

LEAST_GAP = 1.0e-3
"""m; room beyond tolerances and growth that a gap should keep where none is written: assumed."""
FRICTION, FRICTION_BAND = 0.15, "0.05 to 0.2"
STATES: tuple[State, ...] = ("assembled", "running")
WHERE = "axial stack"
_NONE = Pack()


def stack(path_or_scenario: str | Path | Scenario) -> StackFinding:
    """
    Evaluate the axial stack of a scenario.

    Parameters
    ----------
    path_or_scenario : str, Path or Scenario
        A scenario file, or one that was loaded before.

    Returns
    -------
    StackFinding
        Frozen.

    Raises
    ------
    ScenarioError
        If the file cannot be used, or has no stack.
    """
    scenario = path_or_scenario if isinstance(path_or_scenario, Scenario) else load_scenario(path_or_scenario)
    ledger = Ledger()
    check = stack_check(scenario, ledger)
    if check is None:
        mend = "add a [stack] with [[stack.distance]] and [[stack.result]]"
        raise ScenarioError([Fault(scenario.path.name, "stack", "", "is missing", mend)])
    forces = _forces(scenario, check, ledger)
    return StackFinding(
        **answered_for(scenario),
        check=check,
        forces=forces,
        assumptions=tuple(ledger.assumptions),
        cautions=tuple(ledger.cautions),
    )


def stack_check(scenario: Scenario, ledger: Ledger) -> StackCheck | None:
    """
    Check the stack of a scenario; None where it has none.

    What was assumed, and which reading could turn the verdict, is written into the ledger.
    """
    block = scenario.stack
    if block is None:
        return None
    terms = terms_of(block, ledger)
    sums = {r.name: sum_of(r, terms, index) for index, r in enumerate(block.result)}
    sought = {r.name: r for r in block.result if r.kind != "stop collar"}
    results = tuple(_result(r, sums[name], terms, ledger) for name, r in sought.items())
    collars = tuple(_collar(r, sums, sought, terms) for r in block.result if r.kind == "stop collar")
    examples = own_values(scenario)
    missing = (*_missing(results, sums, terms), *(() if examples is None else (examples,)))
    for entry in missing:
        ledger.miss(entry.joint, entry.reading, entry.how)
    found = [collar.verdict for collar in collars]
    unsure: tuple[Verdict, ...] = () if examples is None else ("undecided",)

    def with_pack(pack: Pack, place: str) -> tuple[SumResult, ...]:
        aside = Ledger()
        return tuple(
            _result(r, sums[name], terms, aside, pack, sums[name].sign_of(place))
            for name, r in sought.items()
        )

    return StackCheck(
        verdict=worst_verdict((*found, *unsure, *(one.verdict for one in results))),
        best_verdict=worst_verdict((*found, *(one.best_verdict for one in results))),
        results=results,
        collars=collars,
        shim=None if block.shim is None else shim_result(block, sums, results, with_pack),
        parts=_parts(block, terms),
        assembled_at=terms.temperatures.assembled,
        running_at=terms.temperatures.running,
        missing=missing,
    )


def _result(
    written: StackResult,
    signed: SignedSum,
    terms: Terms,
    ledger: Ledger,
    pack: Pack = _NONE,
    sign: float = 0.0,
) -> SumResult:
    """Evaluate one engagement or gap, with a pack of shims or without."""
    assert written.kind != "stop collar"
    least, assumed = _least(written, ledger)
    shift = sign * pack.thickness - (pack.tolerance if sign else 0.0)

    def judged(service: Service) -> Verdict:
        worst = min(min(signed.unlimited(state, service) + shift, signed.cut()) for state in STATES)
        return _verdict(worst, least, assumed)

    stated, worse, best = judged("as stated"), judged("least"), judged("most")
    verdict, doubt = _weighed(stated, worse, best)
    at = None if written.at is None else sum_of(written.at, terms).middle("assembled")
    assembled, running = (signed.range(state, pack, sign) for state in STATES)
    return SumResult(
        name=written.name,
        kind=written.kind,
        joint=written.joint,
        against=written.against,
        assembled=assembled,
        running=running,
        growth=signed.growth(),
        least=least,
        least_assumed=assumed,
        verdict=verdict,
        best_verdict=best if verdict == "undecided" else verdict,
        doubt=doubt,
        contributors=signed.contributors(),
        begins_at=at,
    )


def _least(written: StackResult, ledger: Ledger) -> tuple[float | None, bool]:
    """What a result must have, and whether that is assumed."""
    if written.least is not None:
        return written.least.value, False
    if written.kind == "engagement":
        return None, False
    value = ledger.assume(
        "stack.result.least",
        LEAST_GAP,
        "length",
        "room that a gap keeps beyond tolerances, end float and growth, where no least is written; less is "
        "marginal",
    )
    return value, True


def _verdict(worst: float, least: float | None, assumed: bool) -> Verdict:
    """Touching, coming apart or less than a written least fails; less than an assumed one is marginal."""
    if worst <= 0.0:
        return "fail"
    if least is None or worst >= least - 1e-12:
        return "pass"
    return "marginal" if assumed else "fail"


def _weighed(stated: Verdict, worse: Verdict, best: Verdict) -> tuple[Verdict, str]:
    """Weigh a verdict against what an unknown temperature or material could make of it."""
    order = VERDICTS.index
    if stated == "fail" and order(best) < order("fail"):
        return "undecided", f"could still be {best}"
    if stated != "fail" and order(worse) > order(stated):
        return "undecided", f"{stated} as assumed, could be {worse}"
    return stated, ""


def _missing(
    results: tuple[SumResult, ...], sums: Mapping[str, SignedSum], terms: Terms
) -> tuple[MissingReading, ...]:
    """Readings that could turn the verdict of a result."""
    names = {term.name for one in results if one.verdict == "undecided" for _, term in sums[one.name].terms}
    found = []
    hot = [name for name in terms.by_name if name in names & terms.unknown_temperature]
    if hot:
        how = "a contact thermometer on housing and shaft after an hour under load; write running_at"
        found.append(MissingReading(WHERE, f"temperature in service of {', '.join(hot)}", how))
    unknown = [name for name in terms.by_name if name in names & terms.unknown_material]
    if unknown:
        how = "a magnet and a file tell steel, cast iron and aluminium apart; write material"
        found.append(MissingReading(WHERE, f"material of {', '.join(unknown)}", how))
    return tuple(found)


def _collar(
    written: StackResult, sums: Mapping[str, SignedSum], sought: Mapping[str, StackResult], terms: Terms
) -> CollarResult:
    """
    Find where a stop collar must sit.

    Moved on by x it gives the engagement x and takes x from the gap. What the tolerances of its own
    position add is in both sums already as far as its distances stand there.
    """
    own = sums[written.name]
    engagement, gap = sums[written.engagement], sums[written.gap]
    needed = sought[written.engagement].least
    wanted = 0.0 if needed is None else needed.value
    room = sought[written.gap].least
    kept = LEAST_GAP if room is None else room.value
    position = own.middle("assembled")
    apart = min(engagement.unlimited(state) for state in STATES) - _not_in(own, engagement)
    free = min(gap.unlimited(state) for state in STATES) - _not_in(own, gap)
    low, high, touching = position + wanted - apart, position + free - kept, position + free
    if wanted > engagement.cut():
        high = touching = low - (wanted - engagement.cut())
    verdict: Verdict = "pass" if low <= position <= high else "fail"
    if verdict == "fail" and room is None and low <= position < touching:
        verdict = "marginal"
    at = None if written.at is None else sum_of(written.at, terms).middle("assembled")
    return CollarResult(
        name=written.name,
        engagement=written.engagement,
        gap=written.gap,
        position=position,
        low=low,
        high=high,
        verdict=verdict,
        begins_at=position if at is None else at,
    )


def _not_in(own: SignedSum, other: SignedSum) -> float:
    """Worst-case tolerance of the distances of one sum that do not stand in another, m."""
    return own.tolerance(without=[term.name for _, term in other.terms])


def _parts(block: Stack, terms: Terms) -> tuple[PartPlace, ...]:
    return tuple(
        PartPlace(
            name=part.name,
            begins_at=sum_of(part.from_, terms).middle("assembled"),
            ends_at=sum_of(part.to, terms).middle("assembled"),
            outside_diameter=part.outside_diameter.value,
            bore=0.0 if part.bore is None else part.bore.value,
        )
        for part in block.part
    )


def _forces(scenario: Scenario, check: StackCheck, ledger: Ledger) -> tuple[AxialForce, ...]:
    """What the bearings take while a joint under full torque holds the parts that grow."""
    engaged = {one.joint: one for one in check.results if one.kind == "engagement" and one.joint}
    if not engaged:
        return ()
    prepared = prepared_of(scenario)
    found = []
    for joint, load in zip(prepared.joints, prepared.loads, strict=True):
        if joint.name not in engaged or joint.spline is None:
            continue
        torque, diameter = max(load.torque, load.regen_torque), joint.spline.pitch_diameter
        found.append(
            AxialForce(
                joint=joint.name,
                growth=engaged[joint.name].growth,
                torque=torque,
                force=float(axial_holding_force(torque, diameter, FRICTION)),
                pitch_diameters=engaged[joint.name].worst / diameter,
            )
        )
    ledger.assume(
        "stack.friction",
        FRICTION,
        None,
        f"of the flanks, for the axial force that a spline under torque holds; {FRICTION_BAND} between oil "
        "and dry",
    )
    return tuple(found)
