"""The printout as one HTML file: no network, no script, figures as lines inside it, rules for paper."""

import re
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Any, Literal

from torqcheck.report.formats.figure_file import drawn
from torqcheck.report.sheet import Blanks, Fields, Figure, Note, Part, Printout, Table
from torqcheck.report.words import VERDICT_WORDS

if TYPE_CHECKING:
    from jinja2 import Template

__all__ = ["Paper", "as_html"]

Paper = Literal["a4", "letter"]
LONGEST_WORD = 30
"""Letters; a cell with a longer one may be broken anywhere."""
_KINDS = {Table: "table", Note: "note", Fields: "fields", Blanks: "blanks", Figure: "figure"}
_BEFORE_SVG = re.compile(r"^.*?(?=<svg)", re.DOTALL)
_METADATA = re.compile(r"<metadata>.*?</metadata>|<title>.*?</title>", re.DOTALL)
_STYLE_BLOCK = re.compile(r"<style[^>]*>.*?</style>", re.DOTALL)
_COMMENT = re.compile(r"<!--.*?-->", re.DOTALL)
_NAMESPACE = re.compile(r'\s+(?:xmlns(?::\w+)?|version)="[^"]*"')
_ID = re.compile(r'\s+id="([^"]*)"')
_USE = re.compile(r'(?:url\(#|href="#)([^")]+)')
_PATH = re.compile(r'\sd="[^"]*"')
_DIGITS = re.compile(r"(\.\d\d)\d+")


def as_html(printout: Printout, paper: Paper = "a4") -> str:
    """
    Render a printout as one self-contained file.

    Parameters
    ----------
    printout : Printout
        What is said.
    paper : str, optional
        ``a4`` or ``letter``: size of the page when it is printed.

    Returns
    -------
    str
        HTML; the same for the same printout. Everything that comes from the scenario is escaped.
    """
    parts = [
        {"kind": _KINDS[type(part)], "part": part, "short": _short(part), "svg": _figure(part, number)}
        for number, part in enumerate(printout.parts, start=1)
    ]
    return _template().render(
        printout=printout,
        parts=parts,
        verdict=VERDICT_WORDS[printout.verdict],
        words=_grouped(printout.words),
        foot=[_css_text(line) for line in printout.foot],
        css=_shipped("printout.css"),
        page="A4" if paper == "a4" else "letter",
    )


@cache
def _template() -> "Template":
    from jinja2 import Environment, StrictUndefined

    environment = Environment(
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    environment.tests["unbroken"] = lambda text: max(map(len, text.split()), default=0) > LONGEST_WORD
    return environment.from_string(_shipped("printout.html.jinja"))


def _shipped(name: str) -> str:
    return files("torqcheck.report.formats").joinpath(name).read_text("utf-8")


def _css_text(text: str) -> str:
    r"""
    Write a text so that it can stand between the quotes of a style sheet, whatever it holds.

    Examples
    --------
    >>> _css_text('a "b".toml')
    'a\\20 \\22 b\\22 \\2e toml'
    """
    return "".join(
        letter if letter.isascii() and letter.isalnum() else f"\\{ord(letter):x} " for letter in text
    )


def _grouped(words: tuple[str, ...]) -> list[tuple[str, list[str]]]:
    """Sentences, each with the items that belong to it."""
    groups: list[tuple[str, list[str]]] = []
    for line in words:
        if line.startswith("  ") and groups:
            groups[-1][1].append(line.strip())
        else:
            groups.append((line, []))
    return groups


def _short(part: Part) -> bool:
    """Whether a part stays in one piece on paper: a short table, or a form to fill in."""
    return isinstance(part, Blanks) or (isinstance(part, Table) and part.short)


def _figure(part: Part, number: int) -> Any:
    """The lines of a figure, safe to stand inside a page; None for anything else."""
    if not isinstance(part, Figure):
        return None
    from markupsafe import Markup

    def draw(figure: Any) -> None:
        part.draw(figure)
        _thin_out(figure)

    svg = drawn(draw, part.title, ".svg").decode("utf-8")
    # what matplotlib wrote: it escapes every text that it was given
    return Markup(_inline_svg(svg, f"f{number}-"))


def _thin_out(figure: Any) -> None:
    """Draw fewer dots in dotted areas: each one is a curve of its own, and they would be most of the file."""
    for artist in figure.findobj(lambda artist: getattr(artist, "get_hatch", lambda: None)() == "...."):
        artist.set_hatch("..")


def _inline_svg(svg: str, prefix: str) -> str:
    """
    Make the content of an SVG file fit to stand in a page beside others.

    Names get a prefix, so that those of two figures never clash; what points outside is left out, and so
    are the fixed size and the style sheet, which would rule the whole page.
    """
    text = _STYLE_BLOCK.sub("", _METADATA.sub("", _COMMENT.sub("", _BEFORE_SVG.sub("", svg))))
    head, body = text.split(">", 1)
    head = re.sub(r'\s+(?:width|height)="[^"]*"', "", _NAMESPACE.sub("", head))
    used = set(_USE.findall(body))
    body = _ID.sub(lambda found: f' id="{prefix}{found[1]}"' if found[1] in used else "", body)
    body = body.replace("xlink:href=", "href=").replace("url(#", f"url(#{prefix}")
    body = body.replace('href="#', f'href="#{prefix}')
    # a hundredth of a point is finer than any printer
    body = _PATH.sub(lambda found: _DIGITS.sub(r"\1", found[0]), body)
    return re.sub(r"\n\s*", "\n", f'{head} aria-hidden="true" focusable="false">{body}').strip()
