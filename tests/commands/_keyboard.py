"""A person at a terminal: types lines into the real command, reads what is printed."""

import fcntl
import os
import pty
import select
import signal
import subprocess
import sys
import termios
import time
from pathlib import Path

PROMPT = "   > "


class Keyboard:
    """The command behind a pseudo-terminal of 80 columns."""

    def __init__(self, *arguments: str | Path, folder: Path) -> None:
        self.master, slave = pty.openpty()
        self.process = subprocess.Popen(
            [sys.executable, "-m", "torqcheck", *map(str, arguments)],
            stdin=slave,
            stdout=slave,
            stderr=slave,
            cwd=folder,
            start_new_session=True,
            preexec_fn=_take_terminal,
            env={
                **os.environ,
                "TERM": "dumb",
                "PYTHONIOENCODING": "utf-8:strict",
                "COLUMNS": "80",
                "NO_COLOR": "1",
            },
        )
        os.close(slave)
        self.seen = ""
        self.shown = ""

    def __enter__(self) -> "Keyboard":
        return self

    def __exit__(self, *_: object) -> None:
        if self.process.poll() is None:
            self.process.kill()
        self.process.wait(10)
        if self.master >= 0:
            os.close(self.master)

    def until_asked(self) -> str:
        """Wait for the prompt; return what was printed since the last one."""
        return self._until(PROMPT)

    def type(self, line: str) -> str:
        """Type a line, wait for the next prompt or the end, return what was printed."""
        self.press(line.encode() + b"\n")
        return self._until(PROMPT)

    def press(self, keys: bytes) -> None:
        os.write(self.master, keys)

    def close(self) -> int:
        """Wait for the end; return the exit code."""
        self._until(None)
        return self.process.wait(30)

    def interrupt(self) -> int:
        """Press Ctrl-C; once more where it came before the line was read, and waits for a key."""
        for _ in range(20):
            self.press(b"\x03")
            try:
                self.process.wait(0.5)
            except subprocess.TimeoutExpired:
                continue
            break
        return self.close()

    def close_window(self) -> int:
        """Take the terminal away; nothing can be printed any more."""
        os.close(self.master)
        self.master = -1
        return self.process.wait(30)

    def _until(self, mark: str | None) -> str:
        """Read up to a mark, or to the end."""
        end = time.monotonic() + 60.0
        text = ""
        while time.monotonic() < end:
            ready, _, _ = select.select([self.master], [], [], 0.5)
            if ready:
                try:
                    chunk = os.read(self.master, 65536)
                except OSError:  # the other side has closed
                    chunk = b""
                if not chunk:
                    break
                text += chunk.decode(errors="replace").replace("\r\n", "\n")
                if mark is not None and text.endswith(mark):
                    break
            elif self.process.poll() is not None:
                break
        else:
            raise TimeoutError(f"nothing within a minute; so far:\n{text}")
        self.seen += text
        self.shown = text
        return text


def _take_terminal() -> None:
    """Make the pseudo-terminal the one whose Ctrl-C is heard, whatever the tests were started from."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)
    signal.signal(signal.SIGHUP, signal.SIG_DFL)
    fcntl.ioctl(0, termios.TIOCSCTTY, 0)
