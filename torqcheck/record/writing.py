"""Add one check to a build record: all of it, or nothing."""

import os
import shutil
from collections.abc import Mapping
from datetime import UTC, datetime
from pathlib import Path

from torqcheck.errors import OutputError, PlaceError
from torqcheck.record.entry import FIRST, Entry, sha256_of
from torqcheck.record.folder import LOCK, LOG, UNFINISHED, RecordError, entry_folders, locked, read_log, shown
from torqcheck.record.verifying import log_faults
from torqcheck.resources import shipped_folder

__all__ = ["append", "refuse_folder", "tables_hash"]

READ_ONLY, READ_ONLY_FOLDER = 0o444, 0o555


def append(folder: Path, files: Mapping[str, bytes], about: Mapping[str, str]) -> Entry:
    """
    Add an entry to a record; the record is made if it is not there yet.

    The files are written into a folder with a name of its own; the log, replaced as a whole, names the
    entry; then the folder gets the name of the entry. Whatever stops the program before the log is
    replaced leaves the record as it was, with a left-over that the next writer clears away; whatever
    stops it after that leaves a complete entry whose folder the next writer renames.

    Parameters
    ----------
    folder : Path
        The record: a new or an empty folder, or one that holds a record.
    files : mapping
        Content by name; a name may lead through folders, as ``data/round.csv``.
    about : mapping
        Title, build, checked_by, date, verdict and torqcheck (the version), for the log.

    Returns
    -------
    Entry
        As it stands in the log.

    Raises
    ------
    RecordError
        If the folder holds something else, or its log was altered.
    OutputError
        If it cannot be written.
    """
    try:
        refuse_folder(folder)
        folder.mkdir(exist_ok=True)
        with locked(folder):
            return _append(folder, files, about)
    except OSError as error:
        raise OutputError(f"{shown(folder)}: cannot be written: {error.strerror or error}") from error


def refuse_folder(folder: Path) -> None:
    """
    Say before long work whether a folder can hold the record; nothing is made.

    Parameters
    ----------
    folder : Path
        Where the record is to be.

    Raises
    ------
    RecordError
        If it holds something else.
    OutputError
        If the folder around it is not there.
    """
    if folder.exists() and not folder.is_dir():
        raise RecordError(f"{shown(folder)}: is no folder; name a folder for the record")
    if not folder.parent.is_dir():
        raise PlaceError(
            f"{shown(folder)}: the folder {shown(folder.parent)} does not exist; make it first, "
            "or name another"
        )
    if not folder.exists() or (folder / LOG).is_file():
        return
    strangers = sorted(item.name for item in folder.iterdir() if item.name != LOCK)
    strangers = [name for name in strangers if name != LOG and not name.startswith(UNFINISHED)]
    if strangers:
        raise RecordError(
            f"{shown(folder)}: holds {shown(Path(strangers[0]))} and no record; name a new or an empty folder"
        )


def _append(folder: Path, files: Mapping[str, bytes], about: Mapping[str, str]) -> Entry:
    entries = _sound_entries(folder) if (folder / LOG).exists() else []
    _finish(folder, {entry.folder for entry in entries})
    last = entries[-1] if entries else None
    entry = Entry(
        number=1 if last is None else last.number + 1,
        written=datetime.now(UTC).isoformat(timespec="seconds"),
        files={name: sha256_of(content) for name, content in files.items()},
        tables=tables_hash(),
        previous=FIRST if last is None else last.hash,
        **about,
    )
    fresh = folder / f"{UNFINISHED}{entry.folder}"
    try:
        fresh.mkdir()
        for name, content in files.items():
            (fresh / name).parent.mkdir(parents=True, exist_ok=True)
            _write(fresh / name, content)
            (fresh / name).chmod(READ_ONLY)
        _to_disk(fresh)
        _replace_log(folder, [*entries, entry])
    except BaseException:
        shutil.rmtree(fresh, ignore_errors=True)
        raise
    _rename(fresh, folder / entry.folder)
    return entry


def _sound_entries(folder: Path) -> list[Entry]:
    """Entries of the log, if each still follows from the one before."""
    entries = read_log(folder)
    if list(log_faults(folder)):
        raise RecordError(
            f"{shown(folder)}: its log was altered, so nothing is added to it; torqcheck record verify says "
            "where. Keep it as it is and begin a new record"
        )
    return entries


def _finish(folder: Path, known: set[str]) -> None:
    """Do what a writer that was stopped has left to do: rename what the log names, clear away the rest."""
    for item in sorted(folder.iterdir()):
        if not item.name.startswith(UNFINISHED):
            continue
        name = item.name.removeprefix(UNFINISHED)
        if name in known and not (folder / name).exists():
            _rename(item, folder / name)
        elif item.is_dir():
            shutil.rmtree(item)
        else:
            item.unlink()
    strange = sorted(entry_folders(folder) - known)
    if strange:
        raise RecordError(
            f"{shown(folder)}: holds {strange[0]}, which its log does not know: the log was altered. Keep it "
            "as it is and begin a new record"
        )


def _rename(fresh: Path, target: Path) -> None:
    fresh.rename(target)
    target.chmod(READ_ONLY_FOLDER)
    _to_disk(target.parent)


def _replace_log(folder: Path, entries: list[Entry]) -> None:
    """Write the whole log beside the old one, then put it in its place."""
    beside = folder / f"{UNFINISHED}{LOG}"
    _write(beside, "".join(f"{entry.line()}\n" for entry in entries).encode())
    beside.replace(folder / LOG)
    _to_disk(folder)


def _write(path: Path, content: bytes) -> None:
    with path.open("wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def _to_disk(folder: Path) -> None:
    """Make sure that the names in a folder outlast a loss of power, where the system can."""
    if os.name == "nt":  # pragma: no cover
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def tables_hash() -> str:
    """SHA-256 over the names and the contents of all shipped tables."""
    tables = sorted(
        (item for item in shipped_folder("material_tables").iterdir() if item.name.endswith(".csv")),
        key=lambda item: item.name,
    )
    return sha256_of("".join(f"{item.name} {sha256_of(item.read_bytes())}\n" for item in tables).encode())
