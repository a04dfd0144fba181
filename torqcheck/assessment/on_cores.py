"""One question asked of many things, on all cores, in order; it can be stopped at any moment."""

import os
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from itertools import islice
from types import TracebackType
from typing import TYPE_CHECKING, Any, TypeVar

from torqcheck.errors import OutputError

if TYPE_CHECKING:
    from concurrent.futures import Future

__all__ = ["cores", "on_cores", "stop_if_asked"]

Thing = TypeVar("Thing")
Answer = TypeVar("Answer")
AHEAD = 2
"""Things for each process that may be under way or waiting for the caller: they bound the memory."""
PATIENCE = 0.1
"""Seconds between two looks whether a person wants to stop."""


def cores() -> int:
    """Number of cores that this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def on_cores(
    ask: Callable[[Thing], Answer],
    things: Iterable[Thing],
    *,
    begin: Callable[..., None],
    given: tuple[Any, ...],
    workers: int,
) -> Iterator[Answer]:
    """
    Ask each thing in another process.

    Parameters
    ----------
    ask : callable
        A function of a module, so that another process can find it; its answer must be picklable.
    things : iterable
        What it is asked of, one after the other; no more are taken than are under way.
    begin : callable
        A function of a module that prepares each process.
    given : tuple
        Its arguments.
    workers : int
        Number of processes.

    Yields
    ------
    Answer
        In the order of `things`, each as soon as it and all before it are there.

    Raises
    ------
    OutputError
        If a process was ended from outside.

    Notes
    -----
    Nobody is killed in the middle of an answer: the reader would wait for the rest of it without end.
    So a request to stop is held until the caller stands where nothing is half done, and the processes
    drop what they have not begun; see `stop_if_asked` for what takes long.
    """
    import multiprocessing
    from concurrent.futures import ProcessPoolExecutor, wait
    from concurrent.futures.process import BrokenProcessPool

    def awaited(future: "Future[Answer]") -> Answer:
        while not wait((future,), PATIENCE).done:
            held.answer()
        return future.result()

    context = multiprocessing.get_context()
    stop = context.RawValue("b", 0)
    rest = iter(things)
    with _HeldSignals() as held:
        pool = ProcessPoolExecutor(workers, context, _begin_worker, (stop, begin, given))
        try:
            under_way = deque(pool.submit(_asked, ask, thing) for thing in islice(rest, AHEAD * workers))
            while under_way:
                answer = awaited(under_way.popleft())
                under_way.extend(pool.submit(_asked, ask, thing) for thing in islice(rest, 1))
                yield answer
                held.answer()
        except BrokenProcessPool:
            raise OutputError(
                "a working process was ended from outside, for want of memory perhaps"
            ) from None
        finally:
            stop.value = 1
            pool.shutdown(wait=True, cancel_futures=True)


class _HeldSignals:
    """Requests to stop, held until it is safe to answer them as they were answered before."""

    def __init__(self) -> None:
        self._before: dict[int, Callable[[int, Any], Any]] = {}
        self._came: int | None = None

    def __enter__(self) -> "_HeldSignals":
        import signal
        import threading

        if threading.current_thread() is threading.main_thread():
            for number in (signal.SIGINT, signal.SIGTERM):
                before = signal.getsignal(number)
                if callable(before):
                    self._before[number] = before
                    signal.signal(number, self._hold)
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        import signal

        for number, before in self._before.items():
            signal.signal(number, before)
        if not isinstance(error, KeyboardInterrupt):
            self.answer()

    def _hold(self, number: int, _: Any) -> None:
        self._came = number

    def answer(self) -> None:
        """Do now what the request would have done when it came."""
        if self._came is not None:
            number, self._came = self._came, None
            self._before[number](number, None)


class _StoppedError(Exception):
    """Nobody waits for this answer any more."""


_here: dict[str, Any] = {}
"""What a working process was given when it began; empty in the one that a person has started."""


def _begin_worker(stop: Any, begin: Callable[..., None], given: tuple[Any, ...]) -> None:
    """Prepare a process: leave Ctrl-C to the one that a person has started, and end with that."""
    import signal
    import threading

    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    threading.Thread(target=_end_with_parent, daemon=True).start()
    _here["stop"] = stop
    begin(*given)


def _end_with_parent() -> None:
    """End this process when the one that started it is gone, however it went."""
    import multiprocessing
    from multiprocessing.connection import wait

    parent = multiprocessing.parent_process()
    if parent is not None:
        wait([parent.sentinel])
        os._exit(1)


def _asked(ask: Callable[[Thing], Answer], thing: Thing) -> Answer:
    stop_if_asked()
    return ask(thing)


def stop_if_asked() -> None:
    """
    Give up here if nobody waits for the answer any more.

    A question that takes more than a moment calls this between its parts; outside of a working process
    it does nothing.
    """
    if _here and _here["stop"].value:
        raise _StoppedError
