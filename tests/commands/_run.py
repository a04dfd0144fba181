"""Run the command as a user would: in a process of its own, with its own output, folder and surroundings."""

import functools
import gc
import importlib
import os
import pkgutil
import signal
import subprocess
import sys
import tempfile
import warnings
from pathlib import Path
from typing import IO

import torqcheck as package

__all__ = ["started_anew", "torqcheck"]

PATIENCE = 60
"""Seconds within which a command ends."""

Run = subprocess.CompletedProcess[str]


def torqcheck(*arguments: str | Path, folder: Path | None = None, **environment: str) -> Run:
    """
    Run the command with the arguments; text in, text out, no terminal.

    The process is a copy of this one, in which the modules are loaded already; what tells Python how to
    start, and what spreads over processes of its own, is started anew.
    """
    words = [str(argument) for argument in arguments]
    told = any(name.startswith("PYTHON") for name in environment)
    if told or not hasattr(os, "fork") or "sweep" in words[:1]:
        return started_anew(*arguments, folder=folder, **environment)
    _load_all()
    with tempfile.TemporaryFile() as out, tempfile.TemporaryFile() as err:
        with warnings.catch_warnings():
            # the threads of the linear algebra sleep; from 3.12 on Python warns of any
            warnings.simplefilter("ignore", DeprecationWarning)
            process = os.fork()
        if process == 0:
            _command(words, folder, environment, out, err)
        _, status = os.waitpid(process, 0)
        return subprocess.CompletedProcess(words, os.waitstatus_to_exitcode(status), _text(out), _text(err))


def started_anew(*arguments: str | Path, folder: Path | None = None, **environment: str) -> Run:
    """Run `python -m torqcheck` with the arguments, from the very start."""
    return subprocess.run(
        [sys.executable, "-m", "torqcheck", *map(str, arguments)],
        capture_output=True,
        text=True,
        encoding="utf-8",
        timeout=PATIENCE,
        cwd=folder,
        env={**os.environ, "PYTHONUTF8": "1", **environment},
        check=False,
    )


@functools.cache
def _load_all() -> None:
    for module in pkgutil.walk_packages(package.__path__, "torqcheck."):
        if not module.name.endswith("__main__"):
            importlib.import_module(module.name)


def _command(
    words: list[str], folder: Path | None, environment: dict[str, str], out: IO[bytes], err: IO[bytes]
) -> None:
    """Be the command, in the copy of the process, and end with it; nothing of the tests runs after it."""
    code = 1
    try:
        gc.freeze()
        signal.alarm(PATIENCE)
        os.dup2(out.fileno(), 1)
        os.dup2(err.fileno(), 2)
        sys.stdout = open(1, "w", encoding="utf-8", closefd=False)  # noqa: SIM115  # lives as long as the process
        sys.stderr = open(2, "w", encoding="utf-8", errors="backslashreplace", closefd=False)  # noqa: SIM115
        if folder is not None:
            os.chdir(folder)
        os.environ.update(environment)
        sys.argv = ["torqcheck", *words]
        code = _exit_code()
        sys.stdout.flush()
        sys.stderr.flush()
    finally:
        os._exit(code)


def _exit_code() -> int:
    from torqcheck.__main__ import main

    try:
        main()
    except SystemExit as leaving:
        return leaving.code if isinstance(leaving.code, int) else int(leaving.code is not None)
    return 0


def _text(file: IO[bytes]) -> str:
    file.seek(0)
    return file.read().decode("utf-8").replace("\r\n", "\n")
