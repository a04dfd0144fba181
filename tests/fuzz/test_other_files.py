"""Damaged tables, torque records, build records, kept answers and journals: an answer or one clear refusal.

``TORQCHECK_FUZZ=20000 pytest tests/fuzz`` tries so many of each in place of the usual number.
"""

import random
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from builder import edited
from fuzz._asking import Hangs, ask, cases, stopped_after
from fuzz._damage import cells_changed, damaged_bytes
from record._writer import ABOUT, files

from torqcheck.errors import InputError, TorqcheckError
from torqcheck.interview.dialogue import Dialogue
from torqcheck.interview.saved import restored, saved_text
from torqcheck.materials import load_own_table
from torqcheck.record import append, difference, read_log, verify
from torqcheck.scenario.duty_record import read_record

SEED = 20260314
QUICK = 2.0
TABLE = (
    "id,grade,condition,section_max_mm,surface_treatment,surface_hardness_min_HRC,surface_hardness_max_HRC,"
    "case_depth_min_mm,case_depth_max_mm,ultimate_MPa,yield_MPa,core_hardness_min_HB,core_hardness_max_HB,source",
    "SHOP-7,AISI 4140,quenched,,none,,,,,950,800,285,300,mill certificate 2217",
    "SHOP-8,16MnCr5,case hardened,60,carburised,58,62,0.6,0.9,1000,700,300,320,mill certificate 2218",
)
ROUND = ("time_s,torque_Nm,speed_rpm", "0,0,0", "10,120.5,600", "20,-40,1200", "30,0,0")


def refused_in_clear_lines(read: Callable[[], object], name: str) -> str:
    """What is wrong with reading one damaged file; empty if nothing is."""
    try:
        with stopped_after(QUICK):
            read()
    except InputError as error:
        lines = str(error).splitlines()
        if not lines or any(not line.isprintable() or len(line) > 1000 for line in lines):
            return f"not clear: {lines}"
        if not all(name in line for line in lines):
            return f"{name} is not named: {lines}"
    except TorqcheckError as error:
        return f"{type(error).__name__} is no refusal: {error}"
    except (Exception, Hangs) as error:  # noqa: BLE001  any defect is what is looked for
        return f"{type(error).__name__}: {error}"
    return ""


def failures(count: int, one: Callable[[random.Random], str]) -> list[str]:
    """Try so many, each from a seed of its own."""
    found = ((number, one(random.Random(SEED + number))) for number in range(cases(count)))
    return [f"{number}: {problem}" for number, problem in found if problem]


def test_own_tables_of_steels(tmp_path: Path) -> None:
    file = tmp_path / "shop.csv"

    def one(dice: random.Random) -> str:
        sound = "\n".join(TABLE).encode() + b"\n"
        file.write_bytes(
            cells_changed(list(TABLE), dice) if dice.random() < 0.6 else damaged_bytes(sound, dice)
        )
        return refused_in_clear_lines(lambda: load_own_table(file), "shop.csv")

    assert failures(300, one) == []


def test_torque_records(tmp_path: Path) -> None:
    file = tmp_path / "day.csv"

    def one(dice: random.Random) -> str:
        sound = "\n".join(ROUND).encode() + b"\n"
        file.write_bytes(
            cells_changed(list(ROUND), dice) if dice.random() < 0.6 else damaged_bytes(sound, dice)
        )
        return refused_in_clear_lines(
            lambda: read_record(tmp_path / "job.toml", "day.csv", 3600.0), "day.csv"
        )

    assert failures(300, one) == []


def test_build_records(tmp_path: Path) -> None:
    folder = tmp_path / "build"
    for text in ("first", "second"):
        append(folder, files(text), ABOUT)
    places = [place for place in folder.rglob("*") if place.is_file() and place.name != ".lock"]
    sound = {place: place.read_bytes() for place in places}
    for place in (folder, *folder.rglob("*")):
        place.chmod(0o755 if place.is_dir() else 0o644)

    def one(dice: random.Random) -> str:
        place = dice.choice([folder / "log.jsonl", *places])
        place.write_bytes(damaged_bytes(sound[place], dice))
        try:
            problems = [
                refused_in_clear_lines(lambda: read_log(folder), "build"),
                refused_in_clear_lines(lambda: difference(folder / "0001", folder / "0002"), "build"),
            ]
            changed = place.read_bytes() != sound[place]
            if changed == verify(folder).sound:
                problems.append(f"{place.name} was altered, and nobody sees it")
        except (Exception, Hangs) as error:  # noqa: BLE001  any defect is what is looked for
            problems = [f"{type(error).__name__}: {error}"]
        place.write_bytes(sound[place])
        return "; ".join(filter(None, problems))

    assert failures(150, one) == []


@pytest.mark.parametrize(
    "line",
    [
        "[" * 100_000,
        '{"hash": ' + "[" * 100_000,
        '{"number": 1e400}',
        '{"number": ' + "9" * 5000 + "}",
        "NaN",
        "\x00",
    ],
    ids=["deep", "deep inside", "infinite", "long", "no number", "nothing"],
)
def test_a_hostile_line_of_a_build_record(line: str, tmp_path: Path) -> None:
    (tmp_path / "build").mkdir()
    (tmp_path / "build" / "log.jsonl").write_text(line + "\n", encoding="utf-8")
    answer = ask("record", "verify", tmp_path / "build")
    assert (answer.code, answer.err) == (1, "")
    assert max(map(len, answer.out.splitlines())) <= 80
    answer = ask("record", "diff", tmp_path / "build", tmp_path / "build")
    assert answer.code == 2
    (said,) = answer.err.splitlines()
    assert "log.jsonl: line 1 is no" in said


def test_kept_answers() -> None:
    dialogue = Dialogue()
    for said in ("Winch", "240 N*m", "3000 rpm"):
        dialogue = dialogue.fed(said).dialogue
    assert len(dialogue.given) == 3
    sound = saved_text(dialogue, "torqcheck new my.toml --resume").encode()

    def one(dice: random.Random) -> str:
        content = damaged_bytes(sound, dice)
        return refused_in_clear_lines(lambda: restored(content, "my.toml.unfinished"), "my.toml.unfinished")

    assert failures(150, one) == []


@pytest.mark.parametrize(
    "content", [b"answer = " + b"[" * 20_000, b"a." * 50_000 + b"b = 1"], ids=["deep", "dotted"]
)
def test_kept_answers_that_take_long_to_read(content: bytes) -> None:
    assert refused_in_clear_lines(lambda: restored(content, "my.toml.unfinished"), "my.toml.unfinished") == ""


def test_journals_of_a_sweep(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whatever happened to what stands beside it, a resumed sweep gives the same file or refuses."""
    monkeypatch.chdir(tmp_path)
    Path("job.toml").write_text(edited(), encoding="utf-8")
    command = (
        "sweep",
        "job.toml",
        "--vary",
        "joint[1].engagement=20:40 mm:12",
        "--workers",
        "1",
        "--chunk",
        "4",
    )
    assert ask(*command, "--out", "whole.csv", seconds=30.0).code == 0
    whole = Path("whole.csv").read_bytes()
    with monkeypatch.context() as patch:
        patch.setattr(Path, "replace", _fails)
        assert ask(*command, "--out", "rows.csv", seconds=30.0).code == 4
    beside = {path: path.read_bytes() for path in tmp_path.glob("rows.csv.*")}
    assert sorted(path.suffix for path in beside) == [".journal", ".margins", ".part"]

    def one(dice: random.Random) -> str:
        for path, content in beside.items():
            path.write_bytes(damaged_bytes(content, dice) if dice.random() < 0.6 else content)
        Path("rows.csv").unlink(missing_ok=True)
        try:
            answer = ask(*command, "--out", "rows.csv", "--resume", seconds=30.0)
        except (Exception, Hangs) as error:  # noqa: BLE001  any defect is what is looked for
            return f"{type(error).__name__}: {error}"
        if answer.code == 0:
            return "" if Path("rows.csv").read_bytes() == whole else "the rows differ"
        return "" if answer.code == 2 and len(answer.err.splitlines()) == 1 else f"{answer}"

    assert failures(25, one) == []
    shutil.rmtree(tmp_path, ignore_errors=True)


def _fails(*_: object) -> None:
    raise OSError(28, "No space left on device")
