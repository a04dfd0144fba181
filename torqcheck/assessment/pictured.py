"""What the figures of the printout show beyond the assessment: the worst blow, the members, the wear."""

from dataclasses import dataclass

from torqcheck.assessment.lifetime.life import life
from torqcheck.assessment.lifetime.life_result import Life
from torqcheck.assessment.prepared import Prepared, prepared_of
from torqcheck.assessment.ramp.result import TracedBlow
from torqcheck.assessment.result import Assessment
from torqcheck.assessment.stack.finding import StackFinding
from torqcheck.assessment.stack.judge import stack
from torqcheck.assessment.torque.blow import worst_arguments
from torqcheck.checks import Member
from torqcheck.scenario import Scenario

__all__ = ["MemberPlace", "Pictured", "pictured"]


@dataclass(frozen=True, slots=True, kw_only=True)
class MemberPlace:
    """One half of a splined joint beside the guide's table: HV (low end, of the flank), Pa.

    `hardened` tells a hard surface from a part that is as hard all through. `crowned` flanks are allowed
    the pressure of the second column.
    """

    joint: str
    side: Member
    steel: str
    hardness_class: str
    vickers: float
    hardened: bool
    crowned: bool
    shear: float
    flank: float


@dataclass(frozen=True, slots=True)
class Pictured:
    """What is drawn. `life` is None where no joint has a wear life, `stack` where none is stated."""

    blow: TracedBlow
    members: tuple[MemberPlace, ...]
    life: Life | None
    stack: StackFinding | None


def pictured(scenario: Scenario, assessment: Assessment) -> Pictured:
    """
    Work out what the figures of a scenario show.

    Parameters
    ----------
    scenario : Scenario
        What was assessed.
    assessment : Assessment
        Its result; says whether there is a wear life and a stack to draw.
    """
    prepared = prepared_of(scenario)
    start, arguments = worst_arguments(prepared.scenario, prepared.path, prepared.loads)
    worn = any(joint.wear is not None and joint.wear.life is not None for joint in assessment.joints)
    return Pictured(
        blow=TracedBlow(f"Torque at {prepared.path.joint_name} over time", start, arguments),
        members=_members(prepared),
        life=life(scenario, assessment=assessment) if worn else None,
        stack=None if assessment.stack is None else stack(scenario),
    )


def _members(prepared: Prepared) -> tuple[MemberPlace, ...]:
    """Both halves of every splined joint."""
    places = []
    for state in (joint.spline for joint in prepared.joints):
        if state is None:
            continue
        for member in (state.external, state.internal):
            allowed, crowned = member.allowable, state.crown_height is not None
            places.append(
                MemberPlace(
                    joint=state.name,
                    side=member.side,
                    steel=member.steel.id,
                    hardness_class=allowed.hardness_class,
                    vickers=member.vickers,
                    hardened=member.steel.surface_treatment != "none",
                    crowned=crowned,
                    shear=allowed.shear,
                    flank=allowed.flank_crowned if crowned else allowed.flank_straight,
                )
            )
    return tuple(places)
