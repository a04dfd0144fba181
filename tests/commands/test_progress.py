"""What a terminal shows during a long command, and that nothing of it reaches a pipe."""

import json
import os
import pty
import subprocess
import sys
import threading
from pathlib import Path

import pytest
from builder import EXAMPLES

STEELS = (
    "4140_QT540,4140_ind,1144_SR,4340_QT425,4140_QT425,8620_carb_30,16MnCr5_carb_40,1045_norm,8620_carb_63,"
    "42CrMo4_QT_100,4140_nit,4140_PH28_32,"
    "4130_norm,4130_QT540,4340_QT540,6150_QT540,1045_ind,41Cr4_QT_40"
)
CAPSTAN = next(path for path in EXAMPLES if path.stem == "ferry_capstan")
CARRIER = next(path for path in EXAMPLES if path.stem == "vineyard_carrier")
ELEVATOR = next(path for path in EXAMPLES if path.stem == "hop_elevator")

COUNTED = {
    "compare": ("compare", CAPSTAN, "--joint", "capstan shaft", "--external", STEELS),
    "size": ("size", CAPSTAN, "--joint", "capstan shaft", "--find", "engagement"),
    "sweep": ("sweep", ELEVATOR, "--vary", "joint[1].engagement=20:60 mm:24", "--method", "all"),
    "influence": ("influence", CARRIER),
}
"""Each takes more than the second after which a bar appears, on any machine that is known."""
WORDS = {"compare": b"steels", "size": b"scenarios tried", "sweep": b"points", "influence": b"repeats"}


def on_terminal(arguments: tuple[str | Path, ...], **environment: str) -> tuple[str, bytes]:
    """What a command writes to its standard output, and what to the terminal on standard error."""
    ours, theirs = pty.openpty()
    shown: list[bytes] = []

    def read() -> None:
        try:
            while chunk := os.read(ours, 65536):
                shown.append(chunk)
        except OSError:
            pass  # the other end is closed

    reader = threading.Thread(target=read)
    reader.start()
    command = [sys.executable, "-m", "torqcheck", *map(str, arguments), "--format", "json"]
    run = subprocess.run(
        command, stdout=subprocess.PIPE, stderr=theirs, timeout=120, check=False,
        env={**os.environ, "TERM": "xterm", "COLUMNS": "80", **environment},
    )  # fmt: skip
    os.close(theirs)
    reader.join(timeout=60)
    os.close(ours)
    return run.stdout.decode(), b"".join(shown)


@pytest.mark.parametrize("name", COUNTED)
def test_what_can_be_counted_has_a_bar(name: str) -> None:
    output, shown = on_terminal(COUNTED[name])
    assert json.loads(output)
    assert WORDS[name] in shown
    assert b"/s" in shown
    assert shown.rstrip().endswith(b"\x1b[2K"), "the bar is gone at the end"


def test_what_cannot_be_counted_shows_the_seconds() -> None:
    output, shown = on_terminal(("ramp", CARRIER))
    assert json.loads(output)
    assert b"ramp, 1 s" in shown
    assert shown.rstrip().endswith(b"\x1b[2K"), "the line is gone at the end"


def test_a_short_command_shows_nothing() -> None:
    output, shown = on_terminal(("mate", CARRIER))
    assert json.loads(output)
    assert shown == b""


def test_no_colour_where_none_is_wanted() -> None:
    _, shown = on_terminal(COUNTED["influence"], NO_COLOR="1")
    assert b"repeats" in shown
    assert b"\x1b[3" not in shown
