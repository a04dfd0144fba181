"""Round bar as dealers keep it, for a diameter that is to be ordered."""

from dataclasses import dataclass
from functools import cache
from typing import Literal

from torqcheck.errors import DomainError
from torqcheck.materials.tables import number, source, table
from torqcheck.provenance import Source

__all__ = ["StockBar", "next_bar", "stock_bars"]

MM = 1e-3
SAME = 1e-9
"""m; a bar is not passed over for the last digit of a conversion."""


@dataclass(frozen=True, slots=True)
class StockBar:
    """One size of round bar: as dealers call it, and its diameter, m."""

    system: Literal["metric", "inch"]
    size: str
    diameter: float
    source: Source


@cache
def stock_bars(system: Literal["metric", "inch"]) -> tuple[StockBar, ...]:
    """Return the bars of one system, the thinnest first."""
    bars = (
        StockBar(system, row["size"], number(row, "diameter_mm", MM), source(row))
        for row in table("stock_bars")
        if row["system"] == system
    )
    return tuple(sorted(bars, key=lambda bar: bar.diameter))


def next_bar(diameter: float, system: Literal["metric", "inch"]) -> StockBar | None:
    """
    Return the thinnest bar that is not below a diameter; None where the table ends before it.

    Parameters
    ----------
    diameter : float, m
        That the part needs.
    system : str
        "metric" or "inch".

    Raises
    ------
    DomainError
        If the diameter is not positive.

    Examples
    --------
    >>> next_bar(0.0405, "metric").size, next_bar(0.0405, "inch").size
    ('42 mm', '1 5/8 in')
    """
    if not diameter > 0.0:
        raise DomainError(f"diameter must be above 0, not {diameter:g} m")
    return next((bar for bar in stock_bars(system) if bar.diameter >= diameter - SAME), None)
