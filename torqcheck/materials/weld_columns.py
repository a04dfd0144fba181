"""What the tables of electrodes, compositions and preheats must hold."""

from collections.abc import Mapping

from torqcheck.materials.column import SOURCE, Layout, mark, number, text, word

__all__ = ["ELEMENTS", "WELD_LAYOUTS"]

ELEMENTS = ("carbon", "manganese", "chromium", "molybdenum", "vanadium", "nickel", "copper")
"""In the order of the carbon equivalent."""

WELD_LAYOUTS: Mapping[str, Layout] = {
    "electrodes": Layout(
        (
            text("electrode"),
            number("ultimate_ksi", 50, 150),
            number("yield_ksi", 40, 140),
            number("allowable_shear_ksi", 10, 50),
            *SOURCE,
            mark("strengths_mark"),
        ),
        ("electrode",),
    ),
    "weld_compositions": Layout(
        (
            text("grade"),
            *(number(f"{element}_percent", 0, 5) for element in ELEMENTS),
            word("resulphurised", "yes", "no"),
            *SOURCE,
        ),
        ("grade",),
    ),
    "weld_preheats": Layout(
        (
            text("steels"),
            number("carbon_equivalent_min", 0, 2),
            number("carbon_equivalent_max", 0.1, 2),
            number("thickness_min_mm", 0, 100),
            number("thickness_max_mm", 10, 400),
            number("preheat_min_C", 0, 350),
            number("preheat_max_C", 50, 400),
            word("use", "taken", "shown"),
            *SOURCE,
            text("note"),
        ),
        ("carbon_equivalent_min", "thickness_min_mm", "use", "steels"),
    ),
}
