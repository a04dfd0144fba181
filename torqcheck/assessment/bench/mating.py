"""`mate`: the pairs of a scenario, or one pair from a few readings, judged without the stresses."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from torqcheck.assessment.bench.mate import mate_of, mate_result
from torqcheck.assessment.result import MateResult
from torqcheck.assessment.stack.engagement import with_stack_engagement
from torqcheck.assessment.teeth.state import spline_state
from torqcheck.errors import UsageError
from torqcheck.geometry import InvoluteSpline
from torqcheck.geometry.pairs.bench_readings import PartReadings
from torqcheck.geometry.pairs.judgement import judge
from torqcheck.geometry.pairs.lash_comparison import LashReading
from torqcheck.scenario import load_scenario
from torqcheck.scenario.joint_names import joint_name
from torqcheck.scenario.joint_schema import SplineJoint
from torqcheck.scenario.ledger import Assumption, Ledger, MissingReading
from torqcheck.scenario.marked import own_values

__all__ = ["Mating", "NamedMate", "mates_of_scenario", "pair_of_readings"]

GRAVITY = ("true mate", "worn mate", "not measured", "false fit")


@dataclass(frozen=True, slots=True)
class NamedMate:
    """The finding on one pair, with its name and what it is said to be."""

    name: str
    spline: str
    mate: MateResult


@dataclass(frozen=True, slots=True)
class Mating:
    """The findings on one or several pairs, and what was assumed for them."""

    title: str
    pairs: tuple[NamedMate, ...]
    assumptions: tuple[Assumption, ...] = ()

    @property
    def worst(self) -> NamedMate:
        """The pair with the gravest finding: a false fit before all others."""
        return max(self.pairs, key=lambda pair: GRAVITY.index(pair.mate.verdict))

    def to_dict(self) -> dict[str, Any]:
        """Return the worst pair at the top, and all of them under ``joints``."""
        worst = self.worst
        return {
            "joint": worst.name,
            "spline": worst.spline,
            **worst.mate.to_dict(),
            "joints": [
                {"name": pair.name, "spline": pair.spline, **pair.mate.to_dict()} for pair in self.pairs
            ],
        }


def mates_of_scenario(path: str | Path) -> Mating:
    """
    Judge every splined pair of a scenario.

    Raises
    ------
    ScenarioError
        If the file cannot be used.
    UsageError
        If it has no splined joint.
    """
    ledger = Ledger()
    scenario = with_stack_engagement(load_scenario(path), ledger)
    pairs, examples = [], own_values(scenario)
    for index, joint in enumerate(scenario.joint):
        if isinstance(joint, SplineJoint):
            name = joint_name(joint, index)
            state = spline_state(joint, f"joint[{index + 1}]", name, scenario.library, ledger)
            pairs.append(NamedMate(name, state.spline.designation, _of_own(mate_of(state, ledger), examples)))
    if not pairs:
        raise UsageError(f"{scenario.path.name}: has no splined joint")
    wanted = (".measured", ".lash")
    assumed = tuple(entry for entry in ledger.assumptions if entry.key.endswith(wanted))
    return Mating(scenario.record.title, tuple(pairs), assumed)


def _of_own(found: MateResult, examples: MissingReading | None) -> MateResult:
    """The finding as it is, unless it would praise a pair for the readings of an example."""
    if examples is None or found.verdict == "false fit":
        return found
    reason = f"The file is not filled in, {examples.reading}: {examples.how}."
    return replace(found, verdict="not measured", reasons=(reason, *found.reasons))


def pair_of_readings(
    spline: InvoluteSpline,
    external: PartReadings,
    internal: PartReadings,
    lash: Sequence[LashReading],
    fit_class: int | None = None,
) -> Mating:
    """Judge one pair from its readings, against new parts of a tolerance class."""
    found = mate_result(spline, judge(spline, external, internal, tuple(lash), fit_class), fit_class)
    return Mating("a pair from its readings", (NamedMate("pair", spline.designation, found),))
