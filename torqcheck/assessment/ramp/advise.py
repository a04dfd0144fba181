"""Which torque rise to set in the controller so that this path, with this play, survives."""

import math
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from torqcheck.assessment.assess import assess_without_ranges
from torqcheck.assessment.bench.alignment import alignment_verdict
from torqcheck.assessment.bench.mate import mate_of
from torqcheck.assessment.fatigue.result import FatigueResult
from torqcheck.assessment.lifetime.growth import growth_of
from torqcheck.assessment.lifetime.wear import wear_result
from torqcheck.assessment.prepared import checks_at, first_state
from torqcheck.assessment.ramp.band import DRAWS, SEED
from torqcheck.assessment.ramp.cases import Cases, TwoStage
from torqcheck.assessment.ramp.cautions import ramp_cautions
from torqcheck.assessment.ramp.controller import Language, language_of, settable
from torqcheck.assessment.ramp.fatigue import fatigue_at_rise
from torqcheck.assessment.ramp.first_tooth import first_teeth_short
from torqcheck.assessment.ramp.limits import joint_peaks
from torqcheck.assessment.ramp.mend import mends_of
from torqcheck.assessment.ramp.question import PERCENTILE, Question, question_of
from torqcheck.assessment.ramp.result import Point, Ramp, RegenRamp, TracedBlow, TwoStageSetting, Window
from torqcheck.assessment.ramp.search import find_fastest, find_fastest_percentile, find_windows
from torqcheck.assessment.ramp.two_stage import Search, find_two_stage
from torqcheck.assessment.resolved import Resolved
from torqcheck.assessment.result import Assessment
from torqcheck.assessment.verdict.answered import answered_for
from torqcheck.assessment.verdict.verdict import found_verdict, joint_verdict
from torqcheck.checks import Check, Verdict, weakest_first, worst_verdict
from torqcheck.scenario import Scenario, load_scenario
from torqcheck.scenario.edits import edited
from torqcheck.scenario.estimates import regen_rise, regen_torque, torque_rise
from torqcheck.scenario.ledger import Ledger

__all__ = ["ramp"]

FASTEST_RISE_TIME = 0.010
"""Seconds from zero to full torque: all of it in 10 ms is the most that controllers are set to."""
WAYS_TO_WRITE_A_RISE = ("motor.torque_rise", "motor.rise_time", "motor.percent_per_10ms")
CURVE_POINTS, LOBE_POINTS = 20, 160
CURVE_BELOW, CURVE_ABOVE = 8.0, 3.0
STEP_DOWN, MOST_STEPS, SLACK = 0.985, 12, 1e-9


@dataclass(frozen=True, slots=True)
class _Answer:
    """What one search allows, N m/s; None where not even the slowest rise holds."""

    limit_as_stated: float | None
    limit: float | None
    recommended: float | None
    any_rise: bool
    proven: bool


@dataclass(frozen=True, slots=True)
class _Besides:
    """What the search does not look at: fatigue, mate, wear, checks without the blow. Verdict and words."""

    verdict: Verdict
    words: tuple[str, ...]


def ramp(path_or_scenario: str | Path | Scenario) -> Ramp:
    """
    Find the largest torque rise at the motor shaft that keeps the targets, and what else to set.

    Parameters
    ----------
    path_or_scenario : str, Path or Scenario
        A scenario file, or one that was loaded before.

    Returns
    -------
    Ramp
        Frozen.

    Raises
    ------
    ScenarioError
        If the file cannot be used; carries every fault.

    Notes
    -----
    At the rise recommended and at every slower one all checks that feel the blow keep their target,
    with the values as stated and in 95 of 100 draws of what is uncertain. Faster rises that hold by
    their phase alone are named and not recommended.
    """
    scenario = path_or_scenario if isinstance(path_or_scenario, Scenario) else load_scenario(path_or_scenario)
    question = question_of(scenario)
    answer = _answer(question, question.cases, language_of(scenario.motor))
    slowest, as_set, *best = question.points(question.cases, _marked(question, answer))
    failing = () if best else _failing(question)
    besides = _besides(question, best[0] if best else slowest)
    two_stage, reason = _two_stage(question, answer)
    regeneration = _regeneration(question)
    then = _assessed(scenario, answer, regeneration)
    verdict = _verdict(scenario, question, answer, regeneration, besides) if then is None else then.verdict
    rise = question.slowest if answer.recommended is None else answer.recommended
    ledger, limits = question.prepared.ledger, question.limits
    ramp_cautions(scenario, ledger)
    curve = (*question.points(question.cases, _curve(question, answer)), as_set, *best)
    return Ramp(
        **answered_for(scenario),
        verdict=verdict,
        language=language_of(scenario.motor),
        motor_torque=question.motor_torque,
        joint=question.prepared.path.joint_name,
        allowed=(limits.drive, limits.brake),
        steady=question.steady,
        recommended=best[0] if best else None,
        any_rise=answer.any_rise,
        limit=answer.limit,
        limit_as_stated=answer.limit_as_stated,
        as_set=as_set,
        slowest=slowest,
        proven=answer.proven,
        curve=tuple(sorted(curve, key=lambda point: point.rise)),
        lobes=_lobes(question, curve),
        windows=_windows(question, answer),
        two_stage=two_stage,
        two_stage_reason=reason,
        regeneration=regeneration,
        standing=limits.standing,
        besides=besides.words,
        first_teeth=first_teeth_short(question, rise, as_set.rise) if then is not None else (),
        decided_by=() if then is None else then.decided_by,
        as_set_verdict=_verdict_as_set(scenario, answer, as_set, regeneration),
        failing=failing,
        mends=mends_of(question, failing) if failing else (),
        traced=_traced(question, answer, two_stage),
        undecided_by=tuple(ledger.missing),
        assumptions=tuple(ledger.assumptions),
        cautions=tuple(ledger.cautions),
        draws=DRAWS,
        seed=SEED,
        percentile=PERCENTILE,
    )


def _answer(question: Question, cases: Cases, language: Language) -> _Answer:
    """Search with the values as stated, then with the draws, and round to what can be set."""
    slowest, fastest = question.slowest, question.motor_torque / FASTEST_RISE_TIME
    if not question.holds_at(cases, slowest):
        return _Answer(None, None, None, False, False)
    stated = find_fastest(cases, slowest)
    if stated.rise is None:
        return _Answer(None, None, None, False, stated.proven)
    upper = min(stated.rise, fastest)
    drawn = find_fastest_percentile(cases, question.sample, PERCENTILE, slowest, upper)
    proven = stated.proven and drawn.proven
    if drawn.rise is None:
        return _Answer(stated.rise, None, None, False, proven)
    rise, best = drawn.rise, None
    for _ in range(MOST_STEPS):
        rise = settable(rise, question.motor_torque, language)
        if rise < slowest * (1.0 - SLACK):
            break
        if question.holds_at(cases, rise):
            best = rise
            break
        rise *= STEP_DOWN
    every = stated.any_rise and drawn.rise >= fastest and question.holds_at(cases, math.inf)
    return _Answer(stated.rise, drawn.rise, best, every, proven)


def _marked(question: Question, answer: _Answer) -> list[float]:
    """Rises that the report names: the slowest, that of the scenario, the one recommended."""
    marked = [question.slowest, torque_rise(question.prepared.scenario.motor)]
    return marked if answer.recommended is None else [*marked, answer.recommended]


def _curve(question: Question, answer: _Answer) -> list[float]:
    """Rises around everything that the report names."""
    named = [*_marked(question, answer)[1:], answer.limit_as_stated, answer.limit]
    finite = [rise for rise in named if rise is not None and math.isfinite(rise)]
    finite = finite or [question.motor_torque / FASTEST_RISE_TIME]
    low = max(question.slowest, min(finite) / CURVE_BELOW) if answer.recommended else question.slowest
    return list(np.geomspace(low, CURVE_ABOVE * max(finite), CURVE_POINTS).tolist())


def _lobes(question: Question, curve: tuple[Point, ...]) -> tuple[tuple[float, float], ...]:
    """Peak torque as stated in small steps of the rise: with its lobes."""
    finite = [point.rise for point in curve if math.isfinite(point.rise)]
    rises = np.geomspace(min(finite), max(finite), LOBE_POINTS)
    drive, brake = question.cases.directions(question.cases.nominal, rises)
    return tuple(zip(rises.tolist(), np.maximum(drive, brake)[:, 0].tolist(), strict=True))


def _traced(question: Question, answer: _Answer, two_stage: TwoStageSetting | None) -> tuple[TracedBlow, ...]:
    """The worst blows at the settings of the report."""
    best, cases = answer.recommended, question.cases
    rise = question.slowest if best is None else best
    traced = [TracedBlow("the slowest ramp" if best is None else "as recommended", *cases.worst(rise))]
    if two_stage is not None:
        stage = TwoStage(two_stage.closing_torque, np.array([two_stage.closing_time]))
        traced.append(TracedBlow("in two stages", *cases.worst(two_stage.rise, stage)))
    motor = question.prepared.scenario.motor
    traced.append(TracedBlow("as set now", *cases.worst(torque_rise(motor))))
    return tuple(traced)


def _failing(question: Question) -> tuple[Check, ...]:
    """Checks below their target at the slowest ramp, at the percentile of the draws; the weakest first."""
    drive, brake = question.cases.directions(question.sample, np.array([question.slowest]))
    checks = question.checks(float(np.quantile(drive, PERCENTILE)), float(np.quantile(brake, PERCENTILE)))
    ordered = weakest_first(checks)
    return tuple(check for check in ordered if check.margin < 1.0) or tuple(ordered[:1])


def _two_stage(question: Question, answer: _Answer) -> tuple[TwoStageSetting | None, str]:
    """A setting in two stages, if it brings anything."""
    if answer.recommended is None:
        return None, "even the slowest ramp fails"
    scenario, peak = question.prepared.scenario, question.motor_torque
    fastest = peak / FASTEST_RISE_TIME
    search = Search(
        cases=question.cases,
        path=question.prepared.path,
        sample=question.sample,
        share=PERCENTILE,
        peak_torque=peak,
        language=language_of(scenario.motor),
    )
    better, reason = find_two_stage(search, answer.recommended, fastest)
    if better is None:
        return None, reason
    return TwoStageSetting(
        better.closing_torque,
        better.closing_time,
        better.rise,
        better.time_to_peak(peak),
        peak / answer.recommended,
    ), ""


def _regeneration(question: Question) -> RegenRamp | None:
    """The swing into regeneration, where the scenario gives it a rise of its own."""
    if question.regen is None:
        return None
    motor, prepared = question.prepared.scenario.motor, question.prepared
    answer = _answer(question, question.regen, "torque_rise")
    as_set = question.points(question.regen, [regen_rise(motor)])[0]
    torque = regen_torque(motor, prepared.spells, Ledger())
    return RegenRamp(as_set=as_set, largest=answer.recommended, regen_torque=torque)


def _besides(question: Question, point: Point) -> _Besides:
    """Judge what the search does not look at; this also asks for the readings that are missing."""
    prepared, verdicts, words = question.prepared, [check.verdict for check in question.limits.standing], []
    fatigues, growths = fatigue_at_rise(question, point.rise), growth_of(prepared, rise=point.rise)
    for index, (joint, growth) in enumerate(zip(prepared.joints, growths, strict=True)):
        checks_at(prepared, index, joint_peaks(prepared, point.peak, 0.0)[index])
        fatigue = fatigues[index]
        if joint.spline is None or growth is None:
            verdicts.append(found_verdict((), None, None, fatigue))
            words += _fatigue_words(joint, fatigue)
            continue
        mate = mate_of(first_state(prepared, index), prepared.ledger)
        wear = wear_result(prepared, index, growth)
        alignment = alignment_verdict(joint.spline)
        verdicts.append(found_verdict((), mate, wear, fatigue, alignment))
        if alignment == "fail":
            words.append(f"{joint.name}: tilted beyond what its teeth are meant for.")
        if mate.verdict in {"false fit", "worn mate"}:
            words.append(f"{joint.name}: {mate.verdict.upper()}. {mate.reasons[0]}")
        if wear.verdict in {"fail", "marginal"}:
            words.append(f"{joint.name}: wear life {'too short' if wear.verdict == 'fail' else 'in doubt'}.")
        words += _fatigue_words(joint, fatigue)
    return _Besides(worst_verdict(tuple(verdicts)), tuple(words))


def _fatigue_words(joint: Resolved, fatigue: FatigueResult | None) -> list[str]:
    """Say where fatigue is not content even so."""
    if fatigue is None or fatigue.verdict not in {"fail", "marginal"}:
        return []
    doubt = "too short" if fatigue.verdict == "fail" else "in doubt"
    life = "fatigue life" if joint.spline is None else "torsional fatigue life"
    return [f"{joint.name}: {life} {doubt} even so."]


def _assessed(scenario: Scenario, answer: _Answer, regeneration: RegenRamp | None) -> Assessment | None:
    """Ask `assess` what it says of the setting recommended; None where there is no whole one."""
    if answer.recommended is None:
        return None
    changes: dict[str, str | None] = dict.fromkeys(WAYS_TO_WRITE_A_RISE)
    changes["motor.torque_rise"] = f"{answer.recommended!r} N*m/s"
    if regeneration is not None and not regeneration.holds:
        if regeneration.largest is None:
            return None
        changes["motor.regen_rise"] = f"{regeneration.largest!r} N*m/s"
    return assess_without_ranges(edited(scenario, changes))


def _verdict_as_set(
    scenario: Scenario, answer: _Answer, as_set: Point, regeneration: RegenRamp | None
) -> Verdict | None:
    """What `assess` says as set now, where the setting would be left as it is."""
    slow_enough = answer.recommended is not None and as_set.rise <= answer.recommended
    calm = regeneration is None or regeneration.holds
    if not (slow_enough and calm and as_set.holds and as_set.holds_as_stated):
        return None
    return assess_without_ranges(scenario).verdict


def _verdict(
    scenario: Scenario,
    question: Question,
    answer: _Answer,
    regeneration: RegenRamp | None,
    besides: _Besides,
) -> Verdict:
    """Weigh what was found against what is missing, as `assess` does."""
    found = answer.recommended is not None and (regeneration is None or regeneration.largest is not None)
    own: Verdict = "pass" if found else "fail"
    together = worst_verdict((own, besides.verdict))
    missing = bool(question.prepared.ledger.missing)
    if not missing:
        return together
    hopeful = question_of(scenario, "favourable")
    held = all(
        hopeful.holds_at(cases, hopeful.slowest)
        for cases in (hopeful.cases, hopeful.regen)
        if cases is not None
    )
    slowest = hopeful.points(hopeful.cases, [hopeful.slowest])[0]
    best = worst_verdict(("pass" if held else "fail", _besides(hopeful, slowest).verdict))
    return joint_verdict(together, best, missing_here=True, missing_anywhere=True)


def _windows(question: Question, answer: _Answer) -> tuple[Window, ...]:
    """Faster rises at which the values as stated hold by their phase."""
    stated = answer.limit_as_stated
    if stated is None or math.isinf(stated):
        return ()
    return find_windows(question.cases, stated, 4.0 * question.motor_torque / FASTEST_RISE_TIME)
