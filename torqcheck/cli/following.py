"""What a terminal shows while a person waits longer than a second: on standard error, and gone at the end."""

import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from types import TracebackType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from rich.console import Console
    from rich.progress import Progress, TaskID

__all__ = ["Following", "waiting"]

PATIENCE = 1.0
"""Seconds before anything appears."""
PAUSE = 0.1
"""Seconds between two pictures."""


class Following:
    """
    A bar: call it with how many are done, and of how many if that is known.

    Without a terminal it says nothing. It has no thread of its own, because the caller may be about to
    start other processes.
    """

    def __init__(self, what: str) -> None:
        self._what = what
        self._began = self._drawn = time.monotonic()
        self._first: int | None = None
        self._bar: Progress | None = None
        self._task: TaskID | None = None
        self._shown = _on_terminal()

    def __enter__(self) -> "Following":
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        if self._bar is not None:
            self._bar.stop()

    def __call__(self, done: int, total: int | None = None) -> None:
        """Show how far it has come; what is done at the first call was done before."""
        if self._first is None:
            self._first = done
        now = time.monotonic()
        if not self._shown or now - self._began < PATIENCE:
            return
        if self._bar is None:
            self._bar, self._task = self._start(total)
        elif now - self._drawn < PAUSE:
            return
        assert self._task is not None
        self._drawn = now
        rate = (done - self._first) / (now - self._began)
        self._bar.update(
            self._task, completed=done, rate=f"{rate:,.0f}/s" if rate >= 10.0 else f"{rate:.1f}/s"
        )
        self._bar.refresh()

    def _start(self, total: int | None) -> "tuple[Progress, TaskID]":
        """Load the library here, because a pipe and a short run have no use for it."""
        from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeRemainingColumn

        left = () if total is None else (TimeRemainingColumn(), TextColumn("left"))
        bar = Progress(
            TextColumn("{task.description}"),
            BarColumn(),
            MofNCompleteColumn(),
            TextColumn("{task.fields[rate]}"),
            *left,
            console=_console(),
            auto_refresh=False,
            transient=True,
        )
        bar.start()
        return bar, bar.add_task(self._what, total=total, rate="")


@contextmanager
def waiting(what: str) -> Iterator[None]:
    """Show that work goes on where nothing can be counted; for a command without other processes."""
    if not _on_terminal():
        yield
        return
    import threading

    over = threading.Event()

    def show() -> None:
        if over.wait(PATIENCE):
            return
        began = time.monotonic() - PATIENCE
        with _console().status(what) as status:
            while not over.wait(PAUSE):
                status.update(f"{what}, {time.monotonic() - began:.0f} s")

    thread = threading.Thread(target=show, daemon=True)
    thread.start()
    try:
        yield
    finally:
        over.set()
        thread.join()


def _on_terminal() -> bool:
    return sys.stderr is not None and sys.stderr.isatty()


def _console() -> "Console":
    from rich.console import Console

    return Console(stderr=True)
