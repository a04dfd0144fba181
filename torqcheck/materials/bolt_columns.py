"""What the tables of bolts, dowels and the faces between flanges must hold."""

from collections.abc import Mapping

from torqcheck.materials.column import SOURCE, Layout, mark, number, text, word

__all__ = ["BOLT_LAYOUTS"]

_NOTE = text("note", required=False)

BOLT_LAYOUTS: Mapping[str, Layout] = {
    "metric_threads": Layout(
        (text("size"), number("diameter_mm", 3, 64), number("pitch_mm", 0.4, 6), *SOURCE), ("size",)
    ),
    "inch_threads": Layout(
        (
            text("size"),
            word("series", "UNC", "UNF"),
            number("diameter_in", 0.1, 2),
            number("threads_per_inch", 4, 40),
            *SOURCE,
        ),
        ("size",),
    ),
    "metric_bolt_classes": Layout(
        (
            text("class"),
            number("over_mm", 0, 64),
            number("to_mm", 1, 64),
            number("proof_MPa", 150, 1500),
            number("yield_MPa", 150, 1500),
            number("tensile_MPa", 300, 1800),
            *SOURCE,
            _NOTE,
        ),
        ("class", "over_mm"),
    ),
    "inch_bolt_grades": Layout(
        (
            text("grade"),
            number("from_in", 0.1, 4),
            number("to_in", 0.1, 4),
            number("proof_ksi", 20, 220),
            number("yield_ksi", 20, 220),
            number("tensile_ksi", 40, 260),
            *SOURCE,
            _NOTE,
        ),
        ("grade", "from_in"),
    ),
    "nut_factors": Layout(
        (
            text("lubrication"),
            number("nut_factor", 0.05, 0.5),
            word("state", "dry", "cadmium", "lubricated"),
            word("use", "taken", "shown"),
            *SOURCE,
            _NOTE,
        ),
        ("lubrication", "nut_factor"),
    ),
    "preload_scatter": Layout(
        (
            text("method"),
            word("state", "any", "dry", "cadmium", "lubricated"),
            number("scatter", 0.005, 0.6),
            word("use", "taken", "shown"),
            *SOURCE,
            _NOTE,
        ),
        ("method", "state"),
    ),
    "face_friction": Layout(
        (
            text("condition"),
            number("friction", 0.03, 0.8),
            number("friction_least", 0.03, 0.8),
            number("friction_most", 0.03, 0.8),
            *SOURCE,
            mark("band_mark"),
            text("note"),
        ),
        ("condition",),
    ),
    "metric_dowels": Layout(
        (number("diameter_mm", 1, 40), number("single_shear_kN", 0.5, 1000), *SOURCE), ("diameter_mm",)
    ),
    "inch_dowels": Layout(
        (number("diameter_in", 0.05, 1.5), number("single_shear_lbf", 100, 300000), *SOURCE),
        ("diameter_in",),
    ),
}
