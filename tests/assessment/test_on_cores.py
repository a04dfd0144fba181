"""Questions on all cores: the order, the ends of processes, and a stop at any moment."""

import os
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path
from typing import Any

import pytest

from torqcheck.assessment.on_cores import cores, on_cores, stop_if_asked
from torqcheck.errors import OutputError

_there: list[int] = []


def begin(number: int) -> None:
    _there.append(number)


def added(thing: int) -> int:
    return _there[0] + thing


def large(thing: int) -> bytes:
    """More than a pipe holds at once."""
    return bytes(thing * 1_000_000)


def ended(_: int) -> None:
    os._exit(3)


def broken(_: int) -> float:
    return 1 / 0


def ask(question: Any, things: Any, workers: int = 2) -> list[Any]:
    return list(on_cores(question, things, begin=begin, given=(100,), workers=workers))


def test_answers_come_in_order() -> None:
    assert ask(added, range(50)) == list(range(100, 150))


def test_nothing_is_asked_of_nothing() -> None:
    assert ask(added, ()) == []


def test_no_more_things_are_taken_than_are_under_way() -> None:
    taken: list[int] = []

    def things() -> Any:
        for number in range(1000):
            taken.append(number)
            yield number

    answers = on_cores(added, things(), begin=begin, given=(0,), workers=2)
    assert next(answers) == 0
    assert len(taken) <= 6
    answers.close()  # type: ignore[attr-defined]


def test_a_process_that_ends_is_told_of() -> None:
    with pytest.raises(OutputError, match="ended from outside"):
        ask(ended, range(4))


def test_a_mistake_in_a_question_reaches_the_caller() -> None:
    with pytest.raises(ZeroDivisionError):
        ask(broken, range(4))


def test_there_is_a_core() -> None:
    assert cores() >= 1


def test_without_another_process_nobody_gives_up() -> None:
    stop_if_asked()


def test_answers_are_the_same_outside_of_the_main_thread() -> None:
    found: list[int] = []
    thread = threading.Thread(target=lambda: found.extend(ask(added, range(5))))
    thread.start()
    thread.join(timeout=60)
    assert found == [100, 101, 102, 103, 104]


@pytest.mark.parametrize("wanted", [signal.SIGINT, signal.SIGTERM], ids=lambda number: number.name)
def test_a_request_is_held_until_nothing_is_half_done(wanted: signal.Signals) -> None:
    came: list[int] = []
    before = signal.signal(wanted, lambda number, _: came.append(number))
    handler = signal.getsignal(wanted)
    try:
        answers = on_cores(large, range(1, 9), begin=begin, given=(0,), workers=2)
        assert len(next(answers)) == 1_000_000
        os.kill(os.getpid(), wanted)
        assert came == []
        assert len(next(answers)) == 2_000_000
        assert came == [wanted]
        assert [len(answer) for answer in answers] == [1_000_000 * number for number in range(3, 9)]
        assert signal.getsignal(wanted) is handler
    finally:
        signal.signal(wanted, before)


def test_a_request_that_comes_with_the_last_answer_is_not_lost() -> None:
    answers = on_cores(added, range(1), begin=begin, given=(0,), workers=1)
    assert next(answers) == 0
    os.kill(os.getpid(), signal.SIGINT)
    with pytest.raises(KeyboardInterrupt):
        next(answers)


@pytest.mark.parametrize("moment", [0.0, 0.01, 0.03, 0.1, 0.3])
def test_a_stop_ends_in_good_time_whatever_is_being_sent(moment: float) -> None:
    """A process that is killed while it sends an answer leaves a reader that waits without end."""
    answers = on_cores(large, [40] * 1000, begin=begin, given=(0,), workers=2)
    next(answers)
    threading.Timer(moment, os.kill, (os.getpid(), signal.SIGINT)).start()
    began = time.monotonic()
    with pytest.raises(KeyboardInterrupt):
        for _ in answers:
            pass
    assert time.monotonic() - began < 20.0


def test_workers_end_with_a_process_that_is_killed(tmp_path: Path) -> None:
    """However it goes, nothing is left that waits for work."""
    marks = tmp_path / "workers"
    marks.mkdir()
    script = tmp_path / "ask.py"
    script.write_text(
        "import os, sys, time\n"
        "from pathlib import Path\n"
        "from torqcheck.assessment.on_cores import on_cores\n"
        "def slow(number):\n"
        f"    (Path({str(marks)!r}) / str(os.getpid())).touch()\n"
        "    time.sleep(0.2)\n"
        "if __name__ == '__main__':\n"
        "    list(on_cores(slow, range(1000), begin=int, given=(), workers=2))\n"
    )
    run = subprocess.Popen([sys.executable, str(script)])
    end = time.monotonic() + 60.0
    while len(list(marks.iterdir())) < 2 and time.monotonic() < end:
        time.sleep(0.05)
    workers = [int(mark.name) for mark in marks.iterdir()]
    assert len(workers) == 2
    run.kill()
    run.wait(timeout=30)
    while any(_alive(worker) for worker in workers) and time.monotonic() < end:
        time.sleep(0.05)
    assert not any(_alive(worker) for worker in workers)


def _alive(process: int) -> bool:
    """Whether a process is there and is no mere entry of the table any more."""
    try:
        state = Path(f"/proc/{process}/stat").read_text().rsplit(")", 1)[1].split()[0]
    except OSError:
        return False
    return state != "Z"
