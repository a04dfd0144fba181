"""What the table of alignment limits must hold."""

from collections.abc import Mapping

from torqcheck.materials.column import SOURCE, Layout, number, text, word

__all__ = ["ALIGNMENT_LAYOUTS"]

ALIGNMENT_LAYOUTS: Mapping[str, Layout] = {
    "alignment_limits": Layout(
        (
            text("id"),
            text("item"),
            word("holds", "limit", "practice"),
            word("quantity", "tilt_mrad", "offset_mm", "slip_speed_mm_s", "runout_mm", "face_runout_mm"),
            number("limit", 0.01, 100),
            number("excellent", 0.01, 100, required=False),
            number("speed_rpm", 100, 20000, required=False),
            number("diameter_from_mm", 0, 1000, required=False),
            number("diameter_to_mm", 1, 1000, required=False),
            *SOURCE,
            text("note", required=False),
        ),
        ("id",),
    ),
}
