"""Lines of texts and cells: where they may break, and where not."""

from torqcheck.report.formats.layout import row_lines, wrapped
from torqcheck.report.sheet import Column

SENTENCE = (
    "a torque rise of 1710 N m/s and a lash of 0.24 mm, damping 30 %, under 266 N m (196 lbf ft) at 10 Hz"
)


def test_a_number_stays_with_its_unit() -> None:
    for width in range(40, 90):
        lines = wrapped(SENTENCE, width)
        assert " ".join(lines) == SENTENCE
        assert max(map(len, lines)) <= width
        for line in lines:
            assert line.split()[0] not in {"N", "m/s", "mm,", "%,", "m", "ft)", "Hz"}


def test_a_narrow_column_may_break_at_every_blank() -> None:
    assert wrapped("up to 0.0039 in", 9) == ["up to", "0.0039 in"]
    assert wrapped("0.00390551 in", 10) == ["0.00390551", "in"]


def test_a_long_key_breaks_behind_its_dots_and_not_within_a_word() -> None:
    key = "joint[1].external.measured.major_diameter"
    assert wrapped(key, 31) == ["joint[1].external.measured.", "major_diameter"]
    assert wrapped(f"- {key}", 24, "  ") == ["- joint[1].external.", "  measured.major_", "  diameter"]
    columns = (Column("Key"), Column("Value"))
    assert row_lines((key, "1"), columns, [31, 5], 1) == [
        "joint[1].external.measured.     1",
        "major_diameter",
    ]


def test_what_has_no_place_to_break_is_cut() -> None:
    assert wrapped("x" * 25, 10) == ["x" * 10, "x" * 10, "x" * 5]
