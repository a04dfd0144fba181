"""Which half of a pair is the softer one, and whether that is the half that is easier to replace."""

from dataclasses import dataclass
from typing import Literal

from torqcheck.assessment.members import HARDNESS_APART
from torqcheck.provenance import Source

__all__ = ["PAIRING", "Pairing", "PairingWord", "pairing_of"]

PairingWord = Literal["equal hardness", "hub softer", "shaft softer"]
PAIRING = Source(
    "Workshop rule on the hardness of a pair",
    "within 15 percent counts as equal",
    "common practice, no source",
)


@dataclass(frozen=True, slots=True)
class Pairing:
    """How the hardness of a pair is shared out, whether that keeps the rule, and why in a sentence."""

    word: PairingWord
    holds: bool
    why: str


def pairing_of(external: float, internal: float, *, external_kept: bool, internal_kept: bool) -> Pairing:
    """
    Hold a pair to the rule of the workshop: equal hardness, or the part that is easier replaced softer.

    Parameters
    ----------
    external, internal : float
        Vickers hardness of the flanks of shaft and hub.
    external_kept, internal_kept : bool
        Whether it is an old part that stays.

    Returns
    -------
    Pairing
        Word, verdict and reason.

    Notes
    -----
    The hub is the part that is easier replaced, unless the hub is old and stays while the shaft is new.
    Within a ratio of 1.15 the two are taken as equally hard.

    References
    ----------
    .. [1] Workshop rule. Mark: common practice, no source. The ratio. Mark: assumed.

    Examples
    --------
    >>> pairing_of(697.0, 302.0, external_kept=True, internal_kept=False).word
    'hub softer'
    """
    easier = "shaft" if internal_kept and not external_kept else "hub"
    if max(external, internal) <= HARDNESS_APART * min(external, internal):
        return Pairing("equal hardness", True, "both are about equally hard, and wear alike")
    softer = "shaft" if external < internal else "hub"
    word: PairingWord = "shaft softer" if softer == "shaft" else "hub softer"
    if softer == easier:
        return Pairing(word, True, f"the {softer} wears first, and it is the part that is easier to replace")
    return Pairing(
        word, False, f"the {softer} wears first, though the {easier} is the part that is easier to replace"
    )
