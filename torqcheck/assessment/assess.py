"""The main job: one scenario in, every check of every joint out."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from pathlib import Path

from torqcheck.assessment.bench.alignment import alignment_of, alignment_verdict
from torqcheck.assessment.bench.alignment_result import AlignmentResult
from torqcheck.assessment.bench.mate import mate_of
from torqcheck.assessment.bench.play import play_of
from torqcheck.assessment.bench.play_result import PlayResult
from torqcheck.assessment.fatigue.result import FatigueResult
from torqcheck.assessment.lifetime.fatigue_course import fatigue_now
from torqcheck.assessment.lifetime.growth import JointGrowth, NoLife, growth_of
from torqcheck.assessment.lifetime.wear import wear_result
from torqcheck.assessment.members import core_unknown
from torqcheck.assessment.prepared import Prepared, checks_at, first_state, prepared_of
from torqcheck.assessment.ranges.spread import Spread, spread_of
from torqcheck.assessment.resolved import Resolved
from torqcheck.assessment.result import (
    Assessment,
    Draws,
    JointResult,
    Link,
    MateResult,
    PathStep,
    ShockResult,
    WearResult,
)
from torqcheck.assessment.stack.judge import stack_check
from torqcheck.assessment.teeth.load_distribution import LoadDistribution
from torqcheck.assessment.torque.blow import peak_at, worst_blow
from torqcheck.assessment.torque.path import JointLoad
from torqcheck.assessment.verdict.answered import answered_for
from torqcheck.assessment.verdict.cautions import standing_cautions
from torqcheck.assessment.verdict.deciding import Wanted, deciding_of, reasons_of
from torqcheck.assessment.verdict.verdict import found_verdict, joint_verdict
from torqcheck.checks import Check, Verdict, weakest, weakest_first, worst_verdict
from torqcheck.draws import SEED
from torqcheck.scenario import Scenario, load_scenario
from torqcheck.scenario.estimates import peak_torque, running_per_year
from torqcheck.scenario.ledger import WHOLE_FILE, Ledger, Outlook

__all__ = [
    "Evaluation",
    "Finding",
    "assess",
    "assess_with_draws",
    "assess_without_ranges",
    "evaluate",
    "weakest_of",
]

HOW_CORE = (
    "a spectrometer check names the steel; the core reads on a cut end, or where the part was ground away "
    "from its teeth. Then name a steel of that core in the file"
)
NO_FATIGUE = FatigueResult(
    verdict=None,
    service_damage=None,
    members=(),
    reason="its notches are not in the file",
)


@dataclass(frozen=True, slots=True)
class Finding:
    """What was found about one joint, before anything missing is weighed."""

    resolved: Resolved
    load: JointLoad
    peak: float
    checks: tuple[Check, ...]
    doubt: str
    mate: MateResult | None
    wear: WearResult | None
    fatigue: FatigueResult

    @property
    def misaligned(self) -> bool:
        """Whether the alignment by itself decides against the joint."""
        state = self.resolved.spline
        return state is not None and alignment_verdict(state) is not None

    @property
    def verdict(self) -> Verdict:
        """Verdict on what was found, before missing readings are weighed."""
        state = self.resolved.spline
        alignment = None if state is None else alignment_verdict(state)
        found = found_verdict(self.checks, self.mate, self.wear, self.fatigue, alignment)
        return "marginal" if found == "pass" and self.doubt else found


@dataclass(frozen=True, slots=True)
class Evaluation:
    """One pass through the whole path."""

    prepared: Prepared
    findings: tuple[Finding, ...]
    shock: ShockResult

    @property
    def ledger(self) -> Ledger:
        """What was assumed, missed and warned of on the way."""
        return self.prepared.ledger


def assess(path_or_scenario: str | Path | Scenario) -> Assessment:
    """
    Check every joint of a scenario: torque, blow, stress, fatigue, mate and wear.

    Parameters
    ----------
    path_or_scenario : str, Path or Scenario
        A scenario file, or one that was loaded before.

    Returns
    -------
    Assessment
        Frozen; `Assessment.to_dict` gives the JSON.

    Raises
    ------
    ScenarioError
        If the file cannot be used; carries every fault.

    Notes
    -----
    Where readings are missing the whole path is evaluated twice: with the assumed values, and with
    each of them at the end of its band that helps the part. Only a fail that survives the second
    is called a fail.
    """
    return assess_with_draws(path_or_scenario)[0]


def assess_with_draws(path_or_scenario: str | Path | Scenario) -> tuple[Assessment, Spread]:
    """Return the assessment, and the draws behind the ranges of its safety factors."""
    scenario = path_or_scenario if isinstance(path_or_scenario, Scenario) else load_scenario(path_or_scenario)
    assessment, spread = _assessed(scenario, ranges=True)
    assert spread is not None
    return assessment, spread


def assess_without_ranges(scenario: Scenario) -> Assessment:
    """
    Return the assessment less what decides nothing, for searches.

    No ranges of the factors, no play seen from both sides, and an alignment only where it fails.
    """
    return _assessed(scenario, ranges=False)[0]


def _assessed(scenario: Scenario, *, ranges: bool) -> tuple[Assessment, Spread | None]:
    """Go through the path, weigh what was found, and put the result together."""
    stated = evaluate(scenario, "as stated")
    stack = stack_check(scenario, stated.ledger)
    missing = stated.ledger.missing
    hopeful = evaluate(scenario, "favourable") if missing else stated
    plays = [
        play_of(stated.prepared, index, stated.shock) if ranges else None
        for index in range(len(stated.findings))
    ]
    alignments = [
        alignment_of(stated.prepared, index, _largest(finding)) if ranges or finding.misaligned else None
        for index, finding in enumerate(stated.findings)
    ]
    spread = spread_of(stated.prepared, tuple(found.peak for found in stated.findings)) if ranges else None
    findings = stated.findings if spread is None else _with_intervals(stated.findings, spread)
    joints = tuple(
        _joint(finding, best.verdict, stated, play, alignment)
        for finding, best, play, alignment in zip(findings, hopeful.findings, plays, alignments, strict=True)
    )
    standing_cautions(scenario, stated.prepared.loads, stated.ledger)
    verdict = _worst((joint.verdict for joint in joints), None if stack is None else stack.verdict)
    wanted = Wanted(stated.prepared.service_life, scenario.targets.reliability)
    firm = [_failing(finding, wanted) for finding in hopeful.findings]
    deciding = deciding_of(verdict, joints, firm, missing, stack, wanted)
    assessment = Assessment(
        **answered_for(scenario),
        verdict=verdict,
        best_verdict=_worst(
            (finding.verdict for finding in hopeful.findings), None if stack is None else stack.best_verdict
        ),
        undecided_by=tuple(missing),
        weakest=weakest_of(joints),
        path=_steps(scenario, stated.findings),
        shock=stated.shock,
        joints=joints,
        assumptions=tuple(stated.ledger.assumptions),
        cautions=tuple(stated.ledger.cautions),
        service_life=stated.prepared.service_life,
        reliability=scenario.targets.reliability,
        running_per_year=running_per_year(scenario),
        seed=SEED,
        draws=Draws(0, 0, SEED) if spread is None else Draws(spread.draws, spread.blows, spread.seed),
        stack=stack,
        decided_by=deciding.by,
        besides=deciding.besides,
    )
    return assessment, spread


def _failing(finding: Finding, wanted: Wanted) -> frozenset[tuple[str, str, str]]:
    """What fails by itself."""
    found = reasons_of(finding.resolved.name, finding, None, wanted)
    tilted = {("alignment", "", "")} if finding.misaligned else set()
    return frozenset({reason.same for reason in found if reason.verdict == "fail"} | tilted)


def _worst(joints: Iterable[Verdict], stack: Verdict | None) -> Verdict:
    """Worst verdict of the joints and, where there is one, of the axial stack."""
    return worst_verdict((*joints, *(() if stack is None else (stack,))))


def evaluate(scenario: Scenario, outlook: Outlook) -> Evaluation:
    """Go once through the whole path, with one outlook on what is not known."""
    prepared = prepared_of(scenario, outlook)
    shock = worst_blow(scenario, prepared.path, prepared.loads, prepared.ledger)
    growths = growth_of(prepared)
    findings = tuple(_finding(prepared, index, shock, growth) for index, growth in enumerate(growths))
    return Evaluation(prepared, findings, shock)


def _finding(
    prepared: Prepared, index: int, shock: ShockResult, growth: JointGrowth | NoLife | None
) -> Finding:
    """Check one joint under its two design torques."""
    joint, load, ledger = prepared.joints[index], prepared.loads[index], prepared.ledger
    peak = peak_at(index, shock, prepared.path, prepared.loads)
    checks = checks_at(prepared, index, peak)
    doubt = _doubt(checks, shock.band_peak_torque / shock.peak_torque)
    state = joint.spline
    if state is None or growth is None:
        fatigue = NO_FATIGUE if joint.fatigue is None else joint.fatigue(prepared, index, shock)
        found = Finding(joint, load, peak, checks + fatigue.checks, doubt, None, None, fatigue)
    else:
        mate = mate_of(first_state(prepared, index), ledger)
        wear = wear_result(prepared, index, growth)
        fatigue = fatigue_now(prepared, index, shock)
        found = Finding(joint, load, peak, checks + fatigue.checks, doubt, mate, wear, fatigue)
    _ask_for_core(found, ledger)
    return found


def _ask_for_core(found: Finding, ledger: Ledger) -> None:
    """Ask for the core under a hard skin where its least strength fails, for it may be far stronger."""
    joint = found.resolved
    parts = {"shaft" if joint.spline is None else "external member": joint.steel}
    if joint.spline is not None:
        parts["internal member"] = joint.spline.internal.steel
    for part, steel in parts.items():
        if found.verdict == "fail" and core_unknown(steel):
            ledger.miss(joint.name, f"steel or core hardness of the {part}", HOW_CORE)


def _doubt(checks: tuple[Check, ...], rise_in_band: float) -> str:
    """Say which check drops below its target within the bands of what the blow was fed with."""
    for check in weakest_first(check for check in checks if check.counts):
        factor = check.safety_factor
        blown = check.method == "guide, simulated" or _by_blow(check)
        if blown and factor is not None and factor >= check.target > factor / rise_in_band:
            return (
                f"within the bands of the assumed damping and inertia the blow can be {rise_in_band:.2f} "
                f"times as hard, and {check.name} comes down to {factor / rise_in_band:.2f}."
            )
    return ""


def _by_blow(check: Check) -> bool:
    """Whether it is the blow that loads a joint beside the spline."""
    return check.method == "larger load" and check.torque > 0.0 and "Ka" not in check.factors


def _with_intervals(findings: tuple[Finding, ...], spread: Spread) -> tuple[Finding, ...]:
    """Write into each check what the draws say of it."""
    found = []
    for index, finding in enumerate(findings):
        checks = []
        for check in finding.checks:
            interval = spread.intervals.get((index, check.name, check.method, check.member))
            if interval is not None:
                check = replace(
                    check,
                    interval=(interval.p5, interval.p95),
                    chance_below_one=interval.chance_below_one,
                )
            checks.append(check)
        found.append(replace(finding, checks=tuple(checks)))
    return tuple(found)


def _joint(
    finding: Finding,
    favourable: Verdict,
    evaluation: Evaluation,
    play: PlayResult | None,
    alignment: AlignmentResult | None,
) -> JointResult:
    """Put the verdict of one joint together."""
    resolved, state = finding.resolved, finding.resolved.spline
    missing = evaluation.ledger.missing
    # lash anywhere in the path feeds the blow at every joint
    here = tuple(
        entry for entry in missing if entry.joint in {resolved.name, WHOLE_FILE} or entry.reading == "lash"
    )
    return JointResult(
        name=resolved.name,
        kind=resolved.kind,
        description=resolved.description,
        torque=finding.load.torque,
        regen_torque=finding.load.regen_torque,
        peak_torque=finding.peak,
        lash=state.lash_angle if state is not None else None,
        lash_limit=evaluation.prepared.lash_limit if state is not None else None,
        tilt=state.tilt.angle if state is not None else None,
        verdict=joint_verdict(
            finding.verdict, favourable, missing_here=bool(here), missing_anywhere=bool(missing)
        ),
        undecided_by=here,
        doubt=finding.doubt,
        checks=finding.checks,
        load_distribution=_distribution(finding),
        mate=finding.mate,
        wear=finding.wear,
        fatigue=finding.fatigue,
        play=play,
        alignment=alignment,
        notes=resolved.notes,
    )


def _largest(finding: Finding) -> float:
    """Largest torque at the joint, N m."""
    return float(max(finding.load.torque, finding.load.regen_torque, finding.peak))


def _distribution(finding: Finding) -> LoadDistribution | None:
    """How unevenly the teeth carry the torque of the material's checks."""
    teeth = finding.resolved.teeth
    torque = _largest(finding)
    return teeth.at(torque) if teeth is not None and torque > 0.0 else None


def weakest_of(joints: tuple[JointResult, ...]) -> Link | None:
    """Return the check with the lowest safety factor over its target; a local one only where it fails."""
    check = weakest(check for joint in joints for check in joint.checks)
    if check is None or check.safety_factor is None:
        return None
    return Link.of(check, check.safety_factor)


def _steps(scenario: Scenario, findings: tuple[Finding, ...]) -> tuple[PathStep, ...]:
    """List what turns how fast under which torque, from the motor on."""
    motor = scenario.motor
    boost = f"{motor.boost:g} x the data sheet" if motor.boost != 1.0 else ""
    steps = [PathStep("motor", peak_torque(motor), motor.max_speed.value, boost)]
    for finding in findings:
        load = finding.load
        note = f"ratio {load.ratio:.3g}, efficiency {load.efficiency:.3g}"
        if load.slip_governs:
            note += ", slip limit"
        top = load.speed(motor.max_speed.value)
        steps.append(PathStep(finding.resolved.name, load.torque, top, note))
        if load.regen_torque > load.torque * (1.0 + 1e-9):
            steps.append(
                PathStep(f"{finding.resolved.name}, braking", load.regen_torque, top, "governs here")
            )
    return tuple(steps)
