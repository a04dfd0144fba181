"""The file of a sweep where its last steps, or the disk, fail."""

from pathlib import Path

import pytest
from builder import loaded

from torqcheck.assessment.sweep.run import Question, question_of
from torqcheck.errors import OutputError, StoppedError
from torqcheck.report.sweep import file as sweep_file
from torqcheck.report.sweep.run import Swept, swept_to_file

ENDINGS = ("csv", "parquet")


def question() -> Question:
    vary = ["joint[1].engagement=20:40 mm:10", "motor.peak_torque=100:300 N*m:10"]
    return question_of(loaded(), vary, chunk=15)


def run(out: Path, *, resume: bool = False) -> Swept:
    return swept_to_file(question(), out, resume=resume, workers=1, progress=lambda _: None)


@pytest.mark.parametrize("ending", ENDINGS)
@pytest.mark.parametrize("step", ["read_margins", "clear"])
def test_a_run_that_dies_after_its_last_row_is_whole_when_taken_up(
    tmp_path: Path, ending: str, step: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    whole, out = tmp_path / f"whole.{ending}", tmp_path / f"rows.{ending}"
    summary = run(whole).summary

    def dies(*_: object) -> None:
        raise MemoryError

    with monkeypatch.context() as patch:
        patch.setattr(sweep_file.SweepFile, step, dies)
        with pytest.raises(MemoryError):
            run(out)
    assert out.exists()
    assert run(out, resume=True).summary == summary
    assert out.read_bytes() == whole.read_bytes()
    assert sorted(path.name for path in tmp_path.iterdir()) == sorted([whole.name, out.name])


@pytest.mark.parametrize("ending", ENDINGS)
@pytest.mark.parametrize("number", range(3, 24, 4))
def test_wherever_the_disk_is_full_the_run_goes_on_later(
    tmp_path: Path, ending: str, number: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    whole, out = tmp_path / f"whole.{ending}", tmp_path / f"rows.{ending}"
    run(whole)
    write, count = sweep_file._write, 0

    def full(file: object, content: bytes) -> None:
        nonlocal count
        count += 1
        if count >= number:
            write(file, content[: len(content) // 2])  # type: ignore[arg-type]
            raise OSError(28, "No space left on device")
        write(file, content)  # type: ignore[arg-type]

    with monkeypatch.context() as patch:
        patch.setattr(sweep_file, "_write", full)
        with pytest.raises(OutputError, match="cannot be written: No space left on device"):
            run(out)
    assert not out.exists()
    run(out, resume=True)
    assert out.read_bytes() == whole.read_bytes()


def test_a_stop_says_how_far_it_came(tmp_path: Path) -> None:
    def stop(done: int) -> None:
        if done >= 30:
            raise KeyboardInterrupt

    with pytest.raises(StoppedError, match=r"stopped after 30 of 100 points.*--resume"):
        swept_to_file(question(), tmp_path / "rows.csv", workers=1, progress=stop)
