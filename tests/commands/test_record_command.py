"""The build record from the terminal: add, verify, compare."""

import json
import shutil
from pathlib import Path

import pytest
from builder import BASE, EXAMPLES, edited
from commands._run import torqcheck


@pytest.fixture(scope="module")
def record(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("record")
    file = folder / "job.toml"
    for change in ((), (('clearance = "0.05 mm"', 'clearance = "0.07 mm"'),)):
        file.write_text(edited(*change), "utf-8")
        run = torqcheck("assess", file, "--record", folder / "build")
        assert run.returncode in {0, 1, 3}, run.stderr
    return folder / "build"


def test_a_check_is_added_and_its_hash_is_said(tmp_path: Path) -> None:
    file = tmp_path / "job.toml"
    file.write_text(BASE, "utf-8")
    plain = torqcheck("assess", file)
    run = torqcheck("assess", file, "--record", tmp_path / "build")
    assert run.stdout == plain.stdout
    assert run.returncode == plain.returncode
    assert f"recorded as {tmp_path / 'build' / '0001'}" in run.stderr
    (said,) = (line.removeprefix("hash ") for line in run.stderr.splitlines() if line.startswith("hash "))
    verified = torqcheck("record", "verify", tmp_path / "build", "--head", said[:8])
    assert verified.returncode == 0
    assert said in verified.stdout
    entry = tmp_path / "build" / "0001"
    assert (entry / "scenario.toml").read_bytes() == file.read_bytes()
    assert json.loads((entry / "result.json").read_text()) == json.loads(
        torqcheck("assess", file, "--format", "json").stdout
    )


def test_what_the_scenario_was_read_with_is_kept(tmp_path: Path) -> None:
    """The shunter names a torque record; the entry can be checked again by itself."""
    (shunter,) = (path for path in EXAMPLES if path.stem == "brickyard_shunter")
    run = torqcheck("assess", shunter, "--record", tmp_path / "build")
    entry = tmp_path / "build" / "0001"
    again = torqcheck("assess", entry / "scenario.toml", "--format", "json")
    assert again.returncode == run.returncode
    ours, recorded = json.loads(again.stdout), json.loads((entry / "result.json").read_text())
    for result in (ours, recorded):
        del result["scenario"]["file"]
    assert ours == recorded


def test_an_altered_record_ends_with_1(record: Path, tmp_path: Path) -> None:
    assert torqcheck("record", "verify", record).returncode == 0
    copy = shutil.copytree(record, tmp_path / "build")
    sheet = copy / "0001" / "sheet.txt"
    sheet.chmod(0o644)
    sheet.write_text(sheet.read_text().replace("VERDICT: ", "VERDICT: PASS ", 1))
    run = torqcheck("record", "verify", copy)
    assert run.returncode == 1
    assert "NOT SOUND" in run.stdout
    assert "0001/sheet.txt: is not what was recorded" in run.stdout
    found = json.loads(torqcheck("record", "verify", copy, "--format", "json").stdout)
    assert found["sound"] is False
    assert found["findings"] == [
        {"entry": "0001", "file": "sheet.txt", "kind": "altered", "words": "is not what was recorded"}
    ]


def test_who_adds_to_an_altered_record_is_told(record: Path, tmp_path: Path) -> None:
    copy = tmp_path / "build"
    shutil.copytree(record, copy)
    file = tmp_path / "job.toml"
    file.write_text(BASE, "utf-8")
    assert "NOT as it was written" not in torqcheck("assess", file, "--record", copy).stderr
    scenario = copy / "0001" / "scenario.toml"
    scenario.write_text(scenario.read_text().replace("0.05 mm", "0.04 mm"))
    run = torqcheck("assess", file, "--record", copy)
    assert "recorded as" in run.stderr
    assert "NOT as it was written: 0001/scenario.toml" in run.stderr


def test_two_checks_are_compared(record: Path) -> None:
    run = torqcheck("record", "diff", record / "0001", record)
    assert run.returncode == 0
    assert 'joint[gearbox input].lash.clearance  "0.05 mm"  "0.07 mm"' in run.stdout
    assert "+0.020" in run.stdout
    assert all(len(line) <= 80 for line in run.stdout.splitlines())
    data = json.loads(torqcheck("record", "diff", record / "0001", record, "--format", "json").stdout)
    assert data["inputs"] == [
        {"key": "joint[gearbox input].lash.clearance", "before": '"0.05 mm"', "after": '"0.07 mm"'}
    ]


@pytest.mark.parametrize(
    ("arguments", "code", "said"),
    [
        (["verify", "nowhere"], 2, "nowhere: is no build record"),
        (["verify", "job.toml"], 2, "job.toml: "),
        (["verify", "build", "--head", "xyz"], 2, "is no hash"),
        (["verify", "build", "--format", "csv"], 2, "use json"),
        (["diff", "build/0001", "build/0009"], 2, "has no such entry"),
        (["diff", "build/0001", "job.toml"], 2, "is no entry of a build record"),
    ],
)
def test_bad_input_gives_one_line(record: Path, arguments: list[str], code: int, said: str) -> None:
    paths = [str(record.parent / part) if part[0] in "bnj" else part for part in arguments[1:]]
    run = torqcheck("record", arguments[0], *paths)
    assert run.returncode == code
    assert said in run.stderr
    assert len(run.stderr.splitlines()) == 1
    assert not run.stdout


def test_a_folder_that_is_no_record_is_refused_before_any_work(tmp_path: Path) -> None:
    file = tmp_path / "job.toml"
    file.write_text(BASE, "utf-8")
    run = torqcheck("assess", file, "--record", tmp_path)
    assert run.returncode == 2
    assert "holds job.toml and no record" in run.stderr
    assert not run.stdout
    assert sorted(item.name for item in tmp_path.iterdir()) == ["job.toml"]
