"""Lines of texts and cells: where they may break, and where not."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from torqcheck.report.formats.layout import header_lines, row_lines, table_gap, wrapped
from torqcheck.report.formats.terminal_cells import cells, cut, folded, padded
from torqcheck.report.sheet import Column, Table

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


# letters over two columns, or none: rich counts them by the tables of Unicode

SAW, ACCENT, HANGUL = "木工のこぎり盤", "cle\u0301 a\u0300 cre\u0301maille\u0308re", "제재소 톱"


@pytest.mark.parametrize(
    "text", ["saw arbor", SAW, ACCENT, HANGUL, "saw 木 arbor", "\uff21\uff22", "Größe 3 m²"]
)
def test_columns_of_a_text_are_those_that_a_terminal_takes(text: str) -> None:
    assert cells(text) == cell_len(text)
    assert cell_len(padded(text, 40)) == cell_len(padded(text, 40, right=True)) == 40
    assert padded(text, 40).rstrip() == padded(text, 40, right=True).lstrip() == text
    for size in range(12):
        assert size - 2 < cell_len(cut(text, size)) <= size or cut(text, size) == text


@pytest.mark.parametrize("name", [SAW, ACCENT, HANGUL, "のこ A/B"])
@pytest.mark.parametrize("width", [80, 30])
def test_columns_of_a_table_stand_below_one_another_whatever_its_letters(name: str, width: int) -> None:
    rows = (("gearbox input", "1.25", "x"), (name, "10.5", "x"))
    table = Table("", (Column("Joint"), Column("Factor", "right"), Column("", "left")), rows)
    widths, gap = table_gap(table, width)
    lines = [line for row in rows for line in row_lines(row, table.columns, widths, gap)]
    (place,) = {cell_len(line[: line.rindex("x")]) for line in lines if line.endswith("x")}
    assert place <= cell_len(header_lines(table, widths, gap)[1])
    assert max(map(cell_len, lines)) <= width


@given(
    text=st.text("ab c木\u0301ｱ工", max_size=60), width=st.integers(4, 30), follow=st.sampled_from(["", "  "])
)
def test_a_folded_text_keeps_its_letters_and_its_width(text: str, width: int, follow: str) -> None:
    lines = folded(text, width, follow)
    assert max(map(cell_len, lines)) <= width or (len(lines) == 1 and not text.strip())
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")
    assert all(line.startswith(follow) for line in lines[1:])
