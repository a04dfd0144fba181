"""What the Tab key offers behind a command: words of numbers, joints of the scenario, steels."""

import os
import re
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from torqcheck.errors import TorqcheckError

if TYPE_CHECKING:
    from torqcheck.scenario import Scenario

__all__ = ["example_names", "joint_names", "number_words", "steel_names", "unknown_names"]

IN_BASH = "complete_bash"
"""The end of the variable by which that shell asks: it takes what is offered as it stands, blanks and all."""


def number_words(context: typer.Context, incomplete: str) -> list[str]:
    """Words that lead on to a number of the result, behind those that are there."""
    scenario = _scenario_of(context)
    if scenario is None:
        return []
    from torqcheck.assessment import assess
    from torqcheck.assessment.why.names import words_after

    try:
        words = words_after(assess(scenario).to_dict(), " ".join(context.params.get("name") or ()))
    except TorqcheckError:
        return []
    return [word for word in words if word.startswith(incomplete)]


def joint_names(context: typer.Context, incomplete: str) -> list[str]:
    """Names of the splined joints."""
    scenario = _scenario_of(context)
    if scenario is None:
        return []
    from torqcheck.scenario.joint_schema import SplineJoint

    names = [joint.name for joint in scenario.joint if isinstance(joint, SplineJoint)]
    return [_quoted(name) for name in names if name.startswith(incomplete)]


def steel_names(incomplete: str) -> list[str]:
    """Names of steels; of a list with commas the last one is completed."""
    from torqcheck.materials.steels import steels

    before, comma, last = incomplete.rpartition(",")
    return [f"{before}{comma}{name}" for name in steels() if name.startswith(last)]


def unknown_names(incomplete: str) -> list[str]:
    """What `size` can solve for."""
    from torqcheck.assessment.size.solve import FINDS

    return [name for name in FINDS if name.startswith(incomplete)]


def example_names(incomplete: str) -> list[str]:
    """Names of the shipped examples."""
    from torqcheck.interview.examples import example_names as names

    return [name for name in names() if name.startswith(incomplete)]


def _scenario_of(context: typer.Context) -> "Scenario | None":
    from torqcheck.scenario import load_scenario

    # an option that still waits for its value keeps the words before it from their names
    path = context.params.get("scenario") or next(iter(context.args), None)
    try:
        return None if path is None else load_scenario(Path(path).expanduser())
    except TorqcheckError:
        return None


def _quoted(name: str) -> str:
    """Write a name as the shell that asks wants it."""
    in_bash = os.environ.get("_TORQCHECK_COMPLETE", "").endswith(IN_BASH)
    return re.sub(r"([^\w@%+=:,./-])", r"\\\1", name) if in_bash else name
