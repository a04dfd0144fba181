"""The printout: nothing of a check is lost, in no form; what a user writes stays text."""

import io
import re
from functools import cache
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest
from builder import BASE, EXAMPLES, edited
from pypdf import PdfReader
from report._pdf_runs import overlapping, runs_of

from torqcheck.assessment import assess
from torqcheck.assessment.pictured import pictured
from torqcheck.assessment.result import Assessment
from torqcheck.materials import allowable_stresses, hardness_bands
from torqcheck.report.build import assumption_lines
from torqcheck.report.formats import as_pdf as pdf_form
from torqcheck.report.formats.as_html import Paper, as_html
from torqcheck.report.formats.as_pdf import as_pdf
from torqcheck.report.formats.figure_file import drawn
from torqcheck.report.numbers import significant
from torqcheck.report.plots.factor_plot import MOST
from torqcheck.report.printout.text import printout_as_markdown, printout_as_text
from torqcheck.report.printout.whole import NARROW, printout_of
from torqcheck.report.record import entry_files
from torqcheck.report.sheet import Figure, Printout, Table
from torqcheck.report.words import VERDICT_WORDS
from torqcheck.scenario import Scenario, load_scenario, scenario_from_text
from torqcheck.scenario.edits import numeric_keys
from torqcheck.shock import peak

SCENARIOS = {path.stem: path for path in EXAMPLES}
VOID = {"meta", "br", "hr", "img", "input", "link"}
DRAWN = ("glasshouse_tug", "orchard_tractor")
"""Whose figures are drawn into the PDF as well."""
ON_LETTER = ("long", "glasshouse_tug", "cooperage_saw")
LONG = BASE.replace('"Test bench"', f'"{"W" * 200}"', 1).replace(
    'name = "gearbox input"', f'name = "{"M" * 48}{" joint" * 2}"', 1
)
LONG = LONG.replace(
    'build = "T-1"', f'build = "{"W" * 80}"\nnotes = """{"W" * 1500}\n{"W" * 1500}\n\n{"a b " * 200}"""', 1
)
HOSTILE = '<script>alert("1")</script>'


@cache
def scenario_of(name: str) -> Scenario:
    if name == "long":
        return scenario_from_text(LONG.encode(), Path(f"{'x' * 150}.toml"))
    return load_scenario(SCENARIOS[name])


@cache
def assessed(name: str) -> Assessment:
    return assess(scenario_of(name))


@cache
def printed(name: str, units: str = "both") -> Printout:
    return printout_of(assessed(name), scenario_of(name), units)


@cache
def html_of(name: str) -> str:
    return as_html(printed(name))


def odd(*changes: tuple[str, str], file: str = "odd.toml") -> Printout:
    scenario = scenario_from_text(edited(*changes).encode(), Path(file))
    return printout_of(assess(scenario), scenario)


@cache
def small_picture() -> bytes:
    return drawn(lambda figure: figure.set_size_inches(7.2, 3.4), "empty", ".png", 20)


@pytest.fixture
def no_drawing(monkeypatch: pytest.MonkeyPatch) -> None:
    """Figures take most of the time, and where they stand does not depend on what they show."""
    monkeypatch.setattr(pdf_form, "drawn", lambda *_: small_picture())


@cache
def reader_of(name: str, paper: Paper = "a4") -> PdfReader:
    return PdfReader(io.BytesIO(as_pdf(printed(name), paper)))


class Page(HTMLParser):
    """Text, rows and structure of a page; complains about what is not closed."""

    def __init__(self, content: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.text: list[str] = []
        self.rows: list[list[str]] = []
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.feed(content)
        self.close()
        assert not self.open

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)
        if tag == "tr":
            self.rows.append([])
        if tag in {"td", "th"}:
            self.rows[-1].append("")

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        if not {"style", "svg"} & set(self.open):
            self.text.append(data)
        if self.open and {"td", "th"} & set(self.open):
            self.rows[-1][-1] += data


def squeezed(text: str) -> str:
    return re.sub(r"\s+", "", text)


def expected(assessment: Assessment) -> list[str]:
    """What no form may lose, beside the checks."""
    lines = [assessment.title, assessment.file, assessment.file_sha256, assessment.version]
    lines += [f"Verdict: {VERDICT_WORDS[assessment.verdict]}"]
    lines += assumption_lines(assessment.assumptions, ("si", "inch"))
    lines += [caution.text for caution in assessment.cautions]
    lines += [f"{entry.joint}: {entry.reading}; {entry.how}." for entry in assessment.undecided_by]
    lines += [
        source.work for joint in assessment.joints for check in joint.checks for source in check.sources
    ]
    lines += [
        reason for joint in assessment.joints if joint.mate is not None for reason in joint.mate.reasons
    ]
    if assessment.weakest is not None:
        weakest = assessment.weakest
        lines.append(f"Weakest link: {weakest.joint}, {weakest.check} ({weakest.method}), safety factor")
    released = assessment.verdict in {"pass", "marginal"}
    return [*lines, "licensed practice", "Signature", "Approved" if released else "Not released"]


def check_rows(assessment: Assessment) -> list[tuple[str, str, str, str, str]]:
    """Of each check: joint, name, value and limit in MPa or with their unit, verdict."""
    rows = []
    for check in (check for joint in assessment.joints for check in joint.checks):
        unit = {"stress": "", "torque": " N m", "force": " N"}[check.quantity]
        scale = 1e6 if check.quantity == "stress" else 1.0
        value, limit = (f"{significant(v / scale)}{unit}" for v in (check.value, check.allowable))
        verdict = VERDICT_WORDS[check.verdict] if check.counts else "beside"
        rows.append((check.joint, check.name, value, limit, verdict))
    return rows


@pytest.mark.parametrize("name", [*SCENARIOS, "long"])
def test_html_says_everything_and_stands_alone(name: str) -> None:
    assessment, content = assessed(name), html_of(name)
    page = Page(content)
    text = squeezed("".join(page.text))
    for line in expected(assessment):
        assert squeezed(line) in text, line
    shown = {(*row[:2], *row[7:9], row[2]) for row in page.rows if len(row) == 11}
    assert set(check_rows(assessment)) <= shown
    assert not re.search(r"https?:|//[a-z]|javascript|@import|<script|<link|src=", content)
    assert content.startswith("<!DOCTYPE html>\n")
    assert len(content) < 700_000


@pytest.mark.parametrize("name", ["glasshouse_tug", "ferry_capstan", "long"])
def test_html_is_built_so_that_anybody_can_read_it(name: str) -> None:
    page = Page(html_of(name))
    kinds = [tag for tag, _ in page.tags]
    assert dict(page.tags)["html"]["lang"] == "en"
    assert kinds.count("h1") == 1
    assert kinds.count("title") == 1
    scopes = [attrs.get("scope") for tag, attrs in page.tags if tag == "th"]
    assert set(scopes) == {"col", "row"}
    ids = [attrs["id"] for _, attrs in page.tags if "id" in attrs]
    assert len(ids) == len(set(ids))
    used = set(re.findall(r'url\(#([^)]+)\)|href="#([^"]+)"', html_of(name)))
    assert {first or second for first, second in used} <= set(ids)
    assert "size: A4;" in html_of(name)
    assert "size: letter;" in as_html(printed("long"), "letter")
    assert "table-header-group" in html_of(name)
    assert "counter(pages)" in html_of(name)
    assert kinds.count("svg") == sum(isinstance(part, Figure) for part in printed(name).parts)


def test_html_keeps_what_a_user_writes_as_text() -> None:
    file = 'a"b\\c<style><script>.toml'
    printout = odd(
        ("Test bench", HOSTILE.replace('"', "'")), ("gearbox input", "<img src=x>&amp;"), file=file
    )
    content = as_html(printout)
    page = Page(content)
    assert '"a"b' not in content
    assert "\\22 b\\5c c\\3c style" in content
    kinds = {tag for tag, _ in page.tags}
    assert not kinds & {"script", "img"}
    assert "<img src=x>&amp;" in "".join(page.text)
    assert HOSTILE.replace('"', "'") in "".join(page.text)
    assert file in "".join(page.text)


@pytest.mark.usefixtures("no_drawing")
@pytest.mark.parametrize(
    ("name", "paper"),
    [*((name, "a4") for name in [*SCENARIOS, "long"]), *((name, "letter") for name in ON_LETTER)],
)
def test_pdf_keeps_within_its_margins(name: str, paper: Paper) -> None:
    reader = reader_of(name, paper)
    pages = len(reader.pages)
    size = (210.0, 297.0) if paper == "a4" else (215.9, 279.4)
    for number, page in enumerate(reader.pages, start=1):
        assert [float(side) * 25.4 / 72.0 for side in page.mediabox[2:]] == pytest.approx(size, abs=0.02)
        runs = runs_of(reader, page)
        body = [run for run in runs if run.size != 6.5]
        assert min(run.left for run in runs) > 15.9
        assert max(run.right for run in runs) < size[0] - 15.9
        assert min(run.base for run in body) > 20.0
        assert max(run.base for run in body) < size[1] - 14.0
        assert min(run.base for run in runs) > 5.0
        assert not overlapping(runs)
        text = squeezed(page.extract_text())
        assert f"page{number}of{pages}" in text
        assert assessed(name).file_sha256 in text
        assert f"torqcheck{assessed(name).version}" in text


@pytest.mark.usefixtures("no_drawing")
@pytest.mark.parametrize("name", [*SCENARIOS, "long"])
def test_pdf_says_everything(name: str) -> None:
    assessment = assessed(name)
    text = squeezed("".join(page.extract_text() for page in reader_of(name).pages))
    for line in expected(assessment):
        assert squeezed(line) in text, line
    for row in next(part.rows for part in printed(name).parts if part.title.startswith("Checks")):  # type: ignore[union-attr]
        assert squeezed("".join(row)) in text, row


def test_pdf_heads_of_tables_are_repeated() -> None:
    reader = reader_of("ferry_capstan")
    heads = [
        squeezed(page.extract_text()).count("JointCheckVerdictFactorTargetRangeByValueMPa")
        for page in reader.pages
    ]
    assert heads[:2] == [1, 1]


@pytest.mark.parametrize("name", DRAWN)
def test_pdf_holds_its_fonts_its_figures_and_its_data(name: str) -> None:
    content = as_pdf(printed(name))
    assert content == as_pdf(printout_of(assessed(name), scenario_of(name)))
    assert len(content) < 1_000_000
    reader = PdfReader(io.BytesIO(content))
    assert reader.metadata is not None
    assert reader.metadata.title == assessed(name).title
    assert reader.metadata.producer == f"torqcheck {assessed(name).version}"
    date = scenario_of(name).record.date
    assert reader.metadata.creation_date is not None
    assert reader.metadata.creation_date.date() == date
    fonts = {font["/BaseFont"] for page in reader.pages for font in page["/Resources"]["/Font"].values()}  # type: ignore[index]
    assert fonts
    assert all("+DejaVu" in font for font in fonts)
    figures = sum(isinstance(part, Figure) for part in printed(name).parts)
    assert sum(len(page.images) for page in reader.pages) == figures


@pytest.mark.usefixtures("no_drawing")
def test_pdf_keeps_greek_letters_and_superscripts_and_names_what_the_font_lacks() -> None:
    title = "Prüfstand Ωμλ: 3 m², 10⁻³ {nb} \U0001f529 齿"
    reader = PdfReader(io.BytesIO(as_pdf(odd(("Test bench", title), ("date = 2026-03-14\n", "")))))
    text = reader.pages[0].extract_text()
    assert "Prüfstand Ωμλ: 3 m², 10⁻³ {nb} [U+1F529] [U+9F7F]" in text
    assert reader.metadata is not None
    assert reader.metadata.creation_date is not None
    assert reader.metadata.creation_date.year == 2000
    assert "no date stated" in text


@pytest.mark.parametrize("name", ["cider_press", "ferry_capstan", "long"])
@pytest.mark.parametrize("form", ["text", "markdown"])
def test_text_and_markdown_say_everything(name: str, form: str) -> None:
    assessment = assessed(name)
    if form == "text":
        content = printout_as_text(printout_of(assessment, scenario_of(name), width=NARROW))
        assert max(map(len, content.splitlines())) <= NARROW
    else:
        content = printout_as_markdown(printed(name)).replace("\\", "")
    text = squeezed(content.replace("\n- ", "\n")).lower()
    for line in expected(assessment)[1:]:
        if form == "markdown":
            line = line.replace("\\", "")
        assert squeezed(line).lower() in text, line
    figures = [part for part in printed(name).parts if isinstance(part, Figure)]
    assert content.count("Figure in ") == len(figures)


@pytest.mark.parametrize("name", SCENARIOS)
def test_every_value_of_the_file_and_every_assumption_is_said_back(name: str) -> None:
    scenario, assessment = scenario_of(name), assessed(name)
    tables = [part for part in printed(name).parts if part.title.startswith("Input: ")]
    rows = {row[0]: row for table in tables if isinstance(table, Table) for row in table.rows}
    for number in numeric_keys(scenario):
        key = number.key if number.key in rows else re.sub(r"(\[\d+\])+$", "", number.key)
        assert rows[key][2] == ("as written" if number.kind is None else "measured")
    assert scenario.motor.peak_torque.text == rows["motor.peak_torque"][1]
    keys = [row[0] for table in tables if isinstance(table, Table) for row in table.rows]
    assert len(keys) == len(set(keys))
    marks = {(key, mark) for key, row in rows.items() for mark in (row[2], row[2].split(", ", 1)[-1])}
    assert {(entry.key, entry.mark) for entry in assessment.assumptions} <= marks


@pytest.mark.parametrize("name", SCENARIOS)
def test_the_figures_show_what_was_assessed(name: str) -> None:
    """The traced blow is the worst one; each joint has its bar, and each bar stands in the table."""
    assessment = assessed(name)
    shown = pictured(scenario_of(name), assessment)
    arguments: dict[str, Any] = dict(shown.blow.arguments)
    assert float(peak(**arguments).peak_torque) == pytest.approx(assessment.shock.peak_torque, rel=1e-12)
    assert shown.blow.start == assessment.shock.start
    splined = [joint for joint in assessment.joints if joint.mate is not None]
    assert len(shown.members) == 2 * len(splined)
    worn = [joint for joint in assessment.joints if joint.wear is not None and joint.wear.life is not None]
    assert (shown.life is not None) == bool(worn)
    figures = [part for part in printed(name).parts if isinstance(part, Figure)]
    (bars,) = (figure for figure in figures if figure.title.startswith("Safety factor"))
    assert isinstance(bars.words, Table)
    loaded = {
        check.joint
        for joint in assessment.joints
        for check in joint.checks
        if check.counts and check.safety_factor is not None
    }
    assert all(any(row[0].startswith(f"{joint}: ") for row in bars.words.rows) for joint in loaded)
    missed = sum(check.counts and check.verdict != "pass" for j in assessment.joints for check in j.checks)
    assert len(bars.words.rows) <= max(MOST, len(loaded) + missed)


def test_each_work_is_cited_once() -> None:
    (sources,) = (part for part in printed("ferry_capstan").parts if part.title == "Sources")
    works = {
        source.work
        for joint in assessed("ferry_capstan").joints
        for check in joint.checks
        for source in check.sources
    }
    items = sources.items  # type: ignore[union-attr]
    assert len(items) == len(works)
    assert all(re.search(r"\[[a-z, ]+\]$", item) for item in items)


def test_inch_printouts_show_no_metric_stress() -> None:
    (checks,) = (part for part in printed("orchard_tractor", "inch").parts if part.title.startswith("Checks"))
    assert isinstance(checks, Table)
    titles = [column.title for column in checks.columns]
    assert "Value psi" in titles
    assert "Value MPa" not in titles


def test_bands_of_the_guide_are_in_order() -> None:
    bands = hardness_bands()
    assert all(band.low < band.high for band in bands)
    assert [band.low for band in bands] == sorted(band.low for band in bands)
    assert (
        allowable_stresses(bands[0].hardness_class).shear < allowable_stresses(bands[-1].hardness_class).shear
    )


def test_an_entry_of_a_record_holds_the_printout_and_stays_small() -> None:
    files = entry_files(assessed("ferry_capstan"), scenario_of("ferry_capstan"), {})
    assert files["sheet.html"] == html_of("ferry_capstan").encode()
    assert sum(map(len, files.values())) < 1_000_000
