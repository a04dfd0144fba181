"""What the printout says: each thing once, no more than is true, and nothing that a reader's program runs."""

import re
from pathlib import Path

import pytest
from builder import assessed, edited

from torqcheck.assessment import assess
from torqcheck.assessment.result import Assessment
from torqcheck.checks import Verdict
from torqcheck.report.build import sheet_of
from torqcheck.report.formats.as_html import as_html
from torqcheck.report.formats.as_markdown import as_markdown
from torqcheck.report.load import load_note
from torqcheck.report.play import NOT_MATES, play_tables
from torqcheck.report.plots.factor_plot import factor_figure
from torqcheck.report.printout import whole as arranging
from torqcheck.report.printout.checks import printed_checks
from torqcheck.report.printout.text import printout_as_markdown
from torqcheck.report.printout.whole import printout_of
from torqcheck.report.sheet import Blanks, Note, Printout, Sheet, Table
from torqcheck.scenario import scenario_from_text

HUB = ('steel = "8620_carb_63"\nreused = false', 'steel = "unknown"\nreused = false')
SHAFT = ('steel = "8620_carb_63"', 'steel = "unknown"')


def printed(*changes: tuple[str, str]) -> tuple[Assessment, Printout]:
    scenario = scenario_from_text(edited(*changes).encode(), Path("t.toml"))
    assessment = assess(scenario)
    return assessment, printout_of(assessment, scenario)


def input_rows(printout: Printout) -> list[tuple[str, ...]]:
    return [
        row
        for part in printout.parts
        if isinstance(part, Table) and part.title.startswith("Input: ")
        for row in part.rows
    ]


def test_a_key_that_is_stated_and_taken_for_something_stands_once() -> None:
    rows = input_rows(printed(HUB)[1])
    found = [row for row in rows if row[0] == "joint[1].internal.steel"]
    assert len(found) == 1
    assert found[0][1].startswith("unknown, taken as ")
    assert found[0][2] == "as written, assumed"
    assert len({row[0] for row in rows}) == len(rows)


def test_an_empty_table_of_the_file_is_not_said_back() -> None:
    start = edited().index("[targets]")
    end = edited().index("[[duty]]")
    rows = input_rows(printed((edited()[start:end], "[targets]\n\n"))[1])
    assert "targets" not in [row[0] for row in rows]
    assert not any("{}" in cell for row in rows for cell in row)


def test_how_to_test_a_steel_is_said_once_and_each_part_by_name() -> None:
    assessment = assessed(HUB, SHAFT)
    texts = [caution.text for caution in assessment.cautions]
    assert sum("file, spark and hardness test" in text for text in texts) == 1
    for side in ("external", "internal"):
        assert f"gearbox input: the steel of the {side} member is not known." in texts
    assert not any("file, spark and hardness test" in c.text for c in assessed().cautions)


@pytest.mark.parametrize("verdict", ["pass", "marginal", "undecided", "fail"])
def test_nobody_approves_what_is_not_to_be_run(verdict: Verdict) -> None:
    blanks = arranging._sign_off(verdict)
    assert isinstance(blanks, Blanks)
    released = verdict in {"pass", "marginal"}
    assert ("Approved" in blanks.rows) == released
    assert (blanks.title == "Sign-off") == released
    if not released:
        assert blanks.title.startswith(
            f"Sign-off. Not released: {verdict.upper()}. The build is not to be run"
        )
        assert blanks.rows == ("Measured", "Checked", "Seen")


def test_each_share_of_the_first_tooth_says_what_it_is_of() -> None:
    assessment = assessed()
    note = load_note(assessment, ("si",))
    assert note is not None
    assert "with errors of spacing, tilt and twist together, the shaft " in note.items[0]
    load = assessment.joints[0].load_distribution
    assert load is not None
    centre = "on centre" if load.off_centre == 0.0 else " off centre"
    assert f"{centre}. Twist" in note.items[0]
    (table,) = play_tables(assessment, ("si",))
    assert "lies even along each tooth here; tilt and twist come in only under Load" in table.legend


def test_teeth_of_parts_that_are_no_mates_are_said_to_be_so() -> None:
    false = assessed(("measured = { teeth = 26, major", "measured = { teeth = 25, major"))
    assert false.joints[0].mate is not None
    assert false.joints[0].mate.verdict == "false fit"
    for assessment, words in ((false, True), (assessed(), False)):
        note = load_note(assessment, ("si",))
        assert note is not None
        assert ("the first of 26 teeth of the stated size carries" in note.items[0]) == words
        figure = factor_figure(assessment)
        assert figure is not None
        titles = (
            note.title, figure.title, printed_checks(assessment, ("si",)).title,
            sheet_of(assessment, "si", 80).parts[0].title,
        )  # fmt: skip
        assert [title.endswith(NOT_MATES) for title in titles] == [words] * len(titles)


LIVE = (
    "[a](javascript:alert(1))", "![i](http://x.example/i.png)", "https://x.example", "www.x.example",
    "WWW.x.example", "a@x.example", "[a]: http://x.example", "&lt;b&gt;", "~~gone~~",
)  # fmt: skip
BARE = re.compile(r"(?<!\\)[\[\]<>&@~]|(?<!\\)://|www\.", re.IGNORECASE)


@pytest.mark.parametrize("text", LIVE)
def test_markdown_makes_no_link_no_picture_and_no_markup_of_a_name(text: str) -> None:
    sheet = Sheet(text, (text,), None, (), (Note(text, (text,)),), (text,))
    found = as_markdown(sheet)
    assert not BARE.search(found)
    assert found.replace("\\", "").count(text) == 5
    title = printout_as_markdown(printed(("Test bench", text))[1])
    assert not BARE.search(title.splitlines()[0])


def test_the_verdict_stands_where_a_narrow_screen_shows_it() -> None:
    content = as_html(printed()[1])
    heads = re.findall(r"<thead>\n<tr>(.*?)</tr>", content)
    titles = [re.findall(r">([^<]*)</th>", head) for head in heads]
    places = [found.index("Verdict") for found in titles if "Factor" in found and "Verdict" in found]
    assert len(places) == 2
    assert max(places) <= 2
    words = re.findall(r'<t[dh][^>]*class="v n">([A-Z]+)<', content)
    assert len(words) >= 2 * 10
    assert content.count('<th scope="col" class="v n">Verdict</th>') == len(
        re.findall(">Verdict</th>", content)
    )
    assert set(words) <= {"PASS", "MARGINAL", "UNDECIDED", "FAIL"}
    assert re.search(r"\.v\.n \{ position: sticky; right: 0;", content)
    assert re.search(r"\.notable \.v \{ font-weight: 700; \}", content)


def test_on_paper_a_short_table_stays_in_one_piece_with_its_heading() -> None:
    printout = printed()[1]
    content = as_html(printout)
    for part in printout.parts:
        if isinstance(part, Table):
            section = content[: content.index(f"<h2>{part.title}</h2>")].rsplit("<section", 1)[1]
            assert ("short" in section) == (len(part.rows) <= 12)
    paper = content[content.index("@media print") :]
    assert re.search(r"\.short[^{]*\{ break-inside: avoid", paper)
    assert re.search(r"h2 \{[^}]*break-after: avoid", paper)
