"""The full assessment of each point of a sweep: every check, verdicts, lives and damage."""

from typing import Any

import numpy as np

from torqcheck.assessment.assess import assess
from torqcheck.assessment.on_cores import stop_if_asked
from torqcheck.assessment.result import Assessment, JointResult
from torqcheck.assessment.sweep.design import Design, Stretch
from torqcheck.assessment.sweep.rules import refusal
from torqcheck.assessment.sweep.table import Column, Table, words_of
from torqcheck.checks import weakest
from torqcheck.errors import DomainError, NoSolutionError
from torqcheck.scenario import Scenario
from torqcheck.scenario.edits import edited

__all__ = ["FullAnswers", "full_row"]

JOINT = (
    "torque_Nm", "peak_torque_Nm", "lash_rad", "safety_factor", "life_hours_p10", "life_hours_p50",
    "service_damage", "verdict",
)  # fmt: skip
"""Columns of one joint."""
WORDS = ("verdict", "weakest", "refused")
"""Columns of texts, by the last part of their names."""


class FullAnswers:
    """`assess`, asked at each point."""

    def __init__(self, scenario: Scenario, design: Design) -> None:
        self.scenario, self.design = scenario, design
        joints = range(1, len(scenario.joint) + 1)
        self._names = (
            "verdict", *(f"joint[{number}].{name}" for number in joints for name in JOINT),
            "safety_factor_over_target", "weakest",
        )  # fmt: skip

    def table(self, stretch: Stretch) -> Table:
        """Rows of a stretch of points."""
        rows = [self._row(stretch, index) for index in range(stretch.count)]
        columns: dict[str, Column] = {
            key.title: key.column(value) for key, value in zip(self.design.keys, stretch.values, strict=True)
        }
        for name in (*self._names, "refused"):
            given = [row.get(name) for row in rows]
            if name.rpartition(".")[2] in WORDS:
                columns[name] = words_of([value or "" for value in given])
            else:
                columns[name] = np.array([np.nan if value is None else value for value in given], dtype=float)
        margin = np.array([row.get("margin", np.nan) for row in rows], dtype=np.float64)
        tally: dict[str, int] = {"refused": 0}
        for row in rows:
            word = "refused" if "refused" in row else row["verdict"]
            tally[word] = tally.get(word, 0) + 1
        return Table(columns, margin, tally)

    def _row(self, stretch: Stretch, index: int) -> dict[str, Any]:
        stop_if_asked()
        pairs = zip(self.design.keys, stretch.values, strict=True)
        changes = {key.key: key.written(float(value[index])) for key, value in pairs}
        reason = refusal(self.scenario, changes)
        if reason:
            return {"refused": reason}
        try:
            found = assess(edited(self.scenario, changes))
        except (DomainError, NoSolutionError) as error:
            return {"refused": str(error)}
        row = full_row(found)
        over = row["safety_factor_over_target"]
        return {**row, "margin": np.inf if over is None else over}


def full_row(found: Assessment) -> dict[str, Any]:
    """
    One assessment in one row.

    Returns
    -------
    dict
        By the name of the column. Lives are those of wear, in hours of running; damage is that of
        fatigue over the service life.
    """
    link = found.weakest
    row: dict[str, Any] = {"verdict": found.verdict}
    for number, joint in enumerate(found.joints, start=1):
        row |= {f"joint[{number}].{name}": value for name, value in _joint(joint).items()}
    row["safety_factor_over_target"] = None if link is None else link.safety_factor / link.target
    row["weakest"] = "" if link is None else f"{link.joint}: {link.check} ({link.method})"
    return row


def _joint(joint: JointResult) -> dict[str, Any]:
    check = weakest(joint.checks)
    life = None if joint.wear is None else joint.wear.life
    values = (
        joint.torque,
        joint.peak_torque,
        joint.lash,
        None if check is None else check.safety_factor,
        None if life is None else life[0] / 3600.0,
        None if life is None else life[1] / 3600.0,
        joint.fatigue.service_damage,
        joint.verdict,
    )
    return dict(zip(JOINT, values, strict=True))
