"""A build record: what is written stays findable, whatever is done to it afterwards."""

import json
import os
import shutil
import stat
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from record._writer import ABOUT, files

from torqcheck.errors import OutputError
from torqcheck.record import append, read_entry, read_log, verify
from torqcheck.record.entry import FIRST, entry_from_line, sha256_of
from torqcheck.record.folder import LOG, UNFINISHED, RecordError
from torqcheck.record.writing import tables_hash


@pytest.fixture(scope="module")
def three(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A record of three entries, to be copied before anything is done to it."""
    folder = tmp_path_factory.mktemp("record") / "build"
    for text in ("first", "second", "third"):
        append(folder, files(text), ABOUT)
    return folder


@pytest.fixture
def record(three: Path, tmp_path: Path) -> Path:
    return copied(three, tmp_path / "build")


def copied(source: Path, target: Path) -> Path:
    """A copy that may be altered."""
    shutil.copytree(source, target)
    for item in (target, *target.rglob("*")):
        item.chmod(0o755 if item.is_dir() else 0o644)
    return target


def lines(record: Path) -> list[str]:
    return (record / LOG).read_text("utf-8").splitlines()


def rewrite(record: Path, new: list[str]) -> None:
    (record / LOG).write_text("".join(f"{line}\n" for line in new), "utf-8")


def test_what_was_written_is_there_and_sound(three: Path) -> None:
    found = verify(three)
    assert found.sound
    assert not found.left_over
    assert [entry.number for entry in found.entries] == [1, 2, 3]
    assert found.entries[0].previous == FIRST
    assert found.entries[2].previous == found.entries[1].hash
    assert found.head == found.entries[2].hash
    assert (three / "0002" / "scenario.toml").read_bytes() == files("second")["scenario.toml"]
    assert found.entries[1].files["scenario.toml"] == sha256_of(files("second")["scenario.toml"])
    assert not stat.S_IMODE((three / "0002" / "scenario.toml").stat().st_mode) & 0o222


def test_the_hash_is_that_of_the_line_without_it(three: Path) -> None:
    """SHA-256 over the compact JSON, keys sorted: anybody can compute it without this program."""
    line = json.loads(lines(three)[1])
    stated = line.pop("hash")
    assert stated == sha256_of(json.dumps(line, sort_keys=True, separators=(",", ":")).encode())


@settings(max_examples=300, suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(data=st.data())
def test_any_other_byte_anywhere_is_found(three: Path, tmp_path: Path, data: st.DataObject) -> None:
    record = tmp_path / "flipped"
    if record.exists():
        shutil.rmtree(record)
    copied(three, record)
    recorded = sorted(item for item in record.rglob("*") if item.is_file() and item.name != ".lock")
    target = data.draw(st.sampled_from(recorded))
    content = bytearray(target.read_bytes())
    place = data.draw(st.integers(0, len(content) - 1))
    content[place] = data.draw(st.integers(0, 255).filter(lambda byte: byte != content[place]))
    target.write_bytes(content)
    assert not verify(record).sound


@pytest.mark.parametrize("cut", [1, 2, 40, 400])
def test_a_log_that_was_cut_short_is_found(record: Path, cut: int) -> None:
    content = (record / LOG).read_bytes()
    (record / LOG).write_bytes(content[:-cut])
    assert not verify(record).sound


@pytest.mark.parametrize(
    ("order", "kind"),
    [
        ((1, 0, 2), "order"),
        ((0, 2, 1), "order"),
        ((0, 2), "order"),
        ((1, 2), "order"),
        ((0, 1), "added"),
        ((), "added"),
        ((0, 1, 1, 2), "order"),
    ],
)
def test_lines_that_are_missing_or_moved_are_found(record: Path, order: tuple[int, ...], kind: str) -> None:
    old = lines(record)
    rewrite(record, [old[index] for index in order])
    assert kind in {finding.kind for finding in verify(record).findings}


def test_a_line_that_was_forged_with_its_own_hash_breaks_the_next_one(record: Path) -> None:
    old = lines(record)
    forged = json.loads(old[0]) | {"verdict": "fail"}
    del forged["hash"]
    text = json.dumps(forged, sort_keys=True, separators=(",", ":"))
    entry = entry_from_line(
        json.dumps(forged | {"hash": sha256_of(text.encode())}, sort_keys=True, separators=(",", ":"))
    )[0]
    rewrite(record, [entry.line(), *old[1:]])
    (finding,) = verify(record).findings
    assert finding.kind == "order"
    assert "0002 does not follow" in str(finding)


def test_files_that_are_gone_or_were_added_are_found(record: Path) -> None:
    (record / "0001" / "data" / "round.csv").unlink()
    (record / "0003" / "photo.jpg").write_bytes(b"x")
    shutil.rmtree(record / "0002")
    shutil.copytree(record / "0001", record / "0007")
    assert [(f.entry, f.file, f.kind) for f in verify(record).findings] == [
        ("0001", "data/round.csv", "missing"),
        ("0002", "", "missing"),
        ("0003", "photo.jpg", "added"),
        ("0007", "", "added"),
    ]


def test_a_link_in_place_of_a_file_is_found(record: Path, tmp_path: Path) -> None:
    target = record / "0001" / "scenario.toml"
    elsewhere = tmp_path / "elsewhere.toml"
    elsewhere.write_bytes(target.read_bytes())
    target.unlink()
    target.symlink_to(elsewhere)
    assert [f.kind for f in verify(record).findings] == ["missing"]


def test_newest_entries_taken_away_with_their_lines_show_only_by_the_printed_hash(record: Path) -> None:
    head = verify(record).head
    rewrite(record, lines(record)[:2])
    shutil.rmtree(record / "0003")
    assert verify(record).sound
    (finding,) = verify(record, head[:8].upper()).findings
    assert finding.kind == "missing"
    assert verify(record, verify(record).entries[0].hash[:8]).sound


def test_nothing_is_added_to_a_record_that_was_altered(record: Path) -> None:
    old = lines(record)
    rewrite(record, [old[0], old[2]])
    before = sorted(record.rglob("*"))
    with pytest.raises(RecordError, match="its log was altered, so nothing is added"):
        append(record, files("fourth"), ABOUT)
    rewrite(record, old[:2])
    with pytest.raises(RecordError, match="holds 0003, which its log does not know"):
        append(record, files("fourth"), ABOUT)
    assert sorted(record.rglob("*")) == before


def test_a_folder_with_other_things_is_not_taken_for_a_record(tmp_path: Path) -> None:
    (tmp_path / "letter.txt").write_text("x")
    with pytest.raises(RecordError, match=r"holds letter\.txt and no record"):
        append(tmp_path, files("x"), ABOUT)
    with pytest.raises(RecordError, match="is no folder"):
        append(tmp_path / "letter.txt", files("x"), ABOUT)
    with pytest.raises(OutputError, match="does not exist; make it first"):
        append(tmp_path / "a" / "b", files("x"), ABOUT)
    with pytest.raises(RecordError, match="is no build record"):
        verify(tmp_path)
    assert [item.name for item in tmp_path.iterdir()] == ["letter.txt"]


def test_an_entry_that_cannot_be_written_leaves_the_record_as_it_was(
    record: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    before = sorted(record.rglob("*"))
    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OutputError, match="No space left"):
        append(record, files("fourth"), ABOUT)
    monkeypatch.undo()
    assert sorted(record.rglob("*")) == before
    assert verify(record).sound
    assert append(record, files("fourth"), ABOUT).number == 4


def test_a_writer_that_was_stopped_before_the_log_leaves_nothing_that_counts(record: Path) -> None:
    (record / f"{UNFINISHED}0004").mkdir()
    (record / f"{UNFINISHED}0004" / "scenario.toml").write_bytes(b"half")
    (record / f"{UNFINISHED}{LOG}").write_bytes(b"half")
    found = verify(record)
    assert found.sound
    assert found.left_over == (f"{UNFINISHED}0004", f"{UNFINISHED}{LOG}")
    assert append(record, files("fourth"), ABOUT).number == 4
    assert not verify(record).left_over
    assert verify(record).sound


def test_a_writer_that_was_stopped_after_the_log_leaves_a_whole_entry(record: Path) -> None:
    (record / "0003").rename(record / f"{UNFINISHED}0003")
    assert verify(record).sound
    append(record, files("fourth"), ABOUT)
    assert (record / "0003" / "scenario.toml").is_file()
    assert verify(record).sound


def test_entries_are_named_by_their_path(three: Path) -> None:
    assert read_entry(three)[1].number == 3
    assert read_entry(three / "0002")[1].number == 2
    for path in (three / "0009", three / "x", three / LOG, three.parent):
        with pytest.raises(RecordError):
            read_entry(path)
    assert len(read_log(three)) == 3


def test_the_tables_of_another_version_have_another_hash(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    here = tables_hash()
    (tmp_path / "steels.csv").write_text("id\n")
    monkeypatch.setattr("torqcheck.record.writing.shipped_folder", lambda _: tmp_path)
    assert tables_hash() != here
    assert len(here) == 64
