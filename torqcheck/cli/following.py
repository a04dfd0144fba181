"""A bar on the terminal for what takes longer than a second: rate and time left, on standard error."""

import sys
import time
from types import TracebackType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from rich.progress import Progress, TaskID

__all__ = ["Following"]

PATIENCE = 1.0
"""Seconds before the bar appears."""


class Following:
    """Call it with how many of how many are done; without a terminal it says nothing."""

    def __init__(self, what: str) -> None:
        self._what = what
        self._began = time.monotonic()
        self._bar: Progress | None = None
        self._task: TaskID | None = None
        self._shown = sys.stderr is not None and sys.stderr.isatty()

    def __enter__(self) -> "Following":
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        if self._bar is not None:
            self._bar.stop()

    def __call__(self, done: int, total: int) -> None:
        """Show how far it has come."""
        if not self._shown or (self._bar is None and time.monotonic() - self._began < PATIENCE):
            return
        if self._bar is None:
            self._bar, self._task = self._start(total)
        assert self._task is not None
        rate = done / max(time.monotonic() - self._began, 1e-9)
        self._bar.update(self._task, completed=done, rate=f"{rate:.1f}/s")

    def _start(self, total: int) -> "tuple[Progress, TaskID]":
        """Load the library here, because a pipe and a short run have no use for it."""
        from rich.console import Console
        from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeRemainingColumn

        bar = Progress(
            TextColumn("{task.description}"),
            BarColumn(),
            MofNCompleteColumn(),
            TextColumn("{task.fields[rate]}"),
            TimeRemainingColumn(),
            TextColumn("left"),
            console=Console(stderr=True),
            transient=True,
        )
        bar.start()
        return bar, bar.add_task(self._what, total=total, rate="")
