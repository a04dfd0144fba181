"""Which shims of the stock make up a wanted thickness, in the fewest pieces."""

import math
from collections.abc import Sequence

from torqcheck.domain import require_not_negative, require_positive
from torqcheck.errors import DomainError

__all__ = ["MOST_PIECES", "fewest_shims"]

MOST_PIECES = 4
"""A thicker pack is springy and hard to hold: common practice, no source."""
_GRAIN = 1e-9
"""m; thicknesses that differ by less are the same."""


def fewest_shims(
    stock: Sequence[float],
    tolerances: Sequence[float],
    least: float,
    most: float = math.inf,
    *,
    pieces: int = MOST_PIECES,
) -> tuple[int, ...] | None:
    """
    Shims of the stock whose pack lies within two limits whatever their tolerances, in the fewest pieces.

    Parameters
    ----------
    stock : sequence of float, m
        Thicknesses at hand, as many of each as needed.
    tolerances : sequence of float, m
        Of each thickness, one side.
    least, most : float, m
        Limits of the pack.
    pieces : int, optional
        Most that a pack may hold.

    Returns
    -------
    tuple of int, or None
        Places in the stock, the thickest first; empty if none is needed; None if no pack does it.
        Of packs with equally many pieces the thinnest.

    Raises
    ------
    DomainError
        If a thickness is not above zero, a tolerance is negative, or there is not one for each.

    Examples
    --------
    >>> stock = [0.1e-3, 0.2e-3, 0.5e-3]
    >>> fewest_shims(stock, [0.0] * 3, 0.65e-3, 0.75e-3)
    (2, 1)
    """
    require_positive(**{f"stock_{index + 1}": value for index, value in enumerate(stock)})
    require_not_negative(**{f"tolerance_{index + 1}": value for index, value in enumerate(tolerances)})
    if len(stock) != len(tolerances):
        raise DomainError("every shim of the stock needs a tolerance")
    # by thickness in grains: the pack of that thickness with the least tolerance
    packs: dict[int, tuple[float, tuple[int, ...]]] = {0: (0.0, ())}
    for _ in range(pieces + 1):
        for grains in sorted(packs):
            tolerance, pack = packs[grains]
            thickness = grains * _GRAIN
            if thickness - tolerance >= least - _GRAIN and thickness + tolerance <= most + _GRAIN:
                return tuple(sorted(pack, key=lambda place: -stock[place]))
        packs = _one_more(packs, stock, tolerances)
    return None


def _one_more(
    packs: dict[int, tuple[float, tuple[int, ...]]], stock: Sequence[float], tolerances: Sequence[float]
) -> dict[int, tuple[float, tuple[int, ...]]]:
    """Every pack with one more piece."""
    thicker: dict[int, tuple[float, tuple[int, ...]]] = {}
    for grains, (tolerance, pack) in packs.items():
        for place, (thickness, own) in enumerate(zip(stock, tolerances, strict=True)):
            total = grains + round(thickness / _GRAIN)
            if total not in thicker or tolerance + own < thicker[total][0]:
                thicker[total] = (tolerance + own, (*pack, place))
    return thicker
