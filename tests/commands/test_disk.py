"""Full disks, folders that cannot be written, links that lead nowhere, readers that go away."""

import contextlib
import errno
import io
import os
import resource
import shutil
import signal
import sys
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from builder import EXAMPLES, edited
from fuzz._asking import Answer, ask

SCENARIOS = EXAMPLES[0].parent
STACK = str(SCENARIOS / "glasshouse_tug.toml")
SIZE = ("geometry", "din 5480", "--designation", "50x2x24")
VARY = ("--vary", "joint[1].engagement=20:40 mm:300")
PAIR = ("--external", "4140_QT425,8620_carb_30")
OUTPUTS: dict[str, tuple[str, ...]] = {
    "report": ("assess", "job.toml", "--out", "o.txt"),
    "sheet as HTML": ("assess", "job.toml", "--sheet", "o.html"),
    "sheet as PDF": ("sheet", "job.toml", "--out", "o.pdf"),
    "sheet as text": ("sheet", "job.toml", "--out", "o.md"),
    "outline of an order": ("order", "job.toml", "--side", "external", "--dxf", "o.dxf"),
    "order": ("order", "job.toml", "--side", "external", "--out", "o.txt"),
    "outline": (*SIZE, "--dxf", "o.dxf"),
    "figure of a size": (*SIZE, "--figure", "o.svg"),
    "figure of a life": ("life", "job.toml", "--figure", "o.png"),
    "figure of a stack": ("stack", STACK, "--figure", "o.svg"),
    "figure of a ramp": ("ramp", "job.toml", "--figure", "o.svg"),
    "figure of steels": ("compare", "job.toml", *PAIR, "--figure", "o.svg"),
    "rows": ("sweep", "job.toml", *VARY, "--workers", "1", "--out", "o.csv"),
    "steps": ("why", "job.toml", "weakest.safety_factor", "--out", "o.txt"),
    "steels": ("materials", "--out", "o.txt"),
    "schema": ("schema", "--out", "o.json"),
    "template": ("new", "o.toml", "--template"),
    "copy": ("new", "o.toml", "--from", "works_trolley"),
}
HALF_A_MINUTE = 30.0


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    (tmp_path / "job.toml").write_text(edited(), encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


@contextlib.contextmanager
def no_room(size: int) -> Iterator[None]:
    """Let no file grow beyond a size, as a disk that has no room left does."""
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, before[1]))
    handler = signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    # a module that is imported now would leave its compiled form cut off, and break every run after this one
    writes, sys.dont_write_bytecode = sys.dont_write_bytecode, True
    try:
        yield
    finally:
        sys.dont_write_bytecode = writes
        signal.signal(signal.SIGXFSZ, handler)
        resource.setrlimit(resource.RLIMIT_FSIZE, before)


def is_output_trouble(answer: Answer) -> None:
    """One line that says which file cannot be written, and why."""
    assert answer.code == 4, answer.err
    (line,) = (line for line in answer.err.splitlines() if "cannot be written" in line)
    assert answer.err.splitlines()[-1] == line
    assert "defect" not in answer.err


@pytest.mark.parametrize("name", OUTPUTS)
def test_a_full_disk_leaves_nothing_half_written(name: str, folder: Path) -> None:
    with no_room(100):
        answer = ask(*OUTPUTS[name], seconds=HALF_A_MINUTE)
    is_output_trouble(answer)
    assert os.listdir(folder) == ["job.toml"]


def test_a_full_disk_leaves_no_entry_of_a_record(folder: Path) -> None:
    with no_room(100):
        answer = ask("assess", "job.toml", "--record", "build", seconds=HALF_A_MINUTE)
    assert answer.code == 4
    assert "cannot be written" in answer.err.splitlines()[-1]
    assert [path.name for path in (folder / "build").rglob("*") if path.name != ".lock"] == []
    assert ask("assess", "job.toml", "--record", "build", seconds=HALF_A_MINUTE).code in {0, 1, 3}
    assert ask("record", "verify", "build").code == 0


def test_a_disk_that_fills_during_a_sweep_keeps_its_rows(folder: Path) -> None:
    command = ("sweep", "job.toml", *VARY, "--workers", "1", "--chunk", "100", "--out", "o.csv")
    assert ask(*command, seconds=HALF_A_MINUTE).code == 0
    whole = (folder / "o.csv").read_bytes()
    (folder / "o.csv").unlink()
    with no_room(len(whole) // 2):
        answer = ask(*command, seconds=HALF_A_MINUTE)
    is_output_trouble(answer)
    assert "100 rows are kept beside it" in answer.err
    assert "--resume" in answer.err
    assert ask(*command, "--resume", seconds=HALF_A_MINUTE).code == 0
    assert (folder / "o.csv").read_bytes() == whole


@pytest.fixture
def locked_folder() -> Iterator[Path]:
    """A folder that everybody may read and nobody may write."""
    place = Path(tempfile.mkdtemp())
    (place / "job.toml").write_text(edited(), encoding="utf-8")
    place.chmod(0o555)
    yield place
    place.chmod(0o755)
    shutil.rmtree(place)


@contextlib.contextmanager
def without_rights() -> Iterator[None]:
    """Be nobody for a while: the superuser may write anywhere."""
    if os.geteuid() != 0:
        yield
        return
    os.seteuid(65534)
    try:
        yield
    finally:
        os.seteuid(0)


@pytest.mark.parametrize(
    "name", ["report", "sheet as HTML", "outline", "figure of a size", "rows", "template", "schema"]
)
def test_a_folder_that_cannot_be_written(
    name: str, folder: Path, locked_folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    ask(*OUTPUTS[name], seconds=HALF_A_MINUTE)  # loads what nobody might not read
    monkeypatch.chdir(locked_folder)
    with without_rights():
        answer = ask(*OUTPUTS[name], seconds=HALF_A_MINUTE)
    is_output_trouble(answer)
    assert "Permission denied" in answer.err
    assert os.listdir(locked_folder) == ["job.toml"]


def test_a_scenario_that_cannot_be_read(locked_folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(locked_folder)
    assert ask("assess", "job.toml", seconds=HALF_A_MINUTE).code in {0, 1, 3}
    (locked_folder / "job.toml").chmod(0)
    with without_rights():
        answer = ask("assess", "job.toml")
    assert (answer.code, answer.err) == (
        2,
        "job.toml: cannot be read: Permission denied; name a scenario file that you may read\n",
    )


def link_to_nothing(link: Path) -> None:
    link.symlink_to("nothing")


def link_in_a_circle(link: Path) -> None:
    link.symlink_to(f"{link.name}.other")
    link.with_name(f"{link.name}.other").symlink_to(link.name)


def link_to_a_folder(link: Path) -> None:
    link.symlink_to(".")


def pipe(link: Path) -> None:
    os.mkfifo(link)


LINKS: list[Callable[[Path], None]] = [link_to_nothing, link_in_a_circle, link_to_a_folder, pipe]


@pytest.mark.parametrize("make", LINKS, ids=lambda make: make.__name__)
def test_links_that_lead_to_no_file_are_refused_for_input(make: Callable[[Path], None], folder: Path) -> None:
    make(folder / "x.toml")
    make(folder / "x.csv")
    text = edited()
    duty = text[text.index("[[duty]]") : text.index("[[joint]]")]
    record = '[duty_file]\npath = "x.csv"\nrepeats_every = "8 hour"\n\n'
    (folder / "recorded.toml").write_text(edited((duty, record)), encoding="utf-8")
    steels = '[materials]\ntables = ["x.csv"]\n\n[motor]'
    (folder / "steels.toml").write_text(edited(("[motor]", steels)), encoding="utf-8")
    for file in ("x.toml", "recorded.toml", "steels.toml"):
        answer = ask("assess", file)
        assert (answer.code, answer.out) == (2, ""), answer
        (line,) = answer.err.splitlines()
        assert line.startswith(f"{file}: ")
    for folder_that_is_none in ("x.toml", "x.csv"):
        answer = ask("record", "verify", folder_that_is_none)
        assert (answer.code, len(answer.err.splitlines())) == (2, 1), answer


@pytest.mark.parametrize("make", LINKS[1:], ids=lambda make: make.__name__)
def test_links_that_lead_to_no_file_are_refused_for_output(
    make: Callable[[Path], None], folder: Path
) -> None:
    for name in ("o.txt", "o.html", "o.pdf", "o.csv", "o.dxf", "o.svg", "o.toml", "build"):
        make(folder / name)
    before = sorted(os.listdir(folder))
    names = (
        "report",
        "sheet as HTML",
        "rows",
        "outline",
        "figure of a size",
        "template",
        "copy",
        "sheet as PDF",
    )
    record = ("assess", "job.toml", "--record", "build")
    for arguments in (
        *(OUTPUTS[name] for name in names),
        *([record] if make is not link_to_a_folder else []),
    ):
        answer = ask(*arguments, seconds=HALF_A_MINUTE)
        assert answer.code in {2, 4}, answer
        (line,) = answer.err.splitlines()
        assert "defect" not in line
    assert sorted(os.listdir(folder)) == before


class Gone(io.StringIO):
    """A standard output whose reader has gone away."""

    def write(self, text: str, /) -> int:
        raise BrokenPipeError(errno.EPIPE, "Broken pipe")


@pytest.mark.parametrize(
    "arguments",
    [
        *(("assess", "job.toml", "--format", form) for form in ("table", "json", "csv", "markdown")),
        ("life", "job.toml"),
        ("ramp", "job.toml"),
        ("stack", STACK),
        ("why", "job.toml"),
        ("order", "job.toml", "--side", "external"),
        ("sweep", "job.toml", *VARY, "--workers", "1"),
        SIZE,
        ("materials",),
        ("schema",),
        ("new", "o.toml", "--template"),
        ("record", "--help"),
        ("--version",),
    ],
    ids=" ".join,
)
def test_a_reader_that_goes_away_is_no_defect(arguments: tuple[str, ...], folder: Path) -> None:
    answer = ask(*arguments, seconds=HALF_A_MINUTE, output=Gone())
    assert answer.code in {0, 4}, answer.err
    assert answer.err in {"", "standard output: cannot be written: Broken pipe\n"}
