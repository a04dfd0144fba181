"""The wall that a bore leaves under a keyseat."""

from torqcheck.scenario.ledger import Ledger

__all__ = ["weigh_wall_under_keyseat"]

LEAST_WALL_OVER_DEPTH = 1.0
"""Wall over the depth of the keyseat below which no formula here holds. Mark: assumed."""


def weigh_wall_under_keyseat(
    key: str, name: str, diameter: float, bore: float, depth: float, ledger: Ledger
) -> None:
    """
    Leave a joint undecided whose bored shaft is thin under its keyseat.

    Parameters
    ----------
    key, name : str
        Place in the scenario and name of the joint.
    diameter, bore, depth : float, m
        Of the shaft, of its hole, and of the keyseat.
    ledger : Ledger
        Is told what is missing.

    Notes
    -----
    The factors of a keyseat and the ring section of a bored shaft are each for a section without the
    other: a wall of a quarter of a millimetre would pass both. A wall as thick as the keyseat is deep is
    asked for; that share is assumed.
    """
    wall = 0.5 * (diameter - bore) - depth
    if bore <= 0.0 or wall >= LEAST_WALL_OVER_DEPTH * depth * (1.0 - 1e-9):
        return
    left = f"{max(wall, 0.0) * 1e3:.2g} mm"
    ledger.miss(
        name,
        "strength of the wall under the keyseat",
        "a smaller bore or a shallower keyseat, or the section judged by somebody licensed to",
    )
    ledger.warn(
        f"{key} wall",
        f"{name}: the bore leaves {left} of wall under a keyseat {depth * 1e3:.3g} mm deep. The formulas of "
        "the keyseat do not know of the bore; they are believed only where the wall is as thick as the "
        "keyseat is deep.",
    )
