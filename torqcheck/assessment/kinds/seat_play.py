"""Rotational play of a hub on its shaft: what keys and pins share."""

from torqcheck.provenance import Mark
from torqcheck.scenario.joint_schema import Lash, SteelPart
from torqcheck.scenario.kinds.key import play_at_shaft
from torqcheck.scenario.ledger import Ledger

__all__ = ["HOW_PLAY", "may_be_worn", "play_angle"]

HOW_PLAY = "lock the shaft, rock the hub with a lever, dial indicator at a known radius"


def play_angle(
    lash: Lash | None,
    key: str,
    shaft_diameter: float,
    usual: tuple[float, float],
    why: str,
    mark: Mark,
    ledger: Ledger,
) -> float:
    """
    Rotational play, rad: as measured, or the most that a new joint of this fit has.

    `usual` holds the least and the greatest play along the surface of the shaft, m.
    """
    if lash is not None:
        return 2.0 * play_at_shaft(lash, shaft_diameter)[1] / shaft_diameter
    least, most = usual
    if most == 0.0:
        return 0.0
    taken = ledger.assume(f"{key}.lash", most, "length", why, band=(least, most), favourable=least, mark=mark)
    return 2.0 * taken / shaft_diameter


def may_be_worn(*parts: SteelPart) -> bool:
    """Whether any of the parts is an old one, or may be."""
    return any(part.reused is not False for part in parts)
