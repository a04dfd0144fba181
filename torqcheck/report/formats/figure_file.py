"""A figure drawn by matplotlib and written whole; the same input gives the same bytes."""

import io
import warnings
from collections.abc import Callable
from pathlib import Path
from typing import Any

from torqcheck.errors import OutputError
from torqcheck.report.formats.files import write_whole
from torqcheck.report.formats.letters import font_letters, legible

__all__ = ["FIGURE_FORMS", "drawn", "write_drawing"]

FIGURE_FORMS = (".svg", ".png")
RESOLUTION = 150
STYLE: Any = {
    "svg.hashsalt": "torqcheck", "svg.fonttype": "none", "hatch.linewidth": 0.4, "font.size": 9.0,
    "hatch.color": "#555555", "text.parse_math": False,
}  # fmt: skip


def write_drawing(path: Path, draw: Callable[[Any], None], title: str) -> None:
    """
    Let `draw` fill an empty figure and write it: beside the file first, then in its place.

    Raises
    ------
    OutputError
        If the folder is missing or not writable, or the name has another ending than `FIGURE_FORMS`.
    """
    ending = path.suffix.lower()
    if ending not in FIGURE_FORMS:
        raise OutputError(f"{path}: a figure ends in {' or '.join(FIGURE_FORMS)}")
    content = drawn(draw, title, ending)
    write_whole(path, content.decode() if ending == ".svg" else content)


def drawn(draw: Callable[[Any], None], title: str, ending: str, resolution: int = RESOLUTION) -> bytes:
    """
    Let `draw` fill an empty figure and return it as the content of a file.

    Parameters
    ----------
    draw : callable
        Fills a figure of matplotlib.
    title : str
        Stands in the data about the file.
    ending : str
        ``.svg`` or ``.png``.
    resolution : int, optional
        Points to the inch of a PNG.
    """
    import matplotlib as mpl
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    with mpl.rc_context(STYLE), warnings.catch_warnings():
        # an SVG keeps its letters for the fonts of its reader, and is measured with those of matplotlib
        warnings.filterwarnings("ignore", r"Glyph \d+ .* missing from", UserWarning)
        figure = Figure()
        FigureCanvasAgg(figure)
        draw(figure)
        if ending == ".png":
            _write_legibly(figure)
        stream = io.BytesIO()
        metadata: dict[str, Any] = {"Title": title}
        if ending == ".svg":
            metadata["Date"] = None
        figure.savefig(stream, format=ending[1:], dpi=resolution, metadata=metadata)
    return stream.getvalue()


def _write_legibly(figure: Any) -> None:
    """Write the letters that the font lacks by their numbers, as the rest of the printout does."""
    from matplotlib.text import Text

    for axes in figure.axes:
        for axis in (axes.xaxis, axes.yaxis):
            labels = [text.get_text() for text in axis.get_ticklabels()]
            if (shown := [_legible(label) for label in labels]) != labels:
                axis.set_ticklabels(shown)
    for text in figure.findobj(Text):
        if (shown_text := _legible(text.get_text())) != text.get_text():
            text.set_text(shown_text)


def _legible(text: str) -> str:
    return "\n".join(legible(line, font_letters()) for line in text.split("\n"))
