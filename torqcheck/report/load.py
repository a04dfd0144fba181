"""How unevenly the teeth carry the load, in a few sentences for each splined joint."""

from torqcheck.assessment.result import Assessment, JointResult
from torqcheck.assessment.teeth.load_distribution import LoadDistribution
from torqcheck.report.numbers import both, significant
from torqcheck.report.play import as_if_mates
from torqcheck.report.sheet import Note
from torqcheck.units import System

__all__ = ["load_note"]

EVEN = 1.005


def load_note(assessment: Assessment, systems: tuple[System, ...]) -> Note | None:
    """
    Say for each splined joint which share its first tooth carries, over which length, and with which peak.

    Parameters
    ----------
    assessment : Assessment
        The result.
    systems : tuple of str
        Unit systems, the leading one first.
    """
    lines = (
        _line(joint.name, joint.load_distribution, systems, _counted(joint))
        for joint in assessment.joints
        if joint.load_distribution is not None
    )
    title = f"Load on the teeth, by the strength of the material{as_if_mates(assessment)}"
    return Note.of(title, lines)


def _counted(joint: JointResult) -> str:
    """Whose teeth they are, where the members do not have equally many."""
    false = joint.mate is not None and joint.mate.verdict == "false fit"
    return "teeth of the stated size" if false else "teeth"


def _line(name: str, load: LoadDistribution, systems: tuple[System, ...], teeth: str) -> str:
    tilt = "no tilt"
    if load.tilt > EVEN:
        tilt = f"tilt alone would raise the peak {significant(load.tilt)} times"
    centre = "on centre"
    if load.off_centre > 0.0:
        centre = f"{both(load.off_centre, 'length', systems)} off centre"
    return (
        f"{name}: under {both(load.torque, 'torque', systems)} the first of {load.teeth} {teeth} carries "
        f"{_percent(load.first[0])} of the load ({_percent(load.first[1])} in one spline of twenty): "
        f"with errors of spacing, tilt and twist together, the shaft {centre}. Twist of "
        f"shaft and hub leaves {both(load.effective_length, 'length', systems)} effective of "
        f"{both(load.length, 'length', systems)} (take-off on the {load.take_off}); {tilt}. All at once: "
        f"{significant(load.peak[0])} times the mean load per length ({significant(load.peak[1])})."
    )


def _percent(share: float) -> str:
    return f"{significant(100.0 * share, 2)} %"
