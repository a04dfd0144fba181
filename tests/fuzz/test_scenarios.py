"""Damaged scenarios: a sound answer or a clear refusal, quickly, and never a defect.

``TORQCHECK_FUZZ=20000 pytest tests/fuzz`` tries so many in place of the usual number.
"""

import os
import shutil
import sys
from collections import Counter
from collections.abc import Iterable
from pathlib import Path

import pytest
from builder import EXAMPLES
from fuzz._asking import Answer, Hangs, ask, cases, once_assessed
from fuzz._scenario_cases import Case, damaged

SCENARIOS = EXAMPLES[0].parent
RECORDS = tuple(path.name for path in SCENARIOS.glob("*.csv"))
VERDICTS = {"pass": 0, "marginal": 0, "fail": 1, "undecided": 3}
USUAL = 300
IN_FULL = 12
"""Every so many sound cases one is assessed with all its ranges."""
SEED = int(os.environ.get("TORQCHECK_FUZZ_SEED", "20260314"))
LONGEST_LINE = 1000


def test_damaged_scenarios(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    counts: Counter[str] = Counter()
    failures: list[str] = []
    for record in RECORDS:
        shutil.copy(SCENARIOS / record, tmp_path)
    for number, case in enumerate(damaged(cases(USUAL), SEED)):
        file = tmp_path / "job.toml"
        file.write_bytes(case.content)
        whole = number % IN_FULL == 0
        problem = "\n".join(_problems(case, file, whole, counts))
        if problem:
            failures.append(f"{number} {case.example}: {case.damage[:300]}\n{problem}")
            _keep(case, number)
    if "TORQCHECK_FUZZ" in os.environ:
        with capsys.disabled():
            total = sum(counts.values())
            sys.stdout.write(f"\n{total} damaged scenarios: {dict(counts)}, {len(failures)} failures\n")
    assert not failures, "\n\n".join(failures)


def _problems(case: Case, file: Path, whole: bool, counts: Counter[str]) -> Iterable[str]:
    """What is wrong with the answers to one case."""
    with once_assessed(whole=whole) as seconds:
        try:
            answer = ask("assess", file, "--format", "json", seconds=seconds)
            if answer.code == 2:
                counts["refused"] += 1
                yield from _of_a_refusal(case, answer, file.name)
                return
            counts["assessed in full" if whole else "assessed"] += 1
            if case.refused_at is not None:
                yield f"was taken; should be refused at {case.refused_at}"
            yield from _of_an_assessment(answer)
            text = ask("assess", file, "--format", "text", seconds=seconds)
            if (text.code, text.err) != (answer.code, answer.err) or len(text.out) < 500:
                yield f"the text report differs: {text.code} {text.err[:300]}"
        except (Exception, Hangs) as error:  # noqa: BLE001  any defect is what is looked for
            counts["defects"] += 1
            yield f"{type(error).__name__}: {error} {_where(error)}"


def _of_a_refusal(case: Case, answer: Answer, name: str) -> Iterable[str]:
    lines = answer.err.splitlines()
    if answer.out or not lines:
        yield f"a refusal says what is wrong, and nothing else: {answer}"
    for line in lines:
        if not line.startswith((f"{name}: ", *RECORDS)) or len(line) > LONGEST_LINE or not line.isprintable():
            yield f"not one clear line: {line!r}"
    if case.refused_at and not any(line.startswith(f"{name}: {case.refused_at}: ") for line in lines):
        yield f"{case.refused_at} is not named: {lines}"


def _of_an_assessment(answer: Answer) -> Iterable[str]:
    if answer.code not in VERDICTS.values() or answer.err:
        yield f"ended with {answer.code}: {answer.err[:500]}"
    elif VERDICTS[answer.result["verdict"]] != answer.code:
        yield "exit code and verdict differ"


def _where(error: BaseException) -> str:
    """The innermost lines of the program on the way to an error."""
    places = []
    trace = error.__traceback__
    while trace is not None:
        places.append(f"{Path(trace.tb_frame.f_code.co_filename).name}:{trace.tb_lineno}")
        trace = trace.tb_next
    return " < ".join(reversed(places[-5:]))


def _keep(case: Case, number: int) -> None:
    """Keep a case that failed, where the user wants that."""
    folder = os.environ.get("TORQCHECK_FUZZ_KEEP")
    if folder:
        (Path(folder) / f"{number}_{case.example}.toml").write_bytes(case.content)
