"""Write a report so that the file is whole or not there: beside it first, then replaced."""

import errno
import os
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from torqcheck.errors import OutputError, PlaceError

__all__ = ["mode_of", "refuse_target", "write_fresh", "write_whole"]

NO_LINKS = {errno.EPERM, errno.ENOTSUP, errno.EOPNOTSUPP, errno.EMLINK, errno.ENOSYS}
"""What a file system says that knows no second name for a file."""


def write_whole(
    path: Path, content: str | bytes, *, keep: Sequence[Path] = (), over_scenario: bool = False
) -> None:
    """
    Write a file in one step as far as a reader can tell; text as UTF-8.

    A symbolic link is followed. Only a regular file is ever replaced, and never one of `keep`, the
    files that the content was made from; a scenario only where `over_scenario` says so.

    Raises
    ------
    OutputError
        If the folder is missing, is not writable, or the disk is full; nothing is left behind.
    """
    target = refuse_target(path, keep, over_scenario=over_scenario)
    with _beside(path, target, content) as temporary:
        temporary.replace(target)


def write_fresh(path: Path, content: str | bytes) -> None:
    """
    Write a new file in one step; what is there already stays, even if it came a moment ago.

    Raises
    ------
    OutputError
        If something is there, or it cannot be written; nothing is left behind.
    """
    target = refuse_target(path, over_scenario=True)
    with _beside(path, target, content) as temporary:
        try:
            target.hardlink_to(temporary)
        except OSError as error:
            if error.errno not in NO_LINKS:
                raise
            # the empty file keeps others out until the whole one takes its place
            target.touch(exist_ok=False)
            temporary.replace(target)


@contextmanager
def _beside(path: Path, target: Path, content: str | bytes) -> Iterator[Path]:
    """Hold the content in a file beside the target; that file is gone afterwards."""
    temporary = None
    try:
        with tempfile.NamedTemporaryFile(dir=target.parent, prefix=".torqcheck.", delete=False) as file:
            temporary = Path(file.name)
            file.write(content.encode() if isinstance(content, str) else content)
            file.flush()
            os.fsync(file.fileno())
        temporary.chmod(mode_of(target))
        yield temporary
    except FileExistsError:
        raise OutputError(f"{_shown(path)}: is there already; name another file") from None
    except OSError as error:
        raise OutputError(f"{_shown(path)}: cannot be written: {error.strerror or error}") from error
    finally:
        if temporary is not None:
            temporary.unlink(missing_ok=True)


def refuse_target(path: Path, keep: Sequence[Path] = (), *, over_scenario: bool = False) -> Path:
    """
    Return the real file behind a path, if it may be written; before long work rather than after it.

    Raises
    ------
    OutputError
        If it is a folder, a scenario, one of `keep`, in a folder that is not there, or no usable name.
    """
    try:
        return _target(path, keep, over_scenario)
    except RuntimeError:
        raise OutputError(f"{_shown(path)}: is a link that leads to itself; name another file") from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or error
        raise OutputError(f"{_shown(path)}: cannot be written: {reason}") from error


def _target(path: Path, keep: Sequence[Path], over_scenario: bool) -> Path:
    """Look at the place where the file is to be."""
    if path.is_dir():
        raise PlaceError(f"{_shown(path)}: is a folder; name a file in it")
    target = path.resolve()
    if not target.parent.is_dir():
        raise PlaceError(
            f"{_shown(path)}: the folder {_shown(path.parent)} does not exist; make it first, or name another"
        )
    if target.exists() and not target.is_file():
        raise OutputError(f"{_shown(path)}: is not a regular file; name another")
    if target.exists() and target.suffix == ".toml" and not over_scenario:
        raise PlaceError(f"{_shown(path)}: is a scenario; a report never goes over one, name another file")
    if any(kept.exists() and target.exists() and kept.samefile(target) for kept in keep):
        raise PlaceError(f"{_shown(path)}: is the file that the result is made from; name another")
    return target


def _shown(path: Path) -> str:
    """A path as text for a message, shortened."""
    text = str(path)
    return text if len(text) <= 120 else f"{text[:110]}..."


def mode_of(path: Path) -> int:
    """Keep the mode of a file that is replaced; otherwise what the user's mask gives."""
    if path.exists():
        return path.stat().st_mode & 0o777
    mask = os.umask(0)
    os.umask(mask)
    return 0o666 & ~mask
