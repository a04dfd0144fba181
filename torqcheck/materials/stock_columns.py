"""What the tables of stock sizes must hold."""

from collections.abc import Mapping

from torqcheck.materials.column import SOURCE, Layout, number, text, word

__all__ = ["STOCK_LAYOUTS"]

STOCK_LAYOUTS: Mapping[str, Layout] = {
    "stock_bars": Layout(
        (
            word("system", "metric", "inch"),
            text("size"),
            number("diameter_mm", 5, 600),
            *SOURCE,
        ),
        ("size",),
    ),
}
