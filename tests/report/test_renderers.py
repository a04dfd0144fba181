"""One sheet, several renderers: nothing is lost, nothing is wider than asked, colour adds no meaning."""

import re

import pytest
from builder import assessed

from torqcheck.report.build import sheet_of, shown_name
from torqcheck.report.formats.as_markdown import as_markdown
from torqcheck.report.formats.as_terminal import as_terminal
from torqcheck.report.formats.as_text import as_text
from torqcheck.report.formats.files import write_whole
from torqcheck.report.sheet import Column, Note, Sheet, Table

SHEET = Sheet(
    "A title",
    ("about it",),
    "fail",
    ("Weakest link: this one.",),
    (
        Table(
            "Rows",
            (Column("Name"), Column("Value", "right"), Column("Verdict")),
            (("a long name that has to be wrapped somewhere", "1.23", "FAIL"), ("short", "45.6", "PASS")),
            ("fail", "pass"),
            "a legend",
        ),
        Note("Notes", ("first | item", "second item " * 12)),
    ),
    ("the end",),
)
ESCAPES = re.compile(r"\x1b\[[0-9;]*m")


def test_text_is_laid_out_as_expected() -> None:
    assert as_text(SHEET, 40).splitlines()[:13] == [
        "A title",
        "about it",
        "",
        "VERDICT: FAIL",
        "Weakest link: this one.",
        "",
        "Rows",
        "====",
        "Name                       Value Verdict",
        "----------------------------------------",
        "a long name that has to be  1.23 FAIL",
        "wrapped somewhere",
        "short                       45.6 PASS",
    ]


@pytest.mark.parametrize("width", [60, 80, 120])
def test_no_line_is_wider_than_asked(width: int) -> None:
    for sheet in (SHEET, sheet_of(assessed(), "both", width)):
        assert max(map(len, as_text(sheet, width).splitlines())) <= width
        plain = as_terminal(sheet, width=width, colour=False)
        assert max(map(len, plain.splitlines())) <= width


def test_colour_only_repeats_what_the_words_say() -> None:
    coloured = as_terminal(SHEET, width=80, colour=True)
    assert "\x1b[" in coloured
    assert ESCAPES.sub("", coloured) == as_terminal(SHEET, width=80, colour=False)


def test_wide_terminals_show_both_unit_systems_in_the_table_of_checks() -> None:
    result = assessed()
    assert "psi" not in as_text(sheet_of(result, "both", 80), 80).split("By:")[0]
    assert "psi" in as_text(sheet_of(result, "both", 120), 120).split("By:")[0]


def test_markdown_escapes_what_would_break_a_table() -> None:
    assert "first \\| item" in as_markdown(SHEET)
    assert "| short | 45.6 | PASS |" in as_markdown(SHEET)


def test_every_check_and_every_caution_is_shown_in_every_form() -> None:
    result = assessed()
    sheet = sheet_of(result, "both", 80)
    for text in (as_text(sheet), as_terminal(sheet, width=80, colour=False)):
        flat = " ".join(text.split())
        for check in result.joints[0].checks:
            assert shown_name(check) in flat
        for caution in result.cautions:
            assert " ".join(caution.text.split()) in flat
        for entry in result.assumptions:
            assert entry.key in flat


def test_a_file_is_replaced_whole_and_keeps_its_mode(tmp_path) -> None:  # type: ignore[no-untyped-def]
    target = tmp_path / "report.txt"
    target.write_text("old")
    target.chmod(0o640)
    write_whole(target, "new\n")
    assert target.read_text() == "new\n"
    assert target.stat().st_mode & 0o777 == 0o640
    assert len(list(tmp_path.iterdir())) == 1
