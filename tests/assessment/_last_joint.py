"""The joint that a test puts behind the base."""

from torqcheck.assessment import Assessment
from torqcheck.assessment.result import JointResult
from torqcheck.checks import Check


def joint_of(assessment: Assessment) -> JointResult:
    return assessment.joints[-1]


def check_of(assessment: Assessment, name: str) -> Check:
    (found,) = (check for check in joint_of(assessment).checks if check.name == name)
    return found


def factor_of(assessment: Assessment, name: str) -> float:
    factor = check_of(assessment, name).safety_factor
    assert factor is not None
    return factor
