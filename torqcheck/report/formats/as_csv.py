"""The checks of an assessment as CSV: one row each, units in the heading."""

import csv
import io
from collections.abc import Mapping, Sequence
from typing import Any

from torqcheck.assessment.result import Assessment
from torqcheck.checks import weakest_first
from torqcheck.units import in_unit

__all__ = ["as_csv", "rows_as_csv"]

COLUMNS = (
    "joint",
    "check",
    "method",
    "member",
    "value",
    "allowable",
    "unit",
    "safety_factor",
    "target",
    "verdict",
    "torque_Nm",
    "mark",
    "safety_factor_p5",
    "safety_factor_p95",
    "chance_below_1",
    "local",
    "counts",
)


def as_csv(assessment: Assessment) -> str:
    """Render the checks, the weakest link first."""
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\n")
    writer.writerow(COLUMNS)
    checks = [check for joint in assessment.joints for check in joint.checks]
    for check in weakest_first(checks):
        writer.writerow(
            (
                check.joint,
                check.name,
                check.method,
                check.member,
                f"{in_unit(check.value, check.quantity, 'si')[0]:.6g}",
                f"{in_unit(check.allowable, check.quantity, 'si')[0]:.6g}",
                in_unit(check.value, check.quantity, "si")[1],
                "" if check.safety_factor is None else f"{check.safety_factor:.6g}",
                f"{check.target:g}",
                check.verdict,
                f"{check.torque:.6g}",
                check.mark,
                *(("", "") if check.interval is None else (f"{end:.6g}" for end in check.interval)),
                "" if check.chance_below_one is None else f"{check.chance_below_one:.4g}",
                "yes" if check.local else "no",
                "yes" if check.counts else "no",
            )
        )
    return stream.getvalue()


def rows_as_csv(rows: Sequence[Mapping[str, Any]]) -> str:
    """Render plain rows that share their keys; an absent value is an empty cell."""
    stream = io.StringIO()
    writer = csv.DictWriter(stream, list(rows[0]), lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return stream.getvalue()
