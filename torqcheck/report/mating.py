"""The findings on pairs for people."""

from torqcheck.assessment.bench.mating import Mating
from torqcheck.report.build import assumption_lines, mate_note, systems_of
from torqcheck.report.sheet import Note, Sheet

__all__ = ["mating_sheet"]


def mating_sheet(mating: Mating, units: str) -> Sheet:
    """
    Arrange the findings on pairs.

    Parameters
    ----------
    mating : Mating
        The findings.
    units : str
        ``si``, ``inch`` or ``both``.
    """
    systems = systems_of(units)
    worst = mating.worst
    words = f"{worst.name} ({worst.spline}): {worst.mate.verdict.upper()}"
    parts = [mate_note(f"{pair.name}, {pair.spline}", pair.mate, systems) for pair in mating.pairs]
    assumed = assumption_lines(mating.assumptions, systems)
    if assumed:
        parts.append(Note("Assumptions", assumed))
    return Sheet(
        f"Do they mate? {mating.title}",
        (words,),
        None,
        (),
        tuple(parts),
        (
            "Counting the teeth of both parts, twice, comes before every other reading. Estimate, not a "
            "certificate: confirm the pair with a gauge or a known good part before torque goes through it.",
        ),
    )
