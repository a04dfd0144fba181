"""Proportions of a splined joint that workshops keep and no stress shows: thin walls, short engagement."""

from torqcheck.assessment.kinds.hub_wall import thin_wall_words
from torqcheck.assessment.teeth.state import SplineState
from torqcheck.capacity.joining import LEAST_WALL_SHARE, wall_share
from torqcheck.materials import Steel
from torqcheck.scenario.ledger import Ledger

__all__ = ["SHORTEST_ENGAGEMENT", "warn_of_proportions"]

SHORTEST_ENGAGEMENT = 0.25
"""Of the pitch diameter; shorter teeth hold no axis in line [common practice, no source]."""
SLACK = 1e-9


def warn_of_proportions(state: SplineState, ledger: Ledger) -> None:
    """
    Say where a splined joint is slighter than what workshops make, whatever its stresses.

    Parameters
    ----------
    state : SplineState
        The joint.
    ledger : Ledger
        Takes the cautions.

    Notes
    -----
    The least share of a wall is that of sleeves, `WALL_SOURCE` in `torqcheck.capacity.joining.sleeve`; it
    holds for the ring under the teeth of a hollow shaft as well [common practice, no source].
    """
    if state.outside_diameter is not None:
        place = "of the hub over the grooves of the teeth"
        _warn_of_wall(state, "hub", place, state.outside_diameter, state.internal_major_diameter, ledger)
    if state.bore > 0.0:
        _warn_of_wall(state, "shaft", "of the shaft under the teeth", state.root_diameter, state.bore, ledger)
    share = state.engagement / state.pitch_diameter
    if share < SHORTEST_ENGAGEMENT * (1.0 - SLACK):
        ledger.warn(
            f"{state.key} engagement",
            f"{state.name}: an engagement of {1e3 * state.engagement:.3g} mm is {share:.2g} of the pitch "
            f"diameter; below {SHORTEST_ENGAGEMENT:g} the teeth hold no axis in line, and chamfers and end "
            "float take much of it (common practice, no source). Strength alone does not make it a joint.",
        )


def _warn_of_wall(
    state: SplineState, part: str, place: str, outside: float, inside: float, ledger: Ledger
) -> None:
    """One wall, and the hard layer in it."""
    steel = (state.internal if part == "hub" else state.external).steel
    if wall_share(outside, inside) < LEAST_WALL_SHARE * (1.0 - SLACK):
        ledger.warn(
            f"{state.key} wall, {part}",
            f"{state.name}: the wall {place}, {thin_wall_words(outside, inside)} (common practice, no "
            "source). It breathes under the teeth and warps in heat treatment, whatever the stresses say."
            f"{_layer(steel, 0.5 * (outside - inside))}",
        )


def _layer(steel: Steel, wall: float) -> str:
    """What is left between two hard layers, where it is less than one of them."""
    layer = steel.case_depth_min
    if layer is None or wall >= 3.0 * layer:
        return ""
    left = max(0.0, wall - 2.0 * layer)
    return f" A hard layer of {1e3 * layer:.2g} mm from both sides leaves {1e3 * left:.2g} mm of tough core."
