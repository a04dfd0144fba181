"""What the table of notes on heat treatment must hold."""

from collections.abc import Mapping

from torqcheck.materials.column import SOURCE, Column, Layout, mark, number, text, word

__all__ = ["PROCESSES", "TREATMENT_LAYOUTS"]

PROCESSES = (
    "as delivered",
    "quench and temper",
    "induction",
    "carburised",
    "nitrided",
    "age hardened",
    "maraging",
    "casting",
)

TREATMENT_LAYOUTS: Mapping[str, Layout] = {
    "treatment_notes": Layout(
        (
            word("process", *PROCESSES),
            number("add_days_min", 0, 120),
            number("add_days_max", 0, 120),
            text("growth"),
            Column("growth_source", "source", required=False),
            mark("growth_mark", required=False),
            text("depth_rule", required=False),
            Column("depth_source", "source", required=False),
            mark("depth_mark", required=False),
            text("drawing"),
            text("keep_soft"),
            *SOURCE,
        ),
        ("process",),
    ),
}
