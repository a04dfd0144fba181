"""A template that nobody has filled in is told from a file with somebody's own values."""

from pathlib import Path

import pytest
from assessment.test_stack import GENTLE, STACK
from builder import BASE
from commands._run import torqcheck

from torqcheck.assessment import assess
from torqcheck.assessment.lifetime.life import life
from torqcheck.assessment.order.write import order
from torqcheck.assessment.stack.judge import stack
from torqcheck.interview.template import template
from torqcheck.report.new_scenario import template_text
from torqcheck.scenario import Scenario, edits, scenario_from_text
from torqcheck.scenario.marked import EXAMPLE_MARK, marked_lines

FILE = Path("my.toml")


def _loaded(text: str) -> Scenario:
    return scenario_from_text(text.encode(), FILE)


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ('torque = "1 N*m"  # change', 1),
        ('torque = "1 N*m" #change  ', 1),
        ("share = 0.1  # change\r\nname = 'x'  # change\r\n", 2),
        ('# torque = "1 N*m"  # change', 0),
        ('notes = "see # change"', 0),
        ('torque = "1 N*m"  # change of 2026', 0),
        ('torque = "1 N*m"  # changed', 0),
        ("# ends with # change", 0),
        ("", 0),
    ],
)
def test_only_values_that_are_marked_count(text: str, count: int) -> None:
    assert marked_lines(text) == count


def test_an_untouched_template_gets_no_pass() -> None:
    text = template_text(template())
    mark = f"  {EXAMPLE_MARK}"
    count = text.count(f"{mark}\n")
    found = assess(_loaded(text))
    assert found.verdict == "undecided"
    assert [joint.verdict for joint in found.joints] == ["undecided"]
    said = [str(entry) for entry in found.undecided_by]
    assert said[0].startswith(
        f'the whole file: {count} lines still say "# change" (these values are examples'
    )
    filled = _loaded(text.replace(mark, ""))
    assert assess(filled).verdict == "pass"


def test_one_marked_line_is_enough() -> None:
    text = template_text(template()).replace(f"  {EXAMPLE_MARK}", "")
    assert text.count('"1.75 in"\n') == 1
    found = assess(_loaded(text.replace('"1.75 in"', '"1.75 in"  # change')))
    assert found.verdict == "undecided"
    assert '1 line still says "# change"' in str(found.undecided_by[0])
    assert "whole file" not in str(assess(_loaded(BASE)).undecided_by)


def test_the_marks_go_with_a_scenario_that_is_changed() -> None:
    scenario = _loaded(template_text(template()))
    assert scenario.example_lines > 30
    moved = edits.edited(scenario, {"motor.peak_torque": "100 N*m"})
    assert moved.example_lines == scenario.example_lines


def test_every_command_that_judges_says_it() -> None:
    text = template_text(template())
    scenario = _loaded(text)
    assert life(scenario).verdict == "undecided"
    assert "lines still say" in str(life(scenario).undecided_by[0])
    assert any("lines still say" in entry.text for entry in order(scenario).lacking)


def test_a_stack_of_examples_gets_no_pass() -> None:
    assert stack(_loaded(GENTLE + STACK)).check.verdict == "pass"
    found = stack(_loaded((GENTLE + STACK).replace("format = 1\n", "format = 1  # change\n", 1))).check
    assert found.verdict == "undecided"
    assert '1 line still says "# change"' in str(found.missing[-1])


@pytest.mark.parametrize("command", ["assess", "ramp", "life", "mate"])
def test_the_terminal_says_it_and_ends_with_3(tmp_path: Path, command: str) -> None:
    assert torqcheck("new", "t.toml", "--template", folder=tmp_path).returncode == 0
    ran = torqcheck(command, "t.toml", folder=tmp_path)
    assert "lines still say" in ran.stdout.replace("\n", " "), ran.stdout + ran.stderr
    assert ran.returncode == 3, ran.returncode
