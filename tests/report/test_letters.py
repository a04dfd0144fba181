"""Letters that the font lacks: one clear form, said once, no complaint of a library."""

import io
import unicodedata
import warnings
from pathlib import Path

import pytest
from builder import edited
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdf import PdfReader

from torqcheck.assessment import assess
from torqcheck.report.formats.as_html import as_html
from torqcheck.report.formats.as_pdf import as_pdf
from torqcheck.report.formats.figure_file import drawn
from torqcheck.report.formats.letters import font_letters, legible, text_width
from torqcheck.report.plots.factor_plot import LEFT, NAME_LINES, NAME_SIZE, _label
from torqcheck.report.printout.whole import printout_of
from torqcheck.report.sheet import Printout
from torqcheck.scenario import scenario_from_text

SAW, HEBREW = "木工", "עִב"
KNOWN = font_letters()


def printed(title: str, name: str = "gearbox input") -> Printout:
    text = edited(("Test bench", title), ("gearbox input", name))
    scenario = scenario_from_text(text.encode(), Path("t.toml"))
    return printout_of(assess(scenario), scenario)


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("Größe Ω 3 m²", "Größe Ω 3 m²"),
        ("saw 木", "saw [U+6728]"),
        ("\U0001fa9a", "[U+1FA9A]"),
        (HEBREW, "[U+05E2][U+05B4][U+05D1]"),
        ("e\u0301", "e\u0301"),
        ("a\u202eb\ue000", "a[U+202E]b[U+E000]"),
    ],
)
def test_one_clear_form(text: str, shown: str) -> None:
    assert legible(text, KNOWN) == shown


@given(st.text(max_size=20))
@settings(deadline=None)
def test_what_is_shown_is_printable_known_and_runs_to_the_right(text: str) -> None:
    shown = legible(text, KNOWN)
    assert legible(shown, KNOWN) == shown
    assert all(ord(letter) in KNOWN and letter.isprintable() for letter in shown)
    assert not {"R", "AL", "AN"} & {unicodedata.bidirectional(letter) for letter in shown}


def test_the_pdf_says_once_how_such_letters_are_shown_and_no_library_complains() -> None:
    printout = printed(f"Saw {SAW} {HEBREW}", f"hub {SAW}")
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        content = as_pdf(printout)
        page = as_html(printout)
    text = " ".join(" ".join(p.extract_text().split()) for p in PdfReader(io.BytesIO(content)).pages)
    assert "Saw [U+6728][U+5DE5] [U+05E2][U+05B4][U+05D1]" in text
    assert text.count("is shown by its number in Unicode, like [U+6728]") == 1
    assert "\\u" not in text
    assert f"Saw {SAW} {HEBREW}" in page
    assert f"hub {SAW}: " in page
    assert "[U+" not in page


def test_a_printout_that_the_font_can_show_says_nothing_of_it() -> None:
    text = PdfReader(io.BytesIO(as_pdf(printed("Größe Ω")))).pages[0].extract_text()
    assert "Unicode" not in text


def test_a_picture_holds_the_numbers_of_the_letters() -> None:
    def labelled(names: list[str]):  # type: ignore[no-untyped-def]
        def draw(figure) -> None:  # type: ignore[no-untyped-def]
            axes = figure.add_subplot()
            axes.set(yticks=range(len(names)), title=names[0])
            axes.set_yticklabels(names)

        return draw

    with warnings.catch_warnings():
        warnings.simplefilter("error")
        shown = drawn(labelled([SAW, "b\n木"]), "t", ".png", 50)
        written = drawn(labelled(["[U+6728][U+5DE5]", "b\n[U+6728]"]), "t", ".png", 50)
        lines = drawn(labelled([SAW, "b"]), "t", ".svg")
    assert shown == written
    assert SAW in lines.decode()


@pytest.mark.parametrize("joint", ["hub", "W" * 80, SAW * 20, "a long name of a joint " * 5])
def test_a_long_name_beside_a_bar_is_cut_and_its_check_is_not(joint: str) -> None:
    check = "tooth root bending, first tooth, external member (material)"
    lines = _label(joint, check)
    assert len(lines) <= NAME_LINES
    assert all(text_width(line, NAME_SIZE) <= LEFT for line in lines)
    assert " ".join(lines).endswith(check)
    assert lines[0][0] in {joint[0], "\u2026"}
    assert (" ".join(lines) == f"{joint}: {check}") == (joint == "hub")


@pytest.mark.parametrize("letter", ["G", "W", "i", "m"])
def test_names_beside_the_bars_lie_inside_the_picture(letter: str) -> None:
    def draw(figure) -> None:  # type: ignore[no-untyped-def]
        figure.set_size_inches(7.2, 2.0)
        axes = figure.add_axes((LEFT / 7.2, 0.3, 0.5, 0.6))
        axes.set(yticks=[0.0])
        axes.set_yticklabels(["\n".join(_label(letter * 300, "root shear (material)"))], fontsize=NAME_SIZE)
        figure.set_dpi(200)
        (box,) = (label.get_window_extent() for label in axes.get_yticklabels())
        lefts.append(box.x0)

    lefts: list[float] = []
    drawn(draw, "t", ".png", 200)
    assert 0.0 < lefts[0] < 120.0
