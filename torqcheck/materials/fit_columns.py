"""What the tables of interference fits and of thermal expansion must hold."""

from collections.abc import Mapping

from torqcheck.materials.column import SOURCE, Layout, number, text, word

__all__ = ["FIT_LAYOUTS"]

FIT_LAYOUTS: Mapping[str, Layout] = {
    "expansion": Layout(
        (
            text("material"),
            number("expansion_um_m_K", 5, 40),
            word("use", "taken", "shown"),
            *SOURCE,
            text("note", required=False),
        ),
        ("material", "expansion_um_m_K"),
    ),
}
