"""One joint of the path, resolved: what the rest of the assessment needs to know of any kind of joint."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from torqcheck.assessment.torque.design_load import Line
from torqcheck.assessment.torque.factors import LifeFactors
from torqcheck.checks import Check
from torqcheck.materials import Steel
from torqcheck.scenario.ledger import Ledger

if TYPE_CHECKING:
    from torqcheck.assessment.fatigue.judge import PathBlow
    from torqcheck.assessment.fatigue.result import FatigueResult
    from torqcheck.assessment.prepared import Prepared
    from torqcheck.assessment.result import ShockResult
    from torqcheck.assessment.teeth.state import SplineState
    from torqcheck.assessment.teeth.under_load import TeethUnderLoad

__all__ = ["Checker", "Fatiguer", "Requirement", "Resolved"]


@dataclass(frozen=True, slots=True)
class Requirement:
    """
    What a joint is checked against; each kind takes of it what bears on it.

    Parameters
    ----------
    lines : tuple of Line
        Its design torques.
    life : LifeFactors
        What the service life means for the guide's allowables.
    top_speed : float, rad/s
        Largest speed of the joint.
    target : float, -
        Safety factor that is wanted.
    ledger : Ledger
        Takes assumptions, cautions and what is missing.
    no_teeth : bool
        Whether to leave out what the teeth of a spline can take.
    """

    lines: tuple[Line, ...]
    life: LifeFactors
    top_speed: float
    target: float
    ledger: Ledger
    no_teeth: bool = False


Checker: TypeAlias = Callable[[Requirement], tuple[Check, ...]]
"""What a joint is checked against -> its checks."""

Fatiguer: TypeAlias = "Callable[[Prepared, int, ShockResult | PathBlow], FatigueResult]"
"""The path, index of the joint, the blow -> what fatigue does to the joint."""


@dataclass(frozen=True, slots=True)
class Resolved:
    """
    One joint ready to be checked.

    Parameters
    ----------
    key, name, kind, description : str
        Place in the file, name, kind, and what it is in one line.
    spline : SplineState or None
        Geometry and state of a splined joint.
    steel : Steel
        Of the shaft side.
    diameter : float, m
        Of the shaft at the joint; how stout what lies behind it may be.
    check : Checker
        Its checks.
    teeth : TeethUnderLoad, optional
        What was drawn of the teeth of a spline.
    stiffness : float, N m/rad, optional
        Torsional stiffness at the speed of the joint; None counts as rigid.
    stiffness_name : str
        What is so stiff.
    lash : float, rad
        Rotational play at the speed of the joint.
    fatigue : Fatiguer, optional
        Its fatigue; None where nothing is known of its notches. A spline has its own.
    notes : tuple of str
        What else the report says of it, a sentence each.
    """

    key: str
    name: str
    kind: str
    description: str
    spline: SplineState | None
    steel: Steel
    diameter: float
    check: Checker
    teeth: TeethUnderLoad | None = None
    stiffness: float | None = None
    stiffness_name: str = ""
    lash: float = 0.0
    fatigue: Fatiguer | None = None
    notes: tuple[str, ...] = ()
