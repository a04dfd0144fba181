"""What the tables of keys and set screws must hold."""

from collections.abc import Mapping

from torqcheck.materials.column import SOURCE, Layout, mark, number, text, word

__all__ = ["KEY_LAYOUTS"]

KEY_LAYOUTS: Mapping[str, Layout] = {
    "keys_din_6885": Layout(
        (
            text("size"),
            number("shaft_over_mm", 6, 500),
            number("shaft_to_mm", 6, 500),
            number("width_mm", 2, 100),
            number("height_mm", 2, 50),
            number("shaft_depth_mm", 1, 31),
            number("hub_depth_mm", 1, 20),
            number("chamfer_least_mm", 0.1, 2.5),
            number("chamfer_most_mm", 0.1, 2.5),
            *SOURCE,
            mark("hub_depth_mark"),
            mark("chamfer_mark"),
        ),
        ("size",),
    ),
    "keys_ansi_b17_1": Layout(
        (
            word("section", "square", "flat"),
            text("size"),
            number("shaft_over_in", 0.3, 10),
            number("shaft_to_in", 0.3, 10),
            number("width_in", 0.05, 3),
            number("height_in", 0.05, 3),
            number("shaft_depth_in", 0.02, 1.5),
            *SOURCE,
        ),
        ("section", "size"),
    ),
    "woodruff_keys": Layout(
        (
            text("size"),
            number("width_in", 0.05, 1),
            number("disc_diameter_in", 0.25, 4),
            number("height_in", 0.1, 2),
            number("shaft_depth_in", 0.05, 2),
            number("hub_depth_in", 0.03, 0.5),
            *SOURCE,
        ),
        ("size",),
    ),
    "woodruff_shafts": Layout(
        (
            number("width_in", 0.05, 1),
            number("shaft_least_in", 0.2, 5),
            number("shaft_most_in", 0.2, 5),
            *SOURCE,
        ),
        ("width_in",),
    ),
    "key_fits": Layout(
        (
            word("fit", "tight", "normal", "sliding"),
            text("shaft_seat"),
            text("hub_seat"),
            text("note", required=False),
            *SOURCE,
        ),
        ("fit",),
    ),
    "set_screws": Layout(
        (
            word("list", "handbook", "chart"),
            text("size"),
            number("diameter_in", 0.05, 1.5),
            number("seating_torque_lbf_in", 0.5, 10_000),
            number("holding_power_lbf", 10, 10_000),
            *SOURCE,
        ),
        ("list", "size"),
    ),
    "set_screw_points": Layout((text("point"), number("factor", 0.5, 1.5), *SOURCE), ("point",)),
}
