"""A request to stop that comes where the interpreter would drop it."""

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sys import UnraisableHookArgs
    from threading import Timer

__all__ = ["no_break_is_lost"]

SOON = 0.01
"""Seconds until a break comes again; where it fell, nothing can be raised yet."""


@contextmanager
def no_break_is_lost() -> Iterator[None]:
    """Repeat a Ctrl-C that falls into the tidying up of an object.

    There the interpreter prints the exception and goes on, and the person would have to ask twice.
    """
    before = sys.unraisablehook
    waiting: list[Timer] = []

    def again(fault: "UnraisableHookArgs") -> None:
        if issubclass(fault.exc_type, KeyboardInterrupt):
            waiting.append(_break_soon())
        else:
            before(fault)

    sys.unraisablehook = again
    try:
        yield
        if any(timer.is_alive() for timer in waiting):
            raise KeyboardInterrupt
    finally:
        sys.unraisablehook = before
        for timer in waiting:
            timer.cancel()


def _break_soon() -> "Timer":
    import _thread
    import threading

    timer = threading.Timer(SOON, _thread.interrupt_main)
    timer.daemon = True
    timer.start()
    return timer
