"""Steels side by side before ordering: each choice is a whole check of the edited scenario."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from functools import partial
from pathlib import Path
from string import ascii_lowercase, ascii_uppercase
from typing import Any, Literal

from torqcheck.assessment.assess import assess, weakest_of
from torqcheck.assessment.compare.advice import advice_on
from torqcheck.assessment.compare.choices import SIDES, Pair, Question, Wanted, changes_of, question_of
from torqcheck.assessment.compare.dominance import dominated_by
from torqcheck.assessment.compare.notes import member_notes
from torqcheck.assessment.compare.pairing import pairing_of
from torqcheck.assessment.compare.result import Choice, Comparison, NotChecked, margin
from torqcheck.assessment.compare.row import Found, Unanswered, found_from, found_in
from torqcheck.assessment.each_edited import Refused, each_edited
from torqcheck.assessment.prepared import Prepared, prepared_of
from torqcheck.assessment.result import Assessment
from torqcheck.assessment.verdict.answered import answered_for
from torqcheck.errors import NoSolutionError
from torqcheck.materials import steel
from torqcheck.scenario import Scenario, load_scenario

__all__ = ["SORTS", "Sort", "compare"]

Sort = Literal["safety", "cost", "life", "hardness"]
SORTS: Mapping[Sort, Callable[[Choice], tuple[float, ...]]] = {
    "safety": lambda row: (-margin(row.found.weakest), -margin(row.found.here), _cost(row)),
    "cost": lambda row: (_cost(row), -margin(row.found.weakest), -margin(row.found.here)),
    "life": lambda row: (-_life(row), _cost(row)),
    "hardness": lambda row: (-row.vickers, _cost(row)),
}
"""What comes first: the safest, the cheapest, the longest lived, the hardest; equal ones as in the tables."""

Follow = Callable[[int, int], None]


def compare(
    path_or_scenario: str | Path | Scenario,
    wanted: Wanted | None = None,
    *,
    sort: Sort = "safety",
    pareto: bool = False,
    follow: Follow | None = None,
    workers: int | None = None,
) -> Comparison:
    """
    Set steels for the members of one splined joint side by side.

    Parameters
    ----------
    path_or_scenario : str, Path or Scenario
        A scenario file, or one that was loaded before.
    wanted : Wanted, optional
        Which joint, member and steels, and what is hidden; the new member with all steels if not given.
    sort : str, optional
        ``safety``, ``cost``, ``life`` or ``hardness``.
    pareto : bool, optional
        Choices that others dominate are hidden.
    follow : callable, optional
        Told after each check how many of how many are done.
    workers : int, optional
        Processes; as many as there are cores if not given.

    Returns
    -------
    Comparison
        Frozen.

    Raises
    ------
    ScenarioError
        If the file cannot be used; carries every fault.
    UsageError
        If what is wanted cannot be made out; says every mistake.
    NoSolutionError
        If none of the choices could be checked.

    Notes
    -----
    A choice dominates another if it is at least as good in everything that is compared, and better in
    at least one: verdict, safety factor over target of the path and of the joint, wear life (p10),
    fatigue life, relative cost, longest lead. Where only one of two states a life, a cost or a lead,
    neither dominates the other; a fatigue life beyond what is known counts as endless.
    """
    scenario = path_or_scenario if isinstance(path_or_scenario, Scenario) else load_scenario(path_or_scenario)
    wanted = wanted or Wanted()
    prepared, base = prepared_of(scenario, "as stated"), assess(scenario)
    question = question_of(scenario, prepared, wanted, _weakest_splines(base))
    edits = [changes_of(scenario, question.index, pair) for pair in question.pairs]
    answers = []
    for answer in each_edited(scenario, edits, partial(found_in, index=question.index), workers=workers):
        answers.append(answer)
        if follow is not None:
            follow(len(answers), len(edits))
    all_rows, not_checked = _choices(scenario, prepared, question, edits, answers)
    if not all_rows:
        raise NoSolutionError(f"none of the choices can be checked; the first: {not_checked[0].reason}")
    all_rows = _ranked(all_rows, sort)
    rows, hidden = _shown(all_rows, wanted, pareto)
    external, internal = _in_file(scenario, question.index)
    return Comparison(
        **answered_for(scenario),
        joint=question.joint,
        sides=question.sides,
        external=external,
        internal=internal,
        base=found_from(scenario, question.index, base),
        rows=rows,
        not_checked=not_checked,
        checked=len(all_rows),
        hidden=hidden,
        left_out=question.left_out,
        assumed=question.assumed,
        changed=_changed(scenario, question, edits[0]),
        advice=advice_on(all_rows, question.joint),
        sort=sort,
    )


def _cost(row: Choice) -> float:
    return float("inf") if row.cost_index is None else row.cost_index


def _life(row: Choice) -> float:
    """Wear life; where there is none to state it comes last."""
    return -1.0 if row.found.life is None else row.found.life[0]


def _weakest_splines(base: Assessment) -> list[int]:
    """Positions of the splined joints, the one with the weakest check first."""
    splined = [index for index, joint in enumerate(base.joints) if joint.wear is not None]
    return sorted(splined, key=lambda index: margin(weakest_of((base.joints[index],))))


def _in_file(scenario: Scenario, index: int) -> tuple[str, str]:
    """Steels of shaft and hub in the file, as the tables call them."""
    joint: Any = scenario.joint[index]
    written = [getattr(joint, side).steel.strip() for side in SIDES]
    named = [
        "unknown" if text.casefold() == "unknown" else steel(text, scenario.library).id for text in written
    ]
    return named[0], named[1]


def _choices(
    scenario: Scenario,
    prepared: Prepared,
    question: Question,
    edits: Sequence[Mapping[str, Any]],
    answers: Sequence[Found | Unanswered | Refused],
) -> tuple[list[Choice], tuple[NotChecked, ...]]:
    """Put each choice and its check together."""
    in_file = _in_file(scenario, question.index)
    rows: list[Choice] = []
    without: list[NotChecked] = []
    for pair, changes, answer in zip(question.pairs, edits, answers, strict=True):
        external, internal = (
            name if one is None else one.id for one, name in zip(pair, in_file, strict=True)
        )
        if isinstance(answer, Refused):
            without.append(NotChecked(external, internal, changes, "; ".join(map(str, answer.faults))))
        elif isinstance(answer, Unanswered):
            without.append(NotChecked(external, internal, changes, answer.reason))
        else:
            rows.append(_choice(prepared, question, pair, (external, internal), changes, answer))
    return rows, tuple(without)


def _choice(
    prepared: Prepared,
    question: Question,
    pair: Pair,
    names: tuple[str, str],
    changes: Mapping[str, Any],
    found: Found,
) -> Choice:
    state = prepared.joints[question.index].spline
    assert state is not None
    return Choice(
        external=names[0],
        internal=names[1],
        steels=pair,
        changes=changes,
        found=found,
        pairing=pairing_of(*found.vickers, external_kept=found.kept[0], internal_kept=found.kept[1]),
        notes={
            side: member_notes(one, state, side)
            for side, one in zip(SIDES, pair, strict=True)
            if one is not None
        },
    )


def _ranked(rows: Sequence[Choice], sort: Sort) -> list[Choice]:
    """Sort, and write into each row what dominates it and its letter."""
    rows = sorted(rows, key=SORTS[sort])
    over = dominated_by([row.scores for row in rows])
    ranked = []
    for row, other in zip(rows, over, strict=True):
        better = None if other is None else (rows[other].external, rows[other].internal)
        ranked.append(replace(row, dominated_by=better))
    return ranked


def _shown(rows: Sequence[Choice], wanted: Wanted, pareto: bool) -> tuple[tuple[Choice, ...], dict[str, int]]:
    """The rows that are wanted, lettered, and how many are not, by reason."""
    kept: list[Choice] = []
    hidden: dict[str, int] = {}
    capitals, smalls = iter(ascii_uppercase), iter(ascii_lowercase)
    for row in rows:
        reason = _why_hidden(row, wanted, pareto)
        if reason:
            hidden[reason] = hidden.get(reason, 0) + 1
        else:
            letters = capitals if row.dominated_by is None else smalls
            kept.append(replace(row, letter=next(letters, "")))
    return tuple(kept), hidden


def _why_hidden(row: Choice, wanted: Wanted, pareto: bool) -> str:
    weakest, min_safety, max_cost = row.found.weakest, wanted.min_safety, wanted.max_cost
    if min_safety is not None and weakest is not None and weakest.safety_factor < min_safety:
        return f"below a safety factor of {min_safety:g}"
    if max_cost is not None and _cost(row) > max_cost:
        return f"above a relative cost of {max_cost:g}"
    if pareto and row.dominated_by is not None:
        return "dominated by another choice"
    return ""


def _changed(scenario: Scenario, question: Question, changes: Mapping[str, Any]) -> str:
    """What each choice changes in the file, in words."""
    written = [key for key in changes if key.endswith(".steel")]
    removed = [key for key, value in changes.items() if value is None or key == "inspection"]
    parts = ", ".join(key.removesuffix(".steel") for key in written)
    out = f"; taken out, being those of the old part: {', '.join(removed)}" if removed else ""
    joint: Any = scenario.joint[question.index]
    welded = [side for side in question.sides if getattr(joint, side).welded_near]
    soft = (
        f" There is a weld near the {' and the '.join(welded)} member, whose teeth count as annealed: its "
        "steels differ in hardly more than cost and lead."
        if welded
        else ""
    )
    seen = (
        " What the inspections have shown of the old pair is not known of the new one, so that its wear life "
        "is less sure."
        if "inspection" in changes
        else ""
    )
    return (
        f"A choice is a new part at {parts}: its steel, and reused = false{out}. Its hardness is that of its "
        "row. All else stays as in the file, the lash that stands at the joint and a weld nearby too: "
        f"measure the lash again once the part is fitted.{seen}{soft}"
    )
