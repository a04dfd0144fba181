"""`torqcheck sheet` and `assess --sheet`: files, exit codes, refusals."""

from pathlib import Path

import pytest
from builder import BASE, EXAMPLES, edited
from commands._run import torqcheck

CODES = {"pass": 0, "marginal": 0, "fail": 1, "undecided": 3}
BEGINNINGS = {
    "pdf": b"%PDF-",
    "html": b"<!DOCTYPE html>",
    "md": b"# Test bench",
    "txt": b"Test bench",
}


@pytest.fixture(scope="module")
def job(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("sheet") / "job.toml"
    file.write_text(BASE, "utf-8")
    return file


@pytest.mark.parametrize("ending", BEGINNINGS)
def test_the_form_follows_the_ending(job: Path, tmp_path: Path, ending: str) -> None:
    out = tmp_path / f"job.{ending.upper()}"
    run = torqcheck("sheet", job, "--out", out)
    verdict = run.stderr.split(":")[0]
    assert run.returncode == CODES[verdict]
    assert run.stderr == f"{verdict}: printout written to {out}\n"
    assert run.stdout == ""
    assert out.read_bytes().startswith(BEGINNINGS[ending])
    assert [item.name for item in tmp_path.iterdir()] == [out.name]


def test_the_same_input_gives_the_same_bytes_in_any_process(job: Path, tmp_path: Path) -> None:
    contents = []
    for seed in ("1", "2"):
        out = tmp_path / f"{seed}.pdf"
        torqcheck("sheet", job, "--out", out, PYTHONHASHSEED=seed, TZ=f"UTC{seed}")
        contents.append(out.read_bytes())
    assert contents[0] == contents[1]


def test_assess_writes_it_beside_its_report(job: Path, tmp_path: Path) -> None:
    run = torqcheck("assess", job, "--sheet", tmp_path / "job.html", "--paper", "letter")
    assert "VERDICT: " in run.stdout
    assert "printout written to" in run.stderr
    assert "size: letter;" in (tmp_path / "job.html").read_text("utf-8")
    other = torqcheck("sheet", job, "--out", tmp_path / "same.html", "--paper", "letter")
    assert other.returncode == run.returncode
    assert (tmp_path / "same.html").read_bytes() == (tmp_path / "job.html").read_bytes()


@pytest.mark.parametrize(
    ("arguments", "code", "said"),
    [
        (["sheet", "job.toml"], 2, "--out FILE is missing"),
        (["sheet", "job.toml", "--out", "job.doc"], 2, "must end in .html, .pdf, .md or .txt"),
        (["sheet", "job.toml", "--out", "job.toml"], 2, "must end in"),
        (["sheet", "job.toml", "--out", "job"], 2, "must end in"),
        (["sheet", "job.toml", "--out", "nowhere/job.pdf"], 2, "does not exist; make it first"),
        (["sheet", "job.toml", "--out", "link.html"], 2, "is a scenario; a report never goes over one"),
        (["sheet", "none.toml", "--out", "job.pdf"], 2, "does not exist"),
        (["assess", "job.toml", "--sheet", "job.doc"], 2, "--sheet: 'job.doc' must end in"),
        (["assess", "job.toml", "--sheet", "a.txt", "--out", "a.txt"], 2, "name the same file"),
    ],
)
def test_bad_input_gives_one_clear_line(tmp_path: Path, arguments: list[str], code: int, said: str) -> None:
    (tmp_path / "job.toml").write_text(edited(), "utf-8")
    (tmp_path / "link.html").symlink_to(tmp_path / "job.toml")
    run = torqcheck(*arguments, folder=tmp_path, PYTHONPATH=str(Path(__file__).parents[2]))
    assert run.returncode == code
    assert said in run.stderr
    assert len(run.stderr.splitlines()) == 1
    assert run.stdout == ""
    assert (tmp_path / "job.toml").read_text("utf-8") == edited()
    assert sorted(item.name for item in tmp_path.iterdir()) == ["job.toml", "link.html"]


def test_a_record_with_its_torque_file_is_printed() -> None:
    """The shunter is read with a CSV file; both hashes stand in the record block."""
    (shunter,) = (path for path in EXAMPLES if path.stem == "brickyard_shunter")
    run = torqcheck("sheet", shunter, "--out", "/dev/null")
    assert run.returncode == 2
    assert "must end in" in run.stderr
