"""The printout as the content of a file: its form follows the ending of the name."""

from pathlib import Path

from torqcheck.assessment.result import Assessment
from torqcheck.report.formats.as_html import Paper, as_html
from torqcheck.report.printout.text import printout_as_markdown, printout_as_text
from torqcheck.report.printout.whole import NARROW, printout_of
from torqcheck.scenario import Scenario

__all__ = ["sheet_content"]


def sheet_content(
    assessment: Assessment, scenario: Scenario, name: Path, units: str = "both", paper: Paper = "a4"
) -> bytes:
    """
    Return what belongs into a sheet of that name.

    Parameters
    ----------
    assessment : Assessment
        The result.
    scenario : Scenario
        What was assessed.
    name : Path
        Ends in .html, .pdf, .md or .txt.
    units : str, optional
        ``si``, ``inch`` or ``both``.
    paper : str, optional
        ``a4`` or ``letter``; plain text and Markdown know no pages.
    """
    ending = name.suffix.lower()
    if ending == ".txt":
        return printout_as_text(printout_of(assessment, scenario, units, width=NARROW), NARROW).encode()
    printout = printout_of(assessment, scenario, units)
    if ending == ".pdf":
        from torqcheck.report.formats.as_pdf import as_pdf

        return as_pdf(printout, paper)
    return (as_html(printout, paper) if ending == ".html" else printout_as_markdown(printout)).encode()
