"""Pictures of the torque-time trace: the right events at the right places, in plot, figure and words."""

import math
import re
import xml.etree.ElementTree as ET
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from published._case import Case
from report.test_terminal_plot import Plot
from shock.test_peak import TROLLEY, blows

from torqcheck.errors import DomainError, OutputError
from torqcheck.report.formats.as_text import as_text
from torqcheck.report.plots.trace_events import TracePicture, motor_line, trace_picture, trace_table
from torqcheck.report.plots.trace_plot import terminal_trace, trace_words, write_trace_figure
from torqcheck.report.sheet import Sheet
from torqcheck.shock import Trace, peak, trace

SOURCE = "Two-inertia torsional model, closed form and independent integration"
STEP = math.inf
# TROLLEY: 0.05 and 1.2 kg m2, 12 000 N m/rad, damping ratio 0.03, 0.02 rad of lash, 4000 N m/s to 240 N m
FAST = TROLLEY | {"torque_rise": STEP}
HAMMERING = FAST | {"damping_ratio": 0.001, "lash": 0.05}


def picture_of(arguments: dict[str, float], **other: object) -> TracePicture:
    result = trace(**arguments)
    motor = motor_line(
        arguments["torque_rise"],
        arguments["peak_torque"],
        result.times[-1],
        arguments.get("start_torque", 0.0),
    )
    steady = peak(**arguments).steady_torque
    return trace_picture(result, motor=motor, steady_torque=float(steady), title="Trolley", **other)  # type: ignore[arg-type]


def check(
    where: str, printed: str, ours: float, unit: float = 1.0, slack: float = 0.0, because: str = ""
) -> None:
    Case(SOURCE, where, "derived", TROLLEY, printed, unit, slack, because).check(ours)


def times_of(picture: TracePicture, kind: str) -> list[float]:
    return [event.time for event in picture.events if event.kind == kind]


def test_closings_of_the_instant_rise() -> None:
    picture = picture_of(FAST)
    closings = times_of(picture, "flanks meet")
    for printed, ours in zip(("2.8868", "16.2816", "28.9111", "40.8024"), closings, strict=True):
        check("case B7, closings", printed, ours, 1e-3)
    assert len(times_of(picture, "flanks part")) == 3
    (top,) = [event for event in picture.events if event.is_point]
    assert top.kind == "first blow and peak"
    check("case B7, peak", "604.92543", top.torque)
    check("case B7, time of the peak", "7.0813", top.time, 1e-3)


def test_events_of_the_ramp() -> None:
    picture = picture_of(TROLLEY)
    assert [event.kind for event in picture.events] == [
        "flanks meet",
        "first blow",
        "flanks part",
        "flanks meet",
        "peak",
    ]
    assert "".join(event.letter for event in picture.events) == "ABCDE"
    assert [event.torque for event in picture.events if event.kind == "flanks part"] == [0.0]
    # just after the flanks have met the viscous path carries damping times closing speed
    damping = 2.0 * 0.03 * math.sqrt(12000.0 * 0.048)
    assert picture.events[0].torque == pytest.approx(damping * 5.241483, rel=1e-6)
    check("case B9, closing", "11.447142", picture.events[0].time, 1e-3)
    check("case B9, peak", "289.32978", picture.peak.torque)
    check("case B9, time of the peak", "65.7515", picture.peak.time, 1e-3)


@pytest.mark.parametrize(
    ("where", "changes", "torque", "time"),
    [
        ("case B8", {}, "185.02079", "15.42323"),
        ("case B13", {"torque_rise": 20000.0}, "434.88881", "11.44695"),
        ("case B14", {"lash": 0.005}, "95.30560", "11.81864"),
    ],
)
def test_first_blow(where: str, changes: dict[str, float], torque: str, time: str) -> None:
    picture = picture_of(TROLLEY | {"damping_ratio": 0.0} | changes)
    (blow,) = [event for event in picture.events if event.kind.startswith("first blow")]
    because = "top of a parabola through three samples of 48 to a period"
    check(where, torque, blow.torque, slack=2e-5 * float(torque), because=because)
    check(where, time, blow.time, 1e-3, slack=2e-3, because=because)


def test_the_terminal_plot_has_every_event_at_its_place() -> None:
    for arguments in (TROLLEY, FAST):
        picture = picture_of(arguments)
        plot = Plot(terminal_trace(picture))
        letters = "".join(plot.above)
        for event in picture.named:
            if event.is_point:
                ((x, y),) = plot.places(event.letter)
                assert abs(y - event.torque) <= 0.5 * plot.y_cell + 1e-6
            else:
                x = plot.x(letters.index(event.letter))
            assert abs(x - event.time * 1e3) <= 0.5 * plot.x_cell + 1e-6
        steady = next(row for row, cells in enumerate(plot.cells) if cells.endswith(" a"))
        assert abs(plot.y(steady) - 230.4) <= 0.5 * plot.y_cell


def test_the_terminal_plot_shows_the_motor_torque() -> None:
    plot = Plot(terminal_trace(picture_of(TROLLEY)))
    for x, y in plot.places("o"):
        assert abs(y - min(4.0 * x, 240.0)) <= 0.5 * plot.y_cell + 4.0 * 0.5 * plot.x_cell + 1e-6
    assert len(plot.places("o")) > 25


@pytest.mark.parametrize("encoding", ["ascii", "utf-8"])
@pytest.mark.parametrize("arguments", [TROLLEY, FAST, HAMMERING], ids=["ramp", "step", "hammering"])
def test_plot_table_and_words_name_every_event(
    arguments: dict[str, float], encoding: str, tmp_path: Path
) -> None:
    picture = picture_of(arguments)
    plot = "\n".join(terminal_trace(picture, encoding=encoding))
    words = " ".join(trace_words(picture, tmp_path / "trace.svg"))
    table = as_text(Sheet("", (), None, (), (trace_table(picture),)), 80)
    for event in picture.named:
        assert event.words() in plot
        assert event.words() in words
        assert re.search(rf"^{event.letter} +[\d.]+  {event.kind} ", table, re.M)
    counted = sum(1 for event in picture.events if not event.letter)
    for text in (plot, words, table):
        more = [int(number) for number in re.findall(r"(\d+) more times", text)]
        assert sum(more) == counted
        assert "230" in text
    assert max(map(len, plot.splitlines())) <= 80


def test_plain_words() -> None:
    plot = "\n".join(terminal_trace(picture_of(TROLLEY)))
    for words in ("flanks meet at 11.4 ms", "flanks part at 19.9 ms", "peak 289 N m at 65.8 ms"):
        assert words in plot
    assert "peak 213 lbf ft at 65.8 ms" in "\n".join(terminal_trace(picture_of(TROLLEY), system="inch"))


def test_many_contact_losses_are_counted() -> None:
    picture, blow = picture_of(HAMMERING), peak(**HAMMERING)
    losses = times_of(picture, "flanks part")
    assert len(losses) == blow.contact_losses
    assert sum(event.kind == "flanks part" for event in picture.named) == 3
    assert f"flanks part {len(losses) - 3} more times, the last at " in picture.uncounted()[-1]
    assert picture.until < 0.1 < losses[-1]


def test_start_from_regeneration_leaves_the_coast_flank_first() -> None:
    picture = picture_of(TROLLEY | {"torque_rise": 20000.0, "start_torque": -60.0})
    kinds = [event.kind for event in picture.events]
    assert kinds[:2] == ["coast flanks part", "flanks meet"]
    check("case B26, closing", "8.63922", picture.events[1].time, 1e-3)
    check("case B26, peak", "372.33196", picture.peak.torque)
    assert picture.shown_motor()[1][0] == -60.0


def test_no_lash_no_meeting() -> None:
    picture = picture_of(TROLLEY | {"lash": 0.0})
    assert [event.kind for event in picture.events] == ["peak"]
    check("case B4, time of the peak", "62.276", picture.peak.time, 1e-3)


def test_slip_is_marked_with_its_spans() -> None:
    result = trace(**TROLLEY)
    slip = np.zeros(result.times.size, np.int64)
    slip[(result.times >= 0.030) & (result.times < 0.035)] = 1
    slip[(result.times >= 0.050) & (result.times < 0.055)] = -1
    picture = picture_of(TROLLEY, slip=slip)
    spans = np.array(picture.spans("slip"))
    assert spans == pytest.approx(np.array([[0.030, 0.035], [0.050, 0.055]]), abs=3e-4)
    assert times_of(picture, "slip begins") == pytest.approx(list(spans[:, 0]))
    assert times_of(picture, "slip ends") == pytest.approx(list(spans[:, 1]))
    assert "slip begins at 30" in "\n".join(terminal_trace(picture))
    assert picture_of(TROLLEY).spans("slip") == ()


def test_gap_spans_are_where_nothing_touches() -> None:
    picture = picture_of(TROLLEY)
    first, second = picture.spans("gap")
    parted, met = times_of(picture, "flanks part"), times_of(picture, "flanks meet")
    assert first == (0.0, met[0])
    assert second == (parted[0], met[1])


@given(blows)
@settings(max_examples=60, deadline=None)
def test_every_case_can_be_shown(case: dict[str, float]) -> None:
    picture, blow = picture_of(case), peak(**case)
    assert picture.peak.torque == pytest.approx(blow.peak_torque, rel=1e-9)
    if blow.settled:
        assert len(times_of(picture, "flanks part")) == blow.contact_losses
    assert len(picture.named) <= 26
    times = [event.time for event in picture.events]
    assert times == sorted(times)
    assert all(event.time <= picture.until for event in picture.named)
    times, torque = picture.shown_path()
    assert times[-1] == pytest.approx(picture.until)
    assert torque.max() == pytest.approx(blow.peak_torque, rel=1e-9)
    for encoding, width in (("ascii", 80), ("utf-8", 120)):
        lines = terminal_trace(picture, width=width, encoding=encoding)
        assert max(map(len, lines)) <= width
        assert all(line.isprintable() for line in lines)


@pytest.mark.parametrize("ending", [".svg", ".png"])
def test_figure_is_written_whole(ending: str, tmp_path: Path) -> None:
    target = tmp_path / f"trace{ending}"
    write_trace_figure(target, picture_of(HAMMERING))
    content = target.read_bytes()
    assert content.startswith(b"\x89PNG") if ending == ".png" else ET.fromstring(content) is not None
    assert [path.name for path in tmp_path.iterdir()] == [target.name]


def test_figure_carries_its_words_and_is_the_same_twice(tmp_path: Path) -> None:
    slip = np.zeros(trace(**TROLLEY).times.size, np.int64)
    slip[200:240] = 1
    picture = picture_of(TROLLEY, slip=slip)
    for name in ("a.svg", "b.svg"):
        write_trace_figure(tmp_path / name, picture)
    svg = (tmp_path / "a.svg").read_text()
    assert svg == (tmp_path / "b.svg").read_text()
    for event in picture.named:
        assert f">{event.letter}  {event.words()}<" in svg
        assert f">{event.letter}<" in svg
    for words in (
        "solid: torque in the path",
        "dashed: motor torque",
        "dash-dot: steady torque",
        "torque, N m",
    ):
        assert words in svg
    # without colour: hatching for gap and slip, dashes for the motor
    assert len(re.findall(r"<pattern ", svg)) == 2
    assert "stroke-dasharray" in svg


def test_letters_of_a_figure_stand_at_their_times(tmp_path: Path) -> None:
    picture = picture_of(FAST)
    write_trace_figure(tmp_path / "trace.svg", picture)
    svg = (tmp_path / "trace.svg").read_text()
    places = {
        letter: float(x) for x, letter in re.findall(r'text-anchor: middle" x="([\d.]+)"[^>]*>([A-Z])<', svg)
    }
    moments = [event for event in picture.named if not event.is_point]
    xs = np.array([places[event.letter] for event in moments])
    times = np.array([event.time for event in moments])
    scale, start = np.polyfit(times, xs, 1)
    assert start + scale * times == pytest.approx(xs, abs=0.01)
    assert scale * picture.until == pytest.approx(72.0 * (8.2 - 0.75 - 0.2), rel=1e-3)


def test_refusals(tmp_path: Path) -> None:
    picture = picture_of(TROLLEY)
    with pytest.raises(OutputError, match=r"a figure ends in \.svg or \.png"):
        write_trace_figure(tmp_path / "trace.pdf", picture)
    empty = Trace(*(values[:0] for values in trace(**TROLLEY)))
    with pytest.raises(DomainError, match="the trace holds no times"):
        trace_picture(empty, motor=picture.motor, steady_torque=230.0, title="")
