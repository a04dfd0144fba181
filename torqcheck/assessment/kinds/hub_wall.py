"""The wall that a hub keeps over a keyway or a pin in its bore."""

from torqcheck.capacity.joining import LEAST_WALL_SHARE, LEAST_WALL_SHARE_TOUCHED, wall_share
from torqcheck.scenario.ledger import Ledger

__all__ = ["thin_wall_words", "warn_of_thin_hub"]


def thin_wall_words(outside: float, inside: float, word: str = "thin") -> str:
    """
    Say how thick a wall is, and what workshops keep.

    Parameters
    ----------
    outside, inside : float, m
        Its two diameters.
    word : str, optional
        What it is called.
    """
    share = float(wall_share(outside, inside))
    return (
        f"{0.5e3 * (outside - inside):.1f} mm, is {word}: {share:.2f} of the diameter inside it, where "
        f"workshops keep {LEAST_WALL_SHARE:g} to {LEAST_WALL_SHARE_TOUCHED:g} or more"
    )


def warn_of_thin_hub(
    key: str, name: str, feature: str, outside: float, inside: float, ledger: Ledger
) -> None:
    """
    Say where the wall of a hub is thin for what lies inside it; no check of stress sees it.

    Parameters
    ----------
    key, name : str
        Place in the scenario and name of the joint.
    feature : str
        What the wall is over, for the caution.
    outside, inside : float, m
        Diameter of the hub, and over the deepest place of the feature.
    ledger : Ledger
        Takes the caution.

    Notes
    -----
    The least share is that of the walls of sleeves, `WALL_SOURCE` in `torqcheck.capacity.joining.sleeve`:
    hub proportions of the workshop [common practice, no source].
    """
    share = float(wall_share(outside, inside))
    if share >= LEAST_WALL_SHARE * (1.0 - 1e-9):
        return
    ledger.warn(
        f"{key} wall",
        f"{name}: the wall of the hub over the {feature}, {thin_wall_words(outside, inside)}. It opens under "
        "the load, and no check here sees it.",
    )
