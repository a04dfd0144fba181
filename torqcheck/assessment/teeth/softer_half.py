"""Which half of a splined joint wears first, where one is much softer than the other."""

from torqcheck.assessment.members import steel_unknown
from torqcheck.assessment.teeth.state import SplineState
from torqcheck.scenario.joint_schema import Member
from torqcheck.scenario.ledger import Ledger
from torqcheck.wear import hardness_scale

__all__ = ["MUCH_SOFTER", "warn_of_softer_half"]

MUCH_SOFTER = 1.5
"""Rate of wear of one half over that of the other from which on it is named; assumed."""


def warn_of_softer_half(state: SplineState, ledger: Ledger) -> None:
    """
    Name the half that a harder one will file away.

    Parameters
    ----------
    state : SplineState
        The joint; a seat that cannot rock wears neither half.
    ledger : Ledger
        Takes the caution.

    Notes
    -----
    Wear in inverse proportion to hardness is that of the wear law. That the half which is easier to renew
    should be the softer one is common practice, no source.
    """
    if state.joint.seat == "fixed" or any(map(_guessed, (state.joint.external, state.joint.internal))):
        return
    rates = {member.side: float(hardness_scale(member.vickers)) for member, _ in state.halves}
    softer = state.external if rates["external"] > rates["internal"] else state.internal
    harder = state.internal if softer is state.external else state.external
    ratio = rates[softer.side] / rates[harder.side]
    if ratio < MUCH_SOFTER:
        return
    half, other = ("shaft", "hub") if softer is state.external else ("hub", "shaft")
    ledger.warn(
        f"{state.key} softer half",
        f"{state.name}: the {half} is soft beside the {other}, {softer.vickers:.0f} against "
        f"{harder.vickers:.0f} HV, wears {ratio:.2g} times as fast, and dies first. That is right only if it "
        f"is the half that is easier to renew: look at its teeth at each inspection, or make it of a harder "
        "steel (common practice, no source).",
    )


def _guessed(part: Member) -> bool:
    """Whether the hardness of a part is nothing but the lowest that there is."""
    return part.hardness is None and steel_unknown(part)
